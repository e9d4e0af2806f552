"""Thresholds of made-up and real step tests, from the definitions in the papers, in exact or 30-digit arithmetic.

Run: python3 thresholds.py  (half a minute; writes thresholds.json beside this file)

Nothing here is taken over from the project's code. Polynomials and straight lines are solved in fractions or by
mpmath's QR, roots by mpmath's polyroots, the least ratio on the exponential by Lambert's W, breakpoints by trying
every combination of gap and point in fractions, the smoothing spline as dense matrices (Green & Silverman 1994).

Tests: shapes.json (made up), and every real test of ../step-tests (Sylta et al. 2016, CC0) with 5 stages or more.

An answer is an intensity or the code of a refusal. `segments` holds, for every line of two or three pieces, the least
sum of squares and every set of breakpoints that reaches it.
"""
import csv
import itertools
import json
import pathlib
from fractions import Fraction

import mpmath as mp
import numpy as np
import scipy
from scipy.optimize import brentq

mp.mp.dps = 30
HERE = pathlib.Path(__file__).parent
CURVES = ["raw", "quadratic", "cubic", "quartic", "exponential", "two-segment", "three-segment", "spline"]
LEAST = {"raw": 2, "quadratic": 3, "cubic": 4, "quartic": 5, "exponential": 4, "two-segment": 5, "three-segment": 7, "spline": 4}
SLACK = mp.mpf(10) ** -13


class Refused(Exception):
    pass


# --- Readings: one mean for each intensity, ascending, exact. -------------------------------------------------------


def readings(rows):
    groups = {}
    for x, y in rows:
        groups.setdefault(Fraction(str(x)), []).append(Fraction(str(y)))
    xs = sorted(groups)
    return xs, [sum(groups[x]) / len(groups[x]) for x in xs], [len(groups[x]) for x in xs]


number = lambda q: mp.mpf(q.numerator) / q.denominator if isinstance(q, Fraction) else mp.mpf(q)


# --- Curves as polynomial pieces in s = (x - origin)/scale. ---------------------------------------------------------


class Pieces:
    """pieces: (left, right, origin, scale, coefficients lowest first), adjoining."""

    def __init__(self, pieces):
        self.pieces = pieces
        self.lo, self.hi = pieces[0][0], pieces[-1][1]

    def piece(self, x):
        return next((p for p in self.pieces if x <= p[1]), self.pieces[-1])

    def at(self, x, derivative=0):
        _, _, origin, scale, c = self.piece(x)
        return self.value(c, (x - origin) / scale, derivative) / scale ** derivative

    @staticmethod
    def value(c, s, derivative=0):
        for _ in range(derivative):
            c = [k * ck for k, ck in enumerate(c)][1:]
        return mp.polyval(list(reversed(c)), s) if c else mp.mpf(0)

    def roots(self, transform):
        """(place, piece) where a polynomial made from each piece's coefficients is 0."""
        found = []
        for p in self.pieces:
            left, right, origin, scale, c = p
            for s in real_roots(transform(p)):
                x = origin + scale * s
                # A root on the border of two pieces may come out a rounding error outside both.
                slack = SLACK * (self.hi - self.lo)
                if left - slack <= x <= right + slack:
                    found.append((min(max(x, left), right), p))
        return found

    def turning(self):
        return [x for x, _ in self.roots(lambda p: [k * ck for k, ck in enumerate(p[4])][1:])]

    def corners(self):
        return [self.lo] + [p[1] for p in self.pieces]

    def lowest(self):
        return min(sorted(self.corners() + self.turning()), key=self.at)

    def peak(self):
        return max(self.at(x) for x in self.corners() + self.turning())

    def crossing(self, level, start=None):
        low = self.lowest()
        start = low if start is None else max(start, low)
        upward = []
        for x, p in self.roots(lambda p: [p[4][0] - level] + list(p[4][1:])):
            s = (x - p[2]) / p[3]
            # A root at the left end of a piece belongs to the piece before it, or is the start.
            if self.value(p[4], s, 1) / p[3] > 0 and x > max(p[0], start):
                upward.append(x)
        if upward:
            return max(upward)
        return start if self.at(start) == level and start < self.hi else None

    def touching(self, slope, start):
        """Where the curve bends upward with this slope right of start: the one farthest below a line of that slope."""
        def excess(p):
            d = [k * ck for k, ck in enumerate(p[4])][1:]
            return [d[0] - slope * p[3]] + d[1:]
        places = [x for x, p in self.roots(excess) if start < x < self.hi and self.value(p[4], (x - p[2]) / p[3], 2) > 0]
        return min(places, key=lambda x: self.at(x) - slope * x, default=None)

    def least_ratio(self):
        """Where f(x)/x is least: ends of pieces and roots of x f' - f."""
        def tangent(p):
            _, _, origin, scale, c = p
            d = [k * ck for k, ck in enumerate(c)][1:]
            out = [-ck for ck in c] + [0]
            for k, dk in enumerate(d):
                out[k] += dk * origin / scale
                out[k + 1] += dk
            return out
        return min(sorted(self.corners() + [x for x, _ in self.roots(tangent)]), key=lambda x: self.at(x) / x)


