/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Perfect splits: what lands where, that the product keeps its limits, and that no larger one does.
 */
#include <string.h>

#include "base/units.h"
#include "still/split.h"
#include "unit/unit.h"

#define HEADER                                                                                     \
	"grade,standard,edition,property,basis,min,max,strict,unit,method,role,in_force,judged,"   \
	"seen,note\n"
#define ROW(grade, standard, property, basis, min, max, unit, role)                                \
	grade "," standard ",2017," property "," basis "," min "," max ",no," unit ",Q 1," role    \
	      ",yes,yes,seen,\n"
#define FLASH(standard, min)                                                                       \
	ROW("heating-oil-range", standard, "flash_point", "", min, "", "degC", "safety")
#define T90(standard, max)                                                                         \
	ROW("heating-oil-range", standard, "T90", "recovered", "", max, "degC", "judge")

/* Wide oil from polyolefins, D86 degC at 0 10 30 50 70 90 95 %. */
static const double wide_c[BC_TBP_POINTS] = {69.3, 131.2, 183.7, 229.1, 276.4, 326.2, 347.3};
static const double petrol_c[BC_TBP_POINTS] = {36.2, 48.3, 61.4, 72.7, 83.1, 97.3, 104.2};

static struct bc_conditions conditions;
static struct bc_slices slices; /* of the charge */
static struct bc_charge charge;
static struct bc_cut cut;
static struct bc_cut other;

static void fill(const double d86_c[BC_TBP_POINTS], double sg)
{
	double tbp_c[BC_TBP_POINTS];
	struct bc_tbp_curve curve;
	assert_false(bc_failed(bc_tbp_points_from_d86(d86_c, tbp_c)));
	assert_false(bc_failed(
		bc_tbp_curve_from_points(bc_tbp_point_pct, tbp_c, BC_TBP_POINTS, false, &curve)));
	assert_false(bc_failed(bc_slices_from_tbp(&curve, sg, 40, 0.0, 96.3, &slices)));
	charge = (struct bc_charge){
		.slices = &slices, .conditions = &conditions, .ceiling_frac = 1.0};
}

static struct bc_limits *table_of(const char *rows)
{
	char text[4096];
	struct bc_limits *limits = NULL;
	snprintf(text, sizeof text, "%s%s", HEADER, rows);
	assert_int_equal(bc_limits_read(text, strlen(text), "t", NULL, &limits), BC_OK);
	return limits;
}

static int set_up(void **state)
{
	(void)state;
	conditions = (struct bc_conditions){.pressure_kpa = 94.3,
		.ice_c = NAN,
		.steam_c = NAN,
		.immersion_c = NAN,
		.stem_c = NAN};
	return 0;
}

static void shares_add_up(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(FLASH("Q 9", "51.3") T90("Q 9", "319.7"));
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_OK);
	assert_close(cut.light_pct + cut.product_pct + cut.tail_pct, 100.0, 1e-9);
	assert_true(cut.light_pct > 1.0 && cut.product_pct > 3.0 && cut.tail_pct > 1.0);
	assert_close(cut.light_pct, 100.0 * cut.light_until_frac, 1e-9);
	assert_true(cut.light_until_c < cut.product_until_c);
	/* 94.3 kPa: this thermometer shows less than the corrected figure */
	assert_true(cut.light_until_reading_c < cut.light_until_c);
	assert_true(cut.product_until_reading_c < cut.product_until_c);
	assert_string_equal(cut.basis, "perfect split, the bound that no still reaches");
	bc_limits_free(limits);
}

/* Every limit is kept, and only just: the edges were not moved further than asked. */
static void product_keeps_its_limits_and_is_the_largest(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(FLASH("Q 9", "51.3") T90("Q 9", "319.7"));
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_OK);
	double low_c = cut.product.property[BC_FLASH].low;
	double t90_c = cut.product_points.at[BC_AT_T90].value;
	assert_true(low_c >= 51.3 && low_c < 51.6);
	assert_true(t90_c <= 319.7 && t90_c > 319.2);
	bc_limits_free(limits);
}

