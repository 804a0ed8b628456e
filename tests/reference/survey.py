#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Cetane index and viscosity against a survey of diesels and against jets, and three methods for
net heat against each other (no heat was measured there).

BOILCUT_DATA  the folder with diesel_survey.csv, jet_properties.csv and jet_kerosene.csv
Standard library only. Skips, with the reason, without the data."""
import csv
import math
import os
import statistics
import sys


def d976(density_kgm3, t50_c):
    """ASTM D976, metric form."""
    d, log_b = density_kgm3 / 1000, math.log10(t50_c)
    return 454.74 - 1641.416 * d + 774.74 * d * d - 0.554 * t50_c + 97.803 * log_b * log_b


def abbott(sg, mean_c, hot=False):
    """Abbott, Kaufmann & Domash: mm2/s at 37.8, or 98.9 degC."""
    a, k = 141.5 / sg - 131.5, (1.8 * (mean_c + 273.15)) ** (1 / 3) / sg
    if hot:
        log_v = (-0.463634 - 0.166532 * a + 5.13447e-4 * a * a - 8.48995e-3 * k * a
                 + (8.0325e-2 * k + 1.24899 * a + 0.19768 * a * a) / (a + 26.786 - 2.6296 * k))
    else:
        log_v = (4.39371 - 1.94733 * k + 0.12769 * k * k + 3.2629e-4 * a * a - 1.18246e-2 * k * a
                 + (0.171617 * k * k + 10.9943 * a + 9.50663e-2 * a * a - 0.860218 * k * a)
                 / (a + 50.3642 - 4.78231 * k))
    return 10 ** log_v


def visc40(sg, mean_c):
    """ASTM D341 through Abbott's two temperatures, to 40 degC."""
    def walther(v):
        return math.log10(math.log10(v + 0.7 + math.exp(-1.47 - 1.84 * v - 0.51 * v * v)))
    x = [math.log10(t + 273.15) for t in (37.8, 98.9, 40.0)]
    y = [walther(abbott(sg, mean_c)), walther(abbott(sg, mean_c, hot=True))]
    z = 10 ** 10 ** (y[0] + (y[1] - y[0]) * (x[2] - x[0]) / (x[1] - x[0])) - 0.7
    return z - math.exp(-0.7487 - 3.295 * z + 0.6119 * z ** 2 - 0.3193 * z ** 3)


def d4868(density_kgm3):
    return 46.423 - 8.792e-6 * density_kgm3 ** 2 + 3.170e-3 * density_kgm3


def d3338(density_kgm3, mean_c, aromatics_pct):
    a, t = aromatics_pct, mean_c
    return ((5528.73 - 92.6499 * a + 10.1601 * t + 0.314169 * a * t) / density_kgm3
            + 0.0791707 * a - 0.00944893 * t - 0.000292178 * a * t + 35.9936)


def row(name, errors, unit):
    ordered = sorted(errors)
    low = ordered[int(0.025 * len(ordered))]
    high = ordered[min(len(ordered) - 1, int(0.975 * len(ordered)))]
    print(f"| {name} | {len(errors)} | {statistics.mean(errors):+.2f} | "
          f"{statistics.mean(map(abs, errors)):.2f} | {low:+.2f} to {high:+.2f} | {unit} |")


def number(text):
    return float(text) if text else math.nan


def main():
    folder = os.environ.get("BOILCUT_DATA")
    if not folder:
        print("survey: skipped: BOILCUT_DATA is not set")
        return 0
    cetane, viscosity, heat = [], [], []
    with open(os.path.join(folder, "diesel_survey.csv"), encoding="utf-8") as file:
        for line in csv.DictReader(file):
            density, t50 = number(line["density15_kgm3"]), number(line["d86_t50_c"])
            sg = density / 999.016
            if density * t50 > 0:
                cetane.append(d976(density, t50) - number(line["cetane_number"]))
                viscosity.append(100 * (visc40(sg, t50) / number(line["visc40_mm2s"]) - 1))
                heat.append(d3338(density, t50, number(line["total_aromatics_pct"]))
                            - d4868(density))
    jets, t50_of = [], {}
    with open(os.path.join(folder, "jet_kerosene.csv"), encoding="utf-8") as file:
        for line in csv.DictReader(file):
            if line["percent"] == "50":
                t50_of[line["curve_id"]] = float(line["temp_c"])
    with open(os.path.join(folder, "jet_properties.csv"), encoding="utf-8") as file:
        lines = list(csv.DictReader(file))
    density_of = {line["curve_id"]: number(line["density_kgm3"]) for line in lines
                  if line["temp_c"] == "20" and line["density_kgm3"]}
    for line in lines:
        jet = line["curve_id"]
        if line["temp_c"] == "40" and line["viscosity_mm2s"] and jet in density_of:
            sg = (density_of[jet] + 3.7) / 999.016  # 20 to 15 degC, kerosene class
            jets.append(100 * (visc40(sg, t50_of[jet]) / number(line["viscosity_mm2s"]) - 1))
    print("| estimate less measured | n | bias | mean absolute | 95 % of them | unit |")
    print("|---|---|---|---|---|---|")
    for name, errors, unit in (
            ("D976 less cetane number, diesels", cetane, "-"),
            ("Abbott from T50, diesels", viscosity, "%"), ("Abbott from T50, jets", jets, "%"),
            ("D3338 less D4868, diesels (no measured heat)", heat, "MJ/kg")):
        errors = [e for e in errors if not math.isnan(e)]
        if errors:
            row(name, errors, unit)
    return 0


if __name__ == "__main__":
    sys.exit(main())
