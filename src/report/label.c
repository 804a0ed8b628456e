/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The label of a can. Lengths are in mm; letters are taken to be half as wide as they are high. */
#include "report/label.h"

#include <math.h>
#include <string.h>

#include "report/html.h"
#include "report/label_words.h"
#include "report/signs.h"
#include "verdict/age.h"

/* Width of a letter to its height, a wide sans; measured on the pictures. */
#define LETTER 0.54
#define LETTER_BOLD 0.62
#define LEADING 1.28
#define TEMP_DIGITS "%.0f"

struct layout {
	double wide;
	double high;
	double margin;
	double name; /* heights of letters */
	double strong;
	double plain;
	double fine;
	double sign;
	bool roomy; /* says more */
};

static const struct layout layouts[] = {
	[BC_LABEL_CAN] = {100.0, 60.0, 3.0, 5.0, 3.4, 2.4, 2.0, 16.5, false},
	[BC_LABEL_A6] = {105.0, 148.0, 6.0, 7.5, 5.0, 3.7, 3.0, 26.0, true},
};

/* A label in the making: the next line's top. */
struct label {
	struct bc_text *svg;
	const struct layout *layout;
	double y;
	double signs_end; /* above it lines end before the signs */
};

static void line(struct label *label, double size, bool bold, const char *words, size_t n)
{
	struct bc_text copy;
	bc_text_init(&copy);
	bc_text_append_n(&copy, words, n);
	bc_text_printf(label->svg, "<text x=\"%.2f\" y=\"%.2f\" font-size=\"%.2f\"%s>",
		label->layout->margin, label->y + size, size, bold ? " font-weight=\"700\"" : "");
	bc_html_words(label->svg, copy.data != NULL ? copy.data : "");
	bc_text_append(label->svg, "</text>\n");
	label->svg->failed = label->svg->failed || copy.failed;
	bc_text_release(&copy);
	label->y += LEADING * size;
}

/* Wrapped to the label; at most so many lines, the last with an ellipsis where more was said. */
static void words(struct label *label, double size, bool bold, const char *s, size_t most)
{
	struct bc_text lines;
	const struct layout *layout = label->layout;
	bool beside = label->y < label->signs_end;
	double wide = layout->wide - 2.0 * layout->margin - (beside ? layout->sign + 2.0 : 0.0);
	size_t columns = (size_t)(wide / ((bold ? LETTER_BOLD : LETTER) * size));
	bc_text_init(&lines);
	bc_text_append_wrapped(&lines, s, NULL, 0, columns);
	const char *at = lines.data != NULL ? lines.data : "";
	for (size_t n = 0; *at != '\0' && n < most; n++) {
		size_t length = strcspn(at, "\n");
		line(label, size, bold, at, length);
		at += length + (at[length] == '\n');
	}
	label->svg->failed = label->svg->failed || lines.failed;
	bc_text_release(&lines);
}

static void head(struct label *label, const struct bc_sample *sample)
{
	const struct layout *layout = label->layout;
	struct bc_text name;
	char retest[BC_DATE_SIZE];
	const size_t date_most = 24;
	bc_text_init(&name);
	size_t most =
		(size_t)((layout->wide - 2.0 * layout->margin) / (LETTER_BOLD * layout->name)) - 1;
	bc_html_cut(&name, sample->name != NULL ? sample->name : "jar without a name", most);
	if (name.data != NULL)
		line(label, layout->name, true, name.data, name.length);
	bc_text_release(&name);
	bc_text_init(&name);
	if (sample->date != NULL) {
		bc_text_append(&name, "boiled off ");
		bc_html_cut(&name, sample->date, date_most);
		bc_text_append(&name, ";  ");
	}
	bc_retest_date(sample, retest);
	bc_text_printf(&name, "look again by %s", retest[0] != '\0' ? retest : "____________");
	if (name.data != NULL)
		words(label, layout->plain, false, name.data, 2);
	label->svg->failed = label->svg->failed || name.failed;
	bc_text_release(&name);
}

static void grade(struct label *label, const struct bc_judgement *judgement)
{
	const struct bc_verdict *verdict = &judgement->verdict;
	struct bc_text text;
	bc_text_init(&text);
	if (judgement->hazards.petrol_like)
		words(label, label->layout->strong, true, "TREAT AS PETROL", 1);
	bc_text_append(&text, bc_word_text(verdict->word));
	if (verdict->grade != NULL)
		bc_text_printf(&text, "%s%s",
			verdict->word == BC_WORD_USABLE ? ", estimated as "
							: ", not yet a fuel; nearest ",
			bc_grade_texts[verdict->grade->name]);
	if (text.data != NULL)
		words(label, label->layout->plain, true, text.data, 2);
	label->svg->failed = label->svg->failed || text.failed;
	bc_text_release(&text);
}

