//! Clothyard on the command line: the only room that prints, opens files, and
//! reads the environment.
#![expect(clippy::print_stderr, reason = "this is the room that prints")]

mod ask;
mod check;
mod cli;
mod failure;
mod fly;
mod pin;
mod progress;
mod push;
mod rigid;
mod run;
mod shelf;
mod show;

use std::process::ExitCode;

use clap::{CommandFactory, Parser};
use cli::{Cli, Command};
use failure::Failure;

fn main() -> ExitCode {
    match work(Cli::parse().command) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprint!("{}", failure.text());
            failure.code()
        }
    }
}

fn work(command: Command) -> Result<(), Failure> {
    match command {
        Command::Run(order) => run::run(&order),
        Command::Fly(order) => fly::fly(&order),
        Command::Arrow(order) => show::arrow(&order),
        Command::Push(order) => push::push(&order),
        Command::Pin(order) => pin::pin(&order),
        Command::Check(order) => check::check(&order),
        Command::Schema => shelf::print(&scenario::json_schema()),
        Command::Keys => shelf::print(&scenario::key_reference()),
        Command::Completions { shell } => {
            let mut text = Vec::new();
            clap_complete::generate(shell, &mut Cli::command(), "clothyard", &mut text);
            shelf::print_bytes(&text)
        }
        Command::Man => {
            let mut text = Vec::new();
            clap_mangen::Man::new(Cli::command()).render(&mut text).map_err(Failure::Print)?;
            shelf::print_bytes(&text)
        }
    }
}
