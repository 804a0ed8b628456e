#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Proves the order of the rooms: a folder of src/ includes itself and those before it in the list;
# only report/, command/ and boilcut.c print; only command/ and boilcut.c exit.
set -u
cd "$(dirname "$0")/../.." || exit 1

rooms='base sample curve fuel verdict still judgement book report command'
found=0

complain() {
	echo "layers: $1" >&2
	found=1
}

# code of a file without its one-line comments, each line led by FILE:LINE:
code() {
	awk '{ line = $0; gsub(/\/\*[^*]*\*\//, "", line); gsub(/"([^"\\]|\\.)*"/, "\"\"", line)
		if (line !~ /^[ \t]*\/?\*/) print FILENAME ":" FNR ": " line }' "$1"
}

forbid() { # file, what it does, functions
	calls=$(code "$1" | grep -E "(^|[^A-Za-z0-9_])($3)[ ]?\(") && complain "$2:
$calls"
}

allowed=
for room in $rooms; do
	allowed="$allowed $room"
	for file in src/"$room"/*.[ch]; do
		[ -e "$file" ] || continue
		for included in $(sed -n 's/^ *# *include *"\(.*\)".*/\1/p' "$file"); do
			case $included in
			*.inc | *.def) continue ;;
			*/*) ;;
			*) complain "$file includes '$included'; write it from src/" ;;
			esac
			case " $allowed " in
			*" ${included%%/*} "*) ;;
			*) complain "$file includes '$included' of a room above" ;;
			esac
		done
		case $room/$file in
		report/* | command/* | */src/base/file.c) ;;
		*) forbid "$file" "prints" \
			'printf|vprintf|puts|putchar|fprintf|vfprintf|fputs|fputc|putc|perror|fwrite' ;;
		esac
		case $room in
		command) ;;
		*) forbid "$file" "exits" 'exit|_exit|_Exit|quick_exit|abort' ;;
		esac
	done
done
exit "$found"
