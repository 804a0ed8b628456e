/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'watch' as a person has it: on a terminal, killed, on a full disk, with a logger. */
#define _DEFAULT_SOURCE /* TIOCSWINSZ */
#define _XOPEN_SOURCE 700
#include "terminal.h"

#include <sys/resource.h>
#include <sys/stat.h>

#include "base/file.h"
#include "base/memory.h"
#include "sample/journal.h"

static char folder[256];
static char home[256];
static char clock_path[300];
static const char *program;
static struct session session;

static int make_folder(void **state)
{
	(void)state;
	const char *scratch = getenv("BUILD"); /* tests/run.sh sets it */
	snprintf(folder, sizeof folder, "%s/watch-XXXXXX", scratch ? scratch : ".");
	if (getcwd(home, sizeof home) == NULL || mkdtemp(folder) == NULL || chdir(folder) != 0)
		return -1;
	snprintf(clock_path, sizeof clock_path, "%s/clock", folder);
	setenv("TERM", "xterm", 1);
	setenv("LC_ALL", "C.UTF-8", 1);
	setenv("BOILCUT_CLOCK", clock_path, 1);
	return 0;
}

static int remove_folder(void **state)
{
	(void)state;
	session_kill(&session); /* after a failure */
	static const char *const names[] = {"clock", "a.csv", "a.csv.journal", "p.gp", "tap.json",
		"device", "feed.csv", "link"};
	for (size_t i = 0; i < sizeof names / sizeof *names; i++)
		unlink(names[i]);
	return chdir(home) != 0 || rmdir(folder) != 0 ? -1 : 0;
}

static void write_text(const char *path, const char *text)
{
	assert_int_equal(bc_file_write(path, text, strlen(text), NULL), BC_OK);
}

static void set_clock(double time_s)
{
	char text[80];
	snprintf(text, sizeof text, "%.3f %.3f\n", 500.0 + time_s, 1790000000.0 + time_s);
	write_text(clock_path, text);
}

static char *file_text(const char *path)
{
	char *bytes = NULL;
	size_t n = 0;
	assert_int_equal(bc_file_read(path, 1000000, &bytes, &n, NULL), BC_OK);
	return bytes;
}

static void assert_file(const char *path, const char *expected)
{
	char *bytes = file_text(path);
	assert_string_equal(bytes, expected);
	bc_free(bytes);
}

static bool exists(const char *path) { return access(path, F_OK) == 0; }

#define KEYS "sample,Shed 3\nhistory,rerun\nbarometer,101.325 kPa\nthermometer,glass d86\n"
#define SHEET KEYS "\nrecovered (%),head (C)\nIBP,\n"

static void on_terminal(const char *option, int rows, int columns)
{
	const char *const words[] = {program, "watch", "a.csv", option, NULL};
	set_clock(0.0);
	session_on_terminal(&session, words, rows, columns);
}

static void on_pipes(const char *option)
{
	const char *const words[] = {program, "watch", "a.csv", option, NULL};
	set_clock(0.0);
	session_on_pipes(&session, words);
}

/* Lines from a pipe, all at once; the exit status. */
static int fed(const char *option, const char *lines)
{
	on_pipes(option);
	type(&session, lines);
	close(session.in);
	session.in = session.fd;
	return session_end(&session);
}

/* ---- screens */

