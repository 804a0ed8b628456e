/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A trend as one JSON object: every key is there, null when absent. */
#include <math.h>

#include "report/json.h"
#include "report/trend.h"

static json_t *selection_json(const struct bc_trend_request *request, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "from", bc_json_text(request->from));
	bc_json_put(failed, object, "until", bc_json_text(request->until));
	bc_json_put(failed, object, "feed", bc_json_text(request->feed));
	bc_json_put(failed, object, "still", bc_json_text(request->still));
	bc_json_put(failed, object, "sample", bc_json_text(request->sample));
	return object;
}

static json_t *limits_json(const struct bc_trend *trend, bool *failed)
{
	const struct bc_individuals *chart = &trend->chart;
	json_t *object = json_object();
	bc_json_put(failed, object, "mean", bc_json_number(chart->mean));
	bc_json_put(failed, object, "upper", bc_json_number(chart->upper));
	bc_json_put(failed, object, "lower", bc_json_number(chart->lower));
	bc_json_put(failed, object, "mean_range", bc_json_number(chart->mean_range));
	bc_json_put(failed, object, "range_upper", bc_json_number(chart->range_upper));
	bc_json_put(failed, object, "sigma", bc_json_number(chart->sigma));
	bc_json_put(failed, object, "baseline", json_integer((json_int_t)trend->baseline));
	bc_json_put(failed, object, "provisional", json_boolean(trend->provisional));
	bc_json_put(failed, object, "doubt_frac", bc_json_number(trend->doubt_frac));
	return object;
}

static json_t *rules_json(const struct bc_run_rules *rules, bool *failed)
{
	json_t *object = json_object();
	json_t *names = json_array();
	for (size_t i = 0; i < BC_RUN_RULES; i++) {
		if (rules->on[i])
			bc_json_append(failed, names, bc_json_text(bc_run_rule_names[i]));
	}
	bc_json_put(failed, object, "on", names);
	bc_json_put(failed, object, "side", json_integer((json_int_t)rules->side));
	bc_json_put(failed, object, "rise", json_integer((json_int_t)rules->rise));
	return object;
}

static json_t *findings_json(const struct bc_trend *trend, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < trend->found.n; i++) {
		const struct bc_run_stretch *stretch = &trend->found.items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "rule", bc_json_text(bc_run_rule_names[stretch->rule]));
		bc_json_put(failed, object, "first_batch",
			json_integer(trend->points[stretch->first].batch));
		bc_json_put(failed, object, "last_batch",
			json_integer(trend->points[stretch->last].batch));
		bc_json_put(failed, object, "points",
			json_integer((json_int_t)stretch->last - (json_int_t)stretch->first + 1));
		bc_json_put(failed, object, "side",
			stretch->side == 0 ? json_null() : json_integer(stretch->side));
		bc_json_put(failed, object, "message", bc_json_text(trend->words.items[i]));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *groups_json(const struct bc_trend_groups *groups, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < groups->n; i++) {
		const struct bc_trend_group *group = &groups->items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "name", bc_json_text(group->name));
		bc_json_put(failed, object, "batches", json_integer((json_int_t)group->n));
		bc_json_put(failed, object, "mean", bc_json_number(group->mean));
		bc_json_put(
			failed, object, "in_findings", json_integer((json_int_t)group->signals));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *points_json(const struct bc_trend *trend, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < trend->n; i++) {
		const struct bc_trend_point *point = &trend->points[i];
		json_t *object = json_object();
		double range = i > 0 ? fabs(point->value - point[-1].value) : (double)NAN;
		bc_json_put(failed, object, "batch", json_integer(point->batch));
		bc_json_put(failed, object, "day", bc_json_text(point->day));
		bc_json_put(failed, object, "sample", bc_json_text(point->name));
		bc_json_put(failed, object, "feed", bc_json_text(point->feed));
		bc_json_put(failed, object, "still", bc_json_text(point->still));
		bc_json_put(failed, object, "value", bc_json_number(point->value));
		bc_json_put(failed, object, "low", bc_json_number(point->low));
		bc_json_put(failed, object, "high", bc_json_number(point->high));
		bc_json_put(failed, object, "range", bc_json_number(range));
		bc_json_put(failed, object, "in_finding", json_boolean(point->signal));
		bc_json_append(failed, array, object);
	}
	return array;
}

json_t *bc_report_trend_json(const struct bc_trend *trend)
{
	bool failed = false;
	json_t *root = json_object();
	if (root == NULL)
		return NULL;
	bc_json_put(&failed, root, "key", bc_json_text(trend->request.key));
	bc_json_put(&failed, root, "unit", bc_json_text(bc_figure_unit(trend->request.key)));
	bc_json_put(&failed, root, "selection", selection_json(&trend->request, &failed));
	bc_json_put(&failed, root, "batches", json_integer((json_int_t)trend->n));
	bc_json_put(&failed, root, "too_few", json_boolean(trend->too_few));
	bc_json_put(&failed, root, "limits",
		trend->too_few ? json_null() : limits_json(trend, &failed));
	bc_json_put(&failed, root, "rules", rules_json(&trend->request.rules, &failed));
	bc_json_put(&failed, root, "findings", findings_json(trend, &failed));
	bc_json_put(&failed, root, "feeds", groups_json(&trend->feeds, &failed));
	bc_json_put(&failed, root, "stills", groups_json(&trend->stills, &failed));
	bc_json_put(&failed, root, "points", points_json(trend, &failed));
	return bc_json_whole(failed, root);
}
