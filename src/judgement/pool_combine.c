/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One sample from several runs: the mean of their curves and what their files say, the worst of it
 * where they contradict each other. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "fuel/density.h"
#include "judgement/pool_parts.h"

/* Percents nearer than this are one reading of the pool [%]: half the finest mark of a receiver. */
#define SAME_PCT 0.25
/* Hydrometers and scales of a shed differ by less; common practice [kg/m3]. */
#define DENSITY_APART_KGM3 4.0
/* ASTM D93 procedure A, repeatability of a flash point by itself; from memory. */
#define FLASH_R_SHARE 0.029
/* Other measured values that differ by more are no repeats; judgement. */
#define MEASURED_APART_SHARE 0.10

/* Readings, amounts and density are those of the kept runs. */
static bool kept(const struct bc_pool_run *run) { return run->belonging != BC_RUN_LEFT_OUT; }

/* ---- the readings */

/* Percents that every kept run was read around. */
struct span {
	double from_pct;
	double to_pct;
};

static struct span common_span(const struct bc_pool *pool)
{
	struct span span = {0.0, 100.0};
	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_boiloff *boiloff = &pool->runs[i].boiloff;
		if (!kept(&pool->runs[i]))
			continue;
		span.from_pct = fmax(span.from_pct, boiloff->first_pct);
		span.to_pct = fmin(span.to_pct, boiloff->last_pct);
	}
	return span;
}

/* The least percent above 'after' at which a kept run was read; NaN where there is none. */
static double next_pct(const struct bc_pool *pool, const struct span *span, double after)
{
	double next = NAN;
	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_boiloff *boiloff = &pool->runs[i].boiloff;
		for (size_t k = 0; kept(&pool->runs[i]) && k < boiloff->n; k++) {
			const struct bc_point *point = &boiloff->points[k];
			double pct = point->recovered_pct;
			if (point->used && point->kind == BC_READING_AMOUNT && pct > after &&
				pct >= span->from_pct && pct <= span->to_pct && !(next <= pct))
				next = pct;
		}
	}
	return next;
}

static double mean_at(const struct bc_pool *pool, double pct)
{
	double sum_c = 0.0;
	for (size_t i = 0; i < pool->n; i++)
		if (kept(&pool->runs[i]))
			sum_c += bc_curve_temp_c(pool->runs[i].curve, pct);
	return sum_c / (double)pool->n_kept;
}

static struct bc_reading reading_at(
	const struct bc_pool *pool, enum bc_reading_kind kind, double pct, double corrected_c)
{
	const struct bc_conditions *conditions = &pool->runs[pool->reference].conditions;
	return (struct bc_reading){
		.kind = kind,
		.amount = pct,
		.head_c = bc_reading_from_corrected(conditions, corrected_c),
		.pot_c = NAN,
		.time_s = NAN,
	};
}

static size_t most_readings(const struct bc_pool *pool)
{
	size_t n = 2;
	for (size_t i = 0; i < pool->n; i++)
		n += pool->runs[i].boiloff.n;
	return n;
}

static enum bc_status pool_readings(const struct bc_pool *pool, struct bc_sample *sample)
{
	struct span span = common_span(pool);
	struct bc_reading *readings = bc_alloc_array(most_readings(pool), sizeof *readings);
	size_t n = 0;
	size_t amounts = 0;

	if (!readings)
		return BC_NO_MEMORY;
	if (pool->points[BC_AT_IBP].n > 0)
		readings[n++] =
			reading_at(pool, BC_READING_IBP, NAN, pool->points[BC_AT_IBP].mean_c);
	double pct = next_pct(pool, &span, -1.0);
	while (!isnan(pct)) {
		readings[n++] = reading_at(pool, BC_READING_AMOUNT, pct, mean_at(pool, pct));
		amounts++;
		pct = next_pct(pool, &span, pct + SAME_PCT);
	}
	if (pool->points[BC_AT_FBP].n > 0)
		readings[n++] =
			reading_at(pool, BC_READING_FBP, NAN, pool->points[BC_AT_FBP].mean_c);
	for (size_t i = 0; i < sample->n_readings; i++)
		bc_free(sample->readings[i].note);
	bc_free(sample->readings);
	for (size_t i = 0; i < n; i++)
		readings[i].line = i + 1;
	sample->readings = readings;
	sample->n_readings = n;
	return amounts < 3 ? BC_TOO_FEW : BC_OK;
}

/* ---- amounts */

