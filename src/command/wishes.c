/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Grades and standards as a hand types them: by a beginning, in any case, and what was meant where
 * a word is none. */
#include "command/wishes.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "base/strings.h"
#include "base/text.h"
#include "command/output.h"

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

static const char *skip_blanks(const char *s)
{
	while (*s == ' ' || *s == '\t')
		s++;
	return s;
}

/* How word stands to name, blanks and case aside. */
enum likeness { LIKE_NOTHING, LIKE_BEGINNING, LIKE_WHOLE };

static enum likeness likeness_of(const char *name, const char *word)
{
	word = skip_blanks(word);
	if (*word == '\0')
		return LIKE_NOTHING;
	for (; *word != '\0'; word = skip_blanks(word + 1)) {
		name = skip_blanks(name);
		if (lower(*name) != lower(*word))
			return LIKE_NOTHING;
		name++;
	}
	return *skip_blanks(name) == '\0' ? LIKE_WHOLE : LIKE_BEGINNING;
}

/* s without blanks, in small letters, cut off at n. */
static void add_squeezed(struct bc_strings *list, const char *s, size_t n)
{
	struct bc_text squeezed;
	bc_text_init(&squeezed);
	for (; *s != '\0' && squeezed.length < n; s++) {
		char c = lower(*s);
		if (*skip_blanks(s) == *s)
			bc_text_append_n(&squeezed, &c, 1);
	}
	list->failed = list->failed || squeezed.failed;
	bc_strings_add(list, "%s", squeezed.data != NULL ? squeezed.data : "");
	bc_text_release(&squeezed);
}

/* The name whose beginning, about as long as word, is near to it: few type "-range" or the class
 * behind a number. */
static const char *nearest_beginning(const char *word, const char *const *names, size_t n)
{
	enum { LENGTHS = 3 };
	struct bc_strings starts;
	struct bc_strings squeezed;
	const char *nearest = NULL;
	size_t found = n * LENGTHS;
	bc_strings_init(&starts);
	bc_strings_init(&squeezed);
	add_squeezed(&squeezed, word, (size_t)-1);
	size_t length = squeezed.failed ? 0 : strlen(squeezed.items[0]);
	for (size_t i = 0; length > 1 && i < n * LENGTHS; i++)
		add_squeezed(&starts, names[i / LENGTHS], length - 1 + i % LENGTHS);
	if (length > 1 && !starts.failed)
		nearest = bc_nearest_word(
			squeezed.items[0], (const char *const *)starts.items, starts.n);
	for (size_t i = 0; nearest != NULL && i < starts.n && found == n * LENGTHS; i++) {
		if (strcmp(starts.items[i], nearest) == 0)
			found = i;
	}
	bc_strings_release(&squeezed);
	bc_strings_release(&starts);
	return found < n * LENGTHS ? names[found / LENGTHS] : NULL;
}

/* The names of all standards, each once. */
static int standard_names(const struct bc_limits *limits, struct bc_strings *names)
{
	for (size_t i = 0; i < limits->n; i++) {
		if (limits->items[i].in_force)
			bc_strings_add_once(names, "%s", limits->items[i].standard);
	}
	return names->failed ? bc_no_memory() : BC_EXIT_DONE;
}

static const char *standard_near(const char *word, const struct bc_strings *names)
{
	const char *const *list = (const char *const *)names->items;
	for (size_t i = 0; i < names->n; i++) {
		if (likeness_of(list[i], word) != LIKE_NOTHING)
			return list[i];
	}
	return nearest_beginning(word, list, names->n);
}

/* The first row in force of a standard. */
static const struct bc_limit *first_limit_of(
	const struct bc_limits *limits, const char *standard, enum bc_grade_name want)
{
	const struct bc_limit *first = NULL;
	for (size_t i = 0; i < limits->n; i++) {
		const struct bc_limit *limit = &limits->items[i];
		if (!limit->in_force || strcmp(limit->standard, standard) != 0)
			continue;
		if (limit->grade == want)
			return limit;
		if (first == NULL)
			first = limit;
	}
	return first;
}

