/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured beside the boil-off: flash, viscosity, and the laboratory's alarms. */
#include "unit/fuel/oil_of.h"

#include "fuel/measured.h"
#include "fuel/viscosity.h"

#define CURVE                                                                                      \
	"\nrecovered (%),head (C)\nIBP,164\n10,196.3\n30,231.1\n50,259.4\n70,286.2\n90,327.8\n"    \
	"95,341.3\nFBP,352.1\n"
#define GLASS "thermometer,glass d86\nbarometer,101.3 kPa\n"

static void with(struct bench *bench, const char *head)
{
	char text[1024];
	snprintf(text, sizeof(text), "%s%s%s", GLASS, head, CURVE);
	bench_up(bench, text);
}

static const struct bc_estimate *property(const struct bench *bench, enum bc_property which)
{
	return &bench->oil.property[which];
}

static const struct bc_finding *finding_of(const struct bench *bench, const char *code)
{
	for (size_t i = 0; i < bench->findings.n; i++)
		if (strcmp(bench->findings.items[i].code, code) == 0)
			return &bench->findings.items[i];
	return NULL;
}

static void a_measured_closed_cup_rules(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,retort\nflash,61 C\n");
	const struct bc_estimate *flash = property(&bench, BC_FLASH);
	assert_true(bench.oil.flash_claim);
	assert_int_equal(flash->how, BC_MEASURED);
	assert_close(flash->value, 61.0, 1e-12);
	assert_close(flash->value - flash->low, 0.071 * 61.0 / sqrt(2.0), 1e-9);
	assert_int_equal(property(&bench, BC_FLASH_VAPOUR)->how, BC_ESTIMATED);
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,13 C\n");
	assert_close(property(&bench, BC_FLASH)->high, 15.0, 1e-9);
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,71 C open cup\n");
	assert_int_equal(property(&bench, BC_FLASH)->how, BC_ESTIMATED);
	bench_down(&bench);
}

static void water_voids_a_measured_flash(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\nflash,61 C\nwater in receiver,2 mL\n");
	assert_true(bench.boiloff.wet);
	assert_true(bc_findings_has(&bench.findings, "flash-void-wet"));
	assert_int_equal(property(&bench, BC_FLASH)->how, BC_ESTIMATED);
	bench_down(&bench);
}

static void water_of_any_kind_makes_it_wet(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\nflash,61 C\nwater,1300 mg/kg\n");
	assert_true(bench.oil.wet);
	assert_int_equal(property(&bench, BC_FLASH)->how, BC_ESTIMATED);
	assert_true(bench.oil.flash_claim); /* the IBP is too high for water */
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,61 C\nwater,700 mg/kg\n");
	assert_false(bench.oil.wet);
	assert_int_equal(property(&bench, BC_FLASH)->how, BC_MEASURED);
	bc_findings_add(&bench.findings, "water-shelf", BC_FINDING_WARNING, 3.7, "", "");
	assert_true(bc_oil_is_wet(bench.sample, &bench.boiloff, &bench.findings));
	bench_down(&bench);
}

/* ---- flash against the boil-off: the vapour space says 62 to 89 degC */

static void flash_finding(const char *head, const char *code)
{
	static const char *const codes[] = {
		"flash-measured-high", "flash-measured-low", "flash-open-cup-lower"};
	struct bench bench;
	with(&bench, head);
	for (size_t i = 0; i < 3; i++) {
		bool expected = code && strcmp(code, codes[i]) == 0;
		if ((finding_of(&bench, codes[i]) != NULL) != expected)
			fail_msg("'%s' with %s (vapour %g to %g)", codes[i], head,
				property(&bench, BC_FLASH_VAPOUR)->low,
				property(&bench, BC_FLASH_VAPOUR)->high);
	}
	bench_down(&bench);
}

