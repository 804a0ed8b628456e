# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut draw': scripts that stand alone, pictures where gnuplot is, and no way in for names.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
good=$TOP/samples/lake-shed-14.csv

run "$BOILCUT" draw "$good" --to a/b --no-pictures
expect_status 'draw: scripts alone' 0
expect_exactly 'draw: says what it wrote' "$out" 'a/b/lake-shed-14-curve.gp
a/b/lake-shed-14-residuals.gp
a/b/lake-shed-14-shares.gp'
expect_exactly 'draw: and writes no more' "$(ls a/b >listing; echo listing)" 'lake-shed-14-curve.gp
lake-shed-14-residuals.gp
lake-shed-14-shares.gp'

run "$BOILCUT" draw "$good" --to again --no-pictures
cmp -s a/b/lake-shed-14-curve.gp again/lake-shed-14-curve.gp &&
	pass 'draw: the same bytes twice' || fail 'draw: the same bytes twice' 'differ'

run "$BOILCUT" draw "$good" --to one --only shares --no-pictures
expect_exactly 'draw: only one kind' "$out" 'one/lake-shed-14-shares.gp'

mkdir empty-path
run env PATH="$work/empty-path" "$BOILCUT" draw "$good" --to without
expect_status 'draw: without gnuplot' 0
expect_text 'draw: without gnuplot, how to draw' "$err" "gnuplot -e \"out='lake-shed-14-curve.svg'\""
[ "$(wc -l <"$err")" -eq 1 ] && pass 'draw: said once' || fail 'draw: said once' "$(cat "$err")"
[ -s without/lake-shed-14-shares.gp ] && pass 'draw: all scripts' || fail 'draw: all scripts' missing

printf '#!/bin/sh\necho "no fonts" >&2\nexit 3\n' >empty-path/gnuplot
chmod +x empty-path/gnuplot
run env PATH="$work/empty-path:/usr/bin:/bin" "$BOILCUT" draw "$good" --to broken --only curve
expect_status 'draw: gnuplot fails' 4
expect_exactly 'draw: gnuplot fails, message' "$err" \
	'boilcut: broken/lake-shed-14-curve.gp: gnuplot could not draw it: no fonts'
[ -s broken/lake-shed-14-curve.gp ] && pass 'draw: its script stays' || fail 'draw: its script stays' missing

: >file
run "$BOILCUT" draw "$good" --to file/in --no-pictures
expect_status 'draw: a folder that cannot be' 4
expect_text 'draw: ... message' "$err" 'boilcut: file/in: cannot make the folder: Not a directory'

# names that would be code
evil="x'; system('touch PWNED'); '\`touch PWNED\`\$(touch PWNED).csv"
{
	printf 'sample,"%s"\n' "a'; system('touch PWNED') ; \"\"; \`touch PWNED\` @x EOD"
	sed 1d "$good"
} >"$evil"
run "$BOILCUT" draw "$evil" --to evil
expect_status 'draw: a name that would be code' 0
if command -v gnuplot >/dev/null; then
	for ending in svg png; do
		for kind in curve residuals shares; do
			found=$(ls evil/*-$kind.$ending 2>/dev/null)
			[ -s "$found" ] && pass "draw: $kind.$ending" || fail "draw: $kind.$ending" missing
		done
	done
	for script in evil/*.gp a/b/*.gp; do
		LC_ALL=C.UTF-8 run gnuplot -d -e "out='phone.png'; wide=720; high=480" "$script"
		expect_status "gnuplot takes ${script##*/} at the size of a phone" 0
		expect_empty "gnuplot has nothing to say on ${script##*/}" "$err"
	done
fi
if [ -e PWNED ] || [ -e evil/PWNED ] || [ -e a/b/PWNED ]; then
	fail 'draw: names stay names' 'code was run'
else
	pass 'draw: names stay names'
fi

for sample in "$TOP"/samples/*.csv; do
	run "$BOILCUT" draw "$sample" --to all --no-pictures
	expect_status "draw: ${sample##*/}" 0
done

# a long name leaves room for what is drawn
{ echo 'sample,A jar with a name that goes on and on and on and never ends'; sed '/^sample,/d' "$good"; } >longname.csv
run "$BOILCUT" draw longname.csv --to longname --no-pictures
long_of() { sed -n "s/^name = '\(.*\)'$/\1/p" longname/*-"$1".gp | tr -d '\n' | wc -c; }
[ "$(long_of curve)" -eq 50 ] && pass 'draw: a long name is cut' || fail 'draw: a long name is cut' "$(long_of curve)"
[ "$(long_of shares)" -le 32 ] && pass 'draw: ... more so beside the bars' || fail 'draw: ... more so beside the bars' "$(long_of shares)"
finish
