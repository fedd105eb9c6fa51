"""Reference for the rigid push: full (not small-angle) planar motion.

Written apart from the crate: time is the independent variable, the arrow is a
rigid body with three coordinates, the string pulls from the nock groove toward
the middle of the tip line, and the rest pushes at right angles to the push
line. SciPy DOP853, relative tolerance 1e-12. The offset is made small, so the
difference from the linear equations is below 1e-6 of the result.

Run: python push.py
"""
import numpy as np
from scipy.integrate import solve_ivp

m, I, lever = 0.0275, 1.9e-3, 0.46
stroke, speed = 0.51, 86.0
restraint, tip = 0.7, 0.04
k, c, share, ahead = 1500.0, 0.9, 0.35, 0.17
hold, climb, fall = 0.2, 0.25, 0.75


def smooth(t):
    return t * t * (3 - 2 * t)


def shape(s):
    if s < climb:
        return hold + (1 - hold) * smooth(s / climb)
    if s > fall:
        return 1 - smooth((s - fall) / (1 - fall))
    return 1.0


AREA = (hold + 1) / 2 * climb + (fall - climb) + (1 - fall) / 2


def rhs(t, z, e, b, tilt, held):
    x, y, th, vx, vy, w = z  # x: nock groove's travel along the push line
    s = x / stroke
    F = 0.5 * m * speed**2 / stroke / AREA * shape(min(s, 1.0))
    left = stroke - x
    # Groove from the balance point, in the range frame.
    rx = -lever * np.cos(th) - e * np.sin(th)
    ry = -lever * np.sin(th) + e * np.cos(th)
    S = -restraint * F / (tip + left) * (y + ry)
    Fy, torque = S, rx * S - ry * F
    if held:
        arm = ahead + left - lever
        u = y + arm * np.tan(th + tilt) - b
        ud = vy - vx * np.tan(th + tilt) + arm * w / np.cos(th + tilt) ** 2
        R = -k * u - c * ud
        Fy += R
        torque += arm * R
    return [vx, vy, w, F / m, Fy / m, torque / I]


def run(e, b, tilt):
    rest = ahead + stroke
    th = (e + b - (rest - lever) * tilt) / rest
    z = [0.0, lever * th - e, th, 0.0, 0.0, 0.0]
    t = 0.0
    for target, held in ((share, True), (1.0, False)):
        reach = lambda t, z, *a: z[0] - target * stroke
        reach.terminal = True
        sol = solve_ivp(rhs, (t, 1.0), z, "DOP853", args=(e, b, tilt, held),
                        events=reach, rtol=1e-12, atol=1e-16)
        t, z = sol.t[-1], sol.y[:, -1]
    return t, z


for name, args in (("groove", (1e-6, 0, 0)), ("balance", (0, 1e-6, 0)), ("tilt", (0, 0, 1e-6))):
    t, z = run(*args)
    print(name, "time %.9f speed %.9f" % (t, z[3]),
          "place %.9f angle %.9f velocity %.9f rate %.9f" % tuple(
              1e6 * v for v in (z[1], z[2], z[4], z[5])))
