"""Fits of bench readings by general libraries: numpy, scipy.

Prints what tests/exact/workbench_fits.rs holds."""
import numpy as np
from scipy.optimize import curve_fit, least_squares

# Invented readings: clock in degrees, indicator in micrometres.
clock = np.radians([0, 40, 95, 150, 210, 275, 330])
reading = np.array([131.0, 158.5, 139.0, 88.0, 51.5, 60.0, 104.0])


def wave(c, mean, a, b):
    return mean + a * np.cos(c) + b * np.sin(c)


fit, cov = curve_fit(wave, clock, reading, p0=[100, 10, 10])
left = reading - wave(clock, *fit)
noise = np.sqrt((left @ left) / (len(clock) - 3))
print("harmonic", [repr(float(v)) for v in fit])
print("noise", repr(float(noise)), "largest", repr(float(np.abs(left).max())))
print("errors of a, b, covariance", [repr(float(v)) for v in
      (np.sqrt(cov[1, 1]), np.sqrt(cov[2, 2]), cov[1, 2])])

# A round shaft of 3.124 mm radius, 40 um off the axis toward 130 degrees, with
# three lobes of 2 um: the geometric least-squares circle.
around = np.radians(np.arange(0, 360, 30))
radius = 3124 + 40 * np.cos(around - np.radians(130)) + 2 * np.cos(3 * around)
x, y = radius * np.cos(around), radius * np.sin(around)
circle = least_squares(lambda p: np.hypot(x - p[0], y - p[1]) - p[2], [0, 0, 3000],
                       xtol=1e-15, ftol=1e-15, gtol=1e-15).x
print("circle", [repr(float(v)) for v in circle])