static void a_run_on_a_terminal(void **state)
{
	(void)state;
	static const struct {
		double time_s;
		const char *line;
		const char *prompt; /* that comes behind the answer */
	} lines[] = {
		{0, "171\n", "\n5> "},
		{67, "184\n", "\n10> "},
		{120, "5 190\n", "\n10> "},
		{127, "10 90\n", "\ny or n> "},
		{128, "n\n", "\n10> "},
		{129, "190.2 pot 231\n", "\n20> "},
		{130, "note lid rattles\n", "\n20> "},
		{131, "zork\n", "\n20> "},
		{132, "fix 10 190.5\n", "\n20> "},
		{133, "undo\n", "\n20> "},
		{190, "201\n", "\n30> "},
		{300, "residue 1.4 mL\n", "\n30> "},
		{310, "fbp 284\n", "\n> "},
		{320, "finish\n", "y or n> "},
	};
	write_text("a.csv", SHEET);
	on_terminal("--no-sketch", 40, 100);
	wait_for(&session, "IBP> ");
	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
		set_clock(lines[i].time_s);
		type(&session, lines[i].line);
		wait_for(&session, lines[i].prompt);
	}
	type(&session, "n\n");
	assert_int_equal(session_end(&session), 0);
	assert_int_equal(session.screen.bells, 1);
	assert_screen(&session,
		"every entry is safe once it is answered; 'help' lists what can be written\n"
		"IBP> 171\n"
		"IBP: 171.0 degC corrected\n"
		"5> 184\n"
		"5 %: 184.0 degC corrected; 4.5 mL/min; 10 % near 197\n"
		"10> 5 190\n"
		"5 % is read already, 184; write 'fix 5 190' to change it\n"
		"10> 10 90\n"
		"90 at 10 % is 94.0 below the reading before; keep it? y or n\n"
		"y or n> n\n"
		"left out: 10 %\n"
		"10> 190.2 pot 231\n"
		"10 %: 190.2 degC corrected; 4.8 mL/min; 20 % near 203\n"
		"20> note lid rattles\n"
		"noted\n"
		"20> zork\n"
		"'zork' is not a number; write such as '5 112.5', or 'help'\n"
		"20> fix 10 190.5\n"
		"fixed: 10 % 190.5\n"
		"20> undo\n"
		"taken back; 3 readings stand\n"
		"20> 201\n"
		"20 %: 201.0 degC corrected; 9.8 mL/min (fast); 30 % near 212; flash 57, low 46\n"
		"ALARM: too fast, 9.8 mL/min: turn the heat down to 4 to 5 mL/min\n"
		"30> residue 1.4 mL\n"
		"residue noted\n"
		"30> fbp 284\n"
		"FBP: 284.0 degC corrected; flash 58, low 47\n"
		"> finish\n"
		"a.csv is written; judge it now? y or n> n\n");
	assert_file("a.csv",
		"sample,Shed 3\nhistory,rerun\nresidue,1.4 mL\nbarometer,101.325 kPa\n"
		"thermometer,glass d86\n\nrecovered (%),head (C),pot (C),time (s),note\nIBP,171,,0,\n"
		"5,184,,67,\n10,190.2,231,129,lid rattles\n20,201,,190,\nFBP,284,,310,\n");
	assert_false(exists("a.csv.journal"));
}

/* Lines one after the other, each when the one before is answered. */
static void go_through(const char *const *lines, size_t n)
{
	on_terminal("--no-sketch", 90, 80);
	wait_for(&session, "> ");
	for (size_t i = 0; i < n; i++) {
		set_clock(60.0 * (double)(i + 1));
		type(&session, lines[i]);
		wait_for(&session, "\r\n");
		wait_for(&session, "> ");
	}
	type(&session, "quit\n");
	assert_int_equal(session_end(&session), 0);
}

static void every_entry(void **state)
{
	(void)state;
	static const char *const lines[] = {"note lid on late\n", "ibp 171\n", "5 184\n", "190\n",
		"20 201,5 pot 231\n", "pot 240\n", "209\n", "fix 20 201\n", "fix IBP 170.5\n",
		"note bumping, a bit\n", "undo\n", "Density: 0.803 g/mL @ 21 C\n", "\n", "help\n",
		"dry\n", "dry 280\n", "fbp 284\n", "list\n"};
	write_text("a.csv", SHEET);
	go_through(lines, sizeof lines / sizeof *lines);
	assert_screen(&session,
		"every entry is safe once it is answered; 'help' lists what can be written\n"
		"IBP> note lid on late\n"
		"noted\n"
		"IBP> ibp 171\n"
		"IBP: 171.0 degC corrected\n"
		"5> 5 184\n"
		"5 %: 184.0 degC corrected; 5.0 mL/min; 10 % near 197\n"
		"10> 190\n"
		"10 %: 190.0 degC corrected; 5.0 mL/min; 20 % near 202\n"
		"20> 20 201,5 pot 231\n"
		"20 %: 201.5 degC corrected; 10.0 mL/min (fast); 30 % near 213; flash 57, low 46\n"
		"ALARM: too fast, 10.0 mL/min: turn the heat down to 4 to 5 mL/min\n"
		"30> pot 240\n"
		"pot 240 noted\n"
		"30> 209\n"
		"30 %: 209.0 degC corrected; 5.0 mL/min; 40 % near 216; flash 57, low 46\n"
		"40> fix 20 201\n"
		"fixed: 20 % 201\n"
		"40> fix IBP 170.5\n"
		"fixed: IBP 170.5\n"
		"40> note bumping, a bit\n"
		"noted\n"
		"40> undo\n"
		"taken back; 5 readings stand\n"
		"40> Density: 0.803 g/mL @ 21 C\n"
		"density noted\n"
		"40>\n"
		"40> help\n"
		"  112.5         the next expected place\n"
		"  5 112.5       at 5 the thermometer shows 112.5\n"
		"  ibp 71        first drop; fbp 361 the highest; dry, or dry 352\n"
		"  pot 240       the pot, beside the last reading; or 5 112.5 pot 240\n"
		"  note WORDS    beside the last reading\n"
		"  residue 1.4 mL, density 0.803 g/mL, ...   any key of a sample file\n"
		"  fix 20 148    another temperature for a reading\n"
		"  undo          takes back the last entry\n"
		"  list          what is read\n"
		"  finish        writes the sample file; quit keeps the journal for later\n"
		"40> dry\n"
		"noted\n"
		"ALARM: the flask is dry: heat off\n"
		"40> dry 280\n"
		"dry: 280.0 degC corrected; flash 57, low 46\n"
		"> fbp 284\n"
		"FBP: 284.0 degC corrected; flash 57, low 46\n"
		"> list\n"
		"  IBP  170.5 C  2:00\n"
		"  5 %  184 C  3:00\n"
		"  10 %  190 C  4:00\n"
		"  20 %  201 C  pot 240  5:00\n"
		"  30 %  209 C  7:00  dry\n"
		"  dry  280 C  16:00\n"
		"  FBP  284 C  17:00\n"
		"> quit\n"
		"stopped; 7 readings are safe in a.csv.journal\n"
		"to go on: boilcut watch a.csv\n");
}

