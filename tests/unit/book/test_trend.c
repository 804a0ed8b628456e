/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A figure over many batches: which count, in which order, and what is said of them. */
#include "book/compare.h"
#include "book/trend.h"
#include "unit/book/shed.h"

/* A batch of a day with one figure. */
static long long add(
	struct shed *shed, const char *date, const char *feed, const char *still, double value)
{
	static int n;
	char text[32];
	struct bc_place place;
	const struct bc_figure figure = {
		.key = "t50_c", .value = value, .low = value - 3.1, .high = value + 2.7};
	snprintf(text, sizeof text, "bytes %d", n++);
	struct bc_entry entry = shed_entry(text);
	entry.date = date;
	entry.feed = feed;
	entry.still = still;
	entry.figures = &figure;
	entry.n_figures = 1;
	assert_int_equal(bc_book_add(&shed->book, &entry, &place), BC_OK);
	return place.batch;
}

static void add_month(struct shed *shed)
{
	static const double values[] = {231.4, 229.7, 233.1, 230.2, 232.8, 228.9, 231.7, 230.6,
		232.2, 229.3, 231.1, 233.4, 230.9, 229.8, 232.6, 231.3, 230.1, 232.9, 228.7, 231.8,
		238.3, 236.9, 237.7, 236.2, 238.8, 237.1, 239.4, 236.6};
	for (int i = 0; i < 28; i++) {
		char date[16];
		/* the later days first: the order of adding does not count */
		int day = i < 14 ? i + 15 : i - 13;
		snprintf(date, sizeof date, "2026-10-%02d", day);
		add(shed, date, day % 2 == 0 ? "PE crates" : "PP caps",
			day % 3 == 0 ? "Copper" : NULL, values[day - 1]);
	}
}

static struct bc_trend_request request_of(const char *key)
{
	return (struct bc_trend_request){.key = key, .rules = bc_run_sets[1].rules};
}

static void a_shift_is_found(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_trend trend;
	shed_open_new(&shed);
	add_month(&shed);
	struct bc_trend_request request = request_of("t50_c");
	request.baseline = 20;
	assert_int_equal(bc_book_trend(&shed.book, &request, &trend), BC_OK);
	assert_int_equal(trend.n, 28);
	assert_int_equal(trend.baseline, 20);
	assert_false(trend.provisional || trend.too_few);
	assert_string_equal(trend.points[0].day, "2026-10-01");
	assert_string_equal(trend.points[27].day, "2026-10-28");
	assert_close(trend.points[5].value, 228.9, 1e-12);
	assert_close(trend.points[5].low, 225.8, 1e-9);
	/* by hand: the mean of the first 20, and their 19 ranges add up to 46.0 */
	assert_close(trend.chart.mean, 231.125, 1e-9);
	assert_close(trend.chart.mean_range, 46.0 / 19.0, 1e-9);
	bool shifted = false;
	for (size_t i = 0; i < trend.found.n; i++) {
		const struct bc_run_stretch *stretch = &trend.found.items[i];
		shifted = shifted || (stretch->rule == BC_RULE_SIDE && stretch->last == 27 &&
					     strstr(trend.words.items[i], "shifted up") != NULL);
	}
	assert_true(shifted);
	assert_int_equal(trend.words.n, trend.found.n);
	assert_true(trend.points[27].signal && !trend.points[3].signal);
	assert_int_equal(trend.feeds.n, 2);
	assert_int_equal(trend.stills.n, 2);
	assert_null(trend.stills.items[0].name);
	assert_int_equal(trend.stills.items[0].n, 19);
	bc_trend_release(&trend);
	shed_remove(&shed);
}

static void a_selection(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_trend trend;
	shed_open_new(&shed);
	add_month(&shed);
	struct bc_trend_request request = request_of("t50_c");
	request.feed = "cApS";
	request.still = "copper";
	request.from = "2026-10-03";
	request.until = "2026-10-20";
	assert_int_equal(bc_book_trend(&shed.book, &request, &trend), BC_OK);
	assert_int_equal(trend.n, 3); /* 3, 9 and 15 */
	assert_true(trend.too_few);
	assert_nan(trend.chart.upper);
	assert_int_equal(trend.words.n, 0);
	bc_trend_release(&trend);
	request.sample = "lake SHED 14";
	assert_int_equal(bc_book_trend(&shed.book, &request, &trend), BC_OK);
	assert_int_equal(trend.n, 3);
	bc_trend_release(&trend);
	request.sample = "lake shed";
	assert_int_equal(bc_book_trend(&shed.book, &request, &trend), BC_OK);
	assert_int_equal(trend.n, 0);
	bc_trend_release(&trend);
	request = request_of("t51_c");
	assert_int_equal(bc_book_trend(&shed.book, &request, &trend), BC_NOT_FOUND);
	bc_trend_release(&trend);
	shed_remove(&shed);
}

