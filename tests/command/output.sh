# SPDX-License-Identifier: GPL-3.0-or-later
# A result that does not arrive is a failure: full disk, closed streams, a reader that goes away.
. "$TOP/tests/lib.sh"

good=$TOP/samples/lake-shed-14.csv

if [ -w /dev/full ]; then
	for words in "judge $good" "judge --json $good $good" 'limits' 'formula list' 'help' '--version' \
		"tidy $good"; do
		status=0
		# shellcheck disable=SC2086
		"$BOILCUT" $words >/dev/full 2>"$err" || status=$?
		expect_status "full disk: ${words%% *}" 4
		expect_exactly "full disk: ${words%% *} says so once" "$err" \
			'boilcut: standard output: No space left on device'
	done
fi

status=0
"$BOILCUT" judge "$good" >&- 2>"$err" || status=$?
expect_status 'closed standard output' 4
expect_exactly 'closed standard output: message' "$err" \
	'boilcut: standard output: Bad file descriptor'
status=0
"$BOILCUT" judge - <&- >"$out" 2>"$err" || status=$?
expect_status 'closed standard input' 4
status=0
"$BOILCUT" judge --nonsense >"$out" 2>&- || status=$?
expect_status 'closed standard error' 2

status=0
(trap '' PIPE; "$BOILCUT" limits --json 2>"$err"; echo $? >"$work/rc") | head -n 1 >"$out"
rc=$(cat "$work/rc")
case $rc in
0 | 4) pass 'a reader that goes away, signal ignored' ;;
*) fail 'a reader that goes away, signal ignored' "status $rc" ;;
esac
lines=$(wc -l <"$err")
[ "$lines" -le 1 ] && pass 'one line about it at most' || fail 'one line about it at most' "$lines"

finish
