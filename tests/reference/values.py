#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Prints the values that check files quote as 'cross', from oil_reference.py."""
import oil_reference as oil


def main():
    print("# Riazi-Daubert, D86 -> TBP and back [degC]")
    for percent, d86 in ((0, 163.7), (10, 181.3), (30, 203.9), (50, 227.1), (70, 251.3),
                         (90, 287.9), (95, 301.7)):
        tbp = oil.tbp_from_d86(percent, d86)
        print("tbp.riazi_daubert pct=%g d86_c=%g -> %.3f; back %.3f" % (
            percent, d86, tbp, oil.d86_from_tbp(percent, tbp)))

    print("# a fraction from boiling point and specific gravity")
    for tb_k, sg in ((412.7, 0.743), (487.3, 0.781), (573.9, 0.827)):
        part = oil.Fraction(tb_k, sg, 1)
        print("boiling_k=%g sg=%g -> M %.3f, Tc %.3f K, Pc %.4f bar, omega %.5f" % (
            tb_k, sg, part.mass, part.tc, part.pc, part.omega))
        print("    flash.vapour_space_pure -> %.3f degC" % oil.flash_vapour_space_c([part]))
        for t_k in (311.1, 373.7):
            print("    temp_k=%g -> vapour %.6g bar, lower limit %.4f vol %%" % (
                t_k, part.vapour_bar(t_k), 100 * part.lower_limit(t_k - oil.KELVIN)))

    print("# flash, vapour-space criterion, 40 slices [degC]")
    for name, d86, sg in (
            ("kerosene", {0: 163.7, 10: 181.3, 30: 193.1, 50: 204.7, 70: 218.9, 90: 241.3,
                          95: 249.9}, 0.7937),
            ("diesel", {0: 171.9, 10: 213.1, 30: 243.7, 50: 268.3, 70: 291.1, 90: 323.3,
                        95: 338.7}, 0.8293),
            ("wide", {0: 78.3, 10: 127.3, 30: 181.7, 50: 236.9, 70: 287.7, 90: 336.1,
                      95: 352.3}, 0.7891)):
        print("%s: %.3f; from T10 %.3f; twice the slices %.3f" % (
            name, oil.flash_from_d86(d86, sg), oil.flash_t10_api_c(d86[10]),
            oil.flash_from_d86(d86, sg, 80)))

    print("# water and air")
    for kpa in (70.1, 94.32, 98.6, 101.325):
        print("water.boils_c pressure_kpa=%g -> %.4f" % (kpa, oil.water_boils_c(kpa)))
    for kpa, kelvin in ((100, 372.755919), (1000, 453.035632), (10000, 584.149488)):
        print("    verification of the release: %g kPa -> %.6f K (%.6f)" % (
            kpa, oil.water_boils_c(kpa) + oil.KELVIN, kelvin))
    for height in (127.3, 612, 1893.7):
        print("altitude.pressure altitude_m=%g -> %.4f" % (height, oil.altitude_kpa(height)))
    for true_c in (87.3, 237.7, 341.9):
        print("thermometer.delta t_c=%g -> %.4f" % (true_c, oil.thermometer_delta(true_c)))


if __name__ == "__main__":
    main()