/* 'EN 590 temperate A-C', 'EN 590 class 0': the names that begin with word, but for one. */
static void list_begun(
	const char *word, const struct bc_strings *names, const char *but_for, struct bc_text *list)
{
	for (size_t i = 0; i < names->n; i++) {
		if (names->items[i] != but_for &&
			likeness_of(names->items[i], word) != LIKE_NOTHING)
			bc_text_printf(
				list, "%s'%s'", list->length > 0 ? ", " : "", names->items[i]);
	}
}

/* Of several standards one is taken: which, and what else was there. */
static void say_taken(const char *word, const struct bc_strings *names, const char *taken)
{
	struct bc_text list;
	bc_text_init(&list);
	list_begun(word, names, taken, &list);
	bc_complain("'%s' is taken for '%s', which is judged without being asked for; there is "
		    "also %s",
		word, taken, list.data != NULL ? list.data : "another");
	bc_text_release(&list);
}

static int several_standards(
	const struct bc_command *command, const char *word, const struct bc_strings *names)
{
	struct bc_text list;
	bc_text_init(&list);
	list_begun(word, names, NULL, &list);
	int result = bc_wrong_usage(command, "'%s' could be several standards; expected one of %s",
		word, list.data != NULL ? list.data : "them");
	bc_text_release(&list);
	return result;
}

/* The one name that word is, or begins; of several that it begins, the one that is judged. */
static int find_standard(const struct bc_command *command, const char *word,
	const struct bc_limits *limits, const struct bc_strings *names, const char **found)
{
	size_t hits = 0;
	size_t judged = 0;
	const char *last = NULL;
	const char *last_judged = NULL;
	for (size_t i = 0; i < names->n; i++) {
		const char *name = names->items[i];
		enum likeness likeness = likeness_of(name, word);
		if (likeness == LIKE_NOTHING)
			continue;
		if (likeness == LIKE_WHOLE) {
			*found = name;
			return BC_EXIT_DONE;
		}
		last = name;
		hits++;
		if (first_limit_of(limits, name, BC_GRADES)->judged) {
			last_judged = name;
			judged++;
		}
	}
	*found = hits == 1 ? last : last_judged;
	if (hits > 1 && judged == 1)
		say_taken(word, names, *found);
	if (hits == 1 || judged == 1)
		return BC_EXIT_DONE;
	if (hits > 1)
		return several_standards(command, word, names);
	const char *nearest = standard_near(word, names);
	if (nearest != NULL)
		return bc_wrong_usage(
			command, "'%s' is not a standard; did you mean '%s'?", word, nearest);
	return bc_wrong_usage(
		command, "'%s' is not a standard; expected one that 'boilcut limits' lists", word);
}

int bc_wish_standard(const struct bc_command *command, const char *word,
	const struct bc_limits *limits, const char **standard)
{
	struct bc_strings names;
	const char *found = NULL;
	bc_strings_init(&names);
	int result = standard_names(limits, &names);
	if (result == BC_EXIT_DONE)
		result = find_standard(command, word, limits, &names, &found);
	if (result == BC_EXIT_DONE) {
		assert(found != NULL);
		*standard = first_limit_of(limits, found, BC_GRADES)->standard;
	}
	bc_strings_release(&names);
	return result;
}

/* The grades that the limits have rows for. */
static size_t grades_of(const struct bc_limits *limits, const char *names[BC_GRADES])
{
	bool has[BC_GRADES] = {false};
	size_t n = 0;
	for (size_t i = 0; i < limits->n; i++)
		has[limits->items[i].grade] = true;
	for (int i = 0; i < BC_GRADES; i++) {
		if (has[i])
			names[n++] = bc_grade_texts[i];
	}
	return n;
}

static int unknown_grade(
	const struct bc_command *command, const char *word, const struct bc_limits *limits)
{
	const char *names[BC_GRADES];
	size_t n = grades_of(limits, names);
	const char *nearest = nearest_beginning(word, names, n);
	if (nearest != NULL)
		return bc_wrong_usage(
			command, "'%s' is not a grade; did you mean '%s'?", word, nearest);
	struct bc_strings standards;
	bc_strings_init(&standards);
	int result = standard_names(limits, &standards);
	nearest = result == BC_EXIT_DONE ? standard_near(word, &standards) : NULL;
	if (nearest != NULL)
		result = bc_wrong_usage(command,
			"'%s' is not a grade; did you mean --standard '%s'?", word, nearest);
	else if (result == BC_EXIT_DONE)
		result = bc_wrong_word(command, word, "a grade", names, n);
	bc_strings_release(&standards);
	return result;
}

