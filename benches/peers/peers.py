"""Flies the ensemble of `ours.rs` with general solvers from the package registry.

    python peers.py ensemble.f64

Each solver gets the same model with the distance as variable, one core, and the
loosest of some tolerances that keeps every flight within 0.05 mm of the
reference. Prints: name, error in mm, flights a second, tab-separated.
"""

import os
import sys
import time

os.environ["XLA_FLAGS"] = (
    "--xla_cpu_multi_thread_eigen=false intra_op_parallelism_threads=1"
)
if hasattr(os, "sched_setaffinity"):
    os.sched_setaffinity(0, {0})

import numpy as np

DISTANCE = 60.0
PROMISE = 0.05  # mm
COLUMNS = 41
GAUSS = np.polynomial.legendre.leggauss(3)


class Flights:
    def __init__(self, path):
        rows = np.fromfile(path, dtype="<f8").reshape(-1, COLUMNS)
        self.parameters = rows[:, :25]
        self.starts = np.concatenate(
            [np.zeros((len(rows), 1)), rows[:, 25:38]], axis=1
        )
        self.reference = rows[:, 38:41]


def slope(s, c, sqrt, sin, cos):
    """Derivative of the 14 components by distance; any kind of number."""
    _, _, _, vx, vy, vz, nx, ny, nz, wx, wy, wz, p, roll = s
    mass, transverse, axial, gyro = c[0:4]
    drag, (s0, s1, s2) = c[4:7], c[7:10]
    cross_flow, rear, front = c[10:13]
    vane_flow = (c[13], c[14])
    roll_forcing, roll_damping = c[15:17]
    side, arm_side = c[17:19], c[19:21]
    gravity = c[21]
    u = [vx - c[22], vy - c[23], vz - c[24]]
    n, w = [nx, ny, nz], [wx, wy, wz]
    speed = sqrt(u[0] * u[0] + u[1] * u[1] + u[2] * u[2])
    along = u[0] * nx + u[1] * ny + u[2] * nz
    across = [u[i] - along * n[i] for i in range(3)]
    force = [-speed * (s0 * across[i] + s1 * w[i]) for i in range(3)]
    moment = [-speed * (s1 * across[i] + s2 * w[i]) for i in range(3)]
    middle, reach = 0.5 * (rear + front), 0.5 * (front - rear)
    stations = [
        (cross_flow * float(weight) * reach, middle + float(at) * reach)
        for at, weight in zip(*GAUSS)
    ]
    for area, arm in stations + [vane_flow]:
        local = [across[i] + arm * w[i] for i in range(3)]
        size = sqrt(local[0] * local[0] + local[1] * local[1] + local[2] * local[2])
        pull = area * size
        force = [force[i] - pull * local[i] for i in range(3)]
        moment = [moment[i] - arm * pull * local[i] for i in range(3)]
    share = 1.0 / (1.0 + nx)
    left = [-ny, 1.0 - ny * ny * share, -ny * nz * share]
    up = [-nz, -ny * nz * share, 1.0 - nz * nz * share]
    si, co = sin(roll) * speed * speed, cos(roll) * speed * speed
    for which, push in ((side, force), (arm_side, moment)):
        to_left = -(which[0] * si + which[1] * co)
        to_up = which[0] * co - which[1] * si
        for i in range(3):
            push[i] = push[i] + to_left * left[i] + to_up * up[i]
    pulled = (drag[0] + speed * (drag[1] + speed * drag[2])) * speed * along
    turn = [ny * wz - nz * wy, nz * wx - nx * wz, nx * wy - ny * wx]
    w2 = wx * wx + wy * wy + wz * wz
    rates = [1.0, vy, vz]
    rates += [mass * (force[i] - pulled * n[i]) for i in range(3)]
    rates[5] = rates[5] - gravity
    rates += w
    rates += [transverse * moment[i] + gyro * p * turn[i] - w2 * n[i] for i in range(3)]
    rates += [axial * (roll_forcing * speed * speed - roll_damping * speed * p), p]
    per_length = 1.0 / vx
    return [rate * per_length for rate in rates]


def miss(flights, ends):
    """Largest miss of the flights that have a reference, mm."""
    known = flights.reference[: len(ends)]
    gap = np.hypot(ends[:, 1] - known[:, 0], ends[:, 2] - known[:, 1])
    return 1e3 * np.nanmax(gap)


