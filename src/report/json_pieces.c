/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces of a JSON tree: numbers that are the same on every machine, texts that are always UTF-8.
 */
#include <math.h>
#include <stdio.h>

#include "base/number.h"
#include "base/text.h"
#include "report/json.h"

json_t *bc_json_number(double value)
{
	char digits[32];
	if (!isfinite(value))
		return json_null();
	snprintf(digits, sizeof digits, "%.6g", value);
	double rounded = 0.0;
	if (!bc_number_parse(digits, '.', &rounded))
		return NULL;
	return json_real(rounded == 0.0 ? 0.0 : rounded);
}

json_t *bc_json_text(const char *s)
{
	if (s == NULL)
		return json_null();
	json_t *string = json_string(s);
	if (string != NULL)
		return string;
	struct bc_text escaped;
	bc_text_init(&escaped);
	bc_text_append_escaped(&escaped, s);
	if (!escaped.failed && escaped.data != NULL)
		string = json_string(escaped.data);
	bc_text_release(&escaped);
	return string;
}

json_t *bc_json_estimate(const struct bc_estimate *estimate, bool *failed)
{
	const char *how = bc_how_text(estimate->how);
	json_t *object = json_object();
	bc_json_put(failed, object, "value",
		bc_json_number(how == NULL ? (double)NAN : estimate->value));
	bc_json_put(
		failed, object, "low", bc_json_number(how == NULL ? (double)NAN : estimate->low));
	bc_json_put(
		failed, object, "high", bc_json_number(how == NULL ? (double)NAN : estimate->high));
	bc_json_put(failed, object, "how", bc_json_text(how));
	return object;
}

void bc_json_put(bool *failed, json_t *object, const char *key, json_t *value)
{
	if (value == NULL || json_object_set_new(object, key, value) != 0)
		*failed = true;
}

void bc_json_append(bool *failed, json_t *array, json_t *value)
{
	if (value == NULL || json_array_append_new(array, value) != 0)
		*failed = true;
}

json_t *bc_json_whole(bool failed, json_t *tree)
{
	if (!failed)
		return tree;
	json_decref(tree);
	return NULL;
}