static void product_judged_again_is_never_outside(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	size_t found = 0;
	for (size_t i = 0; i < limits->n; i++) {
		const char *standard = limits->items[i].standard;
		if ((i > 0 && strcmp(standard, limits->items[i - 1].standard) == 0) ||
			bc_failed(bc_split_find(&charge, limits, standard, &cut)))
			continue;
		struct bc_evidence evidence = {.points = &cut.product_points, .oil = &cut.product};
		struct bc_criterion room[24];
		struct bc_grade grade;
		assert_int_equal(
			bc_standard_assess(limits, standard, &evidence, &grade, room, 24), BC_OK);
		assert_int_equal(grade.outside, 0);
		for (size_t k = 0; k < grade.n_criteria; k++) {
			if (room[k].limit->role == BC_ROLE_SAFETY)
				assert_int_equal(room[k].state, BC_STATE_WITHIN);
		}
		found++;
	}
	assert_true(found >= 6);
	bc_limits_free(limits);
}

static void a_higher_flash_limit_costs_product(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(FLASH("Q 9", "38.2") FLASH("Q 8", "55.4"));
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_OK);
	assert_int_equal(bc_split_find(&charge, limits, "Q 8", &other), BC_OK);
	assert_true(other.product_pct < cut.product_pct - 1.0);
	assert_true(other.light_until_c > cut.light_until_c);
	assert_close(other.tail_pct, 0.0, 1e-9);
	assert_false(other.heavy_end);
	/* over both, the larger product */
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, NULL, &other), BC_OK);
	assert_string_equal(other.standard, "Q 9");
	assert_close(other.product_pct, cut.product_pct, 1e-9);
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, "Q 8", &other), BC_OK);
	assert_string_equal(other.standard, "Q 8");
	bc_limits_free(limits);
}

static void equal_products_go_to_the_lightest(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(ROW("kerosene-range", "Q 4", "flash_point", "", "38.2",
		"", "degC", "safety") FLASH("Q 9", "38.2"));
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, NULL, &cut), BC_OK);
	assert_string_equal(cut.standard, "Q 4");
	bc_limits_free(limits);
}

static void nothing_is_cut_from_what_keeps_its_limits(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(T90("Q 9", "361.3"));
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_OK);
	assert_nan(cut.light_until_c);
	assert_nan(cut.light_until_reading_c);
	assert_close(cut.product_pct, 100.0, 1e-12);
	assert_false(cut.heavy_end);
	bc_limits_free(limits);
}

/* With no tail to cut off the product ends at the ceiling, and what stays is counted. */
static void no_product_ends_above_the_ceiling(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(FLASH("Q 9", "51.3") T90("Q 8", "301.7"));
	charge.ceiling_frac = 0.937;
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_OK);
	assert_close(cut.tail_pct, 6.3, 1e-9);
	assert_close(cut.light_pct + cut.product_pct + cut.tail_pct, 100.0, 1e-9);
	assert_false(cut.heavy_end);
	double end_c = bc_temp_c_from_k(bc_slices_temp_k(&slices, 0.937));
	assert_close(cut.product_until_c, bc_corrected_from_true(end_c), 1e-9);
	assert_true(cut.product_until_reading_c < cut.product_until_c);
	/* a tail that the limits ask for goes deeper */
	assert_int_equal(bc_split_find(&charge, limits, "Q 8", &cut), BC_OK);
	assert_true(cut.heavy_end);
	assert_true(cut.product_until_frac < 0.937);
	charge.ceiling_frac = 0.027;
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_NOT_FOUND);
	bc_limits_free(limits);
}

static void the_head_limit_as_a_share(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	double share = bc_split_head_frac(&slices, 335.0);
	double true_c = bc_temp_c_from_k(bc_slices_temp_k(&slices, share));
	assert_true(share > 0.8 && share < 0.97);
	assert_close(bc_corrected_from_true(true_c), 335.0, 0.5);
	assert_true(bc_corrected_from_true(true_c) <= 335.0);
	fill(petrol_c, 0.703);
	assert_close(bc_split_head_frac(&slices, 335.0), 1.0, 1e-12);
}

/* Sulphur stays in every jar: that standard is not offered. */
static void what_no_cut_mends_is_not_offered(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(FLASH("Q 9", "38.2") FLASH("Q 8", "55.4"));
	struct bc_criterion sulphur = {.state = BC_STATE_OUTSIDE};
	struct bc_grade items[] = {
		{.standard = "Q 9", .unmendable = &sulphur}, {.standard = "Q 8"}};
	struct bc_grades grades = {items, 2};
	charge.grades = &grades;
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, NULL, &cut), BC_OK);
	assert_string_equal(cut.standard, "Q 8");
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_NOT_FOUND);
	items[1].unmendable = &sulphur;
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, NULL, &cut), BC_NOT_FOUND);
	bc_limits_free(limits);
}

