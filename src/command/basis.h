/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_BASIS_H
#define BC_COMMAND_BASIS_H

#include "book/record.h"
#include "command/arguments.h"
#include "command/still_names.h"
#include "judgement/judgement.h"

/* What a judgement is made with, as the texts that the book keeps and as the options they mean:
 * from a command line when a batch is added, from the book when it is judged again. */
struct bc_basis {
	char *text[BC_BASES];
	struct bc_limits *limits;
	struct bc_judge_options options; /* points into limits and stills */
	struct bc_sample_stills stills;  /* of a record */
};

/* --limits, --want and --standard. Returns an exit status after its message; release even then. */
int bc_basis_from_arguments(const struct bc_arguments *arguments, struct bc_basis *basis);
/* The stills that a sample names, as the text of BC_BASIS_STILL: a new string, or NULL where it
 * names none, or without memory, when *failed is set. */
char *bc_basis_stills(const struct bc_sample_stills *stills, bool *failed);
/* The one that a record was judged with. */
int bc_basis_from_record(const struct bc_record *record, struct bc_basis *basis);
void bc_basis_release(struct bc_basis *basis);

#endif
