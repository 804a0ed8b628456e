# SPDX-License-Identifier: GPL-3.0-or-later
# The manual page names every command, option and JSON key, nothing else, and its examples run.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
cp -R "$TOP/samples" .
page=$TOP/src/man/boilcut.1
mkdir bin
ln -s "$BOILCUT" bin/boilcut

if command -v groff >/dev/null; then
	run groff -mdoc -Tascii -ww -z "$page"
	expect_empty 'manual: formats without a warning' "$err"
fi

"$BOILCUT" help >all
commands=$(sed -n '/^Commands:/,/^$/s/^  \([a-z]*\) .*/\1/p' all)
for command in $commands; do
	expect_text "manual: command $command" "$page" ".Cm $command"
	"$BOILCUT" help "$command" | sed -n 's/^  ...* --\([a-z-]*\).*/\1/p' | grep -v '^help$' >>options
	for part in $("$BOILCUT" help "$command" | sed -n "s/^  $command \([a-z]*\) .*/\1/p"); do
		expect_text "manual: $command $part" "$page" ".Ss $command $part"
		"$BOILCUT" help "$command" "$part" | sed -n 's/^  ...* --\([a-z-]*\).*/\1/p' |
			grep -v '^help$' >>options
	done
done
sort -u options | while read -r option; do
	grep -q -- "Fl -$option" "$page" && echo "ok manual: --$option" || echo "not ok manual: --$option: missing"
done >found
cat found
! grep -q '^not ok' found || failures=1
sed 's/ , /\n.Fl /g' "$page" | sed -n 's/.*Fl -\([a-z-]*\).*/\1/p' | tr -d ',' | sed 's/-*$//' | sort -u |
	grep -v -x 'version\|help' | while read -r option; do
	grep -q -x -- "$option" options || echo "$option"
done >strange
expect_empty 'manual: no option that is not there' strange

grep -q '^\.Fl h$' "$page" && pass 'manual: -h' || fail 'manual: -h' missing

# JSON: keys of samples with a re-run, scales and a laboratory behind them, and of a failed file; the
# inputs of a formula are named by the formula
printf 'recovered (%%),head (C)\n5,12x\n' >bad.csv
{ echo 'sulphur,127 mg/kg'; cat samples/weighed.csv; } >lab.csv
mkdir cups
for n in 1 2 3; do
	{ echo "flash,7$n C"; sed "s/^IBP,.*/IBP,15$n/" samples/lake-shed-14.csv; } >cups/$n.csv
done
{
	"$BOILCUT" judge --json --explain --learn cups samples/light-ends.csv samples/weighed.csv \
		samples/lake-shed-14.csv lab.csv bad.csv
	"$BOILCUT" judge --json --same samples/jar-27-*.csv
	"$BOILCUT" judge --json --control samples/control/*.csv
} 2>"$err" |
	sed '/"inputs": {$/,/}/d' | sed -n 's/^ *"\([a-z0-9_]*\)":.*/\1/p' | sort -u >keys
sed -n '/^\.Sh JSON$/,/^\.Sh JSON OF TAP/p' "$page" >section
sed -n 's/^\.\(It Va\|Sq\|Ql\|Pq Ql\|Pq Sq\) //p' section |
	sed 's/ No .*//' | tr -cs 'a-z0-9_*' '\n' |
	sort -u >named
while read -r key; do
	case $key in
	t[0-9]*_c | r[0-9]*_pct | e[0-9]*_pct | t0_k | a | b | *_k | shape | power | scale | mean | spread) continue ;;
	esac
	grep -q -x -- "$key" named || echo "$key"
done <keys >missing
expect_empty 'manual: every JSON key' missing
while read -r word; do
	case $word in '' | *'*'* ) continue ;; esac
	grep -q -x -- "$word" keys || echo "$word"
done <named >strange
expect_empty 'manual: no JSON key that is not there' strange

# the object of tap, apart from what it has in common with judge
"$BOILCUT" tap --json --want heating samples/light-ends.csv --heater 2kW 2>"$err" |
	sed -n 's/^ *"\([a-z0-9_]*\)":.*/\1/p' | sort -u >tap-keys
cat keys tap-keys | sort -u >both
sed -n '/^\.Sh JSON OF TAP/,/^\.Sh JSON OF MIX/p' "$page" |
	sed -n 's/^\.\(It Va\|Sq\|Ql\) //p' | tr -cs 'a-z0-9_' '\n' | sort -u >tap-named
[ "$(wc -l <tap-keys)" -gt 30 ] && pass 'manual: keys of tap' || fail 'manual: keys of tap' "$(cat "$err")"
while read -r key; do
	grep -q -x -- "$key" keys tap-named || echo "$key"
done <tap-keys >missing
expect_empty 'manual: every key of tap --json' missing
while read -r word; do
	case $word in '') continue ;; esac
	grep -q -x -- "$word" both || echo "$word"
done <tap-named >strange
expect_empty 'manual: no key of tap --json that is not there' strange

