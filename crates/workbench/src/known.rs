use body::Across;
use nalgebra::{Cholesky, Complex, DMatrix, DVector};
use units::Role;

use crate::axis::{carry, span};
use crate::error::range;
use crate::population::Cells;
use crate::{Axis, Population, Seats, Sighting, Straight, Throw, WorkbenchError};

/// Least noise of a reading, m. Chosen: a tenth of a micrometre; no gauge on a
/// bench is finer, and without noise the equations may have no solution.
const LEAST: f64 = 1e-7;
/// How far zero, slope and sag may lie off in a shaft read at one clock position,
/// m. Chosen: more than any arrow sags.
const SAG: f64 = 2.5e-4;

/// A shaft as far as it is known: its likeliest axis among the shafts that are sold,
/// given what was read, and how far it may lie off that.
#[derive(Debug, Clone, PartialEq)]
pub struct Known {
    stock: f64,
    cells: Cells,
    population: Population,
    sightings: Vec<Sighting>,
    /// Covariance of one component of the curvatures before any reading.
    before: DMatrix<f64>,
    /// For each reading, its covariance with the curvatures: a column.
    with: DMatrix<f64>,
    /// Root of the covariance of the readings: the lower triangle.
    root: DMatrix<f64>,
    /// Likeliest curvatures.
    mean: DVector<Complex<f64>>,
}

/// What a cut of a shaft throws for each curvature, at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct Thrown {
    home: [Complex<f64>; 2],
    rows: [DVector<Complex<f64>>; 2],
}

/// One shaft that may be, all of it known.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn(DVector<Complex<f64>>);

impl Thrown {
    /// Root mean square of the impact about its middle as the nock turns, m.
    pub fn ring(&self, shaft: &Drawn) -> f64 {
        self.square(&shaft.0).sqrt()
    }

    fn square(&self, curvature: &DVector<Complex<f64>>) -> f64 {
        let with = self.home[0] + self.rows[0].dot(curvature);
        let against = self.home[1] + self.rows[1].dot(&curvature.conjugate());
        with.norm_sqr() + against.norm_sqr()
    }
}

fn complex(of: Across) -> Complex<f64> {
    Complex::new(of.at0, of.at90)
}

fn across(of: Complex<f64>) -> Across {
    Across { at0: of.re, at90: of.im }
}

/// Off the line through two supports, for each curvature.
fn off(cells: &Cells, station: f64, [rear, front]: [f64; 2]) -> DVector<f64> {
    let share = (station - rear) / (front - rear);
    cells.place(station) - cells.place(rear) * (1.0 - share) - cells.place(front) * share
}

impl Known {
    /// What readings say of a shaft of a population; without any, what the
    /// population says.
    ///
    /// Curvature is normal before the readings, and each reading is linear in it, so
    /// the answer is the usual conditional normal law.
    ///
    /// # Errors
    /// [`WorkbenchError`] for a length or a figure that no shaft has, and for
    /// supports that hold none.
    pub fn new(
        stock: f64,
        sightings: &[Sighting],
        population: Population,
    ) -> Result<Self, WorkbenchError> {
        range("length of the shaft", Role::Part, stock, 0.05, 2.0)?;
        for (what, figure) in [
            ("reading of the body", population.body),
            ("hook at the nock end", population.nock_hook),
            ("hook at the point end", population.point_hook),
        ] {
            range(what, Role::Gauge, figure.si(), 1e-6, 0.01)?;
        }
        let cells = Cells::new(stock);
        let before = population.covariance(&cells);
        let count = sightings.len();
        let rows: Vec<DVector<f64>> = sightings
            .iter()
            .map(|one| {
                let [rear, front] = one.supports;
                if !(rear >= 0.0 && front <= stock && front - rear > 0.01) {
                    return Err(WorkbenchError::Supports { rear, front, stock });
                }
                range("station", Role::Part, one.station, 0.0, stock)?;
                range("reading", Role::Gauge, one.off, -0.05, 0.05)?;
                Ok(off(&cells, one.station, one.supports))
            })
            .collect::<Result<_, _>>()?;
        let with = DMatrix::from_iterator(
            cells.count(),
            count,
            rows.iter().flat_map(|row| (&before * row).iter().copied().collect::<Vec<f64>>()),
        );
        let still = |one: &Sighting| {
            let along = one.station / stock;
            [1.0, along, 4.0 * along * (1.0 - along)]
        };
        let spread = DMatrix::from_fn(count, count, |i, j| {
            let (a, b) = (&sightings[i], &sightings[j]);
            let along = a.toward.at0 * b.toward.at0 + a.toward.at90 * b.toward.at90;
            let mut sum = rows[i].dot(&with.column(j)) * along;
            if i == j {
                sum += a.noise.max(LEAST).powi(2);
            }
            if a.still && b.still {
                let both = still(a).into_iter().zip(still(b));
                sum += both.map(|(a, b)| a * b * SAG * SAG).sum::<f64>();
            }
            sum
        });
        let root = Cholesky::new(spread).ok_or(WorkbenchError::Unsolved)?.unpack();
        let known = Self {
            stock,
            population,
            sightings: sightings.to_vec(),
            before,
            with,
            root,
            mean: DVector::zeros(cells.count()),
            cells,
        };
        let read: Vec<f64> = sightings.iter().map(|one| one.off).collect();
        Ok(Self { mean: known.explained(&read), ..known })
    }

