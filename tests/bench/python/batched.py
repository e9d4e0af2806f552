"""All draws at once in numpy, by the algorithms that Hourline uses: what our speed is compared with.

Reads {x, y, error, draws, rounds} on standard input; writes {microseconds, answers: {method: [mean, sd, refused]}}.
"""
import json
import sys
import time

import numpy as np

from draws import readings

LEVELS = {"fixed-2.0": 2.0, "fixed-3.0": 3.0, "fixed-3.5": 3.5, "fixed-4.0": 4.0}
RISES = {"baseline-plus-0.5": 0.5, "baseline-plus-1.0": 1.0, "baseline-plus-1.5": 1.5}
SUSTAINED = 0.4


class Cubic:
    """Least-squares cubic in u = (x - middle)/half for every row of readings; c is (4, draws)."""

    def __init__(self, x):
        self.middle, self.half = (x[0] + x[-1]) / 2, (x[-1] - x[0]) / 2
        u = (x - self.middle) / self.half
        self.projection = np.linalg.pinv(np.vander(u, 4, increasing=True))

    def fit(self, y):
        self.c = self.projection @ y.T

    def at(self, u):
        c = self.c
        return c[0] + u * (c[1] + u * (c[2] + u * c[3]))

    def slope(self, u):
        c = self.c
        return c[1] + u * (2 * c[2] + 3 * u * c[3])


def cubic_roots(a, b, c, d):
    """Real roots of a u³ + b u² + c u + d, three rows, NaN where there is none."""
    p = (3 * a * c - b * b) / (3 * a * a)
    q = (2 * b**3 - 9 * a * b * c + 27 * a * a * d) / (27 * a**3)
    shift = -b / (3 * a)
    inner = (q / 2) ** 2 + (p / 3) ** 3
    root = np.sqrt(np.maximum(inner, 0))
    one = np.cbrt(-q / 2 + root) + np.cbrt(-q / 2 - root)
    size = 2 * np.sqrt(np.maximum(-p / 3, 0))
    with np.errstate(invalid="ignore", divide="ignore"):
        angle = np.arccos(np.clip(3 * q / (p * size), -1, 1)) / 3
    three = [size * np.cos(angle - 2 * np.pi * k / 3) for k in range(3)]
    single = inner > 0
    rows = [np.where(single, one, three[0]), np.where(single, np.nan, three[1]), np.where(single, np.nan, three[2])]
    return np.array(rows) + shift


def crossing(cubic, level):
    """Last upward crossing of a level in the tested range, with two Newton steps for the digits."""
    c = cubic.c
    roots = cubic_roots(c[3], c[2], c[1], c[0] - level)
    for _ in range(2):
        roots = roots - (cubic.at(roots) - level) / cubic.slope(roots)
    good = (np.abs(roots) <= 1) & (cubic.slope(roots) > 0)
    best = np.max(np.where(good, roots, -np.inf), axis=0)
    return np.where(np.isfinite(best), cubic.middle + cubic.half * best, np.nan)


def least_ratio(cubic, x):
    """Where f(x)/x is least: ends and the roots of x f' - f; NaN at an end."""
    m, h = cubic.middle, cubic.half
    c0, c1, c2, c3 = cubic.c
    # With x = m + h·u: (m/h + u)·(c1 + 2 c2 u + 3 c3 u²) - f(u).
    s = m / h
    u = cubic_roots(2 * c3, c2 + 3 * c3 * s, 2 * c2 * s, c1 * s - c0)
    inside = np.abs(u) < 1
    ratio = np.where(inside, cubic.at(u) / (m + h * u), np.inf)
    k = np.argmin(ratio, axis=0)
    rows = np.arange(u.shape[1])
    best, least = u[k, rows], ratio[k, rows]
    left, right = cubic.at(-1.0) / x[0], cubic.at(1.0) / x[-1]
    return np.where(least < np.minimum(left, right), best, np.where(left <= right, -1.0, 1.0))


