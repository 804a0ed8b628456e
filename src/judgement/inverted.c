/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the readings of a boil-off back to its oil, for a still that is known and for the flask. */
#include "judgement/inverted.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/memory.h"
#include "fuel/density.h"
#include "fuel/measured.h"
#include "fuel/oil_given.h"
#include "still/flask.h"

/* The flask runs dry behind it and is another still: flask.h, note 2. */
#define LAST_PCT 95.0
#define LEAST_READINGS 5
/* Standard errors. A head is met no better than a flask is described; a pot thermometer hangs in
 * boiling liquid that bumps and is not calibrated; common practice. */
#define HEAD_SIGMA_MIN_C 1.0
#define POT_SIGMA_C 3.0
#define SIGMAS_95 1.96
/* Where nobody read; as fuel/oil_points.h, note 1. */
#define UNREAD_C 10.0

struct readings {
	double pct[BC_INVERSION_READINGS_MAX];
	double head_c[BC_INVERSION_READINGS_MAX];
	double pot_c[BC_INVERSION_READINGS_MAX];
	size_t n;
	bool with_pot;
};

bool bc_inverted_apparatus(const struct bc_sample *sample, const struct bc_judge_options *options,
	struct bc_still *apparatus)
{
	if (sample->apparatus == BC_APPARATUS_COLUMN) {
		*apparatus =
			(struct bc_still){.column = {sample->column_stages, sample->column_reflux,
						  (double)NAN, (double)NAN},
				.plates_low = NAN,
				.plates_high = NAN};
		return true;
	}
	if (sample->apparatus != BC_APPARATUS_STILL || !options->apparatus)
		return false;
	*apparatus = *options->apparatus;
	return true;
}

/* ---- readings */

/* A pot thermometer is no head thermometer: no stem, no check points; pressure alone is taken out.
 */
static struct bc_conditions pot_conditions(const struct bc_conditions *head)
{
	struct bc_conditions pot = *head;

	pot.reads_true_vapour = true;
	pot.tbp = false;
	pot.ice_c = pot.steam_c = pot.immersion_c = NAN;
	return pot;
}

static bool counts(const struct bc_point *point, double last_pct)
{
	return point->used && point->kind == BC_READING_AMOUNT &&
	       point->recovered_pct <= LAST_PCT && point->evaporated_pct > last_pct &&
	       point->evaporated_pct <= 99.0;
}

static void take(
	const struct bc_point *point, const struct bc_conditions *pot, struct readings *readings)
{
	size_t i = readings->n++;

	readings->pct[i] = point->evaporated_pct;
	readings->head_c[i] = point->corrected_c;
	readings->pot_c[i] = bc_true_from_reading(pot, point->pot_c);
	readings->with_pot = readings->with_pot || isfinite(readings->pot_c[i]);
}

/* Percent readings in use; of too many every second, third, ... from the first on. */
static void take_readings(const struct bc_judgement *judgement, struct readings *readings)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	const struct bc_conditions pot = pot_conditions(&judgement->conditions);
	size_t usable = 0;
	size_t seen = 0;
	double last_pct = 0.0;

	*readings = (struct readings){.n = 0};
	for (size_t i = 0; i < boiloff->n; i++)
		usable += counts(&boiloff->points[i], 0.0);
	size_t stride = (usable + BC_INVERSION_READINGS_MAX - 1) / BC_INVERSION_READINGS_MAX;
	for (size_t i = 0; i < boiloff->n; i++) {
		if (!counts(&boiloff->points[i], last_pct))
			continue;
		last_pct = boiloff->points[i].evaporated_pct;
		if (seen++ % stride == 0)
			take(&boiloff->points[i], &pot, readings);
	}
}

static enum bc_status invert(
	struct bc_judgement *judgement, const struct bc_column *apparatus, double sg)
{
	struct readings readings;
	struct bc_inversion_work *work;
	struct bc_inversion *inversion;
	enum bc_status status = BC_NO_MEMORY;

	take_readings(judgement, &readings);
	if (readings.n < LEAST_READINGS || !(sg > 0.0))
		return BC_TOO_FEW;
	const struct bc_inversion_input input = {.apparatus = *apparatus,
		.front = bc_front_of(apparatus),
		.n = readings.n,
		.pct = readings.pct,
		.head_c = readings.head_c,
		.pot_c = readings.with_pot ? readings.pot_c : NULL,
		.ibp_c = judgement->boiloff.ibp_c,
		.head_sigma_c = fmax(
			HEAD_SIGMA_MIN_C, judgement->conditions.reading_half_width_c / SIGMAS_95),
		.pot_sigma_c = POT_SIGMA_C,
		.sg = sg};
	work = bc_inversion_work_new();
	inversion = bc_alloc(sizeof *inversion);
	if (work && inversion)
		status = bc_invert(&input, work, inversion);
	bc_inversion_work_free(work);
	if (bc_failed(status)) {
		bc_free(inversion);
		return status;
	}
	judgement->inversion = inversion;
	return status;
}

