/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table: its header, its rows, and the shapes in which spreadsheets save it. */
#include <time.h>

#include "reading.h"

#define EXACT 1e-9

static void the_table_is_read_as_written(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample =
		accepted(&outcome, "recovered (%),head (C),pot (C),time (min),note\n"
				   "ibp,71.4,101.2,6.5,first drop\n"
				   "5,112.6,,7:10,\n"
				   "\n"
				   "30,187.3,221.5,0:14:30,\"cloudy, then clear\"\n"
				   "10,131.3,,,\n"
				   "10,131.9,,,\n"
				   "End Point,361.2,402,31,white fumes, off\n"
				   "dry,359.7,,,\n");
	assert_int_equal(sample->amount_basis, BC_AMOUNT_VOLUME_PCT);
	assert_int_equal(sample->n_readings, 7);
	const struct bc_reading *r = sample->readings;
	assert_int_equal(r[0].kind, BC_READING_IBP);
	assert_true(isnan(r[0].amount));
	assert_near(r[0].head_c, 71.4, EXACT);
	assert_near(r[0].pot_c, 101.2, EXACT);
	assert_near(r[0].time_s, 390.0, EXACT);
	assert_string_equal(r[0].note, "first drop");
	assert_int_equal(r[0].line, 2);
	assert_int_equal(r[1].kind, BC_READING_AMOUNT);
	assert_near(r[1].amount, 5.0, EXACT);
	assert_true(isnan(r[1].pot_c));
	assert_near(r[1].time_s, 25800.0, EXACT);
	assert_null(r[1].note);
	assert_near(r[2].time_s, 870.0, EXACT);
	assert_string_equal(r[2].note, "cloudy, then clear");
	assert_int_equal(r[2].line, 5);
	assert_near(r[3].amount, 10.0, EXACT);
	assert_near(r[4].head_c, 131.9, EXACT);
	assert_int_equal(r[5].kind, BC_READING_FBP);
	assert_string_equal(r[5].note, "white fumes, off");
	assert_int_equal(r[6].kind, BC_READING_DRY);
	assert_int_equal(outcome.diagnostics.n, 0);
	outcome_release(&outcome);
}

struct header {
	const char *cells; /* amount first, head second */
	enum bc_amount_basis basis;
	char unit;
};

static void headers_are_found_by_their_words(void **state)
{
	(void)state;
	static const struct header headers[] = {
		{"recovered (%);head (C)", BC_AMOUNT_VOLUME_PCT, 'C'},
		{"RECOVERED [%];Head Temp [\xc2\xb0"
		 "F]",
			BC_AMOUNT_VOLUME_PCT, 'F'},
		{"% recovered;temperature", BC_AMOUNT_VOLUME_PCT, 'C'},
		{"Percent over;Thermometer reading, degF", BC_AMOUNT_VOLUME_PCT, 'F'},
		{"%;\xc2\xb0"
		 "C",
			BC_AMOUNT_VOLUME_PCT, 'C'},
		{"%;K", BC_AMOUNT_VOLUME_PCT, 'K'},
		{"distilled / %;vapour temp / \xe2\x84\x83", BC_AMOUNT_VOLUME_PCT, 'C'},
		{"vol% distilled;temp_C", BC_AMOUNT_VOLUME_PCT, 'C'},
		{"recovered, % v/v;T", BC_AMOUNT_VOLUME_PCT, 'C'},
		{"amount;Top temperature (Fahrenheit)", BC_AMOUNT_VOLUME_PCT, 'F'},
		{"volume (mL);head (K)", BC_AMOUNT_VOLUME_ML, 'K'},
		{"mL;C", BC_AMOUNT_VOLUME_ML, 'C'},
		{"Vol;Temp", BC_AMOUNT_VOLUME_ML, 'C'},
		{"Distillate, cc;Head deg F", BC_AMOUNT_VOLUME_ML, 'F'},
		{"recovered (g);head", BC_AMOUNT_MASS_G, 'C'},
		{"mass;head", BC_AMOUNT_MASS_G, 'C'},
		{"mass %;head", BC_AMOUNT_MASS_PCT, 'C'},
		{"recovered (% m/m);head", BC_AMOUNT_MASS_PCT, 'C'},
		{"wt% over;head temp (\xc2\xba"
		 "C)",
			BC_AMOUNT_MASS_PCT, 'C'},
		{"\"recovered\n(%)\";\"head\r\n(F)\"", BC_AMOUNT_VOLUME_PCT, 'F'},
	};
	for (size_t i = 0; i < sizeof headers / sizeof *headers; i++) {
		struct outcome outcome;
		char text[300];
		snprintf(text, sizeof text,
			"charge;100 mL\ncharge mass;100 g\n%s\n5;412.3\n10;431.3\n50;521.7\n",
			headers[i].cells);
		struct bc_sample *sample = accepted(&outcome, text);
		double head = sample->readings[0].head_c;
		double expected = headers[i].unit == 'F'   ? (412.3 - 32.0) / 1.8
				  : headers[i].unit == 'K' ? 412.3 - 273.15
							   : 412.3;
		if (sample->amount_basis != headers[i].basis || !(fabs(head - expected) <= EXACT))
			fail_msg("%s: basis %d, head %g", headers[i].cells,
				(int)sample->amount_basis, head);
		outcome_release(&outcome);
	}
}

