"""The error model of src/physiology/readingDraws.ts in numpy, for both reference programs: `readings` (draws, stages)."""
import numpy as np


def readings(rng, x, y, error, draws, stage_seconds=180.0):
    n = len(x)
    drift = np.concatenate([[0.0], np.diff(y)]) / stage_seconds * error["delay"]
    slope = np.empty(n)
    slope[1:-1] = (y[2:] - y[:-2]) / (x[2:] - x[:-2])
    slope[0] = (y[1] - y[0]) / (x[1] - x[0])
    slope[-1] = (y[-1] - y[-2]) / (x[-1] - x[-2])
    noise = np.sqrt(
        error["repeatability"] ** 2
        + (error["repeatabilityShare"] * y) ** 2
        + drift**2
        + (slope * x * error["intensityJitter"]) ** 2
    )
    gain = 1 + error["gain"] * rng.standard_normal((draws, 1))
    offset = error["offset"] * rng.standard_normal((draws, 1))
    value = y - noise * rng.standard_normal((draws, n))
    value += error["rounding"] * (rng.random((draws, n)) - 0.5)
    gained = error["contaminationSize"] * rng.standard_exponential((draws, n))
    dirty = (rng.random((draws, n)) < error["contamination"]) & (value - gained > 0.4)
    value -= np.where(dirty, gained, 0.0)
    return np.maximum(0.05, (value - offset) / gain)
