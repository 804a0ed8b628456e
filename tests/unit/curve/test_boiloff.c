/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a sample to the boil-off: bases, order, water, ends, findings, reported points. */
#include "base/fault.h"
#include "by_hand.h"

#define READINGS(...)                                                                              \
	struct bc_reading readings[] = {__VA_ARGS__};                                              \
	struct bc_sample sample = sample_by_hand(readings, sizeof readings / sizeof *readings)

#define CLEAN                                                                                      \
	IBP(171), AT(5, 187.5), AT(10, 196), AT(20, 208.3), AT(30, 219), AT(40, 229.7),            \
		AT(50, 241), AT(60, 252.6), AT(70, 266), AT(80, 283), AT(90, 307.3), AT(95, 327),  \
		FBP(343)

static bool forbids(const struct bc_findings *findings, const char *code)
{
	for (size_t i = 0; i < findings->n; i++) {
		if (strcmp(findings->items[i].code, code) == 0)
			return findings->items[i].forbids_usable;
	}
	return false;
}

static void state_all(struct bc_sample *sample)
{
	sample->thermometer = BC_THERMOMETER_GLASS_D86;
	sample->barometer_kpa = 98.6;
	sample->residue_ml = 1.3;
	sample->loss_ml = 0.9;
}

static void test_clean_sample_raises_nothing(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	if (w.findings.n > 0)
		fail_msg("%s: %s", w.findings.items[0].code, w.findings.items[0].message);
	assert_int_equal(w.boiloff.n_amounts, 11);
	assert_close(w.boiloff.end_pct, 97.8, 1e-9);
	assert_close(w.boiloff.corrected_loss_pct, 0.5 + 0.4 / 1.3375, 1e-9);
	assert_close(w.boiloff.ibp_c, 171.0 + 0.0009 * 2.7 * 444.0, 1e-9);
	work_release(&w);
}

/* ASTM D86-04b/07b, appendix example in whole; from memory. */
static void test_example_of_the_standard(void **state)
{
	(void)state;
	READINGS(IBP(25.5), AT(5, 33.0), AT(10, 39.5), AT(15, 46.5), AT(20, 54.5), AT(30, 74.0),
		AT(40, 93.0), AT(50, 108.0), AT(60, 123.0), AT(70, 142.0), AT(80, 166.5),
		AT(85, 180.5), AT(90, 200.4), FBP(215.0));
	struct worked w;
	sample.thermometer = BC_THERMOMETER_GLASS_D86;
	sample.barometer_kpa = 98.6;
	sample.residue_ml = 1.1;
	sample.loss_ml = 4.7;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(w.boiloff.end_pct, 94.2, 1e-9);
	assert_close(w.boiloff.corrected_loss_pct, 3.6402, 5e-5);
	assert_close(w.points.evaporated_point[0].value, 34.1, 0.1);
	assert_close(w.points.evaporated_point[1].value, 101.9, 0.1);
	assert_close(w.points.evaporated_point[2].value, 182.8, 0.1);
	assert_close(w.points.evaporated_at[1].value, 48.8, 0.1);
	assert_close(w.points.at[BC_AT_FBP].value, 216.2, 0.05);
	assert_false(bc_findings_has(&w.findings, "loss-large"));
	struct bc_estimate none = bc_reader_temp_at_evaporated_c(&w.reader, 4.6);
	assert_false(bc_estimate_present(&none));
	/* 95 % recovered never came over */
	assert_false(bc_estimate_present(&w.points.at[BC_AT_T95]));
	work_release(&w);
}

