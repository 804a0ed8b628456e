#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How often each finding is raised on clean measured curves, and how often faults planted in them
are found; prints Markdown. With --renew it also writes the two rates into standards-notes/findings.csv.

BOILCUT_DATA  the folder: samples.csv, and tables of curve_id,percent,temp_c,kind
BOILCUT       the program (build/boilcut)
Standard library only; the seed is fixed. Skips, with the reason, without the data.

A slip is gross where it puts a reading at least 20 degC off, or at least 4 times the local scatter
(never less than 8 degC): what the reading and the two beside it lie off the straight line of their
neighbours on probability paper in the clean curve, at least 2 degC. A row can be told only where a
reading stands on both sides of it (IBP and FBP count). Further findings are those that neither the clean curve nor the
fault explains; facts, which follow from changed figures, are not among them."""
import csv
import json
import os
import random
import re
import statistics
import subprocess
import sys
import tempfile

from study import D86_KINDS, LISTED, Oil, read_curves

SEED = 20260817
NOTES = os.path.join(os.path.dirname(__file__), "..", "..", "standards-notes", "findings.csv")
# the notes of the data themselves doubt these records
DOUBTED_NAMES = ("EC00567-f0", "EC00567-e7.2")  # look shifted by one row
DOUBTED = ("record may mix sources", "rounded to 5 C", "out of order", "impossible")
PROBIT = statistics.NormalDist().inv_cdf
READINGS_MIN = 6  # with fewer, one left out leaves too few to decide anything
NOISE_SD_C, NOISE_TRIES = 1.0, 3  # 95 % within 2 degC: a cheap thermometer read to 1 degC
OTHER_TO_PCT = 60  # a boil-off that stops earlier tells of no T90
GROSS_C, GROSS_SCATTERS, SCATTER_LEAST_C = 20.0, 4.0, 2.0
POINTS = ("t10_c", "t50_c", "t90_c")
ROW_CODES = ("reading-out-of-line", "jump")

# What is true of such a record or oil, not an alarm that could be false.
FACTS = {
    "no-ibp": "the record has no IBP",
    "few-readings": "the record has fewer than five readings",
    "gap": "the record has such a gap",
    "feed-unknown": "the records state no feed",
    "light-ends": "gasolines, naphthas and condensates have them",
    "wide-boiling": "computed width of the oil",
    "waxy": "computed T90 of the oil",
    "flash-routes-apart": "two estimates that differ",
    "tbp-outside-range": "curve outside the range of a correlation",
    "cracking": "the record goes above 370 degC",
    "residue-large": "the residue as given",
    "too-hot": "reduced-pressure or simulated curves as given",
    "outside-scope": "heavy oil as given",
    "viscosity-unused": "no estimate to carry it",
}


class Record:
    """A sample file to be: key lines, and rows of (percent or name, temp)."""

    def __init__(self, keys, rows):
        self.keys = dict(keys)
        self.rows = list(rows)
        self.times = None

    def copy(self):
        return Record(self.keys, self.rows)

    def text(self):
        lines = ["%s,%s" % pair for pair in self.keys.items()] + [""]
        if self.times is None:
            lines.append("recovered (%),head (C)")
            lines += ["%s,%.1f" % (p if isinstance(p, str) else "%g" % p, t)
                      for p, t in self.rows]
        else:
            lines.append("recovered (%),head (C),elapsed (s)")
            lines += ["%s,%.1f,%.0f" % (p if isinstance(p, str) else "%g" % p, t, s)
                      for (p, t), s in zip(self.rows, self.times)]
        return "\n".join(lines) + "\n"

    def amounts(self):
        return [(i, p, t) for i, (p, t) in enumerate(self.rows) if not isinstance(p, str)]

    def named(self, name):
        return next((t for p, t in self.rows if p == name), None)


def record_of(oil):
    keys = {"history": "rerun", "apparatus": "flask", "thermometer": "glass d86",
            "barometer": "101.3 kPa"}
    if oil.density:
        keys["density"] = "%g kg/m3" % oil.density
    if oil.loss is not None:
        keys["loss"] = "%g mL" % oil.loss
    if oil.residue is not None:
        keys["residue"] = "%g mL" % oil.residue
    return Record(keys, [(p if p in ("IBP", "FBP") else float(p), t) for p, t in oil.rows])


def judge(program, texts, *options):
    """{name: answer}; texts is {name: text of the file}."""
    with tempfile.TemporaryDirectory() as folder:
        paths = {}
        for number, (name, text) in enumerate(texts.items()):
            path = os.path.join(folder, "%06d.csv" % number)
            paths[path] = name
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
        names = os.path.join(folder, "files")
        with open(names, "w", encoding="utf-8") as file:
            file.write("\n".join(paths) + "\n")
        run = subprocess.run([program, "judge", "--json", *options, "--files-from", names],
                             capture_output=True, text=True, check=False)
    if not run.stdout.strip():
        sys.exit("findings_study: the program printed nothing: " + run.stderr[:500])
    answers = json.loads(run.stdout)
    answers = answers if isinstance(answers, list) else [answers]
    return {paths[a["file"]]: a for a in answers}


# ---- scatter of a clean curve

def on_paper(record):
    """[(row, probit, temp)] in order, IBP at 1 % and FBP at 99."""
    amounts = record.amounts()
    first, last = amounts[0][1], amounts[-1][1]
    points = []
    for row, (percent, temp) in enumerate(record.rows):
        if percent == "IBP":
            percent = min(1.0, first / 2)
        elif percent == "FBP":
            percent = max(99.0, (100 + last) / 2)
        if 0 < percent < 100:
            points.append((row, PROBIT(percent / 100), temp))
    return sorted(points, key=lambda p: p[1])


def scatters(record):
    """{row: local scatter}, for rows with one on both sides."""
    points = on_paper(record)
    off = {}
    for before, here, after in zip(points, points[1:], points[2:]):
        share = (here[1] - before[1]) / (after[1] - before[1])
        off[here[0]] = abs(here[2] - before[2] - share * (after[2] - before[2]))
    rows = [p[0] for p in points]
    result = {}
    for place, row in enumerate(rows):
        if row in off and not isinstance(record.rows[row][0], str):
            near = [off[r] for r in rows[max(place - 1, 0):place + 2] if r in off]
            result[row] = max(near + [SCATTER_LEAST_C])
    return result


def gross(record, row, temp):
    off = abs(temp - record.rows[row][1])
    return off >= GROSS_C or off >= GROSS_SCATTERS * scatters(record)[row]


# ---- slips of one row: each gives [(new temp, word that names it)]

def swapped_digits(temp):
    digits = "%d" % temp
    for i in range(len(digits) - 1):
        other = digits[:i] + digits[i + 1] + digits[i] + digits[i + 2:]
        if other != digits:
            yield int(other) + temp - int(digits)


SLIPS = {
    "swapped digits": (lambda t: list(swapped_digits(t)), "digits swapped"),
    "degF among degC": (lambda t: [t * 1.8 + 32], "degF"),
    "tens slip of 10": (lambda t: [t - 10, t + 10], "tens|digits swapped"),
    "tens slip of 20 to 50": (lambda t: [t + d for d in (-50, -40, -30, -20, 20, 30, 40, 50)],
                              "tens|digits swapped"),
    "hundreds slip": (lambda t: [t - 100, t + 100], "hundreds|digits swapped"),
}


def plant_slip(kind, record, rng):
    values, word = SLIPS[kind]
    choices = [(row, temp) for row in scatters(record)
               for temp in values(record.rows[row][1])
               if 0 < temp < 690 and gross(record, row, temp)]
    if not choices:
        return None
    row, temp = rng.choice(choices)
    planted = record.copy()
    planted.rows[row] = (record.rows[row][0], temp)
    return planted, {"rows": [record.rows[row][0]], "codes": ROW_CODES, "word": word}


def plant_copied(record, rng):
    """The line before is written once more, with this percent."""
    amounts = record.amounts()
    told = scatters(record)
    choices = [(b[0], a[2]) for a, b in zip(amounts, amounts[1:])
               if b[0] in told and gross(record, b[0], a[2])]
    if not choices:
        return None
    row, temp = rng.choice(choices)
    planted = record.copy()
    planted.rows[row] = (record.rows[row][0], temp)
    return planted, {"rows": [record.rows[row][0]], "codes": ROW_CODES, "word": "twice"}


def plant_swapped_rows(record, rng):
    amounts = record.amounts()
    told = scatters(record)
    choices = [(a[0], b[0]) for a, b in zip(amounts, amounts[1:])
               if a[0] in told and b[0] in told
               and (gross(record, a[0], b[2]) or gross(record, b[0], a[2]))]
    if not choices:
        return None
    one, other = rng.choice(choices)
    planted = record.copy()
    planted.rows[one] = (record.rows[one][0], record.rows[other][1])
    planted.rows[other] = (record.rows[other][0], record.rows[one][1])
    return planted, {"rows": [record.rows[one][0]], "codes": ("readings-swapped",),
                     "word": "changed places"}


def plant_repeated(record, rng):
    row, percent, temp = rng.choice(record.amounts())
    planted = record.copy()
    planted.rows.insert(row + 1, (percent, temp + rng.choice((0.0, 0.0, 5.0))))
    return planted, {"rows": [percent], "codes": ("repeated-percent",), "word": None}


# ---- faults of a record

def whole(*codes):
    return {"rows": None, "codes": codes, "word": None}


def temp_at(record, percent):
    points = [(p, t) for _, p, t in record.amounts()]
    for (p0, t0), (p1, t1) in zip(points, points[1:]):
        if p0 <= percent <= p1:
            return t0 + (t1 - t0) * (percent - p0) / (p1 - p0)
    return None


def plant_water(record, rng):
    """Water comes over first, with the light end: the head creeps up to 100."""
    amounts = record.amounts()
    water = rng.uniform(4, 12)
    if (record.named("IBP") or 120) < 120 or amounts[0][2] < 140:
        return None
    start = rng.uniform(92, 98)
    rows = [("IBP", start)]
    for percent in (2, 5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95):
        if percent <= water:
            rows.append((percent, start + (99.5 - start) * percent / water))
            continue
        oil = (percent - water) * 100 / (100 - water)
        first = amounts[0]
        temp = temp_at(record, oil) if oil >= first[1] else (
            first[2] - (first[2] - (record.named("IBP") or first[2] - 20)) * (1 - oil / first[1]))
        if temp is not None:
            rows.append((percent, temp))
    planted = Record(record.keys, rows)
    return (planted, whole("water-shelf")) if len(rows) >= 6 else None


def plant_fall(record, rng):
    amounts = record.amounts()
    if amounts[-1][1] < 70 or len(amounts) < 5:
        return None
    planted = record.copy()
    planted.rows = [r for r in record.rows if r[0] != "FBP"]
    count = rng.choice((1, 2))
    peak = amounts[-1 - count]
    for step, (row, percent, _) in enumerate(amounts[-count:], 1):
        planted.rows[row] = (percent, peak[2] - step * rng.uniform(6, 25))
    return planted, {"rows": [peak[1]], "codes": ("temperature-falls",), "word": None}


def plant_stall(record, rng):
    """The last two readings creep while the heat is on; only above 300 degC does that say much."""
    amounts = record.amounts()
    if len(amounts) < 6 or amounts[-1][1] < 85 or amounts[-3][1] < 60 or amounts[-3][2] < 300:
        return None
    planted = record.copy()
    planted.rows = [r for r in record.rows if r[0] != "FBP"]
    for step, (row, percent, _) in enumerate(amounts[-2:], 1):
        planted.rows[row] = (percent, amounts[-3][2] + step * rng.uniform(0, 0.8))
    return planted, whole("temperature-stalls", "temperature-falls")


def plant_gas(record, rng):
    ibp = record.named("IBP")
    if ibp is None or ibp < 100:
        return None
    planted = record.copy()
    low = max(ibp - rng.uniform(60, 130), 15)
    planted.rows = [("IBP", low) if p == "IBP" else (p, t) for p, t in record.rows]
    return planted, whole("front-jump", "light-ends")


def plant_loss(record, rng):
    """The front is lost and missed: percents shrink, the loss is stated."""
    if record.amounts()[0][2] < 60 or (record.named("IBP") or 60) < 55:
        return None
    loss = rng.uniform(5, 11)
    planted = record.copy()
    planted.rows = [(p if isinstance(p, str) else round(p * (98 - loss) / 100, 1), t)
                    for p, t in record.rows]
    rest = 100 - planted.amounts()[-1][1] - loss
    planted.keys.update(loss="%.1f mL" % loss,
                        residue="%.1f mL" % (1.6 if record.named("FBP") else rest))
    return planted, whole("loss-large")


def plant_sum(record, rng):
    last = record.amounts()[-1][1]
    excess = rng.uniform(2, 12)
    residue = 100 - last + excess - 0.7
    if residue <= 0:
        return None
    planted = record.copy()
    planted.keys.update(loss="0.7 mL", residue="%.1f mL" % residue)
    return planted, whole("balance-impossible")


def plant_short_sum(record, rng):
    planted = record.copy()
    planted.rows = [r for r in record.rows if r[0] != "FBP" and
                    (isinstance(r[0], str) or r[0] <= 85)]
    if len(planted.amounts()) < 5:
        return None
    missing = 100 - planted.amounts()[-1][1]
    planted.keys.update(loss="0.7 mL", residue="%.1f mL" % (
        missing - 0.7 - rng.uniform(13, missing - 0.7)))
    return planted, whole("balance-short")


def plant_weighed(record, rng):
    planted = record.copy()
    planted.keys.pop("loss", None)
    planted.keys.pop("density", None)
    planted.rows = [(p if isinstance(p, str) else round(p * 0.85, 1), t) for p, t in record.rows]
    loss = rng.uniform(4.5, 9)
    rest = 80 - loss - 0.8 * planted.amounts()[-1][1]
    planted.keys.update({"charge mass": "80.0 g", "residue mass": "%.1f g" % rest,
                         "distillate mass": "%.1f g" % (80 - loss - rest)})
    if record.amounts()[0][2] < 60 or (record.named("IBP") or 60) < 55:
        return None
    return planted, whole("loss-large")


def plant_barometer(record, rng):
    planted = record.copy()
    planted.keys.update(barometer="%.1f kPa" % rng.uniform(100.3, 102.3),
                        altitude="%.0f m" % rng.uniform(400, 2500))
    return planted, whole("barometer-not-station")


def plant_calibration(record, rng):
    planted = record.copy()
    off = rng.choice((-1, 1)) * rng.uniform(7, 25)
    if rng.random() < 0.5:
        planted.keys.update(ice="%.1f C" % off, steam="99.8 C")
    else:
        planted.keys.update(ice="0.1 C", steam="%.1f C" % (100 + off))
    return planted, whole("thermometer-far-off")


def plant_density(record, rng):
    """A wrong digit, unit or hydrometer: at least 120 kg/m3 off, twice what the curve leaves open."""
    if "density" not in record.keys:
        return None
    planted = record.copy()
    true = float(record.keys["density"].split()[0])
    planted.keys["density"] = "%.0f kg/m3" % (
        true + rng.choice((-1, 1)) * rng.uniform(120, 250))
    return planted, whole("density-unlike-curve", "density-unlike-feed")


def plant_compound(record, rng):
    """Half of it becomes one compound, boiling where the rest boils in the middle."""
    middle = temp_at(record, 50)
    if middle is None or len(record.amounts()) < 8:
        return None
    low, high = 50 - rng.uniform(18, 28), 50 + rng.uniform(18, 28)
    planted = record.copy()
    for row, percent, temp in record.amounts():
        if low <= percent <= high:
            planted.rows[row] = (percent, middle + 0.02 * (percent - 50))
        elif (percent < low and temp > middle - 4) or (percent > high and temp < middle + 4):
            return None
    return planted, whole("one-compound", "styrenic-oil")


def plant_cold_condenser(record, rng):
    last = record.amounts()[-1]
    if last[2] < 340:
        return None
    planted = record.copy()
    planted.keys.update({"feed": "PE crates", "condenser temp": "%.0f C" % rng.uniform(2, 30)})
    return planted, whole("condenser-cold")


def plant_rate(record, rng):
    planted = record.copy()
    rate = rng.choice((rng.uniform(10, 20), rng.uniform(0.5, 1.6)))
    planted.times = [600 + 60 * ({"IBP": 0, "FBP": 98}.get(p, p)) / rate for p, _ in record.rows]
    return planted, whole("too-fast", "too-slow")


FAULTS = {kind: (lambda record, rng, kind=kind: plant_slip(kind, record, rng)) for kind in SLIPS}
FAULTS.update({
    "line written once more": plant_copied,
    "two rows in each other's place": plant_swapped_rows,
    "percent repeated": plant_repeated,
    "water shelf": plant_water,
    "falling end": plant_fall,
    "stalling end": plant_stall,
    "IBP 60 to 130 degC too low": plant_gas,
    "front lost, loss stated": plant_loss,
    "front lost, weighed": plant_weighed,
    "sum above 100": plant_sum,
    "sum below 100, no FBP": plant_short_sum,
    "sea-level barometer at altitude": plant_barometer,
    "calibration out of bounds": plant_calibration,
    "density unlike the curve": plant_density,
    "one compound": plant_compound,
    "condenser too cold for wax": plant_cold_condenser,
    "heated too fast or slow": plant_rate,
})
ROW_FAULTS = list(SLIPS) + ["line written once more", "two rows in each other's place"]
TRIES = {True: 4, False: 1}  # for each curve: of a row, of a record


# ---- counting

def codes_of(answer):
    return [f["code"] for f in answer["findings"]]


def is_found(answer, target):
    """(found, the right slip named)"""
    for finding in answer["findings"]:
        if finding["code"] not in target["codes"]:
            continue
        if target["rows"] is not None and not any(
                abs((finding["at_pct"] if finding["at_pct"] is not None else -1) - p) < 0.05
                for p in target["rows"]):
            continue
        named = target["word"] is None or re.search(target["word"], finding["message"])
        return True, bool(named)
    return False, False


def is_back(answer, clean):
    """Which of T10, T50, T90 lie within 3 degC of the clean curve's, of those both have."""
    pairs = [(answer["points"][k], clean["points"][k]) for k in POINTS]
    return [abs(a - b) <= 3 for a, b in pairs if a is not None and b is not None]


