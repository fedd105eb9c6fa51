//! Stubs.
use super::compare::Case;
use crate::figure::Figure;
use study::*;
use units::Style;
fn stub(name: &str) -> Figure {
    Figure::stub(name)
}
pub(super) fn faces(_: Case) -> Figure {
    stub("faces")
}
pub(super) fn groups(_: Case) -> Figure {
    stub("groups")
}
pub(super) fn drop(_: Case) -> Figure {
    stub("drop")
}
pub(super) fn causes(_: Case) -> Figure {
    stub("causes")
}
pub(super) fn hits(_: Case) -> Figure {
    stub("hits")
}
pub(super) fn power(_: Case) -> Option<Figure> {
    Some(stub("power"))
}
pub(super) fn sweep(_: &SweepAnswer, _: usize, _: Style) -> [Figure; 2] {
    [stub("a"), stub("b")]
}
pub(super) fn impacts(_: &Tuned, _: Style) -> Figure {
    stub("tune-impacts")
}
pub(super) fn paper(_: &TunedBuild, _: usize, _: Style) -> Figure {
    stub("tune-paper")
}
pub(super) fn trends(_: &Tuned, _: &TunedBuild, _: usize, _: Style) -> Figure {
    stub("tune-trends")
}
pub(super) fn nock(_: &Tuned, _: &TunedBuild, _: usize, _: Style) -> Figure {
    stub("tune-nock")
}
pub(super) fn shares(_: &Spread, _: usize, _: usize, _: Style) -> Figure {
    stub("shares")
}
pub(super) fn owners(_: &Spread, _: usize, _: usize, _: Style) -> Figure {
    stub("owners")
}
pub(super) fn choices(_: &Bench, _: &WorthBuild, _: usize, _: Style) -> Figure {
    stub("worth")
}
pub(super) fn gains(_: &Bench, _: &WorthBuild, _: usize, _: Style) -> Figure {
    stub("gains")
}
pub(super) fn face(_: Case) -> Figure {
    stub("face")
}
