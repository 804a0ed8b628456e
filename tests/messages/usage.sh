# SPDX-License-Identifier: GPL-3.0-or-later
# Every message of wrong usage: exact text, exit status 2, nothing on standard output.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
good=$TOP/samples/lake-shed-14.csv

# the grades that the table has rows for
grades=$(for grade in gasoline white-spirit kerosene diesel heating-oil marine; do
	grep -q "^$grade-range," "$TOP/standards-notes/limits.csv" && printf '%s-range, ' $grade
done)
grades="${grades%, } or comparison"

wrong() { # command of the last line ('' for the program), message, arguments
	command=$1
	message=$2
	shift 2
	run "$BOILCUT" "$@"
	expect_status "status: $*" 2
	expect_empty "stdout: $*" "$out"
	expect_exactly "message: $*" "$err" "boilcut: $message
Try 'boilcut ${command:+$command }--help' for more."
}

wrong '' "a command is missing; expected one such as 'judge'"
wrong '' "'jugde' is not a command; did you mean 'judge'?" jugde
wrong '' "'drow' is not a command; did you mean 'draw'?" drow x.csv
wrong '' "'zzzzzzzz' is not a command; expected judge, tap, mix, still, watch, draw, label, card, book, limits, formula, new, tidy or help" zzzzzzzz
wrong '' "'--jsn' is not an option here; expected a command first, as 'boilcut judge FILE'" --jsn
wrong '' "'jugde' is not a command; did you mean 'judge'?" help jugde

wrong book "book lacks a word; expected one such as 'init'" book
wrong book "'lst' is not something that book does; did you mean 'list'?" book lst
wrong book "'lst' is not something that book does; did you mean 'list'?" help book lst
wrong book "'--json' is not an option here; expected a word first, as 'boilcut book init'" book --json
wrong 'book init' "'x' is one word too many for book init; expected no more than 0" book init x
wrong 'book add' 'book add lacks a word; expected FILE or --files-from' book add
wrong 'book add' "'--replace' is not an option of book add; did you mean '--replaces'?" book add --replace 3 x.csv
wrong 'book add' 'a record is replaced for a reason; expected --replaces N --reason TEXT' \
	book add --replaces 3 "$good"
wrong 'book add' 'a record is replaced for a reason; expected --replaces N --reason TEXT' \
	book add --reason misread "$good"
wrong 'book add' "'--replaces' is about one record; expected one FILE" \
	book add --replaces 3 --reason misread "$good" x.csv
wrong 'book add' "'third' is not the number of a batch; expected one that 'boilcut book list' shows" \
	book add --replaces third --reason misread "$good"
wrong 'book list' "'October' is not a day; expected one such as 2026-10-03" book list --from October
wrong 'book list' "'rerun' is not a verdict; did you mean 're-run'?" book list --verdict rerun
wrong 'book list' "'0' is not a number of batches; expected 1 or more" book list --most 0
wrong 'book show' 'book show lacks a word; expected the number of a batch' book show
wrong 'book show' "'1.5' is not the number of a batch; expected one that 'boilcut book list' shows" book show 1.5
wrong 'book show' "'--original' prints the file as it is; expected no --json beside it" \
	book show 1 --original --json
wrong 'book note' 'book note lacks a word; expected the number of a batch and a text' book note 1
wrong 'book note' 'the note is empty; expected a text in quotes' book note 1 ''

wrong judge 'judge lacks a word; expected FILE, --files-from or --readings' judge
wrong judge "'--jsn' is not an option of judge; did you mean '--json'?" judge --jsn x.csv
wrong judge "'--wnat' is not an option of judge; did you mean '--want'?" judge --wnat=diesel x.csv
wrong judge "'--hepl' is not an option of judge; did you mean '--help'?" judge --hepl
wrong judge "'-x' is not an option of judge; expected one that its help lists" judge -x
wrong judge "'--want' has no value; expected GRADE" judge x.csv --want
wrong judge "'many' after --draws is not a whole number from 0 to 100000" judge --draws many x.csv
wrong judge "'100001' after --draws is not a whole number from 0 to 100000" judge --draws 100001 x.csv
wrong judge "'99' after --draws is too few for bounds; expected 0, or 100 to 100000" judge --draws 99 x.csv
wrong judge "'1.5' after --seed is not a whole number from 0 to 4294967295" judge --seed 1.5 x.csv
wrong judge "'--json' has a value; expected none" judge --json=yes x.csv
wrong judge "'disel-range' is not a grade; did you mean 'diesel-range'?" judge --want disel-range x.csv
wrong judge "'comparison' never enters a verdict; expected a grade such as diesel-range" judge --want comparison x.csv
wrong judge "'EN 591' is not a standard; did you mean 'EN 590 temperate A-C'?" \
	judge --standard 'EN 591' "$good"