static void test_order_repeats_and_zero(void **state)
{
	(void)state;
	READINGS(AT(50, 241), AT(10, 196), AT(90, 307.3), AT(30, 219), AT(10, 198), AT(0, 171.7),
		AT(70, 266));
	struct worked w;
	state_all(&sample);
	sample.barometer_kpa = 101.3;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.boiloff.n_amounts, 5);
	assert_true(bc_findings_has(&w.findings, "repeated-percent"));
	assert_close(w.boiloff.ibp_c, 171.7, 1e-9);
	assert_close(bc_curve_temp_c(w.curve, 10.0), 197.0, 1e-9);
	assert_close(w.boiloff.first_pct, 10.0, 0.0);
	assert_close(w.boiloff.last_pct, 90.0, 0.0);
	work_release(&w);
}

static void test_millilitres_of_another_charge(void **state)
{
	(void)state;
	READINGS(IBP(171), AT(10, 187.5), AT(50, 219), AT(100, 241), AT(150, 266), AT(180, 307.3));
	struct worked w;
	state_all(&sample);
	sample.amount_basis = BC_AMOUNT_VOLUME_ML;
	sample.charge_ml = 200.0;
	sample.charge_stated = true;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(w.boiloff.first_pct, 5.0, 1e-9);
	assert_close(w.boiloff.last_pct, 90.0, 1e-9);
	assert_close(w.boiloff.residue_pct, 0.65, 1e-9);
	work_release(&w);
}

/* At constant Watson K the light end is more volume than mass. */
static void test_mass_becomes_volume(void **state)
{
	(void)state;
	READINGS(IBP(71), AT(10, 131), AT(30, 181), AT(50, 222), AT(70, 262.4), AT(90, 318));
	struct worked w;
	state_all(&sample);
	sample.barometer_kpa = 101.3;
	sample.amount_basis = BC_AMOUNT_MASS_G;
	sample.charge_g = 79.3;
	for (size_t i = 1; i < sample.n_readings; i++)
		readings[i].amount *= 0.793;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(bc_findings_has(&w.findings, "mass-basis"));
	assert_true(says(&w.assumed, "Watson"));
	/* reference: trapezoids of T^(-1/3) by hand */
	static const double t[] = {344.15, 404.15, 454.15, 495.15, 535.55, 591.15};
	static const double m[] = {0, 10, 30, 50, 70, 90};
	double volume = 0.0;
	double at50 = 0.0;
	for (int i = 1; i < 6; i++) {
		volume += (m[i] - m[i - 1]) * 0.5 * (pow(t[i], -1.0 / 3) + pow(t[i - 1], -1.0 / 3));
		if (i == 3)
			at50 = volume;
	}
	double loss = 100.0 * 0.9 * 0.8 / 79.3; /* 0.80 g/mL assumed */
	double whole = volume + (10.0 - loss) * pow(t[5], -1.0 / 3) + loss * pow(t[0], -1.0 / 3);
	assert_close(w.boiloff.points[3].recovered_pct, 100.0 * at50 / whole, 1e-9);
	assert_true(w.boiloff.points[3].recovered_pct > 51.0);
	work_release(&w);
}

/* 8 mL of water came over on the shelf up to 20 %: above it every percent is less by 8 of 92. */
static void test_water_taken_out(void **state)
{
	(void)state;
	READINGS(IBP(88), AT(5, 94), AT(10, 96.5), AT(20, 98.7), AT(30, 183), AT(50, 222),
		AT(70, 262), AT(90, 318));
	struct worked w;
	state_all(&sample);
	sample.water_ml = 8.0;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(w.boiloff.wet);
	assert_true(bc_findings_has(&w.findings, "water-shelf"));
	assert_close(w.boiloff.charge_ml, 92.0, 1e-9);
	assert_close(w.boiloff.points[1].recovered_pct, (5.0 - 2.0) / 0.92, 1e-9);
	assert_close(w.boiloff.points[3].recovered_pct, 12.0 / 0.92, 1e-9);
	assert_close(w.boiloff.last_pct, 82.0 / 0.92, 1e-9);
	assert_close(w.boiloff.residue_pct, 1.3 / 0.92, 1e-9);
	work_release(&w);
}

