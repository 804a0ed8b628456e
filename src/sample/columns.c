/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The header row of the table: each cell is taken word by word, in any order and case. */
#include "sample/columns.h"

#include <string.h>

#include "sample/cell.h"
#include "sample/keys.h"

/* What a word says. */
enum {
	SAYS_AMOUNT = 1 << 0,
	SAYS_HEAD = 1 << 1,
	SAYS_POT = 1 << 2,
	SAYS_TIME = 1 << 3,
	SAYS_NOTE = 1 << 4,
	SAYS_VOLUME = 1 << 5,
	SAYS_MASS = 1 << 6,
	UNIT_PERCENT = 1 << 7,
	UNIT_ML = 1 << 8,
	UNIT_G = 1 << 9,
	UNIT_C = 1 << 10,
	UNIT_F = 1 << 11,
	UNIT_K = 1 << 12,
	UNIT_R = 1 << 13,
	UNIT_HOUR = 1 << 14,
	UNIT_MINUTE = 1 << 15,
	UNIT_SECOND = 1 << 16,
	UNIT_MM = 1 << 17, /* minutes of a clock */
	UNIT_SS = 1 << 18,
	UNIT_STRANGE = 1 << 19, /* a word in brackets that is none of these */
	SAYS_EVAPORATED = 1 << 20,
	STRANGE = 1 << 21
};
#define UNITS_AMOUNT (UNIT_PERCENT | UNIT_ML | UNIT_G)
#define UNITS_TEMPERATURE (UNIT_C | UNIT_F | UNIT_K | UNIT_R)
#define UNITS_TIME (UNIT_HOUR | UNIT_MINUTE | UNIT_SECOND | UNIT_MM | UNIT_SS)
#define SAYS_ANY (SAYS_AMOUNT | SAYS_HEAD | SAYS_POT | SAYS_TIME | SAYS_NOTE)

static const struct {
	unsigned says;
	const char *words; /* blanks between and at both ends */
} lexicon[] = {
	{SAYS_AMOUNT, " recovered recovery distilled distillate over collected amount "},
	{SAYS_AMOUNT | SAYS_EVAPORATED, " evaporated evaporation evap "},
	{SAYS_AMOUNT | SAYS_VOLUME, " volume vol v "},
	{SAYS_AMOUNT | SAYS_MASS, " mass weight wt w m "},
	{SAYS_HEAD, " head temperature temperatures temp temps vapour vapor thermometer top t "},
	{SAYS_POT, " pot kettle bottom bottoms flask boiler "},
	{SAYS_TIME, " time elapsed clock "},
	{SAYS_NOTE, " note notes remark remarks comment comments "},
	{UNIT_PERCENT, " % percent percentage pct "},
	{UNIT_ML, " ml cc cm3 millilitre millilitres milliliter milliliters "},
	{UNIT_G, " g gram grams gramme grammes "},
	{UNIT_C, " c celsius centigrade degc "},
	{UNIT_F, " f fahrenheit degf "},
	{UNIT_K, " k kelvin degk "},
	{UNIT_R, " r rankine degr "},
	{UNIT_HOUR, " h hr hrs hh hour hours "},
	{UNIT_MINUTE, " min mins minute minutes "},
	{UNIT_SECOND, " s sec secs second seconds "},
	{UNIT_MM, " mm "},
	{UNIT_SS, " ss "},
	{0, " of at in by the deg degree degrees reading readings observed measured column "
	    "receiver cumulative total oil so far "},
};

#define LONGEST_WORD 24

static unsigned meaning(const char *word)
{
	char spaced[LONGEST_WORD + 3];
	size_t n = strlen(word);
	spaced[0] = ' ';
	memcpy(spaced + 1, word, n);
	memcpy(spaced + 1 + n, " ", 2);
	for (size_t i = 0; i < sizeof lexicon / sizeof *lexicon; i++) {
		if (strstr(lexicon[i].words, spaced) != NULL)
			return lexicon[i].says;
	}
	return STRANGE;
}

