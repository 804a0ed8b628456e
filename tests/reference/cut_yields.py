#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Jars of the simulated still against measured yields of plastic and tyre oils between head
temperatures. No source gives a second, independent curve of the same oil, so there are two tests:
all yields go in and every jar must come out again (the way through curve, slices, column and tap);
and one yield is held back and asked for.

BOILCUT       the program (build/boilcut)
BOILCUT_DATA  the folder with cut_yields.csv and plastic_tyre.csv
cut_yields.py [renew]; renew writes the tables in standards-notes/studies/. Skips without
the data."""
import sys
from collections import defaultdict

import study_table as study

# PL-JAH-211 and PL-JAH-411 have one yield each. The stills: of TY-MIA "glass batch still, simple
# fractionating column", plates not stated; of
# PL-JAH an automatic fractionation at atmospheric equivalents, which is what a column for true
# boiling points does (ASTM D2892: 14 to 18 plates, reflux 5)
TRUE_BOILING = ("apparatus,tbp", ["--plates", "15", "--reflux", "5"])
SIMPLE = ("apparatus,column 3 1", ["--plates", "3", "--reflux", "1"])
STILLS = {"PL-JAH-111": [("as D2892", TRUE_BOILING, True)],
          "PL-JAH-811": [("as D2892", TRUE_BOILING, True)],
          "PL-SARKER-LDPE": [("as D2892", TRUE_BOILING, False)],
          "TY-MIA": [("as D2892", TRUE_BOILING, False), ("as 3 stages, reflux 1", SIMPLE, False)]}
DENSITY = {"TY-MIA": 946.1, "PL-SARKER-LDPE": 760.0}  # 942.6 at 20 degC is 946.1 at 15


def corrected(true_c):
    """A head temperature on the basis of the D86 thermometer."""
    return true_c - 1.24e-4 * (true_c - 20.0) ** 2


def sample(oil, points, by_mass, apparatus):
    lines = ["history,rerun", apparatus, "thermometer,probe", "barometer,101.325 kPa"]
    if oil in DENSITY:
        lines.append("density,%g kg/m3" % DENSITY[oil])
    lines += ["", "recovered (%s),head (C)" % ("%m" if by_mass else "%")]
    lines += ["%g,%g" % point for point in points]
    return "\n".join(lines) + "\n"


def jars(oil, points, by_mass, still, turns):
    """[(yield, density at 15 degC)] between the turns, or why not."""
    apparatus, column = still
    cuts = ",".join("%.2fC" % corrected(t) for t in turns)
    answer = study.run(["tap", "--cuts", cuts, "--carry", "0"] + column,
                       sample(oil, points, by_mass, apparatus))
    if isinstance(answer, str):
        return answer
    return [(jar["mass_pct" if by_mass else "volume_pct"],
             jar["properties"]["density15_kgm3"]["value"]) for jar in answer["jars"]]


def measured_densities(folder):
    """{(oil, upper temperature): kg/m3 at 15 degC} of the cuts that have one."""
    found = {}
    for row in study.rows(folder, "cut_yields.csv"):
        words = row["density_kgm3"].replace("(", " ").replace(")", " ").split()
        value = study.number(words[0]) if words else None
        if value is None or not row["curve_id"] or "C" not in words or not row["to_c"]:
            continue
        # from the temperature it was measured at to 15 degC: 0.7 kg/m3 a degree (common practice)
        found[row["curve_id"], float(row["to_c"])] = value + 0.7 * (float(words[1]) - 15.0)
    return found


def closed_loop(oil, points, by_mass, still, densities, body, label):
    """Yield errors and density errors of all jars, from all points."""
    turns = [t for _, t in points]
    got = jars(oil, points, by_mass, still, turns)
    if isinstance(got, str):
        return got, []
    yields, weights, before = [], [], 0.0
    for (percent, turn), (jar, density) in zip(points, got):
        name = "%s to %g" % (oil, turn)
        yields.append((jar - (percent - before), name))
        known = densities.get((oil, turn))
        if known is not None and density is not None:
            weights.append((density - known, name))
        body.append([oil, label, "%g" % turn, "%.2f" % (percent - before), "%.2f" % jar,
                     "" if known is None else "%.1f" % known,
                     "" if density is None else "%.1f" % density])
        before = percent
    return yields, weights


def held_back(oil, points, by_mass, still):
    """Errors of the cumulative yield at each inner point that the program did not see."""
    errors = []
    for i in range(1, len(points) - 1):
        percent, turn = points[i]
        got = jars(oil, points[:i] + points[i + 1:], by_mass, still, [turn])
        if not isinstance(got, str):
            errors.append((got[0][0] - percent, "%s at %g" % (oil, turn)))
    return errors


def main():
    folder = study.data_folder("cut_yields")
    if not folder:
        return 0
    curves, by_mass = defaultdict(list), {}
    for row in study.rows(folder, "plastic_tyre.csv"):
        if row["kind"].startswith("cut-yield"):
            curves[row["curve_id"]].append((float(row["percent"]), float(row["temp_c"])))
            by_mass[row["curve_id"]] = row["kind"] == "cut-yield-mass"
    densities = measured_densities(folder)
    body, table, weights, refused = [], [], [], []
    for oil, stills in STILLS.items():
        # a last yield of 100 % is a sum without residue: nothing is left to be distilled
        points = [p for p in curves[oil] if p[0] < 100]
        for label, still, stated in stills:
            name = "%s, %s" % (oil, label)
            loop, dense = closed_loop(oil, points, by_mass[oil], still, densities, body, label)
            if isinstance(loop, str):
                refused.append("%s: %s" % (name, loop))
                continue
            table.append(study.error_row(name + ", every jar", loop, "5" if stated else "-"))
            back = held_back(oil, points, by_mass[oil], still)
            if back:
                table.append(study.error_row(name + ", yield held back", back, "-"))
            if oil in DENSITY and dense:
                weights.append(study.error_row(name, dense, "-"))
    report = study.Report("cut-yields", "Jars against measured yields between temperatures")
    report.say("Computed less measured, % of the charge (mass for PL-JAH and PL-SARKER, volume for "
               "TY-MIA). No source states plates and reflux, and none a second curve of the same "
               "oil: *every jar* is the way there and back, *yield held back* a point that the "
               "program did not see. Made by `tests/reference/cut_yields.py renew`.")
    report.table(study.error_heads("% of charge"), table)
    if weights:
        report.say("Density of the jars at 15 degC where the density of the whole oil is known:")
        report.table(study.error_heads("kg/m3"), weights)
    for line in refused:
        report.say("- refused: " + line)
    report.close(["oil", "still", "to_c", "yield_measured_pct", "yield_computed_pct",
                  "density_measured_kgm3", "density_computed_kgm3"], body)
    return 0


if __name__ == "__main__":
    sys.exit(main())
