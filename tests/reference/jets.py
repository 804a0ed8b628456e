#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""From composition to flash, and to where an IBP stands: jets whose composition, D86 and flash are
all measured. What decides the flash is read off here; nothing in it is fitted to a flash.

BOILCUT_DATA  the folder with jet_composition.csv, jet_kerosene.csv and samples.csv
Standard library only. Skips, with the reason, without the data.

Boiling points and specific gravities stand for a class and carbon number (handbook values of one
representative isomer, from memory, to about 3 degC; mixed isomers boil a little lower)."""
import csv
import math
import os
import re
import sys
from collections import defaultdict

from oil_reference import critical, lee_kesler, tbp_from_d86

NORMAL = {7: 98.4, 8: 125.7, 9: 150.8, 10: 174.1, 11: 195.9, 12: 216.3, 13: 235.5, 14: 253.6,
          15: 270.6, 16: 286.9, 17: 302.2, 18: 316.7, 19: 330.6, 20: 343.8, 24: 391.3}
BENZENE = {7: 110.6, 8: 138.5, 9: 165.0, 10: 187.0, 11: 206.0, 12: 226.0, 13: 246.0, 14: 264.0,
           15: 282.0}
MONO_RING = {7: 100.9, 8: 128.0, 9: 154.0, 10: 178.0, 11: 201.0, 12: 222.0, 13: 242.0, 14: 261.0,
             15: 279.0, 16: 296.0, 17: 312.0}
TWO_RINGS = {8: 137.0, 9: 163.0, 10: 190.0, 11: 209.0, 12: 227.0, 13: 245.0, 14: 262.0, 15: 278.0}
THREE_RINGS = {10: 195.0, 11: 215.0, 12: 233.0}
NAPHTHALENE = {10: 218.0, 11: 243.0, 12: 260.0, 13: 275.0}
RING_BENZENE = {9: 178.0, 10: 207.6, 11: 228.0, 12: 246.0, 13: 263.0, 14: 280.0}
BRANCHED_LOWER_C = 7.5  # a branched alkane below the normal one
# two isomers make nearly all of the alcohol-to-jet fuel: 2,2,4,6,6-pentamethylheptane and
# 2,2,4,4,6,8,8-heptamethylnonane
ALCOHOL_TO_JET = {12: 177.5, 16: 240.1}


def component(name, alcohol_to_jet, branched_lower_c=BRANCHED_LOWER_C):
    """(boiling point degC, specific gravity, hydrogen to carbon, carbon number) of a class."""
    number = int(re.search(r"\d+", name.replace("n-", "")).group()) if name != "Toluene" else 7
    if name == "Toluene":
        return BENZENE[7], 0.872, 8 / 7, 7
    if name.endswith("-Benzene"):
        n = number + 6
        return BENZENE[n], 0.868, (2 * n - 6) / n, n
    if name.startswith("Diaromatic"):
        return NAPHTHALENE[number], 1.01, (2 * number - 12) / number, number
    if name.startswith("Cycloaromatic"):
        return RING_BENZENE[number], 0.96, (2 * number - 8) / number, number
    if name.endswith("Isoparaffin"):
        if alcohol_to_jet and number in ALCOHOL_TO_JET:
            return ALCOHOL_TO_JET[number], 0.745 + 0.01 * (number - 12), 2 + 2 / number, number
        return (NORMAL[number] - branched_lower_c, 0.665 + 0.0085 * (number - 6), 2 + 2 / number,
                number)
    if name.startswith("n-C"):
        return NORMAL[number], 0.664 + 0.0085 * (number - 6), 2 + 2 / number, number
    if name.endswith("Monocycloparaffin"):
        return MONO_RING[number], 0.79 + 0.003 * (number - 8), 2.0, number
    if name.endswith("Dicycloparaffin"):
        return TWO_RINGS[number], 0.885, 2 - 2 / number, number
    if name.endswith("Tricycloparaffin"):
        return THREE_RINGS[number], 0.94, 2 - 4 / number, number
    if name.endswith("Alkene"):
        return NORMAL[number] - 3.0, 0.675 + 0.0085 * (number - 6), 2.0, number
    raise ValueError(name)


def vapour_bar(temp_k, tb_k, tc, pc):
    f0, f1 = lee_kesler(tb_k / tc)
    omega = (math.log(1.01325 / pc) - f0) / f1
    f0, f1 = lee_kesler(temp_k / tc)
    return pc * math.exp(f0 + omega * f1)


def mixture(rows, alcohol_to_jet, branched_lower_c=BRANCHED_LOWER_C):
    """[(boiling K, mole fraction, volume fraction, lower limit fraction, Tc, Pc)]."""
    parts = []
    for name, mass in rows:
        boiling_c, sg, ratio, n = component(name, alcohol_to_jet, branched_lower_c)
        molar = n * (12.011 + 1.008 * ratio)
        limit = 0.55 / (1 + 4.773 * n * (1 + ratio / 4))
        tb = boiling_c + 273.15
        parts.append((tb, mass / molar, mass / sg, limit, *critical(tb, sg)))
    moles = sum(p[1] for p in parts)
    volume = sum(p[2] for p in parts)
    return [(p[0], p[1] / moles, p[2] / volume, *p[3:]) for p in parts]


def flash_c(parts):
    low, high = 200.0, 500.0
    while high - low > 1e-6:
        mid = 0.5 * (low + high)
        total = sum(x * vapour_bar(mid, tb, tc, pc)
                    / (1.01325 * limit * (1 - 0.00078 * (mid - 298.15)))
                    for tb, x, _, limit, tc, pc in parts)
        low, high = (low, mid) if total > 1 else (mid, high)
    return low - 273.15


def volume_below(parts, temp_c):
    """Volume per cent that boils below temp_c, straight between the middles of the parts."""
    done, before = 0.0, None
    for tb, _, volume, *_ in sorted(parts):
        here = 100 * (done + 0.5 * volume)
        if tb - 273.15 >= temp_c:
            if before is None:
                return 0.0
            share = (temp_c - before[0]) / (tb - 273.15 - before[0])
            return before[1] + share * (here - before[1])
        before = (tb - 273.15, here)
        done += volume
    return 100.0


def main():
    folder = os.environ.get("BOILCUT_DATA")
    if not folder:
        print("jets: skipped: BOILCUT_DATA is not set")
        return 0
    composition, curves, flash = defaultdict(list), defaultdict(dict), {}
    with open(os.path.join(folder, "jet_composition.csv"), encoding="utf-8") as file:
        for row in csv.DictReader(file):
            composition[row["curve_id"]].append((row["compound_class"], float(row["mass_pct"])))
    with open(os.path.join(folder, "jet_kerosene.csv"), encoding="utf-8") as file:
        for row in csv.DictReader(file):
            curves[row["curve_id"]][row["kind"], float(row["percent"])] = float(row["temp_c"])
    with open(os.path.join(folder, "samples.csv"), encoding="utf-8") as file:
        for row in csv.DictReader(file):
            flash[row["curve_id"]] = float(row["flash_c"]) if row["flash_c"] else math.nan
    print("| jet | flash measured | from composition | branched 4 degC lower | "
          "converted IBP stands at, vol % | raw IBP at |")
    print("|---|---|---|---|---|---|")
    errors = []
    for jet, rows in composition.items():
        alcohol_to_jet = any(name.endswith("Alkene") for name, _ in rows)
        parts = mixture(rows, alcohol_to_jet)
        lower = mixture(rows, alcohol_to_jet, BRANCHED_LOWER_C + 4.0)
        ibp = curves[jet]["IBP", 0.0]
        estimate = flash_c(parts)
        errors.append(estimate - flash[jet])
        print(f"| {jet} | {flash[jet]:.0f} | {estimate:.1f} | {flash_c(lower):.1f} | "
              f"{volume_below(parts, tbp_from_d86(0, ibp)):.1f} | {volume_below(parts, ibp):.1f} |")
    print(f"\nbias {sum(errors) / len(errors):+.1f}, "
          f"mean absolute {sum(map(abs, errors)) / len(errors):.1f} degC, n {len(errors)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