static void test_readings_of_water_alone_are_not_used(void **state)
{
	(void)state;
	READINGS(IBP(97), AT(2, 98.7), AT(4, 98.9), AT(20, 187), AT(50, 222), AT(70, 262),
		AT(90, 318));
	struct worked w;
	state_all(&sample);
	sample.water_ml = 5.0;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.boiloff.n_amounts, 4);
	assert_close(w.boiloff.first_pct, 15.0 / 0.95, 1e-9);
	work_release(&w);
}

static void test_weighed_boiloff(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	sample.charge_stated = true;
	sample.charge_g = 79.4;
	sample.distillate_g = 76.9;
	sample.residue_g = 1.2;
	sample.density_kgm3 = 787.1;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(w.boiloff.mass_loss_pct, 130.0 / 79.4, 1e-9);
	assert_close(w.boiloff.distillate_kgm3, 76.9 / 0.0978, 1e-6);
	assert_close(w.boiloff.residue_kgm3, 1200.0 / 1.3, 1e-9);
	assert_close(w.boiloff.charge_kgm3, 794.0, 1e-9);
	assert_close(w.boiloff.loss_pct, 0.9, 1e-9);
	assert_false(bc_findings_has(&w.findings, "weighed-density-unlike"));
	work_release(&w);

	sample.density_kgm3 = 817.3;
	sample.loss_ml = NAN;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(bc_findings_has(&w.findings, "weighed-density-unlike"));
	assert_true(w.boiloff.loss_known);
	assert_close(w.boiloff.loss_pct, 130.0 / 79.4, 1e-9);
	assert_true(says(&w.assumed, "the weighed loss of 1.6 %"));
	work_release(&w);

	sample.charge_ml_computed = true;
	sample.distillate_g = 79.1;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_nan(w.boiloff.charge_kgm3);
	assert_false(w.boiloff.loss_known);
	assert_true(bc_findings_has(&w.findings, "balance-impossible"));
	work_release(&w);
}

static void test_fall_ends_the_curve(void **state)
{
	(void)state;
	READINGS(IBP(171), AT(10, 196), AT(30, 219), AT(50, 241), AT(70, 266), AT(80, 283),
		AT(85, 279), AT(90, 271), FBP(283));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(bc_findings_has(&w.findings, "temperature-falls"));
	assert_close(w.boiloff.last_pct, 80.0, 0.0);
	assert_nan(w.boiloff.fbp_c);
	assert_close(bc_curve_last_pct(w.curve), 80.0, 0.0);
	work_release(&w);

	readings[7].head_c = 283.5; /* it came back: pooled, not cut */
	assert_int_equal(work(&sample, &w), BC_REPAIRED);
	assert_false(bc_findings_has(&w.findings, "temperature-falls"));
	assert_close(w.boiloff.last_pct, 90.0, 0.0);
	work_release(&w);
}

static void test_dry_point_is_no_part_of_the_curve(void **state)
{
	(void)state;
	READINGS(IBP(171), AT(10, 196), AT(50, 241), AT(90, 307), DRY(339), FBP(343), FBP(341));
	struct worked w;
	state_all(&sample);
	sample.barometer_kpa = 101.3;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(w.boiloff.dry_c, 339.0, 1e-9);
	assert_close(w.boiloff.fbp_c, 343.0, 1e-9);
	assert_close(bc_curve_temp_c(w.curve, 97.8), 343.0, 1e-9);
	assert_int_equal(w.boiloff.points[6].kind, BC_READING_DRY);
	assert_false(w.boiloff.points[6].used);
	work_release(&w);
}

static void test_lowest_of_two_ibps_counts(void **state)
{
	(void)state;
	READINGS(IBP(171), IBP(163.7), AT(10, 196), AT(30, 219), AT(50, 241), AT(90, 307));
	struct worked w;
	state_all(&sample);
	sample.barometer_kpa = 101.3;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(w.boiloff.ibp_c, 163.7, 1e-9);
	assert_false(w.boiloff.points[0].used);
	work_release(&w);
}

