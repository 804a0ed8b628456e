/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FORMULA_EVAL_H
#define BC_FUEL_FORMULA_EVAL_H

/* Inside fuel/ only: each formula behind one signature, its inputs in the order of its row. */
#include "base/status.h"

#define BC_EVAL(name) enum bc_status bc_##name(const double *in, double *out)

/* Evaluators that hand their inputs to a function of as many numbers. */
#define BC_EVAL_1(name, function)                                                                  \
	BC_EVAL(eval_##name) { return function(in[0], out); }
#define BC_EVAL_2(name, function)                                                                  \
	BC_EVAL(eval_##name) { return function(in[0], in[1], out); }
#define BC_EVAL_3(name, function)                                                                  \
	BC_EVAL(eval_##name) { return function(in[0], in[1], in[2], out); }
#define BC_EVAL_4(name, function)                                                                  \
	BC_EVAL(eval_##name) { return function(in[0], in[1], in[2], in[3], out); }
#define BC_EVAL_5(name, function)                                                                  \
	BC_EVAL(eval_##name) { return function(in[0], in[1], in[2], in[3], in[4], out); }
#define BC_EVAL_6(name, function)                                                                  \
	BC_EVAL(eval_##name) { return function(in[0], in[1], in[2], in[3], in[4], in[5], out); }

#define BC_FORMULA(id, eval, ...) BC_EVAL(eval);
#include "curve/formula.def"
#include "fuel/formula.def"
#undef BC_FORMULA

/* Functions that give NaN where they have nothing to say. */
enum bc_status bc_eval_plain(double value, double *out);

#endif
