# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut mix': amounts, exit statuses, what is said, JSON, the chart.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
cp -R "$TOP/samples" .
tank=samples/drying-room.csv

number() { # file, key: its first number
	sed -n "s/^ *\"$2\": \\([-0-9.e+]*\\),*\$/\\1/p" "$1" | head -n 1
}

run "$BOILCUT" mix samples/lamp-oil.csv=5L "$tank=20L"
expect_status 'mix: two jars' 0
expect_empty 'mix: nothing on standard error' "$err"
expect_text 'mix: the name' "$out" 'Mix of Lamp can 3 and Drying room tank'
expect_text 'mix: the verdict' "$out" 'VERDICT: '
expect_text 'mix: what is in it' "$out" 'vapour %'
expect_text 'mix: the index' "$out" 'By the blending index of Wickey and Chittenden'
expect_text 'mix: volumes are ideal' "$out" 'volumes are ideal'
expect_text 'mix: what was measured in one alone' "$out" 'measured in some parts only: sulphur'
expect_text 'mix: on paper' "$out" 'A mixture on paper'
[ "$(awk 'length($0) > 80' "$out" | wc -l)" -eq 0 ] && pass 'mix: 80 columns' || fail 'mix: 80 columns' wide

# one amount in four ways
run "$BOILCUT" mix --json samples/lamp-oil.csv=5L "$tank=20L"
cp "$out" litres
kilogram=$(awk "BEGIN { print $(number litres mass_kg) }")
for amounts in '5000 mL,20000mL' '20%,80%' '5L,0.02m3'; do
	run "$BOILCUT" mix --json "samples/lamp-oil.csv=${amounts%,*}" "$tank=${amounts#*,}"
	case $amounts in
	*m3) expect_status 'mix: cubic metres are no unit' 2 ;;
	*)
		expect_status "mix: $amounts" 0
		[ "$(number "$out" flash_blend_index_c)" = "$(number litres flash_blend_index_c)" ] &&
			pass "mix: $amounts are the same" || fail "mix: $amounts are the same" 'another index'
		;;
	esac
done
run "$BOILCUT" mix --json "samples/lamp-oil.csv=${kilogram}kg" "$tank=20L"
expect_status 'mix: kg and L together' 0
near=$(awk "BEGIN { a = $(number "$out" flash_blend_index_c); b = $(number litres flash_blend_index_c);
	d = a - b; print (d < 0.01 && d > -0.01) ? \"yes\" : \"no\" }")
[ "$near" = yes ] && pass 'mix: mass by density' || fail 'mix: mass by density' 'another index'
for text in '"readings": []' '"file": "mix"' '"loss_pct": null' '"residue_pct": null' '"may_go_in": null' \
	'"flash_measured": true' '"flash_measured": false' '"weighed": null' '"date": null'; do
	expect_text "mix: JSON, $text" litres "$text"
done
run "$BOILCUT" mix --json "$tank=20%" "$tank=80%"
expect_text 'mix: no litres of percents' "$out" '"volume_l": null'
expect_text 'mix: measured in all' "$out" '"property": "sulphur"'

# wishes
run "$BOILCUT" mix "$tank=3L" "$tank=1L" --want heating
expect_status 'mix: wanted and met' 0
run "$BOILCUT" mix "$tank=3L" "$tank=1L" --want diesel
expect_status 'mix: wanted and not met' 1
run "$BOILCUT" mix samples/light-cut.csv=3L "$tank=1L"
expect_status 'mix: no wish, no answer' 0
expect_text 'mix: petrol is said' "$out" 'TREAT THIS JAR AS PETROL'
expect_text 'mix: a little rules' "$out" 'A little of a light oil rules the flash'

# straight from the retort
run "$BOILCUT" mix samples/from-retort.csv=1mL "$tank=200L" --want heating
expect_status 'mix: gas in one' 1
expect_text 'mix: ... and in all' "$out" 'gas in one jar is gas'
expect_text 'mix: ... as petrol' "$out" 'TREAT THIS JAR AS PETROL'
run "$BOILCUT" mix samples/wet-oil.csv=1L "$tank=200L" --want heating
expect_status 'mix: a wet part' 1

