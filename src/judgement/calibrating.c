/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the boil-offs before and after a run of a still to what the still is worth. */
#include "judgement/calibrating.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fuel/flash.h"
#include "judgement/readings_mark.h"
#include "still/flask.h"

#define SIGMAS_95 1.96
#define REPEAT_C 0.7       /* calibrating.h, note 1 */
#define HAND_C 1.0         /* note 2 */
#define FIRST_PCT 4.0      /* the flask model does not describe the ends */
#define LAST_PCT 96.0      /* note 1 */
#define LEAST_LEFT_PCT 2.0 /* where no residue was measured; common practice */
#define LEAST_READINGS 3
#define MOST_MISFIT_C 6.0     /* calibrating.h, note 4 */
#define LEAST_LIGHT_FRAC 0.01 /* a light jar of which a pair can tell; judgement */

void bc_calibrating_init(struct bc_calibrating *calibrating)
{
	*calibrating = (struct bc_calibrating){.known = false};
	bc_judgement_init(&calibrating->feed);
	bc_strings_init(&calibrating->assumed);
	bc_strings_init(&calibrating->cautions);
}

void bc_calibrating_release(struct bc_calibrating *calibrating)
{
	if (calibrating == NULL)
		return;
	bc_judgement_release(&calibrating->feed);
	bc_strings_release(&calibrating->assumed);
	bc_strings_release(&calibrating->cautions);
	bc_calibrating_init(calibrating);
}

__attribute__((format(printf, 2, 3))) static enum bc_status refuse(
	struct bc_calibrating *calibrating, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	vsnprintf(calibrating->refused, sizeof calibrating->refused, format, arguments);
	va_end(arguments);
	return BC_BAD_DOMAIN;
}

/* ---- readings */

static double sigma_of(const struct bc_conditions *conditions)
{
	return hypot(conditions->reading_half_width_c / SIGMAS_95, REPEAT_C);
}

static void take_curve(const struct bc_boiloff *boiloff, double sigma_c, double last_pct,
	struct bc_calibration_curve *curve)
{
	curve->n = 0;
	for (size_t i = 0; i < boiloff->n && curve->n < BC_CALIBRATION_READINGS_MAX; i++) {
		const struct bc_point *point = &boiloff->points[i];
		double before = curve->n > 0 ? curve->pct[curve->n - 1] : FIRST_PCT - 1e-9;
		if (!point->used || point->kind != BC_READING_AMOUNT ||
			!(point->evaporated_pct > before && point->evaporated_pct <= last_pct))
			continue;
		curve->pct[curve->n] = point->evaporated_pct;
		curve->head_c[curve->n] = point->corrected_c;
		curve->sigma_c[curve->n++] = sigma_c;
	}
}

/* Conditions and readings of a sample that need not be judged. */
static enum bc_status read_curve(const struct bc_sample *sample, double last_pct,
	struct bc_calibrating *calibrating, struct bc_conditions *conditions,
	struct bc_calibration_curve *curve)
{
	struct bc_boiloff boiloff = {.n = 0};
	struct bc_strings unsaid; /* the feed's own assumptions are told, these are alike */
	struct bc_findings findings;
	bc_strings_init(&unsaid);
	bc_findings_init(&findings);
	enum bc_status status = bc_conditions_from_sample(sample, conditions, &unsaid);
	if (!bc_failed(status))
		status = bc_boiloff_from_sample(sample, conditions, &boiloff, &unsaid, &findings);
	if (!bc_failed(status))
		take_curve(&boiloff, sigma_of(conditions), last_pct, curve);
	if (!bc_failed(status) && curve->n < LEAST_READINGS)
		status = refuse(calibrating,
			"'%.60s' has %zu percent readings of 4 to 96 %%; expected %d or more",
			sample->file, curve->n, LEAST_READINGS);
	if (boiloff.wet)
		bc_strings_add(&calibrating->cautions,
			"Water was in %s: dry it and boil it off again, or the figures below are "
			"worth little.",
			sample->name != NULL ? sample->name : sample->file);
	bc_boiloff_release(&boiloff);
	bc_findings_release(&findings);
	bc_strings_release(&unsaid);
	return status;
}

