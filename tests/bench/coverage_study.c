/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How often the 95 % bounds hold the truth of simulated samples (simulated_samples.h):
 * coverage_study [SAMPLES [SEED [DRAWS]]]. Prints, for each figure and for what was stated and what
 * was not, the share inside, the shares below and above, the mean error and the median width. A
 * share of n samples is known to about 1.96 sqrt(0.05 * 0.95/n).
 */
#include <stdio.h>
#include <stdlib.h>

#include <gsl/gsl_errno.h>

#include "base/memory.h"
#include "judgement/judgement.h"

#include "bench/simulated_samples.h"

enum { SIMULATED_FIGURES = SIMULATED_READINGS + 9 };

struct tally {
	const char *name;
	size_t n;
	size_t below; /* truth below the low bound */
	size_t above;
	double error;
	double square;
	double *width;
};

static struct tally tallies[SIMULATED_FIGURES] = {
	{.name = "T5"},
	{.name = "T10"},
	{.name = "T20"},
	{.name = "T30"},
	{.name = "T40"},
	{.name = "T50"},
	{.name = "T60"},
	{.name = "T70"},
	{.name = "T80"},
	{.name = "T90"},
	{.name = "T95"},
	{.name = "density, hydrometer"},
	{.name = "density, from the curve"},
	{.name = "flash, vapour space"},
	{.name = "flash, low bound that rules"},
	{.name = "T90, all of it stated"},
	{.name = "T90, kind not stated"},
	{.name = "T90, kind stated"},
	{.name = "T90, pressure not stated"},
	{.name = "T90, not calibrated"},
};

static void count(struct tally *tally, const struct bc_estimate *estimate, double truth)
{
	if (!bc_estimate_present(estimate))
		return;
	tally->below += truth < estimate->low;
	tally->above += truth > estimate->high;
	tally->error += estimate->value - truth;
	tally->square += (estimate->value - truth) * (estimate->value - truth);
	tally->width[tally->n++] = estimate->high - estimate->low;
}

static void count_sample(const struct simulated *sample, const struct bc_judgement *judgement)
{
	static const enum bc_point_at at[SIMULATED_READINGS] = {BC_AT_T5, BC_AT_T10, BC_AT_T20,
		BC_AT_T30, BC_AT_T40, BC_AT_T50, BC_AT_T60, BC_AT_T70, BC_AT_T80, BC_AT_T90,
		BC_AT_T95};
	for (size_t i = 0; i < SIMULATED_READINGS; i++)
		count(&tallies[i], &judgement->points.at[at[i]], sample->t_c[i]);
	const struct bc_estimate *property = judgement->oil.property;
	count(&tallies[SIMULATED_READINGS + (sample->density_given ? 0 : 1)],
		&property[BC_DENSITY15], sample->density15_kgm3);
	count(&tallies[SIMULATED_READINGS + 2], &property[BC_FLASH_VAPOUR], sample->flash_c);
	count(&tallies[SIMULATED_READINGS + 3], &property[BC_FLASH], sample->flash_c);
	const struct bc_estimate *t90 = &judgement->points.at[BC_AT_T90];
	double t90_c = sample->t_c[SIMULATED_READINGS - 2];
	const bool told[] = {sample->kind_given && sample->pressure_given && sample->calibrated,
		!sample->kind_given, sample->kind_given, !sample->pressure_given,
		!sample->calibrated};
	for (size_t i = 0; i < sizeof told / sizeof told[0]; i++)
		if (told[i])
			count(&tallies[SIMULATED_READINGS + 4 + i], t90, t90_c);
}

static void print_tally(struct tally *tally)
{
	double n = (double)tally->n;
	double inside = n - (double)(tally->below + tally->above);
	if (tally->n == 0)
		return;
	printf("%-28s n %5zu  inside %5.1f %%  truth below %4.1f %%  above %4.1f %%  bias %+6.2f  "
	       "rms %6.2f  median width %6.1f\n",
		tally->name, tally->n, 100.0 * inside / n, 100.0 * (double)tally->below / n,
		100.0 * (double)tally->above / n, tally->error / n, sqrt(tally->square / n),
		bc_median(tally->width, tally->n));
}

static bool listing; /* a line for each sample */

static void list_sample(const struct simulated *sample, const struct bc_judgement *judgement)
{
	const struct bc_estimate *flash = &judgement->oil.property[BC_FLASH_VAPOUR];
	const struct bc_estimate *at = judgement->points.at;
	printf("flash %6.1f true %6.1f  low %6.1f high %6.1f  IBP %5.1f T5 %5.1f T10 %5.1f T50 "
	       "%5.1f\n",
		flash->value, sample->flash_c, flash->low, flash->high, at[BC_AT_IBP].value,
		at[BC_AT_T5].value, at[BC_AT_T10].value, at[BC_AT_T50].value);
}

static void judge_one(struct simulator *s, const struct bc_judge_options *options)
{
	struct simulated truth;
	struct bc_sample *sample = NULL;
	struct bc_judgement judgement;
	bc_judgement_init(&judgement);
	if (simulate(s, &truth) &&
		!bc_failed(bc_sample_read(
			truth.text, strlen(truth.text), "simulated", NULL, &sample)) &&
		!bc_failed(bc_judge(sample, options, &judgement))) {
		count_sample(&truth, &judgement);
		if (listing)
			list_sample(&truth, &judgement);
	}
	bc_judgement_release(&judgement);
	bc_sample_free(sample);
	bc_free(truth.text);
}

static unsigned long argument(int argc, char **argv, int i, unsigned long otherwise)
{
	return argc > i ? strtoul(argv[i], NULL, 10) : otherwise;
}

int main(int argc, char **argv)
{
	gsl_set_error_handler_off();
	listing = getenv("LIST") != NULL;
	unsigned long samples = argument(argc, argv, 1, 1000);
	struct bc_limits *limits = NULL;
	struct simulator s = {.random = bc_random_new(argument(argc, argv, 2, 7)),
		.work = bc_still_work_new(),
		.run = bc_run_new()};
	if (!s.random || !s.work || !s.run || bc_failed(bc_limits_default(NULL, &limits)))
		return EXIT_FAILURE;
	for (size_t i = 0; i < SIMULATED_FIGURES; i++)
		tallies[i].width = bc_alloc_array(samples, sizeof(double));
	struct bc_judge_options options = {.limits = limits,
		.want = BC_GRADES,
		.draws = argument(argc, argv, 3, BC_DRAWS_DEFAULT),
		.seed = 1};
	while (tallies[0].n < samples)
		judge_one(&s, &options);
	for (size_t i = 0; i < SIMULATED_FIGURES; i++) {
		print_tally(&tallies[i]);
		bc_free(tallies[i].width);
	}
	bc_limits_free(limits);
	bc_run_free(s.run);
	bc_still_work_free(s.work);
	bc_random_free(s.random);
	return EXIT_SUCCESS;
}