def tangent(cubic, slope, start, start_y):
    """Where the cubic, bending upward, has this slope to the right of start and lies below the chord; slope per u."""
    c = cubic.c
    with np.errstate(invalid="ignore", divide="ignore"):
        root = np.sqrt(4 * c[2] ** 2 - 12 * c[3] * (c[1] - slope))
        u = (-2 * c[2] + root) / (6 * c[3])
        good = (u > start) & (u < 1) & (cubic.at(u) < start_y + slope * (u - start))
    return np.where(good, cubic.middle + cubic.half * u, np.nan)


class Runs:
    """Straight lines through every run of neighbouring points: intercept, slope, sum of squares."""

    def __init__(self, x):
        self.x, n = x, len(x)
        self.pairs = [(a, b) for a in range(n) for b in range(a + 1, n)]
        self.place = {pair: k for k, pair in enumerate(self.pairs)}
        matrix = np.zeros((2 * len(self.pairs), n))
        for k, (a, b) in enumerate(self.pairs):
            matrix[2 * k : 2 * k + 2, a : b + 1] = np.linalg.pinv(np.vander(x[a : b + 1], 2, increasing=True))
        self.matrix = matrix

    def fit(self, y):
        both = self.matrix @ y.T
        self.intercept, self.slope = both[0::2], both[1::2]
        sums = np.zeros((3, len(self.x) + 1, y.shape[0]))
        np.cumsum(y.T, axis=0, out=sums[0, 1:])
        np.cumsum(y.T * self.x[:, None], axis=0, out=sums[1, 1:])
        np.cumsum(y.T**2, axis=0, out=sums[2, 1:])
        first, last = np.array(self.pairs).T
        sy, sxy, syy = sums[:, last + 1] - sums[:, first]
        self.sse = np.maximum(syy - self.intercept * sy - self.slope * sxy, 0)

    def line(self, a, b):
        k = self.place[(a, b)]
        return self.intercept[k], self.slope[k], self.sse[k]


