/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where record and oil contradict each other, and what a level stretch may be: each finding by its
 * own fault, its names only on evidence. */
#include "oil_of.h"

#define HEAD "history,rerun\nthermometer,probe\nbarometer,101.3 kPa\n"
#define TABLE "\nrecovered (%),head (C)\n"
#define DIESEL                                                                                     \
	"IBP,177\n5,193\n10,203\n20,218\n30,231\n40,243\n50,254\n60,266\n70,279\n80,295\n90,318\n" \
	"95,337\nFBP,353\n"
#define LEVEL                                                                                      \
	"IBP,113\n5,127\n10,133\n20,141\n30,144\n40,145.3\n50,147.3\n60,157\n70,171\n80,196\n"     \
	"90,237\n"

static const struct bc_finding *finding(const struct bench *bench, const char *code)
{
	for (size_t i = 0; i < bench->findings.n; i++)
		if (strcmp(bench->findings.items[i].code, code) == 0)
			return &bench->findings.items[i];
	return NULL;
}

/* Whether this is raised, and says part; part may be NULL. */
static void expect(const char *text, const char *code, bool expected, const char *part)
{
	struct bench bench;
	bench_up(&bench, text);
	const struct bc_finding *found = finding(&bench, code);
	if (!found == expected)
		fail_msg("%s with:\n%s", code, text);
	if (found && part && !strstr(found->message, part))
		fail_msg("%s", found->message);
	bench_down(&bench);
}

static void a_front_that_jumps(void **state)
{
	(void)state;
	expect(HEAD TABLE "IBP,161\n5,251\n10,263\n20,279\n50,311\n90,352\n", "front-jump", true,
		"jumps by 8");
	expect(HEAD TABLE "IBP,209\n5,251\n10,263\n20,279\n50,311\n90,352\n", "front-jump", false,
		NULL);
	/* said as light ends already */
	expect(HEAD TABLE "IBP,41\n5,193\n10,203\n20,218\n50,254\n90,318\n", "front-jump", false,
		NULL);
	expect(HEAD TABLE "IBP,41\n5,193\n10,203\n20,218\n50,254\n90,318\n", "light-ends", true,
		NULL);
}

static void density_against_curve(void **state)
{
	(void)state;
	static const struct {
		const char *keys;
		bool expected;
	} cases[] = {
		{"density,0.831\n", false},
		{"density,0.713\n", true},
		{"density,0.937\n", true},
		{"feed,PE caps\ndensity,0.731\n", false},
		{"feed,PE caps\ndensity,0.641\n", true},
		{"feed,PS cups\ndensity,0.937\n", false},
		{"feed,tyres\ndensity,0.937\n", false},
		{"feed,PS cups\ndensity,1.073\n", true},
		/* one finding for one fault */
		{"feed,PE caps\ndensity,0.967\n", false},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct bc_text text;
		bc_text_init(&text);
		bc_text_printf(&text, "%s%s%s", HEAD, cases[i].keys, TABLE DIESEL);
		expect(text.data, "density-unlike-curve", cases[i].expected, NULL);
		bc_text_release(&text);
	}
	expect(HEAD "feed,PE caps\ndensity,0.967\n" TABLE DIESEL, "density-unlike-feed", true,
		NULL);
}

static void a_cold_condenser(void **state)
{
	(void)state;
	expect(HEAD "condenser temp,13 C\n" TABLE DIESEL, "condenser-cold", true, "13 C");
	expect(HEAD "condenser temp,47 C\n" TABLE DIESEL, "condenser-cold", false, NULL);
	expect(HEAD "feed,pump diesel\ncondenser temp,13 C\n" TABLE DIESEL, "condenser-cold", false,
		NULL);
	expect(HEAD "condenser temp,13 C\n" TABLE LEVEL, "condenser-cold", false, NULL);
}

static void a_compound_is_named_on_evidence(void **state)
{
	(void)state;
	expect(HEAD TABLE LEVEL, "one-compound", true, "not identified");
	expect(HEAD "feed,PE caps\n" TABLE LEVEL, "one-compound", true, "not identified");
	expect(HEAD "feed,PS cups\n" TABLE LEVEL, "styrenic-oil", true, "probably styrene");
	expect(HEAD "feed,PS cups\n" TABLE LEVEL, "one-compound", false, NULL);
	expect(HEAD "feed,PS cups\ndensity,0.897\n" TABLE LEVEL, "styrenic-oil", true,
		"probably styrene");
	expect(HEAD "density,0.897\n" TABLE LEVEL, "styrenic-oil", true, "probably styrene");
	/* a density that contradicts */
	expect(HEAD "feed,PS cups\ndensity,0.773\n" TABLE LEVEL, "styrenic-oil", false, NULL);
	expect(HEAD "feed,PS cups\ndensity,0.773\n" TABLE LEVEL, "one-compound", true,
		"not identified");
	expect(HEAD "feed,PE caps\ndensity,0.897\n" TABLE LEVEL, "styrenic-oil", false, NULL);
	expect(HEAD TABLE DIESEL, "one-compound", false, NULL);
	/* 139 degC of vapour: dimethylheptene of polypropylene, ethylbenzene of polystyrene */
	expect(HEAD "feed,PP caps\n" TABLE
		    "IBP,101\n5,119\n10,127\n20,136\n30,138\n40,139\n50,140.3\n60,157\n70,171\n"
		    "80,196\n90,237\n",
		"one-compound", true, "2,4-dimethyl-1-heptene");
}

static void styrene_without_a_level_stretch(void **state)
{
	(void)state;
	const char *curve = "IBP,113\n5,127\n10,133\n20,141\n30,147\n40,153.3\n50,159\n60,167\n"
			    "70,181\n80,206\n90,247\n";
	char text[400];
	snprintf(text, sizeof text, "%s%s%s", HEAD, "feed,PS cups\ndensity,0.903\n" TABLE, curve);
	expect(text, "styrenic-oil", true, "903 kg/m3");
	snprintf(text, sizeof text, "%s%s%s", HEAD, "feed,PS cups\ndensity,0.857\n" TABLE, curve);
	expect(text, "styrenic-oil", false, NULL);
	snprintf(text, sizeof text, "%s%s%s", HEAD, "density,0.903\n" TABLE, curve);
	expect(text, "styrenic-oil", false, NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_front_that_jumps),
		cmocka_unit_test(density_against_curve),
		cmocka_unit_test(a_cold_condenser),
		cmocka_unit_test(a_compound_is_named_on_evidence),
		cmocka_unit_test(styrene_without_a_level_stretch),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
