/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows before the table: every key, its units, and what is refused there. */
#include "reading.h"
#include "sample/keys.h"

/* Factors of base/units follow the definitions; a value written with ten digits keeps these. */
#define EXACT 1e-9

static struct bc_sample *with(struct outcome *outcome, const char *rows)
{
	char text[2000];
	snprintf(text, sizeof text, "%s\n%s", rows, TABLE);
	return accepted(outcome, text);
}

static void every_key_of_the_design_is_read(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *s = with(&outcome,
		"sample,Lake shed 14\ndate,2026-10-03\noperator,Mira\nfeed,PP and PE bottle caps\n"
		"history,rerun\nstill,old kettle\ncharge,97 mL\nresidue,1.6 mL\nloss,0.9 mL\n"
		"density,0.7943 g/mL @ 21.4 C\nbarometer,94.23 kPa\naltitude,612 m\nnote,smells of "
		"wax\n"
		"charge mass,77.1 g\ndistillate mass,74.3 g\nresidue mass,1.7 g\n"
		"thermometer,glass partial\nimmersion,41 C\nice,0.4 C\nsteam,97.6 C\n"
		"water boils,97.9 C\nreading error,1.3 C\napparatus,column 5 3.5\n"
		"water in receiver,0.3 mL\ncondenser temp,12.5 C\nplastic in,31.2 kg\noil out,27.4 "
		"L\n"
		"char,1.1 kg\njar from,152 C\njar to,341.5 C pot\ndrawn,second jar\n"
		"stored since,2026-06-11");
	assert_string_equal(s->file, "t.csv");
	assert_string_equal(s->name, "Lake shed 14");
	assert_string_equal(s->date, "2026-10-03");
	assert_string_equal(s->operator_name, "Mira");
	assert_string_equal(s->feed, "PP and PE bottle caps");
	assert_string_equal(s->still, "old kettle");
	assert_string_equal(s->note, "smells of wax");
	assert_string_equal(s->drawn, "second jar");
	assert_string_equal(s->stored_since, "2026-06-11");
	assert_int_equal(s->history, BC_HISTORY_RERUN);
	assert_true(s->charge_stated);
	assert_near(s->charge_ml, 97.0, EXACT);
	assert_near(s->residue_ml, 1.6, EXACT);
	assert_near(s->loss_ml, 0.9, EXACT);
	assert_near(s->density_kgm3, 794.3, EXACT);
	assert_near(s->density_temp_c, 21.4, EXACT);
	assert_near(s->barometer_kpa, 94.23, EXACT);
	assert_near(s->altitude_m, 612.0, EXACT);
	assert_near(s->charge_g, 77.1, EXACT);
	assert_near(s->distillate_g, 74.3, EXACT);
	assert_near(s->residue_g, 1.7, EXACT);
	assert_int_equal(s->thermometer, BC_THERMOMETER_GLASS_PARTIAL);
	assert_near(s->immersion_c, 41.0, EXACT);
	assert_near(s->ice_c, 0.4, EXACT);
	assert_near(s->steam_c, 97.6, EXACT);
	assert_near(s->water_boils_c, 97.9, EXACT);
	assert_near(s->reading_error_c, 1.3, EXACT);
	assert_int_equal(s->apparatus, BC_APPARATUS_COLUMN);
	assert_near(s->column_stages, 5.0, EXACT);
	assert_near(s->column_reflux, 3.5, EXACT);
	assert_near(s->water_ml, 0.3, EXACT);
	assert_near(s->condenser_c, 12.5, EXACT);
	assert_near(s->plastic_in_g, 31200.0, EXACT);
	assert_near(s->oil_out_ml, 27400.0, EXACT);
	assert_true(isnan(s->oil_out_g));
	assert_near(s->char_g, 1100.0, EXACT);
	assert_near(s->jar_from_c, 152.0, EXACT);
	assert_true(isnan(s->jar_to_c));
	assert_near(s->jar_to_pot_c, 341.5, EXACT);
	assert_int_equal(s->n_kept, 0);
	assert_int_equal(outcome.diagnostics.n, 0);
	outcome_release(&outcome);
}

