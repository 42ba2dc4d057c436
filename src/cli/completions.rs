use super::arguments::{Arguments, Completions};
use super::outcome::{Outcome, Trouble};
use super::output;
use clap::CommandFactory;

/// Prints the completions of one shell.
pub fn run(command: &Completions) -> Result<Outcome, Trouble> {
    let mut script = Vec::new();
    clap_complete::generate(command.shell, &mut Arguments::command(), "fustian", &mut script);
    output::put(&String::from_utf8_lossy(&script))?;
    Ok(Outcome::Good)
}
