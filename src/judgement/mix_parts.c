/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of a mixture say of it: their measurements, their dangers, and words of caution.
 */
#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "fuel/feed.h"
#include "judgement/mix_job.h"
#include "verdict/age.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

const char *bc_mix_name(const struct bc_judgement *oil)
{
	const char *file = oil->sample->file;
	const char *slash = strrchr(file, '/');
	return slash != NULL ? slash + 1 : file;
}

/* ---- the sample that stands for the mixture */

static void curve_line(const struct bc_points *points, struct bc_text *line)
{
	bc_text_printf(line, "ibp %.3f", points->at[BC_AT_IBP].value);
	for (size_t i = BC_AT_T5; i <= BC_AT_T95; i++)
		bc_text_printf(line, ", %.0f %.3f", bc_point_pct[i], points->at[i].value);
	bc_text_printf(line, ", fbp %.3f", points->at[BC_AT_FBP].value);
}

/* The worst of the parts': gas in one is gas in all. */
static enum bc_history history_of(const struct bc_mix_recipe *recipe)
{
	static const enum bc_history worst_first[] = {
		BC_HISTORY_RETORT, BC_HISTORY_UNKNOWN, BC_HISTORY_RERUN};
	for (size_t k = 0; k < COUNT(worst_first); k++)
		for (size_t i = 0; i < recipe->n; i++)
			if (recipe->oil[i]->sample->history == worst_first[k])
				return worst_first[k];
	return BC_HISTORY_AIRED;
}

static bool said_before(const struct bc_mix_recipe *recipe, size_t i)
{
	for (size_t k = 0; k < i; k++) {
		const char *feed = recipe->oil[k]->sample->feed;
		if (feed != NULL && strcmp(feed, recipe->oil[i]->sample->feed) == 0)
			return true;
	}
	return false;
}

static void texts_of(const struct bc_mix_recipe *recipe, struct bc_text *name, struct bc_text *feed)
{
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_sample *sample = recipe->oil[i]->sample;
		bc_text_printf(name, "%s%s", i > 0 ? " and " : "Mix of ",
			sample->name != NULL ? sample->name : bc_mix_name(recipe->oil[i]));
		/* a comma ends what a "no" stands for */
		if (sample->feed != NULL && !said_before(recipe, i))
			bc_text_printf(feed, "%s%s", feed->length > 0 ? ", " : "", sample->feed);
	}
}

static bool take_measured(const struct bc_mix_recipe *recipe, struct bc_sample *sample)
{
	struct bc_mix_measured room;
	bc_mix_measure(recipe, &room);
	if (room.n == 0)
		return true;
	sample->measured = bc_alloc(room.n * sizeof *room.items);
	if (sample->measured == NULL)
		return false;
	memcpy(sample->measured, room.items, room.n * sizeof *room.items);
	sample->n_measured = room.n;
	return true;
}

/* One old part makes the mixture old: dates that cannot be held against each other say so. */
static bool take_dates(const struct bc_mix_recipe *recipe, struct bc_sample *sample)
{
	for (size_t i = 0; i < recipe->n; i++) {
		if (bc_age_of(recipe->oil[i]->sample) != BC_AGE_OLD)
			continue;
		sample->stored_since = bc_strdup("before the others");
		return sample->stored_since != NULL;
	}
	return true;
}

struct bc_sample *bc_mix_sample(const struct bc_mix_recipe *recipe, const struct bc_points *points)
{
	struct bc_sample *sample = NULL;
	struct bc_text line;
	struct bc_text name;
	struct bc_text feed;
	bool good = false;
	bc_text_init(&line);
	bc_text_init(&name);
	bc_text_init(&feed);
	curve_line(points, &line);
	texts_of(recipe, &name, &feed);
	if (line.failed || name.failed || feed.failed ||
		bc_failed(bc_sample_from_line(line.data, NULL, &sample)))
		goto done;
	bc_free(sample->file);
	bc_free(sample->name);
	sample->file = bc_strdup("mix");
	sample->name = bc_strdup(name.data);
	sample->feed = feed.length > 0 ? bc_strdup(feed.data) : NULL;
	sample->history = history_of(recipe);
	good = sample->file != NULL && sample->name != NULL &&
	       (feed.length == 0 || sample->feed != NULL) && take_measured(recipe, sample) &&
	       take_dates(recipe, sample);
done:
	bc_text_release(&feed);
	bc_text_release(&name);
	bc_text_release(&line);
	if (good)
		return sample;
	bc_sample_free(sample);
	return NULL;
}

