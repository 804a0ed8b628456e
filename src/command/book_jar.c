/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut book jar': jars, what goes in and out of them, and what is in one. */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "book/contents.h"
#include "command/amount.h"
#include "command/arguments.h"
#include "command/book.h"
#include "command/book_answer.h"
#include "command/book_day.h"
#include "command/output.h"
#include "report/store.h"

#define VOLUME_MAX_ML 1e7

struct task {
	const char *name;
	size_t least; /* words behind it */
	size_t most;
	const char *words;
	const char *options[4]; /* beside --book, --json and --date; NULL last */
	int (*run)(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf);
};

static int read_volume(
	const struct bc_arguments *arguments, const char *name, const char *word, double *volume_ml)
{
	if (!bc_amount_parse(word, BC_QUANTITY_VOLUME, false, volume_ml))
		return bc_wrong_usage(arguments->command,
			"'%s' is not a %s; expected a number with its unit, such as 5L or 820mL",
			word, name);
	if (!(*volume_ml > BC_JAR_STEP_ML && *volume_ml <= VOLUME_MAX_ML))
		return bc_wrong_usage(arguments->command,
			"'%s' cannot be a %s; expected more than nothing, up to 10000L", word,
			name);
	return BC_EXIT_DONE;
}

/* ---- showing */

struct view {
	struct bc_contents contents;
	struct bc_movements movements;
	struct bc_jar_page page;
};

static enum bc_status view_read(
	struct bc_book *book, const struct bc_store_jar *jar, bool whole, struct view *view)
{
	*view = (struct view){0};
	enum bc_status status = bc_contents_read(book, jar, &view->contents);
	if (!bc_failed(status) && whole)
		status = bc_movements_read(book, jar->id, &view->movements);
	view->page = (struct bc_jar_page){.jar = jar,
		.contents = &view->contents,
		.movements = whole ? &view->movements : NULL};
	return status;
}

static void view_release(struct view *view)
{
	bc_contents_release(&view->contents);
	bc_movements_release(&view->movements);
}

/* What the jars of a movement hold then; either may be NULL. */
static int answer_moved(struct bc_answer *answer, struct bc_shelf *shelf, double moved_ml,
	const char *from_id, const char *to_id)
{
	struct bc_store store;
	struct view from = {0};
	struct view to = {0};
	enum bc_status status = bc_store_read(&shelf->book, &store);
	const struct bc_store_jar *source = bc_store_find(&store, from_id);
	const struct bc_store_jar *target = bc_store_find(&store, to_id);
	if (!bc_failed(status) && source != NULL)
		status = view_read(&shelf->book, source, false, &from);
	if (!bc_failed(status) && target != NULL)
		status = view_read(&shelf->book, target, false, &to);
	if (!bc_failed(status) && answer->wants_json)
		answer->json = bc_report_move_json(moved_ml, source != NULL ? &from.page : NULL,
			target != NULL ? &to.page : NULL);
	if (!bc_failed(status) && !answer->wants_json && source != NULL)
		status = bc_report_jar_line(&from.page, &answer->text);
	if (!bc_failed(status) && !answer->wants_json && target != NULL)
		status = bc_report_jar_line(&to.page, &answer->text);
	view_release(&from);
	view_release(&to);
	bc_store_release(&store);
	return bc_shelf_say(shelf, status);
}

static int no_such_jar(const struct bc_shelf *shelf, const char *id)
{
	bc_complain("%s: no jar '%s'; expected one that 'boilcut book jar show' lists",
		shelf->book.path, id);
	return BC_EXIT_NEGATIVE;
}

static int show_one(struct bc_answer *answer, struct bc_shelf *shelf, const struct bc_store *store,
	const char *id)
{
	struct view view;
	const struct bc_store_jar *jar = bc_store_find(store, id);
	if (jar == NULL)
		return no_such_jar(shelf, id);
	enum bc_status status = view_read(&shelf->book, jar, true, &view);
	if (!bc_failed(status) && answer->wants_json)
		answer->json = bc_report_jar_json(&view.page);
	else if (!bc_failed(status))
		status = bc_report_jar(&view.page, &answer->text);
	view_release(&view);
	return bc_shelf_say(shelf, status);
}

