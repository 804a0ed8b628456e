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
name = 'Rain drum'
set title name . ' - readings less fit' . "\n" . 'undecided, TREAT AS PETROL, flash 73 °C (no lower bound)' textcolor rgb '#1f3a4d'
set xlabel 'recovered, % of the charge by volume' textcolor rgb '#1f3a4d'
set ylabel 'corrected reading less fit, °C' textcolor rgb '#1f3a4d'
# % recovered, corrected reading less fit, degC
$residuals << EOD
2.06186 -0.248303
7.21649 -0.482187
17.5258 0.481712
27.8351 0.658518
38.1443 0.613193
48.4536 0.569418
58.7629 -0.703175
69.0722 -0.681545
79.3814 -0.764543
89.6907 -0.140112
94.8454 0.685089
EOD
set xrange [0:100]
set xtics 20
set yrange [-2:2]
set object 1 rectangle from graph 0, first -0.579385 to graph 1, first 0.579385 behind fillstyle solid noborder fillcolor rgb '#eef1f3'
set label 1 'exponentiated weibull' . '; band: root mean square, 0.58 °C' at graph 0.012, graph 0.97 left font ','.small textcolor rgb '#7d8b94'
plot 0 with lines linecolor rgb '#7d8b94', \
	$residuals using 1:2 with impulses linewidth 1.5 linecolor rgb '#1f3a4d', \
	$residuals using 1:2 with points pointtype 7 pointsize 0.9*dot linecolor rgb '#1f3a4d'
set output
