/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'boilcut mix': what becomes of jars poured together, and how much of one may go into others. */
#include <stdint.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "command/arguments.h"
#include "command/case.h"
#include "command/output.h"
#include "command/pictures.h"
#include "command/wishes.h"
#include "judgement/mixing.h"
#include "report/mix.h"

/* One word of the command line: "jar.csv=20L". */
struct portion {
	char *path; /* owned */
	enum bc_mix_unit unit;
	double amount; /* L, kg or % */
};

/* The cases must not move: judgements point into themselves. */
struct mash {
	struct portion portions[BC_BLEND_PARTS_MAX];
	struct bc_case *cases[BC_BLEND_PARTS_MAX];
	size_t n;
};

static void release_mash(struct mash *mash)
{
	for (size_t i = 0; i < mash->n; i++) {
		bc_free(mash->portions[i].path);
		bc_case_close(mash->cases[i]);
		bc_free(mash->cases[i]);
	}
}

/* ---- amounts */

/* Gallons are of two sizes, and no jar is marked in pounds. */
static const struct {
	const char *name;
	enum bc_mix_unit unit;
	double factor;
} units[] = {
	{"L", BC_MIX_LITRES, 1.0},
	{"l", BC_MIX_LITRES, 1.0},
	{"mL", BC_MIX_LITRES, 1e-3},
	{"ml", BC_MIX_LITRES, 1e-3},
	{"kg", BC_MIX_KILOGRAM, 1.0},
	{"g", BC_MIX_KILOGRAM, 1e-3},
	{"%", BC_MIX_PERCENT, 1.0},
};

/* An amount as "20L", "5000 mL", "3.2kg", "25%" or "?"; a bare number is refused. */
static bool amount_parse(const char *word, struct portion *portion)
{
	double number = 0.0;
	size_t taken = bc_number_prefix(word, '.', &number);
	if (strcmp(word, "?") == 0) {
		portion->unit = BC_MIX_ASKED;
		return true;
	}
	const char *unit = word + taken + strspn(word + taken, " ");
	for (size_t i = 0; taken > 0 && i < sizeof units / sizeof units[0]; i++) {
		if (strcmp(unit, units[i].name) != 0)
			continue;
		portion->unit = units[i].unit;
		portion->amount = number * units[i].factor;
		return true;
	}
	return false;
}

static int read_portion(const struct bc_command *command, const char *word, struct mash *mash)
{
	const double least = 1e-6; /* a microlitre */
	const double most = 1e6;   /* a thousand cubic metres */
	struct portion portion = {0};
	const char *equals = strrchr(word, '=');
	if (equals == NULL || equals == word)
		return bc_wrong_usage(command,
			"'%s' says no amount; expected such as jar.csv=20L or jar.csv=?", word);
	if (!amount_parse(equals + 1, &portion))
		return bc_wrong_usage(command,
			"'%s' is no amount; expected L, mL, g, kg or %%, as 20L, or ?", equals + 1);
	if (portion.unit != BC_MIX_ASKED && !(portion.amount >= least && portion.amount <= most))
		return bc_wrong_usage(
			command, "'%s' cannot be an amount; expected above nothing", equals + 1);
	if (mash->n == BC_BLEND_PARTS_MAX)
		return bc_wrong_usage(command, "'%s' is one part too many; expected at most %d",
			word, BC_BLEND_PARTS_MAX);
	portion.path = bc_strndup(word, (size_t)(equals - word));
	if (portion.path == NULL)
		return bc_no_memory();
	mash->portions[mash->n++] = portion;
	return BC_EXIT_DONE;
}

