# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut still': describe, calibrate, keep, list, show; and what uses a still by its name.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
XDG_DATA_HOME=$work/data
export XDG_DATA_HOME
before=$TOP/samples/in-12.csv
after=$TOP/samples/out-12.csv
shelf=$work/data/boilcut/stills

run "$BOILCUT" still list
expect_status 'still: an empty shelf' 0
expect_text 'still: ... says so' "$out" 'No still is kept yet'
[ -e data ] && fail 'still: looking makes no folder' made || pass 'still: looking makes no folder'
run "$BOILCUT" still show nobody
expect_status 'still: no such still' 1
expect_exactly 'still: ... in one line' "$err" \
	"boilcut: no still is called 'nobody'; 'boilcut still list' names those there are"
expect_empty 'still: ... and nothing on standard output' "$out"

# by its measures
run "$BOILCUT" still describe --riser 25mm --height 300mm --packing scrubbers --heater 300W \
	--charge 2L --name 'Shed 1'
expect_status 'still describe' 0
expect_empty 'still describe: nothing on standard error' "$err"
expect_text 'still describe: plates' "$out" 'Your still is worth about 1.6 effective plates (1.4 to 1.9)'
expect_text 'still describe: wall' "$out" 'heat lost by the wall         51 W'
expect_text 'still describe: an estimate with its source' "$out" 'HETP, hobby, +-50 %'
[ "$(awk 'length($0) > 80' "$out" | wc -l)" -eq 0 ] && pass 'still describe: 80 columns' ||
	fail 'still describe: 80 columns' "$(awk 'length($0) > 80' "$out")"
expect_text 'still describe: kept' "$shelf/Shed 1.csv" 'found,estimated'
run "$BOILCUT" still describe --riser 25mm --height 300mm --heater 30W --name cold
expect_status 'still describe: the wall takes all' 1
expect_text 'still describe: ... and says so' "$out" 'nothing comes over'
[ -e "$shelf/cold.csv" ] && fail 'still describe: ... and keeps nothing' kept ||
	pass 'still describe: ... and keeps nothing'
run "$BOILCUT" still describe --riser 1in --height 30cm --lagging 25mm --heater 2kW --json
expect_status 'still describe --json' 0
expect_text 'still describe --json: floods' "$out" '"heater_floods": true'
expect_text 'still describe --json: not kept' "$out" '"saved": null'

# from a pair
run "$BOILCUT" still calibrate --before "$before" --after "$after" --cut 165C --name 'Shed 1'
expect_status 'still calibrate' 0
expect_empty 'still calibrate: nothing on standard error' "$err"
expect_text 'still calibrate: the sentence' "$out" 'Your still is worth 2.3 effective plates (1.6 to 3.'
expect_text 'still calibrate: the table' "$out" 'Product, read and predicted'
[ "$(awk 'length($0) > 80' "$out" | wc -l)" -eq 0 ] && pass 'still calibrate: 80 columns' ||
	fail 'still calibrate: 80 columns' wide
expect_text 'still calibrate: kept' "$shelf/Shed 1.csv" '"Lake shed 12 before","Lake shed 12 product"'
expect_text 'still calibrate: measures stay' "$shelf/Shed 1.csv" 'packing,scrubbers'
run "$BOILCUT" still calibrate --before "$before" --after "$after" --cut 165C --name 'Shed 1' --json
expect_text 'still calibrate: the same pair counts once' "$out" '"runs_kept": 1'
expect_text 'still calibrate --json: sure' "$out" '"known": true'
run "$BOILCUT" still describe --riser 25mm --height 300mm --name 'Shed 1'
expect_text 'still describe: a calibration stands' "$out" 'This still was calibrated before'
expect_text 'still describe: ... in its file' "$shelf/Shed 1.csv" 'found,calibrated'
run "$BOILCUT" still calibrate --before "$before" --after "$after" --cut 40C --name other
expect_status 'still calibrate: a pair that says nothing' 1
expect_text 'still calibrate: ... is told' "$out" 'This does not tell what your still is worth'
expect_text 'still calibrate: ... and not kept' "$out" 'Nothing was kept.'
[ -e "$shelf/other.csv" ] && fail 'still calibrate: no file' kept || pass 'still calibrate: no file'

run "$BOILCUT" still calibrate --before "$before" --after "$after"
expect_status 'still calibrate: the turn of the sample' 0
tr -s '\n ' ' ' <"$out" >page
expect_text 'still calibrate: ... is told' page "the product begins at its own 'jar from': 164 degC as read"

