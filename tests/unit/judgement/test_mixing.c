/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Oils poured together: what the parts bring, what is not claimed, and how much may go in. */
#include <string.h>

#include "base/fault.h"
#include "base/memory.h"
#include "fuel/flash_forms.h"
#include "judgement/mixing.h"
#include "unit/unit.h"

#define SITE                                                                                       \
	"barometer,101.3 kPa\nthermometer,glass d86\nresidue,1.2 mL\nloss,0.4 mL\n"                \
	"feed,gas oil\n"
#define KNOWN "history,rerun\n" SITE
#define DIESEL                                                                                     \
	"density,841.3 kg/m3\n\nrecovered (%),head (C)\nIBP,171\n5,198\n10,213.4\n20,231\n"        \
	"30,246\n40,258\n50,269.3\n60,281\n70,294\n80,310\n90,331.7\n95,347\nFBP,359\n"
#define KEROSENE                                                                                   \
	"density,796.1 kg/m3\n\nrecovered (%),head (C)\nIBP,177\n5,184\n10,189.7\n20,194\n"        \
	"30,197\n40,201\n50,204.9\n60,208\n70,212\n80,220\n90,233.3\n95,247\nFBP,263\n"
#define PETROL                                                                                     \
	"density,741.7 kg/m3\n\nrecovered (%),head (C)\nIBP,39\n5,52\n10,59.3\n20,68\n30,76\n"     \
	"40,84\n50,92.9\n60,101\n70,112\n80,125\n90,144.2\n95,164\nFBP,184\n"

enum { PARTS = 3 };
static struct bc_limits *limits;
static struct bc_sample *sample[PARTS];
static struct bc_judgement *oil[PARTS];
static struct bc_mixing *mixing;
static struct bc_judge_options options;

static void read_part(size_t i, const char *name, const char *text)
{
	bc_judgement_release(oil[i]);
	bc_sample_free(sample[i]);
	sample[i] = NULL;
	assert_int_equal(bc_sample_read(text, strlen(text), name, NULL, &sample[i]), BC_OK);
	assert_int_equal(bc_judge(sample[i], &options, oil[i]), BC_OK);
}

static int set_up(void **state)
{
	(void)state;
	options = (struct bc_judge_options){.limits = limits, .want = BC_GRADES};
	bc_mixing_release(mixing);
	read_part(0, "shed/diesel.csv", KNOWN DIESEL);
	read_part(1, "lamp.csv", KNOWN KEROSENE);
	read_part(2, "light.csv", KNOWN PETROL);
	return 0;
}

static void pour(size_t i, enum bc_mix_unit unit, double amount)
{
	assert_true(bc_mixing_add(mixing, oil[i], unit, amount));
}

static enum bc_status mix(void) { return bc_mix(mixing, &options); }

static bool says(const struct bc_strings *list, const char *what)
{
	for (size_t i = 0; i < list->n; i++)
		if (strstr(list->items[i], what))
			return true;
	return false;
}

static const struct bc_estimate *flash(void) { return &mixing->mix.oil.property[BC_FLASH]; }

/* ---- what is added up */

static void amounts_add_up(void **state)
{
	double volume_l = 0.0;
	double mass_kg = 0.0;
	double share = 0.0;
	double vapour = 0.0;
	(void)state;
	pour(0, BC_MIX_LITRES, 17.3);
	pour(1, BC_MIX_KILOGRAM, 3.19);
	pour(2, BC_MIX_LITRES, 0.271);
	assert_int_equal(mix(), BC_OK);
	for (size_t i = 0; i < mixing->n; i++) {
		const struct bc_mix_part *part = &mixing->parts[i];
		volume_l += part->volume_l;
		mass_kg += part->mass_kg;
		share += part->volume_pct;
		vapour += part->vapour_pct;
		assert_close(part->mass_kg,
			part->volume_l * part->oil->oil.property[BC_DENSITY15].value / 1000.0,
			1e-12);
	}
	assert_close(mixing->parts[1].mass_kg, 3.19, 1e-12);
	assert_close(mixing->volume_l, volume_l, 1e-9);
	assert_close(mixing->mass_kg, mass_kg, 1e-9);
	assert_close(share, 100.0, 1e-9);
	assert_close(vapour, 100.0, 1e-9);
	assert_close(
		mixing->mix.oil.property[BC_DENSITY15].value, 1000.0 * mass_kg / volume_l, 1e-9);
	/* a hundredth of petrol brings most of the vapour */
	assert_true(mixing->parts[2].vapour_pct > 40.0);
}

