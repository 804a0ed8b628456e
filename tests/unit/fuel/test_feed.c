/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of a feed line, found whole and never inside other words. */
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

static bool finds(const char *line, const char *code)
{
	struct bc_feed feed = read(line);
	struct bc_findings findings;
	bc_findings_init(&findings);
	bc_feed_findings(&feed, line != NULL, &findings);
	bool found = bc_findings_has(&findings, code);
	bc_findings_release(&findings);
	return found;
}

static void every_plastic_has_its_finding(void **state)
{
	(void)state;
	const char *const pairs[][2] = {{"PVC", "feed-pvc"}, {"PET", "feed-pet"},
		{"PA66", "feed-polyamide"}, {"PUR", "feed-polyurethane"}, {"ABS", "feed-abs"},
		{"brominated", "feed-brominated"}, {"teflon", "feed-ptfe"}, {"acetal", "feed-pom"},
		{"acrylic", "feed-acrylic"}, {"EPS", "feed-polystyrene"},
		{"PP", "feed-polypropylene"}, {"tyres", "feed-tyre"},
		{"odds and ends", "feed-unknown"}};
	for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
		assert_true(finds(pairs[i][0], pairs[i][1]));
	assert_true(finds(NULL, "feed-unknown"));
	assert_false(finds("PE", "feed-unknown"));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(words_are_found),
		cmocka_unit_test(words_inside_words_are_not),
		cmocka_unit_test(a_denied_word_is_not_counted),
		cmocka_unit_test(every_plastic_has_its_finding),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