class Count:
    def __init__(self):
        self.planted = self.found = self.named = self.extra = 0
        self.back, self.back_kept = [], []
        self.missed = []
        self.by_code = {}
        self.extras = {}


def table(heads, rows):
    print("| " + " | ".join(heads) + " |")
    print("|" + "---|" * len(heads))
    for row in rows:
        print("| " + " | ".join(str(c) for c in row) + " |")
    print()


def share(part, of):
    return "-" if of == 0 else "%.0f %%" % (100 * part / of)


def plant_all(records):
    """{(fault, curve, try): (record, target)}"""
    planted = {}
    for fault, plant in FAULTS.items():
        for name, record in records.items():
            if len(record.amounts()) < (READINGS_MIN if fault in ROW_FAULTS else 3):
                continue
            for number in range(TRIES[fault in ROW_FAULTS]):
                rng = random.Random("%d %s %s %d" % (SEED, fault, name, number))
                result = plant(record, rng)
                if result is not None:
                    planted[fault, name, number] = result
    return planted


def count_all(program, clean, planted):
    texts = {key: record.text() for key, (record, _) in planted.items()}
    answers = judge(program, texts)
    kept = judge(program, {k: t for k, t in texts.items() if k[0] in ROW_FAULTS}, "--keep-all")
    counts = {fault: Count() for fault in FAULTS}
    for key, (_, target) in planted.items():
        fault, name, _ = key
        count, answer = counts[fault], answers[key]
        count.planted += 1
        if "error" in answer:
            count.missed.append("%s refused" % name)
            continue
        found, named = is_found(answer, target)
        count.found += found
        count.named += named
        if not found:
            count.missed.append("%s@%s" % (name, ",".join(
                "%g" % p for p in target["rows"] or [])))
        before = codes_of(clean[name])
        extra = [c for c in codes_of(answer) if c not in before and c not in FACTS]
        for code in target["codes"]:
            if code in extra:
                extra.remove(code)
                break
        count.extra += len(extra)
        for code in extra:
            count.extras[code] = count.extras.get(code, 0) + 1
        for code in set(codes_of(answer)) & set(target["codes"]):
            count.by_code[code] = count.by_code.get(code, 0) + 1
        if fault in ROW_FAULTS:
            count.back += is_back(answer, clean[name])
            if "error" not in kept[key]:
                count.back_kept += is_back(kept[key], clean[name])
    return counts


