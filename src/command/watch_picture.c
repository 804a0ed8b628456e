/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 'watch --picture': the curve so far as a gnuplot script, drawn anew after each reading. */
#include <string.h>

#include "base/file.h"
#include "base/memory.h"
#include "command/command.h"
#include "command/output.h"
#include "command/pictures.h"
#include "command/watch_run.h"
#include "report/report.h"

static const char *base_of(const char *path)
{
	const char *slash = strrchr(path, '/');
	return slash != NULL ? slash + 1 : path;
}

static bool ends(const char *path, const char *ending)
{
	size_t n = strlen(path);
	size_t m = strlen(ending);
	return n > m && strcmp(path + n - m, ending) == 0;
}

int watch_picture_check(const struct bc_arguments *arguments)
{
	const char *path = bc_arguments_value(arguments, "picture");
	if (path == NULL)
		return BC_EXIT_DONE;
	const char *base = base_of(path);
	size_t plain = strspn(base, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
				    "0123456789._-");
	bool known = ends(base, ".gp") || ends(base, ".svg") || ends(base, ".png");
	if (!known || plain != strlen(base) || base[0] == '-')
		return bc_wrong_usage(arguments->command,
			"'%s' is not a picture; expected a name of letters, digits and ._- that ends "
			"in .gp, .svg or .png",
			path);
	return BC_EXIT_DONE;
}

/* The script of picture.svg is picture.gp. */
static char *script_path(const char *path)
{
	const char *dot = strrchr(path, '.');
	char *stem = bc_strndup(path, (size_t)(dot - path));
	char *script = stem != NULL ? bc_format("%s.gp", stem) : NULL;
	bc_free(stem);
	return script;
}

static void run_gnuplot(struct watch_run *run, const char *script)
{
	const char *base = base_of(run->picture);
	char *folder = base == run->picture
			       ? bc_strdup(".")
			       : bc_strndup(run->picture, (size_t)(base - run->picture));
	if (folder == NULL)
		return;
	int state = bc_pictures_run(folder, base, base_of(script));
	run->no_gnuplot = state != 0;
	if (state == BC_PICTURES_NO_GNUPLOT)
		bc_complain("gnuplot is not installed, so the script alone is written");
	bc_free(folder);
}

void watch_picture_draw(struct watch_run *run)
{
	struct bc_text script;
	struct bc_diagnostics diagnostics;
	if (run->picture == NULL || !run->watching.judged)
		return;
	char *path = script_path(run->picture);
	if (path == NULL)
		return;
	bc_text_init(&script);
	bc_diagnostics_init(&diagnostics);
	enum bc_status status = bc_report_chart(run->watching.judgement, "curve", &script);
	if (!bc_failed(status))
		status = bc_file_write(path, script.data, script.length, &diagnostics);
	bc_print_diagnostics(&diagnostics);
	if (bc_failed(status))
		run->picture = NULL; /* said once; the readings matter more */
	else if (!ends(run->picture, ".gp") && !run->no_gnuplot)
		run_gnuplot(run, path);
	bc_diagnostics_release(&diagnostics);
	bc_text_release(&script);
	bc_free(path);
}
