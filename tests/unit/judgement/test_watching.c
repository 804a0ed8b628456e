/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A boil-off as a list of moments and lines, and exactly what is answered. */
#include "judgement/watching.h"
#include "unit/unit.h"

#include <string.h>

#include "base/memory.h"
#include "base/units.h"

static struct bc_limits *limits;
static struct bc_watching watching;
static struct bc_watch_plan plan;
static struct bc_text reply;

/* A line, seconds after the start on both clocks, and its answer; alarms behind "! ". */
struct told {
	double steady_s;
	double wall_s;
	const char *line;
	const char *expected;
};

static void start_with(const char *sheet, struct bc_watch_plan *with)
{
	struct bc_sample *sample = NULL;
	const struct bc_unit *unit = NULL;
	struct bc_entries none = {0};
	bc_watching_init(&watching);
	bc_text_init(&reply);
	watching.options = (struct bc_judge_options){.limits = limits, .want = BC_GRADES};
	watching.plan = with;
	watching.notebook.file = "t.csv";
	assert_int_equal(
		bc_sample_read_sheet(sheet, strlen(sheet), "t.csv", NULL, &sample, &unit), BC_OK);
	assert_int_equal(
		bc_notebook_begin(&watching.notebook, sample, bc_unit_name(unit)[0]), BC_OK);
	bc_sample_free(sample);
	const struct bc_moment now = {1000.0, 1790000000.0};
	assert_int_equal(bc_watching_begin(&watching, &none, now, &reply), BC_OK);
}

static void start(const char *sheet) { start_with(sheet, NULL); }

static void stop(void)
{
	bc_watching_release(&watching);
	bc_text_release(&reply);
}

static void say(struct bc_moment now, const char *line)
{
	bc_text_release(&reply);
	bc_text_init(&reply);
	enum bc_watch_step step = bc_watching_line(&watching, now, line, &reply);
	if (step == BC_WATCH_KEEP)
		assert_int_equal(bc_watching_keep(&watching, &reply), BC_OK);
	if (step == BC_WATCH_FINISH)
		bc_text_append(&reply, "FINISH\n");
	if (step == BC_WATCH_QUIT)
		bc_text_append(&reply, "QUIT\n");
	assert_int_not_equal(step, BC_WATCH_FAILED);
	for (const char *at = watching.alarms.data; at != NULL && *at != '\0';) {
		size_t n = strcspn(at, "\n");
		bc_text_append(&reply, "! ");
		bc_text_append_n(&reply, at, n + 1);
		at += n + 1;
	}
}

static void go(const struct told *told, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		const struct bc_moment now = {
			1000.0 + told[i].steady_s, 1790000000.0 + told[i].wall_s};
		say(now, told[i].line);
		if (told[i].expected != NULL)
			assert_string_equal(reply.data != NULL ? reply.data : "", told[i].expected);
	}
}

#define GO(told) go(told, sizeof(told) / sizeof(told)[0])
#define SEA "barometer,101.325 kPa\nthermometer,glass d86\nhistory,rerun\ncharge,100 mL\n\n"
#define PERCENT SEA "recovered (%),head (C)\n"

static void a_whole_run(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "171", "IBP: 171.0 degC corrected\n"},
		{67, 67, "184", "5 %: 184.0 degC corrected; 4.5 mL/min; 10 % near 197\n"},
		{127, 127, "10 190.2", "10 %: 190.2 degC corrected; 5.0 mL/min; 20 % near 203\n"},
		{287, 287, "201",
			"20 %: 201.0 degC corrected; 3.8 mL/min (slow); 30 % near 212; "
			"flash 57, low 46\n"},
		{407, 407, "209.5", NULL},
		{527, 527, "216", NULL},
		{627, 627, "222",
			"50 %: 222.0 degC corrected; 6.0 mL/min (fast); 60 % near 228; "
			"flash 58, low 46; so far undecided\n"},
		{717, 717, "229",
			"60 %: 229.0 degC corrected; 6.7 mL/min (fast); 70 % near 236; flash 58, "
			"low 46; so far undecided\n"
			"! too fast, 6.7 mL/min: turn the heat down to 4 to 5 mL/min\n"},
		{850, 850, "note bumping", "noted\n"},
		{860, 860, "238 pot 331", NULL},
		{861, 861, "list",
			"  IBP  171 C  0:00\n  5 %  184 C  1:07\n  10 %  190.2 C  2:07\n"
			"  20 %  201 C  4:47\n  30 %  209.5 C  6:47\n  40 %  216 C  8:47\n"
			"  50 %  222 C  10:27\n  60 %  229 C  11:57  bumping\n"
			"  70 %  238 C  pot 331  14:20\n"},
		{990, 990, "248", NULL},
		{1110, 1110, "262", NULL},
		{1170, 1170, "270", NULL},
		{1200, 1200, "280",
			"no place is expected any more; write it too, such as "
			"'fbp 361'\n"},
		{1200, 1200, "fbp 284", NULL},
		{1300, 1300, "finish", "FINISH\n"},
		{1300, 1300, "quit", "QUIT\n"},
	};
	start(PERCENT);
	GO(told);
	assert_true(watching.judged);
	assert_int_equal(watching.sample->n_readings, 13);
	stop();
}

