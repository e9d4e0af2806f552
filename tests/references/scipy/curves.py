"""Reference fits of every curve model for tests/physiology/curves, by means other than those of src: mpmath and
scipy instead of projections, numerical search instead of enumeration. Run: python3 curves.py (two minutes).
Writes curves.json beside this file.

Shapes: A and B are invented teaching tests; '10_pre', '1_pre', '3_pre', '10_meso1' are step tests of the CC0 set that
comes with Sylta et al. 2016, Med Sci Sports Exerc 48:2165-2174 (R package exscidata by D. Hammarstrom); the others are
invented."""
import itertools, json, pathlib
import mpmath as mp
import numpy as np
import scipy
from scipy.interpolate import make_smoothing_spline
from scipy.optimize import brentq, minimize, minimize_scalar

mp.mp.dps = 40
SHAPES = {
    'A': ([100, 140, 180, 220, 260, 300, 340], [0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9]),
    'B': ([8, 9, 10, 11, 12, 13, 14, 15], [1.3, 1.2, 1.3, 1.5, 1.9, 2.7, 4.2, 7.1]),
    '10_pre': ([125, 175, 225, 250, 275, 300, 325, 350], [0.93, 0.87, 0.86, 0.92, 1.2, 1.69, 2.6, 4.69]),
    '1_pre': ([125, 175, 225, 250, 275], [1.5, 1.86, 2.38, 3.54, 6.21]),
    '3_pre': ([125, 175, 225, 250, 275, 300, 325], [1.17, 1.52, 1.22, 1.54, 2.04, 3.32, 4.72]),
    '10_meso1': ([125, 175, 225, 275, 325, 350], [0.95, 0.96, 1.0, 1.41, 2.88, 4.8]),
    'dip at the start': ([80, 110, 140, 170, 200, 230, 260, 290], [2.1, 1.4, 1.2, 1.3, 1.6, 2.4, 3.9, 6.6]),
    'gentle': ([6, 7, 8, 9, 10, 11, 12, 13, 14], [1.0, 1.2, 1.3, 1.6, 1.8, 2.3, 2.9, 3.6, 4.6]),
    'two straight parts': ([100, 125, 150, 175, 200, 225, 250, 275], [1.0, 1.05, 1.1, 1.2, 1.9, 2.8, 3.6, 4.5]),
    'noisy': ([90, 120, 150, 180, 210, 240, 270, 300, 330, 360], [1.6, 1.1, 1.5, 1.2, 1.9, 1.6, 2.8, 3.1, 5.2, 9.4]),
    'last rise only': ([100, 130, 160, 190, 220, 250, 280], [1.0, 1.1, 1.0, 0.9, 1.0, 1.1, 6.0]),
    'nearly straight': ([100, 140, 180, 220, 260, 300], [1.0, 1.52, 1.95, 2.55, 3.0, 3.52]),
    'falling': ([100, 140, 180, 220, 260, 300, 340], [5.0, 3.2, 2.2, 1.6, 1.3, 1.1, 1.0]),
    'flattens at the top': ([8, 9, 10, 11, 12, 13, 14, 15, 16], [1.1, 1.0, 1.3, 1.9, 3.2, 4.6, 5.6, 6.2, 6.5]),
    'uneven steps': ([50, 120, 150, 165, 180, 210, 225, 240, 300], [0.8, 0.9, 1.1, 1.0, 1.3, 1.8, 2.2, 3.0, 8.2]),
    'many stages': (list(range(100, 400, 20)), [1.2, 1.1, 1.0, 1.1, 1.0, 1.2, 1.3, 1.3, 1.6, 1.9, 2.4, 3.0, 4.1, 5.5, 7.6]),
    'weighted': ([100, 140, 180, 220, 260, 300, 340, 380], [1.4, 1.0, 1.2, 1.3, 1.9, 2.7, 4.4, 8.3], [1, 2, 1, 1, 3, 2, 1, 1]),
}
fl = lambda v: float(v)


def weighted_lstsq(columns, y, w):
    """Exact to 40 digits: coefficients and weighted SSE."""
    n = len(y)
    root = [mp.sqrt(v) for v in w]
    a = mp.matrix([[root[i] * c[i] for c in columns] for i in range(n)])
    b = mp.matrix([root[i] * mp.mpf(y[i]) for i in range(n)])
    coef, _ = mp.qr_solve(a, b)
    r = a * coef - b
    return list(coef), sum(v * v for v in r)


