/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Level stretches of a boil-off: one compound, named only where feed or density speak for it, and
 * styrene, which polymerises in the jar and in the still. */
#include "fuel/compound.h"

#include <math.h>
#include <string.h>

#include "curve/conditions.h"
#include "curve/level.h"

static const struct compound {
	const char *name;
	double boils_c;
	double within_c;
	const char *plastic;
	double density_min;
	double density_max;
	const char *code;
	const char *source;
	const char *trust;
} compounds[] = {
#include "shelf-compounds.inc"
};

static bool supports(const struct compound *compound, const struct bc_feed *feed, double density)
{
	bool measured = isfinite(density);
	bool weighs = density >= compound->density_min && density <= compound->density_max;

	if (measured && !weighs)
		return false;
	if (bc_feed_names(feed, compound->plastic))
		return true;
	return !feed->known && measured;
}

/* The nearest that feed or density speak for; NULL where there is none. */
static const struct compound *identify(double true_c, const struct bc_feed *feed, double density)
{
	const struct compound *best = NULL;

	for (size_t i = 0; i < sizeof compounds / sizeof compounds[0]; i++) {
		double off_c = fabs(true_c - compounds[i].boils_c);
		if (!(off_c <= compounds[i].within_c) || !supports(&compounds[i], feed, density))
			continue;
		if (!best || off_c < fabs(true_c - best->boils_c))
			best = &compounds[i];
	}
	return best;
}

static const char styrene_advice[] =
	"Styrene polymerises when warm and in the jar: keep it cool and dark, use it within weeks, "
	"never hold it on reflux, and test a jar older than three months for peroxide.";

static void say_level(const struct bc_level *level, double true_c, const struct compound *compound,
	struct bc_findings *findings)
{
	bool styrene = compound && strcmp(compound->code, "styrenic-oil") == 0;
	const char *code = compound ? compound->code : "one-compound";
	const char *name = compound ? compound->name : "one compound, not identified";
	const char *probably = compound ? "probably " : "";

	bc_findings_say(findings, code, styrene ? BC_FINDING_WARNING : BC_FINDING_NOTE,
		level->from_pct,
		styrene ? styrene_advice
			: "Correlations for fuels are less sure on it; a laboratory names it by gas "
			  "chromatography.",
		"from %.1f to %.1f %% the head hardly rises, %.1f to %.1f C, which is %.0f C of "
		"vapour at sea level: %s%s",
		level->from_pct, level->to_pct, level->from_c, level->to_c, true_c, probably, name);
}

/* Weighs and boils like styrene: half of it over by 185 degC (dimers come later), and denser than
 * an oil without aromatics; judgement. */
static bool boils_like_styrene(double density, double t50_c)
{
	const double dense_kgm3 = 870.0;
	const double low_c = 130.0;
	const double high_c = 185.0;

	return density >= dense_kgm3 && t50_c >= low_c && t50_c <= high_c;
}

void bc_compound_findings(const struct bc_boiloff *boiloff, const struct bc_feed *feed,
	const struct bc_oil *oil, double t50_c, struct bc_findings *findings)
{
	const struct bc_estimate *density = &oil->property[BC_DENSITY15];
	double measured = density->how == BC_MEASURED ? density->value : (double)NAN;
	struct bc_level level = bc_level_seen(boiloff);

	bool ended = bc_findings_has(findings, "temperature-stalls") ||
		     bc_findings_has(findings, "temperature-falls");
	if (level.found && !ended) {
		double true_c = bc_true_from_corrected(level.middle_c);
		say_level(&level, true_c, identify(true_c, feed, measured), findings);
	}
	if (!bc_findings_has(findings, "styrenic-oil") && feed->polystyrene &&
		boils_like_styrene(measured, t50_c))
		bc_findings_say(findings, "styrenic-oil", BC_FINDING_WARNING, NAN, styrene_advice,
			"%.0f kg/m3 and half of it over at %.0f C: it weighs and boils like an oil "
			"of polystyrene, mostly styrene",
			measured, t50_c);
}
