# SPDX-License-Identifier: GPL-3.0-or-later
# For shell tests: . "$TOP/tests/lib.sh"; run checks; end with 'finish'.

work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM
failures=0

pass() {
	echo "ok $1"
}

fail() { # name, why
	echo "not ok $1: $2"
	failures=$((failures + 1))
}

# run COMMAND...: leaves $out, $err (files) and $status
out=$work/out
err=$work/err
run() {
	status=0
	"$@" >"$out" 2>"$err" </dev/null || status=$?
}

expect_status() { # name, status
	if [ "$status" -eq "$2" ]; then
		pass "$1"
	else
		fail "$1" "status $status, expected $2; $(head -n 3 "$err")"
	fi
}

expect_text() { # name, file, fixed text that a line of it holds
	if grep -q -F -- "$3" "$2"; then
		pass "$1"
	else
		fail "$1" "no '$3' in: $(head -n 5 "$2")"
	fi
}

expect_exactly() { # name, file, whole text without the last newline
	if [ "$(cat "$2")" = "$3" ]; then
		pass "$1"
	else
		fail "$1" "expected '$3', got '$(head -c 500 "$2")'"
	fi
}

expect_empty() { # name, file
	if [ -s "$2" ]; then
		fail "$1" "expected nothing, got '$(head -c 500 "$2")'"
	else
		pass "$1"
	fi
}

finish() {
	[ "$failures" -eq 0 ]
	exit
}
