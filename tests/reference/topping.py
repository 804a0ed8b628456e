#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The bare pot against oils that were measured fresh and with their front taken off: flash and
density of what is left after the measured share of mass, from the curve of the fresh oil alone.

BOILCUT       the program (build/boilcut)
BOILCUT_DATA  the folder with topping_pairs.csv, samples.csv and the curves
topping.py [renew]; renew writes the tables in standards-notes/studies/. Skips without the data."""
import math
import statistics
import sys
from collections import defaultdict

import study_table as study

CURVE_FILES = ("ec_crudes_topped.csv", "ec_products.csv")
QUALITIES = ("good", "fair")
AIM_FLASH, AIM_DENSITY = "8", "4"
# the oils were topped in a rotary evaporator at 80 degC under a stream of air (from memory), and
# 0.5 kPa is the least that the program takes
EVAPORATOR_C, LEAST_KPA, SITE_KPA = 80.0, 0.5, 101.325


def sample(points, density):
    """A fresh oil; 0 % at one temperature is an IBP, at several (read at fixed temperatures) none."""
    nothing = sum(percent == 0 for percent, _ in points)
    lines = ["history,aired", "apparatus,tbp", "barometer,%g kPa" % SITE_KPA]
    if density is not None:
        lines.append("density,%g kg/m3" % density)
    lines += ["", "recovered (%m),head (C)"]
    for percent, temp in points:
        if percent > 0:
            lines.append("%g,%g" % (percent, temp))
        elif nothing == 1:
            lines.append("IBP,%g" % temp)
    return "\n".join(lines) + "\n"


def tap(text, pair, more):
    return study.run(["tap", "--cuts", pair["evaporated_mass_pct"] + "%m,100%m", "--plates", "1",
                      "--carry", "0"] + more, text)


def under_vacuum(text, pair):
    """The pressure at which the pot ends at the evaporator's temperature, or the least there is."""
    low, high = math.log(LEAST_KPA), math.log(SITE_KPA)
    answer = tap(text, pair, ["--vacuum", "%.6fkPa" % LEAST_KPA])
    if isinstance(answer, str) or answer["jars"][0]["pot_to_c"] >= EVAPORATOR_C:
        return answer
    while high - low > 0.02:
        middle = 0.5 * (low + high)
        answer = tap(text, pair, ["--vacuum", "%.6fkPa" % math.exp(middle)])
        if isinstance(answer, str):
            return answer
        if answer["jars"][0]["pot_to_c"] > EVAPORATOR_C:
            high = middle
        else:
            low = middle
    return answer


def light_density(pair):
    """Of what was taken off, by the two densities measured; None where it cannot be told."""
    fresh = study.number(pair["fresh_density15"])
    rest = study.number(pair["evaporated_density15"])
    if fresh is None or rest is None:
        return None
    share = float(pair["evaporated_mass_pct"]) / 100
    volume = 1 / fresh - (1 - share) / rest
    return share / volume if volume > 0 else None


class Errors:
    """Errors of one way of topping, by quality of the pair and kind of curve."""

    def __init__(self):
        self.flash, self.density, self.light = (defaultdict(list) for _ in range(3))
        self.covered = defaultdict(lambda: [0, 0])

    def count(self, key, oil, answer, pair):
        rest = answer["jars"][-1]["properties"]
        flash, density = rest["flash_c"], rest["density15_kgm3"]
        for errors, measured, got in (
                (self.flash, study.number(pair["evaporated_flash_c"]), flash),
                (self.density, study.number(pair["evaporated_density15"]), density),
                (self.light, light_density(pair),
                 answer["jars"][0]["properties"]["density15_kgm3"])):
            if measured is None or got["value"] is None:
                continue
            errors[key].append((got["value"] - measured, oil))
            if got["low"] is not None and errors is not self.light:
                counts = self.covered["flash" if errors is self.flash else "density", key[1]]
                counts[0] += got["low"] <= measured <= got["high"]
                counts[1] += 1


GROUPS = (("good", ("good",), ("whole", "eluted"), True),
          ("good, percent of the whole oil", ("good",), ("whole",), False),
          ("good, percent of what elutes", ("good",), ("eluted",), False),
          ("fair", ("fair",), ("whole", "eluted"), False),
          ("fair, percent of the whole oil", ("fair",), ("whole",), False),
          ("fair, percent of what elutes", ("fair",), ("eluted",), False))


def rows_of(label, errors, aim):
    rows = []
    for name, qualities, kinds, aimed in GROUPS:
        both = [e for q in qualities for k in kinds for e in errors[q, k]]
        rows.append(study.error_row("%s, %s" % (label, name), both, aim if aimed else "-"))
    return rows


