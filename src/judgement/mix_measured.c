/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the laboratory said of the parts of a mixture: what adds up, and what is known of some parts
 * only or follows no rule of mixing. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "judgement/mix_job.h"
#include "verdict/phrase.h"

/* What adds up by mass, and what by volume since it is told in vol %; common practice. */
static const char *const by_mass[] = {"sulphur", "mercaptan_sulphur", "chlorine", "nitrogen",
	"water", "acid_number", "ash", "carbon_residue", "total_contamination", "total_sediment",
	"thermal_sediment", "char_value", "styrene", "total_aromatics", "poly_aromatics"};
static const char *const by_volume[] = {"benzene", "olefins", "fame_content", "water_and_sediment"};
/* What reaches the oil of a part, and the mixture through it. */
static const char *const of_oil[] = {"flash_point", "kin_viscosity", "density"};
#define COUNT(array) (sizeof(array) / sizeof *(array))

static bool listed(const char *const *list, size_t n, const char *property)
{
	for (size_t i = 0; i < n; i++)
		if (strcmp(list[i], property) == 0)
			return true;
	return false;
}

static bool told_before(const struct bc_mix_measured *measured, const char *property)
{
	for (size_t i = 0; i < measured->n; i++)
		if (strcmp(measured->items[i].property, property) == 0)
			return true;
	for (size_t i = 0; i < measured->n_figures; i++)
		if (strcmp(measured->figures[i].property, property) == 0)
			return true;
	return false;
}

/* What the parts have of a property together, a part without it counting as none; in: how many
 * parts have it. */
static double sum_of(
	const struct bc_mix_recipe *recipe, const char *property, bool mass, size_t *in)
{
	double sum = 0.0;
	double whole = 0.0;
	*in = 0;
	for (size_t i = 0; i < recipe->n; i++)
		whole += recipe->volume[i];
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_measured *own =
			bc_sample_measured(recipe->oil[i]->sample, property);
		if (own == NULL)
			continue;
		sum += own->value * (mass ? bc_mix_mass(recipe, i) : recipe->volume[i] / whole);
		(*in)++;
	}
	return sum;
}

static void add_up(
	const struct bc_mix_recipe *recipe, const char *property, struct bc_mix_measured *measured)
{
	size_t in = 0;
	double sum = sum_of(recipe, property, listed(by_mass, COUNT(by_mass), property), &in);
	if (in == recipe->n)
		measured->items[measured->n++] =
			(struct bc_measured){.property = property, .value = sum, .temp_c = NAN};
	else
		measured->figures[measured->n_figures++] =
			(struct bc_part_figure){property, true, sum, NAN};
}

static void lay_side_by_side(
	const struct bc_mix_recipe *recipe, const char *property, struct bc_mix_measured *measured)
{
	struct bc_part_figure figure = {property, false, INFINITY, -INFINITY};
	size_t in = 0;
	for (size_t i = 0; i < recipe->n; i++) {
		const struct bc_measured *own =
			bc_sample_measured(recipe->oil[i]->sample, property);
		if (own == NULL)
			continue;
		figure.low = fmin(figure.low, own->value);
		figure.high = fmax(figure.high, own->value);
		in++;
	}
	measured->in_all[measured->n_figures] = in == recipe->n;
	measured->figures[measured->n_figures++] = figure;
}

static void carry_over(const struct bc_sample *sample, struct bc_mix_measured *measured)
{
	for (size_t i = 0; i < sample->n_measured && i < BC_MIX_MEASURED_MAX; i++) {
		measured->items[measured->n] = sample->measured[i];
		measured->items[measured->n++].line = 0;
	}
}

static void measure_part(const struct bc_mix_recipe *recipe, const struct bc_sample *sample,
	struct bc_mix_measured *measured)
{
	for (size_t k = 0; k < sample->n_measured; k++) {
		const char *property = sample->measured[k].property;
		bool full = measured->n == BC_MIX_MEASURED_MAX ||
			    measured->n_figures == BC_MIX_MEASURED_MAX;
		if (full || told_before(measured, property) ||
			listed(of_oil, COUNT(of_oil), property))
			continue;
		if (listed(by_mass, COUNT(by_mass), property) ||
			listed(by_volume, COUNT(by_volume), property))
			add_up(recipe, property, measured);
		else
			lay_side_by_side(recipe, property, measured);
	}
}

void bc_mix_measure(const struct bc_mix_recipe *recipe, struct bc_mix_measured *measured)
{
	*measured = (struct bc_mix_measured){.n = 0};
	if (recipe->n == 1) {
		carry_over(recipe->oil[0]->sample, measured);
		return;
	}
	for (size_t i = 0; i < recipe->n; i++)
		measure_part(recipe, recipe->oil[i]->sample, measured);
}

/* ---- in words */

/* The names of the figures that were measured in all parts, or of the others. */
static void names_of(const struct bc_mix_measured *measured, bool in_all, struct bc_text *list)
{
	for (size_t i = 0; i < measured->n_figures; i++) {
		char name[BC_PHRASE_SIZE];
		if (measured->in_all[i] != in_all)
			continue;
		bc_limit_property_text(measured->figures[i].property, name, sizeof name);
		bc_text_printf(list, "%s%s", list->length > 0 ? ", " : "", name);
	}
}

static void say(const struct bc_mix_measured *measured, bool in_all, struct bc_strings *assumed)
{
	struct bc_text list;
	bc_text_init(&list);
	names_of(measured, in_all, &list);
	if (list.length > 0 && in_all)
		bc_strings_add(assumed,
			"measured, but does not add up: %s; not known of the mixture, but each part "
			"is held against the limits by itself",
			list.data);
	else if (list.length > 0)
		bc_strings_add(assumed,
			"measured in some parts only: %s; not known of the mixture, but held "
			"against the limits: what adds up as if the other parts had none of it, "
			"else each part by itself",
			list.data);
	assumed->failed = assumed->failed || list.failed;
	bc_text_release(&list);
}

void bc_mix_say_left_out(const struct bc_mix_measured *measured, struct bc_strings *assumed)
{
	say(measured, false, assumed);
	say(measured, true, assumed);
}
