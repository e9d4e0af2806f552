"""Made-up step tests of every shape that comes to mind, for thresholds.py and curves.R. No person's data.

Run: python3 shapes.py  (writes shapes.json beside this file; the same numbers every time)

Rows are kept as a meter and a protocol would give them: some intensities occur twice, some tests are not in order.
"""
import json
import pathlib

import numpy as np

rng = np.random.default_rng(20261125)
SHAPES = []


def add(name, axis, x, y, digits=2):
    x, y = np.asarray(x, float), np.maximum(np.asarray(y, float), 0.01)
    SHAPES.append({"name": name, "axis": axis, "x": [round(float(v), 3) for v in x], "y": [round(float(v), digits) for v in y]})


def growing(x, base, rise, growth):
    z = (x - x[0]) / (x[-1] - x[0])
    return base + rise * np.expm1(growth * z) / np.expm1(growth)


def hockey(x, bend, low, slope, flat=0.0):
    return low + flat * (x - x[0]) + slope * np.maximum(0, x - bend)


noise = lambda n, sd: rng.normal(0, sd, n)
watts = lambda n, start=100, step=30: start + step * np.arange(n, dtype=float)
speeds = lambda n, start=8.0, step=1.0: start + step * np.arange(n, dtype=float)

# Flat, and hardly rising.
add("flat, all equal", "power", watts(7), [1.2] * 7)
add("flat with noise", "power", watts(8), 1.1 + noise(8, 0.12))
add("nearly straight", "power", watts(7, 80, 40), 1 + 0.012 * np.arange(7) * 40 + noise(7, 0.02))
add("exactly straight", "speed", speeds(8), 1 + 0.5 * np.arange(8))
add("ends at 3.9", "power", watts(7), growing(watts(7), 0.9, 3.0, 4))
add("a step of 0.4 each", "power", watts(8), 1 + 0.4 * np.arange(8))

# Dipping at the start, and starting high.
add("dips, then rises", "power", watts(9, 80, 30), growing(watts(9, 80, 30), 0.8, 7, 5) + 1.2 * np.exp(-np.arange(9) / 1.2))
add("dips deeply", "speed", speeds(8, 7), growing(speeds(8, 7), 1.0, 6, 5) + 2.8 * np.exp(-np.arange(8) / 1.0))
add("starts above 4", "power", watts(6, 150, 30), [4.6, 4.4, 5.2, 6.4, 8.8, 12.1])
add("starts above 2, dips below", "power", watts(8), [2.6, 1.8, 1.5, 1.6, 2.0, 2.9, 4.6, 8.0])
add("only falls", "power", watts(7), [4.8, 3.4, 2.6, 2.1, 1.8, 1.6, 1.5])
add("falls, hardly comes back", "power", watts(7), [4.4, 3.0, 2.2, 1.9, 2.0, 2.3, 2.9])

# Steep, and hockey sticks.
add("steep from the start", "speed", speeds(6, 10), [1.4, 2.3, 3.8, 6.1, 9.4, 14.2])
add("one steep last step", "power", watts(7, 120, 40), [0.9, 1.0, 0.9, 1.0, 1.1, 1.2, 9.6])
add("last two steps steep", "power", watts(8, 120, 30), [1.0, 1.0, 1.1, 1.1, 1.2, 1.4, 4.2, 11.5])
add("hockey stick at a stage", "power", watts(8), hockey(watts(8), 220, 1.0, 0.05))
add("hockey stick between stages", "power", watts(9), hockey(watts(9), 233, 1.1, 0.06, 0.001) + noise(9, 0.01))
add("hockey stick, speed", "speed", speeds(9, 8), hockey(speeds(9, 8), 13.4, 1.3, 2.4, 0.05) + noise(9, 0.03))
add("two clear bends", "power", watts(12, 80, 25), 1 + 0.008 * np.maximum(0, watts(12, 80, 25) - 190) + 0.07 * np.maximum(0, watts(12, 80, 25) - 290))
add("two bends at stages", "power", watts(10, 100, 25), 1 + 0.01 * np.maximum(0, watts(10, 100, 25) - 175) + 0.05 * np.maximum(0, watts(10, 100, 25) - 250))
add("flattens at the top", "speed", speeds(9, 8), [1.1, 1.0, 1.3, 1.9, 3.2, 4.6, 5.6, 6.2, 6.5])
add("bends down throughout", "power", watts(7), [1.0, 3.0, 4.4, 5.4, 6.0, 6.4, 6.6])
add("mirrored: two equal best bends", "power", watts(9), [1, 1, 1, 3, 3, 3, 5, 5, 5])

