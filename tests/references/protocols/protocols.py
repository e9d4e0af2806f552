"""Answers of the methods that need more than the stages of a step test, by numpy and scipy. Writes protocols.json.

All tests are invented. The individual anaerobic threshold uses the closed forms: Lambert's function for the
exponential, the roots of a cubic for the polynomial.
"""

import json
import pathlib

import numpy as np
import scipy
from scipy.optimize import brentq, least_squares
from scipy.special import lambertw
from scipy.stats import linregress, norm

HERE = pathlib.Path(__file__).parent


def exponential(x, y):
    """a + b e^(c (x - x0)) by Levenberg-Marquardt from a grid of starts; returns a, b, c, x0."""
    x, y = np.asarray(x, float), np.asarray(y, float)
    width = x[-1] - x[0]
    z = (x - x[0]) / width
    best = None
    for g in (1, 3, 5, 8, 12, 18):
        fit = least_squares(lambda p: p[0] + p[1] * np.exp(p[2] * z) - y, [y.min(), 0.01, g], x_scale=[1, 0.01, 1],
                            xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=20000)
        if best is None or fit.cost < best.cost:
            best = fit
    a, b, g = best.x
    return a, b, g / width, x[0]


def time_of_return(minute, lactate, end):
    peak = int(np.argmax(lactate))
    for i in range(peak + 1, len(lactate)):
        if lactate[i] <= end:
            return float(np.interp(-end, [-lactate[i - 1], -lactate[i]], [minute[i - 1], minute[i]]))
    raise ValueError("no return")


def stegmann(x, y, stage, recovery):
    minutes = stage * np.arange(1, len(x) + 1)
    end, level = minutes[-1], y[-1]
    back = end + time_of_return(*recovery, level)
    a, b, c, t0 = exponential(minutes, y)
    k = (level - a) / (b * np.exp(c * (back - t0) + 1))
    t = back + (1 + lambertw(-k, -1).real) / c
    p = np.polynomial.Polynomial.fit(minutes, y, 3).convert()
    touching = p + p.deriv() * np.polynomial.Polynomial([back, -1]) - level
    roots = [r.real for r in touching.roots() if abs(r.imag) < 1e-9 and minutes[0] < r.real < end and p.deriv(2)(r.real) > 0]
    at = lambda m: float(np.interp(m, minutes, x))
    return {"x": list(x), "y": list(y), "stageMinutes": stage, "minute": recovery[0], "recovery": recovery[1],
            "back": back - end, "exponential": {"minute": t, "intensity": at(t)},
            "cubic": {"minute": roots[0], "intensity": at(roots[0])} if len(roots) == 1 else None}


def fixed_slope(x, y, slope):
    a, b, c, x0 = exponential(x, y)
    p = np.polynomial.Polynomial.fit(x, y, 3).convert()
    steep = [r.real for r in (p.deriv() - slope).roots() if x[0] < r.real < x[-1] and p.deriv(2)(r.real) > 0]
    return {"x": list(x), "y": list(y), "slope": slope, "exponential": x0 + np.log(slope / (b * c)) / c, "cubic": steep[0]}


def bisector(x, y):
    """The two end tangents as rays, their halving direction by angles, and where that ray meets the curve."""
    a, b, c, x0 = exponential(x, y)
    f = lambda v: a + b * np.exp(c * (v - x0))
    d = lambda v: b * c * np.exp(c * (v - x0))
    lo, hi = x[0], x[-1]
    corner = (f(lo) - f(hi) + d(hi) * hi - d(lo) * lo) / (d(hi) - d(lo))
    height = f(lo) + d(lo) * (corner - lo)
    left = np.arctan2(-d(lo), -1) % (2 * np.pi)
    right = np.arctan2(d(hi), 1)
    angle = (left + right) / 2
    s = brentq(lambda s: height + s * np.sin(angle) - f(corner + s * np.cos(angle)), 0, 20)
    return {"x": list(x), "y": list(y), "answer": corner + s * np.cos(angle)}


