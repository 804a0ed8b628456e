/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which figures the book takes out of a judgement: those that stand, each once. */
#include <math.h>
#include <string.h>

#include "book/figures.h"
#include "unit/unit.h"

static const char text[] =
	"sample,Lake shed 14\n"
	"history,rerun\n"
	"density,803.7 kg/m3 @ 15 C\n"
	"barometer,94.3 kPa\n"
	"plastic in,12.7 kg\n"
	"oil out,9.6 kg\n"
	"residue,1.4 mL\n"
	"flash,71 C open cup\n"
	"sulphur,127 mg/kg\n"
	"recovered (%),head (C)\n"
	"IBP,192\n5,214.5\n10,230\n30,254.5\n50,272\n70,290.5\n90,322\nFBP,354\n";

static const struct bc_figure *find(const struct bc_figures *figures, const char *key)
{
	const struct bc_figure *found = NULL;
	for (size_t i = 0; i < figures->n; i++) {
		if (strcmp(figures->items[i].key, key) != 0)
			continue;
		assert_null(found);
		found = &figures->items[i];
	}
	return found;
}

static void assert_same(
	const struct bc_figures *figures, const char *key, const struct bc_estimate *estimate)
{
	const struct bc_figure *figure = find(figures, key);
	if (!isfinite(estimate->value)) {
		assert_null(figure);
		return;
	}
	assert_non_null(figure);
	assert_close(figure->value, estimate->value, 0.0);
	if (isfinite(estimate->low))
		assert_close(figure->low, estimate->low, 0.0);
	else
		assert_nan(figure->low);
}

static void figures_are_those_of_the_judgement(void **state)
{
	(void)state;
	struct bc_sample *sample = NULL;
	struct bc_judgement judgement;
	struct bc_limits *limits = NULL;
	struct bc_figures figures;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	assert_int_equal(bc_sample_read(text, strlen(text), "jar.csv", NULL, &sample), BC_OK);
	bc_judgement_init(&judgement);
	const struct bc_judge_options options = {.limits = limits, .want = BC_GRADES};
	assert_int_equal(bc_judge(sample, &options, &judgement), BC_OK);
	assert_int_equal(bc_figures_from_judgement(&judgement, &figures), BC_OK);

	for (size_t i = 0; i < BC_POINTS; i++)
		assert_same(&figures, bc_point_keys[i], &judgement.points.at[i]);
	for (size_t i = 0; i < BC_PROPERTIES_REPORTED; i++)
		assert_same(&figures, bc_property_keys[i], &judgement.oil.property[i]);
	assert_same(&figures, "diesel_pct", &judgement.shares.pct[BC_SHARE_DIESEL]);
	assert_close(find(&figures, "pressure_kpa")->value, 94.3, 1e-9);
	assert_close(find(&figures, "residue_pct")->value, 1.4, 1e-9);
	assert_close(find(&figures, "yield_pct")->value, 100.0 * 9.6 / 12.7, 1e-9);
	assert_close(find(&figures, "measured_sulphur")->value, 127.0, 1e-9);
	assert_null(find(&figures, "measured_flash_point")); /* an open cup is not followed */
	assert_null(find(&figures, "loss_pct"));
	for (size_t i = 0; i < figures.n; i++) {
		assert_true(isfinite(figures.items[i].value));
		find(&figures, figures.items[i].key);
	}
	bc_figures_release(&figures);
	bc_judgement_release(&judgement);
	bc_sample_free(sample);
	bc_limits_free(limits);
}

int main(void)
{
	const struct CMUnitTest tests[] = {cmocka_unit_test(figures_are_those_of_the_judgement)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
