/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_FUEL_FEED_H
#define BC_FUEL_FEED_H

#include <stdbool.h>

#include "curve/finding.h"

/* What the words of a feed line say went into the retort. */
struct bc_feed {
	bool known; /* any plastic was recognised */
	bool polyethylene;
	bool polypropylene;
	bool polystyrene;
	bool pvc;
	bool pet;
	bool polyamide;
	bool polyurethane;
	bool abs;
	bool brominated;
	bool ptfe;
	bool pom;
	bool acrylic;
	bool tyre;
};
/*
 * feed may be NULL. Whole words, case-blind, by standards-notes/feed-words.csv: "PP and PE bottle
 * caps". Letters and digits make a word and a hyphen joins two ("PE-HD" is tried whole, then in
 * parts). A word after "no" or "without", up to the next comma or "but", is not counted.
 */
void bc_feed_read(const char *feed, struct bc_feed *found);

/* True when the feed named nothing but polyethylene and polypropylene. */
bool bc_feed_only_polyolefin(const struct bc_feed *feed);

/* stated: the sample had a feed line. */
void bc_feed_findings(const struct bc_feed *feed, bool stated, struct bc_findings *findings);

#endif
