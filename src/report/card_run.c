/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cards of a run of the still: the turns of the tap, and when to start and stop. */
#include <math.h>

#include "judgement/rerun.h"
#include "report/card_blocks.h"
#include "report/tap_page.h"

static void paragraph(struct bc_page *page, struct bc_text *line, const char *first)
{
	bc_tap_paragraph(page, line, first, 4);
}

static void jars(struct bc_page *page, const struct bc_tapping *tapping)
{
	bc_page_table(page, "\n  jar        about     flash, degC at worst\n",
		"jar|about|flash, degC at worst|good for");
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		struct bc_text amount;
		if (jar->empty)
			continue;
		bc_text_init(&amount);
		bc_tap_amount(jar->volume_ml, &amount);
		bc_page_row(page, 2);
		bc_page_cell(page, jar->name, 10);
		bc_page_cell(page, amount.data != NULL ? amount.data : "", 9);
		bc_page_gap(page, 1);
		if (jar->flash_claim)
			bc_page_number(page, floor(jar->oil.property[BC_FLASH].low), 0, 12);
		else
			bc_page_cell(page, "no claim", 12);
		if (page->html != NULL)
			bc_page_cell(page, jar->good_for != NULL ? jar->good_for : "", 0);
		bc_page_row_end(page);
		page->text->failed = page->text->failed || amount.failed;
		bc_text_release(&amount);
	}
	bc_page_table_end(page);
	if (page->html == NULL)
		bc_page_tap_good_for(page, tapping);
}

/* What nobody may overlook in what is poured into the pot. */
static void feed_warning(struct bc_page *page, const struct bc_tapping *tapping)
{
	enum bc_history history = tapping->sample->history;
	if (tapping->feed.hazards.petrol_like) {
		bc_text_append(page->text, "\n");
		bc_page_box_edge(page);
		bc_page_box_line(
			page, "DANGER - TREAT THE CHARGE AND THE LIGHT JAR AS PETROL", true);
		bc_page_box_edge(page);
	}
	if (history != BC_HISTORY_RETORT && history != BC_HISTORY_UNKNOWN)
		return;
	bc_text_append(page->text, "\n");
	bc_page_paragraph(page,
		history == BC_HISTORY_RETORT
			? "Straight from the retort: gas is dissolved in it. Heat slowly, vent the "
			  "light jar outdoors, and throw no light jar together with the product."
			: "Nobody wrote down where it comes from: take it to hold dissolved gas. "
			  "Heat slowly, vent the light jar outdoors, and throw no light jar "
			  "together with the product.",
		NULL, 2);
}

static void closing(struct bc_page *page, const struct bc_tapping *tapping)
{
	const struct bc_still *still = &tapping->request.still;
	const char *which = "a still that was described, not measured";
	struct bc_text line;
	if (bc_rerun_default_still(still))
		which = "the default still, which nobody described";
	else if (still->source == BC_STILL_CALIBRATED)
		which = "a still that was measured by a run of its own";
	bc_text_init(&line);
	bc_text_printf(&line,
		"Readings are those of your own thermometer at this pressure. The figures are an "
		"estimate for %s: a closed cup of the product has the last word. Never to dryness. "
		"Never leave the still.",
		which);
	bc_text_append(page->text, "\n");
	bc_tap_paragraph(page, &line, NULL, 2);
}

void bc_card_tap(struct bc_page *page, const struct bc_card *card)
{
	const struct bc_tapping *tapping = card->tapping;
	bc_card_name(page, tapping->sample);
	bc_page_tap_still(page, tapping);
	feed_warning(page, tapping);
	bc_page_tap_turns(page, tapping);
	if (!bc_tap_has_steps(tapping))
		return;
	jars(page, tapping);
	bc_page_tap_run(page, tapping);
	closing(page, tapping);
}

