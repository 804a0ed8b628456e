#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every command of README.md that starts with 'build/boilcut' runs, and ends as said: status 0, or
# N where the line ends in '# status N'. The session block is the program's own output; with the
# argument 'fill' it is written anew.
TOP=${TOP:-$PWD} BUILD=${BUILD:-$TOP/build} BOILCUT=${BOILCUT:-$BUILD/boilcut}
. "$TOP/tests/lib.sh"

mkdir "$work/build" && ln -s "$BOILCUT" "$work/build/boilcut" && cp -r "$TOP/samples" "$work"
awk '/^```sh$/ { inside = 1; next } /^```$/ { inside = 0 } inside' "$TOP/README.md" |
	grep '^build/boilcut ' >"$work/commands"

count=0
while IFS= read -r line; do
	count=$((count + 1))
	wanted=0
	case $line in *'# status '*) wanted=${line##*'# status '} ;; esac
	run sh -c "cd '$work' && $line"
	expect_status "README: $line" "$wanted"
done <"$work/commands"
if [ "$count" -ge 5 ]; then
	pass "README: $count commands"
else
	fail "README: commands" "only $count were found"
fi

# every picture is shown in the gallery, and every picture that is shown is there
for page in README.md plots/README.md; do
	grep -o '](\([^)]*\.svg\))' "$TOP/$page" | sed 's/^](//; s/)$//' | while read -r picture; do
		[ -s "$TOP/$(dirname "$page")/$picture" ] || echo "$page: $picture"
	done
done >"$work/missing"
expect_empty 'README: every picture shown is there' "$work/missing"
for picture in "$TOP"/plots/*.svg; do
	grep -q "(${picture##*/})" "$TOP/plots/README.md" || echo "${picture##*/}"
done >"$work/unshown"
expect_empty 'gallery: every picture is shown' "$work/unshown"

# the session: the first line of the block is '$ command', the rest its output
sed -n '/^<!-- session -->$/,/^<!-- end of session -->$/p' "$TOP/README.md" |
	sed '/^<!--/d;/^```/d' >"$work/session"
command=$(sed -n '1s/^\$ //p' "$work/session")
sed 1d "$work/session" >"$work/expected"
run sh -c "cd '$work' && $command"
if [ "${1:-}" = fill ]; then
	{
		sed '/^<!-- session -->$/q' "$TOP/README.md"
		printf '```\n$ %s\n' "$command"
		cat "$out"
		printf '```\n'
		sed -n '/^<!-- end of session -->$/,$p' "$TOP/README.md"
	} >"$work/README.md" && cat "$work/README.md" >"$TOP/README.md"
elif [ -n "$command" ] && cmp -s "$out" "$work/expected"; then
	pass "README: the session is what the program prints"
else
	fail "README: the session is what the program prints" \
		"$(diff "$work/expected" "$out" | head -n 20)"
fi
finish
