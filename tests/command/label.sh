# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut label', 'boilcut card' and '--page': what is printed, and what is refused.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
good=$TOP/samples/lake-shed-14.csv
danger=$TOP/samples/light-ends.csv

run "$BOILCUT" judge "$danger" --page page.html
expect_status 'page: written' 0
expect_text 'page: the report is printed all the same' "$out" 'VERDICT: re-run'
expect_text 'page: the verdict' page.html '<p class="word"><span class="label">VERDICT</span> re-run</p>'
expect_text 'page: its picture' page.html '<title id="curve-title">Boiling curve</title>'
grep -q -i -e '<script' -e 'http://' -e 'https://' page.html &&
	grep -v 'http://www.w3.org/2000/svg' page.html | grep -q -i -e '<script' -e 'http' &&
	fail 'page: needs nothing else' some || pass 'page: needs nothing else'
run "$BOILCUT" judge "$danger" "$good" --page two.html
expect_status 'page: of one sample alone' 2
expect_text 'page: ... said' "$err" "'--page' is the page of one sample; expected one FILE"
[ -e two.html ] && fail 'page: ... and not written' there || pass 'page: ... and not written'
run "$BOILCUT" judge "$danger" --page none/page.html
expect_status 'page: no such folder' 4
expect_text 'page: ... named' "$err" 'none/page.html'
run "$BOILCUT" tap "$danger" --want heating --page tap.html
expect_status 'page of tap' 0
expect_text 'page of tap: the turns' tap.html 'HEAT OFF, at the latest'
expect_text 'page of tap: the run' tap.html '<title id="run-title">The run of the still</title>'

# a page never takes the place of anything but a page
cp "$good" victim.csv
for line in "judge victim.csv --page victim.csv" "label victim.csv --to victim.csv" \
	"card tap victim.csv --split --to victim.csv" "card sheet --to victim.csv" \
	"tap victim.csv --split --page victim.csv" "mix victim.csv=1L --page victim.csv"; do
	run "$BOILCUT" $line
	expect_status "no page: $line" 2
	expect_empty "no page: $line, nothing printed" "$out"
	expect_text "no page: $line, said" "$err" "'victim.csv' is no name of a page; expected one that ends in .html"
	cmp -s "$good" victim.csv && pass "no page: $line, kept" || fail "no page: $line, kept" changed
done
cp "$good" victim.html
for line in "judge $good --page victim.html" "label $good --to victim.html" \
	"card tap $good --split --to victim.html" "card sheet --to victim.html" \
	"tap $good --split --page victim.html" "mix $good=1L --page victim.html"; do
	run "$BOILCUT" $line
	expect_status "other file: $line" 2
	expect_empty "other file: $line, nothing printed" "$out"
	expect_exactly "other file: $line, said" "$err" \
		"boilcut: 'victim.html' is there already and is no page of this kind; expected another name"
	cmp -s "$good" victim.html && pass "other file: $line, kept" || fail "other file: $line, kept" changed
done
run "$BOILCUT" label "$good" --to again.SVG
expect_status 'label: ending in capitals' 0
run "$BOILCUT" label "$danger" --to again.SVG
expect_status 'label: over a label' 0
expect_text 'label: ... is a picture' again.SVG '<svg xmlns'
run "$BOILCUT" card sheet --to again.svg
expect_status 'card: no picture' 2
run "$BOILCUT" card sheet --to sheet.HTM
expect_status 'card: ending htm' 0

run "$BOILCUT" label "$good"
expect_status 'label' 0
expect_text 'label: no certificate' "$out" 'NOT CERTIFIED'
expect_text 'label: look again' "$out" '2027-01-03'
run "$BOILCUT" label "$danger" --size a6 --to label.svg
expect_status 'label: a6' 0
expect_empty 'label: into a file' "$out"
expect_text 'label: its size' label.svg 'width="105mm" height="148mm"'
expect_text 'label: petrol' label.svg 'TREAT AS PETROL'
# what was measured is said, and what it forbids
with_rows() { # FILE ROW...: the sample with these rows in NAME
	sample=$1
	shift
	sed 1q "$sample"
	printf '%s\n' "$@"
	sed 1d "$sample"
}
words_of() { sed -e '/<style>/,/<\/style>/d' -e 's/<[^>]*>//g' "$1" | tr -s '\n ' ' '; }
with_rows "$good" 'benzene,5.3 %' 'chlorine,900 mg/kg' 'acid number,2.31 mgKOH/g' >tested.csv
for size in can a6; do
	run "$BOILCUT" label tested.csv --size $size
	words_of "$out" >words
	expect_text "label $size: benzene as measured" words '(H350): benzene 5.3 % measured.'
	expect_text "label $size: a danger, briefly" words 'Measured chlorine: 900 mg/kg. '
	expect_text "label $size: what is left untested" words 'Not tested: dissolved gas, water, sulphur, gum, stability, lubricity, cold flow.'
	expect_text "label $size: to its last word" words 'Local codes come first.'
done
expect_text 'label a6: figures' words 'Measured: chlorine 900 mg/kg, benzene 5.3 %, acidity 2.31 mgKOH/g.'
run "$BOILCUT" label "$good"
words_of "$out" >words
expect_text 'label: benzene not tested' words 'benzene was not tested, take it to be there.'