# from a known blend
printf 'recovered (%%),head (C)\n5,84.5\n10,84.9\n20,85.8\n30,87.1\n40,89\n50,92\n60,96.2\n70,101.3\n80,106\n90,109\n' >heads.csv
run "$BOILCUT" still calibrate --known benzene=50,toluene=50 --heads heads.csv
expect_status 'still calibrate --known' 0
expect_text 'still calibrate --known: danger' "$out" 'like petrol'
expect_text 'still calibrate --known: heads' "$out" 'Head of the run, read and predicted'

# several at once
run "$BOILCUT" still calibrate --before "$before" --after "$after" --before "$before" --after "$after" \
	--cut 165C --cut 164C --json
expect_status 'still calibrate: two pairs' 0
[ "$(grep -c '"light_ends_pct"' "$out")" -eq 2 ] && pass 'still calibrate: both are told' ||
	fail 'still calibrate: both are told' "$(grep -c '"light_ends_pct"' "$out")"

for t in 164 165 166; do
	run "$BOILCUT" still calibrate --before "$before" --after "$after" --cut ${t}C --name thrice --json
done
expect_text 'still calibrate: thrice the same run counts once' "$out" '"runs_kept": 1'
expect_text 'still calibrate: ... and says so' "$out" "is there already, by its readings"
sed 's/^19,194.5/19,194.1/' "$after" >again.csv
run "$BOILCUT" still calibrate --before "$before" --after again.csv --cut 165C --name thrice --json
expect_text 'still calibrate: other readings are another run' "$out" '"runs_kept": 2'
awk -F, '/^[0-9]/ { print $1 "," $2 + 165; next } { print }' heads.csv >far.csv
run "$BOILCUT" still calibrate --known benzene=50,toluene=50 --heads far.csv --name far
expect_status 'still calibrate: heads of no still' 1
[ -e "$shelf/far.csv" ] && fail 'still calibrate: heads of no still' kept
run "$BOILCUT" still calibrate --before "$before" --after "$before" --cut 165C --name far
expect_status 'still calibrate: the feed is no product' 1
expect_text 'still calibrate: ... are told' "$out" 'No still explains these readings'
[ -e "$shelf/far.csv" ] && fail 'still calibrate: ... and not kept' kept ||
	pass 'still calibrate: ... and not kept'

# used
run "$BOILCUT" still list
expect_text 'still list' "$out" 'Shed 1               2.26 effective plates'
run "$BOILCUT" still list --json
expect_text 'still list --json' "$out" '"Shed 1"'
run "$BOILCUT" still show 'Shed 1'
expect_text 'still show' "$out" '  - Lake shed 12 before, then Lake shed 12 product: 2.26'
run "$BOILCUT" still show 'Shed 1' --json
expect_text 'still show --json' "$out" '"found": "calibrated"'
run "$BOILCUT" tap "$before" --still 'Shed 1' --split
expect_status 'tap --still' 0
tr -s '\n ' ' ' <"$out" >page
expect_text 'tap --still: says which' page 'Still Shed 1: 2.26 effective plates (1.'
run "$BOILCUT" tap "$before" --still nobody --split
expect_status 'tap --still: no such still' 1
expect_empty 'tap --still: no such still, nothing printed' "$out"
run "$BOILCUT" tap "$before" --still ../x --split
expect_status 'tap --still: a path is no name' 2
run "$BOILCUT" tap "$before" --still 'Shed 1' --plates 3 --split
expect_status 'tap --still beside --plates' 2
{
	printf 'still,Shed 1\n'
	cat "$before"
} >named.csv
run "$BOILCUT" tap named.csv --split
tr -s '\n ' ' ' <"$out" >page
expect_text 'tap: the still of the sample' page 'Still Shed 1: 2.26 effective plates'
run "$BOILCUT" tap named.csv --split --plates 4
tr -s '\n ' ' ' <"$out" >page
expect_text 'tap: --plates has the last word' page '3 plates + pot'
{
	printf 'still,Shed 9\napparatus,Shed 8\n'
	cat "$before"
} >unnamed.csv
run "$BOILCUT" judge unnamed.csv
tr -s '\n ' ' ' <"$out" >page
expect_text 'judge: a still that is not described' page "still 'Shed 9' is not described: the default still is meant"
expect_text 'judge: an apparatus that is not described' page "apparatus 'Shed 8' is not described"
run "$BOILCUT" still describe --riser 20mm --height 400mm --packing rings-6mm --lagging 25mm \
	--head-reflux 3 --name col
