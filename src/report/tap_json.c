/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tapping as one JSON object: every key is there, null when absent. */
#include <math.h>

#include "report/json.h"
#include "report/tap.h"

/* Total reflux is a word, since no number is so great. */
static json_t *reflux_json(const struct bc_column *column)
{
	if (isinf(column->reflux))
		return bc_json_text("total");
	return bc_json_number(column->reflux);
}

static json_t *still_json(const struct bc_tapping *tapping, bool *failed)
{
	const struct bc_still *still = &tapping->request.still;
	bool one_number = !isnan(still->column.effective_plates);
	json_t *object = json_object();
	bc_json_put(
		failed, object, "name", bc_json_text(still->name[0] != '\0' ? still->name : NULL));
	bc_json_put(failed, object, "stages",
		one_number ? json_null() : bc_json_number(still->column.stages));
	bc_json_put(
		failed, object, "reflux", one_number ? json_null() : reflux_json(&still->column));
	bc_json_put(failed, object, "effective_plates", bc_json_number(tapping->effective_plates));
	bc_json_put(failed, object, "carry_pct", bc_json_number(still->carry_pct));
	return object;
}

/* Nothing lands in an empty jar, which is a figure. */
static json_t *share_json(const struct bc_jar *jar, double value)
{
	return bc_json_number(jar->empty ? 0.0 : value);
}

static void put_places(json_t *object, const struct bc_jar *jar, bool *failed)
{
	bc_json_put(failed, object, "jar", bc_json_text(jar->name));
	bc_json_put(failed, object, "from_c", bc_json_number(jar->from_c));
	bc_json_put(failed, object, "to_c", bc_json_number(jar->to_c));
	bc_json_put(failed, object, "from_reading_c", bc_json_number(jar->from_reading_c));
	bc_json_put(failed, object, "to_reading_c", bc_json_number(jar->to_reading_c));
	bc_json_put(failed, object, "pot_to_c", bc_json_number(jar->pot_to_c));
	bc_json_put(failed, object, "volume_pct", share_json(jar, jar->volume_pct));
	bc_json_put(failed, object, "mass_pct", share_json(jar, jar->mass_pct));
	bc_json_put(failed, object, "volume_ml", share_json(jar, jar->volume_ml));
	bc_json_put(failed, object, "mass_kg", share_json(jar, jar->mass_kg));
}

static json_t *absent_properties_json(bool *failed)
{
	struct bc_estimate absent = bc_estimate_absent();
	json_t *object = json_object();
	for (size_t i = 0; i < BC_PROPERTIES_REPORTED; i++)
		bc_json_put(failed, object, bc_property_keys[i], bc_json_estimate(&absent, failed));
	return object;
}

static json_t *absent_points_json(bool *failed)
{
	json_t *object = json_object();
	for (size_t i = 0; i < BC_POINTS; i++)
		bc_json_put(failed, object, bc_point_keys[i], json_null());
	return object;
}

static json_t *jar_json(const struct bc_tapping *tapping, const struct bc_jar *jar, bool *failed)
{
	json_t *object = json_object();
	json_t *grades = json_array();
	put_places(object, jar, failed);
	bc_json_put(failed, object, "properties",
		jar->empty ? absent_properties_json(failed)
			   : bc_json_properties(&jar->oil, failed));
	bc_json_put(failed, object, "points",
		jar->empty ? absent_points_json(failed) : bc_json_points(&jar->points, failed));
	for (size_t i = 0; tapping->has_want && !jar->empty && i < jar->grades.n; i++)
		bc_json_append(failed, grades, bc_json_grade(&jar->grades.items[i], failed));
	bc_json_put(failed, object, "grades", grades);
	return object;
}

static json_t *jars_json(const struct bc_tapping *tapping, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < tapping->n_jars; i++)
		bc_json_append(failed, array, jar_json(tapping, &tapping->jars[i], failed));
	return array;
}

static json_t *pot_json(const struct bc_tapping *tapping, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "volume_pct", bc_json_number(tapping->pot.volume_pct));
	bc_json_put(failed, object, "mass_pct", bc_json_number(tapping->pot.mass_pct));
	return object;
}

static json_t *choices_json(const struct bc_tapping *tapping, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < tapping->n_choices; i++) {
		const struct bc_tap_choice *choice = &tapping->choices[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "light_until_c", bc_json_number(choice->light_until_c));
		bc_json_put(
			failed, object, "product_until_c", bc_json_number(choice->product_until_c));
		bc_json_put(failed, object, "product_pct", bc_json_number(choice->product_pct));
		bc_json_put(failed, object, "flash_c", bc_json_number(choice->flash_c));
		bc_json_put(failed, object, "t95_c", bc_json_number(choice->t95_c));
		bc_json_append(failed, array, object);
	}
	return array;
}

/* The sample as a file that gives this answer again; a sample is UTF-8 throughout, and its lines
 * must stay lines. */
static json_t *feed_json(const struct bc_sample *sample, bool *failed)
{
	struct bc_text text;
	json_t *feed = NULL;
	bc_text_init(&text);
	if (!bc_failed(bc_sample_write(sample, &text)) && !text.failed && text.data != NULL)
		feed = json_string(text.data);
	*failed = *failed || feed == NULL;
	bc_text_release(&text);
	return feed;
}

static void put_wish(json_t *root, const struct bc_tapping *tapping, bool *failed)
{
	bool wanted = tapping->has_want;
	const char *grade =
		wanted && tapping->want != BC_GRADES ? bc_grade_texts[tapping->want] : NULL;
	bc_json_put(failed, root, "sample", bc_json_text(tapping->sample->name));
	bc_json_put(failed, root, "want", bc_json_text(grade));
	bc_json_put(failed, root, "standard", bc_json_text(wanted ? tapping->standard : NULL));
	bc_json_put(failed, root, "still", still_json(tapping, failed));
	bc_json_put(failed, root, "pressure_kpa", bc_json_number(tapping->pressure_kpa));
	bc_json_put(failed, root, "feasible",
		wanted ? json_boolean(bc_tap_answers(tapping)) : json_null());
	bc_json_put(failed, root, "binding",
		wanted ? bc_json_strings(&tapping->binding, failed) : json_array());
}

json_t *bc_report_tap_json(const struct bc_tapping *tapping)
{
	bool failed = false;
	json_t *root = json_object();
	if (root == NULL)
		return NULL;
	put_wish(root, tapping, &failed);
	bc_json_put(&failed, root, "jars", jars_json(tapping, &failed));
	bc_json_put(&failed, root, "pot", pot_json(tapping, &failed));
	bc_json_put(&failed, root, "charge_ml", bc_json_number(tapping->request.charge_ml));
	bc_json_put(&failed, root, "feed", feed_json(tapping->sample, &failed));
	bc_json_put(&failed, root, "heat_mj", bc_json_number(tapping->heat.total_mj));
	bc_json_put(&failed, root, "time_h", bc_json_number(tapping->heat.time_h));
	bc_json_put(&failed, root, "choices", choices_json(tapping, &failed));
	bc_json_put(&failed, root, "assumed", bc_json_strings(&tapping->assumed, &failed));
	bc_json_put(&failed, root, "cautions", bc_json_strings(&tapping->cautions, &failed));
	return bc_json_whole(failed, root);
}
