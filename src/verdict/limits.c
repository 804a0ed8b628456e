/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of limits: a strict reader of its CSV, and what the program knows of its properties. */
#include "verdict/limits.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/csv.h"
#include "base/memory.h"
#include "base/number.h"
#include "base/table.h"

const char *const bc_grade_texts[BC_GRADES] = {
	[BC_GRADE_GASOLINE] = "gasoline-range",
	[BC_GRADE_WHITE_SPIRIT] = "white-spirit-range",
	[BC_GRADE_KEROSENE] = "kerosene-range",
	[BC_GRADE_DIESEL] = "diesel-range",
	[BC_GRADE_HEATING_OIL] = "heating-oil-range",
	[BC_GRADE_MARINE] = "marine-range",
	[BC_GRADE_COMPARISON] = "comparison",
};

enum column {
	COLUMN_GRADE,
	COLUMN_STANDARD,
	COLUMN_EDITION,
	COLUMN_PROPERTY,
	COLUMN_BASIS,
	COLUMN_MIN,
	COLUMN_MAX,
	COLUMN_STRICT,
	COLUMN_UNIT,
	COLUMN_METHOD,
	COLUMN_ROLE,
	COLUMN_IN_FORCE,
	COLUMN_JUDGED,
	COLUMN_SEEN,
	COLUMN_NOTE,
	COLUMNS
};

static const char *const column_names[COLUMNS] = {"grade", "standard", "edition", "property",
	"basis", "min", "max", "strict", "unit", "method", "role", "in_force", "judged", "seen",
	"note"};

static const char *const role_words[] = {"judge", "safety", "customs", "other-test"};
static const char *const seen_words[] = {"seen-twice", "seen", "memory"};
static const char *const yes_no_words[] = {"no", "yes"};
static const char *const basis_words[] = {"", "recovered", "evaporated"};

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* Units as the limits of each property are held; a share by mass may also be written in %m/m. */
static const struct {
	const char *id;
	const char *name;
	const char *unit;
} properties[] = {
	{"flash_point", "flash point", "degC"},
	{"density", "density at 15 degC", "kg/m3"},
	{"kin_viscosity", "viscosity at 40 degC", "mm2/s"},
	{"kin_viscosity_20C", "viscosity at 20 degC", "mm2/s"},
	{"kin_viscosity_m20C", "viscosity at -20 degC", "mm2/s"},
	{"cetane_index", "cetane index", "-"},
	{"cetane_index_d976", "cetane index by D976", "-"},
	{"cetane_number", "cetane number", "-"},
	{"IBP", "initial boiling point", "degC"},
	{"FBP", "final boiling point", "degC"},
	{"distillation_residue", "residue in the flask", "%V/V"},
	{"distillation_loss", "loss of the boil-off", "%V/V"},
	{"driveability_index", "driveability index", "degC"},
	{"sulphur", "sulphur", "mg/kg"},
	{"mercaptan_sulphur", "mercaptan sulphur", "mg/kg"},
	{"chlorine", "chlorine", "mg/kg"},
	{"nitrogen", "nitrogen", "mg/kg"},
	{"water", "water", "mg/kg"},
	{"water_by_volume", "water", "%V/V"},
	{"water_and_sediment", "water and sediment", "%V/V"},
	{"total_contamination", "total contamination", "mg/kg"},
	{"total_sediment", "total sediment", "mg/kg"},
	{"thermal_sediment", "sediment after heating", "mg/kg"},
	{"carbon_residue", "carbon residue", "mg/kg"},
	{"char_value", "char value", "mg/kg"},
	{"ash", "ash", "mg/kg"},
	{"ash_and_solids", "ash and suspended solids", "mg/kg"},
	{"copper_strip", "copper strip", "class"},
	{"oxidation_stability", "oxidation stability", "g/m3"},
	{"induction_period", "oxidation stability, induction", "min"},
	{"existent_gum", "existent gum", "mg/100mL"},
	{"lubricity_wsd", "lubricity, wear scar", "um"},
	{"acid_number", "acid number", "mgKOH/g"},
	{"CFPP", "cold filter plugging point", "degC"},
	{"cloud_point", "cloud point", "degC"},
	{"pour_point", "pour point", "degC"},
	{"freezing_point", "freezing point", "degC"},
	{"smoke_point", "smoke point", "mm"},
	{"burning_quality", "burning quality in a lamp", "-"},
	{"vapour_pressure_DVPE", "vapour pressure", "kPa"},
	{"vapour_lock_index", "vapour lock index", "-"},
	{"RON", "research octane number", "-"},
	{"MON", "motor octane number", "-"},
	{"benzene", "benzene", "%V/V"},
	{"olefins", "olefins", "%V/V"},
	{"styrene", "styrene", "mg/kg"},
	{"total_aromatics", "aromatics", "mg/kg"},
	{"poly_aromatics", "polycyclic aromatics", "mg/kg"},
	{"fame_content", "fatty acid methyl esters", "%V/V"},
};

