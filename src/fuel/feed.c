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

#define PLACE(field) offsetof(struct bc_feed, field)

static const struct {
	const char *plastic;
	size_t offset;
} plastics[] = {
	{"polyethylene", PLACE(polyethylene)},
	{"polypropylene", PLACE(polypropylene)},
	{"polystyrene", PLACE(polystyrene)},
	{"pvc", PLACE(pvc)},
	{"maybe-pvc", PLACE(maybe_pvc)},
	{"pet", PLACE(pet)},
	{"polyamide", PLACE(polyamide)},
	{"maybe-polyamide", PLACE(maybe_polyamide)},
	{"polyurethane", PLACE(polyurethane)},
	{"foam", PLACE(foam)},
	{"mixture", PLACE(mixture)},
	{"abs", PLACE(abs)},
	{"brominated", PLACE(brominated)},
	{"ptfe", PLACE(ptfe)},
	{"pom", PLACE(pom)},
	{"acrylic", PLACE(acrylic)},
	{"tyre", PLACE(tyre)},
	{"lubricant", PLACE(lubricant)},
	{"petroleum", PLACE(petroleum)},
};
enum { PLASTICS = sizeof plastics / sizeof plastics[0] };

static bool has(const struct bc_feed *feed, size_t offset)
{
	return *(const bool *)((const char *)feed + offset);
}

static void mark(struct bc_feed *found, const char *plastic)
{
	for (size_t i = 0; i < PLASTICS; i++)
		if (strcmp(plastics[i].plastic, plastic) == 0) {
			*(bool *)((char *)found + plastics[i].offset) = true;
			found->known = true;
		}
}

bool bc_feed_names(const struct bc_feed *feed, const char *plastic)
{
	for (size_t i = 0; i < PLASTICS; i++)
		if (strcmp(plastics[i].plastic, plastic) == 0)
			return has(feed, plastics[i].offset);
	return false;
}

/* How much of text a word or phrase of the table takes up; 0 when it does not stand there whole. */
static size_t match_length(const char *text, const char *phrase)
{
	size_t n = 0;
	for (; *phrase != '\0'; phrase++) {
		if (*phrase == ' ') {
			if (text[n] != ' ' && text[n] != '-')
				return 0;
			n += strspn(text + n, " -");
		} else if (tolower((unsigned char)text[n]) == *phrase) {
			n++;
		} else {
			return 0;
		}
	}
	return isalnum((unsigned char)text[n]) ? 0 : n;
}

static size_t word_length(const char *text)
{
	size_t n = 0;
	while (isalnum((unsigned char)text[n]))
		n++;
	return n;
}

static bool worth_telling(const char *word, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (isalpha((unsigned char)word[i]))
			return n > 1;
	return false;
}

static void note_unread(struct bc_feed *found, const char *word, size_t n)
{
	size_t used = strlen(found->unread);
	const char *comma = used > 0 ? ", " : "";
	if (!worth_telling(word, n) || used + strlen(comma) + n >= sizeof found->unread)
		return;
	memcpy(found->unread + used, comma, strlen(comma));
	memcpy(found->unread + used + strlen(comma), word, n);
}

/* Takes the longest entry that stands at text, or one word that is none; how much was taken. */
static size_t take(const char *text, bool denied, struct bc_feed *found)
{
	size_t longest = 0;
	size_t entry = 0;
	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
		size_t n = match_length(text, words[i].word);
		if (n > longest) {
			longest = n;
			entry = i;
		}
	}
	if (longest == 0) {
		longest = word_length(text);
		if (!denied)
			note_unread(found, text, longest);
	} else if (!denied) {
		mark(found, words[entry].plastic);
	}
	return longest;
}

void bc_feed_read(const char *feed, struct bc_feed *found)
{
	*found = (struct bc_feed){.known = false};
	bool denied = false;
	for (const char *at = feed; at && *at != '\0';) {
		size_t n = word_length(at);
		if (n == 0) {
			if (strchr(",;.", *at))
				denied = false;
			at++;
			continue;
		}
		bool no = match_length(at, "no") || match_length(at, "without");
		if (no || match_length(at, "but"))
			denied = no;
		else
			n = take(at, denied, found);
		at += n;
	}
}

/* Nothing named but what stands at these two places. */
static bool only(const struct bc_feed *feed, size_t one, size_t other)
{
	for (size_t i = 0; i < PLASTICS; i++)
		if (has(feed, plastics[i].offset) && plastics[i].offset != one &&
			plastics[i].offset != other)
			return false;
	return has(feed, one) || has(feed, other);
}

