# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut judge' as a person uses it: one file, many files, wishes, JSON, colour, charts.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
good=$TOP/samples/lake-shed-14.csv
light=$TOP/samples/light-ends.csv
printf 'recovered (%%),head (C)\n5,12x\n' >bad.csv

run "$BOILCUT" judge "$good"
expect_status 'judge: a good file' 0
expect_text 'judge: the verdict' "$out" 'VERDICT: usable'
expect_text 'judge: cautions' "$out" 'Cautions'
expect_empty 'judge: nothing on stderr' "$err"

run "$BOILCUT" judge - <"$good"
expect_status 'judge: empty standard input' 3
expect_empty 'judge: nothing printed on refusal' "$out"
status=0
"$BOILCUT" judge - <"$good" >"$out" 2>"$err" || status=$?
expect_status 'judge: standard input' 0
expect_text 'judge: standard input is judged' "$out" 'Lake shed 14'

run "$BOILCUT" judge bad.csv
expect_status 'judge: a malformed file' 3
expect_empty 'judge: malformed, nothing on stdout' "$out"
expect_text 'judge: malformed, file and line' "$err" 'boilcut: bad.csv:2: '

run "$BOILCUT" judge missing.csv
expect_status 'judge: a missing file' 4
expect_exactly 'judge: missing, message' "$err" \
	'boilcut: missing.csv: cannot open: No such file or directory'

run "$BOILCUT" judge bad.csv "$good" missing.csv "$light"
expect_status 'judge: the greatest status of several' 4
expect_text 'judge: the others are judged' "$out" 'Lake shed 14'
expect_text 'judge: ... all of them' "$out" 'Lake shed 11'
expect_text 'judge: a failed one in its place' "$out" "bad.csv: not judged: line 2: "
expect_text 'judge: ... whatever failed' "$out" \
	'missing.csv: not judged: cannot open: No such file or directory'
if [ "$(grep -c '^====' "$out")" -eq 3 ]; then
	pass 'judge: one line between two pages'
else
	fail 'judge: one line between two pages' "$(grep -c '^====' "$out")"
fi

run "$BOILCUT" judge --json bad.csv
expect_status 'json: one malformed file' 3
expect_empty 'json: one malformed file prints nothing' "$out"

run "$BOILCUT" judge --json "$good"
expect_status 'json: one file' 0
expect_text 'json: an object' "$out" '{'
[ "$(head -c 1 "$out")" = '{' ] && pass 'json: starts as an object' || fail 'json: starts as an object' "$(head -c 20 "$out")"
expect_text 'json: six digits' "$out" '"corrected_c": 213.956,'

run "$BOILCUT" judge --json "$good" bad.csv "$good"
expect_status 'json: several' 3
expect_exactly 'json: starts as an array' "$(head -n 1 "$out" >first; echo first)" '['
expect_exactly 'json: ends as an array' "$(tail -n 1 "$out" >last; echo last)" ']'
[ "$(grep -c '^  },$' "$out")" -eq 2 ] && [ "$(grep -c '^\[$' "$out")" -eq 1 ] &&
	pass 'json: commas between' || fail 'json: commas between' "$(grep -n '^[^ ]\|^  }' "$out")"
expect_text 'json: the failed one names itself' "$out" '"file": "bad.csv",'
expect_text 'json: ... and its error' "$out" '"error": "line 2: '
[ "$(grep -c '^  {' "$out")" -eq 3 ] && pass 'json: three elements' || fail 'json: three elements' "$(grep -c '^  {' "$out")"

printf '%s\r\n\n%s' "$good" "$light" >list
run "$BOILCUT" judge --files-from list
expect_status 'files-from: both' 0
expect_text 'files-from: the second' "$out" 'Lake shed 11'
status=0
"$BOILCUT" judge --files-from - <list >"$out" 2>"$err" || status=$?
expect_status 'files-from: standard input' 0
: >none
run "$BOILCUT" judge --files-from none
expect_status 'files-from: an empty list' 2
printf 'a\0b' >nul
run "$BOILCUT" judge --files-from nul
expect_status 'files-from: not text' 3