static void silence_is_nan_and_null(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *s = accepted(&outcome, TABLE);
	const double silent[] = {s->charge_g, s->distillate_g, s->residue_g, s->residue_ml,
		s->loss_ml, s->water_ml, s->condenser_c, s->density_kgm3, s->density_temp_c,
		s->barometer_kpa, s->altitude_m, s->water_boils_c, s->immersion_c, s->ice_c,
		s->residue_pct, s->loss_pct, s->water_pct, s->density_step_kgm3, s->steam_c,
		s->reading_error_c, s->column_stages, s->column_reflux, s->jar_from_c, s->jar_to_c,
		s->jar_to_pot_c, s->plastic_in_g, s->oil_out_g, s->oil_out_ml, s->char_g};
	for (size_t i = 0; i < sizeof silent / sizeof *silent; i++)
		assert_true(isnan(silent[i]));
	assert_null(s->name);
	assert_null(s->apparatus_still);
	assert_near(s->charge_ml, 100.0, 0.0);
	assert_false(s->charge_stated);
	assert_int_equal(s->history, BC_HISTORY_UNKNOWN);
	assert_int_equal(s->thermometer, BC_THERMOMETER_NOT_STATED);
	assert_int_equal(s->apparatus, BC_APPARATUS_FLASK);
	outcome_release(&outcome);
}

/* One row, and one number of the sample that it must give. */
struct figure {
	const char *row;
	size_t place;
	double expected;
	double tolerance; /* half the last digit of what is expected */
};

#define FIGURE(row, field, expected, tolerance)                                                    \
	{                                                                                          \
		row, offsetof(struct bc_sample, field), expected, tolerance                        \
	}

static void values_take_their_usual_units(void **state)
{
	(void)state;
	static const struct figure figures[] = {
		FIGURE("density,0.7943", density_kgm3, 794.3, EXACT),
		FIGURE("density,794.3", density_kgm3, 794.3, EXACT),
		FIGURE("DENSITY,794.3 kg/m\xc2\xb3", density_kgm3, 794.3, EXACT),
		FIGURE("Density:,46.2 API", density_kgm3, 795.4991, 5e-4),
		FIGURE("density,0.7943 g/mL @ 70.7 F", density_temp_c, 21.5, EXACT),
		FIGURE("density,0.7943 g/mL at 21.5 \xc2\xb0"
		       "C",
			density_temp_c, 21.5, EXACT),
		FIGURE("density,0.7943 @ 21.5", density_temp_c, 21.5, EXACT),
		FIGURE("barometer,94.23", barometer_kpa, 94.23, EXACT),
		FIGURE("barometer,942.3 hPa", barometer_kpa, 94.23, EXACT),
		FIGURE("pressure,942.3 mbar", barometer_kpa, 94.23, EXACT),
		FIGURE("barometer,707 mmHg", barometer_kpa, 94.259, 5e-4),
		FIGURE("barometer,27.83 inHg", barometer_kpa, 94.243, 5e-4),
		FIGURE("barometer,13.67 psi", barometer_kpa, 94.251, 5e-4),
		FIGURE("altitude,612", altitude_m, 612.0, EXACT),
		FIGURE("elevation,2008 ft", altitude_m, 612.0384, EXACT),
		FIGURE("altitude,612m", altitude_m, 612.0, EXACT),
		FIGURE("\xc2\xa0"
		       "altitude\xe2\x80\xaf,612",
			altitude_m, 612.0, EXACT),
		FIGURE("altitude,612\xc2\xa0m", altitude_m, 612.0, EXACT),
		FIGURE("charge,0.2 L", charge_ml, 200.0, EXACT),
		FIGURE("charge,80.3 g", charge_g, 80.3, EXACT),
		FIGURE("residue,1.6 %", residue_pct, 1.6, EXACT),
		FIGURE("charge mass,40.3 g\nresidue,1.6 %", residue_pct, 1.6, EXACT),
		FIGURE("loss,0.7 %\nwater in receiver,0.3 %", water_pct, 0.3, EXACT),
		FIGURE("residue,1.9 g", residue_g, 1.9, EXACT),
		FIGURE("charge,80.3 g\ndensity,794.3", charge_ml, 101.0953, 5e-5),
		FIGURE("ice,32.9 F", ice_c, 0.5, EXACT),
		FIGURE("steam,370.95 K", steam_c, 97.8, EXACT),
		FIGURE("reading error,2.7 F", reading_error_c, 1.5, EXACT),
		FIGURE("volume error,0.0013 L", volume_error_ml, 1.3, EXACT),
		FIGURE("residue error,0.4 mL", rest_error_ml, 0.4, EXACT),
		FIGURE("pressure error,7 hPa", pressure_error_kpa, 0.7, EXACT),
		FIGURE("density error,3.7", density_error_kgm3, 3.7, EXACT),
		FIGURE("oil out,21.3 kg", oil_out_g, 21300.0, EXACT),
		FIGURE("jar to,172.5 C", jar_to_c, 172.5, EXACT),
		FIGURE("jar to,172.5 C head", jar_to_c, 172.5, EXACT),
		FIGURE("jar to,646.7 F pot", jar_to_pot_c, 341.5, EXACT),
		FIGURE("condenser temp,\xe2\x88\x92"
		       "3.5 C",
			condenser_c, -3.5, EXACT),
	};
	for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
		struct outcome outcome;
		const char *sample = (const char *)with(&outcome, figures[i].row);
		double value;
		memcpy(&value, sample + figures[i].place, sizeof value);
		if (!(fabs(value - figures[i].expected) <= figures[i].tolerance))
			fail_msg("%s gives %.10g", figures[i].row, value);
		outcome_release(&outcome);
	}
}

