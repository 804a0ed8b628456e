/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time and size of a book of prepared records: adding one, listing all, one page of a list, the
 * trend of a figure, at 10, 1,000 and so many batches (default 20,000). No judgement is timed. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/memory.h"
#include "base/number.h"
#include "book/record.h"
#include "book/trend.h"

/* Near to what a sample of the scenario comes to. */
#define SAMPLE_BYTES 420
#define JUDGEMENT_BYTES 47000
#define FIGURES 40

static double now_s(void)
{
	struct timespec clock;
	clock_gettime(CLOCK_MONOTONIC, &clock);
	return (double)clock.tv_sec + (double)clock.tv_nsec * 1e-9;
}

static enum bc_status add(struct bc_book *book, long long n, const char *judgement)
{
	static struct bc_figure figures[FIGURES];
	char text[SAMPLE_BYTES + 1];
	char name[32];
	char date[32];
	struct bc_place place;
	memset(text, '5', SAMPLE_BYTES);
	text[SAMPLE_BYTES] = '\0';
	snprintf(text, sizeof text, "sample,Jar %lld\n", n);
	text[strlen(text)] = '5';
	snprintf(name, sizeof name, "Jar %lld", n);
	snprintf(date, sizeof date, "20%02lld-%02lld-%02lld", n / 336 % 100, n / 28 % 12 + 1,
		n % 28 + 1);
	for (int i = 0; i < FIGURES; i++) {
		snprintf(figures[i].key, sizeof figures[i].key, "figure_%d_c", i);
		figures[i].value = 200.3 + (double)(n % 17) + i;
		figures[i].low = figures[i].value - 4.7;
		figures[i].high = figures[i].value + 5.1;
	}
	snprintf(figures[0].key, sizeof figures[0].key, "flash_c");
	struct bc_entry entry = {.file = "jar.csv",
		.bytes = text,
		.n = SAMPLE_BYTES,
		.name = name,
		.date = date,
		.feed = "PE bottle caps and crates",
		.history = "rerun",
		.still = n % 3 != 0 ? "copper" : NULL,
		.program = "0.1.0",
		.judgement = judgement,
		.word = "usable",
		.grade = "heating-oil-range",
		.basis = {"grade,standard\n", NULL, NULL, "{}"},
		.figures = figures,
		.n_figures = FIGURES};
	return bc_book_add(book, &entry, &place);
}

static enum bc_status count(const struct bc_book_row *row, void *context)
{
	*(size_t *)context += row->batch > 0;
	return BC_OK;
}

static double list_s(struct bc_book *book, const struct bc_book_filter *filter, size_t *rows)
{
	double start = now_s();
	*rows = 0;
	if (bc_failed(bc_book_list(book, filter, count, rows)))
		return (double)NAN;
	return now_s() - start;
}

/* A chart of one figure with every rule, words and groups included. */
static double trend_s(struct bc_book *book, size_t *rows)
{
	struct bc_trend trend;
	struct bc_trend_request request = {.key = "figure_7_c"};
	bc_run_rules_parse("all", &request.rules);
	double start = now_s();
	enum bc_status status = bc_book_trend(book, &request, &trend);
	double taken_s = now_s() - start;
	*rows = trend.n;
	bc_trend_release(&trend);
	return bc_failed(status) ? (double)NAN : taken_s;
}

/* Fills up to n batches without waiting for the disk; then times the real thing. */
static int measure(
	struct bc_book *book, const char *path, long long from, long long n, const char *judgement)
{
	enum { ADDS = 5 };
	struct stat about;
	size_t rows = 0;
	size_t hits = 0;
	size_t values = 0;
	bc_book_run(book, "PRAGMA synchronous = OFF");
	for (long long i = from; i < n - ADDS - 1; i++) {
		if (bc_failed(add(book, i, judgement)))
			return 1;
	}
	bc_book_run(book, "PRAGMA synchronous = FULL");
	/* takes what was not waited for to the disk */
	if (bc_failed(add(book, n - ADDS - 1, judgement)))
		return 1;
	double start = now_s();
	for (long long i = n - ADDS; i < n; i++) {
		if (bc_failed(add(book, i, judgement)))
			return 1;
	}
	double add_s = (now_s() - start) / ADDS;
	double all_s = list_s(book, &(struct bc_book_filter){0}, &rows);
	double text_s = list_s(book, &(struct bc_book_filter){.text = "jar 17"}, &hits);
	double page_s = list_s(book, &(struct bc_book_filter){.most = 20}, &hits);
	double chart_s = trend_s(book, &values);
	if (stat(path, &about) != 0 || (long long)rows != n || (long long)values != n)
		return 1;
	printf("%6lld batches: add %.1f ms, list %.1f ms (by text %.1f, newest 20 %.2f), "
	       "trend %.1f ms, %.1f MB, %.0f bytes a batch\n",
		n, add_s * 1e3, all_s * 1e3, text_s * 1e3, page_s * 1e3, chart_s * 1e3,
		(double)about.st_size / 1e6, (double)about.st_size / (double)n);
	return 0;
}

int main(int argc, char **argv)
{
	double most = 20000.0;
	struct bc_book book;
	const char *scratch = getenv("BUILD");
	char path[512];
	if (argc > 1 && !bc_number_parse(argv[1], '.', &most))
		return 2;
	snprintf(path, sizeof path, "%s/bench-book.db", scratch != NULL ? scratch : ".");
	unlink(path);
	char *judgement = bc_alloc(JUDGEMENT_BYTES + 1);
	if (judgement == NULL || bc_failed(bc_book_create(path, NULL, &book)))
		return 1;
	memset(judgement, 'j', JUDGEMENT_BYTES);
	const long long sizes[] = {10, 1000, (long long)most};
	long long there = 0;
	int result = 0;
	for (size_t i = 0; i < 3 && result == 0; i++) {
		if (sizes[i] > there)
			result = measure(&book, path, there, sizes[i], judgement);
		there = sizes[i];
	}
	bc_book_close(&book);
	unlink(path);
	bc_free(judgement);
	return result;
}
