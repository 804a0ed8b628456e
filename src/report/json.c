/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The judgement as one JSON object. Its shape never changes: every key is there, null when absent.
 */
#include "report/json.h"

#include <math.h>
#include <stdio.h>

#include "judgement/inverted.h"
#include "report/page.h"
#include "report/report.h"
#include "report/runs.h"

static const char *const evaporated_point_keys[BC_EVAPORATED_POINTS] = {"t10_c", "t50_c", "t90_c"};

json_t *bc_json_strings(const struct bc_strings *strings, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < strings->n; i++)
		bc_json_append(failed, array, bc_json_text(strings->items[i]));
	return array;
}

static json_t *readings_json(const struct bc_boiloff *boiloff, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < boiloff->n; i++) {
		const struct bc_point *point = &boiloff->points[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "recovered_pct", bc_json_number(point->recovered_pct));
		bc_json_put(failed, object, "observed_c", bc_json_number(point->observed_c));
		bc_json_put(failed, object, "corrected_c", bc_json_number(point->corrected_c));
		bc_json_put(
			failed, object, "evaporated_pct", bc_json_number(point->evaporated_pct));
		bc_json_put(failed, object, "used", json_boolean(point->used));
		bc_json_append(failed, array, object);
	}
	return array;
}

/* What an estimate is asked for. */
enum side { SIDE_VALUE, SIDE_LOW, SIDE_HIGH };

static double side_of(const struct bc_estimate *estimate, enum side side)
{
	switch (side) {
	case SIDE_LOW:
		return estimate->low;
	case SIDE_HIGH:
		return estimate->high;
	case SIDE_VALUE:
		break;
	}
	return estimate->value;
}

/* {key: number, ...} of one side of n estimates. */
static json_t *sides_json(const struct bc_estimate *estimates, const char *const *keys, size_t n,
	enum side side, bool *failed)
{
	json_t *object = json_object();
	for (size_t i = 0; i < n; i++)
		bc_json_put(failed, object, keys[i], bc_json_number(side_of(&estimates[i], side)));
	return object;
}

json_t *bc_json_points(const struct bc_points *points, bool *failed)
{
	return sides_json(points->at, bc_point_keys, BC_POINTS, SIDE_VALUE, failed);
}

/* The keys are made of a letter and the temperature: "e70_pct", "r180_pct". */
static json_t *at_temps_json(const struct bc_estimate *estimates, char letter,
	const double *temps_c, size_t n, bool *failed)
{
	json_t *object = json_object();
	for (size_t i = 0; i < n; i++) {
		char key[32];
		snprintf(key, sizeof key, "%c%.0f_pct", letter, temps_c[i]);
		bc_json_put(failed, object, key, bc_json_number(estimates[i].value));
	}
	return object;
}

static json_t *fit_json(const struct bc_fits *fits, bool *failed)
{
	const struct bc_fit *fit = fits->n > 0 ? &fits->items[0] : NULL;
	bool stands = fit != NULL && fit->model != NULL && !bc_failed(fit->status);
	json_t *object = json_object();
	json_t *parameters = stands ? json_object() : json_null();
	if (stands) {
		for (size_t i = 0; i < fit->model->n_parameters; i++)
			bc_json_put(failed, parameters, fit->model->parameter_names[i],
				bc_json_number(fit->parameters[i]));
	}
	bc_json_put(failed, object, "model", bc_json_text(stands ? fit->model->name : NULL));
	bc_json_put(failed, object, "parameters", parameters);
	bc_json_put(failed, object, "rms_c", bc_json_number(stands ? fit->rms_c : (double)NAN));
	bc_json_put(failed, object, "points",
		stands ? json_integer((json_int_t)fit->points) : json_null());
	return object;
}

static json_t *tbp_json(const double *tbp_c, bool *failed)
{
	json_t *object = json_object();
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		char key[32];
		snprintf(key, sizeof key, "t%.0f_c", bc_tbp_point_pct[i]);
		bc_json_put(failed, object, key, bc_json_number(tbp_c[i]));
	}
	return object;
}

