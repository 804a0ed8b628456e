/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Fuzzes the journal and what reads lines beside it: whatever a journal holds must make a notebook,
 * whose file a reader takes or refuses with a word; whatever is cut off its end must leave the
 * records before as they were; and any line typed or logged must be answered.
 */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/units.h"
#include "sample/journal.h"
#include "sample/logger.h"
#include "sample/notebook.h"
#include "sample/typed.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char good[] = "boilcut journal 1|recovered (%)|head (C)|b.csv|42AE710E\n"
			   "1|1|0.000|1795616509.865|read|5|100|||98D452E5\n";

/* Good records with the input behind them: the good ones stand, or the whole is refused. */
static void read_behind(const char *bytes, size_t n)
{
	struct bc_journal_text text;
	char *whole = malloc(sizeof good + n);
	if (whole == NULL)
		abort();
	memcpy(whole, good, sizeof good - 1);
	memcpy(whole + sizeof good - 1, bytes, n);
	enum bc_status status =
		bc_journal_read(whole, sizeof good - 1 + n, "b.csv", "fuzz", NULL, &text);
	if (status == BC_OK && n < 8 &&
		(text.entries.n != 1 || text.entries.items[0].amount != 5.0))
		abort();
	if (status != BC_OK && status != BC_MALFORMED)
		abort();
	bc_journal_text_release(&text);
	free(whole);
}

static void keep(struct bc_notebook *notebook, struct bc_entry *entry)
{
	if (bc_notebook_apply(notebook, entry) != BC_OK)
		abort();
}

static void write_down(struct bc_notebook *notebook)
{
	struct bc_diagnostics diagnostics;
	struct bc_sample *sample = NULL;
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_notebook_sample(notebook, NULL, &diagnostics, &sample);
	if (status != BC_OK && bc_diagnostics_first_error(&diagnostics) == NULL)
		abort();
	bc_sample_free(sample);
	bc_diagnostics_release(&diagnostics);
}

static void read_alone(const char *bytes, size_t n, struct bc_notebook *notebook)
{
	struct bc_journal_text text;
	if (bc_journal_read(bytes, n, "b.csv", "fuzz", NULL, &text) == BC_OK) {
		for (size_t i = 0; i < text.entries.n; i++)
			keep(notebook, &text.entries.items[i]);
	}
	bc_journal_text_release(&text);
}

static void read_line(const char *line, struct bc_logger *logger, struct bc_notebook *notebook)
{
	struct bc_typed typed;
	struct bc_entry entry;
	struct bc_text words;
	bc_text_init(&words);
	if (bc_typed_read(line, &typed) != BC_OK)
		abort();
	if (typed.kind == BC_TYPED_WRONG && typed.why[0] == '\0')
		abort();
	/* what is noted down comes back from its line of the journal */
	bc_entry_write(&typed.entry, &words);
	if (bc_entry_read(words.data, &entry) == BC_OK)
		keep(notebook, &entry);
	bc_typed_release(&typed);
	(void)bc_logger_line(logger, line, &entry, &words);
	bc_entry_release(&entry);
	bc_text_release(&words);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct bc_notebook notebook;
	struct bc_logger logger;
	const struct bc_unit *unit = bc_unit_find(BC_QUANTITY_TEMPERATURE, "C");
	bc_notebook_init(&notebook);
	bc_logger_init(&logger, unit, unit);
	notebook.file = "b.csv";
	if (bc_notebook_begin(&notebook, NULL, 'C') != BC_OK)
		abort();
	read_alone((const char *)data, size, &notebook);
	read_behind((const char *)data, size);
	char *lines = malloc(size + 1);
	if (lines == NULL)
		abort();
	memcpy(lines, data, size);
	lines[size] = '\0';
	for (char *line = strtok(lines, "\n"); line != NULL; line = strtok(NULL, "\n"))
		read_line(line, &logger, &notebook);
	write_down(&notebook);
	free(lines);
	bc_notebook_release(&notebook);
	return 0;
}
