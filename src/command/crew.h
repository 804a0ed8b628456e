/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_CREW_H
#define BC_COMMAND_CREW_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"

/*
 * Jobs done on every core, their results taken up in order by the caller's own thread, so that what
 * is printed does not depend on how many there are. At most BC_CREW_AHEAD results wait for each
 * worker: memory stays flat however many jobs there are.
 */
enum { BC_CREW_AHEAD = 2 };

struct bc_crew {
	size_t jobs;
	void *(*work)(void *context, size_t job); /* on any thread; may return NULL */
	/* On the caller's thread, in order; false: stop. It owns result. */
	bool (*take)(void *context, size_t job, void *result);
	void (*discard)(void *result); /* one that is not taken any more; NULL-safe */
	void *context;
};

/* As many workers as cores, and one alone (the caller's thread) for a single job, where no thread
 * can be had, and where faults are played. BC_OK or BC_NO_MEMORY. */
enum bc_status bc_crew_run(const struct bc_crew *crew);

#endif
