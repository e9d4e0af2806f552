# Run once with numpy and scipy: python3 reliability.py
import numpy as np, json, math
from scipy import stats
from scipy.odr import ODR, Model, RealData
o={}
a=np.array([62,78,81,55,66.]);b=np.array([67,76,87,55,63.]);d=b-a;n=len(d);sd=d.std(ddof=1);te=sd/math.sqrt(2);t=stats.t.ppf(.975,n-1)
allm=np.concatenate([a,b]).mean()
ssb=2*(((a+b)/2-allm)**2).sum();ssw=(((a-(a+b)/2)**2)+((b-(a+b)/2)**2)).sum()
MSb=ssb/(n-1); sst=((a-allm)**2).sum()+((b-allm)**2).sum(); ssc=n*((a.mean()-allm)**2+(b.mean()-allm)**2); MSe=(sst-ssb-ssc)/(n-1); MSw=ssw/n
la,lb=np.log(a),np.log(b); sl=(lb-la).std(ddof=1)/math.sqrt(2)
o['hopkins2000']=dict(trial1=a.tolist(),trial2=b.tolist(),diff=d.tolist(),mean_diff=d.mean(),sd_diff=sd,typical_error=te,typical_error_via_anova_sqrtMSe=math.sqrt(MSe),te_pct_of_mean=100*te/allm,cv_log_pct=100*(math.exp(sl)-1),t_975_4=t,loa_t=[d.mean()-t*sd,d.mean()+t*sd],loa_1p96=[d.mean()-1.96*sd,d.mean()+1.96*sd],icc_3_1=(MSb-MSe)/(MSb+MSe),icc_1_1=(MSb-MSw)/(MSb+MSw),pearson_r=np.corrcoef(a,b)[0,1],te_ci95=[te*math.sqrt((n-1)/stats.chi2.ppf(.975,n-1)),te*math.sqrt((n-1)/stats.chi2.ppf(.025,n-1))],sdc95_1p96_sqrt2_te=1.96*math.sqrt(2)*te,mean_diff_ci95=[d.mean()-t*sd/math.sqrt(n),d.mean()+t*sd/math.sqrt(n)],swc_0p2_betweenSD=0.2*a.std(ddof=1))
W=np.array([[494,490],[395,397],[516,512],[434,401],[476,470],[557,611],[413,415],[442,431],[650,638],[433,429],[417,420],[656,633],[267,275],[478,492],[178,165],[423,372],[427,421]],float)
M=np.array([[512,525],[430,415],[520,508],[428,444],[500,500],[600,625],[364,460],[380,390],[658,642],[445,432],[432,420],[626,605],[260,227],[477,467],[259,268],[350,370],[451,443]],float)
d=W[:,0]-M[:,0];n=17;sd=d.std(ddof=1);t=stats.t.ppf(.975,n-1)
rep=lambda X:2*math.sqrt(((X[:,0]-X[:,1])**2).mean())
rep196=lambda X:1.96*math.sqrt(((X[:,0]-X[:,1])**2).mean())
o['bland_altman_1986']=dict(wright=W.tolist(),mini=M.tolist(),bias=d.mean(),sd=sd,loa_2sd=[d.mean()-2*sd,d.mean()+2*sd],loa_1p96=[d.mean()-1.96*sd,d.mean()+1.96*sd],se_bias=sd/math.sqrt(n),ci_bias=[d.mean()-t*sd/math.sqrt(n),d.mean()+t*sd/math.sqrt(n)],se_loa_sqrt3_n=math.sqrt(3*sd**2/n),ci_lower_loa=[d.mean()-2*sd-t*math.sqrt(3*sd*sd/n),d.mean()-2*sd+t*math.sqrt(3*sd*sd/n)],ci_upper_loa=[d.mean()+2*sd-t*math.sqrt(3*sd*sd/n),d.mean()+2*sd+t*math.sqrt(3*sd*sd/n)],r_first=np.corrcoef(W[:,0],M[:,0])[0,1],repeatability_2s_wright=rep(W),repeatability_2s_mini=rep(M),repeat_1p96_wright=rep196(W),repeat_1p96_mini=rep196(M),within_sd_wright=math.sqrt(((W[:,0]-W[:,1])**2).mean()/2),within_sd_mini=math.sqrt(((M[:,0]-M[:,1])**2).mean()/2))
def deming(x,y,delta):
    x,y=np.array(x),np.array(y);n=len(x);sx=((x-x.mean())**2).sum();sy=((y-y.mean())**2).sum();sxy=((x-x.mean())*(y-y.mean())).sum()
    b=(sy-delta*sx+math.sqrt((sy-delta*sx)**2+4*delta*sxy**2))/(2*sxy);return b,y.mean()-b*x.mean()
x=[7,8.3,10.5,9,5.1,8.2,10.2,10.3,7.1,5.9];y=[7.9,8.2,9.6,9,6.5,7.3,10.2,10.6,6.3,5.2]
def jack(x,y,dl):
    n=len(x);b0,a0=deming(x,y,dl);ps=[];pa=[]
    for i in range(n):
        b,a=deming(np.delete(x,i),np.delete(y,i),dl);ps.append(n*b0-(n-1)*b);pa.append(n*a0-(n-1)*a)
    return np.std(ps,ddof=1)/math.sqrt(n),np.std(pa,ddof=1)/math.sqrt(n),np.mean(ps),np.mean(pa)
o['deming']={'x':x,'y':y}
for dl in (0.25,1.0,4.0):
    b,a=deming(x,y,dl);js=jack(x,y,dl)
    r=ODR(RealData(x,y,sx=1.0,sy=math.sqrt(dl)),Model(lambda B,z:B[0]+B[1]*z),beta0=[0,1]).run()
    o['deming'][f'delta_vary_over_varx={dl}']=dict(slope=b,intercept=a,odr_slope=r.beta[1],odr_intercept=r.beta[0],jackknife_se_slope=js[0],jackknife_se_intercept=js[1])
json.dump(o,open('reliability.json','w'),indent=1,default=float)
