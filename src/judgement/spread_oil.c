/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The oil behind a drawn boil-off: density, slices, figures, and the errors of their methods. */
#include "judgement/spread_oil.h"

#include <math.h>

#include "base/random.h"
#include "base/stats.h"
#include "fuel/density.h"
#include "fuel/feed.h"
#include "fuel/ignition.h"
#include "fuel/oil_error.h"

/* ---- the methods */

/* Bounds by the method alone, around the figures that the readings give. */
static enum bc_status fill_methods(
	const struct bc_sample *sample, const struct bc_oil *oil, struct bc_oil_drawer *drawer)
{
	static const struct bc_reach nothing = {{0.0}, {0.0}};
	struct bc_oil_figures figures;
	struct bc_feed feed;
	struct bc_tbp_curve curve;
	double d86_c[BC_TBP_POINTS];
	double tbp_c[BC_TBP_POINTS];
	struct bc_slices slices;
	struct bc_oil_input *input = &drawer->input;
	input->density15_kgm3 = oil->property[BC_DENSITY15].value;
	enum bc_status status = bc_oil_build(input, d86_c, tbp_c, &curve, &slices);
	if (bc_failed(status))
		return status;
	bc_feed_read(sample->feed, &feed);
	bc_oil_figures_of(&slices, d86_c, input->density15_kgm3, &figures);
	bc_oil_estimates(&figures, feed.polypropylene ? BC_CETANE_BRANCHED : BC_CETANE_HALF_WIDTH,
		&nothing, drawer->method);
	return BC_OK;
}

/* A cup that is void, or an open one above the estimate, says nothing of the bounds. */
static bool cup_rules(const struct bc_sample *sample, const struct bc_estimate *flash)
{
	if (flash->how == BC_MEASURED)
		return true;
	for (size_t i = 0; i < sample->n_measured; i++)
		if (sample->measured[i].open_cup && sample->measured[i].value < flash->value)
			return true;
	return false;
}

enum bc_status bc_oil_drawer_new(const struct bc_sample *sample, const struct bc_reader *reader,
	const struct bc_points *points, const struct bc_oil *oil,
	const struct bc_oil_input *inverted, struct bc_oil_drawer *drawer)
{
	*drawer = (struct bc_oil_drawer){
		.conditions = reader->conditions, .boiloff = reader->boiloff, .oil = oil};
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		drawer->method[i] = bc_estimate_absent();
	bc_oil_points_take(
		reader->conditions, reader->boiloff, points, &drawer->input, &drawer->errors);
	if (inverted)
		drawer->input = *inverted;
	drawer->density_measured = oil->property[BC_DENSITY15].how == BC_MEASURED;
	drawer->held[BC_FLASH] = cup_rules(sample, &oil->property[BC_FLASH]);
	drawer->held[BC_VISC40] = bc_sample_measured(sample, "kin_viscosity") != NULL;
	drawer->held[BC_VISC20] = drawer->held[BC_VISC40];
	return fill_methods(sample, oil, drawer);
}

/* The figure with the error of its method; z is a standard normal draw. */
static double with_method(
	const struct bc_oil_drawer *drawer, enum bc_property property, double figure, double z)
{
	const struct bc_estimate *method = &drawer->method[property];
	if (!bc_estimate_present(method))
		return figure;
	if (!bc_property_is_factor(property))
		return figure + bc_half_and_half(z, method->value, method->low, method->high) -
		       method->value;
	return figure * exp(bc_half_and_half(z, 0.0, log(method->low / method->value),
				log(method->high / method->value)));
}

/* What is not computed anew lies between its bounds. */
static double between_bounds(const struct bc_estimate *estimate, double z)
{
	double low = isnan(estimate->low) ? 2.0 * estimate->value - estimate->high : estimate->low;
	return bc_half_and_half(z, estimate->value, low, estimate->high);
}

/* ---- slices */

enum bc_status bc_inversion_drawn(const struct bc_inversion *inversion, const double *pct,
	const struct bc_inputs *inputs, const struct bc_drawn *drawn, double sg,
	struct bc_tbp_curve *curve, struct bc_slices *slices)
{
	double change[BC_INVERSION_READINGS_MAX];
	for (size_t i = 0; i < inversion->n_readings; i++) {
		double central_c = bc_curve_temp_c(inputs->reader->curve, pct[i]);
		change[i] = bc_drawn_temp_c(inputs, drawn, pct[i]) - central_c;
		if (!isfinite(change[i]))
			change[i] = 0.0;
	}
	double ibp_change = drawn->boiloff.ibp_c - inputs->boiloff->ibp_c;
	return bc_inversion_shifted(inversion, change, NULL,
		isfinite(ibp_change) ? ibp_change : 0.0, sg, curve, slices);
}

/* The central percents on the drawn curve: a drawn percent never chooses other points. */
static void take_at_central(const struct bc_oil_drawer *drawer, const struct bc_inputs *inputs,
	const struct bc_drawn *drawn, const struct bc_points *points, struct bc_oil_input *input)
{
	struct bc_oil_input taken;
	struct bc_oil_errors errors;
	bc_oil_points_take(drawer->conditions, &drawn->boiloff, points, &taken, &errors);
	*input = drawer->input;
	for (size_t i = 0; i < input->n; i++) {
		double pct = input->pct[i];
		bool reported = false;
		for (size_t k = 0; k < BC_POINTS; k++)
			reported = reported || bc_point_pct[k] == pct;
		input->temp_c[i] =
			reported ? bc_oil_point_c(&taken, pct)
				 : bc_true_from_corrected(bc_drawn_temp_c(inputs, drawn, pct));
	}
}