/* ---- a known still */

/* For the inversion alone, which hardly asks for it. */
static double rough_sg(const struct bc_judgement *judgement)
{
	struct bc_strings unsaid;
	double sg = NAN;

	bc_strings_init(&unsaid);
	struct bc_estimate density =
		bc_density_measured(judgement->sample, &judgement->boiloff, &unsaid);
	bc_strings_release(&unsaid);
	if (bc_estimate_present(&density))
		return bc_sg_from_density15(density.value);
	bc_sg_from_d86(
		judgement->points.at[BC_AT_T10].value, judgement->points.at[BC_AT_T50].value, &sg);
	return sg;
}

/* How far (95 %) one knot is off: by each reading for itself, and by all of them together. */
static void knot_error(const struct bc_judgement *judgement, const struct readings *readings,
	size_t k, double *own_c, double *low_c, double *high_c)
{
	const struct bc_inversion *inversion = judgement->inversion;
	const struct bc_conditions *conditions = &judgement->conditions;
	double reading_c = conditions->reading_half_width_c;
	double low;
	double high;
	bool read = inversion->knot_pct[k] >= inversion->read_from_pct &&
		    inversion->knot_pct[k] <= inversion->read_to_pct;

	*own_c = hypot(BC_FLASK_POINT_C, inversion->ibp_gain[k] * reading_c);
	*low_c = *high_c = 0.0;
	for (size_t i = 0; i < readings->n; i++) {
		double gain = inversion->head_gain[k][i];
		bc_common_error_c(conditions, readings->head_c[i], &low, &high);
		*own_c = hypot(*own_c, gain * reading_c);
		if (readings->with_pot)
			*own_c = hypot(*own_c, inversion->pot_gain[k][i] * SIGMAS_95 * POT_SIGMA_C);
		*low_c += gain * low;
		*high_c += gain * high;
	}
	if (!read)
		*own_c = hypot(*own_c, UNREAD_C);
	if (inversion->ibp_gain[k] != 0.0) {
		bc_common_error_c(conditions, judgement->boiloff.ibp_c, &low, &high);
		*low_c += inversion->ibp_gain[k] * low;
		*high_c += inversion->ibp_gain[k] * high;
	}
	*low_c = fmax(*low_c, 0.0);
	*high_c = fmax(*high_c, 0.0);
}

static void give(const struct bc_judgement *judgement, struct bc_oil_given *given)
{
	const struct bc_inversion *inversion = judgement->inversion;
	struct bc_oil_errors *errors = &given->errors;
	struct bc_oil_input *input = &given->input;
	struct readings readings;

	*given = (struct bc_oil_given){.no_claim_why = NULL};
	given->beyond_readings = bc_oil_points_take(
		&judgement->conditions, &judgement->boiloff, &judgement->points, input, errors);
	take_readings(judgement, &readings);
	*input = (struct bc_oil_input){.n = inversion->n_knots,
		.tbp = true,
		.flask_front = inversion->front != BC_FRONT_TRUE,
		.read_from_pct = inversion->read_from_pct,
		.read_to_pct = inversion->read_to_pct};
	memcpy(input->pct, inversion->knot_pct, sizeof input->pct);
	memcpy(input->temp_c, inversion->knot_c, sizeof input->temp_c);
	for (size_t k = 0; k < inversion->n_knots; k++)
		knot_error(judgement, &readings, k, &errors->point_c[k], &errors->common_low_c[k],
			&errors->common_high_c[k]);
	if (inversion->front == BC_FRONT_FREE)
		given->no_claim_why = "the first drops of such a still lie far above those of a "
				      "flask and say too little of the lightest part";
}

/* What the slices themselves leave open at the reported percents, which are knots. */
static void own_errors(const struct bc_oil_given *given, double own_c[BC_POINTS])
{
	for (size_t i = 0; i < BC_POINTS; i++) {
		own_c[i] = NAN;
		for (size_t k = 0; k < given->input.n; k++)
			if (given->input.pct[k] == bc_point_pct[i])
				own_c[i] = hypot(given->errors.point_c[k],
					fmax(given->errors.common_low_c[k],
						given->errors.common_high_c[k]));
	}
}

static enum bc_status find_flask_points(
	struct bc_judgement *judgement, const struct bc_oil_given *given)
{
	struct bc_still_work *work = bc_still_work_new();
	struct bc_run *run = bc_run_new();
	double own_c[BC_POINTS];
	enum bc_status status = BC_NO_MEMORY;