wrong judge "'qqqqqqqqqqqq' is not a standard; expected one that 'boilcut limits' lists" \
	judge --standard qqqqqqqqqqqq "$good"
wrong judge "'DIN 51603-1' is a standard of heating-oil-range; expected one of diesel-range as --want says" \
	judge --want diesel-range --standard 'din 51603-1' "$good"
wrong judge "'Jet A / Jet A-1' is for comparison only; expected a standard of a grade" \
	judge --standard 'jet a' "$good"
wrong judge "'disel' is not a grade; did you mean 'diesel-range'?" judge --want disel x.csv
wrong judge "'kerosine' is not a grade; did you mean 'kerosene-range'?" judge --want kerosine x.csv
wrong judge "'EN590' is not a grade; did you mean --standard 'EN 590 temperate A-C'?" \
	judge --want EN590 x.csv
wrong judge "'zzzzzzz' is not a grade; expected $grades" judge --want zzzzzzz x.csv
wrong judge "'en591' is not a standard; did you mean 'EN 590 temperate A-C'?" \
	judge --standard en591 "$good"
wrong judge "'BS2869' could be several standards; expected one of 'BS 2869 class C1', 'BS 2869 class C2', 'BS 2869 class D'" \
	judge --standard BS2869 "$good"
wrong judge "'' is not a standard; expected one that 'boilcut limits' lists" judge --standard '' "$good"
wrong judge "'--charts' names no folder; expected a path, such as . for this one" \
	judge --charts '' "$good"
wrong judge "'--learn' names no folder; expected a path, such as . for this one" \
	judge --learn '' "$good"
wrong draw "'--to' names no folder; expected a path, such as . for this one" draw --to '' "$good"
wrong judge "'--fits' shapes the page; expected no --json beside it" judge --fits --json "$good"
wrong judge "'--explain' has a value; expected none" judge --explain=flash "$good"
wrong judge "'--explian' is not an option of judge; did you mean '--explain'?" judge --explian "$good"
wrong judge "'--colour' shapes the page; expected no --json beside it" \
	judge --json --colour never "$good"
wrong judge "'allways' is not a value of --colour; did you mean 'always'?" judge --colour allways x.csv
wrong judge "'red' is not a value of --colour; expected auto, always or never" judge --colour red x.csv
wrong judge "'--readings' stands for a file; expected no FILE beside it" judge --readings '5 100' x.csv
wrong judge "standard input ('-') is named twice; expected once" judge - -
wrong judge "standard input ('-') is named twice; expected once" judge - --files-from -
wrong tap 'tap lacks a word; expected FILE' tap --split
wrong tap 'tap lacks a wish; expected --want, --standard, --cuts or --split' tap "$good"
wrong tap "'--cuts' says where to cut; expected no --want beside it" tap --want diesel --cuts 170C "$good"
wrong tap "'--split' says where to cut; expected no --standard beside it" tap --split --standard 'EN 590' "$good"
wrong tap "'--cuts' says where to cut; expected no --split beside it" tap --split --cuts 26% "$good"
wrong tap "'170' is not a cut; expected a head temperature as 170C, a percent by volume as 26% or by mass as 26%m" \
	tap --cuts 170 "$good"
wrong tap "'' is not a cut; expected a head temperature as 170C, a percent by volume as 26% or by mass as 26%m" \
	tap --cuts 26%, "$good"
wrong tap "'100%' is no place for a cut; expected above 0, below 100% (by mass up to 100%m) or below 700C" \
	tap --cuts 100% "$good"
wrong tap "'26%' does not lie above the cut before it; expected ascending cuts" tap --cuts 70%,26% "$good"
wrong tap "'9%' is one cut too many; expected no more than 8" tap --cuts 1%,2%,3%,4%,5%,6%,7%,8%,9% "$good"
wrong tap "'100%m' takes all that is left; expected no cut behind it" tap --cuts 100%m,170C "$good"
wrong tap "'2.5' is not a number of plates; expected 1 (the bare pot) to 60" tap --split --plates 2.5 "$good"
wrong tap "'0' is not a number of plates; expected 1 (the bare pot) to 60" tap --split --plates 0 "$good"
wrong tap "'much' is not a reflux ratio; expected 0 to 1000, or total" tap --split --plates 3 --reflux much "$good"
wrong tap "'--reflux' says too little alone; expected --plates too" tap --split --reflux 3 "$good"
wrong tap "'0.7' is not what a still is worth; expected 1 (the bare pot) to 20, as 2.3" tap --split --worth 0.7 "$good"
wrong tap "'--worth' stands for plates and reflux; expected no --plates beside it" \
	tap --split --worth 2.3 --plates 3 "$good"
