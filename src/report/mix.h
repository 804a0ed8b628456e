/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_MIX_H
#define BC_REPORT_MIX_H

#include <jansson.h>

#include "base/status.h"
#include "base/text.h"
#include "judgement/mixing.h"
#include "report/report.h"

/* A mixture for a person, 80 columns: how much may go in, then the word and the dangers, what is
 * in it, and the page of a judgement without readings. */
enum bc_status bc_report_mix_text(
	const struct bc_mixing *mixing, const struct bc_page_style *style, struct bc_text *text);

/* The same as one self-contained page of HTML. */
enum bc_status bc_report_mix_page(const struct bc_mixing *mixing, struct bc_text *html);

/* The keys of bc_report_json, those that need readings null or empty, with parts,
 * flash_blend_index_c, flash_against_share and may_go_in; a new reference, or NULL without memory.
 */
json_t *bc_report_mix_json(const struct bc_mixing *mixing);

/* A self-contained gnuplot script as those of bc_report_chart; kind is "flash" (flash against
 * the share of one part). */
extern const char *const bc_mix_chart_kinds[]; /* NULL last */
enum bc_status bc_report_mix_chart(
	const struct bc_mixing *mixing, const char *kind, struct bc_text *script);

/* The least flash that the wanted grade asks for [degC]: of the standard that takes most, else of
 * the nearest grade; NaN without one. */
double bc_mix_flash_limit_c(const struct bc_mixing *mixing);

/* File name of part i without its folder. */
const char *bc_mix_part_name(const struct bc_mixing *mixing, size_t i);

#endif
