/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_MIXING_H
#define BC_JUDGEMENT_MIXING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "judgement/judgement.h"
#include "still/blend.h"
#include "verdict/limits.h"

enum bc_mix_unit {
	BC_MIX_LITRES,   /* at 15 degC */
	BC_MIX_KILOGRAM, /* brought to litres by the part's density */
	BC_MIX_PERCENT,  /* by volume */
	BC_MIX_ASKED     /* "?": as much as may go in */
};

struct bc_mix_part {
	const struct bc_judgement *oil; /* must outlive the mixing */
	enum bc_mix_unit unit;
	double amount;
	double volume_l; /* 0 for a part that may not go in at all; NaN where percents are mixed */
	double mass_kg;
	double volume_pct;
	double mass_pct;
	double vapour_pct; /* what it brings of the vapour at the flash point of the mixture */
	/* A measured closed cup stands in place of its slices' flash. */
	bool flash_measured;
};

/* A mixture at one share of the asked part. */
struct bc_mix_node {
	double share_pct; /* of the asked part, or of the first, by volume */
	double flash_c;
	double flash_low_c; /* NaN without a claim */
};
#define BC_MIX_NODES_MAX 32

/* How much of the asked part may go in. */
struct bc_mix_share {
	bool asked;
	size_t part;
	bool base_meets; /* the rest alone keeps the limits */
	bool unlimited;  /* so does the asked part alone, and every share between */
	double share_pct;
	double volume_l; /* NaN when unlimited, or when the rest is in percent */
	double mass_kg;  /* as volume_l */
	enum bc_grade_name grade;
	const char *standard;         /* the one that takes most; NULL: the table has none */
	const struct bc_limit *limit; /* what breaks first beyond it; NULL: none, or why says it */
	/* Of the limit's property in the mixture; just beyond it where none may go in, or where it
	 * is not known within. */
	struct bc_estimate value;
	char *why; /* a reason that is no limit, or NULL */
};

struct bc_mixing {
	struct bc_mix_part parts[BC_BLEND_PARTS_MAX];
	size_t n;
	struct bc_judgement mix;  /* of the amounts given, or at the share that may go in */
	struct bc_sample *sample; /* stands for the mixture */
	bool wholly_percent;
	double volume_l; /* NaN in percent */
	double mass_kg;
	/* By the blending index of Wickey and Chittenden; NaN where a part has no flash. */
	double flash_index_c;
	char *no_claim; /* what mix.oil.no_claim_why points to, or NULL */
	struct bc_mix_share share;
	struct bc_mix_node nodes[BC_MIX_NODES_MAX]; /* none of one part alone */
	size_t n_nodes;
	size_t node_part; /* whose share the nodes have */
};

void bc_mixing_init(struct bc_mixing *mixing);
void bc_mixing_release(struct bc_mixing *mixing);

/* Adds a part; false when there are BC_BLEND_PARTS_MAX already. */
bool bc_mixing_add(struct bc_mixing *mixing, const struct bc_judgement *oil, enum bc_mix_unit unit,
	double amount);

/*
 * bc_mix - several judged oils poured together, judged as one
 *
 * Given     options; mixing with its parts: all in percent (adding up to 100) or none; one part at
 *           most BC_MIX_ASKED, beside another, with options->want or standard
 * Returned  the rest of *mixing. mix has no readings: its curve is what the flask would show.
 * Status    BC_BAD_DOMAIN  such parts cannot be mixed; statuses of bc_judge
 * Notes     1. slices by bc_blend_slices: ideal volumes, Raoult
 *           2. the vapour over a part whose closed cup was measured is that of its slices at
 *              another temperature, so that the part alone flashes as measured: bc_blend_flash_c
 *           3. low bound of the flash: all parts err to the bad side at once, each by its own
 *              bound; a measured part by 0.15 degC more for each degC between its own flash and
 *              the mixture's (slopes of ln P of unlike oils, computed); and the bound of the
 *              vapour-space method, for the share of vapour that comes from estimated parts
 *           4. no claim of a part, no claim for the mixture, however little of it goes in
 *           5. viscosity by bc_visc_blend_mm2s on those of the parts, bounds on their bounds
 *           6. what was measured in every part and adds up, by mass or volume, is that of the
 *              mixture. Measured in some parts only, it is at least what they bring: outside where
 *              that breaks a limit, else not measured. What does not add up, such as a pour point,
 *              leaves doubt where one part is outside a limit. One part alone keeps all of it
 *           7. dangers of a part, and what forbids its use or a re-run, stay with the mixture
 *           8. a share may go in as long as the flash keeps its limit by the low bound and
 *              everything else by its plain value, as 'tap' cuts; found on a scan of shares from 0
 *              up, so that it is the first that breaks, and by bisection between two of them. None
 *              goes in where a part, or the mixture at that share, is kept from `usable` by more
 *              than doubt, light ends aside: 3 or 4 readings, another apparatus than a flask,
 *              water, no claim, a finding; nor for a standard that does not limit the flash
 */
enum bc_status bc_mix(struct bc_mixing *mixing, const struct bc_judge_options *options);

#endif
