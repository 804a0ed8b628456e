/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limit tables in force, for a person and as JSON. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/json.h"
#include "report/page.h"
#include "verdict/phrase.h"

static const char *const role_texts[] = {
	[BC_ROLE_JUDGE] = "judged",
	[BC_ROLE_SAFETY] = "safety",
	[BC_ROLE_CUSTOMS] = "customs",
	[BC_ROLE_OTHER_TEST] = "other test",
};

static const char *const seen_texts[] = {
	[BC_SEEN_TWICE] = "seen twice",
	[BC_SEEN_ONCE] = "seen once",
	[BC_SEEN_MEMORY] = "from memory",
};

static bool shown(const struct bc_limit *limit, const struct bc_limits_view *view)
{
	return (view->grade == BC_GRADES || limit->grade == view->grade) &&
	       (view->standard == NULL || strcmp(limit->standard, view->standard) == 0) &&
	       (!view->from_memory || limit->seen == BC_SEEN_MEMORY);
}

static bool same_standard(const struct bc_limit *a, const struct bc_limit *b)
{
	return a->grade == b->grade && strcmp(a->standard, b->standard) == 0;
}

static void standard_heading(struct bc_page *page, const struct bc_limit *limit)
{
	struct bc_text title;
	bc_text_init(&title);
	bc_text_printf(&title, "%s: %s, %s", bc_grade_texts[limit->grade], limit->standard,
		limit->edition);
	bc_text_append(page->text, "\n");
	if (title.data != NULL)
		bc_page_paragraph(page, title.data, "", 2);
	page->text->failed = page->text->failed || title.failed;
	bc_text_release(&title);
	const char *scope = bc_standard_scope(limit->standard);
	if (scope != NULL)
		bc_page_paragraph(page, scope, NULL, 2);
	if (!limit->judged)
		bc_page_paragraph(page,
			"A variant: judged only where --want names the grade or --standard it.",
			NULL, 2);
}

static void limit_row(struct bc_page *page, const struct bc_limit *limit)
{
	char name[BC_PHRASE_SIZE];
	char words[BC_PHRASE_SIZE];
	bc_limit_property_text(limit->property, name, sizeof name);
	bc_phrase_limit(limit, words, sizeof words);
	size_t used = strlen(name);
	if (strcmp(limit->basis, "evaporated") == 0 && strstr(name, " point") != NULL)
		snprintf(name + used, sizeof name - used, ", evaporated");
	bc_text_append(page->text, "  ");
	bc_page_cell(page, name, 30);
	bc_text_append(page->text, " ");
	bc_page_cell(page, words, 22);
	bc_text_append(page->text, " ");
	bc_page_cell(page, limit->in_force ? role_texts[limit->role] : "not in force", 13);
	bc_page_cell(page, seen_texts[limit->seen], 0);
	bc_text_append(page->text, "\n");
}

/* Rows of one standard need not stand together in the table: each standard is shown where its first
 * row that is shown stands. */
static bool first_shown(const struct bc_limits *limits, const struct bc_limits_view *view, size_t i)
{
	for (size_t j = 0; j < i; j++) {
		if (shown(&limits->items[j], view) &&
			same_standard(&limits->items[j], &limits->items[i]))
			return false;
	}
	return shown(&limits->items[i], view);
}

static void explain(struct bc_page *page)
{
	static const char *const words[] = {
		"judged: counts towards the grade",
		"safety: counts, and only by the unfavourable bound",
		"customs: a line that decides the duty; shown, never makes an oil unfit; the one "
		"at 350 degC counts as a heavy tail",
		"other test: no boil-off can tell; counts once it is measured",
		"seen twice, seen once: in print or in public copies; from memory: written down "
		"without a look into the standard, so look it up before relying on it",
		"not in force: superseded, or the milder of two readings; never judged",
	};
	bc_page_paragraph(page,
		"Limits of standards. Temperatures are corrected: the D86 basis at 101.3 kPa.", "",
		0);
	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		bc_page_paragraph(page, words[i], "  ", 4);
}

enum bc_status bc_report_limits(
	const struct bc_limits *limits, const struct bc_limits_view *view, struct bc_text *text)
{
	const struct bc_page_style style = {0};
	struct bc_page page = {.text = text, .style = &style};
	explain(&page);
	for (size_t i = 0; i < limits->n; i++) {
		if (!first_shown(limits, view, i))
			continue;
		standard_heading(&page, &limits->items[i]);
		for (size_t j = i; j < limits->n; j++) {
			if (shown(&limits->items[j], view) &&
				same_standard(&limits->items[i], &limits->items[j]))
				limit_row(&page, &limits->items[j]);
		}
	}
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

static json_t *limit_json(const struct bc_limit *limit, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "grade", json_string(bc_grade_texts[limit->grade]));
	bc_json_put(failed, object, "standard", bc_json_text(limit->standard));
	bc_json_put(failed, object, "edition", bc_json_text(limit->edition));
	bc_json_put(failed, object, "property", bc_json_text(limit->property));
	bc_json_put(failed, object, "basis",
		limit->basis[0] == '\0' ? json_null() : bc_json_text(limit->basis));
	bc_json_put(failed, object, "min", bc_json_number(limit->min));
	bc_json_put(failed, object, "max", bc_json_number(limit->max));
	bc_json_put(failed, object, "strict", json_boolean(limit->strict));
	bc_json_put(failed, object, "unit", bc_json_text(limit->unit));
	bc_json_put(failed, object, "method", bc_json_text(limit->method));
	bc_json_put(failed, object, "role", json_string(role_texts[limit->role]));
	bc_json_put(failed, object, "in_force", json_boolean(limit->in_force));
	bc_json_put(failed, object, "seen", json_string(seen_texts[limit->seen]));
	bc_json_put(failed, object, "note", bc_json_text(limit->note));
	bc_json_put(failed, object, "judged", json_boolean(limit->judged));
	return object;
}

json_t *bc_report_limits_json(const struct bc_limits *limits, const struct bc_limits_view *view)
{
	bool failed = false;
	json_t *rows = json_array();
	for (size_t i = 0; i < limits->n; i++) {
		if (shown(&limits->items[i], view))
			bc_json_append(&failed, rows, limit_json(&limits->items[i], &failed));
	}
	return bc_json_whole(failed, rows);
}
