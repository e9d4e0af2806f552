# Run once with numpy and scipy: python3 physiology.py
import json, math, numpy as np
from scipy import stats
o={}
pm=[]
for rq in [0.7036]+[round(.71+.01*i,2) for i in range(29)]+[0.996]:
    cho=4.585*rq-3.226;fat=1.695-1.701*rq; pm.append(dict(rq=rq,cho_g_per_L=round(max(cho,0),4),fat_g_per_L=round(max(fat,0),4),pct_energy_cho=round(100*max(cho,0)*3.868/(max(cho,0)*3.868+max(fat,0)*9.746),1)))
o['peronnet_massicotte_from_coefficients']=dict(eq='CHO=4.585*VCO2-3.226*VO2; FAT=1.695*VO2-1.701*VCO2 [g/min, L/min STPD], N neglected',status='coefficients FROM MEMORY; consistency check: zero crossings',zero_cho_rq=3.226/4.585,zero_fat_rq=1.695/1.701,table=pm)
o['pm_example']=dict(VO2=3.0,VCO2=2.7,cho=4.585*2.7-3.226*3,fat=1.695*3-1.701*2.7)
acsm=dict(cycle=lambda W,M:10.8*W/M+7,walk=lambda S,G:.1*S+1.8*S*G+3.5,run=lambda S,G:.2*S+.9*S*G+3.5)
o['acsm']=dict(eqs='walk 0.1S+1.8SG+3.5; run 0.2S+0.9SG+3.5; leg cycle 1.8(kgm/min)/M+7 = 10.8 W/M+7; arm 3(kgm/min)/M+3.5; step 0.2f+1.33*1.8*H*f+3.5  (mL/kg/min; S m/min, G fraction)',examples=[dict(ex='leg cycle 62 kg 450 kgm/min (published answer 20)',value=1.8*450/62+7),dict(ex='walk 3.5 mph=93.8 m/min 10% (published answer 29.76)',value=acsm['walk'](93.8,.10)),dict(ex='run 200 m/min 0%',value=acsm['run'](200,0)),dict(ex='cycle 250 W 75 kg',value=acsm['cycle'](250,75))])
def pi(a,b,c):
    if c>a: return None
    if b==0: return math.log10(a/(b+.01)*(c-.01)*100)
    return 0.0 if c==0 else math.log10(a/b*c*100)
o['polarization_index']=dict(eq='PI=log10(Z1/Z2*Z3*100), fractions; polarized if PI>2.00 (and Z1>Z3>Z2); Z2=0 rule log10(Z1/(Z2+0.01)*(Z3-0.01)*100) FROM MEMORY',examples=[dict(z=z,pi=pi(*z)) for z in [(.80,.05,.15),(.75,.10,.15),(.68,.06,.26),(.80,.15,.05),(.78,.11,.11),(.90,.05,.05),(.46,.35,.19),(.80,.0,.20),(.91,.064,.026)]])
o['lusk_worked']=dict(VO2_L_h=15.7,VCO2_L_h=12.0,rq=12/15.7,kcal_per_L=4.751,kcal_h=15.7*4.751)
o['dist_refs']=dict(t975={str(n):stats.t.ppf(.975,n) for n in (1,2,3,4,5,6,7,8,10,16,20,30)},norm={str(p):stats.norm.ppf(p) for p in (.8,.9,.95,.975,.995)},chi2_975={str(n):stats.chi2.ppf(.975,n) for n in (1,2,4,5,10)},chi2_025={str(n):stats.chi2.ppf(.025,n) for n in (1,2,4,5,10)},F95={'2,5':stats.f.ppf(.95,2,5),'3,4':stats.f.ppf(.95,3,4)})
json.dump(o,open('physiology.json','w'),indent=1,default=float)

