/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of the book as JSON, and how two judgements differ. */
#include <string.h>

#include "base/memory.h"
#include "report/book.h"
#include "report/json.h"

static int append_piece(const char *piece, size_t n, void *context)
{
	struct bc_text *text = context;
	bc_text_append_n(text, piece, n);
	return text->failed ? -1 : 0;
}

enum bc_status bc_report_json_line(const json_t *json, struct bc_text *text)
{
	/* the digits that 'judge --json' prints */
	const size_t flags =
		JSON_COMPACT | JSON_ENCODE_ANY | JSON_PRESERVE_ORDER | JSON_REAL_PRECISION(6);
	if (json_dump_callback(json, append_piece, text, flags) != 0 || text->failed)
		return BC_NO_MEMORY;
	return BC_OK;
}

enum bc_status bc_report_json_read(const char *text, json_t **json)
{
	/* Without memory the reader may blame the text: it is asked twice, and memory is tried. */
	*json = json_loads(text, 0, NULL);
	if (*json == NULL)
		*json = json_loads(text, 0, NULL);
	if (*json != NULL)
		return BC_OK;
	void *memory = bc_alloc(strlen(text) + 1);
	enum bc_status status = memory != NULL ? BC_MALFORMED : BC_NO_MEMORY;
	bc_free(memory);
	return status;
}

json_t *bc_report_book_row_json(const struct bc_book_row *row)
{
	bool failed = false;
	json_t *object = json_object();
	bc_json_put(&failed, object, "batch", json_integer(row->batch));
	bc_json_put(&failed, object, "revision", json_integer(row->number));
	bc_json_put(&failed, object, "added", bc_json_text(row->added));
	bc_json_put(&failed, object, "day", bc_json_text(row->day));
	bc_json_put(&failed, object, "file", bc_json_text(row->file));
	bc_json_put(&failed, object, "sample", bc_json_text(row->name));
	bc_json_put(&failed, object, "date", bc_json_text(row->date));
	bc_json_put(&failed, object, "feed", bc_json_text(row->feed));
	bc_json_put(&failed, object, "history", bc_json_text(row->history));
	bc_json_put(&failed, object, "still", bc_json_text(row->still));
	bc_json_put(&failed, object, "drawn", bc_json_text(row->drawn));
	bc_json_put(&failed, object, "boilcut", bc_json_text(row->program));
	bc_json_put(&failed, object, "word", bc_json_text(row->word));
	bc_json_put(&failed, object, "grade", bc_json_text(row->grade));
	bc_json_put(&failed, object, "flash_c", bc_json_number(row->flash_c));
	bc_json_put(&failed, object, "flash_low_c", bc_json_number(row->flash_low_c));
	bc_json_put(&failed, object, "notes", json_integer(row->notes));
	return bc_json_whole(failed, object);
}

static json_t *revisions_json(const struct bc_record *record, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < record->n_revisions; i++) {
		const struct bc_revision *revision = &record->revisions[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "revision", json_integer(revision->number));
		bc_json_put(failed, object, "added", bc_json_text(revision->added));
		bc_json_put(failed, object, "reason", bc_json_text(revision->reason));
		bc_json_put(failed, object, "file", bc_json_text(revision->file));
		bc_json_put(failed, object, "boilcut", bc_json_text(revision->program));
		bc_json_put(failed, object, "word", bc_json_text(revision->word));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *notes_json(const struct bc_record *record, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < record->n_notes; i++) {
		json_t *object = json_object();
		bc_json_put(failed, object, "added", bc_json_text(record->notes[i].added));
		bc_json_put(failed, object, "text", bc_json_text(record->notes[i].text));
		bc_json_append(failed, array, object);
	}
	return array;
}

json_t *bc_report_record_json(const struct bc_record *record)
{
	bool failed = false;
	json_t *object = json_object();
	bc_json_put(&failed, object, "batch", json_integer(record->place.batch));
	bc_json_put(&failed, object, "revision", json_integer(record->place.number));
	bc_json_put(&failed, object, "added", bc_json_text(record->added));
	bc_json_put(&failed, object, "reason", bc_json_text(record->reason));
	bc_json_put(&failed, object, "file", bc_json_text(record->file));
	bc_json_put(&failed, object, "bytes", json_integer((json_int_t)record->n));
	bc_json_put(&failed, object, "day", bc_json_text(record->day));
	bc_json_put(&failed, object, "still", bc_json_text(record->still));
	bc_json_put(&failed, object, "drawn", bc_json_text(record->drawn));
	bc_json_put(&failed, object, "revisions", revisions_json(record, &failed));
	bc_json_put(&failed, object, "notes", notes_json(record, &failed));
	json_t *judgement = NULL;
	if (bc_report_json_read(record->judgement, &judgement) == BC_MALFORMED)
		judgement = json_null();
	bc_json_put(&failed, object, "judgement", judgement);
	return bc_json_whole(failed, object);
}

