"""Laminar skin friction of a long cylinder in axial flow, from the boundary-layer equations.

What:  u u_x + v u_r = nu/r d/dr (r u_r), (r u)_x + (r v)_r = 0, u = v = 0 at r = a,
       u -> U far away, uniform stream at x = 0 (flat-plate similarity profile at the nose).
       With K = sqrt(nu x/U)/a, y = (r - a)/sqrt(nu x/U), psi = a sqrt(nu U x) f(K, y), these become
           [(1 + K y) u_y]_y + f u_y / 2 = (K/2) [ (1 + K y) u u_K - u_y f_K ],
           f_y = (1 + K y) u,   u(0) = 0,  f(0) = 0,  u(inf) = 1,
       u in units of U. The local friction over the flat plate's is g(K) = u_y(K, 0)/u_y(0, 0) and
       the mean over a length L is M(K_L) = (1/K_L) * integral of g from 0 to K_L,
       because x goes as K^2 and the flat-plate friction as x^(-1/2).
       The table argument is k = 2 K_L = 2 sqrt(nu L/U)/a.
How:   method A, collocation on Chebyshev points in K and y together, Newton's method;
       method B, marching in K (BDF2, central differences in y), to check A by other means.
Run:   python laminar_cylinder.py   (numpy and scipy; about ten seconds)
Output: kept below the code. The table in crates/flight/src/aero/laminar.rs is a copy of it.
"""

import numpy as np
from scipy.interpolate import CubicHermiteSpline, CubicSpline
from scipy.linalg import solve_banded

TABLE_K = [0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0]
K_END = 1.0  # k = 2


def chebyshev(n, length):
    """Points from 0 to length and the differentiation matrix on them."""
    j = np.arange(n + 1)
    x = np.cos(np.pi * j / n)
    c = np.where((j == 0) | (j == n), 2.0, 1.0) * (-1.0) ** j
    diff = x[:, None] - x[None, :] + np.eye(n + 1)
    d = np.outer(c, 1 / c) / diff
    d -= np.diag(d.sum(axis=1))
    return (1 - x) * length / 2, d * (-2 / length)


def collocation(nk, ny, far):
    """u_y at the wall on Chebyshev points of K in [0, K_END]."""
    kk, dk = chebyshev(nk, K_END)
    y, dy = chebyshev(ny, far)
    # Integral from the wall: invert d/dy with the value 0 at y = 0.
    q = np.zeros((ny + 1, ny + 1))
    q[1:, 1:] = np.linalg.inv(dy[1:, 1:])
    a, b = nk + 1, ny + 1
    h = 1 + np.outer(kk, y)
    big_dy = np.kron(np.eye(a), dy)
    big_dk = np.kron(dk, np.eye(b))
    to_f = np.kron(np.eye(a), q) * h.ravel()[None, :]
    diffuse = big_dy @ (h.ravel()[:, None] * big_dy)
    f_k = big_dk @ to_f
    half_k = np.repeat(kk / 2, b)
    hr = h.ravel()
    u = np.tile(1 - np.exp(-0.4 * y - 0.1 * y * y), a)
    wall = np.arange(a) * b
    edge = wall + ny
    for _ in range(30):
        uy, uk, f, fk = big_dy @ u, big_dk @ u, to_f @ u, f_k @ u
        res = diffuse @ u + 0.5 * f * uy - half_k * (hr * u * uk - uy * fk)
        jac = (
            diffuse
            + 0.5 * (uy[:, None] * to_f + f[:, None] * big_dy)
            - half_k[:, None]
            * (
                np.diag(hr * uk)
                + (hr * u)[:, None] * big_dk
                - fk[:, None] * big_dy
                - uy[:, None] * f_k
            )
        )
        for rows, value in ((wall, 0.0), (edge, 1.0)):
            jac[rows, :] = 0.0
            jac[rows, rows] = 1.0
            res[rows] = u[rows] - value
        step = np.linalg.solve(jac, res)
        u = u - step
        if np.max(np.abs(step)) < 1e-12:
            break
    else:
        raise RuntimeError("Newton's method did not converge")
    return kk, (big_dy @ u)[wall]


