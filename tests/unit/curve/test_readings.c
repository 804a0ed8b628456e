/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Readings that cannot be right: shelves of water, falls, gaps, balances, condensers, thermometers,
 * pressures; which of them are left out, and which forbid a verdict. */
#include "by_hand.h"

#define READINGS(...)                                                                              \
	struct bc_reading readings[] = {__VA_ARGS__};                                              \
	struct bc_sample sample = sample_by_hand(readings, sizeof readings / sizeof *readings)

#define CLEAN                                                                                      \
	IBP(171), AT(5, 187.5), AT(10, 196), AT(20, 208.3), AT(30, 219), AT(40, 229.7),            \
		AT(50, 241), AT(60, 252.6), AT(70, 266), AT(80, 283), AT(90, 307.3), AT(95, 327),  \
		FBP(343)

static void state_all(struct bc_sample *sample)
{
	sample->thermometer = BC_THERMOMETER_GLASS_D86;
	sample->barometer_kpa = 101.3;
	sample->residue_ml = 1.3;
	sample->loss_ml = 0.9;
	sample->charge_stated = true;
}

static const struct bc_finding *finding(const struct worked *w, const char *code)
{
	for (size_t i = 0; i < w->findings.n; i++) {
		if (strcmp(w->findings.items[i].code, code) == 0)
			return &w->findings.items[i];
	}
	return NULL;
}

/* The shelf of a sample, and how many percent readings stay in use. */
struct shelf_case {
	struct bc_reading readings[12];
	size_t n;
	bool shelf;
	size_t n_amounts;
};

#define TAIL AT(30, 231.4), AT(40, 246.1), AT(50, 262.7), AT(70, 291.3), AT(90, 332.6)

static void shelves_at_ordinary_spacing(void **state)
{
	(void)state;
	struct shelf_case cases[] = {
		{{IBP(98), AT(2, 100), AT(5, 101), AT(8, 102), AT(10, 205), TAIL}, 10, true, 6},
		{{IBP(96), AT(5, 99), AT(10, 181), AT(20, 214.9), TAIL}, 9, true, 7},
		{{IBP(93), AT(5, 96), AT(10, 99), AT(20, 190), TAIL}, 9, true, 6},
		{{AT(5, 96.7), AT(10, 99.3), AT(20, 190), TAIL}, 8, true, 6},
		/* a plastic oil with light ends, a naphtha, a light naphtha with a steep end */
		{{IBP(71), AT(5, 112.5), AT(10, 131), AT(20, 161.7), TAIL}, 9, false, 8},
		{{IBP(74), AT(5, 98.3), AT(10, 121.7), AT(20, 163.1), TAIL}, 9, false, 8},
		{{IBP(61), AT(10, 78.3), AT(30, 86.1), AT(50, 93.7), AT(70, 97.9), AT(80, 99.3),
			 AT(90, 101.7), AT(95, 144.3)},
			8, false, 7},
		{{IBP(88.3), AT(5, 94.1), AT(10, 99.7), AT(20, 136.3), TAIL}, 9, false, 8},
		/* pure toluene, and one reading alone */
		{{IBP(109.3), AT(10, 110.1), AT(30, 110.3), AT(50, 110.6), AT(90, 110.9)}, 5, false,
			4},
		{{IBP(97), AT(5, 161.3), AT(10, 181), AT(20, 214.9), TAIL}, 9, false, 8},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct bc_sample sample = sample_by_hand(cases[i].readings, cases[i].n);
		struct worked w;
		state_all(&sample);
		assert_false(bc_failed(work(&sample, &w)));
		if (bc_findings_has(&w.findings, "water-shelf") != cases[i].shelf ||
			w.boiloff.wet != cases[i].shelf ||
			w.boiloff.n_amounts != cases[i].n_amounts)
			fail_msg("case %zu: %zu readings in use", i, w.boiloff.n_amounts);
		if (cases[i].shelf)
			assert_nan(w.boiloff.ibp_c);
		work_release(&w);
	}
}

/* Where nothing would be left the shelf stays in use, but its IBP never does. */
static void a_shelf_never_empties_the_curve(void **state)
{
	(void)state;
	READINGS(IBP(93), AT(5, 96), AT(10, 99), AT(20, 190), AT(70, 291));
	struct worked w;
	state_all(&sample);
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.boiloff.n_amounts, 4);
	assert_nan(w.boiloff.ibp_c);
	assert_true(bc_findings_has(&w.findings, "water-shelf"));
	work_release(&w);
}

/* Water that was measured: an IBP above its boiling point is the oil's own. */
static void stated_water_spares_a_high_ibp(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	sample.water_pct = 0.3;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(w.boiloff.wet);
	assert_close(w.boiloff.ibp_c, 171.0, 1e-9);
	assert_close(w.boiloff.charge_ml, 99.7, 1e-9);
	work_release(&w);
	readings[0].head_c = 97.3;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_nan(w.boiloff.ibp_c);
	work_release(&w);
}

