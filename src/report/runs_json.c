/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The runs of one sample, and how they repeat, as JSON. */
#include "report/json.h"
#include "report/runs.h"

static json_t *run_points(const struct bc_pool_run *run, bool *failed)
{
	json_t *object = json_object();
	for (size_t k = 0; k < BC_POINTS; k++)
		bc_json_put(failed, object, bc_point_keys[k], bc_json_number(run->at_c[k]));
	return object;
}

static json_t *run_json(const struct bc_pool_run *run, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "file", bc_json_text(run->sample->file));
	bc_json_put(failed, object, "date", bc_json_text(run->sample->date));
	bc_json_put(failed, object, "points", run_points(run, failed));
	bc_json_put(failed, object, "belongs", json_boolean(run->belonging == BC_RUN_BELONGS));
	bc_json_put(failed, object, "state", bc_json_text(bc_belonging_text(run->belonging)));
	bc_json_put(failed, object, "difference_mean_c", bc_json_number(run->shift_c));
	bc_json_put(failed, object, "difference_max_c", bc_json_number(run->difference_max_c));
	bc_json_put(failed, object, "difference_max_pct", bc_json_number(run->difference_max_pct));
	bc_json_put(failed, object, "distance_ratio", bc_json_number(run->ratio));
	bc_json_put(failed, object, "grubbs", bc_json_number(run->grubbs));
	bc_json_put(failed, object, "grubbs_critical", bc_json_number(run->grubbs_critical));
	return object;
}

static json_t *point_json(const struct bc_pool_point *at, double pct, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "recovered_pct", bc_json_number(pct));
	bc_json_put(failed, object, "runs", json_integer((json_int_t)at->n));
	bc_json_put(failed, object, "mean_c", bc_json_number(at->mean_c));
	bc_json_put(failed, object, "sd_c", bc_json_number(at->sd_c));
	bc_json_put(failed, object, "half_width_c", bc_json_number(at->half_width_c));
	bc_json_put(failed, object, "range_c", bc_json_number(at->range_c));
	bc_json_put(failed, object, "published_range_c", bc_json_number(at->published_range_c));
	bc_json_put(failed, object, "rig_range_c", bc_json_number(at->rig_range_c));
	return object;
}

static json_t *repeatability_json(const struct bc_pool *pool, bool *failed)
{
	json_t *object = json_object();
	json_t *points = json_array();
	for (size_t k = 0; k < BC_POINTS; k++)
		if (pool->points[k].n > 0)
			bc_json_append(failed, points,
				point_json(&pool->points[k], bc_point_pct[k], failed));
	bc_json_put(failed, object, "pooled", json_integer((json_int_t)pool->n_kept));
	bc_json_put(failed, object, "agree", json_boolean(pool->agree));
	bc_json_put(failed, object, "agree_ratio", bc_json_number(pool->agree_ratio));
	bc_json_put(failed, object, "compared", json_integer((json_int_t)pool->compared));
	bc_json_put(failed, object, "within_published",
		json_integer((json_int_t)pool->within_published));
	bc_json_put(failed, object, "published",
		bc_json_text("ASTM D86-04b/07b, groups 2 to 4, manual; from memory"));
	bc_json_put(failed, object, "points", points);
	return object;
}

void bc_json_put_runs(json_t *root, const struct bc_pool *pool, bool *failed)
{
	json_t *runs = json_array();
	for (size_t i = 0; i < pool->n; i++)
		bc_json_append(failed, runs, run_json(&pool->runs[i], failed));
	bc_json_put(failed, root, "runs", runs);
	bc_json_put(failed, root, "repeatability", repeatability_json(pool, failed));
}
