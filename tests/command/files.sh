# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut new', 'tidy', 'limits' and 'formula'.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
good=$TOP/samples/lake-shed-14.csv

run "$BOILCUT" new jar.csv
expect_status 'new: written' 0
expect_empty 'new: says nothing' "$out"
[ -s jar.csv ] && pass 'new: the file' || fail 'new: the file' 'missing'
cp jar.csv before
run "$BOILCUT" new jar.csv
expect_status 'new: exists' 2
expect_text 'new: exists, message' "$err" \
	"boilcut: 'jar.csv' exists already; expected the name of a new file"
cmp -s jar.csv before && pass 'new: left alone' || fail 'new: left alone' 'changed'
run "$BOILCUT" new -
cmp -s "$out" before && pass 'new: standard output' || fail 'new: standard output' 'differs'
run "$BOILCUT" new no/such/folder.csv
expect_status 'new: no such folder' 4

run "$BOILCUT" tidy "$good"
expect_status 'tidy: printed' 0
cp "$out" once.csv
run "$BOILCUT" tidy once.csv
cmp -s "$out" once.csv && pass 'tidy: twice is once' || fail 'tidy: twice is once' 'differs'
cp "$good" own.csv
run "$BOILCUT" tidy -i own.csv
expect_status 'tidy: in place' 0
expect_empty 'tidy: in place says nothing' "$out"
cmp -s own.csv once.csv && pass 'tidy: in place is the same' || fail 'tidy: in place is the same' 'differs'
printf 'no table\n' >bad.csv
run "$BOILCUT" tidy --in-place bad.csv
expect_status 'tidy: malformed' 3
expect_exactly 'tidy: malformed is left alone' bad.csv 'no table'
run "$BOILCUT" tidy -i -
expect_status 'tidy: no place to replace' 2

run "$BOILCUT" limits
expect_status 'limits: all' 0
expect_text 'limits: a standard' "$out" 'diesel-range: EN 590'
run "$BOILCUT" limits kerosene
expect_status 'limits: the beginning of a grade' 0
expect_text 'limits: its own' "$out" 'kerosene-range: BS 2869'
grep -q 'EN 590' "$out" && fail 'limits: no other' 'EN 590' || pass 'limits: no other'
run "$BOILCUT" limits --json diesel-range
expect_status 'limits: JSON' 0
expect_text 'limits: JSON keys' "$out" '"standard": "EN 590'

expect_text 'limits: what customs lines are' "$out" '"role": "customs"'
run "$BOILCUT" limits --standard 'din 51603'
expect_text 'limits: one standard' "$out" 'heating-oil-range: DIN 51603-1'
expect_text 'limits: customs explained' "$out" 'customs: a line that decides the duty'
expect_text 'limits: memory explained' "$out" 'look it up before relying on it'
grep -q 'BS 2869' "$out" && fail 'limits: that one alone' 'BS 2869' || pass 'limits: that one alone'
run "$BOILCUT" limits --grade heating
expect_text 'limits: --grade' "$out" 'heating-oil-range: BS 2869 class D'
run "$BOILCUT" limits --from-memory --json
expect_text 'limits: from memory' "$out" '"seen": "from memory"'
run "$BOILCUT" limits --from-memory --standard 'jet a'
expect_text 'limits: not in force, from memory' "$out" 'not in force from memory'
run "$BOILCUT" limits --standard 'EN 590'
expect_text 'limits: one of several' "$out" 'diesel-range: EN 590 temperate A-C'
expect_text 'limits: which of several' "$err" \
	"boilcut: 'EN 590' is taken for 'EN 590 temperate A-C', which is judged without being asked for; there is also 'EN 590 temperate D-F', "
run "$BOILCUT" limits --standard 'en 590 temperate a'
expect_empty 'limits: no choice, no word' "$err"
run "$BOILCUT" limits --from-memory --json
grep '"seen"' "$out" | grep -qv 'from memory' && fail 'limits: memory alone' 'others' || pass 'limits: memory alone'

run "$BOILCUT" formula list
expect_status 'formula: list' 0
expect_text 'formula: an id with its unit' "$out" 'flash.t10_api'
run "$BOILCUT" formula show flash.t10_api
expect_status 'formula: show' 0
expect_text 'formula: source' "$out" 'source  '
expect_text 'formula: inputs' "$out" 't10_c [degC]'
run "$BOILCUT" formula eval flash.t10_api t10_c=176.7
expect_status 'formula: eval' 0
expect_text 'formula: the value' "$out" '54.6'
expect_text 'formula: its unit' "$out" ' degC'
run "$BOILCUT" formula eval flash.t10_api t10_c=-300
expect_status 'formula: refused' 5
expect_empty 'formula: refused, nothing printed' "$out"
run "$BOILCUT" formula eval tbp.riazi_daubert pct=20 d86_c=127.3
expect_status 'formula: between the rows of a table' 5
expect_exactly 'formula: the rows are named' "$err" \
	'boilcut: tbp.riazi_daubert: bad-domain, pct=20; expected one of 0 10 30 50 70 90 95'
run "$BOILCUT" formula eval tbp.riazi_daubert pct=30 d86_c=-300
expect_exactly 'formula: at a row, the rows are not to blame' "$err" \
	'boilcut: tbp.riazi_daubert: bad-domain'
run "$BOILCUT" formula show tbp.riazi_daubert
expect_text 'formula: shows the rows' "$out" 'pct [%], one of 0 10 30 50 70 90 95'
run "$BOILCUT" formula show cetane.d976
expect_text 'formula: shows near print' "$out" ' near print, '
expect_text 'formula: shows a span' "$out" 'density15_kgm3 [kg/m3], from 600 to 1100'
run "$BOILCUT" formula eval cetane.d976 density15_kgm3=0.8412 t50_c=257.3
expect_status 'formula: g/mL for kg/m3 is answered' 0
expect_exactly 'formula: g/mL for kg/m3 is noted' "$err" 'boilcut: cetane.d976: outside-range'

finish
