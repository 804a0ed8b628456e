/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What follows from the figures: shares, limits, the word, and the cut. */
#include <math.h>
#include <stdio.h>

#include "base/memory.h"
#include "base/units.h"
#include "report/way.h"
#include "verdict/phrase.h"

/* Conventional cuts (fuel/shares.h, note 1) [degC]. */
static const double cut_c[] = {35.0, 180.0, 240.0, 350.0};
enum { CUTS = sizeof cut_c / sizeof cut_c[0] };

static void share_steps(const struct bc_judgement *judgement, struct bc_way *way)
{
	double below = 0.0;
	for (size_t i = 0; i < BC_SHARES; i++) {
		const struct bc_estimate *share = &judgement->shares.pct[i];
		bc_way_plain(way, bc_share_keys[i], share->value, "%");
		bc_way_bounds(way, share);
		if (i >= CUTS) {
			bc_way_source(way, "%s",
				i == BC_SHARE_HEAVY
					? "what is left; unread volume above the last reading "
					  "counts here"
					: "as measured; what is not known counts as nothing");
			continue;
		}
		struct bc_estimate at = bc_reader_recovered_pct(&judgement->reader, cut_c[i]);
		bc_way_input(way, "recovered at its upper cut", at.value, "%");
		bc_way_input(way, "less below", below, "%");
		bc_way_source(way, "the curve at %g degC; cuts are common practice", cut_c[i]);
		below += share->value;
	}
}

static void criterion_step(
	const struct bc_grade *grade, const struct bc_criterion *criterion, struct bc_way *way)
{
	const struct bc_limit *limit = criterion->limit;
	char *figure = bc_format("%s: %s", grade->standard, limit->property);
	char words[BC_PHRASE_SIZE];
	if (figure == NULL) {
		way->failed = true;
		return;
	}
	bc_way_plain(way, figure, (double)NAN, "");
	bc_free(figure);
	bc_way_words(way, bc_state_text(criterion->state));
	bc_way_input(way, "value", criterion->value.value, limit->unit);
	bc_way_input(way, "low", criterion->value.low, limit->unit);
	bc_way_input(way, "high", criterion->value.high, limit->unit);
	bc_way_input(way, "chance_within", criterion->chance_within, "");
	bc_phrase_limit(limit, words, sizeof words);
	bc_way_source(way, "%s%s%s%s; %s%s", words, limit->basis[0] != '\0' ? ", " : "",
		limit->basis, limit->strict ? ", the limit itself outside" : "", grade->edition,
		limit->seen == BC_SEEN_MEMORY ? ", from memory" : "");
	if (limit->role == BC_ROLE_SAFETY)
		bc_way_note(way, "safety: within only by its unfavourable bound");
	else if (limit->role == BC_ROLE_CUSTOMS)
		bc_way_note(way, "a customs line");
	if (criterion->hopeless)
		bc_way_note(way, "counts as outside: even its favourable bound misses");
}

static void grade_steps(const struct bc_grade *grade, struct bc_way *way)
{
	for (size_t i = 0; i < grade->n_criteria; i++)
		criterion_step(grade, &grade->criteria[i], way);
	bc_way_plain(way, grade->standard, (double)NAN, "");
	bc_way_words(way, bc_state_text(grade->state));
	bc_way_input(way, "chance_all_within", grade->chance_all_within, "");
	bc_way_input(way, "outside", (double)grade->outside, "");
	bc_way_input(way, "doubtful", (double)grade->doubtful, "");
	bc_way_input(way, "not measured", (double)grade->unmeasured, "");
	bc_way_source(way, "its criteria that count; chances multiplied as if independent");
	if (grade->scope != NULL)
		bc_way_note(way, "%s", grade->scope);
}

void bc_way_verdict(const struct bc_judgement *judgement, struct bc_way *way)
{
	const struct bc_verdict *verdict = &judgement->verdict;
	bc_way_section(way, "Shares of the charge");
	share_steps(judgement, way);
	bc_way_section(way, "Limits, nearest grade first");
	if (verdict->grade != NULL)
		grade_steps(verdict->grade, way);
	for (size_t i = 0; i < judgement->grades.n; i++)
		if (&judgement->grades.items[i] != verdict->grade)
			grade_steps(&judgement->grades.items[i], way);
	bc_way_section(way, "Verdict");
	bc_way_plain(way, "word", (double)NAN, "");
	bc_way_words(way, bc_word_text(verdict->word));
	bc_way_source(way, "usable: every criterion that is judged here is within; re-run: a cut "
			   "meets a grade; unfit: one is outside and no cut mends it; undecided: a "
			   "doubtful or unmeasured one decides");
	if (verdict->grade != NULL)
		bc_way_note(way, "nearest is %s: fewest outside, then fewest doubtful",
			verdict->grade->standard);
}

static void turn_steps(const char *const figures[3], double frac, double until_c, double reading_c,
	struct bc_way *way)
{
	double true_c = bc_true_from_corrected(until_c);
	bc_way_plain(way, figures[0], 100.0 * frac, "%");
	bc_way_source(way, "of the charge by volume; searched, as said below");
	bc_way_formula(way, figures[1], "thermometer.corrected_from_true", &true_c, until_c);
	bc_way_note(way, "t_c: where what comes over there boils at 101.3 kPa, simulated");
	bc_way_plain(way, figures[2], reading_c, "degC");
	bc_way_input(way, "corrected_c", until_c, "degC");
	bc_way_source(way, "the corrections of a reading, backwards");
}

void bc_way_cut(const struct bc_judgement *judgement, struct bc_way *way)
{
	static const char *const light[] = {
		"light jar until", "light_until_c", "light_until_reading_c"};
	static const char *const product[] = {
		"product jar until", "product_until_c", "product_until_reading_c"};
	const struct bc_cut *cut = &judgement->rerun;
	if (!judgement->has_rerun)
		return;
	const struct bc_estimate *flash = &cut->product.property[BC_FLASH];
	bc_way_section(way, "The cut");
	if (!isnan(cut->light_until_c))
		turn_steps(light, cut->light_until_frac, cut->light_until_c,
			cut->light_until_reading_c, way);
	turn_steps(product, cut->product_until_frac, cut->product_until_c,
		cut->product_until_reading_c, way);
	bc_way_plain(way, "product_pct", cut->product_pct, "%");
	bc_way_input(way, "light_pct", cut->light_pct, "%");
	bc_way_input(way, "tail_pct", cut->tail_pct, "%");
	bc_way_source(way, "%s, simulated: the largest that meets %s", cut->basis, cut->standard);
	bc_way_note(way, "light: the least with which the product's low flash bound meets its "
			 "limit; tail: the least for the heavy-end limits and the pot limit");
	bc_way_plain(way, "product flash_c", flash->value, "degC");
	bc_way_bounds(way, flash);
	bc_way_source(way, "the same formulae on the slices of the product; no narrower than the "
			   "charge's");
}
