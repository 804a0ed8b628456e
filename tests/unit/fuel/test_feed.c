/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of a feed line, found whole and never inside other words. */
#include <string.h>

#include "fuel/feed.h"
#include "unit/unit.h"

static struct bc_feed read(const char *line)
{
	struct bc_feed feed;
	bc_feed_read(line, &feed);
	return feed;
}

static void words_are_found(void **state)
{
	(void)state;
	struct bc_feed feed = read("PP and PE bottle caps");
	assert_true(feed.known && feed.polypropylene && feed.polyethylene);
	assert_true(bc_feed_only_polyolefin(&feed));
	assert_false(feed.pvc || feed.pet || feed.polystyrene);
	feed = read("hdpe/ldpe crates;some Nylon(rope),polystyrene");
	assert_true(feed.polyethylene && feed.polyamide && feed.polystyrene);
	assert_false(bc_feed_only_polyolefin(&feed));
	assert_true(read("PE-HD").polyethylene);
	assert_true(read("flame-retarded casings").brominated);
	assert_true(read("PP+PVC").pvc);
	assert_true(read("PVC,PET,PA,PU,ABS").polyurethane);
	assert_true(read("ptfe").ptfe && read("POM gears").pom && read("plexiglas").acrylic);
}

static void words_inside_words_are_not(void **state)
{
	(void)state;
	assert_false(read("stripped PPE, happy people").known);
	assert_false(read("carpet, petrol cans, spatula, pure water, absolutely clean").known);
	assert_false(read("pp2x").known);
	assert_false(read("").known);
	assert_false(read(NULL).known);
}

static void a_denied_word_is_not_counted(void **state)
{
	(void)state;
	struct bc_feed feed = read("PP caps, no PVC, PET");
	assert_true(feed.polypropylene && feed.pet);
	assert_false(feed.pvc);
	assert_false(read("PE without pvc or pet").pet);
	assert_true(read("no pvc but nylon").polyamide);
}

struct told {
	bool found, usable, rerun; /* forbids these */
	enum bc_weight weight;
	char message[400];
};

/* What a code says of a feed; measured is a property that the sample has, or NULL. */
static struct told told(const char *line, const char *code, const char *measured)
{
	struct bc_measured lab = {.property = measured, .value = 3.7, .temp_c = NAN};
	char text[200];
	snprintf(text, sizeof(text), "%s", line ? line : "");
	struct bc_sample sample = {
		.feed = line ? text : NULL, .measured = &lab, .n_measured = measured ? 1 : 0};
	struct bc_feed feed = read(line);
	struct bc_findings findings;
	struct told told = {.found = false};
	bc_findings_init(&findings);
	bc_feed_findings(&feed, &sample, &findings);
	for (size_t i = 0; i < findings.n; i++) {
		const struct bc_finding *finding = &findings.items[i];
		if (strcmp(finding->code, code) != 0)
			continue;
		told = (struct told){.found = true,
			.usable = finding->forbids_usable,
			.rerun = finding->forbids_rerun,
			.weight = finding->weight};
		snprintf(told.message, sizeof(told.message), "%s", finding->message);
	}
	bc_findings_release(&findings);
	return told;
}

static bool finds(const char *line, const char *code) { return told(line, code, NULL).found; }

static void every_plastic_has_its_finding(void **state)
{
	(void)state;
	const char *const pairs[][2] = {{"PVC", "feed-pvc"}, {"PET", "feed-pet"},
		{"PA66", "feed-polyamide"}, {"PUR", "feed-polyurethane"}, {"ABS", "feed-abs"},
		{"brominated", "feed-brominated"}, {"teflon", "feed-ptfe"}, {"acetal", "feed-pom"},
		{"acrylic", "feed-acrylic"}, {"EPS", "feed-polystyrene"},
		{"PP", "feed-polypropylene"}, {"tyres", "feed-tyre"},
		{"odds and ends", "feed-unknown"}, {"polyvinylchloride", "feed-pvc"},
		{"poly-vinyl chloride pipe", "feed-pvc"}, {"vinyl", "feed-pvc"},
		{"cable", "feed-maybe-pvc"}, {"Styropor", "feed-polystyrene"},
		{"expanded polystyrene", "feed-polystyrene"}, {"styrofoam", "feed-polystyrene"},
		{"Nylon", "feed-polyamide"}, {"fishing nets", "feed-maybe-polyamide"},
		{"foam", "feed-foam"}, {"mixed plastics", "feed-mixture"},
		{"household plastic", "feed-mixture"}, {"old motor oil", "feed-lubricant"},
		{"lube", "feed-lubricant"}, {"waste oil", "feed-lubricant"},
		{"rubber", "feed-tyre"}};
	for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
		assert_true(finds(pairs[i][0], pairs[i][1]));
	assert_true(finds(NULL, "feed-unknown"));
	assert_false(finds("PE", "feed-unknown"));
}