def real_roots(c):
    c = [mp.mpf(v) for v in c]
    size = max((abs(v) for v in c), default=0)
    while c and abs(c[-1]) <= size * mp.mpf(10) ** -26:
        c.pop()
    if len(c) < 2:
        return []
    roots = mp.polyroots(list(reversed(c)), maxsteps=400, extraprec=200)
    return [mp.re(r) for r in roots if abs(mp.im(r)) < mp.mpf(10) ** -14]


class Exponential:
    """a + b e^(c (x - lo)), b and c above 0."""

    def __init__(self, lo, hi, a, b, c):
        self.lo, self.hi, self.a, self.b, self.c = lo, hi, a, b, c

    def at(self, x):
        return self.a + self.b * mp.exp(self.c * (x - self.lo))

    def lowest(self):
        return self.lo

    def peak(self):
        return self.at(self.hi)

    def crossing(self, level, start=None):
        start = self.lo if start is None else start
        if level <= self.a:
            return None
        x = self.lo + mp.log((level - self.a) / self.b) / self.c
        return x if start <= x <= self.hi else None

    def touching(self, slope, start):
        if slope <= 0:
            return None
        x = self.lo + mp.log(slope / (self.b * self.c)) / self.c
        return x if start < x < self.hi else None

    def least_ratio(self):
        # x f' = f with f = a + B e^(cx): (cx - 1) e^(cx - 1) = a/(B e).
        argument = self.a / (self.b * mp.exp(1 - self.c * self.lo))
        inside = []
        if argument >= -mp.exp(-1):
            inside = [mp.re((1 + mp.lambertw(argument, k)) / self.c) for k in (0, -1) if k == 0 or argument < 0]
        return min([self.lo, self.hi] + [x for x in inside if self.lo < x < self.hi], key=lambda x: self.at(x) / x)


# --- Fits. ----------------------------------------------------------------------------------------------------------


def raw_curve(x, y, w):
    points = list(zip(map(number, x), map(number, y)))
    return Pieces([(a, c, a, mp.mpf(1), [b, (d - b) / (c - a)]) for (a, b), (c, d) in zip(points, points[1:])])


def polynomial_curve(degree):
    def fit(x, y, w):
        middle, half = (x[0] + x[-1]) / 2, (x[-1] - x[0]) / 2
        u = [(v - middle) / half for v in x]
        # Normal equations in fractions: exact.
        rows = [[sum(wi * ui ** (j + k) for wi, ui in zip(w, u)) for k in range(degree + 1)] for j in range(degree + 1)]
        right = [sum(wi * yi * ui ** j for wi, ui, yi in zip(w, u, y)) for j in range(degree + 1)]
        c = [number(v) for v in solve(rows, right)]
        return Pieces([(number(x[0]), number(x[-1]), number(middle), number(half), c)])
    return fit


def solve(a, b):
    """Gaussian elimination; exact when the numbers are."""
    a = [list(row) + [v] for row, v in zip(a, b)]
    n = len(a)
    for i in range(n):
        pivot = max(range(i, n), key=lambda r: abs(a[r][i]))
        a[i], a[pivot] = a[pivot], a[i]
        for r in range(n):
            if r != i:
                factor = a[r][i] / a[i][i]
                a[r] = [p - factor * q for p, q in zip(a[r], a[i])]
    return [a[i][n] / a[i][i] for i in range(n)]


