#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The program against a second, independent writing of the same formulae in Python.
. "$TOP/tests/lib.sh"

if ! command -v python3 >/dev/null; then
	pass "reference # skipped: no python3"
	finish
fi
PYTHONDONTWRITEBYTECODE=1 PYTHONPATH=$TOP/tests/reference
export PYTHONDONTWRITEBYTECODE PYTHONPATH

if python3 "$TOP/tests/reference/program.py" "$BOILCUT" "$TOP/samples/lake-shed-14.csv" \
	"$TOP/samples/lamp-oil.csv" "$TOP/samples/diesel-near-limit.csv" \
	"$TOP/samples/light-ends.csv" >"$work/lines" 2>"$work/trouble"; then
	cat "$work/lines"
	failures=$((failures + $(grep -c '^not ok' "$work/lines")))
else
	fail "reference" "$(tail -n 1 "$work/trouble")"
fi
finish
