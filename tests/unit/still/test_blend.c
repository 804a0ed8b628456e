/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Oils poured together: nothing lost on the way, Raoult on pure components, flash against a
 * published rule, and an oil mixed with itself. */
#include "base/units.h"
#include "fuel/constants.h"
#include "fuel/flash.h"
#include "still/blend.h"
#include "unit/unit.h"

/* D86 degC at 0 10 30 50 70 90 95 %. */
static const double wide_c[BC_TBP_POINTS] = {69.3, 131.2, 183.7, 229.1, 276.4, 326.2, 347.3};
static const double petrol_c[BC_TBP_POINTS] = {36.2, 48.3, 61.4, 72.7, 83.1, 97.3, 104.2};
static const double diesel_c[BC_TBP_POINTS] = {171.3, 213.2, 246.7, 268.9, 293.4, 331.2, 347.6};

static void fill(const double d86_c[BC_TBP_POINTS], double sg, struct bc_slices *slices)
{
	double tbp_c[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	assert_false(bc_failed(bc_tbp_points_from_d86(d86_c, tbp_c)));
	assert_false(bc_failed(
		bc_tbp_curve_from_points(bc_tbp_point_pct, tbp_c, BC_TBP_POINTS, false, &curve)));
	assert_false(bc_failed(bc_slices_from_tbp(&curve, sg, 40, 0.0, 96.3, slices)));
}

static void sums(const struct bc_slices *slices, double *volume, double *mass, double *moles)
{
	*volume = *mass = *moles = 0.0;
	for (size_t i = 0; i < slices->n; i++) {
		const struct bc_slice *slice = &slices->items[i];
		*volume += slice->volume_frac;
		*mass += slice->volume_frac * slice->sg;
		*moles += slice->volume_frac * slice->sg / slice->molar_mass_gmol;
	}
}

/* Three unlike oils: volume, mass and moles of the mixture are those of the parts. */
static void nothing_is_lost(void **state)
{
	static struct bc_slices oil[3];
	static struct bc_slices blend;
	const double share[3] = {7.31, 0.413, 19.7};
	struct bc_blend_part parts[3];
	double whole = share[0] + share[1] + share[2];
	double mass = 0.0;
	double moles = 0.0;
	(void)state;
	fill(wide_c, 0.7931, &oil[0]);
	fill(petrol_c, 0.7113, &oil[1]);
	fill(diesel_c, 0.8417, &oil[2]);
	for (size_t i = 0; i < 3; i++) {
		double own[3];
		parts[i] = (struct bc_blend_part){&oil[i], share[i]};
		sums(&oil[i], &own[0], &own[1], &own[2]);
		mass += share[i] / whole * own[1];
		moles += share[i] / whole * own[2];
	}
	for (size_t most = 8; most <= BC_SLICES_MAX; most += 14) {
		double got[3];
		double mole_frac = 0.0;
		assert_int_equal(bc_blend_slices(parts, 3, most, &blend), BC_OK);
		assert_true(blend.n <= most && blend.n > most / 2);
		sums(&blend, &got[0], &got[1], &got[2]);
		assert_close(got[0], 1.0, 1e-9);
		assert_close(got[1], mass, 1e-9);
		assert_close(got[2], moles, 1e-9);
		assert_close(blend.sg, mass, 1e-9);
		assert_close(blend.molar_mass_gmol, mass / moles, 1e-7);
		for (size_t i = 0; i < blend.n; i++) {
			const struct bc_slice *slice = &blend.items[i];
			mole_frac += slice->mole_frac;
			assert_true(slice->from_k <= slice->boiling_k);
			assert_true(slice->boiling_k <= slice->to_k);
			assert_true(i == 0 || slice->from_k == blend.items[i - 1].to_k);
			assert_close(bc_slice_vapour_bar(slice, slice->boiling_k), 1.01325, 1e-9);
		}
		assert_close(mole_frac, 1.0, 1e-9);
	}
}

/* An oil mixed with itself, in whatever shares, is the same oil. */
static void an_oil_with_itself_is_that_oil(void **state)
{
	static struct bc_slices oil;
	static struct bc_slices blend;
	const struct bc_blend_part parts[2] = {{&oil, 3.7}, {&oil, 0.51}};
	(void)state;
	fill(wide_c, 0.7931, &oil);
	assert_int_equal(bc_blend_slices(parts, 2, BC_BLEND_SLICES, &blend), BC_OK);
	assert_int_equal(blend.n, oil.n);
	for (size_t i = 0; i < oil.n; i++) {
		assert_close(blend.items[i].boiling_k, oil.items[i].boiling_k, 1e-9);
		assert_close(blend.items[i].to_k, oil.items[i].to_k, 1e-6);
		assert_close(blend.items[i].volume_frac, oil.items[i].volume_frac, 1e-12);
		assert_int_equal(blend.items[i].extrapolated, oil.items[i].extrapolated);
	}
	assert_close(blend.watson_k, oil.watson_k, 1e-9);
}

/* Merging 120 slices into 60 moves neither the flash nor the curve. */
static void merging_moves_no_flash(void **state)
{
	static struct bc_slices oil[3];
	static struct bc_slices blend;
	(void)state;
	fill(wide_c, 0.7931, &oil[0]);
	fill(petrol_c, 0.7113, &oil[1]);
	fill(diesel_c, 0.8417, &oil[2]);
	for (size_t i = 0; i < 5; i++) {
		/* from a drop of petrol to half of it */
		const double petrol[5] = {0.0017, 0.0113, 0.073, 0.217, 0.497};
		struct bc_blend_part parts[3] = {{&oil[0], 0.5 * (1.0 - petrol[i])},
			{&oil[1], petrol[i]}, {&oil[2], 0.5 * (1.0 - petrol[i])}};
		struct bc_blend_vapour vapour[3];
		double merged_c;
		double whole_c;
		for (size_t k = 0; k < 3; k++)
			vapour[k] = (struct bc_blend_vapour){
				.slices = parts[k].slices, .volume = parts[k].volume};
		assert_int_equal(bc_blend_slices(parts, 3, BC_BLEND_SLICES, &blend), BC_OK);
		assert_int_equal(bc_flash_vapour_space_c(&blend, 101.325, &merged_c), BC_OK);
		assert_int_equal(bc_blend_flash_c(vapour, 3, &whole_c), BC_OK);
		assert_close(merged_c, whole_c, 0.1);
	}
}

/* ---- pure components */

/* n-alkanes: boiling point [K], SG, Antoine constants (bar, K) of Poling et al., 5th edition, in
 * pascal, closed cup [degC] by DIPPR; molar mass [g/mol]. */
struct alkane {
	double boiling_k;
	double sg;
	double a;
	double b;
	double c;
	double flash_c;
	double molar_mass_gmol;
};
static const struct alkane octane = {398.83, 0.707, 9.05075 - 5.0, 1356.36, -63.515, 14.0, 114.231};
static const struct alkane decane = {447.3, 0.7349, 9.06853 - 5.0, 1495.17, -79.292, 49.7, 142.285};
static const struct alkane dodecane = {
	489.47, 0.7522, 9.12285 - 5.0, 1639.27, -91.31, 74.0, 170.338};

static void pure(const struct alkane *alkane, struct bc_slices *slices)
{
	const double all = 1.0;
	bc_slices_from_components(&alkane->boiling_k, &alkane->sg, &all, 1, slices);
	assert_int_equal(slices->n, 1);
}

/* Where sum x P is an atmosphere, by bisection on Antoine [K]. */
static double bubble_antoine_k(
	const struct alkane *one, double mole_frac, const struct alkane *other)
{
	double low = one->boiling_k - 5.0;
	double high = other->boiling_k + 5.0;
	while (high - low > 1e-9) {
		double middle = 0.5 * (low + high);
		double first = NAN;
		double second = NAN;
		bc_antoine_bar(one->a, one->b, one->c, middle, &first);
		bc_antoine_bar(other->a, other->b, other->c, middle, &second);
		if (mole_frac * first + (1.0 - mole_frac) * second > 1.01325)
			high = middle;
		else
			low = middle;
	}
	return low;
}

static double bubble_slices_k(const struct bc_slices *slices)
{
	double low = 300.0;
	double high = 600.0;
	while (high - low > 1e-9) {
		double middle = 0.5 * (low + high);
		double sum = 0.0;
		for (size_t i = 0; i < slices->n; i++)
			sum += slices->items[i].mole_frac *
			       bc_slice_vapour_bar(&slices->items[i], middle);
		if (sum > 1.01325)
			high = middle;
		else
			low = middle;
	}
	return low;
}

/* The bubble point of the mixture against Raoult on Antoine. */
static void bubble_points_are_raoults(void **state)
{
	static struct bc_slices part[2];
	static struct bc_slices blend;
	const struct alkane *const pairs[][2] = {
		{&octane, &decane}, {&decane, &dodecane}, {&octane, &dodecane}};
	(void)state;
	for (size_t i = 0; i < 3; i++)
		for (size_t k = 0; k < 3; k++) {
			const double volume = 0.127 + 0.313 * (double)k;
			const struct bc_blend_part parts[2] = {
				{&part[0], volume}, {&part[1], 1.0 - volume}};
			pure(pairs[i][0], &part[0]);
			pure(pairs[i][1], &part[1]);
			assert_int_equal(bc_blend_slices(parts, 2, BC_BLEND_SLICES, &blend), BC_OK);
			assert_int_equal(blend.n, 2);
			double want_k = bubble_antoine_k(
				pairs[i][0], blend.items[0].mole_frac, pairs[i][1]);
			assert_close(bubble_slices_k(&blend), want_k, 0.7);
		}
}

/* Liaw et al. 2002, ideal, as in tests/outside/flash.chk: mole share of the first, flash of the
 * mixture. Each part is given its measured closed cup by the shift. */
static void flash_of_pure_pairs_is_liaws(void **state)
{
	static struct bc_slices part[2];
	const struct {
		const struct alkane *one;
		const struct alkane *other;
		double mole_frac;
		double flash_c;
	} cases[] = {
		{&octane, &decane, 0.5, 23.94},
		{&octane, &decane, 0.2, 35.25},
		{&decane, &dodecane, 0.5, 58.29},
		{&octane, &dodecane, 0.1, 52.30},
		{&octane, &dodecane, 0.01, 70.97},
	};
	(void)state;
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		const struct alkane *const of[2] = {cases[i].one, cases[i].other};
		const double moles[2] = {cases[i].mole_frac, 1.0 - cases[i].mole_frac};
		struct bc_blend_vapour parts[2];
		double flash_c;
		for (size_t k = 0; k < 2; k++) {
			double own_c;
			pure(of[k], &part[k]);
			assert_int_equal(bc_flash_vapour_space_c(&part[k], 101.325, &own_c), BC_OK);
			parts[k] = (struct bc_blend_vapour){.slices = &part[k],
				.volume = moles[k] * part[k].molar_mass_gmol / part[k].sg,
				.shift_c = own_c - of[k]->flash_c};
		}
		assert_int_equal(bc_blend_flash_c(parts, 2, &flash_c), BC_OK);
		assert_close(flash_c, cases[i].flash_c, 1.0);
		assert_close(parts[0].share_frac + parts[1].share_frac, 1.0, 1e-12);
	}
}