/* As tbp_points, at the percents of points but its ends. */
static json_t *inverted_json(const struct bc_judgement *judgement, bool *failed)
{
	if (judgement->inversion == NULL)
		return json_null();
	json_t *object = json_object();
	for (size_t i = BC_AT_T5; i < BC_AT_FBP; i++)
		bc_json_put(failed, object, bc_point_keys[i],
			bc_json_number(bc_inverted_c(judgement, bc_point_pct[i])));
	return object;
}

json_t *bc_json_properties(const struct bc_oil *oil, bool *failed)
{
	json_t *object = json_object();
	for (size_t i = 0; i < BC_PROPERTIES_REPORTED; i++)
		bc_json_put(failed, object, bc_property_keys[i],
			bc_json_estimate(&oil->property[i], failed));
	return object;
}

static json_t *published_json(const struct bc_reader *reader, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < bc_published_range_count; i++) {
		struct bc_published_share share;
		bc_published_share_read(reader, i, &share);
		json_t *object = json_object();
		bc_json_put(failed, object, "name", bc_json_text(share.name));
		bc_json_put(failed, object, "source", bc_json_text(share.source));
		bc_json_put(failed, object, "from_c", bc_json_number(share.from_c));
		bc_json_put(failed, object, "to_c", bc_json_number(share.to_c));
		bc_json_put(failed, object, "share_pct", bc_json_number(share.share_pct));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *hazards_json(const struct bc_hazards *hazards, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < hazards->n; i++) {
		const struct bc_hazard *hazard = &hazards->items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "scheme", bc_json_text(hazard->scheme));
		bc_json_put(failed, object, "class", bc_json_text(hazard->class_name));
		bc_json_put(failed, object, "from", bc_json_text(hazard->from));
		bc_json_put(failed, object, "message", bc_json_text(hazard->message));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *findings_json(const struct bc_findings *findings, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < findings->n; i++) {
		const struct bc_finding *finding = &findings->items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "code", bc_json_text(finding->code));
		bc_json_put(
			failed, object, "severity", bc_json_text(bc_weight_text(finding->weight)));
		bc_json_put(failed, object, "at_pct", bc_json_number(finding->at_pct));
		bc_json_put(failed, object, "message", bc_json_text(finding->message));
		bc_json_put(failed, object, "do", bc_json_text(finding->advice));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *criterion_json(const struct bc_criterion *criterion, bool *failed)
{
	const struct bc_limit *limit = criterion->limit;
	json_t *object = json_object();
	bc_json_put(failed, object, "property", bc_json_text(limit->property));
	bc_json_put(failed, object, "unit", bc_json_text(limit->unit));
	bc_json_put(failed, object, "min", bc_json_number(limit->min));
	bc_json_put(failed, object, "max", bc_json_number(limit->max));
	bc_json_put(failed, object, "strict", json_boolean(limit->strict));
	bc_json_put(failed, object, "value", bc_json_number(criterion->value.value));
	bc_json_put(failed, object, "low", bc_json_number(criterion->value.low));
	bc_json_put(failed, object, "high", bc_json_number(criterion->value.high));
	bc_json_put(failed, object, "state", bc_json_text(bc_state_text(criterion->state)));
	bc_json_put(failed, object, "chance_within", bc_json_number(criterion->chance_within));
	return object;
}

json_t *bc_json_grade(const struct bc_grade *grade, bool *failed)
{
	json_t *object = json_object();
	json_t *criteria = json_array();
	for (size_t i = 0; i < grade->n_criteria; i++)
		bc_json_append(failed, criteria, criterion_json(&grade->criteria[i], failed));
	bc_json_put(failed, object, "grade", bc_json_text(bc_grade_texts[grade->name]));
	bc_json_put(failed, object, "standard", bc_json_text(grade->standard));
	bc_json_put(failed, object, "edition", bc_json_text(grade->edition));
	bc_json_put(failed, object, "state", bc_json_text(bc_state_text(grade->state)));
	bc_json_put(failed, object, "chance_all_within", bc_json_number(grade->chance_all_within));
	bc_json_put(failed, object, "from_memory", json_boolean(grade->from_memory));
	bc_json_put(failed, object, "criteria", criteria);
	bc_json_put(failed, object, "not_measured", bc_json_strings(&grade->not_measured, failed));
	bc_json_put(failed, object, "scope", bc_json_text(grade->scope));
	return object;
}

static json_t *grades_json(const struct bc_grades *grades, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < grades->n; i++)
		bc_json_append(failed, array, bc_json_grade(&grades->items[i], failed));
	return array;
}

