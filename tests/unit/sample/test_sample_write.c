/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The canonical form, the blank sheet, and a sample from one line. */
#include <glob.h>

#include "base/file.h"
#include "reading.h"

#define EXACT 1e-9

static char *canonical(const struct bc_sample *sample)
{
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_sample_write(sample, &text), BC_OK);
	return bc_text_take(&text);
}

/* Reads text; its canonical form must be expected, and stay so when read again. */
static void assert_tidied(const char *text, const char *expected)
{
	struct outcome outcome;
	char *first = canonical(accepted(&outcome, text));
	outcome_release(&outcome);
	assert_string_equal(first, expected);
	char *second = canonical(accepted(&outcome, first));
	outcome_release(&outcome);
	assert_string_equal(second, first);
	bc_free(first);
	bc_free(second);
}

static void a_bare_table_stays_a_bare_table(void **state)
{
	(void)state;
	assert_tidied("%;\xc2\xb0"
		      "C\nibp;71,4\n5;112,60\n10;+131\n50;2,217e2\nEP;361\nDry Point;359\n",
		"recovered (%),head (C)\nIBP,71.4\n5,112.6\n10,131\n50,221.7\nFBP,361\ndry,359\n");
}

static void every_key_has_its_place_and_unit(void **state)
{
	(void)state;
	assert_tidied(
		"moon;full, nearly\nnote;\"said \"\"wax\"\"\"\nron;91,3\nmon;83\nflash;67,3 C open "
		"cup\n"
		"copper strip;1B\nviscosity;2,13 cSt @ 40\nsulfur;0,0017 %\nstored since;May\n"
		"drawn;second\njar to;341,5 C pot\njar from;305,6 F\nchar;1,1 kg\noil out;27,4 L\n"
		"plastic in;31,2 kg\napparatus;Column 5 3,5\ndensity error;3,7\n"
		"pressure error;7 hPa\nresidue error;0,3\nvolume error;0,9\nreading "
		"error;1,3\nsteam;97,6\nice;0,4\n"
		"immersion;41\nthermometer;GLASS TOTAL\nwater boils;97,9\naltitude;612\n"
		"barometer;942,3 hPa\ndensity;0,7943 @ 21,4\ncondenser;12,5\nreceiver water;0,3 %\n"
		"loss;0,9 %\nresidue;1,6 mL\nresidue mass;1,7\ndistillate mass;74,3\n"
		"charge mass;77,1\ncharge;0,2 "
		"L\nsmell;sour\nstill;kettle\nhistory;AIRED\nplastic;PP\n"
		"by;Mira\ndate;2026-10-03\nname;Lake shed 14\n\n%;C\n5;112,6\n10;131\n50;221,7\n",
		"sample,Lake shed 14\ndate,2026-10-03\noperator,Mira\nfeed,PP\nhistory,aired\n"
		"still,kettle\ncharge,200 mL\ncharge mass,77.1 g\ndistillate mass,74.3 g\n"
		"residue mass,1.7 g\nresidue,1.6 mL\nloss,0.9 %\nwater in receiver,0.3 %\n"
		"condenser temp,12.5 C\ndensity,794.3 kg/m3 @ 21.4 C\nbarometer,94.23 kPa\n"
		"altitude,612 m\nwater boils,97.9 C\nthermometer,glass total\nimmersion,41 "
		"C\nice,0.4 C\n"
		"steam,97.6 C\nreading error,1.3 K\nvolume error,0.9 mL\nresidue error,0.3 mL\n"
		"pressure error,0.7 kPa\ndensity error,3.7 kg/m3\n"
		"apparatus,column 5 3.5\nplastic in,31200 g\n"
		"oil out,27400 mL\nchar,1100 g\njar from,152 C\njar to,341.5 C pot\ndrawn,second\n"
		"stored since,May\nflash,67.3 C open cup\nviscosity,2.13 mm2/s @ 40 C\n"
		"sulphur,17 mg/kg\ncopper strip,1b\nron,91.3\nmon,83\nnote,\"said \"\"wax\"\"\"\n"
		"moon,\"full, nearly\"\nsmell,sour\n\n"
		"recovered (%),head (C)\n5,112.6\n10,131\n50,221.7\n");
}

