/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gnuplot scripts that carry their data: what all of them share, and which there are. */
#include "report/chart.h"

#include <math.h>
#include <string.h>

static const struct {
	const char *kind;
	void (*write)(const struct bc_judgement *judgement, struct bc_text *script);
} charts[] = {
	{"curve", bc_chart_curve},
	{"residuals", bc_chart_residuals},
	{"shares", bc_chart_shares},
};

const char *const bc_chart_kinds[] = {"curve", "residuals", "shares", NULL};

/* A title longer than this leaves a phone's picture. */
#define TITLE_MAX 50
/* ... of the shares, whose words beside the bars push the title to the right. */
#define TITLE_BESIDE_BARS 31

static bool is_safe(char c)
{
	return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
	       strchr(" .-_(),", c) != NULL;
}

static void quote(const char *s, size_t most, struct bc_text *script)
{
	size_t n = 0;
	bc_text_append(script, "'");
	for (; *s != '\0' && n < most; s++) {
		/* one mark for a whole UTF-8 character */
		if (((unsigned char)*s & 0xC0u) == 0x80u)
			continue;
		bc_text_append_n(script, is_safe(*s) ? s : "_", 1);
		n++;
	}
	bc_text_append(script, "'");
}

void bc_chart_quoted(const char *s, struct bc_text *script) { quote(s, TITLE_MAX, script); }

void bc_chart_number(double value, struct bc_text *script)
{
	if (isfinite(value))
		bc_text_printf(script, "%.6g", value);
	else
		bc_text_append(script, "NaN");
}

/* More points than this run into one line on a wide picture. */
#define POINTS_DRAWN 300

size_t bc_chart_step(size_t n) { return n / POINTS_DRAWN + 1; }

static const char *base_name(const char *path)
{
	const char *slash = strrchr(path, '/');
	return slash != NULL ? slash + 1 : path;
}

/* The word and what it rests on most, inside single quotes that are open. */
static void verdict_words(const struct bc_judgement *judgement, struct bc_text *script)
{
	const struct bc_estimate *flash = &judgement->oil.property[BC_FLASH];
	bc_text_printf(script, "' . \"\\n\" . '%s", bc_word_text(judgement->verdict.word));
	if (judgement->hazards.petrol_like)
		bc_text_append(script, ", TREAT AS PETROL");
	if (!isfinite(flash->value))
		bc_text_append(script, ", flash unknown");
	else if (isfinite(flash->low) && isfinite(flash->high))
		bc_text_printf(script, ", flash %.0f °C (%.0f to %.0f)", flash->value,
			floor(flash->low), flash->high);
	else
		bc_text_printf(script, ", flash %.0f °C (no lower bound)", flash->value);
}

void bc_chart_start(
	const struct bc_sample *sample, const char *kind, const char *what, struct bc_text *script)
{
	const char *name = sample->name != NULL && sample->name[0] != '\0'
				   ? sample->name
				   : base_name(sample->file);
	bc_text_printf(script,
		"# boilcut %s, %s. The data are inside; draw it with\n"
		"#   gnuplot -e \"out='picture.png'\" THIS-FILE\n"
		"# Other variables: wide, high (pixels). The ending of out, .svg or .png, "
		"chooses.\n"
		"if (!exists(\"out\")) out = '%s.svg'\n"
		"if (!exists(\"wide\")) wide = 800\n"
		"if (!exists(\"high\")) high = 0.75 * wide\n"
		"size = wide / 800.0\n",
		BC_VERSION, kind, kind);
	bc_text_append(script,
		"set encoding utf8\n"
		"if (out[strlen(out)-3:*] eq '.png') {\n"
		"\tsmall = sprintf('%g', 14 * size)\n"
		"\tdot = size\n"
		"\tset terminal pngcairo noenhanced size wide,high font sprintf('sans,%g', 16 * size) "
		"linewidth size\n"
		"} else {\n"
		"\tsmall = sprintf('%g', 18 * size)\n"
		"\tdot = 0.5 * size\n"
		"\tset terminal svg noenhanced size wide,high font sprintf('sans,%g', 20 * size) "
		"linewidth size background 'white'\n"
		"}\n"
		"set output out\n"
		"set datafile missing 'NaN'\n"
		"unset key\n"
		"set border 3 linecolor rgb '#7d8b94'\n"
		"set tics nomirror textcolor rgb '#1f3a4d'\n"
		"name = ");
	quote(name, strcmp(kind, "shares") == 0 ? TITLE_BESIDE_BARS : TITLE_MAX, script);
	bc_text_printf(script, "\nset title name . ' - %s", what);
}

void bc_chart_open(const struct bc_judgement *judgement, const char *kind, const char *what,
	struct bc_text *script)
{
	bc_chart_start(judgement->sample, kind, what, script);
	verdict_words(judgement, script);
	bc_text_printf(script, "' textcolor rgb '%s'\n", BC_CHART_INK);
}

void bc_chart_close(struct bc_text *script) { bc_text_append(script, "set output\n"); }

void bc_chart_nothing(const char *words, struct bc_text *script)
{
	bc_text_printf(script,
		"set label 1 '%s' at graph 0.5,0.5 center textcolor rgb '%s'\n"
		"set xrange [0:100]\nset yrange [-1:1]\nunset ytics\nplot NaN\n",
		words, BC_CHART_INK);
}

enum bc_status bc_report_chart(
	const struct bc_judgement *judgement, const char *kind, struct bc_text *script)
{
	for (size_t i = 0; i < sizeof charts / sizeof charts[0]; i++) {
		if (strcmp(charts[i].kind, kind) != 0)
			continue;
		charts[i].write(judgement, script);
		return script->failed ? BC_NO_MEMORY : BC_OK;
	}
	return BC_NOT_FOUND;
}