static void an_oil_with_itself_is_that_oil(void **state)
{
	static const enum bc_property same[] = {BC_DENSITY15, BC_FLASH, BC_FLASH_T10,
		BC_FLASH_VAPOUR, BC_CETANE_INDEX, BC_MOLAR_MASS, BC_VAPOUR_PRESSURE_37_8};
	(void)state;
	pour(0, BC_MIX_PERCENT, 31.7);
	pour(0, BC_MIX_PERCENT, 68.3);
	assert_int_equal(mix(), BC_OK);
	for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
		const struct bc_estimate *got = &mixing->mix.oil.property[same[i]];
		const struct bc_estimate *want = &oil[0]->oil.property[same[i]];
		assert_close(got->value, want->value, 1e-4 * fabs(want->value));
	}
	assert_close(mixing->mix.oil.property[BC_VISC40].value,
		oil[0]->oil.property[BC_VISC40].value, 1e-3);
	for (size_t i = BC_AT_T10; i <= BC_AT_FBP; i += 4) /* 10, 50, 90 % */
		assert_close(mixing->mix.points.at[i].value, oil[0]->points.at[i].value, 0.1);
	assert_close(mixing->mix.points.at[BC_AT_FBP].value, oil[0]->boiloff.fbp_c, 1e-6);
	assert_close(mixing->flash_index_c, flash()->value, 1e-6);
	assert_true(isnan(mixing->volume_l));
}

/* No bound of a mixture is better than those of its parts, each by its vapour. */
static void the_low_bound_carries_the_parts(void **state)
{
	double between;
	(void)state;
	pour(0, BC_MIX_LITRES, 11.0);
	pour(1, BC_MIX_LITRES, 9.0);
	assert_int_equal(mix(), BC_OK);
	between = flash()->value;
	assert_true(flash()->low <= flash()->value - 10.0);
	for (size_t i = 0; i < 2; i++) {
		const struct bc_estimate *own = &oil[i]->oil.property[BC_FLASH];
		assert_true(flash()->value - flash()->low >= 10.0 - 1e-9);
		assert_true(own->value - own->low >= 10.0 - 1e-9);
	}
	double low =
		fmin(oil[0]->oil.property[BC_FLASH].value, oil[1]->oil.property[BC_FLASH].value);
	double high =
		fmax(oil[0]->oil.property[BC_FLASH].value, oil[1]->oil.property[BC_FLASH].value);
	assert_true(between >= low - 0.2 && between <= high + 0.2);
}

/* A measured closed cup holds for the part alone, and its doubt grows away from it. */
static void a_measured_flash_is_kept(void **state)
{
	(void)state;
	read_part(0, "diesel.csv", "flash,71.3 C\n" KNOWN DIESEL);
	read_part(1, "lamp.csv", "flash,44.7 C\n" KNOWN KEROSENE);
	pour(0, BC_MIX_LITRES, 7.0);
	assert_int_equal(mix(), BC_OK);
	assert_close(flash()->value, 71.3, 1e-5);
	assert_close(flash()->low, oil[0]->oil.property[BC_FLASH].low, 1e-5);
	assert_close(flash()->high, oil[0]->oil.property[BC_FLASH].high, 1e-5);
	bc_mixing_release(mixing);
	pour(0, BC_MIX_LITRES, 7.0);
	pour(1, BC_MIX_LITRES, 7.0);
	assert_int_equal(mix(), BC_OK);
	double index_c;
	bc_flash_blend_wickey_c(0.5, 71.3, 44.7, &index_c);
	assert_close(mixing->flash_index_c, index_c, 1e-6);
	assert_close(flash()->value, index_c, 3.0);
	assert_true(flash()->low > oil[1]->oil.property[BC_FLASH].low - 3.0);
	/* beyond the bounds of the parts: the offset drifts */
	assert_true(flash()->value - flash()->low > 3.0);
	assert_true(flash()->value - flash()->low < 8.0);
}

