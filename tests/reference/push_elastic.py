"""Reference for the elastic push, sideways plane.

Written apart from the crate: time is the independent variable, the arrow is a
finite-element beam with all its bending modes up to a chosen number and no
shape for the rest, flaws enter as they lie from the line through nock and rest
at full draw (the crate counts from the principal axis), and SciPy DOP853
integrates to 1e-10. Numbers settle to 1e-5 at 52 motions (all 98, by Radau, give
the same). The beam is the tests' shared hunting arrow, the bow
their shared compound.

Run: python push_elastic.py
"""
import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import eigh

rear, front = 0.010, 0.730
EI, density, gyration2 = 7.266869273834174, 0.0204, 4.0925e-6
lumps = [  # mass, station, own inertia
    (0.0032, 0.718, 1.85674666666667e-7),
    (0.0065, 0.737, 8.822829166666683e-7),
    (0.0006, 0.0075, 4.34915e-8),
    (0.00135, 0.05181278538812785, 2.6952823480015e-7),
]
zeta = 0.02
stroke, restraint, tip_line = 0.51, 0.7, 0.04
k, c, share, ahead = 1500.0, 0.9, 0.35, 0.17
hold, climb, fall = 0.2, 0.25, 0.75
mass = density * (front - rear) + sum(m for m, _, _ in lumps)
speed = 86.0 * np.sqrt((0.0275 + 0.0055) / (mass + 0.0055))

ELEMENTS = 48
h = (front - rear) / ELEMENTS
NODES = 2 * ELEMENTS + 2


