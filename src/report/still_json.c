/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stills as JSON: every key is there, null when absent. */
#include "report/still.h"

#include <math.h>

#include "report/json.h"

#define SIGMAS_95 1.96

static json_t *bounds(double value, double low, double high, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "value", bc_json_number(value));
	bc_json_put(failed, object, "low", bc_json_number(low));
	bc_json_put(failed, object, "high", bc_json_number(high));
	return object;
}

static json_t *plates_json(const struct bc_plates_estimate *e, bool *failed)
{
	return bounds(fmax(e->plates, 1.0), bc_plates_low(e), bc_plates_high(e), failed);
}

static json_t *carry_json(const struct bc_plates_estimate *e, bool *failed)
{
	double half = SIGMAS_95 * e->carry_sigma_pct;
	return bounds(e->carry_pct, fmax(e->carry_pct - half, 0.0), e->carry_pct + half, failed);
}

static json_t *curve_json(
	const struct bc_calibration_curve *curve, const double *predicted_c, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < curve->n; i++) {
		json_t *object = json_object();
		bc_json_put(failed, object, "over_pct", bc_json_number(curve->pct[i]));
		bc_json_put(failed, object, "read_c", bc_json_number(curve->head_c[i]));
		bc_json_put(failed, object, "predicted_c", bc_json_number(predicted_c[i]));
		bc_json_append(failed, array, object);
	}
	return array;
}

static double pct_of(double frac) { return 100.0 * frac; }

static json_t *run_json(const struct bc_calibrating *run, bool *failed)
{
	const struct bc_calibration_fit *fit = &run->answer.fit;
	json_t *object = json_object();
	bc_json_put(failed, object, "before", bc_json_text(run->kept.before));
	bc_json_put(failed, object, "after", bc_json_text(run->kept.after));
	bc_json_put(failed, object, "effective_plates", plates_json(&run->kept.estimate, failed));
	bc_json_put(failed, object, "carry_pct", carry_json(&run->kept.estimate, failed));
	bc_json_put(failed, object, "carry_told", json_boolean(run->carry_told));
	bc_json_put(failed, object, "known", json_boolean(run->known));
	bc_json_put(failed, object, "light_ends_pct", bc_json_number(fit->light_ends_pct));
	bc_json_put(failed, object, "from_pct", bc_json_number(pct_of(fit->from_frac)));
	bc_json_put(failed, object, "to_pct", bc_json_number(pct_of(fit->to_frac)));
	bc_json_put(failed, object, "rms_c", bc_json_number(fit->rms_c));
	bc_json_put(failed, object, "product",
		curve_json(&run->pair.run.product, fit->product_c, failed));
	bc_json_put(
		failed, object, "heads", curve_json(&run->pair.run.heads, fit->heads_c, failed));
	bc_json_put(failed, object, "assumed", bc_json_strings(&run->assumed, failed));
	bc_json_put(failed, object, "cautions", bc_json_strings(&run->cautions, failed));
	return object;
}

json_t *bc_report_still_told_json(const struct bc_still_told *told)
{
	bool failed = false;
	json_t *root = json_object();
	json_t *runs = json_array();
	const char *name = told->record->still.name;
	for (size_t i = 0; i < told->n_runs; i++)
		bc_json_append(&failed, runs, run_json(told->runs[i], &failed));
	bc_json_put(&failed, root, "still", bc_json_text(name[0] != '\0' ? name : NULL));
	bc_json_put(&failed, root, "known", json_boolean(told->known));
	bc_json_put(&failed, root, "effective_plates", plates_json(&told->all, &failed));
	bc_json_put(&failed, root, "carry_pct", carry_json(&told->all, &failed));
	bc_json_put(&failed, root, "runs", runs);
	bc_json_put(&failed, root, "runs_kept", json_integer((json_int_t)told->record->n_pairs));
	bc_json_put(&failed, root, "saved", bc_json_text(told->saved));
	return bc_json_whole(failed, root);
}

