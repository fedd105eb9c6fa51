"""Hotelling's two-sample test and its power, by numpy and scipy.

Values for crates/target/src/centre.rs. Groups are invented.
"""
import numpy as np
from scipy import stats

A = np.array([[0.8, -1.2], [-0.5, 0.3], [1.4, 0.9], [-1.1, -0.4], [0.2, 1.6], [0.1, -0.9]])
B = np.array([[2.1, 0.4], [1.2, -1.5], [3.0, 1.1], [0.7, 0.2], [2.4, -0.6]])
n, m = len(A), len(B)
d = B.mean(0) - A.mean(0)
s = ((n - 1) * np.cov(A.T) + (m - 1) * np.cov(B.T)) / (n + m - 2)
t2 = n * m / (n + m) * d @ np.linalg.solve(s, d)
f = t2 * (n + m - 3) / (2 * (n + m - 2))
print("T2", repr(t2), "F", repr(f), "p", repr(stats.f.sf(f, 2, n + m - 3)))
D2 = d @ np.linalg.solve(s, d)
print("D2", repr(D2))
for k in (5, 10, 20):
    crit = stats.f.isf(0.05, 2, 2 * k - 3)
    print(k, "power", repr(stats.ncf.sf(crit, 2, 2 * k - 3, k / 2 * 1.0)))
for d2 in (1.0, D2):
    k = 3
    while stats.ncf.sf(stats.f.isf(0.05, 2, 2 * k - 3), 2, 2 * k - 3, k / 2 * d2) < 0.8:
        k += 1
    print("D2", d2, "shots each", k)
