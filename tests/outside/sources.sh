#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The list of sources agrees with the list of formulae and the check files: 'make notes' renews it.
set -u
cd "$TOP" || exit 1

for file in tests/outside/*.failing; do
	[ -e "$file" ] && set -- "$@" "$file"
done
if "$BUILD"/tests/outside/run --sources tests/outside/*.chk "$@" |
	diff - standards-notes/SOURCES.md; then
	echo 'ok SOURCES.md is up to date'
else
	echo "not ok SOURCES.md is not up to date; run 'make notes'"
fi
