/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A control sample against its own history, as JSON. */
#include "report/json.h"
#include "report/runs.h"

static json_t *chart_json(
	const struct bc_control *control, const struct bc_control_chart *chart, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "value", bc_json_number(chart->values[control->n - 1]));
	bc_json_put(failed, object, "centre", bc_json_number(chart->centre));
	bc_json_put(failed, object, "lower", bc_json_number(chart->lower));
	bc_json_put(failed, object, "upper", bc_json_number(chart->upper));
	bc_json_put(failed, object, "out", json_boolean(chart->out));
	return object;
}

static json_t *point_json(const struct bc_control_point *point, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "recovered_pct", bc_json_number(point->pct));
	bc_json_put(failed, object, "before_c", bc_json_number(point->before_c));
	bc_json_put(failed, object, "now_c", bc_json_number(point->now_c));
	bc_json_put(failed, object, "change_c", bc_json_number(point->change_c));
	bc_json_put(failed, object, "sigma_c", bc_json_number(point->sigma_c));
	return object;
}

static json_t *history_json(const struct bc_control *control, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < control->n; i++) {
		json_t *object = json_object();
		bc_json_put(failed, object, "file", bc_json_text(control->runs[i].sample->file));
		bc_json_put(failed, object, "date", bc_json_text(control->runs[i].sample->date));
		for (size_t k = 0; k < BC_CONTROL_CHARTS; k++)
			bc_json_put(failed, object, control->charts[k].name,
				bc_json_number(control->charts[k].values[i]));
		bc_json_append(failed, array, object);
	}
	return array;
}

static void put_pattern(json_t *root, const struct bc_control *control, bool *failed)
{
	json_t *charts = json_object();
	json_t *points = json_array();
	for (size_t k = 0; k < BC_CONTROL_CHARTS; k++)
		bc_json_put(failed, charts, control->charts[k].name,
			chart_json(control, &control->charts[k], failed));
	for (size_t i = 0; i < control->n_points; i++)
		bc_json_append(failed, points, point_json(&control->points[i], failed));
	bc_json_put(failed, root, "charts", charts);
	bc_json_put(failed, root, "points", points);
}

json_t *bc_report_control_json(const struct bc_control *control)
{
	const struct bc_sample *last = control->runs[control->n - 1].sample;
	bool failed = false;
	json_t *root = json_object();
	bc_json_put(&failed, root, "boilcut", bc_json_text(BC_VERSION));
	bc_json_put(&failed, root, "file", bc_json_text(last->file));
	bc_json_put(&failed, root, "sample", bc_json_text(last->name));
	bc_json_put(&failed, root, "date", bc_json_text(last->date));
	bc_json_put(&failed, root, "word", bc_json_text(bc_control_word_text(control->word)));
	bc_json_put(&failed, root, "cause", bc_json_text(bc_control_cause_text(control->cause)));
	bc_json_put(&failed, root, "change_c", bc_json_number(control->change_c));
	bc_json_put(&failed, root, "change_per_100_c", bc_json_number(control->per_100_c));
	bc_json_put(&failed, root, "pressure_error_kpa", bc_json_number(control->pressure_kpa));
	bc_json_put(&failed, root, "own_limits", json_boolean(control->own_limits));
	bc_json_put(&failed, root, "baseline_runs", json_integer((json_int_t)control->n_baseline));
	bc_json_put(&failed, root, "in_a_row", json_integer((json_int_t)control->row));
	put_pattern(root, control, &failed);
	bc_json_put(&failed, root, "history", history_json(control, &failed));
	bc_json_put(&failed, root, "do", bc_json_strings(&control->advice, &failed));
	bc_json_put(&failed, root, "notes", bc_json_strings(&control->notes, &failed));
	return bc_json_whole(failed, root);
}
