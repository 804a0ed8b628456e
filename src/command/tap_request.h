/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_TAP_REQUEST_H
#define BC_COMMAND_TAP_REQUEST_H

#include "command/arguments.h"
#include "judgement/tapping.h"

/* What is done with a run of the still once it is computed; returns an exit status. */
typedef int bc_tapping_user(const struct bc_arguments *arguments, const struct bc_tapping *tapping);

/* The run of the still that the command line asks for by BC_TAP_OPTIONS, of the sample in path,
 * handed to use. Says what goes wrong; returns an exit status. */
int bc_tapping_of(const struct bc_arguments *arguments, const char *path, bc_tapping_user *use);

/* Options that say which still is run and how, as rows of a table of options. */
/* clang-format off */
#define BC_TAP_OPTIONS \
	{"want", '\0', "GRADE", \
		"the largest product that meets GRADE, as diesel-range; exit 1 if no cut does"}, \
	{"standard", '\0', "NAME", "the same for one standard; the beginning of its name will do"}, \
	{"cuts", '\0', "LIST", \
		"these turns instead: corrected head 170C, % over by volume 26% or by mass 26%m, " \
		"ascending; the last may be 100%m, which takes in what stays in the pot"}, \
	{"split", '\0', NULL, "the customary boiling ranges instead"}, \
	{"still", '\0', "NAME", \
		"a still of 'boilcut still' (default: that of the sample's key 'still')"}, \
	{"plates", '\0', "N", \
		"equilibrium stages, the pot among them; 1 is the bare pot (default: 2)"}, \
	{"reflux", '\0', "R", "what runs back over what is drawn, or total (default: 1)"}, \
	{"worth", '\0', "M", \
		"a still known by one number instead: the plates it was found to be worth, as 2.3"}, \
	{"charge", '\0', "VOLUME", "what goes into the pot, as 40L (default: 1L)"}, \
	{"heater", '\0', "POWER", "heat into the pot, as 2kW; gives times and cooling water"}, \
	{"vacuum", '\0', "P", "absolute pressure of the run, as 10kPa (default: that of the site)"}, \
	{"pot-limit", '\0', "T", \
		"where the heat goes off (default: 330C; 350C if feed names petroleum products alone)"}, \
	{"margin", '\0', "T", \
		"kept between flash and its limit, in degrees (default: flash less its low bound)"}, \
	{"carry", '\0', "PCT", \
		"what wet condenser and lines carry past the tap, % of the charge (default: 1)"}, \
	{"room", '\0', "VOLUME", \
		"as 30m3: beside the heater's power, when the vapour fills it if cooling fails"}, \
	{"learn", '\0', "DIR", \
		"move and narrow the flash estimate by the closed cups ('flash' keys) in the files " \
		"of DIR, as 'boilcut judge' does"}, \
	{"limits", '\0', "FILE", "limits from a CSV file (default: those of 'boilcut limits')"}
/* clang-format on */

#endif
