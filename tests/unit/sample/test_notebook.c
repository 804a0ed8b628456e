/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of the notebook, what they make of a sample, and the lines of a logger. */
#include "sample/notebook.h"
#include "unit/unit.h"

#include <string.h>

#include "base/memory.h"
#include "base/units.h"
#include "sample/logger.h"
#include "sample/typed.h"

/* ---- words */

/* "KIND POINT AMOUNT HEAD POT TEXT" of a typed line. */
static void assert_typed(const char *line, const char *expected)
{
	static const char *const kinds[] = {
		"nothing", "entry", "bare", "list", "help", "finish", "quit", "yes", "no", "wrong"};
	struct bc_typed typed;
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_typed_read(line, &typed), BC_OK);
	bc_text_append(&text, kinds[typed.kind]);
	if (typed.kind == BC_TYPED_WRONG)
		bc_text_printf(&text, ": %s", typed.why);
	if (typed.kind == BC_TYPED_ENTRY || typed.kind == BC_TYPED_BARE) {
		bc_text_append(&text, " ");
		bc_entry_write(&typed.entry, &text);
	}
	assert_string_equal(text.data, expected);
	bc_text_release(&text);
	bc_typed_release(&typed);
}

static void words(void **state)
{
	(void)state;
	assert_typed("", "nothing");
	assert_typed(" \t ", "nothing");
	assert_typed("5 112.5", "entry 0|||read|5|112.5||");
	assert_typed("  5\t112,5  ", "entry 0|||read|5|112.5||");
	assert_typed("112.5", "bare 0|||note||112.5||");
	assert_typed("5 112.5 pot 240", "entry 0|||read|5|112.5|240|");
	assert_typed("IBP 71", "entry 0|||read|IBP|71||");
	assert_typed("ep 361 pot 340", "entry 0|||read|FBP|361|340|");
	assert_typed("dry", "entry 0|||read|dry|||");
	assert_typed("fix 20 148", "entry 0|||fix|20|148||");
	assert_typed("fix ibp 73", "entry 0|||fix|IBP|73||");
	assert_typed("pot 240", "entry 0|||pot|||240|");
	assert_typed("note  bumping, a bit ", "entry 0|||note||||bumping, a bit");
	assert_typed("undo", "entry 0|||undo||||");
	assert_typed("charge mass 81.2 g", "entry 0|||key||||charge mass\t81.2 g");
	assert_typed("Density: 0.803 g/mL @ 21 C", "entry 0|||key||||density\t0.803 g/mL @ 21 C");
	assert_typed("Finish", "finish");
	assert_typed("quit", "quit");
	assert_typed("?", "help");
	assert_typed("list", "list");
	assert_typed("YES", "yes");
	assert_typed("n", "no");
	assert_typed("note a\033[2Jb", "entry 0|||note||||a[2Jb");
}

static void wrong_words(void **state)
{
	(void)state;
	assert_typed("zork", "wrong: 'zork' is not a number; write such as '5 112.5', or 'help'");
	assert_typed("5 x", "wrong: 'x' is not a temperature; write such as '5 112.5'");
	assert_typed("5 112.5 7",
		"wrong: '7' is one word too many; write such as '5 112.5', or 'note ...'");
	assert_typed(
		"5,112.5", "wrong: '5,112.5' is not a number; write such as '5 112.5', or 'help'");
	assert_typed("ibp x", "wrong: 'ibp' goes with one temperature; write such as 'ibp 171'");
	assert_typed("ibp 1 2", "wrong: 'ibp' goes with one temperature; write such as 'ibp 171'");
	assert_typed("fix 20",
		"wrong: 'fix' goes with a place and a temperature; write such as 'fix 20 148' or "
		"'fix ibp 71'");
	assert_typed("pot", "wrong: 'pot' goes with one temperature; write such as 'pot 240'");
	assert_typed("note", "wrong: 'note' goes with words; write such as 'note bumping'");
	assert_typed("note 5", "wrong: 'note' goes with words; write such as 'note bumping'");
	assert_typed(
		"residue", "wrong: 'residue' goes with its value; write such as 'residue 1.4 mL'");
	assert_typed("0x1F", "wrong: '0x1F' is not a number; write such as '5 112.5', or 'help'");
	assert_typed("nan", "wrong: 'nan' is not a number; write such as '5 112.5', or 'help'");
}

