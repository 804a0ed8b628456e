/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of the book for a person, 80 columns: a list, and one record. */
#include <math.h>
#include <string.h>

#include "report/book.h"
#include "report/json.h"
#include "report/page.h"

/* Columns of a row that are left for the name and the feed. */
#define NAME_COLUMNS 28

/* s escaped, cut off with dots at width columns. */
static void clipped(struct bc_text *text, const char *s, size_t width)
{
	char shown[BC_ESCAPED_SIZE];
	size_t used = 0;
	struct bc_text whole;
	bc_text_init(&whole);
	bc_text_append_escaped(&whole, s);
	text->failed = text->failed || whole.failed;
	bool fits = whole.data == NULL || bc_text_columns(whole.data) <= width;
	bc_text_release(&whole);
	for (size_t n = 0; *s != '\0'; s += n) {
		n = bc_escaped_character(s, shown);
		size_t columns = bc_text_columns(shown);
		if (!fits && used + columns > width - 2)
			break;
		bc_text_append(text, shown);
		used += columns;
	}
	if (!fits)
		bc_text_append(text, "..");
}

void bc_report_book_head(struct bc_text *text)
{
	bc_text_append(text, "batch  day         verdict    nearest to     flash  sample, feed\n"
			     "                                             from C\n");
}

void bc_report_book_row(const struct bc_book_row *row, struct bc_text *text)
{
	struct bc_text name;
	char flash[16] = "-";
	size_t grade = row->grade != NULL ? strcspn(row->grade, "-") : 0;
	if (row->grade != NULL && strstr(row->grade, "-range") != NULL)
		grade = (size_t)(strstr(row->grade, "-range") - row->grade);
	if (!isnan(row->flash_low_c))
		snprintf(flash, sizeof flash, "%.0f", floor(row->flash_low_c));
	bc_text_printf(text, "%5lld  %s  %-9s  %-12.*s  %6s  ", row->batch, row->day, row->word,
		(int)grade, row->grade != NULL ? row->grade : "", flash);
	bc_text_init(&name);
	bc_text_append(&name, row->name != NULL ? row->name : row->file);
	if (row->feed != NULL)
		bc_text_printf(&name, ", %s", row->feed);
	clipped(text, name.data != NULL ? name.data : "", NAME_COLUMNS);
	bc_text_append(text, "\n");
	text->failed = text->failed || name.failed;
	bc_text_release(&name);
}

/* ---- one record */

/* "  feed     PP and PE bottle caps", nothing for NULL. */
static void fact(struct bc_page *page, const char *name, const char *value)
{
	char lead[32];
	if (value == NULL)
		return;
	snprintf(lead, sizeof lead, "  %-9s ", name);
	bc_page_paragraph(page, value, lead, 12);
}

static void head(struct bc_page *page, const struct bc_record *record)
{
	bc_page_printf(page, "Batch %lld", record->place.batch);
	if (record->n_revisions > 1)
		bc_page_printf(
			page, ", revision %lld of %zu", record->place.number, record->n_revisions);
	bc_page_printf(page, "\n");
	fact(page, "sample", record->name);
	fact(page, "date", record->date);
	fact(page, "feed", record->feed);
	fact(page, "history", record->history);
	fact(page, "still", record->still);
	fact(page, "drawn", record->drawn);
	fact(page, "file", record->file);
	fact(page, "added", record->added);
	fact(page, "by", record->program);
	fact(page, "because", record->reason);
}

static const char *text_at(const json_t *object, const char *key)
{
	return json_string_value(json_object_get(object, key));
}

static void verdict(struct bc_page *page, const json_t *judgement)
{
	const json_t *says = json_object_get(judgement, "verdict");
	const char *word = text_at(says, "word");
	const char *grade = text_at(says, "grade");
	const char *standard = text_at(says, "standard");
	const json_t *because = json_object_get(says, "because");
	bc_page_printf(page, "\nVerdict: %s", word != NULL ? word : "none");
	if (grade != NULL)
		bc_page_printf(page, "; %s%s%s", grade, standard != NULL ? ", " : "",
			standard != NULL ? standard : "");
	bc_page_printf(page, "\n");
	for (size_t i = 0; i < json_array_size(because); i++) {
		const char *why = json_string_value(json_array_get(because, i));
		if (why != NULL)
			bc_page_paragraph(page, why, "  - ", 4);
	}
}

