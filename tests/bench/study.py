#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A bulk study of the judgement over a folder of measured curves; prints a Markdown report.

BOILCUT_DATA  the folder: samples.csv, and tables of curve_id,percent,temp_c,kind
BOILCUT       the program (build/boilcut)
Standard library only. Skips, with the reason, without the data."""
import csv
import glob
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time

CURVE_HEAD = ["curve_id", "percent", "temp_c", "kind"]
D86_KINDS = {"IBP", "recovered", "FBP"}
LISTED = "distilled-volume"  # method not stated, taken as D86-type and marked

# words of a description and the grades that answer to them; the first that is found counts
NAMES = [
    (("condensate", "whole oil", "batch pyrolysis", "catalytic pyrolysis", "tyre", "residu",
      "cracker", "cracking", "waxy gas oil", "jet fuel b", "jet b", "jp-4", "vlsfo", "eca",
      "rma", "diluent", "crude"), None),
    (("diesel", "df2", "gas oil", "fuel oil no.2", "no. 2", "heavy fuel oil type a", "dmb",
      "middle distillate", "marine gas"), ("diesel-range", "heating-oil-range", "marine-range")),
    (("jet", "jp-", "kerosene", "kerosine", "category a-"), ("kerosene-range",)),
    (("gasoline", "naphtha", "reformate"), ("gasoline-range",)),
]


def read_curves(folder):
    samples = {}
    with open(os.path.join(folder, "samples.csv"), encoding="utf-8") as file:
        for row in csv.DictReader(file):
            samples[row["curve_id"]] = row
    curves = {}
    for path in sorted(glob.glob(os.path.join(folder, "*.csv"))):
        with open(path, encoding="utf-8") as file:
            table = csv.DictReader(file)
            if table.fieldnames != CURVE_HEAD:
                continue
            for row in table:
                curves.setdefault(row["curve_id"], []).append(
                    (float(row["percent"]), float(row["temp_c"]), row["kind"]))
    return samples, curves


def number(text):
    try:
        return float(text)
    except (TypeError, ValueError):
        return None


class Oil:
    def __init__(self, name, sample, points):
        self.name = name
        self.what = sample["description"]
        self.density = number(sample["density15_kgm3"])
        self.flash = number(sample["flash_c"])
        self.loss = number(sample["loss_pct"])
        self.residue = number(sample["residue_pct"])
        self.trust = sample["confidence"]
        self.note = sample["note"]
        self.listed = any(kind == LISTED for _, _, kind in points)
        self.rows = []
        for percent, temp, kind in points:
            # in compiled lists the 1 % and 99 % rows stand for IBP and end point (data notes)
            if kind == "IBP" or (self.listed and percent == 1):
                self.rows.append(("IBP", temp))
            elif kind == "FBP" or percent >= 99:
                self.rows.append(("FBP", temp))
            elif kind in D86_KINDS or kind == LISTED:
                self.rows.append(("%g" % percent, temp))
        self.has_ibp = any(name == "IBP" for name, _ in self.rows)
        self.readings = sum(name not in ("IBP", "FBP") for name, _ in self.rows)
        self.expected = self.expected_grades()

    def expected_grades(self):
        text = self.what.lower()
        for words, grades in NAMES:
            if any(word in text for word in words):
                return grades
        return None

    def write(self, path, with_density):
        lines = ["history,rerun", "apparatus,flask", "thermometer,glass d86",
                 "barometer,101.3 kPa"]
        if with_density and self.density:
            lines.append("density,%g kg/m3" % self.density)
        if self.loss is not None:
            lines.append("loss,%g mL" % self.loss)
        if self.residue is not None:
            lines.append("residue,%g mL" % self.residue)
        lines += ["", "recovered (%),head (C)"]
        lines += ["%s,%g" % row for row in self.rows]
        with open(path, "w", encoding="utf-8") as file:
            file.write("\n".join(lines) + "\n")


def judge(program, oils, with_density):
    """{name: answer} and the seconds it took."""
    with tempfile.TemporaryDirectory() as folder:
        paths = {}
        for oil in oils:
            path = os.path.join(folder, oil.name + ".csv")
            oil.write(path, with_density)
            paths[path] = oil.name
        names = os.path.join(folder, "files")
        with open(names, "w", encoding="utf-8") as file:
            file.write("\n".join(paths) + "\n")
        start = time.monotonic()
        run = subprocess.run([program, "judge", "--json", "--files-from", names],
                             capture_output=True, text=True, check=False)
        seconds = time.monotonic() - start
    if not run.stdout.strip():
        sys.exit("study: the program printed nothing: " + run.stderr[:500])
    answers = json.loads(run.stdout)
    if isinstance(answers, dict):
        answers = [answers]
    return {paths[a["file"]]: a for a in answers}, seconds


def table(heads, rows):
    print("| " + " | ".join(heads) + " |")
    print("|" + "---|" * len(heads))
    for row in rows:
        print("| " + " | ".join("%.1f" % c if isinstance(c, float) else str(c)
                                for c in row) + " |")
    print()


def error_row(name, errors):
    """errors: [(error, oil name)]"""
    if not errors:
        return (name, 0, "-", "-", "-", "-")
    values = [e for e, _ in errors]
    highest, lowest = max(errors), min(errors)
    return (name, len(values), statistics.fmean(values),
            statistics.fmean(abs(v) for v in values),
            "%+.1f %s" % highest, "%+.1f %s" % lowest)


def flash_report(oils, answers):
    tested = [o for o in oils if o.has_ibp and o.flash is not None and o.name in answers]
    print("## Flash against measured closed cups, curves with IBP\n")
    routes = ("flash_c", "flash_vapour_c", "flash_t10_c")
    rows = []
    groups = (("all", tested), ("D86 stated", [o for o in tested if not o.listed]),
              ("method not stated", [o for o in tested if o.listed]),
              ("without condensates", [o for o in tested if "condensate" not in o.what.lower()]))
    for route in routes:
        for label, group in groups:
            errors = []
            for oil in group:
                value = answers[oil.name]["properties"][route]["value"]
                if value is not None:
                    errors.append((value - oil.flash, oil.name))
            rows.append(error_row(route + ", " + label, errors))
    table(["route [degC]", "n", "bias", "MAE", "worst high", "worst low"], rows)

    within, claimed, outside = 0, 0, []
    for oil in tested:
        flash = answers[oil.name]["properties"]["flash_c"]
        if flash["low"] is None or flash["high"] is None:
            continue
        claimed += 1
        if flash["low"] <= oil.flash <= flash["high"]:
            within += 1
        else:
            outside.append("%s: measured %g, %.1f (%.1f..%.1f)" % (
                oil.name, oil.flash, flash["value"], flash["low"], flash["high"]))
    print("Measured flash within low..high: %d of %d." % (within, claimed))
    for line in outside:
        print("- " + line)
    print()

    rows = []
    for limit in (23, 38, 55):
        unsafe = [o for o in tested if o.flash < limit]
        safe = [o for o in tested if o.flash >= limit]

        def above(group, key, bar=limit):
            return [o.name for o in group
                    if (answers[o.name]["properties"]["flash_c"][key] or -999) >= bar]

        rows.append((limit, len(unsafe), len(above(unsafe, "low")),
                     " ".join(above(unsafe, "low")) or "-", len(above(unsafe, "value")),
                     len(safe), len(above(safe, "low"))))
    table(["limit", "unsafe", "low bound above", "which", "value above", "safe",
           "of these cleared by the low bound"], rows)


def grade_report(oils, answers):
    print("## Grade against name\n")
    rows, count, agree = [], 0, 0
    for oil in oils:
        if oil.expected is None or oil.name not in answers:
            continue
        verdict = answers[oil.name]["verdict"]
        count += 1
        if verdict["grade"] in oil.expected:
            agree += 1
            continue
        because = verdict["because"][0] if verdict["because"] else ""
        rows.append((oil.name, oil.what[:48].replace("|", "/"), verdict["grade"],
                     verdict["standard"], verdict["word"], because.replace("|", "/")))
    print("%d of %d named products come out in their own range.\n" % (agree, count))
    if rows:
        table(["curve", "name", "grade", "standard", "word", "first reason"], rows)
    words = {}
    for oil in oils:
        if oil.name in answers:
            word = answers[oil.name]["verdict"]["word"]
            words[word] = words.get(word, 0) + 1
    print("Words: " + ", ".join("%s %d" % pair for pair in sorted(words.items())) + ".\n")


def fit_report(oils, answers):
    print("## Chosen fit\n")
    fits = []
    for oil in oils:
        fit = answers.get(oil.name, {}).get("fit")
        if oil.readings >= 5 and fit and fit.get("rms_c") is not None:
            fits.append((fit["rms_c"], oil.name, fit["model"]))
    if not fits:
        print("No fit was reported.\n")
        return
    values = [f[0] for f in fits]
    worst = max(fits)
    table(["curves with 5 or more readings", "mean RMS", "median", "worst", "which"],
          [(len(fits), "%.2f" % statistics.fmean(values), "%.2f" % statistics.median(values),
            "%.2f" % worst[0], worst[1] + " " + worst[2])])
    models = {}
    for _, _, model in fits:
        models[model] = models.get(model, 0) + 1
    print("Chosen: " + ", ".join("%s %d" % p for p in sorted(models.items())) + ".\n")


def leave_one_out_report(program, oils):
    """Takes one inner reading out of each curve in turn and asks the program for it, where the
    reading is one of the reported points."""
    keys = {10: "t10_c", 20: "t20_c", 30: "t30_c", 40: "t40_c", 50: "t50_c", 60: "t60_c",
            70: "t70_c", 80: "t80_c", 90: "t90_c"}
    tries = []
    for oil in oils:
        amounts = [(float(p), t) for p, t in oil.rows if p not in ("IBP", "FBP")]
        if len(amounts) < 5:
            continue
        for before, here, after in zip(amounts, amounts[1:], amounts[2:]):
            if here[0] in keys and before[0] < here[0] < after[0]:
                part = Oil.__new__(Oil)
                part.__dict__.update(oil.__dict__)
                part.name = "%s@%g" % (oil.name, here[0])
                part.rows = [r for r in oil.rows if r[0] != "%g" % here[0]]
                line = before[1] + (after[1] - before[1]) * (here[0] - before[0]) / (
                    after[0] - before[0])
                tries.append((part, here, line))
    answers, _ = judge(program, [t[0] for t in tries], True)
    curve, line = [], []
    for part, here, straight in tries:
        value = answers.get(part.name, {}).get("points", {}).get(keys[here[0]])
        if value is not None:
            curve.append((value - here[1], part.name))
            line.append((straight - here[1], part.name))
    print("## Leave one reading out\n")

    def row(name, errors):
        rms = (sum(e * e for e, _ in errors) / len(errors)) ** 0.5
        return (name, len(errors), "%.2f" % rms,
                "%.2f" % statistics.median(abs(e) for e, _ in errors),
                "%.1f %s" % max((abs(e), n) for e, n in errors))

    if curve:
        table(["error [degC]", "n", "RMS", "median", "worst"],
              [row("curve of the program", curve), row("straight line", line)])


def density_report(oils, answers):
    print("## Density where it was withheld\n")
    errors, covered, count = [], 0, 0
    for oil in oils:
        answer = answers.get(oil.name)
        if oil.density is None or answer is None:
            continue
        estimate = answer["properties"]["density15_kgm3"]
        if estimate["value"] is None:
            continue
        errors.append((estimate["value"] - oil.density, oil.name))
        if estimate["low"] is not None:
            count += 1
            covered += estimate["low"] <= oil.density <= estimate["high"]
    if not errors:
        print("No estimate was reported.\n")
        return
    values = [e for e, _ in errors]
    spread = 1.96 * statistics.stdev(values)
    table(["kg/m3", "n", "bias", "MAE", "worst high", "worst low"],
          [error_row("estimate - measured", errors)])
    print("95 %% spread: %.0f kg/m3. Measured density within low..high: %d of %d.\n" % (
        spread, covered, count))


def main():
    folder = os.environ.get("BOILCUT_DATA")
    if not folder or not os.path.isdir(folder):
        print("study: skipped; BOILCUT_DATA names no folder of measured curves")
        return
    program = os.environ.get("BOILCUT", "build/boilcut")
    samples, curves = read_curves(folder)
    oils, left_out = [], []
    for name, points in curves.items():
        kinds = {kind for _, _, kind in points}
        if not kinds & (D86_KINDS | {LISTED}) or name not in samples:
            continue
        if any("yield" in kind for kind in kinds):
            left_out.append(name)  # a yield against an end point is no boil-off
            continue
        oil = Oil(name, samples[name], points)
        if oil.readings < 3:
            left_out.append(name)
            continue
        oils.append(oil)

    answers, seconds = judge(program, oils, True)
    refused = [n for n, a in answers.items() if "error" in a]
    answers = {n: a for n, a in answers.items() if "error" not in a}
    print("# Measured curves through the judgement\n")
    print("%d D86-type curves (%d of them with the method not stated), %d judged, %d refused (%s); "
          "%d left out (fewer than three readings, or yields). %.1f ms a file.\n" % (
              len(oils), sum(o.listed for o in oils), len(answers), len(refused),
              " ".join(refused) or "none", len(left_out), 1000 * seconds / len(oils)))
    flash_report(oils, answers)
    grade_report(oils, answers)
    fit_report(oils, answers)
    leave_one_out_report(program, oils)
    without, _ = judge(program, oils, False)
    density_report(oils, {n: a for n, a in without.items() if "error" not in a})


if __name__ == "__main__":
    main()
