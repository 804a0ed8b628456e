/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_REPORT_BALANCE_H
#define BC_REPORT_BALANCE_H

#include <jansson.h>

#include "base/text.h"
#include "book/balance.h"

/* The balance of a run for a person, 80 columns, and as JSON. */
enum bc_status bc_report_balance(const struct bc_balance *balance, struct bc_text *text);
json_t *bc_report_balance_json(const struct bc_balance *balance);

#endif
