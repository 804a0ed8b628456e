#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Mixtures of measured oils: the flash by the vapour over their slices against that by the blending index
of Wickey and Chittenden, both from the measured closed cups of the parts, so that only the rules differ.

BOILCUT       the program
BOILCUT_DATA  the folder with samples.csv, jet_kerosene.csv and ec_products.csv
Held to: like oils (flash within 20 degC of each other) agree within 3 degC at the worst, and the index,
reckoned here a second time, is the program's. Standard library only. Skips, with the reason, without
the data."""
import csv
import json
import math
import os
import subprocess
import sys
import tempfile

SHARES = (10.0, 50.0, 90.0)
APART = ((0, 10), (10, 20), (20, 40), (40, 80), (80, 300))
LIKE_C = 20.0
AGREES_C = 3.0


def rows(folder, name):
    path = os.path.join(folder, name)
    if not os.path.exists(path):
        return []
    with open(path, encoding="utf-8") as file:
        return list(csv.DictReader(file))


def curves(folder):
    """{id: (kind of apparatus, lines of the table)} of oils with a flash and a density."""
    known = {r["curve_id"]: r for r in rows(folder, "samples.csv")
             if r["flash_c"] and r["density15_kgm3"] and r["confidence"] == "A"}
    found = {}
    for name, flask in (("jet_kerosene.csv", True), ("ec_products.csv", False)):
        for row in rows(folder, name):
            if row["curve_id"] not in known or float(row["temp_c"]) >= 700.0:
                continue
            kinds = ("IBP", "recovered", "FBP") if flask else ("simdist-mass",)
            if row["kind"] in kinds:
                label = row["kind"] if row["kind"] in ("IBP", "FBP") else row["percent"]
                label = "IBP" if float(row["percent"]) <= 0.0 else label
                found.setdefault(row["curve_id"], (flask, known[row["curve_id"]], []))[2].append(
                    (float(row["percent"]), label, row["temp_c"]))
    return {k: v for k, v in found.items() if len(v[2]) >= 5}


def write(path, flask, known, table):
    with open(path, "w", encoding="utf-8") as file:
        file.write("feed,gas oil\nhistory,rerun\nbarometer,101.325 kPa\n%s\n"
                   "density,%s kg/m3 @ 15 C\nflash,%s C\n\nrecovered (%s),head (C)\n" % (
                       "thermometer,glass d86" if flask else "apparatus,tbp",
                       known["density15_kgm3"], known["flash_c"], "%" if flask else "mass %"))
        done = set()
        for _, label, temp_c in sorted(table, key=lambda row: row[0]):
            if label not in done:
                file.write("%s,%s\n" % (label, temp_c))
                done.add(label)


def index_of(flash_c):
    return 10.0 ** (-6.1188 + 4345.2 / (1.8 * flash_c + 32.0 + 383.0))


def blend(parts):
    """[(share 0..1, flash)] -> flash"""
    index = sum(share * index_of(flash) for share, flash in parts)
    return (4345.2 / (math.log10(index) + 6.1188) - 383.0 - 32.0) / 1.8


def mix(program, first, second, share):
    answer = subprocess.run([program, "mix", "--json", "%s=%g%%" % (first, share),
                             "%s=%g%%" % (second, 100.0 - share)],
                            capture_output=True, text=True, check=False)
    return json.loads(answer.stdout) if answer.returncode == 0 else None


def compare(program, oils, folder):
    """(apart, program less index, index of the program less index here)"""
    names = sorted(oils)
    step = max(1, len(names) // 16)
    names = names[::step]
    for i, first in enumerate(names):
        for second in names[i + 1:]:
            for share in SHARES:
                answer = mix(program, *(os.path.join(folder, n + ".csv") for n in (first, second)),
                             share)
                if answer is None or answer["flash_blend_index_c"] is None:
                    continue
                flash = [p["flash_c"] for p in answer["parts"]]
                here = blend([(share / 100.0, flash[0]), (1.0 - share / 100.0, flash[1])])
                yield (abs(flash[0] - flash[1]), answer["properties"]["flash_c"]["value"] - here,
                       answer["flash_blend_index_c"] - here)


def main():
    program = os.environ.get("BOILCUT", "build/boilcut")
    data = os.environ.get("BOILCUT_DATA")
    oils = curves(data) if data else {}
    if len(oils) < 4:
        print("mix_index: skipped: BOILCUT_DATA names no folder with measured oils")
        return 0
    with tempfile.TemporaryDirectory() as folder:
        for name, (flask, known, table) in oils.items():
            write(os.path.join(folder, name + ".csv"), flask, known, table)
        got = list(compare(program, oils, folder))
    failed = not got
    print("%-16s %6s %8s %8s %8s" % ("flash apart", "n", "mean", "mean abs", "worst"))
    for low, high in APART:
        errors = [e for apart, e, _ in got if low <= apart < high]
        if errors:
            print("%3d to %3d degC   %6d %8.2f %8.2f %8.2f" % (
                low, high, len(errors), sum(errors) / len(errors),
                sum(map(abs, errors)) / len(errors), max(errors, key=abs)))
    for apart, error, index in got:
        if not abs(index) <= 0.01 or (apart < LIKE_C and not abs(error) <= AGREES_C):
            failed = True
            print("not ok: %.1f degC apart, off by %.2f, index by %.3f" % (apart, error, index))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
