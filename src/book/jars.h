/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_JARS_H
#define BC_BOOK_JARS_H

#include <stdbool.h>
#include <stddef.h>

#include "book/book.h"

/*
 * Jars, and what is in them: the replay of their movements in the order in which they were written
 * down. Oils mix without change of volume, and what is drawn has the shares of what is in the jar.
 */

#define BC_JAR_ID_SIZE 65 /* with its NUL */
#define BC_DAY_SIZE 11    /* 2026-10-03 */
/* Volumes closer than this are the same [mL]: decimal fractions of a litre add up to it. */
#define BC_JAR_STEP_ML 1e-6
/* A jar fuller than this share of its capacity leaves no room to expand; common practice. */
#define BC_JAR_FULL_FRAC 0.95

/* One batch in a jar. */
struct bc_jar_part {
	long long batch;
	double volume_ml;
	char since[BC_DAY_SIZE]; /* the storage clock of this part: drawn, made or last tested */
};

/* A jar as it stands after its movements. */
struct bc_store_jar {
	char *id;
	char *opened;       /* day */
	char *place;        /* NULL: not known */
	double capacity_ml; /* NaN: not known */
	double volume_ml;
	char moved[BC_DAY_SIZE];   /* day of the last movement; "" without */
	struct bc_jar_part *parts; /* in the order in which they came in */
	size_t n_parts;
	size_t parts_capacity;
	long long *before; /* batches that were in it when it was emptied; it may not have been
			      cleaned */
	size_t n_before;
	size_t before_capacity;
};

struct bc_store {
	struct bc_store_jar *jars; /* by id */
	size_t n;
};

/* Every jar. BC_NO_MEMORY, BC_IO, BC_MALFORMED (a movement of a jar or batch that is not there).
 * Release after any status. */
enum bc_status bc_store_read(struct bc_book *book, struct bc_store *store);
void bc_store_release(struct bc_store *store);
/* The jar so called, ASCII letters without case; NULL: none. */
const struct bc_store_jar *bc_store_find(const struct bc_store *store, const char *id);

/* Whether s can be the id of a jar: 1 to 64 bytes of UTF-8 without control characters, no blank
 * first or last. */
bool bc_jar_id_valid(const char *s);

enum bc_move_kind { BC_MOVE_FILL, BC_MOVE_MIX, BC_MOVE_EMPTY, BC_MOVE_PLACE, BC_MOVE_TEST };

/* A movement on its way into the book. */
struct bc_move {
	enum bc_move_kind kind;
	const char *date; /* day */
	long long batch;  /* fill */
	const char *from; /* mix, empty: a jar */
	const char *to;   /* fill, mix, place, test: a jar */
	double volume_ml; /* fill, mix, empty; NaN (mix, empty): all of it */
	const char *text; /* place: where; else a remark or NULL */
};

enum bc_move_answer {
	BC_MOVE_DONE,
	BC_MOVE_NO_BATCH,
	BC_MOVE_NO_FROM, /* no such jar */
	BC_MOVE_NO_TO,
	BC_MOVE_SAME,       /* from and to are one jar */
	BC_MOVE_TOO_LITTLE, /* volume_ml is what is there */
	BC_MOVE_TOO_MUCH,   /* volume_ml is the room that is left */
	BC_MOVE_NOTHING,    /* from is empty */
};

struct bc_move_outcome {
	enum bc_move_answer answer;
	double volume_ml; /* moved, or see the answer */
	bool full;        /* done, and the jar is fuller than BC_JAR_FULL_FRAC */
};

/*
 * bc_jar_new  - a jar, empty
 * bc_jar_move - one movement, if it is possible
 *
 * Given     id as bc_jar_id_valid; capacity_ml > 0 or NaN; place or NULL; day
 *           move   volumes > 0 [mL]
 * Returned  *already  there is one of that name (ASCII letters without case): nothing was added
 *           *outcome  why not, or how much
 * Status    BC_OK also when the answer is no; BC_IO, BC_MALFORMED, BC_NO_MEMORY
 * Notes     1. what is missing by no more than BC_JAR_STEP_ML counts as there
 *           2. within bc_book_begin and bc_book_end it is part of that transaction
 */
enum bc_status bc_jar_new(struct bc_book *book, const char *id, double capacity_ml,
	const char *place, const char *day, bool *already);
enum bc_status bc_jar_move(
	struct bc_book *book, const struct bc_move *move, struct bc_move_outcome *outcome);

/* What was written down of one jar, oldest first. */
struct bc_movement {
	long long batch; /* 0: none */
	enum bc_move_kind kind;
	double volume_ml;
	char *date;
	char *from;
	char *to;
	char *text;
};
struct bc_movements {
	struct bc_movement *items;
	size_t n;
	size_t capacity;
};
/* id as bc_store_jar.id. Release after any status. */
enum bc_status bc_movements_read(
	struct bc_book *book, const char *id, struct bc_movements *movements);
void bc_movements_release(struct bc_movements *movements);

#endif
