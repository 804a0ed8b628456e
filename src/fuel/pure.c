/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pure liquids by name, and blends of them as slices. */
#include "fuel/pure.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"
#include "base/text.h"
#include "base/units.h"

const struct bc_pure bc_pures[] = {
#include "pure-components.inc"
};
const size_t bc_pure_count = sizeof bc_pures / sizeof bc_pures[0];

static bool is_called(const struct bc_pure *pure, const char *name)
{
	const char *normal = strncmp(pure->name, "n-", 2) == 0 ? pure->name + 2 : pure->name;
	return strcmp(name, pure->name) == 0 || strcmp(name, normal) == 0;
}

const struct bc_pure *bc_pure_find(const char *name)
{
	const struct bc_pure *found = NULL;
	char *folded = bc_text_folded(name);
	for (size_t i = 0; folded != NULL && found == NULL && i < bc_pure_count; i++) {
		if (is_called(&bc_pures[i], folded))
			found = &bc_pures[i];
	}
	bc_free(folded);
	return found;
}

/* Places of the liquids, the lightest first. */
static void sort_by_boiling(const struct bc_pure *const *liquids, size_t n, size_t *order)
{
	for (size_t i = 0; i < n; i++) {
		size_t at = i;
		for (; at > 0 && liquids[order[at - 1]]->boiling_c > liquids[i]->boiling_c; at--)
			order[at] = order[at - 1];
		order[at] = i;
	}
}

enum bc_status bc_pure_blend(const struct bc_pure *const *liquids, const double *shares, size_t n,
	struct bc_slices *slices)
{
	size_t order[BC_SLICES_MAX];
	double boiling_k[BC_SLICES_MAX];
	double sg[BC_SLICES_MAX];
	double volume[BC_SLICES_MAX];
	slices->n = 0;
	if (n == 0 || n > BC_SLICES_MAX)
		return BC_BAD_DOMAIN;
	sort_by_boiling(liquids, n, order);
	for (size_t i = 0; i < n; i++) {
		boiling_k[i] = bc_temp_k_from_c(liquids[order[i]]->boiling_c);
		sg[i] = liquids[order[i]]->sg;
		volume[i] = shares[order[i]];
	}
	enum bc_status status = bc_slices_from_components(boiling_k, sg, volume, n, slices);
	double from = 0.0;
	for (size_t i = 0; i < slices->n; i++) {
		slices->items[i].from_frac = from;
		from += slices->items[i].volume_frac;
		slices->items[i].to_frac = from;
	}
	return status;
}
