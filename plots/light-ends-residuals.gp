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
name = 'Lake shed 11'
set title name . ' - readings less fit' . "\n" . 're-run, TREAT AS PETROL, flash -2 °C (-25 to 21)' textcolor rgb '#1f3a4d'
set xlabel 'recovered, % of the charge by volume' textcolor rgb '#1f3a4d'
set ylabel 'corrected reading less fit, °C' textcolor rgb '#1f3a4d'
# % recovered, corrected reading less fit, degC
$residuals << EOD
5 -8.16337
10 6.12407
20 5.56679
30 2.78057
40 1.21951
50 -2.19849
60 -2.89508
70 -4.6475
80 -3.92503
90 -0.302423
95 6.37175
EOD
set xrange [0:100]
set xtics 20
set yrange [-13:13]
set object 1 rectangle from graph 0, first -4.62467 to graph 1, first 4.62467 behind fillstyle solid noborder fillcolor rgb '#eef1f3'
set label 1 'riazi' . '; band: root mean square, 4.6 °C' at graph 0.012, graph 0.97 left font ','.small textcolor rgb '#7d8b94'
plot 0 with lines linecolor rgb '#7d8b94', \
	$residuals using 1:2 with impulses linewidth 1.5 linecolor rgb '#1f3a4d', \
	$residuals using 1:2 with points pointtype 7 pointsize 0.9*dot linecolor rgb '#1f3a4d'
set output