	own_errors(given, own_c);
	if (work && run)
		status = bc_simulated_flask_points(
			&judgement->oil.slices, own_c, work, run, &judgement->flask_points);
	bc_still_work_free(work);
	bc_run_free(run);
	return status;
}

/* The oil behind the boil-off, if it was made in this column; BC_NOT_FOUND: none could be had. */
static enum bc_status oil_behind(struct bc_judgement *judgement, const struct bc_column *column,
	struct bc_oil_given *given, struct bc_oil *oil, struct bc_strings *assumed,
	struct bc_findings *findings)
{
	enum bc_status status = invert(judgement, column, rough_sg(judgement));

	if (status == BC_NO_MEMORY)
		return status;
	if (bc_failed(status) || status == BC_EXTRAPOLATED)
		return BC_NOT_FOUND;
	give(judgement, given);
	return bc_oil_from_given(judgement->sample, &judgement->conditions, &judgement->boiloff,
		&judgement->reader, &judgement->points, given, oil, assumed, findings);
}

static void forget_inversion(struct bc_judgement *judgement)
{
	bc_free(judgement->inversion);
	judgement->inversion = NULL;
}

static bool is_of_the_book(const struct bc_judgement *judgement)
{
	return judgement->sample->apparatus == BC_APPARATUS_STILL;
}

static bool bounds_known(const struct bc_still *still)
{
	return still->plates_low >= 1.0 && isfinite(still->plates_low);
}

/* Whether so little is known of how well it separates that no word is better than undecided. */
static bool is_guessed(const struct bc_judgement *judgement, const struct bc_still *still)
{
	return is_of_the_book(judgement) &&
	       (still->source == BC_STILL_ESTIMATED || !bounds_known(still));
}

static enum bc_status oil_at_the_least(
	struct bc_judgement *judgement, const struct bc_still *still, struct bc_oil *low)
{
	const struct bc_column column = {NAN, NAN, still->plates_low, NAN};
	struct bc_oil_given given;
	struct bc_strings unsaid;
	struct bc_findings unseen;

	bc_strings_init(&unsaid);
	bc_findings_init(&unseen);
	enum bc_status status = oil_behind(judgement, &column, &given, low, &unsaid, &unseen);
	bc_findings_release(&unseen);
	bc_strings_release(&unsaid);
	forget_inversion(judgement);
	return status;
}

/* A poorer still hides light ends that a better one would have shown. */
static void lower_flash(const struct bc_oil *low, struct bc_oil *oil)
{
	struct bc_estimate *vapour = &oil->property[BC_FLASH_VAPOUR];
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_estimate *least = &low->property[BC_FLASH_VAPOUR];

	if (bc_estimate_present(least) && bc_estimate_present(vapour)) {
		oil->reach.low[BC_FLASH_VAPOUR] = hypot(
			oil->reach.low[BC_FLASH_VAPOUR], fmax(vapour->value - least->value, 0.0));
		vapour->low = fmin(vapour->low, least->low);
	}
	if (flash->how == BC_MEASURED || !oil->flash_claim)
		return;
	if (!low->flash_claim) {
		oil->flash_claim = false;
		oil->no_claim_why = low->no_claim_why;
		flash->low = oil->flash_low_at_site_c = NAN;
		return;
	}
	double fall_c = fmax(flash->low - low->property[BC_FLASH].low, 0.0);
	flash->low -= fall_c;
	oil->flash_low_at_site_c -= fall_c;
}

static void tell_still(struct bc_judgement *judgement, const struct bc_still *still)
{
	const struct bc_column *column = &still->column;
	char worth[64];
	char bounds[64] = "how sure that is, is not known";

	if (isfinite(column->effective_plates))
		snprintf(worth, sizeof worth, "%.3g effective plates", column->effective_plates);
	else
		snprintf(worth, sizeof worth, "%.3g stages with reflux %.3g", column->stages,
			column->reflux);
	if (bounds_known(still))
		snprintf(bounds, sizeof bounds, "%.2g to %.2g effective plates", still->plates_low,
			still->plates_high);
	bc_strings_add(&judgement->assumed,
		"apparatus: the still '%s' as it is kept, %s (%s; %s)%s", still->name, worth,
		bounds, bc_still_source_texts[still->source],
		judgement->flash_held ? "; the flash bound is the lower one of both" : "");
}

enum bc_status bc_inverted_oil(struct bc_judgement *judgement, const struct bc_still *still)
{
	struct bc_oil_given given;
	struct bc_oil low;
	bool weigh = is_of_the_book(judgement) && bounds_known(still);
	enum bc_status least = weigh ? oil_at_the_least(judgement, still, &low) : BC_NOT_FOUND;

