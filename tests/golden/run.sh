# SPDX-License-Identifier: GPL-3.0-or-later
# Whole reports, byte for byte. 'sh tests/golden/run.sh accept' writes them anew: read the diff.
BOILCUT=${BOILCUT:-build/boilcut}
TOP=${TOP:-.}
. "$TOP/tests/lib.sh"
golden=$TOP/tests/golden

compare() { # name, command...
	name=$1
	shift
	run "$@"
	if [ "$accept" = yes ]; then
		cp "$out" "$golden/$name"
	elif cmp -s "$golden/$name" "$out"; then
		pass "golden $name"
	else
		fail "golden $name" "$(diff "$golden/$name" "$out" | head -n 6)"
	fi
}

accept=no
[ "${1:-}" = accept ] && accept=yes
program=$(cd "$(dirname "$BOILCUT")" && pwd)/${BOILCUT##*/}
top=$(cd "$TOP" && pwd)
golden=$top/tests/golden
cd "$top/samples" || exit 1
for sample in lake-shed-14 from-retort wet-oil waxy-tail old-notebook; do
	compare "$sample.txt" "$program" judge "$sample.csv"
done
compare lake-shed-14.json "$program" judge --json lake-shed-14.csv
compare light-ends.json "$program" judge --json light-ends.csv
printf 'recovered (%%),head (C)\n5,12x\n' >"$work/bad.csv"
cp lake-shed-14.csv weighed.csv "$work"
compare several.json sh -c "cd '$work' && '$program' judge --json lake-shed-14.csv bad.csv weighed.csv"
compare several.txt sh -c "cd '$work' && '$program' judge lake-shed-14.csv bad.csv"
compare mix.txt "$program" mix 'light-ends.csv=?' drying-room.csv=200L --want heating-oil-range
compare mix.json "$program" mix --json lamp-oil.csv=5L drying-room.csv=20kg
compare same.txt "$program" judge --same jar-27-a.csv jar-27-b.csv jar-27-c.csv
compare same.json "$program" judge --json --same jar-27-a.csv jar-27-b.csv
compare control.txt "$program" judge --control control/*.csv
compare control.json "$program" judge --json --control control/*.csv
compare fits.txt "$program" judge --fits lamp-oil.csv
compare limits.txt "$program" limits kerosene-range
compare lake-shed-14-curve.gp cat "$(
	"$program" draw lake-shed-14.csv --to "$work" --only curve --no-pictures >/dev/null 2>&1
	echo "$work/lake-shed-14-curve.gp"
)"
finish
