/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Worked examples of charts of individuals held against the trend of the book, to 0.002. The trust
 * of each is part of its name: printed (seen in print), memory (printed, from memory), recomputed
 * (from the printed readings, where the print carries a rounded mean range on).
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "book/trend.h"

static int passed;
static int failed;

static void check(const char *name, double got, double expected)
{
	const double tolerance = 0.002;
	if (fabs(got - expected) <= tolerance) {
		passed++;
		printf("ok %s\n", name);
	} else {
		failed++;
		printf("not ok %s: got %.9g, expected %.9g\n", name, got, expected);
	}
}

static void chart(const double *values, size_t n, struct bc_trend *trend)
{
	struct bc_trend_request request = {.key = "flow", .rules = bc_run_sets[3].rules};
	if (bc_failed(bc_trend_of_values(values, n, &request, trend)))
		printf("not ok no chart\n");
}

/* Montgomery and Runger, Applied Statistics and Probability for Engineers, exercise 15-17: results
 * and moving ranges printed in a public copy; the readings from memory give all 19 of them. */
static void textbook(void)
{
	const double values[] = {
		51, 52, 54, 55, 55, 51, 52, 50, 51, 56, 51, 57, 58, 50, 53, 52, 54, 50, 56, 53};
	struct bc_trend trend;
	chart(values, sizeof values / sizeof values[0], &trend);
	check("textbook: centre line, printed", trend.chart.mean, 53.05);
	check("textbook: mean range, printed", trend.chart.mean_range, 2.947);
	check("textbook: upper limit, printed", trend.chart.upper, 60.888);
	check("textbook: lower limit, printed", trend.chart.lower, 45.212);
	check("textbook: upper limit of ranges, printed", trend.chart.range_upper, 9.628);
	check("textbook: sigma, printed", trend.chart.sigma, 2.613);
	check("textbook: upper limit, recomputed", trend.chart.upper, 60.8887);
	check("textbook: upper limit of ranges, recomputed", trend.chart.range_upper, 9.6291);
	check("textbook: points that break a rule, printed", (double)trend.found.n, 0.0);
	bc_trend_release(&trend);
}

/* NIST/SEMATECH e-Handbook of Statistical Methods, individuals chart, flow rate; from memory, all
 * figures agree with each other. */
static void handbook(void)
{
	const double values[] = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
	struct bc_trend trend;
	chart(values, sizeof values / sizeof values[0], &trend);
	check("handbook: centre line, memory", trend.chart.mean, 50.81);
	check("handbook: upper limit, memory", trend.chart.upper, 55.8041);
	check("handbook: lower limit, memory", trend.chart.lower, 45.8159);
	check("handbook: points that break a rule, memory", (double)trend.found.n, 0.0);
	bc_trend_release(&trend);
}

int main(void)
{
	textbook();
	handbook();
	printf("%d passed, %d failed\n", passed, failed);
	return passed > 0 && failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
