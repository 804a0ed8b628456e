#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""From composition through the flask to a D86: jets whose composition and D86 are both measured. The
flask is a still of m effective plates, E = K(pot)^m, its thermometer reads low by 1.24e-4 (T-20)^2;
the same is in src/still/flask.c. Nothing is fitted.

BOILCUT_DATA  the folder with jet_composition.csv and jet_kerosene.csv
Standard library only. Skips, with the reason, without the data."""
import csv
import math
import os
import sys
from collections import defaultdict

from jets import BRANCHED_LOWER_C, mixture, vapour_bar

PLATES = (1.0, 1.5, 1.75, 2.0, 2.25)
STEPS = 200


def root(function, low, high):
    """Of a rising function that is nearly straight: false position, the kept end halved."""
    below, above = function(low), function(high)
    kept = 0
    for _ in range(100):
        middle = high - above * (high - low) / (above - below)
        value = function(middle)
        if abs(value) < 1e-11 or high - low < 1e-9:
            break
        if value > 0:
            high, above = middle, value
            below *= 0.5 if kept == 1 else 1.0
            kept = 1
        else:
            low, below = middle, value
            above *= 0.5 if kept == -1 else 1.0
            kept = -1
    return middle


class Flask:
    def __init__(self, parts, plates):
        self.parts = parts
        self.plates = plates
        self.volume = [p[2] for p in parts]
        self.per_mole = [p[2] / p[1] for p in parts]

    def k(self, temp_k):
        return [vapour_bar(temp_k, p[0], p[4], p[5]) / 1.01325 for p in self.parts]

    def volatility(self, volume):
        """Volatility of each part and the head temperature over a pot of these volumes."""
        moles = [v / m for v, m in zip(volume, self.per_mole)]
        total = sum(moles)
        x = [n / total for n in moles]
        pot = root(lambda t: math.log(sum(k * xi for k, xi in zip(self.k(t), x))),
                   300.0, 700.0)
        e = [k ** self.plates for k in self.k(pot)]
        over = [ei * xi for ei, xi in zip(e, x)]
        total = sum(over)
        head = root(lambda t: -math.log(sum(o / total / k for o, k in zip(over, self.k(t)))),
                    300.0, 700.0)
        return e, head

    def boil(self, volume, e, amount):
        tau = 0.0
        for _ in range(60):
            left = [v * math.exp(-ei * tau) for v, ei in zip(volume, e)]
            missing = amount - (sum(volume) - sum(left))
            if abs(missing) < 1e-12:
                break
            tau += missing / sum(v * ei for v, ei in zip(left, e))
        return left

    def readings(self):
        """[(per cent over, corrected degC)]."""
        volume, out = list(self.volume), []
        for step in range(int(STEPS * 0.96)):
            e, head = self.volatility(volume)
            true_c = head - 273.15
            out.append((100.0 * step / STEPS, true_c - 1.24e-4 * (true_c - 20) ** 2))
            middle, _ = self.volatility(self.boil(volume, e, 0.5 / STEPS))
            volume = self.boil(volume, middle, 1.0 / STEPS)
        return out


def at(readings, percent):
    for (p0, t0), (p1, t1) in zip(readings, readings[1:]):
        if p0 <= percent <= p1:
            return t0 + (percent - p0) / (p1 - p0) * (t1 - t0)
    return math.nan


def main():
    folder = os.environ.get("BOILCUT_DATA")
    if not folder:
        print("jets_flask: skipped: BOILCUT_DATA is not set")
        return 0
    composition, curves = defaultdict(list), defaultdict(list)
    with open(os.path.join(folder, "jet_composition.csv"), encoding="utf-8") as file:
        for row in csv.DictReader(file):
            composition[row["curve_id"]].append((row["compound_class"], float(row["mass_pct"])))
    with open(os.path.join(folder, "jet_kerosene.csv"), encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["kind"] == "recovered" and 10 <= float(row["percent"]) <= 90:
                curves[row["curve_id"]].append((float(row["percent"]), float(row["temp_c"])))
    for lower in (BRANCHED_LOWER_C, BRANCHED_LOWER_C + 4.0):
        print("\nbranched alkanes %.1f degC below the normal ones\n" % lower)
        print("| jet | plates | simulated less measured D86 at its percents 10..90 | mean | RMS |")
        print("|---|---|---|---|---|")
        for plates in PLATES:
            every = []
            for jet, rows in composition.items():
                parts = mixture(rows, any(n.endswith("Alkene") for n, _ in rows), lower)
                readings = Flask(parts, plates).readings()
                errors = [at(readings, p) - t for p, t in curves[jet]]
                every += errors
                print("| %s | %g | %s | %+.1f | %.1f |" % (
                    jet, plates, " ".join("%g:%+.1f" % (p, e) for (p, _), e in
                                          zip(curves[jet], errors)),
                    sum(errors) / len(errors),
                    math.sqrt(sum(e * e for e in errors) / len(errors))))
            print("| all | %g | | %+.1f | %.1f |" % (
                plates, sum(every) / len(every), math.sqrt(sum(e * e for e in every) / len(every))))
    return 0


if __name__ == "__main__":
    sys.exit(main())