/* Ids with a number in them. */
enum family { FAMILY_TEMP, FAMILY_E, FAMILY_RECOVERED, FAMILY_EVAPORATED, FAMILIES };

static const struct {
	const char *before;
	const char *after;
	const char *unit;
	double most;
} families[] = {
	[FAMILY_TEMP] = {"T", "", "degC", 99.0},
	[FAMILY_E] = {"E", "", "%V/V", 400.0},
	[FAMILY_RECOVERED] = {"recovered_at_", "C", "%V/V", 400.0},
	[FAMILY_EVAPORATED] = {"evaporated_at_", "C", "%V/V", 400.0},
};

static size_t digits(const char *s)
{
	size_t n = 0;
	while (s[n] >= '0' && s[n] <= '9')
		n++;
	return n;
}

/* The family that the id belongs to, or FAMILIES. */
static enum family family_of(const char *property, double *number)
{
	for (enum family i = FAMILY_TEMP; i < FAMILIES; i++) {
		size_t before = strlen(families[i].before);
		if (strncmp(property, families[i].before, before) != 0)
			continue;
		const char *s = property + before;
		size_t n = digits(s);
		if (n < 1 || n > 3 || strcmp(s + n, families[i].after) != 0)
			continue;
		*number = 0.0;
		for (size_t j = 0; j < n; j++)
			*number = 10.0 * *number + (double)(s[j] - '0');
		if (*number >= 1.0 && *number <= families[i].most)
			return i;
	}
	*number = NAN;
	return FAMILIES;
}

static size_t find_word(const char *word, const char *const *words, size_t n)
{
	size_t i = 0;
	while (i < n && strcmp(word, words[i]) != 0)
		i++;
	return i;
}

static size_t find_property(const char *property)
{
	size_t i = 0;
	while (i < COUNT(properties) && strcmp(property, properties[i].id) != 0)
		i++;
	return i;
}

static const char *unit_of(const char *property)
{
	double number;
	size_t i = find_property(property);
	if (i < COUNT(properties))
		return properties[i].unit;
	enum family family = family_of(property, &number);
	return family < FAMILIES ? families[family].unit : NULL;
}

bool bc_limit_property_known(const char *property) { return unit_of(property) != NULL; }

const char *bc_limit_property_unit(const char *property) { return unit_of(property); }

bool bc_limit_follows_boiling(const char *property)
{
	static const char *const following[] = {"flash_point", "density", "kin_viscosity",
		"kin_viscosity_20C", "kin_viscosity_m20C", "cetane_index", "cetane_index_d976",
		"cetane_number", "IBP", "FBP", "driveability_index", "CFPP", "cloud_point",
		"pour_point", "freezing_point", "smoke_point", "burning_quality",
		"vapour_pressure_DVPE", "RON", "MON", "benzene", "styrene", "total_aromatics",
		"poly_aromatics"};
	return find_property(property) >= COUNT(properties) ||
	       find_word(property, following, COUNT(following)) < COUNT(following);
}