static void every_bad_entry(void **state)
{
	(void)state;
	static const char *const lines[] = {"y\n", "undo\n", "pot 240\n", "ibp\n", "ibp x\n",
		"0 90\n", "101 190\n", "5 900\n", "5 1 2\n", "5,112.5\n", "5 x\n", "zork\n",
		"note\n", "note 7\n", "pot\n", "fix 5\n", "fix 5 120\n", "residue\n",
		"residue much\n", "flash 61 parsec\n", "history never\n", "ibp 7\n", "n\n",
		"ibp 171\n", "ibp 172\n", "5 320\n", "5 190\n", "10 150\n", "\n",
		"10 195 pot 120\n", "no\n", "450\n", "y\n", "20 195\n", "n\n", "7 192\n", "n\n",
		"fix 5 460\n", "n\n", "finish\n"};
	write_text("a.csv", SHEET);
	go_through(lines, sizeof lines / sizeof *lines);
	assert_screen(&session,
		"every entry is safe once it is answered; 'help' lists what can be written\n"
		"IBP> y\n"
		"nothing was asked\n"
		"IBP> undo\n"
		"there is nothing to take back\n"
		"IBP> pot 240\n"
		"nothing is read yet that the pot could stand beside\n"
		"IBP> ibp\n"
		"the temperature is missing; write such as 'ibp 71'\n"
		"IBP> ibp x\n"
		"'ibp' goes with one temperature; write such as 'ibp 171'\n"
		"IBP> 0 90\n"
		"0 is no place; write 'ibp' for the first drop\n"
		"IBP> 101 190\n"
		"101 % is more than the charge\n"
		"IBP> 5 900\n"
		"900 C is no temperature of an oil; write such as 112.5\n"
		"IBP> 5 1 2\n"
		"'2' is one word too many; write such as '5 112.5', or 'note ...'\n"
		"IBP> 5,112.5\n"
		"'5,112.5' is not a number; write such as '5 112.5', or 'help'\n"
		"IBP> 5 x\n"
		"'x' is not a temperature; write such as '5 112.5'\n"
		"IBP> zork\n"
		"'zork' is not a number; write such as '5 112.5', or 'help'\n"
		"IBP> note\n"
		"'note' goes with words; write such as 'note bumping'\n"
		"IBP> note 7\n"
		"'note' goes with words; write such as 'note bumping'\n"
		"IBP> pot\n"
		"'pot' goes with one temperature; write such as 'pot 240'\n"
		"IBP> fix 5\n"
		"'fix' goes with a place and a temperature; write such as 'fix 20 148' or 'fix\n"
		"  ibp 71'\n"
		"IBP> fix 5 120\n"
		"5 % is not read; 'list' shows what is\n"
		"IBP> residue\n"
		"'residue' goes with its value; write such as 'residue 1.4 mL'\n"
		"IBP> residue much\n"
		"residue 'much' is not a number; a number such as 12.5 mL was expected\n"
		"IBP> flash 61 parsec\n"
		"unit 'parsec' of flash is not understood; C, F, K, R was expected\n"
		"IBP> history never\n"
		"history 'never' is not understood and counts as not stated; retort, rerun,\n"
		"  aired or unknown was expected\n"
		"IBP> ibp 7\n"
		"7 at IBP is colder than a shed; keep it? y or n\n"
		"y or n> n\n"
		"left out: IBP\n"
		"IBP> ibp 171\n"
		"IBP: 171.0 degC corrected\n"
		"5> ibp 172\n"
		"IBP is read already, 171; write 'fix IBP 172' to change it\n"
		"5> 5 320\n"
		"320 at 5 % is 149.0 above the reading before; keep it? y or n\n"
		"y or n> 5 190\n"
		"left out: 5 %\n"
		"5 %: 190.0 degC corrected; 1.7 mL/min (slow); 10 % near 209\n"
		"10> 10 150\n"
		"150 at 10 % is 40.0 below the reading before; keep it? y or n\n"
		"y or n>\n"
		"left out: 10 %\n"
		"10> 10 195 pot 120\n"
		"pot 120 is 75.0 below the head; keep it? y or n\n"
		"y or n> no\n"
		"left out: 10 %\n"
		"10> 450\n"
		"450 at 10 % is hotter than any oil boils unharmed; keep it? y or n\n"
		"y or n> y\n"
		"10 %: 450.0 degC corrected; 0.8 mL/min (slow)\n"
		"ALARM: the head is past 335 degC corrected: the oil cracks in the pot; stop\n"
		"  soon\n"
		"20> 20 195\n"
		"195 at 20 % is 255.0 below the reading before; keep it? y or n\n"
		"y or n> n\n"
		"left out: 20 %\n"
		"20> 7 192\n"
		"192 at 7 % comes behind a later place; keep it? y or n\n"
		"y or n> n\n"
		"left out: 7 %\n"
		"20> fix 5 460\n"
		"460 at 5 % is hotter than any oil boils unharmed; keep it? y or n\n"
		"y or n> n\n"
		"left out: 5 %\n"
		"20> finish\n"
		"a sample needs 3 percent readings at least; 'quit' keeps these for later\n"
		"20> quit\n"
		"stopped; 3 readings are safe in a.csv.journal\n"
		"to go on: boilcut watch a.csv\n");
}