# the object of mix, the same
"$BOILCUT" mix --json 'samples/light-ends.csv=?' samples/drying-room.csv=20L --want heating 2>"$err" |
	sed -n 's/^ *"\([a-z0-9_]*\)":.*/\1/p' | sort -u >mix-keys
cat keys mix-keys | sort -u >both
sed -n '/^\.Sh JSON OF MIX/,/^\.Sh JSON OF STILL/p' "$page" |
	sed -n 's/^\.\(It Va\|Sq\|Ql\) //p' | tr -cs 'a-z0-9_' '\n' | sort -u >mix-named
[ "$(wc -l <mix-keys)" -gt 60 ] && pass 'manual: keys of mix' || fail 'manual: keys of mix' "$(cat "$err")"
while read -r key; do
	grep -q -x -- "$key" keys mix-named || echo "$key"
done <mix-keys >missing
expect_empty 'manual: every key of mix --json' missing
while read -r word; do
	case $word in '') continue ;; esac
	grep -q -x -- "$word" both || echo "$word"
done <mix-named >strange
expect_empty 'manual: no key of mix --json that is not there' strange
# the objects of still, both ways
XDG_DATA_HOME=$work/data
export XDG_DATA_HOME
{
	"$BOILCUT" still describe --riser 25mm --height 300mm --name a --json
	"$BOILCUT" still calibrate --before samples/in-12.csv --after samples/out-12.csv \
		--cut 165C --name a --json
	"$BOILCUT" still show a --json
} 2>"$err" | sed -n 's/^ *"\([a-z0-9_]*\)":.*/\1/p' | sort -u >still-keys
[ "$(wc -l <still-keys)" -gt 30 ] && pass 'manual: keys of still' || fail 'manual: keys of still' "$(cat "$err")"
sed -n '/^\.Sh JSON OF STILL/,/^\.Sh JSON OF THE BOOK/p' "$page" | grep -o 'Ql [a-z0-9_]*' |
	sed 's/^Ql //' | sort -u >still-named
grep -v -x 'how' still-keys >still-own
diff still-own still-named >differing
expect_empty 'manual: every key of still --json, and no other' differing
# list, show and add of the book, apart from the judgement
BOILCUT_BOOK=$work/book.db
export BOILCUT_BOOK
{ "$BOILCUT" book init && "$BOILCUT" book add samples/timed.csv && "$BOILCUT" book note 1 'a note'; } >"$out"
{ "$BOILCUT" book list --json; "$BOILCUT" book show 1 --json | sed '/^  "judgement"/q'
	"$BOILCUT" book add --json samples/lamp-oil.csv
	"$BOILCUT" book jar new 7 --json
	"$BOILCUT" book jar fill 7 1 5L --json
	"$BOILCUT" book jar show 7 --json
	"$BOILCUT" book due --on 2099-12-31 --json
	"$BOILCUT" book balance 1 --oil 9L --json
	"$BOILCUT" book still add samples/README.md --json
	"$BOILCUT" book pair 1 2 --json
	"$BOILCUT" book trend --json --rules beyond t50_c; "$BOILCUT" book compare --json 1 2; } |
	sed -n 's/^ *"\([a-z0-9_]*\)":.*/\1/p' | sort -u >book-keys
[ "$(wc -l <book-keys)" -gt 20 ] && pass 'manual: keys of book' || fail 'manual: keys of book' "$(cat book-keys)"
sed -n '/^\.Sh JSON OF THE BOOK/,/^\.Sh EXAMPLES/p' "$page" |
	sed -n 's/^\.\(It Va\|Sq\|Ql\) //p' | tr -cs 'a-z0-9_' '\n' | sort -u >book-named
while read -r key; do
	grep -q -x -- "$key" keys book-named || echo "$key"
done <book-keys >missing
expect_empty 'manual: every key of book --json' missing

"$BOILCUT" limits --json | sed -n 's/^ *"\([a-z0-9_]*\)":.*/\1/p' | sort -u | while read -r key; do
	sed -n '/^\.Ss limits/,/^\.Ss formula/p' "$page" | grep -q "^\.Sq $key\b" || echo "$key"
done >missing
expect_empty 'manual: every key of limits --json' missing

# sample keys, both ways
sed -n 's/^\t{"\([a-z ]*\)", {.*/\1/p' "$TOP/src/sample/keys.c" | sort >keys
sed -n 's/^\.It \(.*\) Ta ..*/\1/p' "$page" | sort >named
[ "$(wc -l <keys)" -gt 30 ] && pass 'manual: sample keys' || fail 'manual: sample keys' "$(cat keys)"
diff keys named >differing
expect_empty 'manual: every sample key, and no other' differing

sed -n 's/^\.Dl \(boilcut .*\)/\1/p' "$page" >examples
[ "$(wc -l <examples)" -ge 3 ] && pass 'manual: examples' || fail 'manual: examples' "$(cat examples)"
while read -r line; do
	status=0
	PATH="$work/bin:$PATH" sh -c "$line" >"$out" 2>"$err" </dev/null || status=$?
	expect_status "manual: $line" 0
done <examples

finish