struct lab_figure {
	const char *row;
	const char *property;
	double value;
	double temp_c; /* NaN: none */
};

static void measured_properties_are_kept(void **state)
{
	(void)state;
	static const struct lab_figure figures[] = {
		{"flash,61.3 C", "flash_point", 61.3, NAN},
		{"flash point,142.34 F closed cup", "flash_point", 61.3, NAN},
		{"viscosity,2.13 mm2/s @ 40 C", "kin_viscosity", 2.13, 40.0},
		{"viscosity,2.13 cSt @ 104 F", "kin_viscosity", 2.13, 40.0},
		{"cetane number,52.3", "cetane_number", 52.3, NAN},
		{"water,0.02 %", "water", 200.0, NAN},
		{"sulfur,17.3 ppm", "sulphur", 17.3, NAN},
		{"chlorine,31 mg/kg", "chlorine", 31.0, NAN},
		{"acid number,0.13 mgKOH/g", "acid_number", 0.13, NAN},
		{"copper strip,1", "copper_strip", 1.0, NAN},
		{"cloud point,-7.5 C", "cloud_point", -7.5, NAN},
		{"pour point,-12", "pour_point", -12.0, NAN},
		{"cfpp,-9 C", "CFPP", -9.0, NAN},
		{"lubricity,437 um", "lubricity_wsd", 437.0, NAN},
		{"benzene,0.7 %", "benzene", 0.7, NAN},
		{"vapour pressure,613 hPa", "vapour_pressure_DVPE", 61.3, NAN},
	};
	for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
		struct outcome outcome;
		const struct lab_figure *figure = &figures[i];
		struct bc_sample *sample = with(&outcome, figure->row);
		const struct bc_measured *measured = bc_sample_measured(sample, figure->property);
		assert_non_null(measured);
		assert_near(measured->value, figure->value, EXACT);
		assert_int_equal(isnan(measured->temp_c), isnan(figure->temp_c));
		if (!isnan(figure->temp_c))
			assert_near(measured->temp_c, figure->temp_c, EXACT);
		assert_int_equal(measured->line, 1);
		assert_null(bc_sample_measured(sample, "lead"));
		outcome_release(&outcome);
	}
}

/* Each property of the table, in the unit in which the canonical form writes it. */
static void every_property_is_read_in_its_own_unit(void **state)
{
	(void)state;
	size_t n = 0;
	for (size_t i = 0; i < bc_n_keys; i++) {
		const struct bc_key *key = &bc_keys[i];
		if (key->property == NULL || key->kind == BC_KEY_COPPER)
			continue;
		struct outcome outcome;
		char row[100];
		snprintf(row, sizeof row, "%s,41.7 %s", key->name, key->unit);
		const struct bc_measured *measured =
			bc_sample_measured(with(&outcome, row), key->property);
		assert_non_null(measured);
		assert_near(measured->value, 41.7, EXACT);
		outcome_release(&outcome);
		n++;
	}
	assert_true(n > 30);
}

static void open_cup_replaces_nothing(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = with(&outcome, "flash,67.3 C open cup");
	assert_null(bc_sample_measured(sample, "flash_point"));
	assert_int_equal(sample->n_measured, 1);
	assert_true(sample->measured[0].open_cup);
	assert_near(sample->measured[0].value, 67.3, EXACT);
	outcome_release(&outcome);
}

