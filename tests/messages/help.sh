# SPDX-License-Identifier: GPL-3.0-or-later
# Help of every command: within 80 columns, the same by three ways, and its examples run.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
cp -R "$TOP/samples" .

run "$BOILCUT" --version
expect_status 'version' 0
grep -q '^boilcut [0-9][0-9.]*$' "$out" && pass 'version: its form' || fail 'version: its form' "$(cat "$out")"

run "$BOILCUT" --help
expect_status 'help' 0
cp "$out" all
commands=$(sed -n '/^Commands:/,/^$/s/^  \([a-z]*\) .*/\1/p' all)
[ "$(echo "$commands" | wc -w)" -ge 7 ] && pass 'help: lists commands' || fail 'help: lists commands' "$commands"
for way in help -h; do
	run "$BOILCUT" $way
	cmp -s "$out" all && pass "help: the same by $way" || fail "help: the same by $way" 'differs'
done

# make next-jar.csv of an example what it stands for
cp samples/lake-shed-14.csv next-jar.csv
printf 'stages,3\nreflux,1\n' >copper.csv

# a book for the examples of its parts
ready() { # example
	case $1 in
	*'book init'*) rm -f book.db shed.db ;;
	*'book import'*) rm -f book.db again.db
		"$BOILCUT" book init >/dev/null
		"$BOILCUT" book init --book again.db >/dev/null ;;
	*' book '*) [ -e book.ready ] || {
		"$BOILCUT" book init --book book.ready
		"$BOILCUT" book add --book book.ready samples/timed.csv samples/waxy-tail.csv
		"$BOILCUT" book jar new --book book.ready 'can 7'
	} >/dev/null
		cp book.ready book.db
		cp book.ready shed.db ;;
	*'boilcut new '*) rm -f next-jar.csv other-jar.csv ;;
	esac
}
BOILCUT_BOOK=$work/book.db
export BOILCUT_BOOK

{
	echo
	for command in $commands; do
		echo "$command"
		"$BOILCUT" help "$command" | sed -n "s/^  \($command [a-z]*\) .*/\1/p"
	done
} >words
grep -q -x 'book add' words && pass 'help: parts of book' || fail 'help: parts of book' "$(cat words)"

while read -r command; do
	# shellcheck disable=SC2086
	run "$BOILCUT" help $command
	expect_status "help $command" 0
	page=$work/page-$command
	cp "$out" "$page"
	wide=$(awk 'length($0) > 80' "$page")
	[ -z "$wide" ] && pass "help $command: within 80 columns" || fail "help $command: within 80 columns" "$wide"
	if [ -n "$command" ]; then
		# shellcheck disable=SC2086
		run "$BOILCUT" $command --help
		cmp -s "$out" "$page" && pass "$command --help" || fail "$command --help" 'differs'
	fi
	examples=$(sed -n '/^Examples:/,$s/^  \(boilcut .*\)/\1/p' "$page")
	[ "$(echo "$examples" | wc -l)" -eq 2 ] && pass "help $command: two examples" || fail "help $command: two examples" "$examples"
	echo "$examples" >examples
	while read -r line; do
		mkdir -p bin
		ln -sf "$BOILCUT" bin/boilcut
		ready "$line"
		status=0
		PATH="$work/bin:$PATH" sh -c "$line" >"$out" 2>"$err" </dev/null || status=$?
		expect_status "example: $line" 0
		cp samples/lake-shed-14.csv next-jar.csv
	done <examples
done <words

finish
