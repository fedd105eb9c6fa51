"""Reference values for group statistics, from a general-purpose library.

Run:    python groups.py   (numpy and scipy)
Used:   tests/exact/{groups,faces,compare}.rs, tests/published/groups.rs, tests/stat/groups.rs
"""

from math import sqrt

import numpy as np
from scipy import stats

print("factors on sigma: n, both axes low and high, one axis low and high")
for n in (12,):
    row = [sqrt(v / stats.chi2.ppf(p, v)) for v in (2 * n - 2, n - 1) for p in (0.975, 0.025)]
    print(n, *map(float, row))

print("order statistics: share, n, lower and upper rank from one")
for share, n in ((0.5, 6), (0.5, 100), (0.9, 36), (0.9, 100)):
    at_most = stats.binom.cdf(np.arange(n + 1), n, share)
    low = np.searchsorted(at_most, 0.025, side="right")
    high = np.searchsorted(at_most, 0.975) + 1
    print(share, n, low, high)

print("Wilson interval: hits, of, low, high")
for hits, of in ((0, 10), (7, 10), (10, 10), (45, 50), (9500, 10000)):
    ends = stats.binomtest(hits, of).proportion_ci(0.95, "wilson")
    print(hits, of, float(ends.low), float(ends.high))
cover = 0.0
for hits in range(51):
    ends = stats.binomtest(hits, 50).proportion_ci(0.95, "wilson")
    cover += stats.binom.pmf(hits, 50, 0.8) * (ends.low <= 0.8 <= ends.high)
print("its exact cover at 0.8 of 50:", float(cover))

print("t interval of a mean")
scores = [9, 10, 8, 10, 7, 9, 9, 10]
print(*map(float, stats.t.interval(0.95, 7, np.mean(scores), stats.sem(scores))))

print("F factors on a ratio of sigmas, n 12 over n 20")
print(1 / sqrt(stats.f.ppf(0.975, 22, 38)), sqrt(stats.f.ppf(0.975, 38, 22)))


def power(ratio, n):
    """Chance that the two-sided 5 % F test tells two groups of n apart."""
    f = stats.f(2 * n - 2, 2 * n - 2)
    return f.sf(f.ppf(0.975) / ratio**2) + f.cdf(f.ppf(0.025) / ratio**2)


print("shots in each group until the power is 0.8")
for ratio in (1.001, 1.01, 1.02, 1.05, 1.1, 1.2, 1.3, 1.5, 2, 3, 5, 20):
    low, high = 1, 2
    while power(ratio, high) < 0.8:
        low, high = high, 2 * high
    while high - low > 1:
        mid = (low + high) // 2
        low, high = (mid, high) if power(ratio, mid) < 0.8 else (low, mid)
    print(ratio, high)
print("power at ratio 2, n 10:", float(power(2, 10)))

print("offset circle: R, d, sigma, chance")
for r, d, s in ((2, 1, 1), (1, 0, 1), (1, 5, 1), (0.1, 0.3, 0.2), (9, 9, 1), (9.5, 9, 1),
                (20, 21.5, 1), (100, 99, 1), (3, 10, 1), (1e4, 9999, 1)):
    print(r, d, s, float(stats.ncx2.cdf((r / s) ** 2, 2, (d / s) ** 2)))
