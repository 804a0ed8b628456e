/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_INPUTS_H
#define BC_COMMAND_INPUTS_H

#include "base/strings.h"
#include "command/arguments.h"

/* The paths of a command line: its operands, then the lines of --files-from. */
int bc_inputs_collect(const struct bc_arguments *arguments, struct bc_strings *paths);

#endif
