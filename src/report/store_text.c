/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jars for a person: what is in one, what moved, what is due. Danger first. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/page.h"
#include "report/store.h"

#define ML_PER_L 1000.0

const char *bc_volume_words(double volume_ml, char words[BC_VOLUME_WORDS_SIZE])
{
	if (fabs(volume_ml) < ML_PER_L)
		snprintf(words, BC_VOLUME_WORDS_SIZE, "%.4g mL", volume_ml);
	else
		snprintf(words, BC_VOLUME_WORDS_SIZE, "%.4g L", volume_ml / ML_PER_L);
	return words;
}

static void volumes(struct bc_text *text, const struct bc_store_jar *jar)
{
	char held[BC_VOLUME_WORDS_SIZE];
	char most[BC_VOLUME_WORDS_SIZE];
	if (jar->n_parts == 0)
		bc_text_append(text, "empty");
	else
		bc_text_append(text, bc_volume_words(jar->volume_ml, held));
	if (!isnan(jar->capacity_ml))
		bc_text_printf(text, "%s %s", jar->n_parts == 0 ? ", room for" : " of",
			bc_volume_words(jar->capacity_ml, most));
}

static void danger(struct bc_page *page, const struct bc_jar_page *what)
{
	const struct bc_contents *contents = what->contents;
	char line[200];
	if (!contents->petrol)
		return;
	const struct bc_batch_brief *worst = &contents->items[contents->worst].of;
	bc_page_box_edge(page);
	bc_page_box_line(page, "TREAT THIS JAR AS PETROL", true);
	if (isnan(worst->flash_low_c))
		snprintf(line, sizeof line,
			"Batch %lld is in it, whose flash nobody knows: its vapour may light at room "
			"temperature.",
			worst->batch);
	else
		snprintf(line, sizeof line,
			"Batch %lld is in it: its flash may be as low as %.1f degC, so that its vapour may "
			"light at room temperature.",
			worst->batch, worst->flash_low_c);
	bc_page_box_line(page, line, false);
	if (contents->n > 1)
		bc_page_box_line(page,
			"However little of it is in: a mixture is as dangerous as its "
			"worst part.",
			false);
	bc_page_box_edge(page);
}

static void clipped(struct bc_page *page, const char *s, size_t width)
{
	char shown[BC_ESCAPED_SIZE];
	size_t used = 0;
	for (size_t n = 0; *s != '\0'; s += n) {
		n = bc_escaped_character(s, shown);
		used += bc_text_columns(shown);
		if (used > width - 2) {
			bc_text_append(page->text, s[n] != '\0' ? ".." : shown);
			return;
		}
		bc_text_append(page->text, shown);
	}
}

static void content_row(struct bc_page *page, const struct bc_content *item)
{
	const struct bc_batch_brief *of = &item->of;
	char volume[BC_VOLUME_WORDS_SIZE];
	char flash[16] = "-";
	struct bc_text name;
	bc_text_init(&name);
	if (!isnan(of->flash_low_c))
		snprintf(flash, sizeof flash, "%.0f", floor(of->flash_low_c));
	bc_page_printf(page, "%5.1f %%  %9s  %5lld  %s  %-9s  %5s  ", item->share_pct,
		bc_volume_words(item->volume_ml, volume), of->batch, of->day, of->word, flash);
	bc_text_append(&name, of->name != NULL ? of->name : of->file);
	if (of->feed != NULL)
		bc_text_printf(&name, ", %s", of->feed);
	clipped(page, name.data != NULL ? name.data : "", 23);
	page->text->failed = page->text->failed || name.failed;
	bc_text_release(&name);
	bc_page_printf(page, "\n");
}

static void say(struct bc_page *page, const char *words)
{
	bc_page_paragraph(page, words, NULL, 0);
}

static void advice(struct bc_page *page, const struct bc_jar_page *what)
{
	const struct bc_contents *contents = what->contents;
	char line[256];
	bc_page_printf(page, "\n");
	if (!contents->petrol && contents->n > 0) {
		snprintf(line, sizeof line,
			"Flash of what is in it: no lower than %.0f degC (low bound of batch %lld, the "
			"worst).",
			floor(contents->flash_low_c), contents->items[contents->worst].of.batch);
		say(page, line);
	}
	if (contents->n > 1)
		say(page,
			"The verdict on a batch does not hold for a mixture: boil off what is in the "
			"jar.");
	if (contents->n > 0) {
		snprintf(line, sizeof line,
			"Look again by %s: peroxide, colour, sediment (three months after %s).",
			contents->due, contents->since);
		say(page, line);
	}
}

static void before(struct bc_page *page, const struct bc_jar_page *what)
{
	struct bc_text line;
	bool danger_stays = what->contents->was_petrol && !what->contents->petrol;
	if (what->jar->n_before == 0)
		return;
	bc_text_init(&line);
	bc_text_printf(
		&line, "In it before it was emptied: batch%s", what->jar->n_before > 1 ? "es" : "");
	for (size_t i = 0; i < what->jar->n_before; i++)
		bc_text_printf(&line, "%s %lld", i > 0 ? "," : "", what->jar->before[i]);
	bc_text_append(&line, danger_stays ? ", to be treated as petrol. So is this jar, unless it "
					     "was drained, dried and aired."
					   : "; what clung to the wall is not counted.");
	say(page, line.data != NULL ? line.data : "");
	page->text->failed = page->text->failed || line.failed;
	bc_text_release(&line);
}