def report_clean(answers):
    raised = {}
    for name, answer in answers.items():
        for code in set(codes_of(answer)):
            raised.setdefault(code, []).append(name)
    print("%d clean curves raise:\n" % len(answers))
    table(["finding", "curves", "of all", "which"],
          [(code, len(names), share(len(names), len(answers)), " ".join(names[:6]))
           for code, names in sorted(raised.items()) if code not in FACTS])
    print("Facts of the record or the oil, no alarm that could be false:\n")
    table(["finding", "curves", "why"],
          [(c, len(n), FACTS[c]) for c, n in sorted(raised.items()) if c in FACTS])
    return {code: len(names) for code, names in raised.items()}


def report_noise(program, records):
    """What a cheap thermometer's own scatter raises."""
    texts = {}
    for name, record in records.items():
        for number in range(NOISE_TRIES):
            rng = random.Random("%d noise %s %d" % (SEED, name, number))
            noisy = record.copy()
            noisy.rows = [(p, t + rng.gauss(0, NOISE_SD_C)) for p, t in record.rows]
            texts[name, number] = noisy.text()
    answers = {k: a for k, a in judge(program, texts).items() if "error" not in a}
    raised = {}
    for answer in answers.values():
        for code in set(codes_of(answer)) - set(FACTS):
            raised[code] = raised.get(code, 0) + 1
    print("With scatter of %g degC (standard deviation) on every reading, %d records raise: " % (
        NOISE_SD_C, len(answers)) + (", ".join("%s %d (%s)" % (c, n, share(n, len(answers)))
                                               for c, n in sorted(raised.items())) or "nothing") +
          ".\n")