/* ---- the notebook */

static struct bc_notebook notebook;

static void type(const char *line)
{
	struct bc_typed typed;
	assert_int_equal(bc_typed_read(line, &typed), BC_OK);
	assert_int_equal(typed.kind, BC_TYPED_ENTRY);
	assert_int_equal(bc_notebook_apply(&notebook, &typed.entry), BC_OK);
	bc_typed_release(&typed);
}

static void assert_file(const char *expected)
{
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_notebook_write(&notebook, NULL, &text), BC_OK);
	assert_string_equal(text.data, expected);
	bc_text_release(&text);
}

static void begin(const char *sheet)
{
	struct bc_sample *sample = NULL;
	const struct bc_unit *unit = NULL;
	bc_notebook_init(&notebook);
	notebook.file = "t.csv";
	assert_int_equal(
		bc_sample_read_sheet(sheet, strlen(sheet), "t.csv", NULL, &sample, &unit), BC_OK);
	assert_int_equal(bc_notebook_begin(&notebook, sample, bc_unit_name(unit)[0]), BC_OK);
	bc_sample_free(sample);
}

static void a_sheet_filled_in(void **state)
{
	(void)state;
	begin("sample,A\ncharge,200 mL\nnote,\"a, b\"\n\nrecovered (mL),head (F)\nIBP,\n5,\n");
	type("ibp 171.5");
	type("10 233 pot 301");
	type("note bumping");
	type("fbp 600");
	type("20 250");
	type("note it stopped");
	type("residue 1 mL");
	type("residue 2.5 mL");
	type("charge 198 mL");
	assert_file("sample,A\nresidue,2.5 mL\ncharge,198 mL\nnote,\"a, b\"\n\n"
		    "recovered (mL),head (F),pot (F),time (s),note\n"
		    "IBP,171.5,,,\n10,233,301,,bumping\n20,250,,,it stopped\nFBP,600,,,\n");
	bc_notebook_release(&notebook);
}

static void taken_back(void **state)
{
	(void)state;
	begin("recovered (%),head (C)\n");
	type("note lid on late");
	type("5 112.5");
	type("fix 5 113");
	type("pot 240");
	assert_file("note,lid on late\n\nrecovered (%),head (C),pot (C),time (s),note\n"
		    "5,113,240,,\n");
	type("undo");
	type("undo");
	assert_file("note,lid on late\n\nrecovered (%),head (C),pot (C),time (s),note\n"
		    "5,112.5,,,\n");
	type("10 131");
	type("undo");
	type("undo");
	type("undo");
	type("undo");
	assert_file("\nrecovered (%),head (C),pot (C),time (s),note\n");
	bc_notebook_release(&notebook);
}

static void a_sheet_in_evaporated(void **state)
{
	(void)state;
	const char sheet[] = "evaporated (%),head (C)\n";
	struct bc_sample *sample = NULL;
	const struct bc_unit *unit = NULL;
	assert_int_equal(bc_sample_read_sheet(sheet, strlen(sheet), "t.csv", NULL, &sample, &unit),
		BC_MALFORMED);
	assert_null(sample);
}

/* ---- the logger */

static struct bc_logger logger;

static void assert_logged(
	const char *line, enum bc_logged expected, double amount, double head, const char *why)
{
	struct bc_entry entry;
	struct bc_text text;
	bc_text_init(&text);
	assert_int_equal(bc_logger_line(&logger, line, &entry, &text), expected);
	assert_string_equal(text.data != NULL ? text.data : "", why);
	if (!isnan(head))
		assert_close(entry.head, head, 1e-9);
	if (!isnan(amount))
		assert_close(entry.amount, amount, 1e-9);
	bc_entry_release(&entry);
	bc_text_release(&text);
}

