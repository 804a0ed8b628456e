#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The program's flask and vapour pressures over what is known by composition: jets whose D86 and
vapour pressure were measured, and pure components with Antoine constants. Nothing is fitted.
jets_flask.py and vapour.py are the same in Python, with other numbers of plates.

BOILCUT_MIXTURE     the program tests/bench/mixture
BOILCUT_DATA        the folder with jet_composition.csv, jet_kerosene.csv and jet_properties.csv
BOILCUT_COMPONENTS  the table of pure components; default: pure_components.csv in that folder, or in
                    a folder 'facts' beside it
known_mixtures.py [renew]; renew writes the tables in standards-notes/studies/. Skips without
the data."""
import csv
import math
import os
import subprocess
import sys
from collections import defaultdict

import study_table as study
from jets import BRANCHED_LOWER_C, component
from vapour import antoine

MMHG = (10, 20, 50, 100, 200, 400, 760)
MOST_PARTS = 64


def ask(mixtures):
    """mixtures: [(parts [(boiling K, sg, volume)], percents, degC)]; [(degC, kPa)] lists back."""
    lines = []
    for parts, percents, temps in mixtures:
        lines += ["part %.6f %.6f %.9f" % part for part in parts]
        lines += ["over %g" % p for p in percents] + ["at %.6f" % t for t in temps] + ["end"]
    program = os.environ.get("BOILCUT_MIXTURE", "build/tests/bench/mixture")
    run = subprocess.run([program], input="\n".join(lines) + "\n", capture_output=True, text=True,
                         check=True)
    words, answers = iter(run.stdout.split()), []
    for _, percents, temps in mixtures:
        answers.append(([float(next(words)) for _ in percents],
                        [float(next(words)) for _ in temps]))
        if next(words) != "end":
            raise ValueError("mixture: unexpected answer")
    return answers


def jet_parts(rows, branched_lower_c=BRANCHED_LOWER_C):
    """Boiling K, specific gravity and volume of a jet's classes, the nearest joined to make room."""
    alcohol_to_jet = any(name.endswith("Alkene") for name, _ in rows)
    parts = []
    for name, mass in rows:
        boiling_c, sg, _, _ = component(name, alcohol_to_jet, branched_lower_c)
        if mass > 0:
            parts.append((boiling_c + 273.15, sg, mass / sg))
    parts.sort()
    while len(parts) > MOST_PARTS:
        i = min(range(len(parts) - 1), key=lambda k: parts[k + 1][0] - parts[k][0])
        a, b = parts[i], parts[i + 1]
        volume = a[2] + b[2]
        parts[i:i + 2] = [tuple((a[k] * a[2] + b[k] * b[2]) / volume for k in (0, 1)) + (volume,)]
    return parts


def jets(folder, report, body):
    composition, curves, pressures = (defaultdict(list) for _ in range(3))
    for row in study.rows(folder, "jet_composition.csv"):
        composition[row["curve_id"]].append((row["compound_class"], float(row["mass_pct"])))
    for row in study.rows(folder, "jet_kerosene.csv"):
        if row["kind"] == "recovered" and 10 <= float(row["percent"]) <= 90:
            curves[row["curve_id"]].append((float(row["percent"]), float(row["temp_c"])))
    for row in study.rows(folder, "jet_properties.csv"):
        if row["vapour_pressure_kpa"]:
            pressures[row["curve_id"]].append(
                (float(row["temp_c"]), float(row["vapour_pressure_kpa"])))
    names = list(composition)
    d86, kpa = [], []
    for more, label in ((0.0, "all"), (4.0, "all, branched alkanes 4 degC lower")):
        answers = ask([(jet_parts(composition[jet], BRANCHED_LOWER_C + more),
                        [p for p, _ in curves[jet]], [t for t, _ in pressures[jet]])
                       for jet in names])
        all_d86, all_kpa = [], []
        for jet, (got_c, got_kpa) in zip(names, answers):
            errors = [(g - t, "%s %g %%" % (jet, p)) for g, (p, t) in zip(got_c, curves[jet])]
            ratios = [(100 * (g / p - 1), "%s %g degC" % (jet, t))
                      for g, (t, p) in zip(got_kpa, pressures[jet])]
            all_d86 += errors
            all_kpa += ratios
            if more:
                continue
            d86.append(study.error_row(jet, errors, "-"))
            if ratios:
                kpa.append(study.error_row(jet, ratios, "-"))
            body += [[jet, "D86 %g %%" % p, "%.2f" % t, "%.2f" % g, "degC"]
                     for g, (p, t) in zip(got_c, curves[jet])]
            body += [[jet, "vapour pressure at %g" % t, "%.4g" % p, "%.4g" % g, "kPa"]
                     for g, (t, p) in zip(got_kpa, pressures[jet])]
        d86.append(study.error_row(label, all_d86, "-"))
        kpa.append(study.error_row(label, all_kpa, "-"))
        if not more:
            rms_c = math.sqrt(sum(e * e for e, _ in all_d86) / len(all_d86))
            warm = [e for e in all_kpa if float(e[1].split()[-2]) >= 60]
            kpa.append(study.error_row("60 degC and above", warm, "-"))
    report.say("## D86 of jets from their composition")
    report.say("Composition, the program's slices, its flask of 1.75 effective plates; simulated "
               "less measured at 10 to 90 %%. RMS of all: %.1f degC." % rms_c)
    report.table(study.error_heads("degC"), d86)
    report.say("## Vapour pressure of jets from their composition")
    report.say("Raoult over the same slices, computed over measured less 1. How the pressures were "
               "measured is not stated; air and water in the fuel would add to them, most where "
               "they are low. The boiling points stand for a class and carbon number, and the "
               "lightest few per cent make most of the pressure.")
    report.table(study.error_heads("%"), kpa)