class Broken:
    """Exact least squares of two or three joined lines with rising slopes (Hudson 1966): every combination is tried."""

    def __init__(self, x, breaks):
        self.middle, self.half = (x[0] + x[-1]) / 2, (x[-1] - x[0]) / 2
        self.x = (x - self.middle) / self.half
        self.breaks = breaks
        self.runs = Runs(self.x)
        self.hinges = {}

    def hinge(self, a, b, m, first=None):
        """Rows that give the bend at a corner on the run a..b, what a line does taken out, and its intercept and slope."""
        key = (a, b, m, first)
        if key not in self.hinges:
            t = self.x[a : b + 1]
            columns = [np.ones_like(t), t] + [np.maximum(0, t - self.x[k]) for k in ([m] if first is None else [first, m])]
            self.hinges[key] = np.linalg.pinv(np.array(columns).T)
        return self.hinges[key]

    def on(self, y, a, b, m, first=None):
        rows = self.hinge(a, b, m, first)
        beta = rows @ y[:, a : b + 1].T
        t = self.x[a : b + 1]
        columns = [np.ones_like(t), t] + [np.maximum(0, t - self.x[k]) for k in ([m] if first is None else [first, m])]
        rest = y[:, a : b + 1].T - np.array(columns).T @ beta
        return beta, np.einsum("ij,ij->j", rest, rest)

    def meet(self, i, left, right):
        with np.errstate(invalid="ignore", divide="ignore"):
            k = (left[0] - right[0]) / (right[1] - left[1])
        good = (right[1] > left[1]) & (k > self.x[i]) & (k < self.x[i + 1])
        return np.where(good, k, np.nan)

    def fit(self, y):
        y = y - y.mean(axis=1, keepdims=True)
        self.tie = 1e-12 * np.einsum("ij,ij->i", y, y)
        self.runs.fit(y)
        n, draws = len(self.x), len(y)
        self.sse = np.full(draws, np.inf)
        self.best = np.full((self.breaks, draws), np.nan)
        (self.one if self.breaks == 1 else self.two)(y, n)
        return self.middle + self.half * self.best

    def offer(self, sse, *places):
        """Of equally good breakpoints the smallest first one: with one reading between them many are."""
        sse = np.where(np.isfinite(sum(places)), sse, np.inf)
        with np.errstate(invalid="ignore"):
            level = np.abs(sse - self.sse) <= self.tie
        better = np.where(level, places[0] < self.best[0], sse < self.sse)
        self.sse = np.where(better, sse, self.sse)
        for j, place in enumerate(places):
            self.best[j] = np.where(better, place, self.best[j])

    def one(self, y, n):
        line = self.runs.line
        for i in range(1, n - 2):
            left, right = line(0, i), line(i + 1, n - 1)
            self.offer(left[2] + right[2], self.meet(i, left, right))
        for m in range(1, n - 1):
            beta, sse = self.on(y, 0, n - 1, m)
            self.offer(sse, np.where(beta[2] > 0, self.x[m], np.nan))

    def two(self, y, n):
        line = self.runs.line
        for i in range(1, n - 4):
            for j in range(i + 2, n - 2):
                a, b, c = line(0, i), line(i + 1, j), line(j + 1, n - 1)
                self.offer(a[2] + b[2] + c[2], self.meet(i, a, b), self.meet(j, b, c))
        for m in range(1, n - 2):
            for q in range(m + 1, n - 1):
                beta, sse = self.on(y, 0, n - 1, q, m)
                good = (beta[2] > 0) & (beta[3] > 0)
                self.offer(sse, np.where(good, self.x[m], np.nan), np.where(good, self.x[q], np.nan))
        for i in range(1, n - 3):
            for m in range(i + 2, n - 1):
                beta, sse = self.on(y, i + 1, n - 1, m)
                first = self.meet(i, line(0, i), beta)
                self.offer(sse + line(0, i)[2], np.where(beta[2] > 0, first, np.nan), np.full(len(y), self.x[m]))
        for j in range(2, n - 2):
            for m in range(1, j):
                beta, sse = self.on(y, 0, j, m)
                steep = (beta[0] - beta[2] * self.x[m], beta[1] + beta[2])
                second = self.meet(j, steep, line(j + 1, n - 1))
                self.offer(sse + line(j + 1, n - 1)[2], np.full(len(y), self.x[m]), np.where(beta[2] > 0, second, np.nan))


class Exponential:
    """y = a + b e^{gz}: one projection for each of 48 trial growths, then Newton on the derivative of what is explained."""

    TRIALS = 48

    def __init__(self, x):
        self.x, self.width = x, x[-1] - x[0]
        self.z = (x - x[0]) / self.width
        self.growths = 0.02 * (30 / 0.02) ** (np.arange(self.TRIALS) / (self.TRIALS - 1))
        phi = np.expm1(np.outer(self.growths, self.z)) / self.growths[:, None]
        phi -= phi.mean(axis=1, keepdims=True)
        self.bases = phi / np.linalg.norm(phi, axis=1, keepdims=True)

    def fit(self, y):
        centred = y - y.mean(axis=1, keepdims=True)
        explained = (centred @ self.bases.T) ** 2
        k = np.argmax(explained, axis=1)
        edge = (k == 0) | (k == self.TRIALS - 1)
        inner = np.clip(k, 1, self.TRIALS - 2)
        g, rows = self.growths[inner], np.arange(len(y))
        # A parabola through the three best trials, in the logarithm of the growth, then Newton.
        e = [explained[rows, inner + d] for d in (-1, 0, 1)]
        step = np.log(self.growths[1] / self.growths[0])
        with np.errstate(invalid="ignore", divide="ignore"):
            g = g * np.exp(step * np.clip(0.5 * (e[0] - e[2]) / (e[0] - 2 * e[1] + e[2]), -1, 1))
        for _ in range(4):
            g = np.clip(g - self.newton(centred, g), 0.02, 30)
        power = np.exp(g[:, None] * self.z)
        phi = (power - 1) / g[:, None]
        mean = phi.mean(axis=1)
        phi -= mean[:, None]
        rise = np.einsum("ij,ij->i", phi, centred) / np.einsum("ij,ij->i", phi, phi)
        return np.where(edge, np.nan, g), rise

    def newton(self, y, g):
        z, g = self.z, g[:, None]
        power = np.exp(g * z)
        phi = (power - 1) / g
        first = (z * power - phi) / g
        second = (z * z * power - 2 * first) / g
        phi, first, second = (v - v.mean(axis=1, keepdims=True) for v in (phi, first, second))
        dot = lambda a, b: np.einsum("ij,ij->i", a, b)
        s00, s01, s11, s02 = dot(phi, phi), dot(phi, first), dot(first, first), dot(phi, second)
        n0, n1, n2 = dot(phi, y), dot(first, y), dot(second, y)
        rise = n0 / s00
        climb = n1 - rise * s01
        change = n2 - s01 * (n1 - 2 * rise * s01) / s00 - rise * (s11 + s02)
        return climb / (change - climb * s01 / s00)