static void movement_words(struct bc_text *text, const struct bc_movement *item, const char *id)
{
	char words[BC_VOLUME_WORDS_SIZE];
	const char *volume = bc_volume_words(item->volume_ml, words);
	switch (item->kind) {
	case BC_MOVE_FILL:
		bc_text_printf(text, "%s of batch %lld in", volume, item->batch);
		break;
	case BC_MOVE_MIX:
		if (item->from != NULL && strcmp(item->from, id) == 0)
			bc_text_printf(text, "%s over into jar %s", volume,
				item->to != NULL ? item->to : "");
		else
			bc_text_printf(text, "%s in from jar %s", volume,
				item->from != NULL ? item->from : "");
		break;
	case BC_MOVE_EMPTY:
		bc_text_printf(text, "%s out", volume);
		break;
	case BC_MOVE_PLACE:
		bc_text_append(text, "put");
		break;
	case BC_MOVE_TEST:
		bc_text_append(text, "tested");
		break;
	}
	if (item->text != NULL)
		bc_text_printf(text, ": %s", item->text);
}

static void history(struct bc_page *page, const struct bc_jar_page *what)
{
	const struct bc_movements *movements = what->movements;
	if (movements == NULL || movements->n == 0)
		return;
	bc_page_heading(page, "What was done", NULL);
	for (size_t i = 0; i < movements->n; i++) {
		struct bc_text line;
		char lead[32];
		bc_text_init(&line);
		snprintf(lead, sizeof lead, "  %.10s  ", movements->items[i].date);
		movement_words(&line, &movements->items[i], what->jar->id);
		bc_page_paragraph(page, line.data != NULL ? line.data : "", lead, 14);
		page->text->failed = page->text->failed || line.failed;
		bc_text_release(&line);
	}
}

enum bc_status bc_report_jar(const struct bc_jar_page *what, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	struct bc_text line;
	bc_text_init(&line);
	danger(&page, what);
	bc_text_printf(&line, "Jar %s: ", what->jar->id);
	volumes(&line, what->jar);
	if (what->jar->place != NULL)
		bc_text_printf(&line, "; %s", what->jar->place);
	bc_page_paragraph(&page, line.data != NULL ? line.data : "", NULL, 0);
	text->failed = text->failed || line.failed;
	bc_text_release(&line);
	before(&page, what);
	if (what->contents->n > 0)
		bc_text_append(text,
			"\n  share     volume  batch  day         verdict    flash  sample, "
			"feed\n"
			"                                                from C\n");
	for (size_t i = 0; i < what->contents->n; i++)
		content_row(&page, &what->contents->items[i]);
	advice(&page, what);
	history(&page, what);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_jar_line(const struct bc_jar_page *what, struct bc_text *text)
{
	const struct bc_contents *contents = what->contents;
	struct bc_text line;
	bc_text_init(&line);
	bc_text_printf(&line, "Jar %s: ", what->jar->id);
	volumes(&line, what->jar);
	for (size_t i = 0; i < contents->n; i++)
		bc_text_printf(&line, "%s batch %lld %.3g %%", i == 0 ? ";" : ",",
			contents->items[i].of.batch, contents->items[i].share_pct);
	if (what->jar->place != NULL)
		bc_text_printf(&line, "; %s", what->jar->place);
	if (contents->petrol)
		bc_text_append(&line, "; TREAT AS PETROL");
	else if (contents->was_petrol)
		bc_text_append(&line, "; HELD PETROL BEFORE: treat as such unless it was cleaned");
	if (line.data != NULL) {
		struct bc_text escaped;
		bc_text_init(&escaped);
		bc_text_append_escaped(&escaped, line.data);
		if (escaped.data != NULL)
			bc_text_append_wrapped(text, escaped.data, "", 2, BC_PAGE_COLUMNS);
		text->failed = text->failed || escaped.failed;
		bc_text_release(&escaped);
	}
	text->failed = text->failed || line.failed;
	bc_text_release(&line);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_dues(const struct bc_dues *dues, const char *on, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	if (dues->n == 0) {
		bc_text_printf(text, "No jar is due on %s.\n", on);
		return text->failed ? BC_NO_MEMORY : BC_OK;
	}
	bc_text_printf(text,
		"To be looked at by %s: peroxide, colour, sediment.\n"
		"'boilcut book jar test JAR' says that it was done.\n\n"
		"due         jar\n",
		on);
	for (size_t i = 0; i < dues->n; i++) {
		const struct bc_due *due = &dues->items[i];
		char volume[BC_VOLUME_WORDS_SIZE];
		char lead[16];
		struct bc_text line;
		bc_text_init(&line);
		snprintf(lead, sizeof lead, "%.10s  ", due->due);
		bc_text_printf(&line, "%s: %s, oldest is batch %lld of %s", due->jar,
			bc_volume_words(due->volume_ml, volume), due->batch, due->since);
		if (due->place != NULL)
			bc_text_printf(&line, "; %s", due->place);
		bc_page_paragraph(&page, line.data != NULL ? line.data : "", lead, 12);
		text->failed = text->failed || line.failed;
		bc_text_release(&line);
	}
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
