# SPDX-License-Identifier: GPL-3.0-or-later
# 'boilcut watch' without a terminal: a finished run, one memory after the other that fails, a
# standard output that is full.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
sheet='history,rerun

recovered (%),head (C)
'
lines='ibp 171
5 184
190 pot 231
note bumping, a bit
20 201.5
fix 20 201
30 209.5
residue 1.4 mL
finish
'
fed() { # options: the lines into watch
	printf '%s' "$sheet" >a.csv
	rm -f a.csv.journal
	status=0
	printf '%s' "$lines" | "$@" >"$out" 2>"$err" || status=$?
}

fed "$BOILCUT" watch --paper a.csv
expect_status 'watch: a run' 0
expect_exactly 'watch: its sample' a.csv 'history,rerun
residue,1.4 mL

recovered (%),head (C),pot (C),note
IBP,171,,
5,184,,
10,190,231,"bumping, a bit"
20,201,,
30,209.5,,'
[ -e a.csv.journal ] && fail 'watch: no journal is left' 'there is one' || pass 'watch: no journal is left'
run "$BOILCUT" judge a.csv
expect_status 'watch: the sample is judged' 0

# whatever memory fails, the lines that were answered are in the journal or the sample
n=1
stride=17
[ -z "${BOILCUT_LONG:-}" ] || stride=1
ended=
while [ -z "$ended" ]; do
	BOILCUT_FAULT=alloc:$n+ fed "$BOILCUT_FAULTY" watch --paper a.csv
	case $status in
	0) ended=yes ;;
	4) ;;
	*) break ;;
	esac
	answered=$(grep -c '^[0-9]* %: ' "$out")
	kept=$(cat a.csv a.csv.journal 2>/dev/null | grep -c '^[0-9]*,\|read|[0-9]')
	[ "$answered" -le "$kept" ] || break
	n=$((n + stride))
done
if [ -n "$ended" ] && [ "$n" -gt 100 ]; then
	pass "watch: alloc 1 to $n"
else
	fail 'watch: alloc' "at $n status $status: $(head -n 2 "$err")"
fi

# one allocation alone
n=1
while [ "$n" -lt 3000 ]; do
	BOILCUT_FAULT=alloc:$n fed "$BOILCUT_FAULTY" watch --paper a.csv
	case $status in [04]) ;; *) break ;; esac
	n=$((n + stride * 7))
done
[ "$n" -ge 3000 ] && pass 'watch: one alloc alone' || fail 'watch: one alloc alone' "at $n status $status"

if [ -e /dev/full ]; then
	status=0
	printf '%s' "$sheet" >a.csv
	printf '%s' "$lines" | "$BOILCUT" watch --paper a.csv 2>"$err" >/dev/full || status=$?
	expect_status 'watch: nobody can read its answers' 4
fi

# a plan that 'tap' made, and one made on the spot
rm -f a.csv.journal
printf 'charge,40 L\nhistory,rerun\n\nrecovered (mL),head (C)\n' >a.csv
"$BOILCUT" tap "$TOP/samples/light-ends.csv" --want heating --charge 40L --json >tap.json
printf '1000 130\n' >lines
for way in '--plan tap.json' "--feed $TOP/samples/light-ends.csv --want heating"; do
	rm -f a.csv.journal
	status=0
	# shellcheck disable=SC2086
	"$BOILCUT" watch a.csv $way <lines >"$out" 2>"$err" || status=$?
	expect_status "watch: ${way%% *}" 0
	sed -n '/^tap: /,/plan$/p' "$out" >"said$(echo "$way" | cut -c 3-6)"
done
expect_text 'watch: counts down to the light jar' saidplan 'tap: light jar; product jar at 188.3 degC (+58.3) and 3.17 L (2.17 L to go)'
cmp -s saidplan saidfeed && pass 'watch: the same by both ways' || fail 'watch: the same by both ways' "$(cat saidplan saidfeed)"
rm -f a.csv.journal
run "$BOILCUT" watch a.csv --feed "$TOP/samples/lamp-oil.csv" --want diesel
expect_status 'watch: no cut does it' 1
[ -e a.csv.journal ] && fail 'watch: and no journal is begun' 'there is one' || pass 'watch: and no journal is begun'
printf 'hello' >tap.json
run "$BOILCUT" watch a.csv --plan tap.json
expect_status 'watch: no plan' 3
expect_exactly 'watch: no plan, said' "$err" "boilcut: tap.json: is no JSON; what 'boilcut tap --json' writes was expected"

finish