/* ---- differences */

struct search {
	struct bc_strings *found;
	size_t most;
	bool failed;
};

static void differ(struct search *search, const char *path, const json_t *was, const json_t *is)
{
	const json_t *sides[] = {was, is};
	struct bc_text text[2];
	for (int i = 0; i < 2; i++) {
		bc_text_init(&text[i]);
		if (sides[i] == NULL)
			bc_text_append(&text[i], "nothing");
		else if (bc_failed(bc_report_json_line(sides[i], &text[i])))
			search->failed = true;
	}
	if (!search->failed && !text[0].failed && !text[1].failed)
		bc_strings_add(search->found, "%s: was %.60s, is now %.60s", path, text[0].data,
			text[1].data);
	for (int i = 0; i < 2; i++) {
		search->failed = search->failed || text[i].failed;
		bc_text_release(&text[i]);
	}
}

static bool same_leaf(const json_t *was, const json_t *is)
{
	if (json_is_number(was) && json_is_number(is))
		return json_number_value(was) == json_number_value(is);
	return json_equal(was, is);
}

static void compare(struct search *search, const char *path, const json_t *was, const json_t *is);

static void compare_at(struct search *search, const char *path, const char *key, size_t index,
	const json_t *was, const json_t *is)
{
	struct bc_text deeper;
	bc_text_init(&deeper);
	if (key != NULL)
		bc_text_printf(&deeper, "%s%s%s", path, path[0] != '\0' ? "." : "", key);
	else
		bc_text_printf(&deeper, "%s[%zu]", path, index);
	if (deeper.failed || deeper.data == NULL)
		search->failed = true;
	else
		compare(search, deeper.data, was, is);
	bc_text_release(&deeper);
}

static bool left_out(const char *path, const char *key)
{
	return path[0] == '\0' && strcmp(key, "boilcut") == 0;
}

static void compare(struct search *search, const char *path, const json_t *was, const json_t *is)
{
	const char *key;
	json_t *value;
	if (search->failed || search->found->failed || search->found->n >= search->most)
		return;
	if (json_is_object(was) && json_is_object(is)) {
		json_object_foreach((json_t *)was, key, value)
		{
			if (!left_out(path, key))
				compare_at(search, path, key, 0, value, json_object_get(is, key));
		}
		json_object_foreach((json_t *)is, key, value)
		{
			if (!left_out(path, key) && json_object_get(was, key) == NULL)
				compare_at(search, path, key, 0, NULL, value);
		}
	} else if (json_is_array(was) && json_is_array(is)) {
		size_t n = json_array_size(was) > json_array_size(is) ? json_array_size(was)
								      : json_array_size(is);
		for (size_t i = 0; i < n; i++)
			compare_at(search, path, NULL, i, json_array_get(was, i),
				json_array_get(is, i));
	} else if (was == NULL || is == NULL || !same_leaf(was, is)) {
		differ(search, path, was, is);
	}
}

enum bc_status bc_report_differences(
	const char *was, const json_t *is, size_t most, struct bc_strings *differences)
{
	struct search search = {.found = differences, .most = most};
	struct bc_text line;
	json_t *stored = NULL;
	json_t *fresh = NULL;
	bc_text_init(&line);
	enum bc_status status = bc_report_json_read(was, &stored);
	if (bc_failed(status))
		goto done;
	/* through text, so that both have lost the same digits */
	status = bc_report_json_line(is, &line);
	if (bc_failed(status))
		goto done;
	if (bc_failed(bc_report_json_read(line.data, &fresh)))
		search.failed = true;
	else
		compare(&search, "", stored, fresh);
	if (search.failed || differences->failed)
		status = BC_NO_MEMORY;
done:
	json_decref(stored);
	json_decref(fresh);
	bc_text_release(&line);
	return status;
}
