# boilcut 0.1.0, shares. The data are inside; draw it with
#   gnuplot -e "out='picture.png'" THIS-FILE
# Other variables: wide, high (pixels). The ending of out, .svg or .png, chooses.
if (!exists("out")) out = 'shares.svg'
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
name = 'Kitchen scale 1'
set title name . ' - shares by boiling range' . "\n" . 'usable, flash 75 °C (63 to 87)' textcolor rgb '#1f3a4d'
# row, share %, low, high (95 %)
$shares << EOD
0 0 0 0
1 0 0 0
2 27.7422 23.5172 31.9155
3 69.4253 65.2201 73.8736
4 0 0 0.612978
5 1.97044 1.48126 2.46244
6 0.862069 0.370282 1.35407
EOD
set ytics scale 0 ('light end, to 35 °C' 0, 'gasoline, 35-180 °C' 1, 'kerosene, 180-240 °C' 2, 'diesel, 240-350 °C' 3, 'heavy, above 350 °C' 4, 'left in the flask' 5, 'lost' 6)
set border 1
set rmargin 10
set yrange [6.6:-0.6]
set xrange [0:80]
set xlabel '% of the charge by volume; line: 95 % bounds' textcolor rgb '#1f3a4d'
plot $shares using ($2/2):1:($2/2):(0.3) with boxxyerror fillstyle solid noborder fillcolor rgb '#8fa3ae', \
	$shares using 2:1:3:4 with xerrorbars pointtype 0 linewidth 1.2 linecolor rgb '#1f3a4d', \
	$shares using ($4 > $2 ? $4 : $2):1:(sprintf('%.1f %%', $2)) with labels left offset 0.8,0 textcolor rgb '#1f3a4d'
set output
