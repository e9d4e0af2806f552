"""Independent integration of the simulated athletes from their equations, by scipy's LSODA (rtol 1e-10).

Run: python3 lactate.py > lactate.json
"""
import json, math
import scipy
from scipy.integrate import solve_ivp

ATHLETES = {
    'cyclist': dict(mass=72, top=65, rest=5.0, rate=0.42, basal=0.095, exchange=0.40, tau=32 / 60, inhibition=22, demand=lambda w: 7 + 10.8 * w / 72, between=(200, 400)),
    'runner': dict(mass=75, top=48, rest=4.5, rate=0.48, basal=0.090, exchange=0.40, tau=40 / 60, inhibition=22, demand=lambda v: 3.5 + 0.2 * v * 1000 / 60, between=(6, 13)),
}


def rates(a, demand):
    def f(t, s):
        v, m, b = s
        q = min(v / a['top'], 0.985)
        drive = math.sqrt(0.0631 * q / (1 - q))
        made = 60 * a['rate'] / (1 + 1.331 / drive ** 3) / (1 + (m / a['inhibition']) ** 4)
        gone = 0.02049 * v / 0.40 / (1 + 3.0 / b ** 2) + 0.02 * b
        out = a['exchange'] * (m - b)
        return [(min(demand, 0.985 * a['top']) - v) / a['tau'], (made - out) / 0.35, (out + a['basal'] - gone) / 0.65]
    return f


def run(a, demand, state, minutes):
    s = solve_ivp(rates(a, demand), (0, minutes[-1]), state, method='LSODA', rtol=1e-10, atol=1e-12, t_eval=minutes)
    return s.y


def one(a):
    rest = run(a, a['rest'], [a['rest'], 1, 1], [1000])[:, -1]
    minutes = [5, 10, 15, 20, 25, 30]
    bout = lambda x: run(a, a['demand'](x), rest, minutes)[2]
    lo, hi = a['between']
    for _ in range(50):
        mid = (lo + hi) / 2
        y = bout(mid)
        if y[5] - y[1] > 1:
            hi = mid
        else:
            lo = mid
    return dict(rest=rest[2], steadyState=lo, bouts=[dict(share=k, lactate=list(bout(k * lo))) for k in (0.9, 1, 1.1)], minutes=minutes)


print(json.dumps(dict(provenance=dict(source=f'scipy {scipy.__version__} solve_ivp LSODA', made='python3 lactate.py > lactate.json, 2026-11-25', digits=6), **{k: one(a) for k, a in ATHLETES.items()})))
