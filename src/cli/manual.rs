use super::arguments::{Arguments, Manual};
use super::outcome::{Outcome, Trouble};
use super::output;
use clap::CommandFactory;

/// Prints a manual page, in the form that `man` reads.
pub fn run(command: &Manual) -> Result<Outcome, Trouble> {
    let mut all = Arguments::command();
    // So that a command's page has the options' full names.
    all.build();
    let page = match &command.command {
        None => all,
        Some(name) => {
            let found = all.find_subcommand(name).cloned();
            found.ok_or_else(|| Trouble::Message(format!("there is no command {name:?}")))?
        }
    };
    let mut text = Vec::new();
    let rendered = clap_mangen::Man::new(page).render(&mut text);
    rendered.map_err(|error| Trouble::Message(format!("the page could not be made: {error}")))?;
    output::put(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Good)
}
