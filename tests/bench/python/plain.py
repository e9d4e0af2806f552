"""One draw after the other with numpy and scipy, as a practitioner would write it: what our speed is compared with.

Reads and writes what batched.py does. Levels by numpy.roots, the exponential by curve_fit, broken lines by a grid of
breakpoints refined with Nelder-Mead.
"""
import json
import sys
import time
import warnings

import numpy as np
from scipy.optimize import brentq, curve_fit, minimize, minimize_scalar

from draws import readings

warnings.simplefilter("ignore")
NAN = float("nan")


def last_crossing(poly, level, low, high):
    roots = np.roots(poly - np.poly1d([level]))
    real = roots[np.abs(roots.imag) < 1e-9].real
    up = [r for r in real if low <= r <= high and np.polyder(poly)(r) > 0]
    return max(up) if up else NAN


def farthest_below(f, low, high, left, right):
    chord = lambda v: left + (right - left) * (v - low) / (high - low)
    found = minimize_scalar(lambda v: f(v) - chord(v), bounds=(low, high), method="bounded")
    return found.x if found.fun < 0 else NAN


def broken_line(x, y, breaks):
    def sse(k):
        k = np.sort(k)
        design = np.column_stack([np.ones_like(x), x] + [np.maximum(0, x - b) for b in k])
        beta, *_ = np.linalg.lstsq(design, y, rcond=None)
        penalty = 1e3 if np.any(beta[2:] <= 0) or k[0] <= x[0] or k[-1] >= x[-1] else 0
        return np.sum((y - design @ beta) ** 2) + penalty

    grid = np.linspace(x[0], x[-1], 14)[1:-1]
    starts = [[a] for a in grid] if breaks == 1 else [[a, b] for a in grid for b in grid if b > a]
    best = min(starts, key=sse)
    return np.sort(minimize(sse, best, method="Nelder-Mead").x)


def answers(x, y):
    low, high = x[0], x[-1]
    poly = np.poly1d(np.polyfit(x, y, 3))
    out = {f"fixed-{level:.1f}": last_crossing(poly, level, low, high) for level in (2.0, 3.0, 3.5, 4.0)}
    baseline = min((a + b) / 2 for a, b in zip(y, y[1:]))
    for rise in (0.5, 1.0, 1.5):
        out[f"baseline-plus-{rise:.1f}"] = last_crossing(poly, baseline + rise, low, high)
    out["log-log"] = float(np.exp(broken_line(np.log(x), np.log(y), 1)[0]))
    least = minimize_scalar(lambda v: poly(v) / v, bounds=(low, high), method="bounded").x
    out["minimum-equivalent"] = least
    out["minimum-equivalent-plus-1.5"] = last_crossing(poly, poly(least) + 1.5, low, high)
    out["dmax"] = farthest_below(poly, low, high, poly(low), poly(high))
    start = next((i for i in range(len(y) - 1) if y[i + 1] - y[i] > 0.4), None)
    out["modified-dmax"] = NAN if start is None else farthest_below(poly, x[start], high, y[start], y[-1])
    try:
        curve = lambda v, a, b, c: a + b * np.exp(c * (v - high))
        (a, b, c), _ = curve_fit(curve, x, y, p0=[y[0], y[-1] - y[0], 0.02])
        f = lambda v: curve(v, a, b, c)
        slope = (f(high) - f(low)) / (high - low)
        out["dmax-exponential"] = brentq(lambda v: b * c * np.exp(c * (v - high)) - slope, low, high)
    except (RuntimeError, ValueError):
        out["dmax-exponential"] = NAN
    out["turn-point-1"], out["turn-point-2"] = broken_line(x, y, 2)
    later = [min(y[i + 1 :]) for i in range(len(y) - 1)]
    stage = next((i for i in range(len(y) - 1) if later[i] - y[i] > 0.4), None)
    out["first-rise"] = NAN if not stage else x[stage]
    return out


def main():
    given = json.load(sys.stdin)
    x, y = np.array(given["x"], float), np.array(given["y"], float)
    rng = np.random.default_rng(1)
    start = time.perf_counter()
    found = [answers(x, row) for row in readings(rng, x, y, given["error"], given["draws"])]
    taken = time.perf_counter() - start
    told = {}
    for name in found[0]:
        values = np.array([one[name] for one in found], float)
        good = values[np.isfinite(values)]
        told[name] = [float(good.mean()), float(good.std(ddof=1)), float(1 - len(good) / len(values))]
    json.dump({"microseconds": 1e6 * taken / given["draws"], "answers": told}, sys.stdout)


main()
