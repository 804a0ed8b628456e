/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Own closed cups: the posterior by hand, coverage whatever is shared, which pairs count, and what
 * they may never do. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/fault.h"
#include "base/stats.h"
#include "curve/cracking.h"
#include "fuel/measured.h"
#include "judgement/learning.h"
#include "unit/unit.h"

/* ---- the figures */

static void posterior_by_hand(void **state)
{
	(void)state;
	const double residual_c[] = {-2.3, -5.1, -4.0};
	struct bc_flash_offset offset;
	/* V = 5.5^2, tau^2 = 9.075, s^2 = (4 x 21.175 + 3.98) / 6, k = 1.628650, t(6) = 2.446912 */
	assert_int_equal(
		bc_flash_offset_from_residuals(residual_c, 3, BC_Z95 * 5.5, &offset), BC_OK);
	assert_int_equal(offset.pairs, 3);
	assert_close(offset.offset_c, -2.4629211, 1e-6);
	assert_close(offset.half_width_c, 10.3736237, 1e-6);
}

static void too_few_or_no_numbers_teach_nothing(void **state)
{
	(void)state;
	const double residual_c[] = {-2.3, -5.1, (double)NAN};
	struct bc_flash_offset offset;
	assert_int_equal(bc_flash_offset_from_residuals(residual_c, 2, 10.8, &offset), BC_TOO_FEW);
	assert_int_equal(offset.pairs, 0);
	assert_int_equal(
		bc_flash_offset_from_residuals(residual_c, 3, 10.8, &offset), BC_BAD_DOMAIN);
	assert_int_equal(
		bc_flash_offset_from_residuals(residual_c, 3, (double)NAN, &offset), BC_BAD_DOMAIN);
	assert_int_equal(offset.pairs, 0);
}

static void scatter_widens_and_agreement_narrows(void **state)
{
	(void)state;
	const double close_c[] = {3.1, 3.7, 2.9, 3.3, 3.6, 3.0};
	const double wild_c[] = {13.1, -6.7, 12.9, -5.3, 11.6, -6.0};
	struct bc_flash_offset near, far;
	bc_flash_offset_from_residuals(close_c, 6, 10.8, &near);
	bc_flash_offset_from_residuals(wild_c, 6, 10.8, &far);
	assert_true(near.half_width_c < 0.85 * 10.8);
	assert_true(far.half_width_c > 1.5 * 10.8);
	assert_true(far.offset_c > 0.0 && far.offset_c < 0.7 * 3.27);
	assert_true(near.offset_c > 0.75 * 3.27 && near.offset_c < 3.27);
}

static double uniform(uint64_t *seed)
{
	*seed = *seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
	return ((double)(*seed >> 11) + 0.5) / 9007199254740992.0;
}

static double normal(uint64_t *seed) { return bc_probit_from_pct(100.0 * uniform(seed)); }

/* Share of next jars inside, when share of the variance is common to all jars. */
static double coverage(double share, size_t n, uint64_t *seed, double *mean_half_width_c)
{
	enum { TRIES = 8000, MOST = 20 };
	const double sd_c = 5.47;
	double residual_c[MOST];
	int inside = 0;
	*mean_half_width_c = 0.0;
	for (int i = 0; i < TRIES; i++) {
		struct bc_flash_offset offset;
		double common_c = sd_c * sqrt(share) * normal(seed);
		for (size_t k = 0; k < n; k++)
			residual_c[k] = common_c + sd_c * sqrt(1.0 - share) * normal(seed);
		double next_c = common_c + sd_c * sqrt(1.0 - share) * normal(seed);
		bc_flash_offset_from_residuals(residual_c, n, BC_Z95 * sd_c, &offset);
		inside += fabs(next_c - offset.offset_c) <= offset.half_width_c;
		*mean_half_width_c += offset.half_width_c / TRIES;
	}
	return (double)inside / TRIES;
}

static void bounds_hold_whatever_is_shared(void **state)
{
	(void)state;
	const double shares[] = {0.0, 0.1, 0.3, 0.5, 0.7, 0.9};
	const size_t counts[] = {3, 6, 15};
	uint64_t seed = 20260912;
	for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++)
		for (size_t k = 0; k < sizeof counts / sizeof counts[0]; k++) {
			double half_width_c;
			double share = coverage(shares[i], counts[k], &seed, &half_width_c);
			if (!(share >= 0.942))
				fail_msg("%.3f inside, share %.1f, %zu pairs", share, shares[i],
					counts[k]);
			if (shares[i] > 0.6 && counts[k] == 15 &&
				!(half_width_c < 0.75 * BC_Z95 * 5.47))
				fail_msg("half-width %.2f, share %.1f", half_width_c, shares[i]);
		}
}