/* ---- what went in */

static void take_feed(struct bc_calibrating *calibrating)
{
	const struct bc_judgement *feed = &calibrating->feed;
	struct bc_calibration_curve curve;
	struct bc_inversion_input *input = &calibrating->input;
	double sigma_c = sigma_of(&feed->conditions);
	take_curve(&feed->boiloff, sigma_c, LAST_PCT, &curve);
	for (size_t i = 0; i < curve.n; i++) {
		calibrating->feed_pct[i] = curve.pct[i];
		calibrating->feed_c[i] = curve.head_c[i];
	}
	*input = (struct bc_inversion_input){.apparatus = bc_flask_column(),
		.front = bc_front_of(&input->apparatus),
		.n = curve.n,
		.pct = calibrating->feed_pct,
		.head_c = calibrating->feed_c,
		.ibp_c = feed->boiloff.ibp_c,
		.head_sigma_c = sigma_c,
		.pot_sigma_c = sigma_c,
		.sg = feed->oil.slices.sg};
	input->front = isnan(input->ibp_c) ? BC_FRONT_FREE : BC_FRONT_FLASK;
	calibrating->pair.feed = input;
	calibrating->pair.ibp_sigma_c = 3.0 * sigma_c; /* the first drop is read the worst */
}

static void tell_feed(struct bc_calibrating *calibrating)
{
	const struct bc_judgement *feed = &calibrating->feed;
	for (size_t i = 0; i < feed->assumed.n; i++)
		bc_strings_add_once(&calibrating->assumed, "%s", feed->assumed.items[i]);
	if (isnan(feed->boiloff.ibp_c))
		bc_strings_add(&calibrating->assumed,
			"no IBP of the feed: its first percents follow the slope of the rest");
	if (feed->boiloff.wet)
		bc_strings_add(&calibrating->cautions,
			"Water was in the feed: never charge wet oil to a hot pot. Dry it and boil "
			"it off again, or the figures below are worth little.");
	if (!feed->oil.flash_claim)
		bc_strings_add(&calibrating->cautions,
			"The feed carries no claim on its flash (%s): treat it and its light jar as "
			"petrol.",
			feed->oil.no_claim_why);
	if (feed->sample->apparatus != BC_APPARATUS_FLASK)
		bc_strings_add(&calibrating->assumed,
			"apparatus of the feed's boil-off: reckoned as the flask");
}

/* Pure solvents are more dangerous than most oils here. */
static void warn_of_blend(struct bc_calibrating *calibrating)
{
	const double petrol_c = 23.0; /* GHS category 2 ends below it */
	const double normal_kpa = 101.325;
	double flash_c = NAN;
	if (bc_failed(bc_flash_vapour_space_c(calibrating->request.known, normal_kpa, &flash_c)) ||
		!(flash_c >= petrol_c))
		bc_strings_add(&calibrating->cautions,
			"This blend flashes near %.0f degC, like petrol: electric mantle, outdoors or "
			"under extraction, no flame or spark near, cooling water before heat.",
			flash_c);
}

static enum bc_status read_feed(struct bc_calibrating *calibrating, const struct bc_limits *limits)
{
	const struct bc_judge_options options = {.limits = limits, .want = BC_GRADES};
	const struct bc_sample *before = calibrating->request.before;
	struct bc_calibration_run *run = &calibrating->pair.run;
	if (before == NULL) {
		calibrating->pair.known = calibrating->request.known;
		run->end_pct = 100.0 - LEAST_LEFT_PCT;
		bc_strings_add(&calibrating->assumed,
			"the blend follows Raoult's law: paraffins with aromatics stray from it a "
			"little, alcohols and water altogether");
		warn_of_blend(calibrating);
		return BC_OK;
	}
	enum bc_status status = bc_judge(before, &options, &calibrating->feed);
	if (bc_failed(status))
		return status;
	const struct bc_boiloff *boiloff = &calibrating->feed.boiloff;
	run->end_pct = 100.0 - (boiloff->residue_known ? boiloff->residue_pct : LEAST_LEFT_PCT);
	run->end_pct = fmin(run->end_pct, 100.0 * BC_RUN_STOP_MAX);
	take_feed(calibrating);
	tell_feed(calibrating);
	if (calibrating->input.n < LEAST_READINGS)
		return refuse(calibrating,
			"'%.60s' has %zu percent readings of 4 to 96 %%; expected %d or more",
			before->file, calibrating->input.n, LEAST_READINGS);
	return BC_OK;
}

