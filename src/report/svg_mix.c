/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flash against share as the picture of a page. */
#include "report/svg_mix.h"

#include <math.h>

#include "report/html.h"
#include "report/mix.h"
#include "report/svg.h"

#define HIGH 290.0
#define SMALL 10.0
#define NAME_MOST 24

struct range {
	double from_c;
	double to_c;
};

static void widen(struct range *range, double temp_c)
{
	if (!isfinite(temp_c))
		return;
	range->from_c = fmin(range->from_c, temp_c);
	range->to_c = fmax(range->to_c, temp_c);
}

static struct range range_of(const struct bc_mixing *mixing, double limit_c)
{
	struct range range = {INFINITY, -INFINITY};
	for (size_t i = 0; i < mixing->n_nodes; i++) {
		widen(&range, mixing->nodes[i].flash_c);
		widen(&range, mixing->nodes[i].flash_low_c);
	}
	widen(&range, mixing->mix.oil.property[BC_FLASH].low);
	widen(&range, limit_c);
	range.from_c = 10.0 * floor((range.from_c - 3.0) / 10.0);
	range.to_c = 10.0 * ceil((range.to_c + 3.0) / 10.0);
	return range;
}

static void draw_lines(const struct bc_svg_plot *plot, const struct bc_mixing *mixing)
{
	double share[BC_MIX_NODES_MAX];
	double flash[BC_MIX_NODES_MAX];
	double low[BC_MIX_NODES_MAX];
	for (size_t i = 0; i < mixing->n_nodes; i++) {
		share[i] = mixing->nodes[i].share_pct;
		flash[i] = mixing->nodes[i].flash_c;
		low[i] = mixing->nodes[i].flash_low_c;
	}
	bc_svg_line(plot, share, low, mixing->n_nodes, BC_SVG_SOFT, 1.4, "5 3");
	bc_svg_line(plot, share, flash, mixing->n_nodes, BC_SVG_CURVE, 2.0, NULL);
	if (mixing->n_nodes == 0)
		return;
	size_t at = mixing->n_nodes * 2 / 3;
	bc_svg_words(plot->svg, bc_svg_x(plot, share[at]), bc_svg_y(plot, flash[at]) - 6.0,
		BC_SVG_START, SMALL, BC_SVG_CURVE, "flash");
	if (isfinite(low[at]))
		bc_svg_words(plot->svg, bc_svg_x(plot, share[at]), bc_svg_y(plot, low[at]) + 13.0,
			BC_SVG_END, SMALL, BC_SVG_SOFT, "at worst");
}

void bc_svg_mix(const struct bc_mixing *mixing, struct bc_text *svg)
{
	double limit_c = bc_mix_flash_limit_c(mixing);
	const struct range range = range_of(mixing, limit_c);
	const struct bc_estimate *here = &mixing->mix.oil.property[BC_FLASH];
	double share = mixing->parts[mixing->node_part].volume_pct;
	const struct bc_svg_plot plot = {
		svg, 32.0, 340.0, 22.0, HIGH - 34.0, 0.0, 100.0, range.from_c, range.to_c};
	struct bc_text name;
	bc_text_init(&name);
	bc_text_append(&name, "share of ");
	bc_html_cut(&name, bc_mix_part_name(mixing, mixing->node_part), NAME_MOST);
	bc_text_append(&name, ", % by volume");
	bc_svg_open(svg, HIGH, "mix", "Flash against share",
		"How the flash point of the mixture falls or rises with the share of one part.");
	if (isfinite(limit_c)) {
		bc_svg_level(&plot, limit_c, BC_SVG_WARM, "2 3");
		bc_svg_words(svg, plot.right, bc_svg_y(&plot, limit_c) - 4.0, BC_SVG_END, SMALL,
			BC_SVG_WARM, "limit");
	}
	draw_lines(&plot, mixing);
	bc_svg_dot(&plot, share, here->value, 3.0, true);
	if (isfinite(here->low))
		bc_svg_dot(&plot, share, here->low, 3.0, false);
	bc_svg_axes(&plot, name.data != NULL ? name.data : "", "flash, closed cup, °C");
	bc_svg_close(svg);
	svg->failed = svg->failed || name.failed;
	bc_text_release(&name);
}
