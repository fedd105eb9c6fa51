use crate::Number;

/// One step of the classical Runge-Kutta method, order 4.
///
/// `rhs` gives the derivative of the state at a value of the independent
/// variable; the result is the state at `x + step`. The caller checks that it
/// is finite. \[hairer1993\] II.1.
pub fn rk4<T: Number, const N: usize>(
    rhs: impl Fn(T, &[T; N]) -> [T; N],
    x: T,
    y: &[T; N],
    step: T,
) -> [T; N] {
    let half = step * T::of(0.5);
    let along = |slope: &[T; N], by: T| std::array::from_fn(|i| y[i] + slope[i] * by);
    let k1 = rhs(x, y);
    let k2 = rhs(x + half, &along(&k1, half));
    let k3 = rhs(x + half, &along(&k2, half));
    let k4 = rhs(x + step, &along(&k3, step));
    let (two, sixth) = (T::of(2.0), step * T::of(1.0 / 6.0));
    std::array::from_fn(|i| y[i] + (k1[i] + two * (k2[i] + k3[i]) + k4[i]) * sixth)
}
