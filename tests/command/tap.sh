# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut tap': exit statuses, the card, JSON, charts.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
mixed=$TOP/samples/light-ends.csv

run "$BOILCUT" tap "$mixed" --want heating --charge 40L --heater 2kW --room 30m3
expect_status 'tap: wanted' 0
expect_empty 'tap: nothing on standard error' "$err"
cp "$out" page
sed -n '/^AT THE TAP/,/^$/p' page | tr -s '\n ' ' ' >card
expect_text 'tap: the light jar ends at the later' card 'are over, whichever is LATER. 2. PRODUCT jar'
expect_text 'tap: the product ends at the first' card 'or the pot stands at 330 degC, whichever is FIRST.'
expect_text 'tap: the heat goes off' card 'HEAT OFF, at the latest when the pot stands at 330 degC.'
expect_text 'tap: the still' page '1 plate + pot, reflux 1'
expect_text 'tap: the room' page 'COOLING LOST: heat off first. In 30 m3'
expect_text 'tap: trade-off' page 'Yield against flash'
[ "$(awk 'length($0) > 80' page | wc -l)" -eq 0 ] && pass 'tap: 80 columns' || fail 'tap: 80 columns' wide

# what a judgement suggests is what is planned here
for sample in diesel-near-limit out-12; do
	"$BOILCUT" judge --want heating --json "$TOP/samples/$sample.csv" |
		sed -n 's/^ *"product_until_reading_c": \(.*\),/\1/p;s/^ *"light_until_reading_c": \(.*\),/\1/p' |
		head -n 2 >turns
	"$BOILCUT" tap --want heating --json "$TOP/samples/$sample.csv" |
		sed -n 's/^ *"to_reading_c": \(.*\),/\1/p' | head -n 2 >tapped
	[ -s turns ] && cmp -s turns tapped && pass "tap: $sample turns as judge says" ||
		fail "tap: $sample turns as judge says" "$(cat turns tapped)"
done

run "$BOILCUT" tap "$mixed" --split --plates 1
expect_text 'tap: the bare pot' "$out" '0 plates + pot'
grep -q 'reflux 1' "$out" && fail 'tap: a bare pot has no reflux' some || pass 'tap: a bare pot has no reflux'
run "$BOILCUT" tap "$mixed" --split --plates 4 --reflux total --vacuum 10kPa --carry 0
expect_status 'tap: total reflux in vacuum' 0
expect_text 'tap: says both' "$out" '3 plates + pot, total reflux; carry-over 0 % of the charge; 10.0 kPa'

run "$BOILCUT" tap "$mixed" --want heating --worth 2.3
expect_status 'tap: a still of one number' 0
expect_text 'tap: ... is named by it' "$out" '2.3 effective plates'
tr -s '\n ' ' ' <"$out" >line
expect_text 'tap: ... and heated as if with a reflux' line 'heat and time are those of a reflux of 1.3'
run "$BOILCUT" tap "$mixed" --want heating --worth 2.3 --json
expect_text 'tap: ... and in the JSON' "$out" '"effective_plates": 2.3'

run "$BOILCUT" tap "$TOP/samples/lamp-oil.csv" --want diesel
expect_status 'tap: no cut does it' 1
expect_text 'tap: ... said first' "$out" 'NO CUT of this oil on this still gives diesel-range'
expect_text 'tap: ... and what stops it' "$out" 'What stops it'
run "$BOILCUT" tap "$TOP/samples/light-cut.csv" --want gasoline
expect_status 'tap: never gasoline' 1
tr -s '\n ' ' ' <"$out" >line
expect_text 'tap: ... and why' line 'What stops it - gasoline-range is never called met'
run "$BOILCUT" tap "$TOP/samples/light-cut.csv" --standard 'EN 228 class A' --json
expect_status 'tap: never gasoline by its standard either' 1
expect_text 'tap: ... nor in the JSON' "$out" '"feasible": false'
expect_text 'tap: ... which says why' "$out" '"gasoline-range is never called met: octane, dienes'
expect_text 'tap: the grade of a standard' "$out" '"want": "gasoline-range"'

