//! The command line: all reading, writing, colour and exit codes. One file a command.

mod arguments;
mod bring;
mod check;
mod choices;
mod compare;
mod completions;
mod cut;
mod cutlist;
mod depfile;
mod disk;
mod draw;
mod drawings_kept;
mod editor;
mod expand;
mod explain;
mod export;
mod inputs;
mod lay;
mod length;
mod look;
mod manual;
mod materials;
mod new;
mod outcome;
mod output;
mod pack;
mod pieces;
mod pin;
mod preview;
mod print;
mod progress;
mod remedy;
mod resolve;
mod saves;
mod schema;
mod sheet;
mod spared;
mod steps;
mod tidy;
mod watch;
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
        Command::Check(command) if command.watch => watch::run(&command),
        Command::Check(command) => check::run(&command),
        Command::Resolve(command) => resolve::run(&command),
        Command::Pieces(command) => pieces::run(&command),
        Command::Cutlist(command) => cutlist::run(&command),
        Command::Draw(command) => draw::run(&command),
        Command::Print(command) => print::run(&command),
        Command::Sheet(command) => sheet::run(&command),
        Command::Preview(command) => preview::run(&command),
        Command::Export(command) => export::run(&command),
        Command::Compare(command) => compare::run(&command),
        Command::Pack(command) => pack::run(&command),
        Command::Bring(command) => bring::run(&command),
        Command::Expand(command) => expand::run(&command),
        Command::Inputs(command) => inputs::run(&command),
        Command::New(command) => new::run(&command),
        Command::Pin(command) => pin::run(&command),
        Command::Completions(command) => completions::run(&command),
        Command::Manual(command) => manual::run(&command),
        Command::Tidy(command) => tidy::run(&command),
        Command::Explain(command) => explain::run(&command),
        Command::Editor(_) => editor::run(),
        Command::Lay(command) => lay::run(&command),
        Command::Materials(command) => materials::run(&command),
        Command::Steps(command) => steps::run(&command),
        Command::Schema(command) => schema::run(&command),
    };
    exit_code(outcome)
}

/// The exit code, after the last words.
fn exit_code(outcome: Result<Outcome, Trouble>) -> ExitCode {
    match outcome {
        Ok(Outcome::Good) | Err(Trouble::NobodyReads) => ExitCode::SUCCESS,
        Ok(Outcome::Mistakes) => ExitCode::from(1),
        Ok(Outcome::Unread) => ExitCode::from(2),
        Err(Trouble::Message(words)) => {
            output::say(&format!("fustian: {words}\n"));
            ExitCode::from(2)
        }
    }
}
