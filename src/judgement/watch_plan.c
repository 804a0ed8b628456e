/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan of a re-run beside the run itself: how far to the next turn of the tap, and what the jars
 * that remain will hold. */
#include "judgement/watch_plan.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SHIFTS = 3 };

void bc_watch_plan_restart(struct bc_watch_plan *plan)
{
	plan->jar = 0;
	plan->warned = false;
	plan->shift_c = NAN;
	plan->n_shifts = 0;
	for (size_t i = 0; i < BC_JARS_MAX; i++)
		plan->turned[i] = NAN;
}

/* Jars hold less than has come over the head: what wets the condenser and the lines. */
void bc_watch_plan_curve(const struct bc_tapping *tapping, struct bc_watch_plan *plan)
{
	double held = tapping->request.still.carry_pct / 100.0;
	plan->n_nodes = 0;
	for (size_t i = 0; i < tapping->n_nodes; i++) {
		const struct bc_tap_node *node = &tapping->nodes[i];
		if (!isfinite(node->over_pct) || !isfinite(node->head_reading_c))
			continue;
		plan->over_frac[plan->n_nodes] = fmax(node->over_pct / 100.0 - held, 0.0);
		plan->reading_c[plan->n_nodes++] = node->head_reading_c;
	}
}

bool bc_watch_plan_from_tapping(const struct bc_tapping *tapping, struct bc_watch_plan *plan)
{
	*plan = (struct bc_watch_plan){.charge_ml = tapping->request.charge_ml,
		.pot_limit_c = tapping->pot_limit_c,
		.near_c = BC_PLAN_NEAR_C,
		.near_frac = BC_PLAN_NEAR_FRAC};
	for (size_t i = 0; i < tapping->n_jars; i++) {
		const struct bc_jar *jar = &tapping->jars[i];
		if (jar->empty)
			continue;
		struct bc_plan_jar *kept = &plan->jars[plan->n_jars++];
		snprintf(kept->name, sizeof kept->name, "%s", jar->name);
		kept->light = strcmp(jar->name, "light") == 0;
		kept->until_reading_c = jar->takes_pot ? (double)NAN : jar->to_reading_c;
		kept->until_frac = jar->over_ml / plan->charge_ml;
	}
	bc_watch_plan_curve(tapping, plan);
	bc_watch_plan_restart(plan);
	return plan->n_jars > 0;
}

/* ---- the curve */

double bc_watch_plan_head_c(const struct bc_watch_plan *plan, double over_frac)
{
	double shift = isnan(plan->shift_c) ? 0.0 : plan->shift_c;
	for (size_t i = 0; i + 1 < plan->n_nodes; i++) {
		double from = plan->over_frac[i];
		double to = plan->over_frac[i + 1];
		if (!(over_frac >= from && over_frac <= to) || !(to > from))
			continue;
		double share = (over_frac - from) / (to - from);
		return plan->reading_c[i] + share * (plan->reading_c[i + 1] - plan->reading_c[i]) +
		       shift;
	}
	return NAN;
}

double bc_watch_plan_expected_frac(const struct bc_watch_plan *plan, size_t jar)
{
	double shift = isnan(plan->shift_c) ? 0.0 : plan->shift_c;
	double head = plan->jars[jar].until_reading_c - shift;
	if (isnan(head) || plan->n_nodes == 0)
		return plan->jars[jar].until_frac;
	if (head <= plan->reading_c[0])
		return plan->over_frac[0];
	for (size_t i = 0; i + 1 < plan->n_nodes; i++) {
		double from = plan->reading_c[i];
		double to = plan->reading_c[i + 1];
		if (!(head > from && head <= to))
			continue;
		return plan->over_frac[i] +
		       (head - from) / (to - from) * (plan->over_frac[i + 1] - plan->over_frac[i]);
	}
	return plan->over_frac[plan->n_nodes - 1];
}

static void take_shift(struct bc_watch_plan *plan, double over_frac, double head_c)
{
	plan->shift_c = 0.0;
	double planned = bc_watch_plan_head_c(plan, over_frac);
	if (isfinite(planned))
		plan->shifts[plan->n_shifts++ % SHIFTS] = head_c - planned;
	size_t n = plan->n_shifts < SHIFTS ? plan->n_shifts : SHIFTS;
	double sum = 0.0;
	for (size_t i = 0; i < n; i++)
		sum += plan->shifts[i];
	plan->shift_c = n > 0 ? sum / (double)n : (double)NAN;
}

/* ---- the words */

