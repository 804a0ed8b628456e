/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Holds two ways from a boil-off to slices against measured closed cups: Riazi-Daubert and the
 * inversion of the flask as a still, both with the same rule for the front end. inversion_study
 * FOLDER [PLATES], a folder with samples.csv and files of curves as curve_study takes them; PLATES
 * replaces the flask's effective plates. Counts a curve with IBP and flash whose T10 is within
 * Riazi-Daubert's range.
 */
#include <dirent.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>

#include "base/csv.h"
#include "base/memory.h"
#include "base/text.h"
#include "curve/boiloff.h"
#include "curve/points.h"
#include "fuel/density.h"
#include "fuel/flash.h"
#include "fuel/properties.h"
#include "still/flask.h"
#include "still/inversion.h"

#include "bench/measured_curves.h"

enum { ERRORS_MAX = 512, READINGS = BC_INVERSION_READINGS_MAX };

struct errors {
	const char *name;
	double value[ERRORS_MAX];
	double estimate[ERRORS_MAX];
	double measured[ERRORS_MAX];
	size_t n;
};

static struct errors correlation = {.name = "Riazi-Daubert"};
static struct errors inverted = {.name = "inversion"};
static struct errors apart = {.name = "inverted less Riazi-Daubert TBP at 10 30 50 70 90 %"};
static const double danger_c[] = {23.0, 38.0, 55.0};
enum { DANGERS = sizeof danger_c / sizeof danger_c[0] };

/* Percent readings of a boil-off, as they go into the inversion. */
struct readings {
	double pct[READINGS];
	double head_c[READINGS];
	size_t n;
	double ibp_c;
};

static struct bc_column flask;
static struct bc_inversion_work *work;

static void count_error(struct errors *errors, double estimate, double measured)
{
	if (errors->n == ERRORS_MAX || !isfinite(estimate))
		return;
	errors->estimate[errors->n] = estimate;
	errors->measured[errors->n] = measured;
	errors->value[errors->n++] = estimate - measured;
}

static void print_errors(const struct errors *errors)
{
	double sum = 0.0;
	double absolute = 0.0;
	double square = 0.0;
	double highest = -INFINITY;
	double lowest = INFINITY;
	for (size_t i = 0; i < errors->n; i++) {
		double e = errors->value[i];
		sum += e;
		absolute += fabs(e);
		square += e * e;
		highest = fmax(highest, e);
		lowest = fmin(lowest, e);
	}
	double n = (double)errors->n;
	printf("%-52s n %3zu  bias %+5.1f  mean |e| %4.1f  rms %4.1f  worst %+5.1f %+5.1f\n",
		errors->name, errors->n, sum / n, absolute / n, sqrt(square / n), highest, lowest);
}

static void print_dangers(const struct errors *errors)
{
	for (int d = 0; d < DANGERS; d++) {
		int below = 0;
		int called_safe = 0;
		for (size_t i = 0; i < errors->n; i++)
			if (errors->measured[i] < danger_c[d]) {
				below++;
				called_safe += errors->estimate[i] >= danger_c[d];
			}
		printf("%-14s below %.0f degC: %d measured, %d of them called safe\n", errors->name,
			danger_c[d], below, called_safe);
	}
}

static bool compute(
	const char *text, struct bc_oil *oil, struct bc_points *points, struct readings *readings)
{
	struct bc_sample *sample = NULL;
	struct bc_conditions conditions;
	struct bc_boiloff boiloff = {.n = 0};
	struct bc_strings assumed;
	struct bc_findings findings;
	struct bc_curve *curve = NULL;
	double pct[64];
	double temp_c[64];
	size_t n = 0;
	bool done = false;
	bc_strings_init(&assumed);
	bc_findings_init(&findings);
	if (bc_failed(bc_sample_read(text, strlen(text), "study", NULL, &sample)) ||
		bc_failed(bc_conditions_from_sample(sample, &conditions, &assumed)) ||
		bc_failed(
			bc_boiloff_from_sample(sample, &conditions, &boiloff, &assumed, &findings)))
		goto done;
	for (size_t i = 0; i < boiloff.n && n < 64; i++)
		if (boiloff.points[i].used &&
			(n == 0 || boiloff.points[i].recovered_pct > pct[n - 1])) {
			pct[n] = boiloff.points[i].recovered_pct;
			temp_c[n++] = boiloff.points[i].corrected_c;
		}
	if (bc_failed(bc_curve_new(pct, temp_c, n, &curve)))
		goto done;
	*readings = (struct readings){.ibp_c = NAN};
	for (size_t i = 0; i < n && readings->n < READINGS; i++) {
		if (pct[i] == 0.0)
			readings->ibp_c = temp_c[i];
		/* the last point is the FBP where there is one: never fitted */
		if (pct[i] > 0.0 && pct[i] <= 95.0) {
			readings->pct[readings->n] = pct[i];
			readings->head_c[readings->n++] = temp_c[i];
		}
	}
	struct bc_reader reader = {&boiloff, &conditions, curve, NULL};
	struct bc_fits fits = {.n = 0};
	bc_fit_all(pct + 1, temp_c + 1, n > 2 ? n - 2 : 0, &fits);
	reader.fit = fits.n > 0 && fits.items[0].status >= 0 ? &fits.items[0] : NULL;
	bc_points_read(&reader, points);
	done = !bc_failed(bc_oil_from_boiloff(
		sample, &conditions, &boiloff, &reader, points, oil, &assumed, &findings));
done:
	bc_curve_free(curve);
	bc_boiloff_release(&boiloff);
	bc_sample_free(sample);
	bc_findings_release(&findings);
	bc_strings_release(&assumed);
	return done;
}

