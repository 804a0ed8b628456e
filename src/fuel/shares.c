/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The charge divided by boiling range: a partition at fixed cuts, and the published ranges. */
#include "fuel/shares.h"

#include <math.h>
#include <stdbool.h>

const char *const bc_share_keys[BC_SHARES] = {
	[BC_SHARE_LIGHT_END] = "light_end_pct",
	[BC_SHARE_GASOLINE] = "gasoline_pct",
	[BC_SHARE_KEROSENE] = "kerosene_pct",
	[BC_SHARE_DIESEL] = "diesel_pct",
	[BC_SHARE_HEAVY] = "heavy_pct",
	[BC_SHARE_RESIDUE] = "residue_pct",
	[BC_SHARE_LOST] = "lost_pct",
};

const char *const bc_share_names[BC_SHARES] = {
	[BC_SHARE_LIGHT_END] = "light end, below 35 degC",
	[BC_SHARE_GASOLINE] = "gasoline range, 35 to 180 degC",
	[BC_SHARE_KEROSENE] = "kerosene range, 180 to 240 degC",
	[BC_SHARE_DIESEL] = "diesel range, 240 to 350 degC",
	[BC_SHARE_HEAVY] = "heavy, above 350 degC or unread",
	[BC_SHARE_RESIDUE] = "residue in the flask",
	[BC_SHARE_LOST] = "lost as vapour",
};

/* Header, note 1. */
const double bc_share_cut_c[BC_SHARE_CUTS] = {35.0, 180.0, 240.0, 350.0};

/* A loss that was not measured is up to 3 mL of 100: safety of the boil-off, common practice. */
static const double unmeasured_loss_pct = 3.0;

static struct bc_estimate between(double value, double low, double high)
{
	return (struct bc_estimate){value, fmin(low, value), fmax(high, value), BC_ESTIMATED};
}

/* Percent recovered at a cut, by notes 2 and 3 of the header. */
static struct bc_estimate recovered_at(const struct bc_reader *reader, double temp_c)
{
	double first_pct = bc_curve_first_pct(reader->curve);
	double last_pct = bc_curve_last_pct(reader->curve);
	double end_pct = fmax(reader->boiloff->end_pct, last_pct);
	if (temp_c > bc_curve_temp_c(reader->curve, last_pct))
		return between(last_pct, last_pct, end_pct);
	struct bc_estimate recovered = bc_reader_recovered_pct(reader, temp_c);
	if (bc_estimate_present(&recovered))
		return between(fmin(recovered.value, end_pct), fmax(recovered.low, 0.0),
			fmin(recovered.high, end_pct));
	return between(0.5 * first_pct, 0.0, first_pct);
}

static void fill_rest(const struct bc_boiloff *boiloff, double unread_pct, struct bc_shares *shares)
{
	double residue = boiloff->residue_known ? fmax(boiloff->residue_pct, 0.0) : 0.0;
	double lost = fmax(boiloff->loss_pct, 0.0);
	shares->pct[BC_SHARE_RESIDUE] =
		between(residue, residue, boiloff->residue_known ? residue : unread_pct);
	shares->pct[BC_SHARE_LOST] =
		between(lost, lost, boiloff->loss_known ? lost : unmeasured_loss_pct);
}

/* Values are brought to 100 exactly through the widest share. */
static void settle_sum(struct bc_shares *shares)
{
	double sum = 0.0;
	size_t widest = 0;
	for (size_t i = 0; i < BC_SHARES; i++) {
		sum += shares->pct[i].value;
		if (shares->pct[i].value > shares->pct[widest].value)
			widest = i;
	}
	shares->pct[widest].value += 100.0 - sum;
	for (size_t i = 0; i < BC_SHARES; i++) {
		struct bc_estimate *share = &shares->pct[i];
		share->value = fmax(share->value, 0.0);
		share->low = fmin(fmax(share->low, 0.0), share->value);
		share->high = fmax(fmin(share->high, 100.0), share->value);
	}
}

void bc_shares_read(const struct bc_reader *reader, struct bc_shares *shares)
{
	const struct bc_boiloff *boiloff = reader->boiloff;
	double last_pct = bc_curve_last_pct(reader->curve);
	fill_rest(boiloff, 100.0 - last_pct, shares);
	double rest = shares->pct[BC_SHARE_RESIDUE].value + shares->pct[BC_SHARE_LOST].value;
	double distillate = fmax(100.0 - rest, 0.0);

	struct bc_estimate below = between(0.0, 0.0, 0.0);
	for (size_t i = 0; i < BC_SHARE_CUTS; i++) {
		struct bc_estimate above = recovered_at(reader, bc_share_cut_c[i]);
		above.value = fmin(fmax(above.value, below.value), distillate);
		shares->pct[i] = between(
			above.value - below.value, above.low - below.high, above.high - below.low);
		below = above;
	}
	/* a residue or loss that nobody measured may be part of what counts as heavy */
	double apart = boiloff->residue_known ? 0.0 : 100.0 - last_pct;
	shares->pct[BC_SHARE_HEAVY] = between(distillate - below.value,
		distillate - below.high - apart, 100.0 - rest - below.low);
	settle_sum(shares);
}

void bc_shares_part(const double over_pct[BC_SHARE_CUTS], double first_pct, double residue_pct,
	double lost_pct, double pct[BC_SHARES])
{
	double distillate = fmax(100.0 - residue_pct - lost_pct, 0.0);
	double below = 0.0;
	for (size_t i = 0; i < BC_SHARE_CUTS; i++) {
		double over = isnan(over_pct[i]) ? 0.5 * first_pct : over_pct[i];
		over = fmin(fmax(over, below), distillate);
		pct[i] = over - below;
		below = over;
	}
	pct[BC_SHARE_HEAVY] = distillate - below;
	pct[BC_SHARE_RESIDUE] = residue_pct;
	pct[BC_SHARE_LOST] = lost_pct;
}

static const struct {
	const char *name;
	double from_c;
	double to_c;
	const char *source;
	const char *trust;
} published[] = {
#include "published-ranges.inc"
};

const size_t bc_published_range_count = sizeof published / sizeof published[0];

void bc_published_share_read(
	const struct bc_reader *reader, size_t i, struct bc_published_share *share)
{
	double last_c = bc_curve_temp_c(reader->curve, bc_curve_last_pct(reader->curve));
	bool read = !isnan(reader->boiloff->fbp_c) || published[i].to_c <= last_c;
	struct bc_estimate from = bc_reader_recovered_pct(reader, published[i].from_c);
	struct bc_estimate to = bc_reader_recovered_pct(reader, published[i].to_c);
	share->name = published[i].name;
	share->source = published[i].source;
	share->from_c = published[i].from_c;
	share->to_c = published[i].to_c;
	share->share_pct = NAN;
	if (read)
		share->share_pct = to.value - from.value; /* NaN where either is absent */
}
