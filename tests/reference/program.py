#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the program's formulae, and its answers for whole samples, against oil_reference.py.

Arguments: the program, then sample files. Prints 'ok ...' and 'not ok ...: why' lines."""
import json
import os
import subprocess
import sys

import oil_reference as oil

POINTS = {0: "ibp_c", 10: "t10_c", 30: "t30_c", 50: "t50_c", 70: "t70_c", 90: "t90_c",
          95: "t95_c"}
TBP_POINTS = {0: "t0_c", 10: "t10_c", 30: "t30_c", 50: "t50_c", 70: "t70_c", 90: "t90_c",
              95: "t95_c"}


def check(name, expected, got, tolerance):
    if got is not None and abs(got - expected) <= tolerance:
        print("ok %s" % name)
    else:
        print("not ok %s: %s, reference %.7g +- %g" % (name, got, expected, tolerance))


def check_sample(program, path):
    name = os.path.basename(path)
    run = subprocess.run([program, "judge", "--json", path], capture_output=True, text=True,
                         check=False)
    if run.returncode != 0:
        print("not ok %s: status %d: %s" % (name, run.returncode, run.stderr.strip()))
        return
    answer = json.loads(run.stdout)
    d86 = {percent: answer["points"][key] for percent, key in POINTS.items()}
    if None in d86.values():
        print("not ok %s: the readings do not reach from IBP to 95 %%" % name)
        return

    for percent, key in TBP_POINTS.items():
        check("%s tbp %s" % (name, key), oil.tbp_from_d86(percent, d86[percent]),
              answer["tbp_points"][key], 0.06)
    properties = answer["properties"]
    # specific gravity 60/60 degF: water weighs 999.01 kg/m3 there, and 15 degC is 0.56 degC less
    sg = properties["density15_kgm3"]["value"] / 999.0
    check(name + " flash, vapour space", oil.flash_from_d86(d86, sg),
          properties["flash_vapour_c"]["value"], 0.3)
    check(name + " flash, T10", oil.flash_t10_api_c(d86[10]),
          properties["flash_t10_c"]["value"], 0.1)

    # every reading through pressure and thermometer again
    conditions = {}
    with open(path, encoding="utf-8") as file:
        for line in file:
            if not line.strip():
                break
            key, value = line.strip().split(",", 1)
            conditions[key] = value
    pressure = oil.altitude_kpa(float(conditions["altitude"].split()[0]))
    check(name + " pressure", pressure, answer["pressure_kpa"], 0.06)
    ice = float(conditions["ice"].split()[0])
    steam = float(conditions["steam"].split()[0])
    for reading in answer["readings"]:
        if reading["recovered_pct"] in (10, 50, 90):
            true = (reading["observed_c"] - ice) / (steam - ice) * oil.water_boils_c(pressure)
            true = oil.sydney_young(true, pressure)
            if conditions["thermometer"] in ("glass partial", "probe"):
                true -= oil.thermometer_delta(true)
            check("%s corrected %g %%" % (name, reading["recovered_pct"]), true,
                  reading["corrected_c"], 0.06)


def formulae():
    """(id, inputs, the reference's answer)"""
    for percent, d86 in ((0, 163.7), (10, 181.3), (30, 203.9), (50, 227.1), (70, 251.3),
                         (90, 287.9), (95, 301.7)):
        tbp = oil.tbp_from_d86(percent, d86)
        yield "tbp.riazi_daubert", {"pct": percent, "d86_c": d86}, tbp
        yield "tbp.riazi_daubert_inverse", {"pct": percent, "tbp_c": tbp}, d86
    for tb_k, sg in ((412.7, 0.743), (487.3, 0.781), (573.9, 0.827)):
        part = oil.Fraction(tb_k, sg, 1)
        yield "molar_mass.api", {"boiling_k": tb_k, "sg": sg}, part.mass
        yield "critical.temperature", {"boiling_k": tb_k, "sg": sg}, part.tc
        yield "critical.pressure", {"boiling_k": tb_k, "sg": sg}, part.pc
        constants = {"critical_k": part.tc, "critical_bar": part.pc}
        yield "omega.from_boiling", {"boiling_k": tb_k, **constants}, part.omega
        yield ("vapour_pressure.lee_kesler",
               {"temp_k": 373.7, "omega": part.omega, **constants}, part.vapour_bar(373.7))
        yield ("lower_limit.jones", {"molar_mass_gmol": part.mass},
               100 * part.lower_limit(25))
    for t10 in (127.3, 181.3, 213.1):
        yield "flash.t10_api", {"t10_c": t10}, oil.flash_t10_api_c(t10)
    for kpa in (70.1, 94.32, 98.6):
        yield "water.boils_c", {"pressure_kpa": kpa}, oil.water_boils_c(kpa)
        yield ("pressure.sydney_young", {"t_c": 227.3, "pressure_kpa": kpa},
               oil.sydney_young(227.3, kpa))
    for height in (127.3, 612, 1893.7):
        yield "altitude.pressure", {"altitude_m": height}, oil.altitude_kpa(height)
    for true_c in (87.3, 237.7, 341.9):
        yield "thermometer.delta", {"t_c": true_c}, oil.thermometer_delta(true_c)


def check_formulae(program):
    for name, inputs, expected in formulae():
        words = ["%s=%.12g" % pair for pair in inputs.items()]
        run = subprocess.run([program, "formula", "eval", name] + words, capture_output=True,
                             text=True, check=False)
        label = " ".join([name] + ["%s=%g" % pair for pair in inputs.items()])
        try:
            got = float(run.stdout.split()[0])
        except (IndexError, ValueError):
            print("not ok %s: %s" % (label, run.stderr.strip()))
            continue
        # the program prints seven digits
        check(label, expected, got, 1e-6 * max(abs(expected), 1e-3))


def main():
    check_formulae(sys.argv[1])
    for path in sys.argv[2:]:
        check_sample(sys.argv[1], path)


if __name__ == "__main__":
    main()