/* ---- what is not claimed */

static void gas_in_one_is_gas_in_all(void **state)
{
	static const char *const histories[] = {"history,retort\n" SITE KEROSENE, SITE KEROSENE};
	(void)state;
	for (size_t i = 0; i < 2; i++) {
		bc_mixing_release(mixing);
		read_part(1, "lamp.csv", histories[i]);
		pour(0, BC_MIX_LITRES, 1000.0);
		pour(1, BC_MIX_LITRES, 0.001);
		assert_int_equal(mix(), BC_OK);
		assert_true(isnan(flash()->low));
		assert_false(mixing->mix.oil.flash_claim);
		assert_true(mixing->mix.hazards.petrol_like);
		assert_non_null(strstr(mixing->mix.oil.no_claim_why, "'lamp.csv'"));
		assert_true(says(&mixing->mix.cautions, "gas in one jar is gas in the whole can"));
		assert_int_not_equal(mixing->mix.verdict.word, BC_WORD_USABLE);
	}
	assert_true(says(&mixing->mix.assumed, "history of 'lamp.csv' not given"));
}

static void water_and_danger_stay(void **state)
{
	(void)state;
	read_part(1, "lamp.csv", "water,4000 mg/kg\nflash,61 C\n" KNOWN KEROSENE);
	pour(0, BC_MIX_LITRES, 19.0);
	pour(1, BC_MIX_LITRES, 1.0);
	pour(2, BC_MIX_LITRES, 0.05);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->mix.oil.wet);
	assert_int_equal(mixing->mix.verdict.word, BC_WORD_UNDECIDED);
	bool told = false;
	for (size_t i = 0; i < mixing->mix.findings.n; i++) {
		const struct bc_finding *finding = &mixing->mix.findings.items[i];
		told = told || (strcmp(finding->code, "light-ends") == 0 &&
				       finding->weight == BC_FINDING_DANGER &&
				       strstr(finding->message, "Of 'light.csv' in it"));
	}
	assert_true(told);
	assert_true(says(&mixing->mix.cautions, "A little of a light oil rules the flash"));
}

static size_t count(const char *code)
{
	size_t n = 0;
	for (size_t i = 0; i < mixing->mix.findings.n; i++)
		n += strcmp(mixing->mix.findings.items[i].code, code) == 0;
	return n;
}

static void what_one_oil_shows_is_told_once(void **state)
{
	(void)state;
	bc_findings_add(&oil[2]->findings, "cracking", BC_FINDING_WARNING, 93.1, "It cracked.", "");
	pour(2, BC_MIX_LITRES, 3.1);
	assert_int_equal(mix(), BC_OK);
	assert_int_equal(count("light-ends"), 1);
	assert_int_equal(count("cracking"), 1);
	/* the mixture's own word joins that of its part */
	bc_mixing_release(mixing);
	pour(0, BC_MIX_LITRES, 1.3);
	pour(2, BC_MIX_LITRES, 3.1);
	assert_int_equal(mix(), BC_OK);
	assert_int_equal(count("light-ends"), 2);
}

static void the_still_of_a_rerun_is_assumed(void **state)
{
	static const struct bc_still own = {
		.column = {3.0, 2.0, NAN, NAN}, .carry_pct = 1.0, .carry_half_width_pct = NAN};
	(void)state;
	options.standard = "ASTM D396 No. 2";
	pour(0, BC_MIX_LITRES, 9.7);
	pour(2, BC_MIX_LITRES, 1.3);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->mix.has_rerun);
	assert_true(says(&mixing->mix.assumed, "still not given"));
	bc_mixing_release(mixing);
	options.still = &own;
	pour(0, BC_MIX_LITRES, 9.7);
	pour(2, BC_MIX_LITRES, 1.3);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->mix.has_rerun);
	assert_false(says(&mixing->mix.assumed, "still not given"));
}

