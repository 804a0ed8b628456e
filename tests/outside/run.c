/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Holds the formulae against published values: run FILE.chk... reads blocks of plain text and
 * prints 'ok' or 'not ok' for each. Blocks of a FILE.failing are known to fail and must. A formula
 * for which no value passes, or trusted as printed without a printed value, is 'not ok'.
 * run --table FILE... prints how many values hold each formula
 * (standards-notes/formula-checks.csv), run --sources FILE... the list of sources
 * (standards-notes/SOURCES.md). */
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/number.h"
#include "fuel/formula.h"

enum { FILE_LIMIT_BYTES = 1 << 20, FORMULAE_MAX = 256, WHY_SIZE = 300 };

/* What a value is worth: seen in print and met to half its last digit; seen in print and met within
 * a wider width; remembered from print, certified, measured or computed in another way; or computed
 * with the same formula, which proves the code and not the formula. */
enum basis { PRINTED, NEAR_PRINT, INDEPENDENT, SAME_FORMULA, BASES };
static const char *const basis_words[BASES] = {
	"printed", "near-print", "independent", "same-formula"};

/* What is asked for. */
enum wish { RESULTS, TABLE, SOURCES };

struct block {
	const char *file;
	int line; /* of its first line */
	char *source;
	char *basis;
	char *formula;
	char *tolerance;
	char *given;
	char *expect;
};

/* A malformed block is an error even where failure is expected. */
enum outcome { MET, MISSED, MALFORMED };

struct tally {
	enum wish wish;
	int passed;
	int failed;
	unsigned values[FORMULAE_MAX][BASES]; /* that hold each formula */
};

static bool starts_with(const char *s, const char *head)
{
	return strncmp(s, head, strlen(head)) == 0;
}

static bool ends_with(const char *s, const char *tail)
{
	size_t n = strlen(s);
	size_t m = strlen(tail);
	return n >= m && strcmp(s + n - m, tail) == 0;
}

static char *trimmed(char *s)
{
	s += strspn(s, " \t");
	for (size_t n = strlen(s); n > 0 && strchr(" \t\r", s[n - 1]); n--)
		s[n - 1] = '\0';
	return s;
}

/* printed: half the last printed digit; identity: what follows from a definition; cross: an
 * independent computation; certified: a certificate. */
static bool known_kind(const char *word)
{
	static const char *const kinds[] = {"printed", "identity", "cross", "certified"};
	for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
		if (strcmp(word, kinds[i]) == 0)
			return true;
	return false;
}

/* Half of the last digit of a number as written: "33.40" has 0.005. */
static double half_last_digit(const char *number)
{
	double half = 0.5;
	const char *point = strchr(number, '.');
	for (size_t i = point ? strspn(point + 1, "0123456789") : 0; i > 0; i--)
		half /= 10.0;
	return half;
}

/* "0.02 cross"; one that is printed is no wider than the print. What is wrong, or NULL. */
static const char *read_tolerance(char *text, const char *expected, double *tolerance)
{
	const double binary = 1.02; /* halves of decimal digits are not exact */
	size_t n = text ? bc_number_prefix(text, '.', tolerance) : 0;
	const char *kind = n > 0 ? trimmed(text + n) : "";
	if (n == 0 || !(*tolerance >= 0.0) || !known_kind(kind))
		return "the tolerance is no number with a known kind";
	if (strcmp(kind, "printed") == 0 && *tolerance > binary * half_last_digit(expected))
		return "the tolerance is wider than half the last digit that is printed";
	return NULL;
}

/* "t10_c=176.7 ..." into the inputs of formula, in order. */
static const char *read_given(char *text, const struct bc_formula *formula, double *input)
{
	size_t taken = 0;
	bool have[BC_FORMULA_INPUTS_MAX] = {false};
	for (char *word = strtok(text, " \t"); word; word = strtok(NULL, " \t")) {
		char *equals = strchr(word, '=');
		if (!equals)
			return "a given value without '='";
		*equals = '\0';
		size_t i = 0;
		while (i < formula->n_inputs && strcmp(formula->inputs[i].name, word) != 0)
			i++;
		if (i == formula->n_inputs || have[i])
			return "a given name that the formula does not have, or twice";
		if (!bc_number_parse(equals + 1, '.', &input[i]))
			return "a given value that is no number";
		have[i] = true;
		taken++;
	}
	return taken == formula->n_inputs ? NULL : "not all inputs are given";
}

static const char *status_word(enum bc_status status)
{
	return status == BC_OK ? "" : bc_status_text(status);
}

static bool meets_failure(const char *expected, enum bc_status status, double got, char *why)
{
	if (bc_failed(status) && isnan(got) && strcmp(expected, bc_status_text(status)) == 0)
		return true;
	snprintf(why, WHY_SIZE, "got %.9g %s, expected failure %s", got, status_word(status),
		expected);
	return false;
}

