"""Thresholds of real and invented step tests by numpy and scipy, independent of the project's code.

Writes thresholds.json. Real tests: Sylta et al. 2016 (see README.md); invented ones: readings made up to have a
flat part and a sharp rise. Crossings: bracketed by 20,001 grid points, then Brent's method. Breakpoints: grid of
4,001 points, then a bounded search (two segments), grid of 241 x 241 (three segments: an upper bound of the sum of
squares, not an optimum). Written as plain searches on purpose: no closed form is shared with the project.
"""

import csv
import json
import math
import pathlib

import numpy as np
from scipy.optimize import brentq, minimize_scalar

HERE = pathlib.Path(__file__).parent


def raw_crossing(x, y, level):
    for i in range(1, len(x)):
        if y[i - 1] < level <= y[i]:
            return float(x[i - 1] + (level - y[i - 1]) / (y[i] - y[i - 1]) * (x[i] - x[i - 1]))
    return None


def cubic(x, y):
    middle, width = x.mean(), x.max() - x.min()
    coefficients = np.polynomial.polynomial.polyfit((x - middle) / width, y, 3)
    polynomial = np.polynomial.Polynomial(coefficients)
    return lambda z: polynomial((np.asarray(z) - middle) / width)


def last_crossing(f, lo, hi, level):
    z = np.linspace(lo, hi, 20001)
    v = f(z) - level
    rising = np.nonzero((v[:-1] < 0) & (v[1:] >= 0))[0]
    if len(rising) == 0:
        return None
    i = rising[-1]
    return float(brentq(lambda q: float(f(q)) - level, z[i], z[i + 1], xtol=1e-11))


def below_chord(f, x0, y0, x1, y1):
    slope = (y1 - y0) / (x1 - x0)
    z = np.linspace(x0, x1, 20001)
    i = int(np.argmax(y0 + slope * (z - x0) - f(z)))
    if i in (0, len(z) - 1):
        return None
    found = minimize_scalar(
        lambda q: -(y0 + slope * (q - x0) - float(f(q))),
        bounds=(z[i - 1], z[i + 1]), method="bounded", options=dict(xatol=1e-10))
    return float(found.x)


def broken_line(x, y, *knots):
    """Sum of squares, and whether every segment is steeper than the one before."""
    design = np.column_stack([np.ones_like(x), x] + [np.maximum(0, x - k) for k in knots])
    c = np.linalg.lstsq(design, y, rcond=None)[0]
    rest = y - design @ c
    return float(rest @ rest), bool((c[2:] > 0).all())


def line_sse(x, y, *knots):
    return broken_line(x, y, *knots)[0]


def two_segments(x, y):
    grid = np.linspace(x[1], x[-2], 4001)
    sse = [line_sse(x, y, k) for k in grid]
    i = int(np.argmin(sse))
    lo, hi = grid[max(0, i - 2)], grid[min(len(grid) - 1, i + 2)]
    found = minimize_scalar(lambda k: line_sse(x, y, k), bounds=(lo, hi), method="bounded", options=dict(xatol=1e-12))
    return (float(found.x), float(found.fun)) if found.fun <= sse[i] else (float(grid[i]), float(sse[i]))


def three_segments(x, y):
    """At least two points in each segment, ends included, and each segment steeper than the one before."""
    grid = np.linspace(x[0], x[-1], 241)
    best = (math.inf, None, None)
    for i, k1 in enumerate(grid):
        if (x <= k1).sum() < 2:
            continue
        for k2 in grid[i + 1:]:
            if (x >= k2).sum() < 2 or ((x >= k1) & (x <= k2)).sum() < 2:
                continue
            sse, convex = broken_line(x, y, k1, k2)
            if convex:
                best = min(best, (sse, float(k1), float(k2)))
    return best


def exponential(x, y):
    """Least squares of a + b exp(g (x - x1)/(xn - x1)); returns g, its sum of squares and the curve."""
    z = (x - x[0]) / (x[-1] - x[0])

    def fit(g):
        design = np.column_stack([np.ones_like(z), np.exp(g * (z - 1))])
        c = np.linalg.lstsq(design, y, rcond=None)[0]
        rest = y - design @ c
        return float(rest @ rest), c

    grid = np.linspace(0.05, 30, 600)
    i = int(np.argmin([fit(g)[0] for g in grid]))
    lo, hi = grid[max(0, i - 1)], grid[min(len(grid) - 1, i + 1)]
    g = float(minimize_scalar(lambda v: fit(v)[0], bounds=(lo, hi), method="bounded", options=dict(xatol=1e-13)).x)
    sse, (a, b) = fit(g)
    return g, sse, float(b), lambda q: a + b * np.exp(g * ((np.asarray(q) - x[0]) / (x[-1] - x[0]) - 1))


