//! The program: hands its arguments and streams to the library beside it.

use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use clothyard::Stream;

fn main() -> ExitCode {
    clothyard::from_environment();
    let colour = std::env::var_os("NO_COLOR").is_none_or(|word| word.is_empty());
    let (mut out, mut err) = (io::stdout(), io::stderr());
    let (out_seen, err_seen) = (out.is_terminal(), err.is_terminal());
    // Neither stream is locked: the progress bar draws from a thread of its own.
    ExitCode::from(clothyard::command(
        std::env::args_os(),
        &mut stream(&mut out, out_seen, colour),
        &mut stream(&mut err, err_seen, colour),
    ))
}

fn stream(to: &mut dyn Write, terminal: bool, colour: bool) -> Stream<'_> {
    Stream { terminal, colour: terminal && colour, ..Stream::plain(to) }
}
