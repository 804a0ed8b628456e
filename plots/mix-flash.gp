# boilcut 0.1.0, flash. The data are inside; draw it with
#   gnuplot -e "out='picture.png'" THIS-FILE
# Other variables: wide, high (pixels). The ending of out, .svg or .png, chooses.
if (!exists("out")) out = 'flash.svg'
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
name = 'Mix of Lake shed 11 and Drying room tank'
set title name . ' - flash against share' . "\n" . 'up to 6.02 %' textcolor rgb '#1f3a4d'
# share %, flash degC, its low bound
$share << EOD
0 67 63.6363
0.1 66.7122 63.0751
0.2 66.426 62.5191
0.5 65.5766 60.8822
1 64.1914 58.2568
1.5 62.8441 55.757
2 61.5342 53.379
3 59.0233 48.968
4 56.6524 44.98
5 54.4143 41.3686
7 50.305 35.1009
10 44.941 27.5429
13 40.366 21.5577
16 36.4201 16.6694
20 31.9251 11.3485
25 27.2414 6.02597
30 23.3289 1.71529
35 19.9927 -1.88326
40 17.0998 -4.95699
45 14.556 -7.62976
50 12.2932 -9.9873
55 10.2606 -12.0911
60 8.41963 -13.9869
65 6.74016 -15.709
70 5.19851 -17.2845
75 3.77568 -18.7345
80 2.45619 -20.0759
85 1.22732 -21.3228
90 0.0784969 -22.4864
95 -0.999171 -23.5764
100 -2.01321 -24.6007
EOD
# the mixture of the report: share, flash, low bound
$here << EOD
6.02344 52.253 38.0159
EOD
part = 'light-ends.csv'
set xlabel 'share of ' . part . ', % by volume' textcolor rgb '#1f3a4d'
set ylabel 'flash, closed cup, °C' textcolor rgb '#1f3a4d'
set xrange [0:100]
set xtics 20
set yrange [-30:80]
set bmargin 6
set key at screen 0.5,0.015 center bottom horizontal maxrows 1 samplen 1.6 font ','.small textcolor rgb '#1f3a4d'
plot 38 with lines dashtype 3 linewidth 2 linecolor rgb '#b3541e' title 'limit', \
	$share using 1:3 with lines dashtype 2 linewidth 2 linecolor rgb '#7d8b94' title 'at worst', \
	$share using 1:2 with lines linewidth 2.5 linecolor rgb '#1f3a4d' title 'flash', \
	$here using 1:2 with points pointtype 7 pointsize 1.6*dot linecolor rgb '#b3541e' title 'this mixture', \
	$here using 1:3 with points pointtype 6 pointsize 1.6*dot linewidth 2 linecolor rgb '#b3541e' notitle
set output
