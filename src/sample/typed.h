/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_TYPED_H
#define BC_SAMPLE_TYPED_H

#include "base/status.h"
#include "sample/entry.h"

/* What a typed line asks for. */
enum bc_typed_kind {
	BC_TYPED_NOTHING, /* a blank line */
	BC_TYPED_ENTRY,   /* something to note down; an amount, head or both may still be NaN */
	BC_TYPED_BARE,    /* a number alone, in entry.head */
	BC_TYPED_LIST,
	BC_TYPED_HELP,
	BC_TYPED_FINISH,
	BC_TYPED_QUIT,
	BC_TYPED_YES,
	BC_TYPED_NO,
	BC_TYPED_WRONG /* why says what was expected */
};

#define BC_TYPED_WHY_SIZE 320
struct bc_typed {
	enum bc_typed_kind kind;
	struct bc_entry entry;
	char why[BC_TYPED_WHY_SIZE];
};

/*
 * bc_typed_read - a line as typed beside the flask
 *
 * "5 112.5", "112.5", "ibp 71", "fbp 361", "ep 361", "dry", "dry 352", "note bumping", "fix 20
 * 148", "undo", "pot 240", "5 112.5 pot 240", "density 0.803 g/mL", "list", "help", "finish",
 * "quit", "y", "n". A decimal comma is as good as a point; control characters are left out. Status
 * BC_OK, BC_NO_MEMORY; *typed is to be released.
 */
enum bc_status bc_typed_read(const char *line, struct bc_typed *typed);
void bc_typed_release(struct bc_typed *typed);

#endif
