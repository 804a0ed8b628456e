/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Balances by hand, stills and their versions, re-runs against what was expected of them. */
#include "base/fault.h"
#include "book/balance.h"
#include "book/pairs.h"
#include "book/stills.h"
#include "unit/book/shelf.h"

static struct bc_balance balance_of(long long batch)
{
	struct bc_balance balance;
	assert_int_equal(bc_balance_read(&shelf, batch, &balance), BC_OK);
	return balance;
}

static void test_balance_by_hand(void **state)
{
	(void)state;
	long long batch = shelf_batch("a", "2026-10-03", NULL, 61.7);
	const struct bc_balance_amount items[] = {
		{.kind = BC_AMOUNT_PLASTIC, .resin = "PE", .value = 9.3, .unit = BC_AMOUNT_KG},
		{.kind = BC_AMOUNT_PLASTIC, .resin = "PP", .value = 3.1, .unit = BC_AMOUNT_KG},
		{.kind = BC_AMOUNT_OIL, .value = 9100.0, .unit = BC_AMOUNT_ML},
		{.kind = BC_AMOUNT_CHAR, .value = 1.17, .unit = BC_AMOUNT_KG},
		{.kind = BC_AMOUNT_PRODUCT, .value = 4.1, .unit = BC_AMOUNT_KG},
		{.kind = BC_AMOUNT_TAIL, .value = 3000.0, .unit = BC_AMOUNT_ML},
		{.kind = BC_AMOUNT_HEAT, .value = 36.7, .unit = BC_AMOUNT_MJ},
	};
	assert_int_equal(
		bc_balance_add(&shelf, batch, items, sizeof items / sizeof items[0]), BC_OK);
	struct bc_balance balance = balance_of(batch);
	const double oil_kg = 9100.0 * 804.7e-6;
	const double product_ml = 4.1 / 804.7e-6;
	assert_close(balance.kg[BC_AMOUNT_PLASTIC], 12.4, 1e-12);
	assert_close(balance.oil_pct, 100.0 * oil_kg / 12.4, 1e-9);
	assert_close(balance.missing_kg, 12.4 - oil_kg - 1.17, 1e-9);
	assert_nan(balance.gas_pct);
	assert_close(balance.product_pct, 100.0 * product_ml / 9100.0, 1e-9);
	assert_close(balance.rerun_rest_ml, 9100.0 - product_ml - 3000.0, 1e-6);
	assert_close(balance.product_plastic_pct, 100.0 * 4.1 / 12.4, 1e-9);
	assert_close(balance.heat_mjkg, 36.7 / 12.4, 1e-9);
	assert_nan(balance.heat_share_pct); /* the net heat is not known */
	bc_balance_release(&balance);
	assert_int_equal(bc_balance_add(&shelf, batch + 1, items, 1), BC_NOT_FOUND);
}

static void test_written_again_takes_the_place(void **state)
{
	(void)state;
	long long batch = shelf_batch("a", "2026-10-03", NULL, 61.7);
	struct bc_balance_amount item = {
		.kind = BC_AMOUNT_PLASTIC, .resin = "PE", .value = 9.3, .unit = BC_AMOUNT_KG};
	assert_int_equal(bc_balance_add(&shelf, batch, &item, 1), BC_OK);
	item.value = 8.9;
	assert_int_equal(bc_balance_add(&shelf, batch, &item, 1), BC_OK);
	struct bc_balance balance = balance_of(batch);
	assert_int_equal(balance.n, 1);
	assert_close(balance.kg[BC_AMOUNT_PLASTIC], 8.9, 1e-12);
	bc_balance_release(&balance);
	assert_true(bc_failed(bc_book_run(&shelf, "UPDATE amount SET value = 1")));
	assert_true(bc_failed(bc_book_run(&shelf, "DELETE FROM amount")));
}

