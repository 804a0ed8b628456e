#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every file of this folder has one defect: judge must refuse it with the status and the message of
# expected.tsv (file, status, standard error) and print nothing else.
cd "$(dirname "$0")" || exit 1
. "${TOP:-../..}/tests/lib.sh"
: "${BOILCUT:?}"

tab=$(printf '\t')
while IFS=$tab read -r file wanted message; do
	run "$BOILCUT" judge "$file"
	name="tests/bad/$file"
	if [ "$status" -ne "$wanted" ]; then
		fail "$name" "status $status, expected $wanted"
	elif [ "$(cat "$err")" != "$message" ]; then
		fail "$name" "expected '$message', got '$(head -c 500 "$err")'"
	elif [ -s "$out" ]; then
		fail "$name" "something on standard output"
	else
		pass "$name"
	fi
done <expected.tsv

for file in *.csv; do
	grep -q "^$file$tab" expected.tsv || fail "tests/bad/$file" "not in expected.tsv"
done
finish