int bc_wish_grade(const struct bc_command *command, const char *word,
	const struct bc_limits *limits, enum bc_grade_name *grade)
{
	const char *names[BC_GRADES];
	const char *found = NULL;
	size_t n = grades_of(limits, names);
	size_t hits = 0;
	for (size_t i = 0; i < n; i++) {
		if (likeness_of(names[i], word) != LIKE_NOTHING) {
			found = names[i];
			hits++;
		}
	}
	if (hits != 1)
		return unknown_grade(command, word, limits);
	for (int i = 0; i < BC_GRADES; i++) {
		if (bc_grade_texts[i] == found)
			*grade = (enum bc_grade_name)i;
	}
	return BC_EXIT_DONE;
}

static int wish_for_standard(const struct bc_command *command, const char *word,
	const struct bc_limits *limits, struct bc_judge_options *options)
{
	const char *found = NULL;
	int result = bc_wish_standard(command, word, limits, &found);
	if (result != BC_EXIT_DONE)
		return result;
	assert(found != NULL);
	const struct bc_limit *limit = first_limit_of(limits, found, options->want);
	options->standard = limit->standard;
	if (limit->grade == BC_GRADE_COMPARISON)
		return bc_wrong_usage(command,
			"'%s' is for comparison only; expected a standard of a grade", found);
	if (options->want != BC_GRADES && options->want != limit->grade)
		return bc_wrong_usage(command,
			"'%s' is a standard of %s; expected one of %s as --want says", found,
			bc_grade_texts[limit->grade], bc_grade_texts[options->want]);
	return BC_EXIT_DONE;
}

/* A whole number of an option, from 0 to most. */
static int whole_option(const struct bc_arguments *arguments, const char *name, unsigned long most,
	unsigned long *number)
{
	const char *word = bc_arguments_value(arguments, name);
	double value = NAN;
	if (word == NULL)
		return BC_EXIT_DONE;
	if (!bc_number_parse(word, '.', &value) ||
		!(value >= 0.0 && value <= (double)most && value == floor(value)))
		return bc_wrong_usage(arguments->command,
			"'%s' after --%s is not a whole number from 0 to %lu", word, name, most);
	*number = (unsigned long)value;
	return BC_EXIT_DONE;
}

static int read_draws(const struct bc_arguments *arguments, struct bc_judge_options *options)
{
	unsigned long draws = BC_DRAWS_DEFAULT;
	options->seed = 1;
	int result = whole_option(arguments, "draws", BC_DRAWS_MAX, &draws);
	if (result == BC_EXIT_DONE)
		result = whole_option(arguments, "seed", UINT32_MAX, &options->seed);
	if (result == BC_EXIT_DONE && draws > 0 && draws < BC_DRAWS_MIN)
		return bc_wrong_usage(arguments->command,
			"'%s' after --draws is too few for bounds; expected 0, or %d to %d",
			bc_arguments_value(arguments, "draws"), BC_DRAWS_MIN, BC_DRAWS_MAX);
	options->draws = draws;
	return result;
}

int bc_wishes_read(const struct bc_arguments *arguments, const struct bc_limits *limits,
	struct bc_judge_options *options)
{
	const char *want = bc_arguments_value(arguments, "want");
	const char *standard = bc_arguments_value(arguments, "standard");
	*options = (struct bc_judge_options){.limits = limits, .want = BC_GRADES};
	int drawn = read_draws(arguments, options);
	if (drawn != BC_EXIT_DONE)
		return drawn;
	if (want != NULL) {
		int result = bc_wish_grade(arguments->command, want, limits, &options->want);
		if (result != BC_EXIT_DONE)
			return result;
		if (options->want == BC_GRADE_COMPARISON)
			return bc_wrong_usage(arguments->command,
				"'%s' never enters a verdict; expected a grade such as "
				"diesel-range",
				want);
	}
	if (standard == NULL)
		return BC_EXIT_DONE;
	return wish_for_standard(arguments->command, standard, limits, options);
}
