/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BC_SAMPLE_SAMPLE_H
#define BC_SAMPLE_SAMPLE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/diagnostic.h"
#include "base/status.h"
#include "base/strings.h"
#include "base/text.h"

#define BC_SAMPLE_LIMIT_BYTES ((size_t)64 * 1024 * 1024)

#define BC_CHARGE_ML 100.0 /* unless stated: the charge of ASTM D86, from memory */

enum bc_thermometer {
	BC_THERMOMETER_NOT_STATED,
	BC_THERMOMETER_GLASS_D86,
	BC_THERMOMETER_GLASS_PARTIAL,
	BC_THERMOMETER_GLASS_TOTAL,
	BC_THERMOMETER_PROBE
};

enum bc_history { BC_HISTORY_UNKNOWN, BC_HISTORY_RETORT, BC_HISTORY_RERUN, BC_HISTORY_AIRED };

enum bc_apparatus { BC_APPARATUS_FLASK, BC_APPARATUS_COLUMN, BC_APPARATUS_TBP, BC_APPARATUS_STILL };

enum bc_amount_basis {
	BC_AMOUNT_VOLUME_PCT,
	BC_AMOUNT_MASS_PCT,
	BC_AMOUNT_VOLUME_ML,
	BC_AMOUNT_MASS_G
};

enum bc_reading_kind { BC_READING_IBP, BC_READING_AMOUNT, BC_READING_FBP, BC_READING_DRY };

/* A row of the table, as written. NaN where a cell is empty or the column is missing. */
struct bc_reading {
	enum bc_reading_kind kind;
	double amount; /* in the sample's amount_basis; NaN for end points */
	double head_c; /* observed */
	double pot_c;
	double time_s;
	char *note; /* or NULL */
	size_t line;
};

/* A property measured elsewhere, in the unit that base/units holds its quantity in. */
struct bc_measured {
	const char
		*property; /* the property id of the limit tables: "flash_point", "sulphur", ... */
	double value;
	double temp_c; /* "@ 40 C"; NaN where none was written */
	bool open_cup; /* flash only: kept, never replaces the estimate */
	char rating;   /* copper strip only: the letter of "1a"; NUL where none was written */
	size_t line;
};

/* A key that is kept as it was written. */
struct bc_kept {
	char *key;
	char *value;
	bool understood; /* false: shown once as not understood */
	size_t line;
};

/* What one sample file says. Text is NULL and numbers are NaN where the file is silent. */
struct bc_sample {
	char *file;
	char *name; /* key "sample" */
	char *date;
	char *operator_name;
	char *feed;
	char *note;
	char *still; /* the still meant for the re-run */
	char *drawn;
	char *stored_since;
	enum bc_history history;

	double charge_ml; /* 100 unless stated */
	bool charge_stated;
	bool charge_ml_computed; /* from the mass and the density, then counts as stated */
	bool charge_g_computed;  /* from the volume and the density */
	double charge_g;         /* key "charge mass", or charge in g */
	double distillate_g;     /* key "distillate mass" */
	double residue_g;        /* key "residue mass" */
	double residue_ml;
	double loss_ml;
	double water_ml;    /* key "water in receiver" */
	double residue_pct; /* stated in percent of the charge; then the mL are NaN */
	double loss_pct;
	double water_pct;
	double condenser_c;
	double density_kgm3;
	double density_step_kgm3; /* half of its last written digit; NaN without density */
	double density_temp_c;    /* NaN: 15 degC is meant */

	double barometer_kpa; /* station pressure */
	double altitude_m;
	double water_boils_c; /* as this thermometer reads boiling water; gives the pressure */
	enum bc_thermometer thermometer;
	double immersion_c; /* glass total: the scale mark down to which the stem is in the vapour
			     */
	double ice_c;       /* as this thermometer reads melting ice; calibration */
	double steam_c;     /* as this thermometer reads boiling water; calibration */
	/* 95 % half-widths that take the place of the program's own; NaN: not stated */
	double reading_error_c;
	double volume_error_ml; /* of each reading of the receiver */
	double rest_error_ml;   /* of residue and of loss */
	double pressure_error_kpa;
	double density_error_kgm3;

	enum bc_apparatus apparatus;
	double column_stages; /* "column N R": N counts the pot */
	double column_reflux;
	char *apparatus_still; /* a still of the book */

	double jar_from_c; /* head readings of the run between which this jar was filled */
	double jar_to_c;
	double jar_to_pot_c; /* "jar to,340 C pot" */
	double plastic_in_g;
	double oil_out_g;
	double oil_out_ml;
	double char_g;

	enum bc_amount_basis amount_basis;
	struct bc_reading *readings; /* in the order of the file */
	size_t n_readings;

	struct bc_measured *measured;
	size_t n_measured;
	struct bc_kept *kept;
	size_t n_kept;

	struct bc_strings assumed; /* what the file left open: "no unit in 'temp': degC" */
};

/*
 * bc_sample_read - a sample from the bytes of a file (design section 5)
 *
 * Given     bytes, n     the whole file; separators , ; tab, decimal point or comma, UTF-8 with
 *                        or without BOM, LF CRLF or CR
 *           file         its name, for messages and sample->file
 * Returned  *sample      owned by the caller; NULL on failure
 * Status    BC_MALFORMED refused: one error in diagnostics says the line, what is wrong and what
 *                        was expected; BC_NO_MEMORY
 * Notes     1. separator and decimal mark are decided once, from the whole file: the separator
 *              is the one with which a header row stands above a reading; decimal points and
 *              decimal commas in one file are refused
 *           2. a number without unit is in the unit of base/units; a density below 2 is in g/mL, a
 *              time in min; each is listed in assumed; a barometer needs its unit unless it reads
 *              50 to 110 (kPa)
 *           3. key rows may also stand below the table; text that is no UTF-8 is read as
 *              Windows-1252, and said
 *           4. a charge in g and a density give charge_ml, and readings in g with a density give
 *              charge_g; a table in percent evaporated becomes recovered by the loss
 *           5. unknown keys become warnings in diagnostics, once each, and are kept; of a key given
 *              twice the later counts, a value that cannot be is left out, each with a warning
 *           6. control characters and directional marks are left out, with one warning
 */
enum bc_status bc_sample_read(const char *bytes, size_t n, const char *file,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample);

/* The same of a sheet that is still to be filled in: it may hold fewer than three percent readings,
 * or none, but no amounts evaporated. *head_unit is that of its head column. */
struct bc_unit;
enum bc_status bc_sample_read_sheet(const char *bytes, size_t n, const char *file,
	struct bc_diagnostics *diagnostics, struct bc_sample **sample,
	const struct bc_unit **head_unit);

/* A sample from a line such as "ibp 71, 5 112.5, 10 131, fbp 682 F": percent, and degC where no
 * unit stands behind a temperature. */
enum bc_status bc_sample_from_line(
	const char *line, struct bc_diagnostics *diagnostics, struct bc_sample **sample);

void bc_sample_free(struct bc_sample *sample);

/* The sample in canonical form: read again and written again it is the same to the byte. */
enum bc_status bc_sample_write(const struct bc_sample *sample, struct bc_text *text);

/* A commented sample file to fill in; readable by bc_sample_read once the readings are in. */
enum bc_status bc_sample_template(struct bc_text *text);

/* The measured property so called ("flash_point", ...; closed cup only for flash), or NULL. */
const struct bc_measured *bc_sample_measured(const struct bc_sample *sample, const char *property);

const char *bc_history_text(enum bc_history history);
const char *bc_thermometer_text(enum bc_thermometer thermometer);

#endif
