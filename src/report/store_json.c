/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Jars, what moved and what is due, as JSON. */
#include "report/json.h"
#include "report/store.h"

static json_t *batch_json(long long batch) { return batch > 0 ? json_integer(batch) : json_null(); }

static json_t *day_json(const char *day) { return bc_json_text(day[0] != '\0' ? day : NULL); }

static json_t *content_json(const struct bc_contents *contents, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < contents->n; i++) {
		const struct bc_content *item = &contents->items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "batch", json_integer(item->of.batch));
		bc_json_put(failed, object, "share_pct", bc_json_number(item->share_pct));
		bc_json_put(failed, object, "volume_ml", bc_json_number(item->volume_ml));
		bc_json_put(failed, object, "since", day_json(item->since));
		bc_json_put(failed, object, "day", bc_json_text(item->of.day));
		bc_json_put(failed, object, "file", bc_json_text(item->of.file));
		bc_json_put(failed, object, "sample", bc_json_text(item->of.name));
		bc_json_put(failed, object, "feed", bc_json_text(item->of.feed));
		bc_json_put(failed, object, "word", bc_json_text(item->of.word));
		bc_json_put(failed, object, "grade", bc_json_text(item->of.grade));
		bc_json_put(failed, object, "flash_low_c", bc_json_number(item->of.flash_low_c));
		bc_json_put(failed, object, "petrol", json_boolean(item->of.petrol));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *movements_json(const struct bc_movements *movements, bool *failed)
{
	static const char *const kinds[] = {"fill", "mix", "empty", "place", "test"};
	if (movements == NULL)
		return json_null();
	json_t *array = json_array();
	for (size_t i = 0; i < movements->n; i++) {
		const struct bc_movement *item = &movements->items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "date", bc_json_text(item->date));
		bc_json_put(failed, object, "kind", bc_json_text(kinds[item->kind]));
		bc_json_put(failed, object, "volume_ml", bc_json_number(item->volume_ml));
		bc_json_put(failed, object, "batch", batch_json(item->batch));
		bc_json_put(failed, object, "from", bc_json_text(item->from));
		bc_json_put(failed, object, "to", bc_json_text(item->to));
		bc_json_put(failed, object, "text", bc_json_text(item->text));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *before_json(const struct bc_store_jar *jar, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < jar->n_before; i++)
		bc_json_append(failed, array, json_integer(jar->before[i]));
	return array;
}

json_t *bc_report_jar_json(const struct bc_jar_page *page)
{
	bool failed = false;
	const struct bc_store_jar *jar = page->jar;
	const struct bc_contents *contents = page->contents;
	long long worst = contents->n > 0 ? contents->items[contents->worst].of.batch : 0;
	json_t *object = json_object();
	bc_json_put(&failed, object, "jar", bc_json_text(jar->id));
	bc_json_put(&failed, object, "opened", bc_json_text(jar->opened));
	bc_json_put(&failed, object, "place", bc_json_text(jar->place));
	bc_json_put(&failed, object, "capacity_ml", bc_json_number(jar->capacity_ml));
	bc_json_put(&failed, object, "volume_ml", bc_json_number(jar->volume_ml));
	bc_json_put(&failed, object, "moved", day_json(jar->moved));
	bc_json_put(&failed, object, "petrol", json_boolean(contents->petrol));
	bc_json_put(&failed, object, "was_petrol", json_boolean(contents->was_petrol));
	bc_json_put(&failed, object, "flash_low_c", bc_json_number(contents->flash_low_c));
	bc_json_put(&failed, object, "worst_batch", batch_json(worst));
	bc_json_put(&failed, object, "since", day_json(contents->since));
	bc_json_put(&failed, object, "due", day_json(contents->due));
	bc_json_put(&failed, object, "content", content_json(contents, &failed));
	bc_json_put(&failed, object, "before", before_json(jar, &failed));
	bc_json_put(&failed, object, "movements", movements_json(page->movements, &failed));
	return bc_json_whole(failed, object);
}

json_t *bc_report_move_json(
	double moved_ml, const struct bc_jar_page *from, const struct bc_jar_page *to)
{
	bool failed = false;
	json_t *object = json_object();
	bc_json_put(&failed, object, "moved_ml", bc_json_number(moved_ml));
	bc_json_put(&failed, object, "from", from != NULL ? bc_report_jar_json(from) : json_null());
	bc_json_put(&failed, object, "to", to != NULL ? bc_report_jar_json(to) : json_null());
	return bc_json_whole(failed, object);
}

json_t *bc_report_dues_json(const struct bc_dues *dues)
{
	bool failed = false;
	json_t *array = json_array();
	for (size_t i = 0; i < dues->n; i++) {
		const struct bc_due *due = &dues->items[i];
		json_t *object = json_object();
		bc_json_put(&failed, object, "jar", bc_json_text(due->jar));
		bc_json_put(&failed, object, "place", bc_json_text(due->place));
		bc_json_put(&failed, object, "volume_ml", bc_json_number(due->volume_ml));
		bc_json_put(&failed, object, "batch", json_integer(due->batch));
		bc_json_put(&failed, object, "since", day_json(due->since));
		bc_json_put(&failed, object, "due", day_json(due->due));
		bc_json_append(&failed, array, object);
	}
	return bc_json_whole(failed, array);
}
