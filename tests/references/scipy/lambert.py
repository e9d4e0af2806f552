"""Where lactate over intensity is least on exponentials a + b·e^(c·(x − lo)), by scipy.special.lambertw:
`python3 lambert.py > lambert.json`. With w = c·x − 1 the condition x·f' = f is w·e^w = (a/b)·e^(c·lo − 1).
The ratio falls all the way where that lies beyond hi, and rises from lo where it lies before it or nowhere."""
import json
import numpy as np
import scipy
from scipy.special import lambertw

CASES = [  # lo, hi, a, b, growth over the range: invented
    (100, 340, 0.9, 0.02, 5.5), (100, 340, 0.8, 0.3, 3.0), (8, 15, 1.1, 0.05, 4.7), (6, 14, 0.4, 0.8, 1.7),
    (150, 375, 1.3, 0.001, 8.7), (200, 300, 1.0, 0.4, 2.0), (60, 320, 0.2, 1.0, 1.2), (60, 320, -0.3, 1.5, 1.0),
    (40, 320, -0.9, 1.2, 0.9), (100, 340, 4.0, 0.01, 3.0), (100, 340, 0.05, 1.0, 6.0),
]
cases = []
for lo, hi, a, b, growth in CASES:
    c = growth / (hi - lo)
    q = a / b * np.exp(c * lo - 1)
    x = float((lambertw(q).real + 1) / c) if q >= -np.exp(-1) else lo
    cases.append({'lo': lo, 'hi': hi, 'a': a, 'b': b, 'growth': growth, 'least': min(max(x, lo), hi)})
print(json.dumps({'provenance': {'source': f'scipy {scipy.__version__}', 'made': 'tests/references/scipy/lambert.py'},
                  'cases': cases}, indent=1))
