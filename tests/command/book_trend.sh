# SPDX-License-Identifier: GPL-3.0-or-later
# Trends, comparisons, export and import of the record book, as a user runs them.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
BOILCUT_BOOK=$work/shed.db
export BOILCUT_BOOK
"$BOILCUT" book init >/dev/null

# thirty jars; from the 21st on 6 degrees higher
awk 'BEGIN {
	split("0.3 -2.1 1.4 -0.8 2.2 -1.7 0.9 -0.2 1.1 -1.9 2.6 -0.6 0.4 -1.2 1.8 -2.4 0.7 1.3 -0.9 0.1 " \
		"1.6 -1.1 0.2 2.3 -0.4 -1.6 1.2 0.6 -2.2 0.8", e, " ")
	for (i = 1; i <= 30; i++) {
		lift = e[i] + (i > 20 ? 6.3 : 0)
		file = sprintf("jar-%02d.csv", i)
		printf "sample,Jar %d\ndate,2026-09-%02d\nfeed,%s\nhistory,aired\nstill,%s\n\n", i, i,
			i % 2 ? "PP caps" : "PE crates", i % 3 ? "Copper" : "Steel" >file
		printf "recovered (%%),head (C)\nIBP,%.1f\n5,%.1f\n10,%.1f\n30,%.1f\n50,%.1f\n70,%.1f\n90,%.1f\nFBP,%.1f\n",
			171 + e[i], 192 + lift, 201 + lift, 221 + lift, 243 + lift, 269 + lift, 311 + lift, 347 + lift >file
		close(file)
	}
}'
run "$BOILCUT" book import .
expect_status 'import: a folder of samples' 0
expect_text 'import: each is told' "$out" 'Batch 30: '
run "$BOILCUT" book import .
expect_status 'import: again' 1
expect_text 'import: already there' "$err" 'already there: batch 30'

# ---- trend

run "$BOILCUT" book trend t50_c --baseline 20
expect_status 'trend' 0
expect_text 'trend: what it is of' "$out" 't50_c of 30 batches, 2026-09-01 to 2026-09-30'
expect_text 'trend: the shift' "$out" 'side    Batches 20 to 30'
expect_text 'trend: in words' "$out" 'the level has shifted up'
expect_text 'trend: of several feeds' "$out" 'Batches of several feeds'
expect_text 'trend: picture' "$out" 'upper limit'
expect_text 'trend: where the limits are from' "$out" 'from the first 20 batches, until 2026-09-20'
awk 'length($0) > 80 { found = 1 } END { exit found }' "$out" &&
	pass 'trend: 80 columns' || fail 'trend: 80 columns' "$(awk 'length($0) > 80' "$out")"
run "$BOILCUT" book trend t50_c --baseline 20 --rules limits
grep -q '^  side' "$out" && fail 'trend: rules' 'a rule that is off' || pass 'trend: rules'
run "$BOILCUT" book trend t50_c --baseline 20 --rules side --run 12
expect_text 'trend: length of a run' "$out" 'No drift'
run "$BOILCUT" book trend t50_c --feed caps --still copper --json
expect_status 'trend, JSON' 0
expect_text 'trend: feed and still' "$out" '"batches": 10'
expect_text 'trend: provisional' "$out" '"provisional": true'
run "$BOILCUT" book trend t50_c --until 2026-09-04
expect_text 'trend: too few' "$out" 'Too few batches for limits: 4'
run "$BOILCUT" book trend t50_c --sample 'jar 7'
expect_text 'trend: one sample' "$out" 't50_c of 1 batch,'
run "$BOILCUT" book trend t50_c --feed nothing
expect_status 'trend: none' 0
expect_text 'trend: none' "$out" 'of 0 batches'
run "$BOILCUT" book trend t51_c
expect_status 'trend: no such figure' 2
expect_text 'trend: no such figure' "$err" "did you mean 't50_c'?"
expect_empty 'trend: nothing on stdout' "$out"
for words in '--rules sides' '--run 2' '--baseline 3' '--from today' '--rise x'; do
	run "$BOILCUT" book trend t50_c $words
	expect_status "trend: $words" 2
done
run "$BOILCUT" book trend t50_c --charts charts
[ -s charts/t50_c-trend.gp ] && pass 'trend: chart' || fail 'trend: chart' "$(cat "$err")"

# ---- compare

