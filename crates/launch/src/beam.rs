//! The assembled arrow as an elastic beam: mass, bending and thrust matrices
//! by finite elements. Model card: docs/model/flex.md.

use nalgebra::{DMatrix, DVector, SymmetricEigen};

use crate::LaunchError;

/// Elements along the shaft. Chosen: the first four frequencies are then within
/// 4e-4 of those with twice as many (tested), the first within 3e-6.
pub const ELEMENTS: usize = 16;

/// A lump of mass fixed to the shaft, or to a rigid part beyond its end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lump {
    /// Mass, kg.
    pub mass: f64,
    /// Station of its balance, m from the nock groove.
    pub station: f64,
    /// Its own inertia across the shaft, kg m2.
    pub inertia: f64,
}

/// A uniform shaft with lumps of mass, rigid beyond its ends, SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Beam {
    /// Rear end of the shaft, m from the nock groove.
    pub rear: f64,
    /// Front end of the shaft, m from the nock groove.
    pub front: f64,
    /// Bending stiffness, N m2.
    pub stiffness: f64,
    /// Mass per length, kg/m.
    pub density: f64,
    /// Mean square distance of the shaft's mass from a cross axis, m2.
    pub gyration2: f64,
    /// Everything else.
    pub lumps: Vec<Lump>,
}

/// Shape functions of a beam element at a share of its length.
fn hermite(share: f64, length: f64) -> ([f64; 4], [f64; 4]) {
    let (x, x2) = (share, share * share);
    let x3 = x2 * x;
    (
        [
            1.0 - 3.0 * x2 + 2.0 * x3,
            length * (x - 2.0 * x2 + x3),
            3.0 * x2 - 2.0 * x3,
            length * (x3 - x2),
        ],
        [
            (6.0 * x2 - 6.0 * x) / length,
            1.0 - 4.0 * x + 3.0 * x2,
            (6.0 * x - 6.0 * x2) / length,
            3.0 * x2 - 2.0 * x,
        ],
    )
}

/// Four Gauss-Legendre points on (0, 1) and weights [dlmf]; exact for the
/// products of shape functions.
const GAUSS: [(f64, f64); 4] = [
    (0.069_431_844_202_973_71, 0.173_927_422_568_726_92),
    (0.330_009_478_207_571_87, 0.326_072_577_431_273_1),
    (0.669_990_521_792_428_1, 0.326_072_577_431_273_1),
    (0.930_568_155_797_026_2, 0.173_927_422_568_726_92),
];

impl Beam {
    /// Total mass, kg.
    pub fn mass(&self) -> f64 {
        self.density * (self.front - self.rear)
            + self.lumps.iter().map(|lump| lump.mass).sum::<f64>()
    }

    fn element(&self, elements: usize) -> f64 {
        (self.front - self.rear) / elements as f64
    }

    /// Element and share of it at a station on the shaft.
    fn place(&self, station: f64, elements: usize) -> (usize, f64) {
        let at = (station.clamp(self.rear, self.front) - self.rear) / self.element(elements);
        // A finite number from 0 to `elements`.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let index = (at.floor() as usize).min(elements - 1);
        (index, at - index as f64)
    }

    /// Displacement and slope at a station, as weights of the nodal values.
    /// Beyond the ends the beam goes on straight.
    pub(crate) fn weights(&self, station: f64, elements: usize) -> (usize, [f64; 4], [f64; 4]) {
        let (index, share) = self.place(station, elements);
        let (mut value, slope) = hermite(share, self.element(elements));
        let beyond = station - station.clamp(self.rear, self.front);
        for (v, s) in value.iter_mut().zip(slope) {
            *v += beyond * s;
        }
        (index, value, slope)
    }

    /// Mass of an element of this length.
    pub(crate) fn mass_block(&self, length: f64) -> [[f64; 4]; 4] {
        let mut block = [[0.0; 4]; 4];
        for (share, weight) in GAUSS {
            let (value, slope) = hermite(share, length);
            let per = self.density * length * weight;
            for i in 0..4 {
                for j in 0..4 {
                    let turning = self.gyration2 * slope[i] * slope[j];
                    block[i][j] += per * (value[i] * value[j] + turning);
                }
            }
        }
        block
    }

