/// Shapes in which the arrow bends, carried through the push and after: the
/// lowest modes, and last how the rest gives way under the nock. Chosen: with
/// three more, no departure rate moves by 1 % (tested).
pub const MODES: usize = 5;

/// How the shaft swings in its bending modes, from the instant of departure.
///
/// Modal amplitudes have the unit m sqrt(kg) (modes of unit modal mass).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Flex {
    /// Angular frequency of each mode, rad/s; zero where there is none.
    pub frequency: [f64; MODES],
    /// Rate at which each mode's amplitude dies, 1/s.
    pub decay: [f64; MODES],
    /// Displacement of the tip in each mode, 1/sqrt(kg).
    pub tip: [f64; MODES],
    /// Displacement of the nock groove in each mode, 1/sqrt(kg).
    pub nock: [f64; MODES],
    /// Amplitudes to the left and up at departure.
    pub amplitude: [[f64; MODES]; 2],
    /// Their rates, per second.
    pub rate: [[f64; MODES]; 2],
    /// Speed that the swinging costs in all, over air density and cross-flow
    /// drag per length, m3/(kg s) of the first mode; zero without damping.
    pub slowing: f64,
}

impl Flex {
    /// Amplitude of each mode, left and up, some time (s) after departure: a free
    /// swing with damping.
    pub fn swing(&self, time: f64) -> [[f64; MODES]; 2] {
        let mut swing = [[0.0; MODES]; 2];
        for k in (0..MODES).filter(|&k| self.frequency[k] > 0.0) {
            let (damped, of_cos, of_sin) = self.waves(k);
            let (sin, cos) = (damped * time).sin_cos();
            let fade = (-self.decay[k] * time).exp();
            for (plane, swing) in swing.iter_mut().enumerate() {
                swing[k] = fade * (of_cos[plane] * cos + of_sin[plane] * sin);
            }
        }
        swing
    }

    /// A mode's swing as damped angular frequency (rad/s) and what goes with its cosine
    /// and its sine, left and up.
    pub fn waves(&self, mode: usize) -> (f64, [f64; 2], [f64; 2]) {
        let (omega, decay) = (self.frequency[mode], self.decay[mode]);
        let damped = (omega * omega - decay * decay).max(0.0).sqrt().max(f64::MIN_POSITIVE);
        let of = |plane: usize| (self.amplitude[plane][mode], self.rate[plane][mode]);
        (damped, [0, 1].map(|p| of(p).0), [0, 1].map(|p| (of(p).1 + decay * of(p).0) / damped))
    }

    /// Left and up displacement of the tip from the rigid arrow, m, some time
    /// after departure.
    pub fn tip_at(&self, time: f64) -> [f64; 2] {
        self.place(&self.tip, time)
    }

    /// The same of the nock groove.
    pub fn nock_at(&self, time: f64) -> [f64; 2] {
        self.place(&self.nock, time)
    }

    fn place(&self, shape: &[f64; MODES], time: f64) -> [f64; 2] {
        self.swing(time).map(|plane| plane.iter().zip(shape).map(|(q, w)| q * w).sum())
    }

    /// Energy in the bending modes at departure, J.
    pub fn energy(&self) -> f64 {
        let mut sum = 0.0;
        for plane in 0..2 {
            for k in 0..MODES {
                let strain = self.frequency[k] * self.amplitude[plane][k];
                sum += 0.5 * (self.rate[plane][k].powi(2) + strain * strain);
            }
        }
        sum
    }
}
