/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of stills: written and read back, refused where they are wrong, kept under safe names. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/memory.h"
#include "still/still_file.h"
#include "unit/unit.h"

static char home[] = "/tmp/stills-XXXXXX";

static struct bc_still_record sample_record(void)
{
	struct bc_still_record record = bc_still_record_new();
	const struct bc_still_pair first = {
		"before, \"1\"", "after", {2.31, 0.11, 0.17, 1.3, 0.4}, 0};
	const struct bc_still_pair second = {
		"b", "c", {2.57, 0.13, 0.19, 0.9, 0.6}, UINT64_C(0x0f3c5a2b9e8d7711)};
	snprintf(record.still.name, sizeof record.still.name, "Lake shed");
	record.still.thermometer = BC_THERMOMETER_GLASS_PARTIAL;
	record.rig.riser_mm = 25.4;
	record.rig.height_mm = 317.0;
	record.rig.packing = bc_packing_find("rings-6mm");
	record.rig.lagging_mm = 19.0;
	record.rig.vacuum_kpa = 13.7;
	assert_int_equal(bc_still_record_add(&record, &first), BC_OK);
	assert_int_equal(bc_still_record_add(&record, &second), BC_OK);
	bc_still_record_combine(&record);
	return record;
}

static void what_is_written_is_read(void **state)
{
	struct bc_still_record record = sample_record();
	struct bc_still_record back;
	struct bc_text text;
	struct bc_text again;
	(void)state;
	bc_text_init(&text);
	bc_text_init(&again);
	assert_int_equal(bc_still_write(&record, &text), BC_OK);
	assert_int_equal(bc_still_read(text.data, text.length, "t", NULL, &back), BC_OK);
	assert_string_equal(back.still.name, "Lake shed");
	assert_int_equal(back.still.source, BC_STILL_CALIBRATED);
	assert_int_equal(back.still.thermometer, BC_THERMOMETER_GLASS_PARTIAL);
	assert_close(
		back.still.column.effective_plates, record.still.column.effective_plates, 1e-5);
	assert_close(back.still.plates_high, record.still.plates_high, 1e-4);
	assert_close(back.rig.riser_mm, 25.4, 1e-9);
	assert_close(back.rig.vacuum_kpa, 13.7, 1e-9);
	assert_nan(back.rig.heater_w);
	assert_string_equal(back.rig.packing->word, "rings-6mm");
	assert_int_equal(back.n_pairs, 2);
	assert_string_equal(back.pairs[0].before, "before, \"1\"");
	assert_close(back.pairs[1].estimate.model_ln, 0.19, 1e-9);
	assert_true(back.pairs[0].readings == 0);
	assert_true(back.pairs[1].readings == UINT64_C(0x0f3c5a2b9e8d7711));
	assert_int_equal(bc_still_write(&back, &again), BC_OK);
	assert_string_equal(text.data, again.data);
	bc_text_release(&again);
	bc_text_release(&text);
}

static void stages_and_reflux_do_too(void **state)
{
	static const char plain[] = "still,a\nstages,5\nreflux,total\ncarry,0.7 %\nriser,1 in\n";
	struct bc_still_record record;
	(void)state;
	assert_int_equal(bc_still_read(plain, strlen(plain), "t", NULL, &record), BC_OK);
	assert_close(record.still.column.stages, 5.0, 0.0);
	assert_true(isinf(record.still.column.reflux));
	assert_nan(record.still.column.effective_plates);
	assert_close(record.still.carry_pct, 0.7, 1e-12);
	assert_close(record.rig.riser_mm, 25.4, 1e-9);
	assert_int_equal(record.still.source, BC_STILL_STATED);
}

static void a_pair_of_the_same_names_is_replaced(void **state)
{
	struct bc_still_record record = sample_record();
	const struct bc_still_pair same = {"b", "c", {3.11, 0.1, 0.1, 1.0, 1.0}, 0};
	struct bc_still_pair more = same;
	assert_true(bc_still_record_has(&record, &same));
	(void)state;
	assert_int_equal(bc_still_record_add(&record, &same), BC_OK);
	assert_int_equal(record.n_pairs, 2);
	assert_close(record.pairs[1].estimate.plates, 3.11, 0.0);
	for (unsigned i = 0; i < BC_STILL_PAIRS_MAX - 2; i++) {
		snprintf(more.after, sizeof more.after, "%u", i);
		assert_int_equal(bc_still_record_add(&record, &more), BC_OK);
	}
	snprintf(more.after, sizeof more.after, "one too many");
	assert_int_equal(bc_still_record_add(&record, &more), BC_BAD_DOMAIN);
}