static void copper_strip_keeps_its_letter(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = with(&outcome, "copper strip,2C");
	assert_near(sample->measured[0].value, 2.0, 0.0);
	assert_int_equal(sample->measured[0].rating, 'c');
	outcome_release(&outcome);
}

static void apparatus_is_flask_column_tbp_or_a_still(void **state)
{
	(void)state;
	struct outcome outcome;
	assert_int_equal(with(&outcome, "apparatus,Flask")->apparatus, BC_APPARATUS_FLASK);
	outcome_release(&outcome);
	assert_int_equal(with(&outcome, "apparatus,TBP")->apparatus, BC_APPARATUS_TBP);
	outcome_release(&outcome);
	struct bc_sample *sample = with(&outcome, "apparatus,old kettle");
	assert_int_equal(sample->apparatus, BC_APPARATUS_STILL);
	assert_string_equal(sample->apparatus_still, "old kettle");
	outcome_release(&outcome);
}

static void words_are_case_blind(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample =
		with(&outcome, "  Stored   SINCE ,May\nThermometer,Glass  D86\nHISTORY,Re-run");
	assert_string_equal(sample->stored_since, "May");
	assert_int_equal(sample->thermometer, BC_THERMOMETER_GLASS_D86);
	assert_int_equal(sample->history, BC_HISTORY_RERUN);
	outcome_release(&outcome);
}

static void unknown_keys_are_kept_and_said_once(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample =
		with(&outcome, "densty,0.794\nburner setting,3\nBurner Setting,2\nsmell,sour");
	assert_int_equal(outcome.diagnostics.n, 2);
	assert_int_equal(outcome.diagnostics.items[0].severity, BC_WARNING);
	assert_string_equal(outcome.diagnostics.items[0].text,
		"key 'densty' is not understood; did you mean 'density'?");
	assert_int_equal(outcome.diagnostics.items[0].line, 1);
	assert_string_equal(outcome.diagnostics.items[1].text,
		"key 'burner setting' is not understood; it is kept as it is");
	assert_int_equal(sample->n_kept, 4);
	assert_string_equal(sample->kept[0].key, "densty");
	assert_string_equal(sample->kept[0].value, "0.794");
	assert_false(sample->kept[0].understood);
	assert_string_equal(sample->kept[3].key, "smell");
	assert_true(sample->kept[3].understood);
	assert_true(isnan(sample->density_kgm3));
	outcome_release(&outcome);
}

static void strange_files_do_not_flood_the_screen(void **state)
{
	(void)state;
	struct outcome outcome;
	char *text = malloc(40 * 1000 + sizeof TABLE);
	size_t n = 0;
	for (int i = 0; i < 1000; i++)
		n += (size_t)sprintf(text + n, "strange key number %d,x\n", i);
	memcpy(text + n, TABLE, sizeof TABLE);
	struct bc_sample *sample = accepted(&outcome, text);
	assert_int_equal(sample->n_kept, 1000);
	assert_int_equal(outcome.diagnostics.n, 101);
	assert_string_equal(outcome.diagnostics.items[100].text,
		"more keys are not understood; they are kept as they are");
	outcome_release(&outcome);
	free(text);
}

static void an_empty_value_is_silence(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = with(&outcome, "density,\ndensity,0.7943,,,\nnote,,\nice");
	assert_near(sample->density_kgm3, 794.3, EXACT);
	assert_null(sample->note);
	assert_int_equal(outcome.diagnostics.n, 0);
	outcome_release(&outcome);
}

static void text_with_separators_is_joined(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample =
		with(&outcome, "note,smoked, then cleared,,again,,\nfeed,\"PP, PE\"");
	assert_string_equal(sample->note, "smoked, then cleared, , again");
	assert_string_equal(sample->feed, "PP, PE");
	outcome_release(&outcome);
}

struct refusal {
	const char *rows;
	size_t line;
	const char *message;
};

