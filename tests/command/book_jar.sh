# SPDX-License-Identifier: GPL-3.0-or-later
# Jars of the book, what is due, balances, stills and re-runs, as a user has them.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
cp -R "$TOP/samples" .
BOILCUT_BOOK=$work/book.db
export BOILCUT_BOOK
{ "$BOILCUT" book init
	# 1 and 3 have a claim on their flash, 2 has none
	"$BOILCUT" book add samples/lake-shed-14.csv samples/from-retort.csv samples/lamp-oil.csv samples/light-ends.csv
} >"$out" 2>"$err" || fail 'a book' "$(cat "$err")"

book() { run "$BOILCUT" book "$@"; }

# ---- jars

book jar show
expect_text 'no jar yet' "$out" 'No jar yet'
book jar show --json
expect_exactly 'no jar yet: JSON' "$out" '[]'
book jar new 'Can 7' --capacity 10L --place 'north shelf' --date 2026-10-03
expect_exactly 'new' "$out" 'Jar Can 7: empty, room for 10 L; north shelf'
book jar new 'can 7'
expect_status 'new: there already' 1
expect_exactly 'new: there already, said' "$err" \
	"boilcut: $BOILCUT_BOOK: there is a jar 'can 7' already; expected another id"
book jar new 8 --capacity 1L
book jar fill 'can 7' 1 5L --date 2026-10-05
expect_exactly 'fill' "$out" 'Jar Can 7: 5 L of 10 L; batch 1 100 %; north shelf'
expect_empty 'fill: no warning' "$err"
book jar fill 'can 7' 3 2500mL
expect_exactly 'fill: shares' "$out" 'Jar Can 7: 7.5 L of 10 L; batch 1 66.7 %, batch 3 33.3 %; north shelf'
book jar show 'CAN 7'
expect_text 'show: the worst' "$out" 'no lower than 48 degC (low bound of batch 3'
expect_text 'show: due' "$out" 'Look again by 2026-12-26'
expect_text 'show: history' "$out" '2026-10-05  5 L of batch 1 in'
grep -q PETROL "$out" && fail 'show: no false alarm' "$(cat "$out")" || pass 'show: no false alarm'
book jar fill 'can 7' 2 2.501L
expect_status 'overfull' 1
expect_exactly 'overfull: said' "$err" \
	"boilcut: $BOILCUT_BOOK: jar 'can 7' has room for only 2.5 L; nothing has been moved"
expect_empty 'overfull: nothing on standard output' "$out"
book jar fill 'can 7' 2 2.1L
expect_status 'nearly full' 0
expect_text 'nearly full: warned' "$err" "jar 'can 7' is fuller than 95 %"
expect_text 'nearly full: petrol in it' "$out" 'TREAT AS PETROL'
book jar mix 'can 7' 8 960mL --json
tr -d ' \n' <"$out" >flat
expect_text 'mix: JSON' flat '{"moved_ml":960.0,"from":{"jar":"Can7",'
expect_text 'mix: JSON, shares kept' flat '"batch":1,"share_pct":52.0833,"volume_ml":500.0'
expect_text 'mix: JSON, worst' flat '"petrol":true,"was_petrol":false,"flash_low_c":null,"worst_batch":2'
book jar show 8
[ "$(sed -n 2p "$out")" = '## TREAT THIS JAR AS PETROL                                                   ##' ] &&
	pass 'show: danger first' || fail 'show: danger first' "$(cat "$out")"
[ "$(awk 'length($0) > 80' "$out" | wc -l)" -eq 0 ] && pass 'show: 80 columns' || fail 'show: 80 columns' "$(cat "$out")"
book jar empty 8 961mL
expect_status 'more than is there' 1
expect_exactly 'more than is there: said' "$err" \
	"boilcut: $BOILCUT_BOOK: jar '8' holds only 960 mL; nothing has been moved"
book jar empty 8 --remark 'into the burner'
expect_status 'empty' 0
book jar empty 8
expect_status 'empty twice' 1
book jar fill 8 3 200mL
expect_text 'not known to be clean' "$out" 'HELD PETROL BEFORE'
book jar show 8
expect_text 'not known to be clean: show' "$out" 'this jar, unless it was drained'
expect_text 'remark' "$out" '960 mL out: into the burner'
book jar place 8 'loft, left'
expect_text 'place' "$out" 'loft, left'
book jar mix 8 8 5mL
expect_status 'one and the same' 1
book jar fill 9 1 5mL
expect_exactly 'no such jar' "$err" \
	"boilcut: $BOILCUT_BOOK: no jar '9'; expected one that 'boilcut book jar show' lists"
book jar fill 8 9 5mL
expect_status 'no such batch' 1
for words in 'fill 8 1' 'fill 8 1 5' 'fill 8 1 0L' 'fill 8 x 5L' 'shw' 'show 8 9' 'show 8 --place x' 'fill 8 1 5mL --date 2026-02-30'; do
	# shellcheck disable=SC2086
	book jar $words
	expect_status "jar $words" 2
	expect_empty "jar $words: nothing printed" "$out"
done

# ---- due

