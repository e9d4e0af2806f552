# The examples of JCGM 101:2008, clause 9, by closed forms, numerical convolution and numpy; run with python3, scipy.
# Its output is "recomputed" in clause9.json.
import numpy as np, json, math
from scipy import stats, optimize, integrate
out={}
# 9.2.2
out['9.2.2_normal']=dict(model='Y=X1+X2+X3+X4, Xi~N(0,1)',exact=dict(y=0,u=2.0,ci95=[-2*stats.norm.ppf(.975),2*stats.norm.ppf(.975)]))
# 9.2.3 exact Irwin-Hall(4)
q=brent=optimize.brentq(lambda d:stats.norm.cdf(0)-.5+ (sum((-1)**k*math.comb(4,k)*max(0,(d/(2*math.sqrt(3))+2)-k)**4 for k in range(5))/24)-.975,0,6.9)
out['9.2.3_rectangular']=dict(model='Y=sum of 4 rectangulars, mean 0, sd 1 each',exact=dict(y=0,u=2.0,ci95=[-q,q],closed_form=2*math.sqrt(3)*(2-(3/5)**.25)),guf=[-3.92,3.92])
# 9.2.4 sd 1,1,1,10: CDF by conv with wide rect: P(Y<=y)=E[F4(y-S3)]
r=math.sqrt(3); 
def ih3cdf(s):
    t=(s/(2*r))+1.5
    if t<=0: return 0.
    if t>=3: return 1.
    return sum((-1)**k*math.comb(3,k)*max(0,t-k)**3 for k in range(4))/6
R=10*r
def F(y): return integrate.quad(lambda w:ih3cdf(y-w)/(2*R),-R,R,points=[max(-R,min(R,y-3*r)),max(-R,min(R,y+3*r))],limit=400)[0]
q4=optimize.brentq(lambda y:F(y)-.975,10,25)
out['9.2.4_diffwidth']=dict(model='as 9.2.3 but X4 sd 10',exact=dict(y=0,u=math.sqrt(103),ci95=[-q4,q4]),guf=[-1.959964*math.sqrt(103),1.959964*math.sqrt(103)])
# 9.3 mass calibration MC
rng=np.random.default_rng(20080101); N=20_000_000
acc=[]
for _ in range(4):
    n=N//4
    mR=rng.normal(100000,.05,n); dm=rng.normal(1.234,.02,n); ra=rng.uniform(1.1,1.3,n); rW=rng.uniform(7000,9000,n); rR=rng.uniform(7950,8050,n)
    acc.append((mR+dm)*(1+(ra-1.2)*(1/rW-1/rR))-100000)
y=np.concatenate(acc); y.sort()
def shortest(y,p=.95):
    n=len(y); k=int(round(p*n)); w=y[k:]-y[:n-k]; i=int(np.argmin(w)); return float(y[i]),float(y[i+k])
out['9.3_mass']=dict(model='dm=(mRc+dmRc)*(1+(ra-1.2)*(1/rW-1/rR))-mnom [mg, kg/m3]',inputs='mRc N(100000,0.050) dmRc N(1.234,0.020) ra R[1.10,1.30] rW R[7000,9000] rR R[7950,8050] mnom=100000',mc20M=dict(y=float(y.mean()),u=float(y.std()),ci95_prob_sym=[float(np.quantile(y,.025)),float(np.quantile(y,.975))],ci95_shortest=shortest(y)))
# exact second moments for 9.3
m2=lambda a,b:((b-a)**2)/12
# u1 (first order): sqrt(.05^2+.02^2)
u1=math.sqrt(.05**2+.02**2)
out['9.3_mass']['guf1']=dict(y=1.2340,u=u1,ci95=[1.234-1.959964*u1,1.234+1.959964*u1])
# 2nd-order: add 1/2 fij^2 ui^2 uj^2 terms for (ra,rW),(ra,rR)
fw=-(100001.234)/8000**2; ura=.2/math.sqrt(12); urw=2000/math.sqrt(12); urr=100/math.sqrt(12)
u2=math.sqrt(u1**2+(fw*ura*urw)**2+(fw*ura*urr)**2)
out['9.3_mass']['guf2']=dict(y=1.2340,u=u2,ci95=[1.234-1.959964*u2,1.234+1.959964*u2])
# 9.4 comparison loss dY=X1^2+X2^2, u=0.005 (rho=0: scaled noncentral chi2; rho=0.9: 2-D grid convolution)
s=.005
def shortest_from_cdf(q,c,p=.95):
    lo=np.interp(np.linspace(0,1-p,4001)[1:],c,q); hi=np.interp(np.linspace(0,1-p,4001)[1:]+p,c,q)
    lo=np.r_[0.0,lo]; hi=np.r_[np.interp(p,c,q),hi]; i=int(np.argmin(hi-lo)); return [float(lo[i]),float(hi[i])]
for x1 in (0.,.010,.050):
  for rho in (0.,.9):
    C=np.array([[1,rho],[rho,1]])*s*s; mu0=np.array([x1,0.]); mean=x1**2+2*s*s; var=2*np.trace(C@C)+4*mu0@C@mu0
    if rho==0:
        d=stats.ncx2(2,(x1/s)**2) if x1>0 else stats.chi2(2)
        pp=lambda p:d.ppf(p)*s*s; sym=[pp(.025),pp(.975)]
        ps=np.linspace(0,.05,2001)[:-1]; lo=np.array([0. if t==0 else pp(t) for t in ps]); hi=np.array([pp(t+.95) for t in ps]); i=int(np.argmin(hi-lo)); sh=[float(lo[i]),float(hi[i])]
    else:
        ev,V=np.linalg.eigh(C); mu=V.T@mu0; sa,sb=np.sqrt(ev)
        t=np.linspace(mu[1]-9*sb,mu[1]+9*sb,6001); w=stats.norm.pdf((t-mu[1])/sb)/sb*(t[1]-t[0])
        q=np.linspace(0,mean+12*math.sqrt(var),6001); c=np.zeros_like(q)
        for i,qq in enumerate(q):
            rr=np.sqrt(np.maximum(0,qq-t*t)); c[i]=np.sum(w*np.where(qq>t*t,stats.norm.cdf((rr-mu[0])/sa)-stats.norm.cdf((-rr-mu[0])/sa),0))
        c=np.maximum.accumulate(c); sym=[float(np.interp(.025,c,q)),float(np.interp(.975,c,q))]; sh=shortest_from_cdf(q,c)
    out[f'9.4_x1={x1}_r={rho}']=dict(y_e6=mean*1e6,u_e6=math.sqrt(var)*1e6,ci95_prob_sym_e6=[v*1e6 for v in sym],ci95_shortest_e6=[v*1e6 for v in sh],guf1=dict(y_e6=x1**2*1e6,u_e6=2*x1*s*1e6,ci95_e6=[(x1**2-1.959964*2*x1*s)*1e6,(x1**2+1.959964*2*x1*s)*1e6]),guf2_u_e6=math.sqrt((2*x1*s)**2+4*s**4*(1+0*rho))*1e6)
json.dump(out,open('recomputed.json','w'),indent=1)