def report_planted(counts, verbose):
    print("Planted and found:\n")
    rows = []
    for fault, c in counts.items():
        if c.planted == 0:
            continue
        rows.append((fault, c.planted, share(c.found, c.planted), share(c.named, c.found),
                     "%.2f" % (c.extra / c.planted),
                     share(sum(c.back), len(c.back)), share(sum(c.back_kept), len(c.back_kept))))
    table(["fault", "planted", "found", "slip named, of found", "further findings, mean",
           "T10 T50 T90 within 3 degC", "with --keep-all"], rows)
    rows = [counts[f] for f in ROW_FAULTS]
    print("Row faults together: %d planted, %s found; further findings %.2f in the mean.\n" % (
        sum(c.planted for c in rows), share(sum(c.found for c in rows), sum(
            c.planted for c in rows)), sum(c.extra for c in rows) / sum(c.planted for c in rows)))
    for fault, c in counts.items():
        if verbose and (c.missed or c.extras):
            print("- %s: missed %s; further %s" % (fault, " ".join(c.missed[:25]), c.extras))


def renew(bases, path):
    """Writes the rates into their columns and leaves all else. bases: D86-type, other."""
    with open(path, encoding="utf-8") as file:
        lines = file.read().splitlines()
    heads = None
    out = []
    for line in lines:
        cells = [] if line.startswith("#") else next(csv.reader([line]), [])
        if heads is None or not cells:
            heads = heads or cells or None
            out.append(line)
            continue
        row = dict(zip(heads, cells))
        for (raised, n, counts), false, found in zip(
                bases, ("false", "false_other"), ("found", "found_other")):
            row[false] = "fact" if row["code"] in FACTS else "%d/%d" % (
                raised.get(row["code"], 0), n)
            tried = [c for f, c in counts.items() if f in row["faults"].split("; ")]
            planted = sum(c.planted for c in tried)
            row[found] = "%d/%d" % (sum(c.found for c in tried), planted) if planted else ""
        out.append(",".join(quoted(row[h]) for h in heads))
    with open(path, "w", encoding="utf-8") as file:
        file.write("\n".join(out) + "\n")


