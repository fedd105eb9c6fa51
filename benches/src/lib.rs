//! Benches, run with `cargo bench -p clothyard-benches`.
