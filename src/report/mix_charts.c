/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Flash against the share of one part of a mixture, with the limit that it must keep. */
#include <math.h>
#include <string.h>

#include "report/chart.h"
#include "report/mix.h"

const char *const bc_mix_chart_kinds[] = {"flash", NULL};

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

static void write_nodes(const struct bc_mixing *mixing, struct range *range, struct bc_text *script)
{
	bc_text_append(script, "# share %, flash degC, its low bound\n$share << EOD\n");
	for (size_t i = 0; i < mixing->n_nodes; i++) {
		const struct bc_mix_node *node = &mixing->nodes[i];
		bc_chart_number(node->share_pct, script);
		bc_text_append(script, " ");
		bc_chart_number(node->flash_c, script);
		bc_text_append(script, " ");
		bc_chart_number(node->flash_low_c, script);
		bc_text_append(script, "\n");
		widen(range, node->flash_c);
		widen(range, node->flash_low_c);
	}
	bc_text_append(script, "EOD\n");
}

static void write_here(const struct bc_mixing *mixing, struct range *range, struct bc_text *script)
{
	const struct bc_estimate *flash = &mixing->mix.oil.property[BC_FLASH];
	bc_text_append(
		script, "# the mixture of the report: share, flash, low bound\n$here << EOD\n");
	bc_chart_number(mixing->parts[mixing->node_part].volume_pct, script);
	bc_text_append(script, " ");
	bc_chart_number(flash->value, script);
	bc_text_append(script, " ");
	bc_chart_number(flash->low, script);
	bc_text_append(script, "\nEOD\n");
	widen(range, flash->value);
	widen(range, flash->low);
}

static void title(const struct bc_mixing *mixing, struct bc_text *script)
{
	const struct bc_mix_share *share = &mixing->share;
	if (share->asked && share->unlimited)
		bc_text_append(script, "' . \"\\n\" . 'any share will do");
	else if (share->asked && share->share_pct > 0.0)
		bc_text_printf(script, "' . \"\\n\" . 'up to %.3g %%", share->share_pct);
	else if (share->asked)
		bc_text_append(script, "' . \"\\n\" . 'none may go in");
	bc_text_printf(script, "' textcolor rgb '%s'\n", BC_CHART_INK);
}

static void write_axes(
	const struct bc_mixing *mixing, const struct range *range, struct bc_text *script)
{
	bc_text_append(script, "part = ");
	bc_chart_quoted(bc_mix_part_name(mixing, mixing->node_part), script);
	bc_text_printf(script,
		"\nset xlabel 'share of ' . part . ', %% by volume' textcolor rgb '%s'\n"
		"set ylabel 'flash, closed cup, °C' textcolor rgb '%s'\n"
		"set xrange [0:100]\nset xtics 20\nset yrange [%g:%g]\nset bmargin 6\n"
		"set key at screen 0.5,0.015 center bottom horizontal maxrows 1 samplen 1.6 font "
		"','.small textcolor rgb '%s'\n",
		BC_CHART_INK, BC_CHART_INK, 10.0 * floor((range->from_c - 3.0) / 10.0),
		10.0 * ceil((range->to_c + 3.0) / 10.0), BC_CHART_INK);
}

static void chart_flash(const struct bc_mixing *mixing, struct bc_text *script)
{
	struct range range = {INFINITY, -INFINITY};
	double limit_c = bc_mix_flash_limit_c(mixing);
	bc_chart_start(mixing->mix.sample, "flash", "flash against share", script);
	title(mixing, script);
	if (mixing->n_nodes < 2) {
		bc_chart_nothing("one part alone has no share to choose", script);
		bc_chart_close(script);
		return;
	}
	write_nodes(mixing, &range, script);
	write_here(mixing, &range, script);
	widen(&range, limit_c);
	write_axes(mixing, &range, script);
	bc_text_append(script, "plot ");
	if (isfinite(limit_c))
		bc_text_printf(script,
			"%.6g with lines dashtype 3 linewidth 2 linecolor rgb '%s' title 'limit', "
			"\\\n\t",
			limit_c, BC_CHART_WARM);
	bc_text_printf(script,
		"$share using 1:3 with lines dashtype 2 linewidth 2 linecolor rgb '%s' title "
		"'at worst', \\\n"
		"\t$share using 1:2 with lines linewidth 2.5 linecolor rgb '%s' title 'flash', "
		"\\\n"
		"\t$here using 1:2 with points pointtype 7 pointsize 1.6*dot linecolor rgb '%s' "
		"title 'this mixture', \\\n"
		"\t$here using 1:3 with points pointtype 6 pointsize 1.6*dot linewidth 2 linecolor "
		"rgb '%s' notitle\n",
		BC_CHART_SOFT, BC_CHART_INK, BC_CHART_WARM, BC_CHART_WARM);
	bc_chart_close(script);
}

enum bc_status bc_report_mix_chart(
	const struct bc_mixing *mixing, const char *kind, struct bc_text *script)
{
	if (strcmp(kind, "flash") != 0)
		return BC_NOT_FOUND;
	chart_flash(mixing, script);
	return script->failed ? BC_NO_MEMORY : BC_OK;
}
