# boilcut 0.1.0, tap-choice. The data are inside; draw it with
#   gnuplot -e "out='picture.png'" THIS-FILE
# Other variables: wide, high (pixels). The ending of out, .svg or .png, chooses.
if (!exists("out")) out = 'tap-choice.svg'
if (!exists("wide")) wide = 800
if (!exists("high")) high = 0.75 * wide
size = wide / 800.0
set encoding utf8
if (out[strlen(out)-3:*] eq '.png') {
	small = sprintf('%g', 14 * size)
	dot = size
	set terminal pngcairo noenhanced size wide,high font sprintf('sans,%g', 16 * size) linewidth size
} else {
	small = sprintf('%g', 18 * size)
	dot = 0.5 * size
	set terminal svg noenhanced size wide,high font sprintf('sans,%g', 20 * size) linewidth size background 'white'
}
set output out
set datafile missing 'NaN'
unset key
set border 3 linecolor rgb '#7d8b94'
set tics nomirror textcolor rgb '#1f3a4d'
name = 'Lake shed 11'
set title name . ' - yield against flash' . "\n" . 'for heating-oil-range' textcolor rgb '#1f3a4d'
# flash degC, product % of the charge, flash at worst
$choice << EOD
38.2039 83.5485 12.3783
45.0551 82.8165 19.2742
52.1333 81.9136 26.4594
55.0544 81.4744 29.3795
60.0983 80.5716 34.3017
66.0815 79.1319 40.5665
75.004 75.7872 52.1759
EOD
# the product as it is cut now
$here << EOD
64.0885 79.6688
EOD
set xlabel 'flash of the product, °C (estimated closed cup)' textcolor rgb '#1f3a4d'
set ylabel 'product, % of the charge' textcolor rgb '#1f3a4d'
set xrange [0:90]
set yrange [0:100]
set ytics 20
set bmargin 6
set key at screen 0.5,0.015 center bottom horizontal maxrows 1 samplen 1.6 font ','.small textcolor rgb '#1f3a4d'
plot $choice using 3:2 with linespoints dashtype 2 pointtype 6 pointsize dot linewidth 1.5 linecolor rgb '#7d8b94' title 'flash at worst', \
	$choice using 1:2 with linespoints pointtype 7 pointsize dot linewidth 2.5 linecolor rgb '#1f3a4d' title 'flash', \
	$here using 1:2 with points pointtype 4 pointsize 2.2*dot linewidth 2.5 linecolor rgb '#b3541e' title 'as cut here'
set output