bool bc_feed_only_polyolefin(const struct bc_feed *feed)
{
	return only(feed, PLACE(polyethylene), PLACE(polypropylene));
}

bool bc_feed_only_petroleum(const struct bc_feed *feed)
{
	return only(feed, PLACE(petroleum), PLACE(petroleum)) && feed->unread[0] == '\0';
}

void bc_feed_append_names(const struct bc_feed *feed, struct bc_text *text)
{
	bool first = true;
	for (size_t i = 0; i < PLASTICS; i++) {
		if (!has(feed, plastics[i].offset))
			continue;
		bc_text_printf(text, "%s%s", first ? "" : " and ", plastics[i].plastic);
		first = false;
	}
}

enum { SETTLING_MAX = 2 };

/* Until what settles it was measured, a meaning has this weight and forbids these; after that it is
 * no more than a warning. Without anything that settles it, it stands. */
static const struct {
	size_t offset;
	const char *code;
	enum bc_weight weight;
	bool forbids_usable;
	bool forbids_rerun;
	const char *settled_by[SETTLING_MAX];
	const char *message;
	const char *advice;
} meanings[] = {
	{PLACE(pvc), "feed-pvc", BC_FINDING_DANGER, true, true, {"chlorine"},
		"The feed names PVC: hydrogen chloride forms, and chlorine stays in the oil.",
		"Have chlorine tested (combustion and ion chromatography) before any use; do not "
		"distil it again in plain steel or brass."},
	{PLACE(maybe_pvc), "feed-maybe-pvc", BC_FINDING_WARNING, true, false, {"chlorine"},
		"The feed names things that are often of PVC, such as cable: chlorine may be in "
		"the oil.",
		"Have chlorine tested (combustion and ion chromatography) before any use; a copper "
		"wire with feed on it that burns green tells PVC before the next run."},
	{PLACE(pet), "feed-pet", BC_FINDING_WARNING, true, false, {"acid_number"},
		"The feed names PET: terephthalic and benzoic acid (boiling at 249 degC) plug the "
		"condenser and corrode.",
		"Have the acid number measured (titration) before any use. Watch for white solids "
		"and for flow that stops while heat is on: then heat off."},
	{PLACE(polyamide), "feed-polyamide", BC_FINDING_DANGER, true, false, {"nitrogen"},
		"The feed names polyamide (nylon): hydrogen cyanide can form, and nitrogen stays "
		"in the oil.",
		"Have nitrogen tested (chemiluminescence) before any use; sort it out of the feed; "
		"treat gas from the retort as poisonous."},
	{PLACE(maybe_polyamide), "feed-maybe-polyamide", BC_FINDING_WARNING, true, false,
		{"nitrogen"},
		"The feed names fishing nets or lines: many are of polyamide (nylon), which brings "
		"hydrogen cyanide and nitrogen; others are of polyethylene.",
		"Have nitrogen tested (chemiluminescence) before any use; polyethylene floats on "
		"water, nylon sinks."},
	{PLACE(polyurethane), "feed-polyurethane", BC_FINDING_DANGER, true, false, {"nitrogen"},
		"The feed names polyurethane, such as soft foam: hydrogen cyanide and isocyanates can "
		"form.",
		"Have nitrogen tested (chemiluminescence) before any use; sort it out of the feed; "
		"treat gas from the retort as poisonous."},
	{PLACE(foam), "feed-foam", BC_FINDING_WARNING, true, false, {"nitrogen"},
		"The feed names foam, which may be polystyrene or polyurethane: of polyurethane, "
		"hydrogen cyanide and nitrogen come.",
		"Have nitrogen tested (chemiluminescence) before any use; stiff beads are "
		"polystyrene, soft foam is polyurethane."},
	{PLACE(mixture), "feed-mixture", BC_FINDING_WARNING, true, false, {"chlorine", "nitrogen"},
		"The feed is a mixture that nobody sorted: PVC, nylon and PET are likely in it.",
		"Have chlorine (ion chromatography) and nitrogen (chemiluminescence) tested before "
		"any use; sort the next feed."},
	{PLACE(abs), "feed-abs", BC_FINDING_DANGER, true, false, {"nitrogen"},
		"The feed names ABS or a kin of it: acrylonitrile and hydrogen cyanide can form.",
		"Have nitrogen tested (chemiluminescence) before any use; sort it out of the feed; "
		"treat gas from the retort as poisonous."},
	{PLACE(brominated), "feed-brominated", BC_FINDING_DANGER, true, true, {NULL},
		"The feed names flame-retarded or electrical casings: hydrogen bromide forms, and "
		"bromine stays in the oil.",
		"Do not burn this oil; sort such casings out of the feed."},
	{PLACE(ptfe), "feed-ptfe", BC_FINDING_DANGER, true, true, {NULL},
		"The feed names PTFE or a kin of it: its vapours are highly poisonous.",
		"Do not process it."},
	{PLACE(pom), "feed-pom", BC_FINDING_DANGER, true, true, {NULL},
		"The feed names POM (acetal): it falls apart into formaldehyde, all at once.",
		"Do not process it."},
	{PLACE(acrylic), "feed-acrylic", BC_FINDING_WARNING, false, false, {NULL},
		"The feed names acrylic: methyl methacrylate boils at 100.5 degC, and its shelf "
		"looks like one of water.",
		"Tell them apart by settling: water sinks and does not mix."},
	{PLACE(polystyrene), "feed-polystyrene", BC_FINDING_WARNING, false, false, {NULL},
		"The feed names polystyrene: the styrene in the oil polymerises when it is warm, "
		"about 2 % an hour above 100 degC, and can choke a still.",
		"Do not hold it on reflux, store it cool, use it within weeks."},
	{PLACE(polypropylene), "feed-polypropylene", BC_FINDING_NOTE, false, false, {NULL},
		"The feed names polypropylene: its oil is branched, and cetane indices read far "
		"too high for it. Its 2,4-dimethyl-1-heptene boils near 138 degC, where styrene "
		"does.",
		"Do not rely on the cetane index; have a cetane number measured before an engine."},
	{PLACE(tyre), "feed-tyre", BC_FINDING_WARNING, true, false, {"sulphur"},
		"The feed names tyres or rubber: such oil carries sulphur and is aromatic.",
		"Have sulphur tested (X-ray fluorescence) before any use."},
	{PLACE(lubricant), "feed-lubricant", BC_FINDING_WARNING, true, false, {"chlorine", "ash"},
		"The feed names motor oil or the like, which is no plastic: it brings metals, "
		"phosphorus, and often chlorine.",
		"Have chlorine (ion chromatography) and ash tested before any use."},
};