def quoted(text):
    return '"%s"' % text.replace('"', '""') if re.search('[",]', text) else text


def main():
    folder = os.environ.get("BOILCUT_DATA")
    if not folder or not os.path.isdir(folder):
        print("findings_study: skipped; BOILCUT_DATA names no folder of measured curves")
        return
    program = os.environ.get("BOILCUT", "build/boilcut")
    samples, curves = read_curves(folder)
    d86, other, doubted = {}, {}, 0
    for name, points in curves.items():
        kinds = {kind for _, _, kind in points}
        if name not in samples or any("yield" in kind for kind in kinds):
            continue
        if name in DOUBTED_NAMES or any(w in samples[name]["note"] for w in DOUBTED):
            doubted += 1
        elif kinds & (D86_KINDS | {LISTED}):
            d86[name] = record_of(Oil(name, samples[name], points))
        else:
            record = other_record(points)
            if record.rows and record.rows[-1][0] >= OTHER_TO_PCT:
                other[name] = record
    print("# Findings on measured curves\n")
    print("%d curves doubted by the notes of the data are left out.\n" % doubted)
    bases = [study(program, "D86-type curves", d86, 3),
             study(program, "Curves by other methods, up to 400 degC; nothing was fitted on them",
                   other, READINGS_MIN)]
    if "--renew" in sys.argv:
        renew(bases, NOTES)


def other_record(points):
    """As a person would read it: no two readings nearer than 4 %, none above 400 degC."""
    rows = []
    for percent, temp, _ in sorted(points):
        if 1 < percent < 99 and 0 < temp <= 400 and (not rows or percent - rows[-1][0] >= 4):
            rows.append((percent, temp))
    return Record({"history": "rerun", "apparatus": "flask", "thermometer": "glass d86",
                   "barometer": "101.3 kPa"}, rows)


def study(program, title, records, least):
    """(how many clean curves raise each code, how many curves, {fault: Count})"""
    records = {n: r for n, r in records.items() if len(r.amounts()) >= least}
    clean = judge(program, {n: r.text() for n, r in records.items()})
    clean = {n: a for n, a in clean.items() if "error" not in a}
    print("## %s\n" % title)
    raised = report_clean(clean)
    report_noise(program, {n: records[n] for n in clean})
    counts = count_all(program, clean, plant_all({n: records[n] for n in clean}))
    report_planted(counts, "--verbose" in sys.argv)
    return raised, len(clean), counts


if __name__ == "__main__":
    main()