/* A terminal of 40 columns, then one that is too low for a sketch, then a usual one. */
static void a_sketch(void **state)
{
	(void)state;
	write_text("a.csv", "history,rerun\n\nrecovered (%),head (C)\n");
	on_terminal("--paper", 18, 40);
	wait_for(&session, "IBP> ");
	type(&session, "171\n");
	wait_for(&session, "5> ");
	type(&session, "50 222\n");
	wait_for(&session, "60> ");
	assert_screen(&session,
		"  230 \xE2\x94\x82\n"
		"      \xE2\x94\x82           \xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xE2\x97\x8F\n"
		"      \xE2\x94\x82       \xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\n"
		"      \xE2\x94\x82  \xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\n"
		"  170 \xE2\x94\x82\xE2\x97\x8F\xC2\xB7\xC2\xB7\n"
		"      \xE2\x94\x94\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80"
		"50\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80"
		"100\n"
		"\n"
		"\n"
		"\n"
		"every entry is safe once it is\n"
		"  answered; 'help' lists what can be\n"
		"  written\n"
		"IBP> 171\n"
		"IBP: 171.0 degC corrected\n"
		"5> 50 222\n"
		"50 %: 222.0 degC corrected; 60 % near\n"
		"  232\n"
		"60>\n");
	const struct winsize low = {.ws_row = 10, .ws_col = 60};
	assert_int_equal(ioctl(session.fd, TIOCSWINSZ, &low), 0);
	screen_init(&session.screen, 10, 60);
	wait_for(&session, "60> ");
	type(&session, "60 229\n");
	wait_for(&session, "70> ");
	assert_screen(&session,
		"\n\n\n\n\n\n\n60> 60 229\n60 %: 229.0 degC corrected; 70 % near 236\n70>\n");
	const struct winsize usual = {.ws_row = 24, .ws_col = 80};
	assert_int_equal(ioctl(session.fd, TIOCSWINSZ, &usual), 0);
	screen_init(&session.screen, 24, 80);
	wait_for(&session, "70> ");
	type(&session, "\003");
	assert_int_equal(session_end(&session), 0);
	assert_screen(&session,
		"      \xE2\x94\x82                        \xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\n"
		"      \xE2\x94\x82                 \xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\n"
		"      \xE2\x94\x82          \xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\n"
		"      \xE2\x94\x82   \xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\xC2\xB7\n"
		"  170 \xE2\x94\x82\xE2\x97\x8F\xC2\xB7\xC2\xB7\xC2\xB7\n"
		"      \xE2\x94\x94\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80"
		"50\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80\xE2\x94\x80"
		"100\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"\n"
		"70> ^C\n"
		"stopped; 3 readings are safe in a.csv.journal\n"
		"to go on: boilcut watch a.csv\n");
}