static void wrong_values_are_refused(void **state)
{
	(void)state;
	static const struct refusal refusals[] = {
		{"density,heavy", 1,
			"density 'heavy' is not a number; a number such as 12.5 kg/m3 was "
			"expected"},
		{"density,1,234.5", 1,
			"density is followed by more than one cell, '1, 234.5'; one value was "
			"expected, in quotes where it holds ','"},
		{"density,\"1,234.5\"", 1,
			"density '1,234.5' is not a number; a number such as 12.5 kg/m3 was "
			"expected"},
		{"density,794.3.1", 1,
			"density '794.3.1' is not a number; a number such as 12.5 kg/m3 was "
			"expected"},
		{"density,0.794 stone", 1,
			"unit 'stone' of density is not understood; kg/m3, g/mL, g/cm3, kg/L, API, "
			"SG was expected"},
		{"density,0.794 @ cold", 1,
			"density '0.794 @ cold' is not a number; a number such as 12.5 kg/m3 was "
			"expected"},
		{"density,0.794 @ 21 X", 1,
			"unit 'X' of density is not understood; C, F or K was expected"},
		{"density,0.794 @ 900 C", 1,
			"density '0.794 @ 900 C' is out of range; -273.15 to 700 C was expected"},
		{"density,0.794 parts of water and some of anything else that is wet in a bucket "
		 "that nobody has ever weighed in this shed",
			1,
			"unit 'parts of water and some of anything else...' of density is not "
			"understood; kg/m3, g/mL, g/cm3, kg/L, API, SG was expected"},
		{"altitude,612 m @ 20 C", 1,
			"altitude '612 m @ 20 C' names a temperature; a number and its unit was "
			"expected"},
		{"flash,61 C @ 20 C", 1,
			"flash '61 C @ 20 C' names a temperature; a number and its unit was "
			"expected"},
		{"loss,1.2 mL @ 20 C", 1,
			"loss '1.2 mL @ 20 C' names a temperature; a number and its unit was "
			"expected"},
		{"ice,1\nbarometer,707", 2,
			"barometer '707' has no unit; a pressure such as 942 hPa or 707 mmHg was "
			"expected"},
		{"barometer,942", 1,
			"barometer '942' has no unit; a pressure such as 942 hPa or 707 mmHg was "
			"expected"},
		{"barometer,49.9 kPa", 1,
			"barometer '49.9 kPa' is out of range; 50 to 110 kPa was expected"},
		{"barometer,1101 hPa", 1,
			"barometer '1101 hPa' is out of range; 50 to 110 kPa was expected"},
		{"ice,-300 C", 1, "ice '-300 C' is out of range; -273.15 to 700 C was expected"},
		{"jar to,701 C pot", 1,
			"jar to '701 C pot' is out of range; -273.15 to 700 C was expected"},
		{"charge,80 g @ 20 C", 1,
			"charge '80 g @ 20 C' names a temperature; a number and its unit was "
			"expected"},
		{"apparatus,column 5", 1,
			"apparatus 'column 5' is no column; column STAGES REFLUX such as column 5 "
			"3 was expected"},
		{"cetane number,52 C", 1,
			"unit 'C' of cetane number is not understood; no unit was expected"},
		{"ice,aaaaaaaaaabbbbbbbbbbccccccccccddddddddddeeee", 1,
			"ice 'aaaaaaaaaabbbbbbbbbbccccccccccdddddddddd...' is not a number; a "
			"number such as 12.5 C was expected"},
	};
	for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++) {
		char text[500];
		snprintf(text, sizeof text, "%s\n%s", refusals[i].rows, TABLE);
		assert_refused(text, refusals[i].line, refusals[i].message);
	}
}