/* Of a batch the newest record counts, also where it lost the figure. */
static void the_newest_record_counts(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_trend trend;
	struct bc_place place;
	shed_open_new(&shed);
	long long batch = add(&shed, "2026-10-03", NULL, NULL, 231.7);
	add(&shed, "2026-10-04", NULL, NULL, 233.2);
	const struct bc_figure figure = {.key = "t50_c", .value = 229.3, .low = NAN, .high = NAN};
	struct bc_entry entry = shed_entry("corrected");
	entry.figures = &figure;
	entry.n_figures = 1;
	assert_int_equal(bc_book_revise(&shed.book, batch, "misread", &entry, &place), BC_OK);
	struct bc_trend_request request = request_of("t50_c");
	assert_int_equal(bc_book_trend(&shed.book, &request, &trend), BC_OK);
	assert_int_equal(trend.n, 2);
	assert_close(trend.values[0], 229.3, 1e-12);
	bc_trend_release(&trend);
	entry = shed_entry("corrected again");
	entry.n_figures = 0;
	assert_int_equal(bc_book_revise(&shed.book, batch, "void", &entry, &place), BC_OK);
	assert_int_equal(bc_book_trend(&shed.book, &request, &trend), BC_OK);
	assert_int_equal(trend.n, 1);
	bc_trend_release(&trend);
	shed_remove(&shed);
}

static void the_keys_there_are(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_strings keys;
	struct bc_place place;
	shed_open_new(&shed);
	assert_int_equal(bc_book_figure_keys(&shed.book, &keys), BC_OK);
	assert_int_equal(keys.n, 0);
	bc_strings_release(&keys);
	struct bc_entry entry = shed_entry("one");
	assert_int_equal(bc_book_add(&shed.book, &entry, &place), BC_OK);
	assert_int_equal(bc_book_figure_keys(&shed.book, &keys), BC_OK);
	assert_int_equal(keys.n, 2);
	assert_string_equal(keys.items[0], "flash_c");
	assert_string_equal(keys.items[1], "t50_c");
	bc_strings_release(&keys);
	shed_remove(&shed);
}

/* ---- two batches beside each other */

static long long add_curve(struct shed *shed, const char *bytes, double lift, double half_width)
{
	static const double curve[BC_POINTS] = {
		71, 112, 131, 152, 170, 190, 212, 236, 260, 281, 310, 335, 361};
	struct bc_figure figures[BC_POINTS];
	struct bc_place place;
	for (size_t i = 0; i < BC_POINTS; i++) {
		memset(&figures[i], 0, sizeof figures[i]);
		strcpy(figures[i].key, bc_point_keys[i]);
		figures[i].value = curve[i] + (i == BC_AT_T50 ? lift + 0.7 : lift);
		figures[i].low = figures[i].value - half_width;
		figures[i].high = figures[i].value + half_width;
	}
	struct bc_entry entry = shed_entry(bytes);
	entry.figures = figures;
	entry.n_figures = BC_POINTS;
	assert_int_equal(bc_book_add(&shed->book, &entry, &place), BC_OK);
	return place.batch;
}

static void two_batches(void **state)
{
	(void)state;
	struct shed shed;
	struct bc_comparison comparison;
	long long missing = 0;
	shed_open_new(&shed);
	long long one = add_curve(&shed, "one", 0.0, 4.3);
	long long near = add_curve(&shed, "near", 0.4, 4.3);
	long long off = add_curve(&shed, "off", 5.2, 4.3);
	long long other = add_curve(&shed, "other", -9.8, 4.3);
	assert_int_equal(bc_book_compare(&shed.book, one, near, &comparison, &missing), BC_OK);
	assert_int_equal(comparison.n_common, BC_POINTS);
	assert_int_equal(comparison.n_beyond + comparison.n_doubt, 0);
	/* 50 % stands 0.7 higher in each: it is no difference */
	assert_close(comparison.mean_c, 0.4, 1e-9);
	assert_close(comparison.points[BC_AT_T50].own, 4.3 * sqrt(2.0), 1e-9);
	bc_comparison_release(&comparison);
	assert_int_equal(bc_book_compare(&shed.book, one, off, &comparison, &missing), BC_OK);
	assert_int_equal(comparison.n_beyond, 0);
	assert_true(comparison.n_doubt > 8);
	assert_non_null(strstr(comparison.words, "cannot be told apart"));
	bc_comparison_release(&comparison);
	assert_int_equal(bc_book_compare(&shed.book, one, other, &comparison, &missing), BC_OK);
	assert_int_equal(comparison.n_beyond, BC_POINTS);
	assert_non_null(strstr(comparison.words, "9.8 degC lower"));
	assert_non_null(strstr(comparison.words, "two different oils"));
	bc_comparison_release(&comparison);
	assert_int_equal(bc_book_compare(&shed.book, one, 99, &comparison, &missing), BC_NOT_FOUND);
	assert_int_equal(missing, 99);
	bc_comparison_release(&comparison);
	shed_remove(&shed);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_shift_is_found),
		cmocka_unit_test(a_selection),
		cmocka_unit_test(the_newest_record_counts),
		cmocka_unit_test(the_keys_there_are),
		cmocka_unit_test(two_batches),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
