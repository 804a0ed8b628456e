# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut judge --same' and '--control' as a person uses them.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
cp -R "$TOP/samples" .
a=samples/jar-27-a.csv
b=samples/jar-27-b.csv
c=samples/jar-27-c.csv
printf 'recovered (%%),head (C)\n5,12x\n' >bad.csv

run "$BOILCUT" judge --same $a $b
expect_status 'same: two runs' 0
expect_text 'same: one page' "$out" "$a + $b"
expect_text 'same: side by side' "$out" 'Runs side by side'
expect_text 'same: agreement' "$out" 'The 2 runs in the pool agree'
expect_text 'same: the word' "$out" 'VERDICT: usable'
expect_empty 'same: nothing on stderr' "$err"

run "$BOILCUT" judge --same $a $b $c
expect_status 'same: three runs' 0
expect_text 'same: the stranger is named' "$out" "$c does not belong with the other runs"
expect_text 'same: a lower front is not usable' "$out" 'VERDICT: undecided'
run "$BOILCUT" judge --same $a $b $c --want heating-oil-range
expect_status 'same: a negative answer counts' 1
run "$BOILCUT" judge --same $a $b $c --keep-all
expect_text 'same: kept' "$out" 'kept, as was wished'
expect_text 'same: ... but they disagree' "$out" 'the 3 runs disagree'

run "$BOILCUT" judge --same $a $c
expect_text 'same: two that disagree' "$out" 'the 2 runs disagree'
expect_text 'same: ... and what to do' "$out" 'Two runs cannot tell which is right'

run "$BOILCUT" judge --json --same $a $b $c
expect_status 'same: json' 0
[ "$(head -c 1 "$out")" = '{' ] && pass 'same: one object' || fail 'same: one object' "$(head -c 20 "$out")"
expect_text 'same: json runs' "$out" '"state": "left out",'
expect_text 'same: json repeatability' "$out" '"within_published": 12,'

run "$BOILCUT" judge --explain --same $a $b
expect_status 'same: explain' 0
expect_text 'same: explain, the spread' "$out" 'spread between the runs at 50 % ='
run "$BOILCUT" judge --explain $a
! grep -q 'between the runs' "$out" && pass 'explain: one run has no such spread' ||
	fail 'explain: one run has no such spread' "$(grep 'between the runs' "$out")"

# what a file says must not be lost beside others
sed 's/history,rerun/history,retort/; s/feed,PE crates/feed,PVC pipe/' $b >retort.csv
run "$BOILCUT" judge --same $a retort.csv
expect_text 'same: the worst history' "$out" 'DANGER - TREAT THIS JAR AS PETROL'
expect_text 'same: feeds joined' "$out" 'feed PE crates; PVC pipe'
expect_text 'same: ... and said' "$out" "the files differ in the history of the oil"
{ echo 'water in receiver,2 mL'; cat $b; } >wet.csv
run "$BOILCUT" judge --json --same $a wet.csv
expect_text 'same: water of one run' "$out" '"code": "water-shelf",'
expect_text 'same: ... with the run named' "$out" '"message": "wet.csv: '

# ... nor when its run is left out for a curve that does not belong
awk -F, -v OFS=, '/^(IBP|FBP|[0-9]+),/ { $2 += 19 } { print }' $b >far.csv
{ echo 'flash,31.7 C'; cat far.csv; } >cup.csv
run "$BOILCUT" judge --same $a $b far.csv
expect_text 'same: far is left out' "$out" 'far.csv does not belong with the other runs'
expect_text 'same: ... the others are usable' "$out" 'VERDICT: usable'
run "$BOILCUT" judge --same $a $b cup.csv
expect_text 'same: the cup is left out' "$out" 'cup.csv does not belong with the other runs'
expect_text 'same: ... its flash is not' "$out" '31.7 degC'
! grep -q 'VERDICT: usable' "$out" && pass 'same: ... and is never usable' ||
	fail 'same: ... and is never usable' "$(grep VERDICT "$out")"
{ echo 'apparatus,column 15 5'; cat $a; } >good-column.csv
{ echo 'apparatus,column 2 1'; cat $b; } >poor-column.csv
run "$BOILCUT" judge --same good-column.csv poor-column.csv
expect_status 'same: two columns' 3

run "$BOILCUT" judge --same $a bad.csv
expect_status 'same: a malformed run' 3
expect_empty 'same: no answer without it' "$out"
expect_text 'same: it is named' "$err" 'boilcut: bad.csv:2: '
run "$BOILCUT" judge --same $a missing.csv
expect_status 'same: a missing run' 4
run "$BOILCUT" judge --same $a
expect_status 'same: one file' 2
expect_text 'same: ... said' "$err" "'--same' needs runs to compare; expected 2 FILEs or more"
run "$BOILCUT" judge --same --control $a $b
expect_status 'same: with control' 2
run "$BOILCUT" judge --same --readings 'ibp 71, 5 112, 10 131, 50 200'
expect_status 'same: with readings' 2
sed 's/history,rerun/apparatus,tbp/' $b >tbp.csv
run "$BOILCUT" judge --same $a tbp.csv
expect_status 'same: two apparatus' 3
printf 'recovered (%%),head (C)\n1,171\n2,173\n3,174\n' >front.csv
run "$BOILCUT" judge --same $a front.csv
expect_status 'same: nothing in common' 3
expect_text 'same: ... said' "$err" 'the files do not overlap'

run "$BOILCUT" judge --control samples/control/*.csv
expect_status 'control: out is a no' 1
expect_text 'control: the word' "$out" 'CONTROL: out of its own limits'
expect_text 'control: the cause' "$out" 'All points moved alike'
expect_text 'control: what to do' "$out" 'melting ice'
expect_empty 'control: nothing on stderr' "$err"
run "$BOILCUT" judge --control samples/control/2026-0*.csv samples/control/2025*.csv
expect_status 'control: in' 0
expect_text 'control: in, by date' "$out" 'newest samples/control/2026-09-19.csv'
run "$BOILCUT" judge --control samples/control/2026-0[12]*.csv samples/control/2025-*.csv
expect_text 'control: too few' "$out" 'too few for limits of their own'
run "$BOILCUT" judge --json --control samples/control/*.csv
expect_status 'control: json' 1
expect_text 'control: json cause' "$out" '"cause": "'
expect_text 'control: json history' "$out" '"file": "samples/control/2025-11-08.csv"'
run "$BOILCUT" judge --control samples/control/2026-09-19.csv
expect_status 'control: no history' 2
run "$BOILCUT" judge --control --want diesel samples/control/*.csv
expect_status 'control: a wish' 2
expect_text 'control: ... said' "$err" "'--want' judges an oil; expected no --control beside it"
run "$BOILCUT" judge --control bad.csv samples/control/*.csv
expect_status 'control: a malformed run' 3
expect_empty 'control: no answer without it' "$out"

finish