/* Nothing that a cup shows of an oil is forgotten when it is poured, whatever it is cut into. */
static void a_cup_of_a_part_reaches_the_cuts(void **state)
{
	(void)state;
	pour(1, BC_MIX_LITRES, 5.3);
	assert_int_equal(mix(), BC_OK);
	double plain_c = bc_parent_of(&mixing->mix.oil, NULL).flash_half_width_c;
	assert_false(mixing->mix.oil.flash_open_disputed);
	bc_mixing_release(mixing);
	read_part(1, "lamp.csv", "flash,11 C open cup\n" KNOWN KEROSENE);
	pour(1, BC_MIX_LITRES, 5.3);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->mix.oil.flash_open_disputed);
	assert_false(mixing->mix.has_rerun);
	assert_true(bc_parent_of(&mixing->mix.oil, NULL).flash_half_width_c > plain_c + 20.0);
	/* nor where nothing is claimed of the part, of which there is little */
	bc_mixing_release(mixing);
	read_part(1, "lamp.csv", "flash,11 C open cup\nhistory,retort\n" SITE KEROSENE);
	pour(0, BC_MIX_LITRES, 1.3);
	pour(1, BC_MIX_LITRES, 5.3);
	assert_int_equal(mix(), BC_OK);
	assert_true(bc_parent_of(&mixing->mix.oil, NULL).flash_half_width_c > plain_c + 10.0);
}

static void poisons_add_up_where_all_were_measured(void **state)
{
	(void)state;
	read_part(0, "diesel.csv", "sulphur,7.3 mg/kg\nchlorine,2 mg/kg\n" KNOWN DIESEL);
	read_part(1, "lamp.csv", "sulphur,371 mg/kg\n" KNOWN KEROSENE);
	pour(0, BC_MIX_KILOGRAM, 3.0);
	pour(1, BC_MIX_KILOGRAM, 1.0);
	assert_int_equal(mix(), BC_OK);
	const struct bc_measured *sulphur = bc_sample_measured(mixing->mix.sample, "sulphur");
	assert_non_null(sulphur);
	assert_close(sulphur->value, 0.75 * 7.3 + 0.25 * 371.0, 1e-9);
	assert_null(bc_sample_measured(mixing->mix.sample, "chlorine"));
	assert_true(says(&mixing->mix.assumed, "measured in some parts only: chlorine"));
}

/* ---- measured in some parts only */

#define HEATING "flash,71.3 C\nviscosity,2.9 mm2/s @ 40 C\n"

static const struct bc_criterion *criterion_of(const char *standard, const char *property)
{
	const struct bc_grades *grades = &mixing->mix.grades;
	for (size_t i = 0; i < grades->n; i++)
		for (size_t k = 0; k < grades->items[i].n_criteria; k++)
			if (strcmp(grades->items[i].standard, standard) == 0 &&
				strcmp(grades->items[i].criteria[k].limit->property, property) == 0)
				return &grades->items[i].criteria[k];
	return NULL;
}

static void what_adds_up_is_at_least_that_of_one_part(void **state)
{
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	read_part(0, "diesel.csv", "carbon residue,5 %\n" HEATING KNOWN DIESEL);
	read_part(1, "clean.csv", HEATING KNOWN DIESEL);
	pour(0, BC_MIX_LITRES, 19.0);
	pour(1, BC_MIX_LITRES, 1.0);
	assert_int_equal(mix(), BC_OK);
	const struct bc_criterion *residue = criterion_of("ASTM D396 No. 2", "carbon_residue");
	assert_non_null(residue);
	assert_int_equal(residue->state, BC_STATE_OUTSIDE);
	assert_close(residue->value.value, 4.75, 1e-9);
	assert_int_equal(mixing->mix.verdict.word, BC_WORD_UNFIT);
	assert_true(says(&mixing->mix.assumed, "measured in some parts only: carbon residue"));
	bc_mixing_release(mixing);
	/* 0.25 % at least keeps 0.35 %: then it is not known */
	pour(0, BC_MIX_LITRES, 1.0);
	pour(1, BC_MIX_LITRES, 19.0);
	assert_int_equal(mix(), BC_OK);
	assert_null(criterion_of("ASTM D396 No. 2", "carbon_residue"));
	bc_mixing_release(mixing);
	pour(0, BC_MIX_ASKED, 0.0);
	pour(1, BC_MIX_LITRES, 200.0);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->share.share_pct > 6.9 && mixing->share.share_pct <= 7.0);
	assert_string_equal(mixing->share.limit->property, "carbon_residue");
}

