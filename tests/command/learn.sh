# SPDX-License-Identifier: GPL-3.0-or-later
# 'judge --learn DIR': own closed cups in an invented folder, and what in it teaches nothing.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
mkdir cups cups/older

# name, IBP, key lines
jar() {
	printf '%b\nhistory,rerun\nbarometer,101.3 kPa\nthermometer,probe\n' "$3" >"$1"
	printf 'density,0.794 g/mL\n\nrecovered (%%),head (C)\nIBP,%s\n' "$2" >>"$1"
	printf '5,181\n10,187.3\n30,194\n50,201\n70,210\n90,231\n95,243\nFBP,260\n' >>"$1"
}

jar cups/a.csv 163.3 'feed,PE crates\nflash,44.1 C'
jar cups/b.csv 165.1 'feed,PE crates\nflash,43.7 C'
jar cups/c.CSV 166.7 'feed,HDPE lids\nflash,46.2 C'
jar today.csv 171.4 'feed,PE crates'
run "$BOILCUT" judge --json today.csv
expect_text 'learn: null without it' "$out" '"learned": null'
plain=$(sed -n '/"flash_c": {/,/}/s/.*"value": \(.*\),/\1/p' "$out" | head -n 1)

jar cups/d.csv 168.2 'feed,PE crates\nflash,47.3 C'
jar cups/e.csv 167.4 'feed,PP lids\nflash,47.3 C'
jar cups/f.csv 167.9 'feed,PE crates'
jar cups/older/g.csv 169.9 'feed,PE crates\nflash,45.0 C'
run "$BOILCUT" judge --json --learn cups today.csv
expect_status 'learn: status' 0
expect_empty 'learn: nothing to say of good files' "$err"
expect_text 'learn: four pairs' "$out" '"pairs": 4,'
expect_text 'learn: told among what was assumed' "$out" 'your own 4 cups moved the flash estimate by -'
expect_text 'learn: how stays estimated' "$out" '"how": "estimated"'
moved=$(sed -n '/"flash_c": {/,/}/s/.*"value": \(.*\),/\1/p' "$out" | head -n 1)
offset=$(sed -n 's/.*"offset_c": \(.*\),/\1/p' "$out")
if awk "BEGIN { d = $moved - $plain - ($offset); exit !(d < 0.001 && d > -0.001 && $offset < -1) }"; then
	pass 'learn: the estimate moved by the offset'
else
	fail 'learn: the estimate moved by the offset' "$plain $moved $offset"
fi
run "$BOILCUT" judge --learn cups/ today.csv
expect_text 'learn: the page says it' "$out" 'Your own 4 cups moved the flash estimate by -'

# the run of the still goes by them too, and so do its cards
run "$BOILCUT" tap --want heating --json --learn cups today.csv
expect_text 'learn: tap' "$out" 'your own 4 cups moved the flash estimate by -'
"$BOILCUT" judge --want heating --json --learn cups today.csv |
	sed -n 's/^ *"product_until_reading_c": \(.*\),/\1/p' | head -n 1 >turn
expect_text 'learn: tap turns as judge says' "$out" "\"to_reading_c\": $(cat turn)"
run "$BOILCUT" card tap --want heating --learn missing today.csv
expect_status 'learn: card, no such folder' 4

# its own file, or a copy of it, is never used for itself
run "$BOILCUT" judge --json --learn cups cups/f.csv
expect_text 'learn: a file of the folder without a cup' "$out" '"pairs": 4,'
sed '/^flash/d' cups/a.csv >bare.csv
run "$BOILCUT" judge --json --learn cups bare.csv
expect_text 'learn: not from its own boil-off' "$out" '"pairs": 3,'
run "$BOILCUT" judge --json --learn cups cups/a.csv
expect_text 'learn: a cup of its own rules' "$out" '"learned": null'

# another feed, another still, no claim
jar pp.csv 171.4 'feed,PP lids'
run "$BOILCUT" judge --json --learn cups pp.csv
expect_text 'learn: one pair of that feed' "$out" '"learned": null'
expect_text 'learn: too few, said' "$out" 'own flash cups: 1 of this feed'
sed 's/^history.*/history,retort/' today.csv >retort.csv
run "$BOILCUT" judge --json --learn cups retort.csv
expect_text 'learn: no claim stays none' "$out" '"learned": null'

# what teaches nothing is said and skipped
printf 'recovered (%%),head (C)\n5,12x\n' >cups/bad.csv
jar cups/nofeed.csv 170.3 'sample,no feed\nflash,47.0 C'
sed 's/^history.*/history,retort/' cups/a.csv | sed 's/^IBP,.*/IBP,160.2/' >cups/raw.csv
cp cups/a.csv cups/zcopy.csv
run "$BOILCUT" judge --json --learn cups today.csv
expect_status 'learn: a bad file in the folder does not count' 0
expect_text 'learn: still four pairs' "$out" '"pairs": 4,'
expect_exactly 'learn: what was skipped' "$err" "boilcut: cups/bad.csv: nothing learned from it: line 2: head temperature '12x' is not a number; a number such as 131.5 was expected
boilcut: cups/nofeed.csv: nothing learned from it: its feed is not named
boilcut: cups/raw.csv: nothing learned from it: straight from the retort: dissolved gas leaves before the first drop
boilcut: cups/zcopy.csv: nothing learned from it: the same boil-off stands in another file"

run "$BOILCUT" judge --learn missing today.csv
expect_status 'learn: no such folder' 4
expect_exactly 'learn: no such folder, message' "$err" \
	'boilcut: missing: cannot read the folder: No such file or directory'
expect_empty 'learn: no such folder, nothing printed' "$out"
finish