/* What stands in the box of the page, then the classes that do apply. */
static void dangers(struct bc_page *page, const json_t *judgement)
{
	static const char not_in[] = "not ";
	const json_t *findings = json_object_get(judgement, "findings");
	const json_t *hazards = json_object_get(judgement, "hazard");
	struct bc_strings said;
	bc_strings_init(&said);
	for (size_t i = 0; i < json_array_size(findings); i++) {
		const json_t *finding = json_array_get(findings, i);
		const char *severity = text_at(finding, "severity");
		const char *message = text_at(finding, "message");
		if (severity != NULL && message != NULL &&
			strcmp(severity, bc_weight_text(BC_FINDING_DANGER)) == 0)
			bc_strings_add(&said, "%s", message);
	}
	for (size_t i = 0; i < json_array_size(hazards); i++) {
		const json_t *hazard = json_array_get(hazards, i);
		const char *scheme = text_at(hazard, "scheme");
		const char *class_name = text_at(hazard, "class");
		const char *message = text_at(hazard, "message");
		if (scheme != NULL && class_name != NULL && message != NULL &&
			strncmp(class_name, not_in, strlen(not_in)) != 0)
			bc_strings_add(&said, "%s: %s; %s", scheme, class_name, message);
	}
	page->text->failed = page->text->failed || said.failed;
	bc_page_list(page, "Fire hazard and danger", NULL, &said);
	bc_strings_release(&said);
}

static double number_at(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);
	return json_is_number(value) ? json_number_value(value) : (double)NAN;
}

static void figure(struct bc_page *page, const char *name, const char *unit, double value,
	double low, double high)
{
	if (isnan(value))
		return;
	int decimals = bc_page_decimals(value, unit);
	bc_page_printf(page, "  %-24s", name);
	bc_page_number(page, value, decimals, 8);
	bc_page_printf(page, " %-6s ", unit);
	bc_page_span(page, low, high, decimals, 1);
	bc_page_printf(page, "\n");
}

static void figures(struct bc_page *page, const json_t *judgement)
{
	static const char *const points[] = {"ibp_c", "t10_c", "t50_c", "t90_c", "fbp_c"};
	static const char *const names[] = {"IBP", "T10", "T50", "T90", "FBP"};
	static const enum bc_property shown[] = {
		BC_FLASH, BC_DENSITY15, BC_CETANE_INDEX, BC_VISC40};
	const json_t *properties = json_object_get(judgement, "properties");
	bc_page_heading(page, "Figures", "value, 95 % bounds");
	for (size_t i = 0; i < sizeof shown / sizeof shown[0]; i++) {
		const json_t *property = json_object_get(properties, bc_property_keys[shown[i]]);
		figure(page, bc_property_names[shown[i]], bc_property_units[shown[i]],
			number_at(property, "value"), number_at(property, "low"),
			number_at(property, "high"));
	}
	for (size_t i = 0; i < sizeof points / sizeof points[0]; i++)
		figure(page, names[i], "degC",
			number_at(json_object_get(judgement, "points"), points[i]),
			number_at(json_object_get(judgement, "points_low"), points[i]),
			number_at(json_object_get(judgement, "points_high"), points[i]));
	figure(page, "loss", "%", number_at(judgement, "loss_pct"), (double)NAN, (double)NAN);
	figure(page, "residue", "%", number_at(judgement, "residue_pct"), (double)NAN, (double)NAN);
}

static void revisions(struct bc_page *page, const struct bc_record *record)
{
	struct bc_strings lines;
	bc_strings_init(&lines);
	for (size_t i = 0; i < record->n_revisions && record->n_revisions > 1; i++) {
		const struct bc_revision *revision = &record->revisions[i];
		bc_strings_add(&lines, "%lld, %s, %s: %s%s%s", revision->number, revision->added,
			revision->file, revision->word,
			revision->reason != NULL ? "; because: " : "",
			revision->reason != NULL ? revision->reason : "");
	}
	page->text->failed = page->text->failed || lines.failed;
	bc_page_list(page, "Revisions", NULL, &lines);
	bc_strings_release(&lines);
}

static void notes(struct bc_page *page, const struct bc_record *record)
{
	struct bc_strings lines;
	bc_strings_init(&lines);
	for (size_t i = 0; i < record->n_notes; i++)
		bc_strings_add(&lines, "%s: %s", record->notes[i].added, record->notes[i].text);
	page->text->failed = page->text->failed || lines.failed;
	bc_page_list(page, "Notes", NULL, &lines);
	bc_strings_release(&lines);
}

enum bc_status bc_report_record(const struct bc_record *record, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	json_t *judgement = NULL;
	enum bc_status status = bc_report_json_read(record->judgement, &judgement);
	if (bc_failed(status))
		return status;
	head(&page, record);
	verdict(&page, judgement);
	dangers(&page, judgement);
	figures(&page, judgement);
	revisions(&page, record);
	notes(&page, record);
	json_decref(judgement);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
