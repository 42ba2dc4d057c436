//! The command line: all reading, writing, colour and exit codes. One file a command.

mod arguments;
mod check;
mod cutlist;
mod disk;
mod explain;
mod look;
mod outcome;
mod output;
mod pieces;
mod resolve;
mod schema;
mod work;

use arguments::{Arguments, Command};
use clap::Parser;
use outcome::{Outcome, Trouble};
use std::process::ExitCode;

/// Runs the command that was typed.
pub fn run() -> ExitCode {
    // clap itself ends the process after help (0) and after a slip in the command (2).
    let arguments = Arguments::parse();
    let outcome = match arguments.command {
        Command::Check(command) => check::run(&command),
        Command::Resolve(command) => resolve::run(&command),
        Command::Pieces(command) => pieces::run(&command),
        Command::Cutlist(command) => cutlist::run(&command),
        Command::Explain(command) => explain::run(&command),
        Command::Schema => schema::run(),
    };
    exit_code(outcome)
}

/// The exit code, after the last words.
fn exit_code(outcome: Result<Outcome, Trouble>) -> ExitCode {
    match outcome {
        Ok(Outcome::Good) | Err(Trouble::NobodyReads) => ExitCode::SUCCESS,
        Ok(Outcome::Mistakes) => ExitCode::from(1),
        Ok(Outcome::Unread) => ExitCode::from(2),
        Err(Trouble::Told(words)) => {
            output::say(&format!("fustian: {words}\n"));
            ExitCode::from(2)
        }
    }
}