/* Without UTF-8. */
static void a_plain_sketch(void **state)
{
	(void)state;
	setenv("LC_ALL", "C", 1);
	write_text("a.csv", "history,rerun\n\nrecovered (%),head (C)\n");
	on_terminal("--paper", 16, 50);
	wait_for(&session, "IBP> ");
	type(&session, "171\n");
	wait_for(&session, "5> ");
	type(&session, "20 191\n");
	wait_for(&session, "30> ");
	type(&session, "quit\n");
	assert_int_equal(session_end(&session), 0);
	assert_screen(&session, "      |  .....\n"
				"  170 |*..\n"
				"      +--------------------50-----------------100\n"
				"\n"
				"\n"
				"\n"
				"every entry is safe once it is answered; 'help'\n"
				"  lists what can be written\n"
				"IBP> 171\n"
				"IBP: 171.0 degC corrected\n"
				"5> 20 191\n"
				"20 %: 191.0 degC corrected; 30 % near 201\n"
				"30> quit\n"
				"stopped; 2 readings are safe in a.csv.journal\n"
				"to go on: boilcut watch a.csv\n");
}

/* A dumb terminal gets no sketch, and neither does a pipe. */
static void no_sketch(void **state)
{
	(void)state;
	setenv("TERM", "dumb", 1);
	write_text("a.csv", SHEET);
	on_terminal(NULL, 24, 80);
	wait_for(&session, "IBP> ");
	type(&session, "171\n");
	wait_for(&session, "5> ");
	type(&session, "\004");
	assert_int_equal(session_end(&session), 0);
	assert_null(strchr(session.raw, '\033'));
	setenv("TERM", "xterm", 1);
	assert_int_equal(fed("--plain", "184\n"), 0);
	assert_null(strchr(session.raw, '\033'));
	assert_non_null(strstr(session.raw, "going on: 1 reading is in the journal\n5 %: 184.0"));
}

/* A file that is not there: its most important keys are asked for. */
static void keys_are_asked_for(void **state)
{
	(void)state;
	on_terminal("--no-sketch", 40, 100);
	wait_for(&session, "caps> ");
	type(&session, "PP caps\n");
	wait_for(&session, "aired> ");
	type(&session, "rerun\n");
	wait_for(&session, "21 C> ");
	type(&session, "heavy\n");
	wait_for(&session, "612 m> ");
	type(&session, "612 m\n");
	wait_for(&session, "probe> ");
	type(&session, "\n");
	wait_for(&session, "IBP> ");
	type(&session, "ibp 171\n5 184\n10 190\n20 201\n");
	wait_for(&session, "30> ");
	type(&session, "finish\n");
	wait_for(&session, "y or n> ");
	type(&session, "y\n");
	assert_int_equal(session_end(&session), 0);
	assert_non_null(strstr(session.raw, "'heavy' is not a number"));
	assert_non_null(strstr(session.raw, "VERDICT: "));
	assert_file("a.csv", "feed,PP caps\nhistory,rerun\naltitude,612 m\n\nrecovered (%),head "
			     "(C),time (s)\nIBP,171,0\n5,184,0\n10,190,0\n20,201,0\n");
}

/* ---- what must not be lost */

static void stopped_and_gone_on(void **state)
{
	(void)state;
	write_text("a.csv", SHEET);
	on_terminal("--no-sketch", 24, 80);
	wait_for(&session, "IBP> ");
	type(&session, "171\n");
	wait_for(&session, "5> ");
	type(&session, "184\n");
	wait_for(&session, "10> ");
	type(&session, "19\003");
	assert_int_equal(session_end(&session), 0);
	assert_non_null(strstr(session.raw, "stopped; 2 readings are safe in a.csv.journal\r\n"
					    "to go on: boilcut watch a.csv\r\n"));
	static const int signals[] = {SIGTERM, SIGHUP};
	for (size_t i = 0; i < 2; i++) {
		on_pipes(NULL);
		wait_for(&session, "going on: 2 readings are in the journal\n");
		kill(session.pid, signals[i]);
		assert_int_equal(session_end(&session), 0);
		assert_non_null(strstr(session.raw, "stopped; 2 readings are safe"));
	}
	assert_int_equal(fed(NULL, "190\n20 201\nfinish\n"), 0);
	assert_non_null(
		strstr(session.raw, "a.csv is written; judge it with: boilcut judge a.csv"));
	assert_int_equal(fed(NULL, ""), 3);
	assert_non_null(strstr(session.raw, "boilcut: a.csv: holds readings already; a sheet to "
					    "fill in was expected"));
	assert_false(exists("a.csv.journal"));
}

static void a_second_one(void **state)
{
	(void)state;
	write_text("a.csv", SHEET);
	on_pipes(NULL);
	wait_for(&session, "every entry");
	static struct session other;
	const char *const words[] = {program, "watch", "./a.csv", NULL};
	session_on_pipes(&other, words);
	assert_int_equal(session_end(&other), 4);
	assert_non_null(strstr(other.raw, "./a.csv.journal: is in use by process "));
	type(&session, "ibp 171\n");
	wait_for(&session, "IBP: 171.0");
	type(&session, "quit\n");
	assert_int_equal(session_end(&session), 0);
}

