use super::arguments::{Arguments, Completions};
use super::outcome::{Outcome, Trouble};
use super::output;
use clap::CommandFactory;
use clap::builder::PossibleValuesParser;
use fustian::report::catalogue::entries;

/// Prints the completions of one shell.
pub fn run(command: &Completions) -> Result<Outcome, Trouble> {
    // Any word may be asked to be explained, and what is misspelt is told better there; a shell offers what there is.
    let slugs = PossibleValuesParser::new(entries().map(|entry| entry.slug));
    let mut all = Arguments::command()
        .mut_subcommand("explain", |explain| explain.mut_arg("slug", |slug| slug.value_parser(slugs)));
    let mut script = Vec::new();
    clap_complete::generate(command.shell, &mut all, "fustian", &mut script);
    output::put(&String::from_utf8_lossy(&script))?;
    Ok(Outcome::Good)
}