wrong tap "'--reflux' says too little alone; expected --plates too" tap --split --worth 2.3 --reflux 3 "$good"
wrong tap "'40' is not a value of --charge; expected a volume such as 40L" tap --split --charge 40 "$good"
wrong tap "'1mL' cannot be --charge; expected a volume such as 40L, 10 to 1e+07 mL" tap --split --charge 1mL "$good"
wrong tap "'2kV' is not a value of --heater; expected a power such as 2kW" tap --split --heater 2kV "$good"
wrong tap "'10' is not a value of --vacuum; expected an absolute pressure such as 10kPa" \
	tap --split --vacuum 10 "$good"
wrong tap "'900C' cannot be --pot-limit; expected a temperature such as 330C, 100 to 450 C" \
	tap --split --pot-limit 900C "$good"
wrong tap "'-3' cannot be --margin; expected degrees such as 12, 0 to 100 K" tap --split --margin=-3 "$good"
wrong tap "'lots' is not a value of --carry; expected % of the charge such as 1" tap --split --carry lots "$good"
wrong tap "'30ft' is not a value of --room; expected cubic metres such as 30m3" \
	tap --split --heater 2kW --room 30ft "$good"
wrong tap "'--room' says too little alone; expected --heater too" tap --split --room 30m3 "$good"
wrong tap "'--charts' names no folder; expected a path, such as . for this one" tap --split --charts '' "$good"

wrong mix 'mix lacks a word; expected FILE=AMOUNT' mix
wrong mix "'$good' says no amount; expected such as jar.csv=20L or jar.csv=?" mix "$good"
wrong mix "'=20L' says no amount; expected such as jar.csv=20L or jar.csv=?" mix =20L
wrong mix "'20' is no amount; expected L, mL, g, kg or %, as 20L, or ?" mix "$good=20"
wrong mix "'' is no amount; expected L, mL, g, kg or %, as 20L, or ?" mix "$good="
wrong mix "'3 stone' is no amount; expected L, mL, g, kg or %, as 20L, or ?" mix "$good=3 stone"
wrong mix "'5gal' is no amount; expected L, mL, g, kg or %, as 20L, or ?" mix "$good=5gal"
wrong mix "'0L' cannot be an amount; expected above nothing" mix "$good=0L"
wrong mix "'-3L' cannot be an amount; expected above nothing" mix "$good=-3L"
wrong mix "'1e300L' cannot be an amount; expected above nothing" mix "$good=1e300L"
wrong mix "'?' stands for two parts; expected one" mix "$good=?" "$good=?" --want heating
wrong mix "'?' stands alone; expected what it goes into, as other.csv=20L" mix "$good=?" --want heating
wrong mix "'?' lacks a wish; expected --want or --standard beside it" mix "$good=?" "$good=1L"
wrong mix "'%' is mixed with other units; expected % for every part" mix "$good=50%" "$good=1L"
wrong mix "'%' adds up to 90; expected 100" mix "$good=50%" "$good=40%"
wrong mix "standard input ('-') is named twice; expected once" mix -- -=1L -=1L
wrong mix "standard input ('-') is named twice; expected once" mix -=1L -=1L
wrong mix "'--charts' names no folder; expected a path, such as . for this one" mix "$good=1L" --charts ''
wrong draw 'draw lacks a word; expected FILE or --files-from' draw
wrong draw "'curv' is not a kind of chart; did you mean 'curve'?" draw --only curv x.csv
wrong limits "'kerosine-range' is not a grade; did you mean 'kerosene-range'?" limits kerosine-range
wrong limits "'b' is one word too many for limits; expected no more than 1" limits diesel b
wrong limits "'EN590' is not a grade; did you mean --standard 'EN 590 temperate A-C'?" limits EN590
wrong limits "'din51604' is not a grade; did you mean --standard 'DIN 51603-1'?" limits din51604
wrong limits "'diesel' is a grade beside --grade; expected one of them" limits --grade kero diesel
wrong limits "'EN 591' is not a standard; did you mean 'EN 590 temperate A-C'?" \
	limits --standard 'EN 591'