static void columns_may_stand_in_any_order(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = accepted(&outcome,
		"remark,kettle temp (F),temp of distillate,head (C),elapsed (s),recovered (%)\n"
		"slow,230,pale,112.6,431,5\n,,,131.3,,10\n,,,221.7,,50\n");
	assert_near(sample->readings[0].pot_c, 110.0, EXACT);
	assert_near(sample->readings[0].time_s, 431.0, EXACT);
	assert_near(sample->readings[0].amount, 5.0, EXACT);
	assert_string_equal(sample->readings[0].note, "slow");
	assert_int_equal(outcome.diagnostics.n, 1);
	assert_int_equal(outcome.diagnostics.items[0].severity, BC_WARNING);
	assert_string_equal(outcome.diagnostics.items[0].text,
		"column 'temp of distillate' is not understood; it is left out");
	outcome_release(&outcome);
}

struct clock_case {
	const char *heading;
	const char *cell;
	double expected_s;
};

static void times_are_numbers_or_clocks(void **state)
{
	(void)state;
	static const struct clock_case cases[] = {
		{"time", "12.5", 750.0},
		{"time (min)", "12.5", 750.0},
		{"time (s)", "12.5", 12.5},
		{"time (h)", "0.25", 900.0},
		{"time (hh:mm)", "1:02", 3720.0},
		{"time (hh:mm:ss)", "1:02:03", 3723.0},
		{"time (mm:ss)", "12:34", 754.0},
		{"time (mm:ss)", "1:02:03", 3723.0},
		{"elapsed minutes", "7", 420.0},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct outcome outcome;
		char text[300];
		snprintf(text, sizeof text, "%%,C,%s\n5,112.6,%s\n10,131.3,\n50,221.7,\n",
			cases[i].heading, cases[i].cell);
		assert_near(
			accepted(&outcome, text)->readings[0].time_s, cases[i].expected_s, EXACT);
		outcome_release(&outcome);
	}
}