static void water_is_part_of_water_and_sediment(void **state)
{
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	read_part(0, "diesel.csv", "water,900 mg/kg\n" HEATING KNOWN DIESEL);
	read_part(1, "clean.csv", HEATING KNOWN DIESEL);
	pour(0, BC_MIX_LITRES, 19.0);
	pour(1, BC_MIX_LITRES, 1.0);
	assert_int_equal(mix(), BC_OK);
	const struct bc_criterion *water = criterion_of("ASTM D396 No. 2", "water_and_sediment");
	assert_non_null(water);
	assert_int_equal(water->state, BC_STATE_OUTSIDE);
	assert_close(water->value.value, 0.95 * 900.0 * 841.3 / 1e7, 1e-6);
}

static void what_does_not_add_up_leaves_doubt(void **state)
{
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	options.standard = "ASTM D396 No. 2";
	read_part(0, "diesel.csv", "pour point,3 C\n" HEATING KNOWN DIESEL);
	read_part(1, "clean.csv", "pour point,-31 C\n" HEATING KNOWN DIESEL);
	pour(0, BC_MIX_LITRES, 1.0);
	pour(1, BC_MIX_LITRES, 19.0);
	assert_int_equal(mix(), BC_OK);
	const struct bc_criterion *pour_point = criterion_of("ASTM D396 No. 2", "pour_point");
	assert_non_null(pour_point);
	assert_int_equal(pour_point->state, BC_STATE_DOUBTFUL);
	assert_close(pour_point->value.value, 3.0, 1e-9);
	assert_int_equal(mixing->mix.verdict.word, BC_WORD_UNDECIDED);
	assert_true(says(&mixing->mix.assumed, "does not add up: pour point"));
	assert_true(says(&mixing->mix.verdict.because, "a part with 3.0 degC is outside"));
	bc_mixing_release(mixing);
	pour(0, BC_MIX_ASKED, 0.0);
	pour(1, BC_MIX_LITRES, 19.0);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->share.base_meets);
	assert_close(mixing->share.share_pct, 0.0, 0.0);
	assert_string_equal(mixing->share.limit->property, "pour_point");
	bc_mixing_release(mixing);
	read_part(0, "diesel.csv", "pour point,-9 C\n" HEATING KNOWN DIESEL);
	pour(0, BC_MIX_ASKED, 0.0);
	pour(1, BC_MIX_LITRES, 19.0);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->share.unlimited);
	assert_int_equal(mixing->mix.verdict.word, BC_WORD_USABLE);
}

static void one_part_keeps_what_was_measured(void **state)
{
	(void)state;
	read_part(0, "diesel.csv", "copper strip,1b\ncloud point,-3 C\n" HEATING KNOWN DIESEL);
	pour(0, BC_MIX_LITRES, 7.0);
	assert_int_equal(mix(), BC_OK);
	const struct bc_measured *copper = bc_sample_measured(mixing->mix.sample, "copper_strip");
	assert_non_null(copper);
	assert_int_equal(copper->rating, 'b');
	assert_non_null(bc_sample_measured(mixing->mix.sample, "cloud_point"));
	assert_int_equal(flash()->how, BC_MEASURED);
	assert_int_equal(mixing->mix.oil.property[BC_DENSITY15].how, BC_MEASURED);
	assert_int_equal(mixing->mix.oil.property[BC_VISC40].how, BC_MEASURED);
	bc_mixing_release(mixing);
	pour(0, BC_MIX_LITRES, 7.0);
	pour(1, BC_MIX_LITRES, 0.1);
	assert_int_equal(mix(), BC_OK);
	assert_int_equal(flash()->how, BC_ESTIMATED);
}

