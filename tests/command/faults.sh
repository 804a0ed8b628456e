# SPDX-License-Identifier: GPL-3.0-or-later
# The n-th allocation or write fails, for n = 1, 2, ... until a command succeeds: it ends with status
# 4 and a message, never by a signal, and never with half a result that looks whole.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
good=$TOP/samples/lake-shed-14.csv
stride=7
[ -z "${BOILCUT_LONG:-}" ] || stride=1

until_done() { # name, kind, stride, command...
	name=$1
	kind=$2
	step=$3
	shift 3
	n=1
	while :; do
		rm -rf made
		status=0
		BOILCUT_FAULT=$kind:$n+ "$BOILCUT_FAULTY" "$@" >"$out" 2>"$err" </dev/null || status=$?
		[ "$status" -eq 4 ] && [ -s "$err" ] || break
		n=$((n + step))
	done
	if [ "$status" -eq 0 ] && [ "$n" -gt 1 ]; then
		pass "$name: $kind 1 to $n"
	else
		fail "$name: $kind" "at $n status $status: $(head -n 2 "$err")"
	fi
}

until_done judge alloc "$stride" judge --draws 0 "$good"
until_done 'judge, draws' alloc $((stride * 111)) judge --draws 100 "$good"
until_done 'judge, explain' alloc "$stride" judge --draws 0 --explain "$good"
until_done 'judge, explained JSON' alloc $((stride * 13)) judge --draws 0 --explain --json "$good"
until_done 'judge, JSON' alloc $((stride * 13)) judge --draws 0 --json "$good"
until_done 'judge, list' alloc "$stride" judge --draws 0 --readings 'ibp 171, 5 184, 10 190, 50 222, 90 262'
mkdir cups
for i in 1 2 3; do
	{ echo "flash,7$i C"; sed "s/^IBP,.*/IBP,15$i/" "$good"; } >cups/$i.csv
done
until_done 'judge, own cups' alloc $((stride * 37)) judge --draws 0 --learn cups "$good"
until_done 'judge, same' alloc "$stride" judge --draws 0 --same "$TOP"/samples/jar-27-*.csv
until_done 'judge, same, JSON' alloc $((stride * 37)) judge --draws 0 --same --json "$TOP"/samples/jar-27-*.csv
until_done 'judge, control' alloc "$stride" judge --control "$TOP"/samples/control/2026-0*.csv
until_done tap alloc $((stride * 13)) tap --cuts 170C,300C "$good"
until_done 'tap, JSON' alloc $((stride * 37)) tap --want heating --json "$good"
until_done mix alloc $((stride * 311)) mix "$good=3L" "$good=1kg"
until_done 'mix, JSON' alloc $((stride * 511)) mix --json "$good=?" "$good=1L" --want heating
until_done limits alloc "$stride" limits
until_done 'formula list' alloc 1 formula list
until_done help alloc 1 help judge
until_done tidy alloc 1 tidy "$good"
until_done new alloc 1 new made
until_done draw alloc "$stride" draw --draws 0 "$good" --to made --no-pictures

"$BOILCUT" book init --book one.db >/dev/null
"$BOILCUT" book add --book one.db "$TOP/samples/waxy-tail.csv" >/dev/null
until_done 'book show' alloc $((stride * 17)) book show --book one.db 1
until_done 'book show, JSON' alloc $((stride * 29)) book show --book one.db --json 1
until_done 'book list' alloc $((stride * 5)) book list --book one.db
until_done 'book list, JSON' alloc $((stride * 5)) book list --book one.db --json
"$BOILCUT" book jar new --book one.db 7 >/dev/null
"$BOILCUT" book jar fill --book one.db 7 1 5L >/dev/null
until_done 'book jar show' alloc $((stride * 5)) book jar show --book one.db 7
until_done 'book jar fill, JSON' alloc $((stride * 11)) book jar fill --book one.db 7 1 1mL --json
until_done 'book due' alloc $((stride * 3)) book due --book one.db --on 2099-12-31
until_done 'book balance' alloc $((stride * 7)) book balance --book one.db 1 --oil 9L --plastic PE=12kg
until_done 'book still add' alloc $((stride * 5)) book still add --book one.db "$good"
until_done 'book verify' alloc $((stride * 411)) book verify --book one.db
until_done 'book trend' alloc "$stride" book trend --book one.db t50_c
until_done 'book trend, JSON' alloc "$stride" book trend --book one.db t50_c --json
until_done 'book compare' alloc $((stride * 5)) book compare --book one.db 1 1
until_done 'book export' alloc $((stride * 5)) book export --book one.db made
until_done 'book export, disk' write 1 book export --book one.db made
until_done 'book export, one table' alloc "$stride" book export --book one.db made.csv
"$BOILCUT" book export --book one.db shed-book
"$BOILCUT" book init --book two.db >/dev/null
until_done 'book import' alloc $((stride * 17)) book import --book two.db shed-book
until_done 'book add' alloc $((stride * 311)) book add --book one.db "$good"
"$BOILCUT" book list --book one.db | grep -q '^ *2 ' && pass 'book add: once' || fail 'book add: once' 'missing'

# one allocation alone fails: whatever is printed is whole
printf 'recovered (%%),head (C)\n5,12x\n' >bad.csv
sed -n 1,3p "$TOP/standards-notes/limits.csv" >one-limit.csv
each() { # name, from, to, stride, command...
	name=$1
	n=$2
	last=$3
	step=$4
	shift 4
	while [ "$n" -le "$last" ]; do
		status=0
		BOILCUT_FAULT=alloc:$n "$BOILCUT_FAULTY" "$@" >"$out" 2>"$err" </dev/null || status=$?
		case $status:$(head -c 1 "$out"):$(tail -n 1 "$out") in
		[0-5]:\[:]) ;;
		[45]::) ;;
		*)
			fail "$name: alloc $n alone" "status $status: $(head -n 2 "$err")"
			return
			;;
		esac
		n=$((n + step))
	done
	pass "$name: alloc alone, to $last"
}
each 'judge, bad files as JSON' 1 130 1 judge --limits one-limit.csv --json bad.csv bad.csv
each 'judge, JSON' 100 4000 $((stride * 19)) judge --draws 0 --limits one-limit.csv --json bad.csv "$good"

until_done judge write 1 judge --draws 0 "$good"
until_done 'judge, array' write 1 judge --draws 0 --json "$good" "$good"
until_done new write 1 new made
cp "$good" own.csv
until_done 'tidy in place' write 1 tidy -i own.csv
until_done 'tap, charts' write 1 tap --split "$good" --charts made
until_done 'mix, charts' write 1 mix "$good=1L" "$good=2L" --charts made
until_done draw write 1 draw --draws 0 "$good" --to made --no-pictures

finish
