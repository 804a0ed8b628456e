/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_BOOK_H
#define BC_COMMAND_BOOK_H

#include "base/strings.h"
#include "book/exchange.h"
#include "book/record.h"
#include "command/command.h"

/*
 * The parts of 'boilcut book', one file each (book_add.c), with an option table of their own. A new
 * one: declare it here, name it "book WORD", add a line to the list in book.c.
 */
extern const struct bc_command bc_book_init_command;
extern const struct bc_command bc_book_add_command;
extern const struct bc_command bc_book_list_command;
extern const struct bc_command bc_book_show_command;
extern const struct bc_command bc_book_note_command;
extern const struct bc_command bc_book_verify_command;
extern const struct bc_command bc_book_jar_command;
extern const struct bc_command bc_book_due_command;
extern const struct bc_command bc_book_balance_command;
extern const struct bc_command bc_book_still_command;
extern const struct bc_command bc_book_pair_command;
extern const struct bc_command bc_book_trend_command;
extern const struct bc_command bc_book_compare_command;
extern const struct bc_command bc_book_export_command;
extern const struct bc_command bc_book_import_command;

/* The row that every part has in its table. */
#define BC_BOOK_OPTION                                                                             \
	{                                                                                          \
		"book", '\0', "FILE",                                                              \
			"the book (default: BOILCUT_BOOK, or boilcut/book.db in XDG_DATA_HOME)"    \
	}

/* 'book due', which 'book list --due' is too; takes --on and --json. */
int bc_due_run(const struct bc_arguments *arguments);

/* A book open for a command: what goes wrong in it is printed by bc_shelf_say. */
struct bc_shelf {
	struct bc_book book;
	struct bc_diagnostics diagnostics;
};

/* Opens the book of --book, BOILCUT_BOOK or the XDG data folder. Returns an exit status after its
 * message; close it even then. */
int bc_shelf_open(const struct bc_arguments *arguments, struct bc_shelf *shelf);
void bc_shelf_close(struct bc_shelf *shelf);
/* Prints what the book has said since, and turns a status of the room book into an exit status.
 * BC_NOT_FOUND is a negative answer, of which the caller says what was not found. */
int bc_shelf_say(struct bc_shelf *shelf, enum bc_status status);

/* The number of a batch from a word of the command line, "12"; complains of others. */
int bc_batch_number(const struct bc_arguments *arguments, const char *word, long long *batch);
/* Judges files and keeps them, as 'book add' does with its options. Returns an exit status. */
int bc_add_paths(const struct bc_arguments *arguments, const struct bc_strings *paths);
/* "boilcut: BOOK: no batch 12; ..."; returns BC_EXIT_NEGATIVE. */
int bc_no_such_batch(const struct bc_shelf *shelf, long long batch);

#endif
