/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The time, and in fault builds a time that a test has written down. */
#include "base/clock.h"

#include <time.h>

#ifdef BC_FAULTS

#include <stdbool.h>
#include <stdlib.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/number.h"

static bool written_down(struct bc_moment *moment)
{
	const size_t limit = 80;
	const char *path = getenv("BOILCUT_CLOCK");
	char *text = NULL;
	size_t n = 0;
	if (path == NULL || bc_failed(bc_file_read(path, limit, &text, &n, NULL)))
		return false;
	size_t taken = bc_number_prefix(text, '.', &moment->steady_s);
	bool read = taken > 0 && text[taken] == ' ' &&
		    bc_number_prefix(text + taken + 1, '.', &moment->wall_s) > 0;
	bc_free(text);
	return read;
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