static void optional_columns_only_when_used(void **state)
{
	(void)state;
	assert_tidied("mass %,F,time (min),note,pot (F)\n5,212.9,1.5,\"a, "
		      "b\",\n10,251,,,300\n50,392,,,\n",
		"recovered (mass %),head (C),pot (C),time (s),note\n5,100.5,,90,\"a, b\"\n"
		"10,121.6666667,148.8888889,,\n50,200,,,\n");
	assert_tidied("charge mass,80\ng,C,remark,pot\n5,212.9,,\n10,251,,\n50,392,,\n",
		"charge mass,80 g\n\nrecovered (g),head (C)\n5,212.9\n10,251\n50,392\n");
	assert_tidied("charge,80 g\ndensity,0.8\nmL,C\n5,212.9\n10,251\n50,392\n",
		"charge mass,80 g\ndensity,0.8 g/mL\n\n"
		"recovered (mL),head (C)\n5,212.9\n10,251\n50,392\n");
	/* what was computed is computed again */
	assert_tidied("residue mass,1 g\ndensity,794 kg/m3\ng,C\n5,212.9\n10,251\n50,392\n",
		"residue mass,1 g\ndensity,794 kg/m3\n\n"
		"recovered (g),head (C)\n5,212.9\n10,251\n50,392\n");
}

/* Conversions leave noise in the last bits; no more than ten digits are written. */
static void numbers_are_written_without_noise(void **state)
{
	(void)state;
	assert_tidied("barometer,707 mmHg\nice,32.9 F\nloss,-0 %\napparatus,column 5 "
		      "-0\n%,F\n0.1,160.7\n33.33333333333,235.1\n"
		      "50,612.3\n",
		"loss,0 %\nbarometer,94.2589279 kPa\nice,0.5 C\n"
		"apparatus,column 5 0\n\n"
		"recovered (%),head (C)\n0.1,71.5\n33.33333333,112.8333333\n50,322.3888889\n");
}

static void control_characters_are_left_out_of_text(void **state)
{
	(void)state;
	assert_tidied("note,\"one\ntwo;\tthree \x1b[31m\"\n%,C\n5,112.6\n10,131\n50,221.7\n",
		"note,\"one\ntwo;\tthree [31m\"\n\nrecovered (%),head "
		"(C)\n5,112.6\n10,131\n50,221.7\n");
	struct outcome outcome;
	struct bc_sample *sample = accepted(&outcome, "\nname,a\x07"
						      "b\xe2\x80\xae"
						      "c\xe2\x81\xa6"
						      "d\xc2\x85"
						      "e\xe2\x80\x8f"
						      "f\nsmell,\x7fg\n" TABLE);
	assert_string_equal(sample->name, "abcdef");
	assert_string_equal(sample->kept[0].value, "g");
	assert_int_equal(outcome.diagnostics.n, 1);
	assert_int_equal(outcome.diagnostics.items[0].severity, BC_WARNING);
	assert_int_equal(outcome.diagnostics.items[0].line, 2);
	outcome_release(&outcome);
}

/* How exactly a density was written must come back. */
static void a_density_keeps_its_digits(void **state)
{
	(void)state;
	static const struct {
		const char *written;
		const char *canonical;
		double step;
	} densities[] = {
		{"0.82 g/mL", "0.82 g/mL", 5.0},
		{"0.820", "820 kg/m3", 0.5},
		{"0.803 g/mL", "803 kg/m3", 0.5},
		{"0.8 kg/L", "0.8 g/mL", 50.0},
		{"0.8030 g/mL", "803.0 kg/m3", 0.05},
		{"8.03e2 kg/m3", "803 kg/m3", 0.5},
		{"8e2 kg/m3", "0.8 g/mL", 50.0},
		{"803 kg/m3 @ 21.7 C", "803 kg/m3 @ 21.7 C", 0.5},
		{"46.2 API", "795.4991446 kg/m3", 0.2238},
	};
	for (size_t i = 0; i < sizeof densities / sizeof *densities; i++) {
		struct outcome outcome;
		char text[300];
		char expected[300];
		snprintf(text, sizeof text, "density,%s\n%s", densities[i].written, TABLE);
		snprintf(expected, sizeof expected, "density,%s\n\n%s", densities[i].canonical,
			TABLE);
		assert_near(accepted(&outcome, text)->density_step_kgm3, densities[i].step, 1e-4);
		outcome_release(&outcome);
		assert_tidied(text, expected);
	}
}