static int check_portions(const struct bc_arguments *arguments, const struct mash *mash)
{
	const struct bc_command *command = arguments->command;
	bool wish = bc_arguments_has(arguments, "want") || bc_arguments_has(arguments, "standard");
	size_t asked = 0;
	size_t percents = 0;
	size_t inputs = 0;
	double sum_pct = 0.0;
	for (size_t i = 0; i < mash->n; i++) {
		asked += mash->portions[i].unit == BC_MIX_ASKED;
		inputs += strcmp(mash->portions[i].path, "-") == 0;
		if (mash->portions[i].unit == BC_MIX_PERCENT) {
			percents++;
			sum_pct += mash->portions[i].amount;
		}
	}
	if (inputs > 1)
		return bc_wrong_usage(
			command, "standard input ('-') is named twice; expected once");
	if (asked > 1)
		return bc_wrong_usage(command, "'?' stands for two parts; expected one");
	if (asked == 1 && mash->n < 2)
		return bc_wrong_usage(
			command, "'?' stands alone; expected what it goes into, as other.csv=20L");
	if (asked == 1 && !wish)
		return bc_wrong_usage(
			command, "'?' lacks a wish; expected --want or --standard beside it");
	if (percents > 0 && percents + asked < mash->n)
		return bc_wrong_usage(
			command, "'%%' is mixed with other units; expected %% for every part");
	if (percents > 0 && !(sum_pct >= 99.95 && sum_pct <= 100.05))
		return bc_wrong_usage(command, "'%%' adds up to %g; expected 100", sum_pct);
	return BC_EXIT_DONE;
}

static int read_portions(const struct bc_arguments *arguments, struct mash *mash)
{
	int result = bc_arguments_count(arguments, 1, SIZE_MAX, "FILE=AMOUNT");
	for (size_t i = 0; i < arguments->n_operands && result == BC_EXIT_DONE; i++)
		result = read_portion(arguments->command, arguments->operands[i], mash);
	if (result == BC_EXIT_DONE)
		result = check_portions(arguments, mash);
	return result;
}

/* ---- running */

static int print(const struct bc_arguments *arguments, const struct bc_mixing *mixing)
{
	if (bc_arguments_has(arguments, "json")) {
		json_t *json = bc_report_mix_json(mixing);
		bool done = bc_out_json(json, 0);
		json_decref(json);
		return done ? BC_EXIT_DONE : bc_no_memory();
	}
	struct bc_page_style style = {.colour = bc_wants_colour("auto")};
	struct bc_text text;
	bc_text_init(&text);
	int result =
		bc_report_mix_text(mixing, &style, &text) == BC_OK ? BC_EXIT_DONE : bc_no_memory();
	if (result == BC_EXIT_DONE)
		bc_out_text(&text);
	bc_text_release(&text);
	return result;
}

static enum bc_status write_chart(const void *subject, const char *kind, struct bc_text *script)
{
	return bc_report_mix_chart(subject, kind, script);
}

static int draw(const char *folder, const struct bc_mixing *mixing)
{
	struct bc_pictures pictures;
	int result = bc_pictures_open(&pictures, folder);
	if (result == BC_EXIT_DONE)
		result = bc_pictures_draw_all(&pictures, mixing->mix.sample->file,
			bc_mix_chart_kinds, write_chart, mixing);
	bc_pictures_close(&pictures);
	return result;
}

static int write_page(const char *path, const struct bc_mixing *mixing)
{
	struct bc_text html;
	bc_text_init(&html);
	int result = bc_report_mix_page(mixing, &html) == BC_OK ? bc_out_file(path, &html)
								: bc_no_memory();
	bc_text_release(&html);
	return result;
}

/* Asked how much: a share above none. Else as 'judge'. */
static bool answered(const struct bc_arguments *arguments, const struct bc_mixing *mixing)
{
	bool wish = bc_arguments_has(arguments, "want") || bc_arguments_has(arguments, "standard");
	if (mixing->share.asked)
		return mixing->share.share_pct > 0.0;
	return !wish || mixing->mix.wanted_met;
}

static int mix_all(const struct bc_arguments *arguments, const struct mash *mash,
	const struct bc_judge_options *options, struct bc_mixing *mixing)
{
	const char *folder = bc_arguments_value(arguments, "charts");
	const char *page = bc_arguments_value(arguments, "page");
	for (size_t i = 0; i < mash->n; i++)
		bc_mixing_add(mixing, &mash->cases[i]->judgement, mash->portions[i].unit,
			mash->portions[i].amount);
	enum bc_status status = bc_mix(mixing, options);
	if (bc_failed(status)) {
		bc_case_complain("mix", status);
		return bc_exit_from_status(status);
	}
	int result = print(arguments, mixing);
	if (result == BC_EXIT_DONE && !answered(arguments, mixing))
		result = BC_EXIT_NEGATIVE;
	int drawn = folder != NULL ? draw(folder, mixing) : BC_EXIT_DONE;
	int written = page != NULL ? write_page(page, mixing) : BC_EXIT_DONE;
	drawn = written > drawn ? written : drawn;
	return drawn > result ? drawn : result;
}

