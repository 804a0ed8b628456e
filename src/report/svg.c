/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The few strokes that the pictures of a page are made of. */
#include "report/svg.h"

#include <math.h>

#include "report/html.h"

#define LETTERS 11.0
#define TICK 3.0

void bc_svg_open(struct bc_text *svg, double high, const char *id, const char *title,
	const char *description)
{
	bc_text_printf(svg,
		"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %g %g\" role=\"img\" "
		"aria-labelledby=\"%s-title %s-text\" font-family=\"sans-serif\">\n"
		"<title id=\"%s-title\">",
		BC_SVG_WIDE, high, id, id, id);
	bc_html_words(svg, title);
	bc_text_printf(svg, "</title>\n<desc id=\"%s-text\">", id);
	bc_html_words(svg, description);
	bc_text_append(svg, "</desc>\n");
}

void bc_svg_close(struct bc_text *svg) { bc_text_append(svg, "</svg>\n"); }

double bc_svg_x(const struct bc_svg_plot *plot, double x)
{
	return plot->left +
	       (x - plot->from_x) / (plot->to_x - plot->from_x) * (plot->right - plot->left);
}

double bc_svg_y(const struct bc_svg_plot *plot, double y)
{
	return plot->bottom -
	       (y - plot->from_y) / (plot->to_y - plot->from_y) * (plot->bottom - plot->top);
}

double bc_svg_step(double span)
{
	static const double rounds[] = {1.0, 2.0, 5.0, 10.0};
	double least = span / 8.0;
	double decade = pow(10.0, floor(log10(least)));
	for (size_t i = 0; i < sizeof rounds / sizeof rounds[0]; i++)
		if (rounds[i] * decade >= least)
			return rounds[i] * decade;
	return 10.0 * decade;
}

static void stroke(struct bc_text *svg, double from_x, double from_y, double to_x, double to_y,
	const char *ink, const char *dash)
{
	bc_text_printf(svg,
		"<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" stroke=\"%s\"%s%s%s/>\n",
		from_x, from_y, to_x, to_y, ink, dash != NULL ? " stroke-dasharray=\"" : "",
		dash != NULL ? dash : "", dash != NULL ? "\"" : "");
}

void bc_svg_words(struct bc_text *svg, double x, double y, enum bc_svg_anchor anchor, double size,
	const char *ink, const char *words)
{
	static const char *const anchors[] = {"start", "middle", "end"};
	bc_text_printf(svg,
		"<text x=\"%.2f\" y=\"%.2f\" text-anchor=\"%s\" font-size=\"%g\" fill=\"%s\">", x,
		y, anchors[anchor], size, ink);
	bc_html_words(svg, words);
	bc_text_append(svg, "</text>\n");
}

static void number(
	const struct bc_svg_plot *plot, double x, double y, enum bc_svg_anchor anchor, double value)
{
	bc_text_printf(plot->svg,
		"<text x=\"%.2f\" y=\"%.2f\" text-anchor=\"%s\" font-size=\"%g\" fill=\"%s\">%g</text>\n",
		x, y, anchor == BC_SVG_END ? "end" : "middle", LETTERS, BC_SVG_SOFT, value);
}

void bc_svg_axes(const struct bc_svg_plot *plot, const char *x_name, const char *y_name)
{
	const double slack = 1e-6;
	double step = bc_svg_step(plot->to_x - plot->from_x);
	long last = lround(floor((plot->to_x + slack * step) / step));
	for (long i = lround(ceil((plot->from_x - slack * step) / step)); i <= last; i++) {
		double x = bc_svg_x(plot, (double)i * step);
		stroke(plot->svg, x, plot->bottom, x, plot->bottom + TICK, BC_SVG_SOFT, NULL);
		number(plot, x, plot->bottom + TICK + LETTERS, BC_SVG_MIDDLE, (double)i * step);
	}
	step = bc_svg_step(plot->to_y - plot->from_y);
	last = lround(floor((plot->to_y + slack * step) / step));
	for (long i = lround(ceil((plot->from_y - slack * step) / step)); i <= last; i++) {
		double y = bc_svg_y(plot, (double)i * step);
		stroke(plot->svg, plot->left - TICK, y, plot->left, y, BC_SVG_SOFT, NULL);
		number(plot, plot->left - TICK - 2.0, y + 0.35 * LETTERS, BC_SVG_END,
			(double)i * step);
	}
	stroke(plot->svg, plot->left, plot->bottom, plot->right, plot->bottom, BC_SVG_SOFT, NULL);
	stroke(plot->svg, plot->left, plot->top, plot->left, plot->bottom, BC_SVG_SOFT, NULL);
	bc_svg_words(plot->svg, plot->right, plot->bottom + TICK + 2.3 * LETTERS, BC_SVG_END,
		LETTERS, BC_SVG_INK, x_name);
	bc_svg_words(plot->svg, 0.0, plot->top - 0.7 * LETTERS, BC_SVG_START, LETTERS, BC_SVG_INK,
		y_name);
}