static void an_unread_end_is_not_valid(void **state)
{
	(void)state;
	read_part(1, "tail.csv",
		KNOWN "density,833 kg/m3\n\nrecovered (%),head (C)\nIBP,262\n5,279\n10,290\n"
		      "20,306\n30,317\n40,326\n50,334\n60,341\n70,350\n");
	pour(0, BC_MIX_LITRES, 1.0);
	pour(1, BC_MIX_LITRES, 4.0);
	assert_int_equal(mix(), BC_OK);
	assert_int_equal(mixing->mix.points.at[BC_AT_T95].how, BC_NOT_VALID);
	assert_int_equal(mixing->mix.points.at[BC_AT_FBP].how, BC_NOT_VALID);
	assert_int_equal(mixing->mix.points.at[BC_AT_T10].how, BC_ESTIMATED);
}

/* ---- what keeps a share back though its limits are kept */

#define FEW                                                                                        \
	"density,841.3 kg/m3\n\nrecovered (%),head (C)\nIBP,171\n10,213.4\n50,269.3\n"             \
	"90,331.7\nFBP,359\n"
#define DENSE                                                                                      \
	"density,871.3 kg/m3\n\nrecovered (%),head (C)\nIBP,171\n5,198\n10,213.4\n20,231\n"        \
	"30,246\n40,258\n50,269.3\n60,281\n70,294\n80,310\n90,331.7\n95,347\nFBP,359\n"
#define SPIRIT                                                                                     \
	"density,775.3 kg/m3\n\nrecovered (%),head (C)\nIBP,137\n5,145\n10,149\n20,163\n"          \
	"30,166\n40,168\n50,170.9\n60,173\n70,176\n80,180\n90,187.3\n95,193\nFBP,198\n"

static void none_where_usable_is_forbidden(void **state)
{
	static const struct {
		const char *text;
		const char *why;
	} parts[] = {{KNOWN FEW, "'odd.csv' has three or four readings"},
		{"apparatus,tbp\n" KNOWN DIESEL, "'odd.csv' was not boiled off in a plain"},
		{"apparatus,column 5 2\n" KNOWN DIESEL, "'odd.csv' was not boiled off in a plain"}};
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	read_part(0, "diesel.csv", HEATING KNOWN DIESEL);
	for (size_t i = 0; i < 2 * sizeof parts / sizeof parts[0]; i++) {
		bool rest = i % 2 == 1;
		bc_mixing_release(mixing);
		read_part(1, "odd.csv", parts[i / 2].text);
		pour(rest ? 0 : 1, BC_MIX_ASKED, 0.0);
		pour(rest ? 1 : 0, BC_MIX_LITRES, 200.0);
		assert_int_equal(mix(), BC_OK);
		assert_close(mixing->share.share_pct, 0.0, 0.0);
		assert_false(mixing->share.unlimited);
		assert_non_null(mixing->share.why);
		assert_non_null(strstr(mixing->share.why, parts[i / 2].why));
		assert_int_equal(mixing->share.base_meets, !rest);
	}
}

/* A solvent may flash at 21 degC by its limit, and lights at room temperature below 23. */
static void none_where_the_mixture_is_petrol_like(void **state)
{
	(void)state;
	options.want = BC_GRADE_WHITE_SPIRIT;
	options.standard = "White spirit, low flash";
	read_part(0, "spirit.csv", "flash,33.3 C\n" KNOWN SPIRIT);
	pour(2, BC_MIX_ASKED, 0.0);
	pour(0, BC_MIX_LITRES, 200.0);
	assert_int_equal(mix(), BC_OK);
	assert_close(mixing->share.share_pct, 0.0, 0.0);
	assert_non_null(strstr(mixing->share.why, "may light at room temperature"));
	assert_close(mixing->parts[0].volume_pct, 0.0, 0.0);
	assert_close(mixing->volume_l, 200.0, 1e-9);
	assert_false(mixing->mix.hazards.petrol_like);
	assert_true(flash()->low > 23.0);
}

static bool found(const char *code) { return bc_findings_has(&mixing->mix.findings, code); }

