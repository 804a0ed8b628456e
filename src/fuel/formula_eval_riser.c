/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The riser of a small still, each formula behind the one signature. */
#include "fuel/formula_eval.h"

#include "fuel/riser_forms.h"

BC_EVAL_4(riser_wall_heat, bc_riser_wall_w)
BC_EVAL_2(riser_lagged_u, bc_riser_u_lagged_wm2k)
BC_EVAL_2(riser_wall_reflux, bc_riser_wall_reflux)
BC_EVAL_6(riser_power, bc_riser_power_w)
BC_EVAL_2(riser_stages, bc_riser_stages)