/* The same boiling range at 902 kg/m3 is aromatic, no kerosene. */
static void an_aromatic_product_is_no_kerosene(void **state)
{
	(void)state;
	struct bc_limits *limits = table_of(
		ROW("kerosene-range", "Q 4", "flash_point", "", "38.2", "", "degC", "safety"));
	fill(wide_c, 0.797);
	assert_int_equal(bc_split_find(&charge, limits, "Q 4", &cut), BC_OK);
	fill(wide_c, 0.902);
	assert_int_equal(bc_split_find(&charge, limits, "Q 4", &cut), BC_NOT_FOUND);
	bc_limits_free(limits);
}

/* Cut to a T90 by its plain value, the product is at even odds with it. */
static void a_product_is_assessed(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits = table_of(FLASH("Q 9", "51.3") T90("Q 9", "319.7"));
	struct bc_grade grade;
	struct bc_criterion room[BC_CUT_CRITERIA_MAX];
	assert_int_equal(bc_split_find(&charge, limits, "Q 9", &cut), BC_OK);
	assert_int_equal(bc_cut_assess(&cut, limits, &grade, room), BC_OK);
	assert_int_equal(room[0].state, BC_STATE_WITHIN);
	assert_int_equal(room[1].state, BC_STATE_DOUBTFUL);
	assert_true(room[1].chance_within > 0.5 && room[1].chance_within < 0.6);
	bc_limits_free(limits);
}

static void no_cut_mends_petrol(void **state)
{
	(void)state;
	fill(petrol_c, 0.703);
	struct bc_limits *limits;
	assert_int_equal(bc_limits_default(NULL, &limits), BC_OK);
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, NULL, &cut), BC_NOT_FOUND);
	assert_nan(cut.product_pct);
	bc_limits_free(limits);
}

/* Gasoline is cut only when asked for; scope and comparison never. */
static void grades_that_are_not_offered(void **state)
{
	(void)state;
	fill(wide_c, 0.797);
	struct bc_limits *limits =
		table_of(ROW("gasoline-range", "Q 2", "FBP", "", "", "209.4", "degC", "judge") ROW(
			"diesel-range", "EN 15940 class A", "T95", "recovered", "", "361.2", "degC",
			"judge") ROW("comparison", "Q 3", "FBP", "", "", "301.2", "degC", "judge"));
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, NULL, &cut), BC_NOT_FOUND);
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADE_DIESEL, NULL, &cut), BC_NOT_FOUND);
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADE_GASOLINE, NULL, &cut), BC_OK);
	assert_int_equal(cut.grade, BC_GRADE_GASOLINE);
	bc_limits_free(limits);
}

/* A light product is not offered as road diesel unless that is asked for. */
static void light_product_is_no_road_diesel(void **state)
{
	(void)state;
	fill(wide_c, 0.781);
	struct bc_limits *limits = table_of(
		ROW("diesel-range", "Q 6", "density", "", "820", "845", "kg/m3", "judge")
			ROW("diesel-range", "Q 7", "T95", "recovered", "", "361.2", "degC", "judge")
				FLASH("Q 9", "38.2"));
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADES, NULL, &cut), BC_OK);
	assert_string_equal(cut.standard, "Q 9");
	assert_int_equal(bc_split_best(&charge, limits, BC_GRADE_DIESEL, NULL, &cut), BC_OK);
	assert_string_equal(cut.standard, "Q 7");
	bc_limits_free(limits);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup(shares_add_up, set_up),
		cmocka_unit_test_setup(product_keeps_its_limits_and_is_the_largest, set_up),
		cmocka_unit_test_setup(product_judged_again_is_never_outside, set_up),
		cmocka_unit_test_setup(a_higher_flash_limit_costs_product, set_up),
		cmocka_unit_test_setup(equal_products_go_to_the_lightest, set_up),
		cmocka_unit_test_setup(nothing_is_cut_from_what_keeps_its_limits, set_up),
		cmocka_unit_test_setup(no_product_ends_above_the_ceiling, set_up),
		cmocka_unit_test_setup(the_head_limit_as_a_share, set_up),
		cmocka_unit_test_setup(what_no_cut_mends_is_not_offered, set_up),
		cmocka_unit_test_setup(an_aromatic_product_is_no_kerosene, set_up),
		cmocka_unit_test_setup(a_product_is_assessed, set_up),
		cmocka_unit_test_setup(no_cut_mends_petrol, set_up),
		cmocka_unit_test_setup(grades_that_are_not_offered, set_up),
		cmocka_unit_test_setup(light_product_is_no_road_diesel, set_up),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