static void test_last_reading_beyond_residue(void **state)
{
	(void)state;
	READINGS(IBP(171), AT(10, 196), AT(50, 241), AT(90, 307), AT(98.5, 338), FBP(343));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(bc_findings_has(&w.findings, "balance-impossible"));
	assert_true(forbids(&w.findings, "balance-impossible"));
	assert_false(w.boiloff.loss_known);
	assert_close(w.boiloff.loss_pct, 0.2, 1e-9);
	assert_close(w.boiloff.end_pct, 98.6, 1e-9);
	assert_close(bc_curve_last_pct(w.curve), 98.6, 1e-9);
	for (size_t i = 0; i < w.boiloff.n; i++)
		assert_true(w.boiloff.points[i].evaporated_pct <= 100.0);
	work_release(&w);
}

static void test_too_few(void **state)
{
	(void)state;
	READINGS(IBP(171), AT(10, 196), AT(50, 241), FBP(343));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_TOO_FEW);
	assert_null(w.boiloff.points);
	work_release(&w);
}

/* One change to the clean sample, one finding. */
struct planted {
	const char *code;
	size_t reading;
	double head_c;
	double pot_c;
	double residue_ml;
	double loss_ml;
	enum bc_thermometer thermometer;
	double barometer_kpa;
};

static void test_planted_findings(void **state)
{
	(void)state;
	const double no = NAN;
	const struct planted planted[] = {
		{"reading-out-of-line", 6, 214.0, no, no, no, BC_THERMOMETER_GLASS_D86, no},
		{"reading-out-of-line", 5, 249.9, no, no, no, BC_THERMOMETER_GLASS_D86, no},
		{"reading-out-of-line", 8, 281.5, no, no, no, BC_THERMOMETER_GLASS_D86, no},
		{"reading-out-of-line", 2, 182.3, no, no, no, BC_THERMOMETER_GLASS_D86, no},
		{"cracking", 12, 371.3, no, no, no, BC_THERMOMETER_GLASS_D86, no},
		{"cracking", 9, no, 340.7, no, no, BC_THERMOMETER_GLASS_D86, no},
		{"residue-large", 0, no, no, 5.3, 0.2, BC_THERMOMETER_GLASS_D86, no},
		{"loss-large", 0, no, no, 0.3, 4.6, BC_THERMOMETER_GLASS_D86, no},
		{"thermometer-not-stated", 0, no, no, no, no, BC_THERMOMETER_NOT_STATED, no},
		{"glass-total-no-immersion", 0, no, no, no, no, BC_THERMOMETER_GLASS_TOTAL, no},
		{"altitude-correction-large", 0, no, no, no, no, BC_THERMOMETER_GLASS_D86, 79.5},
	};
	for (size_t i = 0; i < sizeof planted / sizeof *planted; i++) {
		const struct planted *p = &planted[i];
		READINGS(CLEAN);
		struct worked w;
		state_all(&sample);
		sample.thermometer = p->thermometer;
		sample.barometer_kpa = isnan(p->barometer_kpa) ? 98.6 : p->barometer_kpa;
		sample.residue_ml = isnan(p->residue_ml) ? 1.3 : p->residue_ml;
		sample.loss_ml = isnan(p->loss_ml) ? 0.9 : p->loss_ml;
		if (!isnan(p->head_c))
			readings[p->reading].head_c = p->head_c;
		readings[p->reading].pot_c = p->pot_c;
		assert_false(bc_failed(work(&sample, &w)));
		for (size_t k = 0; k < w.findings.n; k++) {
			if (strcmp(w.findings.items[k].code, p->code) != 0)
				fail_msg("case %zu also raises %s", i, w.findings.items[k].code);
		}
		if (!bc_findings_has(&w.findings, p->code))
			fail_msg("case %zu does not raise %s", i, p->code);
		work_release(&w);
	}
}

