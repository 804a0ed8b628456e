/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of the statuses, and the one translation of GSL's error codes. */
#include "base/status.h"

#include <gsl/gsl_errno.h>

const char *bc_status_text(enum bc_status status)
{
	switch (status) {
	case BC_OK:
		return "ok";
	case BC_OUTSIDE_RANGE:
		return "outside-range";
	case BC_EXTRAPOLATED:
		return "extrapolated";
	case BC_REPAIRED:
		return "repaired";
	case BC_BAD_DOMAIN:
		return "bad-domain";
	case BC_NO_MEMORY:
		return "no-memory";
	case BC_IO:
		return "io";
	case BC_MALFORMED:
		return "malformed";
	case BC_NO_CONVERGENCE:
		return "no-convergence";
	case BC_TOO_FEW:
		return "too-few";
	case BC_NOT_FOUND:
		return "not-found";
	}
	return "unknown";
}

enum bc_status bc_status_from_gsl(int gsl_code)
{
	switch (gsl_code) {
	case GSL_SUCCESS:
		return BC_OK;
	case GSL_ENOMEM:
		return BC_NO_MEMORY;
	case GSL_EDOM:
	case GSL_EINVAL:
	case GSL_EBADLEN:
	case GSL_ENOTSQR:
		return BC_BAD_DOMAIN;
	default:
		return BC_NO_CONVERGENCE;
	}
}