static void a_density_in_dispute_stays(void **state)
{
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	read_part(0, "diesel.csv", HEATING KNOWN DIESEL);
	read_part(1, "odd.csv", KNOWN "feed,PE and PP\n" DENSE);
	assert_true(bc_findings_has(&oil[1]->findings, "density-unlike-feed"));
	pour(0, BC_MIX_LITRES, 9.0);
	pour(1, BC_MIX_LITRES, 1.0);
	assert_int_equal(mix(), BC_OK);
	assert_true(found("density-unlike-feed"));
}

/* ---- how much may go in */

/* Just what is said keeps the limit by its low bound; a little more does not. */
static void the_share_is_the_largest(void **state)
{
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	read_part(0, "diesel.csv", "flash,71.3 C\nviscosity,2.9 mm2/s @ 40 C\n" KNOWN DIESEL);
	pour(2, BC_MIX_ASKED, 0.0);
	pour(0, BC_MIX_LITRES, 200.0);
	assert_int_equal(mix(), BC_OK);
	const struct bc_mix_share *share = &mixing->share;
	assert_true(share->base_meets && !share->unlimited);
	assert_non_null(share->limit);
	assert_string_equal(share->limit->property, "flash_point");
	assert_true(share->share_pct > 0.1 && share->share_pct < 5.0);
	assert_close(share->volume_l, 200.0 * share->share_pct / (100.0 - share->share_pct), 1e-9);
	assert_true(flash()->low >= share->limit->min);
	/* one mixture is told of */
	assert_close(share->value.value, flash()->value, 0.0);
	assert_close(share->value.low, flash()->low, 0.0);
	double most_l = share->volume_l;
	double least_c = share->limit->min;
	bc_mixing_release(mixing);
	pour(2, BC_MIX_LITRES, 1.03 * most_l);
	pour(0, BC_MIX_LITRES, 200.0);
	assert_int_equal(mix(), BC_OK);
	assert_true(flash()->low < least_c);
	assert_close(mixing->nodes[0].share_pct, 0.0, 0.0);
	for (size_t i = 1; i < mixing->n_nodes; i++)
		assert_true(mixing->nodes[i].flash_c <= mixing->nodes[i - 1].flash_c + 1e-6);
}

static void none_and_any(void **state)
{
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	read_part(0, "diesel.csv", "flash,71.3 C\nviscosity,2.9 mm2/s @ 40 C\n" KNOWN DIESEL);
	pour(0, BC_MIX_ASKED, 0.0);
	pour(0, BC_MIX_LITRES, 3.0);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->share.unlimited);
	assert_close(mixing->parts[0].volume_pct, 50.0, 1e-9);
	bc_mixing_release(mixing);
	/* the rest fails */
	pour(0, BC_MIX_ASKED, 0.0);
	pour(2, BC_MIX_LITRES, 3.0);
	assert_int_equal(mix(), BC_OK);
	assert_false(mixing->share.base_meets);
	assert_close(mixing->share.share_pct, 0.0, 0.0);
	assert_non_null(mixing->share.limit);
	bc_mixing_release(mixing);
	/* nothing is claimed of what would go in */
	read_part(1, "lamp.csv", "history,retort\n" SITE KEROSENE);
	pour(1, BC_MIX_ASKED, 0.0);
	pour(0, BC_MIX_PERCENT, 100.0);
	assert_int_equal(mix(), BC_OK);
	assert_true(mixing->share.base_meets);
	assert_close(mixing->share.share_pct, 0.0, 0.0);
	assert_non_null(strstr(mixing->share.why, "nothing is claimed of the flash of 'lamp.csv'"));
	assert_true(mixing->mix.oil.flash_claim); /* it is not in it */
	bc_mixing_release(mixing);
	options.want = BC_GRADE_GASOLINE;
	pour(2, BC_MIX_ASKED, 0.0);
	pour(2, BC_MIX_LITRES, 1.0);
	assert_int_equal(mix(), BC_OK);
	assert_close(mixing->share.share_pct, 0.0, 0.0);
	assert_non_null(strstr(mixing->share.why, "never called usable"));
}

