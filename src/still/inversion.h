/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_STILL_INVERSION_H
#define BC_STILL_INVERSION_H

#include <stddef.h>

#include "base/status.h"
#include "fuel/slices.h"
#include "fuel/tbp.h"
#include "still/column.h"

/*
 * What holds the front end, which no reading decides.
 * - flask: the IBP converted by Riazi-Daubert stands at 2.3 vol %, the slope below it is at most
 *   45 degC per probit unit, as in bc_tbp_curve_from_points.
 * - true: the IBP as true vapour stands at 0.5 %, half the slope goes on below it.
 * - free: the IBP is not used, smoothness alone holds the front, and the curve has no IBP: it can
 *   carry no claim on a flash.
 */
enum bc_front { BC_FRONT_FLASK, BC_FRONT_TRUE, BC_FRONT_FREE };

/*
 * The front that suits an apparatus. True: more than 2.5 effective plates, or 3 stages and more
 * with a reflux of 2 and more, which are worth that. Free: less than 1.4 effective plates, the bare
 * pot, a reflux below 0.25; the IBP of such a still lies far above what the flask would show, so
 * the flask's rule would be unsafe. Else the flask's.
 */
enum bc_front bc_front_of(const struct bc_column *apparatus);

#define BC_INVERSION_READINGS_MAX 64
struct bc_inversion_input {
	struct bc_column apparatus; /* its pressure is not looked at: temperatures are at 101.3 */
	enum bc_front front;
	size_t n;             /* percent readings, IBP and FBP not among them */
	const double *pct;    /* distilled (recovered plus loss), rising, above 0, to 99 */
	const double *head_c; /* corrected (D86 basis) */
	const double *pot_c;  /* true boiling liquid at 101.3 kPa; NULL or NaN: not read */
	double ibp_c;         /* corrected; NaN: not read, the front is then free */
	double head_sigma_c;  /* standard error of a head reading; also how well it is to be met */
	double pot_sigma_c;
	double sg; /* of the whole oil, 60/60 degF */
};

struct bc_inversion {
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	double fit_rms_c;  /* of the head readings, corrected */
	double smoothness; /* weight of the second differences that was used */
	int rounds;
	size_t n_readings;
	double read_from_pct; /* slices beyond are extrapolated */
	double read_to_pct;
	size_t n_knots;                    /* knot 0 is the IBP's unless the front is free */
	double knot_pct[BC_TBP_KNOTS_MAX]; /* 0 stands for the IBP */
	double knot_c[BC_TBP_KNOTS_MAX];
	enum bc_front front;
	/* how knots answer to a change of each head reading, pot reading, and of the IBP */
	double head_gain[BC_TBP_KNOTS_MAX][BC_INVERSION_READINGS_MAX];
	double pot_gain[BC_TBP_KNOTS_MAX][BC_INVERSION_READINGS_MAX];
	double ibp_gain[BC_TBP_KNOTS_MAX];
};

/* Room to work in, kept over many inversions; NULL without memory. */
struct bc_inversion_work;
struct bc_inversion_work *bc_inversion_work_new(void);
void bc_inversion_work_free(struct bc_inversion_work *work);

/*
 * bc_invert - the oil whose boil-off in this apparatus reads as it was read
 *
 * Given     input; work
 * Returned  *inversion: knots at IBP (or 0.5 and 2), 5, 10, 20 ... 90, 95, 98, 99.5 %, the curve
 *           through them, 40 slices, and the linear answer of the knots to the readings
 * Status    BC_EXTRAPOLATED    fewer than half of the knots lie within the readings
 *           BC_TOO_FEW         fewer than three readings
 *           BC_BAD_DOMAIN      readings not rising in percent or not finite, sg not positive, ...
 *           BC_NO_CONVERGENCE  no fit
 * Notes     1. Gauss-Newton on the squares of (read - simulated)/sigma plus the squares of second
 *              differences in probit, the weight of which is the greatest that still meets the
 *              readings to 1.1 sigma (discrepancy); knots are kept rising
 *           2. IBP and FBP are never fitted; the ends of the curve are extrapolated, 5 to 15 degC
 *           3. a wrong apparatus is a bias that no smoothing takes away
 *           4. 0.6 to 1.7 degC RMS at 5..95 % with readings to 1 degC and the right apparatus
 *              (computed); 2 to 4 degC with a flask (bc_flask_column)
 * Source    Tikhonov regularisation with Morozov's discrepancy principle; worked out for this
 *           program
 */
enum bc_status bc_invert(const struct bc_inversion_input *input, struct bc_inversion_work *work,
	struct bc_inversion *inversion);

/*
 * bc_inversion_shifted - the oil had the readings been a little different
 *
 * Given     inversion; changes of head and pot readings (NULL: none) and of the IBP [degC]; sg
 * Returned  *curve, *slices by the linear answer of the knots, made rising
 * Status    as bc_tbp_curve_from_points and bc_slices_from_tbp
 */
enum bc_status bc_inversion_shifted(const struct bc_inversion *inversion, const double *head_change,
	const double *pot_change, double ibp_change, double sg, struct bc_tbp_curve *curve,
	struct bc_slices *slices);

#endif