def polynomial(kk, values):
    return np.polynomial.chebyshev.Chebyshev.fit(kk, values, len(kk) - 1, domain=[0, K_END])


def mean_factor(kk, shear, table):
    """Mean factor and its slope dM/dk at each k of the table."""
    g = polynomial(kk, shear / shear[0])
    whole = g.integ(lbnd=0.0)
    factor, slope = [], []
    for k in table:
        at = k / 2
        if at == 0:
            factor.append(1.0)
            slope.append(float(g.deriv()(0.0)) / 4)
        else:
            m = float(whole(at)) / at
            factor.append(m)
            slope.append((float(g(at)) - m) / at / 2)
    return np.array(factor), np.array(slope)


def marching(steps, ny, far):
    """g(K) on an even grid of K: BDF2 in K, second order in y, Newton at each station.

    The unknowns f and u alternate in a banded system; f_y is integrated by the trapezoid rule.
    """
    dk, d = K_END / steps, far / ny
    y = np.linspace(0, far, ny + 1)
    n = 2 * (ny + 1)
    u = np.minimum(1 - np.exp(-0.4 * y - 0.1 * y * y), 1.0)
    u[-1] = 1.0
    f = np.concatenate(([0.0], np.cumsum((u[1:] + u[:-1]) * d / 2)))
    past, shear = [], []
    for i in range(steps + 1):
        k = i * dk
        h = 1 + k * y
        hp, hm = (h[1:-1] + h[2:]) / 2, (h[1:-1] + h[:-2]) / 2
        if i == 0:
            c, uo, fo = 0.0, np.zeros_like(u), np.zeros_like(f)
        elif i == 1:
            c, uo, fo = 1 / dk, -past[-1][0] / dk, -past[-1][1] / dk
        else:
            c = 1.5 / dk
            uo = (-2 * past[-1][0] + 0.5 * past[-2][0]) / dk
            fo = (-2 * past[-1][1] + 0.5 * past[-2][1]) / dk
        for _ in range(30):
            ui, fi = u[1:-1], f[1:-1]
            uy = (u[2:] - u[:-2]) / (2 * d)
            uk, fk = c * ui + uo[1:-1], c * fi + fo[1:-1]
            res = np.zeros(n)
            ab = np.zeros((7, n))  # three bands each side

            def put(row, col, value, ab=ab):
                ab[3 + row - col, col] = value

            j = np.arange(1, ny)
            rf, ru = 2 * j, 2 * j + 1
            # Odd rows: momentum. Even rows: f_y = h u between j - 1 and j.
            res[ru] = (
                (hp * (u[2:] - ui) - hm * (ui - u[:-2])) / d**2
                + 0.5 * fi * uy
                - k / 2 * (h[1:-1] * ui * uk - uy * fk)
            )
            duy = 0.5 * fi + k / 2 * fk
            put(ru, 2 * (j + 1) + 1, hp / d**2 + duy / (2 * d))
            put(ru, 2 * (j - 1) + 1, hm / d**2 - duy / (2 * d))
            put(ru, ru, -(hp + hm) / d**2 - k / 2 * h[1:-1] * (uk + c * ui))
            put(ru, rf, uy * (0.5 + k / 2 * c))
            m = np.arange(1, ny + 1)
            res[2 * m] = f[1:] - f[:-1] - d / 2 * (h[1:] * u[1:] + h[:-1] * u[:-1])
            put(2 * m, 2 * m, 1.0)
            put(2 * m, 2 * m - 2, -1.0)
            put(2 * m, 2 * m + 1, -d / 2 * h[1:])
            put(2 * m, 2 * m - 1, -d / 2 * h[:-1])
            for row, value in ((0, f[0]), (1, u[0]), (n - 1, u[-1] - 1)):
                res[row] = value
                put(row, row, 1.0)
            step = solve_banded((3, 3), ab, res)
            f, u = f - step[0::2], u - step[1::2]
            if np.max(np.abs(step)) < 1e-11:
                break
        else:
            raise RuntimeError("Newton's method did not converge")
        past = [*past[-1:], (u.copy(), f.copy())]
        # Fourth-order one-sided slope at the wall.
        shear.append((-25 * u[0] + 48 * u[1] - 36 * u[2] + 16 * u[3] - 3 * u[4]) / (12 * d))
    return np.linspace(0, K_END, steps + 1), np.array(shear)