static void test_water_shelf_is_seen(void **state)
{
	(void)state;
	READINGS(IBP(95), AT(5, 97.1), AT(10, 98.3), AT(20, 171), AT(30, 193), AT(50, 222),
		AT(70, 262), AT(90, 318));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(bc_findings_has(&w.findings, "water-shelf"));
	assert_true(w.boiloff.wet);
	assert_nan(w.boiloff.ibp_c);
	work_release(&w);

	/* a naphtha passes the same temperatures and is dry */
	static const double naphtha[] = {95, 97.1, 98.3, 115.3, 121, 133, 145, 163};
	for (size_t i = 0; i < 8; i++)
		readings[i].head_c = naphtha[i];
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_false(bc_findings_has(&w.findings, "water-shelf"));
	work_release(&w);
}

static void test_rate_of_boiling(void **state)
{
	(void)state;
	READINGS(IBP(171), TIMED(10, 196, NAN, 300), TIMED(30, 219, NAN, 560),
		TIMED(50, 241, NAN, 830), TIMED(70, 266, NAN, 1090), TIMED(90, 307, NAN, 1370));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.findings.n, 0);
	work_release(&w);
	for (int fast = 0; fast < 2; fast++) {
		for (size_t i = 1; i < 6; i++)
			readings[i].time_s *= fast ? 0.17 : 3.1;
		assert_int_equal(work(&sample, &w), BC_OK);
		assert_true(bc_findings_has(&w.findings, fast ? "too-fast" : "too-slow"));
		work_release(&w);
	}
}

static void test_few_readings_without_ibp(void **state)
{
	(void)state;
	READINGS(AT(10, 196), AT(30, 219), AT(50, 241), AT(90, 307));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(bc_findings_has(&w.findings, "few-readings"));
	assert_true(bc_findings_has(&w.findings, "no-ibp"));
	assert_null(w.reader.fit);
	assert_false(bc_estimate_present(&w.points.at[BC_AT_IBP]));
	assert_false(bc_estimate_present(&w.points.at[BC_AT_T5]));
	assert_false(bc_estimate_present(&w.points.at[BC_AT_T95]));
	assert_false(bc_estimate_present(&w.points.recovered_at[0]));
	assert_true(bc_estimate_present(&w.points.at[BC_AT_T40]));
	work_release(&w);
}

static void assert_in_order(const struct bc_points *points)
{
	double value = -INFINITY;
	double low = -INFINITY;
	double high = -INFINITY;
	for (int i = 0; i < BC_POINTS; i++) {
		const struct bc_estimate *e = &points->at[i];
		if (!bc_estimate_present(e))
			continue;
		assert_true(e->low <= e->value && e->value <= e->high);
		assert_true(e->value >= value && e->low >= low && e->high >= high);
		value = e->value;
		low = e->low;
		high = e->high;
	}
}

static void test_points_and_bounds(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_in_order(&w.points);
	for (int i = 0; i < BC_POINTS; i++)
		assert_false(w.points.extrapolated[i]);
	/* 50 %: slope over 40..60 %, ASTM D86-04b/07b reproducibility, 0.7 mL, 2 degC, 0.3 kPa */
	double t50 = bc_curve_temp_c(w.curve, 50.0);
	double slope = (bc_curve_temp_c(w.curve, 60.0) - bc_curve_temp_c(w.curve, 40.0)) / 20.0;
	double half = sqrt(4.0 + pow(0.0009 * (273.0 + t50) * 0.3, 2.0) +
			   pow((1.8 + 1.33 * slope) / sqrt(2.0), 2.0) + pow(0.7 * slope, 2.0));
	assert_close(w.points.at[BC_AT_T50].high - t50, half, 1e-9);
	assert_close(t50 - w.points.at[BC_AT_T50].low, half, 1e-9);

	struct bc_estimate r = bc_reader_recovered_pct(&w.reader, t50);
	assert_close(r.value, 50.0, 1e-9);
	assert_true(r.low < 49.0 && r.high > 51.0);
	assert_close(bc_reader_recovered_pct(&w.reader, 130.0).value, 0.0, 0.0);
	assert_close(bc_reader_recovered_pct(&w.reader, 390.0).value, 97.8, 1e-9);
	double c10 = w.boiloff.points[2].corrected_c;
	assert_close(bc_reader_evaporated_pct(&w.reader, c10).value, 10.9, 1e-9);
	assert_close(bc_reader_evaporated_pct(&w.reader, 130.0).value, 0.0, 0.0);
	work_release(&w);
}