def lactate_minimum(x, y, before):
    p = np.polyfit(x, y, 2)
    at = -p[1] / (2 * p[0])
    return {"x": list(x), "y": list(y), "before": before, "answer": at, "lactate": np.polyval(p, at)}


def reverse(x, y):
    """x falling; a parabola through the highest reading and two on either side, where there are two."""
    top = int(np.argmax(y))
    window = slice(max(0, top - 2), top + 3)
    p = np.polyfit(x[window], y[window], 2)
    at = -p[1] / (2 * p[0])
    return {"x": list(x), "y": list(y), "answer": at, "lactate": np.polyval(p, at)}


def bout(minute, lactate, sd, share, rounding):
    of = lambda v: np.sqrt(sd**2 + (share * v) ** 2 + rounding**2 / 12)
    minute, lactate = np.array(minute), np.array(lactate)
    first, last = lactate[minute == 10][0], lactate[minute == 30][0]
    rise = last - first
    inside = (minute >= 10) & (minute <= 30)
    return {"rise": rise, "regressionRise": 20 * linregress(minute[inside], lactate[inside]).slope,
            "steadyChance": norm.cdf((1 - rise) / np.hypot(of(first), of(last))), "lactate": lactate[inside].mean()}


cyclist = ([100, 140, 180, 220, 260, 300, 340], [0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9])
runner = ([8, 9, 10, 11, 12, 13, 14, 15], [1.3, 1.2, 1.3, 1.5, 1.9, 2.7, 4.2, 7.1])
uneven = ([120, 150, 190, 230, 260, 290], [1.0, 1.1, 1.3, 2.0, 3.4, 6.2])
bouts = {"240": ([5, 10, 15, 20, 25, 30], [2.2, 2.5, 2.5, 2.6, 2.5, 2.7]),
         "260": ([5, 10, 15, 20, 25, 30], [3.1, 3.6, 3.9, 4.1, 4.1, 4.3]),
         "270": ([5, 10, 15, 20, 25, 30], [3.4, 4.3, 4.9, 5.4, 5.9, 6.3])}

out = {
    "provenance": {"source": f"numpy {np.__version__}, scipy {scipy.__version__}", "made": "tests/references/protocols/protocols.py"},
    "individualAnaerobic": [
        stegmann(*cyclist, 3, ([1, 3, 5, 7, 10, 12], [9.2, 9.4, 8.9, 8.2, 7.0, 6.1])),
        stegmann(*runner, 4, ([1, 3, 5, 8], [7.9, 8.0, 7.4, 5.5])),
        stegmann(*uneven, 5, ([1, 3, 5, 7, 10, 15], [6.6, 6.5, 6.0, 5.2, 4.4, 3.0])),
    ],
    "fixedSlope": [fixed_slope(*runner, s) for s in (1.26, 1.0)],
    "bisector": [bisector(*runner)],
    "lactateMinimum": [
        lactate_minimum([180, 200, 220, 240, 260, 280, 300], [6.1, 5.0, 4.2, 3.9, 4.3, 5.6, 7.9], 9.0),
        lactate_minimum([11, 12, 13, 14, 15, 16], [5.2, 4.1, 3.6, 3.5, 4.4, 6.3], 8.1),
    ],
    "reverse": [
        reverse([320, 310, 300, 290, 280, 270, 260], [4.9, 5.8, 6.3, 6.4, 6.0, 5.1, 4.2]),
        reverse([16, 15.5, 15, 14.5, 14], [4.1, 5.0, 5.2, 4.9, 4.0]),
    ],
    "bouts": {key: {"minute": m, "samples": l, **bout(m, l, 0.15, 0.04, 0.1)} for key, (m, l) in bouts.items()},
}


def plain(value):
    if isinstance(value, dict):
        return {key: plain(v) for key, v in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(v) for v in value]
    return float(value) if isinstance(value, (np.floating, float)) else value


(HERE / "protocols.json").write_text(json.dumps(plain(out), indent=1) + "\n")
