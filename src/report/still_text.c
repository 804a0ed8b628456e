/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a still is worth, as a page. */
#include "report/still.h"

#include <math.h>

#include "report/page.h"
#include "report/tap_page.h"

#define SIGMAS_95 1.96

void bc_still_in_words(const struct bc_still *still, struct bc_text *line)
{
	const struct bc_column *column = &still->column;
	if (!isnan(column->effective_plates)) {
		bc_text_printf(line, "%.3g effective plates", column->effective_plates);
		if (still->plates_high > 0.0)
			bc_text_printf(
				line, " (%.3g to %.3g)", still->plates_low, still->plates_high);
	} else {
		double above = column->stages - 1.0;
		bc_text_printf(line, "%.0f plate%s + pot", above, above == 1.0 ? "" : "s");
		if (above > 0.0 && isinf(column->reflux))
			bc_text_append(line, ", total reflux");
		else if (above > 0.0)
			bc_text_printf(line, ", reflux %.3g", column->reflux);
	}
	bc_text_printf(line, ", %s", bc_still_source_texts[still->source]);
}

static void put_line(struct bc_page *page, struct bc_text *line, enum bc_ink ink)
{
	bc_page_ink(page, ink);
	bc_tap_paragraph(page, line, "", 0);
	bc_page_ink_off(page);
}

static void saved_words(
	struct bc_page *page, const struct bc_still_record *record, const char *saved)
{
	struct bc_text line;
	if (saved == NULL)
		return;
	bc_text_init(&line);
	bc_text_append(page->text, "\n");
	bc_text_printf(&line,
		"Kept in %s; use it with 'boilcut tap --still \"%s\"' or the key "
		"'still' of a sample.",
		saved, record->still.name);
	bc_tap_paragraph(page, &line, "", 0);
}

/* ---- calibrated */

static void carry_words(const struct bc_still_told *told, struct bc_text *line)
{
	const struct bc_plates_estimate *all = &told->all;
	double half = SIGMAS_95 * all->carry_sigma_pct;
	bool any = false;
	for (size_t i = 0; i < told->n_runs; i++)
		any = any || told->runs[i]->carry_told;
	if (any)
		bc_text_printf(line,
			"About %.1f %% of the charge (%.1f to %.1f) is carried over past the tap.",
			all->carry_pct, fmax(all->carry_pct - half, 0.0), all->carry_pct + half);
	else
		bc_text_printf(line,
			"This says nothing new of what is carried over past the tap: %.1f %% of "
			"the charge stands, as for any small still.",
			all->carry_pct);
}

static void light_words(const struct bc_still_told *told, struct bc_text *line)
{
	for (size_t i = 0; i < told->n_runs; i++) {
		double light = told->runs[i]->answer.fit.light_ends_pct;
		if (isnan(light))
			continue;
		bc_text_printf(line,
			" The product keeps %.1f %% of light ends that a perfect cut at the same "
			"volume would have left in the light jar.",
			light);
		return;
	}
}

static void unknown_words(const struct bc_still_told *told, struct bc_text *line)
{
	const struct bc_plates_estimate *all = &told->all;
	bc_text_append(line, "This does not tell what your still is worth: ");
	if (told->runs[0]->answer.fit.at_bound)
		bc_text_append(line, "no number of plates explains it. See that the two boil-offs "
				     "belong together and that the cut is the one that was made.");
	else
		bc_text_printf(line,
			"%.1f plates explain it best, but anything from %.1f to %.3g does nearly as "
			"well. Cut where more is over, read more often, or calibrate with a known "
			"blend.",
			fmax(all->plates, 1.0), bc_plates_low(all), bc_plates_high(all));
}

static void answer_words(struct bc_page *page, const struct bc_still_told *told)
{
	struct bc_text line;
	struct bc_text more;
	bc_text_init(&line);
	bc_text_init(&more);
	if (!told->known) {
		unknown_words(told, &line);
		put_line(page, &line, BC_INK_DOUBT);
		return;
	}
	bc_text_printf(&line, "Your still is worth %.1f effective plates (%.1f to %.1f).",
		fmax(told->all.plates, 1.0), bc_plates_low(&told->all), bc_plates_high(&told->all));
	put_line(page, &line, BC_INK_STRONG);
	carry_words(told, &more);
	light_words(told, &more);
	bc_text_append(&more, " The bare pot is worth 1; a boil-off flask 1.75.");
	bc_tap_paragraph(page, &more, "", 0);
}

/* A reading less what was predicted, as a place between -5 and +5 degC. */
static void mark(struct bc_page *page, double apart_c)
{
	enum { HALF = 10 };
	const double per_c = 2.0;
	int at = (int)lround(fmin(fmax(per_c * apart_c, -HALF), HALF)) + HALF;
	for (int i = 0; i <= 2 * HALF; i++) {
		char c = i == HALF ? '|' : '.';
		bc_page_printf(page, "%c", i == at ? '*' : c);
	}
}

