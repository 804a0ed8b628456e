/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Re-runs and stills of the book. */
#include "report/pair.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "report/json.h"
#include "report/page.h"

static void pair_words(struct bc_page *page, const struct bc_pair *pair)
{
	bc_page_printf(page, "Pair %lld: batch %lld became batch %lld", pair->id, pair->feed,
		pair->product);
	if (pair->still != NULL) {
		bc_page_printf(page, " on ");
		bc_page_cell(page, pair->still, 0);
	}
	if (!isnan(pair->cut_c))
		bc_page_printf(page, ", from %.4g degC", pair->cut_c);
	if (!isnan(pair->until_c))
		bc_page_printf(page, ", until %.4g degC", pair->until_c);
	bc_page_printf(page, "\n");
}

static bool has_bounds(const struct bc_pair_figure *figure)
{
	bool expected = isfinite(figure->predicted_low) || isfinite(figure->predicted_high);
	return expected && isfinite(figure->low) && isfinite(figure->high);
}

static void in_short(struct bc_page *page, size_t bounded, size_t apart)
{
	char line[200];
	if (bounded == 0) {
		bc_page_paragraph(page,
			"None of it has bounds on both sides that the difference could be held "
			"against.",
			NULL, 0);
		return;
	}
	snprintf(line, sizeof line, "Of %zu figure%s with bounds on both sides %zu %s apart.%s",
		bounded, bounded == 1 ? "" : "s", apart, apart == 1 ? "lies" : "lie",
		apart > 0 ? " The still did not do what was expected of it: calibrate it with this "
			    "pair, or look for a mistake in the boil-offs."
			  : "");
	bc_page_paragraph(page, line, NULL, 0);
}

static void figures(struct bc_page *page, const struct bc_pair_comparison *comparison)
{
	size_t apart = 0;
	size_t bounded = 0;
	bc_page_printf(page, "\n%-26s %10s %10s %12s\n", "", "expected", "measured", "difference");
	for (size_t i = 0; i < comparison->n; i++) {
		const struct bc_pair_figure *figure = &comparison->items[i];
		int decimals = fabs(figure->predicted) < 10.0 ? 2 : 1;
		bc_page_cell(page, figure->key, 26);
		bc_page_printf(page, " %10.*f %10.*f %+12.*f%s\n", decimals, figure->predicted,
			decimals, figure->measured, decimals, figure->difference,
			figure->apart ? "  apart" : "");
		apart += figure->apart;
		bounded += has_bounds(figure);
	}
	bc_page_printf(page, "\n");
	in_short(page, bounded, apart);
}

enum bc_status bc_report_pair(const struct bc_pair *pair,
	const struct bc_pair_comparison *comparison, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	pair_words(&page, pair);
	switch (comparison->source) {
	case BC_PLAN_NONE:
		bc_page_paragraph(&page,
			"Nothing was expected of it: no plan was kept, and the judgement of the feed "
			"suggests no re-run. 'boilcut tap --json' makes a plan.",
			NULL, 0);
		break;
	case BC_PLAN_KEPT:
		bc_page_paragraph(&page, "Expected: by the plan that was kept.", NULL, 0);
		break;
	case BC_PLAN_JUDGED:
		bc_page_paragraph(&page,
			"Expected: by the re-run that the judgement of the feed suggested.", NULL,
			0);
		break;
	}
	if (comparison->n > 0)
		figures(&page, comparison);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_pairs(const struct bc_pairs *pairs, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	for (size_t i = 0; i < pairs->n; i++)
		pair_words(&page, &pairs->items[i]);
	if (pairs->n == 0)
		bc_page_printf(&page, "No pair yet.\n");
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

static json_t *figures_json(const struct bc_pair_comparison *comparison, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < comparison->n; i++) {
		const struct bc_pair_figure *figure = &comparison->items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "key", bc_json_text(figure->key));
		bc_json_put(failed, object, "expected", bc_json_number(figure->predicted));
		bc_json_put(failed, object, "expected_low", bc_json_number(figure->predicted_low));
		bc_json_put(
			failed, object, "expected_high", bc_json_number(figure->predicted_high));
		bc_json_put(failed, object, "measured", bc_json_number(figure->measured));
		bc_json_put(failed, object, "measured_low", bc_json_number(figure->low));
		bc_json_put(failed, object, "measured_high", bc_json_number(figure->high));
		bc_json_put(failed, object, "difference", bc_json_number(figure->difference));
		bc_json_put(failed, object, "apart", json_boolean(figure->apart));
		bc_json_append(failed, array, object);
	}
	return array;
}

json_t *bc_report_pair_json(const struct bc_pair *pair, const struct bc_pair_comparison *comparison)
{
	static const char *const sources[] = {NULL, "plan", "judgement"};
	bool failed = false;
	json_t *object = json_object();
	bc_json_put(&failed, object, "pair", json_integer(pair->id));
	bc_json_put(&failed, object, "added", bc_json_text(pair->added));
	bc_json_put(&failed, object, "feed", json_integer(pair->feed));
	bc_json_put(&failed, object, "product", json_integer(pair->product));
	bc_json_put(&failed, object, "still", bc_json_text(pair->still));
	bc_json_put(&failed, object, "cut_c", bc_json_number(pair->cut_c));
	bc_json_put(&failed, object, "until_c", bc_json_number(pair->until_c));
	bc_json_put(&failed, object, "expected_by",
		bc_json_text(comparison != NULL ? sources[comparison->source] : NULL));
	bc_json_put(&failed, object, "figures",
		comparison != NULL ? figures_json(comparison, &failed) : json_null());
	return bc_json_whole(failed, object);
}

/* ---- stills */

static void still_words(struct bc_page *page, const struct bc_book_still *still)
{
	bc_page_cell(page, still->name, 0);
	bc_page_printf(page, ": version %lld of %lld, %s\n", still->version, still->versions,
		still->added);
}

static void file_lines(struct bc_page *page, const char *file)
{
	while (*file != '\0') {
		size_t n = strcspn(file, "\n");
		char *line = bc_strndup(file, n);
		if (line == NULL) {
			page->text->failed = true;
			return;
		}
		if (n > 0 && line[n - 1] == '\r')
			line[n - 1] = '\0';
		bc_page_printf(page, "  ");
		bc_text_append_escaped(page->text, line);
		bc_page_printf(page, "\n");
		bc_free(line);
		file += n + (file[n] == '\n');
	}
}

enum bc_status bc_report_book_still(const struct bc_book_still *still, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	still_words(&page, still);
	bc_page_printf(&page, "\n");
	file_lines(&page, still->text);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_book_stills(const struct bc_book_stills *stills, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	for (size_t i = 0; i < stills->n; i++)
		still_words(&page, &stills->items[i]);
	if (stills->n == 0)
		bc_page_printf(&page, "No still yet; 'boilcut book still add FILE' keeps one.\n");
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

json_t *bc_report_book_still_json(const struct bc_book_still *still)
{
	bool failed = false;
	json_t *object = json_object();
	bc_json_put(&failed, object, "name", bc_json_text(still->name));
	bc_json_put(&failed, object, "version", json_integer(still->version));
	bc_json_put(&failed, object, "versions", json_integer(still->versions));
	bc_json_put(&failed, object, "added", bc_json_text(still->added));
	/* kept as UTF-8, so that its lines stay lines */
	bc_json_put(&failed, object, "text",
		still->text != NULL ? json_string(still->text) : json_null());
	return bc_json_whole(failed, object);
}