run "$BOILCUT" tap "$mixed" --cuts 170C,60%,100%m --json
expect_status 'tap: cuts' 0
for text in '"want": null' '"standard": null' '"feasible": null' '"binding": []' '"grades": []' \
	'"jar": "light"' '"jar": "product1"' '"jar": "product2"' '"charge_ml": 1000.0' '"time_h": null'; do
	expect_text "tap: cuts, $text" "$out" "$text"
done
run "$BOILCUT" tap "$mixed" --cuts 26% --json
expect_text 'tap: one cut, product' "$out" '"jar": "product"'

# an oil that may not be distilled, and a pot that cracks
with_rows() { # FILE ROW...: the sample with these rows
	sample=$1
	shift
	sed 1q "$sample"
	printf '%s\n' "$@"
	sed 1d "$sample"
}
wet=$TOP/samples/wet-oil.csv
for command in tap 'card tap' 'card stop'; do
	run "$BOILCUT" $command "$wet" --want heating
	expect_status "$command: wet oil" 1
	expect_text "$command: wet oil, no cut" "$out" 'NO CUT of this oil'
	expect_text "$command: wet oil, why" "$out" 'water in the oil: dry it'
	grep -q -e 'AT THE TAP' -e 'HEAT OFF' -e 'Before the heat' -e 'full at' "$out" &&
		fail "$command: wet oil, no steps" some || pass "$command: wet oil, no steps"
	run "$BOILCUT" $command "$wet" --cuts 170C,300C
	sed -n '/^ *##/p' "$out" >box
	expect_text "$command: wet oil, stated cuts" box 'DANGER - NOT TO BE DISTILLED AS IT IS'
	expect_text "$command: wet oil, stated cuts, why" box 'water in the oil: dry it'
done
run "$BOILCUT" tap "$wet" --cuts 170C,300C
sed -n '/NOT TO BE DISTILLED/,$p' "$out" >rest
expect_text 'tap: the reason before the steps' rest 'AT THE TAP'
with_rows "$TOP/samples/lake-shed-14.csv" 'chlorine,913 mg/kg' >chlorine.csv
run "$BOILCUT" tap chlorine.csv --split
tr -s '\n #' ' ' <"$out" >line
expect_text 'tap: chlorine' line 'NOT TO BE DISTILLED AS IT IS not to be distilled: Measured chlorine: 913 mg/kg'
run "$BOILCUT" tap "$mixed" --split
grep -q 'NOT TO BE DISTILLED' "$out" && fail 'tap: may be distilled' said || pass 'tap: may be distilled'
expect_text 'tap: petrol in the pot' "$out" 'DANGER - TREAT THIS JAR AS PETROL'
run "$BOILCUT" tap "$TOP/samples/lamp-oil.csv" --split
grep -q 'AS PETROL' "$out" && fail 'tap: no petrol in the pot' said || pass 'tap: no petrol in the pot'
for kind in tap stop; do
	run "$BOILCUT" card $kind "$mixed" --split
	expect_text "card $kind: petrol in the pot" "$out" 'TREAT THE CHARGE AND THE LIGHT JAR AS PETROL'
	run "$BOILCUT" card $kind "$TOP/samples/from-retort.csv" --split
	expect_text "card $kind: from the retort" "$out" 'Straight from the retort: gas is dissolved in it.'
	run "$BOILCUT" card $kind "$TOP/samples/bare-table.csv" --split
	expect_text "card $kind: nobody knows from where" "$out" 'Nobody wrote down where it comes from'
	run "$BOILCUT" card $kind "$TOP/samples/lamp-oil.csv" --split --pot-limit 357C
	tr -s '\n ' ' ' <"$out" >line
	expect_text "card $kind: above the usual limit" line '357 degC'
	expect_text "card $kind: ... it cracks" line 'Above 330 degC, the usual limit, the oil cracks'
	run "$BOILCUT" card $kind "$TOP/samples/lamp-oil.csv" --split
	grep -q 'usual limit' "$out" && fail "card $kind: at the usual limit" said || pass "card $kind: at the usual limit"