def exponential_curve(x, y, w):
    lo, hi = number(x[0]), number(x[-1])
    z = [(number(v) - lo) / (hi - lo) for v in x]
    yy, total = [number(v) for v in y], sum(w)
    z64, y64, w64 = np.array([float(v) for v in z]), np.array([float(v) for v in yy]), np.array(w, float)

    def sse_fast(g):
        phi = np.expm1(g * z64) / g
        phi = phi - np.average(phi, weights=w64)
        yc = y64 - np.average(y64, weights=w64)
        return float(np.sum(w64 * yc * yc) - np.sum(w64 * phi * yc) ** 2 / np.sum(w64 * phi * phi))

    def linear(g):
        phi = [mp.expm1(g * v) / g for v in z]
        mean_phi = sum(wi * p for wi, p in zip(w, phi)) / total
        mean_y = sum(wi * v for wi, v in zip(w, yy)) / total
        beta = sum(wi * (p - mean_phi) * v for wi, p, v in zip(w, phi, yy)) / sum(wi * (p - mean_phi) ** 2 for wi, p in zip(w, phi))
        return mean_y - beta * mean_phi, beta, phi

    def gradient(g):
        start, beta, phi = linear(g)
        rest = [v - start - beta * p for v, p in zip(yy, phi)]
        by_g = [(g * v * mp.exp(g * v) - mp.expm1(g * v)) / g ** 2 for v in z]
        return sum(wi * r * d for wi, r, d in zip(w, rest, by_g)) * -2 * beta

    grid = np.geomspace(0.02, 30, 6000)
    best = int(np.argmin([sse_fast(g) for g in grid]))
    if best in (0, len(grid) - 1) or np.ptp(y64) == 0:
        raise Refused("E_SINGULAR")
    g = mp.findroot(gradient, (mp.mpf(grid[best - 1]), mp.mpf(grid[best + 1])), solver="anderson", tol=mp.mpf(10) ** -40, verify=False)
    start, beta, _ = linear(g)
    if beta <= 0:
        raise Refused("E_NOT_CONVEX")
    return Exponential(lo, hi, start - beta / g, beta / g, g / (hi - lo))


def spline_curve(x, y, w):
    """Reinsch's equations as dense matrices; effective degrees of freedom min(4.5, n - 1.5)."""
    n = len(x)
    z = np.array([float((v - x[0]) / (x[-1] - x[0])) for v in x])
    h = np.diff(z)
    q, r = np.zeros((n, n - 2)), np.zeros((n - 2, n - 2))
    for j in range(n - 2):
        q[j, j], q[j + 1, j], q[j + 2, j] = 1 / h[j], -1 / h[j] - 1 / h[j + 1], 1 / h[j + 1]
        r[j, j] = (h[j] + h[j + 1]) / 3
        if j + 1 < n - 2:
            r[j, j + 1] = r[j + 1, j] = h[j + 1] / 6
    inverse = np.diag(1 / np.array(w, float))
    smoother = lambda lam: np.eye(n) - lam * inverse @ q @ np.linalg.solve(r + lam * q.T @ inverse @ q, q.T)
    df = min(4.5, n - 1.5)
    lam = np.exp(brentq(lambda v: np.trace(smoother(np.exp(v))) - df, -40, 40, xtol=1e-14, rtol=1e-14))
    yy = np.array([float(v) for v in y])
    s = smoother(lam) @ yy
    bend = np.concatenate([[0], np.linalg.solve(r + lam * q.T @ inverse @ q, q.T @ yy), [0]])
    width = number(x[-1] - x[0])
    pieces = []
    for i in range(n - 1):
        slope = (s[i + 1] - s[i]) / h[i] - h[i] * (2 * bend[i] + bend[i + 1]) / 6
        c = [s[i], slope, bend[i] / 2, (bend[i + 1] - bend[i]) / (6 * h[i])]
        pieces.append((number(x[i]), number(x[i + 1]), number(x[i]), width, [mp.mpf(float(v)) for v in c]))
    curve = Pieces(pieces)
    curve.bends, curve.fitted, curve.lam = bend, s, lam
    return curve


