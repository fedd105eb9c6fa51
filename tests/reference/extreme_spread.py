"""Extreme spread of n shots, sigma 1 per axis: mean and standard deviation.

Makes the table in crates/target/src/extreme.rs. numpy only; some minutes.
"""
import sys
import numpy as np

rng = np.random.default_rng(20260)
GROUPS = int(sys.argv[1]) if len(sys.argv) > 1 else 4_000_000
for n in list(range(2, 31)):
    got, s, q = 0, 0.0, 0.0
    while got < GROUPS:
        m = min(200_000, GROUPS - got)
        z = rng.standard_normal((m, n)) + 1j * rng.standard_normal((m, n))
        w = np.zeros(m)
        for k in range(1, n):
            w = np.maximum(w, np.abs(z[:, k:] - z[:, :-k]).max(axis=1))
        got, s, q = got + m, s + w.sum(), q + (w * w).sum()
    mean = s / got
    sd = (q / got - mean * mean) ** 0.5
    print(f"({n}, {mean:.4f}, {sd:.4f}), // +- {sd / got ** 0.5:.4f}", flush=True)
