/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A person's own closed cups beside the estimates of the same jars: what the next estimate gains.
 */
#include "judgement/learning.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/stats.h"
#include "base/text.h"
#include "curve/correction.h"
#include "fuel/flash.h"
#include "fuel/measured.h"
#include "judgement/readings_mark.h"

/* header, notes 1 and 2 */
static const double shared_share = 0.3;
static const double prior_freedom = 4.0;
/* Farther from the others than three standard deviations of the method. */
static const double outlying_half_widths = 1.5;

void bc_learning_init(struct bc_learning *learning) { *learning = (struct bc_learning){0}; }

void bc_learning_release(struct bc_learning *learning)
{
	if (!learning)
		return;
	for (size_t i = 0; i < learning->n; i++) {
		bc_free(learning->pairs[i].file);
		bc_free(learning->pairs[i].kind);
	}
	bc_free(learning->pairs);
	bc_learning_init(learning);
}

/* ---- which pairs belong together */

static void append_lower(struct bc_text *text, const char *s)
{
	for (; *s != '\0'; s++) {
		char c = (char)tolower((unsigned char)*s);
		bc_text_append_n(text, &c, 1);
	}
}

enum bc_status bc_learning_kind(const struct bc_sample *sample, char **kind)
{
	static const char *const apparatus[] = {
		[BC_APPARATUS_FLASK] = "flask",
		[BC_APPARATUS_COLUMN] = "column",
		[BC_APPARATUS_TBP] = "tbp",
		[BC_APPARATUS_STILL] = "still",
	};
	struct bc_feed feed;
	struct bc_text text;
	*kind = NULL;
	bc_feed_read(sample->feed, &feed);
	if (!feed.known)
		return BC_OK;
	bc_text_init(&text);
	bc_feed_append_names(&feed, &text);
	bc_text_printf(&text, ", %s", apparatus[sample->apparatus]);
	if (sample->apparatus == BC_APPARATUS_COLUMN)
		bc_text_printf(&text, " %g %g", sample->column_stages, sample->column_reflux);
	if (sample->apparatus == BC_APPARATUS_STILL && sample->apparatus_still) {
		bc_text_append(&text, " ");
		append_lower(&text, sample->apparatus_still);
	}
	bc_text_printf(&text, ", thermometer %s", bc_thermometer_text(sample->thermometer));
	if (sample->still) {
		bc_text_append(&text, ", still ");
		append_lower(&text, sample->still);
	}
	*kind = bc_text_take(&text);
	return *kind ? BC_OK : BC_NO_MEMORY;
}

static const char *why_nothing(const struct bc_judgement *judgement, const char *kind)
{
	const struct bc_oil *oil = &judgement->oil;
	const char *no_claim = bc_flash_no_claim_why(judgement->sample, &judgement->boiloff, oil);
	if (oil->wet)
		return "the sample was wet";
	if (no_claim)
		return no_claim;
	if (!bc_estimate_present(&oil->property[BC_FLASH_VAPOUR]))
		return "there is no estimate beside its cup";
	if (!(judgement->points.at[BC_AT_T10].value < BC_HEAVY_T10_C))
		return "for so heavy an oil the estimate does not hold";
	return kind ? NULL : "its feed is not named";
}

static bool has_boiloff(const struct bc_learning *learning, uint64_t readings)
{
	for (size_t i = 0; i < learning->n; i++)
		if (learning->pairs[i].readings == readings)
			return true;
	return false;
}

enum bc_status bc_learning_add(
	struct bc_learning *learning, const struct bc_judgement *judgement, const char **why)
{
	const struct bc_sample *sample = judgement->sample;
	const struct bc_measured *closed = bc_sample_measured(sample, "flash_point");
	*why = NULL;
	if (!closed)
		return BC_OK;
	char *kind = NULL;
	enum bc_status status = bc_learning_kind(sample, &kind);
	if (bc_failed(status))
		return status;
	uint64_t readings = bc_readings_mark(BC_MARK_START, sample);
	*why = why_nothing(judgement, kind);
	if (!*why && has_boiloff(learning, readings))
		*why = "the same boil-off stands in another file";
	if (*why) {
		bc_free(kind);
		return BC_OK;
	}
	char *file = bc_strdup(sample->file ? sample->file : "a sample");
	if (!file || bc_grow((void **)&learning->pairs, learning->n, &learning->capacity,
			     sizeof *learning->pairs) != 0) {
		bc_free(file);
		bc_free(kind);
		return BC_NO_MEMORY;
	}
	learning->pairs[learning->n++] = (struct bc_flash_pair){file, kind, readings,
		judgement->oil.property[BC_FLASH_VAPOUR].value, closed->value};
	return BC_OK;
}

/* ---- what they teach */

enum bc_status bc_flash_offset_from_residuals(
	const double *residual_c, size_t n, double half_width_c, struct bc_flash_offset *offset)
{
	*offset = (struct bc_flash_offset){0};
	if (n < BC_LEARNING_LEAST)
		return BC_TOO_FEW;
	double count = (double)n;
	double mean = 0.0;
	for (size_t i = 0; i < n; i++)
		mean += residual_c[i] / count;
	double squares = 0.0;
	for (size_t i = 0; i < n; i++)
		squares += (residual_c[i] - mean) * (residual_c[i] - mean);
	if (!isfinite(squares) || !(half_width_c > 0.0))
		return BC_BAD_DOMAIN;
	double method = (half_width_c / BC_Z95) * (half_width_c / BC_Z95);
	double shared = shared_share * method;
	double freedom = prior_freedom + count - 1.0;
	double scatter = (prior_freedom * (method - shared) + squares) / freedom;
	double k = scatter / shared;
	*offset = (struct bc_flash_offset){n, count / (count + k) * mean,
		bc_student95(freedom) * sqrt(scatter * (1.0 + 1.0 / (count + k)))};
	return BC_OK;
}