/* ---- in a judgement */

#define KEYS "barometer,101.3 kPa\nthermometer,probe\ndensity,0.794 g/mL\n"
#define CURVE                                                                                      \
	"\nrecovered (%%),head (C)\nIBP,%.1f\n10,187.3\n30,194\n50,201\n70,210\n90,231\n"          \
	"95,243\nFBP,260\n"

struct run {
	struct bc_sample *sample;
	struct bc_judgement judgement;
};

static struct bc_limits *limits;

static void judge(
	struct run *run, const struct bc_learning *learned, double ibp_c, const char *keys)
{
	char text[1024];
	snprintf(text, sizeof text, "%s" KEYS CURVE, keys, ibp_c);
	struct bc_judge_options options = {.limits = limits, .want = BC_GRADES, .learned = learned};
	bc_judgement_init(&run->judgement);
	assert_int_equal(bc_sample_read(text, strlen(text), "x.csv", NULL, &run->sample), BC_OK);
	assert_int_equal(bc_judge(run->sample, &options, &run->judgement), BC_OK);
}

static void release(struct run *run)
{
	bc_judgement_release(&run->judgement);
	bc_sample_free(run->sample);
}

#define OWN "feed,PE crates\nhistory,rerun\n"

/* What flash,measured of a jar with this IBP comes to beside its estimate. */
static double estimate_of(double ibp_c)
{
	struct run run;
	judge(&run, NULL, ibp_c, OWN);
	double value = run.judgement.oil.property[BC_FLASH].value;
	release(&run);
	return value;
}

__attribute__((format(printf, 3, 4))) static const char *teach(
	struct bc_learning *learning, double ibp_c, const char *keys, ...)
{
	char text[512];
	const char *why = NULL;
	struct run run;
	va_list arguments;
	va_start(arguments, keys);
	vsnprintf(text, sizeof text, keys, arguments);
	va_end(arguments);
	judge(&run, NULL, ibp_c, text);
	assert_int_equal(bc_learning_add(learning, &run.judgement, &why), BC_OK);
	release(&run);
	return why;
}

static void teach_offsets(
	struct bc_learning *learning, const char *keys, const double *offset_c, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		double ibp_c = 163.3 + (double)i;
		assert_null(teach(learning, ibp_c, "%sflash,%.3f C\n", keys,
			estimate_of(ibp_c) + offset_c[i]));
	}
}

static const double lower_c[] = {-4.1, -6.3, -5.2, -4.4};

static void cups_move_the_estimate_and_its_bounds(void **state)
{
	(void)state;
	struct bc_learning learning;
	struct run plain, moved;
	bc_learning_init(&learning);
	teach_offsets(&learning, OWN, lower_c, 4);
	judge(&plain, NULL, 171.4, OWN);
	judge(&moved, &learning, 171.4, OWN);
	const struct bc_flash_offset *learned = &moved.judgement.learned;
	const struct bc_oil *oil = &moved.judgement.oil;
	const struct bc_estimate *flash = &oil->property[BC_FLASH];
	assert_int_equal(learned->pairs, 4);
	assert_true(learned->offset_c > -4.5 && learned->offset_c < -2.5);
	assert_close(flash->value, plain.judgement.oil.property[BC_FLASH].value + learned->offset_c,
		1e-9);
	assert_close(flash->low,
		flash->value - hypot(learned->half_width_c, oil->reach.low[BC_FLASH_VAPOUR]), 1e-9);
	assert_close(oil->flash_at_site_c, flash->value, 0.02);
	assert_close(oil->flash_low_at_site_c, flash->low, 0.02);
	assert_close(oil->property[BC_FLASH_VAPOUR].value,
		plain.judgement.oil.property[BC_FLASH_VAPOUR].value, 1e-9);
	/* a cut of it is known no better downwards */
	assert_close(bc_parent_of(oil, NULL).flash_half_width_c,
		oil->property[BC_FLASH_VAPOUR].value - flash->low, 1e-9);
	assert_true(learned->half_width_c >= bc_closed_cup_half_width_c(flash->value));
	release(&plain);
	release(&moved);
	bc_learning_release(&learning);
}