# Regular curves of 5 to 20 stages, with and without errors.
for n in (5, 6, 7, 8, 10, 12, 15, 20):
    x = watts(n, 100, round(240 / (n - 1)))
    add(f"{n} stages, regular", "power", x, growing(x, 0.9, 7, 5.5))
for n in (5, 6, 8, 11, 16, 20):
    x = speeds(n, 8, round(9 / (n - 1), 1))
    add(f"{n} stages, noisy", "speed", x, growing(x, 1.2, 6.5, 4.5) + noise(n, 0.18))
for k in range(4):
    x = watts(7 + k, 90, 30)
    add(f"very noisy {k + 1}", "power", x, growing(x, 1.1, 5 + k, 3 + k) + noise(7 + k, 0.45))

# Not monotone.
add("zigzag", "power", watts(9), [1.0, 1.8, 1.1, 2.1, 1.4, 2.9, 2.2, 5.1, 7.9])
add("one reading too high", "power", watts(8), [1.0, 1.1, 3.1, 1.2, 1.5, 2.2, 3.9, 7.4])
add("falls at the last stage", "power", watts(8), [0.9, 1.0, 1.1, 1.6, 2.6, 4.4, 7.2, 6.1])
add("plateau in the middle", "speed", speeds(9, 9), [1.0, 1.2, 2.1, 2.2, 2.1, 2.2, 3.4, 5.2, 8.4])

# Uneven steps.
add("uneven steps", "power", [50, 120, 150, 165, 180, 210, 225, 240, 300], [0.8, 0.9, 1.1, 1.0, 1.3, 1.8, 2.2, 3.0, 8.2])
add("steps halved after the fourth", "power", [120, 170, 220, 270, 295, 320, 345, 370], [0.88, 0.95, 1.02, 1.31, 1.79, 2.63, 4.4, 7.75])
add("last stage credited", "speed", [8, 9.5, 11, 12.5, 14, 14.833], [1.24, 1.31, 1.62, 2.55, 5.18, 7.9])
add("two stages close together", "power", [100, 140, 180, 181, 220, 260, 300], [1.0, 1.0, 1.2, 1.3, 1.9, 3.6, 7.3])

# Readings given twice, rows out of order.
add("first and last sampled twice", "power", [100, 100, 140, 180, 220, 260, 300, 300], [1.1, 0.9, 0.9, 1.1, 1.5, 2.8, 6.9, 7.4])
add("every stage sampled twice", "speed", np.repeat(speeds(7, 8), 2), growing(np.repeat(speeds(7, 8), 2), 1.1, 6, 5) + noise(14, 0.15))
add("one reading entered twice", "power", [90, 120, 150, 180, 180, 210, 240, 270, 300], [1.1, 1.0, 1.2, 1.4, 1.4, 1.9, 2.9, 4.7, 8.8])
add("rows out of order, one thrice", "power", [260, 100, 220, 140, 300, 180, 260, 340, 260], [1.9, 1.0, 1.4, 0.9, 3.1, 1.1, 1.7, 7.2, 1.8])

# Very small and very large numbers.
add("very small lactate", "power", watts(8), growing(watts(8), 0.02, 0.4, 4), 3)
add("very large lactate", "power", watts(8), growing(watts(8), 2.4, 26, 4), 1)
add("a thousand watts", "power", watts(8, 400, 100), growing(watts(8, 400, 100), 1.2, 9, 5))
add("very slow", "speed", speeds(8, 0.5, 0.4), growing(speeds(8, 0.5, 0.4), 1.2, 6, 4))
add("readings to 0.1 only", "power", watts(9), growing(watts(9), 0.9, 6, 5), 1)

pathlib.Path(__file__).with_suffix(".json").write_text(
    '{"provenance": {"source": "made up, numpy ' + np.__version__ + ' default_rng(20261125)", "made": "tests/references/made-up/shapes.py"},\n"shapes": [\n'
    + ",\n".join(json.dumps(s) for s in SHAPES) + "\n]}\n")
print(len(SHAPES))