static bool is_of(const struct bc_flash_pair *pair, const char *kind, uint64_t readings)
{
	return kind && pair->readings != readings && strcmp(pair->kind, kind) == 0;
}

/* The residuals that count; those that lie apart are told. residual_c holds learning->n twice. */
static size_t take_residuals(const struct bc_learning *learning, const char *kind,
	uint64_t readings, double half_width_c, double *residual_c, struct bc_strings *assumed)
{
	double *sorted = residual_c + learning->n;
	size_t all = 0;
	for (size_t i = 0; i < learning->n; i++)
		if (is_of(&learning->pairs[i], kind, readings))
			sorted[all++] =
				learning->pairs[i].measured_c - learning->pairs[i].estimate_c;
	double middle = bc_median(sorted, all);
	size_t n = 0;
	for (size_t i = 0; i < learning->n; i++) {
		const struct bc_flash_pair *pair = &learning->pairs[i];
		if (!is_of(pair, kind, readings))
			continue;
		double apart = pair->measured_c - pair->estimate_c - middle;
		bool outlying = all >= BC_LEARNING_LEAST &&
				fabs(apart) > outlying_half_widths * half_width_c;
		if (outlying)
			bc_strings_add(assumed,
				"own flash cups: %s, measured %.1f degC beside an estimate of "
				"%.1f, lies apart from the others and is %s",
				pair->file, pair->measured_c, pair->estimate_c,
				apart > 0.0 ? "left out" : "kept, since it lowers the estimate");
		if (!outlying || apart < 0.0)
			residual_c[n++] = pair->measured_c - pair->estimate_c;
	}
	return n;
}

static double lowest_cap_c(const struct bc_judgement *judgement)
{
	const struct bc_sample *sample = judgement->sample;
	const struct bc_estimate *t10 = &judgement->oil.property[BC_FLASH_T10];
	double cap_c = judgement->oil.property[BC_FLASH_VAPOUR].value;
	if (bc_estimate_present(t10))
		cap_c = fmin(cap_c, t10->value);
	for (size_t i = 0; i < sample->n_measured; i++)
		if (sample->measured[i].open_cup)
			cap_c = fmin(cap_c, sample->measured[i].value);
	return cap_c;
}

static void move_flash(struct bc_judgement *judgement)
{
	struct bc_oil *oil = &judgement->oil;
	struct bc_estimate *flash = &oil->property[BC_FLASH];
	const struct bc_flash_offset *offset = &judgement->learned;
	double half_width_c = offset->half_width_c;
	flash->value += offset->offset_c;
	flash->low = flash->value - hypot(half_width_c, oil->reach.low[BC_FLASH_VAPOUR]);
	flash->high = flash->value + hypot(half_width_c, oil->reach.high[BC_FLASH_VAPOUR]);
	oil->flash_learned_low_c = flash->low;
	flash->low = fmin(flash->low, lowest_cap_c(judgement));
	double site_c =
		BC_FLASH_PER_KPA * (BC_STANDARD_PRESSURE_KPA - judgement->conditions.pressure_kpa);
	oil->flash_at_site_c = flash->value - site_c;
	oil->flash_low_at_site_c = flash->low - site_c;
}

static void learn(
	const double *residual_c, size_t n, double half_width_c, struct bc_judgement *judgement)
{
	struct bc_flash_offset *offset = &judgement->learned;
	if (bc_failed(bc_flash_offset_from_residuals(residual_c, n, half_width_c, offset))) {
		bc_strings_add(&judgement->assumed,
			"own flash cups: %zu of this feed, apparatus, thermometer and still, fewer "
			"than %d: the estimate stays as it is",
			n, BC_LEARNING_LEAST);
		return;
	}
	double value_c = judgement->oil.property[BC_FLASH].value + offset->offset_c;
	offset->half_width_c = fmax(offset->half_width_c, bc_closed_cup_half_width_c(value_c));
	move_flash(judgement);
	bc_strings_add(&judgement->assumed,
		"your own %zu cups moved the flash estimate by %+.1f degC; it is good to +-%.1f",
		offset->pairs, offset->offset_c, offset->half_width_c);
}

enum bc_status bc_learning_apply(const struct bc_learning *learning, struct bc_judgement *judgement)
{
	const struct bc_oil *oil = &judgement->oil;
	const struct bc_estimate *points = judgement->points.at;
	if (!learning || !oil->flash_claim || oil->property[BC_FLASH].how != BC_ESTIMATED)
		return BC_OK;
	if (!(points[BC_AT_T10].value < BC_HEAVY_T10_C))
		return BC_OK;
	char *kind = NULL;
	double *residual_c = NULL;
	enum bc_status status = bc_learning_kind(judgement->sample, &kind);
	if (bc_failed(status))
		goto done;
	residual_c = bc_alloc_array(2 * learning->n + 1, sizeof *residual_c);
	if (!residual_c) {
		status = BC_NO_MEMORY;
		goto done;
	}
	double half_width_c =
		bc_flash_half_width_c(points[BC_AT_IBP].value, points[BC_AT_T10].value);
	size_t n =
		take_residuals(learning, kind, bc_readings_mark(BC_MARK_START, judgement->sample),
			half_width_c, residual_c, &judgement->assumed);
	learn(residual_c, n, half_width_c, judgement);
	status = judgement->assumed.failed ? BC_NO_MEMORY : BC_OK;
done:
	bc_free(residual_c);
	bc_free(kind);
	return status;
}