static void table(struct bc_page *page, const char *heading,
	const struct bc_calibration_curve *curve, const double *predicted_c)
{
	if (curve->n == 0)
		return;
	bc_page_heading(page, heading, "degC corrected, at 101.3 kPa");
	bc_page_printf(page, "  %% over     read  predicted    less   -5 degC   0    +5 degC\n");
	for (size_t i = 0; i < curve->n; i++) {
		double apart_c = curve->head_c[i] - predicted_c[i];
		bc_page_printf(page, "  %6.1f  %7.1f    %7.1f  %+6.1f   ", curve->pct[i],
			curve->head_c[i], predicted_c[i], apart_c);
		mark(page, apart_c);
		bc_page_printf(page, "\n");
	}
}

static void run_words(struct bc_page *page, const struct bc_calibrating *run)
{
	const struct bc_plates_estimate *e = &run->answer.estimate;
	const struct bc_calibration_fit *fit = &run->answer.fit;
	struct bc_text line;
	bc_text_init(&line);
	bc_text_append(page->text, "\n");
	bc_text_printf(&line, "%s, then %s: %.2f effective plates (%.1f to %.3g)", run->kept.before,
		run->kept.after, fmax(e->plates, 1.0), bc_plates_low(e), bc_plates_high(e));
	if (!run->known)
		bc_text_append(&line, ", which is too wide to be of use");
	if (run->pair.run.product.n > 0)
		bc_text_printf(&line, ". The product is what came over from %.1f to %.1f %%",
			100.0 * fit->from_frac, 100.0 * fit->to_frac);
	bc_text_printf(&line, ". Readings lie %.1f degC from the prediction.", fit->rms_c);
	bc_tap_paragraph(page, &line, "", 0);
}