# a low bound is never rounded up
with_rows "$good" 'flash,41.9 C' >cup.csv
low=$("$BOILCUT" judge cup.csv --json | sed -n 's/.*"flash, low bound \([0-9]*\)\.[0-9] degC.*/\1/p' | head -1)
run "$BOILCUT" label cup.csv
words_of "$out" >words
expect_text 'label: the low bound is cut off' words "may be as low as ${low:-none} degC"
for low in 43.4 43.8 44.7; do
	with_rows "$good" "flash,$low C" >cup.csv
	bound=$("$BOILCUT" judge cup.csv --json | sed -n 's/.*"flash, low bound \([0-9]*\)\.[0-9] degC.*/\1/p' | head -1)
	run "$BOILCUT" label cup.csv
	words_of "$out" >words
	expect_text "label: low bound of $low" words "may be as low as ${bound:-none} degC"
done

run "$BOILCUT" label "$TOP/samples/from-retort.csv"
words_of "$out" >words
expect_text 'label: gas may be in it' words 'Highly flammable (H225), may be extremely flammable (H224 not excluded).'
expect_text 'label: ... nothing is lost below the edge' words 'Local codes come first.'

run "$BOILCUT" label "$good" --size a5
expect_status 'label: no such size' 2
expect_text 'label: ... says which there are' "$err" "'a5' is not a value of --size; did you mean 'a6'?"
run "$BOILCUT" label "$work/none.csv"
expect_status 'label: no such file' 4

for kind in sheet lab; do
	run "$BOILCUT" card $kind
	expect_status "card $kind" 0
	[ "$(awk 'length($0) > 80' "$out" | wc -l)" -eq 0 ] && pass "card $kind: 80 columns" || fail "card $kind: 80 columns" wide
done
expect_text 'card lab: a key of the file' "$out" 'acid number'
run "$BOILCUT" card lab "$good"
expect_text 'card lab: what its grade needs' "$out" 'pour point'
grep -q 'lubricity' "$out" && fail 'card lab: not of another grade' there || pass 'card lab: not of another grade'
run "$BOILCUT" card tap "$danger" --want heating --charge 40L --to card.html
expect_status 'card tap' 0
expect_text 'card tap: the turns' card.html 'whichever is LATER'
run "$BOILCUT" card tap "$TOP/samples/lamp-oil.csv" --want diesel
expect_status 'card tap: no cut does it' 1
run "$BOILCUT" card stop "$danger" --split --charge 40L --heater 2kW --room 30m3
expect_text 'card stop: the charge' "$out" 'Charge 40.0 L'
expect_text 'card stop: cooling lost' "$out" 'In a room of 30 m3'
run "$BOILCUT" card stop "$danger" --split
expect_text 'card stop: nothing made up' "$out" 'How long the room has is not known'
run "$BOILCUT" card tap
expect_status 'card tap: without a file' 2
run "$BOILCUT" card sheet "$good"
expect_status 'card sheet: with a file' 2
run "$BOILCUT" card sheet --charge 40L
expect_status 'card sheet: an option of the still' 2
expect_text 'card sheet: ... said' "$err" "'--charge' says nothing to card sheet; expected --to"
run "$BOILCUT" card lab "$good" --heater 2kW
expect_status 'card lab: an option of the still' 2
expect_text 'card lab: ... said' "$err" "'--heater' says nothing to card lab; expected --to, --want, --standard or --limits"
run "$BOILCUT" card lab --want diesel
expect_status 'card lab: a wish without a file' 2
expect_text 'card lab: ... said' "$err" "'--want' says nothing to card lab alone; expected FILE too"
run "$BOILCUT" card lab "$good" --want kerosene --to lab.html
expect_status 'card lab: a wish' 0
run "$BOILCUT" label "$danger" --want diesel
expect_status 'label: a cut is what is wanted' 0
run "$BOILCUT" label "$TOP/samples/lamp-oil.csv" --want diesel
expect_status 'label: wanted, and not to be had' 1
expect_text 'label: ... printed all the same' "$out" 'NOT CERTIFIED'
run "$BOILCUT" judge "$TOP/samples/lamp-oil.csv" --want diesel
expect_status 'label: ... as judge' 1
printf 'sample,A\357\277\276B\357\277\277C\n' >odd.csv
sed '/^sample,/d' "$good" >>odd.csv
run "$BOILCUT" label odd.csv --to odd.svg
if command -v xmllint >/dev/null; then
	run xmllint --noout odd.svg
	expect_status 'label: a picture is well-formed' 0
fi
expect_text 'label: no character of XML' odd.svg 'A\xEF\xBF\xBEB\xEF\xBF\xBFC'
run "$BOILCUT" judge "$danger" --page re-run.html
tr -s '\n ' ' ' <re-run.html >line
expect_text 'page: what upright lines stand at' line "at the volume over the still&#39;s head in the simulated re-run"
run "$BOILCUT" card poster
expect_status 'card: no such card' 2
expect_text 'card: ... says which there are' "$err" "'poster' is not a card; expected sheet, tap, stop or lab"
finish
