/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which figures of a judgement the book follows. */
#include "book/figures.h"

#include <math.h>
#include <stdio.h>

#include "base/memory.h"

static enum bc_status add(struct bc_figures *figures, const char *lead, const char *key,
	const struct bc_estimate *estimate)
{
	if (!isfinite(estimate->value))
		return BC_OK;
	if (bc_grow((void **)&figures->items, figures->n, &figures->capacity,
		    sizeof *figures->items) != 0)
		return BC_NO_MEMORY;
	struct bc_figure *figure = &figures->items[figures->n++];
	snprintf(figure->key, sizeof figure->key, "%s%s", lead, key);
	figure->value = estimate->value;
	figure->low = isfinite(estimate->low) ? estimate->low : (double)NAN;
	figure->high = isfinite(estimate->high) ? estimate->high : (double)NAN;
	return BC_OK;
}

static enum bc_status add_all(struct bc_figures *figures, const struct bc_estimate *estimates,
	const char *const *keys, size_t n)
{
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < n && !bc_failed(status); i++)
		status = add(figures, "", keys[i], &estimates[i]);
	return status;
}

static enum bc_status add_number(struct bc_figures *figures, const char *key, double value)
{
	struct bc_estimate plain = {.value = value, .low = (double)NAN, .high = (double)NAN};
	return add(figures, "", key, &plain);
}

static double yield_pct(const struct bc_sample *sample)
{
	double oil_g = sample->oil_out_g;
	if (isnan(oil_g))
		oil_g = sample->oil_out_ml * sample->density_kgm3 / 1000.0;
	return sample->plastic_in_g > 0.0 ? 100.0 * oil_g / sample->plastic_in_g : (double)NAN;
}

static enum bc_status add_measured(struct bc_figures *figures, const struct bc_sample *sample)
{
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < sample->n_measured && !bc_failed(status); i++) {
		const struct bc_measured *measured = &sample->measured[i];
		/* the closed cup, and of a property the last one counts */
		if (bc_sample_measured(sample, measured->property) != measured)
			continue;
		struct bc_estimate plain = {
			.value = measured->value, .low = (double)NAN, .high = (double)NAN};
		status = add(figures, "measured_", measured->property, &plain);
	}
	return status;
}

enum bc_status bc_figures_from_judgement(
	const struct bc_judgement *judgement, struct bc_figures *figures)
{
	const struct bc_boiloff *boiloff = &judgement->boiloff;
	const struct {
		const char *key;
		double value;
	} plain[] = {
		{"pressure_kpa", judgement->conditions.pressure_kpa},
		{"loss_pct", boiloff->loss_known ? boiloff->loss_pct : (double)NAN},
		{"corrected_loss_pct",
			boiloff->loss_known ? boiloff->corrected_loss_pct : (double)NAN},
		{"residue_pct", boiloff->residue_known ? boiloff->residue_pct : (double)NAN},
		{"yield_pct", yield_pct(judgement->sample)},
	};
	*figures = (struct bc_figures){0};
	enum bc_status status = add_all(figures, judgement->points.at, bc_point_keys, BC_POINTS);
	if (!bc_failed(status))
		status = add_all(
			figures, judgement->oil.property, bc_property_keys, BC_PROPERTIES_REPORTED);
	/* the last share, what stays behind, is residue_pct again */
	for (size_t i = 0; i < BC_SHARES && !bc_failed(status); i++) {
		if (i != BC_SHARE_RESIDUE)
			status = add(figures, "", bc_share_keys[i], &judgement->shares.pct[i]);
	}
	for (size_t i = 0; i < sizeof plain / sizeof plain[0] && !bc_failed(status); i++)
		status = add_number(figures, plain[i].key, plain[i].value);
	if (!bc_failed(status))
		status = add_measured(figures, judgement->sample);
	return status;
}

void bc_figures_release(struct bc_figures *figures)
{
	if (figures == NULL)
		return;
	bc_free(figures->items);
	*figures = (struct bc_figures){0};
}
