/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "command/arguments.h"
const struct bc_command bc_card_command = {.name = "card"};
