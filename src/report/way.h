/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_WAY_H
#define BC_REPORT_WAY_H

#include <stdbool.h>
#include <stddef.h>

#include "base/estimate.h"
#include "base/status.h"
#include "fuel/formula.h"
#include "judgement/judgement.h"

/* One step on the way from a reading to a reported figure. */
struct bc_step {
	const char *section; /* heading that it stands under */
	char *figure;        /* what it gives: "flash_t10_c", "DIN 51603-1: density" */
	/* The formula of the registry that gave result, or NULL: then note says how. */
	const struct bc_formula *formula;
	size_t n_inputs;
	const char *names[BC_FORMULA_INPUTS_MAX];
	const char *units[BC_FORMULA_INPUTS_MAX];
	double inputs[BC_FORMULA_INPUTS_MAX];
	double result; /* NaN: none, or words */
	const char *unit;
	const char *words; /* the result where it is no number: "within"; or NULL */
	double low;        /* 95 % bounds; NaN where none are told */
	double high;
	double reported; /* the judgement's own figure, which result should be; NaN: it has none */
	char *source;    /* of a step without formula; or NULL */
	char *note;      /* or NULL */
};

/* All steps of a judgement, in the order of the program. A failed allocation is remembered. */
struct bc_way {
	struct bc_step *items;
	size_t n;
	size_t capacity;
	bool failed;
	const char *section;
};

/* Every step; the judgement must outlive the way. BC_NO_MEMORY leaves it empty. */
enum bc_status bc_way_find(const struct bc_judgement *judgement, struct bc_way *way);
void bc_way_release(struct bc_way *way);

/* Whether a step's result is the judgement's own figure, or there is none to hold it against. */
bool bc_step_agrees(const struct bc_step *step);

/* ---- for the makers of steps */

void bc_way_section(struct bc_way *way, const char *heading);
/* A step that evaluates the formula so called. A formula that fails gives NaN. */
void bc_way_formula(struct bc_way *way, const char *figure, const char *id, const double *inputs,
	double reported);
/* A step without formula. */
void bc_way_plain(struct bc_way *way, const char *figure, double result, const char *unit);
/* More about the step made last. */
void bc_way_input(struct bc_way *way, const char *name, double value, const char *unit);
void bc_way_words(struct bc_way *way, const char *words);
void bc_way_bounds(struct bc_way *way, const struct bc_estimate *estimate);
__attribute__((format(printf, 2, 3))) void bc_way_source(
	struct bc_way *way, const char *format, ...);
/* Sentences are joined by "; ". */
__attribute__((format(printf, 2, 3))) void bc_way_note(struct bc_way *way, const char *format, ...);
/* The judgement's own figure, which a step without formula computed once more. */
void bc_way_reported(struct bc_way *way, double reported);
/* The result of the step made last; NaN where there is none. */
double bc_way_result(const struct bc_way *way);

void bc_way_reading(const struct bc_judgement *judgement, struct bc_way *way);
void bc_way_curve(const struct bc_judgement *judgement, struct bc_way *way);
void bc_way_slices(const struct bc_judgement *judgement, struct bc_way *way);
void bc_way_properties(const struct bc_judgement *judgement, struct bc_way *way);
void bc_way_flash(const struct bc_judgement *judgement, struct bc_way *way);
void bc_way_verdict(const struct bc_judgement *judgement, struct bc_way *way);
void bc_way_cut(const struct bc_judgement *judgement, struct bc_way *way);

#endif