/* Text that looks like a table, a comment or another separator must come back as text. */
static void text_cannot_pass_for_structure(void **state)
{
	(void)state;
	assert_tidied("\"recovered;head\",x\nfeed,\"recovered;head\"\nnote,\"a\n#b\n5;7\"\n"
		      "%,C\n5,112.6\n10,131\n50,221.7\n",
		"feed,\"recovered;head\"\nnote,\"a\n#b\n5;7\"\n\"recovered;head\",x\n\n"
		"recovered (%),head (C)\n5,112.6\n10,131\n50,221.7\n");
}

static void every_shipped_sample_is_tidied_once(void **state)
{
	(void)state;
	char pattern[1000];
	glob_t files;
	const char *top = getenv("TOP");
	snprintf(pattern, sizeof pattern, "%s/samples/*.csv", top != NULL ? top : ".");
	assert_int_equal(glob(pattern, 0, NULL, &files), 0);
	for (size_t i = 0; i < files.gl_pathc; i++) {
		char *bytes = NULL;
		size_t n = 0;
		struct outcome outcome;
		assert_int_equal(
			bc_file_read(files.gl_pathv[i], BC_SAMPLE_LIMIT_BYTES, &bytes, &n, NULL),
			BC_OK);
		char *first = canonical(accepted(&outcome, bytes));
		outcome_release(&outcome);
		char *second = canonical(accepted(&outcome, first));
		outcome_release(&outcome);
		assert_string_equal(second, first);
		bc_free(first);
		bc_free(second);
		bc_free(bytes);
	}
	globfree(&files);
}

/* A row of text that is a header with another separator, but has no reading below it. */
static void a_header_needs_readings_of_its_own(void **state)
{
	(void)state;
	assert_tidied("recovered;head\nnote,3;4\n%,C\n5,112.6\n10,131\n50,221.7\n",
		"note,\"3;4\"\n\"recovered;head\",\n\n"
		"recovered (%),head (C)\n5,112.6\n10,131\n50,221.7\n");
}

/* What a person does: a value behind a comma, a temperature behind each percent. */
static void the_blank_sheet_is_a_sample_once_filled_in(void **state)
{
	(void)state;
	struct bc_text text;
	struct outcome outcome;
	bc_text_init(&text);
	assert_int_equal(bc_sample_template(&text), BC_OK);
	outcome_of(&outcome, text.data);
	assert_int_equal(outcome.status, BC_MALFORMED);
	assert_int_equal(outcome.diagnostics.n, 1);
	assert_string_equal(
		outcome.diagnostics.items[0].text, "3 percent readings are needed; found 0");
	outcome_release(&outcome);

	struct bc_text filled;
	bc_text_init(&filled);
	char *rest = text.data;
	for (char *line = strtok(rest, "\n"); line != NULL; line = strtok(NULL, "\n")) {
		assert_true(bc_text_columns(line) <= 90);
		bc_text_append(&filled, line);
		if (strcmp(line, "density,") == 0)
			bc_text_append(&filled, "0.7943 g/mL @ 21.4 C");
		if (line[0] >= '1' && line[0] <= '9')
			bc_text_printf(&filled, "%d.5", 100 + atoi(line));
		bc_text_append(&filled, "\n");
	}
	struct bc_sample *sample = accepted(&outcome, filled.data);
	assert_int_equal(sample->n_readings, 11);
	assert_near(sample->density_kgm3, 794.3, EXACT);
	assert_near(sample->readings[10].head_c, 195.5, EXACT);
	assert_int_equal(outcome.diagnostics.n, 0);
	outcome_release(&outcome);
	bc_text_release(&filled);
	bc_text_release(&text);
}

