"""Group-sequential boundaries, two-sided 5 %: numpy and scipy, recursive integration.

For crates/target/src/sequential.rs.
"""
import numpy as np
from scipy import stats, optimize
def cross(bounds):
    # exact by recursive integration of Brownian motion on K equal looks
    K=len(bounds)
    g=np.linspace(-8,8,2001)
    # work in score scale S_k = Z_k*sqrt(k), increments N(0,1)
    h=None
    lim=bounds[0]*1.0
    x=np.linspace(-lim,lim,2001); dx=x[1]-x[0]
    w=np.full(2001,dx); w[0]=w[-1]=dx/2
    f=stats.norm.pdf(x)
    for k in range(2,K+1):
        lim2=bounds[k-1]*np.sqrt(k)
        y=np.linspace(-lim2,lim2,2001)
        ker=stats.norm.pdf(y[:,None]-x[None,:])
        f=ker@(w*f); x=y; dx=x[1]-x[0]; w=np.full(2001,dx); w[0]=w[-1]=dx/2
    return 1-(w*f).sum()
for K in (1,2,3,4,5):
    po=optimize.brentq(lambda c:cross([c]*K)-.05,1.5,4)
    of=optimize.brentq(lambda c:cross([c*np.sqrt(K/k) for k in range(1,K+1)])-.05,1.5,4)
    print(K,po,of)