run "$BOILCUT" judge --readings 'ibp 171, 5 184, 10 190, 50 222, 90 262, fbp 284'
expect_status 'readings: judged' 0
expect_text 'readings: a verdict' "$out" 'VERDICT: '
run "$BOILCUT" judge --readings '5 1x2'
expect_status 'readings: malformed' 3
expect_empty 'readings: malformed, nothing printed' "$out"

run "$BOILCUT" judge --json --readings '5 100, 10 120, 50 200, 90 300'
expect_text 'readings: the name of their file' "$out" '"file": "readings"'
run "$BOILCUT" judge --readings '5 100, 10 120'
expect_status 'readings: too few' 3
grep -q '^boilcut: readings: ' "$err" && pass 'readings: too few, who says it' ||
	fail 'readings: too few, who says it' "$(cat "$err")"
run "$BOILCUT" judge --charts of-readings --readings '5 100, 10 120, 50 200, 90 300'
[ -s of-readings/readings-curve.gp ] && pass 'readings: charts' || fail 'readings: charts' missing

run "$BOILCUT" judge --want heating-oil-range "$good"
expect_status 'want: met' 0
run "$BOILCUT" judge --want gasoline "$good"
expect_status 'want: not met' 1
expect_text 'want: the page stands all the same' "$out" 'gasoline-range'
run "$BOILCUT" judge --standard 'din 51603' "$good"
expect_status 'standard: the beginning of a name, any case' 0
expect_text 'standard: that one is held against it' "$out" 'DIN 51603-1'
run "$BOILCUT" judge --standard 'EN 228 class A' "$good"
expect_status 'standard: not met' 1

run "$BOILCUT" judge --colour always "$good"
grep -q "$(printf '\033')" "$out" && pass 'colour: always' || fail 'colour: always' 'none'
run "$BOILCUT" judge --colour never "$good"
grep -q "$(printf '\033')" "$out" && fail 'colour: never' 'some' || pass 'colour: never'
run "$BOILCUT" judge "$good"
grep -q "$(printf '\033')" "$out" && fail 'colour: not into a file' 'some' || pass 'colour: not into a file'

run "$BOILCUT" judge --fits "$good"
expect_text 'fits: all families' "$out" 'AICc'

run "$BOILCUT" judge --explain "$good"
expect_status 'explain: one file' 0
expect_text 'explain: the verdict stands above' "$out" 'VERDICT: usable'
expect_text 'explain: a figure' "$out" '  flash_t10_c = 88.0763 degC (56.8417 to 94.4472)'
expect_text 'explain: ... and its way' "$out" '      flash.t10_api: t10_c 228.868 degC; '
expect_text 'explain: a formula without a value in print' "$out" '  watson_k = 12.2496 (12.2072 to 12.2924) *'
expect_text 'explain: the sources' "$out" '  cetane.d4737a: ASTM D4737-10 procedure A'
expect_text 'explain: why no claim' "$("$BOILCUT" judge --explain "$TOP/samples/from-retort.csv" >why; echo why)" \
	'no low bound is claimed: straight'
# what it shows, 'boilcut formula eval' computes
"$BOILCUT" judge --explain --json "$light" >light.json
run "$BOILCUT" formula eval flash.t10_api "t10_c=$(sed -n '/"formula": "flash.t10_api"/,/}/s/.*"t10_c": //p' light.json)"
shown=$(sed -n '/"formula": "flash.t10_api"/,/"unit"/s/.*"result": \([0-9.]*\),/\1/p' light.json)
awk -v shown="$shown" '{ apart = $1 - shown; exit !(shown > 0 && apart < 0.001 && apart > -0.001) }' "$out" &&
	pass 'explain: the formula evaluated' || fail 'explain: the formula evaluated' "$(cat "$out"), not $shown"
