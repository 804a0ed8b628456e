/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The time, and in fault builds a time that a test has written down. */
#include "base/clock.h"

#include <time.h>

#ifdef BC_FAULTS

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/number.h"

static bool written_down(struct bc_moment *moment)
{
	char line[80];
	const char *path = getenv("BOILCUT_CLOCK");
	FILE *file = path != NULL ? fopen(path, "r") : NULL;
	bool read = file != NULL && fgets(line, sizeof line, file) != NULL;
	if (file != NULL)
		fclose(file);
	if (!read)
		return false;
	size_t n = bc_number_prefix(line, '.', &moment->steady_s);
	return n > 0 && line[n] == ' ' && bc_number_prefix(line + n + 1, '.', &moment->wall_s) > 0;
}

#endif

static double seconds(clockid_t id)
{
	struct timespec time = {0};
	clock_gettime(id, &time);
	return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

struct bc_moment bc_clock_now(void)
{
	struct bc_moment moment = {0};
#ifdef BC_FAULTS
	if (written_down(&moment))
		return moment;
#endif
	moment.steady_s = seconds(CLOCK_MONOTONIC);
	moment.wall_s = seconds(CLOCK_REALTIME);
	return moment;
}
