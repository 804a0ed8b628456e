# SPDX-License-Identifier: GPL-3.0-or-later
# The record book as a user has it: adding, finding, showing, correcting, verifying, and what it says
# when it cannot.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
cp -R "$TOP/samples" .
good=samples/lake-shed-14.csv
BOILCUT_BOOK=$work/book.db
export BOILCUT_BOOK

run "$BOILCUT" book list
expect_status 'no book' 4
expect_exactly 'no book: says how to make one' "$err" \
	"boilcut: $BOILCUT_BOOK: no record book; expected one, which 'boilcut book init' makes"

run "$BOILCUT" book init
expect_status 'init' 0
expect_exactly 'init: says where' "$out" "The book is $BOILCUT_BOOK"
run "$BOILCUT" book init
expect_status 'init again' 4
expect_exactly 'init again: message' "$err" "boilcut: $BOILCUT_BOOK: is there already"
run env -u BOILCUT_BOOK XDG_DATA_HOME="$work/data" "$BOILCUT" book init
expect_exactly 'init: data folder' "$out" "The book is $work/data/boilcut/book.db"
[ -s data/boilcut/book.db ] && pass 'init: data folder made' || fail 'init: data folder made' 'no file'
run env -u BOILCUT_BOOK -u XDG_DATA_HOME HOME="$work/home" "$BOILCUT" book init
[ -s home/.local/share/boilcut/book.db ] && pass 'init: home' || fail 'init: home' "$(cat "$err")"
run "$BOILCUT" book init --book :memory:
[ -s :memory: ] && pass 'init: no name is special' || fail 'init: no name is special' 'no file'
run "$BOILCUT" book init --book no/such/folder/book.db
expect_status 'init: no folder' 4

run "$BOILCUT" book list
expect_status 'empty list' 0
expect_empty 'empty list: stdout' "$out"
expect_text 'empty list: said' "$err" 'no batch like that'
run "$BOILCUT" book list --json
expect_exactly 'empty list: JSON' "$out" '[]'

run "$BOILCUT" book add "$good"
expect_status 'add' 0
expect_exactly 'add: what became of it' "$out" "Batch 1: usable; $good"
run "$BOILCUT" book add "$good"
expect_status 'add again' 1
expect_exactly 'add again: message' "$err" \
	"boilcut: $good: already there: batch 1; a corrected record of it is added with --replaces"

# a bad file stops no other; the greatest status is the program's
run "$BOILCUT" book add samples/lamp-oil.csv "$TOP/tests/bad/no-header.csv" samples/waxy-tail.csv "$good"
expect_status 'add several' 3
expect_text 'add several: before the bad one' "$out" 'Batch 2: usable; samples/lamp-oil.csv'
expect_text 'add several: after the bad one' "$out" 'Batch 3: re-run; samples/waxy-tail.csv'
run "$BOILCUT" book add --json samples/wet-oil.csv no-such-file.csv
expect_status 'add: JSON' 4
tr -d ' \n' <"$out" >flat
expect_exactly 'add: JSON of both' flat \
	'[{"file":"samples/wet-oil.csv","batch":4,"revision":1,"word":"undecided","error":null},{"file":"no-such-file.csv","batch":null,"revision":null,"word":null,"error":"notread"}]'
run "$BOILCUT" book add - <"$good"
expect_status 'add: empty standard input' 3
printf 'samples/light-cut.csv\n' >list
run "$BOILCUT" book add --files-from list
expect_exactly 'add: files from a list' "$out" 'Batch 5: undecided; samples/light-cut.csv'

# what is kept is what judge says, and the file as it is
"$BOILCUT" judge --json samples/waxy-tail.csv >judged
"$BOILCUT" book show 3 --json | sed -n '/^  "judgement"/,$p' | sed '1s/.*/{/; $d; s/^  //' >kept
diff judged kept >differing
expect_empty 'show: the judgement of judge' differing
run "$BOILCUT" book show 3 --original
cmp -s "$out" samples/waxy-tail.csv && pass 'show: original' || fail 'show: original' 'differs'
run "$BOILCUT" book show 1
expect_text 'show: name' "$out" 'sample    Lake shed 14'
expect_text 'show: verdict' "$out" 'Verdict: usable'
expect_text 'show: flash with bounds' "$out" 'flash point'
expect_text 'show: fire hazard' "$out" '  - GHS: Category 4;'
wide=$(awk 'length($0) > 80' "$out")
[ -z "$wide" ] && pass 'show: 80 columns' || fail 'show: 80 columns' "$wide"
run "$BOILCUT" book show 99
expect_status 'show: no such batch' 1
expect_exactly 'show: no such batch, message' "$err" \
	"boilcut: $BOILCUT_BOOK: no batch 99; expected one that 'boilcut book list' shows"
run "$BOILCUT" book show 1 --revision 2
expect_status 'show: no such revision' 1

# corrected
sed 's/^IBP,.*/IBP,175/' "$good" >corrected.csv
run "$BOILCUT" book add --replaces 1 --reason 'IBP misread' corrected.csv
expect_status 'replaces' 0
expect_text 'replaces: revision 2' "$out" 'Batch 1, revision 2: '
run "$BOILCUT" book add --replaces 1 --reason 'again' corrected.csv
expect_status 'replaces: the same' 1
run "$BOILCUT" book add --replaces 1 --reason 'mixed up' samples/lamp-oil.csv
expect_status 'replaces: of another batch' 1
expect_text 'replaces: says which' "$err" 'already there: batch 2'
run "$BOILCUT" book add --replaces 77 --reason 'no' samples/timed.csv
expect_status 'replaces: no such batch' 1
run "$BOILCUT" book show 1
expect_text 'replaces: reason is shown' "$out" 'IBP misread'
run "$BOILCUT" book show 1 --revision 1 --original
cmp -s "$out" "$good" && pass 'replaces: the old one is kept' || fail 'replaces: the old one is kept' 'differs'
run "$BOILCUT" book add --replaces 1 --reason 'for diesel' --want diesel corrected.csv
expect_text 'replaces: judged for another wish' "$out" 'Batch 1, revision 3: '

