/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hazard classes from the low bound of the flash point; petrol's where nothing can be claimed. */
#include "verdict/hazard.h"

#include <math.h>
#include <string.h>

#include "base/memory.h"

/* Below it a liquid is as easily lit as petrol: GHS category 2, flash < 23 degC. */
#define PETROL_LIKE_C 23.0
/* Category 1 and class 3 PG I: boiling starts at 35 degC or below (GHS); an IBP of a home boil-off
 * is trusted to 10 degC (common practice). */
#define FRONT_C (35.0 + 10.0)

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const struct flash_class {
	const char *scheme;
	const char *name;
	double from_c;
	const char *from_open;
	double to_c;
	const char *to_open;
	const char *front; /* class of a like liquid that boils from 35 degC or below, or "-" */
	const char *edition;
	const char *judged; /* no: a scheme of one country, or a rule for a named fuel; not told */
	const char *seen;
	const char *message;
} classes[] = {
#include "hazard-classes.inc"
};

static bool holds(const struct flash_class *class, double flash_c)
{
	if (flash_c < class->from_c || flash_c > class->to_c)
		return false;
	if (flash_c == class->from_c && strcmp(class->from_open, "yes") == 0)
		return false;
	return !(flash_c == class->to_c && strcmp(class->to_open, "yes") == 0);
}

static bool has_front(const struct flash_class *class) { return strcmp(class->front, "-") != 0; }

/* Gas that left before the first drop, or a front that was not read, leaves the start open. */
static bool front_open(
	const struct bc_oil *oil, const struct bc_boiloff *boiloff, enum bc_history history)
{
	if (!oil->flash_claim || history == BC_HISTORY_RETORT || history == BC_HISTORY_UNKNOWN)
		return true;
	return boiloff == NULL || !(boiloff->ibp_c > FRONT_C);
}

static enum bc_status add(
	struct bc_hazards *hazards, const struct flash_class *class, char *from, bool open)
{
	const char *memory = strcmp(class->seen, "memory") == 0 ? "; from memory" : "";
	open = open && has_front(class);
	char *message = open ? bc_format("%s (%s%s); %s cannot be excluded", class->message,
				       class->edition, memory, class->front)
			     : bc_format("%s (%s%s)", class->message, class->edition, memory);
	if (from == NULL || message == NULL) {
		bc_free(from);
		bc_free(message);
		return BC_NO_MEMORY;
	}
	hazards->items[hazards->n++] =
		(struct bc_hazard){class->scheme, class->name, from, message, open};
	return BC_OK;
}

static char *basis(const struct bc_oil *oil, bool claim)
{
	const struct bc_estimate *flash = &oil->property[BC_FLASH];
	if (claim)
		return bc_format("flash, low bound %.1f degC, %s", flash->low,
			flash->how == BC_MEASURED ? "measured" : "estimated");
	if (oil->no_claim_why != NULL)
		return bc_format("no claim on the flash: %s", oil->no_claim_why);
	return bc_format("no claim on the flash");
}

enum bc_status bc_hazards_classify(const struct bc_oil *oil, const struct bc_boiloff *boiloff,
	enum bc_history history, struct bc_hazards *hazards)
{
	*hazards = (struct bc_hazards){0};
	double low_c = oil->property[BC_FLASH].low;
	bool claim = oil->flash_claim && isfinite(low_c);
	bool open = front_open(oil, boiloff, history);
	hazards->at_site =
		claim && !(low_c < PETROL_LIKE_C) && oil->flash_low_at_site_c < PETROL_LIKE_C;
	hazards->petrol_like = !claim || low_c < PETROL_LIKE_C || hazards->at_site;
	enum bc_status status = BC_OK;
	for (size_t i = 0; i < COUNT(classes) && status == BC_OK; i++) {
		const struct flash_class *class = &classes[i];
		if (strcmp(class->judged, "yes") != 0)
			continue;
		bool chosen = claim ? holds(class, low_c) : has_front(class);
		if (chosen && hazards->n < BC_HAZARDS_MAX)
			status = add(hazards, class, basis(oil, claim), open);
	}
	if (status != BC_OK)
		bc_hazards_release(hazards);
	return status;
}

void bc_hazards_release(struct bc_hazards *hazards)
{
	if (hazards == NULL)
		return;
	for (size_t i = 0; i < hazards->n; i++) {
		bc_free(hazards->items[i].from);
		bc_free(hazards->items[i].message);
	}
	*hazards = (struct bc_hazards){0};
}
