/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the curve implies: shares by boiling range and properties with their bounds. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "judgement/inverted.h"
#include "report/page.h"
#include "report/way_basis.h"
#include "sample/keys.h"
#include "verdict/phrase.h"

const char *bc_measured_unit(const struct bc_measured *measured)
{
	for (size_t i = 0; i < bc_n_keys; i++) {
		const struct bc_key *key = &bc_keys[i];
		if (key->property == NULL || strcmp(key->property, measured->property) != 0)
			continue;
		return key->quantity == BC_QUANTITY_TEMPERATURE ? "degC" : key->unit;
	}
	return "";
}

#define BAR 22 /* columns for 100 % */

void bc_page_shares(struct bc_page *page, const struct bc_judgement *judgement)
{
	bc_page_heading(page, "Shares by boiling range", "% of the charge by volume, 95 % bounds");
	bc_page_table(page, "", "range|%|95 %");
	for (size_t i = 0; i < BC_SHARES; i++) {
		const struct bc_estimate *share = &judgement->shares.pct[i];
		bc_page_row(page, 2);
		bc_page_cell(page, bc_share_names[i], 33);
		bc_page_number(page, share->value, 1, 6);
		bc_page_gap(page, 2);
		double bar = share->value > 0.0 ? share->value * BAR / 100.0 : 0.0;
		size_t n = (size_t)lround(bar);
		bool drawn = n > 0;
		bc_page_span(page, share->low, share->high, 1, drawn ? 14 : 0);
		bc_page_gap(page, drawn ? 1 : 0);
		bc_page_repeat(page, '=', n);
		bc_page_row_end(page);
	}
	bc_page_table_end(page);
}

/* Whether a formula that gave it has no check value from print. */
static bool is_unchecked(const struct bc_oil *oil, size_t i)
{
	const struct bc_estimate *property = &oil->property[i];
	if (!bc_estimate_present(property) || property->how == BC_MEASURED)
		return false;
	for (const char *const *id = bc_property_formulae[i]; *id != NULL; id++)
		if (bc_formula_unchecked(*id))
			return true;
	return false;
}

/* Returns whether it carries the mark of the footnote. */
static bool property_row(struct bc_page *page, const struct bc_oil *oil, size_t i)
{
	const struct bc_estimate *property = &oil->property[i];
	const char *how = bc_how_text(property->how);
	int decimals = bc_page_decimals(property->value, bc_property_units[i]);
	bc_page_row(page, 2);
	bc_page_cell(page, bc_property_names[i], 32);
	if (how == NULL) {
		bc_page_printf(page, "%9s", "-");
		bc_page_printf(page, "  unknown");
		bc_page_row_end(page);
		return false;
	}
	bc_page_number(page, property->value, decimals, 9);
	bc_page_gap(page, 1);
	bc_page_cell(page, bc_property_units[i], 7);
	bc_page_span(page, property->low, property->high, decimals, 17);
	bool marked = is_unchecked(oil, i);
	bc_page_printf(page, " %s%s", how, marked ? " *" : "");
	bc_page_row_end(page);
	return marked;
}

static void flash_lines(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_oil *oil = &judgement->oil;
	struct bc_text line;
	bc_text_init(&line);
	if (!oil->flash_claim)
		bc_text_printf(&line,
			"No lower bound is claimed for the flash%s%s: count on petrol until a "
			"closed cup says otherwise. ",
			oil->no_claim_why != NULL ? ": " : "",
			oil->no_claim_why != NULL ? oil->no_claim_why : "");
	if (judgement->learned.pairs > 0)
		bc_text_printf(&line,
			"Your own %zu cups moved the flash estimate by %+.1f degC; it is good to "
			"+-%.0f degC. ",
			judgement->learned.pairs, judgement->learned.offset_c,
			judgement->learned.half_width_c);
	if (bc_page_site_flash(judgement)) {
		bc_text_printf(&line,
			"Flash refers to 101.3 kPa; at the %.1f kPa of this site the same oil "
			"flashes near %.0f degC",
			judgement->conditions.pressure_kpa, oil->flash_at_site_c);
		if (oil->flash_claim && !isnan(oil->flash_low_at_site_c))
			bc_text_printf(
				&line, ", low bound %.0f degC", floor(oil->flash_low_at_site_c));
		bc_text_append(&line, ".");
	}
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, NULL, 2);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

