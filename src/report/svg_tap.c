/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The run of a still as pictures of a page: head and pot with the turns, and yield against flash.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/svg.h"
#include "report/tap_page.h"

#define HIGH 290.0
#define SMALL 10.0

static struct bc_svg_plot field(
	struct bc_text *svg, double from_x, double to_x, double from_y, double to_y)
{
	return (struct bc_svg_plot){
		svg, 32.0, 330.0, 22.0, HIGH - 34.0, from_x, to_x, from_y, to_y};
}

/* The end of a jar: an upright line; its words are staggered, so that near turns stay apart. */
static void draw_turn(const struct bc_svg_plot *plot, const struct bc_jar *jar, size_t i)
{
	char words[64];
	double pct = 100.0 * jar->to_frac;
	double x = bc_svg_x(plot, pct);
	bool left = pct > 50.0;
	if (isnan(jar->to_reading_c))
		snprintf(words, sizeof words, "%s ends", jar->name);
	else
		snprintf(words, sizeof words, "%s to %.0f °C", jar->name, jar->to_reading_c);
	bc_svg_upright(plot, pct, BC_SVG_SOFT, "6 3 1 3");
	bc_svg_words(plot->svg, left ? x - 3.0 : x + 3.0,
		plot->bottom - 8.0 - 13.0 * (double)(i % 4), left ? BC_SVG_END : BC_SVG_START,
		SMALL, BC_SVG_WARM, words);
}

static void draw_lines(const struct bc_svg_plot *plot, const struct bc_tapping *tapping)
{
	double over[BC_TAP_NODES_MAX];
	double head[BC_TAP_NODES_MAX];
	double pot[BC_TAP_NODES_MAX];
	size_t n = tapping->n_nodes;
	for (size_t i = 0; i < n; i++) {
		over[i] = tapping->nodes[i].over_pct;
		head[i] = tapping->nodes[i].head_reading_c;
		pot[i] = tapping->nodes[i].pot_c;
	}
	bc_svg_line(plot, over, pot, n, BC_SVG_WARM, 1.6, "5 3");
	bc_svg_line(plot, over, head, n, BC_SVG_CURVE, 2.0, NULL);
	size_t at = n / 5;
	bc_svg_words(plot->svg, bc_svg_x(plot, over[at]), bc_svg_y(plot, pot[at]) - 6.0, BC_SVG_END,
		SMALL, BC_SVG_WARM, "pot");
	bc_svg_words(plot->svg, bc_svg_x(plot, over[at]) + 4.0, bc_svg_y(plot, head[at]) + 12.0,
		BC_SVG_START, SMALL, BC_SVG_CURVE, "head");
}

void bc_page_tap_run(struct bc_page *page, const struct bc_tapping *tapping)
{
	double low_c = INFINITY;
	double high_c = tapping->pot_limit_c;
	size_t turn = 0;
	if (tapping->n_nodes < 2 || !bc_page_figure(page))
		return;
	for (size_t i = 0; i < tapping->n_nodes; i++) {
		low_c = fmin(
			low_c, fmin(tapping->nodes[i].head_reading_c, tapping->nodes[i].pot_c));
		high_c = fmax(
			high_c, fmax(tapping->nodes[i].head_reading_c, tapping->nodes[i].pot_c));
	}
	const struct bc_svg_plot plot = field(page->text, 0.0, 100.0,
		50.0 * floor((low_c - 40.0) / 50.0), 50.0 * ceil((high_c + 20.0) / 50.0));
	bc_svg_open(page->text, HIGH, "run", "The run of the still",
		"Head as this thermometer shows it and pot temperature, against what is over.");
	bc_svg_level(&plot, tapping->pot_limit_c, BC_SVG_SOFT, "2 3");
	bc_svg_words(page->text, plot.left + 4.0, bc_svg_y(&plot, tapping->pot_limit_c) - 4.0,
		BC_SVG_START, SMALL, BC_SVG_SOFT, "pot limit");
	draw_lines(&plot, tapping);
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		if (!jar->empty && !jar->takes_pot && isfinite(jar->to_frac))
			draw_turn(&plot, jar, turn++);
	}
	bc_svg_axes(&plot, "over, % of the charge by volume", "°C, as shown here");
	bc_svg_close(page->text);
	bc_page_figure_end(page, "Whole line: the head, as this thermometer shows it here. Broken "
				 "line: the pot. Upright lines: the turns of the tap.");
}

