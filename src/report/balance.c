/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The balance of a run: what went in, what came out, what is missing. */
#include "report/balance.h"

#include <math.h>
#include <stdio.h>

#include "report/json.h"
#include "report/page.h"
#include "report/store.h"

static void mass_words(double kg, char words[32])
{
	if (isnan(kg))
		snprintf(words, 32, "-");
	else if (fabs(kg) < 1.0)
		snprintf(words, 32, "%.3g g", 1000.0 * kg);
	else
		snprintf(words, 32, "%.4g kg", kg);
}

static void pct_words(double pct, char words[32])
{
	if (isnan(pct))
		snprintf(words, 32, "-");
	else
		snprintf(words, 32, "%.1f %%", pct);
}

/* "  oil           9.1 L    7.34 kg   61.2 %  more" */
static void line(
	struct bc_page *page, const char *name, double ml, double kg, double pct, const char *more)
{
	char volume[BC_VOLUME_WORDS_SIZE] = "";
	char mass[32];
	char share[32];
	if (isnan(ml) && isnan(kg))
		return;
	if (!isnan(ml))
		bc_volume_words(ml, volume);
	mass_words(kg, mass);
	pct_words(pct, share);
	bc_page_printf(page, "  %-10s %10s  %10s  %8s%s%s\n", name, volume, mass, share,
		more[0] != '\0' ? "  " : "", more);
}

static bool of_sample(const struct bc_balance *balance, enum bc_amount_kind kind)
{
	for (size_t i = 0; i < balance->n; i++) {
		if (balance->items[i].kind == kind && balance->items[i].of_sample)
			return true;
	}
	return false;
}

static void amount(struct bc_page *page, const struct bc_balance *balance, enum bc_amount_kind kind,
	double pct, const char *more)
{
	line(page, bc_amount_names[kind], balance->ml[kind], balance->kg[kind], pct,
		of_sample(balance, kind) ? "as the sample says" : more);
}

static void resins(struct bc_page *page, const struct bc_balance *balance)
{
	for (size_t i = 0; i < balance->n; i++) {
		const struct bc_balance_amount *item = &balance->items[i];
		char mass[32];
		char share[32];
		if (item->kind != BC_AMOUNT_PLASTIC || item->resin[0] == '\0')
			continue;
		mass_words(item->value, mass);
		pct_words(100.0 * item->value / balance->kg[BC_AMOUNT_PLASTIC], share);
		bc_page_printf(page, "  %-10s %10s  %10s  %8s  ", "", "", mass, share);
		bc_page_cell(page, item->resin, 0);
		bc_page_printf(page, "\n");
	}
}

static void the_run(struct bc_page *page, const struct bc_balance *balance)
{
	bc_page_heading(page, "The run", "% of the plastic by mass");
	amount(page, balance, BC_AMOUNT_PLASTIC, (double)NAN, "in");
	resins(page, balance);
	amount(page, balance, BC_AMOUNT_OIL, balance->oil_pct, "");
	amount(page, balance, BC_AMOUNT_GAS, balance->gas_pct, "");
	amount(page, balance, BC_AMOUNT_CHAR, balance->char_pct, "");
	line(page, "missing", (double)NAN, balance->missing_kg, balance->missing_pct,
		isnan(balance->kg[BC_AMOUNT_GAS]) ? "gas, which was not weighed, and losses"
						  : "losses");
}

static void the_rerun(struct bc_page *page, const struct bc_balance *balance)
{
	char more[64] = "";
	if (isnan(balance->kg[BC_AMOUNT_PRODUCT]) && isnan(balance->kg[BC_AMOUNT_LIGHT]) &&
		isnan(balance->kg[BC_AMOUNT_TAIL]) && isnan(balance->ml[BC_AMOUNT_PRODUCT]) &&
		isnan(balance->ml[BC_AMOUNT_LIGHT]) && isnan(balance->ml[BC_AMOUNT_TAIL]))
		return;
	if (!isnan(balance->product_plastic_pct))
		snprintf(more, sizeof more, "%.1f %% of the plastic by mass",
			balance->product_plastic_pct);
	bc_page_heading(page, "The re-run", "% of the oil by volume");
	amount(page, balance, BC_AMOUNT_LIGHT, balance->light_pct, "");
	amount(page, balance, BC_AMOUNT_PRODUCT, balance->product_pct, more);
	amount(page, balance, BC_AMOUNT_TAIL, balance->tail_pct, "back to the retort");
	line(page, "rest", balance->rerun_rest_ml,
		balance->rerun_rest_ml * balance->density_kgm3 * 1e-6,
		100.0 * balance->rerun_rest_ml / balance->ml[BC_AMOUNT_OIL],
		"what stays in the pot, and losses");
}

static void heat(struct bc_page *page, const struct bc_balance *balance)
{
	if (isnan(balance->heat_mj))
		return;
	bc_page_printf(page, "\nHeat spent: %.4g MJ", balance->heat_mj);
	if (!isnan(balance->heat_mjkg))
		bc_page_printf(page, ", %.3g MJ a kg of plastic", balance->heat_mjkg);
	if (!isnan(balance->heat_share_pct))
		bc_page_printf(page, ", %.3g %% of the heat in the %s", balance->heat_share_pct,
			isnan(balance->kg[BC_AMOUNT_PRODUCT]) ? "oil" : "product");
	bc_page_printf(page, ".\n");
}

