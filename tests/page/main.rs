//! The live page: what it answers, what it refuses, and how it behaves in a
//! real browser.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod access;
mod answers;
mod asked;
mod bench;
mod grid;
mod heard;
mod kept;
mod line;
mod port;
mod refusals;
mod rooms;
mod screen;
mod still;
mod tools;
mod watch;

use std::net::SocketAddr;
use std::path::Path;

use clothyard::PageSite;
use clothyard_tests::program::Folder;

/// A page for a folder of the test's own.
fn site(name: &str) -> (Folder, SocketAddr) {
    let folder = Folder::new(&format!("page-{name}"));
    let site = PageSite::local(Path::new(&folder.at("")), None).unwrap();
    let address = site.address();
    site.serve_aside();
    (folder, address)
}