# lists
run "$BOILCUT" book list
[ "$(wc -l <"$out")" -eq 7 ] && pass 'list: five batches' || fail 'list: five batches' "$(cat "$out")"
wide=$(awk 'length($0) > 80' "$out")
[ -z "$wide" ] && pass 'list: 80 columns' || fail 'list: 80 columns' "$wide"
run "$BOILCUT" book list --verdict re-run --from 2026-09-12 --until 2026-09-12
[ "$(wc -l <"$out")" -eq 3 ] && pass 'list: filters' || fail 'list: filters' "$(cat "$out")"
run "$BOILCUT" book list --most 2 --json
[ "$(grep -c '"batch"' "$out")" -eq 2 ] && pass 'list: most' || fail 'list: most' "$(cat "$out")"

# whatever is written is text
nasty=$(printf 'a"b\047; DROP TABLE batch; -- <script>\033[31m`id`\n$(id)')
run "$BOILCUT" book note 2 "$nasty"
expect_status 'note' 0
cp samples/timed.csv "$nasty"
run "$BOILCUT" book add "$nasty"
expect_status 'nasty file name' 0
for words in 'show 2' 'show 6' list 'list --json' 'show 6 --json'; do
	# shellcheck disable=SC2086
	run "$BOILCUT" book $words
	expect_status "nasty: $words" 0
	if tr -d '\n' <"$out" | LC_ALL=C grep -q '[[:cntrl:]]'; then
		fail "nasty: $words" 'control characters in the output'
	else
		pass "nasty: $words: no control characters"
	fi
done
run "$BOILCUT" book list --text 'drop table'
[ "$(wc -l <"$out")" -eq 4 ] && pass 'nasty: found' || fail 'nasty: found' "$(cat "$out")"
huge=$(head -c 100000 /dev/zero | tr '\0' x)
run "$BOILCUT" book note 2 "$huge"
expect_status 'huge note' 0
run "$BOILCUT" book list --text "$huge"
expect_status 'huge filter' 0
run "$BOILCUT" book note 99 text
expect_status 'note: no such batch' 1

# verify
run "$BOILCUT" book verify
expect_status 'verify' 0
expect_exactly 'verify: counts' "$out" 'The book is whole. Records judged again: 8, differing: 0'

head -n 4 "$TOP/standards-notes/limits.csv" >own-limits.csv
run "$BOILCUT" book add --limits own-limits.csv samples/weighed.csv
expect_status 'own limits' 0
rm own-limits.csv
run "$BOILCUT" book verify
expect_status 'verify: limits come from the book' 0

# harm done by hand, past what the program allows
if command -v sqlite3 >/dev/null; then
	cp book.db harmed.db
	sqlite3 harmed.db "DROP TRIGGER content_stays_update; UPDATE content SET judgement =
		replace(judgement, '\"word\":\"re-run\"', '\"word\":\"usable\"') WHERE revision = 3"
	run "$BOILCUT" book verify --book harmed.db
	expect_status 'verify: differs' 1
	expect_text 'verify: says what' "$out" 'Batch 3, revision 1: verdict.word: was "usable", is now "re-run"'
	run sqlite3 book.db 'DELETE FROM note'
	expect_text 'only added to' "$err" 'the book is only added to'
else
	echo 'ok verify: differs # skip no sqlite3'
fi
head -c 20000 book.db >cut.db
run "$BOILCUT" book verify --book cut.db
expect_status 'cut off' 3
expect_text 'cut off: said' "$err" 'is damaged'
run "$BOILCUT" book list --book "$good"
expect_status 'foreign' 3
expect_exactly 'foreign: message' "$err" "boilcut: $good: is no record book"

# full: no file may grow beyond the book as it is
cp book.db full.db
blocks=$(($(wc -c <full.db) / 512))
i=0
while [ $i -lt 30 ]; do
	sed "s/^sample,.*/sample,Jar $i/" "$good" >"jar-$i.csv"
	i=$((i + 1))
done
# shellcheck disable=SC3045
run sh -c "trap '' XFSZ; ulimit -f $blocks; exec \"\$0\" book add --book full.db jar-*.csv" "$BOILCUT"
expect_status 'full' 4
expect_text 'full: said' "$err" 'boilcut: full.db: '
run "$BOILCUT" book verify --book full.db
expect_status 'full: whole' 0

# in use
if command -v sqlite3 >/dev/null; then
	mkfifo hold
	sqlite3 book.db <hold >/dev/null 2>&1 &
	exec 9>hold
	printf '.timeout 9000\nBEGIN EXCLUSIVE;\n' >&9
	i=0
	while [ $i -lt 50 ] && BOILCUT_PATIENCE_MS=0 "$BOILCUT" book list >/dev/null 2>&1; do
		sleep 0.05
		i=$((i + 1))
	done
	run env BOILCUT_PATIENCE_MS=30 "$BOILCUT" book add jar-1.csv
	expect_status 'in use' 4
	expect_exactly 'in use: message' "$err" \
		"boilcut: $BOILCUT_BOOK: is in use by another process, and did not come free"
	exec 9>&-
	wait
	run "$BOILCUT" book add jar-1.csv
	expect_status 'in use no more' 0
fi

finish