def thresholds(x, y, heart_rate=None):
    first, last = float(x[0]), float(x[-1])
    f = cubic(x, y)
    cross = lambda level: last_crossing(f, first, last, level)
    out = {"intensity": x.tolist(), "lactate": y.tolist()}
    out["raw"] = {f"{level:.1f}": raw_crossing(x, y, level) for level in (2, 3, 3.5, 4)}
    out["cubic"] = {f"{level:.1f}": cross(level) for level in (2, 3, 3.5, 4)}
    out["cubicLowestPlus"] = {f"{d:.1f}": cross(y.min() + d) for d in (0.5, 1.0, 1.5)}
    out["cubicFirstPlus"] = {f"{d:.1f}": cross(y[0] + d) for d in (0.5, 1.0, 1.5)}
    low2 = min((y[i] + y[i + 1]) / 2 for i in range(len(y) - 1))
    out["cubicLowestTwoPlus"] = {f"{d:.1f}": cross(low2 + d) for d in (0.5, 1.0, 1.5)}
    out["dmaxMeasured"] = below_chord(f, first, y[0], last, y[-1])
    out["dmaxFitted"] = below_chord(f, first, float(f(first)), last, float(f(last)))
    rise = next((i for i in range(len(y) - 1) if round(y[i + 1] - y[i], 9) > 0.4), None)
    out["modifiedDmaxStart"] = None if rise is None else float(x[rise])
    out["modifiedDmax"] = (
        None if rise is None or rise >= len(x) - 2 else below_chord(f, float(x[rise]), y[rise], last, y[-1]))
    sustained = next((i for i in range(len(y) - 1) if round(min(y[i + 1:]) - y[i], 9) > 0.4), None)
    out["firstRise"] = None if sustained is None else float(x[sustained])
    g, sse, b, curve = exponential(x, y)
    out["exponentialSse"] = sse
    rising = b > 0 and 0.06 < g < 29.9
    out["exponential"] = {f"{level:.1f}": last_crossing(curve, first, last, level) for level in (2, 3, 3.5, 4)} if rising else None
    out["dmaxExponential"] = below_chord(curve, first, float(curve(first)), last, float(curve(last))) if rising else None
    bend, sse = two_segments(np.log(x), np.log(y))
    out["logLog"], out["logLogSse"] = math.exp(bend), sse
    z = np.linspace(first, last, 200001)
    lowest = float(z[int(np.argmin(f(z) / z))])
    out["minimumEquivalentRaw"] = float(x[int(np.argmin(y / x))])
    out["minimumEquivalent"], out["minimumEquivalentStep"] = lowest, (last - first) / 200000
    out["minimumEquivalentPlus"] = cross(float(f(lowest)) + 1.5)
    if len(x) >= 7:
        sse, k1, k2 = three_segments(x, y)
        out["threeSegmentSse"], out["threeSegmentKnots"] = sse, [k1, k2]
    if heart_rate is not None and not np.isnan(heart_rate).any() and out["cubic"]["4.0"] is not None:
        out["heartRate"] = heart_rate.tolist()
        out["heartRateAtCubic4"] = float(np.interp(out["cubic"]["4.0"], x, heart_rate))
    return out


def real_tests():
    tests = {}
    number = lambda text: float("nan") if text in ("NA", "") else float(text)
    with open(HERE / "sylta2016_cc0_stage_data.csv") as file:
        for row in csv.DictReader(file):
            stage = (number(row["watt"]), number(row["lactate"]), number(row["hr"]))
            tests.setdefault(f"{row['subject']}_{row['timepoint']}", []).append(stage)
    for name in sorted(tests):
        x, y, heart_rate = (np.array(column) for column in zip(*sorted(tests[name])))
        if len(x) >= 5:
            yield name, thresholds(x, y, heart_rate)


INVENTED = {
    "sharp": ([100, 140, 180, 220, 260, 300, 340], [0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9]),
    "gentle": ([8, 9, 10, 11, 12, 13, 14, 15], [1.3, 1.2, 1.3, 1.5, 1.9, 2.7, 4.2, 7.1]),
}

json.dump(
    {
        "provenance": {
            "source": f"numpy {np.__version__}, scipy; readings: Sylta et al. 2016 as in README.md, and invented",
            "made": "tests/references/step-tests/thresholds.py",
            "digits": "1e-6 of the intensity; logLog 1e-3; minimumEquivalent one grid step; threeSegmentSse an upper bound",
        },
        "real": dict(real_tests()),
        "invented": {name: thresholds(np.array(x, float), np.array(y, float)) for name, (x, y) in INVENTED.items()},
    },
    open(HERE / "thresholds.json", "w"), indent=1)
