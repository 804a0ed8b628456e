#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A fresh oil put together again from what was measured of its topped rest and what a simulated still
says of its light jar, against the measured flash of the fresh oil.

The rest: simulated distillation by mass, density and, where told, its closed cup, as measured. The
light jar: 'tap' of the fresh oil in a bare pot to the mass that was taken off. Both go through 'mix' by
mass. Held to: mass and volume of every mixture add up to the digits of the JSON, and the flash of the
mixtures stands within 3 degC, in the mean, of what the fresh oils' own curves say. Told: the measured
flash, which some of these curves contradict by themselves, and the density.

BOILCUT       the program
BOILCUT_DATA  the folder with topping_pairs.csv, ec_crudes_topped.csv and ec_products.csv
Standard library only. Skips, with the reason, without the data."""
import csv
import json
import math
import os
import subprocess
import sys
import tempfile

QUALITY = ("good", "fair")


def rows(folder, name):
    path = os.path.join(folder, name)
    if not os.path.exists(path):
        return []
    with open(path, encoding="utf-8") as file:
        return list(csv.DictReader(file))


def curves(folder):
    found = {}
    for name in ("ec_crudes_topped.csv", "ec_products.csv"):
        for row in rows(folder, name):
            if row["kind"] == "simdist-mass":
                found.setdefault(row["curve_id"], []).append(
                    (float(row["percent"]), float(row["temp_c"])))
    return found


def sample(path, curve, density, flash):
    """True boiling points by mass. No reading above 700 degC is taken, and no slice distils above
    1000 K: what was not read there is taken to end at 690, which no flash sees."""
    with open(path, "w", encoding="utf-8") as file:
        file.write("feed,gas oil\nhistory,rerun\nbarometer,101.325 kPa\napparatus,tbp\n"
                   "density,%s kg/m3 @ 15 C\n" % density)
        if flash:
            file.write("flash,%s C\n" % flash)
        file.write("\nrecovered (mass %),head (C)\n")
        last = -1.0
        for percent, temp_c in sorted(curve):
            if percent > last and temp_c < 700.0:
                file.write("%s,%g\n" % ("IBP" if percent <= 0 else "%g" % percent, temp_c))
                last = percent
        if temp_c < 690.0:
            file.write("FBP,690\n")


def light(path, jar):
    """The jar as a flask would show it."""
    with open(path, "w", encoding="utf-8") as file:
        file.write("feed,gas oil\nhistory,rerun\nbarometer,101.325 kPa\nthermometer,glass d86\n"
                   "density,%.3f kg/m3 @ 15 C\n\nrecovered (%%),head (C)\n"
                   % jar["properties"]["density15_kgm3"]["value"])
        points = jar["points"]
        file.write("IBP,%.2f\n" % points["ibp_c"])
        for percent in (5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95):
            file.write("%d,%.2f\n" % (percent, points["t%d_c" % percent]))
        file.write("FBP,%.2f\n" % points["fbp_c"])


def run(program, *words):
    answer = subprocess.run([program, *words], capture_output=True, text=True, check=False)
    return json.loads(answer.stdout) if answer.stdout else None


def put_together(program, pair, found, folder, with_flash):
    """The mixture, or None with the reason."""
    fresh, rest, top = (os.path.join(folder, n) for n in ("fresh.csv", "rest.csv", "light.csv"))
    sample(fresh, found[pair["fresh_curve"]], pair["fresh_density15"], None)
    sample(rest, found[pair["evaporated_curve"]], pair["evaporated_density15"],
           pair["evaporated_flash_c"] if with_flash else None)
    off = float(pair["evaporated_mass_pct"])
    tap = run(program, "tap", fresh, "--cuts", "%g%%m" % off, "--plates", "1", "--carry", "0",
              "--pot-limit", "450C", "--json")
    if tap is None or tap["jars"][0]["points"]["ibp_c"] is None:
        return None
    light(top, tap["jars"][0])
    return run(program, "mix", "--json", top + "=%gkg" % off, rest + "=%gkg" % (100.0 - off))


def own_flash(program, folder):
    """What the program says of the fresh oil by its own curve."""
    answer = run(program, "judge", "--json", os.path.join(folder, "fresh.csv"))
    return answer["properties"]["flash_c"]["value"]


def balance(mixed):
    """How far volume and mass of the parts miss those of the mixture, of 1."""
    parts = mixed["parts"]
    volume = sum(p["volume_l"] for p in parts) / mixed["volume_l"] - 1
    mass = sum(p["mass_kg"] for p in parts) / 100.0 - 1
    density = mixed["properties"]["density15_kgm3"]["value"] * mixed["volume_l"] / 1e5 - 1
    return max(abs(volume), abs(mass), abs(density))


def main():
    program = os.environ.get("BOILCUT", "build/boilcut")
    data = os.environ.get("BOILCUT_DATA")
    if not data or not rows(data, "topping_pairs.csv"):
        print("mix_topped: skipped: BOILCUT_DATA names no folder with topping_pairs.csv")
        return 0
    found = curves(data)
    errors = []
    mixing = []
    failed = 0
    print("%-13s %5s %6s %6s %6s %6s %6s %7s %7s" % (
        "rest", "off %", "fresh", "own", "mix", "low", "index", "mix-own", "dens %"))
    with tempfile.TemporaryDirectory() as folder:
        for pair in rows(data, "topping_pairs.csv"):
            known = [pair[k] for k in ("fresh_flash_c", "fresh_density15", "evaporated_density15")]
            if not all(known) or pair["pair_quality"] not in QUALITY or \
                    not {pair["fresh_curve"], pair["evaporated_curve"]} <= set(found):
                continue
            mixed = put_together(program, pair, found, folder, True)
            if mixed is None:
                print("%-13s not put together" % pair["evaporated_curve"])
                continue
            off = balance(mixed)
            flash = mixed["properties"]["flash_c"]
            density = mixed["properties"]["density15_kgm3"]["value"]
            dense = 100.0 * (density / float(pair["fresh_density15"]) - 1.0)
            own = own_flash(program, folder)
            errors.append(flash["value"] - float(pair["fresh_flash_c"]))
            mixing.append(flash["value"] - own)
            if not off < 2e-5:
                failed += 1
                print("not ok %s: balance %.2g" % (pair["evaporated_curve"], off))
            print("%-13s %5.1f %6s %6.1f %6.1f %6.1f %6.1f %7.1f %7.2f" % (
                pair["evaporated_curve"], float(pair["evaporated_mass_pct"]),
                pair["fresh_flash_c"], own, flash["value"],
                math.nan if flash["low"] is None else flash["low"],
                mixed["flash_blend_index_c"] or math.nan, mixing[-1], dense))
    if errors:
        for name, list_of in (("against the measured flash", errors), ("against its own curve", mixing)):
            print("%d mixtures %s: mean %+.1f, mean absolute %.1f, worst %.1f degC" % (
                len(list_of), name, sum(list_of) / len(list_of),
                sum(map(abs, list_of)) / len(list_of), max(map(abs, list_of))))
    if not errors or not abs(sum(mixing) / len(mixing)) <= 3.0:
        failed += 1
        print("not ok: the mean of the mixtures")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