def write(ways, refused, body, heaviest):
    report = study.Report("topping", "A bare pot against oils measured fresh and topped")
    report.say("`tap FILE --cuts N%m,100%m --plates 1 --carry 0` on the simulated distillation "
               "(mass) of the fresh oil; flash and density of the rest, computed less measured. "
               "Nearly all the oils are crudes. Made by `tests/reference/topping.py renew`.")
    report.say("*Site*: boiled at 101.3 kPa, where the pot ends at 150 to 340 degC. *Vacuum*: at "
               "the pressure at which the pot ends at 80 degC, or at 0.5 kPa, the least the "
               "program takes. The oils were topped in a rotary evaporator at 80 degC under a "
               "stream of air (from memory); the colder the pot, the further apart are the "
               "volatilities, and the sharper is the cut.")
    report.say("*Percent of what elutes*: ASTM D2887 counts only what comes through to 545 degC, "
               "so that a crude's residue is in none of its percents (95 %% of these stands at 440 "
               "to 530 degC, though the fresh oils weigh up to %.0f kg/m3), while the mass taken "
               "off is one of the whole oil. Such a pair asks for too early a cut and says little "
               "of the still." % heaviest)
    for title, unit, what, aim in (("Flash", "degC", "flash", AIM_FLASH),
                                   ("Density", "kg/m3", "density", AIM_DENSITY)):
        report.say("## " + title)
        report.table(study.error_heads(unit),
                     [row for label, errors in ways.items()
                      for row in rows_of(label, getattr(errors, what), aim)])
        report.say("Measured within low..high: " + "; ".join(
            "%s, percent of %s, %d of %d" % (label, long, *errors.covered[what, kind])
            for label, errors in ways.items()
            for kind, long in (("whole", "the whole oil"), ("eluted", "what elutes"))) + ".")
    light = [e for q in QUALITIES for e, _ in ways["vacuum"].light[q, "whole"]]
    if light:
        report.say("What was taken off (percent of the whole oil, vacuum) weighs %+.0f kg/m3 in the "
                   "median against what both measured densities leave for it, n %d: one Watson K "
                   "for the whole oil makes the light ends of a crude too heavy, and what stays "
                   "too light." % (statistics.median(light), len(light)))
    for line in refused:
        report.say("- refused: " + line)
    report.close(["oil", "pair", "percent_of", "removed_mass_pct", "flash_measured_c",
                  "flash_site_c", "flash_vacuum_c", "density_measured_kgm3", "density_site_kgm3",
                  "density_vacuum_kgm3"], body)


def cell(value):
    return "" if value is None else "%.1f" % value


def main():
    folder = study.data_folder("topping")
    if not folder:
        return 0
    curves = defaultdict(list)
    for name in CURVE_FILES:
        for row in study.rows(folder, name):
            curves[row["curve_id"]].append((float(row["percent"]), float(row["temp_c"])))
    eluted = {row["curve_id"] for row in study.rows(folder, "samples.csv")
              if "2887" in row["apparatus"]}
    heaviest = 0.0
    ways, body, refused = {"site": Errors(), "vacuum": Errors()}, [], []
    for pair in study.rows(folder, "topping_pairs.csv"):
        oil = pair["evaporated_curve"]
        if pair["pair_quality"] not in QUALITIES:
            continue
        text = sample(curves[pair["fresh_curve"]], study.number(pair["fresh_density15"]))
        kind = "eluted" if pair["fresh_curve"] in eluted else "whole"
        if kind == "eluted":
            heaviest = max(heaviest, study.number(pair["fresh_density15"]) or 0.0)
        answers = {"site": tap(text, pair, []), "vacuum": under_vacuum(text, pair)}
        flash, density = [pair["evaporated_flash_c"]], [pair["evaporated_density15"]]
        for label, answer in answers.items():
            if isinstance(answer, str):
                refused.append("%s, %s: %s" % (oil, label, answer))
                flash.append("")
                density.append("")
                continue
            ways[label].count((pair["pair_quality"], kind), oil, answer, pair)
            rest = answer["jars"][-1]["properties"]
            flash.append(cell(rest["flash_c"]["value"]))
            density.append(cell(rest["density15_kgm3"]["value"]))
        body.append([oil, pair["pair_quality"], kind, pair["evaporated_mass_pct"]]
                    + flash + density)
    write(ways, refused, body, heaviest)
    return 0


if __name__ == "__main__":
    sys.exit(main())
