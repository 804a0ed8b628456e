#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# House rules that no compiler knows: allocation, locale and numbers go through base/, every file
# carries its licence, no function is longer than 60 lines.
set -u
cd "$(dirname "$0")/../.." || exit 1

found=0
complain() {
	echo "rules: $1" >&2
	found=1
}

sources=$(find src -name '*.[ch]' | sort)

forbid() { # what, functions, file excepted
	calls=$(echo "$sources" | grep -v -x -F "$3" |
		xargs grep -n -E "(^|[^A-Za-z0-9_.>])($2) ?\(" /dev/null |
		grep -v -E ':[0-9]+:[ 	]*(/\*|\*)') && complain "$1:
$calls"
}

forbid 'allocates past base/memory' 'malloc|calloc|realloc|free|strdup|strndup|getline|asprintf' \
	src/base/memory.c
forbid 'reads numbers past base/number' 'strtod|strtof|atof|atoi|sscanf' src/base/number.c
forbid 'opens for writing past base/file' 'fopen|creat|mkstemp' src/base/file.c
forbid 'sets the locale' 'setlocale|uselocale' -

for file in $(find src tests .ci Makefile -name '*.[ch]' -o -name '*.sh' -o -name '*.awk' \
	-o -name '*.py' -o -name Makefile -o -path '.ci/*'); do
	head -n 2 "$file" | grep -q 'SPDX-License-Identifier: GPL-3.0-or-later' ||
		complain "$file: no SPDX line"
done

long=$(echo "$sources" | xargs awk '
	FNR == 1 { start = 0 }
	/^[A-Za-z_]/ { head = FNR }
	/^\{/ { start = head }
	/^\}/ { if (start && FNR - start >= 60) print FILENAME ":" start ": " FNR - start + 1 " lines"
		start = 0 }')
[ -z "$long" ] || complain "functions over 60 lines:
$long"
exit "$found"