static void a_strangers_journal(void **state)
{
	(void)state;
	write_text("a.csv", SHEET);
	write_text("a.csv.journal", "recovered,head\n5,112\n");
	assert_int_equal(fed(NULL, "171\n"), 3);
	assert_string_equal(session.raw,
		"boilcut: a.csv.journal:1: is not a journal of boilcut; nothing was changed in it\n");
	assert_file("a.csv.journal", "recovered,head\n5,112\n");
}

/* The disk takes no more than 512 bytes a file, then more again. */
static void a_full_disk(void **state)
{
	(void)state;
	const char *const words[] = {"/bin/sh", "-c",
		"trap '' XFSZ; ulimit -f 1; exec \"$0\" watch a.csv", program, NULL};
	write_text("a.csv", SHEET);
	set_clock(0.0);
	session_on_pipes(&session, words);
	char line[40];
	int kept = 0;
	for (int i = 1; i <= 12; i++) {
		snprintf(line, sizeof line, "%d %d\n", i, 150 + i);
		type(&session, line);
		wait_for(&session, "\n");
	}
	type(&session, "quit\n");
	assert_int_equal(session_end(&session), 0);
	assert_non_null(
		strstr(session.raw, "boilcut: a.csv.journal: cannot write: File too large\n"
				    "NOT kept; make room on the disk and write it again\n"));
	for (int i = 1; i <= 12; i++) {
		snprintf(line, sizeof line, "\n%d %%: ", i);
		if (strstr(session.raw, line) == NULL)
			break;
		kept = i;
	}
	assert_true(kept >= 3 && kept < 12);
	snprintf(line, sizeof line, "going on: %d readings", kept);
	assert_int_equal(fed(NULL, "50 222\n60 230\nfinish\n"), 0);
	assert_non_null(strstr(session.raw, line));
}

/* Finished, but the power went before the journal was removed. */
static void finished_already(void **state)
{
	(void)state;
	write_text("a.csv", SHEET);
	assert_int_equal(fed("--paper", "171\n184\n190\n201\n"), 0);
	char *bytes = file_text("a.csv.journal");
	assert_int_equal(fed("--paper", "finish\n"), 0);
	write_text("a.csv.journal", bytes);
	bc_free(bytes);
	assert_int_equal(fed("--paper", ""), 0);
	assert_string_equal(session.raw,
		"this run is finished: the sample file is whole, and its journal is removed\n");
	assert_false(exists("a.csv.journal"));
}

/* Somebody wrote the file meanwhile. */
static void a_file_that_changed(void **state)
{
	(void)state;
	write_text("a.csv", SHEET);
	on_pipes("--paper");
	type(&session, "171\n184\n190\n201\n");
	wait_for(&session, "20 %: ");
	write_text("a.csv", SHEET "5,100\n");
	type(&session, "finish\nquit\n");
	assert_int_equal(session_end(&session), 0);
	assert_non_null(strstr(session.raw, "boilcut: a.csv: has changed since this run began"));
	assert_file("a.csv", SHEET "5,100\n");
	assert_true(exists("a.csv.journal"));
}

/* ---- kill -9 */

static unsigned long random_state = 20261125;

static unsigned below(unsigned n)
{
	random_state = random_state * 6364136223846793005UL + 1442695040888963407UL;
	return (unsigned)(random_state >> 33) % n;
}

/* Which tenths of a percent are in the journal, with the head that was written for them. */
static int in_journal(bool *there)
{
	struct bc_journal_text text;
	char *bytes = file_text("a.csv.journal");
	int last = 0;
	memset(there, 0, 1001);
	assert_int_equal(
		bc_journal_read(bytes, strlen(bytes), "a.csv", "journal", NULL, &text), BC_OK);
	for (size_t i = 0; i < text.entries.n; i++) {
		const struct bc_entry *entry = &text.entries.items[i];
		if (entry->kind != BC_ENTRY_READ)
			continue;
		int tenth = (int)lround(10.0 * entry->amount);
		assert_close(entry->head, 150.0 + tenth / 10.0, 1e-9);
		assert_false(there[tenth]);
		there[tenth] = true;
		last = tenth > last ? tenth : last;
	}
	bc_journal_text_release(&text);
	bc_free(bytes);
	return last;
}

/* Writes readings until the moment has come; one time in five that is before it is ready, two times
 * not before the first answer, however slow the machine. */