/* Mean of what f gives for the kept runs that have it; NaN where none has. */
static double mean_of(const struct bc_pool *pool, double (*f)(const struct bc_pool_run *))
{
	double sum = 0.0;
	size_t n = 0;
	for (size_t i = 0; i < pool->n; i++) {
		double value = kept(&pool->runs[i]) ? f(&pool->runs[i]) : (double)NAN;
		if (isnan(value))
			continue;
		sum += value;
		n++;
	}
	return n > 0 ? sum / (double)n : (double)NAN;
}

/* ... NaN unless all have it. */
static double mean_of_all(const struct bc_pool *pool, double (*f)(const struct bc_pool_run *))
{
	for (size_t i = 0; i < pool->n; i++)
		if (kept(&pool->runs[i]) && isnan(f(&pool->runs[i])))
			return NAN;
	return mean_of(pool, f);
}

static double charge_ml(const struct bc_pool_run *run) { return run->boiloff.charge_ml; }
static double residue_pct(const struct bc_pool_run *run)
{
	return run->boiloff.residue_known ? run->boiloff.residue_pct : (double)NAN;
}
static double loss_pct(const struct bc_pool_run *run)
{
	return run->boiloff.loss_known ? run->boiloff.loss_pct : (double)NAN;
}
/* Of the dry charge, whose density is taken as that of the oil. */
static double charge_g(const struct bc_pool_run *run)
{
	return run->boiloff.charge_kgm3 * run->boiloff.charge_ml / 1000.0;
}

static void pool_amounts(const struct bc_pool *pool, struct bc_sample *sample)
{
	sample->amount_basis = BC_AMOUNT_VOLUME_PCT;
	sample->charge_ml = mean_of(pool, charge_ml);
	sample->charge_g = mean_of_all(pool, charge_g);
	sample->charge_stated = false;
	for (size_t i = 0; i < pool->n; i++)
		sample->charge_stated =
			sample->charge_stated ||
			(kept(&pool->runs[i]) && pool->runs[i].sample->charge_stated);
	sample->charge_ml_computed = false;
	sample->charge_g_computed = false;
	sample->distillate_g = NAN;
	sample->residue_g = NAN;
	sample->residue_ml = sample->loss_ml = sample->water_ml = NAN;
	sample->residue_pct = mean_of(pool, residue_pct);
	sample->loss_pct = mean_of(pool, loss_pct);
	sample->water_pct = NAN;
}

/* ---- density */

/* At 'temp_c' from the temperature of its own file; NaN without. */
static double density_at(const struct bc_sample *sample, double temp_c)
{
	double own_c = isnan(sample->density_temp_c) ? 15.0 : sample->density_temp_c;
	double density15;
	double factor;
	if (isnan(sample->density_kgm3))
		return NAN;
	if (own_c == temp_c)
		return sample->density_kgm3;
	if (bc_failed(bc_density15_from_observed_kgm3(sample->density_kgm3, own_c, &density15)) ||
		bc_failed(bc_volume_correction_54b(density15, temp_c, &factor)))
		return NAN;
	return density15 * factor;
}

static void pool_density(struct bc_pool *pool, struct bc_sample *sample)
{
	double temp_c = NAN;
	double low = INFINITY;
	double high = -INFINITY;
	double step = NAN;
	double sum = 0.0;
	size_t n = 0;
	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_sample *one = pool->runs[i].sample;
		if (!kept(&pool->runs[i]) || isnan(one->density_kgm3))
			continue;
		if (n == 0)
			temp_c = one->density_temp_c;
		double density = density_at(one, isnan(temp_c) ? 15.0 : temp_c);
		if (isnan(density))
			continue;
		low = fmin(low, density);
		high = fmax(high, density);
		step = fmax(step, one->density_step_kgm3);
		sum += density;
		n++;
	}
	if (n == 0)
		return;
	sample->density_kgm3 = sum / (double)n;
	sample->density_temp_c = temp_c;
	sample->density_step_kgm3 = fmax(step, 0.5 * (high - low));
	if (high - low > DENSITY_APART_KGM3)
		bc_findings_say(&pool->findings, "runs-differ", BC_FINDING_WARNING, NAN,
			"Measure it again, of one jar at one temperature.",
			"the densities of the runs are %.1f kg/m3 apart: their mean is used, with "
			"half of that as its error",
			high - low);
}

/* ---- measured values: of every run, since a run left out was still of this jar */

static bool same_test(const struct bc_measured *a, const struct bc_measured *b)
{
	bool temp = a->temp_c == b->temp_c || (isnan(a->temp_c) && isnan(b->temp_c));
	return strcmp(a->property, b->property) == 0 && a->open_cup == b->open_cup && temp;
}

