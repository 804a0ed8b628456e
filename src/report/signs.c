/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two hazard signs that an oil of this kind asks for. */
#include "report/signs.h"

/* Figures in a square of 100, its middle at 0. */
static const char *const figures[] = {
	[BC_SIGN_FLAME] =
		"<path d=\"M-3 -33C6 -22 4 -14 9 -9C12 -12 12 -17 11 -21C21 -11 24 0 20 9C17 16 10 19 "
		"0 19C-10 19 -18 15 -20 7C-22 -1 -18 -7 -14 -12C-13 -7 -11 -5 -9 -4C-11 -15 -8 -25 -3 "
		"-33Z\"/><path fill=\"#fff\" d=\"M1 -9C4 -3 10 0 10 7C10 12 6 15 0 15C-6 15 -10 12 -10 "
		"7C-10 3 -8 1 -6 -1C-5 2 -4 3 -2 4C-3 0 -1 -5 1 -9Z\"/><path d=\"M-21 "
		"23H21V28H-21Z\"/>",
	[BC_SIGN_HEALTH] =
		"<circle cx=\"0\" cy=\"-24\" r=\"8\"/><path d=\"M-24 27V2C-24 -8 -16 -13 -8 -14H8C16 "
		"-13 24 -8 24 2V27Z\"/><path fill=\"#fff\" d=\"M0 -11L4 3L14 -5L9 7L24 6L11 12L20 "
		"22L6 15L3 27L-2 16L-13 24L-8 12L-22 9L-8 6L-15 -6L-4 3Z\"/>",
};

void bc_sign_draw(enum bc_sign sign, double x, double y, double side, struct bc_text *svg)
{
	bc_text_printf(svg,
		"<g transform=\"translate(%.2f %.2f) scale(%.4f)\"><path d=\"M0 -47L47 0L0 47L-47 "
		"0Z\" fill=\"#fff\" stroke=\"#d2001e\" stroke-width=\"5\" "
		"stroke-linejoin=\"miter\"/>%s</g>\n",
		x, y, side / 100.0, figures[sign]);
}