static json_t *verdict_json(const struct bc_verdict *verdict, bool *failed)
{
	const struct bc_grade *grade = verdict->grade;
	json_t *object = json_object();
	bc_json_put(failed, object, "word", bc_json_text(bc_word_text(verdict->word)));
	bc_json_put(failed, object, "grade",
		bc_json_text(grade == NULL ? NULL : bc_grade_texts[grade->name]));
	bc_json_put(
		failed, object, "standard", bc_json_text(grade == NULL ? NULL : grade->standard));
	bc_json_put(failed, object, "because", bc_json_strings(&verdict->because, failed));
	return object;
}

static void put_product(json_t *object, const struct bc_cut *cut, bool *failed)
{
	const struct bc_estimate *property = cut->product.property;
	const struct bc_estimate *at = cut->product_points.at;
	bc_json_put(failed, object, "flash_c", bc_json_number(property[BC_FLASH].value));
	bc_json_put(failed, object, "flash_low_c", bc_json_number(property[BC_FLASH].low));
	bc_json_put(failed, object, "t10_c", bc_json_number(at[BC_AT_T10].value));
	bc_json_put(failed, object, "t50_c", bc_json_number(at[BC_AT_T50].value));
	bc_json_put(failed, object, "t90_c", bc_json_number(at[BC_AT_T90].value));
	bc_json_put(failed, object, "t95_c", bc_json_number(at[BC_AT_T95].value));
	bc_json_put(failed, object, "density15_kgm3", bc_json_number(property[BC_DENSITY15].value));
	bc_json_put(
		failed, object, "cetane_index", bc_json_number(property[BC_CETANE_INDEX].value));
}

static json_t *cut_json(const struct bc_cut *cut, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "basis", bc_json_text(cut->basis));
	bc_json_put(failed, object, "grade", bc_json_text(bc_grade_texts[cut->grade]));
	bc_json_put(failed, object, "light_until_c", bc_json_number(cut->light_until_c));
	bc_json_put(failed, object, "product_until_c", bc_json_number(cut->product_until_c));
	bc_json_put(failed, object, "light_until_reading_c",
		bc_json_number(cut->light_until_reading_c));
	bc_json_put(failed, object, "product_until_reading_c",
		bc_json_number(cut->product_until_reading_c));
	bc_json_put(failed, object, "light_pct", bc_json_number(cut->light_pct));
	bc_json_put(failed, object, "product_pct", bc_json_number(cut->product_pct));
	bc_json_put(failed, object, "tail_pct", bc_json_number(cut->tail_pct));
	json_t *product = json_object();
	put_product(product, cut, failed);
	bc_json_put(failed, object, "product", product);
	return object;
}

/* The perfect one has the figures of its product beside its own keys too. */
static json_t *rerun_json(const struct bc_judgement *judgement, bool *failed)
{
	if (!judgement->has_rerun)
		return json_null();
	json_t *object = cut_json(&judgement->rerun, failed);
	json_t *perfect = json_null();
	if (judgement->perfect.standard != NULL) {
		perfect = cut_json(&judgement->perfect, failed);
		put_product(perfect, &judgement->perfect, failed);
	}
	bc_json_put(failed, object, "perfect_split", perfect);
	bc_json_put(failed, object, "standard", bc_json_text(judgement->rerun.standard));
	return object;
}

