# Fits of best efforts with the error in proportion: run once with numpy and scipy, python3 durations.py > durations.json
import json
import numpy as np
from scipy.optimize import least_squares

SETS = {
    # The made-up trials of criticalPower.json, and four longer ones, ours.
    'five': ([1060, 560, 330, 205, 138], [280, 300, 330, 370, 420]),
    'six': ([120, 240, 480, 720, 1200, 2400], [405, 352, 322, 309, 294, 277]),
    'speed': ([182, 371, 742, 1510], [19.2, 18.1, 17.2, 16.6]),
}
TIGHT = dict(xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=200000)


def errors(result, n, p):
    s2 = 2 * result.cost / (n - p)
    return np.sqrt(np.diag(np.linalg.inv(result.jac.T @ result.jac)) * s2).tolist()


def best(f, starts, scale):
    return min((least_squares(f, s, x_scale=scale, **TIGHT) for s in starts), key=lambda r: r.cost)


def two(t, p):
    scale = [p.min(), 100 * p.min()]
    starts = [[c * p.min(), w * p.min()] for c in (.7, .85, .95) for w in (30, 80)]
    log_time = best(lambda q: np.log(t) - np.log(np.abs(q[1])) + np.log(np.abs(p - q[0])), starts, scale)
    power = best(lambda q: (p - q[0] - q[1] / t) / p, starts, scale)
    return {name: {'critical': r.x[0], 'reserve': r.x[1], 'errors': errors(r, len(t), 2)}
            for name, r in (('logTime', log_time), ('relativeIntensity', power))}


def three(t, p):
    scale = [p.min(), 100 * p.min(), p.max()]
    starts = [[c * p.min(), 80 * p.min(), m * p.max()] for c in (.8, .9, .95) for m in (1.5, 3)]

    def time(q):
        return q[1] / (p - q[0]) - q[1] / (q[2] - q[0])
    log_time = best(lambda q: np.log(t) - np.log(np.abs(time(q))), starts, scale)
    power = best(lambda q: (p - q[0] - q[1] / (t + q[1] / (q[2] - q[0]))) / p, starts, scale)
    return {name: {'critical': r.x[0], 'reserve': r.x[1], 'maximal': r.x[2], 'sse': 2 * r.cost}
            for name, r in (('logTime', log_time), ('relativeIntensity', power))}


def power_law(t, p):
    (slope, level), cov = np.polyfit(np.log(t), np.log(p), 1, cov=True)
    return {'scale': np.exp(level), 'exponent': slope, 'exponentError': np.sqrt(cov[0, 0])}


def decline(t, p):
    long = t >= 420
    x = np.log(t[long] / 420)
    slope, level = np.polyfit(x, p[long], 1, w=1 / p[long])
    return {'maximal': level, 'loss': -slope / level}


out = {}
for name, (t, p) in SETS.items():
    t, p = np.array(t, float), np.array(p, float)
    out[name] = {'seconds': t.tolist(), 'intensity': p.tolist(), 'two': two(t, p), 'three': three(t, p),
                 'powerLaw': power_law(t, p), 'decline': decline(t, p)}
print(json.dumps({'provenance': {'source': 'numpy and scipy.optimize.least_squares', 'made': 'durations.py, 2026-11-25'},
                  'sets': out}, indent=1, default=float))
