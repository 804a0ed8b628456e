/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sample from one line, as typed at a prompt: "ibp 71, 5 112.5, 10 131, fbp 361". */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/number.h"
#include "sample/cell.h"
#include "sample/plain.h"
#include "sample/reader.h"

#define ONE_LINE_NAME "readings"

/* Splits "end point 361" before its last word; NULL where there is only one. */
static char *last_word(char *item)
{
	char *word = NULL;
	for (char *s = item; *s != '\0';) {
		size_t blank = bc_cell_blank_length(s);
		if (blank > 0)
			word = s + blank;
		s += blank > 0 ? blank : 1;
	}
	return word;
}

/* Cuts a unit such as C or F from the end of "ibp 160 F" or "ibp 160F"; degC where none is. */
static const struct bc_unit *cut_unit(char *item)
{
	const struct bc_unit *unit = NULL;
	char *word = last_word(item);
	double value;
	if (word != NULL && (unit = bc_unit_find(BC_QUANTITY_TEMPERATURE, word)) != NULL) {
		*word = '\0';
		bc_cell_trim(item);
	} else if (word != NULL) {
		char *rest = word + bc_number_prefix(word, '.', &value);
		if (*rest == '.' || *rest == ',')
			rest = word + bc_number_prefix(word, ',', &value);
		if (rest > word && *rest != '\0')
			unit = bc_unit_find(BC_QUANTITY_TEMPERATURE, rest);
		if (unit != NULL)
			*rest = '\0';
	}
	return unit != NULL ? unit : bc_unit_find(BC_QUANTITY_TEMPERATURE, "C");
}

static enum bc_status read_item(struct bc_reader *reader, char *item)
{
	struct bc_reading reading = {.amount = NAN, .head_c = NAN, .pot_c = NAN, .time_s = NAN};
	char quoted[BC_QUOTED_SIZE];
	item = bc_cell_trim(item);
	if (*item == '\0')
		return BC_OK;
	reader->columns.head_unit = cut_unit(item);
	char *head = last_word(item);
	if (head == NULL)
		return bc_refuse(reader, 0,
			"%s is no reading; percent and temperature such as '5 112.5' was expected",
			bc_cell_quoted(item, quoted));
	char *amount = bc_strndup(item, (size_t)(head - item));
	if (amount == NULL)
		return BC_NO_MEMORY;
	char *first = bc_cell_trim(amount);
	bool wordy = !bc_cell_is_number(first) && !bc_end_point_from_label(first, &reading.kind);
	enum bc_status status =
		wordy && !bc_cell_is_number(head)
			? bc_refuse(reader, 0,
				  "%s is no reading; percent and temperature such as '5 112.5' or "
				  "'5 234.5 F' was expected",
				  bc_cell_quoted(item, quoted))
			: bc_reader_add_reading(reader, &reading, first, head);
	bc_free(amount);
	return status;
}

static enum bc_status read_items(struct bc_reader *reader, char *text)
{
	enum bc_status status = BC_OK;
	reader->separator = strchr(text, ';') != NULL ? ';' : ',';
	if (reader->separator == ';')
		reader->decimal = bc_decimal_from_marks(bc_cell_marks(text), ';');
	if (reader->decimal == '\0')
		return bc_refuse(reader, 0,
			"decimal points and decimal commas are mixed; one kind was expected");
	for (char *item = text; item != NULL && !bc_failed(status);) {
		char *next = strchr(item, reader->separator);
		if (next != NULL)
			*next++ = '\0';
		status = read_item(reader, item);
		item = next;
	}
	return bc_failed(status) ? status : bc_reader_finish(reader);
}

enum bc_status bc_sample_from_line(
	const char *line, struct bc_diagnostics *diagnostics, struct bc_sample **sample)
{
	struct bc_reader reader;
	struct bc_plain plain = {0};
	*sample = NULL;
	enum bc_status status = bc_reader_init(&reader, ONE_LINE_NAME, diagnostics);
	if (!bc_failed(status))
		status = bc_plain_from_bytes(line, strlen(line), &plain);
	if (status == BC_MALFORMED)
		status = bc_refuse(&reader, 0, "%s", plain.wrong);
	if (plain.text != NULL)
		status = read_items(&reader, plain.text);
	if (!bc_failed(status)) {
		*sample = reader.sample;
		reader.sample = NULL;
	}
	bc_free(plain.text);
	bc_reader_release(&reader);
	return status;
}
