/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Takes measured curves through the rooms up to fuel/ and holds the estimates against what was
 * measured: curve_study FOLDER, a folder with samples.csv and files of curves in the columns
 * curve_id,percent,temp_c,kind. Prints a line for each curve and the error figures of flash (each
 * route), density, viscosity. Curves count when they are of the D86 kind: IBP, recovered, FBP, or
 * "distilled-volume", of which 1 and 99 % stand for IBP and FBP.
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
#include "fuel/properties.h"

#include "bench/measured_curves.h"

enum { ERRORS_MAX = 512 };

struct errors {
	const char *name;
	double value[ERRORS_MAX];
	bool inside[ERRORS_MAX];
	size_t n;
};

static struct errors flash_ruling = {.name = "flash, vapour space"};
static struct errors flash_t10 = {.name = "flash, T10 route"};
static struct errors density_curve = {.name = "density from the curve"};
static struct errors visc_percent = {.name = "viscosity at 40, % of measured"};
static const double danger_c[] = {23.0, 38.0, 55.0};
enum { DANGERS = sizeof danger_c / sizeof danger_c[0] };
static struct {
	int unsafe, unsafe_low_above, unsafe_value_above, safe, safe_cleared;
} danger[DANGERS];

static void count_error(
	struct errors *errors, const struct bc_estimate *estimate, double measured, double error)
{
	if (errors->n == ERRORS_MAX || !isfinite(error))
		return;
	errors->inside[errors->n] = estimate->low <= measured && measured <= estimate->high;
	errors->value[errors->n++] = error;
}

static void print_errors(const struct errors *errors)
{
	double sum = 0.0;
	double absolute = 0.0;
	double square = 0.0;
	double highest = -INFINITY;
	double lowest = INFINITY;
	size_t inside = 0;
	for (size_t i = 0; i < errors->n; i++) {
		double e = errors->value[i];
		sum += e;
		absolute += fabs(e);
		square += e * e;
		highest = fmax(highest, e);
		lowest = fmin(lowest, e);
		inside += errors->inside[i];
	}
	double n = (double)errors->n;
	printf("%-32s n %3zu  bias %+6.1f  mean |e| %5.1f  rms %5.1f  worst %+6.1f %+6.1f  "
	       "inside bounds %zu\n",
		errors->name, errors->n, sum / n, absolute / n, sqrt(square / n), highest, lowest,
		inside);
}

static void count_danger(const struct bc_estimate *flash, double measured)
{
	for (int i = 0; i < DANGERS; i++) {
		bool unsafe = measured < danger_c[i];
		bool cleared = flash->low >= danger_c[i];
		danger[i].unsafe += unsafe;
		danger[i].safe += !unsafe;
		danger[i].unsafe_low_above += unsafe && cleared;
		danger[i].unsafe_value_above += unsafe && flash->value >= danger_c[i];
		danger[i].safe_cleared += !unsafe && cleared;
	}
}

static bool compute(const char *text, struct bc_oil *oil, struct bc_points *points)
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

static void study_flash(
	const char *id, const struct bc_oil *oil, const struct bc_points *points, double measured)
{
	const struct bc_estimate *ruling = &oil->property[BC_FLASH];
	const struct bc_estimate *t10 = &oil->property[BC_FLASH_T10];
	bool in_range = oil->tbp_status != BC_OUTSIDE_RANGE ||
			points->at[BC_AT_T10].value < 305.0; /* Riazi-Daubert's own 10 % range */
	printf("%-18s flash %5.1f  vapour %6.1f (%+5.1f)  low %6.1f  high %6.1f  T10 route %6.1f "
	       "(%+5.1f)%s\n",
		id, measured, ruling->value, ruling->value - measured, ruling->low, ruling->high,
		t10->value, t10->value - measured,
		!in_range ? "  outside the range at 10 %: not counted" : "");
	if (!in_range)
		return;
	count_error(&flash_ruling, ruling, measured, ruling->value - measured);
	count_error(&flash_t10, t10, measured, t10->value - measured);
	count_danger(ruling, measured);
}

static void study_one(
	const struct bc_csv *samples, size_t row, const struct bc_csv *curves, const char *id)
{
	static struct bc_oil oil;
	static struct bc_points points;
	const char *density = cell(samples, row, "density15_kgm3");
	double flash = number(cell(samples, row, "flash_c"));
	double visc = number(cell(samples, row, "visc40_mm2s"));
	if (strstr(cell(samples, row, "note"), "record may mix sources")) {
		printf("%-18s left out: its record may mix sources\n", id);
		return;
	}
	char *text = sample_text(curves, id, density);
	char *bare = sample_text(curves, id, "");
	bool computed = text && compute(text, &oil, &points);
	if (text && !computed)
		printf("%-18s left out: not a sample that is read or computed\n", id);
	if (computed) {
		if (isfinite(flash) && isfinite(points.at[BC_AT_IBP].value))
			study_flash(id, &oil, &points, flash);
		const struct bc_estimate *estimate = &oil.property[BC_VISC40];
		if (isfinite(visc)) {
			printf("%-18s viscosity %.2f  estimated %.2f\n", id, visc, estimate->value);
			count_error(&visc_percent, estimate, visc,
				100.0 * (estimate->value / visc - 1.0));
		}
	}
	if (bare && density[0] != '\0' && compute(bare, &oil, &points)) {
		const struct bc_estimate *estimate = &oil.property[BC_DENSITY15];
		printf("%-18s density %.1f  from the curve %.1f (%+.1f)\n", id, number(density),
			estimate->value, estimate->value - number(density));
		count_error(&density_curve, estimate, number(density),
			estimate->value - number(density));
	}
	bc_free(text);
	bc_free(bare);
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
	if (argc != 2) {
		fprintf(stderr, "usage: curve_study FOLDER\n");
		return EXIT_FAILURE;
	}
	gsl_set_error_handler_off();
	struct bc_csv samples = load(argv[1], "samples.csv");
	DIR *folder = samples.n > 1 ? opendir(argv[1]) : NULL;
	if (!folder) {
		fprintf(stderr, "curve_study: no samples.csv in %s\n", argv[1]);
		return EXIT_FAILURE;
	}
	for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder))
		if (strstr(entry->d_name, ".csv"))
			study_file(argv[1], entry->d_name, &samples);
	closedir(folder);
	bc_csv_release(&samples);
	print_errors(&flash_ruling);
	print_errors(&flash_t10);
	print_errors(&density_curve);
	print_errors(&visc_percent);
	for (int i = 0; i < DANGERS; i++)
		printf("below %.0f degC: %d measured, %d with the value above, %d with the low "
		       "bound above; of %d at or above it %d are cleared by the low bound\n",
			danger_c[i], danger[i].unsafe, danger[i].unsafe_value_above,
			danger[i].unsafe_low_above, danger[i].safe, danger[i].safe_cleared);
	return EXIT_SUCCESS;
}
