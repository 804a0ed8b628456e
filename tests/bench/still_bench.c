/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a run of the still and an inversion take: still_bench prints milliseconds, the best of
 * many. One core, 40 slices, 102 nodes, the K table included. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <gsl/gsl_errno.h>

#include "still/flask.h"
#include "still/inversion.h"

enum { TRIES = 30 };

static double now_ms(void)
{
	struct timespec t;
	clock_gettime(CLOCK_MONOTONIC, &t);
	return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

static const double d86_c[] = {80, 125, 190, 250, 305, 350, 368};

static void time_runs(struct bc_still_work *work, struct bc_run *run)
{
	static const struct bc_column stills[] = {{1, 0, NAN, 101.325}, {2, 1, NAN, 101.325},
		{3, 2, NAN, 101.325}, {5, 2, NAN, 101.325}, {10, 5, NAN, 101.325},
		{20, 5, NAN, 101.325}, {30, 5, NAN, 101.325}, {30, INFINITY, NAN, 101.325},
		{NAN, NAN, 1.75, 101.325}};
	struct bc_run_options options = {0.98, INFINITY, BC_STEPS_NORMAL, 0.0};
	double tbp_c[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	bc_tbp_points_from_d86(d86_c, tbp_c);
	bc_tbp_curve_from_points(bc_tbp_point_pct, tbp_c, BC_TBP_POINTS, false, &curve);
	bc_slices_from_tbp(&curve, 0.82, 40, 0.0, 95.0, &slices);
	for (size_t s = 0; s < sizeof stills / sizeof stills[0]; s++) {
		double best = INFINITY;
		enum bc_status status = BC_OK;
		for (int i = 0; i < TRIES; i++) {
			double start = now_ms();
			status = bc_column_run(&slices, &stills[s], &options, work, run);
			best = fmin(best, now_ms() - start);
		}
		printf("stages %4g  reflux %4g  effective plates %4g  %7.2f ms%s\n",
			stills[s].stages, stills[s].reflux, stills[s].effective_plates, best,
			bc_failed(status) ? "  failed" : "");
	}
}

static void time_inversion(struct bc_inversion_work *work)
{
	static struct bc_inversion inversion;
	static const double pct[] = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95};
	static const double head_c[] = {104, 125, 158, 190, 221, 250, 278, 305, 328, 350, 368};
	const struct bc_column stills[] = {
		bc_flask_column(), {2, 1, NAN, 101.325}, {5, 2, NAN, 101.325}};
	for (int s = 0; s < 3; s++) {
		struct bc_inversion_input input = {.apparatus = stills[s],
			.front = BC_FRONT_FLASK,
			.n = 11,
			.pct = pct,
			.head_c = head_c,
			.ibp_c = 80.0,
			.head_sigma_c = 1.0,
			.sg = 0.82};
		double best = INFINITY;
		for (int i = 0; i < TRIES; i++) {
			double start = now_ms();
			bc_invert(&input, work, &inversion);
			best = fmin(best, now_ms() - start);
		}
		printf("inversion, still %d: %d rounds, fit %.2f degC, %.1f ms\n", s + 1,
			inversion.rounds, inversion.fit_rms_c, best);
	}
}

int main(void)
{
	gsl_set_error_handler_off();
	struct bc_still_work *work = bc_still_work_new();
	struct bc_run *run = bc_run_new();
	struct bc_inversion_work *inversion_work = bc_inversion_work_new();
	if (work && run && inversion_work) {
		time_runs(work, run);
		time_inversion(inversion_work);
	}
	bc_still_work_free(work);
	bc_run_free(run);
	bc_inversion_work_free(inversion_work);
	return EXIT_SUCCESS;
}
