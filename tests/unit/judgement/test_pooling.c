/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs of one sample pooled: means by hand, the run that does not belong, what files contradict
 * each other in, and whether the bounds hold the truth. */
#include "unit/unit.h"

#include <string.h>

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "judgement/judgement.h"
#include "judgement/pooling.h"

enum { READINGS = 13, RUNS = 6 };
static const double pct[READINGS] = {0, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 100};
/* D86 basis, at the sea */
static const double oil_c[READINGS] = {
	178.3, 203.9, 214.1, 229.7, 242.2, 253.6, 264.7, 276.1, 288.8, 304.4, 326.3, 341.9, 356.2};

#define HEAD                                                                                       \
	"history,rerun\nbarometer,101.3 kPa\nthermometer,glass d86\nice,0 C\nsteam,100 C\n"        \
	"residue,1.3 mL\nloss,0.6 mL\n"

struct runs {
	struct bc_sample *samples[RUNS];
	size_t n;
	struct bc_pool *pool;
	size_t failed;
};

/* One run: the oil, moved by one shift and by an error at each reading. */
static void add_run(struct runs *runs, const char *head, double shift_c, const double *error_c)
{
	char text[2048];
	char file[32];
	int n = snprintf(text, sizeof text, "%srecovered (%%),head (C)\n", head);

	for (size_t i = 0; i < READINGS; i++) {
		char name[16];
		snprintf(name, sizeof name, "%g", pct[i]);
		n += snprintf(text + n, sizeof text - (size_t)n, "%s,%.6f\n",
			i == 0              ? "IBP"
			: i == READINGS - 1 ? "FBP"
					    : name,
			oil_c[i] + shift_c + (error_c ? error_c[i] : 0.0));
	}
	snprintf(file, sizeof file, "run-%zu.csv", runs->n + 1);
	assert_int_equal(
		bc_sample_read(text, (size_t)n, file, NULL, &runs->samples[runs->n++]), BC_OK);
}

static enum bc_status pool_runs(struct runs *runs, bool keep_all)
{
	return bc_pool_new((const struct bc_sample *const *)runs->samples, runs->n, keep_all,
		&runs->pool, &runs->failed);
}

static void release(struct runs *runs)
{
	bc_pool_free(runs->pool);
	for (size_t i = 0; i < runs->n; i++)
		bc_sample_free(runs->samples[i]);
	*runs = (struct runs){0};
}

static double read_at(const struct bc_sample *sample, double percent)
{
	for (size_t i = 0; i < sample->n_readings; i++)
		if (fabs(sample->readings[i].amount - percent) <= 1e-6)
			return sample->readings[i].head_c;
	return NAN;
}

