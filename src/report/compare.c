/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two batches beside each other: text, JSON and the picture of both curves. */
#include "report/compare.h"

#include <math.h>
#include <string.h>

#include "report/chart.h"
#include "report/json.h"
#include "report/page.h"
#include "report/trend.h"

static const char *apart_text(enum bc_apart apart)
{
	switch (apart) {
	case BC_APART_WITHIN:
		return "alike";
	case BC_APART_DOUBT:
		return "in doubt";
	case BC_APART_BEYOND:
		return "differ";
	case BC_APART_UNKNOWN:
		break;
	}
	return NULL;
}

/* ---- text */

static void head_line(struct bc_page *page, char which, const struct bc_compared_side *side)
{
	char lead[64];
	struct bc_text words;
	bc_text_init(&words);
	snprintf(lead, sizeof lead, "%c  batch %lld, %s: ", which, side->batch, side->day);
	bc_text_append(&words, side->name);
	if (side->feed != NULL)
		bc_text_printf(&words, " (%s)", side->feed);
	bc_page_paragraph(page, words.data != NULL ? words.data : "", lead, 3);
	page->text->failed = page->text->failed || words.failed;
	bc_text_release(&words);
}

/* The page's digits for figures and their difference. */
static void row(struct bc_page *page, const char *name, const struct bc_compared *compared)
{
	const char *unit = bc_figure_unit(compared->key);
	double size = fmax(fabs(compared->a.value), fabs(compared->b.value));
	int decimals = bc_page_decimals(size, unit);
	const char *words = apart_text(compared->apart);
	bc_page_printf(page, "  ");
	bc_page_cell(page, name, 24);
	bc_page_number(page, compared->a.value, decimals, 10);
	bc_page_number(page, compared->b.value, decimals, 10);
	bc_page_number(page, compared->difference, decimals, 10);
	if (isfinite(compared->repeatability))
		bc_page_number(page, compared->repeatability, decimals, 7);
	else
		bc_page_printf(page, "%7s", "");
	bc_page_number(page, compared->own, decimals, 7);
	if (words != NULL) {
		bc_page_ink(page, compared->apart == BC_APART_BEYOND  ? BC_INK_BAD
				  : compared->apart == BC_APART_DOUBT ? BC_INK_DOUBT
								      : BC_INK_FAINT);
		bc_page_printf(page, "  %s", words);
		bc_page_ink_off(page);
	}
	bc_page_printf(page, "\n");
}

static void point_rows(struct bc_page *page, const struct bc_comparison *comparison)
{
	bc_page_printf(page, "\n  %-24s%10s%10s%10s%7s%7s\n", "degC, corrected", "A", "B", "B - A",
		"test", "own");
	for (size_t i = 0; i < BC_POINTS; i++) {
		char name[24];
		const struct bc_compared *point = &comparison->points[i];
		if (isnan(point->a.value) && isnan(point->b.value))
			continue;
		snprintf(name, sizeof name, "%g %%", bc_point_pct[i]);
		row(page, i == BC_AT_IBP ? "IBP" : i == BC_AT_FBP ? "FBP" : name, point);
	}
}

static void figure_rows(struct bc_page *page, const struct bc_comparison *comparison)
{
	if (comparison->n_figures == 0)
		return;
	bc_page_printf(
		page, "\n  %-24s%10s%10s%10s%7s%7s\n", "figure", "A", "B", "B - A", "", "own");
	for (size_t i = 0; i < comparison->n_figures; i++)
		row(page, comparison->figures[i].key, &comparison->figures[i]);
}

enum bc_status bc_report_compare_text(const struct bc_comparison *comparison,
	const struct bc_page_style *style, struct bc_text *text)
{
	struct bc_page page = {.text = text, .style = style};
	bc_page_paragraph(&page, comparison->words, NULL, 0);
	bc_page_printf(&page, "\n");
	head_line(&page, 'A', &comparison->a);
	head_line(&page, 'B', &comparison->b);
	point_rows(&page, comparison);
	figure_rows(&page, comparison);
	bc_page_printf(&page, "\n");
	bc_page_paragraph(&page,
		"How far two figures of one oil may lie apart with 95 % confidence: test, two "
		"boil-offs by one laboratory (ASTM D86, from memory; a home rig repeats worse); "
		"own, by the bounds of both figures.",
		NULL, 0);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

/* ---- JSON */

static json_t *side_json(const struct bc_compared_side *side, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "batch", json_integer(side->batch));
	bc_json_put(failed, object, "revision", json_integer(side->number));
	bc_json_put(failed, object, "sample", bc_json_text(side->name));
	bc_json_put(failed, object, "day", bc_json_text(side->day));
	bc_json_put(failed, object, "feed", bc_json_text(side->feed));
	return object;
}

static json_t *compared_json(const struct bc_compared *compared, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "key", bc_json_text(compared->key));
	bc_json_put(failed, object, "a", bc_json_number(compared->a.value));
	bc_json_put(failed, object, "b", bc_json_number(compared->b.value));
	bc_json_put(failed, object, "difference", bc_json_number(compared->difference));
	bc_json_put(failed, object, "repeatability", bc_json_number(compared->repeatability));
	bc_json_put(failed, object, "own", bc_json_number(compared->own));
	bc_json_put(failed, object, "apart", bc_json_text(apart_text(compared->apart)));
	return object;
}