/* Points of the drawn curve, with what no reading says of them. */
static void take_points(const struct bc_oil_drawer *drawer, const struct bc_inputs *inputs,
	const struct bc_drawn *drawn, const struct bc_points *points, struct bc_oil_input *input)
{
	take_at_central(drawer, inputs, drawn, points, input);
	for (size_t i = 0; i < input->n; i++) {
		bool back = input->pct[i] > 50.0;
		double unread =
			drawn->shared[back ? BC_SHARED_BACK_UNREAD : BC_SHARED_FRONT_UNREAD];
		input->temp_c[i] +=
			(unread * drawer->errors.unread_c[i] +
				drawn->shared[BC_SHARED_RANGE] * drawer->errors.outside_c[i]) /
			BC_Z95;
		/* an error of one point never turns the curve */
		if (i > 0 && input->temp_c[i] < input->temp_c[i - 1])
			input->temp_c[i] = input->temp_c[i - 1];
	}
	input->read_from_pct = 0.0;
	input->read_to_pct = 100.0;
}

/* Points of a drawn inversion; the density hardly moves them. */
static void take_inverted(const struct bc_oil_drawer *drawer, const struct bc_inputs *inputs,
	const struct bc_drawn *drawn, struct bc_oil_input *input)
{
	struct bc_tbp_curve curve;
	struct bc_slices slices;
	*input = drawer->input;
	if (drawer->density_measured ||
		bc_failed(bc_inversion_drawn(drawer->inversion, drawer->inversion_pct, inputs,
			drawn, bc_sg_from_density15(input->density15_kgm3), &curve, &slices)))
		return;
	for (size_t i = 0; i < input->n; i++)
		input->temp_c[i] = bc_tbp_curve_temp_c(&curve, input->pct[i]);
}

static double draw_density(const struct bc_oil_drawer *drawer, const struct bc_oil_input *input,
	const struct bc_drawn *drawn)
{
	double z = drawn->shared[BC_SHARED_DENSITY];
	const struct bc_estimate *density = &drawer->oil->property[BC_DENSITY15];
	if (drawer->density_measured)
		return between_bounds(density, z);
	double sg = NAN;
	bc_sg_from_d86(bc_oil_point_c(input, 10.0), bc_oil_point_c(input, 50.0), &sg);
	double half_width = bc_density_from_curve_half_width_kgm3(bc_oil_point_c(input, 10.0));
	return bc_density15_from_sg(sg) + z * half_width / BC_Z95;
}

static enum bc_status draw_slices(const struct bc_oil_drawer *drawer,
	const struct bc_oil_input *input, const struct bc_inputs *inputs,
	const struct bc_drawn *drawn, struct bc_oil_drawn *oil)
{
	double tbp_c[BC_TBP_POINTS];
	if (!drawer->inversion)
		return bc_oil_build(input, oil->d86_c, tbp_c, &oil->curve, &oil->slices);
	enum bc_status status = bc_inversion_drawn(drawer->inversion, drawer->inversion_pct, inputs,
		drawn, bc_sg_from_density15(input->density15_kgm3), &oil->curve, &oil->slices);
	if (bc_failed(status))
		return status;
	return bc_slices_d86_c(&oil->slices, oil->d86_c);
}

/* ---- figures */

static double draw_property(const struct bc_oil_drawer *drawer, enum bc_property property,
	const struct bc_oil_figures *figures, const struct bc_drawn *drawn)
{
	double z = drawn->shared[BC_SHARED_METHOD + property];
	const struct bc_estimate *judged = &drawer->oil->property[property];
	if (!bc_estimate_present(judged))
		return NAN;
	if (drawer->held[property])
		return between_bounds(judged, z);
	/* the front end that makes the flash uncertain makes the vapour pressure so */
	if (property == BC_VAPOUR_PRESSURE_37_8)
		z = -drawn->shared[BC_SHARED_METHOD + BC_FLASH_VAPOUR];
	return with_method(drawer, property, bc_oil_figure(figures, property), z);
}

static double draw_driveability(const struct bc_points *points)
{
	const struct bc_estimate *at = points->evaporated_point;
	double index = NAN;
	bc_driveability_index(at[0].value, at[1].value, at[2].value, &index);
	return index;
}

void bc_oil_draw(const struct bc_oil_drawer *drawer, const struct bc_inputs *inputs,
	const struct bc_drawn *drawn, const struct bc_points *points, struct bc_oil_drawn *oil)
{
	struct bc_oil_input input;
	struct bc_oil_figures figures;
	double *property = oil->property;
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		property[i] = NAN;
	if (drawer->inversion)
		take_inverted(drawer, inputs, drawn, &input);
	else
		take_points(drawer, inputs, drawn, points, &input);
	input.density15_kgm3 = draw_density(drawer, &input, drawn);
	property[BC_DENSITY15] = input.density15_kgm3;
	property[BC_DRIVEABILITY_INDEX] = draw_driveability(points);
	if (drawer->held[BC_FLASH])
		property[BC_FLASH] = between_bounds(&drawer->oil->property[BC_FLASH],
			drawn->shared[BC_SHARED_METHOD + BC_FLASH]);
	if (bc_failed(draw_slices(drawer, &input, inputs, drawn, oil)))
		return;
	bc_oil_figures_of(&oil->slices, oil->d86_c, input.density15_kgm3, &figures);
	for (size_t i = 0; i < BC_PROPERTIES; i++)
		if (i != BC_DENSITY15 && i != BC_DRIVEABILITY_INDEX && i != BC_FLASH)
			property[i] = draw_property(drawer, (enum bc_property)i, &figures, drawn);
	if (!drawer->held[BC_FLASH])
		property[BC_FLASH] = property[BC_FLASH_VAPOUR];
}