static void test_mean_spread_and_ranges_by_hand(void **state)
{
	struct runs runs = {0};
	const double shifts[] = {0.0, 1.3, -0.4};

	(void)state;
	for (size_t i = 0; i < 3; i++)
		add_run(&runs, HEAD, shifts[i], NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	const struct bc_pool_point *at = &runs.pool->points[BC_AT_T50];
	/* water boils at 99.97 there, not at 100: the calibration moves 264.7 by -0.08 */
	double scale = runs.pool->runs[0].conditions.steam_true_c / 100.0;
	assert_close(at->mean_c, (264.7 + 0.3) * scale, 1e-6);
	/* deviations -0.3, 1.0, -0.7: 1.58 over 2 */
	assert_close(at->sd_c, sqrt(0.79) * scale, 1e-6);
	assert_close(at->range_c, 1.7 * scale, 1e-6);
	/* slope (276.1 - 253.6)/20 = 1.125: r = 1.0 + 0.41 S, three runs 3.3/2.8 of it */
	assert_close(at->published_range_c, (1.0 + 0.41 * 1.125 * scale) * 3.3 / 2.8, 1e-6);
	double volume_c = 0.7 * 1.125 * scale;
	double r_c = 1.0 + 0.41 * 1.125 * scale;
	double random_c = sqrt(1.0 + volume_c * volume_c + 0.5 * r_c * r_c);
	assert_close(at->rig_range_c, sqrt(2.0) * random_c * 3.3 / 2.8, 1e-6);
	assert_close(at->half_width_c, bc_runs_half_width_c(random_c, at->sd_c, 3), 1e-9);
	assert_close(read_at(runs.pool->sample, 50.0), 265.0, 1e-6);
	assert_true(runs.pool->agree);
	assert_int_equal(runs.pool->n_kept, 3);
	assert_int_equal(runs.pool->findings.n, 0);
	assert_close(runs.pool->runs[1].shift_c, 1.5 * scale, 1e-6);
	release(&runs);
}

static void test_run_that_does_not_belong_is_left_out(void **state)
{
	struct runs runs = {0};

	(void)state;
	for (size_t i = 0; i < 3; i++)
		add_run(&runs, HEAD, i == 1 ? 11.7 : 0.2 * (double)i, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	assert_int_equal(runs.pool->n_kept, 2);
	assert_int_equal(runs.pool->runs[1].belonging, BC_RUN_LEFT_OUT);
	assert_int_equal(runs.pool->runs[0].belonging, BC_RUN_BELONGS);
	assert_true(bc_findings_has(&runs.pool->findings, "run-left-out"));
	assert_false(runs.pool->findings.items[0].forbids_usable);
	assert_non_null(strstr(runs.pool->findings.items[0].message, "run-2.csv"));
	assert_close(read_at(runs.pool->sample, 50.0), 264.9, 1e-6);
	bc_pool_free(runs.pool);
	assert_int_equal(pool_runs(&runs, true), BC_OK);
	assert_int_equal(runs.pool->n_kept, 3);
	assert_int_equal(runs.pool->runs[1].belonging, BC_RUN_STANDS_APART);
	assert_true(bc_findings_has(&runs.pool->findings, "run-kept"));
	/* the bounds hold all three */
	const struct bc_pool_point *at = &runs.pool->points[BC_AT_T50];
	assert_true(at->mean_c + at->half_width_c > 264.7 + 11.7);
	assert_true(at->mean_c - at->half_width_c < 264.7);
	release(&runs);
}

/* The one that boils lower may be the one that is right. */
static void test_lower_front_left_out_is_never_usable(void **state)
{
	struct runs runs = {0};
	double light_c[READINGS] = {-61.3, -33.1, -17.7, -9.3, -7.1, -6.3, -6.1, -5.7};

	(void)state;
	add_run(&runs, HEAD, 0.0, light_c);
	add_run(&runs, HEAD, 0.3, NULL);
	add_run(&runs, HEAD, -0.2, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	assert_int_equal(runs.pool->runs[0].belonging, BC_RUN_LEFT_OUT);
	assert_true(runs.pool->findings.items[0].forbids_usable);
	release(&runs);
}

/* Two agree less than chance allows: a third alone tells nothing. */
static void test_evenly_spread_runs_stay(void **state)
{
	struct runs runs = {0};

	(void)state;
	for (size_t i = 0; i < 3; i++)
		add_run(&runs, HEAD, 6.3 * (double)i, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	assert_int_equal(runs.pool->n_kept, 3);
	assert_true(bc_findings_has(&runs.pool->findings, "runs-disagree"));
	release(&runs);
}

static void test_two_that_disagree_are_both_in_the_bounds(void **state)
{
	struct runs runs = {0};

	(void)state;
	add_run(&runs, HEAD, 0.0, NULL);
	add_run(&runs, HEAD, 9.7, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	assert_int_equal(runs.pool->n_kept, 2);
	assert_false(runs.pool->agree);
	assert_true(bc_findings_has(&runs.pool->findings, "runs-disagree"));
	assert_true(runs.pool->findings.items[0].forbids_usable);
	for (size_t i = 0; i < BC_POINTS; i++)
		assert_true(runs.pool->points[i].half_width_c > 0.5 * 9.7);
	release(&runs);
}

static void test_bounds_narrow_where_runs_agree(void **state)
{
	struct runs runs = {0};
	struct bc_limits *limits = NULL;
	struct bc_judge_options options = {.want = BC_GRADES};
	double width[2];

	(void)state;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	options.limits = limits;
	for (size_t i = 0; i < RUNS; i++)
		add_run(&runs, HEAD, i % 2 ? 0.3 : -0.3, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	for (size_t i = 0; i < 2; i++) {
		struct bc_judgement judgement;
		bc_judgement_init(&judgement);
		options.pool = i == 0 ? NULL : runs.pool;
		assert_int_equal(bc_judge(i == 0 ? runs.samples[0] : runs.pool->sample, &options,
					 &judgement),
			BC_OK);
		const struct bc_estimate *t50 = &judgement.points.at[BC_AT_T50];
		width[i] = t50->high - t50->low;
		bc_judgement_release(&judgement);
	}
	/* calibration and the part of one place do not shrink */
	assert_true(width[1] < 0.92 * width[0]);
	assert_true(width[1] > width[0] / sqrt(6.0));
	bc_limits_free(limits);
	release(&runs);
}

/* An unchecked thermometer is off by the same in every run; water of one run is in the jar. */
static void test_shared_error_and_water_reach_the_judgement(void **state)
{
	static const char bare[] = "history,rerun\nbarometer,101.3 kPa\nthermometer,glass d86\n"
				   "flash,71.5 C\nwater in receiver,2 mL\n";
	struct runs runs = {0};
	struct bc_limits *limits = NULL;
	struct bc_judge_options options = {.want = BC_GRADES};
	struct bc_judgement judgement;

	(void)state;
	add_run(&runs, bare, 0.0, NULL);
	add_run(&runs, bare, 0.4, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	options.limits = limits;
	options.pool = runs.pool;
	bc_judgement_init(&judgement);
	assert_int_equal(bc_judge(runs.pool->sample, &options, &judgement), BC_OK);
	/* 2 of a plain thermometer, 1 of it changes from reading to reading */
	assert_close(judgement.conditions.reading_half_width_c, sqrt(3.0), 1e-12);
	assert_true(judgement.oil.wet);
	assert_int_equal(judgement.oil.property[BC_FLASH].how, BC_ESTIMATED);
	bc_judgement_release(&judgement);
	bc_limits_free(limits);
	release(&runs);
}

static void test_worst_history_joined_feeds_and_mean_of_measured(void **state)
{
	struct runs runs = {0};

	(void)state;
	add_run(&runs, HEAD "feed,PE caps\ndensity,0.8123 g/mL @ 15 C\nflash,71.5 C\n", 0.0, NULL);
	add_run(&runs,
		HEAD "history,retort\nfeed,PVC pipe\ndensity,0.8087 g/mL @ 15 C\nflash,63.1 C\n",
		0.4, NULL);
	add_run(&runs, HEAD "sulphur,127 mg/kg\n", 0.1, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	const struct bc_sample *sample = runs.pool->sample;
	assert_int_equal(sample->history, BC_HISTORY_RETORT);
	assert_string_equal(sample->feed, "PE caps; PVC pipe");
	assert_close(sample->density_kgm3, 810.5, 1e-6);
	assert_close(bc_sample_measured(sample, "flash_point")->value, 63.1, 1e-9);
	assert_close(bc_sample_measured(sample, "sulphur")->value, 127.0, 1e-9);
	size_t said = 0;
	for (size_t i = 0; i < runs.pool->findings.n; i++)
		said += strcmp(runs.pool->findings.items[i].code, "runs-differ") == 0;
	assert_int_equal(said, 3); /* flash, history, feed */
	release(&runs);
}

/* Its curve does not belong, its jar does. */
static void test_left_out_run_still_says_what_was_measured(void **state)
{
	struct runs runs = {0};
	struct bc_limits *limits = NULL;
	struct bc_judge_options options = {.want = BC_GRADES};
	struct bc_judgement judgement;

	(void)state;
	add_run(&runs, HEAD "feed,PE caps\ndensity,0.8123 g/mL @ 15 C\nchlorine,7 mg/kg\n", 0.0,
		NULL);
	add_run(&runs, HEAD "feed,PE caps\ndensity,0.8119 g/mL @ 15 C\n", 0.4, NULL);
	add_run(&runs,
		HEAD "history,retort\nfeed,PVC pipe\ndensity,0.8727 g/mL @ 15 C\nflash,31.7 C\n"
		     "water,8127 mg/kg\nchlorine,3127 mg/kg\njar to,347 C\n"
		     "water in receiver,2 mL\n",
		13.7, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	assert_int_equal(runs.pool->runs[2].belonging, BC_RUN_LEFT_OUT);
	const struct bc_sample *sample = runs.pool->sample;
	assert_close(bc_sample_measured(sample, "flash_point")->value, 31.7, 1e-9);
	assert_close(bc_sample_measured(sample, "water")->value, 8127.0, 1e-9);
	assert_close(bc_sample_measured(sample, "chlorine")->value, 3127.0, 1e-9);
	assert_int_equal(sample->history, BC_HISTORY_RETORT);
	assert_string_equal(sample->feed, "PE caps; PVC pipe");
	assert_close(sample->jar_to_c, 347.0, 1e-9);
	assert_true(runs.pool->wet);
	/* readings and density are those of the others */
	assert_close(sample->density_kgm3, 812.1, 1e-6);
	assert_close(read_at(sample, 50.0), 264.9, 1e-6);
	/* what one run forbids is forbidden of the pool */
	bc_findings_say(&runs.pool->runs[2].findings, "planted", BC_FINDING_WARNING, NAN, "", "x");
	bc_findings_forbid(&runs.pool->runs[2].findings, true, true);
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	options.limits = limits;
	options.pool = runs.pool;
	bc_judgement_init(&judgement);
	assert_int_equal(bc_judge(sample, &options, &judgement), BC_OK);
	bool forbidden = false;
	for (size_t i = 0; i < judgement.findings.n; i++) {
		const struct bc_finding *finding = &judgement.findings.items[i];
		forbidden = forbidden || (strcmp(finding->code, "planted") == 0 &&
						 finding->forbids_usable && finding->forbids_rerun);
	}
	assert_true(forbidden);
	assert_true(judgement.verdict.word != BC_WORD_USABLE);
	bc_judgement_release(&judgement);
	bc_limits_free(limits);
	release(&runs);
}

/* Nothing of a stated error that the runs share is lost on the way to the draws. */
static void test_shared_reading_error_reaches_the_draws(void **state)
{
	static const char rough[] = HEAD "reading error,8 C\n";
	static const char water[] = "history,rerun\nthermometer,glass d86\nresidue,1.3 mL\n"
				    "loss,0.6 mL\nwater boils,99.3 C\nreading error,8 C\n";
	static const char *const heads[] = {rough, water};
	struct bc_limits *limits = NULL;
	struct bc_judge_options options = {.want = BC_GRADES, .seed = 1};

	(void)state;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	options.limits = limits;
	for (size_t h = 0; h < 2; h++) {
		struct runs runs = {0};
		double width[2];
		add_run(&runs, heads[h], 0.0, NULL);
		add_run(&runs, heads[h], 0.4, NULL);
		assert_int_equal(pool_runs(&runs, false), BC_OK);
		options.pool = runs.pool;
		for (size_t i = 0; i < 2; i++) {
			struct bc_judgement judgement;
			bc_judgement_init(&judgement);
			options.draws = i == 0 ? 0 : 1000;
			assert_int_equal(bc_judge(runs.pool->sample, &options, &judgement), BC_OK);
			const struct bc_estimate *t50 = &judgement.points.at[BC_AT_T50];
			width[i] = t50->high - t50->low;
			bc_judgement_release(&judgement);
		}
		print_message("T50: %.2f by derivatives, %.2f by draws\n", width[0], width[1]);
		assert_close(width[1] / width[0], 1.0, 0.15);
		release(&runs);
	}
	bc_limits_free(limits);
}

/* The mean of two fronts is nobody's: the lower one alone bounds the flash. */
static void test_flash_no_higher_than_that_of_the_lowest_front(void **state)
{
	static const size_t draws[] = {0, 1000};
	struct bc_limits *limits = NULL;
	struct bc_judge_options options = {.want = BC_GRADES, .seed = 1};
	struct runs runs = {0};
	double light_c[READINGS] = {-97.3};

	(void)state;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	options.limits = limits;
	add_run(&runs, HEAD, 0.0, NULL);
	add_run(&runs, HEAD, 0.4, light_c);
	assert_int_equal(pool_runs(&runs, false), BC_OK);
	assert_true(runs.pool->front_differs);
	for (size_t k = 0; k < 2; k++) {
		struct bc_judgement pooled;
		struct bc_judgement alone;
		bc_judgement_init(&pooled);
		bc_judgement_init(&alone);
		options.draws = draws[k];
		options.pool = runs.pool;
		assert_int_equal(bc_judge(runs.pool->sample, &options, &pooled), BC_OK);
		options.pool = NULL;
		assert_int_equal(bc_judge(runs.samples[1], &options, &alone), BC_OK);
		const struct bc_oil *one = &alone.oil;
		const struct bc_oil *all = &pooled.oil;
		assert_true(isfinite(one->property[BC_FLASH].low));
		assert_true(all->property[BC_FLASH].low <= one->property[BC_FLASH].low);
		assert_close(all->property[BC_FLASH].value - all->property[BC_FLASH].low,
			all->flash_at_site_c - all->flash_low_at_site_c, 1e-9);
		bc_judgement_release(&pooled);
		bc_judgement_release(&alone);
	}
	bc_limits_free(limits);
	release(&runs);
}

static void test_unlike_columns_are_two_apparatus(void **state)
{
	static const char *const unlike[][2] = {
		{HEAD "apparatus,column 15 5\n", HEAD "apparatus,column 2 5\n"},
		{HEAD "apparatus,column 15 5\n", HEAD "apparatus,column 15 1\n"},
		{HEAD "apparatus,still red.txt\n", HEAD "apparatus,still blue.txt\n"}};

	(void)state;
	for (size_t k = 0; k < sizeof unlike / sizeof unlike[0]; k++) {
		struct runs runs = {0};
		add_run(&runs, unlike[k][0], 0.0, NULL);
		add_run(&runs, unlike[k][0], 0.3, NULL);
		add_run(&runs, unlike[k][1], 0.4, NULL);
		assert_int_equal(pool_runs(&runs, true), BC_OK);
		assert_int_equal(runs.pool->runs[1].belonging, BC_RUN_BELONGS);
		assert_int_equal(runs.pool->runs[2].belonging, BC_RUN_LEFT_OUT);
		release(&runs);
	}
}

static void test_refusals(void **state)
{
	struct runs runs = {0};

	(void)state;
	add_run(&runs, HEAD, 0.0, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_TOO_FEW);
	assert_null(runs.pool);
	add_run(&runs, HEAD "apparatus,tbp\n", 0.0, NULL);
	assert_int_equal(pool_runs(&runs, false), BC_TOO_FEW);
	assert_null(runs.pool);
	release(&runs);
}

/* One run with errors 'factor' times as large as assumed, normal, each reading by itself. */
static void add_noisy(struct runs *runs, gsl_rng *rng, double factor)
{
	double error_c[READINGS];
	for (size_t k = 0; k < READINGS; k++) {
		/* half widths: 1 of reading, 0.7 mL, r of 1.0 + 0.41 S */
		size_t low = k > 0 ? k - 1 : 0;
		size_t high = k + 1 < READINGS ? k + 1 : k;
		double slope = (oil_c[high] - oil_c[low]) / (pct[high] - pct[low]);
		double r_c = 1.0 + 0.41 * slope;
		double half_c = sqrt(1.0 + 0.49 * slope * slope + 0.5 * r_c * r_c);
		error_c[k] = gsl_ran_gaussian(rng, factor * half_c / 1.96);
	}
	add_run(runs, HEAD, 0.0, error_c);
}

/* The truth lies within the bounds in 95 % of cases where the errors are as assumed, more often
 * where they are less, and where they are twice that: thermometer and place are no part of these
 * bounds. */
static void test_bounds_hold_the_truth(void **state)
{
	enum { TRIALS = 300 };
	static const struct {
		double factor;
		double least;
		double most;
	} cases[] = {{0.5, 0.98, 1.0}, {1.0, 0.95, 0.99}, {2.0, 0.94, 0.985}};
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	(void)state;
	gsl_rng_set(rng, 20261003);
	for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
		size_t held = 0;
		size_t tried = 0;
		size_t left_out = 0;
		for (size_t trial = 0; trial < TRIALS; trial++) {
			struct runs runs = {0};
			size_t n = 2 + trial % 3;
			for (size_t i = 0; i < n; i++)
				add_noisy(&runs, rng, cases[c].factor);
			assert_int_equal(pool_runs(&runs, false), BC_OK);
			double scale = runs.pool->runs[0].conditions.steam_true_c / 100.0;
			for (size_t k = BC_AT_T5; k <= BC_AT_T95; k++) {
				const struct bc_pool_point *at = &runs.pool->points[k];
				double off_c = fabs(at->mean_c - oil_c[k] * scale);
				held += off_c <= at->half_width_c;
				tried++;
			}
			left_out += runs.pool->n_kept < n;
			release(&runs);
		}
		double share = (double)held / (double)tried;
		print_message("errors %.1f times the assumed: truth within %.1f %% of %zu bounds, "
			      "a run left out of %zu of %d pools\n",
			cases[c].factor, 100.0 * share, tried, left_out, TRIALS);
		assert_true(share >= cases[c].least);
		assert_true(share <= cases[c].most);
		assert_true(left_out * 100 < 2 * (size_t)TRIALS);
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_mean_spread_and_ranges_by_hand),
		cmocka_unit_test(test_run_that_does_not_belong_is_left_out),
		cmocka_unit_test(test_lower_front_left_out_is_never_usable),
		cmocka_unit_test(test_evenly_spread_runs_stay),
		cmocka_unit_test(test_two_that_disagree_are_both_in_the_bounds),
		cmocka_unit_test(test_bounds_narrow_where_runs_agree),
		cmocka_unit_test(test_shared_error_and_water_reach_the_judgement),
		cmocka_unit_test(test_worst_history_joined_feeds_and_mean_of_measured),
		cmocka_unit_test(test_left_out_run_still_says_what_was_measured),
		cmocka_unit_test(test_shared_reading_error_reaches_the_draws),
		cmocka_unit_test(test_flash_no_higher_than_that_of_the_lowest_front),
		cmocka_unit_test(test_unlike_columns_are_two_apparatus),
		cmocka_unit_test(test_refusals),
		cmocka_unit_test(test_bounds_hold_the_truth),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
