"""Spread of three thresholds of test 10_pre under independent normal errors of its eight lactates: a million draws
by numpy, and the first-order standard deviation. Writes monte_carlo.json."""

import json
import math
import pathlib

import numpy as np

HERE = pathlib.Path(__file__).parent
DRAWS = 1_000_000
x = np.array([125, 175, 225, 250, 275, 300, 325, 350.0])
y = np.array([0.93, 0.87, 0.86, 0.92, 1.2, 1.69, 2.6, 4.69])
u = (x - 237.5) / 112.5
to_coefficients = np.linalg.pinv(np.vander(u, 4, increasing=True))
random = np.random.default_rng(42)


def cubic_crossing(c, level):
    """Newton from 343 W, steps of at most a tenth of the half range; NaN unless it ends inside the range."""
    z = np.full(len(c), (343 - 237.5) / 112.5)
    value = lambda z: ((c[:, 3] * z + c[:, 2]) * z + c[:, 1]) * z + c[:, 0]
    for _ in range(30):
        slope = (3 * c[:, 3] * z + 2 * c[:, 2]) * z + c[:, 1]
        z = z - np.clip((value(z) - level) / np.where(abs(slope) < 1e-9, 1e-9, slope), -0.1, 0.1)
    w = 237.5 + 112.5 * z
    return np.where((w > 250) & (w <= 350) & (abs(value(z) - level) < 1e-6), w, np.nan)


def raw_crossing(lactate, level):
    """First upward crossing between neighbours; here the last one too but for a handful of draws."""
    found = np.full(len(lactate), np.nan)
    for k in range(1, 8):
        before, after = lactate[:, k - 1], lactate[:, k]
        here = np.isnan(found) & (before < level) & (after >= level)
        share = (level - before[here]) / (after[here] - before[here])
        found[here] = x[k - 1] + share * (x[k] - x[k - 1])
    return found


def summary(values):
    answered = values[~np.isnan(values)]
    low, high = np.quantile(answered, [0.025, 0.975])
    return {"mean": answered.mean(), "sd": answered.std(), "low": low, "high": high,
            "withoutAnswer": 1 - len(answered) / len(values)}


def case(sd):
    lactate = y + random.normal(size=(DRAWS, 8)) * sd
    c = lactate @ to_coefficients.T
    rise = (lactate[:, -1] - lactate[:, 0]) / 2
    inside = c[:, 2] ** 2 - 3 * c[:, 3] * (c[:, 1] - rise)
    dmax = 237.5 + 112.5 * (-c[:, 2] + np.sqrt(np.maximum(inside, 0))) / (3 * c[:, 3])
    dmax = np.where((inside > 0) & (dmax > 125) & (dmax < 350), dmax, np.nan)
    z = (342.96444464161135 - 237.5) / 112.5
    powers = np.array([1, z, z**2, z**3])
    b = to_coefficients @ y
    slope = (b[1] + 2 * b[2] * z + 3 * b[3] * z * z) / 112.5
    first_order = math.sqrt(powers @ to_coefficients @ np.diag(sd**2) @ to_coefficients.T @ powers) / slope
    return {"cubic4": {**summary(cubic_crossing(c, 4)), "firstOrderSd": first_order},
            "dmaxMeasured": summary(dmax), "raw4": summary(raw_crossing(lactate, 4))}


json.dump({
    "provenance": {"source": f"numpy {np.__version__}, {DRAWS} draws, seed 42",
                   "made": "tests/references/step-tests/monte_carlo.py",
                   "digits": "four Monte Carlo standard errors of a million draws"},
    "draws": DRAWS,
    "sd0.1": case(np.full(8, 0.1)), "sd0.2": case(np.full(8, 0.2)), "cv5%": case(0.05 * y),
}, open(HERE / "monte_carlo.json", "w"), indent=1)