/* By its readings a run is known, whatever it is called. */
static void runs_are_told_apart_by_their_readings(void **state)
{
	struct bc_still_record record = bc_still_record_new();
	struct bc_still_pair pair = {"b", "c", {3.11, 0.1, 0.1, 1.0, 1.0}, 17};
	(void)state;
	assert_false(bc_still_record_has(&record, &pair));
	assert_int_equal(bc_still_record_add(&record, &pair), BC_OK);
	pair.readings = 19;
	assert_false(bc_still_record_has(&record, &pair));
	assert_int_equal(bc_still_record_add(&record, &pair), BC_OK);
	assert_int_equal(record.n_pairs, 2);
	snprintf(pair.before, sizeof pair.before, "renamed");
	assert_true(bc_still_record_has(&record, &pair));
	assert_int_equal(bc_still_record_add(&record, &pair), BC_OK);
	assert_int_equal(record.n_pairs, 2);
	assert_string_equal(record.pairs[1].before, "renamed");
}

static void the_worst_pairs_have_a_mean(void **state)
{
	static const char pairs[] = "still,a\nbefore,after,plates\n"
				    "x,y,60,5,5,20,20\nx,z,0.7,0.001,0,0,0.001\n"
				    "x,w,60,0.001,0,20,0.001\n";
	struct bc_still_record record;
	(void)state;
	assert_int_equal(bc_still_read(pairs, strlen(pairs), "t", NULL, &record), BC_OK);
	assert_int_equal(record.n_pairs, 3);
	assert_true(isfinite(record.still.column.effective_plates));
	assert_true(isfinite(record.still.plates_low) && record.still.plates_low >= 1.0);
	assert_true(isfinite(record.still.plates_high));
	assert_true(isfinite(record.still.carry_half_width_pct));
}

static void a_file_bears_its_own_name(void **state)
{
	static const char plain[] = "stages,2\nstill,a\n";
	struct bc_still_record record;
	(void)state;
	assert_int_equal(bc_still_read_named(plain, strlen(plain), "t", "a", NULL, &record), BC_OK);
	assert_int_equal(
		bc_still_read_named(plain, strlen(plain), "t", "b", NULL, &record), BC_MALFORMED);
}

static void wrong_files_are_refused_with_their_line(void **state)
{
	static const struct {
		const char *text;
		size_t line;
		const char *says;
	} bad[] = {
		{"still,a\neffective plates,2,3\n", 2, "a key and its value"},
		{"still,a\neffective plates,two\n", 2, "effective plates 'two'"},
		{"still,a\neffective plates,0.3\n", 2, "1 to 60"},
		{"still,../a\neffective plates,2\n", 1, "a name of letters"},
		{"still,a\nstages,3\nreflux,-1\n", 3, "0 to 1000"},
		{"still,a\nstages,3\nriser,25 kg\n", 3, "a number in mm"},
		{"still,a\nstages,3\npacking,straw\n", 3, "packing 'straw'"},
		{"still,a\nstages,3\nthermometer,nose\n", 3, "thermometer 'nose'"},
		{"still,a\nstages,3\nfound,dreamt\n", 3, "found 'dreamt'"},
		{"still,a\ncarry,1 %\n", 0, "effective plates, or stages"},
		{"stages,3\n", 0, "a row with its name"},
		{"still,a\nbefore,after,plates\nx,y,2\n", 3, "cells as before"},
		{"still,a\nbefore,after,plates\nx,y,2,-0.1,0,1,1\n", 3, "pair '-0.1'"},
		{"still,a\nbefore,after,plates\nx,y,2,0,0,1,1\n", 3, "0.001 to 5"},
		{"still,a\nbefore,after,plates\nx,y,0.6,0.1,0,1,1\n", 3, "0.7 to 60"},
		{"still,a\nbefore,after,plates\nx,y,61,0.1,0,1,1\n", 3, "0.7 to 60"},
		{"still,a\nbefore,after,plates\nx,y,2,0.1,5.1,1,1\n", 3, "0 to 5"},
		{"still,a\nbefore,after,plates\nx,y,2,0.1,0,20.1,1\n", 3, "0 to 20 %"},
		{"still,a\nbefore,after,plates\nx,y,2,0.1,0,1,1e-9\n", 3, "0.001 to 20 %"},
		{"still,a\nbefore,after,plates\nx,y,2,1e999,0,1,1\n", 3, "0.001 to 5"},
		{"still,a\nbefore,after,plates\nx,y,2,0.1,0,1,1,12\n", 3, "mark '12'"},
		{"still,a\nstages,3.5\n", 2, "a whole number"},
		{"still,a\neffective plates,2\neffective plates low,2.1\n", 3, "no more than"},
		{"still,a\neffective plates,2\neffective plates high,1.9\n", 3, "no less than"},
		{"still,a\nstages,2\neffective plates high,1.7\neffective plates low,1.8\n", 4,
			"no more than"},
		{"still,\"a\nstages,3\n", 1, "never closed"},
	};
	(void)state;
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct bc_still_record record;
		struct bc_diagnostics diagnostics;
		bc_diagnostics_init(&diagnostics);
		assert_int_equal(
			bc_still_read(bad[i].text, strlen(bad[i].text), "t", &diagnostics, &record),
			BC_MALFORMED);
		const struct bc_diagnostic *error = bc_diagnostics_first_error(&diagnostics);
		assert_non_null(error);
		assert_int_equal(error->line, bad[i].line);
		if (strstr(error->text, bad[i].says) == NULL)
			fail_msg("'%s' does not say '%s'", error->text, bad[i].says);
		bc_diagnostics_release(&diagnostics);
	}
}