	if (least == BC_NO_MEMORY)
		return least;
	enum bc_status status = oil_behind(judgement, &still->column, &given, &judgement->oil,
		&judgement->assumed, &judgement->findings);
	if (status == BC_NOT_FOUND)
		return BC_OK;
	if (!bc_failed(status))
		status = find_flask_points(judgement, &given);
	judgement->inverted_input = given.input;
	judgement->by_inversion = !bc_failed(status);
	judgement->still_guessed = is_guessed(judgement, still) || (weigh && bc_failed(least));
	if (bc_failed(status) || !is_of_the_book(judgement))
		return status;
	if (!bc_failed(least)) {
		lower_flash(&low, &judgement->oil);
		judgement->flash_held = true;
	}
	tell_still(judgement, still);
	return status;
}

void bc_inverted_pcts(
	const struct bc_judgement *judgement, double recovered_pct[BC_INVERSION_READINGS_MAX])
{
	struct readings readings;

	take_readings(judgement, &readings);
	for (size_t i = 0; i < readings.n; i++)
		recovered_pct[i] = readings.pct[i] - judgement->boiloff.loss_pct;
}

/* ---- the flask, beside the correlation */

double bc_inverted_c(const struct bc_judgement *judgement, double recovered_pct)
{
	const struct bc_inversion *inversion = judgement->inversion;
	double pct = recovered_pct + judgement->boiloff.loss_pct;

	if (!inversion || !(recovered_pct >= judgement->boiloff.first_pct) ||
		!(pct <= inversion->read_to_pct))
		return NAN;
	return bc_tbp_curve_temp_c(&inversion->curve, pct);
}

/* Where both ways hold: between readings, and inside the range of the conversion. */
static bool both_hold(const struct bc_judgement *judgement, double pct)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	double d86_c = NAN;
	double tbp_c;

	for (size_t i = 0; i < BC_POINTS; i++)
		if (bc_point_pct[i] == pct)
			d86_c = judgement->points.at[i].value;
	/* 60 degC: from there on the flash is less sure too, bc_flash_half_width_c */
	bool front = judgement->points.at[BC_AT_T10].value - boiloff->ibp_c < 60.0;
	return pct >= (front ? 10.0 : 30.0) && pct <= 90.0 && boiloff->first_pct < pct &&
	       pct < boiloff->last_pct && bc_tbp_from_d86_c(pct, d86_c, &tbp_c) == BC_OK;
}

double bc_inverted_apart(const struct bc_judgement *judgement, double *apart_c)
{
	double at_pct = NAN;

	*apart_c = 0.0;
	for (size_t i = 0; i < BC_TBP_POINTS; i++) {
		double pct = bc_tbp_point_pct[i];
		double apart = bc_inverted_c(judgement, pct) - judgement->oil.tbp_c[i];
		if (!both_hold(judgement, pct) || !(fabs(apart) > fabs(*apart_c)))
			continue;
		*apart_c = apart;
		at_pct = pct;
	}
	return at_pct;
}

/* What is more than the two ways are usually apart, for an oil of this width. */
static double apart_limit_c(const struct bc_judgement *judgement)
{
	const double gasoline_c = 180.0; /* T50 below it; common practice */
	const struct bc_estimate *at = judgement->points.at;
	bool wide = at[BC_AT_T90].value - at[BC_AT_T10].value > BC_WIDE_BOILING_C;

	return wide || at[BC_AT_T50].value < gasoline_c ? BC_INVERTED_APART_WIDE_C
							: BC_INVERTED_APART_C;
}

enum bc_status bc_inverted_beside(struct bc_judgement *judgement)
{
	const struct bc_column flask = bc_flask_column();
	double apart_c;
	enum bc_status status;

	if (judgement->sample->apparatus != BC_APPARATUS_FLASK || judgement->oil.wet)
		return BC_OK;
	status = invert(judgement, &flask,
		bc_sg_from_density15(judgement->oil.property[BC_DENSITY15].value));
	if (bc_failed(status))
		return status == BC_NO_MEMORY ? status : BC_OK;
	double at_pct = bc_inverted_apart(judgement, &apart_c);
	if (fabs(apart_c) > apart_limit_c(judgement))
		bc_findings_say(&judgement->findings, "conversion-differs", BC_FINDING_NOTE, at_pct,
			"Look for the cause: the thermometer, the volume of the charge, water, "
			"cracking, or an oil unlike those that the conversion was made on. Repeat "
			"the boil-off.",
			"Two ways from these readings to true boiling points are %.0f degC apart at "
			"%.0f %%: the usual conversion, and the flask taken as a small still.",
			fabs(apart_c), at_pct);
	return BC_OK;
}