sed '1a apparatus,col' "$after" >made.csv
run "$BOILCUT" judge made.csv --want heating
expect_status 'judge: an apparatus that was only measured' 1
expect_text 'judge: ... is undecided' "$out" 'VERDICT: undecided'
sed 's/estimated/calibrated/' "$shelf/col.csv" >col && mv col "$shelf/col.csv"
run "$BOILCUT" judge made.csv --want heating
expect_text 'judge: an apparatus counts at its least' "$out" 'VERDICT: undecided'
tr -s '\n ' ' ' <"$out" >page
expect_text 'judge: ... and is told' page "the still 'col' as it is kept, 2.53 effective plates (2.1 to 3.6"
run "$BOILCUT" judge --same made.csv made.csv
expect_text 'judge --same: the apparatus of the runs' "$out" 'VERDICT: undecided'
tr -s '\n ' ' ' <"$out" >page
expect_text 'judge --same: ... is told' page "the still 'col' as it is kept"
run "$BOILCUT" judge --same made.csv "$after"
expect_status 'judge --same: not of two apparatus' 3
expect_exactly 'judge --same: ... in one line' "$err" "boilcut: made.csv and $after name different apparatus; expected runs of one apparatus, judge them one by one"
sed 's/^apparatus,.*/apparatus,other/' made.csv >other.csv
run "$BOILCUT" judge --same made.csv other.csv
expect_status 'judge --same: not of two stills' 3
run "$BOILCUT" tap named.csv --split --worth 4
tr -s '\n ' ' ' <"$out" >page
expect_text 'tap: --worth has the last word' page '4 effective plates'
run "$BOILCUT" tap "$before" --still 'Shed 1' --worth 3 --split
expect_status 'tap --still beside --worth' 2
expect_text 'tap --still beside --worth: told' "$err" 'expected no --worth beside it'
mkdir cups
for n in 2 3 4; do
	sed "s/^apparatus,.*/apparatus,col\\nflash,5$n.3 C/; s/^IBP,141/IBP,14$n/" made.csv >cups/$n.csv
done
run "$BOILCUT" judge --learn cups --json made.csv
with=$(sed -n 's/.*"offset_c": //p' "$out")
mv "$shelf/col.csv" col
run "$BOILCUT" judge --learn cups --json made.csv
without=$(sed -n 's/.*"offset_c": //p' "$out")
mv col "$shelf/col.csv"
[ -n "$with" ] && [ "$with" != "$without" ] && pass 'judge --learn: cups of a still' ||
	fail 'judge --learn: cups of a still' "$with and $without"
printf 'still,Shed 1\nstages,x\n' >"$shelf/Shed 1.csv"
run "$BOILCUT" judge named.csv
expect_status 'judge: a damaged file of a still' 3
expect_exactly 'judge: ... by its line, once' "$err" \
	"boilcut: $shelf/Shed 1.csv:2: stages 'x'; expected a number, 1 to 60"
expect_empty 'judge: ... and no verdict' "$out"
run "$BOILCUT" judge "$before" named.csv
expect_status 'judge: one of several' 3
expect_text 'judge: ... has its place' "$out" \
	"named.csv: not judged: $shelf/Shed 1.csv:2: stages 'x'; expected a number, 1 to 60"
run "$BOILCUT" tap named.csv --split
expect_status 'tap: a damaged file of a still' 3
expect_empty 'tap: ... and nothing printed' "$out"
run "$BOILCUT" tap "$before" --still 'Shed 1' --split
expect_status 'tap --still: a damaged file' 3
expect_text 'tap --still: ... by its line' "$err" "Shed 1.csv:2: stages 'x'; expected a number, 1 to 60"
run "$BOILCUT" still calibrate --before "$before" --after "$after" --cut 165C --name 'Shed 1'
expect_status 'still calibrate: never over a damaged file' 3

# files made by a stranger
printf 'still,other\neffective plates,2\n' >"$shelf/odd.csv"
printf 'still,odd\nbefore,after,plates\nx,y,2,0.1,0.1,1,0\n' >"$shelf/pair.csv"
sed 's/^still,odd/still,pair/' "$shelf/pair.csv" >p && mv p "$shelf/pair.csv"
for name in odd pair; do
	words="$shelf/pair.csv:3: pair '0'; expected an error of the carry-over of 0.001 to 20 %"
	[ $name = odd ] && words="$shelf/odd.csv:1: still 'other'; expected the name of its file"
	sed "1a apparatus,$name" "$after" >strange.csv
	for line in "still show $name" "tap $before --split --still $name" 'judge strange.csv'; do
		# shellcheck disable=SC2086
		run "$BOILCUT" $line
		expect_status "still: a strange file, $line" 3
		expect_exactly "still: ... is told, $line" "$err" "boilcut: $words"
	done