double bc_limit_property_number(const char *property)
{
	double number;
	family_of(property, &number);
	return number;
}

void bc_limit_property_text(const char *property, char *text, size_t size)
{
	size_t i = find_property(property);
	if (i < COUNT(properties)) {
		snprintf(text, size, "%s", properties[i].name);
		return;
	}
	double number;
	switch (family_of(property, &number)) {
	case FAMILY_TEMP:
		snprintf(text, size, "%g %% point", number);
		break;
	case FAMILY_E:
	case FAMILY_EVAPORATED:
		snprintf(text, size, "share evaporated at %g degC", number);
		break;
	case FAMILY_RECOVERED:
		snprintf(text, size, "share recovered at %g degC", number);
		break;
	case FAMILIES:
		snprintf(text, size, "%s", property);
	}
}

bool bc_limit_counts(const struct bc_limit *limit, bool measured)
{
	/* gas oil: 85 % at 350 degC; EN 590, BS 2869, DIN 51603-1 */
	double heavy_line_c = 350.0;
	switch (limit->role) {
	case BC_ROLE_JUDGE:
	case BC_ROLE_SAFETY:
		return true;
	case BC_ROLE_CUSTOMS:
		if (limit->grade == BC_GRADE_COMPARISON)
			return true;
		return bc_limit_property_number(limit->property) == heavy_line_c;
	case BC_ROLE_OTHER_TEST:
		return measured;
	}
	return false;
}

const char *bc_standard_scope(const char *standard)
{
	if (strncmp(standard, "EN 15940", strlen("EN 15940")) == 0)
		return "covers fuels from synthesis and hydrotreatment only: an oil from plastic "
		       "that was not hydrogenated may fit its density window and is never within "
		       "its scope";
	return NULL;
}

bool bc_standard_asked_for(
	enum bc_grade_name name, const char *of, enum bc_grade_name want, const char *standard)
{
	if (name == BC_GRADE_COMPARISON || bc_standard_scope(of) != NULL)
		return false;
	if (standard != NULL && strcmp(of, standard) != 0)
		return false;
	return want == BC_GRADES || name == want;
}

bool bc_limits_first_of_standard(const struct bc_limits *limits, size_t i)
{
	if (!limits->items[i].in_force)
		return false;
	/* backwards, since the rows of a standard mostly stand together */
	for (size_t j = i; j-- > 0;) {
		if (limits->items[j].in_force &&
			strcmp(limits->items[j].standard, limits->items[i].standard) == 0)
			return false;
	}
	return true;
}

/* ---- reading */

struct table_reader {
	const char *name;
	struct bc_diagnostics *diagnostics;
	struct bc_limits *limits;
	const struct bc_csv_row *row;
};

static enum bc_status refuse(
	const struct table_reader *reader, const char *what, const char *cell, const char *expected)
{
	bc_diagnose(reader->diagnostics, BC_ERROR, reader->name, reader->row->line,
		"%s '%s'; expected %s", what, cell, expected);
	return BC_MALFORMED;
}

static enum bc_status read_word(const struct table_reader *reader, enum column column,
	const char *const *words, size_t n, const char *expected, size_t *index)
{
	const char *cell = reader->row->fields[column];
	*index = find_word(cell, words, n);
	if (*index < n)
		return BC_OK;
	char what[40];
	snprintf(what, sizeof what, "unknown %s", column_names[column]);
	return refuse(reader, what, cell, expected);
}

static enum bc_status read_number(
	const struct table_reader *reader, enum column column, double *value)
{
	const char *cell = reader->row->fields[column];
	*value = NAN;
	if (*cell == '\0' || bc_number_parse(cell, '.', value))
		return BC_OK;
	char what[40];
	snprintf(what, sizeof what, "%s is not a number:", column_names[column]);
	return refuse(reader, what, cell, "a number with a decimal point, or nothing");
}

