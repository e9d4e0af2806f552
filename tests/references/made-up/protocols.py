"""Answers of the methods with a protocol of their own, on made-up tests, by fractions and 30 digits.

Run: python3 protocols.py  (a minute; writes protocols.json beside this file)

Individual anaerobic threshold: the touching line by Lambert's W (exponential) or by the roots of a cubic; lactate
minimum: the vertex of a least-squares parabola; reverse test: the vertex of a parabola through the highest reading and
up to two on either side; bouts: the rise from minute 10 to 30. The tests are drawn anew by numpy's default_rng(7).
"""
import json
import pathlib
from fractions import Fraction

import mpmath as mp
import numpy as np

from thresholds import Refused, exponential_curve, number, polynomial_curve, readings, real_roots

HERE = pathlib.Path(__file__).parent
rng = np.random.default_rng(7)
exact = lambda values: [Fraction(str(v)) for v in values]
rounded = lambda values: [round(float(v), 2) for v in values]


def attempt(method, *given):
    try:
        return float(number(method(*given)))
    except Refused as refused:
        return str(refused)


# --- Individual anaerobic threshold (Stegmann 1981), on the time axis. ----------------------------------------------


def minute_of_return(recovery, end):
    minutes, lactates = zip(*recovery)
    peak = lactates.index(max(lactates))
    if lactates[peak] < end:
        raise Refused("E_NO_RETURN")
    for (a, p), (b, q) in zip(recovery[peak:], recovery[peak + 1:]):
        if q <= end:
            return a + (p - end) / (p - q) * (b - a)
    raise Refused("E_NO_RETURN")


def individual(model, x, y, stage_minutes, recovery):
    t = [stage_minutes * (i + 1) for i in range(len(x))]
    # Where both fail, the curve is said before the recovery.
    curve = (exponential_curve if model == "exponential" else polynomial_curve(3))(t, y, [1] * len(t))
    end, back = number(y[-1]), number(t[-1] + minute_of_return(recovery, y[-1]))
    first, last = number(t[0]), number(t[-1])
    if model == "exponential":
        c = curve
        k = (end - c.a) / (c.b * mp.exp(c.c * (back - c.lo) + 1))
        if not 0 < k < mp.exp(-1):
            raise Refused("E_EDGE")
        touching = [back + (1 + mp.re(mp.lambertw(-k, -1))) / c.c]
    else:
        _, _, middle, half, c = curve.pieces[0]
        if curve.at(last, 2) <= 0:
            raise Refused("E_NOT_CONVEX")
        b = (back - middle) / half
        d = [c[1], 2 * c[2], 3 * c[3]]
        line = [c[0] - end + b * d[0], c[1] + b * d[1] - d[0], c[2] + b * d[2] - d[1], c[3] - d[2]]
        touching = [middle + half * s for s in real_roots(line) if curve.at(middle + half * s, 2) > 0]
    touching = [v for v in touching if first < v < last]
    if not touching:
        raise Refused("E_EDGE")
    at = touching[0]
    i = max(j for j in range(len(t) - 1) if number(t[j]) <= at)
    return number(x[i]) + (at - number(t[i])) / number(t[i + 1] - t[i]) * number(x[i + 1] - x[i])


def individual_cases():
    for shape in json.loads((HERE / "shapes.json").read_text())["shapes"]:
        x, y = shape["x"], shape["y"]
        if len(x) < 5 or any(b <= a for a, b in zip(x, x[1:])):
            continue
        end, stage = y[-1], float(rng.choice([3, 4, 5, 8]))
        gain, decay = rng.uniform(0.9, 1.6), rng.uniform(3, 14)
        minutes = [1, 3, 5, 7, 10, 15]
        lactate = rounded([max(0.3, end * (1 + (gain - 1) * m / 2) if m < 2 else end * gain * np.exp(-(m - 2) / decay)) for m in minutes])
        recovery = list(zip(exact(minutes), exact(lactate)))
        given = (exact(x), exact(y), Fraction(stage), recovery)
        yield {"name": shape["name"], "axis": shape["axis"], "x": x, "y": y, "stageMinutes": stage, "minute": minutes, "lactate": lactate,
               "exponential": attempt(individual, "exponential", *given), "cubic": attempt(individual, "cubic", *given)}


# --- Lactate minimum test (Tegtbur 1993). ---------------------------------------------------------------------------


def parabola(x, y):
    """Intensity and lactate of the vertex, and the curvature's sign, by least squares in fractions."""
    curve = polynomial_curve(2)(x, y, [1] * len(x))
    _, _, middle, half, (a, b, c) = curve.pieces[0]
    return (middle - half * b / (2 * c), a - b * b / (4 * c), c) if c != 0 else (None, None, c)


