/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the words of a feed line mean for the oil: which plastics, and what each brings with it. */
#include "fuel/feed.h"

#include <ctype.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

static const struct {
	const char *word;
	const char *plastic;
	const char *source;
	const char *trust;
} words[] = {
#include "feed-words.inc"
};

static const struct {
	const char *plastic;
	size_t offset;
} plastics[] = {
	{"polyethylene", offsetof(struct bc_feed, polyethylene)},
	{"polypropylene", offsetof(struct bc_feed, polypropylene)},
	{"polystyrene", offsetof(struct bc_feed, polystyrene)},
	{"pvc", offsetof(struct bc_feed, pvc)},
	{"pet", offsetof(struct bc_feed, pet)},
	{"polyamide", offsetof(struct bc_feed, polyamide)},
	{"polyurethane", offsetof(struct bc_feed, polyurethane)},
	{"abs", offsetof(struct bc_feed, abs)},
	{"brominated", offsetof(struct bc_feed, brominated)},
	{"ptfe", offsetof(struct bc_feed, ptfe)},
	{"pom", offsetof(struct bc_feed, pom)},
	{"acrylic", offsetof(struct bc_feed, acrylic)},
	{"tyre", offsetof(struct bc_feed, tyre)},
};

static bool same_word(const char *word, const char *text, size_t n)
{
	if (strlen(word) != n)
		return false;
	for (size_t i = 0; i < n; i++)
		if (tolower((unsigned char)text[i]) != word[i])
			return false;
	return true;
}

static void mark(struct bc_feed *found, const char *plastic)
{
	for (size_t i = 0; i < sizeof plastics / sizeof plastics[0]; i++)
		if (strcmp(plastics[i].plastic, plastic) == 0) {
			*(bool *)((char *)found + plastics[i].offset) = true;
			found->known = true;
		}
}

static bool take_word(const char *text, size_t n, struct bc_feed *found)
{
	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (same_word(words[i].word, text, n)) {
			mark(found, words[i].plastic);
			return true;
		}
	return false;
}

static size_t word_length(const char *text, bool with_hyphens)
{
	size_t n = 0;
	while (isalnum((unsigned char)text[n]) ||
		(with_hyphens && text[n] == '-' && isalnum((unsigned char)text[n + 1])))
		n++;
	return n;
}

/* A hyphened word as a whole, else its parts. */
static void take_hyphened(const char *text, size_t n, struct bc_feed *found)
{
	if (take_word(text, n, found))
		return;
	for (size_t i = 0; i < n; i++) {
		size_t part = word_length(text + i, false);
		take_word(text + i, part, found);
		i += part;
	}
}

void bc_feed_read(const char *feed, struct bc_feed *found)
{
	*found = (struct bc_feed){.known = false};
	bool denied = false;
	for (const char *at = feed; at && *at != '\0';) {
		size_t n = word_length(at, true);
		if (n == 0) {
			if (strchr(",;.", *at))
				denied = false;
			at++;
			continue;
		}
		if (same_word("no", at, n) || same_word("without", at, n))
			denied = true;
		else if (same_word("but", at, n))
			denied = false;
		else if (!denied)
			take_hyphened(at, n, found);
		at += n;
	}
}

bool bc_feed_only_polyolefin(const struct bc_feed *feed)
{
	bool other = feed->polystyrene || feed->pvc || feed->pet || feed->polyamide ||
		     feed->polyurethane || feed->abs || feed->brominated || feed->ptfe ||
		     feed->pom || feed->acrylic || feed->tyre;
	return (feed->polyethylene || feed->polypropylene) && !other;
}