static void true_points(const double temp_c[BC_TBP_POINTS], struct bc_text *line)
{
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		double pct = bc_tbp_point_pct[i];
		if (pct < 10.0 || pct > 90.0)
			continue;
		if (isnan(temp_c[i]))
			bc_text_append(line, " -");
		else
			bc_text_printf(line, " %.0f", temp_c[i]);
	}
}

/* What the properties rest on, and the other way to it. */
static void inversion_lines(struct bc_page *page, const struct bc_judgement *judgement)
{
	double inverted_c[BC_TBP_POINTS];
	struct bc_text line;
	if (judgement->inversion == NULL)
		return;
	for (size_t i = 0; i < BC_TBP_POINTS; i++)
		inverted_c[i] = bc_inverted_c(judgement, bc_tbp_point_pct[i]);
	bc_text_init(&line);
	bc_text_append(&line, "True boiling points at 10 30 50 70 90 %, degC:");
	if (!judgement->by_inversion) {
		true_points(judgement->oil.tbp_c, &line);
		bc_text_append(&line, " by conversion, which the above rests on;");
	}
	true_points(inverted_c, &line);
	bc_text_append(&line, judgement->by_inversion
				      ? " by inversion of the still that made this boil-off, which "
					"the above rests on."
				      : " by inversion of the flask as a still.");
	if (line.data != NULL)
		bc_page_paragraph(page, line.data, NULL, 2);
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

void bc_page_properties(struct bc_page *page, const struct bc_judgement *judgement)
{
	bc_page_heading(
		page, "Properties", "95 % bounds; estimates come from the curve and density");
	const struct bc_grade *grade = judgement->verdict.grade;
	bool petrol = grade != NULL && grade->name == BC_GRADE_GASOLINE;
	bool marked = false;
	bc_page_table(page, "", "property|value|unit|95 %|how");
	for (size_t i = 0; i < BC_PROPERTIES_REPORTED; i++) {
		/* for motor petrol alone */
		if (i != BC_DRIVEABILITY_INDEX || petrol)
			marked |= property_row(page, &judgement->oil, i);
	}
	bc_page_table_end(page);
	if (marked)
		bc_page_paragraph(page,
			"no value in print was found to check this formula; 'boilcut formula "
			"show' tells its source.",
			"  * ", 4);
	flash_lines(page, judgement);
	inversion_lines(page, judgement);
}

/* "copper strip  1a", "flash point  61 degC  open cup: ...". */
static void measured_row(struct bc_page *page, const struct bc_measured *measured)
{
	char name[BC_PHRASE_SIZE];
	struct bc_text value;
	const char *unit = bc_measured_unit(measured);
	bc_limit_property_text(measured->property, name, sizeof name);
	char *at = isnan(measured->temp_c) ? NULL : strstr(name, " at ");
	if (at != NULL)
		*at = '\0'; /* the file names its own temperature */
	bc_text_init(&value);
	bc_text_printf(&value, "%.6g", measured->value);
	if (measured->rating != '\0')
		bc_text_printf(&value, "%c", measured->rating);
	bc_text_printf(&value, "%s%s", unit[0] != '\0' ? " " : "", unit);
	if (!isnan(measured->temp_c))
		bc_text_printf(&value, " at %.6g degC", measured->temp_c);
	if (measured->open_cup)
		bc_text_append(&value, ", open cup: replaces no estimate");
	bc_page_row(page, 2);
	bc_page_cell(page, name, 32);
	bc_page_gap(page, 1);
	bc_page_cell(page, value.data != NULL ? value.data : "", 0);
	bc_page_row_end(page);
	page->text->failed = page->text->failed || value.failed;
	bc_text_release(&value);
}

void bc_page_measured(struct bc_page *page, const struct bc_judgement *judgement)
{
	const struct bc_sample *sample = judgement->sample;
	if (sample->n_measured == 0)
		return;
	bc_page_heading(page, "Measured elsewhere", "as the file has it");
	bc_page_table(page, "", "property|as written");
	for (size_t i = 0; i < sample->n_measured; i++)
		measured_row(page, &sample->measured[i]);
	bc_page_table_end(page);
	const struct bc_grade *grade = judgement->verdict.grade;
	for (size_t i = 0; grade != NULL && i < grade->measured_unlimited.n; i++) {
		bc_page_paragraph(page, grade->measured_unlimited.items[i],
			i == 0 ? "  no limit here: " : NULL, 17);
	}
}
