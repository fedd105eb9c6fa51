"""Launch angles, marks and hill shots by a dense numerical solution.

A point mass with drag -k v|v| and free fall g on a slope, integrated in time
with DOP853 at rtol 1e-13; the arrow's point rides `front` ahead of it along the
launch direction, which never turns. The launch angle is solved so that the
point meets the line to the target; eye and pin are points of the plane that
turns with the arrow. Also what the cosine rule does.

Run: python sight_marks.py
"""
import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

g, k, v0, front = 9.80665, 0.0016, 80.0, 0.3
height, radius = 0.1, 0.8


def fly(launch, slope, distance):
    """State of the point mass as it passes a distance along the slope."""
    def rhs(t, s):
        x, z, u, w = s
        speed = np.hypot(u, w)
        return [u, w, -k * speed * u - g * np.sin(slope), -k * speed * w - g * np.cos(slope)]

    def there(t, s):
        return s[0] - distance
    there.terminal = True
    start = [0.0, 0.0, v0 * np.cos(launch), v0 * np.sin(launch)]
    out = solve_ivp(rhs, (0, 30), start, method="DOP853", rtol=1e-13, atol=1e-13, events=there)
    return out.t_events[0][0], out.y_events[0][0]


def tip(launch, slope, distance):
    """Height of the point above the line to the target, at a distance."""
    _, s = fly(launch, slope, distance - front)
    return s[1] + front * np.sin(launch)


def launch(distance, slope=0.0):
    return brentq(lambda a: tip(a, slope, distance), -0.05, 0.4, xtol=1e-14, rtol=1e-14)


def dip(a, distance):
    """Line of sight below the arrow, from eye and target as points."""
    eye = np.array([-height * np.sin(a), height * np.cos(a)])
    to = np.array([distance, 0.0]) - eye
    return a - np.arctan2(to[1], to[0])


def level(distance):
    return dip(launch(distance), distance)


if __name__ == "__main__":
    for d in (20.0, 40.0, 60.0):
        t, s = fly(launch(d), 0.0, d - front)
        pin = height - radius * np.tan(level(d))
        print("level %g launch %.12f pin %.12f time %.10f speed %.9f pitch %.10f" % (
            d, launch(d), pin, t, np.hypot(s[2], s[3]), np.arctan2(s[3], s[2])))
    a = launch(60.0)
    slope_of = np.tan(a - level(60.0))
    over = lambda x: tip(a, 0.0, x) - (height * np.cos(a) + (x + height * np.sin(a)) * slope_of)
    best = minimize_scalar(lambda x: -over(x), bounds=(5, 59), method="bounded",
                           options={"xatol": 1e-7})
    print("arc of 60: highest %.9f at %.5f" % (over(best.x), best.x))
    a = launch(20.0)
    slope_of = np.tan(a - level(20.0))
    for x in (10.0, 40.0, 60.0):
        line = height * np.cos(a) + (x + height * np.sin(a)) * slope_of
        print("zero 20: above sight at %g: %.9f" % (x, tip(a, 0.0, x) - line))
    for degrees in (-45, -30, 30, 45):
        slope = np.radians(degrees)
        for d in (40.0, 60.0):
            a = launch(d, slope)
            want = dip(a, d)
            dial = brentq(lambda x: level(x) - want, 12.0, 70.0, xtol=1e-10)
            cosine = level(d * np.cos(slope))
            used = brentq(lambda b: dip(b, d) - cosine, -0.05, 0.4, xtol=1e-14)
            print("slope %d distance %g: launch %.12f dial %.7f cosine high %.9f" % (
                degrees, d, a, dial, tip(used, slope, d)))