/* A part alone flashes as it is known to; a mixture lies between its parts. */
static void a_mixture_lies_between_its_parts(void **state)
{
	static struct bc_slices oil[2];
	struct bc_blend_vapour parts[2];
	double own_c;
	double last_c = 81.7;
	double flash_c;
	(void)state;
	fill(diesel_c, 0.8417, &oil[0]);
	fill(petrol_c, 0.7113, &oil[1]);
	assert_int_equal(bc_flash_vapour_space_c(&oil[0], 101.325, &own_c), BC_OK);
	parts[0] = (struct bc_blend_vapour){
		.slices = &oil[0], .volume = 1.0, .shift_c = own_c - last_c};
	assert_int_equal(bc_blend_flash_c(parts, 1, &flash_c), BC_OK);
	assert_close(flash_c, last_c, 1e-6);
	assert_close(parts[0].share_frac, 1.0, 0.0);
	assert_int_equal(bc_flash_vapour_space_c(&oil[1], 101.325, &own_c), BC_OK);
	double petrol = 0.003;
	for (int i = 0; i < 9; i++, petrol *= 2.0) {
		parts[0].volume = 1.0 - petrol;
		parts[1] = (struct bc_blend_vapour){.slices = &oil[1], .volume = petrol};
		assert_int_equal(bc_blend_flash_c(parts, 2, &flash_c), BC_OK);
		assert_true(flash_c < last_c && flash_c > own_c);
		last_c = flash_c;
	}
}