/* As the alarms of measured values have it: a mean would thin out what one run found. */
static bool high_is_worse(const char *property)
{
	static const char *const names[] = {"chlorine", "water", "water_and_sediment",
		"acid_number", "copper_strip", "benzene", "sulphur", "nitrogen", "ash",
		"cloud_point", "pour_point"};
	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		if (strcmp(property, names[i]) == 0)
			return true;
	return false;
}

/* One test over the runs. */
static struct bc_measured pool_measured(struct bc_pool *pool, const struct bc_measured *of)
{
	struct bc_measured pooled = *of;
	double low = INFINITY;
	double high = -INFINITY;
	double sum = 0.0;
	size_t n = 0;
	bool flash = strcmp(of->property, "flash_point") == 0;
	bool rating = of->rating != '\0';
	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_sample *one = pool->runs[i].sample;
		for (size_t k = 0; k < one->n_measured; k++) {
			const struct bc_measured *measured = &one->measured[k];
			if (!same_test(measured, of))
				continue;
			low = fmin(low, measured->value);
			high = fmax(high, measured->value);
			sum += measured->value;
			if (measured->value > pooled.value || measured->rating > pooled.rating)
				pooled.rating = measured->rating;
			n++;
		}
	}
	pooled.value = rating ? high : sum / (double)n;
	double repeats = (flash ? FLASH_R_SHARE : MEASURED_APART_SHARE) * fabs(pooled.value);
	if (!(high - low > repeats) || rating)
		return pooled;
	bool lowest = flash || strcmp(of->property, "cetane_number") == 0;
	bool highest = high_is_worse(of->property);
	if (lowest || highest)
		pooled.value = lowest ? low : high;
	bc_findings_say(&pool->findings, "runs-differ", BC_FINDING_WARNING, NAN,
		"Measure it again, of one jar.",
		"the runs do not agree in the measured %s (%.4g to %.4g): %s is used", of->property,
		low, high,
		lowest    ? "the lowest"
		: highest ? "the highest"
			  : "the mean");
	return pooled;
}

static enum bc_status pool_all_measured(struct bc_pool *pool, struct bc_sample *sample)
{
	size_t most = 1;
	size_t n = 0;
	for (size_t i = 0; i < pool->n; i++)
		most += pool->runs[i].sample->n_measured;
	struct bc_measured *all = bc_alloc_array(most, sizeof *all);
	if (!all)
		return BC_NO_MEMORY;
	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_sample *one = pool->runs[i].sample;
		for (size_t k = 0; k < one->n_measured; k++) {
			bool seen = false;
			for (size_t j = 0; j < n; j++)
				seen = seen || same_test(&all[j], &one->measured[k]);
			if (!seen)
				all[n++] = pool_measured(pool, &one->measured[k]);
		}
	}
	bc_free(sample->measured);
	sample->measured = all;
	sample->n_measured = n;
	return BC_OK;
}

/* ---- words: of every run too */

/* The worse first: dissolved gas, then nobody knows, then air, then a run that took the light end.
 */
static int history_rank(enum bc_history history)
{
	static const int rank[] = {[BC_HISTORY_RETORT] = 3,
		[BC_HISTORY_UNKNOWN] = 2,
		[BC_HISTORY_AIRED] = 1,
		[BC_HISTORY_RERUN] = 0};
	return rank[history];
}

static void pool_history(struct bc_pool *pool, struct bc_sample *sample)
{
	enum bc_history worst = sample->history;
	bool differ = false;
	for (size_t i = 0; i < pool->n; i++) {
		enum bc_history history = pool->runs[i].sample->history;
		differ = differ || history != sample->history;
		if (history_rank(history) > history_rank(worst))
			worst = history;
	}
	sample->history = worst;
	if (differ)
		bc_findings_say(&pool->findings, "runs-differ", BC_FINDING_WARNING, NAN,
			"Write the history of the jar into every file.",
			"the files differ in the history of the oil: the worst, '%s', is taken",
			bc_history_text(worst));
}

/* The place of a text in a sample. */
typedef char **text_place(struct bc_sample *sample);
static char **name_place(struct bc_sample *sample) { return &sample->name; }
static char **feed_place(struct bc_sample *sample) { return &sample->feed; }
static char **drawn_place(struct bc_sample *sample) { return &sample->drawn; }
static char **stored_place(struct bc_sample *sample) { return &sample->stored_since; }

static const char *text_of(const struct bc_sample *sample, text_place *place)
{
	struct bc_sample view = *sample;
	return *place(&view);
}