static size_t pairs_for(const struct bc_learning *learning, double ibp_c, const char *keys)
{
	struct run run;
	judge(&run, learning, ibp_c, keys);
	size_t pairs = run.judgement.learned.pairs;
	release(&run);
	return pairs;
}

static void only_the_same_feed_and_still_count(void **state)
{
	(void)state;
	struct bc_learning learning;
	bc_learning_init(&learning);
	teach_offsets(&learning, OWN, lower_c, 4);
	assert_int_equal(pairs_for(&learning, 171.4, OWN), 4);
	assert_int_equal(pairs_for(&learning, 171.4, "feed,HDPE caps\nhistory,aired\n"), 4);
	assert_int_equal(pairs_for(&learning, 171.4, "feed,PP crates\nhistory,rerun\n"), 0);
	assert_int_equal(pairs_for(&learning, 171.4, "history,rerun\n"), 0);
	assert_int_equal(pairs_for(&learning, 171.4, OWN "still,Berta\n"), 0);
	assert_int_equal(pairs_for(&learning, 171.4, OWN "apparatus,column 4 2\n"), 0);
	bc_learning_release(&learning);
}

/* Its own boil-off among the four leaves three. */
static void a_sample_never_teaches_itself(void **state)
{
	(void)state;
	struct bc_learning learning;
	bc_learning_init(&learning);
	teach_offsets(&learning, OWN, lower_c, 4);
	assert_int_equal(pairs_for(&learning, 164.3, OWN), 3);
	assert_non_null(teach(&learning, 164.3, "sample,a copy\n" OWN "flash,51 C\n"));
	assert_int_equal(learning.n, 4);
	bc_learning_release(&learning);
}

static void without_a_claim_there_stays_none(void **state)
{
	(void)state;
	struct bc_learning learning;
	struct run run;
	const double higher_c[] = {6.1, 7.3, 6.6, 5.9};
	bc_learning_init(&learning);
	teach_offsets(&learning, OWN, higher_c, 4);
	judge(&run, &learning, 171.4, "feed,PE crates\nhistory,retort\n");
	assert_true(isnan(run.judgement.oil.property[BC_FLASH].low));
	assert_true(run.judgement.hazards.petrol_like);
	assert_int_equal(run.judgement.learned.pairs, 0);
	release(&run);
	judge(&run, &learning, 171.4, "feed,PE crates\n");
	assert_true(isnan(run.judgement.oil.property[BC_FLASH].low));
	release(&run);
	/* a cup of its own stays */
	judge(&run, &learning, 171.4, OWN "flash,47.3 C\n");
	assert_close(run.judgement.oil.property[BC_FLASH].value, 47.3, 1e-9);
	assert_int_equal(run.judgement.learned.pairs, 0);
	release(&run);
	bc_learning_release(&learning);
}

static void what_has_no_claim_teaches_nothing(void **state)
{
	(void)state;
	struct bc_learning learning;
	bc_learning_init(&learning);
	assert_null(teach(&learning, 171.4, OWN));
	assert_non_null(teach(&learning, 171.4, "feed,PE crates\nhistory,retort\nflash,31.2 C\n"));
	assert_non_null(teach(&learning, 171.4, "history,rerun\nflash,51.2 C\n"));
	assert_non_null(teach(&learning, 171.4, OWN "flash,51.2 C\nwater in receiver,2 mL\n"));
	assert_null(teach(&learning, 171.4, OWN "flash,51.2 C open cup\n"));
	assert_int_equal(learning.n, 0);
	bc_learning_release(&learning);
}

static bool says(const struct run *run, const char *words)
{
	for (size_t i = 0; i < run->judgement.assumed.n; i++)
		if (strstr(run->judgement.assumed.items[i], words))
			return true;
	return false;
}

/* Outlying: left out where it would raise the estimate, kept where it lowers it; told both times.
 */
static void outlying_pairs_are_told_and_taken_safely(void **state)
{
	(void)state;
	const double one_high_c[] = {-4.1, -6.3, -5.2, -4.4, 28.3};
	const double one_low_c[] = {-4.1, -6.3, -5.2, -4.4, -38.3};
	struct bc_learning learning;
	struct run run;
	bc_learning_init(&learning);
	teach_offsets(&learning, OWN, one_high_c, 5);
	judge(&run, &learning, 171.4, OWN);
	assert_int_equal(run.judgement.learned.pairs, 4);
	assert_true(says(&run, "left out"));
	release(&run);
	bc_learning_release(&learning);
	teach_offsets(&learning, OWN, one_low_c, 5);
	judge(&run, &learning, 171.4, OWN);
	assert_int_equal(run.judgement.learned.pairs, 5);
	assert_true(says(&run, "kept, since it lowers"));
	release(&run);
	bc_learning_release(&learning);
}

