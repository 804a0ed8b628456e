/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of a data logger: which are readings, which are noise. */
#include "sample/logger.h"

#include <math.h>
#include <string.h>

#include "base/number.h"
#include "base/units.h"
#include "sample/cell.h"
#include "sample/reader.h"

enum { CELLS_MAX = 16, AGREE = 3 };
#define LINE_MAX_BYTES 400
/* No head moves so far between two lines of a logger; a broken thermocouple does. Judgement. */
#define STRANGE_C 50.0
#define COLDEST_C (-50.0) /* of a shed; loggers show -127 or 850 for a broken sensor */
#define HOTTEST_C 600.0
#define SAME 1e-9

void bc_logger_init(
	struct bc_logger *logger, const struct bc_unit *unit, const struct bc_unit *notebook)
{
	*logger = (struct bc_logger){.unit = unit,
		.notebook = notebook,
		.head = NAN,
		.strange = NAN,
		.amount = NAN,
		.time_s = NAN};
}

void bc_logger_again(struct bc_logger *logger)
{
	logger->head = NAN;
	logger->strange = NAN;
	logger->n_strange = 0;
}

struct cells {
	char text[LINE_MAX_BYTES];
	char *at[CELLS_MAX];
	size_t n;
	char decimal;
};

static bool split(const char *line, struct cells *cells)
{
	static const char separators[] = {'\t', ';', ',', ' '};
	size_t n = strlen(line);
	if (n >= sizeof cells->text)
		return false;
	memcpy(cells->text, line, n + 1);
	char *start = bc_cell_trim(cells->text);
	size_t kind = 0;
	while (kind < 3 && strchr(start, separators[kind]) == NULL)
		kind++;
	cells->decimal = separators[kind] == ',' || strchr(start, ',') == NULL ? '.' : ',';
	cells->n = 0;
	for (char *s = start; s != NULL && cells->n < CELLS_MAX;) {
		char *end = strchr(s, separators[kind]);
		if (end != NULL)
			*end++ = '\0';
		while (end != NULL && separators[kind] == ' ' && *end == ' ')
			end++;
		cells->at[cells->n++] = bc_cell_trim(s);
		s = end;
	}
	return true;
}

static enum bc_logged garbled(
	struct bc_logger *logger, const char *line, const char *what, struct bc_text *why)
{
	char quoted[BC_QUOTED_SIZE];
	logger->n_garbled++;
	bc_text_printf(why, "%s %s", bc_cell_quoted(line, quoted), what);
	return BC_LOGGED_GARBLED;
}

static size_t column(const struct bc_logger *logger, enum bc_column_role role, size_t n)
{
	if (logger->has_columns)
		return logger->columns.at[role];
	switch (role) {
	case BC_COLUMN_AMOUNT:
		return n > 1 ? 0 : BC_NO_COLUMN;
	case BC_COLUMN_HEAD:
		return n > 1 ? 1 : 0;
	case BC_COLUMN_POT:
		return n > 2 ? 2 : BC_NO_COLUMN;
	default:
		return BC_NO_COLUMN;
	}
}

/* A cell that is missing or empty is NaN; false: it is no number. */
static bool number(const struct cells *cells, size_t at, double *value)
{
	*value = NAN;
	return at >= cells->n || *cells->at[at] == '\0' ||
	       bc_number_parse(cells->at[at], cells->decimal, value);
}

static bool temperature(const struct bc_logger *logger, const struct cells *cells,
	enum bc_column_role role, double *temp_c)
{
	const struct bc_unit *unit = logger->unit;
	double value = NAN;
	if (logger->has_columns && !logger->columns.no_unit[role])
		unit = role == BC_COLUMN_POT ? logger->columns.pot_unit : logger->columns.head_unit;
	if (!number(cells, column(logger, role, cells->n), &value))
		return false;
	*temp_c = isnan(value) ? value : bc_unit_to_base(unit, value);
	return true;
}

/* Whether the head is far from where it was; three that agree are believed. */
static bool is_strange(struct bc_logger *logger, double head_c)
{
	if (isnan(logger->head) || fabs(head_c - logger->head) <= STRANGE_C) {
		logger->n_strange = 0;
		return false;
	}
	bool agrees = logger->n_strange > 0 && fabs(head_c - logger->strange) <= STRANGE_C;
	logger->n_strange = agrees ? logger->n_strange + 1 : 1;
	logger->strange = head_c;
	if (logger->n_strange < AGREE)
		return true;
	logger->n_strange = 0;
	return false;
}

static bool is_repeated(
	const struct bc_logger *logger, const struct bc_entry *entry, double head_c, double time_s)
{
	if (!isnan(time_s))
		return fabs(time_s - logger->time_s) <= SAME;
	return fabs(entry->amount - logger->amount) <= SAME && fabs(head_c - logger->head) <= SAME;
}

static enum bc_logged read_cells(struct bc_logger *logger, const char *line,
	const struct cells *cells, struct bc_entry *entry, struct bc_text *why)
{
	double head_c = NAN;
	double pot_c = NAN;
	double time_s = NAN;
	size_t at = column(logger, BC_COLUMN_AMOUNT, cells->n);
	bool end_point = at < cells->n && bc_end_point_from_label(cells->at[at], &entry->point);
	if (!temperature(logger, cells, BC_COLUMN_HEAD, &head_c) || isnan(head_c) ||
		!temperature(logger, cells, BC_COLUMN_POT, &pot_c) ||
		(!end_point && !number(cells, at, &entry->amount)))
		return garbled(logger, line, "is no reading", why);
	(void)number(cells, column(logger, BC_COLUMN_TIME, cells->n), &time_s);
	if (!(head_c >= COLDEST_C && head_c <= HOTTEST_C))
		return garbled(logger, line, "is no temperature of a head", why);
	if (is_repeated(logger, entry, head_c, time_s)) {
		logger->n_repeated++;
		bc_text_append(why, "the same line again");
		return BC_LOGGED_REPEATED;
	}
	if (is_strange(logger, head_c))
		return garbled(logger, line, "is far from the last head", why);
	if (entry->amount < 0.0 || entry->amount < logger->amount)
		return garbled(logger, line, "goes back to less", why);
	logger->head = head_c;
	logger->time_s = time_s;
	logger->amount = isnan(entry->amount) ? logger->amount : entry->amount;
	logger->n_good++;
	entry->kind = BC_ENTRY_READ;
	entry->head = bc_unit_from_base(logger->notebook, head_c);
	entry->pot = bc_unit_from_base(logger->notebook, pot_c);
	return end_point || !isnan(entry->amount) ? BC_LOGGED_READING : BC_LOGGED_HEAD;
}

enum bc_logged bc_logger_line(
	struct bc_logger *logger, const char *line, struct bc_entry *entry, struct bc_text *why)
{
	struct cells cells;
	struct bc_columns columns;
	bc_entry_init(entry);
	if (!split(line, &cells))
		return garbled(logger, line, "is too long", why);
	if (cells.n == 0 || *cells.at[0] == '#' || (cells.n == 1 && *cells.at[0] == '\0'))
		return BC_LOGGED_NOTHING;
	const struct bc_csv_row row = {.line = 0, .fields = cells.at, .n = cells.n};
	if (bc_columns_from_header(&row, &columns)) {
		logger->columns = columns;
		logger->has_columns = true;
		return BC_LOGGED_NOTHING;
	}
	return read_cells(logger, line, &cells, entry, why);
}