static json_t *doubt_json(const struct bc_spread *spread, bool *failed)
{
	if (spread == NULL || spread->doubt.criterion == NULL)
		return json_null();
	const struct bc_doubt *doubt = &spread->doubt;
	json_t *object = json_object();
	json_t *causes = json_array();
	for (size_t i = 0; i < doubt->n; i++) {
		json_t *cause = json_object();
		bc_json_put(failed, cause, "input",
			bc_json_text(bc_cause_keys[doubt->causes[i].input]));
		bc_json_put(failed, cause, "share", bc_json_number(doubt->causes[i].share));
		bc_json_append(failed, causes, cause);
	}
	bc_json_put(failed, object, "property", bc_json_text(doubt->criterion->limit->property));
	bc_json_put(failed, object, "causes", causes);
	bc_json_put(failed, object, "measure_next", bc_json_text(doubt->measure_next));
	return object;
}

static json_t *measured_json(const struct bc_sample *sample, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < sample->n_measured; i++) {
		const struct bc_measured *measured = &sample->measured[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "property", bc_json_text(measured->property));
		bc_json_put(failed, object, "value", bc_json_number(measured->value));
		bc_json_put(failed, object, "unit", bc_json_text(bc_measured_unit(measured)));
		bc_json_put(failed, object, "temp_c", bc_json_number(measured->temp_c));
		bc_json_put(failed, object, "open_cup", json_boolean(measured->open_cup));
		bc_json_append(failed, array, object);
	}
	return array;
}

static json_t *weighed_json(const struct bc_boiloff *boiloff, bool *failed)
{
	if (isnan(boiloff->mass_loss_pct) && isnan(boiloff->distillate_kgm3) &&
		isnan(boiloff->residue_kgm3))
		return json_null();
	json_t *object = json_object();
	bc_json_put(failed, object, "mass_loss_pct", bc_json_number(boiloff->mass_loss_pct));
	bc_json_put(failed, object, "distillate_kgm3", bc_json_number(boiloff->distillate_kgm3));
	bc_json_put(failed, object, "residue_kgm3", bc_json_number(boiloff->residue_kgm3));
	return object;
}

static json_t *learned_json(const struct bc_flash_offset *learned, bool *failed)
{
	if (learned->pairs == 0)
		return json_null();
	json_t *object = json_object();
	bc_json_put(failed, object, "pairs", json_integer((json_int_t)learned->pairs));
	bc_json_put(failed, object, "offset_c", bc_json_number(learned->offset_c));
	bc_json_put(failed, object, "half_width_c", bc_json_number(learned->half_width_c));
	return object;
}

static void put_sample(json_t *root, const struct bc_judgement *judgement, bool *failed)
{
	const struct bc_sample *sample = judgement->sample;
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	double known = boiloff->loss_known ? 1.0 : (double)NAN;
	bc_json_put(failed, root, "boilcut", bc_json_text(BC_VERSION));
	bc_json_put(failed, root, "file", bc_json_text(sample->file));
	bc_json_put(failed, root, "sample", bc_json_text(sample->name));
	bc_json_put(failed, root, "date", bc_json_text(sample->date));
	bc_json_put(failed, root, "feed", bc_json_text(sample->feed));
	bc_json_put(failed, root, "history", bc_json_text(bc_history_text(sample->history)));
	bc_json_put(failed, root, "assumed", bc_json_strings(&judgement->assumed, failed));
	bc_json_put(
		failed, root, "pressure_kpa", bc_json_number(judgement->conditions.pressure_kpa));
	bc_json_put(failed, root, "loss_pct", bc_json_number(known * boiloff->loss_pct));
	bc_json_put(failed, root, "corrected_loss_pct",
		bc_json_number(known * boiloff->corrected_loss_pct));
	bc_json_put(failed, root, "residue_pct",
		bc_json_number(boiloff->residue_known ? boiloff->residue_pct : (double)NAN));
	bc_json_put(failed, root, "readings", readings_json(boiloff, failed));
}