static void two_pairs_change_nothing_and_it_is_said(void **state)
{
	(void)state;
	struct bc_learning learning;
	struct run run;
	bc_learning_init(&learning);
	teach_offsets(&learning, OWN, lower_c, 2);
	judge(&run, &learning, 171.4, OWN);
	assert_close(run.judgement.oil.property[BC_FLASH].value, estimate_of(171.4), 1e-9);
	assert_true(says(&run, "fewer than 3"));
	release(&run);
	bc_learning_release(&learning);
}

/* Cups that read higher raise the low bound no farther than the estimate without them, the flash by
 * T10, or an open cup. */
static void the_low_bound_keeps_its_ceilings(void **state)
{
	(void)state;
	double higher_c[12];
	struct bc_learning learning;
	struct run run;
	for (size_t i = 0; i < 12; i++)
		higher_c[i] = 24.0 + 0.3 * (double)i;
	bc_learning_init(&learning);
	teach_offsets(&learning, OWN, higher_c, 12);
	judge(&run, &learning, 171.4, OWN);
	const struct bc_estimate *property = run.judgement.oil.property;
	assert_true(run.judgement.oil.flash_learned_low_c > property[BC_FLASH_VAPOUR].value);
	assert_true(property[BC_FLASH_T10].value > property[BC_FLASH_VAPOUR].value);
	assert_close(property[BC_FLASH].low, property[BC_FLASH_VAPOUR].value, 1e-9);
	release(&run);
	/* heavier oils with a steep front have less by T10 than by the vapour space */
	judge(&run, NULL, 171.4, OWN);
	struct bc_estimate *t10 = &run.judgement.oil.property[BC_FLASH_T10];
	t10->value = property[BC_FLASH_VAPOUR].value - 3.7;
	assert_int_equal(bc_learning_apply(&learning, &run.judgement), BC_OK);
	assert_close(property[BC_FLASH].low, t10->value, 1e-9);
	release(&run);
	judge(&run, &learning, 177.4, OWN "flash,49.3 C open cup\n");
	assert_close(run.judgement.oil.property[BC_FLASH].low, 49.3, 1e-9);
	release(&run);
	bc_learning_release(&learning);
}

static void failed_allocations_come_back(void **state)
{
	(void)state;
	struct bc_learning learning;
	struct run run;
	const char *why;
	judge(&run, NULL, 171.4, OWN "flash,51.2 C\n");
	bool failed = true;
	for (unsigned long n = 1; failed && n < 50; n++) {
		bc_learning_init(&learning);
		bc_fault_set(BC_FAULT_ALLOC, n, false);
		enum bc_status status = bc_learning_add(&learning, &run.judgement, &why);
		failed = status == BC_NO_MEMORY;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(failed || status == BC_OK);
		assert_int_equal(learning.n, failed ? 0 : 1);
		bc_learning_release(&learning);
	}
	assert_false(failed);
	release(&run);
}

static int up(void **state)
{
	(void)state;
	return bc_limits_default(NULL, &limits) == BC_OK ? 0 : -1;
}

static int down(void **state)
{
	(void)state;
	bc_limits_free(limits);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(posterior_by_hand),
		cmocka_unit_test(too_few_or_no_numbers_teach_nothing),
		cmocka_unit_test(scatter_widens_and_agreement_narrows),
		cmocka_unit_test(bounds_hold_whatever_is_shared),
		cmocka_unit_test(cups_move_the_estimate_and_its_bounds),
		cmocka_unit_test(only_the_same_feed_and_still_count),
		cmocka_unit_test(a_sample_never_teaches_itself),
		cmocka_unit_test(without_a_claim_there_stays_none),
		cmocka_unit_test(what_has_no_claim_teaches_nothing),
		cmocka_unit_test(outlying_pairs_are_told_and_taken_safely),
		cmocka_unit_test(two_pairs_change_nothing_and_it_is_said),
		cmocka_unit_test(the_low_bound_keeps_its_ceilings),
		cmocka_unit_test(failed_allocations_come_back),
	};
	return cmocka_run_group_tests(tests, up, down);
}