static void start(const char *unit, const char *own)
{
	bc_logger_init(&logger, bc_unit_find(BC_QUANTITY_TEMPERATURE, unit),
		bc_unit_find(BC_QUANTITY_TEMPERATURE, own));
}

static void bare_numbers(void **state)
{
	(void)state;
	start("F", "C");
	assert_logged("233.6", BC_LOGGED_HEAD, NAN, 112.0, "");
	assert_logged("233.6", BC_LOGGED_HEAD, NAN, 112.0, "");
	assert_logged("", BC_LOGGED_NOTHING, NAN, NAN, "");
	assert_logged("# hello", BC_LOGGED_NOTHING, NAN, NAN, "");
	assert_logged("2#3.6", BC_LOGGED_GARBLED, NAN, NAN, "'2#3.6' is no reading");
	assert_logged(
		"-196.6", BC_LOGGED_GARBLED, NAN, NAN, "'-196.6' is no temperature of a head");
	assert_int_equal(logger.n_garbled, 2);
	assert_int_equal(logger.n_good, 2);
	/* a spike is skipped, a new level is believed at its third line */
	assert_logged("433.6", BC_LOGGED_GARBLED, NAN, NAN, "'433.6' is far from the last head");
	assert_logged("233.6", BC_LOGGED_HEAD, NAN, 112.0, "");
	assert_logged("433.6", BC_LOGGED_GARBLED, NAN, NAN, "'433.6' is far from the last head");
	assert_logged("434.6", BC_LOGGED_GARBLED, NAN, NAN, "'434.6' is far from the last head");
	assert_logged("433.6", BC_LOGGED_HEAD, NAN, 223.1111111111, "");
}

static void amounts(void **state)
{
	(void)state;
	start("C", "C");
	assert_logged("IBP;71,5", BC_LOGGED_READING, NAN, 71.5, "");
	assert_logged("5;112,5;240", BC_LOGGED_READING, 5.0, 112.5, "");
	assert_logged("5;112,5;240", BC_LOGGED_REPEATED, NAN, NAN, "the same line again");
	assert_logged("4;112,7", BC_LOGGED_GARBLED, NAN, NAN, "'4;112,7' goes back to less");
	assert_logged("10;131;", BC_LOGGED_READING, 10.0, 131.0, "");
	assert_logged("1;0;;;;;;;;;;;;;;;;;", BC_LOGGED_GARBLED, NAN, NAN,
		"'1;0;;;;;;;;;;;;;;;;;' is far from the last head");
	assert_int_equal(logger.n_repeated, 1);
}

static void a_header(void **state)
{
	(void)state;
	start("C", "C");
	assert_logged("time (s),head (F),recovered (mL)", BC_LOGGED_NOTHING, NAN, NAN, "");
	assert_logged("10,212,", BC_LOGGED_HEAD, NAN, 100.0, "");
	assert_logged("10,212,", BC_LOGGED_REPEATED, NAN, NAN, "the same line again");
	assert_logged("11,213.8,5", BC_LOGGED_READING, 5.0, 101.0, "");
	assert_logged("12,213.8,5", BC_LOGGED_READING, 5.0, 101.0, "");
	assert_logged("13", BC_LOGGED_GARBLED, NAN, NAN, "'13' is no reading");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(words),
		cmocka_unit_test(wrong_words),
		cmocka_unit_test(a_sheet_filled_in),
		cmocka_unit_test(taken_back),
		cmocka_unit_test(a_sheet_in_evaporated),
		cmocka_unit_test(bare_numbers),
		cmocka_unit_test(amounts),
		cmocka_unit_test(a_header),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
