#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Pages, labels and cards in a real browser: nothing overflows on a telephone or on paper, letters can
# be read by day and by night, pictures have words, hostile names are text, cards print on one page.
set -u
TOP=$(cd "$(dirname "$0")/../.." && pwd)
. "$TOP/tests/lib.sh"
browser=$(command -v chromium || command -v chromium-browser || command -v google-chrome) || {
	echo 'skipped: no chromium here'
	exit 0
}
shots=${SHOTS:-}

# run_browser ARGUMENT...: console messages go to $work/console
run_browser() {
	HOME=$work timeout 60 "$browser" --headless --no-sandbox --disable-gpu --hide-scrollbars \
		--user-data-dir="$work/profile" --allow-file-access-from-files --enable-logging=stderr \
		--virtual-time-budget=5000 "$@" 2>"$work/log"
	grep 'INFO:CONSOLE' "$work/log" >"$work/console"
}

# look NAME PAGE WIDTH dark|light WORDS
look() {
	words=$(printf '%s' "$5" | sed 's/%/%25/g; s/&/%26/g; s/#/%23/g; s/+/%2B/g; s/"/%22/g; s/</%3C/g; s/>/%3E/g; s/ /%20/g')
	night=
	[ "$4" = light ] || night=--blink-settings=preferredColorScheme=0
	run_browser $night --dump-dom \
		"file://$TOP/tests/browser/harness.html?page=file://$2&width=$3&words=$words&dark=$([ "$4" = dark ] && echo yes || echo no)" \
		>"$work/dom"
	if grep -q 'NO FAULT' "$work/dom" && ! [ -s "$work/console" ]; then
		pass "$1, $3 px, $4"
	else
		fail "$1, $3 px, $4" "$(grep -h 'FAULT' "$work/dom" | head -3 | tr '\n' ';') $(head -2 "$work/console")"
	fi
	[ -z "$shots" ] || run_browser $night --window-size="$3,1400" \
		--screenshot="$shots/$(basename "$2" .html)-$3-$4.png" "file://$2" >/dev/null
}

# valid NAME PAGE
valid() {
	if command -v tidy >/dev/null; then
		tidy -quiet -errors --drop-empty-elements no --mute-id yes \
			--mute PROPRIETARY_ATTRIBUTE,TRIM_EMPTY_ELEMENT "$2" >"$work/tidy" 2>&1
		if ! [ -s "$work/tidy" ]; then pass "$1 is valid"; else fail "$1 is valid" "$(head -3 "$work/tidy" | tr '\n' ';')"; fi
	fi
}

# one_page NAME PAGE
one_page() {
	run_browser --no-pdf-header-footer --print-to-pdf="$work/print.pdf" "file://$2"
	pages=$(pdfinfo "$work/print.pdf" 2>/dev/null | sed -n 's/^Pages: *//p')
	if [ "${pages:-0}" = 1 ]; then pass "$1 prints on one page"; else fail "$1 prints on one page" "${pages:-no} pages"; fi
}

whole() { # NAME PAGE WORDS
	valid "$1" "$2"
	for width in 360 688; do
		look "$1" "$2" $width light "$3"
		look "$1" "$2" $width dark "$3"
	done
}

# the harness itself: a page with every fault must not pass
cat >"$work/bad.html" <<'BAD'
<!DOCTYPE html><html><head><title></title></head><body style="color:#aaa;background:#fff">
<p id="a" style="width:900px">pale and wide</p><p id="a">twice</p><svg></svg><img src="x.png" alt="">
<script>console.log("said")</script></body></html>
BAD
run_browser --dump-dom "file://$TOP/tests/browser/harness.html?page=file://$work/bad.html&width=360&words=absent&dark=yes" >"$work/dom"
for fault in 'the page is' 'reaches from' 'contrast' 'an id stands twice' 'without words' 'more than itself' \
	'no language' 'no heading' 'not to be read' 'light by night'; do
	expect_text "harness sees: $fault" "$work/dom" "$fault"
