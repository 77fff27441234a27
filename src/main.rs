//! The command line, and the window of the app where it is built in.

mod cli;

use std::process::ExitCode;

fn main() -> ExitCode {
    cli::run()
}