static void what_does_not_belong(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "y", "nothing was asked\n"},
		{0, 0, "undo", "there is nothing to take back\n"},
		{0, 0, "pot 200", "nothing is read yet that the pot could stand beside\n"},
		{0, 0, "ibp", "the temperature is missing; write such as 'ibp 71'\n"},
		{0, 0, "ibp 7", "7 at IBP is colder than a shed; keep it? y or n\n"},
		{0, 0, "n", "left out: IBP\n"},
		{0, 0, "ibp 71", "IBP: 71.0 degC corrected\n"},
		{0, 0, "ibp 72", "IBP is read already, 71; write 'fix IBP 72' to change it\n"},
		{60, 60, "5 212.5",
			"212.5 at 5 % is 141.5 above the reading before; keep it? y or n\n"},
		{65, 65, "5 112.5",
			"left out: 5 %\n5 %: 112.5 degC corrected; 4.6 mL/min; 10 % near 154\n"},
		{70, 70, "10 11.2", "11.2 at 10 % is colder than a shed; keep it? y or n\n"},
		{70, 70, "", "left out: 10 %\n"},
		{70, 70, "10 108",
			"108 at 10 % is 4.5 below the reading before; keep it? y or n\n"},
		{125, 125, "y",
			"10 %: 108.0 degC corrected; 5.0 mL/min\n"
			"! the head falls, by 4.5 degC: too little heat, or the oil cracks or runs "
			"dry\n"},
		{126, 126, "fix 10 131", "fixed: 10 % 131\n"},
		{126, 126, "fix 10 90",
			"90 at 10 % is 22.5 below the reading before; keep it? y or n\n"},
		{126, 126, "no", "left out: 10 %\n"},
		{126, 126, "fix 5 140",
			"140 at 5 % is 9.0 above the reading behind; keep it? y or n\n"},
		{126, 126, "no", "left out: 5 %\n"},
		{126, 126, "fix 15 90", "15 % is not read; 'list' shows what is\n"},
		{127, 127, "0 90", "0 is no place; write 'ibp' for the first drop\n"},
		{127, 127, "101 90", "101 % is more than the charge\n"},
		{127, 127, "20 900", "900 C is no temperature of an oil; write such as 112.5\n"},
		{127, 127, "7 120", "120 at 7 % comes behind a later place; keep it? y or n\n"},
		{127, 127, "n", "left out: 7 %\n"},
		{127, 127, "pot 100", "pot 100 is 31.0 below the head; keep it? y or n\n"},
		{127, 127, "y", "pot 100 noted\n"},
		{128, 128, "density 12 mL",
			"density '12 mL' has the unit 'mL', which is not understood"},
		{128, 128, "undo", "taken back; 3 readings stand\n"},
		{129, 129, "dry", "noted\n! the flask is dry: heat off\n"},
		{130, 130, "zork", "'zork' is not a number; write such as '5 112.5', or 'help'\n"},
	};
	start(PERCENT);
	for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
		if (strcmp(told[i].line, "density 12 mL") != 0) {
			go(&told[i], 1);
			continue;
		}
		say((struct bc_moment){1128.0, 1790000128.0}, told[i].line);
		assert_non_null(strstr(reply.data, "mL"));
		assert_null(strstr(reply.data, "noted"));
	}
	stop();
}