/* Bytes of the sign at s that belongs to no word: punctuation, blanks, degree signs. */
static size_t gap_length(const char *s)
{
	size_t blank = bc_cell_blank_length(s);
	if (blank > 0)
		return blank;
	if (memcmp(s, "\xc2\xb0", 2) == 0 || memcmp(s, "\xc2\xba", 2) == 0)
		return 2; /* degree sign, and the ordinal sign often typed for it */
	return strchr("()[]{},/:;._-", *s) != NULL ? 1 : 0;
}

/* The next word of *s in lower case; empty at the end, "?" when it is too long for any we know. */
static void next_word(const char **s, char word[LONGEST_WORD])
{
	size_t n = 0;
	const char *at = *s;
	while (*at != '\0' && gap_length(at) > 0)
		at += gap_length(at);
	if (*at == '%') {
		word[n++] = *at++;
	} else if (strncmp(at, "\xe2\x84\x83", 3) == 0 || strncmp(at, "\xe2\x84\x89", 3) == 0) {
		word[n++] = at[2] == '\x83' ? 'c' : 'f'; /* the one-character degree Celsius */
		at += 3;
	} else {
		while (*at != '\0' && *at != '%' && gap_length(at) == 0) {
			char c = *at++;
			if (n < LONGEST_WORD)
				word[n++] = c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
		}
	}
	if (n >= LONGEST_WORD) {
		word[0] = '?';
		n = 1;
	}
	word[n] = '\0';
	*s = at;
}

/* All that a header cell says. The unit stands in brackets, or after a comma or slash. */
static unsigned cell_meaning(const char *cell)
{
	unsigned says = 0;
	const char *unit = cell + strcspn(cell, "([{,/");
	char word[LONGEST_WORD];
	for (const char *s = cell;;) {
		next_word(&s, word);
		if (word[0] == '\0')
			return says;
		unsigned more = meaning(word);
		if (more == STRANGE && s > unit && (says & SAYS_ANY) != 0)
			more = UNIT_STRANGE;
		says |= more;
	}
}

static enum bc_column_role role_of(unsigned says)
{
	if (says & STRANGE)
		return BC_COLUMN_UNKNOWN;
	if (says & SAYS_NOTE)
		return BC_COLUMN_NOTE;
	if (says & SAYS_TIME)
		return BC_COLUMN_TIME;
	if (says & SAYS_POT)
		return BC_COLUMN_POT;
	bool head = (says & SAYS_HEAD) != 0;
	bool amount = (says & SAYS_AMOUNT) != 0;
	if (head && amount)
		return BC_COLUMN_UNKNOWN;
	if (head || amount)
		return head ? BC_COLUMN_HEAD : BC_COLUMN_AMOUNT;
	bool temperature = (says & UNITS_TEMPERATURE) != 0;
	bool time = (says & UNITS_TIME) != 0;
	amount = (says & UNITS_AMOUNT) != 0;
	if (temperature + time + amount != 1)
		return BC_COLUMN_UNKNOWN;
	return temperature ? BC_COLUMN_HEAD : time ? BC_COLUMN_TIME : BC_COLUMN_AMOUNT;
}

enum bc_column_role bc_column_role(const char *cell) { return role_of(cell_meaning(cell)); }

bool bc_is_whole_header(const char *cell)
{
	unsigned says = cell_meaning(cell);
	return (says & (SAYS_HEAD | UNITS_TEMPERATURE)) != 0 &&
	       (says & (SAYS_AMOUNT | UNITS_AMOUNT)) != 0;
}

static bool is_bad_unit(enum bc_column_role role, unsigned says)
{
	unsigned strange = says & UNIT_STRANGE;
	unsigned units = says & (UNITS_AMOUNT | UNITS_TEMPERATURE | UNITS_TIME);
	switch (role) {
	case BC_COLUMN_AMOUNT:
		units &= ~(unsigned)UNITS_AMOUNT;
		break;
	case BC_COLUMN_HEAD:
	case BC_COLUMN_POT:
		/* more than one bit: two units */
		if ((units & (units - 1)) == 0)
			units &= ~(unsigned)UNITS_TEMPERATURE;
		break;
	case BC_COLUMN_TIME:
		units &= ~(unsigned)UNITS_TIME;
		break;
	default:
		return false;
	}
	return (units | strange) != 0;
}