static void only_safe_names_are_names(void **state)
{
	static const char *const safe[] = {"a", "Lake shed 3", "n\xC2\xB0", "x.y_z-1", "\xC3\xA4"};
	static const char *const unsafe[] = {"", ".", "..", "a/b", "../a", " a", "a ", "-a", ".a",
		"a\n", "a;b", "default", "a\\b", "\xC3", "a\xE2\x80\xAEx",
		"0123456789012345678901234567890123456789012345678901234567890123"};
	(void)state;
	for (size_t i = 0; i < sizeof safe / sizeof safe[0]; i++)
		assert_true(bc_still_name_is_safe(safe[i]));
	for (size_t i = 0; i < sizeof unsafe / sizeof unsafe[0]; i++)
		assert_false(bc_still_name_is_safe(unsafe[i]));
}

static void the_shelf_keeps_and_lists(void **state)
{
	struct bc_still_record record = sample_record();
	struct bc_still_record back;
	struct bc_strings names;
	(void)state;
	bc_strings_init(&names);
	assert_int_equal(bc_still_list(&names, NULL), BC_OK);
	assert_int_equal(names.n, 0);
	assert_int_equal(bc_still_load("Lake shed", NULL, &back), BC_NOT_FOUND);
	assert_int_equal(bc_still_load("../x", NULL, &back), BC_NOT_FOUND);
	assert_int_equal(bc_still_save(&record, NULL), BC_OK);
	snprintf(record.still.name, sizeof record.still.name, "A");
	assert_int_equal(bc_still_save(&record, NULL), BC_OK);
	assert_int_equal(bc_still_list(&names, NULL), BC_OK);
	assert_int_equal(names.n, 2);
	assert_string_equal(names.items[0], "A");
	assert_string_equal(names.items[1], "Lake shed");
	assert_int_equal(bc_still_load("Lake shed", NULL, &back), BC_OK);
	assert_int_equal(back.n_pairs, 2);
	snprintf(record.still.name, sizeof record.still.name, "../x");
	assert_int_equal(bc_still_save(&record, NULL), BC_BAD_DOMAIN);
	bc_strings_release(&names);
}

/* Every allocation and every write fails once: a status comes back, and the old file stays. */
static void faults_leave_the_old_file(void **state)
{
	struct bc_still_record record = sample_record();
	struct bc_still_record back;
	(void)state;
	assert_int_equal(bc_still_save(&record, NULL), BC_OK);
	record.still.carry_pct = 3.3;
	for (int kind = 0; kind < BC_FAULT_KINDS; kind++) {
		enum bc_status status = BC_NO_MEMORY;
		for (unsigned long nth = 1; bc_failed(status); nth++) {
			assert_true(nth < 200);
			bc_fault_set((enum bc_fault_kind)kind, nth, false);
			status = bc_still_save(&record, NULL);
			bc_fault_set((enum bc_fault_kind)kind, 0, false);
			assert_int_equal(bc_still_load("Lake shed", NULL, &back), BC_OK);
		}
	}
	for (unsigned long nth = 1;; nth++) {
		bc_fault_set(BC_FAULT_ALLOC, nth, false);
		enum bc_status status = bc_still_load("Lake shed", NULL, &back);
		bc_fault_set(BC_FAULT_ALLOC, 0, false);
		if (status == BC_OK)
			break;
		assert_int_equal(status, BC_NO_MEMORY);
		assert_true(nth < 200);
	}
}

static int set_up(void **state)
{
	(void)state;
	return mkdtemp(home) != NULL && setenv("XDG_DATA_HOME", home, 1) == 0 ? 0 : -1;
}

static int tear_down(void **state)
{
	static const char *const rest[] = {
		"/boilcut/stills/A.csv", "/boilcut/stills/Lake shed.csv"};
	static const char *const folders[] = {"/boilcut/stills", "/boilcut", ""};
	(void)state;
	for (size_t i = 0; i < 5; i++) {
		char *path = bc_format("%s%s", home, i < 2 ? rest[i] : folders[i - 2]);
		if (i < 2)
			unlink(path);
		else
			rmdir(path);
		bc_free(path);
	}
	return 0;
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_written_is_read),
		cmocka_unit_test(stages_and_reflux_do_too),
		cmocka_unit_test(a_pair_of_the_same_names_is_replaced),
		cmocka_unit_test(runs_are_told_apart_by_their_readings),
		cmocka_unit_test(the_worst_pairs_have_a_mean),
		cmocka_unit_test(a_file_bears_its_own_name),
		cmocka_unit_test(wrong_files_are_refused_with_their_line),
		cmocka_unit_test(only_safe_names_are_names),
		cmocka_unit_test(the_shelf_keeps_and_lists),
		cmocka_unit_test(faults_leave_the_old_file),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