def components_table(folder):
    beside = os.path.join(os.path.dirname(os.path.abspath(folder)), "facts")
    for path in (os.environ.get("BOILCUT_COMPONENTS"),
                 os.path.join(folder, "pure_components.csv"),
                 os.path.join(beside, "pure_components.csv")):
        if path and os.path.exists(path):
            return path
    return None


def pure(path, report, body):
    asked, left_out = [], []
    with open(path, encoding="utf-8") as file:
        for row in csv.DictReader(file):
            constants = antoine(row)
            if row["name"] == "water" or constants is None:
                left_out.append(row["name"])
                continue
            a, b, c, low, high = constants
            points = [(mmhg, b / (a - math.log10(mmhg / 750.0617)) - c) for mmhg in MMHG]
            # at 10 mmHg the constants are carried on, or hardly any would be left
            points = [(mmhg, t) for mmhg, t in points
                      if low - (20 if mmhg == 10 else 5) <= t <= high + 5]
            part = (float(row["nbp_K"]), float(row["sg60"]), 1.0)
            if points:
                asked.append((row["name"], points, part))
    answers = ask([([part], [], [t - 273.15 for _, t in points]) for _, points, part in asked])
    at, everything, means = defaultdict(list), [], []
    for (name, points, _), (_, got) in zip(asked, answers):
        own = []
        for (mmhg, temp_k), kpa in zip(points, got):
            error = (100 * (kpa * 7.500617 / mmhg - 1), "%s %d mmHg" % (name, mmhg))
            own.append(error)
            at[mmhg].append(error)
            body.append([name, "vapour pressure at %.1f" % (temp_k - 273.15),
                         "%.4g" % (mmhg / 7.500617), "%.4g" % kpa, "kPa"])
        everything += own
        means.append((sum(abs(e) for e, _ in own) / len(own), name))
    report.say("## Pure components, 10 to 760 mmHg")
    report.say("A slice with the boiling point and specific gravity of the component against its "
               "Antoine constants (at 10 mmHg up to 20 K below their range). Worst "
               "component in the mean: %.1f %%, %s." % max(means))
    report.table(study.error_heads("%"), [study.error_row("all", everything, "10")] + [
        study.error_row("at %d mmHg" % mmhg, at[mmhg], "10") for mmhg in MMHG])
    report.say("Left out, water and what has no set that boils at the boiling point: "
               + ", ".join(left_out) + ".")


def main():
    folder = study.data_folder("known_mixtures")
    if not folder:
        return 0
    report = study.Report("known-mixtures",
                          "Flask and vapour pressure of known mixtures against measurements")
    report.say("Made by `tests/reference/known_mixtures.py renew`.")
    body = []
    jets(folder, report, body)
    path = components_table(folder)
    if path:
        pure(path, report, body)
    else:
        report.say("Pure components: skipped: BOILCUT_COMPONENTS names no table.")
    report.close(["mixture", "what", "measured", "computed", "unit"], body)
    return 0


if __name__ == "__main__":
    sys.exit(main())