/* The same sample as different programs save it. */
static void spreadsheets_save_the_same_sample_in_many_ways(void **state)
{
	(void)state;
	static const char *const files[] = {
		"density,0.794 g/mL @ 21.5 C\n\n%,C\nIBP,71.4\n5,112.6\n10,131.3\n50,221.7\n",
		"\xef\xbb\xbf"
		"density,0.794 g/mL @ 21.5 C\r\n\r\n%,C\r\nIBP,71.4\r\n5,112.6\r\n"
		"10,131.3\r\n50,221.7\r\n",
		"density,0.794 g/mL @ 21.5 C\r\r%,C\rIBP,71.4\r5,112.6\r10,131.3\r50,221.7",
		"density;0,794 g/mL @ 21,5 C\n\n%;C\nIBP;71,4\n5;112,6\n10;131,3\n50;221,7\n",
		"density;0.794 g/mL @ 21.5 C\n\n%;C\nIBP;71.4\n5;112.6\n10;131.3\n50;221.7\n",
		"density\t0,794 g/mL @ 21,5 C\n\n%\tC\nIBP\t71,4\n5\t112,6\n10\t131,3\n50\t221,7\n",
		"density\t0.794 g/mL @ 21.5 C\n\n%\tC\nIBP\t71.4\n5\t112.6\n10\t131.3\n50\t221.7\n",
		"sep=;\ndensity;0,794 g/mL @ 21,5 "
		"C;;\n;;;\n%;C;;\nIBP;71,4;;\n5;112,6;;\n10;131,3\n"
		"50;221,7;;;;;\n",
		"\"density\",\"0,794 g/mL @ 21,5 "
		"C\"\n\"%\",\"C\"\n\"IBP\",\"71,4\"\n\"5\",\"112,6\"\n"
		"\"10\",\"131,3\"\n\"50\",\"221,7\"\n",
		",density,0.794 g/mL @ 21.5 "
		"C\n,,\n,%,C\n,IBP,71.4\n,5,112.6\n,10,131.3\n,50,221.7\n",
		"# a sheet of the \"shed\n\"# saved, and saved again\",,\nDENSITY , 0.794 g/mL @ "
		"21.5 \xc2\xb0"
		"C ,,\n# more\n % , \xc2\xb0"
		"C \n"
		"# between\n IBP , 71.4 \n5, 112.6,\n10,131.3,\n20,,\n50,221.7\n",
		"%,C\nIBP,71.4\n5,112.6\n10,131.3\n50,221.7\ndensity,0.794 g/mL @ 21.5 C\n",
	};
	for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
		struct outcome outcome;
		struct bc_sample *sample = accepted(&outcome, files[i]);
		assert_int_equal(sample->n_readings, 4);
		assert_near(sample->density_kgm3, 794.0, EXACT);
		assert_near(sample->density_temp_c, 21.5, EXACT);
		assert_int_equal(sample->readings[0].kind, BC_READING_IBP);
		assert_near(sample->readings[0].head_c, 71.4, EXACT);
		assert_near(sample->readings[3].amount, 50.0, EXACT);
		assert_near(sample->readings[3].head_c, 221.7, EXACT);
		assert_int_equal(outcome.diagnostics.n, 0);
		outcome_release(&outcome);
	}
}

static void an_old_code_page_is_read_and_said(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = accepted(&outcome, "note,caf\xe9 \x96 wax\n%,\xb0"
						      "F\n5,212\n10,251.6\n50,392\n");
	assert_string_equal(sample->note, "caf\xc3\xa9 \xe2\x80\x93 wax");
	assert_near(sample->readings[0].head_c, 100.0, EXACT);
	assert_int_equal(outcome.diagnostics.n, 1);
	assert_int_equal(outcome.diagnostics.items[0].severity, BC_NOTE);
	outcome_release(&outcome);
}

/* RFC 3629: the edges of each length are text; overlong forms and surrogates are not. */
static void utf8_is_told_from_a_code_page(void **state)
{
	(void)state;
	static const struct {
		const char *note;
		bool is_utf8;
	} notes[] = {
		{"\xc2\xbd", true},
		{"\xdf\xbf", true},
		{"\xe0\xa0\x80", true},
		{"\xed\x9f\xbf", true},
		{"\xef\xbf\xbd", true},
		{"\xf0\x90\x80\x80", true},
		{"\xf4\x8f\xbf\xbf", true},
		{"\xc1\xbf", false},
		{"\xe0\x9f\xbf", false},
		{"\xed\xa0\x80", false},
		{"\xf0\x8f\xbf\xbf", false},
		{"\xf4\x90\x80\x80", false},
		{"\xe2\x82", false},
		{"\xf0\x90\x80x", false},
		{"\xff", false},
	};
	for (size_t i = 0; i < sizeof notes / sizeof *notes; i++) {
		struct outcome outcome;
		char text[100];
		snprintf(text, sizeof text, "note,x%s\n%s", notes[i].note, TABLE);
		struct bc_sample *sample = accepted(&outcome, text);
		bool kept = strcmp(sample->note + 1, notes[i].note) == 0;
		if (kept != notes[i].is_utf8 || (first_of(&outcome, BC_NOTE) == NULL) != kept)
			fail_msg("note %zu is taken for the other", i);
		outcome_release(&outcome);
	}
}

