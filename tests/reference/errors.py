#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The error of each estimate on measured oils, and whether its stated bounds hold, source by source.

BOILCUT_DATA  the folder of measured curves (samples.csv, tables of curve_id,percent,temp_c,kind)
BOILCUT       the program (build/boilcut)
Argument 'renew' writes standards-notes/error-models.csv and the table in error-models.md anew.
Standard library only. Skips, with the reason, without the data.

One oil counts once: curves that agree in all points and in density are one oil. Sources are whole:
what is fitted for an oil (an offset, a width) is fitted without its source."""
import csv
import math
import os
import re
import statistics
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path[:0] = [os.path.join(HERE, "..", "bench"), HERE]
import study  # noqa: E402
import survey  # noqa: E402

NOTES = os.path.join(HERE, "..", "..", "standards-notes")
HEAVY_T10_C = 290.0  # BC_HEAVY_T10_C
THIN_MM2S = 0.9
LIMITS = (23, 38, 55)
# words of the source column that name one origin; else its first part
ORIGINS = ("Tesoro", "Phillips", "MAPCO", "Maritime Safety", "Martel", "Edwards", "SGS", "exfaira",
           "UNEP", "Kumar", "Mishra", "Bezergianni", "Santos", "Shell", "Mobil", "SINTEF",
           "Star Enterprise", "Louisiana State")
IMPOSSIBLE = {"AD01423-f0"}  # recorded flash 28 degC below that of pure hexane, IBP 60
MISMATCHED = {"AD02125-f0"}  # heavy cycle oil with 1 % at 60 degC: the record mixes sources
RULE_JETS = {"AFRL-10264", "AFRL-10325", "AFRL-10289"}  # the front-end rule was read off these
# a kerosene's viscosity at -20 degC written as at +20
MISLABELLED = {"AD01500-f0", "AD01501-f0"}


def origin_of(sample):
    text = sample["source"]
    for word in ORIGINS:
        if word.lower() in text.lower() or word.lower() in sample["description"].lower():
            return word
    return re.sub(r"^[A-Z]{2}\d+; ", "", text)[:24]


class Pair:
    """An estimate with its bounds beside a measured value; log: errors are log ratios."""

    def __init__(self, name, origin, measured, value, low, high, log=False):
        take = math.log if log else float
        self.name, self.origin, self.log = name, origin, log
        self.measured, self.value = measured, value
        self.error = take(value) - take(measured)
        self.low, self.high = low, high
        self.width = take(high) - take(low) if low is not None and high is not None else None
        self.inside = None if self.width is None else low <= measured <= high


def of_estimate(oil, origin, measured, estimate, log=False):
    if measured is None or estimate["value"] is None:
        return []
    return [Pair(oil.name, origin, measured, estimate["value"], estimate["low"], estimate["high"],
                 log)]


def others(pairs, origin):
    return [p for p in pairs if p.origin != origin]


def rms(values):
    return math.sqrt(statistics.fmean(v * v for v in values))


def fitted_without_source(pairs):
    """Errors less the mean of the other sources, and how many lie within 1.96 times their RMS."""
    left, inside = [], 0
    for pair in pairs:
        rest = [p.error for p in others(pairs, pair.origin)]
        if len(rest) < 3:
            return None, None
        left.append(pair.error - statistics.fmean(rest))
        inside += abs(pair.error) <= 1.96 * rms(rest)
    return left, inside


def at_most(k, n, p=0.95):
    """Chance of k or fewer inside when each is with chance p."""
    return sum(math.comb(n, i) * p ** i * (1 - p) ** (n - i) for i in range(k + 1))


HEADS = ["estimate", "unit", "n", "sources", "bias", "mae", "rms", "q95", "bounds_n", "inside",
         "chance", "median_width", "mae_offset_left_out", "inside_width_left_out"]


def summary(name, unit, pairs):
    if not pairs:
        return None
    scale = 100.0 if unit == "%" else 1.0
    errors = [(math.expm1(p.error) if p.log else p.error) * scale for p in pairs]
    bounded = [p for p in pairs if p.width is not None]
    ordered = sorted(abs(e) for e in errors)
    left, refit = fitted_without_source(pairs)
    inside = sum(p.inside for p in bounded)
    width = statistics.median(
        (100 * (p.high - p.low) / p.value if p.log else p.width) for p in bounded) if bounded else None
    return [name, unit, len(pairs), len({p.origin for p in pairs}), statistics.fmean(errors),
            statistics.fmean(ordered), rms(errors),
            ordered[min(len(ordered) - 1, math.ceil(0.95 * len(ordered)) - 1)], len(bounded),
            inside, at_most(inside, len(bounded)) if bounded else None, width,
            None if left is None else statistics.fmean(map(abs, left)) * scale, refit]


def text_of(value):
    if value is None:
        return ""
    return "%.3g" % value if isinstance(value, float) and abs(value) < 1 else (
        "%.1f" % value if isinstance(value, float) else str(value))


def markdown(rows):
    lines = ["| " + " | ".join(h.replace("_", " ") for h in HEADS) + " |",
             "|" + "---|" * len(HEADS)]
    return lines + ["| " + " | ".join(text_of(c) for c in row) + " |" for row in rows]


# ---- the oils

def point_c(answer, key):
    value = answer["points"][key]
    return math.nan if value is None else value


def read_oils(folder, program):
    """[(oil, origin, answer, answer without density)], one oil once."""
    samples, curves = study.read_curves(folder)
    oils, seen = [], set()
    for name, points in curves.items():
        kinds = {kind for _, _, kind in points}
        if name not in samples or not kinds & (study.D86_KINDS | {study.LISTED}) or any(
                "yield" in kind for kind in kinds):
            continue
        oil = study.Oil(name, samples[name], points)
        oil.rows = [row for row in oil.rows if row[1] <= 700]  # end points no flask reaches
        same = (tuple(r for r in oil.rows if r[0] not in ("IBP", "FBP")), oil.density)
        if oil.readings < 3 or same in seen:
            continue
        seen.add(same)
        oils.append(oil)
    answers, _ = study.judge(program, oils, True)
    without, _ = study.judge(program, oils, False)
    return [(o, origin_of(samples[o.name]), samples[o.name], answers[o.name], without[o.name])
            for o in oils if "error" not in answers[o.name]]


def is_heavy(answer):
    t10 = point_c(answer, "t10_c")
    return t10 >= HEAVY_T10_C if t10 == t10 else point_c(answer, "ibp_c") >= 200.0


# ---- flash

def flash_pairs(oils, wanted):
    pairs = []
    for oil, origin, _, answer, _ in oils:
        if wanted(oil, answer):
            estimate = answer["properties"]["flash_c" if oil.has_ibp else "flash_vapour_c"]
            pairs += of_estimate(oil, origin, oil.flash, estimate)
    return pairs


def with_ibp(oil, answer):
    return oil.has_ibp and not is_heavy(answer) and oil.name not in MISMATCHED


def flash_rows(oils):
    groups = (
        ("flash, with an IBP", with_ibp),
        ("flash, with an IBP, but for a record that cannot be",
         lambda o, a: with_ibp(o, a) and o.name not in IMPOSSIBLE),
        ("flash, with an IBP, but for that and the three jets of the rule",
         lambda o, a: with_ibp(o, a) and o.name not in IMPOSSIBLE | RULE_JETS),
        ("flash, with an IBP, D86 stated", lambda o, a: with_ibp(o, a) and not o.listed),
        ("flash, with an IBP, 10 % point within 35 degC of it",
         lambda o, a: with_ibp(o, a) and o.name not in IMPOSSIBLE
         and point_c(a, "t10_c") - point_c(a, "ibp_c") < 35),
        ("flash, with an IBP, wider", lambda o, a: with_ibp(o, a)
         and point_c(a, "t10_c") - point_c(a, "ibp_c") >= 35),
        ("flash, without an IBP (no claim)", lambda o, a: not o.has_ibp and not is_heavy(a)),
        ("flash, heavy oils", lambda o, a: is_heavy(a)),
        ("flash, all with an IBP", lambda o, a: o.has_ibp),
    )
    return [summary(name, "degC", flash_pairs(oils, wanted)) for name, wanted in groups]


def bar_fit(pairs):
    """Half-width hypot(a, k span), normal likelihood at 2.04 standard deviations (30 degrees of
    freedom), by a grid."""
    best = None
    for a in (x / 4 for x in range(8, 81)):
        for k in (x / 100 for x in range(0, 61)):
            total = 0.0
            for error, span in pairs:
                s = math.hypot(a, k * span) / 2.04
                total += math.log(s) + 0.5 * (error / s) ** 2
            if best is None or total < best[0]:
                best = (total, a, k)
    return best[1:]


def bars_without_source(oils):
    data = [(p.error, point_c(a, "t10_c") - point_c(a, "ibp_c"), origin)
            for o, origin, _, a, _ in oils
            if with_ibp(o, a) and o.name not in IMPOSSIBLE and o.flash is not None
            for p in of_estimate(o, origin, o.flash, a["properties"]["flash_c"])]
    inside = 0
    lines = ["", "Half-width hypot(a, k span) fitted without a source, and the errors left out:", ""]
    for left in sorted({d[2] for d in data}):
        a, k = bar_fit([d[:2] for d in data if d[2] != left])
        out = [d for d in data if d[2] == left]
        hits = sum(abs(e) <= math.hypot(a, k * span) for e, span, _ in out)
        inside += hits
        lines.append("- without %s: a %.1f, k %.2f; %d of %d inside" % (left, a, k, hits, len(out)))
    a, k = bar_fit([d[:2] for d in data])
    return lines + ["- all: a %.1f, k %.2f; left out and inside: %d of %d" % (
        a, k, inside, len(data))]


def safety_lines(oils):
    lines = ["", "| limit, degC | unsafe oils | low bound above it | safe oils | recognised by the "
             "low bound | recognised by the value |", "|---|---|---|---|---|---|"]
    pairs = flash_pairs(oils, lambda o, a: o.has_ibp)
    for limit in LIMITS:
        unsafe = [p for p in pairs if p.measured < limit]
        safe = [p for p in pairs if p.measured >= limit]
        above = [p.name for p in unsafe if p.low >= limit]
        lines.append("| %d | %d | %d %s | %d | %d | %d |" % (
            limit, len(unsafe), len(above), " ".join(above), len(safe),
            sum(p.low >= limit for p in safe), sum(p.value >= limit for p in safe)))
    return lines


# ---- the others

def viscosity_at_40(sample):
    """Measured at 37.8 to 40 degC, brought to 40 by 2 % a degree (kerosenes to diesels)."""
    if sample["visc40_mm2s"]:
        return float(sample["visc40_mm2s"])
    for value, temp in re.findall(r"visc ([\d.]+) mm2/s at ([\d.-]+) C", sample["note"]):
        if 37.0 <= float(temp) <= 41.0:
            return float(value) * math.exp(-0.02 * (40.0 - float(temp)))
    return None


def property_rows(oils):
    density, dense, visc, thin, thick, cetane, vapour = [], [], [], [], [], [], []
    for oil, origin, sample, answer, without in oils:
        if "error" not in without:
            (dense if is_heavy(answer) else density).extend(of_estimate(
                oil, origin, oil.density, without["properties"]["density15_kgm3"]))
        own = answer["properties"]
        estimate = own["visc40_mm2s"]
        if oil.name not in MISLABELLED and estimate["how"] == "estimated":
            (thick if is_heavy(answer) else thin if estimate["value"] < THIN_MM2S else
             visc).extend(of_estimate(oil, origin, viscosity_at_40(sample), estimate, True))
        number = study.number(sample["cetane_number"])
        if own["cetane_index"]["how"] == "not valid":
            cetane += of_estimate(oil, origin, number, own["cetane_index"])
        if study.number(sample["rvp_kpa"]):
            vapour += of_estimate(oil, origin, study.number(sample["rvp_kpa"]),
                                  own["vapour_pressure_37_8_kpa"], True)
    return [summary("density from the curve", "kg/m3", density),
            summary("density from the curve, heavy oils", "kg/m3", dense),
            summary("viscosity at 40 degC, kerosenes to diesels", "%", visc),
            summary("viscosity at 40 degC, thinner than 0.9 mm2/s", "%", thin),
            summary("viscosity at 40 degC, heavy oils", "%", thick),
            summary("cetane index D4737 outside its range, against cetane number", "", cetane),
            summary("vapour pressure at 37.8 degC, without an IBP", "%", vapour)]


def survey_rows(folder):
    """The survey has no T10 and T90: D976 and Abbott from T50, with the bounds of the program."""
    cetane, visc = [], []
    with open(os.path.join(folder, "diesel_survey.csv"), encoding="utf-8") as file:
        for line in csv.DictReader(file):
            density, t50 = survey.number(line["density15_kgm3"]), survey.number(line["d86_t50_c"])
            if not density * t50 > 0:
                continue
            number, measured = (survey.number(line["cetane_number"]),
                                survey.number(line["visc40_mm2s"]))
            origin = line["label"][:2]  # of the running number: neighbours stay together
            if number == number:
                index = survey.d976(density, t50)
                cetane.append(Pair(line["label"], origin, number, index, index - 6.5, index + 6.5))
            if measured == measured:
                value = survey.visc40(density / 999.016, t50)
                visc.append(Pair(line["label"], origin, measured, value, value / 1.2, value * 1.2,
                                 True))
    return [summary("cetane index D976, diesels of the survey, against cetane number", "", cetane),
            summary("viscosity at 40 degC from T50, diesels of the survey", "%", visc)]


def renew(rows, lines):
    with open(os.path.join(NOTES, "error-models.csv"), "w", encoding="utf-8", newline="") as file:
        file.write("# Estimate less measured value on measured oils; bounds are those that the "
                   "program states (95 %). Made by 'python3 tests/reference/errors.py renew'.\n")
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(HEADS)
        writer.writerows([[text_of(c) for c in row] for row in rows])
    path = os.path.join(NOTES, "error-models.md")
    with open(path, encoding="utf-8") as file:
        head = file.read().split("<!-- figures -->\n")[0]
    with open(path, "w", encoding="utf-8") as file:
        file.write(head + "<!-- figures -->\n\n" + "\n".join(lines) + "\n")


def main():
    folder = os.environ.get("BOILCUT_DATA")
    if not folder or not os.path.isdir(folder):
        print("errors: skipped; BOILCUT_DATA names no folder of measured curves")
        return 0
    oils = read_oils(folder, os.environ.get("BOILCUT", "build/boilcut"))
    rows = [r for r in flash_rows(oils) + property_rows(oils) + survey_rows(folder) if r]
    lines = markdown(rows) + safety_lines(oils) + bars_without_source(oils)
    outside = [p for p in flash_pairs(oils, lambda o, a: True) if p.inside is False]
    lines += ["", "Measured flash outside the stated bounds:"] + (
        ["", *("- %s: measured %g, %.1f (%.1f to %.1f)" % (
            p.name, p.measured, p.value, p.low, p.high) for p in outside)] if outside else [" none"])
    if sys.argv[1:] == ["renew"]:
        renew(rows, lines)
    print("# Errors against measured oils\n\n" + "\n".join(lines))
    return 0


if __name__ == "__main__":
    sys.exit(main())
