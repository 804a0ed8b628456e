/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cautions that end a report: what can hurt people with this oil, this feed, this next step.
 * Common practice unless a figure names its source. */
#include <math.h>

#include "fuel/feed.h"
#include "verdict/age.h"
#include "verdict/hazard.h"

static void petrol_like(
	const struct bc_oil *oil, const struct bc_hazards *hazards, struct bc_strings *cautions)
{
	if (hazards->at_site)
		bc_strings_add(cautions,
			"Treat this oil as petrol: in the thin air of this place its vapour may "
			"light at %.0f degC, below what its class says at 101.3 kPa.",
			floor(oil->flash_low_at_site_c));
	else if (!oil->flash_claim)
		bc_strings_add(cautions,
			"Treat this oil as petrol until a closed-cup test says otherwise: gas "
			"dissolved in it leaves before the first drop and no boil-off sees it. "
			"Vent a jar from the retort outdoors every day.");
	else
		bc_strings_add(cautions,
			"Treat this oil as petrol: its vapour may light at room temperature and "
			"creeps along the floor to the nearest flame, switch or stove.");
}

static void general(struct bc_strings *cautions)
{
	bc_strings_add(cautions, "All this is estimated from a boil-off and is never a "
				 "certificate. Local codes and licensed practice come first; duty, "
				 "waste law and insurance apply whatever limits an oil meets.");
	bc_strings_add(cautions, "Boil off outdoors or under extraction, on an electric mantle "
				 "with boiling chips, far from flame and spark, and never to "
				 "dryness; the loss is vapour in the air you breathe. Keep "
				 "a laptop or phone out of the vapour.");
	/* CLP 3.10: hydrocarbons of 20.5 mm2/s or less at 40 degC, H304 */
	bc_strings_add(cautions,
		"Swallowed, thin oil runs into the lungs and can kill (H304): never make anyone "
		"vomit, never use a drink bottle, lock every jar away from children.");
	bc_strings_add(cautions,
		"Benzene was not tested: take it to be there, keep the oil off the skin and out of "
		"the breath. The classes given rest on the flash alone.");
	bc_strings_add(cautions, "Fill a metal can from its bottom, bonded to the still, to 95 %% "
				 "at most; never one "
				 "that held petrol, and no rag for a filter.");
}

/* BS 2869 recommends class C1 alone for appliances without a flue. */
static void use(struct bc_strings *cautions)
{
	bc_strings_add(cautions,
		"Heating oil: only in a flued pressure-jet burner that is serviced for it. "
		"Kerosene-range oil: never in lamps, wick stoves or heaters without a flue. "
		"Gasoline-range oil: a light cut like a solvent, no motor fuel.");
	bc_strings_add(cautions, "Engines: lubricity, gum, sulphur and cetane number are unknown. "
				 "Never for aircraft.");
}

static void rerun(struct bc_strings *cautions)
{
	/* autoignition of diesel and kerosene vapour 210 to 260 degC, safety data sheets */
	bc_strings_add(cautions,
		"In the re-run the vapour lights by itself at about 210 to 260 degC, cooler than "
		"the pot: an air leak needs no spark. Never open, drain or top up above 60 degC, "
		"and let the pot cool shut off from air.");
	/* 45 g/m3 lower limit, 290 J/g: 2 kW into 30 m3, well mixed */
	bc_strings_add(cautions,
		"When cooling fails, heat off first: a 2 kW boil-up fills a 30 m3 room "
		"to the lower limit in little over three minutes. When the flow stops "
		"while the heat is on, the condenser may be plugged: stop.");
	bc_strings_add(cautions,
		"Settle and drain water before a re-run, fill the pot to 60 %% at most and take "
		"the first half of the heating slowly, to 110 degC; never charge wet oil to a hot "
		"pot. A jar filled above the pot limit has no claim on its flash.");
}

static void acid_feed(const struct bc_feed *feed, struct bc_strings *cautions)
{
	if (feed->pvc)
		bc_strings_add(cautions,
			"PVC in the feed: hydrogen chloride and chlorine in the oil. No re-run in "
			"plain steel or brass before a chlorine test.");
	if (feed->pet)
		bc_strings_add(cautions,
			"PET in the feed: benzoic and terephthalic acid plug the condenser and "
			"corrode; white solids mean stop.");
	if (feed->polyamide || feed->polyurethane || feed->abs)
		bc_strings_add(cautions,
			"Nylon, polyurethane or ABS in the feed: hydrogen cyanide, acrylonitrile "
			"and other nitrogen compounds may be in gas and oil.");
	if (feed->brominated)
		bc_strings_add(cautions,
			"Flame-retarded casings in the feed: hydrogen bromide and worse; have the "
			"oil tested before anything else.");
	if (feed->ptfe || feed->pom)
		bc_strings_add(cautions, "PTFE or POM in the feed: do not process it; its gases "
					 "poison in small amounts.");
}

static bool found(const struct bc_findings *findings, const char *code)
{
	return findings != NULL && bc_findings_has(findings, code);
}

/* Cracked oils are olefins: dates excuse them only where they were given. */
static void old_oil(
	const struct bc_sample *sample, const struct bc_feed *feed, struct bc_strings *cautions)
{
	enum bc_age age = bc_age_of(sample);
	bool olefinic = feed->polyethylene || feed->polypropylene || feed->polystyrene;
	if (age == BC_AGE_OLD || (age == BC_AGE_UNKNOWN && olefinic))
		bc_strings_add(cautions,
			"An oil that has stood for more than three months: test for peroxides "
			"before heating, leave a tenth in the flask, and do not go for the end "
			"point.");
}

/* Paraffin wax melts at 45 to 65 degC. */
static void cooling(const struct bc_hazards *hazards, const struct bc_findings *findings, bool waxy,
	struct bc_strings *cautions)
{
	if (waxy)
		bc_strings_add(cautions,
			"Wax sets in a cold condenser: with the head above 300 degC and the "
			"condenser below 40, or when white solids show, stop.");
	if (hazards->petrol_like || found(findings, "light-ends"))
		bc_strings_add(cautions, "Stand the receiver of a light oil in ice.");
}

static void feed_words(const struct bc_feed *feed, struct bc_strings *cautions)
{
	acid_feed(feed, cautions);
	/* about 2 %/h above 100 degC, 20 % in an hour at 140 degC; seen */
	if (feed->polystyrene || feed->abs || feed->acrylic)
		bc_strings_add(cautions,
			"A styrenic or acrylic oil sets in the heat (about 20 %% in an hour at 140 "
			"degC): no long reflux, no warm store, and use it within weeks.");
	if (!feed->known)
		bc_strings_add(cautions, "What plastic went in is not known: chlorine, bromine and "
					 "nitrogen may be in this oil.");
}

enum bc_status bc_cautions_collect(const struct bc_sample *sample, const struct bc_oil *oil,
	const struct bc_hazards *hazards, const struct bc_findings *findings, bool want_rerun,
	struct bc_strings *cautions)
{
	struct bc_feed feed;
	bc_feed_read(sample->feed, &feed);
	bool waxy = found(findings, "waxy") ||
		    (want_rerun && (feed.polyethylene || feed.polypropylene));
	if (hazards->petrol_like)
		petrol_like(oil, hazards, cautions);
	general(cautions);
	feed_words(&feed, cautions);
	old_oil(sample, &feed, cautions);
	cooling(hazards, findings, waxy, cautions);
	if (want_rerun)
		rerun(cautions);
	use(cautions);
	return cautions->failed ? BC_NO_MEMORY : BC_OK;
}