static void a_row_at_zero_is_the_first_drop(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = accepted(&outcome, "%,C\n0,71.4\n5,112.6\n10,131.3\n50,221.7\n");
	assert_int_equal(sample->readings[0].kind, BC_READING_IBP);
	assert_true(isnan(sample->readings[0].amount));
	assert_int_equal(outcome.diagnostics.n, 1);
	assert_int_equal(outcome.diagnostics.items[0].severity, BC_NOTE);
	assert_string_equal(outcome.diagnostics.items[0].text, "the row at 0 is taken as IBP");
	assert_int_equal(outcome.diagnostics.items[0].line, 2);
	outcome_release(&outcome);

	sample = accepted(&outcome, "%,C\n-0,74.4\nIBP,71.4\n5,112.6\n10,131.3\n");
	assert_int_equal(sample->readings[0].kind, BC_READING_AMOUNT);
	assert_near(sample->readings[0].amount, 0.0, 0.0);
	assert_false(signbit(sample->readings[0].amount));
	assert_int_equal(outcome.diagnostics.n, 0);
	outcome_release(&outcome);
}

static void the_charge_bounds_the_amounts(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample =
		accepted(&outcome, "charge,203 mL\nmL,C\n10,112.6\n100,231.3\n203,321.7\n");
	assert_near(sample->readings[2].amount, 203.0, 0.0);
	outcome_release(&outcome);
	sample = accepted(&outcome, "density,794\ng,C\n10,112.6\n60,231.3\n79.4,321.7\n");
	assert_near(sample->charge_g, 79.4, EXACT);
	outcome_release(&outcome);
	assert_refused("mL,C\n10,112.6\n50,131.3\n100.5,221.7\n", 4,
		"amount '100.5' is more than the charge; at most 100 mL was expected");
	assert_refused("charge mass,79.4\ng,C\n10,112.6\n50,131.3\n79.5,221.7\n", 5,
		"amount '79.5' is more than the charge; at most 79.4 g was expected");
	/* without a density the whole is not known in the unit of its parts */
	sample = accepted(&outcome, "g,C\n10,112.6\n50,131.3\n79.5,221.7\n");
	assert_true(isnan(sample->charge_g));
	outcome_release(&outcome);
	sample = accepted(&outcome, "charge,90 g\nmL,C\n10,112.6\n50,131.3\n109.5,221.7\n");
	assert_false(sample->charge_stated);
	outcome_release(&outcome);
}

struct refusal {
	const char *text;
	size_t line;
	const char *message;
};

