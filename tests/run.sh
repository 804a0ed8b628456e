#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs test programs and scripts (arguments, each a command line) and counts their lines 'ok ...'
# and 'not ok ...'. Only what failed is shown; the last line is 'N passed, N failed'.
set -u

TOP=$PWD
case $BUILD in /*) ;; *) BUILD=$TOP/$BUILD ;; esac
BOILCUT=$BUILD/boilcut
BOILCUT_FAULTY=$BUILD/faulty/boilcut
CMOCKA_MESSAGE_OUTPUT=TAP
export TOP BUILD BOILCUT BOILCUT_FAULTY CMOCKA_MESSAGE_OUTPUT
# what a test must not depend on
unset NO_COLOR BOILCUT_FAULT

logs=$(mktemp -d) || exit 1
trap 'rm -rf "$logs"' EXIT
trap 'exit 1' HUP INT TERM
export logs

for test in "$@"; do
	printf '%s\0' "$test"
done | xargs -0 -P "$(getconf _NPROCESSORS_ONLN)" -n 1 sh -c '
	log=$(mktemp "$logs/XXXXXX")
	case $1 in *.sh) set -- "sh $1" ;; esac
	timeout 900 sh -c "exec $1" >"$log" 2>&1 </dev/null
	status=$?
	printf "%s\n%s\n" "$1" "$status" >"$log.end"' run

passed=0
failed=0
for end in "$logs"/*.end; do
	[ -e "$end" ] || continue
	log=${end%.end}
	name=$(sed -n '1s/ .*\.chk$/ .../;1p' "$end")
	status=$(sed -n 2p "$end")
	grep -a -i '^\(not \)\?ok.*# *skip' "$log" | sed "s|^|$name: |"
	sed -i '/^\(not \)\?ok.*# *skip/Is/^/# /' "$log"
	ok=$(grep -a -c '^ok' "$log")
	bad=$(grep -a -c '^not ok' "$log")
	skipped=$(grep -a -c '^# .*ok.*# *[sS][kK][iI][pP]' "$log")
	if [ "$status" -ne 0 ] && [ "$bad" -eq 0 ]; then
		bad=1
		echo "not ok $name: ended with status $status"
	elif [ $((ok + bad + skipped)) -eq 0 ]; then
		bad=1
		echo "not ok $name: no test ran"
	fi
	if [ "$bad" -gt 0 ]; then
		echo "$name:"
		grep -a -v '^ok\|^1\.\.' "$log" | sed 's/^/    /' | head -n 200
	fi
	passed=$((passed + ok))
	failed=$((failed + bad))
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