def line(x, y, w):
    """Intercept, slope and SSE of the line of least squares."""
    total = sum(w)
    mx, my = sum(a * b for a, b in zip(w, x)) / total, sum(a * b for a, b in zip(w, y)) / total
    slope = sum(a * (b - mx) * (c - my) for a, b, c in zip(w, x, y)) / sum(a * (b - mx) ** 2 for a, b in zip(w, x))
    return my - slope * mx, slope, sum(a * (c - my - slope * (b - mx)) ** 2 for a, b, c in zip(w, x, y))


def joined(x, y, w, knots):
    """Least squares of 1, x, (x - k)+ ...: coefficients and SSE."""
    columns = [[1] * len(x), x] + [[max(v - k, 0 * v) for v in x] for k in knots]
    rows = [[sum(a * p * q for a, p, q in zip(w, c, d)) for d in columns] for c in columns]
    c = solve(rows, [sum(a * p * v for a, p, v in zip(w, column, y)) for column in columns])
    rest = [v - sum(ck * column[i] for ck, column in zip(c, columns)) for i, v in enumerate(y)]
    return c, sum(a * e * e for a, e in zip(w, rest))


def candidates(x, y, w, breaks):
    """Every stationary continuous line with at least two points to a piece (those at a breakpoint count for both)."""
    n = len(x)
    part = lambda i, j: (x[i:j + 1], y[i:j + 1], w[i:j + 1])
    lines = {(i, j): line(*part(i, j)) for i in range(n) for j in range(i + 1, n)}

    def meet(left, right, gap):
        (a, b, *_), (c, d, *_) = left, right
        if b == d:
            return None
        k = (a - c) / (d - b)
        return k if x[gap] < k < x[gap + 1] else None

    if breaks == 1:
        for i in range(1, n - 2):
            left, right = lines[0, i], lines[i + 1, n - 1]
            k = meet(left, right, i)
            if k is not None:
                yield [k], [right[1] - left[1]], left[2] + right[2]
        for m in range(1, n - 1):
            c, sse = joined(x, y, w, [x[m]])
            yield [x[m]], c[2:], sse
        return
    for i, j in itertools.combinations(range(1, n - 2), 2):
        if j < i + 2:
            continue
        a, b, c = lines[0, i], lines[i + 1, j], lines[j + 1, n - 1]
        k, l = meet(a, b, i), meet(b, c, j)
        if k is not None and l is not None:
            yield [k, l], [b[1] - a[1], c[1] - b[1]], a[2] + b[2] + c[2]
    for m, p in itertools.combinations(range(1, n - 1), 2):
        c, sse = joined(x, y, w, [x[m], x[p]])
        yield [x[m], x[p]], c[2:], sse
    for i in range(1, n - 3):  # First in the gap after i, second at point m.
        for m in range(i + 2, n - 1):
            c, sse = joined(*part(i + 1, n - 1), [x[m]])
            k = meet(lines[0, i], (c[0], c[1]), i)
            if k is not None:
                yield [k, x[m]], [c[1] - lines[0, i][1], c[2]], lines[0, i][2] + sse
    for j in range(2, n - 2):  # First at point m, second in the gap after j.
        for m in range(1, j):
            c, sse = joined(*part(0, j), [x[m]])
            last = lines[j + 1, n - 1]
            k = meet((c[0] - c[2] * x[m], c[1] + c[2]), last, j)
            if k is not None:
                yield [x[m], k], [c[2], last[1] - c[1] - c[2]], sse + last[2]


def segments(x, y, w, breaks):
    """The least SSE with every bend upward, and all breakpoints that reach it, smallest first."""
    mean = sum(a * b for a, b in zip(w, y)) / sum(w)
    spread = sum(a * (b - mean) ** 2 for a, b in zip(w, y))
    width = x[-1] - x[0]
    # A bend below a billionth of the spread is rounding in any program.
    least = mp.sqrt(number(spread) / sum(w)) * mp.mpf("2e-9")
    rising = [(sse, ks) for ks, bends, sse in candidates(x, y, w, breaks) if all(number(b * width) > least for b in bends)]
    if not rising:
        raise Refused("E_NOT_CONVEX")
    best = min(sse for sse, _ in rising)
    equal = sorted(ks for sse, ks in rising if sse <= best + spread / 10 ** 12)
    return best, [equal[0]] + [ks for a, ks in zip(equal, equal[1:]) if max(abs(p - q) for p, q in zip(a, ks)) > width / 10 ** 9]


