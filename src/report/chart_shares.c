/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the charge is made of, by boiling range, each share with its bounds. */
#include <math.h>

#include "report/chart.h"

static const char *const bars[BC_SHARES] = {
	[BC_SHARE_LIGHT_END] = "light end, to 35 °C",
	[BC_SHARE_GASOLINE] = "gasoline, 35-180 °C",
	[BC_SHARE_KEROSENE] = "kerosene, 180-240 °C",
	[BC_SHARE_DIESEL] = "diesel, 240-350 °C",
	[BC_SHARE_HEAVY] = "heavy, above 350 °C",
	[BC_SHARE_RESIDUE] = "left in the flask",
	[BC_SHARE_LOST] = "lost",
};

static double write_shares(const struct bc_shares *shares, struct bc_text *script)
{
	double most = 10.0;
	bc_text_append(script, "# row, share %, low, high (95 %)\n$shares << EOD\n");
	for (size_t i = 0; i < BC_SHARES; i++) {
		const struct bc_estimate *share = &shares->pct[i];
		bool bounded = isfinite(share->low) && isfinite(share->high);
		bc_text_printf(script, "%zu ", i);
		bc_chart_number(share->value, script);
		bc_text_append(script, " ");
		bc_chart_number(bounded ? share->low : share->value, script);
		bc_text_append(script, " ");
		bc_chart_number(bounded ? share->high : share->value, script);
		bc_text_append(script, "\n");
		most = fmax(most, fmax(share->value, share->high));
	}
	bc_text_append(script, "EOD\n");
	return most;
}

void bc_chart_shares(const struct bc_judgement *judgement, struct bc_text *script)
{
	bc_chart_open(judgement, "shares", "shares by boiling range", script);
	double most = write_shares(&judgement->shares, script);
	bc_text_append(script, "set ytics scale 0 (");
	for (size_t i = 0; i < BC_SHARES; i++)
		bc_text_printf(script, "%s'%s' %zu", i > 0 ? ", " : "", bars[i], i);
	bc_text_append(script, ")\n");
	bc_text_printf(script,
		"set border 1\nset rmargin 10\nset yrange [%g:-0.6]\nset xrange [0:%g]\n"
		"set xlabel '%% of the charge by volume; line: 95 %% bounds' textcolor "
		"rgb "
		"'%s'\n",
		BC_SHARES - 0.4, 10.0 * ceil(most / 10.0), BC_CHART_INK);
	bc_text_printf(script,
		"plot $shares using ($2/2):1:($2/2):(0.3) with boxxyerror fillstyle solid noborder "
		"fillcolor rgb '#8fa3ae', \\\n"
		"\t$shares using 2:1:3:4 with xerrorbars pointtype 0 linewidth 1.2 linecolor rgb "
		"'%s', "
		"\\\n"
		"\t$shares using ($4 > $2 ? $4 : $2):1:(sprintf('%%.1f %%%%', $2)) with labels "
		"left offset "
		"0.8,0 textcolor rgb '%s'\n",
		BC_CHART_INK, BC_CHART_INK);
	bc_chart_close(script);
}
