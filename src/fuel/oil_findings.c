/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the computed oil tells about itself beyond its figures. */
#include "fuel/oil_findings.h"

#include <math.h>

#include "base/memory.h"
#include "fuel/oil_model.h"

enum { AT_IBP, AT_T10, AT_T30, AT_T50, AT_T70, AT_T90, AT_T95 };

/* Adds a finding whose message was formatted; NULL means that memory ran out. */
static void add_formatted(struct bc_findings *findings, const char *code, enum bc_weight weight,
	char *message, const char *advice)
{
	if (message)
		bc_findings_add(findings, code, weight, NAN, message, advice);
	else
		findings->failed = true;
	bc_free(message);
}

/* Starts below 60 degC, more than 5 % over at 100, or a middle distillate that the vapour space
 * calls unsafe at 38 degC: petrol-like vapour at once; common practice. */
static void look_for_light_ends(const struct bc_oil *oil, const double d86_c[BC_TBP_POINTS],
	const struct bc_reader *reader, struct bc_findings *findings)
{
	const double low_ibp_c = 60.0;
	const double much_pct = 5.0;
	const double middle_c = 180.0;
	const double unsafe_c = 38.0;
	struct bc_estimate early = bc_reader_recovered_pct(reader, 100.0);
	double flash_c = oil->property[BC_FLASH].value;
	char *message = NULL;

	if (oil->wet)
		return; /* the first drops were water */
	if (d86_c[AT_IBP] < low_ibp_c)
		message = bc_format("Light ends: it starts to boil at %.0f degC, so its vapour "
				    "takes fire at room temperature and far below.",
			d86_c[AT_IBP]);
	else if (early.value > much_pct)
		message = bc_format("Light ends: %.0f %% came over by 100 degC, so its vapour "
				    "takes fire at room temperature.",
			early.value);
	else if (d86_c[AT_T50] > middle_c && flash_c < unsafe_c)
		message =
			bc_format("Light ends in a heavier oil: half of it boils above %.0f degC, "
				  "but the first drops bring its flash down to %.0f degC.",
				d86_c[AT_T50], flash_c);
	else
		return;
	add_formatted(findings, "light-ends", BC_FINDING_DANGER, message,
		d86_c[AT_T50] < middle_c
			? "Treat it as petrol: no spark, no flame, tight metal can, outdoors. It is a "
			  "light cut through and through: no re-run makes it safe."
			: "Treat it as petrol: no spark, no flame, tight metal can, outdoors; take the "
			  "light end off by a re-run.");
}

/* Above 360 degC at 90 %: beyond the T95 of road diesel (EN 590), long paraffins; common practice.
 */
static void look_at_width(const double d86_c[BC_TBP_POINTS], struct bc_findings *findings)
{
	const double waxy_c = 360.0;
	double span = d86_c[AT_T90] - d86_c[AT_T10];
	if (span > BC_WIDE_BOILING_C)
		add_formatted(findings, "wide-boiling", BC_FINDING_NOTE,
			bc_format("Wide boiling: %.0f degC between 10 and 90 %%, petrol and diesel "
				  "in one. Correlations for one fuel are less sure on it.",
				span),
			"Split it before use; a jar of its own for the light end.");
	if (d86_c[AT_T90] > waxy_c)
		add_formatted(findings, "waxy", BC_FINDING_WARNING,
			bc_format(
				"Heavy tail: 90 %% only at %.0f degC. Oils from polyolefins carry "
				"wax there, which plugs filters and condensers in the cold.",
				d86_c[AT_T90]),
			"Cut the tail off, or have the cloud point measured; keep the condenser "
			"above 60 degC while the tail comes over.");
}

static void compare_routes(const struct bc_oil *oil, struct bc_findings *findings)
{
	/* On measured oils the 10 % point reads 8 degC high in the mean; beyond twice that the
	 * front end is unusual. */
	const double apart_c = 16.0;
	double vapour = oil->property[BC_FLASH_VAPOUR].value;
	double t10 = oil->property[BC_FLASH_T10].value;
	if (fabs(vapour - t10) > apart_c)
		add_formatted(findings, "flash-routes-apart", BC_FINDING_NOTE,
			bc_format("The two ways to a flash point disagree: %.0f degC from the "
				  "vapour space, %.0f from the 10 %% point, which does not see the "
				  "first drops.",
				vapour, t10),
			"Go by the lower; near a limit have a closed-cup flash measured.");
}

/* Polyolefin oils of the diesel range lie near 780..820, styrene at 906 kg/m3; common practice. */
static void compare_density(
	const struct bc_oil *oil, const struct bc_feed *feed, struct bc_findings *findings)
{
	const struct bc_estimate *density = &oil->property[BC_DENSITY15];
	const char *check =
		"Weigh it again in a full flask at a known temperature; look into the feed.";
	if (density->how != BC_MEASURED)
		return;
	if (feed->polystyrene && !feed->polyethylene && !feed->polypropylene &&
		density->value < 850.0)
		bc_findings_add(findings, "density-unlike-feed", BC_FINDING_WARNING, NAN,
			"The density is too low for an oil of polystyrene, which is mostly "
			"aromatic.",
			check);
	if (bc_feed_only_polyolefin(feed) && density->value > 860.0)
		bc_findings_add(findings, "density-unlike-feed", BC_FINDING_WARNING, NAN,
			"The density is too high for an oil of polyethylene and polypropylene "
			"alone: something aromatic, water or dirt is in it.",
			check);
}

void bc_oil_findings(const struct bc_oil *oil, const double d86_c[BC_TBP_POINTS],
	const struct bc_feed *feed, const struct bc_reader *reader, struct bc_findings *findings)
{
	look_for_light_ends(oil, d86_c, reader, findings);
	look_at_width(d86_c, findings);
	compare_routes(oil, findings);
	compare_density(oil, feed, findings);
	if (oil->tbp_status == BC_OUTSIDE_RANGE)
		bc_findings_add(findings, "tbp-outside-range", BC_FINDING_NOTE, NAN,
			"Part of the curve lies outside the range of the conversion to true "
			"boiling points; what rests on it is 10 degC less sure.",
			"Nothing to do; a narrower cut would be inside.");
}