static void a_slip_is_left_out_and_named(void **state)
{
	(void)state;
	static const struct {
		size_t reading;
		double head_c;
	} slips[] = {{8, 210.0}, {8, 352.7}, {6, 214.0}, {5, 249.9}, {1, 203.1}};
	for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
		READINGS(CLEAN);
		struct worked w;
		state_all(&sample);
		readings[0].head_c = 169.3;
		readings[slips[i].reading].head_c = slips[i].head_c;
		assert_int_equal(work(&sample, &w), BC_OK);
		const struct bc_finding *found = finding(&w, "reading-out-of-line");
		assert_non_null(found);
		assert_close(found->at_pct, readings[slips[i].reading].amount, 0.0);
		assert_false(found->forbids_usable);
		assert_int_equal(w.boiloff.n_amounts, 10);
		assert_int_equal(w.findings.n, 1);
		work_release(&w);
	}
}

static void disorder_forbids_a_verdict(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	readings[2].head_c = 251.7;
	readings[5].head_c = 271.3;
	readings[8].head_c = 210.0;
	assert_int_equal(work(&sample, &w), BC_REPAIRED);
	const struct bc_finding *found = finding(&w, "readings-disordered");
	assert_non_null(found);
	assert_true(found->forbids_usable);
	assert_int_equal(w.boiloff.n_amounts, 9);
	work_release(&w);
}

static void an_ibp_above_the_first_reading_is_not_used(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	readings[0].head_c = 190.4;
	assert_int_equal(work(&sample, &w), BC_REPAIRED); /* within 3 degC: pooled */
	assert_close(w.boiloff.ibp_c, 190.4, 1e-9);
	work_release(&w);
	readings[0].head_c = 190.7;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_nan(w.boiloff.ibp_c);
	assert_true(finding(&w, "ibp-out-of-order")->forbids_usable);
	work_release(&w);
}

static void gaps_are_said(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	readings[6].head_c = readings[7].head_c = readings[8].head_c = NAN;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(finding(&w, "gap")->at_pct, 40.0, 0.0);
	assert_false(finding(&w, "gap")->forbids_usable);
	work_release(&w);
	readings[5].head_c = readings[9].head_c = NAN;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(finding(&w, "gap")->forbids_usable);
	work_release(&w);
}

/* One figure changed on the clean sample, and what it must raise. */
struct planted {
	const char *code;
	size_t place; /* of a double in struct bc_sample */
	double value;
	bool forbids;
};
#define PLANT(code, field, value, forbids)                                                         \
	{                                                                                          \
		code, offsetof(struct bc_sample, field), value, forbids                            \
	}

static void conditions_that_cannot_be(void **state)
{
	(void)state;
	static const struct planted planted[] = {
		PLANT("balance-impossible", loss_ml, 4.3, true),
		PLANT("balance-impossible", residue_ml, 4.7, true),
		PLANT(NULL, loss_ml, 3.9, false),
		PLANT(NULL, ice_c, 4.7, false),
		PLANT("thermometer-far-off", ice_c, -5.3, true),
		PLANT("thermometer-far-off", ice_c, 31.7, true),
		PLANT("thermometer-far-off", steam_c, 93.7, true),
		PLANT(NULL, steam_c, 94.7, false),
		PLANT("condenser-warm", condenser_c, 61.3, true),
		PLANT(NULL, condenser_c, 58.3, false),
		PLANT(NULL, altitude_m, 171.3, false),
		PLANT("barometer-not-station", altitude_m, 612.0, false),
		PLANT("barometer-not-station", altitude_m, 1213.0, true),
		PLANT("water-boils-unlike-pressure", water_boils_c, 96.7, false),
		PLANT(NULL, water_boils_c, 97.3, false),
	};
	for (size_t i = 0; i < sizeof planted / sizeof *planted; i++) {
		const struct planted *p = &planted[i];
		READINGS(CLEAN);
		struct worked w;
		state_all(&sample);
		memcpy((char *)&sample + p->place, &p->value, sizeof p->value);
		assert_int_equal(work(&sample, &w), BC_OK);
		const struct bc_finding *found = p->code ? finding(&w, p->code) : NULL;
		if (w.findings.n != (p->code != NULL) || (found != NULL) != (p->code != NULL))
			fail_msg("case %zu: %zu findings, first %s", i, w.findings.n,
				w.findings.n > 0 ? w.findings.items[0].code : "none");
		if (found && found->forbids_usable != p->forbids)
			fail_msg("case %zu forbids or not", i);
		work_release(&w);
	}
}

