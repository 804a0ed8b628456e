# SPDX-License-Identifier: GPL-3.0-or-later
# The program itself killed while it adds, and two of it adding at once: every batch that was
# acknowledged is there. tests/unit/book/test_kill.c does the same to the library, many times more.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
BOILCUT_BOOK=$work/book.db
export BOILCUT_BOOK
rounds=10
each=10
[ -z "${BOILCUT_LONG:-}" ] || rounds=100 each=100

jars() { # prefix, count: files that differ
	i=0
	while [ "$i" -lt "$2" ]; do
		sed "s/^sample,.*/sample,Jar $1 $i/" "$TOP/samples/lake-shed-14.csv" >"$1-$i.csv"
		i=$((i + 1))
	done
}

run "$BOILCUT" book init
expect_status 'init' 0

round=0
while [ "$round" -lt "$rounds" ]; do
	jars "round$round" 8
	"$BOILCUT" book add round$round-*.csv >acknowledged 2>/dev/null &
	pid=$!
	sleep "0.0$((round * 7 % 10))"
	kill -9 $pid 2>/dev/null
	wait $pid 2>/dev/null
	sed -n 's/^Batch \([0-9]*\): .*; \(.*\)/\1 \2/p' acknowledged >>all-acknowledged
	round=$((round + 1))
done
run "$BOILCUT" book verify
expect_status 'killed: whole' 0
"$BOILCUT" book list --json | tr -d '\n' | sed 's/}, *{/}\n{/g' |
	sed 's/.*"batch": \([0-9]*\),.*"file": "\([^"]*\)".*/\1 \2/' | sort >there
sort all-acknowledged | comm -23 - there >missing
expect_empty 'killed: what was acknowledged is there' missing
batches=$(wc -l <there)
[ "$batches" -le $((rounds * 8)) ] && [ "$batches" -ge "$(wc -l <all-acknowledged)" ] &&
	pass 'killed: number of batches' || fail 'killed: number of batches' "$batches"

jars left "$each"
jars right "$each"
"$BOILCUT" book add left-*.csv >left 2>left-errors &
"$BOILCUT" book add right-*.csv >right 2>right-errors
right_status=$?
wait $!
left_status=$?
[ $left_status -eq 0 ] && [ $right_status -eq 0 ] &&
	pass 'two at once: both end well' || fail 'two at once: both end well' "$(cat left-errors right-errors)"
run "$BOILCUT" book list --text 'left'
left=$(grep -c 'Jar left' "$out")
run "$BOILCUT" book list --text 'right'
right=$(grep -c 'Jar right' "$out")
[ "$left" -eq "$each" ] && [ "$right" -eq "$each" ] &&
	pass 'two at once: all there' || fail 'two at once: all there' "$left and $right"
run "$BOILCUT" book verify
expect_status 'two at once: whole' 0

finish