json_t *bc_report_compare_json(const struct bc_comparison *comparison)
{
	bool failed = false;
	json_t *points = json_array();
	json_t *figures = json_array();
	json_t *root = json_object();
	for (size_t i = 0; i < BC_POINTS; i++)
		bc_json_append(&failed, points, compared_json(&comparison->points[i], &failed));
	for (size_t i = 0; i < comparison->n_figures; i++)
		bc_json_append(&failed, figures, compared_json(&comparison->figures[i], &failed));
	bc_json_put(&failed, root, "a", side_json(&comparison->a, &failed));
	bc_json_put(&failed, root, "b", side_json(&comparison->b, &failed));
	bc_json_put(&failed, root, "message", bc_json_text(comparison->words));
	bc_json_put(&failed, root, "mean_difference_c", bc_json_number(comparison->mean_c));
	bc_json_put(&failed, root, "points", points);
	bc_json_put(&failed, root, "figures", figures);
	return bc_json_whole(failed, root);
}

/* ---- picture */

const char *const bc_compare_chart_kinds[] = {"compare", NULL};

static void write_curve(
	const struct bc_comparison *comparison, bool of_b, double span[2], struct bc_text *script)
{
	bc_text_printf(script, "# %% recovered, degC, low, high\n$%c << EOD\n", of_b ? 'b' : 'a');
	for (size_t i = 0; i < BC_POINTS; i++) {
		const struct bc_compared *point = &comparison->points[i];
		const struct bc_estimate *at = of_b ? &point->b : &point->a;
		if (isnan(at->value))
			continue;
		double low = isfinite(at->low) ? at->low : at->value;
		double high = isfinite(at->high) ? at->high : at->value;
		span[0] = fmin(span[0], low);
		span[1] = fmax(span[1], high);
		bc_text_printf(script, "%g ", bc_point_pct[i]);
		bc_chart_number(at->value, script);
		bc_text_append(script, " ");
		bc_chart_number(low, script);
		bc_text_append(script, " ");
		bc_chart_number(high, script);
		bc_text_append(script, "\n");
	}
	bc_text_append(script, "EOD\n");
}

static void write_plot(const struct bc_comparison *comparison, struct bc_text *script)
{
	const struct bc_compared_side *sides[] = {&comparison->a, &comparison->b};
	for (size_t i = 0; i < 2; i++) {
		bc_text_printf(script, "%s = '%c, batch %lld, ' . ", i == 0 ? "one" : "other",
			i == 0 ? 'A' : 'B', sides[i]->batch);
		bc_chart_quoted(sides[i]->name, script);
		bc_text_append(script, "\n");
	}
	bc_text_printf(script,
		"set key at screen 0.5,0.015 center bottom maxrows 2 samplen 1.6 font ','.small "
		"textcolor rgb '%s'\n"
		"plot $a using 1:3:4 with filledcurves fillcolor rgb '%s' fillstyle transparent solid "
		"0.18 notitle, \\\n"
		"\t$b using 1:3:4 with filledcurves fillcolor rgb '%s' fillstyle transparent solid 0.18 "
		"notitle, \\\n"
		"\t$a using 1:2 with linespoints pointtype 7 pointsize dot linewidth 2 linecolor rgb "
		"'%s' title one, \\\n"
		"\t$b using 1:2 with linespoints dashtype 2 pointtype 6 pointsize 1.2*dot linewidth 2 "
		"linecolor rgb '%s' title other\n",
		BC_CHART_INK, BC_CHART_INK, BC_CHART_WARM, BC_CHART_INK, BC_CHART_WARM);
}

enum bc_status bc_report_compare_chart(
	const struct bc_comparison *comparison, const char *kind, struct bc_text *script)
{
	double span[2] = {INFINITY, -INFINITY};
	char name[64];
	struct bc_sample sample = {.name = name, .file = name};
	if (strcmp(kind, "compare") != 0)
		return BC_NOT_FOUND;
	snprintf(name, sizeof name, "batches %lld and %lld", comparison->a.batch,
		comparison->b.batch);
	bc_chart_start(&sample, "compare", "both curves", script);
	bc_text_printf(script, "' . \"\\n\" . 'B - A: %+.1f °C on average' textcolor rgb '%s'\n",
		comparison->mean_c, BC_CHART_INK);
	write_curve(comparison, false, span, script);
	write_curve(comparison, true, span, script);
	if (!(span[1] >= span[0])) {
		bc_chart_nothing("neither batch has a curve", script);
		bc_chart_close(script);
		return script->failed ? BC_NO_MEMORY : BC_OK;
	}
	bc_text_printf(script,
		"set xlabel 'recovered, %% of the charge by volume' textcolor rgb '%s'\n"
		"set ylabel 'corrected, °C' textcolor rgb '%s'\nset bmargin 7\n"
		"set xrange [0:100]\nset xtics 20\nset yrange [%g:%g]\n",
		BC_CHART_INK, BC_CHART_INK, 50.0 * floor(span[0] / 50.0),
		50.0 * ceil(span[1] / 50.0 + 0.01));
	write_plot(comparison, script);
	bc_chart_close(script);
	return script->failed ? BC_NO_MEMORY : BC_OK;
}
