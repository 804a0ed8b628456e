/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The blank sheet: a sample file to fill in, its keys and hints from the table of keys. */
#include "sample/keys.h"
#include "sample/sample.h"

/* Common practice: the percents at which a boil-off of 100 mL is read. */
static const char rows[] = "IBP,\n5,\n10,\n20,\n30,\n40,\n50,\n60,\n70,\n80,\n90,\n95,\nFBP,\n";

enum bc_status bc_sample_template(struct bc_text *text)
{
	bc_text_append(text,
		"# A boil-off, one file for one jar. Lines that start with # are for you alone.\n"
		"# Write the value behind the comma, with its unit; leave empty what you do not "
		"know.\n"
		"\n");
	for (size_t i = 0; i < bc_n_keys; i++) {
		if (bc_keys[i].hint == NULL)
			continue;
		bc_text_printf(text, "# %s\n%s,\n", bc_keys[i].hint, bc_keys[i].name);
	}
	bc_text_append(text,
		"\n"
		"# The thermometer as it reads when so much is in the receiver; IBP is the first "
		"drop.\n"
		"# Rows left empty are skipped, others may be added. Fahrenheit: write head (F).\n"
		"recovered (%),head (C)\n");
	bc_text_append(text, rows);
	return text->failed ? BC_NO_MEMORY : BC_OK;
}