static void a_flash_that_the_curve_excludes_is_told(void **state)
{
	(void)state;
	flash_finding("history,rerun\nflash,61 C\n", NULL);
	flash_finding("history,rerun\nflash,37 C\n", "flash-measured-low");
	flash_finding("history,rerun\nflash,127 C\n", "flash-measured-high");
	flash_finding("history,rerun\nflash,127 C open cup\n", NULL);
	struct bench bench;
	with(&bench, "history,rerun\nflash,127 C\n");
	assert_true(finding_of(&bench, "flash-measured-high")->forbids_usable);
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,37 C\n");
	assert_int_equal(finding_of(&bench, "flash-measured-low")->weight, BC_FINDING_DANGER);
	assert_close(property(&bench, BC_FLASH)->value, 37.0, 1e-12);
	bench_down(&bench);
}

static void an_open_cup_below_the_estimate_caps_it(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\n");
	struct bc_estimate free_flash = *property(&bench, BC_FLASH);
	bench_down(&bench);
	flash_finding("history,rerun\nflash,47 C open cup\n", "flash-open-cup-lower");
	with(&bench, "history,rerun\nflash,47 C open cup\n");
	const struct bc_estimate *flash = property(&bench, BC_FLASH);
	assert_close(flash->value, free_flash.value, 1e-9);
	assert_true(flash->low <= flash->value && flash->value <= flash->high);
	assert_true(flash->low <= 47.0 && flash->low <= free_flash.low);
	assert_int_equal(finding_of(&bench, "flash-open-cup-lower")->weight, BC_FINDING_DANGER);
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,31 C open cup\n");
	assert_close(property(&bench, BC_FLASH)->low, 31.0, 1e-12);
	bench_down(&bench);
	/* no claim stays none */
	with(&bench, "history,retort\nflash,31 C open cup\n");
	assert_nan(property(&bench, BC_FLASH)->low);
	bench_down(&bench);
}

/* A cup below the estimate lowers what is cut from the oil as well; one above it raises nothing. */
static void cups_reach_the_cuts_of_an_oil(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\n");
	double vapour_c = property(&bench, BC_FLASH_VAPOUR)->value;
	double own_c = vapour_c - property(&bench, BC_FLASH_VAPOUR)->low;
	assert_nan(bench.oil.flash_cup_low_c);
	assert_close(bc_parent_of(&bench.oil, NULL).flash_half_width_c, own_c, 1e-9);
	bench_down(&bench);
	with(&bench, "history,retort\nflash,31 C open cup\n");
	assert_true(bench.oil.flash_open_disputed);
	assert_close(bc_parent_of(&bench.oil, NULL).flash_half_width_c, vapour_c - 31.0, 1e-9);
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,46.3 C\n");
	assert_false(bench.oil.flash_open_disputed);
	assert_close(bc_parent_of(&bench.oil, NULL).flash_half_width_c,
		vapour_c - 46.3 + 0.071 * 46.3 / sqrt(2.0), 1e-9);
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,73.1 C open cup\n");
	assert_false(bench.oil.flash_open_disputed);
	assert_close(bc_parent_of(&bench.oil, NULL).flash_half_width_c, own_c, 1e-9);
	bench_down(&bench);
	with(&bench, "history,rerun\nflash,79 C\n");
	assert_close(bc_parent_of(&bench.oil, NULL).flash_half_width_c, own_c, 1e-9);
	bench_down(&bench);
}

/* ---- viscosity */

static void a_measured_viscosity_moves_both(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\n");
	double at20 = property(&bench, BC_VISC20)->value;
	double at40 = property(&bench, BC_VISC40)->value;
	bench_down(&bench);
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\nviscosity,2.93 mm2/s @ 40 C\n");
	assert_int_equal(property(&bench, BC_VISC40)->how, BC_MEASURED);
	assert_close(property(&bench, BC_VISC40)->value, 2.93, 1e-12);
	assert_close(log(property(&bench, BC_VISC20)->value / at20), log(2.93 / at40), 1e-3);
	assert_int_equal(property(&bench, BC_VISC20)->how, BC_ESTIMATED);
	bench_down(&bench);
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\nviscosity,4.71 mm2/s @ 20 C\n");
	assert_int_equal(property(&bench, BC_VISC20)->how, BC_MEASURED);
	assert_close(log(property(&bench, BC_VISC40)->value / at40), log(4.71 / at20), 1e-3);
	bench_down(&bench);
	with(&bench, "history,rerun\ndensity,827.3 kg/m3\nviscosity,2.17 mm2/s @ 50 C\n");
	double at50;
	bc_visc_d341_mm2s(20.0, at20, 40.0, at40, 50.0, &at50);
	assert_close(log(property(&bench, BC_VISC20)->value / at20), log(2.17 / at50), 1e-3);
	assert_close(log(property(&bench, BC_VISC40)->value / at40), log(2.17 / at50), 1e-3);
	assert_int_equal(property(&bench, BC_VISC40)->how, BC_ESTIMATED);
	assert_true(property(&bench, BC_VISC40)->high < 1.12 * property(&bench, BC_VISC40)->value);
	assert_null(finding_of(&bench, "viscosity-unused"));
	bench_down(&bench);
}