class Methods:
    def __init__(self, x):
        self.x = x
        self.cubic, self.exponential = Cubic(x), Exponential(x)
        self.log_log, self.three = Broken(np.log(x), 1), Broken(x, 2)

    def answers(self, y):
        x, cubic = self.x, self.cubic
        n, half = len(x), self.cubic.half
        cubic.fit(y)
        out = {name: crossing(cubic, level) for name, level in LEVELS.items()}
        baseline = np.min((y[:, 1:] + y[:, :-1]) / 2, axis=1)
        out.update({name: crossing(cubic, baseline + rise) for name, rise in RISES.items()})
        out["log-log"] = np.exp(self.log_log.fit(np.log(y))[0])
        u = least_ratio(cubic, x)
        out["minimum-equivalent"] = np.where(np.abs(u) < 1, cubic.middle + half * u, np.nan)
        out["minimum-equivalent-plus-1.5"] = crossing(cubic, cubic.at(u) + 1.5)
        low, high = cubic.at(-1.0), cubic.at(1.0)
        out["dmax"] = tangent(cubic, (high - low) / 2, -1.0, low)
        rises = np.diff(y, axis=1) > SUSTAINED
        start = np.argmax(rises, axis=1)
        good = rises.any(axis=1) & (start < n - 2)
        at, rows = (x[start] - cubic.middle) / half, np.arange(len(y))
        chord = (y[:, -1] - y[rows, start]) / np.where(good, 1 - at, 1)
        out["modified-dmax"] = np.where(good, tangent(cubic, chord, at, y[rows, start]), np.nan)
        g, rise = self.exponential.fit(y)
        with np.errstate(invalid="ignore", divide="ignore"):
            out["dmax-exponential"] = np.where(rise > 0, x[0] + self.exponential.width / g * np.log(np.expm1(g) / g), np.nan)
        out["turn-point-1"], out["turn-point-2"] = self.three.fit(y)
        later = np.minimum.accumulate(y[:, ::-1], axis=1)[:, ::-1][:, 1:]
        up = later - y[:, :-1] > SUSTAINED
        stage = np.argmax(up, axis=1)
        out["first-rise"] = np.where(up.any(axis=1) & (stage > 0), x[stage], np.nan)
        return out


def main():
    given = json.load(sys.stdin)
    x, y = np.array(given["x"], float), np.array(given["y"], float)
    rng = np.random.default_rng(1)
    methods = Methods(x)
    taken = []
    for _ in range(given["rounds"]):
        start = time.perf_counter()
        answers = methods.answers(readings(rng, x, y, given["error"], given["draws"]))
        taken.append(time.perf_counter() - start)
    told = {}
    for name, values in answers.items():
        good = values[np.isfinite(values)]
        told[name] = [float(good.mean()), float(good.std(ddof=1)), float(1 - len(good) / len(values))]
    json.dump({"microseconds": 1e6 * min(taken) / given["draws"], "answers": told}, sys.stdout)


main()