static int show_all(struct bc_answer *answer, struct bc_shelf *shelf, const struct bc_store *store)
{
	enum bc_status status = BC_OK;
	if (answer->wants_json)
		answer->json = json_array();
	else if (store->n == 0)
		bc_text_append(
			&answer->text, "No jar yet; 'boilcut book jar new JAR' makes one.\n");
	for (size_t i = 0; i < store->n && !bc_failed(status); i++) {
		struct view view;
		status = view_read(&shelf->book, &store->jars[i], false, &view);
		if (!bc_failed(status) && !answer->wants_json)
			status = bc_report_jar_line(&view.page, &answer->text);
		else if (!bc_failed(status) &&
			 json_array_append_new(answer->json, bc_report_jar_json(&view.page)) != 0)
			status = BC_NO_MEMORY;
		view_release(&view);
	}
	return bc_shelf_say(shelf, status);
}

static int run_show(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf)
{
	struct bc_store store = {0};
	struct bc_answer answer;
	(void)day;
	int result = bc_answer_begin(&answer, arguments, shelf, false);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(shelf, bc_store_read(&shelf->book, &store));
	if (result == BC_EXIT_DONE && arguments->n_operands > 1)
		result = show_one(&answer, shelf, &store, arguments->operands[1]);
	else if (result == BC_EXIT_DONE)
		result = show_all(&answer, shelf, &store);
	bc_store_release(&store);
	return bc_answer_end(&answer, shelf, result);
}

/* ---- a new jar */

static int run_new(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf)
{
	const char *id = arguments->operands[1];
	const char *stated = bc_arguments_value(arguments, "capacity");
	struct bc_answer answer;
	double capacity_ml = NAN;
	bool already = false;
	int result = BC_EXIT_DONE;
	if (!bc_jar_id_valid(id))
		return bc_wrong_usage(arguments->command,
			"'%s' cannot be the id of a jar; expected up to %d bytes in one line, such as 'can "
			"7'",
			id, BC_JAR_ID_SIZE - 1);
	if (stated != NULL)
		result = read_volume(arguments, "capacity", stated, &capacity_ml);
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_answer_begin(&answer, arguments, shelf, true);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(
			shelf, bc_jar_new(&shelf->book, id, capacity_ml,
				       bc_arguments_value(arguments, "place"), day, &already));
	if (result == BC_EXIT_DONE && already) {
		bc_complain("%s: there is a jar '%s' already; expected another id",
			shelf->book.path, id);
		result = BC_EXIT_NEGATIVE;
	}
	if (result == BC_EXIT_DONE)
		result = answer_moved(&answer, shelf, NAN, NULL, id);
	return bc_answer_end(&answer, shelf, result);
}

/* ---- movements */

static int refuse(const struct bc_shelf *shelf, const struct bc_move *move,
	const struct bc_move_outcome *outcome)
{
	char words[BC_VOLUME_WORDS_SIZE];
	const char *path = shelf->book.path;
	switch (outcome->answer) {
	case BC_MOVE_DONE:
		return BC_EXIT_DONE;
	case BC_MOVE_NO_BATCH:
		return bc_no_such_batch(shelf, move->batch);
	case BC_MOVE_NO_FROM:
		return no_such_jar(shelf, move->from);
	case BC_MOVE_NO_TO:
		return no_such_jar(shelf, move->to);
	case BC_MOVE_SAME:
		bc_complain("%s: '%s' is one and the same jar; expected two", path, move->to);
		break;
	case BC_MOVE_NOTHING:
		bc_complain("%s: jar '%s' is empty; nothing has been moved", path, move->from);
		break;
	case BC_MOVE_TOO_LITTLE:
		bc_complain("%s: jar '%s' holds only %s; nothing has been moved", path, move->from,
			bc_volume_words(outcome->volume_ml, words));
		break;
	case BC_MOVE_TOO_MUCH:
		bc_complain("%s: jar '%s' has room for only %s; nothing has been moved", path,
			move->to, bc_volume_words(outcome->volume_ml, words));
		break;
	}
	return BC_EXIT_NEGATIVE;
}

