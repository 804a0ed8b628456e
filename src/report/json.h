/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_JSON_H
#define BC_REPORT_JSON_H

#include <jansson.h>
#include <stdbool.h>

#include "base/estimate.h"
#include "base/strings.h"
#include "curve/points.h"
#include "fuel/properties.h"
#include "verdict/grade.h"

/* Pieces of a JSON tree. Makers return a new reference or NULL without memory; put and append take
 * it over and remember a NULL, so that a tree is written plainly and checked once. */

json_t *bc_json_number(double value); /* six significant digits; null when not finite */
json_t *bc_json_text(const char *s);  /* null for NULL; broken UTF-8 becomes \xNN */
json_t *bc_json_estimate(const struct bc_estimate *estimate, bool *failed);
void bc_json_put(bool *failed, json_t *object, const char *key, json_t *value);
void bc_json_append(bool *failed, json_t *array, json_t *value);
/* tree, or NULL and tree released when something failed or tree is NULL. */
json_t *bc_json_whole(bool failed, json_t *tree);

/* Parts that several reports have in one shape. */
json_t *bc_json_strings(const struct bc_strings *strings, bool *failed);
json_t *bc_json_points(const struct bc_points *points, bool *failed); /* the values */
json_t *bc_json_properties(const struct bc_oil *oil, bool *failed);
json_t *bc_json_grade(const struct bc_grade *grade, bool *failed);

#endif