run "$BOILCUT" judge --json "$good"
grep -q '"explain"' "$out" && fail 'explain: only when asked for' 'found' || pass 'explain: only when asked for'
run "$BOILCUT" judge --explain --json bad.csv "$good"
expect_text 'explain: in the array too' "$out" '    "explain": ['
run "$BOILCUT" judge --explain "$good" "$light"
expect_text 'explain: several files' "$out" 'Lake shed 11'
run "$BOILCUT" judge "$good"
expect_text 'footnote: a mark' "$out" 'estimated *'
expect_text 'footnote: its words' "$out" '  * no value in print was found to check this formula; '

run "$BOILCUT" judge --charts charts/deep "$good" "$good"
expect_status 'charts: written' 0
for name in lake-shed-14-curve.gp lake-shed-14-2-shares.gp; do
	[ -s "charts/deep/$name" ] && pass "charts: $name" || fail "charts: $name" 'missing'
done

sed 's/,55,,yes,degC/,77.7,,yes,degC/' "$TOP/standards-notes/limits.csv" >own.csv
run "$BOILCUT" judge --limits own.csv --standard 'EN 590' "$good"
expect_text 'limits: from a file' "$out" 'above 77.7 degC'
run "$BOILCUT" judge "$light"
expect_text 're-run: the numbers stand under the verdict' "$(sed -n '/^VERDICT/,/^$/p' "$out" >top; echo top)" \
	'Change jars when your thermometer shows '
expect_text 're-run: the end of the product' top 'Stop '
run "$BOILCUT" judge --limits bad.csv "$good"
expect_status 'limits: malformed' 3
expect_empty 'limits: malformed, nothing printed' "$out"

# a slip: left out and named, or with --keep-all named alone
sed 's/^50,272$/50,227/' "$good" >slip.csv
run "$BOILCUT" judge --json slip.csv
expect_text 'slip: named' "$out" '272.0 C, with two digits swapped, would fit'
grep -q '"used": false' "$out" && pass 'slip: left out' || fail 'slip: left out' 'used'
run "$BOILCUT" judge --json --keep-all slip.csv
expect_text 'keep-all: named all the same' "$out" 'kept as asked'
grep -q '"used": false' "$out" && fail 'keep-all: kept' 'left out' || pass 'keep-all: kept'
# ---- draws
run "$BOILCUT" judge --json "$good"
cp "$out" first.json
run "$BOILCUT" judge --json "$good"
cmp -s "$out" first.json && pass 'draws: the same bytes again' || fail 'draws: the same bytes again' 'other ones'
expect_text 'draws: how many' "$out" '"draws": 1000'
run "$BOILCUT" judge --json --seed 5 "$good"
cmp -s "$out" first.json && fail 'draws: another seed' 'the same bytes' || pass 'draws: another seed'
run "$BOILCUT" judge --json --draws 0 "$good"
expect_text 'draws: none' "$out" '"draws": 0'
expect_text 'draws: none, so no doubt is told' "$out" '"doubt": null'
printf 'history,rerun\nbarometer,101.3 kPa\nthermometer,glass d86\n%s\n' \
	'recovered (%),head (C)' IBP,166 5,194 10,205 20,224 30,238 40,249 50,261 60,272 70,284 \
	80,298 90,316 95,330 FBP,344 >near.csv
run "$BOILCUT" judge --standard 'EN 590 temperate' near.csv
expect_text 'draws: the doubt is told' "$out" 'What would settle it: '

# ---- many files: the order of the files whatever the cores, and the bytes of each alone
mkdir -p crew
: >alone
for i in 1 2 3 4 5 6 7 8 9; do
	sed "s/^50,.*/50,27$i.5/" "$good" >crew/$i.csv
	[ $i = 4 ] && echo nonsense >crew/4.csv
	[ $i = 4 ] || "$BOILCUT" judge --draws 200 crew/$i.csv >>alone 2>/dev/null
done
run "$BOILCUT" judge --draws 200 crew/*.csv
expect_status 'many: the worst status' 3
grep -v -e '^=====' -e '^$' -e 'not judged' "$out" >together
grep -v -e '^$' alone >apart
cmp -s together apart && pass 'many: each as alone, in order' || fail 'many: each as alone, in order' "$(diff together apart | head -5)"
expect_text 'many: one that is refused' "$out" 'crew/4.csv: not judged: '

finish
