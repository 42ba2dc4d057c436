use super::arguments::Schema;
use super::choices::SchemaOf;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::unwritable;
use fustian::emit::{Schemas, schema};

/// Prints the schema.
pub fn run(command: &Schema) -> Result<Outcome, Trouble> {
    let of = match command.of {
        SchemaOf::Resolve => Schemas::Resolve,
        SchemaOf::Lay => Schemas::Lay,
        SchemaOf::Materials => Schemas::Materials,
        SchemaOf::Steps => Schemas::Steps,
        SchemaOf::Compare => Schemas::Compare,
    };
    output::put(&schema(of).map_err(unwritable)?)?;
    Ok(Outcome::Good)
}
