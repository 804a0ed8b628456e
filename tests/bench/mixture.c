/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The flask and the vapour pressure over mixtures of known components, for scripts that hold them
 * against measurements. Reads lines from stdin: "part BOILING_K SG VOLUME" a component, "over PCT"
 * a percent distilled, "at TEMP_C" a temperature, "end" closes a mixture. Answers each "over" with
 * the corrected head temperature [degC] and each "at" with the vapour pressure [kPa], a line each,
 * in the order over, at; "end" closes the answer.
 */
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>

#include "base/units.h"
#include "still/flask.h"

enum { ASKED_MAX = 64 };

struct mixture {
	double boiling_k[BC_SLICES_MAX], sg[BC_SLICES_MAX], volume[BC_SLICES_MAX];
	double over_pct[ASKED_MAX], at_c[ASKED_MAX];
	size_t parts, over, at;
};

static double vapour_kpa(const struct bc_slices *slices, double temp_c)
{
	double sum_bar = 0.0;
	for (size_t i = 0; i < slices->n; i++)
		sum_bar += slices->items[i].mole_frac *
			   bc_slice_vapour_bar(&slices->items[i], bc_temp_k_from_c(temp_c));
	return 100.0 * sum_bar;
}

static void answer(const struct mixture *mixture, struct bc_still_work *work, struct bc_run *run)
{
	struct bc_slices slices;
	struct bc_column flask = bc_flask_column();
	double corrected_c[ASKED_MAX];
	enum bc_status status = bc_slices_from_components(
		mixture->boiling_k, mixture->sg, mixture->volume, mixture->parts, &slices);
	if (!bc_failed(status) && mixture->over > 0)
		status = bc_simulated_boiloff(
			&slices, &flask, mixture->over_pct, mixture->over, corrected_c, work, run);
	for (size_t i = 0; i < mixture->over; i++)
		printf("%.6g\n", bc_failed(status) ? (double)NAN : corrected_c[i]);
	for (size_t i = 0; i < mixture->at; i++)
		printf("%.9g\n", vapour_kpa(&slices, mixture->at_c[i]));
	puts("end");
}

/* False when the line is none of ours or there is no room. */
static bool take(const char *line, struct mixture *mixture)
{
	size_t n = mixture->parts;
	if (n < BC_SLICES_MAX && sscanf(line, "part %lf %lf %lf", &mixture->boiling_k[n],
					 &mixture->sg[n], &mixture->volume[n]) == 3)
		mixture->parts++;
	else if (mixture->over < ASKED_MAX &&
		 sscanf(line, "over %lf", &mixture->over_pct[mixture->over]) == 1)
		mixture->over++;
	else if (mixture->at < ASKED_MAX &&
		 sscanf(line, "at %lf", &mixture->at_c[mixture->at]) == 1)
		mixture->at++;
	else
		return false;
	return true;
}

int main(void)
{
	char line[256];
	static struct mixture mixture;
	struct bc_still_work *work = bc_still_work_new();
	struct bc_run *run = bc_run_new();
	int result = work && run ? EXIT_SUCCESS : EXIT_FAILURE;
	gsl_set_error_handler_off();
	while (result == EXIT_SUCCESS && fgets(line, sizeof line, stdin)) {
		if (strncmp(line, "end", 3) == 0) {
			answer(&mixture, work, run);
			mixture = (struct mixture){.parts = 0};
		} else if (!take(line, &mixture)) {
			fprintf(stderr, "mixture: cannot take: %s", line);
			result = EXIT_FAILURE;
		}
	}
	bc_run_free(run);
	bc_still_work_free(work);
	return result;
}
