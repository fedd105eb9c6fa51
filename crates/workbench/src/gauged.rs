//! What a gauge was held to, and the most that a sound part reads on it.

use units::Role;

/// What a gauge was held to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gauged {
    /// A shaft's run-out in the middle, or of the whole shaft.
    Middle,
    /// A shaft's run-out near an end, where it may hook.
    End,
    /// An end face.
    Face,
    /// A point or a nock on a spin tester.
    Wobble,
}

impl Gauged {
    /// The most that a sound part reads, m.
    ///
    /// Chosen beside common practice (no source): shafts are sold at .001 to .006 in, the
    /// coarsest counted to each side, which reads .012; an end may hook by .003 to .006 in
    /// more (half-normal, `docs/model/cut-plan.md`), four times which is .024; a saw that
    /// is a degree off leaves .005 in over a face of .3 in; a point that wobbles .010 in
    /// is thrown out. Each limit lies well above, and a slipped decimal point above that.
    pub fn most(self) -> f64 {
        const INCH: f64 = 0.0254;
        match self {
            Self::Middle => 0.020 * INCH,
            Self::End => 0.030 * INCH,
            Self::Face => 0.015 * INCH,
            Self::Wobble => 0.060 * INCH,
        }
    }
}

/// "it reads 0.060 in where no sound shaft reads more than 0.020 in".
pub(crate) fn said(of: Gauged, reading: f64) -> String {
    let what = match of {
        Gauged::Middle | Gauged::End => "shaft",
        Gauged::Face => "end face",
        Gauged::Wobble => "arrow",
    };
    let both = |si: f64| Role::Gauge.both(si);
    let asked = format!(
        "it reads {} where no sound {what} reads more than {}: a slip of the decimal point?",
        both(reading),
        both(of.most())
    );
    match of {
        Gauged::Middle | Gauged::End => format!(
            "{asked} If not, it is bent or cracked: do not flex, cut or shoot it; break it, so that \
             nobody does"
        ),
        Gauged::Face | Gauged::Wobble => asked,
    }
}