static void flash(struct label *label, const struct bc_judgement *judgement)
{
	const struct bc_estimate *value = &judgement->oil.property[BC_FLASH];
	struct bc_text text;
	bc_text_init(&text);
	if (!judgement->oil.flash_claim || isnan(value->low))
		bc_text_append(&text, "Flash point: no claim, count on below 23 degC");
	else
		bc_text_printf(&text,
			"Flash point, closed cup: may be as low as " TEMP_DIGITS
			" degC (%s " TEMP_DIGITS ")",
			floor(value->low), value->how == BC_MEASURED ? "measured" : "estimate",
			value->value);
	if (text.data != NULL)
		words(label, label->layout->plain, true, text.data, 3);
	label->svg->failed = label->svg->failed || text.failed;
	bc_text_release(&text);
}

/* The GHS class, which the signs follow; NULL: none. */
static const struct bc_hazard *ghs(const struct bc_hazards *hazards)
{
	for (size_t i = 0; i < hazards->n; i++)
		if (strcmp(hazards->items[i].scheme, "GHS") == 0)
			return &hazards->items[i];
	return NULL;
}

struct statement {
	const char *class_name;
	bool flame; /* the flame stands for categories 1 to 3; GHS, annex 1 */
	const char *words;
	const char *open_words; /* where a lower class cannot be excluded */
};

static const struct statement *statement_of(const struct bc_hazard *hazard)
{
	static const struct statement statements[] = {
		{"Category 2", true, "Highly flammable liquid and vapour (H225).",
			"Highly flammable (H225), may be extremely flammable (H224 not excluded)."},
		{"Category 3", true, "Flammable liquid and vapour (H226).", NULL},
		{"Category 4", false, "Combustible liquid (H227).", NULL},
	};
	for (size_t i = 0; hazard != NULL && i < sizeof statements / sizeof statements[0]; i++)
		if (strcmp(statements[i].class_name, hazard->class_name) == 0)
			return &statements[i];
	return NULL;
}

/* Benzene has its own sentence. */
static void dangers(struct label *label, const struct bc_findings *findings)
{
	const struct layout *layout = label->layout;
	size_t most = layout->roomy ? 4 : 2;
	size_t n = 0;
	for (size_t i = 0; i < findings->n; i++) {
		const struct bc_finding *finding = &findings->items[i];
		struct bc_text text;
		if (finding->weight != BC_FINDING_DANGER ||
			strcmp(finding->code, "measured-benzene") == 0 || n++ >= most)
			continue;
		bc_text_init(&text);
		bc_label_danger(finding, &text);
		if (text.data != NULL)
			words(label, layout->plain, true, text.data, 2);
		label->svg->failed = label->svg->failed || text.failed;
		bc_text_release(&text);
	}
}

static void hazards(struct label *label, const struct bc_judgement *judgement,
	const struct statement *statement, bool open)
{
	const struct layout *layout = label->layout;
	struct bc_text health;
	line(label, layout->strong, true, "DANGER", strlen("DANGER"));
	dangers(label, &judgement->findings);
	if (statement != NULL)
		words(label, layout->plain, false,
			open && statement->open_words != NULL ? statement->open_words
							      : statement->words,
			3);
	bc_text_init(&health);
	bc_text_append(&health, "May be fatal if swallowed and enters airways (H304): do NOT "
				"induce vomiting. May cause cancer (H350): ");
	bc_label_benzene(judgement->sample, &health);
	bc_text_append(&health, ".");
	if (health.data != NULL)
		words(label, layout->plain, false, health.data, layout->roomy ? 8 : 4);
	label->svg->failed = label->svg->failed || health.failed;
	bc_text_release(&health);
	words(label, layout->plain, false,
		layout->roomy
			? "Keep away from heat, sparks and flames. Keep the can closed, in metal, "
			  "cool, locked away from children. Keep off the skin; do not breathe the "
			  "vapour. Never in a drink bottle. At most 95 % full."
			: "Keep from flame and spark, closed, locked away from children. Never in a "
			  "drink bottle.",
		layout->roomy ? 8 : 2);
}

