use super::comparison::Comparison;
use super::documents::{Document, LaysDocument, MaterialsOfSizesDocument, StepsDocument};
use schemars::Schema;
use schemars::generate::SchemaSettings;
use schemars::transform::{RecursiveTransform, Transform};
use serde_json::Value;

/// What there is a schema of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Schemas {
    /// What `fustian resolve` writes.
    #[default]
    Resolve,
    /// What `fustian lay --format json` writes.
    Lay,
    /// What `fustian materials --format json` writes.
    Materials,
    /// What `fustian steps --format json` writes.
    Steps,
    /// What `fustian compare --format json` writes.
    Compare,
}

/// The JSON Schema (draft 2020-12) of what a command writes, with a line's end at its end.
pub fn schema(of: Schemas) -> Result<String, serde_json::Error> {
    let generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let mut schema = match of {
        Schemas::Resolve => generator.into_root_schema_for::<Document>(),
        Schemas::Lay => generator.into_root_schema_for::<LaysDocument>(),
        Schemas::Materials => generator.into_root_schema_for::<MaterialsOfSizesDocument>(),
        Schemas::Steps => generator.into_root_schema_for::<StepsDocument>(),
        Schemas::Compare => generator.into_root_schema_for::<Comparison>(),
    };
    RecursiveTransform(without_null).transform(&mut schema);
    let mut text = serde_json::to_string_pretty(&schema)?;
    text.push('\n');
    Ok(text)
}

/// What is not known is left out of the document and never null; the generator cannot know that.
fn without_null(schema: &mut Schema) {
    if let Some(Value::Array(types)) = schema.get_mut("type") {
        types.retain(|kind| kind != "null");
        if let [only] = types.as_slice() {
            let only = only.clone();
            schema.insert("type".to_owned(), only);
        }
    }
    if let Some(Value::Array(choices)) = schema.get_mut("anyOf") {
        choices.retain(|choice| choice.get("type").is_none_or(|kind| kind != "null"));
        if let [Value::Object(only)] = choices.as_slice() {
            let only = only.clone();
            schema.remove("anyOf");
            for (key, value) in only {
                schema.insert(key, value);
            }
        }
    }
}