wrong watch 'watch lacks a word; expected FILE' watch
wrong watch "'b.csv' is one word too many for watch; expected no more than 1" watch a.csv b.csv
wrong watch 'standard input keeps no journal; expected FILE' watch -
wrong watch "'--plan' is a plan already; expected no --feed beside it" \
	watch a.csv --plan tap.json --feed "$good" --want diesel
wrong watch "'--feed' says too little alone; expected --want or --standard too" watch a.csv --feed "$good"
wrong watch "'--want' and '--standard' say what to make of a feed; expected --feed too" \
	watch a.csv --want diesel
wrong watch "'--near' is about a plan; expected --plan or --feed too" watch a.csv --near 3
wrong watch "'x' is not a value of --near; expected degrees such as 5" \
	watch a.csv --near x --plan tap.json
wrong watch "'disel' is not a grade; did you mean 'diesel-range'?" watch a.csv --feed "$good" --want disel
wrong watch "'R' is not a unit of temperature here; expected C, F or K" watch a.csv --unit R
wrong watch "'--from' names nothing; expected a device, or -" watch a.csv --from ''
wrong watch "'--stall' is about a logger; expected --from too" watch a.csv --stall 30s
wrong watch "'never' is not a value of --stall; expected a time such as 30s" \
	watch a.csv --from - --stall never
for name in curve.jpg "a'b.png" .png; do
	wrong watch "'$name' is not a picture; expected a name of letters, digits and ._- that ends in .gp, .svg or .png" \
		watch a.csv --picture "$name"
done
wrong new 'new lacks a word; expected FILE' new
wrong new "'b.csv' is one word too many for new; expected no more than 1" new a.csv b.csv
wrong tidy 'tidy lacks a word; expected FILE' tidy
wrong tidy 'standard input has no place to be tidied in; expected FILE' tidy -i -
wrong formula 'formula lacks a word; expected list, show or eval' formula
wrong formula "'lsit' is not something that formula does; did you mean 'list'?" formula lsit
wrong formula "formula lacks a word; expected a formula's id" formula show
wrong formula "'flash.t10_apo' is not a formula; did you mean 'flash.t10_api'?" formula show flash.t10_apo
wrong formula "an input of flash.t10_api is missing; expected 't10_c=NUMBER' in degC" formula eval flash.t10_api
wrong formula "'t10_c=x' is not an input; expected 't10_c=NUMBER'" formula eval flash.t10_api t10_c=x
wrong formula "'t10_c' is given twice; expected each input once" \
	formula eval flash.t10_api t10_c=176.7 t10_c=3
wrong formula "'t10_f' is not an input of this formula; did you mean 't10_c'?" \
	formula eval flash.t10_api t10_f=3

# a table without a grade does not offer it
grep -v '^marine-range,' "$TOP/standards-notes/limits.csv" >dry.csv
run "$BOILCUT" judge --limits dry.csv --want marine x.csv
expect_status 'a grade that the table has not' 2
expect_text 'a grade that the table has not: message' "$err" "'marine' is not a grade; "
grep -q 'marine-range' "$err" && fail 'it is not named' "$(cat "$err")" || pass 'it is not named'

# blanks and case do not matter, and of several variants the judged one is meant
for name in EN590 'en 590' ' EN 590 Temperate a-c' d975no.2 DIN51603; do
	run "$BOILCUT" judge --standard "$name" "$good"
	case $name in
	d975*) expect_status "standard: '$name'" 2 ;;
	*) [ "$status" -le 1 ] && pass "standard: '$name'" || fail "standard: '$name'" "$(cat "$err")" ;;
	esac
done

# control characters of the command line do not reach the terminal
run "$BOILCUT" "$(printf 'x\033[2J')"
expect_text 'control characters are escaped' "$err" "'x\\x1B[2J' is not a command"
grep -q "$(printf '\033')" "$err" && fail 'escaped' 'raw escape' || pass 'escaped'

wrong judge "'page.csv' is no name of a page; expected one that ends in .html" judge "$good" --page page.csv
wrong label "'can.pdf' is no name of a page; expected one that ends in .html or .svg" label "$good" --to can.pdf
wrong card "'--charge' says nothing to card sheet; expected --to" card sheet --charge 40L
wrong card "'--split' says nothing to card lab; expected --to, --want, --standard or --limits" card lab "$good" --split
wrong card "'--limits' says nothing to card lab alone; expected FILE too" card lab --limits none.csv
finish
