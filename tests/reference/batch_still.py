#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A batch still written a second time, by other means: stage temperatures by a general root finder
on the whole set of stage compositions, the pot by a stiff integrator of d n_i / dW = -y_i. Prints
head and pot temperature and what is over, for the cross-checks in tests/unit/still/test_column.c.

Needs SciPy; skips, saying so, without it."""
import math
import sys

try:
    import numpy as np
    from scipy.integrate import solve_ivp
    from scipy.optimize import brentq, least_squares
except ImportError:
    print("batch_still: skipped: no SciPy")
    sys.exit(0)

from oil_reference import critical, lee_kesler

BOILING_K = np.array([365.0, 398.0, 431.0, 470.0, 512.0, 561.0, 618.0])
VOLUME = np.array([0.07, 0.13, 0.18, 0.22, 0.19, 0.13, 0.08])
WATSON_K = 11.7
CASES = [(1, 0.0, 101.325), (2, 1.0, 101.325), (4, 2.5, 101.325), (4, 2.5, 21.7),
         (3, math.inf, 101.325)]
PLACES = [0.1, 0.35, 0.6, 0.85]


class Oil:
    def __init__(self, pressure_kpa):
        self.sg = np.cbrt(1.8 * BOILING_K) / WATSON_K
        self.mass = (42.965 * np.exp(2.097e-4 * BOILING_K - 7.78712 * self.sg
                                     + 2.08476e-3 * BOILING_K * self.sg)
                     * BOILING_K ** 1.26007 * self.sg ** 4.98308)
        self.molar_volume = self.mass / self.sg
        self.bar = pressure_kpa / 100.0
        pairs = [critical(t, s) for t, s in zip(BOILING_K, self.sg)]
        self.tc = np.array([p[0] for p in pairs])
        self.pc = np.array([p[1] for p in pairs])
        self.omega = np.array([(math.log(1.01325 / pc) - lee_kesler(t / tc)[0])
                               / lee_kesler(t / tc)[1]
                               for t, tc, pc in zip(BOILING_K, self.tc, self.pc)])

    def k(self, temp_k):
        out = []
        for tc, pc, omega in zip(self.tc, self.pc, self.omega):
            f0, f1 = lee_kesler(min(temp_k / tc, 1.3))
            out.append(pc * math.exp(f0 + omega * f1) / self.bar)
        return np.array(out)

    def bubble(self, x):
        return brentq(lambda t: math.log(float(np.dot(self.k(t), x))), 150.0, 800.0, xtol=1e-11)


def column(oil, x, stages, reflux, guess):
    """Distillate and (pot, head) temperatures over a pot x: every stage's liquid is the unknown, its
    temperature the bubble point, and total and component balances are what must vanish."""
    pot_k = oil.bubble(x)
    y1 = oil.k(pot_k) * x
    y1 /= y1.sum()
    if stages == 1:
        return y1, pot_k, pot_k, None
    ratio = 1.0 if math.isinf(reflux) else reflux / (reflux + 1.0)
    n = len(x)

    def vapours(logs):
        liquid = np.exp(logs.reshape(stages - 1, n))
        liquid = liquid / liquid.sum(axis=1, keepdims=True)
        temps = [oil.bubble(row) for row in liquid]
        return liquid, temps, [oil.k(t) * row for t, row in zip(temps, liquid)]

    def balance(logs):
        liquid, _, vapour = vapours(logs)
        distillate = vapour[-1]
        below = [y1] + vapour[:-1]
        wrong = [np.log(b / (ratio * xs + (1.0 - ratio) * distillate))
                 for b, xs in zip(below, liquid)]
        norm = np.log(np.exp(logs.reshape(stages - 1, n)).sum(axis=1))
        return np.concatenate([np.concatenate(wrong), norm])

    if guess is None:
        rows, liquid = [], y1
        for _ in range(stages - 1):
            rows.append(np.log(liquid))
            step = oil.k(oil.bubble(liquid)) * liquid
            liquid = step / step.sum()
        guess = np.concatenate(rows)
    found = least_squares(balance, guess, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    if not np.max(np.abs(balance(found.x))) < 1e-8:
        raise ArithmeticError("the column was not solved")
    _, temps, vapour = vapours(found.x)
    return vapour[-1], pot_k, temps[-1], found.x


def run(stages, reflux, pressure_kpa):
    oil = Oil(pressure_kpa)
    last = [None]

    def shares(moles):
        x = np.maximum(moles / moles.sum(), 1e-20)  # what has all gone over
        return x / x.sum()

    def solved(x):
        try:
            return column(oil, x, stages, reflux, last[0])
        except (ArithmeticError, ValueError):
            return column(oil, x, stages, reflux, None)

    def fall(_, moles):
        y, _, _, last[0] = solved(shares(moles))
        return -y / float(np.dot(y, oil.molar_volume))  # for each unit of volume drawn

    start = VOLUME / oil.molar_volume
    answer = solve_ivp(fall, (0.0, PLACES[-1]), start, method="LSODA", t_eval=PLACES, rtol=1e-8,
                       atol=1e-13)
    for place, moles in zip(PLACES, answer.y.T):
        _, pot_k, head_k, _ = solved(shares(moles))
        over = VOLUME - moles * oil.molar_volume
        print("{%g, %s, %g, %.2f, %.3f, %.3f, %.6f, %.6f}," % (
            stages, "INFINITY" if math.isinf(reflux) else "%g" % reflux, pressure_kpa, place,
            head_k - 273.15, pot_k - 273.15, over[1], over[4]))


if __name__ == "__main__":
    for case in CASES:
        run(*case)