/* What is carried all the same: the row, the one warning, and the line to which it belongs. */
static void odd_values_are_left_out_with_a_warning(void **state)
{
	(void)state;
	static const struct refusal warnings[] = {
		{"thermometer,one that my neighbour lent me in spring", 1,
			"thermometer 'one that my neighbour lent me in spring' is not understood "
			"and counts as not stated; glass d86, glass partial, glass total or probe "
			"was expected"},
		{"thermometer,glas partial", 1,
			"thermometer 'glas partial' is not understood and counts as not stated; "
			"did you mean 'glass partial'?"},
		{"history,twice", 1,
			"history 'twice' is not understood and counts as not stated; retort, "
			"rerun, aired or unknown was expected"},
		{"density,79 kg/m3", 1,
			"density '79 kg/m3' is out of range and left out; 300 to 2000 kg/m3 was "
			"expected"},
		{"density,-131.5 API @ 20 C", 1,
			"density '-131.5 API @ 20 C' is out of range and left out; 300 to 2000 "
			"kg/m3 was expected"},
		{"altitude,6000 m", 1,
			"altitude '6000 m' is out of range and left out; -698 to 5574 m was "
			"expected"},
		{"water boils,79.3 C", 1,
			"water boils '79.3 C' is out of range and left out; 80.8 to 102.8 C was "
			"expected"},
		{"flash,1061 C", 1,
			"flash '1061 C' is out of range and left out; -80 to 400 C was expected"},
		{"flash,-81 C", 1,
			"flash '-81 C' is out of range and left out; -80 to 400 C was expected"},
		{"sulphur,-3 mg/kg", 1,
			"sulphur '-3 mg/kg' is out of range and left out; 0 to 1000000 mg/kg was "
			"expected"},
		{"charge,0 mL", 1,
			"charge '0 mL' is out of range and left out; 0.001 mL or more was "
			"expected"},
		{"ice,1 C\nresidue,120 mL", 2,
			"residue of 120 mL is more than the charge and left out; at most 100 mL "
			"was expected"},
		{"loss,101 %", 1,
			"loss '101 %' is out of range and left out; 0 to 100 % was expected"},
		{"charge mass,80 g\nresidue mass,81 g", 2,
			"residue mass of 81 g is more than the charge and left out; at most 80 g "
			"was expected"},
		{"oil out,12", 1,
			"oil out '12' has no unit and is left out; a volume in L or a mass in kg "
			"was expected"},
		{"copper strip,5a", 1,
			"copper strip '5a' is no rating and left out; 1a to 4c was expected"},
	};
	for (size_t i = 0; i < sizeof warnings / sizeof *warnings; i++) {
		struct outcome outcome;
		struct bc_sample *s = with(&outcome, warnings[i].rows);
		assert_int_equal(outcome.diagnostics.n, 1);
		assert_string_equal(outcome.diagnostics.items[0].text, warnings[i].message);
		assert_int_equal(outcome.diagnostics.items[0].line, warnings[i].line);
		assert_int_equal(outcome.diagnostics.items[0].severity, BC_WARNING);
		const double dropped[] = {s->density_kgm3, s->density_temp_c, s->density_step_kgm3,
			s->altitude_m, s->water_boils_c, s->residue_ml, s->loss_ml, s->loss_pct,
			s->residue_g, s->oil_out_ml, s->oil_out_g};
		for (size_t k = 0; k < sizeof dropped / sizeof *dropped; k++)
			assert_true(isnan(dropped[k]));
		assert_int_equal(s->n_measured, 0);
		assert_false(s->charge_stated);
		assert_near(s->charge_ml, 100.0, 0.0);
		assert_int_equal(s->history, BC_HISTORY_UNKNOWN);
		assert_int_equal(s->thermometer, BC_THERMOMETER_NOT_STATED);
		outcome_release(&outcome);
	}
}

static void ice_beside_steam_is_said_and_kept(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = with(&outcome, "ice,60 C\nsteam,97 C");
	assert_int_equal(outcome.diagnostics.n, 1);
	assert_string_equal(outcome.diagnostics.items[0].text,
		"steam at 97 C is not 50 C above ice at 60 C; about 100 C was expected");
	assert_near(sample->ice_c, 60.0, 0.0);
	outcome_release(&outcome);
}

/* Of a key given twice the later counts, of a flash the lower, of a history the worse, and that is
 * said; some may stand twice. */
static void the_later_of_two_counts(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = with(&outcome,
		"ice,0.3 C\nsteam,98 C\nIce Point,0.4 C\nname,one\nname,two\nsmell,sour\n"
		"smell,sweet\ncharge mass,80 g\ncharge,81.7 g\nresidue,2 mL\nresidue,2.3 %\n"
		"history,retort\nhistory,aired\napparatus,kettle\napparatus,flask\n"
		"flash,61 C\nflash,63.7 C\nron,91\nron,92.3");
	assert_near(sample->ice_c, 0.4, 0.0);
	assert_string_equal(sample->name, "two");
	assert_int_equal(sample->n_kept, 1);
	assert_string_equal(sample->kept[0].value, "sweet");
	assert_near(sample->charge_g, 81.7, 0.0);
	assert_true(isnan(sample->residue_ml));
	assert_near(sample->residue_pct, 2.3, 0.0);
	assert_int_equal(sample->history, BC_HISTORY_RETORT); /* the worse */
	assert_int_equal(sample->apparatus, BC_APPARATUS_FLASK);
	assert_null(sample->apparatus_still);
	assert_int_equal(sample->n_measured, 2);
	assert_near(bc_sample_measured(sample, "flash_point")->value, 61.0, 0.0);
	assert_near(bc_sample_measured(sample, "RON")->value, 92.3, 0.0);
	assert_int_equal(outcome.diagnostics.n, 9);
	assert_string_equal(outcome.diagnostics.items[0].text,
		"'ice' is already given in line 1; this one counts");
	assert_int_equal(outcome.diagnostics.items[0].line, 3);
	outcome_release(&outcome);

	sample = with(&outcome,
		"flash,61 C\nflash,67.3 C open cup\nviscosity,2.13 mm2/s @ 40 C\n"
		"viscosity,3.97 mm2/s @ 20 C\njar to,340 C pot\njar to,331 C\noil out,12 L\n"
		"oil out,9.7 kg");
	assert_int_equal(outcome.diagnostics.n, 0);
	assert_int_equal(sample->n_measured, 4);
	assert_near(sample->measured[3].temp_c, 20.0, 0.0);
	assert_near(sample->jar_to_pot_c, 340.0, 0.0);
	assert_near(sample->jar_to_c, 331.0, 0.0);
	outcome_release(&outcome);
}

