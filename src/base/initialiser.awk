# SPDX-License-Identifier: GPL-3.0-or-later
# Turns the data rows of a CSV file into C initialisers: numbers bare, empty fields NAN, other text
# quoted. The header row and lines that start with # are skipped.

function cell(s, was_quoted,    out, i, c) {
	if (!was_quoted) {
		gsub(/^[ \t]+|[ \t]+$/, "", s)
		if (s == "")
			return "NAN"
		if (s ~ /^[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?$/)
			return number(s)
	}
	out = ""
	for (i = 1; i <= length(s); i++) {
		c = substr(s, i, 1)
		if (c == "\\" || c == "\"" || c == "?")
			out = out "\\"
		out = out c
	}
	return "\"" out "\""
}

# A leading zero would make C read an octal number.
function number(s,    sign) {
	sign = ""
	if (s ~ /^[-+]/) {
		sign = substr(s, 1, 1) == "-" ? "-" : ""
		s = substr(s, 2)
	}
	while (s ~ /^0[0-9]/)
		s = substr(s, 2)
	return sign s
}

{
	sub(/\r$/, "")
}

FNR == 1 {
	sub(/^\357\273\277/, "")
}

/^#/ || /^[ \t]*$/ {
	next
}

!header_seen {
	header_seen = 1
	next
}

{
	row = "{ "
	field = ""
	inside = was_quoted = 0
	n = length($0)
	for (i = 1; i <= n + 1; i++) {
		c = substr($0, i, 1)
		if (inside && c == "\"" && substr($0, i + 1, 1) == "\"") {
			field = field c
			i++
		} else if (c == "\"" && (inside || field == "")) {
			inside = !inside
			was_quoted = 1
		} else if (i > n || (c == "," && !inside)) {
			row = row cell(field, was_quoted) (i > n ? " }," : ", ")
			field = ""
			was_quoted = 0
		} else {
			field = field c
		}
	}
	print row
}
