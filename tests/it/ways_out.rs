//! Ways out that lie in how Fustian is asked: the library says them in plain words, the command line
//! names its options.

use crate::workbench::{err, folder_of, run};
use fustian::compile;
use fustian::report::reported;
use fustian::source::MemoryLoader;

const JACKET: &str = "variation \"Deck jacket\" of \"../smock.fus\"\nunits cm\n";

#[test]
fn no_words_of_the_library_name_an_option() {
    for (file, text) in super::catalogue::source_texts() {
        if file.contains("src/cli/") {
            continue;
        }
        for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
            // A property of a style sheet is none: what it is stands behind a colon.
            let is_property = |rest: &str| {
                let name =
                    rest.trim_start_matches(|letter: char| letter.is_ascii_lowercase() || letter == '-');
                name.starts_with(':')
            };
            let mut after = line.split("--").skip(1);
            let named = after.any(|rest| {
                rest.starts_with(|letter: char| letter.is_ascii_lowercase()) && !is_property(rest)
            });
            assert!(!named, "{file} names an option: {line}");
        }
    }
}

#[test]
fn a_base_outside_the_folder_is_let_in_by_whoever_asks() {
    let loader = MemoryLoader::new().with("crew/jacket.fus", JACKET);
    let compiled = compile(&loader, "crew/jacket.fus");
    let outside: Vec<_> = compiled.diagnostics.iter().filter(|one| one.slug() == "file/outside").collect();
    assert_eq!(outside.len(), 1, "{:#?}", compiled.diagnostics);
    let messages = reported(&compiled.map, &compiled.diagnostics);
    let help = messages.iter().find(|one| one.slug == "file/outside").and_then(|one| one.help.clone());
    assert_eq!(help.as_deref(), Some("move it into that folder, or let a wider folder be read"));

    let folder = folder_of(&[("jacket.fus", JACKET)]);
    let output = err(&run(folder.path(), &["check", "jacket.fus"]));
    assert!(
        output.contains("help: move it into that folder, or name a wider folder with --root"),
        "{output}"
    );
}
