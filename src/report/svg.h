/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_SVG_H
#define BC_REPORT_SVG_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

/*
 * Pictures inside a page: SVG 1.1 that takes its colours from the page's style sheet and has its
 * own where there is none. Units are those of the view box, 360 wide, so that letters of 11 stay
 * readable on a telephone.
 */
#define BC_SVG_WIDE 360.0

/* The field of a plot, in data and on the picture. */
struct bc_svg_plot {
	struct bc_text *svg;
	double left; /* edges of the field, in units of the view box */
	double right;
	double top;
	double bottom;
	double from_x; /* what they stand for */
	double to_x;
	double from_y;
	double to_y;
};

/* Ink for lines and letters. */
#define BC_SVG_INK "var(--ink,#17252e)"
#define BC_SVG_SOFT "var(--soft,#52616a)"
#define BC_SVG_RULE "var(--rule,#c8cfd3)"
#define BC_SVG_CURVE "var(--curve,#1f3a4d)"
#define BC_SVG_BAND "var(--band,#b9c7cf)"
#define BC_SVG_WARM "var(--warm,#943c0c)"
#define BC_SVG_PAPER "var(--paper,#fcfbf8)"

/* <svg> with its title and description for those who do not see it; id makes their names unique
 * within the page. */
void bc_svg_open(struct bc_text *svg, double high, const char *id, const char *title,
	const char *description);
void bc_svg_close(struct bc_text *svg);

/* Where a place of the data lies on the picture. */
double bc_svg_x(const struct bc_svg_plot *plot, double x);
double bc_svg_y(const struct bc_svg_plot *plot, double y);

/* A round step that divides a span into four to eight. */
double bc_svg_step(double span);
/* Scales on the left and below, with their names. */
void bc_svg_axes(const struct bc_svg_plot *plot, const char *x_name, const char *y_name);

/* A line through n places (those that are not finite are left out); dash NULL: whole. */
void bc_svg_line(const struct bc_svg_plot *plot, const double *x, const double *y, size_t n,
	const char *ink, double width, const char *dash);
/* The area between two lines. */
void bc_svg_band(const struct bc_svg_plot *plot, const double *x, const double *low,
	const double *high, size_t n);
/* A dot, filled or open. */
void bc_svg_dot(const struct bc_svg_plot *plot, double x, double y, double radius, bool filled);
/* A triangle that points down (a ceiling) or up (a floor). */
void bc_svg_triangle(const struct bc_svg_plot *plot, double x, double y, bool down);
/* A rule across the field, level or upright. */
void bc_svg_level(const struct bc_svg_plot *plot, double y, const char *ink, const char *dash);
void bc_svg_upright(const struct bc_svg_plot *plot, double x, const char *ink, const char *dash);

enum bc_svg_anchor { BC_SVG_START, BC_SVG_MIDDLE, BC_SVG_END };
/* Words at a place of the picture, escaped. */
void bc_svg_words(struct bc_text *svg, double x, double y, enum bc_svg_anchor anchor, double size,
	const char *ink, const char *words);

#endif