static void before(struct bc_page *page, const struct bc_tapping *tapping)
{
	struct bc_text line;
	bc_page_heading(page, "Before the heat", NULL);
	bc_text_init(&line);
	bc_text_append(&line, "Charge ");
	bc_tap_amount(tapping->request.charge_ml, &line);
	bc_text_append(&line, ", settled and drained of water; the pot at most 60 % full and below "
			      "60 degC. Wet oil never goes into a hot pot.");
	paragraph(page, &line, "  - ");
	bc_text_init(&line);
	bc_text_append(&line, "Cooling water runs");
	if (!isnan(tapping->heat.water_l_min))
		bc_text_printf(&line, ", %.2g L/min or more", tapping->heat.water_l_min);
	bc_text_append(&line, "; the vent is open to the outside; outlet and condenser are free.");
	paragraph(page, &line, "  - ");
	bc_text_init(&line);
	bc_text_append(&line,
		"No flame, pilot light, motor or switch near; doors open. Vapour of kerosene and "
		"diesel lights by itself from about 210 degC: a leak of air needs no spark.");
	paragraph(page, &line, "  - ");
	bc_text_init(&line);
	bc_text_append(&line, "Thermometers in head and pot; jars named and empty; dry powder, a "
			      "lid, gloves and goggles at hand; two people.");
	paragraph(page, &line, "  - ");
}

static void running(struct bc_page *page, const struct bc_tapping *tapping)
{
	const struct bc_tap_heat *heat = &tapping->heat;
	struct bc_text line;
	bc_page_heading(page, "While it runs", NULL);
	bc_text_init(&line);
	if (isnan(heat->time_h))
		bc_text_append(&line, "Time and cooling water are not known: the heater was not "
				      "stated.");
	else
		bc_text_printf(&line,
			"First drop after about %.0f min, the end after %.1f h, %.0f mL/min on "
			"average; what the walls lose comes on top.",
			60.0 * heat->warm_up_h, heat->time_h, heat->draw_ml_min);
	paragraph(page, &line, "  - ");
	bc_text_init(&line);
	bc_text_printf(&line, "HEAT OFF when the pot stands at %.0f degC, whatever the head shows.",
		tapping->pot_limit_c);
	bc_tap_above_usual(tapping, &line);
	paragraph(page, &line, "  - ");
	bc_page_paragraph(
		page, "Never open, drain or top up above 60 degC. Never to dryness.", "  - ", 4);
}

static void cooling_lost(struct bc_page *page, const struct bc_tapping *tapping)
{
	const struct bc_tap_heat *heat = &tapping->heat;
	struct bc_text line;
	bc_page_heading(page, "If the cooling fails", NULL);
	bc_page_paragraph(
		page, "HEAT OFF first. Everybody out. No switch, no telephone.", "  1. ", 5);
	bc_text_init(&line);
	if (isnan(heat->lower_limit_s))
		bc_text_append(&line,
			"How long the room has is not known: state the heater and the "
			"room. Count on seconds near the still.");
	else
		bc_text_printf(&line,
			"In a room of %.3g m3 the vapour reaches a quarter of the lower limit after "
			"%.0f s, the limit after %.1f min; near the still much sooner.",
			tapping->request.room_m3, heat->quarter_s, heat->lower_limit_s / 60.0);
	bc_tap_paragraph(page, &line, "  2. ", 5);
	bc_page_paragraph(page,
		"Water on again only when the pot has cooled and the room is aired.", "  3. ", 5);
}

void bc_card_stop(struct bc_page *page, const struct bc_card *card)
{
	static const char *const signs[] = {
		"flow stops with the heat on, white solids or wax: a plugged condenser is a bomb",
		"gurgling, liquid thrown to the head, the head jumps",
		"white fumes, an acrid smell, the head falls while the pot rises: it cracks",
		"the smell of oil in the room, a hiss, a drip",
	};
	const struct bc_tapping *tapping = card->tapping;
	bc_card_name(page, tapping->sample);
	bc_page_tap_still(page, tapping);
	feed_warning(page, tapping);
	bc_page_tap_no_cut(page, tapping);
	bc_page_tap_forbidden(page, tapping);
	if (!bc_tap_has_steps(tapping))
		return;
	before(page, tapping);
	running(page, tapping);
	bc_page_heading(page, "Heat off at once when", NULL);
	for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
		bc_page_paragraph(page, signs[i], "  - ", 4);
	cooling_lost(page, tapping);
	bc_page_heading(page, "Afterwards", NULL);
	bc_page_paragraph(page,
		"A cooling pot breathes air in: close the outlet off from air, or let inert gas in. "
		"Cooling water on until the pot is below 60 degC. Jars closed, named, out of the "
		"shed. What stays in the pot: "
		"never empty it hot.",
		"  - ", 4);
	bc_page_paragraph(page,
		"Figures are estimates; local codes and licensed practice come first.", NULL, 2);
}
