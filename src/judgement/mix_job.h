/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_MIX_JOB_H
#define BC_JUDGEMENT_MIX_JOB_H

#include "judgement/mixing.h"

/* Parts with the volume of each, of which some may be 0: those are not in it. */
struct bc_mix_recipe {
	const struct bc_judgement *oil[BC_BLEND_PARTS_MAX];
	double volume[BC_BLEND_PARTS_MAX];
	double vapour_frac[BC_BLEND_PARTS_MAX]; /* returned by bc_mix_oil */
	size_t n;
};

/* Oil, curve and points of a recipe. Statuses of bc_blend_slices and bc_blend_flash_c. */
enum bc_status bc_mix_oil(struct bc_mix_recipe *recipe, double d86_c[BC_TBP_POINTS],
	struct bc_oil *oil, struct bc_points *points);

/* The end of the curve, and what of it rests on slices that nobody read: not valid, and wide. */
void bc_mix_settle_points(const struct bc_mix_recipe *recipe, const struct bc_slices *slices,
	struct bc_points *points);

/* Share of mass of part i. */
double bc_mix_mass(const struct bc_mix_recipe *recipe, size_t i);

/* What was measured. items: in every part, and adding up; of one part alone all of it. figures: in
 * some parts only, or not adding up. */
#define BC_MIX_MEASURED_MAX 64
struct bc_mix_measured {
	struct bc_measured items[BC_MIX_MEASURED_MAX];
	size_t n;
	struct bc_part_figure figures[BC_MIX_MEASURED_MAX];
	size_t n_figures;
	bool in_all[BC_MIX_MEASURED_MAX]; /* figures that only do not add up */
};
void bc_mix_measure(const struct bc_mix_recipe *recipe, struct bc_mix_measured *measured);

/* ... the figures, in words. */
void bc_mix_say_left_out(const struct bc_mix_measured *measured, struct bc_strings *assumed);

/* The sample that stands for a recipe; its readings are the predicted curve. NULL without memory.
 */
struct bc_sample *bc_mix_sample(const struct bc_mix_recipe *recipe, const struct bc_points *points);

/* What the parts have to say: findings that stay, and words of caution. */
void bc_mix_findings(const struct bc_mix_recipe *recipe, struct bc_findings *findings);
void bc_mix_cautions(const struct bc_mixing *mixing, struct bc_strings *cautions);

/* "'jar.csv'" of a part, for sentences. */
const char *bc_mix_name(const struct bc_judgement *oil);

/* What of a part's boil-off leaves a mixture at best undecided. */
bool bc_mix_few_readings(const struct bc_judgement *oil);
bool bc_mix_rough(const struct bc_judgement *oil);

/* Whether the mixture, judged at the share found, is kept from `usable` by more than doubt: then
 * none may go in, share says why, and the others alone are to be judged. BC_NO_MEMORY. */
enum bc_status bc_mix_hold_share(struct bc_mixing *mixing, bool *held);

/* The nodes, and how much of the asked part may go in: its volume is then set. */
enum bc_status bc_mix_find_share(struct bc_mixing *mixing, const struct bc_judge_options *options);

/* The parts by their volumes; those of volume 0 are not in it. place[i] is the part that
 * recipe->oil[i] is. */
void bc_mix_recipe_of(const struct bc_mixing *mixing, struct bc_mix_recipe *recipe, size_t *place);

#endif
