use super::document::Document;
use schemars::generate::SchemaSettings;

/// The JSON Schema (draft 2020-12) of what `fustian resolve` writes, with a line's end at its end.
pub fn schema() -> Result<String, serde_json::Error> {
    let schema = SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<Document>();
    let mut text = serde_json::to_string_pretty(&schema)?;
    text.push('\n');
    Ok(text)
}
