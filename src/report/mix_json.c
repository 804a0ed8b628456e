/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A mixture as one JSON object: that of a judgement, with what was poured together. */
#include <math.h>

#include "report/json.h"
#include "report/mix.h"

static json_t *part_json(const struct bc_mix_part *part, bool *failed)
{
	const struct bc_estimate *flash = &part->oil->oil.property[BC_FLASH];
	json_t *object = json_object();
	bc_json_put(failed, object, "file", bc_json_text(part->oil->sample->file));
	bc_json_put(failed, object, "sample", bc_json_text(part->oil->sample->name));
	bc_json_put(failed, object, "volume_l", bc_json_number(part->volume_l));
	bc_json_put(failed, object, "mass_kg", bc_json_number(part->mass_kg));
	bc_json_put(failed, object, "share_pct", bc_json_number(part->volume_pct));
	bc_json_put(failed, object, "mass_pct", bc_json_number(part->mass_pct));
	bc_json_put(failed, object, "vapour_pct", bc_json_number(part->vapour_pct));
	bc_json_put(failed, object, "flash_c", bc_json_number(flash->value));
	bc_json_put(failed, object, "flash_low_c", bc_json_number(flash->low));
	bc_json_put(failed, object, "flash_measured", json_boolean(part->flash_measured));
	bc_json_put(failed, object, "density15_kgm3",
		bc_json_number(part->oil->oil.property[BC_DENSITY15].value));
	return object;
}

static json_t *parts_json(const struct bc_mixing *mixing, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < mixing->n; i++)
		bc_json_append(failed, array, part_json(&mixing->parts[i], failed));
	return array;
}

static json_t *nodes_json(const struct bc_mixing *mixing, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < mixing->n_nodes; i++) {
		const struct bc_mix_node *node = &mixing->nodes[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "share_pct", bc_json_number(node->share_pct));
		bc_json_put(failed, object, "flash_c", bc_json_number(node->flash_c));
		bc_json_put(failed, object, "flash_low_c", bc_json_number(node->flash_low_c));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *limit_json(const struct bc_mix_share *share, bool *failed)
{
	const struct bc_limit *limit = share->limit;
	if (limit == NULL)
		return json_null();
	json_t *object = json_object();
	bc_json_put(failed, object, "property", bc_json_text(limit->property));
	bc_json_put(failed, object, "unit", bc_json_text(limit->unit));
	bc_json_put(failed, object, "min", bc_json_number(limit->min));
	bc_json_put(failed, object, "max", bc_json_number(limit->max));
	bc_json_put(failed, object, "value", bc_json_number(share->value.value));
	bc_json_put(failed, object, "low", bc_json_number(share->value.low));
	bc_json_put(failed, object, "high", bc_json_number(share->value.high));
	return object;
}

static json_t *share_json(const struct bc_mixing *mixing, bool *failed)
{
	const struct bc_mix_share *share = &mixing->share;
	if (!share->asked)
		return json_null();
	json_t *object = json_object();
	bc_json_put(
		failed, object, "file", bc_json_text(mixing->parts[share->part].oil->sample->file));
	bc_json_put(failed, object, "share_pct", bc_json_number(share->share_pct));
	bc_json_put(failed, object, "volume_l", bc_json_number(share->volume_l));
	bc_json_put(failed, object, "mass_kg", bc_json_number(share->mass_kg));
	bc_json_put(failed, object, "unlimited", json_boolean(share->unlimited));
	bc_json_put(failed, object, "rest_meets", json_boolean(share->base_meets));
	bc_json_put(failed, object, "grade",
		bc_json_text(share->standard != NULL ? bc_grade_texts[share->grade] : NULL));
	bc_json_put(failed, object, "standard", bc_json_text(share->standard));
	bc_json_put(failed, object, "limit", limit_json(share, failed));
	bc_json_put(failed, object, "why", bc_json_text(share->why));
	return object;
}

json_t *bc_report_mix_json(const struct bc_mixing *mixing)
{
	bool failed = false;
	json_t *root = bc_report_json(&mixing->mix);
	if (root == NULL)
		return NULL;
	bc_json_put(&failed, root, "parts", parts_json(mixing, &failed));
	bc_json_put(&failed, root, "volume_l", bc_json_number(mixing->volume_l));
	bc_json_put(&failed, root, "mass_kg", bc_json_number(mixing->mass_kg));
	bc_json_put(&failed, root, "flash_blend_index_c", bc_json_number(mixing->flash_index_c));
	bc_json_put(&failed, root, "may_go_in", share_json(mixing, &failed));
	bc_json_put(&failed, root, "flash_against_share", nodes_json(mixing, &failed));
	return bc_json_whole(failed, root);
}