def shape(x):
    """Displacement and slope of the beam at x as weights of nodal values."""
    e = int(min(max((x - rear) // h, 0), ELEMENTS - 1))
    end = min(max(x, rear), front)
    t = (end - rear) / h - e
    w = np.zeros(NODES)
    d = np.zeros(NODES)
    w[2 * e : 2 * e + 4] = [1 - 3 * t**2 + 2 * t**3, h * (t - 2 * t**2 + t**3),
                            3 * t**2 - 2 * t**3, h * (t**3 - t**2)]
    d[2 * e : 2 * e + 4] = [(6 * t**2 - 6 * t) / h, 1 - 4 * t + 3 * t**2,
                            (6 * t - 6 * t**2) / h, 3 * t**2 - 2 * t]
    return w + (x - end) * d, d


gauss, weights = np.polynomial.legendre.leggauss(5)
gauss, weights = (gauss + 1) / 2, weights / 2


def integral(f, cuts):
    cuts = np.unique(cuts)
    return sum(w * (b - a) * f(a + g * (b - a))
               for a, b in zip(cuts, cuts[1:]) for g, w in zip(gauss, weights))


grid = rear + h * np.arange(ELEMENTS + 1)
M = integral(lambda x: density * (np.outer(shape(x)[0], shape(x)[0])
                                  + gyration2 * np.outer(shape(x)[1], shape(x)[1])), grid)
for m, x, inertia in lumps:
    w, d = shape(x)
    M += m * np.outer(w, w) + inertia * np.outer(d, d)
K = np.zeros((NODES, NODES))
for e in range(ELEMENTS):
    K[2 * e : 2 * e + 4, 2 * e : 2 * e + 4] += EI / h**3 * np.array(
        [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
         [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])


def pushed(x):
    """Mass ahead of x."""
    return density * (front - max(x, rear)) + sum(m for m, s, _ in lumps if s > x)


cuts = np.concatenate(([0.0], grid, [s for _, s, _ in lumps]))
cuts = cuts[cuts >= 0]
G = integral(lambda x: pushed(x) * np.outer(shape(x)[1], shape(x)[1]), cuts)
square, modes = eigh(K, M)
square[:2] = 0.0

AREA = (hold + 1) / 2 * climb + (fall - climb) + (1 - fall) / 2


def smooth(t):
    return t * t * (3 - 2 * t)


def law(s):
    if s < climb:
        return hold + (1 - hold) * smooth(s / climb)
    if s > fall:
        return 1 - smooth((s - fall) / (1 - fall))
    return 1.0


def run(count, groove=0.0, curvature=0.0, beside=0.0):
    """Groove beside the shaft's line, natural curvature, point beside it."""
    phi = modes[:, :count]
    omega = np.sqrt(square[:count])
    middle = (rear + front) / 2

    def natural(x):
        end = min(max(x, rear), front)
        f, d = curvature / 2 * (end - middle) ** 2, curvature * (end - middle)
        return f + d * (x - end), d

    w0, d0 = shape(0.0)
    nock = natural(0.0)[0] + groove
    # Chord: nock and the shaft at the rest lie on the push line at full draw.
    there = ahead + stroke
    lean = -(natural(there)[0] - nock) / there
    start = np.zeros(NODES)
    start[0::2], start[1::2] = -nock + lean * grid, lean
    thrust = integral(lambda x: pushed(x) * natural(x)[1] * shape(x)[1], cuts)
    thrust += lumps[1][0] * beside * shape(lumps[1][1])[1] - mass * groove * d0
    thrust, G_, w0_ = phi.T @ thrust, phi.T @ G @ phi, phi.T @ w0
    q0 = phi.T @ M @ start

    def rhs(t, y, held):
        x, v, q, r = y[0], y[1], y[2 : 2 + count], y[2 + count :]
        a = speed**2 / 2 / stroke / AREA * law(min(x / stroke, 1.0))
        left = stroke - x
        f = a * (G_ @ q + thrust) - square[:count] * q - 2 * zeta * omega * r
        f -= w0_ * restraint * mass * a / (tip_line + left) * (w0_ @ q + nock)
        if held:
            w, d = (phi.T @ z for z in shape(ahead + left))
            n, s = natural(ahead + left)
            f -= w * (k * (w @ q + n) + c * (w @ r - v * (d @ q + s)))
        return np.concatenate(([v, a], r, f))

    y, t = np.concatenate(([0.0, 0.0], q0, np.zeros(count))), 0.0
    for target, held in ((share, True), (1.0, False)):
        def reach(t, y, held):
            return y[0] - target * stroke
        reach.terminal = True
        sol = solve_ivp(rhs, (t, 1.0), y, "DOP853", args=(held,), events=reach,
                        rtol=1e-10, atol=1e-16)
        t, y = sol.t[-1], sol.y[:, -1]

    # The principal axis: mean place and mean turn of all masses.
    place_of = integral(lambda x: density * shape(x)[0], grid)
    balance = (density * (front**2 - rear**2) / 2 + sum(m * s for m, s, _ in lumps)) / mass
    turn_of = integral(lambda x: density * ((x - balance) * shape(x)[0]
                                            + gyration2 * shape(x)[1]), grid)
    own_place = integral(lambda x: density * natural(x)[0], grid)
    own_turn = integral(lambda x: density * ((x - balance) * natural(x)[0]
                                             + gyration2 * natural(x)[1]), grid)
    inertia = integral(lambda x: density * ((x - balance) ** 2 + gyration2), grid)
    for i, (m, s, own) in enumerate(lumps):
        w, d = shape(s)
        off = natural(s)[0] + (beside if i == 1 else 0.0)
        place_of += m * w
        own_place += m * off
        turn_of += m * (s - balance) * w + own * d
        own_turn += m * (s - balance) * off + own * natural(s)[1]
        inertia += m * (s - balance) ** 2 + own
    q, r = phi @ y[2 : 2 + count], phi @ y[2 + count :]
    tip = shape(0.753)[0] @ q + natural(0.753)[0]
    return np.array([(place_of @ q + own_place) / mass, (turn_of @ q + own_turn) / inertia,
                     place_of @ r / mass, turn_of @ r / inertia, tip])


print("Hz", np.sqrt(square[2:6]) / 2 / np.pi)
for name, flaw in (("groove", dict(groove=1e-6)), ("curvature", dict(curvature=1e-6)),
                   ("point beside", dict(beside=1e-6))):
    for count in (26, 52):
        out = run(count, **flaw)
        print(name, count, "place %.9f angle %.9f velocity %.9f rate %.9f tip %.9f"
              % tuple(1e6 * out))