static void write_until_killed(int tenth)
{
	unsigned manner = below(5);
	bool early = manner == 0;
	bool after_answer = manner > 2;
	if (!early)
		wait_for(&session, "\n");
	double end = steady_now() + below(early ? 12000 : 60000) * 1e-6;
	char line[40];
	size_t answered = 0;
	bool waits = false;
	while ((steady_now() < end || (after_answer && answered == 0)) && tenth <= 1000) {
		if (!waits) {
			snprintf(line, sizeof line, "%.1f %.1f\n", tenth / 10.0,
				150.0 + tenth / 10.0);
			type(&session, line);
			tenth++;
		}
		session_listen(&session, 1);
		waits = strstr(session.raw + answered, " %: ") == NULL;
		if (!waits)
			answered =
				(size_t)(strstr(session.raw + answered, " %: ") - session.raw) + 4;
	}
	kill(session.pid, SIGKILL);
	assert_int_equal(session_end(&session), 128 + SIGKILL);
}

/* Every reading that was answered is there. */
static int check_answered(const bool *there)
{
	int answered = 0;
	for (const char *s = session.raw; (s = strstr(s, " %: ")) != NULL; s += 4) {
		const char *start = s;
		while (start > session.raw && start[-1] != '\n')
			start--;
		int tenth = (int)lround(10.0 * strtod(start, NULL));
		if (!there[tenth])
			fail_msg("%.1f %% was answered and is lost", tenth / 10.0);
		answered++;
	}
	return answered;
}

static void killed_at_any_moment(void **state)
{
	(void)state;
	static bool there[1001];
	int kills = getenv("BOILCUT_LONG") != NULL ? 1000 : 50;
	int tenth = 1;
	int answered = 0;
	write_text("a.csv", SHEET);
	for (int i = 0; i < kills; i++) {
		if (tenth > 150) {
			unlink("a.csv.journal");
			tenth = 1;
		}
		on_pipes("--paper");
		write_until_killed(tenth);
		tenth = exists("a.csv.journal") ? in_journal(there) + 1 : 1;
		answered += check_answered(there);
	}
	print_message("# killed %d times, %d readings answered\n", kills, answered);
	assert_true(answered > kills / 4);
}

/* ---- a logger */

static void a_logger_on_a_pipe(void **state)
{
	(void)state;
	const char *const words[] = {program, "watch", "a.csv", "--from", "-", "--unit", "F", NULL};
	write_text("a.csv", SHEET);
	set_clock(0.0);
	session_on_pipes(&session, words);
	type(&session, "recovered (%),head\nIBP,339.8\n2,352\n2,352\n5,363.2\nnonsense\n"
		       "5.5,9999\n10,374\n15,384\n20,393.8\n20,39");
	close(session.in);
	session.in = session.fd;
	assert_int_equal(session_end(&session), 0);
	assert_string_equal(session.raw,
		"every entry is safe once it is answered; 'help' lists what can be written\n"
		"IBP: 171.0 degC corrected\n"
		"logger: the same line again; skipped\n"
		"5 %: 184.0 degC corrected; 10 % near 197\n"
		"logger: 'nonsense' is no reading; skipped\n"
		"logger: '5.5,9999' is no temperature of a head; skipped\n"
		"10 %: 190.0 degC corrected; 20 % near 202\n"
		"20 %: 201.0 degC corrected; 30 % near 212; flash 57, low 46\n"
		"logger: a line was cut off; skipped\n"
		"logger: 6 lines read, 2 garbled, 1 repeated, 1 cut off\n"
		"stopped; 4 readings are safe in a.csv.journal\n"
		"to go on: boilcut watch a.csv\n");
}

/* A line of a logger and a garbled one behind it, which tells when both have arrived. */
static void log_line(int master, const char *lines, const char *mark)
{
	char words[80];
	int n = snprintf(words, sizeof words, "%s\n%s\n", lines, mark);
	assert_int_equal(write(master, words, (size_t)n), n);
	snprintf(words, sizeof words, "logger: '%s' is no reading; skipped\n", mark);
	wait_for(&session, words);
}