    fn mass_matrix(&self, elements: usize) -> DMatrix<f64> {
        let block = self.mass_block(self.element(elements));
        let mut matrix = DMatrix::zeros(2 * elements + 2, 2 * elements + 2);
        for index in 0..elements {
            for (i, row) in block.iter().enumerate() {
                for (j, value) in row.iter().enumerate() {
                    matrix[(2 * index + i, 2 * index + j)] += value;
                }
            }
        }
        for lump in &self.lumps {
            let (index, value, slope) = self.weights(lump.station, elements);
            add(&mut matrix, index, &value, lump.mass);
            add(&mut matrix, index, &slope, lump.inertia);
        }
        matrix
    }

    fn stiffness_matrix(&self, elements: usize) -> DMatrix<f64> {
        let l = self.element(elements);
        let factor = self.stiffness / (l * l * l);
        let block = [
            [12.0, 6.0 * l, -12.0, 6.0 * l],
            [6.0 * l, 4.0 * l * l, -6.0 * l, 2.0 * l * l],
            [-12.0, -6.0 * l, 12.0, -6.0 * l],
            [6.0 * l, 2.0 * l * l, -6.0 * l, 4.0 * l * l],
        ];
        let mut matrix = DMatrix::zeros(2 * elements + 2, 2 * elements + 2);
        for index in 0..elements {
            for (i, row) in block.iter().enumerate() {
                for (j, value) in row.iter().enumerate() {
                    matrix[(2 * index + i, 2 * index + j)] += factor * value;
                }
            }
        }
        matrix
    }

    /// Thrust in the shaft at a station over the arrow's acceleration, kg: the
    /// mass that is pushed ahead of it.
    fn ahead(&self, station: f64) -> f64 {
        let lumps: f64 =
            self.lumps.iter().filter(|lump| lump.station > station).map(|lump| lump.mass).sum();
        self.density * (self.front - station.max(self.rear)).max(0.0) + lumps
    }

    /// Stations between which [`Beam::ahead`] has no step, from the groove to
    /// the foremost lump.
    fn spans(&self, elements: usize) -> Vec<(f64, f64)> {
        let nodes = (0..=elements).map(|i| self.rear + self.element(elements) * i as f64);
        let mut cuts: Vec<f64> = nodes.chain(self.lumps.iter().map(|l| l.station)).collect();
        cuts.push(0.0);
        cuts.sort_by(f64::total_cmp);
        cuts.windows(2).map(|w| (w[0], w[1])).filter(|(a, b)| *a >= 0.0 && b > a).collect()
    }

    /// Integral along the arrow of (mass ahead) times `f(station)`.
    fn along(&self, elements: usize, mut f: impl FnMut(f64, f64)) {
        for (from, to) in self.spans(elements) {
            for (share, weight) in GAUSS {
                let station = from + share * (to - from);
                f(station, self.ahead(station) * weight * (to - from));
            }
        }
    }

    /// The lowest bending modes of the free arrow, nothing holding it.
    ///
    /// # Errors
    /// [`LaunchError::NoModes`] when mass or stiffness make no vibration.
    pub fn modes<const COUNT: usize>(&self) -> Result<Modes<COUNT>, LaunchError> {
        self.modes_with(ELEMENTS)
    }

    /// As [`Beam::modes`], with a number of elements, to test convergence.
    ///
    /// # Errors
    /// As [`Beam::modes`].
    pub fn modes_with<const COUNT: usize>(
        &self,
        elements: usize,
    ) -> Result<Modes<COUNT>, LaunchError> {
        self.basis(elements, false)
    }