static void test_keys_of_the_sample(void **state)
{
	(void)state;
	long long batch = shelf_batch("plastic in,6.2 kg\noil out,6.9 L\nchar,210 g\n\n"
				      "recovered (%),head (C)\n10,182\n50,241\n90,303\n",
		"2026-10-03", NULL, 61.7);
	const struct bc_balance_amount item = {
		.kind = BC_AMOUNT_CHAR, .value = 0.34, .unit = BC_AMOUNT_KG};
	struct bc_balance balance = balance_of(batch);
	assert_close(balance.kg[BC_AMOUNT_PLASTIC], 6.2, 1e-12);
	assert_close(balance.ml[BC_AMOUNT_OIL], 6900.0, 1e-9);
	assert_close(balance.kg[BC_AMOUNT_CHAR], 0.21, 1e-12);
	bc_balance_release(&balance);
	assert_int_equal(bc_balance_add(&shelf, batch, &item, 1), BC_OK);
	balance = balance_of(batch);
	assert_close(balance.kg[BC_AMOUNT_CHAR], 0.34, 1e-12);
	assert_close(balance.kg[BC_AMOUNT_PLASTIC], 6.2, 1e-12);
	bc_balance_release(&balance);
}

/* ---- stills */

static void test_versions_stay(void **state)
{
	(void)state;
	struct bc_book_still still;
	struct bc_book_stills stills;
	long long version = 0;
	bool already = true;
	assert_int_equal(
		bc_book_still_add(&shelf, "Copper", "stages,3\n", &version, &already), BC_OK);
	assert_false(already);
	assert_int_equal(version, 1);
	bc_book_still_add(&shelf, "copper", "stages,3\n", &version, &already);
	assert_true(already);
	bc_book_still_add(&shelf, "copper", "stages,4\n", &version, &already);
	assert_int_equal(version, 2);
	bc_book_still_add(&shelf, "iron", "stages,2\n", &version, &already);
	assert_int_equal(version, 1);
	assert_int_equal(bc_book_still_read(&shelf, "COPPER", 0, &still), BC_OK);
	assert_string_equal(still.text, "stages,4\n");
	assert_string_equal(still.name, "Copper");
	bc_book_still_release(&still);
	assert_int_equal(bc_book_still_read(&shelf, "copper", 1, &still), BC_OK);
	assert_string_equal(still.text, "stages,3\n");
	assert_int_equal(still.versions, 2);
	bc_book_still_release(&still);
	assert_int_equal(bc_book_still_read(&shelf, "copper", 3, &still), BC_NOT_FOUND);
	assert_int_equal(bc_book_still_read(&shelf, "tin", 0, &still), BC_NOT_FOUND);
	assert_int_equal(bc_book_still_list(&shelf, &stills), BC_OK);
	assert_int_equal(stills.n, 2);
	assert_int_equal(stills.items[0].version, 2);
	bc_book_stills_release(&stills);
}

/* ---- pairs */

static const struct bc_pair_figure *figure_of(
	const struct bc_pair_comparison *comparison, const char *key)
{
	for (size_t i = 0; i < comparison->n; i++) {
		if (strcmp(comparison->items[i].key, key) == 0)
			return &comparison->items[i];
	}
	return NULL;
}

#define PLAN                                                                                       \
	"{\"jars\": [{\"jar\": \"light\"}, {\"jar\": \"product\", \"volume_pct\": 57.3, "          \
	"\"points\": {\"t50_c\": 238.9, \"t90_c\": 301.2}, \"properties\": {"                      \
	"\"density15_kgm3\": {\"value\": 809.9, \"low\": 808.9, \"high\": 811.3}, "                \
	"\"flash_c\": {\"value\": 66.1, \"low\": 55.3, \"high\": 71.9}}}]}"