static void one_line_is_a_sample(void **state)
{
	(void)state;
	struct bc_sample *sample;
	struct bc_diagnostics diagnostics;
	bc_diagnostics_init(&diagnostics);
	assert_int_equal(
		bc_sample_from_line("ibp 71.4, 5 112.5,10 131.2,  50\t221.7 , end point 361,",
			&diagnostics, &sample),
		BC_OK);
	assert_int_equal(sample->n_readings, 5);
	assert_int_equal(sample->readings[0].kind, BC_READING_IBP);
	assert_near(sample->readings[1].amount, 5.0, EXACT);
	assert_near(sample->readings[1].head_c, 112.5, EXACT);
	assert_int_equal(sample->readings[4].kind, BC_READING_FBP);
	assert_string_equal(sample->file, "readings");
	bc_sample_free(sample);
	assert_int_equal(
		bc_sample_from_line("5 112,5; 10 131,2; 50 221,7", &diagnostics, &sample), BC_OK);
	assert_near(sample->readings[2].head_c, 221.7, EXACT);
	bc_sample_free(sample);
	assert_int_equal(bc_sample_from_line("ibp 160.7 F, 5 234.5F, 10 131.2 \xc2\xb0"
					     "C, 50 221.7, ep 634.15 K",
				 &diagnostics, &sample),
		BC_OK);
	assert_near(sample->readings[0].head_c, 71.5, EXACT);
	assert_near(sample->readings[1].head_c, 112.5, EXACT);
	assert_near(sample->readings[2].head_c, 131.2, EXACT);
	assert_near(sample->readings[3].head_c, 221.7, EXACT);
	assert_near(sample->readings[4].head_c, 361.0, EXACT);
	assert_int_equal(sample->assumed.n, 0);
	bc_sample_free(sample);
	assert_int_equal(diagnostics.n, 0);
	bc_diagnostics_release(&diagnostics);
}

static void one_line_is_refused_like_a_file(void **state)
{
	(void)state;
	static const char *const lines[][2] = {
		{"", "3 percent readings are needed; found 0"},
		{"5 112 X, 10 131, 20 150", "'5 112 X' is no reading; percent and temperature such "
					    "as '5 112.5' or '5 234.5 F' was expected"},
		{"5 112, 10 131", "3 percent readings are needed; found 2"},
		{"5 112,5, 10 131, 20 150", "'5' is no reading; percent and temperature such as '5 "
					    "112.5' was expected"},
		{"5 112; 10 131.2; 20 150,3",
			"decimal points and decimal commas are mixed; one kind was expected"},
		{"5 112x, 10 131, 20 150", "head temperature '112x' is not a number; a number such "
					   "as 131.5 was expected"},
		{"half 112, 10 131, 20 150", "'half' is not a number; a percent or amount, IBP, "
					     "FBP or dry was expected"},
	};
	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
		struct bc_diagnostics diagnostics;
		struct bc_sample *sample;
		bc_diagnostics_init(&diagnostics);
		assert_int_equal(
			bc_sample_from_line(lines[i][0], &diagnostics, &sample), BC_MALFORMED);
		assert_null(sample);
		assert_int_equal(diagnostics.n, 1);
		assert_string_equal(diagnostics.items[0].text, lines[i][1]);
		assert_string_equal(diagnostics.items[0].file, "readings");
		assert_int_equal(diagnostics.items[0].line, 0);
		bc_diagnostics_release(&diagnostics);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_bare_table_stays_a_bare_table),
		cmocka_unit_test(every_key_has_its_place_and_unit),
		cmocka_unit_test(optional_columns_only_when_used),
		cmocka_unit_test(numbers_are_written_without_noise),
		cmocka_unit_test(control_characters_are_left_out_of_text),
		cmocka_unit_test(a_density_keeps_its_digits),
		cmocka_unit_test(text_cannot_pass_for_structure),
		cmocka_unit_test(every_shipped_sample_is_tidied_once),
		cmocka_unit_test(a_header_needs_readings_of_its_own),
		cmocka_unit_test(the_blank_sheet_is_a_sample_once_filled_in),
		cmocka_unit_test(one_line_is_a_sample),
		cmocka_unit_test(one_line_is_refused_like_a_file),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