/* "VALUE UNIT" or "VALUE UNIT outside-range"; a bare number may have the unit "-". */
static enum outcome meets_value(char *expected, double tolerance, const struct bc_formula *formula,
	enum bc_status status, double got, char *why)
{
	double value = NAN;
	size_t n = bc_number_prefix(expected, '.', &value);
	if (n == 0) {
		snprintf(why, WHY_SIZE, "no number is expected");
		return MALFORMED;
	}
	char *unit = trimmed(expected + n);
	bool outside = ends_with(unit, "outside-range");
	if (outside) {
		unit[strlen(unit) - strlen("outside-range")] = '\0';
		unit = trimmed(unit);
	}
	if (strcmp(unit, "-") == 0)
		unit = trimmed(unit + 1);
	if (strcmp(unit, formula->unit) != 0) {
		snprintf(why, WHY_SIZE, "expected in '%s', the formula gives '%s'", unit,
			formula->unit);
		return MALFORMED;
	}
	enum bc_status wanted = outside ? BC_OUTSIDE_RANGE : BC_OK;
	if (status == wanted && fabs(got - value) <= tolerance)
		return MET;
	snprintf(why, WHY_SIZE, "got %.9g %s, expected %.9g %s", got, status_word(status), value,
		status_word(wanted));
	return MISSED;
}

/* BASES where the word is none of them. */
static enum basis basis_of(const char *word)
{
	int i = 0;
	while (i < BASES && (!word || strcmp(word, basis_words[i]) != 0))
		i++;
	return (enum basis)i;
}

/* What a block says of its value; a known failure proves none. What is wrong, or NULL. */
static const char *read_basis(const struct block *block)
{
	if (ends_with(block->file, ".failing"))
		return block->basis ? "a known failure has a basis" : NULL;
	enum basis basis = basis_of(block->basis);
	if (basis == BASES)
		return "the basis is not printed, near-print, independent or same-formula";
	bool printed = ends_with(block->tolerance, "printed");
	if (basis == PRINTED && !printed)
		return "the basis is printed, the tolerance is not: near-print, or half a digit";
	if (basis == NEAR_PRINT && printed)
		return "the tolerance is printed, the basis only near-print";
	return NULL;
}

/* *index stays FORMULAE_MAX for a block that proves no value. */
static enum outcome check_block(struct block *block, char *why, size_t *index)
{
	double tolerance = NAN;
	double input[BC_FORMULA_INPUTS_MAX];
	if (!block->source || !block->formula || !block->given || !block->expect) {
		snprintf(why, WHY_SIZE, "the block lacks source, formula, given or expect");
		return MALFORMED;
	}
	const struct bc_formula *formula = bc_formula_find(block->formula);
	if (!formula) {
		snprintf(why, WHY_SIZE, "there is no such formula");
		return MALFORMED;
	}
	const char *wrong = read_given(block->given, formula, input);
	if (wrong) {
		snprintf(why, WHY_SIZE, "%s", wrong);
		return MALFORMED;
	}
	double got = NAN;
	enum bc_status status = formula->eval(input, &got);
	if (starts_with(block->expect, "failure "))
		return meets_failure(trimmed(block->expect + strlen("failure ")), status, got, why)
			       ? MET
			       : MISSED;
	wrong = read_tolerance(block->tolerance, block->expect, &tolerance);
	if (wrong) {
		snprintf(why, WHY_SIZE, "%s", wrong);
		return MALFORMED;
	}
	wrong = read_basis(block);
	if (wrong) {
		snprintf(why, WHY_SIZE, "%s", wrong);
		return MALFORMED;
	}
	*index = (size_t)(formula - bc_formulae);
	return meets_value(block->expect, tolerance, formula, status, got, why);
}

static void finish_block(struct block *block, struct tally *tally)
{
	if (block->line == 0)
		return;
	char why[WHY_SIZE] = "";
	size_t index = FORMULAE_MAX;
	enum outcome outcome = check_block(block, why, &index);
	bool met = outcome == MET;
	bool known_failure = ends_with(block->file, ".failing");
	const char *id = block->formula ? block->formula : "?";
	if (met && index < FORMULAE_MAX && !known_failure)
		tally->values[index][basis_of(block->basis)]++;
	if (met && known_failure)
		snprintf(why, WHY_SIZE, "a known failure passes");
	if (outcome != MALFORMED && met != known_failure) {
		tally->passed++;
		if (tally->wish == RESULTS)
			printf("ok %s:%d %s\n", block->file, block->line, id);
	} else {
		tally->failed++;
		printf("not ok %s:%d %s: %s\n", block->file, block->line, id, why);
	}
	*block = (struct block){.file = block->file};
}

static void take_line(struct block *block, char *line, int number, struct tally *tally)
{
	line = trimmed(line);
	if (line[0] == '#')
		return;
	if (line[0] == '\0') {
		finish_block(block, tally);
		return;
	}
	if (block->line == 0)
		block->line = number;
	size_t n = strcspn(line, " \t");
	char *value = trimmed(line + n);
	const struct {
		const char *key;
		char **place;
	} keys[] = {{"source", &block->source}, {"basis", &block->basis},
		{"formula", &block->formula}, {"tolerance", &block->tolerance},
		{"given", &block->given}, {"expect", &block->expect}};
	for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
		if (strlen(keys[i].key) == n && strncmp(keys[i].key, line, n) == 0 &&
			*keys[i].place == NULL && value[0] != '\0') {
			*keys[i].place = value;
			return;
		}
	tally->failed++;
	printf("not ok %s:%d not a line of a check file, or a second one: %s\n", block->file,
		number, line);
}