static void study_one(
	const struct bc_csv *samples, size_t row, const struct bc_csv *curves, const char *id)
{
	static struct bc_oil oil;
	static struct bc_points points;
	static struct bc_inversion inversion;
	struct readings readings;
	double measured = number(cell(samples, row, "flash_c"));
	if (!isfinite(measured) || strstr(cell(samples, row, "note"), "record may mix sources"))
		return;
	char *text = sample_text(curves, id, cell(samples, row, "density15_kgm3"));
	bool computed = text && compute(text, &oil, &points, &readings);
	bc_free(text);
	if (!computed || !isfinite(points.at[BC_AT_IBP].value))
		return;
	struct bc_inversion_input input = {.apparatus = flask,
		.front = BC_FRONT_FLASK,
		.n = readings.n,
		.pct = readings.pct,
		.head_c = readings.head_c,
		.ibp_c = readings.ibp_c,
		.head_sigma_c = 1.0,
		.sg = bc_sg_from_density15(oil.property[BC_DENSITY15].value)};
	enum bc_status status = bc_invert(&input, work, &inversion);
	double flash_c = NAN;
	double correlated_c = NAN;
	if (!bc_failed(status))
		bc_flash_vapour_space_c(&inversion.slices, 101.325, &flash_c);
	bc_flash_vapour_space_c(&oil.slices, 101.325, &correlated_c);
	bool in_range = oil.tbp_status != BC_OUTSIDE_RANGE || points.at[BC_AT_T10].value < 305.0;
	printf("%-18s flash %5.1f  Riazi-Daubert %6.1f (%+5.1f)  inversion %6.1f (%+5.1f)  fit "
	       "%4.1f%s%s\n",
		id, measured, correlated_c, correlated_c - measured, flash_c, flash_c - measured,
		inversion.fit_rms_c, bc_failed(status) ? "  failed" : "",
		in_range ? "" : "  not counted");
	double most_c = 0.0;
	for (size_t i = 1; i < 6 && !bc_failed(status); i++) {
		double inverted_c = bc_tbp_curve_temp_c(&inversion.curve, bc_tbp_point_pct[i]);
		double apart_c = inverted_c - oil.tbp_c[i];
		if (fabs(apart_c) > fabs(most_c))
			most_c = apart_c;
		if (in_range)
			count_error(&apart, inverted_c, oil.tbp_c[i]);
	}
	if (fabs(most_c) > 10.0)
		printf("%-18s inverted and correlated true boiling points %+.1f degC apart\n", id,
			most_c);
	if (!in_range)
		return;
	count_error(&correlation, correlated_c, measured);
	count_error(&inverted, flash_c, measured);
}

static void study_file(const char *folder, const char *name, const struct bc_csv *samples)
{
	struct bc_csv curves = load(folder, name);
	if (curves.n > 1 && curves.rows[0].n == 4 &&
		strcmp(curves.rows[0].fields[0], "curve_id") == 0)
		for (size_t i = 1; i < curves.n; i++) {
			const char *id = curves.rows[i].fields[0];
			if (strcmp(id, curves.rows[i - 1].fields[0]) == 0)
				continue;
			for (size_t row = 1; row < samples->n; row++)
				if (strcmp(samples->rows[row].fields[0], id) == 0)
					study_one(samples, row, &curves, id);
		}
	bc_csv_release(&curves);
}

int main(int argc, char **argv)
{
	if (argc < 2 || argc > 3) {
		fprintf(stderr, "usage: inversion_study FOLDER [PLATES]\n");
		return EXIT_FAILURE;
	}
	gsl_set_error_handler_off();
	flask = bc_flask_column();
	if (argc == 3)
		flask.effective_plates = number(argv[2]);
	work = bc_inversion_work_new();
	struct bc_csv samples = load(argv[1], "samples.csv");
	DIR *folder = work && samples.n > 1 ? opendir(argv[1]) : NULL;
	if (!folder) {
		fprintf(stderr, "inversion_study: no samples.csv in %s\n", argv[1]);
		return EXIT_FAILURE;
	}
	for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder))
		if (strstr(entry->d_name, ".csv"))
			study_file(argv[1], entry->d_name, &samples);
	closedir(folder);
	bc_csv_release(&samples);
	bc_inversion_work_free(work);
	print_errors(&correlation);
	print_errors(&inverted);
	print_errors(&apart);
	print_dangers(&correlation);
	print_dangers(&inverted);
	return EXIT_SUCCESS;
}
