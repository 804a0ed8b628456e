# SPDX-License-Identifier: GPL-3.0-or-later
# Every message of wrong usage: exact text, exit status 2, nothing on standard output.
. "$TOP/tests/lib.sh"

cd "$work" || exit 1
good=$TOP/samples/lake-shed-14.csv

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
wrong '' "'zzzzzzzz' is not a command; expected judge, draw, limits, formula, new, tidy or help" zzzzzzzz
wrong '' "'--jsn' is not an option; a command comes first, as in 'boilcut judge FILE'" --jsn
wrong '' "'jugde' is not a command; did you mean 'judge'?" help jugde

wrong judge 'judge needs a FILE, --files-from or --readings' judge
wrong judge "'--jsn' is not an option of judge; did you mean '--json'?" judge --jsn x.csv
wrong judge "'--wnat' is not an option of judge; did you mean '--want'?" judge --wnat=diesel x.csv
wrong judge "'--hepl' is not an option of judge; did you mean '--help'?" judge --hepl
wrong judge "'-x' is not an option of judge" judge -x
wrong judge "'--want' needs a value; expected GRADE" judge x.csv --want
wrong judge "'--json' takes no value" judge --json=yes x.csv
wrong judge "'disel-range' is not a grade; did you mean 'diesel-range'?" judge --want disel-range x.csv
wrong judge "'comparison' is no grade to want; it never enters a verdict" judge --want comparison x.csv
wrong judge "'EN 591' is not a standard; did you mean 'EN 590 temperate A-C'?" \
	judge --standard 'EN 591' "$good"
wrong judge "'qqqqqqqqqqqq' is not a standard; 'boilcut limits' lists them" \
	judge --standard qqqqqqqqqqqq "$good"
wrong judge "'DIN 51603-1' is a standard of heating-oil-range; expected one of diesel-range as --want says" \
	judge --want diesel-range --standard 'din 51603-1' "$good"
wrong judge "'Jet A / Jet A-1' is for comparison only and never enters a verdict" \
	judge --standard 'jet a' "$good"
wrong judge "'allways' is not a value of --colour; did you mean 'always'?" judge --colour allways x.csv
wrong judge "'red' is not a value of --colour; expected auto, always or never" judge --colour red x.csv
wrong judge '--readings stands for a file; expected no FILE beside it' judge --readings '5 100' x.csv
wrong judge "standard input ('-') can be read once only" judge - -
wrong judge "standard input ('-') can be read once only" judge - --files-from -
wrong draw 'draw needs a FILE' draw
wrong draw "'curv' is not a kind of chart; did you mean 'curve'?" draw --only curv x.csv
wrong limits "'kerosine-range' is not a grade; did you mean 'kerosene-range'?" limits kerosine-range
wrong limits "'b' is one word too many for limits" limits diesel b
wrong new 'new needs a FILE' new
wrong new "'b.csv' is one word too many for new" new a.csv b.csv
wrong tidy 'tidy needs a FILE' tidy
wrong tidy 'standard input cannot be tidied in place' tidy -i -
wrong formula 'formula needs a word: list, show or eval' formula
wrong formula "'lsit' is not something that formula does; did you mean 'list'?" formula lsit
wrong formula "formula needs a formula's id" formula show
wrong formula "'flash.t10_apo' is not a formula; did you mean 'flash.t10_api'?" formula show flash.t10_apo
wrong formula "flash.t10_api needs 't10_c' [degC]" formula eval flash.t10_api
wrong formula "'t10_c=x' is not an input; expected 't10_c=NUMBER'" formula eval flash.t10_api t10_c=x
wrong formula "'t10_f' is not an input of this formula; did you mean 't10_c'?" \
	formula eval flash.t10_api t10_f=3

# control characters of the command line do not reach the terminal
run "$BOILCUT" "$(printf 'x\033[2J')"
expect_text 'control characters are escaped' "$err" "'x\\x1B[2J' is not a command"
grep -q "$(printf '\033')" "$err" && fail 'escaped' 'raw escape' || pass 'escaped'

finish