static void test_unstated_thermometer_widens_the_low_side(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	sample.thermometer = BC_THERMOMETER_NOT_STATED;
	assert_int_equal(work(&sample, &w), BC_OK);
	const struct bc_estimate *t50 = &w.points.at[BC_AT_T50];
	assert_close((t50->value - t50->low) - (t50->high - t50->value),
		1.24e-4 * pow(t50->value - 20.0, 2.0), 1e-9);
	assert_in_order(&w.points);
	work_release(&w);
}

/* A shelf before a steep end: the wide bounds of the end reach back below those of the shelf. */
static void test_bounds_stay_in_order(void **state)
{
	(void)state;
	READINGS(IBP(171), AT(10, 236), AT(30, 239), AT(50, 240), AT(60, 241), AT(70, 242),
		AT(80, 243), AT(90, 355), AT(95, 357));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	struct bc_estimate t70 = bc_reader_temp_c(&w.reader, 70.0, NULL);
	struct bc_estimate t80 = bc_reader_temp_c(&w.reader, 80.0, NULL);
	assert_true(t80.low < t70.low);
	assert_in_order(&w.points);
	assert_true(w.points.at[BC_AT_T70].low <= t80.low);
	work_release(&w);
}

static void test_outside_the_readings(void **state)
{
	(void)state;
	READINGS(AT(10, 196), AT(20, 208.3), AT(30, 219), AT(40, 229.7), AT(50, 241), AT(60, 252.6),
		AT(70, 266), AT(80, 283));
	struct worked w;
	state_all(&sample);
	sample.residue_ml = NAN;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_in_order(&w.points);
	assert_true(w.points.extrapolated[BC_AT_T5]);
	assert_true(w.points.extrapolated[BC_AT_T90]);
	assert_false(w.points.extrapolated[BC_AT_T80]);
	assert_int_equal(w.points.at[BC_AT_T90].how, BC_ESTIMATED);
	assert_false(bc_estimate_present(&w.points.at[BC_AT_IBP]));
	assert_false(bc_estimate_present(&w.points.at[BC_AT_FBP]));
	assert_true(w.points.at[BC_AT_T90].high - w.points.at[BC_AT_T90].low >
		    w.points.at[BC_AT_T80].high - w.points.at[BC_AT_T80].low);
	/* all that makes the spread at 90 %, the slope being that of 70 to 80 % */
	double t90 = w.points.at[BC_AT_T90].value;
	double t80 = w.points.at[BC_AT_T80].value;
	double slope = (t80 - bc_curve_temp_c(w.curve, 70.0)) / 10.0;
	double half = sqrt(pow(bc_corrected_half_width_c(&w.conditions, t90), 2.0) +
			   pow((1.8 + 1.33 * slope) / sqrt(2.0), 2.0) + pow(0.7 * slope, 2.0) +
			   pow(2.0 * w.reader.fit->rms_c, 2.0) + pow(0.5 * (t90 - t80), 2.0));
	assert_close(bc_reader_temp_c(&w.reader, 90.0, NULL).high - t90, half, 1e-9);
	/* it goes on from the outermost readings, and is read back the same way */
	double t5 = w.points.at[BC_AT_T5].value;
	assert_close(bc_reader_temp_c(&w.reader, 80.0 + 1e-9, NULL).value, t80, 1e-6);
	assert_close(bc_reader_temp_c(&w.reader, 10.0 - 1e-9, NULL).value,
		w.points.at[BC_AT_T10].value, 1e-6);
	assert_close(bc_reader_recovered_pct(&w.reader, t90).value, 90.0, 1e-6);
	assert_close(bc_reader_recovered_pct(&w.reader, t5).value, 5.0, 1e-6);
	struct bc_estimate beyond = bc_reader_recovered_pct(&w.reader, 300.0);
	assert_true(beyond.value > 80.0 && beyond.value < w.boiloff.end_pct);
	assert_true(beyond.low <= 80.0 && beyond.high >= w.boiloff.end_pct - 1e-9);
	struct bc_estimate below = bc_reader_recovered_pct(&w.reader, 180.0);
	assert_true(below.value >= 0.0 && below.value < 10.0 && below.low <= 0.0);
	work_release(&w);
}