def polynomial(x, y, w, degree):
    x = [mp.mpf(v) for v in x]
    m, h = (x[0] + x[-1]) / 2, (x[-1] - x[0]) / 2
    u = [(v - m) / h for v in x]
    c, sse = weighted_lstsq([[v ** k for v in u] for k in range(degree + 1)], y, w)
    f = lambda v: sum(ck * ((v - m) / h) ** k for k, ck in enumerate(c))
    return {'coefficients': [fl(v) for v in c], 'sse': fl(sse), **readings_of(f, x)}


def readings_of(f, x):
    """Last upward crossing of 2 and 4 right of the lowest point; lowest point; by a fine grid and mpmath's root finder."""
    grid = [x[0] + (x[-1] - x[0]) * mp.mpf(i) / 2000 for i in range(2001)]
    values = [f(v) for v in grid]
    low = min(range(2001), key=lambda i: values[i])
    lowest = grid[low]
    if 0 < low < 2000:
        lowest = mp.findroot(lambda v: mp.diff(f, v), grid[low])
    out = {'lowest': fl(lowest)}
    for level in (2, 4):
        i = max((i for i in range(low, 2000) if values[i] < level <= values[i + 1]), default=None)
        out[f'at{level}'] = None if i is None else fl(mp.findroot(lambda v: f(v) - level, (grid[i], grid[i + 1]), solver='anderson'))
    return out


def exponential(x, y, w):
    lo, width = mp.mpf(x[0]), mp.mpf(x[-1] - x[0])
    z = [(mp.mpf(v) - lo) / width for v in x]

    def fit(g):
        return weighted_lstsq([[1] * len(z), [mp.expm1(g * v) / g for v in z]], y, w)

    def sse_fast(g):
        a = np.sqrt(np.array(w))[:, None] * np.column_stack([np.ones(len(z)), np.expm1(g * np.array(z, float)) / g])
        b = np.sqrt(np.array(w)) * np.array(y)
        r = a @ np.linalg.lstsq(a, b, rcond=None)[0] - b
        return r @ r

    grid = np.geomspace(0.02, 30, 3000)
    s = [sse_fast(g) for g in grid]
    best = int(np.argmin(s))
    if best in (0, len(grid) - 1):
        return {'status': 'singular'}
    # Golden section in 40 digits: rounding does not matter, so the place of the minimum is good to 16.
    a, b = mp.mpf(grid[best - 1]), mp.mpf(grid[best + 1])
    ratio = (mp.sqrt(5) - 1) / 2
    c, d = b - ratio * (b - a), a + ratio * (b - a)
    fc, fd = fit(c)[1], fit(d)[1]
    for _ in range(85):
        if fc < fd:
            b, d, fd = d, c, fc
            c = b - ratio * (b - a)
            fc = fit(c)[1]
        else:
            a, c, fc = c, d, fd
            d = a + ratio * (b - a)
            fd = fit(d)[1]
    g = (a + b) / 2
    (start, rise), sse = fit(g)
    if rise <= 0:
        return {'status': 'not-convex'}
    f = lambda v: start + rise * mp.expm1(g * (v - lo) / width) / g
    return {'status': 'ok', 'constant': fl(start - rise / g), 'amplitude': fl(rise / g), 'rate': fl(g / width), 'sse': fl(sse),
            **{k: v for k, v in readings_of(f, [mp.mpf(v) for v in x]).items() if k != 'lowest'}}