enum bc_status bc_report_still_told(
	const struct bc_still_told *told, const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	answer_words(&page, told);
	for (size_t i = 0; i < told->n_runs; i++)
		bc_page_list(&page, "Mind", NULL, &told->runs[i]->cautions);
	for (size_t i = 0; i < told->n_runs; i++) {
		const struct bc_calibrating *run = told->runs[i];
		run_words(&page, run);
		table(&page, "Product, read and predicted", &run->pair.run.product,
			run->answer.fit.product_c);
		table(&page, "Head of the run, read and predicted", &run->pair.run.heads,
			run->answer.fit.heads_c);
	}
	if (told->known && told->record->n_pairs > told->n_runs)
		bc_page_printf(&page, "\nWith what was kept earlier: %zu runs in all.\n",
			told->record->n_pairs);
	for (size_t i = 0; i < told->n_runs; i++)
		bc_page_list(&page, "Assumed", NULL, &told->runs[i]->assumed);
	if (!told->known)
		bc_page_printf(&page, "\nNothing was kept.\n");
	else
		saved_words(&page, told->record, told->saved);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- described */

static void estimate_row(struct bc_page *page, const char *what, const struct bc_estimate *e,
	const char *unit, const char *source)
{
	const double large = 20.0;
	int decimals = e->value >= large || e->low >= large ? 0 : 1;
	bc_page_printf(page, "  ");
	bc_page_cell(page, what, 26);
	if (isinf(e->value))
		bc_page_cell(page, "all of it", 10);
	else
		bc_page_number(page, e->value, decimals, 6);
	bc_page_printf(page, " ");
	bc_page_cell(page, isinf(e->value) ? "" : unit, 7);
	if (isinf(e->high) && !isinf(e->value))
		bc_page_span(page, e->low, NAN, decimals, 15);
	else
		bc_page_span(page, isinf(e->low) ? (double)NAN : e->low,
			isinf(e->high) ? (double)NAN : e->high, decimals, 15);
	bc_page_ink(page, BC_INK_FAINT);
	bc_page_printf(page, "%s", source);
	bc_page_ink_off(page);
	bc_page_printf(page, "\n");
}

static void rig_words(const struct bc_rig *rig, struct bc_text *line)
{
	bc_text_printf(line, "Riser %.4g x %.4g mm, %s, ", rig->riser_mm, rig->height_mm,
		rig->packing->what);
	if (rig->lagging_mm > 0.0)
		bc_text_printf(line, "lagged with %.3g mm of wool", rig->lagging_mm);
	else
		bc_text_append(line, "bare");
	if (rig->reflux > 0.0)
		bc_text_printf(line, ", head that returns %.3g of what it gives", rig->reflux);
	if (!isnan(rig->heater_w))
		bc_text_printf(line, ", heater %.4g W", rig->heater_w);
	if (!isnan(rig->vacuum_kpa))
		bc_text_printf(line, ", at %.4g kPa", rig->vacuum_kpa);
	bc_text_append(line, ".");
}

static void rig_warnings(struct bc_page *page, const struct bc_still_described *described)
{
	const struct bc_rig *rig = &described->record->rig;
	const struct bc_rig_estimate *e = &described->estimate;
	struct bc_text line;
	bc_text_append(page->text, "\n");
	if (e->wall_takes_all) {
		bc_text_init(&line);
		bc_text_printf(&line,
			"The wall condenses all of %.0f W: nothing comes over. Lag the riser, or "
			"give more heat.",
			e->boil_w);
		put_line(page, &line, BC_INK_BAD);
	}
	bc_text_init(&line);
	if (e->heater_floods)
		bc_text_printf(&line,
			"The heater's %.0f W would flood this riser: stay below %.0f W, and cut the "
			"heat when it gurgles, spits or the head swings.",
			rig->heater_w, e->power_w.value);
	else
		bc_text_printf(&line,
			"Stay below %.0f W; cut the heat when it gurgles, spits or the head swings.",
			e->power_w.value);
	put_line(page, &line, e->heater_floods ? BC_INK_BAD : BC_INK_STRONG);
	if (e->boil_assumed)
		bc_page_printf(page, "No heater stated: reckoned with %.0f W.\n", e->boil_w);
	if (!isnan(rig->charge_ml)) {
		bc_text_init(&line);
		bc_text_printf(&line,
			"Of a charge of %.4g mL the smallest jar should take %.0f %% or more: a "
			"smaller one is blurred by what the riser holds.",
			rig->charge_ml, 100.0 * e->least_cut_ml.value / rig->charge_ml);
		bc_tap_paragraph(page, &line, "", 0);
	}
}

enum bc_status bc_report_still_described(const struct bc_still_described *described,
	const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	const struct bc_rig_estimate *e = &described->estimate;
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line,
		"Your still is worth about %.1f effective plates (%.1f to %.1f), by "
		"its measures alone.",
		e->plates.value, e->plates.low, e->plates.high);
	put_line(&page, &line, BC_INK_STRONG);
	bc_text_init(&line);
	rig_words(&described->record->rig, &line);
	bc_tap_paragraph(&page, &line, "", 0);
	rig_warnings(&page, described);
	bc_page_heading(&page, "Estimates", "low to high is judgement, not measured");
	estimate_row(&page, "stages, the pot among them", &e->stages, "", "HETP, hobby, +-50 %");
	estimate_row(&page, "heat lost by the wall", &e->wall_w, "W", "U pi D L dT, U +-1/3");
	estimate_row(&page, "reflux, wall and head", &e->reflux, "", "balance of the heat");
	estimate_row(&page, "effective plates", &e->plates, "", "simulated column");
	estimate_row(&page, "power to stay below", &e->power_w, "W", "70 % of flood, +-1/3");
	estimate_row(&page, "liquid held in the riser", &e->hold_ml, "mL", "common practice");
	estimate_row(
		&page, "smallest jar worth filling", &e->least_cut_ml, "mL", "12 % of it held");
	bc_page_paragraph(&page,
		"A pair of boil-offs tells more than a ruler: 'boilcut still calibrate'.", "\n", 0);
	if (described->saved != NULL && described->record->n_pairs > 0)
		bc_page_paragraph(&page,
			"This still was calibrated before: that stands, and the measures are kept "
			"beside it.",
			NULL, 0);
	saved_words(&page, described->record, described->saved);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- kept */

enum bc_status bc_report_still_record(const struct bc_still_record *record,
	const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line, "%s: ", record->still.name);
	bc_still_in_words(&record->still, &line);
	bc_text_printf(&line, "; carry-over %.3g %% of the charge", record->still.carry_pct);
	if (!isnan(record->still.carry_half_width_pct))
		bc_text_printf(&line, " +- %.2g", record->still.carry_half_width_pct);
	bc_text_append(&line, ".");
	put_line(&page, &line, BC_INK_STRONG);
	if (record->still.thermometer != BC_THERMOMETER_NOT_STATED)
		bc_page_printf(&page, "Its thermometer: %s.\n",
			bc_thermometer_text(record->still.thermometer));
	if (!isnan(record->rig.riser_mm)) {
		bc_text_init(&line);
		rig_words(&record->rig, &line);
		bc_tap_paragraph(&page, &line, "", 0);
	}
	for (size_t i = 0; i < record->n_pairs; i++) {
		const struct bc_still_pair *pair = &record->pairs[i];
		bc_text_init(&line);
		bc_text_printf(&line, "%s, then %s: %.2f (%.1f to %.1f), carry-over %.1f %%",
			pair->before, pair->after, fmax(pair->estimate.plates, 1.0),
			bc_plates_low(&pair->estimate), bc_plates_high(&pair->estimate),
			pair->estimate.carry_pct);
		bc_tap_paragraph(&page, &line, "  - ", 4);
	}
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
