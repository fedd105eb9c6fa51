/// Moments of a trapezoid that stands on the shaft or the ferrule, of uniform
/// thickness. Exact polynomials of the outline.
pub(crate) struct Outline {
    /// Area, m2.
    pub(crate) area: f64,
    /// Height of the centroid above the root, m.
    pub(crate) height: f64,
    /// Mean square height above the root, m2.
    pub(crate) height_square: f64,
    /// Centroid behind the front of the root, m.
    pub(crate) back: f64,
    /// Mean square distance along the shaft from the centroid, m2.
    pub(crate) along_square: f64,
}

impl Outline {
    /// From root chord, tip chord, sweep and height in m. The chords are not
    /// both zero.
    pub(crate) fn new(root: f64, tip: f64, sweep: f64, span: f64) -> Self {
        let step = tip - root;
        let sum = root + tip;
        // Integrals over the relative height u from 0 to 1 of u^i chord^j.
        let chord = sum / 2.0;
        let u_chord = root / 2.0 + step / 3.0;
        let uu_chord = root / 3.0 + step / 4.0;
        let chord2 = (root * root + root * tip + tip * tip) / 3.0;
        let u_chord2 = root * root / 2.0 + 2.0 * root * step / 3.0 + step * step / 4.0;
        let chord3 = sum * (root * root + tip * tip) / 4.0;
        let back = (sweep * u_chord + chord2 / 2.0) / chord;
        let back_square = (sweep * sweep * uu_chord + sweep * u_chord2 + chord3 / 3.0) / chord;
        Self {
            area: span * chord,
            height: span * u_chord / chord,
            height_square: span * span * uu_chord / chord,
            back,
            along_square: back_square - back * back,
        }
    }

    /// Mean square distance from the shaft's axis for a root at this radius, m2.
    pub(crate) fn radius_square(&self, root_radius: f64) -> f64 {
        root_radius * root_radius + 2.0 * root_radius * self.height + self.height_square
    }
}