def segments(x, y, w, breaks):
    """Least SSE over all admissible convex broken lines, by numerical search in every cell."""
    x, y, root = np.array(x, float), np.array(y, float), np.sqrt(np.array(w, float))
    m, h = (x[0] + x[-1]) / 2, (x[-1] - x[0]) / 2
    u = (x - m) / h
    n = len(x)
    spread = np.sqrt(np.average((y - np.average(y, weights=w)) ** 2, weights=w))

    def solve(ks):
        a = np.column_stack([np.ones(n), u] + [np.maximum(0, u - k) for k in ks])
        c = np.linalg.lstsq(root[:, None] * a, root * y, rcond=None)[0]
        r = root * (a @ c - y)
        return float(r @ r), bool(np.all(c[2:] > 1e-9 * spread))

    def admissible(ks):
        if any(b <= a for a, b in zip(ks, ks[1:])):
            return False
        ends = [-np.inf, *ks, np.inf]
        return all(np.sum((u >= a) & (u <= b)) >= 2 for a, b in zip(ends, ends[1:]))

    best = (np.inf, None)

    def offer(ks):
        nonlocal best
        ks = [float(k) for k in ks]
        if admissible(ks):
            sse, convex = solve(ks)
            if convex and (sse < best[0] - 1e-11 or (sse < best[0] + 1e-11 and ks < best[1])):
                best = (sse, ks)

    points = list(u[1:-1])
    cells = [(u[i], u[i + 1]) for i in range(n - 1)]
    choices = [('point', p) for p in points] + [('cell', c) for c in cells]
    for combo in itertools.product(choices, repeat=breaks):
        free = [j for j, (kind, _) in enumerate(combo) if kind == 'cell']
        fixed = [value if kind == 'point' else None for kind, value in combo]
        if not free:
            offer(fixed)
            continue
        middle = [value if kind == 'point' else sum(value) / 2 for kind, value in combo]
        if not admissible(middle):
            continue

        def place(t):
            ks = list(fixed)
            for j, v in zip(free, np.atleast_1d(t)):
                a, b = combo[j][1]
                ks[j] = a + (b - a) * float(v)
            return ks

        cost = lambda t: solve(place(t))[0] + 1e3 * float(np.sum(np.maximum(0, np.abs(np.atleast_1d(t) - 0.5) - 0.4999999) ** 2))
        starts = itertools.product(np.linspace(0.06, 0.94, 9 if len(free) == 1 else 5), repeat=len(free))
        start = min(starts, key=cost)
        if len(free) == 1:
            t = minimize_scalar(cost, bounds=(max(0, start[0] - 0.15), min(1, start[0] + 0.15)), method='bounded', options={'xatol': 1e-12}).x
        else:
            t = minimize(cost, start, method='Nelder-Mead', options={'xatol': 1e-10, 'fatol': 1e-16, 'maxiter': 4000}).x
        if np.all((np.atleast_1d(t) > 0) & (np.atleast_1d(t) < 1)):
            offer(place(t))
    if best[1] is None:
        return {'status': 'not-convex'}
    return {'status': 'ok', 'breakpoints': [m + h * k for k in best[1]], 'sse': best[0]}


def spline(x, y, w):
    n = len(x)
    z = (np.array(x, float) - x[0]) / (x[-1] - x[0])
    df = min(4.5, n - 1.5)
    fit = lambda v, lam: make_smoothing_spline(z, v, w=np.array(w, float), lam=lam)
    trace = lambda loglam: sum(float(fit(np.eye(n)[i], np.exp(loglam))(z[i])) for i in range(n))
    loglam = brentq(lambda l: trace(l) - df, -25, 10, xtol=1e-13, rtol=1e-14)
    s = fit(np.array(y, float), np.exp(loglam))
    places = [0.05, 0.31, 0.5, 0.77, 0.98]
    return {'lambda': float(np.exp(loglam)), 'fitted': s(z).tolist(), 'places': places,
            'between': s(places).tolist(), 'slopes': s.derivative()(places).tolist(), 'curvatures': s.derivative(2)(places).tolist()}


out = {'provenance': {'source': f'mpmath {mp.__version__}, numpy {np.__version__}, scipy {scipy.__version__}',
                      'made': 'tests/references/scipy/curves.py',
                      'digits': 'polynomials and exponential 15, spline 9, breakpoints 6 (12 in the sum of squares)'},
       'shapes': {}}
for name, (x, y, *weights) in SHAPES.items():
    n = len(x)
    w = weights[0] if weights else [1] * n
    fits = {'quadratic': polynomial(x, y, w, 2), 'cubic': polynomial(x, y, w, 3), 'quartic': polynomial(x, y, w, 4),
            'exponential': exponential(x, y, w), 'two-segment': segments(x, y, w, 1),
            'logLog': segments(np.log(x).tolist(), np.log(y).tolist(), w, 1)}
    if n >= 7:
        fits['three-segment'] = segments(x, y, w, 2)
    if n >= 5:
        fits['spline'] = spline(x, y, w)
    out['shapes'][name] = {'x': x, 'y': y, 'count': w, 'fits': fits}
    print(name, fits['exponential'].get('status'), fits['two-segment'], fits.get('three-segment'), flush=True)
pathlib.Path(__file__).with_suffix('.json').write_text(json.dumps(out, indent=1))
