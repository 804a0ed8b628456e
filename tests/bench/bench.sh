#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Time and peak memory of 'judge': one sample, 200 and 2,000 files in one call. BOILCUT is the
# program, TOP the project; both are set by 'make bench'.
set -eu

TOP=${TOP:-$PWD}
BOILCUT=${BOILCUT:-$TOP/build/boilcut}
[ -x "$BOILCUT" ] || { echo "bench: no program at $BOILCUT" >&2; exit 1; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
trap 'exit 1' HUP INT TERM

sample=$TOP/samples/lake-shed-14.csv
make_list() { # count: so many different copies of the sample
	mkdir -p "$work/$1"
	i=0
	while [ "$i" -lt "$1" ]; do
		sed "s/^50,.*/50,27$((i % 10)).5/" "$sample" >"$work/$1/$i.csv"
		echo "$work/$1/$i.csv"
		i=$((i + 1))
	done >"$work/list-$1"
}

peak_kib() { # command...: GNU time where there is one
	if [ -x /usr/bin/time ]; then
		/usr/bin/time -f %M -o "$work/peak" "$@" >/dev/null 2>&1 || true
		tail -n 1 "$work/peak"
	elif command -v python3 >/dev/null; then
		python3 -c 'import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)' "$@"
	else
		echo '-'
	fi
}

mean_ms() { # runs, command...
	runs=$1
	shift
	if command -v hyperfine >/dev/null; then
		hyperfine --shell=none --warmup 1 --runs "$runs" --ignore-failure \
			--export-csv "$work/time.csv" "$*" >/dev/null 2>&1
		awk -F, 'NR == 2 { printf "%.1f\n", 1000 * $2 }' "$work/time.csv"
	else
		start=$(date +%s%N)
		i=0
		while [ "$i" -lt "$runs" ]; do
			"$@" >/dev/null 2>&1 || true
			i=$((i + 1))
		done
		echo "$start $(date +%s%N) $runs" | awk '{ printf "%.1f\n", ($2 - $1) / 1e6 / $3 }'
	fi
}

row() { # name, files, runs, command...
	name=$1 files=$2 runs=$3
	shift 3
	ms=$(mean_ms "$runs" "$@")
	peak=$(peak_kib "$@")
	echo "$name|$files|$ms|$peak" | awk -F'|' '{
		printf "%-26s %7d %11.1f %13.2f %12s\n", $1, $2, $3, $3 / $2, $4 }'
}

make_list 200
make_list 2000
printf '%-26s %7s %11s %13s %12s\n' what files 'time [ms]' 'a file [ms]' 'peak [KiB]'
row 'judge, text' 1 50 "$BOILCUT" judge "$sample"
row 'judge --json' 1 50 "$BOILCUT" judge --json "$sample"
row 'judge --json --files-from' 200 5 "$BOILCUT" judge --json --files-from "$work/list-200"
row 'judge --json --files-from' 2000 2 "$BOILCUT" judge --json --files-from "$work/list-2000"