static void what_cannot_be_poured(void **state)
{
	static const double wrong[] = {0.0, -1.0, NAN, INFINITY};
	(void)state;
	assert_int_equal(mix(), BC_BAD_DOMAIN);
	for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
		bc_mixing_release(mixing);
		pour(0, BC_MIX_LITRES, wrong[i]);
		assert_int_equal(mix(), BC_BAD_DOMAIN);
	}
	bc_mixing_release(mixing);
	pour(0, BC_MIX_PERCENT, 50.0);
	pour(1, BC_MIX_LITRES, 3.0);
	assert_int_equal(mix(), BC_BAD_DOMAIN);
	bc_mixing_release(mixing);
	pour(0, BC_MIX_PERCENT, 50.0);
	pour(1, BC_MIX_PERCENT, 49.0);
	assert_int_equal(mix(), BC_BAD_DOMAIN);
	bc_mixing_release(mixing);
	pour(0, BC_MIX_ASKED, 0.0);
	assert_int_equal(mix(), BC_BAD_DOMAIN);
	pour(1, BC_MIX_ASKED, 0.0);
	assert_int_equal(mix(), BC_BAD_DOMAIN);
}

static void memory_may_run_out_anywhere(void **state)
{
	enum bc_status status = BC_NO_MEMORY;
	(void)state;
	options.want = BC_GRADE_HEATING_OIL;
	for (unsigned long n = 1; status == BC_NO_MEMORY; n++) {
		bc_mixing_release(mixing);
		pour(2, BC_MIX_ASKED, 0.0);
		pour(0, BC_MIX_LITRES, 2.0);
		bc_fault_set(BC_FAULT_ALLOC, n, true);
		status = mix();
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		assert_true(n < 5000);
	}
	assert_int_equal(status, BC_OK);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup(amounts_add_up, set_up),
		cmocka_unit_test_setup(an_oil_with_itself_is_that_oil, set_up),
		cmocka_unit_test_setup(the_low_bound_carries_the_parts, set_up),
		cmocka_unit_test_setup(a_measured_flash_is_kept, set_up),
		cmocka_unit_test_setup(gas_in_one_is_gas_in_all, set_up),
		cmocka_unit_test_setup(water_and_danger_stay, set_up),
		cmocka_unit_test_setup(what_one_oil_shows_is_told_once, set_up),
		cmocka_unit_test_setup(the_still_of_a_rerun_is_assumed, set_up),
		cmocka_unit_test_setup(a_cup_of_a_part_reaches_the_cuts, set_up),
		cmocka_unit_test_setup(poisons_add_up_where_all_were_measured, set_up),
		cmocka_unit_test_setup(what_adds_up_is_at_least_that_of_one_part, set_up),
		cmocka_unit_test_setup(water_is_part_of_water_and_sediment, set_up),
		cmocka_unit_test_setup(what_does_not_add_up_leaves_doubt, set_up),
		cmocka_unit_test_setup(one_part_keeps_what_was_measured, set_up),
		cmocka_unit_test_setup(an_unread_end_is_not_valid, set_up),
		cmocka_unit_test_setup(none_where_usable_is_forbidden, set_up),
		cmocka_unit_test_setup(none_where_the_mixture_is_petrol_like, set_up),
		cmocka_unit_test_setup(a_density_in_dispute_stays, set_up),
		cmocka_unit_test_setup(the_share_is_the_largest, set_up),
		cmocka_unit_test_setup(none_and_any, set_up),
		cmocka_unit_test_setup(what_cannot_be_poured, set_up),
		cmocka_unit_test_setup(memory_may_run_out_anywhere, set_up),
	};
	if (bc_failed(bc_limits_default(NULL, &limits)))
		return 1;
	mixing = bc_alloc(sizeof *mixing);
	bc_mixing_init(mixing);
	for (size_t i = 0; i < PARTS; i++) {
		oil[i] = bc_alloc(sizeof *oil[i]);
		bc_judgement_init(oil[i]);
	}
	int failed = cmocka_run_group_tests(tests, NULL, NULL);
	bc_mixing_release(mixing);
	bc_free(mixing);
	for (size_t i = 0; i < PARTS; i++) {
		bc_judgement_release(oil[i]);
		bc_free(oil[i]);
		bc_sample_free(sample[i]);
	}
	bc_limits_free(limits);
	return failed;
}