static void amount(double ml, struct bc_text *text)
{
	if (ml >= 10000.0)
		bc_text_printf(text, "%.1f L", ml / 1000.0);
	else if (ml >= 1000.0)
		bc_text_printf(text, "%.2f L", ml / 1000.0);
	else
		bc_text_printf(text, "%.0f mL", ml);
}

static const char *after(const struct bc_watch_plan *plan, size_t jar)
{
	return jar + 1 < plan->n_jars ? plan->jars[jar + 1].name : NULL;
}

static void turn_words(const struct bc_watch_plan *plan, size_t jar, struct bc_text *text)
{
	if (after(plan, jar) != NULL)
		bc_text_printf(text, "turn the tap to the %s jar", after(plan, jar));
	else
		bc_text_append(text, "heat off");
}

struct left {
	double c;
	double frac;
};

static struct left left_of(const struct bc_watch_plan *plan, double over_frac, double head_c)
{
	const struct bc_plan_jar *jar = &plan->jars[plan->jar];
	return (struct left){jar->until_reading_c - head_c, jar->until_frac - over_frac};
}

static bool is_full(const struct bc_watch_plan *plan, struct left left, double pot_c)
{
	bool volume = left.frac <= 0.0;
	bool head = isnan(left.c) ? volume : left.c <= 0.0;
	bool pot = pot_c >= plan->pot_limit_c;
	return plan->jars[plan->jar].light ? volume && head : volume || head || pot;
}

static bool is_near(const struct bc_watch_plan *plan, struct left left)
{
	bool volume = left.frac <= plan->near_frac;
	bool head = isnan(left.c) ? volume : left.c <= plan->near_c;
	return plan->jars[plan->jar].light ? volume && head : volume || head;
}

static void countdown(const struct bc_watch_plan *plan, struct left left, struct bc_text *said)
{
	const struct bc_plan_jar *jar = &plan->jars[plan->jar];
	bc_text_printf(said, "tap: %s jar; ", jar->name);
	if (after(plan, plan->jar) != NULL)
		bc_text_printf(said, "%s jar at ", after(plan, plan->jar));
	else
		bc_text_append(said, "heat off at ");
	if (!isnan(jar->until_reading_c))
		bc_text_printf(said, "%.1f degC (%+.1f) %s ", jar->until_reading_c, left.c,
			jar->light ? "and" : "or");
	amount(jar->until_frac * plan->charge_ml, said);
	if (left.frac >= 0.0) {
		bc_text_append(said, " (");
		amount(left.frac * plan->charge_ml, said);
		bc_text_append(said, " to go)\n");
	} else {
		bc_text_append(said, " (are over)\n");
	}
}

/* Where each jar begins and ends: as it was up to the tap, as it is expected behind. */
static void remaining(const struct bc_watch_plan *plan, double over_frac, struct bc_text *said)
{
	double from = 0.0;
	bc_text_append(said, "jars now:");
	for (size_t i = 0; i < plan->n_jars; i++) {
		double to = plan->turned[i];
		if (isnan(to))
			to = fmax(fmax(bc_watch_plan_expected_frac(plan, i), over_frac), from);
		bc_text_printf(said, "%s %s ", i > 0 ? "," : "", plan->jars[i].name);
		amount((to - from) * plan->charge_ml, said);
		from = to;
	}
	if (!isnan(plan->shift_c))
		bc_text_printf(said, "; the head runs %.1f degC %s the plan", fabs(plan->shift_c),
			plan->shift_c < 0.0 ? "below" : "above");
	bc_text_append(said, "\n");
}

void bc_watch_plan_reading(struct bc_watch_plan *plan, double over_frac, double head_c,
	double pot_c, struct bc_text *said, struct bc_text *alarms)
{
	take_shift(plan, over_frac, head_c);
	while (plan->jar < plan->n_jars && is_full(plan, left_of(plan, over_frac, head_c), pot_c)) {
		bc_text_append(alarms, "now: ");
		turn_words(plan, plan->jar, alarms);
		bc_text_append(alarms, "\n");
		plan->turned[plan->jar++] = over_frac;
		plan->warned = false;
	}
	if (plan->jar == plan->n_jars) {
		bc_text_append(
			said, "tap: all jars of the plan are full; the heat should be off\n");
		return;
	}
	struct left left = left_of(plan, over_frac, head_c);
	if (!plan->warned && is_near(plan, left)) {
		plan->warned = true;
		bc_text_append(alarms, "soon: ");
		turn_words(plan, plan->jar, alarms);
		bc_text_append(alarms, "\n");
	}
	countdown(plan, left, said);
	remaining(plan, over_frac, said);
}