    /// The lowest modes but one, and in place of the last the shape in which
    /// all further modes together give way to a moment at the groove: the push
    /// loads the nock so, and a few modes alone answer it poorly.
    ///
    /// # Errors
    /// As [`Beam::modes`].
    pub(crate) fn shapes<const COUNT: usize>(&self) -> Result<Modes<COUNT>, LaunchError> {
        self.basis(ELEMENTS, true)
    }

    fn basis<const COUNT: usize>(
        &self,
        elements: usize,
        give: bool,
    ) -> Result<Modes<COUNT>, LaunchError> {
        let refused = LaunchError::NoModes { stiffness: self.stiffness, density: self.density };
        let mass = self.mass_matrix(elements).cholesky().ok_or(refused)?;
        let lower = mass.l();
        let half = lower.solve_lower_triangular(&self.stiffness_matrix(elements)).ok_or(refused)?;
        let standard = lower.solve_lower_triangular(&half.transpose()).ok_or(refused)?;
        let eigen = SymmetricEigen::new((&standard + standard.transpose()) * 0.5);
        let mut order: Vec<usize> = (0..eigen.eigenvalues.len()).collect();
        order.sort_by(|a, b| eigen.eigenvalues[*a].total_cmp(&eigen.eigenvalues[*b]));
        let shape = |column: usize| -> Result<DVector<f64>, LaunchError> {
            let standard: DVector<f64> = eigen.eigenvectors.column(column).into();
            lower.tr_solve_lower_triangular(&standard).ok_or(refused)
        };
        let mut modes = Modes {
            beam: self.clone(),
            elements,
            frequency: [0.0; COUNT],
            nodal: std::array::from_fn(|_| Vec::new()),
        };
        // The first two are the rigid motions.
        for (k, &column) in order.iter().skip(2).take(COUNT).enumerate() {
            modes.frequency[k] = eigen.eigenvalues[column].sqrt();
            modes.nodal[k] = self.tip_up(shape(column)?.as_slice());
        }
        if give && COUNT > 0 {
            // In place of the last mode: what all further modes together do,
            // statically, under a moment at the groove.
            let (index, _, slope) = self.weights(0.0, elements);
            let mut shapes = DVector::zeros(2 * elements + 2);
            let (mut mass, mut stiffness) = (0.0, 0.0);
            for &column in order.iter().skip(1 + COUNT) {
                let mode = shape(column)?;
                let square = eigen.eigenvalues[column];
                let twist: f64 = (0..4).map(|i| slope[i] * mode[2 * index + i]).sum();
                let share = twist / square;
                mass += share * share;
                stiffness += square * share * share;
                shapes += mode * share;
            }
            modes.frequency[COUNT - 1] = (stiffness / mass).sqrt();
            modes.nodal[COUNT - 1] = self.tip_up((shapes / mass.sqrt()).as_slice());
        }
        if modes.frequency.iter().all(|f| f.is_finite() && *f > 0.0) {
            Ok(modes)
        } else {
            Err(refused)
        }
    }

    /// Nodal values with the tip's side positive, so that signs are settled.
    pub(crate) fn tip_up(&self, shape: &[f64]) -> Vec<f64> {
        let (index, value, _) = self.weights(self.front, shape.len() / 2 - 1);
        let tip: f64 = (0..4).map(|i| value[i] * shape[2 * index + i]).sum();
        shape.iter().map(|v| v * tip.signum()).collect()
    }

