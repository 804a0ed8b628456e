/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BENCH_SIMULATED_SAMPLES_H
#define BC_BENCH_SIMULATED_SAMPLES_H

/*
 * Oils of known truth and the sample files that a shed would write of them. Nothing is as the
 * judgement assumes it: true boiling points follow an exponentiated Weibull curve (not straight
 * pieces in probit), slices are 64, the flask is another still (a whole theoretical stage with
 * reflux 1, or 2 effective plates, as often as the 1.75 that are assumed), the thermometer may be of
 * the kind that is not assumed, one run differs from another by the test's own reproducibility, on
 * waves along the curve and not on straight lines, and readings, percents, pressure, calibration and density carry
 * errors of the sizes that are stated as defaults.
 */
#include <math.h>
#include <stdbool.h>
#include <string.h>

#include <gsl/gsl_math.h>

#include "base/random.h"
#include "base/stats.h"
#include "base/text.h"
#include "curve/conditions.h"
#include "curve/correction.h"
#include "curve/points.h"
#include "fuel/density.h"
#include "fuel/flash.h"
#include "fuel/slices.h"
#include "fuel/tbp.h"
#include "still/column.h"
#include "still/flask.h"

enum { SIMULATED_READINGS = 11 };
static const double simulated_pct[SIMULATED_READINGS] = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95};

/* From IBP to 5 %: measured oils have 8 degC and more there, nearly all. */
#define LEAST_FRONT_C 6.0

struct simulated {
	/* truth */
	double t_c[SIMULATED_READINGS]; /* the standard flask, D86 basis, at simulated_pct */
	double density15_kgm3;
	double flash_c;
	/* what was done */
	bool density_given;
	bool pressure_given;
	bool kind_given;
	bool calibrated;
	char *text; /* the file */
};

struct simulator {
	struct bc_random *random;
	struct bc_still_work *work;
	struct bc_run *run;
	struct bc_slices slices;
};

static inline double sigma(double half_width) { return half_width / BC_Z95; }

/* A curve from a front of its own to a tail, in the range of kerosenes to diesels. */
static inline bool simulated_oil(struct simulator *s, double *density15_kgm3)
{
	struct bc_random *random = s->random;
	double least_c = bc_random_rectangular(random, 40.0, 160.0);
	double scale_c = bc_random_rectangular(random, 70.0, 150.0);
	double shape = bc_random_rectangular(random, 1.4, 2.4);
	double power = bc_random_rectangular(random, 0.9, 1.6);
	double watson_k = 11.8 + 0.42 * bc_random_normal(random);
	enum { N = 64 };
	double boiling_k[N];
	double sg[N];
	double share[N];
	for (size_t i = 0; i < N; i++) {
		/* finer towards both ends */
		double from = 0.5 - 0.5 * cos(M_PI * (double)i / N);
		double to = 0.5 - 0.5 * cos(M_PI * (double)(i + 1) / N);
		double middle = 0.5 * (from + to);
		share[i] = to - from;
		double rise = pow(-log(1.0 - pow(middle, 1.0 / power)), 1.0 / shape);
		boiling_k[i] = 273.15 + least_c + scale_c * rise;
		sg[i] = cbrt(1.8 * boiling_k[i]) / watson_k;
	}
	if (bc_failed(bc_slices_from_components(boiling_k, sg, share, N, &s->slices)))
		return false;
	*density15_kgm3 = bc_density15_from_sg(s->slices.sg);
	return *density15_kgm3 > 700.0 && *density15_kgm3 < 950.0;
}

static inline bool boil_off(struct simulator *s, const struct bc_column *still, const double *pct,
	double *corrected_c)
{
	return !bc_failed(bc_simulated_boiloff(
		&s->slices, still, pct, SIMULATED_READINGS, corrected_c, s->work, s->run));
}

static inline struct bc_column other_still(struct bc_random *random)
{
	double which = bc_random_uniform(random);
	struct bc_column still = bc_flask_column();
	if (which < 1.0 / 3.0)
		still = (struct bc_column){2.0, 1.0, NAN, still.pressure_kpa};
	else if (which < 2.0 / 3.0)
		still.effective_plates = 2.0;
	return still;
}

/* The thermometer and the place, as they are; and what the file says of them. */
struct shed {
	double pressure_kpa;
	bool true_vapour;
	double offset_c;
	double scale; /* reading per true degree */
};

