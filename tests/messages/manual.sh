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
done
sort -u options | while read -r option; do
	grep -q -- "Fl -$option" "$page" && echo "ok manual: --$option" || echo "not ok manual: --$option: missing"
done >found
cat found
! grep -q '^not ok' found || failures=1
sed 's/ , /\n.Fl /g' "$page" | sed -n 's/.*Fl -\([a-z-]*\).*/\1/p' | tr -d ',' | sed 's/-*$//' | sort -u |
	grep -v '^version$' | while read -r option; do
	grep -q -x -- "$option" options || echo "$option"
done >strange
expect_empty 'manual: no option that is not there' strange

"$BOILCUT" judge --json samples/from-retort.csv |
	sed -n 's/^ *"\([a-z0-9_]*\)":.*/\1/p' | sort -u >keys
while read -r key; do
	case $key in
	t[0-9]*_c | r[0-9]*_pct | e[0-9]*_pct | t0_k | a | b | *_k | shape | power) continue ;;
	esac
	grep -q -w -- "$key" "$page" || echo "$key"
done <keys >missing
expect_empty 'manual: every JSON key' missing

sed -n 's/^\.Dl \(boilcut .*\)/\1/p' "$page" >examples
[ "$(wc -l <examples)" -ge 3 ] && pass 'manual: examples' || fail 'manual: examples' "$(cat examples)"
while read -r line; do
	status=0
	PATH="$work/bin:$PATH" sh -c "$line" >"$out" 2>"$err" </dev/null || status=$?
	expect_status "manual: $line" 0
done <examples

finish