    /// The acceleration, m/s2, at which the arrow would buckle statically if
    /// nock groove and foremost lump were held sideways.
    ///
    /// # Errors
    /// [`LaunchError::NoModes`] when the matrices make no such value.
    pub fn buckling_acceleration(&self) -> Result<f64, LaunchError> {
        let elements = 2 * ELEMENTS;
        let refused = LaunchError::NoModes { stiffness: self.stiffness, density: self.density };
        let mut thrust = DMatrix::zeros(2 * elements + 2, 2 * elements + 2);
        self.along(elements, |station, weight| {
            let (index, _, slope) = self.weights(station, elements);
            add(&mut thrust, index, &slope, weight);
        });
        let mut stiffness = self.stiffness_matrix(elements);
        let foremost = self.lumps.iter().map(|l| l.station).fold(self.front, f64::max);
        // Far stiffer than the shaft: its bending stiffness per length cubed
        // times 1e8. Chosen: moves the result by about 1e-8.
        let hold = 1e8 * self.stiffness / (self.front - self.rear).powi(3);
        for station in [0.0, foremost] {
            let (index, value, _) = self.weights(station, elements);
            add(&mut stiffness, index, &value, hold);
        }
        let lower = stiffness.cholesky().ok_or(refused)?.l();
        let half = lower.solve_lower_triangular(&thrust).ok_or(refused)?;
        let standard = lower.solve_lower_triangular(&half.transpose()).ok_or(refused)?;
        let most = SymmetricEigen::new((&standard + standard.transpose()) * 0.5).eigenvalues.max();
        if most > 0.0 { Ok(1.0 / most) } else { Err(refused) }
    }
}

/// Adds `scale` times the outer product of weights with themselves.
fn add(matrix: &mut DMatrix<f64>, index: usize, weights: &[f64; 4], scale: f64) {
    for i in 0..4 {
        for j in 0..4 {
            matrix[(2 * index + i, 2 * index + j)] += scale * weights[i] * weights[j];
        }
    }
}

/// Bending modes of the free arrow, each of unit modal mass (1 kg).
#[derive(Debug, Clone, PartialEq)]
pub struct Modes<const COUNT: usize> {
    beam: Beam,
    elements: usize,
    /// Angular frequencies, rad/s, rising.
    pub frequency: [f64; COUNT],
    nodal: [Vec<f64>; COUNT],
}

impl<const COUNT: usize> Modes<COUNT> {
    /// From nodal values between as many elements as usual.
    pub(crate) fn of(beam: Beam, frequency: [f64; COUNT], nodal: [Vec<f64>; COUNT]) -> Self {
        Self { beam, elements: ELEMENTS, frequency, nodal }
    }

    /// Displacement (1/sqrt(kg)) and slope of every mode at a station.
    pub fn at(&self, station: f64) -> ([f64; COUNT], [f64; COUNT]) {
        let (index, value, slope) = self.beam.weights(station, self.elements);
        let sum = |k: usize, weights: &[f64; 4]| -> f64 {
            (0..4).map(|i| weights[i] * self.nodal[k][2 * index + i]).sum()
        };
        (std::array::from_fn(|k| sum(k, &value)), std::array::from_fn(|k| sum(k, &slope)))
    }

    /// Integral along the arrow, from the groove forward, of the mass ahead
    /// times `f`, given station and the slopes of every mode there.
    pub(crate) fn thrust(&self, mut f: impl FnMut(f64, &[f64; COUNT], f64)) {
        self.beam.along(self.elements, |station, weight| {
            let (_, slope) = self.at(station);
            f(station, &slope, weight);
        });
    }

    /// Displacement and slope of a mode between elements, one after the other.
    pub(crate) fn nodal(&self, mode: usize) -> &[f64] {
        &self.nodal[mode]
    }

    /// The beam.
    pub fn beam(&self) -> &Beam {
        &self.beam
    }

    /// Stations at which a mode does not move, m from the nock groove, over
    /// the shaft.
    pub fn nodes(&self, mode: usize) -> Vec<f64> {
        /// Places looked at. Chosen: a node is found to a hundredth of the
        /// distance between them by interpolation.
        const PLACES: u32 = 400;
        let (rear, front) = (self.beam.rear, self.beam.front);
        let at = |i: u32| rear + (front - rear) * f64::from(i) / f64::from(PLACES);
        let value = |x: f64| self.at(x).0[mode];
        (0..PLACES)
            .map(|i| (at(i), at(i + 1)))
            .filter(|(a, b)| value(*a) * value(*b) < 0.0)
            .map(|(a, b)| a + (b - a) * value(a) / (value(a) - value(b)))
            .collect()
    }
}
