//! Measured tables: CSV files as any spreadsheet or hand writes them, with one
//! reader for every kind.
//!
//! Columns stand in any order, each with its unit in the head (`mass [gr]`,
//! `mass (gr)` or `mass, gr`) or in its cells. Commas, semicolons or tabs part
//! the cells, numbers have a decimal point or comma, cells may be quoted or
//! blank, a byte-order mark and lines that begin with `#` say nothing. A title above
//! the heads, units below them, the heads once more and rows of totals or averages
//! are passed over and named ([`Table::left_out`]). A column
//! of the user's own is passed over and named ([`Table::passed_over`]); one
//! that is nearly called like a column of the kind is a slip. Every mistake of
//! a file is told at once, with its place.
//!
//! `scan` finds rows and cells, `names` reads a head, `column` a cell, `sheet` binds
//! the two and gathers mistakes, `settle` puts corrections in place, `likely` asks about
//! what hardly any arrow has, `add` writes a new row and `noted` says what it changed;
//! each further file holds the columns of a kind and how its rows make what the other
//! rooms work with.

mod add;
mod batch;
mod clutter;
mod column;
mod ends;
mod faces;
mod far_off;
mod formula;
mod hand;
mod head;
mod hits;
mod job;
mod kind;
mod known;
mod likely;
mod mistake;
mod names;
mod noted;
mod own;
mod parts;
mod profile;
mod scan;
mod settle;
mod sheet;
mod shots;
mod standing;
mod table;
mod three;
mod trial;

pub use add::with_row;
pub use batch::{batch, worked};
pub use clutter::SUMS;
pub use faces::faces;
pub use hits::{impact_columns, impacts, turns};
pub use job::{MOST_ARROWS, job};
pub use kind::Kind;
pub use known::{KnownCells, KnownColumn};
pub use mistake::TableMistake;
pub use noted::{Doubt, Noted, Said};
pub use parts::parts;
pub use profile::{ShaftReadings, Stations, profiles};
pub use shots::{shot_columns, shots};
pub use standing::{Standing, standing};
pub use table::{Opened, Reader, Table};
pub use three::{ShaftThree, three};
pub use trial::{quoted, trial_hits, trial_key, trial_plan, trial_plan_text, trial_spreads};
