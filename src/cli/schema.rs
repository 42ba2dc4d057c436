use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::unwritable;

/// Prints the schema.
pub fn run() -> Result<Outcome, Trouble> {
    output::put(&fustian::emit::schema().map_err(unwritable)?)?;
    Ok(Outcome::Good)
}