/* ---- where the tap was turned */

static struct bc_turn turn_of(
	const struct bc_turn_said *said, const struct bc_conditions *thermometer)
{
	if (!said->at_head)
		return (struct bc_turn){false, NAN, said->value, NAN};
	double head_c =
		said->as_read ? bc_corrected_from_reading(thermometer, said->value) : said->value;
	double sigma_c = bc_corrected_half_width_c(thermometer, head_c) / SIGMAS_95;
	return (struct bc_turn){true, head_c, NAN, hypot(sigma_c, HAND_C)};
}

static enum bc_status place_turns(
	struct bc_calibrating *calibrating, const struct bc_conditions *thermometer)
{
	const struct bc_sample *after = calibrating->request.after;
	struct bc_turn_said *from = &calibrating->request.from;
	struct bc_turn_said *to = &calibrating->request.to;
	struct bc_calibration_pair *pair = &calibrating->pair;
	if (!from->said && isfinite(after->jar_from_c)) {
		*from = (struct bc_turn_said){true, true, after->jar_from_c, true};
		bc_strings_add(&calibrating->assumed,
			"the product begins at its own 'jar from': %.4g degC as read",
			after->jar_from_c);
	}
	if (!to->said && isfinite(after->jar_to_c)) {
		*to = (struct bc_turn_said){true, true, after->jar_to_c, true};
		bc_strings_add(&calibrating->assumed,
			"the product ends at its own 'jar to': %.4g degC as read", after->jar_to_c);
	}
	if (!from->said)
		return refuse(calibrating,
			"where the product begins is not said; expected --cut or the key 'jar from' "
			"in '%.60s'",
			after->file);
	pair->run.from = turn_of(from, thermometer);
	pair->end_free = !to->said;
	pair->run.to = to->said ? turn_of(to, thermometer)
				: (struct bc_turn){false, NAN, pair->run.end_pct, NAN};
	if (!to->said)
		bc_strings_add(&calibrating->assumed,
			"the product is all that came over after the cut; how far the run went is "
			"read from its own heavy end");
	if (from->at_head && to->said && to->at_head &&
		!(pair->run.to.head_c > pair->run.from.head_c))
		return refuse(calibrating, "the product would end before it begins; expected the "
					   "end above the cut");
	return BC_OK;
}

/* ---- the whole */

static enum bc_status read_all(struct bc_calibrating *calibrating, const struct bc_limits *limits)
{
	const struct bc_calibrating_request *request = &calibrating->request;
	struct bc_calibration_run *run = &calibrating->pair.run;
	struct bc_conditions after;
	struct bc_conditions heads;
	enum bc_status status = read_feed(calibrating, limits);
	if (!bc_failed(status) && request->after != NULL)
		status = read_curve(request->after, LAST_PCT, calibrating, &after, &run->product);
	if (!bc_failed(status) && request->heads != NULL)
		status = read_curve(request->heads, fmin(LAST_PCT, run->end_pct), calibrating,
			&heads, &run->heads);
	if (!bc_failed(status) && request->after != NULL)
		status = place_turns(calibrating, request->heads != NULL ? &heads : &after);
	return status;
}

static const char *name_of(const struct bc_sample *sample)
{
	if (sample->name != NULL && sample->name[0] != '\0')
		return sample->name;
	const char *slash = strrchr(sample->file, '/');
	return slash != NULL ? slash + 1 : sample->file;
}

