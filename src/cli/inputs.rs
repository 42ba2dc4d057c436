use super::arguments::Inputs;
use super::choices::LayForm;
use super::outcome::{Outcome, Trouble};
use super::work::{loader_of, unwritable};
use super::{look, output};
use fustian::inputs;
use fustian::report::{render, summary};
use std::collections::BTreeSet;

/// Lists the files that garments hang on. They are read for that, and nothing is worked out: a list that is not whole
/// is not written.
pub fn run(command: &Inputs) -> Result<Outcome, Trouble> {
    let mut all: Vec<String> = Vec::new();
    let mut seen = BTreeSet::new();
    let mut worst = Outcome::Good;
    for file in &command.files {
        let found = inputs(&loader_of(file, command.folder.root.as_deref())?, file);
        if !found.is_whole {
            output::show(&render(&found.map, &found.mistakes, look::of_messages()));
            output::say(&format!("{}\n", summary(&found.mistakes).unwrap_or_default()));
            let is_unread = found.map.files().first().is_none_or(|first| first.text.is_empty());
            worst = worst.max(if is_unread { Outcome::Unread } else { Outcome::Mistakes });
            continue;
        }
        let names = found.map.files().iter().map(|file| file.name.to_string());
        all.extend(names.filter(|name| seen.insert(name.clone())));
    }
    if worst == Outcome::Good {
        output::put(&match command.format {
            LayForm::Text => all.iter().map(|name| format!("{name}\n")).collect(),
            LayForm::Json => {
                let document = serde_json::json!({ "inputs": all });
                serde_json::to_string_pretty(&document).map_err(unwritable)? + "\n"
            }
        })?;
    }
    Ok(worst)
}