done
expect_text 'harness sees: console' "$work/console" said

cd "$TOP" || exit 1
for name in lake-shed-14 light-ends from-retort waxy-tail; do
	"$BOILCUT" judge samples/$name.csv --page "$work/$name.html" >/dev/null
	whole "page of $name" "$work/$name.html" 'Cautions'
done
"$BOILCUT" tap samples/light-ends.csv --want heating-oil-range --charge 40L --heater 2kW --room 30m3 \
	--page "$work/tap.html" >/dev/null
whole 'page of tap' "$work/tap.html" 'HEAT OFF'

"$BOILCUT" mix 'samples/light-ends.csv=?' samples/drying-room.csv=200L --want heating-oil-range \
	--page "$work/mix.html" >/dev/null
whole 'page of mix' "$work/mix.html" 'may go in'
"$BOILCUT" judge --same samples/jar-27-*.csv --page "$work/same.html" >/dev/null
whole 'page of runs' "$work/same.html" 'this rig'

"$BOILCUT" card sheet --to "$work/sheet.html"
"$BOILCUT" card tap samples/light-ends.csv --want heating --charge 40L --heater 2kW --to "$work/tap-card.html"
"$BOILCUT" card stop samples/light-ends.csv --split --charge 40L --heater 2kW --room 30m3 --to "$work/stop.html"
"$BOILCUT" card lab samples/lake-shed-14.csv --to "$work/lab.html"
for card in sheet tap-card stop lab; do
	valid "card $card" "$work/$card.html"
	look "card $card" "$work/$card.html" 360 light ''
	look "card $card" "$work/$card.html" 688 dark ''
	one_page "card $card" "$work/$card.html"
done
one_page 'card sheet' "$work/sheet.html"
pdftotext -f 1 -l 1 -bbox "$work/print.pdf" "$work/print.html"
awk -F'"' '/<page / { wide = $2 } />written</ { at = $2 } END { exit !(at > 0 && at < 0.62 * wide) }' "$work/print.html" &&
	pass 'card sheet: room to write' || fail 'card sheet: room to write' narrow

hostile='<script>alert(1)</script> "quoted" & '\''single'\'' <b>'
sed "s|^sample,.*|sample,\"$(printf '%s' "$hostile" | sed 's/"/""/g; s/&/\\&/g')\"|" samples/lake-shed-14.csv >"$work/hostile.csv"
"$BOILCUT" judge "$work/hostile.csv" --page "$work/hostile.html" >/dev/null
whole 'page of a hostile name' "$work/hostile.html" '<script>alert(1)</script>'
{ printf 'sample,'; head -c 1048576 /dev/zero | tr '\0' 'x'; echo; sed '/^sample,/d' samples/lake-shed-14.csv; } >"$work/long.csv"
"$BOILCUT" judge "$work/long.csv" --page "$work/long.html" >/dev/null
whole 'page of a name of a megabyte' "$work/long.html" 'xxxxxxxx'

for name in lake-shed-14 light-ends from-retort; do
	for size in can a6; do
		"$BOILCUT" label samples/$name.csv --size $size --to "$work/label-$size-$name.html"
		valid "label $size of $name" "$work/label-$size-$name.html"
		look "label $size of $name" "$work/label-$size-$name.html" 400 light 'NOT CERTIFIED'
		one_page "label $size of $name" "$work/label-$size-$name.html"
	done
done
"$BOILCUT" label "$work/long.csv" --to "$work/label-long.html"
look 'label of a name of a megabyte' "$work/label-long.html" 400 light 'NOT CERTIFIED'
one_page 'label of a name of a megabyte' "$work/label-long.html"
"$BOILCUT" label "$work/hostile.csv" --to "$work/label-hostile.html"
look 'label of a hostile name' "$work/label-hostile.html" 400 light 'NOT CERTIFIED'
finish
