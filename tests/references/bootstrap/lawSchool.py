# Efron's law-school data (Efron & Tibshirani 1993, An Introduction to the Bootstrap, table 3.1; from memory): the
# correlation of 15 pairs, its percentile and BCa intervals by 400,000 case bootstraps. Run with python3, numpy, scipy.
import json, math
import numpy as np
from scipy import stats
L=np.array([576,635,558,578,666,580,555,661,651,605,653,575,545,572,594.])
G=np.array([3.39,3.30,2.81,3.03,3.44,3.07,3.00,3.43,3.36,3.13,3.12,2.74,2.76,2.88,2.96])
n=15
c=lambda i:np.corrcoef(L[i],G[i])[0,1]
th=c(np.arange(n));jk=np.array([c(np.delete(np.arange(n),i)) for i in range(n)])
rng=np.random.default_rng(1);B=400000;idx=rng.integers(0,n,(B,n));l=L[idx];g=G[idx]
l=l-l.mean(1,keepdims=True);g=g-g.mean(1,keepdims=True)
with np.errstate(invalid='ignore'): bs=(l*g).sum(1)/np.sqrt((l*l).sum(1)*(g*g).sum(1))
bs=bs[np.isfinite(bs)]
z0=stats.norm.ppf((bs<th).mean());dj=jk.mean()-jk;acc=(dj**3).sum()/(6*((dj**2).sum())**1.5)
def bca(share):
    return [float(np.quantile(bs,stats.norm.cdf(z0+(z0+z)/(1-acc*(z0+z))))) for z in stats.norm.ppf([(1-share)/2,(1+share)/2])]
out=dict(provenance=dict(source="Efron's law-school data (table from memory); numpy, scipy",made='tests/references/bootstrap/lawSchool.py',draws=B),
 lsat=L.tolist(),gpa=G.tolist(),correlation=th,jackknifeError=math.sqrt((n-1)/n*((jk-jk.mean())**2).sum()),
 bootstrapError=bs.std(ddof=1),percentile95=[float(v) for v in np.quantile(bs,[.025,.975])],biasCorrection=z0,acceleration=acc,bca95=bca(.95),bca90=bca(.9))
json.dump(out,open('lawSchool.json','w'),indent=1,default=float)