static void in_ml_and_fahrenheit(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "ibp 160", "IBP: 71.1 degC corrected\n"},
		{0, 0, "10 234.5", "10 mL: 112.5 degC corrected; 20 mL near 309\n"},
		{0, 0, "250 300", "250 mL is more than the charge\n"},
		{0, 0, "20 200",
			"200 at 20 mL is 34.5 below the reading before; keep it? y or n\n"},
		{0, 0, "267.8", "left out: 20 mL\n20 mL: 131.0 degC corrected; 40 mL near 334\n"},
	};
	start("barometer,101.325 kPa\nthermometer,glass d86\ncharge,200 mL\n\n"
	      "recovered (mL),head (F)\n");
	GO(told);
	stop();
}

/* The clock on the wall is set, backwards and forwards, and the computer sleeps. */
static void a_clock_that_jumps(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "ibp 171", "IBP: 171.0 degC corrected\n"},
		{66, 66.5, "184", "5 %: 184.0 degC corrected; 4.5 mL/min; 10 % near 197\n"},
		{126, -3600, "190",
			"the clock jumped by -3726 s, or the computer slept; the rate starts anew\n"
			"10 %: 190.0 degC corrected; 20 % near 202\n"},
		{246, -3480, "201", NULL},
		{366, 86400, "209.5", NULL},
		{486, 86520, "216", NULL},
	};
	start(PERCENT);
	go(told, 4);
	assert_non_null(strstr(reply.data, "; 5.0 mL/min;"));
	go(told + 4, 1);
	assert_non_null(strstr(reply.data, "the clock jumped by 89760 s"));
	assert_null(strstr(reply.data, "mL/min"));
	go(told + 5, 1);
	assert_non_null(strstr(reply.data, "; 5.0 mL/min;"));
	assert_close(watching.notebook.noted[5].time_s, 486.0, 1e-9);
	assert_close(watching.notebook.noted[2].time_s, 126.0, 1e-9);
	stop();
}

static struct bc_entry entry_of(double amount, double temp, double time_s)
{
	struct bc_entry entry;
	bc_entry_init(&entry);
	entry.kind = BC_ENTRY_READ;
	entry.amount = amount;
	entry.head = temp;
	entry.time_s = time_s;
	entry.wall_s = 1790000000.0 + time_s;
	entry.session = 1;
	return entry;
}

/* After a break the time goes on by the clock on the wall, unless it stands before the journal. */
static void after_a_break(void **state)
{
	(void)state;
	for (int late = 0; late < 2; late++) {
		struct bc_entries entries = {0};
		struct bc_entry first = entry_of(5.0, 184.0, 100.0);
		struct bc_entry second = entry_of(10.0, 190.0, 160.0);
		assert_int_equal(bc_entries_add(&entries, &first), BC_OK);
		assert_int_equal(bc_entries_add(&entries, &second), BC_OK);
		bc_watching_init(&watching);
		bc_text_init(&reply);
		watching.options = (struct bc_judge_options){.limits = limits, .want = BC_GRADES};
		watching.notebook.file = "t.csv";
		assert_int_equal(bc_notebook_begin(&watching.notebook, NULL, 'C'), BC_OK);
		struct bc_moment now = {7.0, 1790000000.0 + (late ? 460.0 : 60.0)};
		assert_int_equal(bc_watching_begin(&watching, &entries, now, &reply), BC_OK);
		assert_string_equal(reply.data != NULL ? reply.data : "",
			late ? ""
			     : "the clock stands 100 s before the last entry; the rate starts "
			       "anew\n");
		now.steady_s += 30.0;
		now.wall_s += 30.0;
		say(now, "20 201");
		assert_null(strstr(reply.data, "mL/min"));
		assert_close(watching.notebook.noted[2].time_s, late ? 490.0 : 190.0, 1e-9);
		assert_int_equal(watching.notebook.noted[2].session, 2);
		bc_entries_release(&entries);
		stop();
	}
}

