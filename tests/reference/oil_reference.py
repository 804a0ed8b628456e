# SPDX-License-Identifier: GPL-3.0-or-later
"""Petroleum fractions, written a second time and independently of src/: D86 to true boiling
points, slices, their constants and vapour pressures, and the flash by the vapour-space criterion.
Standard library only. It stands behind the 'cross' values of the check files."""
import math
from statistics import NormalDist

_probit = NormalDist().inv_cdf
_normal = NormalDist().cdf

# Riazi-Daubert, TBP = a D86^b in K (API Technical Data Book 1987, coefficients seen in print)
RIAZI_DAUBERT = {0: (0.9177, 1.0019), 10: (0.5564, 1.0900), 30: (0.7617, 1.0425),
                 50: (0.9013, 1.0176), 70: (0.8821, 1.0226), 90: (0.9552, 1.0110),
                 95: (0.8177, 1.0355)}
IBP_STANDS_AT = 2.3  # vol %, measured on jets of known composition
FRONT_SLOPE_MAX = 45.0  # degC per probit unit below the first knot
BACK_SLOPE_SHARE = 0.7
KELVIN = 273.15


def tbp_from_d86(percent, d86_c):
    a, b = RIAZI_DAUBERT[percent]
    return a * (d86_c + KELVIN) ** b - KELVIN


def d86_from_tbp(percent, tbp_c):
    a, b = RIAZI_DAUBERT[percent]
    return ((tbp_c + KELVIN) / a) ** (1 / b) - KELVIN


class BoilingCurve:
    """Monotone cubic (Steffen 1990) in probit(volume), straight beyond its knots."""

    def __init__(self, points, true_boiling=False):
        """points: {percent: temp_c} of true boiling temperatures, 0 for the IBP."""
        start = 0.5 if true_boiling else IBP_STANDS_AT
        pairs = sorted((_probit((p if p > 0 else start) / 100), t) for p, t in points.items())
        self.x = [p[0] for p in pairs]
        self.y = [p[1] for p in pairs]
        for i in range(1, len(self.y)):
            self.y[i] = max(self.y[i], self.y[i - 1] + 0.1)
        n = len(self.x)
        h = [self.x[i + 1] - self.x[i] for i in range(n - 1)]
        s = [(self.y[i + 1] - self.y[i]) / h[i] for i in range(n - 1)]
        slope = [0.0] * n
        for i in range(1, n - 1):
            p = (s[i - 1] * h[i] + s[i] * h[i - 1]) / (h[i - 1] + h[i])
            slope[i] = 2 * min(abs(s[i - 1]), abs(s[i]), 0.5 * abs(p))
        for end, near, far in ((0, 0, 1), (n - 1, n - 2, n - 3)):
            hn, hf, sn = h[near], h[far], s[near]
            p = sn * (1 + hn / (hn + hf)) - s[far] * hn / (hn + hf)
            slope[end] = 0.0 if p <= 0 else min(p, 2 * abs(sn))
        self.h, self.s, self.slope = h, s, slope
        self.front = s[0] if true_boiling else min(s[0], FRONT_SLOPE_MAX)
        self.back = BACK_SLOPE_SHARE * s[-1]

    def at(self, percent):
        x = _probit(percent / 100)
        if x <= self.x[0]:
            return self.y[0] + self.front * (x - self.x[0])
        if x >= self.x[-1]:
            return self.y[-1] + self.back * (x - self.x[-1])
        i = max(k for k in range(len(self.h)) if self.x[k] <= x)
        d, h = x - self.x[i], self.h[i]
        a = (self.slope[i] + self.slope[i + 1] - 2 * self.s[i]) / h ** 2
        b = (3 * self.s[i] - 2 * self.slope[i] - self.slope[i + 1]) / h
        return self.y[i] + d * (self.slope[i] + d * (b + d * a))


def molar_mass(tb_k, sg):
    """API 2B2.1 (1987), K."""
    return (42.965 * math.exp(2.097e-4 * tb_k - 7.78712 * sg + 2.08476e-3 * tb_k * sg)
            * tb_k ** 1.26007 * sg ** 4.98308)


def critical(tb_k, sg):
    """Kesler-Lee: K, bar."""
    tc = 189.8 + 450.6 * sg + (0.4244 + 0.1174 * sg) * tb_k + (0.1441 - 1.0069 * sg) * 1e5 / tb_k
    ln_pc = (5.689 - 0.0566 / sg - (0.43639 + 4.1216 / sg + 0.21343 / sg ** 2) * 1e-3 * tb_k
             + (0.47579 + 1.182 / sg + 0.15302 / sg ** 2) * 1e-6 * tb_k ** 2
             - (2.4505 + 9.9099 / sg ** 2) * 1e-10 * tb_k ** 3)
    return tc, math.exp(ln_pc)