/* The unit words win over "volume" and "mass", which alone mean mL and g. */
static enum bc_amount_basis basis_of(unsigned says)
{
	bool mass = (says & SAYS_MASS) != 0 && (says & SAYS_VOLUME) == 0;
	if (says & UNIT_PERCENT)
		return mass ? BC_AMOUNT_MASS_PCT : BC_AMOUNT_VOLUME_PCT;
	if (says & UNIT_ML)
		return BC_AMOUNT_VOLUME_ML;
	if ((says & UNIT_G) || mass)
		return BC_AMOUNT_MASS_G;
	return says & SAYS_VOLUME ? BC_AMOUNT_VOLUME_ML : BC_AMOUNT_VOLUME_PCT;
}

static const struct bc_unit *temperature_unit(unsigned says)
{
	const char *name = says & UNIT_F ? "F" : says & UNIT_K ? "K" : says & UNIT_R ? "R" : "C";
	return bc_unit_find(BC_QUANTITY_TEMPERATURE, name);
}

static bool says_no_unit(enum bc_column_role role, unsigned says)
{
	if (role == BC_COLUMN_AMOUNT)
		return (says & UNITS_AMOUNT) == 0;
	if (role == BC_COLUMN_TIME)
		return (says & UNITS_TIME) == 0;
	return (says & UNITS_TEMPERATURE) == 0;
}

static void note_column(struct bc_columns *columns, size_t at, const char *cell)
{
	unsigned says = cell_meaning(cell);
	enum bc_column_role role = role_of(says);
	bool evaporated = (says & SAYS_EVAPORATED) != 0;
	if (role == BC_COLUMN_UNKNOWN)
		return;
	/* recovered and evaporated side by side: recovered is what was read */
	if (role == BC_COLUMN_AMOUNT && columns->at[role] != BC_NO_COLUMN &&
		columns->evaporated != evaporated) {
		if (evaporated)
			return;
		columns->at[role] = BC_NO_COLUMN;
	}
	if (columns->at[role] != BC_NO_COLUMN) {
		if (columns->twin[role] == BC_NO_COLUMN)
			columns->twin[role] = at;
		return;
	}
	columns->at[role] = at;
	columns->bad_unit[role] = is_bad_unit(role, says);
	columns->no_unit[role] = says_no_unit(role, says);
	if (role == BC_COLUMN_AMOUNT) {
		columns->basis = basis_of(says);
		columns->evaporated = evaporated;
	}
	if (role == BC_COLUMN_HEAD)
		columns->head_unit = temperature_unit(says);
	if (role == BC_COLUMN_POT)
		columns->pot_unit = temperature_unit(says);
	if (role == BC_COLUMN_TIME) {
		bool clock = (says & (UNIT_MM | UNIT_SS)) != 0;
		const char *unit = says & UNIT_MINUTE           ? "min"
				   : says & UNIT_SECOND         ? "s"
				   : says & UNIT_HOUR && !clock ? "h"
								: "min";
		columns->time_unit = bc_unit_find(BC_QUANTITY_TIME, unit);
		columns->minutes_seconds = (says & UNIT_SS) != 0 && (says & UNIT_HOUR) == 0;
	}
}

bool bc_columns_from_header(const struct bc_csv_row *row, struct bc_columns *columns)
{
	*columns = (struct bc_columns){0};
	for (size_t role = 0; role < BC_COLUMN_ROLES; role++) {
		columns->at[role] = BC_NO_COLUMN;
		columns->twin[role] = BC_NO_COLUMN;
	}
	size_t first = row->n;
	for (size_t i = 0; i < row->n; i++) {
		if (*row->fields[i] == '\0')
			continue;
		if (first == row->n)
			first = i;
		columns->n = i + 1;
		note_column(columns, i, row->fields[i]);
	}
	if (columns->at[BC_COLUMN_AMOUNT] == BC_NO_COLUMN ||
		columns->at[BC_COLUMN_HEAD] == BC_NO_COLUMN)
		return false;
	/* "note,recovered,head" is a header; "sample,recovered,head" is a sample with a strange
	 * name */
	return bc_key_find(row->fields[first]) == NULL ||
	       bc_column_role(row->fields[first]) == BC_COLUMN_NOTE;
}