done

# no file at all
mkfifo "$shelf/pipe.csv"
run timeout 5 "$BOILCUT" still list
expect_status 'still list: a pipe is not opened' 0
grep -q pipe "$out" && fail 'still list: ... nor listed' listed || pass 'still list: ... nor listed'
run timeout 5 "$BOILCUT" still show pipe
expect_status 'still show: a pipe is not opened' 4
expect_text 'still show: ... and told' "$err" 'pipe.csv: not a file'
HOME='' XDG_DATA_HOME='' run "$BOILCUT" still describe --riser 25mm --height 300mm --name a
expect_status 'still: no home' 4
expect_exactly 'still: ... is told' "$err" \
	'boilcut: stills: no folder for stills; expected HOME or XDG_DATA_HOME to name one'
run "$BOILCUT" still describe --riser 300mm --height 25mm
expect_text 'still describe: wider than high' "$err" \
	'the riser is wider (300 mm) than high (25 mm): were --riser and --height swapped?'

# names that would be code or paths
for name in '../x' '/tmp/x' 'a/b' '-x' '.x' default ''; do
	run "$BOILCUT" still describe --riser 25mm --height 300mm "--name=$name"
	expect_status "still: no name '$name'" 2
done
evil="x'; system('touch PWNED').csv"
cp "$after" "$evil"
run "$BOILCUT" still calibrate --before "$before" --after "$evil" --cut 165C --charts charts --json
expect_status 'still calibrate: charts' 0
script=$(ls charts/*-still-product.gp 2>/dev/null)
[ -s "$script" ] && pass 'still calibrate: still-product' || fail 'still calibrate: still-product' missing
if command -v gnuplot >/dev/null; then
	LC_ALL=C.UTF-8 run gnuplot -d -e "out='phone.png'; wide=720; high=480" "$script"
	expect_status 'gnuplot takes still-product' 0
	expect_empty 'gnuplot has nothing to say on still-product' "$err"
fi
[ -e PWNED ] && fail 'still: names stay names' 'code was run' || pass 'still: names stay names'

# a folder that cannot be made
: >file
XDG_DATA_HOME=$work/file run "$BOILCUT" still describe --riser 25mm --height 300mm --name a
expect_status 'still: no folder' 4
expect_empty 'still: no folder, nothing printed' "$out"

# wrong usage
usage() { # words of the message, then the command line
	words=$1
	shift
	run "$BOILCUT" "$@"
	expect_status "still: $*" 2
	expect_text "still: $* is told" "$err" "$words"
}
usage 'still lacks a word; expected list, show, describe or calibrate' still
usage "'calibrat' is not something that still does; did you mean 'calibrate'?" still calibrat
usage 'expected --riser and --height' still describe --riser 25mm
usage "'straw' is not a packing" still describe --riser 25mm --height 1m --packing straw
usage "'nose' is not a thermometer" still describe --riser 25mm --height 1m --thermometer nose
usage "'--cut' is nothing for 'still describe'" still describe --riser 25mm --height 1m --cut 170C
usage 'what went in is missing; expected --before or --known' still calibrate --after "$after" --cut 170C
usage 'what came out is missing; expected --after or --heads' still calibrate --before "$before"
usage "expected no --before beside it" still calibrate --before "$before" --known benzene=50,toluene=50 --heads heads.csv
usage "'170' is not a value of --cut" still calibrate --before "$before" --after "$after" --cut 170
usage 'where the product begins is not said' still calibrate --before "$before" --after "$before"
usage "'--after' is there for 1 of 2 runs; expected once for each" still calibrate --before "$before" --before "$before" --after "$after" --cut 170C
usage "'heptan' is not a liquid that is known here" still calibrate --known heptan=50,toluene=50 --heads heads.csv
usage 'is 90 % of 2 liquids; expected two or more that make 100' still calibrate --known heptane=40,toluene=50 --heads heads.csv
usage "'heptane' is no liquid with its share" still calibrate --known heptane --heads heads.csv

finish
