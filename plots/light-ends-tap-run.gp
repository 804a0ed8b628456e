# boilcut 0.1.0, tap-run. The data are inside; draw it with
#   gnuplot -e "out='picture.png'" THIS-FILE
# Other variables: wide, high (pixels). The ending of out, .svg or .png, chooses.
if (!exists("out")) out = 'tap-run.svg'
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
set title name . ' - the run of the still' . "\n" . 'for heating-oil-range' textcolor rgb '#1f3a4d'
# % over, head as shown here, pot, degC
$run << EOD
0 45.2844 133.84
1 62.6781 151.707
2 86.3704 169.365
3 113.907 184.72
4 137.844 196.406
5 155.182 204.851
6 167.419 211.07
7 176.365 215.853
8 183.207 219.694
9 188.665 222.899
10 193.191 225.662
11 197.072 228.113
12 200.495 230.335
13 203.581 232.385
14 206.408 234.301
15 209.028 236.106
16 211.478 237.82
17 213.782 239.456
18 215.961 241.022
19 218.03 242.529
20 220.003 243.983
21 221.891 245.389
22 223.704 246.755
23 225.451 248.084
24 227.14 249.38
25 228.778 250.648
26 230.37 251.891
27 231.922 253.111
28 233.439 254.312
29 234.923 255.494
30 236.38 256.661
31 237.811 257.814
32 239.219 258.953
33 240.606 260.082
34 241.975 261.201
35 243.327 262.31
36 244.663 263.412
37 245.986 264.506
38 247.296 265.594
39 248.594 266.677
40 249.881 267.755
41 251.16 268.828
42 252.429 269.898
43 253.691 270.966
44 254.946 272.031
45 256.194 273.094
46 257.438 274.157
47 258.677 275.219
48 259.912 276.281
49 261.144 277.345
50 262.374 278.409
51 263.602 279.476
52 264.83 280.546
53 266.058 281.619
54 267.287 282.697
55 268.518 283.779
56 269.752 284.867
57 270.989 285.961
58 272.231 287.063
59 273.479 288.172
60 274.734 289.291
61 275.996 290.42
62 277.268 291.559
63 278.549 292.711
64 279.842 293.875
65 281.148 295.054
66 282.468 296.248
67 283.803 297.459
68 285.155 298.687
69 286.526 299.936
70 287.917 301.205
71 289.33 302.497
72 290.768 303.814
73 292.232 305.158
74 293.724 306.53
75 295.249 307.934
76 296.808 309.373
77 298.404 310.848
78 300.043 312.365
79 301.727 313.927
80 303.462 315.537
81 305.254 317.203
82 307.109 318.929
83 309.036 320.722
84 311.042 322.59
85 313.138 324.543
86 315.339 326.592
87 317.657 328.749
88 320.112 331.03
89 322.725 333.453
90 325.523 336.042
91 328.538 338.824
92 331.809 341.832
93 335.388 345.112
94 339.337 348.722
95 343.741 352.743
96 348.729 357.307
97 354.525 362.651
98 361.663 369.339
99 372.028 379.282
99.5 381.349 388.263
EOD
set arrow 1 from 8.88672,graph 0 to 8.88672,graph 1 nohead linewidth 1.5 dashtype '-.' linecolor rgb '#1f3a4d'
set label 1 'light to 188 °C' at 8.88672,graph 0.07 left offset 0.6,0 font ','.small textcolor rgb '#b3541e' front
set arrow 2 from 87.5557,graph 0 to 87.5557,graph 1 nohead linewidth 1.5 dashtype '-.' linecolor rgb '#1f3a4d'
set label 2 'product to 319 °C' at 87.5557,graph 0.125 right offset -0.6,0 font ','.small textcolor rgb '#b3541e' front
set xlabel 'over the head, % of the charge by volume' textcolor rgb '#1f3a4d'
set ylabel 'as your thermometer shows; pot, °C' textcolor rgb '#1f3a4d'
set xrange [0:100]
set xtics 20
set yrange [0:450]
set ytics 50
set bmargin 4
set label 91 'pot limit' at graph 0.01, first 330 left offset 0,0.6 font ','.small textcolor rgb '#7d8b94'
set label 92 'pot' at 20,243.983 right offset -0.5,0.7 font ','.small textcolor rgb '#b3541e'
set label 93 'head' at 20,220.003 left offset 0.5,-0.8 font ','.small textcolor rgb '#1f3a4d'
plot 330 with lines dashtype 3 linewidth 1.5 linecolor rgb '#7d8b94' notitle, \
	$run using 1:3 with lines dashtype 2 linewidth 2 linecolor rgb '#b3541e' notitle, \
	$run using 1:2 with lines linewidth 2.5 linecolor rgb '#1f3a4d' notitle
set output