static int make_move(
	const struct bc_arguments *arguments, struct bc_shelf *shelf, const struct bc_move *move)
{
	struct bc_move_outcome outcome = {0};
	struct bc_answer answer;
	int result = bc_answer_begin(&answer, arguments, shelf, true);
	if (result == BC_EXIT_DONE)
		result = bc_shelf_say(shelf, bc_jar_move(&shelf->book, move, &outcome));
	if (result == BC_EXIT_DONE)
		result = refuse(shelf, move, &outcome);
	if (result == BC_EXIT_DONE)
		result = answer_moved(&answer, shelf, outcome.volume_ml, move->from, move->to);
	result = bc_answer_end(&answer, shelf, result);
	if (result == BC_EXIT_DONE && outcome.full)
		bc_complain("%s: jar '%s' is fuller than 95 %%; oil that warms needs room",
			shelf->book.path, move->to);
	return result;
}

static int run_fill(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf)
{
	struct bc_move move = {.kind = BC_MOVE_FILL,
		.date = day,
		.to = arguments->operands[1],
		.text = bc_arguments_value(arguments, "remark")};
	int result = bc_batch_number(arguments, arguments->operands[2], &move.batch);
	if (result == BC_EXIT_DONE)
		result = read_volume(arguments, "volume", arguments->operands[3], &move.volume_ml);
	return result == BC_EXIT_DONE ? make_move(arguments, shelf, &move) : result;
}

/* Without a volume all of it. */
static int read_drawn(const struct bc_arguments *arguments, size_t at, struct bc_move *move)
{
	move->volume_ml = NAN;
	if (arguments->n_operands <= at)
		return BC_EXIT_DONE;
	return read_volume(arguments, "volume", arguments->operands[at], &move->volume_ml);
}

static int run_mix(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf)
{
	struct bc_move move = {.kind = BC_MOVE_MIX,
		.date = day,
		.from = arguments->operands[1],
		.to = arguments->operands[2],
		.text = bc_arguments_value(arguments, "remark")};
	int result = read_drawn(arguments, 3, &move);
	return result == BC_EXIT_DONE ? make_move(arguments, shelf, &move) : result;
}

static int run_empty(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf)
{
	struct bc_move move = {.kind = BC_MOVE_EMPTY,
		.date = day,
		.from = arguments->operands[1],
		.text = bc_arguments_value(arguments, "remark")};
	int result = read_drawn(arguments, 2, &move);
	return result == BC_EXIT_DONE ? make_move(arguments, shelf, &move) : result;
}

static int run_place(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf)
{
	const struct bc_move move = {.kind = BC_MOVE_PLACE,
		.date = day,
		.to = arguments->operands[1],
		.volume_ml = NAN,
		.text = arguments->operands[2]};
	return make_move(arguments, shelf, &move);
}

static int run_test(const struct bc_arguments *arguments, const char *day, struct bc_shelf *shelf)
{
	const struct bc_move move = {.kind = BC_MOVE_TEST,
		.date = day,
		.to = arguments->operands[1],
		.volume_ml = NAN,
		.text = bc_arguments_value(arguments, "remark")};
	return make_move(arguments, shelf, &move);
}

/* ---- the command */

static const struct task tasks[] = {
	{"new", 1, 1, "JAR", {"capacity", "place", NULL}, run_new},
	{"fill", 3, 3, "JAR BATCH VOLUME", {"remark", NULL}, run_fill},
	{"mix", 2, 3, "FROM TO and a VOLUME", {"remark", NULL}, run_mix},
	{"empty", 1, 2, "JAR and a VOLUME", {"remark", NULL}, run_empty},
	{"place", 2, 2, "JAR and where it stands", {NULL}, run_place},
	{"test", 1, 1, "JAR", {"remark", NULL}, run_test},
	{"show", 0, 1, "JAR", {NULL}, run_show},
};
#define TASKS (sizeof tasks / sizeof tasks[0])

