/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages, pictures, labels and cards as HTML: what comes from a file is text, what is opened is
 * closed. */
#include <stdlib.h>
#include <string.h>

#include "report/card.h"
#include "report/html.h"
#include "report/label.h"
#include "report/report.h"
#include "report/svg.h"
#include "unit/unit.h"
#include "verdict/age.h"

static const char form[] =
	"sample,%s\ndate,2026-11-30\nfeed,PE caps <b>\nhistory,%s\ndensity,0.803 g/mL\n"
	"residue,1.4 mL\nloss,0.8 mL\n\nrecovered (%%),head (C)\nIBP,171\n5,184.5\n10,191\n"
	"50,223.5\n90,262\n95,271\nFBP,284\n";

struct given {
	struct bc_limits *limits;
	struct bc_sample *sample;
	struct bc_judgement judgement;
};

static struct given *judge(const char *name, const char *history)
{
	struct given *given = calloc(1, sizeof *given);
	char bytes[2048];
	int n = snprintf(bytes, sizeof bytes, form, name, history);
	assert_int_equal(bc_limits_default(NULL, &given->limits), BC_OK);
	assert_int_equal(
		bc_sample_read(bytes, (size_t)n, "jars/a.csv", NULL, &given->sample), BC_OK);
	struct bc_judge_options options = {.limits = given->limits, .want = BC_GRADES};
	bc_judgement_init(&given->judgement);
	assert_int_equal(bc_judge(given->sample, &options, &given->judgement), BC_OK);
	return given;
}

static void forget(struct given *given)
{
	bc_judgement_release(&given->judgement);
	bc_sample_free(given->sample);
	bc_limits_free(given->limits);
	free(given);
}

static void words_are_escaped(void **state)
{
	struct bc_text html;
	(void)state;
	bc_text_init(&html);
	bc_html_words(&html, "a<b & \"c\" 'd'>\x1b");
	assert_string_equal(html.data, "a&lt;b &amp; &quot;c&quot; &#39;d&#39;&gt;\\x1B");
	bc_text_release(&html);
	bc_text_init(&html);
	bc_html_words(&html, "x\xEF\xBF\xBEy\xEF\xBF\xBFz\xEF\xBF\xBD");
	assert_string_equal(html.data, "x\\xEF\\xBF\\xBEy\\xEF\\xBF\\xBFz\xEF\xBF\xBD");
	bc_text_release(&html);
	bc_text_init(&html);
	bc_html_name(&html,
		"se\xc3\xb1"
		"al<",
		4);
	assert_string_equal(html.data, "se\xc3\xb1"
				       "a\xe2\x80\xa6");
	bc_text_release(&html);
	bc_text_init(&html);
	bc_html_cut(&html, "\xc3\xb1\xc3\xb1", 2);
	assert_string_equal(html.data, "\xc3\xb1\xc3\xb1");
	bc_text_release(&html);
	bc_text_init(&html);
	bc_html_element(&html, "p", "soft", "%d < %s", 3, "<i>");
	assert_string_equal(html.data, "<p class=\"soft\">3 &lt; &lt;i&gt;</p>\n");
	bc_text_release(&html);
}

/* Every element that is opened is closed, in order; names are compared. */
static void assert_closed(const char *html)
{
	static const char *const open_ended[] = {"meta", "!DOCTYPE"};
	char stack[64][16];
	size_t depth = 0;
	const char *body = strstr(html, "</style>") != NULL ? strstr(html, "</style>") + 8 : html;
	for (const char *at = strchr(body, '<'); at != NULL; at = strchr(at + 1, '<')) {
		bool ends = at[1] == '/';
		char name[16];
		size_t n = strcspn(at + 1 + ends, " >/\n");
		snprintf(name, sizeof name, "%.*s", (int)n, at + 1 + ends);
		const char *close = strchr(at, '>');
		assert_non_null(close);
		if (close[-1] == '/' || strcmp(name, open_ended[0]) == 0 ||
			strcmp(name, open_ended[1]) == 0 || strcmp(name, "head") == 0 ||
			strcmp(name, "html") == 0)
			continue;
		if (!ends) {
			assert_true(depth < 64);
			memcpy(stack[depth++], name, sizeof name);
			continue;
		}
		assert_true(depth > 0);
		assert_string_equal(stack[--depth], name);
	}
	assert_int_equal(depth, 0);
}

static void a_page_is_whole(void **state)
{
	struct given *given = judge("Jar <script>alert(1)</script>", "rerun");
	struct bc_text html;
	(void)state;
	bc_text_init(&html);
	assert_int_equal(bc_report_page(&given->judgement, &html), BC_OK);
	assert_closed(html.data);
	assert_null(strstr(html.data, "<script"));
	assert_non_null(strstr(html.data, "&lt;script&gt;"));
	assert_non_null(strstr(html.data, "PE caps &lt;b&gt;"));
	assert_non_null(strstr(html.data, "class=\"verdict"));
	assert_non_null(strstr(html.data, "<svg"));
	assert_non_null(strstr(html.data, "<h2>Cautions</h2>"));
	bc_text_release(&html);
	forget(given);
}