book due --on 2026-12-25
expect_exactly 'nothing due' "$out" 'No jar is due on 2026-12-25.'
book due --on 2026-12-26
expect_text 'due' "$out" '2026-12-26  8: 200 mL, oldest is batch 3 of 2026-09-26; loft, left'
book list --due --on 2026-12-26 --json
cp "$out" listed
book due --on 2026-12-26 --json
cmp -s "$out" listed && pass 'list --due' || fail 'list --due' "$(cat listed)"
[ "$(grep -c '"jar"' listed)" -eq 2 ] && pass 'due: both jars' || fail 'due: both jars' "$(cat listed)"
book jar test 8 --date 2026-12-27 --remark 'strip 0, clear'
book jar test 'can 7' --date 2026-12-28
book due --on 2027-03-26 --json
expect_exactly 'tested' "$out" '[]'
book due --on 2027-03-27
expect_text 'due again' "$out" '2027-03-27  8: 200 mL'
book list --due --feed x
expect_status 'list --due takes no filter' 2
book list --on 2026-12-26
expect_status 'list --on alone' 2

# ---- balance

book balance 1
expect_text 'balance: nothing yet' "$out" 'Nothing is written down'
book balance 1 --plastic PE=9kg --plastic PP=3kg --oil 9.1L --char 1.2kg --product 5L --tail 3L --heat 10kWh
expect_status 'balance' 0
expect_text 'balance: oil' "$out" '9.1 L    7.348 kg    61.2 %'
expect_text 'balance: missing' "$out" '3.452 kg    28.8 %'
expect_text 'balance: tail' "$out" 'back to the retort'
expect_text 'balance: heat' "$out" 'Heat spent: 36 MJ, 3 MJ a kg of plastic'
book balance 1 --gas 8kg --json
expect_text 'balance: more out than in' "$out" '"missing_kg": -4.54757'
book balance 1
expect_text 'balance: ... said' "$out" 'More came out than went in, by 4.55 kg'
book balance 2
expect_text 'balance: of the sample' "$out" 'as the sample says'
book balance 9
expect_status 'balance: no such batch' 1
for words in '--oil 4' '--plastic =4kg' '--plastic PE=4L' '--heat 4W' '--gas -4kg' '--char 4L'; do
	# shellcheck disable=SC2086
	book balance 1 $words
	expect_status "balance $words" 2
done

# ---- stills and re-runs

printf 'stages,3\nriser,\033[2J<b>\n' >copper.csv
book still add copper.csv
expect_exactly 'still add' "$out" 'Still copper: version 1 kept'
book still add copper.csv
expect_status 'still add: the same' 1
echo 'carry,2 %' >>copper.csv
book still add copper.csv --name COPPER
expect_exactly 'still add: next version' "$out" 'Still copper: version 2 kept'
book still show copper --version 1 --original
printf 'stages,3\nriser,\033[2J<b>\n' | cmp -s - "$out" && pass 'still: original' || fail 'still: original' "$(cat "$out")"
book still show copper
expect_text 'still: shown as text' "$out" 'riser,\x1B[2J<b>'
book still show tin
expect_status 'still: none such' 1
printf 'a\0b' >binary.csv
book still add binary.csv
expect_status 'still: binary' 3
book still add missing.csv
expect_status 'still: no such file' 4

book pair 4 1 --still Copper --cut 170C
expect_status 'pair' 0
expect_text 'pair: what it is' "$out" 'Pair 1: batch 4 became batch 1 on copper, from 170 degC'
expect_text 'pair: expected by the judgement' "$out" 'by the re-run that the judgement'
"$BOILCUT" tap samples/light-ends.csv --want heating --json >plan.json
book pair 4 1 --plan plan.json
expect_text 'pair: expected by the plan' "$out" 'by the plan that was kept'
expect_text 'pair: a figure' "$out" 't50_c'
book pair --json
[ "$(grep -c '"pair"' "$out")" -eq 2 ] && pass 'pair: list' || fail 'pair: list' "$(cat "$out")"
book pair 1 --json
expect_text 'pair: JSON' "$out" '"expected_by": "judgement"'
book pair 1 3
expect_text 'pair: nothing expected' "$out" 'Nothing was expected'
for words in '1 1' '1 2 --cut 170' '1 2 --cut 170C --until 160C' '1 2 3'; do
	# shellcheck disable=SC2086
	book pair $words
	expect_status "pair $words" 2
done
for words in '1 9' '9' '1 2 --still tin'; do
	# shellcheck disable=SC2086
	book pair $words
	expect_status "pair $words" 1
done
book pair 1 2 --plan samples/lamp-oil.csv
expect_status 'pair: no plan' 3

# ---- hostile names are text

evil="'; DROP TABLE jar; -- <b>\`id\`\"%s"
book jar new "$evil" --place "$(printf 'shelf\033[2J\nnext')"
expect_status 'hostile id' 0
expect_text 'hostile id: as it is' "$out" 'DROP TABLE jar; -- <b>`id`"%s'
expect_text 'hostile place: escaped' "$out" 'shelf\x1B[2J\x0Anext'
book jar fill "$evil" 1 5mL --remark "$(printf 'a\033]0;x\007')"
book jar show "$evil"
LC_ALL=C grep -q "$(printf '\033')" "$out" && fail 'hostile: no escape reaches the terminal' raw ||
	pass 'hostile: no escape reaches the terminal'
book jar show --json
expect_status 'hostile: the others are there' 0
[ "$(grep -c '"jar"' "$out")" -eq 3 ] && pass 'hostile: three jars' || fail 'hostile: three jars' "$(cat "$out")"
book jar new "$(printf 'a\nb')"
expect_status 'an id is one line' 2
book balance 1 --plastic "$(printf 'P\033E<b>')=1kg"
expect_text 'hostile resin: escaped' "$out" 'P\x1BE<b>'
head -c 1000000 /dev/zero | tr '\0' 'x' >long
book jar place 8 "$(head -c 100000 long)"
expect_status 'a long place' 0
book verify
expect_status 'the book is whole' 0

finish