static void on_paper(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "ibp 171", "IBP: 171.0 degC corrected\n"},
		{60, 60, "184", "5 %: 184.0 degC corrected; 10 % near 197\n"},
	};
	start(PERCENT);
	watching.clock = false;
	GO(told);
	assert_nan(watching.notebook.noted[1].time_s);
	stop();
}

static void alarms_of_heat(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "ibp 250", NULL},
		{100, 100, "5 280", NULL},
		{200, 200, "10 300", NULL},
		{400, 400, "20 326", NULL},
		{401, 401, "pot 331", "pot 331 noted\n! the pot is near its limit of 340 degC\n"},
		{600, 600, "30 336", NULL},
		{601, 601, "pot 345",
			"pot 345 noted\n! the pot is past its limit of 340 degC: heat off, it cracks "
			"the oil\n"},
		{602, 602, "pot 347", "pot 347 noted\n"},
	};
	start(PERCENT);
	go(told, 4);
	assert_non_null(
		strstr(reply.data, "! the head is near 335 degC corrected, where oils crack\n"));
	go(told + 4, 2);
	assert_non_null(strstr(reply.data,
		"! the head is past 335 degC corrected: the oil cracks in the pot; stop soon\n"));
	go(told + 6, 2);
	stop();
}

static void water(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "ibp 95", NULL},
		{60, 60, "5 97", NULL},
		{120, 120, "10 98", NULL},
		{240, 240, "20 99", NULL},
	};
	start(PERCENT);
	go(told, 2);
	assert_null(strstr(reply.data, "water"));
	go(told + 2, 1);
	assert_non_null(strstr(reply.data,
		"! water: the head stands where water boils, 100 degC here; it may bump, heat "
		"gently\n"));
	go(told + 3, 1);
	assert_null(strstr(reply.data, "water"));
	stop();
	/* a light naphtha passes through */
	const struct told naphtha[] = {
		{0, 0, "ibp 62", NULL},
		{0, 0, "5 75", NULL},
		{0, 0, "10 81", NULL},
		{0, 0, "20 89", NULL},
		{0, 0, "30 96", NULL},
		{0, 0, "40 102", NULL},
	};
	start(PERCENT);
	for (size_t i = 0; i < 6; i++) {
		go(&naphtha[i], 1);
		assert_null(strstr(reply.data, "water"));
	}
	stop();
}

/* A rows of a logger are kept without a question. */
static void rows(void **state)
{
	(void)state;
	const struct bc_moment now = {1060.0, 1790000060.0};
	start(PERCENT);
	say((struct bc_moment){1000.0, 1790000000.0}, "ibp 171");
	struct bc_entry entry = entry_of(5.0, 150.0, 0.0);
	bc_text_release(&reply);
	bc_text_init(&reply);
	assert_int_equal(bc_watching_row(&watching, now, &entry, &reply), BC_WATCH_KEEP);
	assert_string_equal(reply.data, "150 at 5 % is 21.0 below the reading before; kept\n");
	assert_int_equal(bc_watching_keep(&watching, &reply), BC_OK);
	struct bc_entry again = entry_of(5.0, 150.0, 0.0);
	assert_int_equal(bc_watching_row(&watching, now, &again, &reply), BC_WATCH_SAID);
	bc_entry_release(&again);
	/* a typed volume takes the logger's temperature */
	watching.stream_head = 188.75;
	say(now, "10");
	assert_close(watching.notebook.noted[2].amount, 10.0, 1e-12);
	assert_close(watching.notebook.noted[2].head, 188.75, 1e-12);
	watching.stream_stands = true;
	say(now, "20");
	assert_string_equal(reply.data, "the logger stands still; write the temperature too\n");
	stop();
}

/* ---- a plan */

/* Three jars of 40 L: light to 170 degC and 10 %, product to 300 degC and 80 %, tail. */
static void make_plan(void)
{
	plan = (struct bc_watch_plan){.n_jars = 3,
		.charge_ml = 40000.0,
		.pot_limit_c = 330.0,
		.near_c = 5.0,
		.near_frac = 0.02,
		.n_nodes = 5,
		.over_frac = {0.0, 0.1, 0.45, 0.8, 1.0},
		.reading_c = {100.0, 170.0, 235.0, 300.0, 380.0},
		.jars = {{"light", true, 170.0, 0.10}, {"product", false, 300.0, 0.80},
			{"tail", false, 360.0, 0.95}}};
	bc_watch_plan_restart(&plan);
}