static enum bc_status read_words(const struct table_reader *reader, struct bc_limit *limit)
{
	size_t grade = 0;
	size_t role = 0;
	size_t seen = 0;
	size_t strict = 0;
	size_t in_force = 0;
	size_t judged = 0;
	size_t basis = 0;
	enum bc_status status = read_word(reader, COLUMN_GRADE, bc_grade_texts, BC_GRADES,
		"gasoline-range, white-spirit-range, kerosene-range, diesel-range, "
		"heating-oil-range, marine-range or comparison",
		&grade);
	if (status == BC_OK)
		status = read_word(reader, COLUMN_BASIS, basis_words, COUNT(basis_words),
			"recovered, evaporated or nothing", &basis);
	if (status == BC_OK)
		status = read_word(reader, COLUMN_STRICT, yes_no_words, COUNT(yes_no_words),
			"yes or no", &strict);
	if (status == BC_OK)
		status = read_word(reader, COLUMN_ROLE, role_words, COUNT(role_words),
			"judge, safety, customs or other-test", &role);
	if (status == BC_OK)
		status = read_word(reader, COLUMN_IN_FORCE, yes_no_words, COUNT(yes_no_words),
			"yes or no", &in_force);
	if (status == BC_OK)
		status = read_word(reader, COLUMN_JUDGED, yes_no_words, COUNT(yes_no_words),
			"yes or no", &judged);
	if (status == BC_OK)
		status = read_word(reader, COLUMN_SEEN, seen_words, COUNT(seen_words),
			"seen-twice, seen or memory", &seen);
	limit->grade = (enum bc_grade_name)grade;
	limit->role = (enum bc_limit_role)role;
	limit->seen = (enum bc_seen)seen;
	limit->strict = strict == 1;
	limit->in_force = in_force == 1;
	limit->judged = judged == 1;
	return status;
}

static enum bc_status check_property(const struct table_reader *reader)
{
	const char *property = reader->row->fields[COLUMN_PROPERTY];
	const char *unit = reader->row->fields[COLUMN_UNIT];
	const char *basis = reader->row->fields[COLUMN_BASIS];
	const char *known = unit_of(property);
	if (known == NULL)
		return refuse(reader, "unknown property", property,
			"an id such as flash_point, density, T95, E70 or recovered_at_250C");
	bool mass = strcmp(known, "mg/kg") == 0;
	if (strcmp(unit, known) != 0 && !(mass && strcmp(unit, "%m/m") == 0))
		return refuse(reader, "wrong unit", unit, known);
	double number;
	enum family family = family_of(property, &number);
	if (family == FAMILY_TEMP && *basis == '\0')
		return refuse(reader, "no basis for", property, "recovered or evaporated");
	if ((family == FAMILY_E || family == FAMILY_EVAPORATED) && strcmp(basis, "evaporated") != 0)
		return refuse(reader, "wrong basis", basis, "evaporated");
	if (family == FAMILY_RECOVERED && strcmp(basis, "recovered") != 0)
		return refuse(reader, "wrong basis", basis, "recovered");
	/* the driveability index is made of points of the curve */
	if (family == FAMILIES && *basis != '\0' && strcmp(property, "driveability_index") != 0)
		return refuse(
			reader, "a basis for", property, "none, since it is no point of the curve");
	return BC_OK;
}

/* A share lies within 0 and 100 %. */
static bool no_share(double limit) { return limit < 0.0 || limit > 100.0; }

