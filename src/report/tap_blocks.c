/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a run of the still gives, in tables: jars, product, heat and time, and what else could be
 * chosen. */
#include "report/tap_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void jar_row(struct bc_page *page, const struct bc_jar *jar)
{
	bc_page_row(page, 2);
	bc_page_printf(page, "%-9s", jar->name);
	if (jar->empty) {
		bc_page_printf(page, "  empty");
		bc_page_row_end(page);
		return;
	}
	bc_page_number(page, jar->volume_pct, 1, 7);
	bc_page_number(page, jar->mass_pct, 1, 7);
	bc_page_number(page, jar->volume_ml, 0, 8);
	bc_page_number(page, jar->mass_kg, 3, 9);
	bc_page_number(page, jar->over_ml, 0, 9);
	bc_page_number(page, jar->to_c, 0, 10);
	bc_page_number(page, jar->to_reading_c, 0, 9);
	bc_page_number(page, jar->pot_to_c, 0, 6);
	bc_page_row_end(page);
}

void bc_page_tap_jars(struct bc_page *page, const struct bc_tapping *tapping)
{
	if (tapping->n_jars == 0)
		return;
	bc_page_heading(page, "What lands in each jar",
		"the turn: corrected, as shown here, and in the pot");
	char head[100];
	snprintf(head, sizeof head, "  %-9s%7s%7s%8s%9s%9s%10s%9s%6s\n", "jar", "vol %", "mass %",
		"mL", "kg", "mL over", "full at", "shown", "pot");
	bc_page_table(page, head, "jar|vol %|mass %|mL|kg|mL over|full at|shown|pot");
	for (size_t i = 0; i < tapping->n_jars; i++)
		jar_row(page, &tapping->jars[i]);
	bc_page_row(page, 2);
	bc_page_printf(page, "%-9s", "pot");
	bc_page_number(page, tapping->pot.volume_pct, 1, 7);
	bc_page_number(page, tapping->pot.mass_pct, 1, 7);
	bc_page_number(page, tapping->pot.volume_ml, 0, 8);
	bc_page_number(page, tapping->pot.mass_kg, 3, 9);
	bc_page_row_end(page);
	bc_page_table_end(page);
}

/* "61 (49 to 73)", "12 (up to 25)" */
static void flash_cell(const struct bc_jar *jar, char *cell, size_t size)
{
	const struct bc_estimate *flash = &jar->oil.property[BC_FLASH];
	if (!bc_estimate_present(flash))
		snprintf(cell, size, "-");
	else if (!jar->flash_claim || isnan(flash->low))
		snprintf(cell, size, "%.0f (no lower bound)", flash->value);
	else
		snprintf(cell, size, "%.0f (%.0f to %.0f)", flash->value, floor(flash->low),
			flash->high);
}

/* NaN also where the method does not hold for this oil. */
static double property_of(const struct bc_jar *jar, enum bc_property property)
{
	const struct bc_estimate *estimate = &jar->oil.property[property];
	bool holds = bc_estimate_present(estimate) && estimate->how != BC_NOT_VALID;
	return holds ? estimate->value : (double)NAN;
}

static double point_of(const struct bc_jar *jar, enum bc_point_at at)
{
	const struct bc_estimate *estimate = &jar->points.at[at];
	return bc_estimate_present(estimate) ? estimate->value : (double)NAN;
}

static void oil_row(struct bc_page *page, const struct bc_jar *jar)
{
	char flash[64];
	flash_cell(jar, flash, sizeof flash);
	bc_page_row(page, 2);
	bc_page_printf(page, "%-9s  ", jar->name);
	bc_page_cell(page, flash, 20);
	bc_page_number(page, point_of(jar, BC_AT_T10), 0, 6);
	bc_page_number(page, point_of(jar, BC_AT_T90), 0, 6);
	bc_page_number(page, point_of(jar, BC_AT_T95), 0, 6);
	bc_page_number(page, property_of(jar, BC_DENSITY15), 0, 9);
	bc_page_number(page, property_of(jar, BC_CETANE_INDEX), 0, 8);
	bc_page_number(page, property_of(jar, BC_VISC40), 2, 10);
	bc_page_row_end(page);
}

/* The jar against the standard that it was cut for. */
static void grade_block(
	struct bc_page *page, const struct bc_tapping *tapping, const struct bc_jar *jar)
{
	const struct bc_grade *grade = &jar->grades.items[0];
	struct bc_text title;
	for (size_t i = 0; i < jar->grades.n && tapping->standard != NULL; i++) {
		if (strcmp(jar->grades.items[i].standard, tapping->standard) == 0)
			grade = &jar->grades.items[i];
	}
	bc_text_init(&title);
	bc_text_printf(&title, "%s against %s, %s: %s", jar->name, grade->standard, grade->edition,
		bc_state_text(grade->state));
	bc_text_append(page->text, "\n");
	bc_page_ink(page, BC_INK_STRONG);
	bc_tap_paragraph(page, &title, "", 2);
	bc_page_ink_off(page);
	bc_page_criteria(page, grade);
}