void bc_svg_line(const struct bc_svg_plot *plot, const double *x, const double *y, size_t n,
	const char *ink, double width, const char *dash)
{
	bc_text_append(plot->svg, "<polyline fill=\"none\" points=\"");
	for (size_t i = 0; i < n; i++)
		if (isfinite(x[i]) && isfinite(y[i]))
			bc_text_printf(plot->svg, "%.2f,%.2f ", bc_svg_x(plot, x[i]),
				bc_svg_y(plot, y[i]));
	bc_text_printf(plot->svg, "\" stroke=\"%s\" stroke-width=\"%g\" stroke-linejoin=\"round\"",
		ink, width);
	if (dash != NULL)
		bc_text_printf(plot->svg, " stroke-dasharray=\"%s\"", dash);
	bc_text_append(plot->svg, "/>\n");
}

void bc_svg_band(const struct bc_svg_plot *plot, const double *x, const double *low,
	const double *high, size_t n)
{
	bc_text_printf(plot->svg, "<polygon fill=\"%s\" points=\"", BC_SVG_BAND);
	for (size_t i = 0; i < n; i++)
		if (isfinite(x[i]) && isfinite(low[i]))
			bc_text_printf(plot->svg, "%.2f,%.2f ", bc_svg_x(plot, x[i]),
				bc_svg_y(plot, low[i]));
	for (size_t i = n; i-- > 0;)
		if (isfinite(x[i]) && isfinite(high[i]))
			bc_text_printf(plot->svg, "%.2f,%.2f ", bc_svg_x(plot, x[i]),
				bc_svg_y(plot, high[i]));
	bc_text_append(plot->svg, "\"/>\n");
}

void bc_svg_dot(const struct bc_svg_plot *plot, double x, double y, double radius, bool filled)
{
	bc_text_printf(plot->svg,
		"<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%g\" fill=\"%s\" stroke=\"%s\"/>\n",
		bc_svg_x(plot, x), bc_svg_y(plot, y), radius, filled ? BC_SVG_CURVE : "none",
		filled ? BC_SVG_CURVE : BC_SVG_SOFT);
}

void bc_svg_triangle(const struct bc_svg_plot *plot, double x, double y, bool down)
{
	const double half = 4.5;
	double at_x = bc_svg_x(plot, x);
	double at_y = bc_svg_y(plot, y);
	double tip = down ? half : -half;
	bc_text_printf(plot->svg, "<path d=\"M%.2f %.2fl%g %gh%gz\" fill=\"%s\" stroke=\"%s\"/>\n",
		at_x, at_y + tip, -half, -2.0 * tip, 2.0 * half, BC_SVG_WARM, BC_SVG_PAPER);
}

void bc_svg_level(const struct bc_svg_plot *plot, double y, const char *ink, const char *dash)
{
	double at = bc_svg_y(plot, y);
	stroke(plot->svg, plot->left, at, plot->right, at, ink, dash);
}

void bc_svg_upright(const struct bc_svg_plot *plot, double x, const char *ink, const char *dash)
{
	double at = bc_svg_x(plot, x);
	stroke(plot->svg, at, plot->top, at, plot->bottom, ink, dash);
}
