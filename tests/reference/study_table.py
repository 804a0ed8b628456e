# SPDX-License-Identifier: GPL-3.0-or-later
"""What the studies over measured oils share: the data, the program, the figures, and the tables in
standards-notes/."""
import csv
import json
import os
import statistics
import subprocess
import sys
import tempfile


def data_folder(name):
    """The folder of measured oils, or None with the reason printed."""
    folder = os.environ.get("BOILCUT_DATA")
    if not folder or not os.path.isdir(folder):
        print("%s: skipped: BOILCUT_DATA names no folder of measured oils" % name)
        return None
    return folder


def rows(folder, name):
    with open(os.path.join(folder, name), encoding="utf-8") as file:
        return list(csv.DictReader(file))


def number(text):
    try:
        return float(text)
    except (TypeError, ValueError):
        return None


def run(arguments, sample):
    """The JSON answer of the program for the text of a sample; the trouble as a string."""
    program = os.environ.get("BOILCUT", "build/boilcut")
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "oil.csv")
        with open(path, "w", encoding="utf-8") as file:
            file.write(sample)
        answer = subprocess.run([program, arguments[0], "--json", path] + arguments[1:],
                                capture_output=True, text=True, check=False)
    if not answer.stdout.strip():
        return answer.stderr.strip().replace(path, "oil.csv") or "no answer"
    return json.loads(answer.stdout)


def error_heads(unit):
    return ["group", "n", "bias [%s]" % unit, "mean absolute", "aim", "worst five"]


def error_row(name, errors, aim):
    """errors: [(estimate less measured, of what)]"""
    if not errors:
        return [name, "0", "-", "-", aim, "-"]
    values = [e for e, _ in errors]
    worst = sorted(errors, key=lambda e: -abs(e[0]))[:5]
    return [name, str(len(values)), "%+.1f" % statistics.fmean(values),
            "%.1f" % statistics.fmean(map(abs, values)), aim,
            ", ".join("%+.1f %s" % e for e in worst)]


class Report:
    """Prints a Markdown report; in the mode 'renew' also writes it, and its table, into
    standards-notes/studies/."""

    def __init__(self, name, title):
        self.name = name
        self.lines = ["# " + title, ""]
        self.heads, self.body = [], []

    def say(self, text):
        self.lines += [text, ""]

    def table(self, heads, body):
        self.lines.append("| " + " | ".join(heads) + " |")
        self.lines.append("|" + "---|" * len(heads))
        self.lines += ["| " + " | ".join(cells) + " |" for cells in body]
        self.lines.append("")

    def close(self, heads, body):
        """heads and body are the row by row table."""
        print("\n".join(self.lines))
        if sys.argv[1:] != ["renew"]:
            return
        notes = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..",
                             "standards-notes", "studies")
        os.makedirs(notes, exist_ok=True)
        path = os.path.join(notes, self.name)
        with open(path + ".md", "w", encoding="utf-8") as file:
            file.write("<!-- SPDX-License-Identifier: GPL-3.0-or-later -->\n"
                       + "\n".join(self.lines).rstrip("\n") + "\n")
        with open(path + ".csv", "w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(heads)
            writer.writerows(body)
