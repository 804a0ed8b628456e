/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of published formulae, each callable by its id with its inputs in order. */
#include "fuel/formula.h"

#include <math.h>
#include <string.h>

#include "fuel/formula_eval.h"

/* The flat list of an entry's inputs, four to each, as braces around four. */
#define BC_IN1(a, b, c, d)                                                                         \
	{                                                                                          \
		a, b, c, d                                                                         \
	}
#define BC_IN2(a, b, c, d, ...) {a, b, c, d}, BC_IN1(__VA_ARGS__)
#define BC_IN3(a, b, c, d, ...) {a, b, c, d}, BC_IN2(__VA_ARGS__)
#define BC_IN4(a, b, c, d, ...) {a, b, c, d}, BC_IN3(__VA_ARGS__)
#define BC_IN5(a, b, c, d, ...) {a, b, c, d}, BC_IN4(__VA_ARGS__)
#define BC_IN6(a, b, c, d, ...) {a, b, c, d}, BC_IN5(__VA_ARGS__)
#define BC_IN7(a, b, c, d, ...) {a, b, c, d}, BC_IN6(__VA_ARGS__)
#define BC_IN8(a, b, c, d, ...) {a, b, c, d}, BC_IN7(__VA_ARGS__)
#define BC_IN9(a, b, c, d, ...) {a, b, c, d}, BC_IN8(__VA_ARGS__)
#define BC_IN10(a, b, c, d, ...) {a, b, c, d}, BC_IN9(__VA_ARGS__)
#define BC_IN11(a, b, c, d, ...) {a, b, c, d}, BC_IN10(__VA_ARGS__)
#define BC_IN12(a, b, c, d, ...) {a, b, c, d}, BC_IN11(__VA_ARGS__)
#define BC_IN13(a, b, c, d, ...) {a, b, c, d}, BC_IN12(__VA_ARGS__)
#define BC_IN14(a, b, c, d, ...) {a, b, c, d}, BC_IN13(__VA_ARGS__)
#define BC_IN15(a, b, c, d, ...) {a, b, c, d}, BC_IN14(__VA_ARGS__)
#define BC_IN16(a, b, c, d, ...) {a, b, c, d}, BC_IN15(__VA_ARGS__)
#define BC_65TH(a1, a2, a3, a4, a5, a6, a7, a8, a9, a10, a11, a12, a13, a14, a15, a16, a17, a18,   \
	a19, a20, a21, a22, a23, a24, a25, a26, a27, a28, a29, a30, a31, a32, a33, a34, a35, a36,  \
	a37, a38, a39, a40, a41, a42, a43, a44, a45, a46, a47, a48, a49, a50, a51, a52, a53, a54,  \
	a55, a56, a57, a58, a59, a60, a61, a62, a63, a64, a65, ...)                                \
	a65
#define BC_GROUPS(...)                                                                             \
	BC_65TH(__VA_ARGS__, 16, 16, 16, 16, 15, 15, 15, 15, 14, 14, 14, 14, 13, 13, 13, 13, 12,   \
		12, 12, 12, 11, 11, 11, 11, 10, 10, 10, 10, 9, 9, 9, 9, 8, 8, 8, 8, 7, 7, 7, 7, 6, \
		6, 6, 6, 5, 5, 5, 5, 4, 4, 4, 4, 3, 3, 3, 3, 2, 2, 2, 2, 1, 1, 1, 1, 0)
#define BC_PASTE(a, b) a##b
#define BC_JOIN(a, b) BC_PASTE(a, b)
#define BC_FORMULA(id, eval, unit, source, equation, trust, accuracy, ...)                         \
	{id, unit, source, equation, trust, accuracy, BC_GROUPS(__VA_ARGS__),                      \
		{BC_JOIN(BC_IN, BC_GROUPS(__VA_ARGS__))(__VA_ARGS__)}, bc_##eval},

const struct bc_formula bc_formulae[] = {
#include "curve/formula.def"
#include "fuel/formula.def"
};
const size_t bc_formula_count = sizeof bc_formulae / sizeof bc_formulae[0];

const struct bc_formula *bc_formula_find(const char *id)
{
	for (size_t i = 0; i < bc_formula_count; i++)
		if (strcmp(bc_formulae[i].id, id) == 0)
			return &bc_formulae[i];
	return NULL;
}

/* The rows of the tables of the sources: between them a formula refuses. */
#define BC_TEN_TO_95 "0 10 30 50 70 90 95"
#define BC_TEN_TO_100 "0 10 30 50 70 90 100"
static const struct bc_formula_points points[] = {
	{"tbp.riazi_daubert", "pct", BC_TEN_TO_95},
	{"tbp.riazi_daubert_inverse", "pct", BC_TEN_TO_95},
	{"tbp.daubert", "pct", BC_TEN_TO_95},
	{"tbp.daubert_inverse", "pct", BC_TEN_TO_95},
	{"d2887.tbp", "pct", "5 10 30 50 70 90 95 100"},
	{"d2887.d86", "pct", BC_TEN_TO_100},
	{"d2887.d86_riazi_daubert", "pct", BC_TEN_TO_100},
	{"efv.riazi_daubert", "pct", BC_TEN_TO_100},
	{"slope.d86", "pct", "0 5 10 20 30 40 50 60 70 80 90 95 100"},
	{"lower_limit.alkane", "carbon", "5 6 7 8 9 10 11 12 13 14 15 16"},
};

const struct bc_formula_points *bc_formula_points_of(const char *id)
{
	for (size_t i = 0; i < sizeof points / sizeof points[0]; i++)
		if (strcmp(points[i].id, id) == 0)
			return &points[i];
	return NULL;
}

const char *bc_trust_text(enum bc_trust trust)
{
	switch (trust) {
	case BC_TRUST_PRINTED:
		return "printed";
	case BC_TRUST_SEEN:
		return "seen";
	case BC_TRUST_MEMORY:
		return "from memory";
	}
	return "";
}
