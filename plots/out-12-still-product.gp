# boilcut 0.1.0, still-product. The data are inside; draw it with
#   gnuplot -e "out='picture.png'" THIS-FILE
# Other variables: wide, high (pixels). The ending of out, .svg or .png, chooses.
if (!exists("out")) out = 'still-product.svg'
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
name = 'Lake shed 12 product'
set title name . ' - read and predicted' . "\n" . '2.3 effective plates (1.6 to 3.2)' textcolor rgb '#1f3a4d'
# % over, read, predicted, degC
$both << EOD
5 177.137 177.308
10 183.947 183.384
20 194.624 195.549
30 206.718 207.015
40 217.81 218.066
50 230.788 229.501
60 241.328 241.778
70 254.221 254.543
80 268.967 268.095
90 285.07 285.015
95 296.863 297.455
EOD
set xlabel '% over by volume' textcolor rgb '#1f3a4d'
set ylabel 'corrected, °C' textcolor rgb '#1f3a4d'
set xrange [0:100]
set xtics 20
set yrange [160:320]
set bmargin 6
set key at screen 0.5,0.015 center bottom horizontal maxrows 1 samplen 1.6 font ','.small textcolor rgb '#1f3a4d'
plot $both using 1:3 with lines linewidth 2.5 linecolor rgb '#1f3a4d' title 'predicted', \
	$both using 1:2 with points pointtype 6 pointsize 1.6*dot linewidth 2 linecolor rgb '#b3541e' title 'read'
set output
