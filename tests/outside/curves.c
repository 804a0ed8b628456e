/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Published boil-off curves (curves.csv) taken through the whole judgement: kerosenes must come out
 * as kerosene, diesels as diesel or heating oil, gasolines as gasoline; a curve that is known to
 * come out otherwise says why in the column 'known', and must still do so. No more measured flash
 * points may lie outside the 95 % bounds than chance lets them: the binomial count that one table
 * in twenty would pass. */

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>

#include "base/csv.h"
#include "base/diagnostic.h"
#include "base/file.h"
#include "base/memory.h"
#include "base/number.h"
#include "base/text.h"
#include "judgement/judgement.h"
#include "sample/sample.h"
#include "verdict/limits.h"

enum column { ID, WHAT, EXPECTED, DENSITY, FLASH, SOURCE, TRUST, KNOWN, CURVE, COLUMNS };
static const char *const heads[COLUMNS] = {
	"id", "what", "expected", "density15_kgm3", "flash_c", "source", "trust", "known", "curve"};

struct tally {
	int passed;
	int failed;
	int flashes; /* measured, on curves with IBP */
	int flashes_within;
};

static void report(struct tally *tally, bool ok, const char *name, const char *why)
{
	if (ok) {
		tally->passed++;
		printf("ok %s\n", name);
	} else {
		tally->failed++;
		printf("not ok %s: %s\n", name, why);
	}
}

/* "IBP:150 5:155.2 ..." as the sample file a person would have written. */
static void write_sample(const char *density, const char *curve, struct bc_text *text)
{
	bc_text_append(text, "history,rerun\napparatus,flask\nthermometer,glass d86\n");
	bc_text_append(text, "barometer,101.3 kPa\n");
	if (density[0] != '\0')
		bc_text_printf(text, "density,%s kg/m3\n", density);
	bc_text_append(text, "\nrecovered (%),head (C)\n");
	for (const char *c = curve; *c != '\0'; c++)
		bc_text_append_n(text, *c == ':' ? "," : *c == ' ' ? "\n" : c, 1);
	bc_text_append(text, "\n");
}

static bool is_expected(const char *expected, enum bc_grade_name grade)
{
	if (strcmp(expected, "diesel-or-heating") == 0)
		return grade == BC_GRADE_DIESEL || grade == BC_GRADE_HEATING_OIL;
	return strcmp(expected, bc_grade_texts[grade]) == 0;
}

static void check_grade(
	const struct bc_csv_row *row, const struct bc_judgement *judgement, struct tally *tally)
{
	const char *expected = row->fields[EXPECTED];
	const char *known = row->fields[KNOWN];
	if (strcmp(expected, "none") == 0)
		return;
	char why[300] = "no grade at all";
	bool met = false;
	if (judgement->verdict.grade != NULL) {
		enum bc_grade_name grade = judgement->verdict.grade->name;
		met = is_expected(expected, grade);
		snprintf(why, sizeof why, "expected %s, got %s (%s, %s)", expected,
			bc_grade_texts[grade], judgement->verdict.grade->standard,
			bc_word_text(judgement->verdict.word));
	}
	if (known[0] != '\0' && met)
		snprintf(
			why, sizeof why, "comes out as %s now: clear its column 'known'", expected);
	char name[120];
	snprintf(name, sizeof name, "%s grade", row->fields[ID]);
	report(tally, met == (known[0] == '\0'), name, why);
}

static void check_flash(
	const struct bc_csv_row *row, const struct bc_judgement *judgement, struct tally *tally)
{
	double measured;
	if (strstr(row->fields[CURVE], "IBP") == NULL ||
		!bc_number_parse(row->fields[FLASH], '.', &measured))
		return;
	const struct bc_estimate *flash = &judgement->oil.property[BC_FLASH];
	bool within = measured >= flash->low && measured <= flash->high;
	if (!within)
		printf("# %s: flash measured %g, estimated %.1f (%.1f..%.1f)\n", row->fields[ID],
			measured, flash->value, flash->low, flash->high);
	tally->flashes++;
	tally->flashes_within += within;
}

static void check_row(
	const struct bc_csv_row *row, const struct bc_limits *limits, struct tally *tally)
{
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	struct bc_text text;
	bc_text_init(&text);
	struct bc_sample *sample = NULL;
	struct bc_judgement judgement;
	bc_judgement_init(&judgement);

	write_sample(row->fields[DENSITY], row->fields[CURVE], &text);
	enum bc_status status = text.failed ? BC_NO_MEMORY
					    : bc_sample_read(text.data, text.length,
						      row->fields[ID], &diagnostics, &sample);
	if (status == BC_OK) {
		const struct bc_judge_options options = {.limits = limits, .want = BC_GRADES};
		status = bc_judge(sample, &options, &judgement);
	}
	if (status == BC_OK) {
		check_grade(row, &judgement, tally);
		check_flash(row, &judgement, tally);
	} else {
		const struct bc_diagnostic *error = bc_diagnostics_first_error(&diagnostics);
		report(tally, false, row->fields[ID],
			error != NULL ? error->text : bc_status_text(status));
	}
	bc_judgement_release(&judgement);
	bc_sample_free(sample);
	bc_text_release(&text);
	bc_diagnostics_release(&diagnostics);
}

static bool is_table(const struct bc_csv *csv)
{
	for (size_t r = 0; r < csv->n; r++)
		if (csv->rows[r].n != COLUMNS)
			return false;
	for (int c = 0; c < COLUMNS; c++)
		if (csv->n < 2 || strcmp(csv->rows[0].fields[c], heads[c]) != 0)
			return false;
	return true;
}

/* Whether all passed. */
static bool check_table(const struct bc_csv *csv, const struct bc_limits *limits)
{
	struct tally tally = {0};
	for (size_t r = 1; r < csv->n; r++)
		check_row(&csv->rows[r], limits, &tally);
	char why[100];
	snprintf(why, sizeof why, "%d of %d", tally.flashes_within, tally.flashes);
	unsigned missed = (unsigned)(tally.flashes - tally.flashes_within);
	bool by_chance =
		missed == 0 || gsl_cdf_binomial_Q(missed - 1, 0.05, (unsigned)tally.flashes) > 0.05;
	report(&tally, tally.flashes >= 20 && by_chance, "measured flash points within the bounds",
		why);
	printf("%d passed, %d failed\n", tally.passed, tally.failed);
	return tally.failed == 0;
}

int main(int argc, char **argv)
{
	const char *path = argc > 1 ? argv[1] : "tests/outside/curves.csv";
	char *bytes = NULL;
	size_t n = 0;
	struct bc_csv csv = {0};
	struct bc_limits *limits = NULL;
	bool good = false;
	gsl_set_error_handler_off();

	if (bc_file_read(path, BC_SAMPLE_LIMIT_BYTES, &bytes, &n, NULL) == BC_OK &&
		bc_csv_parse(bytes, n, ',', &csv, NULL) == BC_OK && is_table(&csv) &&
		bc_limits_default(NULL, &limits) == BC_OK) {
		good = check_table(&csv, limits);
	} else {
		printf("not ok curves: %s is not the table expected\n", path);
	}
	bc_limits_free(limits);
	bc_csv_release(&csv);
	bc_free(bytes);
	return good ? 0 : 1;
}