/* Returns how many choices can be drawn. */
static size_t take_choices(const struct bc_tapping *tapping, double flash[BC_TAP_CHOICES_MAX],
	double low[BC_TAP_CHOICES_MAX], double share[BC_TAP_CHOICES_MAX])
{
	size_t n = 0;
	for (size_t i = 0; i < tapping->n_choices; i++) {
		const struct bc_tap_choice *choice = &tapping->choices[i];
		if (!isfinite(choice->flash_c) || !isfinite(choice->product_pct))
			continue;
		flash[n] = choice->flash_c;
		low[n] = choice->flash_low_c; /* NaN: no claim */
		share[n] = choice->product_pct;
		n++;
	}
	return n;
}

static void draw_here(const struct bc_svg_plot *plot, const struct bc_tapping *tapping)
{
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		const struct bc_estimate *flash = &jar->oil.property[BC_FLASH];
		if (jar->empty || strcmp(jar->name, "product") != 0 || !bc_estimate_present(flash))
			continue;
		if (!(flash->value >= plot->from_x && flash->value <= plot->to_x))
			continue;
		bc_svg_dot(plot, flash->value, jar->volume_pct, 5.0, false);
		bc_svg_words(plot->svg, bc_svg_x(plot, flash->value) + 8.0,
			bc_svg_y(plot, jar->volume_pct) - 6.0, BC_SVG_START, SMALL, BC_SVG_WARM,
			"as cut here");
	}
}

/* The low bounds, where one is claimed; whether there is a line of them. */
static bool draw_low(
	const struct bc_svg_plot *plot, const double *low, const double *share, size_t n)
{
	double x[BC_TAP_CHOICES_MAX];
	double y[BC_TAP_CHOICES_MAX];
	size_t claimed = 0;
	for (size_t i = 0; i < n; i++) {
		if (!isfinite(low[i]))
			continue;
		x[claimed] = low[i];
		y[claimed++] = share[i];
	}
	if (claimed < 2)
		return false;
	bc_svg_line(plot, x, y, claimed, BC_SVG_SOFT, 1.4, "5 3");
	bc_svg_words(plot->svg, bc_svg_x(plot, x[claimed - 1]) - 4.0,
		bc_svg_y(plot, y[claimed - 1]) + 14.0, BC_SVG_END, SMALL, BC_SVG_SOFT, "at worst");
	return true;
}

void bc_page_tap_choice(struct bc_page *page, const struct bc_tapping *tapping)
{
	double flash[BC_TAP_CHOICES_MAX];
	double low[BC_TAP_CHOICES_MAX];
	double share[BC_TAP_CHOICES_MAX];
	double from = INFINITY;
	double to = -INFINITY;
	double least = 100.0;
	size_t n = take_choices(tapping, flash, low, share);
	if (n < 2 || !bc_page_figure(page))
		return;
	for (size_t i = 0; i < n; i++) {
		from = fmin(from, fmin(low[i], flash[i]));
		to = fmax(to, flash[i]);
		least = fmin(least, share[i]);
	}
	const struct bc_svg_plot plot =
		field(page->text, 10.0 * floor((from - 5.0) / 10.0), 10.0 * ceil((to + 5.0) / 10.0),
			fmax(10.0 * floor((least - 10.0) / 10.0), 0.0), 100.0);
	bc_svg_open(page->text, HIGH, "choice", "Yield against flash",
		"What share of the charge the product is, for each flash point of the product.");
	bool claimed = draw_low(&plot, low, share, n);
	bc_svg_line(&plot, flash, share, n, BC_SVG_CURVE, 2.0, NULL);
	for (size_t i = 0; i < n; i++)
		bc_svg_dot(&plot, flash[i], share[i], 2.4, true);
	bc_svg_words(page->text, bc_svg_x(&plot, flash[0]) + 6.0, bc_svg_y(&plot, share[0]) - 8.0,
		BC_SVG_START, SMALL, BC_SVG_CURVE, "flash");
	draw_here(&plot, tapping);
	bc_svg_axes(&plot, "flash of the product, °C, estimated", "product, % of the charge");
	bc_svg_close(page->text);
	bc_page_figure_end(page,
		claimed ? "The largest product at each flash point: more flash, less product. "
			  "Broken line: the low bound of the flash."
			: "The largest product at each flash point: more flash, less product. No "
			  "low bound of the flash is claimed.");
}