# how much
run "$BOILCUT" mix 'samples/light-ends.csv=?' "$tank=200L" --want heating
expect_status 'mix: some may go in' 0
expect_text 'mix: ... how much' "$out" "UP TO "
expect_text 'mix: ... and which limit' "$out" 'What breaks first: flash point'
expect_text 'mix: ... and what the verdict says' "$out" 'by its limits; the verdict below is undecided'
[ "$(awk 'length($0) > 80' "$out" | wc -l)" -eq 0 ] && pass 'mix: how much, 80 columns' ||
	fail 'mix: how much, 80 columns' wide
run "$BOILCUT" mix 'samples/lake-shed-14.csv=?' "$tank=200L" --want heating
expect_status 'mix: any share' 0
expect_text 'mix: ... is said' "$out" "ANY SHARE of 'lake-shed-14.csv' may go in"
run "$BOILCUT" mix 'samples/from-retort.csv=?' "$tank=200L" --want heating
expect_status 'mix: none of a retort jar' 1
expect_text 'mix: ... is said' "$out" "NONE of 'from-retort.csv' may go in"
expect_text 'mix: ... and what stands below' "$out" 'Below: the others alone, without it.'
run "$BOILCUT" mix 'samples/from-retort.csv=?' "$tank=200L" --want heating --page none.html
expect_text 'mix: ... on the page' none.html 'Below: the others alone, without it.'
run "$BOILCUT" mix 'samples/lamp-oil.csv=?' "$tank=200L" --want diesel --json
expect_status 'mix: the rest does not do' 1
expect_text 'mix: ... is said' "$out" '"rest_meets": false'
expect_text 'mix: ... by its sulphur' "$out" '"property": "sulphur"'

# what one part alone was measured for
sed '1a\
carbon residue,5 %' samples/lake-shed-14.csv >coked.csv
run "$BOILCUT" mix coked.csv=19L "$tank=1L" --want heating
expect_status 'mix: coke in one' 1
expect_text 'mix: ... is in all' "$out" 'Its carbon residue, 4.7'
run "$BOILCUT" mix 'coked.csv=?' "$tank=200L" --want heating
expect_text 'mix: ... until the limit' "$out" 'What breaks first: carbon residue'

# histories and standard input
sed 's/^history,.*/history,aired/' samples/lake-shed-14.csv >aired.csv
run_aired() { "$BOILCUT" mix -=1L "$tank=1L" "$@" <aired.csv; }
run run_aired
expect_status 'mix: standard input' 0
expect_text 'mix: both histories' "$out" 'aired and rerun'
run run_aired --json
expect_text 'mix: the worse one in JSON' "$out" '"history": "rerun"'

# what cannot be read
run "$BOILCUT" mix missing.csv=1L "$tank=1L"
expect_status 'mix: no such file' 4
expect_empty 'mix: no such file, nothing printed' "$out"
printf 'recovered (%%),head (C)\n5,12x\n' >bad.csv
run "$BOILCUT" mix "$tank=1L" bad.csv=1L
expect_status 'mix: malformed' 3
expect_empty 'mix: malformed, nothing printed' "$out"
cp "$tank" 'a=b.csv'
run "$BOILCUT" mix 'a=b.csv=1L'
expect_status 'mix: the last = parts name and amount' 0

# names that would be code
evil="x'; system('touch PWNED').csv"
cp samples/light-ends.csv "$evil"
run "$BOILCUT" mix "$evil=?" "$tank=20L" --want heating --charts charts --json
expect_status 'mix: charts' 0
script=charts/mix-flash.gp
[ -s "$script" ] && pass 'mix: the chart' || fail 'mix: the chart' missing
if command -v gnuplot >/dev/null; then
	LC_ALL=C.UTF-8 run gnuplot -d -e "out='phone.png'; wide=720; high=480" "$script"
	expect_status 'gnuplot takes the flash' 0
	expect_empty 'gnuplot has nothing to say on mix-flash' "$err"
fi
if [ -e PWNED ] || [ -e charts/PWNED ]; then
	fail 'mix: names stay names' 'code was run'
else
	pass 'mix: names stay names'
fi

finish
