# SPDX-License-Identifier: GPL-3.0-or-later
# Turns CSV files into C: each line a string, each file a struct bc_table.

function quoted(s,    out, i, c) {
	out = ""
	for (i = 1; i <= length(s); i++) {
		c = substr(s, i, 1)
		if (c == "\\" || c == "\"" || c == "?")
			out = out "\\"
		out = out c
	}
	return "\"" out "\""
}

function finish() {
	if (files > 0)
		print "};\n"
}

BEGIN {
	files = 0
	print "/* Made from standards-notes/ by src/base/tables.awk. */"
	print "#include \"base/table.h\"\n"
}

FNR == 1 {
	finish()
	name = FILENAME
	sub(/^.*\//, "", name)
	sub(/\.csv$/, "", name)
	names[files] = name
	print "static const char *const lines_" files "[] = {"
	files++
}

{
	sub(/\r$/, "")
	print "\t" quoted($0) ","
	counts[files - 1]++
}

END {
	finish()
	print "const struct bc_table bc_tables[] = {"
	for (i = 0; i < files; i++)
		print "\t{" quoted(names[i]) ", lines_" i ", " counts[i] "},"
	print "\t{0, 0, 0},"
	print "};\n"
	print "const size_t bc_tables_count = " files + 0 ";"
}