/* Each value without a unit is listed with the one that was taken; the canonical form has units. */
static void missing_units_are_listed(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample =
		with(&outcome, "flash,140\ndensity,0.8 @ 21\naltitude,612\nsulphur,17\nron,91\n"
			       "barometer,94.2\nice,0.4 C\nlubricity,437");
	static const char *const expected[] = {
		"no unit in 'flash,140': taken as degC",
		"no unit in 'density,0.8 @ 21': taken as degC",
		"no unit in 'density,0.8 @ 21': taken as g/mL",
		"no unit in 'altitude,612': taken as m",
		"no unit in 'sulphur,17': taken as mg/kg",
		"no unit in 'barometer,94.2': taken as kPa",
		"no unit in 'lubricity,437': taken as um",
	};
	assert_int_equal(sample->assumed.n, sizeof expected / sizeof *expected);
	for (size_t i = 0; i < sample->assumed.n; i++)
		assert_string_equal(sample->assumed.items[i], expected[i]);
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_sample_write(sample, &text), BC_OK);
	outcome_release(&outcome);
	assert_int_equal(accepted(&outcome, text.data)->assumed.n, 0);
	outcome_release(&outcome);
	bc_text_release(&text);
}

static void a_row_with_another_separator_is_named(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = with(&outcome, "charge;200 mL");
	assert_int_equal(outcome.diagnostics.n, 1);
	assert_string_equal(outcome.diagnostics.items[0].text,
		"row 'charge;200 mL' has ';' between its cells but the table has ','; it is not "
		"read, one separator in a file was expected");
	assert_false(sample->charge_stated);
	outcome_release(&outcome);
}

static void no_two_keys_share_a_name(void **state)
{
	(void)state;
	for (size_t i = 0; i < bc_n_keys; i++) {
		assert_ptr_equal(bc_key_find(bc_keys[i].name), &bc_keys[i]);
		for (size_t k = 0; k < 3 && bc_keys[i].aliases[k] != NULL; k++)
			assert_ptr_equal(bc_key_find(bc_keys[i].aliases[k]), &bc_keys[i]);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_key_of_the_design_is_read),
		cmocka_unit_test(silence_is_nan_and_null),
		cmocka_unit_test(values_take_their_usual_units),
		cmocka_unit_test(measured_properties_are_kept),
		cmocka_unit_test(every_property_is_read_in_its_own_unit),
		cmocka_unit_test(open_cup_replaces_nothing),
		cmocka_unit_test(copper_strip_keeps_its_letter),
		cmocka_unit_test(apparatus_is_flask_column_tbp_or_a_still),
		cmocka_unit_test(words_are_case_blind),
		cmocka_unit_test(unknown_keys_are_kept_and_said_once),
		cmocka_unit_test(strange_files_do_not_flood_the_screen),
		cmocka_unit_test(an_empty_value_is_silence),
		cmocka_unit_test(text_with_separators_is_joined),
		cmocka_unit_test(wrong_values_are_refused),
		cmocka_unit_test(odd_values_are_left_out_with_a_warning),
		cmocka_unit_test(ice_beside_steam_is_said_and_kept),
		cmocka_unit_test(the_later_of_two_counts),
		cmocka_unit_test(missing_units_are_listed),
		cmocka_unit_test(a_row_with_another_separator_is_named),
		cmocka_unit_test(no_two_keys_share_a_name),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