/* A serial line that stands still, goes away and comes back. */
static void a_logger_on_a_device(void **state)
{
	(void)state;
	const char *const words[] = {program, "watch", "a.csv", "--from", "link", NULL};
	int master = posix_openpt(O_RDWR | O_NOCTTY);
	assert_true(master >= 0 && grantpt(master) == 0 && unlockpt(master) == 0);
	assert_int_equal(fcntl(master, F_SETFD, FD_CLOEXEC), 0); /* or it would never go away */
	assert_int_equal(symlink(ptsname(master), "link"), 0);
	write_text("a.csv", SHEET);
	set_clock(0.0);
	session_on_pipes(&session, words);
	wait_for(&session, "every entry");
	type(&session, "ibp\n");
	wait_for(&session, "the temperature is missing; write such as 'ibp 71'\n");
	log_line(master, "171.25", "m1");
	type(&session, "ibp\n");
	wait_for(&session, "IBP: 171.2 degC corrected\n");
	assert_int_equal(write(master, "184", 3), 3);
	log_line(master, ".5", "m2");
	type(&session, "5\n");
	wait_for(&session, "5 %: 184.5 degC corrected");
	set_clock(60.0);
	wait_for(&session, "ALARM: no line of the logger for 30 s: its temperature is old\n");
	type(&session, "10\n");
	wait_for(&session, "the logger stands still; write the temperature too\n");
	close(master);
	wait_for(&session, "logger: gone; it is tried again every second\n");
	type(&session, "10 188\n");
	wait_for(&session, "10 %: 188.0 degC corrected");
	unlink("link");
	master = posix_openpt(O_RDWR | O_NOCTTY);
	assert_true(master >= 0 && grantpt(master) == 0 && unlockpt(master) == 0);
	assert_int_equal(fcntl(master, F_SETFD, FD_CLOEXEC), 0);
	assert_int_equal(symlink(ptsname(master), "link"), 0);
	set_clock(70.0);
	log_line(master, "190.5", "m3");
	assert_non_null(strstr(session.raw, "logger: here again\n"));
	type(&session, "20\n");
	wait_for(&session, "20 %: 190.5 degC corrected");
	type(&session, "quit\n");
	assert_int_equal(session_end(&session), 0);
	assert_non_null(strstr(session.raw, "logger: 3 lines read, 3 garbled\n"));
	close(master);
}

/* ---- a plan, a picture */

static void a_plan(void **state)
{
	(void)state;
	const char *const words[] = {
		program, "watch", "a.csv", "--plan", "tap.json", "--picture", "p.gp", NULL};
	write_text("a.csv", "charge,20 L\n\nrecovered (mL),head (C)\n");
	write_text("tap.json", "{\"charge_ml\": 40000, \"jars\": [{\"jar\": \"light\", "
			       "\"to_reading_c\": 170, \"volume_pct\": 10, \"pot_to_c\": 200}, "
			       "{\"jar\": \"product\", \"to_reading_c\": 300, \"volume_pct\": 70, "
			       "\"pot_to_c\": 330}, {\"jar\": \"tail\", \"to_reading_c\": null, "
			       "\"volume_pct\": 0, \"pot_to_c\": null}]}");
	set_clock(0.0);
	session_on_pipes(&session, words);
	type(&session, "1000 151\n2500 171\n3000 176\n");
	wait_for(&session, "3000 mL: ");
	type(&session, "quit\n");
	assert_int_equal(session_end(&session), 0);
	assert_non_null(
		strstr(session.raw, "tap: light jar; product jar at 170.0 degC (+19.0) and 2.00 L "
				    "(1.00 L to go)\n"));
	assert_non_null(strstr(session.raw, "ALARM: now: turn the tap to the product jar\n"));
	assert_non_null(strstr(session.raw,
		"tap: product jar; heat off at 300.0 degC (+124.0) or 16.0 L (13.0 L to go)\n"));
	assert_true(exists("p.gp"));
	write_text("tap.json", "{\"jars\": 3}");
	session_on_pipes(&session, words);
	assert_int_equal(session_end(&session), 3);
	assert_string_equal(session.raw, "boilcut: tap.json: is no plan; what 'boilcut tap --json' "
					 "writes was expected\n");
}

#define WITH_FOLDER(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void)
{
	program = getenv("BOILCUT_FAULTY");
	if (program == NULL || access(program, X_OK) != 0) {
		printf("ok watch # skip the program is not built\n");
		return 0;
	}
	const struct CMUnitTest tests[] = {
		WITH_FOLDER(a_run_on_a_terminal),
		WITH_FOLDER(every_entry),
		WITH_FOLDER(every_bad_entry),
		WITH_FOLDER(a_sketch),
		WITH_FOLDER(a_plain_sketch),
		WITH_FOLDER(no_sketch),
		WITH_FOLDER(keys_are_asked_for),
		WITH_FOLDER(stopped_and_gone_on),
		WITH_FOLDER(a_second_one),
		WITH_FOLDER(a_strangers_journal),
		WITH_FOLDER(a_full_disk),
		WITH_FOLDER(finished_already),
		WITH_FOLDER(a_file_that_changed),
		WITH_FOLDER(killed_at_any_moment),
		WITH_FOLDER(a_logger_on_a_pipe),
		WITH_FOLDER(a_logger_on_a_device),
		WITH_FOLDER(a_plan),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
