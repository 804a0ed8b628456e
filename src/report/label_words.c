/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentences of a label that depend on what a laboratory has measured. */
#include "report/label_words.h"

#include <string.h>

#include "report/html.h"
#include "report/page.h"

#define PROPERTIES_MAX 4

/* What is asked of any fuel, and the measured properties that answer it. */
static const struct {
	const char *name;
	const char *properties[PROPERTIES_MAX];
} tests[] = {
	{"dissolved gas", {NULL}},
	{"water", {"water", "water_and_sediment"}},
	{"sulphur", {"sulphur"}},
	{"chlorine", {"chlorine"}},
	{"benzene", {"benzene"}},
	{"gum", {"existent_gum"}},
	{"stability", {"oxidation_stability", "induction_period"}},
	{"acidity", {"acid_number"}},
	{"lubricity", {"lubricity_wsd"}},
	{"cold flow", {"CFPP", "cloud_point", "pour_point", "freezing_point"}},
};
enum { TESTS = sizeof tests / sizeof tests[0] };

static const struct bc_measured *answer(const struct bc_sample *sample, size_t test)
{
	const struct bc_measured *found = NULL;
	for (size_t i = 0; i < PROPERTIES_MAX && tests[test].properties[i] != NULL; i++) {
		if (found == NULL)
			found = bc_sample_measured(sample, tests[test].properties[i]);
	}
	return found;
}

static void figure(const struct bc_measured *measured, struct bc_text *line)
{
	const char *unit = bc_measured_unit(measured);
	bc_text_printf(line, " %.4g%s%s", measured->value, unit[0] != '\0' ? " " : "", unit);
}

void bc_label_benzene(const struct bc_sample *sample, struct bc_text *line)
{
	const struct bc_measured *benzene = bc_sample_measured(sample, "benzene");
	bc_text_append(line, "benzene");
	if (benzene == NULL) {
		bc_text_append(line, " was not tested, take it to be there");
		return;
	}
	figure(benzene, line);
	bc_text_append(line, " measured");
}

void bc_label_tests(const struct bc_sample *sample, bool figures, struct bc_text *line)
{
	size_t n = 0;
	for (size_t i = 0; i < TESTS && figures; i++) {
		const struct bc_measured *measured = answer(sample, i);
		if (measured == NULL)
			continue;
		bc_text_printf(line, "%s%s", n++ > 0 ? ", " : "Measured: ", tests[i].name);
		figure(measured, line);
	}
	bc_text_append(line, n > 0 ? ". " : "");
	n = 0;
	for (size_t i = 0; i < TESTS; i++) {
		if (answer(sample, i) == NULL)
			bc_text_printf(
				line, "%s%s", n++ > 0 ? ", " : "Not tested: ", tests[i].name);
	}
	bc_text_append(line, n > 0 ? "." : "");
}

void bc_label_danger(const struct bc_finding *finding, struct bc_text *line)
{
	const size_t most = 70;
	static const char *const ends[] = {" (", ". ", "; "};
	struct bc_text message;
	size_t n = strlen(finding->message);
	const char *colon = strchr(finding->message, ':');
	const char *comma = colon != NULL ? strstr(colon, ", ") : NULL;
	if (comma != NULL)
		n = (size_t)(comma - finding->message);
	for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
		const char *end = strstr(finding->message, ends[i]);
		if (end != NULL && (size_t)(end - finding->message) < n)
			n = (size_t)(end - finding->message);
	}
	bc_text_init(&message);
	bc_text_append_n(&message, finding->message, n);
	bc_html_cut(line, message.data != NULL ? message.data : "", most);
	bc_text_append(line, n < most ? "." : "");
	line->failed = line->failed || message.failed;
	bc_text_release(&message);
}
