/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FEED_H
#define BC_FUEL_FEED_H

#include <stdbool.h>

#include "base/text.h"
#include "curve/finding.h"
#include "sample/sample.h"

#define BC_FEED_UNREAD_SIZE 96

/* What the words of a feed line say went into the retort. */
struct bc_feed {
	bool known; /* anything was recognised */
	bool polyethylene;
	bool polypropylene;
	bool polystyrene;
	bool pvc;
	bool maybe_pvc; /* cable, hose */
	bool pet;
	bool polyamide;
	bool maybe_polyamide; /* fishing nets */
	bool polyurethane;
	bool foam;    /* polyurethane or polystyrene */
	bool mixture; /* of household plastics or the like */
	bool abs;
	bool brominated;
	bool ptfe;
	bool pom;
	bool acrylic;
	bool tyre;
	bool lubricant;                   /* motor oil and its kin: no plastic */
	bool petroleum;                   /* a fuel from a pump: no plastic */
	char unread[BC_FEED_UNREAD_SIZE]; /* words that mean nothing here, comma between them */
};
/*
 * feed may be NULL. Whole words and phrases, case-blind, by standards-notes/feed-words.csv: "PP and
 * PE bottle caps". Letters and digits make a word; a hyphen joins two ("PE-HD") or parts them. A
 * word after "no" or "without", up to the next comma or "but", is not counted.
 */
void bc_feed_read(const char *feed, struct bc_feed *found);

/* Whether the feed named this plastic, by the words of standards-notes/feed-words.csv. */
bool bc_feed_names(const struct bc_feed *feed, const char *plastic);

/* True when the feed named polyethylene or polypropylene, and nothing else. */
bool bc_feed_only_polyolefin(const struct bc_feed *feed);
/* ... and the same of a fuel from a pump. */
bool bc_feed_only_petroleum(const struct bc_feed *feed);

/* The plastics that were named, one " and " between two: "polyethylene and polypropylene". */
void bc_feed_append_names(const struct bc_feed *feed, struct bc_text *text);

/* What the feed means for the oil. A plastic that brings chlorine, nitrogen, acids or sulphur
 * forbids "usable" until the sample says that these were measured, and PVC and the like a re-run
 * too. */
void bc_feed_findings(
	const struct bc_feed *feed, const struct bc_sample *sample, struct bc_findings *findings);

#endif