def lactate_minimum(x, y, before):
    place, least, bend = parabola(x, y)
    x = [number(v) for v in x]
    if bend <= 0:
        raise Refused("E_NO_MIN")
    if not x[0] < place < x[-1] or sum(v <= place for v in x) < 2 or sum(v >= place for v in x) < 2:
        raise Refused("E_EDGE")
    if number(before) < 2 * least:
        raise Refused("E_NO_HYPERLACT")
    return place


def minimum_cases():
    for k in range(16):
        n = int(rng.integers(5, 9))
        x = [140 + 20 * i for i in range(n)]
        at = rng.uniform(0.0, 1.0) * (n - 1) if k > 3 else (n - 1) * (0.3 + 0.1 * k)
        y = rounded(2.2 + 0.28 * (np.arange(n) - at) ** 2 * (-0.3 if k == 15 else 1) + rng.normal(0, 0.15, n) + (3 if k == 15 else 0))
        y = [max(v, 0.5) for v in y]
        before = round(float(rng.uniform(3.5, 11)), 2)
        yield {"x": x, "y": y, "before": before, "answer": attempt(lactate_minimum, exact(x), exact(y), Fraction(str(before)))}


# --- Reverse test (Dotan 2012). -------------------------------------------------------------------------------------


def reverse(x, y):
    top = y.index(max(y))
    if top in (0, len(y) - 1):
        raise Refused("E_EDGE")
    part = slice(max(0, top - 2), top + 3)
    place, _, bend = parabola(x[part], y[part])
    if bend >= 0:
        raise Refused("E_NOT_CONVEX")
    if not number(x[part][0]) < place < number(x[part][-1]):
        raise Refused("E_EDGE")
    return place


def reverse_cases():
    for k in range(12):
        n = int(rng.integers(4, 9))
        x = [300 - 15 * i for i in range(n)]
        y = rounded(6.5 - 0.2 * (np.arange(n) - rng.uniform(-0.5, n - 0.5)) ** 2 + rng.normal(0, 0.1, n))
        y = [max(v, 0.5) for v in y]
        points = sorted(zip(exact(x), exact(y)))
        yield {"x": x, "y": y, "answer": attempt(reverse, *map(list, zip(*points)))}


# --- Bouts (Heck 1985, Beneke 2003): steady when lactate rises by 1.0 or less from minute 10 to 30. -----------------


def steady_state(bouts):
    """bouts: (intensity, lactate at 10, 15 ... 30) ascending; four readings and no more: given up."""
    steady = [len(y) == 5 and y[-1] - y[0] <= 1 for _, y in bouts]
    if not any(steady):
        raise Refused("E_ALREADY_ABOVE")
    if all(steady):
        raise Refused("E_NOT_REACHED")
    if max(i for i, s in enumerate(steady) if s) > steady.index(False):
        raise Refused("E_PROTOCOL")
    return bouts[steady.index(False) - 1][0]


def bout_cases():
    for k in range(12):
        bouts = []
        for i in range(int(rng.integers(2, 6))):
            rate = rng.uniform(0.2, 0.7) * (i - rng.uniform(0.2, 3.2)) * 0.8 + 0.2
            y = rounded(3 + 0.6 * i + rate * np.arange(5) + rng.normal(0, 0.05, 5))
            bouts.append([220 + 10 * i, [max(v, 0.5) for v in (y[:4] if rng.uniform() < 0.08 else y)]])
        yield {"bouts": bouts, "answer": attempt(steady_state, [(Fraction(x), exact(y)) for x, y in bouts])}
    # A rise of exactly 1.0 on paper, which is 1.0000000000000009 and 0.9999999999999996 in binary numbers.
    for low, high in ((3.2, 4.2), (4.1, 5.1), (3.3, 4.3)):
        bouts = [[220, [low, low, low, low, high]], [230, [low, low, low, low, round(high + 0.01, 2)]]]
        yield {"bouts": bouts, "answer": attempt(steady_state, [(Fraction(x), exact(y)) for x, y in bouts])}


out = {"provenance": {"source": f"python fractions, mpmath {mp.__version__}; made up with numpy {np.__version__}", "made": "tests/references/made-up/protocols.py", "digits": "12"},
       "individual": list(individual_cases()), "minimum": list(minimum_cases()), "reverse": list(reverse_cases()), "bouts": list(bout_cases())}
lines = ",\n".join(json.dumps(key) + ": " + (json.dumps(value) if key == "provenance" else "[\n" + ",\n".join(map(json.dumps, value)) + "\n]") for key, value in out.items())
(HERE / "protocols.json").write_text("{" + lines + "}\n")
for key in ("individual", "minimum", "reverse", "bouts"):
    print(key, [c.get("answer", (c.get("exponential"), c.get("cubic"))) for c in out[key]])