/* Balances are never exact; a hundredth is the error of a kitchen scale and a measuring jug. */
static bool beyond(double rest, double whole) { return rest < -0.01 * whole; }

static void doubts(struct bc_page *page, const struct bc_balance *balance)
{
	double oil_ml = balance->ml[BC_AMOUNT_OIL];
	char volume[BC_VOLUME_WORDS_SIZE];
	struct bc_strings said;
	bc_strings_init(&said);
	if (balance->n == 0)
		bc_strings_add(&said, "Nothing is written down of this run yet.");
	if (beyond(balance->missing_kg, balance->kg[BC_AMOUNT_PLASTIC]))
		bc_strings_add(&said, "More came out than went in, by %.3g kg: weigh again.",
			-balance->missing_kg);
	if (beyond(balance->rerun_rest_ml, oil_ml))
		bc_strings_add(&said, "The jars of the re-run hold more than the oil, by %s.",
			bc_volume_words(-balance->rerun_rest_ml, volume));
	if (isnan(balance->density_kgm3) && balance->n > 0)
		bc_strings_add(&said,
			"The density of the oil is not known: litres and kilograms do "
			"not go together.");
	if (beyond(fmax(oil_ml, balance->ml[BC_AMOUNT_PRODUCT]) - balance->in_jars_ml, oil_ml))
		bc_strings_add(&said, "More of this batch went into jars than there was.");
	if (balance->in_jars_ml > 0.0)
		bc_strings_add(&said, "%s of this batch went into jars.",
			bc_volume_words(balance->in_jars_ml, volume));
	if (said.n > 0)
		bc_page_printf(page, "\n");
	for (size_t i = 0; i < said.n; i++)
		bc_page_paragraph(page, said.items[i], NULL, 0);
	page->text->failed = page->text->failed || said.failed;
	bc_strings_release(&said);
}

enum bc_status bc_report_balance(const struct bc_balance *balance, struct bc_text *text)
{
	const struct bc_page_style plain = {0};
	struct bc_page page = {.text = text, .style = &plain};
	bc_page_printf(&page, "Balance of batch %lld\n", balance->batch);
	if (balance->n > 0) {
		the_run(&page, balance);
		the_rerun(&page, balance);
		heat(&page, balance);
	}
	doubts(&page, balance);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}

static json_t *amounts_json(const struct bc_balance *balance, bool *failed)
{
	json_t *array = json_array();
	for (size_t i = 0; i < balance->n; i++) {
		const struct bc_balance_amount *item = &balance->items[i];
		json_t *object = json_object();
		bc_json_put(failed, object, "what", bc_json_text(bc_amount_names[item->kind]));
		bc_json_put(failed, object, "resin",
			bc_json_text(item->resin[0] != '\0' ? item->resin : NULL));
		bc_json_put(failed, object, "value", bc_json_number(item->value));
		bc_json_put(failed, object, "unit", bc_json_text(bc_amount_units[item->unit]));
		bc_json_put(failed, object, "of_sample", json_boolean(item->of_sample));
		bc_json_append(failed, array, object);
	}
	return array;
}

json_t *bc_report_balance_json(const struct bc_balance *balance)
{
	bool failed = false;
	json_t *object = json_object();
	json_t *kg = json_object();
	json_t *ml = json_object();
	for (int kind = 0; kind < BC_AMOUNTS; kind++) {
		if (kind == BC_AMOUNT_HEAT)
			continue;
		bc_json_put(&failed, kg, bc_amount_names[kind], bc_json_number(balance->kg[kind]));
		bc_json_put(&failed, ml, bc_amount_names[kind], bc_json_number(balance->ml[kind]));
	}
	const struct {
		const char *key;
		double value;
	} numbers[] = {
		{"missing_kg", balance->missing_kg},
		{"rest_ml", balance->rerun_rest_ml},
		{"oil_pct", balance->oil_pct},
		{"gas_pct", balance->gas_pct},
		{"char_pct", balance->char_pct},
		{"missing_pct", balance->missing_pct},
		{"light_pct", balance->light_pct},
		{"product_pct", balance->product_pct},
		{"tail_pct", balance->tail_pct},
		{"product_plastic_pct", balance->product_plastic_pct},
		{"heat_mj", balance->heat_mj},
		{"heat_mjkg", balance->heat_mjkg},
		{"heat_share_pct", balance->heat_share_pct},
		{"density15_kgm3", balance->density_kgm3},
		{"in_jars_ml", balance->in_jars_ml},
	};
	bc_json_put(&failed, object, "batch", json_integer(balance->batch));
	bc_json_put(&failed, object, "amounts", amounts_json(balance, &failed));
	bc_json_put(&failed, object, "kg", kg);
	bc_json_put(&failed, object, "ml", ml);
	for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
		bc_json_put(&failed, object, numbers[i].key, bc_json_number(numbers[i].value));
	return bc_json_whole(failed, object);
}