static void put_curve(json_t *root, const struct bc_judgement *judgement, bool *failed)
{
	const struct bc_points *points = &judgement->points;
	bc_json_put(failed, root, "points", bc_json_points(points, failed));
	bc_json_put(failed, root, "points_low",
		sides_json(points->at, bc_point_keys, BC_POINTS, SIDE_LOW, failed));
	bc_json_put(failed, root, "points_high",
		sides_json(points->at, bc_point_keys, BC_POINTS, SIDE_HIGH, failed));
	bc_json_put(failed, root, "evaporated_points",
		sides_json(points->evaporated_point, evaporated_point_keys, BC_EVAPORATED_POINTS,
			SIDE_VALUE, failed));
	bc_json_put(failed, root, "evaporated_at",
		at_temps_json(
			points->evaporated_at, 'e', bc_evaporated_at_c, BC_EVAPORATED_AT, failed));
	bc_json_put(failed, root, "recovered_at",
		at_temps_json(
			points->recovered_at, 'r', bc_recovered_at_c, BC_RECOVERED_AT, failed));
	bc_json_put(failed, root, "fit", fit_json(&judgement->fits, failed));
	bc_json_put(failed, root, "tbp_points", tbp_json(judgement->oil.tbp_c, failed));
	bc_json_put(failed, root, "inverted_points", inverted_json(judgement, failed));
}

static void put_oil(json_t *root, const struct bc_judgement *judgement, bool *failed)
{
	const struct bc_estimate *shares = judgement->shares.pct;
	bc_json_put(failed, root, "properties", bc_json_properties(&judgement->oil, failed));
	bc_json_put(failed, root, "ranges",
		sides_json(shares, bc_share_keys, BC_SHARES, SIDE_VALUE, failed));
	bc_json_put(failed, root, "ranges_low",
		sides_json(shares, bc_share_keys, BC_SHARES, SIDE_LOW, failed));
	bc_json_put(failed, root, "ranges_high",
		sides_json(shares, bc_share_keys, BC_SHARES, SIDE_HIGH, failed));
	bc_json_put(failed, root, "published_ranges", published_json(&judgement->reader, failed));
}

json_t *bc_report_json(const struct bc_judgement *judgement)
{
	bool failed = false;
	json_t *root = json_object();
	if (root == NULL)
		return NULL;
	put_sample(root, judgement, &failed);
	put_curve(root, judgement, &failed);
	put_oil(root, judgement, &failed);
	bc_json_put(&failed, root, "hazard", hazards_json(&judgement->hazards, &failed));
	bc_json_put(&failed, root, "findings", findings_json(&judgement->findings, &failed));
	bc_json_put(&failed, root, "grades", grades_json(&judgement->grades, &failed));
	bc_json_put(&failed, root, "verdict", verdict_json(&judgement->verdict, &failed));
	bc_json_put(&failed, root, "rerun", rerun_json(judgement, &failed));
	bc_json_put(&failed, root, "cautions", bc_json_strings(&judgement->cautions, &failed));
	bc_json_put(&failed, root, "weighed", weighed_json(&judgement->boiloff, &failed));
	bc_json_put(&failed, root, "measured", measured_json(judgement->sample, &failed));
	bc_json_put(&failed, root, "learned", learned_json(&judgement->learned, &failed));
	if (judgement->pool != NULL)
		bc_json_put_runs(root, judgement->pool, &failed);
	bc_json_put(&failed, root, "doubt", doubt_json(judgement->spread, &failed));
	bc_json_put(&failed, root, "draws",
		json_integer(judgement->spread ? (json_int_t)judgement->spread->draws : 0));
	return bc_json_whole(failed, root);
}

json_t *bc_report_json_error(const char *file, const char *error)
{
	bool failed = false;
	json_t *object = json_object();
	bc_json_put(&failed, object, "file", bc_json_text(file));
	bc_json_put(&failed, object, "error", bc_json_text(error));
	return bc_json_whole(failed, object);
}
