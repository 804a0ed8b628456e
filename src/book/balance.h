/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_BOOK_BALANCE_H
#define BC_BOOK_BALANCE_H

#include <stdbool.h>
#include <stddef.h>

#include "book/book.h"

/*
 * The balance of the run that made a batch. The run: plastic in, oil, gas and char out. The re-run
 * of that oil: light, product and tail, which goes back to the retort. Heat is what both took.
 */
enum bc_amount_kind {
	BC_AMOUNT_PLASTIC, /* kg, of one resin */
	BC_AMOUNT_OIL,     /* kg or mL, as all liquids */
	BC_AMOUNT_GAS,     /* kg */
	BC_AMOUNT_CHAR,    /* kg */
	BC_AMOUNT_LIGHT,
	BC_AMOUNT_PRODUCT,
	BC_AMOUNT_TAIL,
	BC_AMOUNT_HEAT, /* MJ */
	BC_AMOUNTS
};
extern const char *const bc_amount_names[BC_AMOUNTS]; /* "plastic", "oil", ... */

enum bc_amount_unit { BC_AMOUNT_KG, BC_AMOUNT_ML, BC_AMOUNT_MJ };
extern const char *const bc_amount_units[]; /* "kg", "mL", "MJ" */

#define BC_RESIN_SIZE 33
struct bc_balance_amount {
	enum bc_amount_kind kind;
	char resin[BC_RESIN_SIZE]; /* of plastic; "" is not said */
	double value;
	enum bc_amount_unit unit;
	bool of_sample; /* not written down here: from the keys of the sample */
};

struct bc_balance {
	long long batch;
	struct bc_balance_amount *items;
	size_t n;
	size_t capacity;
	double density_kgm3;   /* of the oil, 15 degC; NaN: not known */
	double net_heat_mjkg;  /* of the oil; NaN: not known */
	double in_jars_ml;     /* of the batch, poured into jars in all */
	double kg[BC_AMOUNTS]; /* of each kind; NaN: not written down, or mL of an unknown density
				*/
	double ml[BC_AMOUNTS]; /* of liquids, the same */
	double heat_mj;        /* NaN: not written down */
	double out_kg;         /* oil, gas and char; NaN unless plastic and oil are known */
	double missing_kg;     /* plastic less out; below 0: more came out than went in */
	double rerun_rest_ml;  /* oil less light, product and tail; NaN unless product and oil are
				  known */
	double oil_pct;        /* of the plastic by mass, as gas and char */
	double gas_pct;
	double char_pct;
	double missing_pct;
	double product_pct; /* of the oil by volume, as light and tail */
	double light_pct;
	double tail_pct;
	double product_plastic_pct; /* of the plastic by mass */
	double heat_mjkg;           /* of plastic */
	double heat_share_pct; /* heat spent, of the net heat in the product, else in the oil */
};

/*
 * bc_balance_add  - writes amounts down, all or none
 * bc_balance_read - what is written down of a batch, and what follows from it
 *
 * Given     items  value >= 0; plastic, gas, char [kg], heat [MJ], liquids [kg] or [mL]; a resin
 * with plastic alone Returned  *balance, to be released whatever the status Status    BC_NOT_FOUND
 * no such batch; BC_IO, BC_MALFORMED, BC_NO_MEMORY Notes     1. of one kind (and resin) the last
 * one counts: a mistake is mended by writing it down again, 0 takes it out
 *           2. what is not written down is taken from the keys 'plastic in', 'oil out' and 'char'
 * of the sample
 *           3. mass and volume of liquids by the density of the batch's newest record, which is
 * that of the oil; it is taken for light, product and tail too
 */
enum bc_status bc_balance_add(
	struct bc_book *book, long long batch, const struct bc_balance_amount *items, size_t n);
enum bc_status bc_balance_read(struct bc_book *book, long long batch, struct bc_balance *balance);
void bc_balance_release(struct bc_balance *balance);

#endif
