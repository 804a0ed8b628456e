/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_CLOCK_H
#define BC_BASE_CLOCK_H

/* A moment on two clocks: one that only runs forward and stops with the computer, and the one on
 * the wall, which is set and may jump [s]. */
struct bc_moment {
	double steady_s;
	double wall_s; /* since 1970 */
};

/* Now. In builds with -DBC_FAULTS the environment variable BOILCUT_CLOCK may name a file that holds
 * both numbers instead. */
struct bc_moment bc_clock_now(void);

#endif