    /// Curvatures that explain the readings best.
    fn explained(&self, read: &[f64]) -> DVector<Complex<f64>> {
        let mut weights = DVector::from_column_slice(read);
        // A root of a Cholesky decomposition has no zero on its diagonal.
        self.root.solve_lower_triangular_mut(&mut weights);
        self.root.tr_solve_lower_triangular_mut(&mut weights);
        let mut all = DVector::zeros(self.cells.count());
        for (at, one) in self.sightings.iter().enumerate() {
            let by = complex(one.toward) * weights[at];
            for (cell, with) in all.iter_mut().zip(self.with.column(at).iter()) {
                *cell += by * *with;
            }
        }
        all
    }

    /// Length of the shaft, m.
    pub fn stock(&self) -> f64 {
        self.stock
    }

    /// What was read.
    pub fn sightings(&self) -> &[Sighting] {
        &self.sightings
    }

    /// The shafts that it is one of.
    pub fn population(&self) -> Population {
        self.population
    }

    /// The likeliest axis, off the line through its ends.
    ///
    /// # Errors
    /// None that a shaft of sound length has.
    pub fn axis(&self) -> Result<Axis, WorkbenchError> {
        self.axis_of(&Drawn(self.mean.clone()))
    }

    /// The axis of one shaft that may be.
    ///
    /// # Errors
    /// As [`axis`](Self::axis).
    pub fn axis_of(&self, shaft: &Drawn) -> Result<Axis, WorkbenchError> {
        let place = |x: f64| {
            let row = off(&self.cells, x, [0.0, self.stock]);
            across(shaft.0.iter().zip(row.iter()).map(|(k, r)| k * *r).sum())
        };
        let places = self.cells.edges().iter().map(|x| (*x, place(*x)));
        Axis::drawn(self.stock, places)
    }

    /// Mean square of a sum over the curvatures about its likeliest value.
    fn doubt(&self, row: &DVector<Complex<f64>>) -> f64 {
        let (re, im) = (row.map(|r| r.re), row.map(|r| r.im));
        let plain = |of: &DVector<f64>| of.dot(&(&self.before * of));
        let before = 2.0 * (plain(&re) + plain(&im));
        // Real and imaginary part are solved for apart.
        let told = self.sightings.iter().enumerate().map(|(at, one)| {
            let sum: Complex<f64> =
                row.iter().zip(self.with.column(at).iter()).map(|(r, w)| r * *w).sum();
            sum * complex(one.toward)
        });
        let told: Vec<Complex<f64>> = told.collect();
        let half = |part: fn(&Complex<f64>) -> f64| {
            let mut column = DVector::from_iterator(told.len(), told.iter().map(part));
            self.root.solve_lower_triangular_mut(&mut column);
            column.norm_squared()
        };
        (before - half(|z| z.re) - half(|z| z.im)).max(0.0)
    }

    /// How straight a piece is likeliest to be, with the standard error of its
    /// reading.
    ///
    /// # Errors
    /// As [`axis`](Self::axis).
    pub fn straight(&self, axis: &Axis, rear: f64, length: f64) -> Straight {
        Straight { error: self.error(rear, length), ..axis.straight(rear, length) }
    }

    /// Standard error of the total reading in the middle of the span of a piece, m.
    pub fn error(&self, rear: f64, length: f64) -> f64 {
        let (span, [a, m, b]) = span(rear, length);
        let row = off(&self.cells, m, [a, b]).map(|r| Complex::new(r, 0.0));
        2.0 * carry(span) * (self.doubt(&row) / 2.0).sqrt()
    }

    /// What a cut throws for each curvature.
    pub fn thrown(&self, rear: f64, length: f64, seats: &Seats, throw: &Throw) -> Thrown {
        let rows = [0, 1].map(|way| {
            let mut row = DVector::zeros(self.cells.count());
            for (u, weights) in seats.weights(length) {
                let by: Complex<f64> =
                    weights.iter().zip(&throw.faults).map(|(w, f)| f[way] * *w).sum();
                let place = self.cells.place(rear + length / 2.0 + u);
                for (cell, r) in row.iter_mut().zip(place.iter()) {
                    *cell += by * *r;
                }
            }
            row
        });
        Thrown { home: throw.home, rows }
    }

    /// Root mean square of the impact about its middle as the nock turns, over all
    /// that the shaft may be, m.
    pub fn ring(&self, thrown: &Thrown) -> f64 {
        // Of the second sum the conjugate is taken, which has the same size.
        let doubt = self.doubt(&thrown.rows[0]) + self.doubt(&thrown.rows[1].conjugate());
        (thrown.square(&self.mean) + doubt).sqrt()
    }

    /// One shaft that may be, from standard normal numbers: one of the population,
    /// moved by what the readings say of the difference (conditioning by kriging).
    pub fn draw(&self, normal: &mut dyn FnMut() -> f64) -> Drawn {
        let free = DVector::from_vec(self.population.draw(&self.cells, normal));
        let sag = [normal(), normal(), normal()].map(|z| z * SAG);
        let left: Vec<f64> = self
            .sightings
            .iter()
            .map(|one| {
                let row = off(&self.cells, one.station, one.supports);
                let at: Complex<f64> = free.iter().zip(row.iter()).map(|(k, r)| k * *r).sum();
                let seen = at.re * one.toward.at0 + at.im * one.toward.at90;
                let along = one.station / self.stock;
                let still = sag[0] + sag[1] * along + sag[2] * 4.0 * along * (1.0 - along);
                let noise = one.noise.max(LEAST) * normal();
                one.off - seen - noise - if one.still { still } else { 0.0 }
            })
            .collect();
        Drawn(free + self.explained(&left))
    }
}
