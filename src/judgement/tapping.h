/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_JUDGEMENT_TAPPING_H
#define BC_JUDGEMENT_TAPPING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/strings.h"
#include "fuel/properties.h"
#include "fuel/slices.h"
#include "judgement/judgement.h"
#include "sample/sample.h"
#include "still/column.h"
#include "still/still.h"
#include "verdict/grade.h"
#include "verdict/limits.h"

enum bc_tap_cut_kind {
	BC_TAP_AT_HEAD,   /* corrected head temperature [degC] */
	BC_TAP_AT_VOLUME, /* % of the charge over the head */
	BC_TAP_AT_MASS,   /* mass %; the last may be 100: that jar takes in what stays in the pot */
};

struct bc_tap_cut {
	enum bc_tap_cut_kind kind;
	double value;
};

#define BC_TAP_CUTS_MAX 8
struct bc_tap_request {
	enum bc_grade_name want; /* BC_GRADES: none */
	const char *standard;    /* NULL: none */
	struct bc_tap_cut cuts[BC_TAP_CUTS_MAX];
	size_t n_cuts; /* 0: none stated */
	bool split;    /* the customary ranges, when no cuts are stated */
	struct bc_still still;
	double charge_ml;   /* 1000 unless stated */
	double heater_w;    /* what goes into the pot; NaN: not known, no times */
	double vacuum_kpa;  /* absolute; NaN: the pressure of the site */
	double pot_limit_c; /* NaN: 330, or 350 where feed names only petroleum products */
	double margin_c;    /* of the flash; NaN: value minus low bound */
	double room_m3;     /* NaN: not asked */
};

/* No want, no cuts, no split, the default still, 1 L, everything else NaN. */
struct bc_tap_request bc_tap_request_default(void);

/* One jar. Head temperatures are corrected (D86 basis) at 101.3 kPa, readings are what this
 * thermometer shows at the pressure of the run, pot temperatures are true ones at it. */
#define BC_JAR_NAME_MAX 16
struct bc_jar {
	char name[BC_JAR_NAME_MAX]; /* "light", "product", "product1", ... "tail" */
	bool empty;                 /* nothing lands in it: all below but the places is NaN */
	bool takes_pot;   /* its last cut was 100 mass %: what stays in the pot is in it */
	double from_frac; /* over the head, volume of the charge, 0..1 */
	double to_frac;
	double from_c;
	double to_c; /* NaN for a jar that takes in the pot */
	double from_reading_c;
	double to_reading_c;
	double pot_to_c;
	double over_ml; /* in all jars together when this one is taken away */
	double volume_pct;
	double mass_pct;
	double volume_ml;
	double mass_kg;
	struct bc_slices slices;
	double d86_c[BC_TBP_POINTS];
	struct bc_oil oil;
	struct bc_points points;
	struct bc_grades grades;  /* empty without want or standard */
	bool flash_claim;         /* as oil.flash_claim */
	const char *no_claim_why; /* NULL when flash_claim */
	const char *good_for;     /* NULL when empty */
};
#define BC_JARS_MAX (BC_TAP_CUTS_MAX + 1)

/* One line of the trade-off table: the largest product at a flash of the product. */
struct bc_tap_choice {
	double flash_target_c; /* least flash asked for, without margin */
	double light_until_c;  /* NaN: no light jar */
	double product_until_c;
	double product_pct;
	double flash_c; /* value; low is the 95 % bound, NaN without a claim */
	double flash_low_c;
	double t95_c;
};
#define BC_TAP_CHOICES_MAX 8

/* A point of the run, for a chart. */
struct bc_tap_node {
	double over_pct; /* volume of the charge */
	double head_c;   /* corrected */
	double head_reading_c;
	double pot_c;
};
#define BC_TAP_NODES_MAX 101

struct bc_tap_heat {
	double sensible_mj; /* to bring the charge to the boil and the rest along to the end */
	double latent_mj;   /* of what is drawn */
	double reflux_mj;   /* of what runs back */
	double total_mj;    /* without losses of the walls */
	double time_h;      /* NaN without a heater */
	double warm_up_h;   /* to the first drop */
	double draw_ml_min; /* on average, first drop to last; NaN without a heater */
	double heat_mj_per_l_product; /* all of the heat over the litres of product; NaN without */
	double own_mj_per_l;          /* net heating value of a litre of the product */
	double water_l_min;   /* cooling water that warms by 10 degC; NaN without a heater */
	double lower_limit_s; /* vapour not condensed fills the room to the lower limit; NaN */
	double quarter_s;     /* to a quarter of it; NaN */
};

struct bc_tapping {
	const struct bc_sample *sample; /* must outlive the tapping */
	struct bc_judgement feed;       /* points into itself: a tapping is never copied */
	struct bc_tap_request request;
	char refused[160];       /* what is wrong with the request; "" when nothing is */
	enum bc_grade_name want; /* resolved; BC_GRADES: none */
	const char *standard;    /* NULL: none; the one with the largest product */
	bool has_want;
	bool feasible;             /* with has_want: the cut pair does it */
	bool forbidden;            /* not to be distilled as it is, whatever the still: binding
				      says why */
	struct bc_strings binding; /* limits that stop a larger product, or that no cut meets */
	double pressure_kpa;       /* of the run, absolute */
	double pot_limit_c;        /* in force, true */
	double usual_limit_c;      /* above it the oil cracks, and no flash is claimed */
	bool pot_limit_cuts;       /* false with stated cuts: it only warns */
	bool pot_limit_reached;    /* the last jar ends at it */
	double effective_plates;   /* of the still; NaN when stages and reflux are stated */
	struct bc_jar jars[BC_JARS_MAX];
	size_t n_jars;
	struct {
		double volume_pct;
		double mass_pct;
		double volume_ml;
		double mass_kg;
	} pot;
	struct bc_tap_heat heat;
	struct bc_tap_choice choices[BC_TAP_CHOICES_MAX];
	size_t n_choices;
	struct bc_tap_node nodes[BC_TAP_NODES_MAX];
	size_t n_nodes;
	struct bc_strings advice; /* what would help, and whether it is worth the heat */
	struct bc_strings assumed;
	struct bc_strings cautions;
};

/* Zeroes; release is safe on that and after a failure. A tapping is large: not for the stack. */
void bc_tapping_init(struct bc_tapping *tapping);
void bc_tapping_release(struct bc_tapping *tapping);

/*
 * bc_tap - where to turn the tap of a still, and what lands in each jar
 *
 * Given     sample; options as for bc_judge, limits must outlive the tapping (want and standard of
 *           the request count); request
 * Returned  *tapping, to be released whatever the status
 * Status    BC_OK, also when no cut meets the grade (feasible is false then);
 *           BC_BAD_DOMAIN  with tapping->refused: cuts that do not ascend or lie outside the run,
 *                          numbers outside their ranges, no such standard; without it: as
 *                          bc_column_run
 *           BC_TOO_FEW, BC_NO_MEMORY, BC_NO_CONVERGENCE as bc_judge
 */
enum bc_status bc_tap(const struct bc_sample *sample, const struct bc_judge_options *options,
	const struct bc_tap_request *request, struct bc_tapping *tapping);

#endif