def segmented_curve(breaks):
    def fit(x, y, w):
        _, places = segments(x, y, w, breaks)
        c, _ = joined(x, y, w, places[0])
        corners = [x[0], *places[0], x[-1]]
        pieces, value, slope = [], c[0] + c[1] * x[0], c[1]
        for j, (a, b) in enumerate(zip(corners, corners[1:])):
            pieces.append((number(a), number(b), number(a), mp.mpf(1), [number(value), number(slope)]))
            value += slope * (b - a)
            slope += c[2 + j] if j < breaks else 0
        return Pieces(pieces)
    return fit


FITS = {"raw": raw_curve, "quadratic": polynomial_curve(2), "cubic": polynomial_curve(3), "quartic": polynomial_curve(4),
        "exponential": exponential_curve, "two-segment": segmented_curve(1), "three-segment": segmented_curve(2), "spline": spline_curve}


# --- Methods. -------------------------------------------------------------------------------------------------------


class Test:
    def __init__(self, rows, axis):
        self.x, self.y, self.w = readings(rows)
        self.axis, self.n, self.known = axis, len(self.x), {}

    def need(self, points):
        if self.n < points:
            raise Refused("E_POINTS")

    def curve(self, model):
        self.need(LEAST[model])
        if model not in self.known:
            try:
                self.known[model] = FITS[model](self.x, self.y, self.w)
            except Refused as refused:
                self.known[model] = refused
        if isinstance(self.known[model], Refused):
            raise self.known[model]
        return self.known[model]

    def baseline(self, rule):
        y = self.y
        return {"first": lambda: y[0], "lowest": lambda: min(y), "lowest-two": lambda: min((a + b) / 2 for a, b in zip(y, y[1:]))}[rule]()


def cross(curve, level, start=None):
    x = curve.crossing(level, start)
    if x is not None:
        return x
    raise Refused("E_NOT_REACHED" if curve.at(curve.lowest()) < level else "E_ALREADY_ABOVE")


def level(test, model, lactate):
    test.need(4)
    return cross(test.curve(model), number(lactate))


def first_rise(test):
    """Farrell 1979 and others: the stage before lactate rises by more than 0.4 mmol/L for good."""
    test.need(4)
    i = next((i for i in range(test.n - 1) if min(test.y[i + 1:]) - test.y[i] > Fraction(2, 5)), None)
    if i is None:
        raise Refused("E_NO_RISE")
    if i == 0:
        raise Refused("E_ALREADY_ABOVE")
    return test.x[i]


def log_log(test):
    """Beaver 1985: two joined lines in logarithms."""
    test.need(5)
    logs = lambda values: [mp.log(number(v)) for v in values]
    return mp.exp(segments(logs(test.x), logs(test.y), test.w, 1)[1][0][0])


def equivalent(test, model):
    test.need(5)
    curve = test.curve(model)
    return curve, curve.least_ratio()


def minimum_equivalent(test, model):
    curve, x = equivalent(test, model)
    if min(x - curve.lo, curve.hi - x) < (curve.hi - curve.lo) * mp.mpf("1e-6"):
        raise Refused("E_EDGE")
    return x


def equivalent_plus(test, model, rise):
    curve, x = equivalent(test, model)
    return cross(curve, curve.at(x) + number(rise), x)


def touch(curve, slope, start, height):
    """Farthest below the chord from (start, height); none where the curve does not dip below it."""
    x = curve.touching(slope, start)
    if x is None or curve.at(x) >= height + slope * (x - start):
        raise Refused("E_NOT_CONVEX")
    return x


def dmax(test, model, ends):
    """Cheng 1992."""
    test.need(5)
    curve, width = test.curve(model), number(test.x[-1] - test.x[0])
    rise = curve.at(curve.hi) - curve.at(curve.lo) if ends == "fitted" else number(test.y[-1] - test.y[0])
    return touch(curve, rise / width, curve.lo, curve.at(curve.lo) if ends == "fitted" else number(test.y[0]))