static void all_that_is_named_is_told(void **state)
{
	(void)state;
	const char *line = "old tyres and mattress foam, ABS keyboards";
	assert_true(finds(line, "feed-tyre"));
	assert_true(finds(line, "feed-abs"));
	assert_non_null(strstr(told(line, "feed-polyurethane", NULL).message, "foam"));
	assert_non_null(strstr(told("foam", "feed-foam", NULL).message, "foam"));
}

static void nets_of_a_named_plastic_are_that(void **state)
{
	(void)state;
	struct bc_feed feed = read("polystyrene net floats and some PE");
	assert_false(feed.maybe_polyamide);
	assert_string_equal(feed.unread, "");
	feed = read("PE foam and EPS foam");
	assert_true(feed.polyethylene && feed.polystyrene);
	assert_false(feed.foam);
}

static void what_was_not_recognised_is_named(void **state)
{
	(void)state;
	struct told note = told("PE crates and some zorbex, 50 % PP", "feed-words-unread", NULL);
	assert_true(note.found);
	assert_non_null(strstr(note.message, "zorbex"));
	assert_null(strstr(note.message, "crates"));
	assert_false(finds("PP and PE bottle caps", "feed-words-unread"));
	struct bc_feed full = read("PE aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa "
				   "bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb zorbex");
	assert_non_null(strstr(full.unread, ", zorbex"));
	assert_null(strstr(full.unread, "b"
					"bb"));
}

/* feed, code, what settles it, weight, whether it forbids a re-run until then */
static void a_feed_forbids_until_it_is_measured(void **state)
{
	(void)state;
	static const struct {
		const char *line, *code, *test;
		bool rerun;
	} rows[] = {{"PVC", "feed-pvc", "chlorine", true},
		{"cables", "feed-maybe-pvc", "chlorine", false},
		{"PET", "feed-pet", "acid_number", false},
		{"nylon", "feed-polyamide", "nitrogen", false},
		{"PU", "feed-polyurethane", "nitrogen", false},
		{"foam", "feed-foam", "nitrogen", false},
		{"fishing net", "feed-maybe-polyamide", "nitrogen", false},
		{"tyres", "feed-tyre", "sulphur", false}};
	for (size_t i = 0; i < sizeof(rows) / sizeof(rows[0]); i++) {
		struct told before = told(rows[i].line, rows[i].code, NULL);
		struct told after = told(rows[i].line, rows[i].code, rows[i].test);
		if (!before.usable || before.rerun != rows[i].rerun)
			fail_msg("%s before: %d %d", rows[i].line, before.usable, before.rerun);
		if (!after.found || after.usable || after.rerun ||
			after.weight != BC_FINDING_WARNING)
			fail_msg("%s after: %d %d", rows[i].line, after.usable, after.rerun);
	}
	/* one of two is not enough */
	assert_true(told("mixed plastics", "feed-mixture", "chlorine").usable);
	const char *const never[][2] = {
		{"PTFE", "feed-ptfe"}, {"POM", "feed-pom"}, {"brominated", "feed-brominated"}};
	for (size_t i = 0; i < 3; i++) {
		struct told stands = told(never[i][0], never[i][1], "chlorine");
		assert_true(stands.usable && stands.rerun);
	}
	assert_false(told("PP", "feed-polypropylene", NULL).usable);
}

static void pump_diesel_is_petroleum(void **state)
{
	(void)state;
	struct bc_feed feed = read("pump diesel");
	assert_true(bc_feed_only_petroleum(&feed));
	feed = read("PE crates; mixed with pump diesel");
	assert_false(bc_feed_only_petroleum(&feed));
	assert_false(bc_feed_only_polyolefin(&feed));
	feed = read("diesel and zorbex");
	assert_false(bc_feed_only_petroleum(&feed));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(words_are_found),
		cmocka_unit_test(words_inside_words_are_not),
		cmocka_unit_test(a_denied_word_is_not_counted),
		cmocka_unit_test(every_plastic_has_its_finding),
		cmocka_unit_test(all_that_is_named_is_told),
		cmocka_unit_test(nets_of_a_named_plastic_are_that),
		cmocka_unit_test(what_was_not_recognised_is_named),
		cmocka_unit_test(a_feed_forbids_until_it_is_measured),
		cmocka_unit_test(pump_diesel_is_petroleum),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