done
run "$BOILCUT" card tap "$mixed" --want heating
tr -s '\n ' ' ' <"$out" >line
expect_text 'card tap: what each jar is good for' line 'What each jar is good for light handle and store it as petrol'
expect_text 'card tap: the default still' line 'an estimate for the default still, which nobody described:'
[ "$(awk 'length($0) > 80' "$out" | wc -l)" -eq 0 ] && pass 'card tap: 80 columns' || fail 'card tap: 80 columns' wide
run "$BOILCUT" card tap "$mixed" --want heating --plates 2
tr -s '\n ' ' ' <"$out" >line
expect_text 'card tap: a described still' line 'a still that was described, not measured'

# a cut that is only had by cracking the oil, and low bounds that nobody claims
run "$BOILCUT" tap "$TOP/samples/waxy-tail.csv" --want heating --pot-limit 415C --page cracked.html
expect_status 'tap: above the usual limit' 1
expect_text 'tap: ... no cut' "$out" 'NO CUT of this oil'
grep -q -e 'AT THE TAP' -e 'full at' "$out" cracked.html && fail 'tap: ... no steps' some || pass 'tap: ... no steps'
worst() { # PAGE: the column "at worst" of the choices
	sed -n '/^Yield against flash/,/^$/p' "$1" | sed 1,2d | awk 'NF == 7 { print $6 }'
}
worst "$out" | sort -u >low
expect_exactly 'tap: choices above the limit claim nothing' low '-'
run "$BOILCUT" tap "$mixed" --want heating
worst "$out" >low
grep -q '^[0-9]' low && ! grep -q -x -e - low && pass 'tap: choices below it do' || fail 'tap: choices below it do' "$(cat low)"

# which standard of a grade was taken
run "$BOILCUT" tap "$mixed" --want heating
tr -s '\n ' ' ' <"$out" >line
expect_text 'tap: why this standard' line 'standards of the grade because its product is the largest; it asks for a flash of at least 38 degC (others up to '
run "$BOILCUT" tap "$mixed" --standard 'ASTM D396 No. 2'
grep -q 'was chosen among' "$out" && fail 'tap: a stated standard' said || pass 'tap: a stated standard'

run "$BOILCUT" tap missing.csv --split
expect_status 'tap: no such file' 4
expect_empty 'tap: no such file, nothing printed' "$out"
printf 'recovered (%%),head (C)\n5,12x\n' >bad.csv
run "$BOILCUT" tap bad.csv --split
expect_status 'tap: malformed' 3
expect_empty 'tap: malformed, nothing printed' "$out"
run "$BOILCUT" tap "$mixed" --split --limits bad.csv
expect_status 'tap: malformed limits' 3

# names that would be code
evil="x'; system('touch PWNED').csv"
{
	printf 'sample,"%s"\n' "a'; system('touch PWNED') \`touch PWNED\`"
	sed 1d "$mixed"
} >"$evil"
run "$BOILCUT" tap "$evil" --want heating --charts charts --json
expect_status 'tap: charts' 0
for kind in tap-run tap-choice; do
	script=$(ls charts/*-$kind.gp 2>/dev/null)
	[ -s "$script" ] && pass "tap: $kind" || fail "tap: $kind" missing
	if command -v gnuplot >/dev/null; then
		LC_ALL=C.UTF-8 run gnuplot -d -e "out='phone.png'; wide=720; high=480" "$script"
		expect_status "gnuplot takes $kind" 0
		expect_empty "gnuplot has nothing to say on $kind" "$err"
	fi
done
if [ -e PWNED ] || [ -e charts/PWNED ]; then
	fail 'tap: names stay names' 'code was run'
else
	pass 'tap: names stay names'
fi

finish