static void wrong_tables_are_refused(void **state)
{
	(void)state;
	static const struct refusal refusals[] = {
		{"", 0, "file is empty; a sample file was expected"},
		{"# a comment alone\n", 0, "file is empty; a sample file was expected"},
		{"sample,x\nIBP,71\n5,112\n10,131\n20,150\n", 2,
			"no header row was found; a row such as 'recovered (%),head (C)' was "
			"expected above the readings"},
		{"sample,x\nrecovered (%) | head (C)\nIBP | 71\n5 | 112\n", 2,
			"'recovered (%) | head (C)' is one cell; ',' ';' or a tab between the "
			"columns was expected, in the header and in all other rows"},
		{"sample,x\n%,C\nIBP,71\n5,112\n10,131\nFBP,361\n", 2,
			"3 percent readings are needed; found 2"},
		{"%,C\n5,112\n101,131\n20,150\n", 3,
			"percent '101' is out of range; 0 to 100 was expected"},
		{"%,C\n-5,112\n10,131\n20,150\n", 2,
			"percent '-5' is out of range; 0 to 100 was expected"},
		{"mL,C\n-5,112\n10,131\n20,150\n", 2,
			"amount '-5' is negative; 0 or more was expected"},
		{"%,C\n5,112\n10,701\n20,150\n", 3,
			"head temperature '701' is out of range; -273.15 to 700 C was expected"},
		{"%,F\n5,212\n10,-460\n20,450\n", 3,
			"head temperature '-460' is out of range; -459.67 to 1292 F was expected"},
		{"%,C,pot\n5,112,150\n10,131,999\n20,150,\n", 3,
			"pot temperature '999' is out of range; -273.15 to 700 C was expected"},
		{"%,C\n5,112\n10,131abc\n20,150\n", 3,
			"head temperature '131abc' is not a number; a number such as 131.5 was "
			"expected"},
		{"%;C\n5;112,5\n10;131x\n20;150\n", 3,
			"head temperature '131x' is not a number; a number such as 131,5 was "
			"expected"},
		{"%,C\n5,112\n10%,131\n20,150\n", 3,
			"'10%' is not a number; a percent or amount, IBP, FBP or dry was expected"},
		{"%,C\n5,112\n10,\"1,234.5\"\n20,150\n", 3,
			"head temperature '1,234.5' is not a number; a number such as 131.5 was "
			"expected"},
		{"%,C\n5,112\n10,\"1,234\"\n20,150\n", 3,
			"head temperature '1,234' is not a number; a number such as 131.5 was "
			"expected"},
		{"%,C\n5,112,5\n10,131,3\n20,150,1\n", 2,
			"cell '5' stands beside the table; 2 columns were expected (decimal commas "
			"need ';' between cells, or write a point)"},
		{"%,C,note\n5,112,5\n10,131,3\n20,150,1\n", 2,
			"note '5' is a number; words were expected (decimal commas need ';' "
			"between cells, or write a point)"},
		{"%,C,time\n5,112,\n10,,3\n20,150,\n", 3,
			"no head temperature at '10'; a number was expected"},
		{"%,C\n5,112\n,131\n20,150\n", 3,
			"no amount beside the head temperature '131'; a percent or amount, IBP, "
			"FBP or dry was expected"},
		{"%,C,note\n5,112,\n,,burner up\n20,150,\n", 3,
			"'burner up' stands without amount and head temperature; both were "
			"expected"},
		{"%,C,time\n5,112,12:75\n10,131,\n20,150,\n", 2,
			"time '12:75' is not understood; hh:mm or hh:mm:ss was expected"},
		{"charge,100 mL\nrecovered (%),head (C)\n5;112\n10;131\n20;150\n", 3,
			"'5;112' has ';' between its cells but the header has ','; one separator "
			"in a file was expected"},
		{"%,C,time\n5,112,soon\n10,131,\n20,150,\n", 2,
			"time 'soon' is not a number; minutes, seconds or hh:mm was expected"},
		{"recovered (%),head (X)\n5,112\n10,131\n20,150\n", 1,
			"unit of column 'head (X)' is not understood; C, F or K was expected"},
		{"recovered (gallons),head (C)\n5,112\n10,131\n20,150\n", 1,
			"unit of column 'recovered (gallons)' is not understood; %, mass %, mL or "
			"g was expected"},
		{"recovered (%),head (C),head (F)\n5,112,\n10,131,\n20,150,\n", 1,
			"columns 'head (C)' and 'head (F)' both name the head temperature; one "
			"column was expected"},
		{"%;C\n5;112.5\n10;131,5\n20;150\n", 3,
			"'131,5' has a decimal comma but '112.5' in line 2 a decimal point; one "
			"kind in a file was expected"},
		{"density;0,794\n%;C\n5;112.5\n10;131\n20;150\n", 3,
			"'112.5' has a decimal point but '0,794' in line 1 a decimal comma; one "
			"kind in a file was expected"},
		{"note,\"never closed\n%,C\n5,112\n10,131\n20,150\n", 1,
			"a quote is opened and never closed; a closing '\"' was expected"},
		{"%,C\n5,0x70\n10,131\n20,150\n", 2,
			"head temperature '0x70' is not a number; a number such as 131.5 was "
			"expected"},
		{"%,C\n5,nan\n10,131\n20,150\n", 2,
			"head temperature 'nan' is not a number; a number such as 131.5 was "
			"expected"},
		{"%,C\n5,1e999\n10,131\n20,150\n", 2,
			"head temperature '1e999' is not a number; a number such as 131.5 was "
			"expected"},
	};
	for (size_t i = 0; i < sizeof refusals / sizeof *refusals; i++)
		assert_refused(refusals[i].text, refusals[i].line, refusals[i].message);
}

