/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_COMMAND_PICTURES_H
#define BC_COMMAND_PICTURES_H

#include <stdbool.h>

#include "base/status.h"
#include "base/strings.h"
#include "base/text.h"
#include "judgement/judgement.h"

/* Where charts go, and what has been seen to on the way. */
struct bc_pictures {
	const char *folder;
	const char *only; /* a kind, or NULL for all */
	bool scripts_only;
	bool tell;               /* each written path on standard output */
	bool no_gnuplot;         /* found missing, and said */
	struct bc_strings names; /* taken, so that two samples of one name do not collide */
};

/* Makes the folder and those above it where they are missing. */
int bc_pictures_open(struct bc_pictures *pictures, const char *folder);
/* The scripts of one judgement, and its pictures where gnuplot is found. Returns an exit status. */
int bc_pictures_draw(struct bc_pictures *pictures, const struct bc_judgement *judgement);
/* A chart of something else: fills the script of one kind. */
typedef enum bc_status bc_picture_writer(
	const void *subject, const char *kind, struct bc_text *script);
/* The same for each of kinds (NULL last) of a subject that came from file. */
int bc_pictures_draw_all(struct bc_pictures *pictures, const char *file, const char *const *kinds,
	bc_picture_writer *write, const void *subject);
/* Has gnuplot draw picture by script, both names in folder without quotes in them. 0: drawn;
 * BC_PICTURES_NO_GNUPLOT: there is no gnuplot; else it failed, and this was said. */
#define BC_PICTURES_NO_GNUPLOT 127 /* as shells have it */
int bc_pictures_run(const char *folder, const char *picture, const char *script);
void bc_pictures_close(struct bc_pictures *pictures);

#endif
