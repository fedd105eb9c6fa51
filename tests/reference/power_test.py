"""Reference values for verdicts on two groups and for rounds, with scipy.

Prints: the power of the F test of two groups; how often few shots mislead;
the verdict on two groups of unequal size; the degrees of freedom of a mean
radius; the spread of a round.
"""

import numpy as np
from scipy.optimize import brentq
from scipy.special import gammaln, hyp2f1
from scipy.stats import f


def power(ratio, n, confidence):
    v = 2 * n - 2
    c = f.ppf(0.5 + confidence / 2, v, v)
    return f.sf(c / ratio**2, v, v) + f.cdf(1 / c / ratio**2, v, v)


print("power: ratio, shots, confidence, power")
for ratio in (1.2, 1.5, 2.0, 3.0):
    for n in (3, 6, 12, 36, 120):
        for confidence in (0.9, 0.95, 0.99):
            print(f"({ratio}, {n}, {confidence}, {power(ratio, n, confidence):.12f}),")

print("shots to tell: ratio, confidence, power, shots")
for ratio, confidence, wanted in (
    (1.2, 0.95, 0.9),
    (1.2, 0.9, 0.8),
    (1.5, 0.99, 0.8),
    (1.5, 0.99, 0.95),
    (2.0, 0.9, 0.5),
    (1.1, 0.99, 0.99),
):
    n = next(n for n in range(2, 10**6) if power(ratio, n, confidence) >= wanted)
    print(f"({ratio}, {confidence}, {wanted}, {n}),")

print("wrong, missed, reversed at 95 %: ratio, shots")
for ratio in (1.1, 1.3, 2.0):
    for n in (3, 6, 12, 36):
        v = 2 * n - 2
        c = f.ppf(0.975, v, v)
        wrong = f.cdf(1 / ratio**2, v, v)
        back = f.cdf(1 / c / ratio**2, v, v)
        print(f"({ratio}, {n}, {wrong:.12f}, {1 - power(ratio, n, 0.95):.12f}, {back:.12f}),")

print("verdict: sigma 1.7 of 8 shots, sigma 1 of 13, at 90 %: low, high, chance, least")
va, vb = 14, 24
hi, lo = f.ppf(0.95, va, vb), f.ppf(0.05, va, vb)
r = 1.7
least = brentq(lambda q: f.sf(hi / q**2, va, vb) + f.cdf(lo / q**2, va, vb) - 0.8, 1.001, 50)
print(r / hi**0.5, r / lo**0.5, 2 * f.sf(r * r, va, vb), least)


def chi_mean(v):
    return np.sqrt(2 / v) * np.exp(gammaln((v + 1) / 2) - gammaln(v / 2))


print("mean radius: shots, degrees of freedom, sigma over mean radius")
for n in (2, 3, 5, 6, 12, 36, 100, 1000):
    product = np.pi / 2 * hyp2f1(-0.5, -0.5, 1, (n - 1) ** -2.0)
    cv2 = (2 + (n - 1) * product) / (n * np.pi / 2) - 1
    v = brentq(lambda v: chi_mean(v) ** -2 - 1 - cv2, 1.8 * (n - 1), 2.01 * (n - 1), xtol=1e-14, rtol=1e-15)
    print(f"({n}, {v:.10f}, {chi_mean(v) / np.sqrt(np.pi / 2 * (1 - 1 / n)):.10f}),")

print("a round: face, inner ten, sigma, shaft, arrows: mean, deviation, 2.5 %, 97.5 %")
for face, inner, sigma, shaft, arrows in (
    (1.22, False, 0.107, 0.0055, 72),
    (0.40, True, 0.012, 0.0093, 60),
    (0.40, False, 0.03, 0.0055, 60),
):
    radii = [face / 2 * (11 - k) / 10 for k in range(1, 11)]
    if inner:
        radii[9] /= 2
    inside = [1 - np.exp(-((r + shaft / 2) ** 2) / (2 * sigma**2)) for r in radii]
    share = np.array([1 - inside[0]] + [inside[k] - inside[k + 1] for k in range(9)] + [inside[9]])
    total = np.array([1.0])
    for _ in range(arrows):
        total = np.convolve(total, share)
    x = np.arange(len(total))
    mean = (x * total).sum()
    sd = np.sqrt(((x - mean) ** 2 * total).sum())
    cum = np.cumsum(total)
    print(face, inner, sigma, shaft, arrows, f"{mean:.9f} {sd:.9f}", np.searchsorted(cum, 0.025), np.searchsorted(cum, 0.975))