/* ---- findings */

/* Dangers, what forbids a word, a curve that ends by cracking, and a flash or a density in dispute
 * are the mixture's too. */
static bool stays(const struct bc_finding *finding)
{
	static const char *const codes[] = {"flash-measured-low", "flash-measured-high",
		"density-unlike-feed", "density-unlike-curve", "weighed-density-unlike"};
	for (size_t i = 0; i < COUNT(codes); i++)
		if (strcmp(finding->code, codes[i]) == 0)
			return true;
	return finding->weight == BC_FINDING_DANGER || finding->forbids_usable ||
	       finding->forbids_rerun || strcmp(finding->code, "cracking") == 0;
}

void bc_mix_findings(const struct bc_mix_recipe *recipe, struct bc_findings *findings)
{
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_findings *own = &recipe->oil[i]->findings;
		for (size_t k = 0; k < own->n; k++) {
			const struct bc_finding *finding = &own->items[k];
			if (!stays(finding))
				continue;
			bc_findings_say(findings, finding->code, finding->weight, NAN,
				finding->advice, "Of '%s' in it: %s", bc_mix_name(recipe->oil[i]),
				finding->message);
			bc_findings_forbid(
				findings, finding->forbids_usable, finding->forbids_rerun);
		}
	}
}

/* ---- cautions */

static void of_light_part(const struct bc_mix_part *part, struct bc_strings *cautions)
{
	const struct bc_estimate *flash = &part->oil->oil.property[BC_FLASH];
	if (!part->oil->hazards.petrol_like || !part->oil->oil.flash_claim)
		return;
	bc_strings_add(cautions,
		"A little of a light oil rules the flash of all of it: '%s' is %.1f %% of the "
		"volume and brings %.0f %% of the vapour (its own flash may be %.0f degC). A jar "
		"more of it than planned, or one that was not stirred in, is petrol on top of "
		"fuel. Go by the low bound, and have the closed cup of the mixture measured "
		"before any of it is burnt.",
		bc_mix_name(part->oil), part->volume_pct, part->vapour_pct, floor(flash->low));
}

static void of_unknown_part(const struct bc_mix_part *part, struct bc_strings *cautions)
{
	const char *name = bc_mix_name(part->oil);
	struct bc_feed feed;
	bc_feed_read(part->oil->sample->feed, &feed);
	if (!part->oil->oil.flash_claim)
		bc_strings_add(cautions,
			"Nothing is claimed of the flash of '%s' (%s), so nothing is claimed of "
			"anything it is poured into, however little: gas in one jar is gas in the "
			"whole can. Distil or air that jar first, or have its closed cup measured.",
			name,
			part->oil->oil.no_claim_why != NULL ? part->oil->oil.no_claim_why
							    : "it could not be computed");
	if (!feed.known)
		bc_strings_add(cautions,
			"What plastic '%s' came from is not known: chlorine, bromine and nitrogen "
			"may come into the mixture with it.",
			name);
}

void bc_mix_cautions(const struct bc_mixing *mixing, struct bc_strings *cautions)
{
	for (size_t i = 0; i < mixing->n; i++) {
		if (!(mixing->parts[i].volume_pct > 0.0))
			continue;
		of_light_part(&mixing->parts[i], cautions);
		of_unknown_part(&mixing->parts[i], cautions);
	}
	bc_strings_add(cautions,
		"A mixture on paper: it was neither boiled off nor tested. Pour outdoors, all of "
		"it cold, cans bonded and filled from the bottom, and stir it through. Unlike oils "
		"may drop wax or sludge together: mix a glass first and let it stand overnight. "
		"Keep a jar of each part, and boil off the mixture before it is used.");
}