static void test_expected_against_measured(void **state)
{
	(void)state;
	long long feed = shelf_batch("a", "2026-10-03", NULL, 21.7);
	long long product = shelf_batch("b", "2026-10-04", NULL, 61.7);
	char plan[] = PLAN;
	struct bc_pair pair = {.feed = feed,
		.product = product,
		.cut_c = 171.3,
		.until_c = (double)NAN,
		.plan = plan};
	const struct bc_balance_amount items[] = {
		{.kind = BC_AMOUNT_OIL, .value = 9000.0, .unit = BC_AMOUNT_ML},
		{.kind = BC_AMOUNT_PRODUCT, .value = 4500.0, .unit = BC_AMOUNT_ML},
	};
	struct bc_pair kept;
	struct bc_pair_comparison comparison;
	long long id = 0;
	assert_true(bc_plan_valid(plan));
	assert_false(bc_plan_valid("{\"jars\": [{\"jar\": \"light\"}]}"));
	assert_false(bc_plan_valid("oil"));
	assert_int_equal(bc_balance_add(&shelf, feed, items, 2), BC_OK);
	assert_int_equal(bc_pair_add(&shelf, &pair, &id), BC_OK);
	assert_int_equal(bc_pair_read(&shelf, id, &kept), BC_OK);
	assert_close(kept.cut_c, 171.3, 1e-12);
	assert_nan(kept.until_c);
	assert_int_equal(bc_pair_compare(&shelf, &kept, &comparison), BC_OK);
	assert_int_equal(comparison.source, BC_PLAN_KEPT);
	assert_close(figure_of(&comparison, "t50_c")->difference, 241.3 - 238.9, 1e-9);
	assert_false(figure_of(&comparison, "t50_c")->apart);
	assert_true(figure_of(&comparison, "density15_kgm3")->apart);
	assert_false(figure_of(&comparison, "flash_c")->apart);
	assert_close(figure_of(&comparison, "product_pct")->difference, 50.0 - 57.3, 1e-9);
	assert_null(figure_of(&comparison, "t90_c")); /* nobody measured it */
	bc_pair_comparison_release(&comparison);
	bc_pair_release(&kept);
	pair.product = product + 7;
	assert_int_equal(bc_pair_add(&shelf, &pair, &id), BC_NOT_FOUND);
}

static void test_no_memory(void **state)
{
	(void)state;
	char plan[] = PLAN;
	long long feed = shelf_batch("plastic in,6.2 kg\n\nrecovered (%),head (C)\n10,182\n"
				     "50,241\n90,303\n",
		"2026-10-03", NULL, 21.7);
	struct bc_pair pair = {
		.feed = feed, .product = shelf_batch("b", "2026-10-04", NULL, 61.7), .plan = plan};
	long long id = 0;
	long long version = 0;
	bool already = false;
	assert_int_equal(bc_pair_add(&shelf, &pair, &id), BC_OK);
	bc_book_still_add(&shelf, "iron", "stages,2\n", &version, &already);
	unsigned long n = 0;
	bool reached = true;
	while (reached) {
		struct bc_pair kept;
		struct bc_pair_comparison comparison = {0};
		struct bc_book_stills stills;
		bc_fault_set(BC_FAULT_ALLOC, ++n, false);
		enum bc_status read = bc_pair_read(&shelf, id, &kept);
		enum bc_status compared =
			bc_failed(read) ? read : bc_pair_compare(&shelf, &kept, &comparison);
		enum bc_status listed = bc_book_still_list(&shelf, &stills);
		reached = bc_fault_count(BC_FAULT_ALLOC) >= n;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(compared == BC_OK || compared == BC_NO_MEMORY);
		assert_true(listed == BC_OK || listed == BC_NO_MEMORY);
		bc_pair_comparison_release(&comparison);
		bc_pair_release(&kept);
		bc_book_stills_release(&stills);
		assert_true(reached || (compared == BC_OK && listed == BC_OK));
	}
	assert_true(n > 50);
}

#define ONE(test) cmocka_unit_test_setup_teardown(test, shelf_set_up, shelf_tear_down)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ONE(test_balance_by_hand),
		ONE(test_written_again_takes_the_place),
		ONE(test_keys_of_the_sample),
		ONE(test_versions_stay),
		ONE(test_expected_against_measured),
		ONE(test_no_memory),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