static const struct {
	size_t offset;
	const char *code;
	enum bc_weight weight;
	const char *message;
	const char *advice;
} meanings[] = {
	{offsetof(struct bc_feed, pvc), "feed-pvc", BC_FINDING_DANGER,
		"The feed names PVC: hydrogen chloride forms, and chlorine stays in the oil.",
		"Have chlorine tested before any use; do not re-run in plain steel or brass."},
	{offsetof(struct bc_feed, pet), "feed-pet", BC_FINDING_WARNING,
		"The feed names PET: terephthalic and benzoic acid (boiling at 249 degC) plug the "
		"condenser and corrode.",
		"Watch for white solids and for flow that stops while heat is on: then heat off."},
	{offsetof(struct bc_feed, polyamide), "feed-polyamide", BC_FINDING_DANGER,
		"The feed names polyamide (nylon): hydrogen cyanide can form, and nitrogen stays "
		"in the oil.",
		"Sort it out of the feed; treat gas from the retort as poisonous."},
	{offsetof(struct bc_feed, polyurethane), "feed-polyurethane", BC_FINDING_DANGER,
		"The feed names polyurethane: hydrogen cyanide and isocyanates can form.",
		"Sort it out of the feed; treat gas from the retort as poisonous."},
	{offsetof(struct bc_feed, abs), "feed-abs", BC_FINDING_DANGER,
		"The feed names ABS or a kin of it: acrylonitrile and hydrogen cyanide can form.",
		"Sort it out of the feed; treat gas from the retort as poisonous."},
	{offsetof(struct bc_feed, brominated), "feed-brominated", BC_FINDING_DANGER,
		"The feed names flame-retarded or electrical casings: hydrogen bromide forms, and "
		"bromine stays in the oil.",
		"Do not burn this oil; sort such casings out of the feed."},
	{offsetof(struct bc_feed, ptfe), "feed-ptfe", BC_FINDING_DANGER,
		"The feed names PTFE or a kin of it: its vapours are highly poisonous.",
		"Do not process it."},
	{offsetof(struct bc_feed, pom), "feed-pom", BC_FINDING_DANGER,
		"The feed names POM (acetal): it falls apart into formaldehyde, all at once.",
		"Do not process it."},
	{offsetof(struct bc_feed, acrylic), "feed-acrylic", BC_FINDING_WARNING,
		"The feed names acrylic: methyl methacrylate boils at 100.5 degC, and its shelf "
		"looks like one of water.",
		"Tell them apart by settling: water sinks and does not mix."},
	{offsetof(struct bc_feed, polystyrene), "feed-polystyrene", BC_FINDING_WARNING,
		"The feed names polystyrene: the styrene in the oil polymerises when it is warm, "
		"about 2 % an hour above 100 degC, and can choke a still.",
		"Do not hold it on reflux, store it cool, use it within weeks."},
	{offsetof(struct bc_feed, polypropylene), "feed-polypropylene", BC_FINDING_NOTE,
		"The feed names polypropylene: its oil is branched, and cetane indices read far "
		"too high for it. Its 2,4-dimethyl-1-heptene boils near 138 degC, where styrene "
		"does.",
		"Do not rely on the cetane index; have a cetane number measured before an engine."},
	{offsetof(struct bc_feed, tyre), "feed-tyre", BC_FINDING_WARNING,
		"The feed names tyres or rubber: such oil carries sulphur and is aromatic.",
		"Have sulphur tested before any use."},
};

void bc_feed_findings(const struct bc_feed *feed, bool stated, struct bc_findings *findings)
{
	for (size_t i = 0; i < sizeof meanings / sizeof meanings[0]; i++)
		if (*(const bool *)((const char *)feed + meanings[i].offset))
			bc_findings_add(findings, meanings[i].code, meanings[i].weight, NAN,
				meanings[i].message, meanings[i].advice);
	if (feed->known)
		return;
	bc_findings_add(findings, "feed-unknown", BC_FINDING_NOTE, NAN,
		stated ? "No plastic was recognised in the feed line: chlorine, nitrogen, bromine "
			 "and acids cannot be ruled out."
		       : "The feed is not stated: chlorine, nitrogen, bromine and acids cannot be "
			 "ruled out.",
		"Write down what went into the retort; sort PVC and PET out.");
}