def marching_means(steps, ny, far):
    kk, shear = marching(steps, ny, far)
    whole = CubicSpline(kk, shear / shear[0]).antiderivative()
    return np.array([1.0] + [float(whole(k / 2)) / (k / 2) for k in TABLE_K[1:]])


def main():
    print("method A: points in K, points in y, far edge -> u_y(0,0), largest change in M")
    last = None
    for nk, ny, far in ((8, 32, 10), (12, 40, 12), (16, 48, 12), (20, 48, 12), (16, 56, 15)):
        kk, shear = collocation(nk, ny, far)
        m, s = mean_factor(kk, shear, TABLE_K)
        change = "" if last is None else f"{np.max(np.abs(m - last)):.1e}"
        print(f"  {nk:3d} {ny:3d} {far:3d}  {shear[0]:.10f}  {change}")
        last = m
    print("method B: steps in K, cells in y -> largest difference from A")
    coarse = marching_means(100, 600, 14)
    middle = marching_means(400, 2400, 14)
    fine = marching_means(1600, 4800, 14)
    for name, b in (
        ("100 x 600", coarse),
        ("400 x 2400", middle),
        ("1600 x 4800", fine),
    ):
        print(f"  {name:24s} {np.max(np.abs(b - last)):.1e}")
    print("k, mean factor, slope per unit of k")
    for k, a, b in zip(TABLE_K, last, s):
        print(f"  ({k:.2f}, {a:.7f}, {b:.7f}),")
    # The error of cubic Hermite interpolation in this table, against the same solution.
    hermite = CubicHermiteSpline(TABLE_K, np.round(last, 7), np.round(s, 7))
    every = np.linspace(0, 2, 2001)
    exact, _ = mean_factor(kk, shear, every)
    print(f"interpolation error {np.max(np.abs(hermite(every) - exact)):.1e}")


if __name__ == "__main__":
    main()


# Output (numpy 2.4, scipy 1.17):
# method A: points in K, points in y, far edge -> u_y(0,0), largest change in M
#     8  32  10  0.3320573372
#    12  40  12  0.3320573362  8.2e-05
#    16  48  12  0.3320573362  1.2e-06
#    20  48  12  0.3320573362  2.9e-08
#    16  56  15  0.3320573362  2.9e-08
# method B: steps in K, cells in y -> largest difference from A
#   100 x 600                9.5e-05
#   400 x 2400               4.1e-06
#   1600 x 4800              3.8e-07
# k, mean factor, slope per unit of k
#   (0.00, 1.0000000, 0.5227379),
#   (0.10, 1.0507634, 0.4937504),
#   (0.20, 1.0989498, 0.4707981),
#   (0.30, 1.1450606, 0.4519989),
#   (0.40, 1.1894492, 0.4362027),
#   (0.50, 1.2323762, 0.4226652),
#   (0.60, 1.2740405, 0.4108799),
#   (0.80, 1.3541757, 0.3912262),
#   (1.00, 1.4307813, 0.3753506),
#   (1.25, 1.5225261, 0.3591795),
#   (1.50, 1.6106113, 0.3459075),
#   (2.00, 1.7781122, 0.3251550),
# interpolation error 4.4e-06