def timed(name, flights, solve, settings, repeats=3):
    """Tries settings from loose to tight and prints the first that suffices."""
    for setting in settings:
        ends = solve(setting)
        error = miss(flights, ends)
        if error < PROMISE:
            times = []
            for _ in range(repeats):
                start = time.perf_counter()
                solve(setting)
                times.append(time.perf_counter() - start)
            rate = len(ends) / min(times)
            print(f"{name}, {setting:g}\t{error:.4f}\t{rate:.0f}", flush=True)
            return
    print(f"# {name}: no setting within {PROMISE} mm (last {error:.3f})", flush=True)


def with_scipy(flights):
    from math import cos, sin, sqrt

    from scipy.integrate import solve_ivp

    def solve(rtol):
        ends = []
        for i in range(16):
            c = flights.parameters[i].tolist()
            flown = solve_ivp(
                lambda _, s: slope(s.tolist(), c, sqrt, sin, cos),
                (0.0, DISTANCE),
                flights.starts[i],
                method="DOP853",
                rtol=rtol,
                atol=rtol,
            )
            ends.append(flown.y[:, -1])
        return np.array(ends)

    timed("scipy DOP853, rtol", flights, solve, [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8])


def with_jax(flights):
    import jax

    jax.config.update("jax_enable_x64", True)
    import diffrax
    import jax.numpy as jnp

    count = 2048
    parameters = jnp.asarray(flights.parameters[:count])
    starts = jnp.asarray(flights.starts[:count])

    def field(_, s, c):
        return jnp.stack(slope(s, c, jnp.sqrt, jnp.sin, jnp.cos))

    def adaptive(rtol):
        def one(s, c):
            return diffrax.diffeqsolve(
                diffrax.ODETerm(field),
                diffrax.Tsit5(),
                0.0,
                DISTANCE,
                0.5,
                s,
                args=c,
                stepsize_controller=diffrax.PIDController(rtol=rtol, atol=rtol),
                max_steps=4096,
            ).ys[-1]

        return jax.jit(jax.vmap(one))

    made = {}

    def solve(rtol):
        run = made.setdefault(("tsit5", rtol), adaptive(rtol))
        return np.asarray(run(starts, parameters).block_until_ready())

    timed("diffrax Tsit5, rtol", flights, solve, [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8])

    def fixed(steps):
        h = DISTANCE / steps

        def one(s, c):
            def step(_, s):
                k1 = field(0.0, s, c)
                k2 = field(0.0, s + 0.5 * h * k1, c)
                k3 = field(0.0, s + 0.5 * h * k2, c)
                k4 = field(0.0, s + h * k3, c)
                return s + h / 6.0 * (k1 + 2.0 * (k2 + k3) + k4)

            return jax.lax.fori_loop(0, steps, step, s)

        return jax.jit(jax.vmap(one))

    def solve_fixed(steps):
        run = made.setdefault(("rk4", steps), fixed(int(steps)))
        return np.asarray(run(starts, parameters).block_until_ready())

    timed("JAX, RK4 by hand, steps", flights, solve_fixed, [63, 80, 120])


def with_heyoka(flights):
    import heyoka as hy

    names = "t y z vx vy vz nx ny nz wx wy wz p roll".split()
    variables = hy.make_vars(*names)
    c = [hy.par[i] for i in range(25)]
    system = list(zip(variables, slope(variables, c, hy.sqrt, hy.sin, hy.cos)))
    for lanes in sorted({hy.recommended_simd_size(), 8}):
        heyoka_batch(hy, flights, system, lanes)


def heyoka_batch(hy, flights, system, lanes):
    count = 256 - 256 % lanes
    made = {}

    def solve(tolerance):
        if tolerance not in made:
            made[tolerance] = hy.taylor_adaptive_batch(
                system, np.zeros((14, lanes)), tol=tolerance, compact_mode=False
            )
        flight = made[tolerance]
        ends = []
        for first in range(0, count, lanes):
            rows = slice(first, first + lanes)
            flight.set_time(0.0)
            flight.state[:] = flights.starts[rows].T
            flight.pars[:] = flights.parameters[rows].T
            flight.propagate_until([DISTANCE] * lanes)
            ends.append(flight.state.T.copy())
        return np.concatenate(ends)

    timed(
        f"heyoka batch of {lanes}, tolerance",
        flights,
        solve,
        [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9],
        repeats=5,
    )


if __name__ == "__main__":
    ensemble = Flights(sys.argv[1])
    for solver in (with_scipy, with_jax, with_heyoka):
        solver(ensemble)