def modified_dmax(test, model, ends="measured", over="previous-stage"):
    """Bishop 1998: the chord begins at the reading before the first rise of more than 0.4."""
    test.need(5)
    curve = test.curve(model)
    before = lambda i: test.y[i] if over == "previous-stage" else test.baseline("lowest-two")
    i = next((i for i in range(test.n - 1) if test.y[i + 1] - before(i) > Fraction(2, 5)), None)
    if i is None:
        raise Refused("E_NO_RISE")
    if i >= test.n - 2:
        raise Refused("E_EDGE")
    start = number(test.x[i])
    rise = number(test.y[-1] - test.y[i]) if ends == "measured" else curve.at(curve.hi) - curve.at(start)
    return touch(curve, rise / (curve.hi - start), start, number(test.y[i]) if ends == "measured" else curve.at(start))


def turn_point(test, index):
    test.need(7)
    return segments(test.x, test.y, test.w, 2)[1][0][index]


def fixed_slope(test, model, slope):
    """Keul 1979: 1.26 mmol/L per km/h; on power only with a slope of one's own."""
    test.need(5)
    if slope is None:
        if test.axis == "power":
            raise Refused("E_SCALE")
        slope = Fraction("1.26")
    curve = test.curve(model)
    x = curve.touching(number(slope), curve.lo)
    if x is not None:
        return x
    # The slope never rises through this one: it stays below it, or above it, or only falls through it.
    if steepness(curve, curve.lo) <= number(slope):
        raise Refused("E_NOT_REACHED")
    raise Refused("E_ALREADY_ABOVE" if steepness(curve, curve.hi) > number(slope) else "E_NOT_CONVEX")


def steepness(curve, x):
    return curve.at(x, 1) if isinstance(curve, Pieces) else curve.b * curve.c * mp.exp(curve.c * (x - curve.lo))


def second_derivative(test):
    """Newell 2006 on a natural smoothing spline: its second derivative is greatest at a stage, never at the ends."""
    test.need(7)
    bends = list(test.curve("spline").bends)
    best = max(range(1, test.n - 1), key=lambda i: bends[i])
    # Doubles leave rounding where nothing bends.
    if bends[best] <= 1e-9 * float(max(test.y)):
        raise Refused("E_NOT_CONVEX")
    if best == test.n - 2:
        raise Refused("E_EDGE")
    return test.x[best]


def second_rise(test):
    """Baldari & Guidetti 2000: the stage before the second rise of 0.5 or more, which exceeds the first."""
    test.need(5)
    d = [b - a for a, b in zip(test.y, test.y[1:])]
    first = next((i for i, rise in enumerate(d) if rise >= Fraction(1, 2)), None)
    second = None if first is None else next((j for j in range(first + 1, len(d)) if d[j] >= Fraction(1, 2) and d[j] > d[first]), None)
    if second is None:
        raise Refused("E_NO_RISE")
    return test.x[second]


def bisector(test):
    """After Bunc 1985: the line that halves the angle of the end tangents, 1 km/h as long as 1 mmol/L, meets the curve."""
    test.need(5)
    if test.axis == "power":
        raise Refused("E_SCALE")
    curve = test.curve("exponential")
    angles = [mp.atan(steepness(curve, x)) for x in (curve.lo, curve.hi)]
    m1, m2 = map(mp.tan, angles)
    x0 = (curve.at(curve.lo) - curve.at(curve.hi) + m2 * curve.hi - m1 * curve.lo) / (m2 - m1)
    y0 = curve.at(curve.lo) + m1 * (x0 - curve.lo)
    # The angle that opens upward, between the first tangent run backward and the second run forward.
    direction = (angles[0] + mp.pi + angles[1]) / 2
    above = lambda x: y0 + (x - x0) * mp.tan(direction) - curve.at(x)
    grid = [curve.lo + (curve.hi - curve.lo) * i / 4000 for i in range(4001)]
    for a, b in zip(grid, grid[1:]):
        if above(a) * above(b) <= 0:
            return mp.findroot(above, (a, b), solver="anderson")
    raise Refused("E_EDGE")