/* NULL after a complaint. */
static const struct task *find_task(const struct bc_arguments *arguments)
{
	const char *names[TASKS];
	if (arguments->n_operands == 0) {
		bc_wrong_usage(
			arguments->command, "book jar lacks a word; expected one such as 'show'");
		return NULL;
	}
	for (size_t i = 0; i < TASKS; i++) {
		names[i] = tasks[i].name;
		if (strcmp(arguments->operands[0], tasks[i].name) == 0)
			return &tasks[i];
	}
	bc_wrong_word(arguments->command, arguments->operands[0], "something that book jar does",
		names, TASKS);
	return NULL;
}

static int check_words(const struct bc_arguments *arguments, const struct task *task)
{
	static const char *const common[] = {"book", "json", "date"};
	size_t words = arguments->n_operands - 1;
	if (words < task->least)
		return bc_wrong_usage(arguments->command, "book jar %s lacks a word; expected %s",
			task->name, task->words);
	if (words > task->most)
		return bc_wrong_usage(arguments->command,
			"'%s' is one word too many for book jar %s; expected %s",
			arguments->operands[1 + task->most], task->name, task->words);
	for (size_t i = 0; i < arguments->n_given; i++) {
		const char *name = arguments->given[i].option->name;
		bool known = false;
		for (size_t at = 0; at < sizeof common / sizeof common[0]; at++)
			known = known || strcmp(name, common[at]) == 0;
		for (size_t at = 0; task->options[at] != NULL; at++)
			known = known || strcmp(name, task->options[at]) == 0;
		if (!known)
			return bc_wrong_usage(arguments->command,
				"'--%s' is nothing for book jar %s; expected another option", name,
				task->name);
	}
	return BC_EXIT_DONE;
}

static int run_jar(const struct bc_arguments *arguments)
{
	struct bc_shelf shelf = {0};
	char day[BC_DAY_SIZE];
	const struct task *task = find_task(arguments);
	if (task == NULL)
		return BC_EXIT_USAGE;
	int result = check_words(arguments, task);
	if (result == BC_EXIT_DONE)
		result = bc_day_read(arguments, "date", day);
	if (result != BC_EXIT_DONE)
		return result;
	result = bc_shelf_open(arguments, &shelf);
	if (result == BC_EXIT_DONE)
		result = task->run(arguments, day, &shelf);
	bc_shelf_close(&shelf);
	return result;
}

static const struct bc_option options[] = {
	BC_BOOK_OPTION,
	{"capacity", '\0', "VOLUME", "new: what the jar holds, as 20L; more is refused"},
	{"place", '\0', "TEXT", "new: where it stands"},
	{"date", '\0', "DAY", "when it was done, as 2026-10-03 (default: today)"},
	{"remark", '\0', "TEXT", "fill, mix, empty, test: what is to be said of it"},
	{"json", '\0', NULL, "one JSON value"},
};

static const char *const synopses[] = {
	"book jar new [OPTION...] JAR",
	"book jar fill [OPTION...] JAR BATCH VOLUME",
	"book jar mix [OPTION...] FROM TO [VOLUME]",
	"book jar empty [OPTION...] JAR [VOLUME]",
	"book jar place [OPTION...] JAR TEXT",
	"book jar test [OPTION...] JAR",
	"book jar show [OPTION...] [JAR]",
	NULL,
};

static const char *const examples[] = {
	"boilcut book jar new 'can 8' --capacity 20L --place 'north shelf'",
	"boilcut book jar fill 'can 7' 1 5L --date 2026-10-05",
	NULL,
};

const struct bc_command bc_book_jar_command = {
	.name = "book jar",
	.summary = "jars: what goes in and out, and which runs are in one",
	.synopses = synopses,
	.about =
		"Writes down what is poured where and says what is in a jar, back to the runs. "
		"Movements count in the order in which they are written down; what is drawn has the "
		"shares of what is in the jar; without VOLUME all of it moves.\n"
		"A jar is as dangerous as the worst that is in it, however little that is. What "
		"does not fit or is not there is refused (exit 1).\n"
		"test: peroxide, colour and sediment were looked at; the three months after which "
		"'book due' names the jar begin again.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_jar,
};
