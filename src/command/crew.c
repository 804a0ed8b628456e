/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A few threads that do jobs ahead, and one that takes their results in order. */
#include "command/crew.h"

#include <pthread.h>
#include <unistd.h>

#include "base/memory.h"

#define WORKERS_MAX 16

struct slot {
	bool done;
	void *result;
};

struct shift {
	const struct bc_crew *crew;
	pthread_mutex_t lock;
	pthread_cond_t changed;
	size_t next;  /* job that nobody has begun */
	size_t taken; /* jobs taken up */
	bool stop;
	size_t n_slots; /* job i waits in slot i modulo n_slots */
	struct slot *slots;
};

static size_t workers_for(size_t jobs)
{
#ifdef BC_FAULTS
	return jobs > 0 ? 1 : 0; /* the n-th allocation is counted */
#else
	long cores = sysconf(_SC_NPROCESSORS_ONLN);
	size_t workers = cores > 1 ? (size_t)cores : 1;
	if (workers > WORKERS_MAX)
		workers = WORKERS_MAX;
	return workers < jobs ? workers : jobs;
#endif
}

static void *worker(void *context)
{
	struct shift *shift = context;
	pthread_mutex_lock(&shift->lock);
	for (;;) {
		while (!shift->stop && shift->next < shift->crew->jobs &&
			shift->next >= shift->taken + shift->n_slots)
			pthread_cond_wait(&shift->changed, &shift->lock);
		if (shift->stop || shift->next >= shift->crew->jobs)
			break;
		size_t job = shift->next++;
		pthread_mutex_unlock(&shift->lock);
		void *result = shift->crew->work(shift->crew->context, job);
		pthread_mutex_lock(&shift->lock);
		shift->slots[job % shift->n_slots] = (struct slot){true, result};
		pthread_cond_broadcast(&shift->changed);
	}
	pthread_mutex_unlock(&shift->lock);
	return NULL;
}

static void take_in_order(struct shift *shift)
{
	pthread_mutex_lock(&shift->lock);
	while (!shift->stop && shift->taken < shift->crew->jobs) {
		struct slot *slot = &shift->slots[shift->taken % shift->n_slots];
		while (!slot->done)
			pthread_cond_wait(&shift->changed, &shift->lock);
		void *result = slot->result;
		*slot = (struct slot){false, NULL};
		pthread_mutex_unlock(&shift->lock);
		bool on = shift->crew->take(shift->crew->context, shift->taken, result);
		pthread_mutex_lock(&shift->lock);
		shift->taken++;
		shift->stop = !on;
		pthread_cond_broadcast(&shift->changed);
	}
	pthread_mutex_unlock(&shift->lock);
}

static void run_alone(const struct bc_crew *crew)
{
	bool on = true;
	for (size_t job = 0; on && job < crew->jobs; job++)
		on = crew->take(crew->context, job, crew->work(crew->context, job));
}

enum bc_status bc_crew_run(const struct bc_crew *crew)
{
	struct shift shift = {.crew = crew};
	pthread_t threads[WORKERS_MAX];
	size_t wanted = workers_for(crew->jobs);
	size_t workers = 0;
	if (wanted < 2) {
		run_alone(crew);
		return BC_OK;
	}
	shift.n_slots = BC_CREW_AHEAD * wanted;
	shift.slots = bc_alloc_array(shift.n_slots, sizeof *shift.slots);
	if (!shift.slots)
		return BC_NO_MEMORY;
	pthread_mutex_init(&shift.lock, NULL);
	pthread_cond_init(&shift.changed, NULL);
	while (workers < wanted && pthread_create(&threads[workers], NULL, worker, &shift) == 0)
		workers++;
	if (workers > 0)
		take_in_order(&shift);
	else
		run_alone(crew);
	for (size_t i = 0; i < workers; i++)
		pthread_join(threads[i], NULL);
	for (size_t i = 0; i < shift.n_slots; i++)
		crew->discard(shift.slots[i].result);
	pthread_cond_destroy(&shift.changed);
	pthread_mutex_destroy(&shift.lock);
	bc_free(shift.slots);
	return BC_OK;
}