static bool settled(const char *const settled_by[SETTLING_MAX], const struct bc_sample *sample)
{
	if (!settled_by[0])
		return false;
	for (size_t i = 0; i < SETTLING_MAX && settled_by[i]; i++)
		if (!bc_sample_measured(sample, settled_by[i]))
			return false;
	return true;
}

static void tell_meaning(size_t i, const struct bc_sample *sample, struct bc_findings *findings)
{
	bool open = !settled(meanings[i].settled_by, sample);
	enum bc_weight weight = meanings[i].weight;
	if (!open && weight == BC_FINDING_DANGER)
		weight = BC_FINDING_WARNING;
	bc_findings_add(
		findings, meanings[i].code, weight, NAN, meanings[i].message, meanings[i].advice);
	bc_findings_forbid(
		findings, open && meanings[i].forbids_usable, open && meanings[i].forbids_rerun);
}

void bc_feed_findings(
	const struct bc_feed *feed, const struct bc_sample *sample, struct bc_findings *findings)
{
	for (size_t i = 0; i < sizeof meanings / sizeof meanings[0]; i++)
		if (has(feed, meanings[i].offset))
			tell_meaning(i, sample, findings);
	const char *advice = "Write down what went into the retort; sort PVC and PET out.";
	if (feed->known && feed->unread[0] != '\0')
		bc_findings_say(findings, "feed-words-unread", BC_FINDING_NOTE, NAN, advice,
			"Not recognised in the feed line: %s. What these bring into the oil is not "
			"considered.",
			feed->unread);
	if (feed->known)
		return;
	bc_findings_add(findings, "feed-unknown", BC_FINDING_NOTE, NAN,
		sample->feed ? "No plastic was recognised in the feed line: chlorine, nitrogen, "
			       "bromine and acids cannot be ruled out."
			     : "The feed is not stated: chlorine, nitrogen, bromine and acids "
			       "cannot be ruled out.",
		advice);
}