static void check_points_that_oppose_each_other(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	sample.ice_c = 2.3;
	sample.steam_c = 97.1;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(finding(&w, "thermometer-far-off")->forbids_usable);
	work_release(&w);
	sample.steam_c = 102.7;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_int_equal(w.findings.n, 0);
	work_release(&w);
}

static void light_oil_needs_a_cool_condenser_and_a_large_loss_is_light(void **state)
{
	(void)state;
	READINGS(IBP(71), AT(5, 97.5), AT(10, 121), AT(20, 152.3), AT(30, 179), AT(40, 203.7),
		AT(50, 226), AT(60, 247.6), AT(70, 266), AT(80, 283), AT(90, 307.3));
	struct worked w;
	state_all(&sample);
	sample.condenser_c = 26.3;
	sample.loss_ml = 4.3;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(finding(&w, "condenser-warm")->forbids_usable);
	assert_true(finding(&w, "loss-large")->forbids_usable);
	assert_non_null(strstr(finding(&w, "loss-large")->advice, "light end"));
	work_release(&w);
}

/* A share in percent is one of the charge, however the charge is given. */
static void percents_of_the_charge_stay_percents(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	sample.charge_stated = false;
	sample.charge_g = 41.3;
	sample.residue_ml = NAN;
	sample.loss_ml = NAN;
	sample.residue_pct = 2.3;
	sample.loss_pct = 0.7;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_close(w.boiloff.residue_pct, 2.3, 1e-9);
	assert_close(w.boiloff.loss_pct, 0.7, 1e-9);
	assert_close(w.boiloff.charge_ml, 41.3 / 0.8, 1e-9);
	assert_true(says(&w.assumed, "0.80 g/mL"));
	work_release(&w);
	sample.charge_g = NAN;
	sample.residue_pct = NAN;
	sample.residue_ml = 1.7;
	assert_int_equal(work(&sample, &w), BC_OK);
	assert_true(says(&w.assumed, "charge not given in mL: 100.0 mL"));
	assert_close(w.boiloff.residue_pct, 1.7, 1e-9);
	work_release(&w);
}

/* Nobody gave the pressure: the truth can only be hotter, and less over at a temperature. */
static void an_assumed_pressure_widens_the_high_side(void **state)
{
	(void)state;
	READINGS(CLEAN);
	struct worked w;
	state_all(&sample);
	sample.barometer_kpa = NAN;
	assert_int_equal(work(&sample, &w), BC_OK);
	const struct bc_estimate *t50 = &w.points.at[BC_AT_T50];
	assert_close((t50->high - t50->value) - (t50->value - t50->low),
		bc_corrected_high_extra_c(&w.conditions, t50->value), 1e-9);
	assert_true(bc_corrected_high_extra_c(&w.conditions, t50->value) > 3.0);
	struct bc_estimate pct = bc_reader_recovered_pct(&w.reader, 241.0);
	assert_true(pct.value - pct.low > 1.5 * (pct.high - pct.value));
	work_release(&w);
}

/* Four slips among three hundred readings: two are left out, the others are told. */
static void many_readings_are_searched_too(void **state)
{
	(void)state;
	enum { MANY = 300 };
	static struct bc_reading readings[MANY];
	for (size_t i = 0; i < MANY; i++) {
		double pct = 2.0 + 95.0 * (double)i / MANY;
		readings[i] = (struct bc_reading)AT(pct, 150.0 + 1.7 * pct);
	}
	struct bc_sample sample = sample_by_hand(readings, MANY);
	struct worked w;
	state_all(&sample);
	readings[60].head_c += 14.7;
	readings[110].head_c -= 14.7;
	readings[170].head_c += 14.9;
	readings[240].head_c -= 14.9;
	assert_false(bc_failed(work(&sample, &w)));
	assert_non_null(finding(&w, "readings-disordered"));
	size_t jumps = 0;
	for (size_t i = 0; i < w.findings.n; i++)
		jumps += strcmp(w.findings.items[i].code, "jump") == 0;
	assert_int_equal(jumps, 2);
	work_release(&w);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(shelves_at_ordinary_spacing),
		cmocka_unit_test(a_shelf_never_empties_the_curve),
		cmocka_unit_test(stated_water_spares_a_high_ibp),
		cmocka_unit_test(a_slip_is_left_out_and_named),
		cmocka_unit_test(disorder_forbids_a_verdict),
		cmocka_unit_test(an_ibp_above_the_first_reading_is_not_used),
		cmocka_unit_test(gaps_are_said),
		cmocka_unit_test(conditions_that_cannot_be),
		cmocka_unit_test(check_points_that_oppose_each_other),
		cmocka_unit_test(light_oil_needs_a_cool_condenser_and_a_large_loss_is_light),
		cmocka_unit_test(percents_of_the_charge_stay_percents),
		cmocka_unit_test(an_assumed_pressure_widens_the_high_side),
		cmocka_unit_test(many_readings_are_searched_too),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