static void a_viscosity_without_estimates_is_said_to_be_unused(void **state)
{
	(void)state;
	struct bench bench;
	with(&bench, "viscosity,2.17 mm2/s @ 50 C\n");
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		bench.oil.property[i] = bc_estimate_absent();
	bc_take_measured_viscosity(bench.sample, &bench.oil, &bench.findings);
	assert_non_null(finding_of(&bench, "viscosity-unused"));
	bench_down(&bench);
}

/* ---- alarms */

static void the_laboratory_raises_alarms(void **state)
{
	(void)state;
	static const struct {
		const char *quiet, *loud, *code;
		bool usable, rerun;
	} rows[] = {
		{"chlorine,47 mg/kg", "chlorine,53 mg/kg", "measured-chlorine", true, true},
		{"water,930 mg/kg", "water,1070 mg/kg", "measured-water", true, false},
		{"acid number,0.47", "acid number,0.53", "measured-acid-number", true, false},
		{"copper strip,1b", "copper strip,2a", "measured-copper-strip", true, false},
		{"benzene,0.097 %", "benzene,0.1 %", "measured-benzene", true, false},
		{"sulphur,930 mg/kg", "sulphur,1070 mg/kg", "measured-sulphur", true, true},
		{"nitrogen,470 mg/kg", "nitrogen,530 mg/kg", "measured-nitrogen", true, false},
		{"ash,93 mg/kg", "ash,107 mg/kg", "measured-ash", true, true},
		{"cloud point,4.7 C", "cloud point,5.3 C", "measured-cloud-point", false, false},
		{"pour point,4.7 C", "pour point,5.3 C", "measured-pour-point", true, false},
		{"cetane number,35.3", "cetane number,34.7", "measured-cetane-number", false,
			false},
	};
	for (size_t i = 0; i < sizeof(rows) / sizeof(rows[0]); i++) {
		struct bench bench;
		char head[80];
		snprintf(head, sizeof(head), "history,rerun\n%s\n", rows[i].quiet);
		with(&bench, head);
		if (finding_of(&bench, rows[i].code))
			fail_msg("%s with %s", rows[i].code, rows[i].quiet);
		bench_down(&bench);
		snprintf(head, sizeof(head), "history,rerun\n%s\n", rows[i].loud);
		with(&bench, head);
		const struct bc_finding *finding = finding_of(&bench, rows[i].code);
		if (!finding || finding->forbids_usable != rows[i].usable ||
			finding->forbids_rerun != rows[i].rerun)
			fail_msg("%s with %s", rows[i].code, rows[i].loud);
		assert_true(strlen(finding->message) > 20 && strlen(finding->advice) > 10);
		bench_down(&bench);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_measured_closed_cup_rules),
		cmocka_unit_test(water_voids_a_measured_flash),
		cmocka_unit_test(water_of_any_kind_makes_it_wet),
		cmocka_unit_test(a_flash_that_the_curve_excludes_is_told),
		cmocka_unit_test(an_open_cup_below_the_estimate_caps_it),
		cmocka_unit_test(cups_reach_the_cuts_of_an_oil),
		cmocka_unit_test(a_measured_viscosity_moves_both),
		cmocka_unit_test(a_viscosity_without_estimates_is_said_to_be_unused),
		cmocka_unit_test(the_laboratory_raises_alarms),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