/* The oil in each jar, and the wanted product against its standard limit by limit. */
void bc_page_tap_product(struct bc_page *page, const struct bc_tapping *tapping)
{
	bool any = false;
	char head[100];
	for (size_t i = 0; i < tapping->n_jars; i++) {
		if (tapping->jars[i].empty)
			continue;
		if (!any) {
			bc_page_heading(page, "What it is",
				"flash: estimated closed cup, 95 % bounds; T: D86, degC");
			snprintf(head, sizeof head, "  %-9s  %-20s%6s%6s%6s%9s%8s%10s\n", "jar",
				"flash, degC", "T10", "T90", "T95", "kg/m3", "cetane", "mm2/s, 40");
			bc_page_table(
				page, head, "jar|flash, degC|T10|T90|T95|kg/m3|cetane|mm2/s, 40");
		}
		any = true;
		oil_row(page, &tapping->jars[i]);
	}
	bc_page_table_end(page);
	for (size_t i = 0; tapping->has_want && i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		if (jar->empty || !bc_jar_is_product(jar) || jar->grades.n == 0)
			continue;
		grade_block(page, tapping, jar);
	}
}

void bc_page_tap_good_for(struct bc_page *page, const struct bc_tapping *tapping)
{
	bool any = false;
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		char lead[32];
		struct bc_text line;
		if (jar->empty || (jar->good_for == NULL && jar->flash_claim))
			continue;
		if (!any)
			bc_page_heading(page, "What each jar is good for", NULL);
		any = true;
		bc_text_init(&line);
		snprintf(lead, sizeof lead, "  %-9s  ", jar->name);
		bc_text_append(&line, jar->good_for != NULL ? jar->good_for : "");
		if (!jar->flash_claim && jar->no_claim_why != NULL)
			bc_text_printf(&line, "%sno claim on its flash: %s",
				line.length > 0 ? "; " : "", jar->no_claim_why);
		bc_tap_paragraph(page, &line, lead, 13);
	}
}

/* ---- heat, time, water, room */

static void duration(double hours, struct bc_text *line)
{
	if (hours < 1.0)
		bc_text_printf(line, "%.0f min", 60.0 * hours);
	else
		bc_text_printf(line, "%.1f h", hours);
}

static void heat_words(const struct bc_tap_heat *heat, struct bc_text *line)
{
	bc_text_printf(line,
		"Heat %.3g MJ: %.2g to warm, %.2g to boil off, %.2g for what runs back; what the "
		"walls lose comes on top.",
		heat->total_mj, heat->sensible_mj, heat->latent_mj, heat->reflux_mj);
}

static void time_words(
	const struct bc_tap_request *request, const struct bc_tap_heat *heat, struct bc_text *line)
{
	bc_text_append(line, "Time ");
	duration(heat->time_h, line);
	bc_text_printf(line, " with %.3g kW into the pot, the first drop after ",
		request->heater_w / 1000.0);
	duration(heat->warm_up_h, line);
	bc_text_printf(line, ", then %.0f mL/min on average. Cooling water %.2g L/min.",
		heat->draw_ml_min, heat->water_l_min);
}

static void room_words(
	const struct bc_tap_request *request, const struct bc_tap_heat *heat, struct bc_text *line)
{
	bc_text_printf(line,
		"COOLING LOST: heat off first. In %.3g m3 the vapour reaches a quarter of the "
		"lower limit after %.0f s and the limit itself after %.1f min, well mixed; near "
		"the still much sooner.",
		request->room_m3, heat->quarter_s, heat->lower_limit_s / 60.0);
}

void bc_page_tap_heat(struct bc_page *page, const struct bc_tapping *tapping)
{
	const struct bc_tap_heat *heat = &tapping->heat;
	struct bc_text line;
	if (tapping->n_jars == 0 || isnan(heat->total_mj))
		return;
	bc_page_heading(page, "Heat, time and water", NULL);
	bc_text_init(&line);
	heat_words(heat, &line);
	bc_tap_paragraph(page, &line, NULL, 2);
	if (!isnan(heat->time_h)) {
		bc_text_init(&line);
		time_words(&tapping->request, heat, &line);
		bc_tap_paragraph(page, &line, NULL, 2);
	} else {
		bc_page_printf(page, "  Time and cooling water: say --heater.\n");
	}
	if (!isnan(heat->lower_limit_s)) {
		bc_text_init(&line);
		room_words(&tapping->request, heat, &line);
		bc_tap_paragraph(page, &line, NULL, 2);
	}
}

/* ---- what else could be chosen */

static void choice_row(struct bc_page *page, const struct bc_tap_choice *choice)
{
	bc_page_row(page, 2);
	bc_page_number(page, choice->flash_target_c, 0, 11);
	bc_page_number(page, choice->light_until_c, 0, 13);
	bc_page_number(page, choice->product_until_c, 0, 15);
	bc_page_number(page, choice->product_pct, 1, 11);
	bc_page_number(page, choice->flash_c, 0, 9);
	bc_page_number(page, floor(choice->flash_low_c), 0, 9);
	bc_page_number(page, choice->t95_c, 0, 8);
	bc_page_row_end(page);
}

void bc_page_tap_choices(struct bc_page *page, const struct bc_tapping *tapping)
{
	if (tapping->n_choices == 0)
		return;
	bc_page_heading(page, "Yield against flash",
		"the largest product at a flash; turns corrected, degC");
	char head[100];
	snprintf(head, sizeof head, "  %11s%13s%15s%11s%9s%9s%8s\n", "flash asked", "light until",
		"product until", "product %", "flash", "at worst", "T95");
	bc_page_table(
		page, head, "flash asked|light until|product until|product %|flash|at worst|T95");
	for (size_t i = 0; i < tapping->n_choices; i++)
		choice_row(page, &tapping->choices[i]);
	bc_page_table_end(page);
}