/* Repeated end points are kept, a time that cannot be is left out: each with one warning. */
static void odd_rows_are_carried_with_a_warning(void **state)
{
	(void)state;
	static const struct refusal warnings[] = {
		{"%,C\nIBP,71\n5,112\nibp,72\n10,131\n20,150\n", 4,
			"IBP is already given in line 2; both rows are kept"},
		{"%,C\n5,112\nFBP,171\nEP,172\n10,131\n20,150\n", 4,
			"FBP is already given in line 3; both rows are kept"},
		{"%,C,time (s)\n5,112,-3\n10,131,\n20,150,\n", 2,
			"time '-3' is out of range and left out; the time since the heat was on "
			"was expected"},
	};
	for (size_t i = 0; i < sizeof warnings / sizeof *warnings; i++) {
		struct outcome outcome;
		struct bc_sample *sample = accepted(&outcome, warnings[i].text);
		assert_int_equal(outcome.diagnostics.n, 1);
		assert_string_equal(outcome.diagnostics.items[0].text, warnings[i].message);
		assert_int_equal(outcome.diagnostics.items[0].line, warnings[i].line);
		assert_int_equal(sample->n_readings, i == 2 ? 3 : 5);
		assert_true(isnan(sample->readings[0].time_s));
		outcome_release(&outcome);
	}
}

static void evaporated_becomes_recovered_by_the_loss(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample = accepted(&outcome,
		"loss,1.7 %\nevaporated (%),head (C)\n1,61\n1.7,73.3\n5,112.6\n10,131.3\n"
		"50,221.7\nFBP,361\n");
	assert_int_equal(sample->n_readings, 5);
	assert_int_equal(sample->readings[0].kind, BC_READING_IBP);
	assert_near(sample->readings[0].head_c, 73.3, EXACT);
	assert_near(sample->readings[1].amount, 3.3, EXACT);
	assert_near(sample->readings[3].amount, 48.3, EXACT);
	assert_int_equal(sample->assumed.n, 1);
	assert_non_null(strstr(sample->assumed.items[0], "less a loss of 1.7"));
	outcome_release(&outcome);

	sample = accepted(&outcome, "% evaporated,C\n5,112.6\n10,131.3\n50,221.7\n");
	assert_near(sample->readings[0].amount, 5.0, EXACT);
	assert_non_null(
		strstr(first_of(&outcome, BC_WARNING)->text, "no loss is given; 0 is taken"));
	outcome_release(&outcome);

	/* side by side: recovered was read */
	sample = accepted(&outcome,
		"loss,1.7 %\nevaporated (%),recovered (%),C\n6.7,5,112.6\n11.7,10,131.3\n"
		"51.7,50,221.7\n");
	assert_near(sample->readings[0].amount, 5.0, EXACT);
	outcome_release(&outcome);
}

static void headers_without_units_are_listed(void **state)
{
	(void)state;
	struct outcome outcome;
	struct bc_sample *sample =
		accepted(&outcome, "recovered,head,pot,time\n5,112.6,,\n10,131.3,,\n50,221.7,,\n");
	static const char *const expected[] = {
		"no unit in the header 'recovered': taken as percent",
		"no unit in the header 'head': taken as degC",
		"no unit in the header 'pot': taken as degC",
		"no unit in the header 'time': taken as min",
	};
	assert_int_equal(sample->assumed.n, 4);
	for (size_t i = 0; i < 4; i++)
		assert_string_equal(sample->assumed.items[i], expected[i]);
	outcome_release(&outcome);
	assert_int_equal(accepted(&outcome, TABLE)->assumed.n, 0);
	outcome_release(&outcome);
}