static void what_cannot_be_mixed(void **state)
{
	static struct bc_slices oil;
	static struct bc_slices none;
	static struct bc_slices blend;
	struct bc_blend_part parts[2] = {{&oil, 1.7}, {&oil, 0.0}};
	struct bc_blend_vapour vapour = {.slices = &oil, .volume = 1.3, .shift_c = NAN};
	double flash_c;
	(void)state;
	fill(petrol_c, 0.7113, &oil);
	assert_int_equal(bc_blend_slices(parts, 0, 60, &blend), BC_BAD_DOMAIN);
	assert_int_equal(bc_blend_slices(parts, 2, 60, &blend), BC_BAD_DOMAIN);
	assert_int_equal(bc_blend_slices(parts, 1, 3, &blend), BC_BAD_DOMAIN);
	assert_int_equal(bc_blend_slices(parts, 1, BC_SLICES_MAX + 1, &blend), BC_BAD_DOMAIN);
	assert_int_equal(blend.n, 0);
	parts[0].volume = NAN;
	assert_int_equal(bc_blend_slices(parts, 1, 60, &blend), BC_BAD_DOMAIN);
	parts[0] = (struct bc_blend_part){&none, 1.0};
	assert_int_equal(bc_blend_slices(parts, 1, 60, &blend), BC_BAD_DOMAIN);
	assert_int_equal(bc_blend_flash_c(&vapour, 1, &flash_c), BC_BAD_DOMAIN);
	assert_true(isnan(flash_c));
	vapour.shift_c = 900.0;
	assert_int_equal(bc_blend_flash_c(&vapour, 1, &flash_c), BC_NO_CONVERGENCE);
	assert_int_equal(bc_blend_flash_c(&vapour, 0, &flash_c), BC_BAD_DOMAIN);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(nothing_is_lost),
		cmocka_unit_test(an_oil_with_itself_is_that_oil),
		cmocka_unit_test(merging_moves_no_flash),
		cmocka_unit_test(bubble_points_are_raoults),
		cmocka_unit_test(flash_of_pure_pairs_is_liaws),
		cmocka_unit_test(a_mixture_lies_between_its_parts),
		cmocka_unit_test(what_cannot_be_mixed),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