static enum bc_status read_range(const struct table_reader *reader, struct bc_limit *limit)
{
	enum bc_status status = read_number(reader, COLUMN_MIN, &limit->min);
	if (status == BC_OK)
		status = read_number(reader, COLUMN_MAX, &limit->max);
	if (status != BC_OK)
		return status;
	if (limit->min > limit->max)
		return refuse(reader, "min above max", reader->row->fields[COLUMN_MIN],
			"a min that is not above the max");
	if (reader->row->fields[COLUMN_UNIT][0] == '%' &&
		(no_share(limit->min) || no_share(limit->max)))
		return refuse(
			reader, "no share for", reader->row->fields[COLUMN_PROPERTY], "0 to 100 %");
	if (isnan(limit->min) && isnan(limit->max) && limit->role != BC_ROLE_OTHER_TEST)
		return refuse(reader, "no limit for", reader->row->fields[COLUMN_PROPERTY],
			"a min, a max or both");
	return BC_OK;
}

/* A flash limit decides what may stand beside a flame: it is a minimum, and of safety. */
static enum bc_status check_flash(const struct table_reader *reader, const struct bc_limit *limit)
{
	bool flash = strcmp(reader->row->fields[COLUMN_PROPERTY], "flash_point") == 0;
	if (!flash || limit->grade == BC_GRADE_COMPARISON)
		return BC_OK;
	if (limit->role != BC_ROLE_SAFETY)
		return refuse(reader, "wrong role for flash_point",
			reader->row->fields[COLUMN_ROLE], "safety");
	if (isnan(limit->min))
		return refuse(reader, "no min for", "flash_point", "the least flash point");
	return BC_OK;
}

/* Against the rows read so far. */
static enum bc_status check_standing(
	const struct table_reader *reader, const struct bc_limit *limit)
{
	const char *const *fields = (const char *const *)reader->row->fields;
	if (*fields[COLUMN_STANDARD] == '\0')
		return refuse(reader, "no standard", "", "the name of a standard");
	if (*fields[COLUMN_EDITION] == '\0')
		return refuse(reader, "no edition of", fields[COLUMN_STANDARD], "an edition");
	for (size_t i = 0; i < reader->limits->n; i++) {
		const struct bc_limit *old = &reader->limits->items[i];
		if (strcmp(old->standard, fields[COLUMN_STANDARD]) != 0)
			continue;
		if (old->grade != limit->grade)
			return refuse(reader, "second grade for", old->standard,
				"one grade for each standard");
		if (old->judged != limit->judged)
			return refuse(reader, "judged differs for", old->standard,
				"yes or no for a standard as a whole");
		if (old->in_force && limit->in_force &&
			strcmp(old->property, fields[COLUMN_PROPERTY]) == 0 &&
			strcmp(old->basis, fields[COLUMN_BASIS]) == 0)
			return refuse(reader, "second limit in force for", old->property,
				"one row in force for each property of a standard");
	}
	return BC_OK;
}

static void release_limit(struct bc_limit *limit)
{
	bc_free(limit->standard);
	bc_free(limit->edition);
	bc_free(limit->property);
	bc_free(limit->basis);
	bc_free(limit->unit);
	bc_free(limit->method);
	bc_free(limit->note);
}

static enum bc_status copy_texts(const struct table_reader *reader, struct bc_limit *limit)
{
	char *const *fields = reader->row->fields;
	limit->standard = bc_strdup(fields[COLUMN_STANDARD]);
	limit->edition = bc_strdup(fields[COLUMN_EDITION]);
	limit->property = bc_strdup(fields[COLUMN_PROPERTY]);
	limit->basis = bc_strdup(fields[COLUMN_BASIS]);
	limit->unit = bc_strdup(fields[COLUMN_UNIT]);
	limit->method = bc_strdup(fields[COLUMN_METHOD]);
	limit->note = bc_strdup(fields[COLUMN_NOTE]);
	if (limit->standard != NULL && limit->edition != NULL && limit->property != NULL &&
		limit->basis != NULL && limit->unit != NULL && limit->method != NULL &&
		limit->note != NULL)
		return BC_OK;
	release_limit(limit);
	return BC_NO_MEMORY;
}

