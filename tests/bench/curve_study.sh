#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Error of flash, density and viscosity on a folder of measured curves named by BOILCUT_DATA
# (samples.csv beside files of curve_id,percent,temp_c,kind). Without it there is nothing to study.
set -eu

if [ -z "${BOILCUT_DATA:-}" ]; then
	echo 'curve_study: BOILCUT_DATA names no folder of measured curves; skipped'
	exit 0
fi
study=$BUILD/tests/bench/curve_study
mkdir -p "${study%/*}"
${CC:-gcc} -std=c17 -D_POSIX_C_SOURCE=200809L -O2 -I"$TOP/src" -o "$study" \
	"$TOP/tests/bench/curve_study.c" "$BUILD/libboilcut.a" \
	$(pkg-config --cflags --libs gsl jansson) -lcsv -lm
"$study" "$BOILCUT_DATA"