def lee_kesler(tr):
    f0 = 5.92714 - 6.09648 / tr - 1.28862 * math.log(tr) + 0.169347 * tr ** 6
    f1 = 15.2518 - 15.6875 / tr - 13.4721 * math.log(tr) + 0.43577 * tr ** 6
    return f0, f1


class Fraction:
    def __init__(self, tb_k, sg, volume):
        self.tb, self.sg, self.volume = tb_k, sg, volume
        self.mass = molar_mass(tb_k, sg)
        self.tc, self.pc = critical(tb_k, sg)
        f0, f1 = lee_kesler(tb_k / self.tc)
        self.omega = (math.log(1.01325 / self.pc) - f0) / f1

    def vapour_bar(self, t_k):
        f0, f1 = lee_kesler(t_k / self.tc)
        return self.pc * math.exp(f0 + self.omega * f1)

    def lower_limit(self, t_c):
        """Share of air, 0..1: 0.55 Cst of CnH2n (Jones), falling with temperature."""
        n = self.mass / 14.027
        stoichiometric = 100 / (1 + 4.773 * (n + 2 * n / 4))
        return 0.55 * stoichiometric / 100 * (1 - 0.000721 * (t_c - 25))


def slices(curve, sg, n=40):
    """n fractions, finer at both ends; one Watson K, chosen so that the whole weighs sg. Half of
    the edges stand evenly in volume, half evenly in probit between 0.2 and 99.8 %."""
    half = n // 2
    z = _probit(0.002)
    edges = sorted({round(i / half, 12) for i in range(half + 1)}
                   | {round(_normal(z - 2 * z * i / half), 12) for i in range(half + 1)})
    parts = []
    for low, high in zip(edges, edges[1:]):
        middle = 0.5 * (low + high)
        parts.append((curve.at(100 * middle) + KELVIN, high - low))
    watson = sum(v * (1.8 * tb) ** (1 / 3) for tb, v in parts) / sg
    return [Fraction(tb, (1.8 * tb) ** (1 / 3) / watson, v) for tb, v in parts]


def flash_vapour_space_c(parts, pressure_kpa=101.325):
    moles = [p.volume * p.sg / p.mass for p in parts]
    total = sum(moles)

    def excess(t_c):
        return sum(m / total * p.vapour_bar(t_c + KELVIN) * 100 / pressure_kpa
                   / p.lower_limit(t_c) for m, p in zip(moles, parts)) - 1

    low, high = -120.0, 300.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if excess(middle) > 0:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


def flash_t10_api_c(t10_c):
    t = t10_c + KELVIN
    return 1 / (-0.024209 + 2.84947 / t + 3.4254e-3 * math.log(t)) - KELVIN


def flash_from_d86(d86, sg, n=40):
    """d86: {0: IBP, 10: ..., 95: ...}, degC."""
    curve = BoilingCurve({p: tbp_from_d86(p, t) for p, t in d86.items()})
    return flash_vapour_space_c(slices(curve, sg, n))


def viscosity_abbott(sg, mean_c):
    """mm2/s at 37.8 degC (100 degF)."""
    a = 141.5 / sg - 131.5
    k = (1.8 * (mean_c + KELVIN)) ** (1 / 3) / sg
    log_v = (4.39371 - 1.94733 * k + 0.12769 * k * k + 3.2629e-4 * a * a - 1.18246e-2 * k * a
             + (0.171617 * k * k + 10.9943 * a + 9.50663e-2 * a * a - 0.860218 * k * a)
             / (a + 50.3642 - 4.78231 * k))
    return 10 ** log_v


def water_boils_c(pressure_kpa):
    """IAPWS-IF97 region 4, backward equation (coefficients from memory; the three verification
    values of the release are reproduced)."""
    n = (0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5,
         -0.32325550322333e7, 0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6,
         -0.23855557567849, 0.65017534844798e3)
    b = (pressure_kpa / 1000) ** 0.25
    e = b * b + n[2] * b + n[5]
    f = n[0] * b * b + n[3] * b + n[6]
    g = n[1] * b * b + n[4] * b + n[7]
    d = 2 * g / (-f - math.sqrt(f * f - 4 * e * g))
    return (n[9] + d - math.sqrt((n[9] + d) ** 2 - 4 * (n[8] + n[9] * d))) / 2 - KELVIN


def altitude_kpa(height_m):
    return 101.325 * (1 - 0.0065 * height_m / 288.15) ** 5.255876


def thermometer_delta(true_c):
    return 1.24e-4 * (true_c - 20) ** 2


def sydney_young(observed_c, pressure_kpa):
    return observed_c + 0.0009 * (101.3 - pressure_kpa) * (273 + observed_c)
