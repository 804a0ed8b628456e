#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The table of how well each formula is held agrees with the check files: 'make notes' renews it.
set -u
cd "$TOP" || exit 1

for file in tests/outside/*.failing; do
	[ -e "$file" ] && set -- "$@" "$file"
done
if "$BUILD"/tests/outside/run --table tests/outside/*.chk "$@" |
	diff - standards-notes/formula-checks.csv; then
	echo 'ok formula-checks.csv is up to date'
else
	echo "not ok formula-checks.csv is not up to date; run 'make notes'"
fi
