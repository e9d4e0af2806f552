"""Reference values for tests/numerics, from mpmath (30 digits) and numpy. Run: python3 numerics.py
Writes numerics.json beside this file."""
import json, pathlib
import mpmath as mp
import numpy as np
from numpy.polynomial import polynomial as P

mp.mp.dps = 40
f = lambda v: float(mp.mpf(v))
out = {'provenance': {'source': f'mpmath {mp.__version__}, numpy {np.__version__}', 'made': 'tests/references/scipy/numerics.py',
                      'digits': 16}}
out['logGamma'] = [[x, f(mp.loggamma(mp.mpf(x)))] for x in [0.1, 0.5, 1.5, 3, 7.25, 30, 171, 1e4]]
out['normalCdf'] = [[z, f(mp.ncdf(mp.mpf(z)))] for z in [-30, -12, -8, -5, -3, -1.5, -0.7, -0.1, -1e-6, 0, 1e-6, 0.3, 1, 2.2, 4, 7]]
ps = ['1e-300', '1e-100', '1e-20', '1e-10', '1e-6', '0.001', '0.025', '0.1', '0.3', '0.4999', '0.5', '0.6', '0.9', '0.975', '0.999']
# The quantile of the double nearest to p, not of the decimal.
out['normalQuantile'] = [[float(p), f(mp.sqrt(2) * mp.erfinv(2 * mp.mpf(float(p)) - 1)) if float(p) > 1e-15
                          else f(mp.findroot(lambda z: mp.log(mp.ncdf(z)) - mp.log(mp.mpf(float(p))), -mp.sqrt(-2 * mp.log(mp.mpf(float(p))))))]
                         for p in ps]
out['chiSquareTail'] = [[x, k, f(mp.gammainc(mp.mpf(k) / 2, mp.mpf(x) / 2, mp.inf, regularized=True))]
                        for x, k in [(0.001, 1), (3.84, 1), (0.5, 2), (11.1, 4), (5.5, 5), (60, 3), (300, 5), (2, 40), (40, 40), (90, 40), (1e-6, 2)]]
rng = np.random.default_rng(20261125)
roots = []
for k in range(24):
    degree = 1 + k % 4
    c = rng.normal(size=degree + 1).round(3)
    # Polish numpy's eigenvalue roots to full precision with mpmath, keep the real ones inside.
    exact = mp.polyroots([mp.mpf(float(v)) for v in c[::-1]], maxsteps=500, extraprec=200)
    inside = sorted(f(r.real) for r in map(mp.mpc, exact) if abs(r.imag) < mp.mpf(10) ** -25 and -2 <= r.real <= 2)
    roots.append({'coefficients': c.tolist(), 'roots': inside})
out['roots'] = {'lo': -2, 'hi': 2, 'cases': roots}
pathlib.Path(__file__).with_suffix('.json').write_text(json.dumps(out, indent=1))