static void run_file(const char *path, struct tally *tally)
{
	char *bytes = NULL;
	size_t n = 0;
	if (bc_failed(bc_file_read(path, FILE_LIMIT_BYTES, &bytes, &n, NULL))) {
		tally->failed++;
		printf("not ok %s cannot be read\n", path);
		return;
	}
	struct block block = {.file = path};
	int number = 0;
	for (char *line = bytes; line != NULL;) {
		char *end = strchr(line, '\n');
		if (end)
			*end++ = '\0';
		take_line(&block, line, ++number, tally);
		line = end;
	}
	finish_block(&block, tally);
	bc_free(bytes);
}

static void require_values(struct tally *tally)
{
	for (size_t i = 0; i < bc_formula_count; i++) {
		const struct bc_formula *formula = &bc_formulae[i];
		const unsigned *values = tally->values[i];
		if (i < FORMULAE_MAX &&
			values[PRINTED] + values[NEAR_PRINT] + values[INDEPENDENT] +
				values[SAME_FORMULA] &&
			formula->source[0] != '\0')
			continue;
		tally->failed++;
		printf("not ok %s has no source or no value that passes\n", formula->id);
	}
	for (size_t i = 0; i < bc_formula_count && i < FORMULAE_MAX; i++) {
		if (bc_formulae[i].trust != BC_TRUST_PRINTED || tally->values[i][PRINTED] > 0)
			continue;
		tally->failed++;
		printf("not ok %s is trusted as printed without a printed value\n",
			bc_formulae[i].id);
	}
}

static void print_table(const struct tally *tally)
{
	puts("# Values of tests/outside/ that hold each formula: seen in print and met to half the last"
	     " digit; seen in print and met within a wider width; remembered from print, certified,"
	     " measured or computed in another way; computed with the same formula."
	     " Made by 'make notes'.");
	puts("id,printed,near_print,independent,same_formula");
	for (size_t i = 0; i < bc_formula_count; i++)
		printf("%s,%u,%u,%u,%u\n", bc_formulae[i].id, tally->values[i][PRINTED],
			tally->values[i][NEAR_PRINT], tally->values[i][INDEPENDENT],
			tally->values[i][SAME_FORMULA]);
}

static void print_source(const struct bc_formula *formula, const unsigned *values)
{
	printf("- `%s`", formula->id);
	if (formula->unit[0] != '\0')
		printf(" [%s]", formula->unit);
	printf(": %s", formula->source);
	if (formula->equation[0] != '\0')
		printf("; %s", formula->equation);
	unsigned held = values[PRINTED] + values[NEAR_PRINT] + values[INDEPENDENT];
	printf(". Trust: %s. Accuracy: %s. Values: %u printed, %u near print, %u independent,"
	       " %u same formula%s.\n",
		bc_trust_text(formula->trust), formula->accuracy, values[PRINTED],
		values[NEAR_PRINT], values[INDEPENDENT], values[SAME_FORMULA],
		held == 0 ? " (unchecked in print)" : "");
}

static void print_sources(const struct tally *tally)
{
	puts("# Where the formulae come from\n");
	puts("Made from the list of formulae by `make notes`; do not edit. Trust says how the formula"
	     " itself was seen: printed (an example in print is reproduced), seen (in a public copy)"
	     " or from memory. Values are those of `tests/outside/` that hold it: printed, seen in"
	     " print and met to half the last digit; near print, seen in print and met within the"
	     " wider width that the block states; independent, remembered from print, certified,"
	     " measured or computed in another way; computed with the same formula, which proves the"
	     " code alone.");
	for (size_t i = 0; i < bc_formula_count; i++) {
		const char *id = bc_formulae[i].id;
		size_t n = strcspn(id, ".") + 1;
		size_t first = 0;
		while (strncmp(id, bc_formulae[first].id, n) != 0)
			first++;
		if (first != i)
			continue;
		printf("\n## %.*s\n\n", (int)n - 1, id);
		for (size_t k = i; k < bc_formula_count; k++)
			if (strncmp(id, bc_formulae[k].id, n) == 0)
				print_source(&bc_formulae[k], tally->values[k]);
	}
}

int main(int argc, char **argv)
{
	struct tally tally = {.wish = RESULTS};
	if (argc > 1 && strcmp(argv[1], "--table") == 0)
		tally.wish = TABLE;
	else if (argc > 1 && strcmp(argv[1], "--sources") == 0)
		tally.wish = SOURCES;
	for (int i = tally.wish == RESULTS ? 1 : 2; i < argc; i++)
		run_file(argv[i], &tally);
	if (tally.wish == TABLE)
		print_table(&tally);
	else if (tally.wish == SOURCES)
		print_sources(&tally);
	if (tally.wish == RESULTS) {
		require_values(&tally);
		printf("%d passed, %d failed\n", tally.passed, tally.failed);
	}
	return tally.failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