static inline struct shed write_shed(struct simulator *s, struct simulated *sample, struct bc_text *text)
{
	struct bc_random *random = s->random;
	struct shed shed = {.pressure_kpa = 101.3, .scale = 1.0};
	double altitude_m = bc_random_rectangular(random, 0.0, 900.0);
	double mean_kpa;
	bc_pressure_from_altitude_kpa(altitude_m, &mean_kpa);
	shed.pressure_kpa = mean_kpa + sigma(1.5) * bc_random_normal(random);
	double which = bc_random_uniform(random);
	sample->pressure_given = which < 0.8;
	if (which < 0.4)
		bc_text_printf(text, "barometer,%.2f kPa\n",
			shed.pressure_kpa + sigma(0.3) * bc_random_normal(random));
	else if (which < 0.8)
		bc_text_printf(text, "altitude,%.0f m\n", altitude_m);
	shed.true_vapour = bc_random_uniform(random) < 0.5;
	sample->kind_given = bc_random_uniform(random) < 0.7;
	if (sample->kind_given)
		bc_text_printf(text, "thermometer,%s\n", shed.true_vapour ? "probe" : "glass d86");
	sample->calibrated = sample->pressure_given && bc_random_uniform(random) < 0.5;
	if (!sample->calibrated) {
		shed.offset_c = sigma(sqrt(3.0)) * bc_random_normal(random);
		return shed;
	}
	shed.offset_c = 1.5 * bc_random_normal(random);
	shed.scale = 1.0 + 0.008 * bc_random_normal(random);
	double steam_c;
	bc_water_boils_c(shed.pressure_kpa, &steam_c);
	bc_text_printf(text, "ice,%.2f C\nsteam,%.2f C\n",
		shed.offset_c + sigma(0.5) * bc_random_normal(random),
		shed.offset_c + shed.scale * steam_c + sigma(0.5) * bc_random_normal(random));
	return shed;
}

static inline double shown_c(struct simulator *s, const struct shed *shed, double corrected_c)
{
	double normal_c =
		shed->true_vapour ? bc_true_from_corrected(corrected_c) : corrected_c;
	double site_c;
	bc_sydney_young_observed_c(normal_c, shed->pressure_kpa, &site_c);
	double exact_c = shed->offset_c + shed->scale * site_c;
	return round(exact_c + sigma(0.9) * bc_random_normal(s->random));
}

/* R/sqrt(2) of the test, by the slope between the neighbours. */
static inline double run_sigma_c(const double *head_c, size_t i)
{
	size_t from = i > 0 ? i - 1 : i;
	size_t to = i + 1 < SIMULATED_READINGS ? i + 1 : i;
	double slope = (head_c[to] - head_c[from]) / (simulated_pct[to] - simulated_pct[from]);
	double reproducibility;
	bc_d86_reproducibility_c(simulated_pct[i], slope, &reproducibility);
	return sigma(reproducibility / sqrt(2.0));
}

/* Riazi-Daubert's 0 % is the composition's 2.0 to 2.6 %, and another run reads another one. */
static inline double first_drop_c(struct simulator *s)
{
	double pct = bc_random_rectangular(s->random, 2.0, 2.6);
	double ibp_c;
	bc_d86_from_tbp_c(0.0, bc_slices_temp_k(&s->slices, pct / 100.0) - 273.15, &ibp_c);
	return ibp_c + sigma(3.3) * bc_random_normal(s->random);
}

static inline void write_table(struct simulator *s, const struct shed *shed, double ibp_c,
	const double *head_c, struct bc_text *text)
{
	bc_text_printf(text, "\nrecovered (%%),head (C)\nIBP,%.0f\n", shown_c(s, shed, ibp_c));
	double fall = bc_random_normal(s->random);
	double bow = bc_random_normal(s->random);
	for (size_t i = 0; i < SIMULATED_READINGS; i++) {
		double angle = M_PI * simulated_pct[i] / 100.0;
		double run = fall * cos(angle) + bow * sin(angle);
		bc_text_printf(text, "%.0f,%.0f\n", simulated_pct[i],
			shown_c(s, shed, head_c[i] + run * run_sigma_c(head_c, i)));
	}
}

/* False where this oil cannot be one. sample->text is the caller's. */
static inline bool simulate(struct simulator *s, struct simulated *sample)
{
	struct bc_column standard = bc_flask_column();
	struct bc_column still = other_still(s->random);
	double pct[SIMULATED_READINGS];
	double head_c[SIMULATED_READINGS];
	struct bc_text text;
	*sample = (struct simulated){.text = NULL};
	if (!simulated_oil(s, &sample->density15_kgm3))
		return false;
	double lag = sigma(0.7) / sqrt(2.0) * bc_random_normal(s->random);
	for (size_t i = 0; i < SIMULATED_READINGS; i++)
		pct[i] = simulated_pct[i] + lag +
			 sigma(0.7) / sqrt(2.0) * bc_random_normal(s->random);
	bc_flash_vapour_space_c(&s->slices, 101.325, &sample->flash_c);
	/* a closed cup has its own error: R/sqrt(2), R = 0.071 X */
	sample->flash_c += sigma(0.071 * fabs(sample->flash_c) / sqrt(2.0)) *
			   bc_random_normal(s->random);
	if (!boil_off(s, &standard, simulated_pct, sample->t_c) || !boil_off(s, &still, pct, head_c))
		return false;
	double ibp_c = first_drop_c(s);
	if (!(ibp_c < sample->t_c[0] - LEAST_FRONT_C))
		return false;
	bc_text_init(&text);
	bc_text_append(&text, "history,rerun\nresidue,1.5 mL\nloss,0.5 mL\n");
	sample->density_given = bc_random_uniform(s->random) < 0.5;
	if (sample->density_given)
		bc_text_printf(&text, "density,%.1f kg/m3\n",
			sample->density15_kgm3 + sigma(1.1) * bc_random_normal(s->random));
	struct shed shed = write_shed(s, sample, &text);
	write_table(s, &shed, ibp_c, head_c, &text);
	sample->text = bc_text_take(&text);
	return sample->text != NULL;
}

#endif