static enum bc_status read_row(const struct table_reader *reader)
{
	if (reader->row->n != COLUMNS) {
		bc_diagnose(reader->diagnostics, BC_ERROR, reader->name, reader->row->line,
			"%zu cells; expected %d", reader->row->n, (int)COLUMNS);
		return BC_MALFORMED;
	}
	struct bc_limit limit = {0};
	enum bc_status status = read_words(reader, &limit);
	if (status == BC_OK)
		status = check_property(reader);
	if (status == BC_OK)
		status = read_range(reader, &limit);
	if (status == BC_OK)
		status = check_flash(reader, &limit);
	if (status == BC_OK)
		status = check_standing(reader, &limit);
	if (status == BC_OK)
		status = copy_texts(reader, &limit);
	if (status == BC_OK)
		reader->limits->items[reader->limits->n++] = limit;
	return status;
}

static enum bc_status check_header(const struct table_reader *reader)
{
	for (size_t i = 0; i < COLUMNS; i++) {
		const char *cell = i < reader->row->n ? reader->row->fields[i] : "";
		if (strcmp(cell, column_names[i]) != 0)
			return refuse(reader, "unexpected column", cell, column_names[i]);
	}
	return BC_OK;
}

static enum bc_status read_rows(struct table_reader *reader, const struct bc_csv *csv)
{
	bool header = false;
	for (size_t i = 0; i < csv->n; i++) {
		reader->row = &csv->rows[i];
		if (reader->row->n > 0 && reader->row->fields[0][0] == '#')
			continue;
		enum bc_status status = header ? read_row(reader) : check_header(reader);
		if (status != BC_OK)
			return status;
		header = true;
	}
	if (reader->limits->n > 0)
		return BC_OK;
	bc_diagnose(reader->diagnostics, BC_ERROR, reader->name, 0,
		"no limits; expected a header row and one row a limit");
	return BC_MALFORMED;
}

enum bc_status bc_limits_read(const char *text, size_t n, const char *name,
	struct bc_diagnostics *diagnostics, struct bc_limits **limits)
{
	*limits = NULL;
	struct bc_csv csv;
	size_t bad_line;
	enum bc_status status = bc_csv_parse(text, n, ',', &csv, &bad_line);
	if (status == BC_MALFORMED)
		bc_diagnose(diagnostics, BC_ERROR, name, bad_line,
			"a quote is not closed; expected a quote at the end of the cell");
	if (bc_failed(status))
		return status;
	struct bc_limits *read = bc_alloc(sizeof *read);
	if (read != NULL)
		read->items = bc_alloc_array(csv.n + 1, sizeof *read->items);
	if (read == NULL || read->items == NULL) {
		status = BC_NO_MEMORY;
		goto done;
	}
	struct table_reader reader = {name, diagnostics, read, NULL};
	status = read_rows(&reader, &csv);
	if (status == BC_OK) {
		*limits = read;
		read = NULL;
	}
done:
	bc_limits_free(read);
	bc_csv_release(&csv);
	return status;
}

enum bc_status bc_limits_default(struct bc_diagnostics *diagnostics, struct bc_limits **limits)
{
	*limits = NULL;
	const struct bc_table *table = bc_table_find("limits");
	if (table == NULL)
		return BC_NOT_FOUND;
	char *text = bc_table_text(table);
	if (text == NULL)
		return BC_NO_MEMORY;
	enum bc_status status =
		bc_limits_read(text, strlen(text), "limits.csv", diagnostics, limits);
	bc_free(text);
	return status;
}

void bc_limits_free(struct bc_limits *limits)
{
	if (limits == NULL)
		return;
	for (size_t i = 0; i < limits->n; i++)
		release_limit(&limits->items[i]);
	bc_free(limits->items);
	bc_free(limits);
}
