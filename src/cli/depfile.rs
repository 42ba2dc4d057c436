use fustian::source::SourceMap;
use std::path::Path;

/// The rule that tells make and ninja which files an output is made of. Each of them is a target
/// without a recipe too, so that make does not stop when one is gone.
pub fn rule(made: &Path, map: &SourceMap) -> String {
    let files: Vec<String> = map.files().iter().map(|file| escaped(&file.name)).collect();
    let mut text = format!("{}: {}\n", escaped(&made.to_string_lossy()), files.join(" "));
    for file in &files {
        text.push_str(&format!("\n{file}:\n"));
    }
    text
}

/// As make reads it: blanks and `#` behind a `\`, `$` doubled (GNU make manual, 4.3 and 6.1).
fn escaped(path: &str) -> String {
    let mut text = String::new();
    for letter in path.chars() {
        match letter {
            ' ' | '#' => text.extend(['\\', letter]),
            '$' => text.push_str("$$"),
            _ => text.push(letter),
        }
    }
    text
}