/* The first that has it, or all that differ in a row; said where they do. */
static enum bc_status pool_text(struct bc_pool *pool, struct bc_sample *sample, text_place *place,
	const char *key, bool join)
{
	struct bc_text all;
	const char *first = NULL;
	bool differ = false;
	bc_text_init(&all);
	for (size_t i = 0; i < pool->n; i++) {
		const char *text = text_of(pool->runs[i].sample, place);
		if (text == NULL)
			continue;
		bool other = first != NULL && strcmp(text, first) != 0;
		differ = differ || other;
		if (first == NULL)
			first = text;
		if (first == text || (other && join && strstr(all.data, text) == NULL))
			bc_text_printf(&all, "%s%s", first == text ? "" : "; ", text);
	}
	if (differ)
		bc_findings_say(&pool->findings, "runs-differ", BC_FINDING_WARNING, NAN,
			"Check that every file is of this jar.",
			"the files differ in '%s': '%s' is taken", key, all.data ? all.data : "");
	bool failed = all.failed;
	if (first != NULL && !failed) {
		bc_free(*place(sample));
		*place(sample) = bc_strdup(all.data);
		failed = *place(sample) == NULL;
	}
	bc_text_release(&all);
	return failed ? BC_NO_MEMORY : BC_OK;
}

static enum bc_status pool_files(const struct bc_pool *pool, struct bc_sample *sample)
{
	struct bc_text all;
	bc_text_init(&all);
	for (size_t i = 0; i < pool->n; i++)
		if (kept(&pool->runs[i]))
			bc_text_printf(&all, "%s%s", all.length > 0 ? " + " : "",
				pool->runs[i].sample->file ? pool->runs[i].sample->file : "a run");
	char *file = all.failed ? NULL : bc_strdup(all.data);
	bc_text_release(&all);
	if (!file)
		return BC_NO_MEMORY;
	bc_free(sample->file);
	sample->file = file;
	return BC_OK;
}

/* ---- the whole */

/* A jar filled to the highest that any file says. */
static void pool_jar(const struct bc_pool *pool, struct bc_sample *sample)
{
	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_sample *one = pool->runs[i].sample;
		sample->jar_from_c = fmin(sample->jar_from_c, one->jar_from_c);
		sample->jar_to_c = fmax(sample->jar_to_c, one->jar_to_c);
		sample->jar_to_pot_c = fmax(sample->jar_to_pot_c, one->jar_to_pot_c);
	}
}

static enum bc_status copy_of(const struct bc_sample *sample, struct bc_sample **copy)
{
	struct bc_text text;
	struct bc_diagnostics diagnostics;
	bc_text_init(&text);
	bc_diagnostics_init(&diagnostics);
	*copy = NULL;
	enum bc_status status = bc_sample_write(sample, &text);
	if (!bc_failed(status))
		status = bc_sample_read(text.data, text.length, sample->file ? sample->file : "",
			&diagnostics, copy);
	bc_diagnostics_release(&diagnostics);
	bc_text_release(&text);
	return bc_failed(status) ? status : BC_OK;
}

static void take_assumptions(struct bc_pool *pool, struct bc_sample *sample)
{
	bc_strings_release(&sample->assumed);
	for (size_t i = 0; i < pool->n; i++) {
		const struct bc_strings *assumed = &pool->runs[i].sample->assumed;
		pool->wet = pool->wet || pool->runs[i].boiloff.wet;
		for (size_t k = 0; k < assumed->n; k++)
			bc_strings_add_once(&sample->assumed, "%s", assumed->items[k]);
	}
}

static enum bc_status pool_words(struct bc_pool *pool, struct bc_sample *sample)
{
	enum bc_status status = pool_text(pool, sample, name_place, "sample", false);
	if (!bc_failed(status))
		status = pool_text(pool, sample, feed_place, "feed", true);
	if (!bc_failed(status))
		status = pool_text(pool, sample, drawn_place, "drawn", false);
	if (!bc_failed(status))
		status = pool_text(pool, sample, stored_place, "stored since", false);
	if (!bc_failed(status))
		status = pool_files(pool, sample);
	return status;
}

enum bc_status bc_pool_combine(struct bc_pool *pool)
{
	if (pool->n_kept < 2)
		return BC_TOO_FEW;
	enum bc_status status = copy_of(pool->runs[pool->reference].sample, &pool->sample);
	if (bc_failed(status))
		return status;
	struct bc_sample *sample = pool->sample;
	take_assumptions(pool, sample);
	status = pool_readings(pool, sample);
	if (bc_failed(status))
		return status;
	bc_free(sample->note); /* of one run, not of all */
	sample->note = NULL;
	pool_amounts(pool, sample);
	pool_density(pool, sample);
	pool_jar(pool, sample);
	pool_history(pool, sample);
	status = pool_all_measured(pool, sample);
	if (!bc_failed(status))
		status = pool_words(pool, sample);
	return !bc_failed(status) && sample->assumed.failed ? BC_NO_MEMORY : status;
}