static void foot(struct label *label, const struct bc_sample *sample)
{
	const struct layout *layout = label->layout;
	struct bc_text text;
	bc_text_init(&text);
	bc_text_append(&text, "Estimated from a boil-off, NOT CERTIFIED. Only the flash was "
			      "classed, other hazards were not assessed. ");
	bc_label_tests(sample, layout->roomy, &text);
	bc_text_append(&text, " Local codes come first.");
	if (text.data != NULL)
		words(label, layout->fine, false, text.data, layout->roomy ? 10 : 4);
	label->svg->failed = label->svg->failed || text.failed;
	bc_text_release(&text);
}

/* Returns where the last line ends. */
static double fill(
	const struct bc_judgement *judgement, const struct layout *layout, struct bc_text *svg)
{
	const struct bc_hazard *class = ghs(&judgement->hazards);
	const struct statement *statement = statement_of(class);
	struct label label = {svg, layout, layout->margin - 1.0, 0.0};
	double middle = layout->wide - layout->margin - layout->sign / 2.0;
	head(&label, judgement->sample);
	double top = label.y;
	bool flame = statement != NULL && statement->flame;
	label.signs_end = top + (flame ? 2.05 : 1.0) * layout->sign;
	bc_sign_draw(BC_SIGN_HEALTH, middle, top + layout->sign / 2.0, layout->sign, svg);
	if (flame)
		bc_sign_draw(BC_SIGN_FLAME, middle, top + 1.55 * layout->sign, layout->sign, svg);
	grade(&label, judgement);
	flash(&label, judgement);
	label.y += 0.3 * layout->plain;
	hazards(&label, judgement, statement, class != NULL && class->front_open);
	label.y = fmax(label.y + 0.3 * layout->fine, label.signs_end);
	foot(&label, judgement->sample);
	return label.y;
}

/* Where more must be said than there is room for, letters shrink rather than words are lost. */
static void fill_to_fit(
	const struct bc_judgement *judgement, const struct layout *layout, struct bc_text *svg)
{
	const double step = 0.95;
	const double least = 0.7; /* 1.4 mm on the can: GHS asks for letters that can be read */
	struct layout smaller = *layout;
	struct bc_text body;
	double scale = 1.0;
	for (;;) {
		smaller.name = scale * layout->name;
		smaller.strong = scale * layout->strong;
		smaller.plain = scale * layout->plain;
		smaller.fine = scale * layout->fine;
		bc_text_init(&body);
		double end = fill(judgement, &smaller, &body);
		if (end < layout->high - 0.5 || scale < least || body.failed)
			break;
		bc_text_release(&body);
		scale *= step;
	}
	bc_text_append(svg, body.data != NULL ? body.data : "");
	svg->failed = svg->failed || body.failed;
	bc_text_release(&body);
}

/* alone: with its size, which inside a page the style sheet has. */
static enum bc_status draw(const struct bc_judgement *judgement, enum bc_label_size size,
	bool alone, struct bc_text *svg)
{
	const struct layout *layout = &layouts[size];
	bc_text_append(svg, "<svg xmlns=\"http://www.w3.org/2000/svg\" ");
	if (alone)
		bc_text_printf(svg, "width=\"%gmm\" height=\"%gmm\" ", layout->wide, layout->high);
	bc_text_printf(svg,
		"viewBox=\"0 "
		"0 %g %g\" role=\"img\" aria-labelledby=\"label-title\" font-family=\"Liberation "
		"Sans, DejaVu Sans, sans-serif\" fill=\"#000\">\n<title id=\"label-title\">Label of "
		"a can: %s</title>\n<rect x=\"0.4\" y=\"0.4\" width=\"%g\" height=\"%g\" "
		"fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.4\"/>\n",
		layout->wide, layout->high,
		judgement->hazards.petrol_like ? "treat as petrol"
					       : bc_word_text(judgement->verdict.word),
		layout->wide - 0.8, layout->high - 0.8);
	fill_to_fit(judgement, layout, svg);
	bc_text_append(svg, "</svg>\n");
	return svg->failed ? BC_NO_MEMORY : BC_OK;
}

enum bc_status bc_report_label_svg(
	const struct bc_judgement *judgement, enum bc_label_size size, struct bc_text *svg)
{
	return draw(judgement, size, true, svg);
}

enum bc_status bc_report_label_html(
	const struct bc_judgement *judgement, enum bc_label_size size, struct bc_text *html)
{
	const struct bc_sample *sample = judgement->sample;
	bc_html_open(html, size == BC_LABEL_A6 ? &bc_html_label_a6 : &bc_html_label,
		sample->name != NULL ? sample->name : "label");
	enum bc_status status = draw(judgement, size, false, html);
	bc_html_close(html);
	return bc_failed(status) || html->failed ? BC_NO_MEMORY : BC_OK;
}