static void what_is_no_text_is_refused(void **state)
{
	(void)state;
	const char utf16[] = "\xff\xfe%\0,\0C\0";
	const char utf16_big[] = "\xfe\xff\0%\0,\0C";
	const char archive[] = "PK\3\4\x14\0\6\0";
	const char nul[] = "%,C\n5,112\0\n10,131\n20,150\n";
	assert_refused_bytes(utf16, sizeof utf16 - 1, 0,
		"file is UTF-16 text; UTF-8 was expected (save it as 'CSV UTF-8')");
	assert_refused_bytes(utf16_big, sizeof utf16_big - 1, 0,
		"file is UTF-16 text; UTF-8 was expected (save it as 'CSV UTF-8')");
	assert_refused_bytes(archive, sizeof archive - 1, 0,
		"file is a workbook or an archive; CSV text was expected (save it as CSV)");
	assert_refused_bytes(nul, sizeof nul - 1, 0,
		"file is binary, it holds NUL bytes; CSV text was expected");
}

static void a_file_above_the_limit_is_refused(void **state)
{
	(void)state;
	size_t n = BC_SAMPLE_LIMIT_BYTES + 1;
	char *bytes = malloc(n);
	assert_non_null(bytes);
	memset(bytes, '\n', n);
	assert_refused_bytes(bytes, n, 0, "file is larger than 64 MiB; a sample file was expected");
	free(bytes);
}

static double seconds_to_read(size_t rows)
{
	char *text = malloc(40 * rows + 100);
	size_t n = (size_t)sprintf(text, "recovered (%%),head (C),note\n");
	for (size_t i = 0; i < rows; i++)
		n += (size_t)sprintf(text + n, "%.5f,%.2f,\n", 100.0 * (double)i / (double)rows,
			70.0 + 300.0 * (double)i / (double)rows);
	struct outcome outcome;
	struct timespec start;
	struct timespec end;
	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &start);
	outcome_of_bytes(&outcome, text, n);
	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &end);
	assert_int_equal(outcome.status, BC_OK);
	assert_int_equal(outcome.sample->n_readings, rows);
	outcome_release(&outcome);
	free(text);
	return (double)(end.tv_sec - start.tv_sec) + 1e-9 * (double)(end.tv_nsec - start.tv_nsec);
}

static void a_hundred_thousand_readings_are_quick(void **state)
{
	(void)state;
	double seconds = seconds_to_read(100000);
	print_message("100,000 readings: %.3f s\n", seconds);
	/* the aim is "well under a second"; sanitizers and coverage slow this build down */
	assert_true(seconds < 2.0);
	if (getenv("BOILCUT_LONG") != NULL)
		print_message("1,000,000 readings: %.3f s\n", seconds_to_read(1000000));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_table_is_read_as_written),
		cmocka_unit_test(headers_are_found_by_their_words),
		cmocka_unit_test(columns_may_stand_in_any_order),
		cmocka_unit_test(times_are_numbers_or_clocks),
		cmocka_unit_test(spreadsheets_save_the_same_sample_in_many_ways),
		cmocka_unit_test(an_old_code_page_is_read_and_said),
		cmocka_unit_test(utf8_is_told_from_a_code_page),
		cmocka_unit_test(a_row_at_zero_is_the_first_drop),
		cmocka_unit_test(the_charge_bounds_the_amounts),
		cmocka_unit_test(wrong_tables_are_refused),
		cmocka_unit_test(odd_rows_are_carried_with_a_warning),
		cmocka_unit_test(evaporated_becomes_recovered_by_the_loss),
		cmocka_unit_test(headers_without_units_are_listed),
		cmocka_unit_test(what_is_no_text_is_refused),
		cmocka_unit_test(a_file_above_the_limit_is_refused),
		cmocka_unit_test(a_hundred_thousand_readings_are_quick),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
