/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BASE_STATUS_H
#define BC_BASE_STATUS_H

/*
 * What a function says of its result. Zero: the result stands. Positive: it stands, with a caveat
 * that the report must carry. Negative: there is no result, and every output is NaN or NULL.
 */
enum bc_status {
	BC_OK = 0,
	BC_OUTSIDE_RANGE = 1, /* outside the range that the source states */
	BC_EXTRAPOLATED = 2,  /* beyond the readings */
	BC_REPAIRED = 3,      /* made monotone, or otherwise mended, and said */
	BC_BAD_DOMAIN = -1,   /* an input is not finite, or outside what the formula can take */
	BC_NO_MEMORY = -2,
	BC_IO = -3,
	BC_MALFORMED = -4, /* the input file is not what it should be */
	BC_NO_CONVERGENCE = -5,
	BC_TOO_FEW = -6, /* too few readings for this */
	BC_NOT_FOUND = -7,
};

static inline int bc_failed(enum bc_status status) { return status < 0; }

/* As a check file writes it: "outside-range", "bad-domain", ... */
const char *bc_status_text(enum bc_status status);

/* The one place where GSL's codes become ours. */
enum bc_status bc_status_from_gsl(int gsl_code);

#endif