/* Each part is judged as by itself. */
static int judge_parts(struct mash *mash, const struct bc_judge_options *options)
{
	int result = BC_EXIT_DONE;
	for (size_t i = 0; i < mash->n && result == BC_EXIT_DONE; i++) {
		mash->cases[i] = bc_alloc(sizeof *mash->cases[i]);
		if (mash->cases[i] == NULL)
			return bc_no_memory();
		result = bc_case_open(mash->cases[i], mash->portions[i].path, NULL, options);
	}
	return result;
}

static int mix_portions(const struct bc_arguments *arguments, struct mash *mash,
	const struct bc_judge_options *options)
{
	struct bc_mixing *mixing = bc_alloc(sizeof *mixing);
	if (mixing == NULL)
		return bc_no_memory();
	bc_mixing_init(mixing);
	int result = judge_parts(mash, options);
	if (result == BC_EXIT_DONE)
		result = mix_all(arguments, mash, options, mixing);
	bc_mixing_release(mixing);
	bc_free(mixing);
	return result;
}

static int run_mix(const struct bc_arguments *arguments)
{
	struct bc_limits *limits = NULL;
	struct bc_judge_options options = {.want = BC_GRADES};
	struct mash mash = {0};
	int result = read_portions(arguments, &mash);
	if (result == BC_EXIT_DONE)
		result = bc_arguments_folder(arguments, "charts");
	if (result == BC_EXIT_DONE)
		result = bc_arguments_page(arguments, "page", false);
	if (result == BC_EXIT_DONE)
		result = bc_case_limits(bc_arguments_value(arguments, "limits"), &limits);
	if (result == BC_EXIT_DONE)
		result = bc_wishes_read(arguments, limits, &options);
	if (result == BC_EXIT_DONE)
		result = mix_portions(arguments, &mash, &options);
	release_mash(&mash);
	bc_limits_free(limits);
	return result;
}

static const struct bc_option options[] = {
	{"page", '\0', "FILE.html", "also write one page for a phone or paper"},
	{"want", '\0', "GRADE",
		"exit 1 unless the mixture is usable as GRADE or a cut makes it so, as "
		"diesel-range; with '?', the limits that the share must keep"},
	{"standard", '\0', "NAME", "the same for one standard; the beginning of its name will do"},
	{"json", '\0', NULL,
		"one JSON object: that of 'judge', with parts, flash_blend_index_c, may_go_in"},
	{"charts", '\0', "DIR",
		"also write a chart of flash against the share of '?', or of the first part, into "
		"DIR"},
	{"limits", '\0', "FILE", "limits from a CSV file (default: those of 'boilcut limits')"},
};

static const char *const synopses[] = {
	"mix [OPTION...] FILE=AMOUNT...",
	"mix [OPTION...] --want GRADE FILE=? FILE=AMOUNT...",
	NULL,
};

static const char *const examples[] = {
	"boilcut mix samples/lamp-oil.csv=5L samples/drying-room.csv=20L",
	"boilcut mix samples/lamp-oil.csv=? samples/drying-room.csv=20L --want heating",
	NULL,
};

const struct bc_command bc_mix_command = {
	.name = "mix",
	.summary = "what becomes of jars poured together, how much may go in",
	.synopses = synopses,
	.about =
		"Adds up what the parts are made of, slice by slice, and judges the mixture as "
		"'judge' would: curve, flash with bounds that carry the errors of every part, "
		"limits, dangers, verdict. Amounts are L, mL, g, kg, or % by volume for every part "
		"(100 in all).\n"
		"'?' asks how much of that jar may go into the others before a limit breaks; exit 1 "
		"when none may. At most 16 parts; '-' is standard input, as -=1L.\n"
		"A batch that filled several jars is put together the same way: boil off each jar, "
		"write a file for each, and give each with its volume. A jar of which nothing is "
		"claimed takes the claim from the whole mixture.",
	.options = options,
	.n_options = sizeof options / sizeof options[0],
	.examples = examples,
	.run = run_mix,
};
