"""A small class of simulated athletes, tested and judged without any of the project's code: scipy's LSODA and root
finders for the athletes, numpy and scipy fits for the methods.

Run: python3 classBias.py > classBias.json
"""
import json, math
import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, least_squares, minimize_scalar

START, STEP, STAGE = 100.0, 30.0, 4.0
GRID = 1 / 30  # an athlete looks up every 2 s whether to stop


def rates(a, demand):
    def f(t, s):
        v, m, b = s
        q = min(v / a['maximalUptake'], 0.985)
        drive = math.sqrt(0.0631 * q / (1 - q))
        made = 60 * a['glycolyticRate'] / (1 + 1.331 / drive ** 3) / (1 + (m / a['inhibition']) ** 4)
        gone = 0.02049 * v / 0.40 / (1 + 3.0 / b ** 2) + 0.02 * b
        out = a['exchange'] * (m - b)
        wanted = min(demand, 0.985 * a['maximalUptake'])
        return [(wanted - v) / a['uptakeMinutes'], (made - out) / 0.35, (out + a['basalAppearance'] - gone) / 0.65]
    return f


def run(a, demand, state, minutes):
    return solve_ivp(rates(a, demand), (0, minutes[-1]), state, method='LSODA', rtol=1e-10, atol=1e-12, t_eval=minutes).y


def demand(a, watts):
    return 7 + 10.8 * watts / a['mass']


def truth(a):
    rest = run(a, a['restingUptake'], [a['restingUptake'], 1, 1], [1000])[:, -1]
    top = (a['maximalUptake'] - 7) * a['mass'] / 10.8
    bout = lambda w: run(a, demand(a, w), rest, [10, 30])[2]
    surplus = lambda w: bout(w)[1] - bout(w)[0] - 1
    shares = np.arange(0.4, 1.0, 0.02)
    first_above = next(s for s in shares if surplus(s * top) > 0)
    steady = brentq(lambda w: surplus(w), (first_above - 0.02) * top, first_above * top, xtol=1e-9)
    settled = lambda w: bout(w)[1]
    floor = minimize_scalar(settled, bounds=(0.2 * steady, steady), method='bounded', options=dict(xatol=1e-4))
    first = brentq(lambda w: settled(w) - floor.fun - 0.4, floor.x, steady, xtol=1e-9)
    return rest, steady, first


def step_test(a, rest):
    """Readings as a test sheet counts them: the last stage at its credited intensity, or left out below half."""
    x, y, state, watts = [], [], rest, START
    while True:
        times = np.arange(1, round(STAGE / GRID) + 1) * GRID
        path = run(a, demand(a, watts), state, times)
        over = np.nonzero(path[1] >= a['stopLactate'])[0]
        last = over[0] if len(over) else len(times) - 1
        done = times[last]
        if not len(over) or done > STAGE - 1 / 60:
            x.append(watts), y.append(path[2, last])
        elif done / STAGE >= 0.5:
            x.append(watts - STEP + STEP * done / STAGE), y.append(path[2, last])
        if len(over):
            return np.array(x), np.array(y)
        state, watts = path[:, -1], watts + STEP


def crossing(x, y, level):
    """The last upward crossing of straight lines between readings; None when it is never reached."""
    for i in range(len(x) - 2, -1, -1):
        if y[i] < level <= y[i + 1]:
            return x[i] + (level - y[i]) * (x[i + 1] - x[i]) / (y[i + 1] - y[i])
    return None


def farthest(curve, x):
    """The point of a curve farthest below the chord between its ends, by a bounded search from a grid."""
    chord = lambda at: curve(x[0]) + (curve(x[-1]) - curve(x[0])) * (at - x[0]) / (x[-1] - x[0])
    gap = lambda at: curve(at) - chord(at)
    grid = np.linspace(x[0], x[-1], 2001)
    best = int(np.argmin([gap(g) for g in grid]))
    low, high = grid[max(0, best - 1)], grid[min(2000, best + 1)]
    return minimize_scalar(gap, bounds=(low, high), method='bounded', options=dict(xatol=1e-9)).x


def methods(x, y):
    u = (x - x.mean()) / (x[-1] - x[0])
    cubic = np.polynomial.Polynomial.fit(x, y, 3)
    # Exponential plus constant: the best of many starts of the growth, the linear part solved exactly each time.
    def fitted(c):
        design = np.column_stack([np.ones_like(u), np.exp(c * u)])
        return design, np.linalg.lstsq(design, y, rcond=None)[0]
    def sse(c):
        design, coefficients = fitted(c)
        return float(np.sum((y - design @ coefficients) ** 2))
    grid = np.linspace(0.5, 29, 571)
    near = grid[int(np.argmin([sse(c) for c in grid]))]
    c = minimize_scalar(sse, bounds=(near - 0.06, near + 0.06), method='bounded', options=dict(xatol=1e-11)).x
    (a0, b0) = fitted(c)[1]
    exponential = lambda at: a0 + b0 * np.exp(c * (at - x.mean()) / (x[-1] - x[0]))
    baseline = min((y[:-1] + y[1:]) / 2)
    return {
        'baseline-plus-0.5': crossing(x, y, baseline + 0.5),
        'fixed-2.0': crossing(x, y, 2.0),
        'baseline-plus-1.5': crossing(x, y, baseline + 1.5),
        'fixed-4.0': crossing(x, y, 4.0),
        'dmax': farthest(cubic, x),
        'dmax-exponential': farthest(exponential, x),
    }


FIRST = {'baseline-plus-0.5', 'fixed-2.0'}
rng = np.random.default_rng(20261125)
athletes = []
while len(athletes) < 12:
    trained = rng.uniform()
    make = dict(mass=72, maximalUptake=42 + 33 * trained, restingUptake=5, uptakeMinutes=0.75 - 0.25 * trained,
                glycolyticRate=0.42 * math.exp(0.28 * rng.normal()), basalAppearance=0.093 * (1 + 0.12 * rng.normal()),
                exchange=0.4 * math.exp(0.2 * rng.normal()), stopLactate=18 + 1.5 * rng.normal(), inhibition=22)
    rest, steady, first = truth(make)
    x, y = step_test(make, rest)
    if len(x) < 5:
        continue
    athletes.append(dict(make=make, steady=steady, first=first, x=list(x), y=list(y), answers=methods(x, y)))

summary = {}
for name in athletes[0]['answers']:
    off = [a['answers'][name] / a['first' if name in FIRST else 'steady'] - 1 for a in athletes if a['answers'][name] is not None]
    summary[name] = dict(answered=len(off), bias=float(np.mean(off)), spread=float(np.std(off, ddof=1)))
print(json.dumps(dict(provenance=dict(source=f'scipy {scipy.__version__}, numpy {np.__version__}', made='python3 classBias.py > classBias.json, 2026-11-25', digits=6),
                      protocol=dict(start=START, increment=STEP, stageMinutes=STAGE), athletes=athletes, summary=summary)))