/* A name goes back into a file of one row a pair. */
static void copy_words(const char *from, char *to, size_t size)
{
	size_t n = 0;
	while (*from != '\0') {
		size_t length = bc_utf8_length(from);
		if (length == 0 || n + length + 1 > size)
			break;
		if (!bc_utf8_is_control(from, length)) {
			memcpy(to + n, from, length);
			n += length;
		}
		from += length;
	}
	to[n] = '\0';
}

/* What went in, what came out and the heads stand apart: a missing one is not the next. */
static uint64_t mark_of(const struct bc_calibrating_request *request)
{
	uint64_t mark =
		bc_words_mark(BC_MARK_START, request->before == NULL ? request->known_words : NULL);
	mark = bc_readings_mark(bc_words_mark(mark, "before"), request->before);
	mark = bc_readings_mark(bc_words_mark(mark, "after"), request->after);
	mark = bc_readings_mark(bc_words_mark(mark, "heads"), request->heads);
	return mark != 0 ? mark : 1;
}

static void keep(struct bc_calibrating *calibrating)
{
	const struct bc_calibrating_request *request = &calibrating->request;
	struct bc_still_pair *kept = &calibrating->kept;
	const struct bc_plates_estimate *estimate = &calibrating->answer.estimate;
	const double less_than_before = 0.9;
	copy_words(request->before != NULL ? name_of(request->before) : request->known_words,
		kept->before, sizeof kept->before);
	copy_words(name_of(request->after != NULL ? request->after : request->heads), kept->after,
		sizeof kept->after);
	kept->estimate = *estimate;
	kept->readings = mark_of(request);
	calibrating->carry_told =
		request->after != NULL &&
		estimate->carry_sigma_pct < less_than_before * BC_CALIBRATION_CARRY_PRIOR_SIGMA;
	bool no_light_jar = request->after != NULL && request->heads == NULL &&
			    !(calibrating->answer.fit.from_frac > LEAST_LIGHT_FRAC);
	bool misfit = !(calibrating->answer.fit.rms_c <= MOST_MISFIT_C);
	calibrating->known = bc_plates_known(estimate) && !calibrating->answer.fit.at_bound &&
			     !no_light_jar && !misfit;
	if (misfit)
		bc_strings_add(&calibrating->cautions,
			"No still explains these readings: they lie %.0f degC from the best "
			"prediction. Is it the right feed, the right file, degC, the right place "
			"of the cut?",
			calibrating->answer.fit.rms_c);
	if (no_light_jar)
		bc_strings_add(&calibrating->cautions,
			"The head stands above the cut almost from the first drop on: there is no "
			"light jar, and such a pair says nothing of the still.");
}

/* A still no better than its pot stands at the bound, which is an answer. */
static void mend_bare_pot(struct bc_calibrating *calibrating)
{
	struct bc_calibration_fit *fit = &calibrating->answer.fit;
	if (fit->at_bound && fit->plates < 1.0)
		fit->at_bound = false;
}

enum bc_status bc_calibrating_run(const struct bc_calibrating_request *request,
	const struct bc_limits *limits, struct bc_calibrating *calibrating)
{
	struct bc_calibration_work *work = bc_calibration_work_new();
	struct bc_inversion_work *inversion_work = bc_inversion_work_new();
	enum bc_status status = BC_NO_MEMORY;
	calibrating->request = *request;
	if (work == NULL || inversion_work == NULL)
		goto done;
	status = read_all(calibrating, limits);
	if (!bc_failed(status))
		status = bc_calibrate_pair(
			&calibrating->pair, work, inversion_work, &calibrating->answer);
	if (status == BC_BAD_DOMAIN && calibrating->refused[0] == '\0')
		refuse(calibrating,
			"no product can be cut so from this feed; expected a cut inside "
			"what comes over");
	if (!bc_failed(status)) {
		mend_bare_pot(calibrating);
		keep(calibrating);
	}
	if (!bc_failed(status) && (calibrating->assumed.failed || calibrating->cautions.failed))
		status = BC_NO_MEMORY;
done:
	bc_inversion_work_free(inversion_work);
	bc_calibration_work_free(work);
	return bc_failed(status) ? status : BC_OK;
}
