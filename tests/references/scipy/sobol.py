"""First-order and total Sobol indices by scipy.stats.sobol_indices, on values it is given: `python3 sobol.py > sobol.json`.

The model is Ishigami's, f = sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1, x uniform on (-π, π); its indices are known in closed
form (Ishigami & Homma 1990). The second output is straight, 1·x1 + 2·x2 + 3·x3.
"""
import json
import sys

import numpy
import scipy
from scipy.stats import sobol_indices

A, B = 7.0, 0.1


def ishigami(x):
    return numpy.sin(x[0]) + A * numpy.sin(x[1]) ** 2 + B * x[2] ** 4 * numpy.sin(x[0])


def straight(x):
    return x[0] + 2 * x[1] + 3 * x[2]


def closed_form():
    pi = numpy.pi
    v1 = 0.5 * (1 + B * pi**4 / 5) ** 2
    v2 = A**2 / 8
    v13 = B**2 * pi**8 * (1 / 18 - 1 / 50)
    total = v1 + v2 + v13
    return {"first": [v1 / total, v2 / total, 0.0], "total": [(v1 + v13) / total, v2 / total, v13 / total]}


rng = numpy.random.default_rng(7)
a, b = rng.uniform(-numpy.pi, numpy.pi, (2, 3, 64))
mixed = []
for i in range(3):
    one = a.copy()
    one[i] = b[i]
    mixed.append(one)

cases = {}
for name, model in [("ishigami", ishigami), ("straight", straight)]:
    values = {
        "f_A": model(a)[None, :],
        "f_B": model(b)[None, :],
        "f_AB": numpy.array([model(one) for one in mixed])[:, None, :],
    }
    found = sobol_indices(func=values, n=64)
    cases[name] = {
        "a": values["f_A"][0].tolist(),
        "b": values["f_B"][0].tolist(),
        "mixed": values["f_AB"][:, 0].tolist(),
        "first": numpy.ravel(found.first_order).tolist(),
        "total": numpy.ravel(found.total_order).tolist(),
    }

json.dump(
    {
        "provenance": {
            "source": f"scipy {scipy.__version__} stats.sobol_indices, numpy {numpy.__version__}",
            "made": "tests/references/scipy/sobol.py",
            "digits": 12,
        },
        "closedForm": {"ishigami": closed_form(), "straight": {"first": [1 / 14, 4 / 14, 9 / 14], "total": [1 / 14, 4 / 14, 9 / 14]}},
        "cases": cases,
    },
    sys.stdout,
)
