/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The partition of a charge adds up whatever the curve. */
#include "unit/fuel/oil_of.h"

#include "base/text.h"

static void assert_partition(const struct bc_shares *shares)
{
	double sum = 0.0;
	for (size_t i = 0; i < BC_SHARES; i++) {
		const struct bc_estimate *share = &shares->pct[i];
		assert_true(
			share->value >= 0.0 && share->low >= 0.0 && share->high <= 100.0 + 1e-9);
		assert_true(share->low <= share->value && share->value <= share->high);
		sum += share->value;
	}
	assert_close(sum, 100.0, 1e-9);
}

static unsigned long next_random(unsigned long *seed)
{
	*seed = (*seed * 1103515245UL + 12345UL) & 0x7fffffffUL;
	return *seed >> 8;
}

/* Curves of 3 to 12 readings, with and without IBP, FBP, residue, loss. */
static void random_curves_add_up(void **state)
{
	(void)state;
	unsigned long seed = 271828UL;
	for (int run = 0; run < 300; run++) {
		struct bc_text text;
		struct bench bench;
		double temp_c = (double)(next_random(&seed) % 2000) / 10.0;
		unsigned long what = next_random(&seed);
		int pct = 1 + (int)(next_random(&seed) % 6);
		bc_text_init(&text);
		bc_text_append(&text, "history,rerun\n");
		if (what & 1)
			bc_text_append(&text, "residue,1.3 mL\n");
		if (what & 2)
			bc_text_append(&text, "loss,0.7 mL\n");
		bc_text_append(&text, "\nrecovered (%),head (C)\n");
		if (what & 4)
			bc_text_printf(&text, "IBP,%.1f\n", temp_c);
		for (int rows = 0; pct <= 97 && (rows < 3 || rows < (int)(what % 12)); rows++) {
			temp_c += (double)(next_random(&seed) % 700) / 10.0;
			if (temp_c > 520.0)
				temp_c = 520.0;
			bc_text_printf(&text, "%d,%.1f\n", pct, temp_c);
			pct += 3 + (int)(next_random(&seed) % 20);
		}
		if (what & 8)
			bc_text_printf(&text, "FBP,%.1f\n", temp_c + 11.3);
		bench_up(&bench, text.data);
		assert_partition(&bench.shares);
		bench_down(&bench);
		bc_text_release(&text);
	}
}

static const char kerosene[] =
	"history,rerun\nresidue,1.2 mL\nloss,0.6 mL\n\n"
	"recovered (%),head (C)\nIBP,151\n10,169.2\n50,190.7\n90,228.4\nFBP,249.3\n";

static void a_kerosene_is_kerosene(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, kerosene);
	const struct bc_estimate *pct = bench.shares.pct;
	assert_partition(&bench.shares);
	assert_close(pct[BC_SHARE_LIGHT_END].value, 0.0, 1e-12);
	/* straight between 10 and 50 % it would be 30.1; a rounded curve reads less */
	assert_close(pct[BC_SHARE_GASOLINE].value, 27.6, 2.5);
	assert_close(pct[BC_SHARE_HEAVY].value, 0.0, 1e-9);
	assert_close(pct[BC_SHARE_RESIDUE].value, 1.2, 1e-9);
	assert_close(pct[BC_SHARE_LOST].value, 0.6, 1e-9);
	assert_close(pct[BC_SHARE_LOST].low, 0.6, 1e-9);
	bench_down(&bench);
}

static void the_unread_counts_as_heavy(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, "history,rerun\n\nrecovered (%),head (C)\nIBP,149\n10,187.3\n50,243.7\n"
			 "80,301.9\n");
	const struct bc_estimate *pct = bench.shares.pct;
	assert_partition(&bench.shares);
	assert_close(pct[BC_SHARE_HEAVY].value, 20.0, 1e-9);
	assert_close(pct[BC_SHARE_RESIDUE].value, 0.0, 1e-12);
	assert_close(pct[BC_SHARE_RESIDUE].high, 20.0, 1e-9);
	assert_true(pct[BC_SHARE_DIESEL].high >= pct[BC_SHARE_DIESEL].value + 20.0);
	assert_close(pct[BC_SHARE_HEAVY].low, 0.0, 1e-9);
	bench_down(&bench);
}

static void published_ranges_overlap(void **state)
{
	(void)state;
	struct bench bench;
	double sum = 0.0;
	bench_up(&bench, kerosene);
	assert_in_range(bc_published_range_count, 10, 16);
	for (size_t i = 0; i < bc_published_range_count; i++) {
		struct bc_published_share share;
		bc_published_share_read(&bench.reader, i, &share);
		assert_true(share.from_c < share.to_c && strlen(share.source) > 10);
		assert_true(share.share_pct >= 0.0 && share.share_pct <= 100.0);
		sum += share.share_pct;
	}
	assert_true(sum > 100.0);
	bench_down(&bench);
}

/* Without an FBP a range that goes on beyond the last reading has no share. */
static void what_was_not_read_has_no_share(void **state)
{
	(void)state;
	struct bench bench;
	bench_up(&bench, "history,rerun\n\nrecovered (%),head (C)\nIBP,149\n10,187.3\n30,219.1\n"
			 "50,243.7\n60,257.3\n70,277.7\n80,301.9\n");
	struct bc_fits fits;
	assert_int_equal(bc_boiloff_fits(&bench.boiloff, &fits), BC_OK);
	bench.reader.fit = &fits.items[0]; /* which answers beyond the readings */
	for (size_t i = 0; i < bc_published_range_count; i++) {
		struct bc_published_share share;
		bc_published_share_read(&bench.reader, i, &share);
		if (isnan(share.share_pct) != (share.to_c > 301.9))
			fail_msg("%s to %g: %g", share.name, share.to_c, share.share_pct);
	}
	bench_down(&bench);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(random_curves_add_up),
		cmocka_unit_test(a_kerosene_is_kerosene),
		cmocka_unit_test(the_unread_counts_as_heavy),
		cmocka_unit_test(published_ranges_overlap),
		cmocka_unit_test(what_was_not_read_has_no_share),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
