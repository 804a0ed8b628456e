# SPDX-License-Identifier: GPL-3.0-or-later
# Blocks that the runner of the check files must refuse, and those it must count where they belong.
. "$TOP/tests/lib.sh"

block() { # file, basis line, tolerance, expected value
	printf 'source     a print\n%s\nformula    flash.t10_api\n' "$2" >"$work/$1"
	printf 'tolerance  %s\ngiven      t10_c=176.7\nexpect     %s degC\n' "$3" "$4" >>"$work/$1"
}

refused() { # name, why
	run "$BUILD"/tests/outside/run "$work/$file"
	expect_text "$1" "$out" "not ok $work/$file:1 flash.t10_api: $2"
}

file=a.chk
block $file 'basis      printed' '0.02 cross' 54.64
refused 'a printed basis wants a printed tolerance' \
	'the basis is printed, the tolerance is not: near-print, or half a digit'
block $file 'basis      printed' '0.02 printed' 54.64
refused 'a printed tolerance is half a digit' \
	'the tolerance is wider than half the last digit that is printed'
block $file 'basis      near-print' '0.005 printed' 54.64
refused 'near print is not printed' 'the tolerance is printed, the basis only near-print'
block $file 'basis      guessed' '0.02 cross' 54.64
refused 'a basis is a known word' \
	'the basis is not printed, near-print, independent or same-formula'
block $file '# none' '0.02 cross' 54.64
refused 'a value has a basis' 'the basis is not printed, near-print, independent or same-formula'

file=a.failing
block $file 'basis      printed' '0.02 cross' 61.23
refused 'a known failure has no basis' 'a known failure has a basis'
block $file '# none' '0.02 cross' 61.23
run "$BUILD"/tests/outside/run "$work/$file"
expect_text 'a known failure fails' "$out" "ok $work/$file:1 flash.t10_api"
block $file '# none' '0.02 cross' 54.64
refused 'a known failure that passes' 'a known failure passes'

block b.chk 'basis      printed' '0.005 printed' 54.64
block c.chk 'basis      near-print' '0.02 cross' 54.65
run "$BUILD"/tests/outside/run --table "$work/b.chk" "$work/c.chk"
expect_text 'print and near print are counted apart' "$out" 'flash.t10_api,1,1,0,0'

run "$BUILD"/tests/outside/run "$work/b.chk"
expect_text 'trusted as printed, no printed value' "$out" \
	'not ok tbp.riazi_daubert is trusted as printed without a printed value'

finish