/* Every allocation that fails is reported, and nothing leaks (run under a sanitizer). */
static void test_memory_runs_out(void **state)
{
	(void)state;
	bool done = false;
	for (unsigned long nth = 1; !done; nth++) {
		READINGS(CLEAN);
		struct worked w;
		readings[5].amount = 30.0; /* repeated: a finding, too */
		sample.loss_ml = 7.3;
		bc_fault_set(BC_FAULT_ALLOC, nth, false);
		enum bc_status status = work(&sample, &w);
		done = bc_fault_count(BC_FAULT_ALLOC) < nth;
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		if (done)
			assert_false(bc_failed(status));
		else
			assert_int_equal(status, BC_NO_MEMORY);
		work_release(&w);
		assert_true(nth < 100000);
	}
}

/* A hundred thousand readings take no quadratic time; the test would not end otherwise. */
static void test_many_readings(void **state)
{
	(void)state;
	enum { MANY = 100000 };
	static struct bc_reading readings[MANY];
	for (size_t i = 0; i < MANY; i++) {
		double pct = 1.0 + 95.0 * (double)((i * 7919) % MANY) / MANY;
		readings[i] = (struct bc_reading)AT(pct, 150.0 + 1.7 * pct);
	}
	struct bc_sample sample = sample_by_hand(readings, MANY);
	struct worked w;
	state_all(&sample);
	assert_false(bc_failed(work(&sample, &w)));
	assert_int_equal(w.boiloff.n_amounts, MANY);
	assert_close(bc_curve_temp_c(w.curve, 50.0), 235.0 + 0.0009 * 2.7 * 508.0, 1e-6);
	work_release(&w);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(test_clean_sample_raises_nothing),
		cmocka_unit_test(test_example_of_the_standard),
		cmocka_unit_test(test_order_repeats_and_zero),
		cmocka_unit_test(test_millilitres_of_another_charge),
		cmocka_unit_test(test_mass_becomes_volume),
		cmocka_unit_test(test_water_taken_out),
		cmocka_unit_test(test_readings_of_water_alone_are_not_used),
		cmocka_unit_test(test_weighed_boiloff),
		cmocka_unit_test(test_fall_ends_the_curve),
		cmocka_unit_test(test_dry_point_is_no_part_of_the_curve),
		cmocka_unit_test(test_lowest_of_two_ibps_counts),
		cmocka_unit_test(test_last_reading_beyond_residue),
		cmocka_unit_test(test_too_few),
		cmocka_unit_test(test_planted_findings),
		cmocka_unit_test(test_water_shelf_is_seen),
		cmocka_unit_test(test_rate_of_boiling),
		cmocka_unit_test(test_few_readings_without_ibp),
		cmocka_unit_test(test_points_and_bounds),
		cmocka_unit_test(test_unstated_thermometer_widens_the_low_side),
		cmocka_unit_test(test_bounds_stay_in_order),
		cmocka_unit_test(test_outside_the_readings),
		cmocka_unit_test(test_memory_runs_out),
		cmocka_unit_test(test_many_readings),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