run "$BOILCUT" book compare 1 2
expect_status 'compare' 0
expect_text 'compare: alike or in doubt' "$out" 'At 11 of 13 points'
run "$BOILCUT" book compare 16 24 --json
expect_status 'compare, JSON' 0
expect_text 'compare: a point' "$out" '"key": "t50_c"'
expect_text 'compare: a difference' "$out" '"difference": 11'
run "$BOILCUT" book compare 3 99
expect_status 'compare: no such batch' 1
expect_text 'compare: no such batch' "$err" 'no batch 99'
run "$BOILCUT" book compare 3
expect_status 'compare: one' 2
run "$BOILCUT" book compare 1 30 --charts charts
[ -s charts/batch-1-30-compare.gp ] && pass 'compare: chart' || fail 'compare: chart' "$(cat "$err")"

# ---- hostile names are text

nasty="=cmd|' /C x'!A1"
printf 'sample,"%s"\nfeed,"<b>''"; DROP TABLE batch;-- \033[31m`id`\nx"\ndate,2026-10-01\n\nrecovered (%%),head (C)\n5,190\n50,240\n90,320\n' \
	"$nasty" >evil.csv
run "$BOILCUT" book add evil.csv
"$BOILCUT" book note 31 "$(printf '\033[2J@x "y"\nz')"
run "$BOILCUT" book trend t50_c --feed DROP --charts charts
expect_text 'hostile: shown as text' "$out" 't50_c of 1 batch,'
grep -q "$(printf '\033')" "$out" && fail 'hostile: escapes' 'they reach the terminal' || pass 'hostile: escapes'
run "$BOILCUT" book compare 30 31 --charts charts
grep -q "$(printf '\033')" "$out" charts/*.gp && fail 'hostile: charts' 'escapes' || pass 'hostile: charts'
grep -q '`\|DROP' charts/batch-30-31-compare.gp && fail 'hostile: scripts' 'a command in it' || pass 'hostile: scripts'

# ---- export and import

run "$BOILCUT" book export whole
expect_status 'export' 0
expect_empty 'export: silent' "$out"
cmp -s jar-07.csv whole/originals/7-1-jar-07.csv && pass 'export: originals' || fail 'export: originals' 'differ'
if grep -rE '(^|,)"?[=+@-][^0-9]' whole/revision.csv whole/note.csv; then
	fail 'export: formulae' 'a cell that a spreadsheet runs'
else
	pass 'export: formulae'
fi
expect_text 'export: defused' whole/revision.csv "\"'$nasty\""
run "$BOILCUT" book export whole
expect_status 'export: a folder that is not empty' 4
"$BOILCUT" book init --book again.db >/dev/null
run "$BOILCUT" book import whole --book again.db
expect_status 'import' 0
expect_exactly 'import: what came in' "$out" '31 batches, as exported'
run "$BOILCUT" book export again --book again.db
diff -r whole again >diff.txt && pass 'there and back: the same' || fail 'there and back' "$(head -n 3 diff.txt)"
run "$BOILCUT" book verify --book again.db
expect_status 'there and back: whole, and judged the same' 0
run "$BOILCUT" book import whole --book again.db
expect_status 'import: into a book that is not empty' 3
expect_text 'import: into a book that is not empty' "$err" 'is not empty'

"$BOILCUT" book init --book third.db >/dev/null
cp -R whole hurt
sed 's/Copper/copper/' whole/revision.csv >hurt/revision.csv
run "$BOILCUT" book import hurt --book third.db
expect_status 'import: a changed table' 3
expect_exactly 'import: a changed table' "$err" \
	'boilcut: hurt/revision.csv: is not as it was written; expected a whole export'
rm -r hurt && cp -R whole hurt && rm hurt/originals/7-1-jar-07.csv
run "$BOILCUT" book import hurt --book third.db
expect_text 'import: a missing file' "$err" 'originals/7-1-jar-07.csv: is missing'
rm hurt/book.csv
run "$BOILCUT" book import hurt --book third.db
expect_text 'import: an export that broke off' "$err" 'book.csv: is missing'
run "$BOILCUT" book list --book third.db
expect_empty 'import: the book is as it was' "$out"
mkdir empty
run "$BOILCUT" book import empty --book third.db
expect_status 'import: an empty folder' 3
run "$BOILCUT" book import nowhere --book third.db
expect_status 'import: no folder' 4

run "$BOILCUT" book export batches.csv
expect_status 'export: one table' 0
[ "$(head -n 1 batches.csv | cut -d, -f1-5)" = batch,revision,added,day,file ] &&
	pass 'export: one table' || fail 'export: one table' "$(head -n 1 batches.csv)"
expect_text 'export: one table, defused' batches.csv "\"'$nasty\""

finish
