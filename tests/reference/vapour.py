#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Vapour pressure of a slice that has a pure component's boiling point and specific gravity, against
that component's Antoine constants, 10 to 760 mmHg: how far the still's volatilities can be trusted.

BOILCUT_COMPONENTS  the table: name, nbp_K, sg60, nist_A.. (log10 bar, K) and poling_A.. (log10 Pa, K)
Standard library only. Skips, with the reason, without the table."""
import csv
import math
import os
import statistics
import sys

from oil_reference import critical, lee_kesler


def slice_bar(temp_k, boiling_k, sg):
    tc, pc = critical(boiling_k, sg)
    f0, f1 = lee_kesler(boiling_k / tc)
    omega = (math.log(1.01325 / pc) - f0) / f1
    f0, f1 = lee_kesler(temp_k / tc)
    return pc * math.exp(f0 + omega * f1)


def antoine(row):
    """[(A, B, C) giving log10 bar] of the sets that the row has, the better known first."""
    for prefix, shift in (("poling", 5.0), ("nist", 0.0)):
        try:
            a, b, c = (float(row[prefix + "_" + letter]) for letter in "ABC")
            low, high = float(row[prefix + "_Tmin_K"]), float(row[prefix + "_Tmax_K"])
        except ValueError:
            continue
        # a set that does not boil where the component does says nothing
        boils_k = b / (a - shift - math.log10(1.01325)) - c
        if abs(boils_k - float(row["nbp_K"])) <= 1.0:
            return a - shift, b, c, low, high
    return None


def main():
    path = os.environ.get("BOILCUT_COMPONENTS")
    if not path:
        print("vapour: skipped: BOILCUT_COMPONENTS is not set")
        return 0
    left_out = []
    print("| component | n | mean % | worst % | at mmHg |\n|---|---|---|---|---|")
    everything, means = [], []
    with open(path, encoding="utf-8") as file:
        for row in csv.DictReader(file):
            constants = antoine(row)
            if row["name"] == "water" or constants is None:
                left_out.append(row["name"])
                continue
            a, b, c, low, high = constants
            errors = []
            for mmhg in (10, 20, 50, 100, 200, 400, 760):
                bar = mmhg / 750.0617
                temp_k = b / (a - math.log10(bar)) - c
                if low - 5 <= temp_k <= high + 5:
                    got = slice_bar(temp_k, float(row["nbp_K"]), float(row["sg60"]))
                    errors.append((100 * (got / bar - 1), mmhg))
            if not errors:
                continue
            worst = max(errors, key=lambda e: abs(e[0]))
            means.append(statistics.fmean(abs(e[0]) for e in errors))
            everything += errors
            print("| %s | %d | %+.1f | %+.1f | %d |" % (
                row["name"], len(errors), statistics.fmean(e[0] for e in errors), *worst))
    print("\nbias %+.1f %%, mean absolute %.1f %%, worst component %.1f %%, n %d" % (
        statistics.fmean(e[0] for e in everything),
        statistics.fmean(abs(e[0]) for e in everything), max(means), len(everything)))
    print("left out, no set that boils at the boiling point: " + ", ".join(left_out))
    for mmhg in (10, 20, 50, 100, 200, 400, 760):
        here = [e[0] for e in everything if e[1] == mmhg]
        if here:
            print("at %d mmHg: bias %+.1f %%, mean absolute %.1f %%, n %d" % (
                mmhg, statistics.fmean(here), statistics.fmean(map(abs, here)), len(here)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