static void by_a_plan(void **state)
{
	(void)state;
	const struct told told[] = {
		{0, 0, "2000 140",
			"2000 mL: 140.0 degC corrected; 4000 mL near 175\n"
			"tap: light jar; product jar at 170.0 degC (+30.0) and "
			"4.00 L (2.00 L to go)\n"
			"jars now: light 3.71 L, product 27.2 L, tail 6.58 L; the head runs 5.0 degC "
			"above the plan\n"},
		{600, 600, "3500 168",
			"3500 mL: 168.0 degC corrected; 150.0 mL/min; 4000 mL near 176\n"
			"tap: light jar; product jar at 170.0 degC (+2.0) and "
			"4.00 L (500 mL to go)\n"
			"jars now: light 3.66 L, product 27.1 L, tail 6.68 L; the head runs 5.9 degC "
			"above the plan\n"
			"! soon: turn the tap to the product jar\n"},
		{800, 800, "4000 176",
			"4000 mL: 176.0 degC corrected; 150.0 mL/min; 8000 mL near 194\n"
			"tap: product jar; tail jar at 300.0 degC (+124.0) or "
			"32.0 L (28.0 L to go)\n"
			"jars now: light 4.00 L, product 26.7 L, tail 6.68 L; the head runs 5.9 degC "
			"above the plan\n"
			"! now: turn the tap to the product jar\n"},
		{9000, 9000, "30000 299", NULL},
		{9001, 9001, "pot 331", NULL},
	};
	make_plan();
	start_with("barometer,101.325 kPa\nthermometer,glass d86\ncharge,40 L\n\n"
		   "recovered (mL),head (C)\n",
		&plan);
	go(told, 4);
	assert_non_null(strstr(reply.data, "! soon: turn the tap to the tail jar\n"));
	go(told + 4, 1);
	assert_non_null(strstr(reply.data, "! the pot is past its limit of 330 degC"));
	say((struct bc_moment){11000.0, 1790010000.0}, "undo");
	say((struct bc_moment){11000.0, 1790010000.0}, "undo");
	assert_int_equal(plan.jar, 1);
	say((struct bc_moment){12000.0, 1790011000.0}, "32100 299");
	assert_non_null(strstr(reply.data, "! now: turn the tap to the tail jar\n"));
	say((struct bc_moment){12600.0, 1790011600.0}, "38100 340");
	assert_non_null(strstr(reply.data, "! now: heat off\n"));
	assert_non_null(strstr(reply.data, "tap: all jars of the plan are full"));
	stop();
}

/* A light jar whose volume is there but not its head is not full. */
static void the_later_sign(void **state)
{
	(void)state;
	make_plan();
	start_with("barometer,101.325 kPa\nthermometer,glass d86\ncharge,40 L\n\n"
		   "recovered (mL),head (C)\n",
		&plan);
	say((struct bc_moment){1000.0, 1790000000.0}, "4400 164");
	assert_null(strstr(reply.data, "!"));
	assert_non_null(strstr(reply.data,
		"tap: light jar; product jar at 170.0 degC (+6.0) and 4.00 L (are over)\n"));
	say((struct bc_moment){1600.0, 1790000600.0}, "5000 170.5");
	assert_non_null(strstr(reply.data, "! now: turn the tap to the product jar\n"));
	stop();
}

static int set_up(void **state)
{
	(void)state;
	return bc_failed(bc_limits_default(NULL, &limits)) ? -1 : 0;
}

static int tear_down(void **state)
{
	(void)state;
	bc_limits_free(limits);
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_whole_run),
		cmocka_unit_test(what_does_not_belong),
		cmocka_unit_test(in_ml_and_fahrenheit),
		cmocka_unit_test(a_clock_that_jumps),
		cmocka_unit_test(after_a_break),
		cmocka_unit_test(on_paper),
		cmocka_unit_test(alarms_of_heat),
		cmocka_unit_test(water),
		cmocka_unit_test(rows),
		cmocka_unit_test(by_a_plan),
		cmocka_unit_test(the_later_sign),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
