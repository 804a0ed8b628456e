#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Time and size of the record book with 10, 1,000 and 20,000 prepared batches. BUILD is set by
# 'make bench'.
set -eu

BUILD=${BUILD:-$PWD/build}
[ -x "$BUILD/tests/bench/book_bench" ] || { echo "bench: no book_bench in $BUILD" >&2; exit 1; }
echo 'record book (prepared records, synchronous=FULL; aim: lists of 20,000 below 500 ms)'
"$BUILD/tests/bench/book_bench"
