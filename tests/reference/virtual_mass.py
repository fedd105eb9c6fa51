"""Energy and virtual mass from invented chronograph readings.

1/v^2 = (m + M)/(2 E) is a line in m; M is its intercept over its slope. The
error of M to first order, from scipy's errors of slope and intercept and their
covariance -mean(m) var(slope).

Run: python virtual_mass.py
"""
import numpy as np
from scipy.stats import linregress

m = np.array([0.0232, 0.0265, 0.0275, 0.0324, 0.0389])
v = np.array([92.4, 87.1, 86.0, 79.9, 73.7])
fit = linregress(m, v**-2.0)
b, a = fit.slope, fit.intercept
vb, va = fit.stderr**2, fit.intercept_stderr**2
cov = -m.mean() * vb
error = np.sqrt(va / b**2 + a**2 / b**4 * vb - 2 * a / b**3 * cov)
print("energy %.12g virtual mass %.12g error %.12g" % (0.5 / b, a / b, error))