static void the_verdict_stands_first(void **state)
{
	struct given *given = judge("Jar", "retort");
	struct bc_text html;
	(void)state;
	bc_text_init(&html);
	assert_int_equal(bc_report_page(&given->judgement, &html), BC_OK);
	const char *verdict = strstr(html.data, "class=\"verdict");
	const char *danger = strstr(html.data, "class=\"danger");
	const char *picture = strstr(html.data, "<figure>");
	const char *table = strstr(html.data, "<table");
	assert_true(verdict != NULL && danger != NULL && picture != NULL && table != NULL);
	assert_true(verdict < danger && danger < picture && picture < table);
	assert_non_null(strstr(html.data, "TREAT THIS JAR AS PETROL"));
	bc_text_release(&html);
	forget(given);
}

static void a_label_never_certifies(void **state)
{
	static const char *const histories[] = {"rerun", "retort"};
	(void)state;
	for (size_t i = 0; i < 2; i++) {
		struct given *given = judge("Jar & <b>", histories[i]);
		for (int size = BC_LABEL_CAN; size <= BC_LABEL_A6; size++) {
			struct bc_text html;
			bc_text_init(&html);
			assert_int_equal(bc_report_label_html(&given->judgement,
						 (enum bc_label_size)size, &html),
				BC_OK);
			assert_closed(html.data);
			assert_non_null(strstr(html.data, "NOT CERTIFIED"));
			assert_non_null(strstr(html.data, "H304"));
			assert_non_null(strstr(html.data, "benzene"));
			assert_non_null(strstr(html.data, "Jar &amp; &lt;b&gt;"));
			assert_non_null(strstr(html.data, "2027-02-28"));
			assert_true((strstr(html.data, "TREAT AS PETROL") != NULL) == (i == 1));
			assert_true((strstr(html.data, "no claim") != NULL) == (i == 1));
			bc_text_release(&html);
		}
		forget(given);
	}
}

static void retest(const char *drawn, const char *date, const char *expected)
{
	struct bc_sample sample = {
		.drawn = (char *)(uintptr_t)drawn, .date = (char *)(uintptr_t)date};
	char got[BC_DATE_SIZE];
	assert_string_equal(bc_retest_date(&sample, got), expected);
}

static void a_jar_is_looked_at_again_after_three_months(void **state)
{
	(void)state;
	retest("2026-10-03", "2026-11-07", "2027-01-03");
	retest(NULL, "2026-11-30", "2027-02-28");
	retest("in March", "2027-11-30", "2028-02-29");
	retest("2026-12-31", NULL, "2027-03-31");
	retest("2026-08-31", NULL, "2026-11-30");
	retest(NULL, NULL, "");
	retest(NULL, "yesterday", "");
}

static void steps_are_round(void **state)
{
	(void)state;
	assert_close(bc_svg_step(100.0), 20.0, 1e-12);
	assert_close(bc_svg_step(37.3), 5.0, 1e-12);
	assert_close(bc_svg_step(350.0), 50.0, 1e-12);
	assert_close(bc_svg_step(0.73), 0.1, 1e-12);
}

static void cards_that_need_no_run(void **state)
{
	const struct bc_page_style style = {.colour = false};
	struct given *given = judge("Jar", "rerun");
	struct bc_card card = {.judgement = &given->judgement};
	struct bc_text text;
	(void)state;
	for (int kind = 0; kind < 2; kind++) {
		const char *name = kind == 0 ? "sheet" : "lab";
		bc_text_init(&text);
		assert_int_equal(bc_report_card_html(name, &card, &text), BC_OK);
		assert_closed(text.data);
		bc_text_release(&text);
		bc_text_init(&text);
		assert_int_equal(bc_report_card_text(name, &card, &style, &text), BC_OK);
		assert_non_null(strstr(text.data, kind == 0 ? "Never to dryness" : "closed cup"));
		bc_text_release(&text);
	}
	bc_text_init(&text);
	assert_int_equal(bc_report_card_html("postcard", &card, &text), BC_NOT_FOUND);
	bc_text_release(&text);
	forget(given);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(words_are_escaped),
		cmocka_unit_test(a_page_is_whole),
		cmocka_unit_test(the_verdict_stands_first),
		cmocka_unit_test(a_label_never_certifies),
		cmocka_unit_test(a_jar_is_looked_at_again_after_three_months),
		cmocka_unit_test(steps_are_round),
		cmocka_unit_test(cards_that_need_no_run),
	};
	return cmocka_run_group_tests_name("html", tests, NULL, NULL);
}
