use nalgebra::Vector3;

/// Yaw and pitch of a direction, rad. See the crate documentation for signs.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Attitude {
    /// Nose to the archer's left, rad.
    pub yaw: f64,
    /// Nose up, rad.
    pub pitch: f64,
}

impl Attitude {
    /// The attitude of a direction in the frame it is given in.
    pub fn of(direction: &Vector3<f64>) -> Self {
        Self {
            yaw: direction.y.atan2(direction.x),
            pitch: direction.z.atan2(direction.x.hypot(direction.y)),
        }
    }

    /// The unit vector along the nose.
    pub fn axis(self) -> Vector3<f64> {
        let (sin_yaw, cos_yaw) = self.yaw.sin_cos();
        let (sin_pitch, cos_pitch) = self.pitch.sin_cos();
        Vector3::new(cos_pitch * cos_yaw, cos_pitch * sin_yaw, sin_pitch)
    }
}

/// The state of a rigid, nearly axisymmetric arrow at an instant.
///
/// All vectors are in the line frame. The frame carried by the arrow does not
/// roll: `rate` is the turning of the axis alone, across the shaft, and `spin`
/// the turning about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Time since the nock left the string, s.
    pub time: f64,
    /// Balance point, m.
    pub position: Vector3<f64>,
    /// Velocity of the balance point, m/s.
    pub velocity: Vector3<f64>,
    /// Unit vector along the principal axis, nock to point.
    pub axis: Vector3<f64>,
    /// Angular velocity across the shaft, rad/s; perpendicular to `axis`.
    pub rate: Vector3<f64>,
    /// Spin about the axis, rad/s, clockwise seen from the nock.
    pub spin: f64,
    /// Roll of the index vane from straight up, rad, clockwise seen from the nock.
    pub roll: f64,
}

impl State {
    /// Yaw and pitch of the arrow in the line frame.
    pub fn attitude(&self) -> Attitude {
        Attitude::of(&self.axis)
    }

    /// Whether every number of the state is finite.
    pub fn is_finite(&self) -> bool {
        [&self.position, &self.velocity, &self.axis, &self.rate]
            .iter()
            .all(|v| v.iter().all(|c| c.is_finite()))
            && [self.time, self.spin, self.roll].iter().all(|c| c.is_finite())
    }
}
