/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_WAY_BASIS_H
#define BC_REPORT_WAY_BASIS_H

#include "fuel/oil_model.h"
#include "report/way.h"

/* What the formulae of the oil take in: the judgement keeps only what comes out. */
struct bc_way_basis {
	struct bc_oil_input input;
	double d86_c[BC_TBP_POINTS]; /* in the flask, at bc_tbp_point_pct */
	double density15_kgm3;
	double sg;
};
enum { BC_WAY_T10 = 1, BC_WAY_T30, BC_WAY_T50, BC_WAY_T70, BC_WAY_T90 };

void bc_way_basis_find(const struct bc_judgement *judgement, struct bc_way_basis *basis);
/* The slice with most of the vapour at 37.8 degC. */
const struct bc_slice *bc_way_light_slice(const struct bc_slices *slices);

/* The formulae of the registry that give a property, NULL last. */
#define BC_WAY_FORMULAE_MAX 5
extern const char *const bc_property_formulae[BC_PROPERTIES][BC_WAY_FORMULAE_MAX];

#endif
