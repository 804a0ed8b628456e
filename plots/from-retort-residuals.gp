# boilcut 0.1.0, residuals. The data are inside; draw it with
#   gnuplot -e "out='picture.png'" THIS-FILE
# Other variables: wide, high (pixels). The ending of out, .svg or .png, chooses.
if (!exists("out")) out = 'residuals.svg'
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
name = 'Lake shed 15'
set title name . ' - readings less fit' . "\n" . 're-run, TREAT AS PETROL, flash -23 °C (no lower bound)' textcolor rgb '#1f3a4d'
set xlabel 'recovered, % of the charge by volume' textcolor rgb '#1f3a4d'
set ylabel 'corrected reading less fit, °C' textcolor rgb '#1f3a4d'
# % recovered, corrected reading less fit, degC
$residuals << EOD
5 1.10906
10 -2.09387
20 -0.349752
30 0.033998
40 -0.450532
50 0.423224
60 0.302424
70 0.650688
80 0.141461
90 -0.658915
EOD
set xrange [0:100]
set xtics 20
set yrange [-4:4]
set object 1 rectangle from graph 0, first -0.841956 to graph 1, first 0.841956 behind fillstyle solid noborder fillcolor rgb '#eef1f3'
set label 1 'riazi' . '; band: root mean square, 0.84 °C' at graph 0.012, graph 0.97 left font ','.small textcolor rgb '#7d8b94'
plot 0 with lines linecolor rgb '#7d8b94', \
	$residuals using 1:2 with impulses linewidth 1.5 linecolor rgb '#1f3a4d', \
	$residuals using 1:2 with points pointtype 7 pointsize 0.9*dot linecolor rgb '#1f3a4d'
set output