static json_t *rig_json(const struct bc_rig *rig, bool *failed)
{
	json_t *object = json_object();
	bc_json_put(failed, object, "riser_mm", bc_json_number(rig->riser_mm));
	bc_json_put(failed, object, "height_mm", bc_json_number(rig->height_mm));
	bc_json_put(failed, object, "packing",
		bc_json_text(isnan(rig->riser_mm) ? NULL : rig->packing->word));
	bc_json_put(failed, object, "lagging_mm",
		bc_json_number(isnan(rig->riser_mm) ? (double)NAN : rig->lagging_mm));
	bc_json_put(failed, object, "head_reflux",
		bc_json_number(isnan(rig->riser_mm) ? (double)NAN : rig->reflux));
	bc_json_put(failed, object, "heater_w", bc_json_number(rig->heater_w));
	bc_json_put(failed, object, "charge_ml", bc_json_number(rig->charge_ml));
	bc_json_put(failed, object, "vacuum_kpa", bc_json_number(rig->vacuum_kpa));
	return object;
}

json_t *bc_report_still_described_json(const struct bc_still_described *described)
{
	const struct bc_rig_estimate *e = &described->estimate;
	const char *name = described->record->still.name;
	bool failed = false;
	json_t *root = json_object();
	bc_json_put(&failed, root, "still", bc_json_text(name[0] != '\0' ? name : NULL));
	bc_json_put(&failed, root, "rig", rig_json(&described->record->rig, &failed));
	bc_json_put(&failed, root, "stages", bc_json_estimate(&e->stages, &failed));
	bc_json_put(&failed, root, "effective_plates", bc_json_estimate(&e->plates, &failed));
	bc_json_put(&failed, root, "wall_w", bc_json_estimate(&e->wall_w, &failed));
	bc_json_put(&failed, root, "reflux", bc_json_estimate(&e->reflux, &failed));
	bc_json_put(&failed, root, "power_w", bc_json_estimate(&e->power_w, &failed));
	bc_json_put(&failed, root, "hold_ml", bc_json_estimate(&e->hold_ml, &failed));
	bc_json_put(&failed, root, "least_cut_ml", bc_json_estimate(&e->least_cut_ml, &failed));
	bc_json_put(&failed, root, "boil_w", bc_json_number(e->boil_w));
	bc_json_put(&failed, root, "boil_assumed", json_boolean(e->boil_assumed));
	bc_json_put(&failed, root, "heater_floods", json_boolean(e->heater_floods));
	bc_json_put(&failed, root, "wall_takes_all", json_boolean(e->wall_takes_all));
	bc_json_put(&failed, root, "saved", bc_json_text(described->saved));
	return bc_json_whole(failed, root);
}

json_t *bc_report_still_record_json(const struct bc_still_record *record)
{
	const struct bc_still *still = &record->still;
	bool one_number = !isnan(still->column.effective_plates);
	bool failed = false;
	json_t *root = json_object();
	json_t *pairs = json_array();
	bc_json_put(&failed, root, "still", bc_json_text(still->name));
	bc_json_put(&failed, root, "found", bc_json_text(bc_still_source_texts[still->source]));
	bc_json_put(&failed, root, "stages",
		one_number ? json_null() : bc_json_number(still->column.stages));
	bc_json_put(&failed, root, "reflux",
		one_number                    ? json_null()
		: isinf(still->column.reflux) ? bc_json_text("total")
					      : bc_json_number(still->column.reflux));
	bc_json_put(&failed, root, "effective_plates",
		bounds(still->column.effective_plates, still->plates_low, still->plates_high,
			&failed));
	bc_json_put(&failed, root, "carry_pct", bc_json_number(still->carry_pct));
	bc_json_put(
		&failed, root, "carry_half_width_pct", bc_json_number(still->carry_half_width_pct));
	bc_json_put(&failed, root, "thermometer",
		bc_json_text(still->thermometer != BC_THERMOMETER_NOT_STATED
				     ? bc_thermometer_text(still->thermometer)
				     : NULL));
	bc_json_put(&failed, root, "rig", rig_json(&record->rig, &failed));
	for (size_t i = 0; i < record->n_pairs; i++) {
		const struct bc_still_pair *pair = &record->pairs[i];
		json_t *object = json_object();
		bc_json_put(&failed, object, "before", bc_json_text(pair->before));
		bc_json_put(&failed, object, "after", bc_json_text(pair->after));
		bc_json_put(
			&failed, object, "effective_plates", plates_json(&pair->estimate, &failed));
		bc_json_put(&failed, object, "carry_pct", carry_json(&pair->estimate, &failed));
		bc_json_append(&failed, pairs, object);
	}
	bc_json_put(&failed, root, "runs", pairs);
	return bc_json_whole(failed, root);
}