def cases():
    yield "first-rise", first_rise
    yield "log-log", log_log
    for k in (0, 1):
        yield f"turn-point-{k + 1}", lambda t, k=k: turn_point(t, k)
    for model in CURVES:
        at = f" curve={model}"
        for lactate in ("2.0", "3.0", "3.5", "4.0"):
            yield f"fixed-{lactate}{at}", lambda t, m=model, v=lactate: level(t, m, Fraction(v))
        for rise in ("0.3", "0.4", "0.5", "1.0", "1.5"):
            for rule in ("lowest-two", "lowest", "first") if model in ("raw", "cubic") else ("lowest-two",):
                yield (f"baseline-plus-{rise}{at} baseline={rule}",
                       lambda t, m=model, v=rise, r=rule: level(t, m, t.baseline(r) + Fraction(v)))
        yield f"minimum-equivalent{at}", lambda t, m=model: minimum_equivalent(t, m)
        for rise in ("1.0", "1.5"):
            yield f"minimum-equivalent-plus-{rise}{at}", lambda t, m=model, v=rise: equivalent_plus(t, m, Fraction(v))
    for name, model in (("dmax", "cubic"), ("dmax-exponential", "exponential")):
        for ends in ("fitted", "measured"):
            yield f"{name} ends={ends}", lambda t, m=model, e=ends: dmax(t, m, e)
    for over in ("previous-stage", "baseline"):
        yield f"modified-dmax anchor={over}", lambda t, o=over: modified_dmax(t, "cubic", "measured", o)
        for ends in ("fitted", "measured"):
            yield f"modified-dmax-exponential ends={ends} anchor={over}", lambda t, e=ends, o=over: modified_dmax(t, "exponential", e, o)
    for model in ("exponential", "cubic"):
        yield f"fixed-slope curve={model}", lambda t, m=model: fixed_slope(t, m, None)
        yield f"fixed-slope curve={model} slope=0.03", lambda t, m=model: fixed_slope(t, m, Fraction("0.03"))
    yield "second-derivative", second_derivative
    yield "second-rise", second_rise
    yield "bisector", bisector


CASES = dict(cases())


def answer(method, test):
    try:
        return float(number(method(test)))
    except Refused as refused:
        return str(refused)


def all_segments(test):
    logs = lambda values: [mp.log(number(v)) for v in values]
    out = {}
    for name, x, y, breaks, least in (("two-segment", test.x, test.y, 1, 5), ("three-segment", test.x, test.y, 2, 7),
                                      ("log-log", logs(test.x), logs(test.y), 1, 5)):
        if test.n < least:
            continue
        try:
            sse, places = segments(x, y, test.w, breaks)
        except Refused:
            continue
        out[name] = {"sse": float(number(sse)), "breakpoints": [[float(number(k)) for k in ks] for ks in places]}
    return out


def real_tests():
    rows = {}
    with open(HERE.parent / "step-tests" / "sylta2016_cc0_stage_data.csv") as file:
        for row in csv.DictReader(file):
            if row["lactate"] not in ("", "NA"):
                rows.setdefault(f"{row['subject']}_{row['timepoint']}", []).append((row["watt"], row["lactate"]))
    return {name: sorted(r, key=lambda p: float(p[0])) for name, r in sorted(rows.items()) if len(r) >= 5}


def main():
    shapes = json.loads((HERE / "shapes.json").read_text())["shapes"]
    given = [(s["name"], s["axis"], list(zip(s["x"], s["y"]))) for s in shapes]
    given += [(f"real {name}", "power", rows) for name, rows in real_tests().items()]
    lines = []
    for name, axis, rows in given:
        test = Test(rows, axis)
        answers = [answer(method, test) for method in CASES.values()]
        record = {"name": name, "axis": axis, "x": [float(x) for x, _ in rows], "y": [float(y) for _, y in rows],
                  "segments": all_segments(test), "answers": answers}
        lines.append(json.dumps(record))
        print(name, sum(isinstance(a, float) for a in answers), "of", len(answers), flush=True)
    provenance = {"source": f"python fractions, mpmath {mp.__version__}, numpy {np.__version__}, scipy {scipy.__version__}",
                  "made": "tests/references/made-up/thresholds.py", "digits": "12; 9 on the spline"}
    (HERE / "thresholds.json").write_text(
        '{"provenance": ' + json.dumps(provenance) + ',\n"cases": ' + json.dumps(list(CASES)) + ',\n"tests": [\n' + ",\n".join(lines) + "\n]}\n")


if __name__ == "__main__":
    main()
