//! A folder of variations built by make, and what scripts and code scanning read.

use crate::workbench::{err, examples, folder_of, other, out, run};
use std::fs;
use std::path::Path;
use std::time::{Duration, SystemTime};

/// As DEVELOPERS.md has it.
const MAKEFILE: &str = "\
FUSTIAN ?= fustian
GARMENTS := $(filter-out crew-%.fus, $(wildcard *.fus))

all: $(GARMENTS:.fus=.json)

%.json: %.fus
\t$(FUSTIAN) resolve $< -o $@ --depfile $*.d

-include $(GARMENTS:.fus=.d)
";

/// Which garments make has built this time.
fn made(folder: &Path) -> Vec<String> {
    let program = format!("FUSTIAN={}", env!("CARGO_BIN_EXE_fustian"));
    let told = out(&other(folder, "make", &["-j2", &program]));
    let mut made: Vec<String> = told
        .lines()
        .filter_map(|line| line.split(" resolve ").nth(1)?.split(' ').next())
        .map(str::to_owned)
        .collect();
    made.sort();
    made
}

/// As if the file had been saved later than all that was made: no test waits for a clock.
fn save_later(path: &Path, seconds: u64) {
    let file = fs::File::options().write(true).open(path).expect("a file");
    file.set_modified(SystemTime::now() + Duration::from_secs(seconds)).expect("a time");
}

#[test]
fn make_builds_only_what_has_changed() {
    let folder = examples();
    fs::write(folder.path().join("Makefile"), MAKEFILE).expect("written");
    let entries = fs::read_dir(folder.path()).expect("the examples");
    let paths = entries.map(|entry| entry.expect("an entry").path());
    let garments =
        paths.filter(|path| path.extension().is_some_and(|extension| extension == "fus")).count() - 2;
    assert_eq!(made(folder.path()).len(), garments, "all but the two libraries at first");
    assert!(made(folder.path()).is_empty(), "nothing has changed");
    save_later(&folder.path().join("deck-smock.fus"), 20);
    let of_the_smock = [
        "deck-cropped.fus",
        "deck-hood.fus",
        "deck-jacket.fus",
        "deck-lined.fus",
        "deck-longer.fus",
        "deck-smock.fus",
        "deck-storm-smock.fus",
        "deck-waistcoat.fus",
        "deck-zip.fus",
        "second-mate.fus",
    ];
    assert_eq!(made(folder.path()), of_the_smock, "whatever is made of the smock");
}

#[test]
fn the_depfile_names_every_file_of_the_chain() {
    let folder = examples();
    let output = run(folder.path(), &["resolve", "deck-jacket.fus", "-o", "a b.json", "--depfile", "a.d"]);
    assert!(output.status.success(), "{}", err(&output));
    let text = fs::read_to_string(folder.path().join("a.d")).expect("a depfile");
    let first = text.lines().next().expect("a rule");
    assert_eq!(
        first,
        "a\\ b.json: deck-jacket.fus deck-smock.fus deck-zip.fus deck-lined.fus crew-library.fus"
    );
    let output = run(folder.path(), &["resolve", "deck-jacket.fus", "--depfile", "a.d"]);
    assert_eq!(output.status.code(), Some(2), "a depfile is of a file");
}

#[test]
fn sarif_is_what_the_standard_says() {
    // One pattern of the schema, of a property that we do not write, has a bracket too many for a
    // strict reader of patterns.
    let schema = include_str!("sources/sarif-2.1.0.json").replace("[a-zA-Z]{2}]?$", "[a-zA-Z]{2}$");
    let schema: serde_json::Value = serde_json::from_str(&schema).expect("the schema of OASIS");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let mistakes = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/mistakes");
    let mut files: Vec<String> = fs::read_dir(&mistakes)
        .expect("the mistakes")
        .map(|entry| entry.expect("an entry").file_name().into_string().expect("a name"))
        .filter(|name| name.ends_with(".fus"))
        .collect();
    files.sort();
    let mut arguments = vec!["check", "--format", "sarif"];
    arguments.extend(files.iter().map(String::as_str));
    let output = run(&mistakes, &arguments);
    let log: serde_json::Value = serde_json::from_str(&out(&output)).expect("json");
    let complaints: Vec<String> = validator.iter_errors(&log).map(|error| error.to_string()).collect();
    assert!(complaints.is_empty(), "{complaints:#?}");
    let results = log["runs"][0]["results"].as_array().expect("results");
    assert!(results.len() >= files.len(), "each file makes one: {}", results.len());
    let rules = log["runs"][0]["tool"]["driver"]["rules"].as_array().expect("rules");
    for result in results {
        let index = result["ruleIndex"].as_u64().expect("a rule of the catalogue") as usize;
        assert_eq!(rules[index]["id"], result["ruleId"]);
    }
    let file = folder_of(&[("über #1.fus", "garment \"Smock\"\nunits cm\nlet a 3\n")]);
    let log: serde_json::Value =
        serde_json::from_str(&out(&run(file.path(), &["check", "--format", "sarif", "über #1.fus"])))
            .expect("json");
    let place = &log["runs"][0]["results"][0]["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "%C3%BCber%20%231.fus", "RFC 3986, 2.1");
    assert_eq!(place["region"]["startLine"], 3);
}

#[test]
fn shells_complete_and_man_has_a_page() {
    let folder = folder_of(&[]);
    let script = out(&run(folder.path(), &["completions", "bash"]));
    fs::write(folder.path().join("fustian.bash"), &script).expect("written");
    // Bash itself completes a command.
    let ask = "source ./fustian.bash; COMP_WORDS=(fustian com); COMP_CWORD=1; _fustian fustian com fustian; echo \"${COMPREPLY[@]}\"";
    let completed = out(&other(folder.path(), "bash", &["-c", ask]));
    assert!(completed.split_whitespace().any(|word| word == "compare"), "{completed}");
    for shell in ["zsh", "fish", "elvish", "powershell"] {
        assert!(run(folder.path(), &["completions", shell]).status.success(), "{shell}");
    }
    let page = out(&run(folder.path(), &["manual"]));
    assert!(page.contains("\n.TH FUSTIAN 1 \"") && page.contains("compare"), "{page}");
    // What mandoc's lint says of a page: a heading without a day, blank lines, long lines, gaps before gaps.
    for command in ["check", "compare", "lay", "new", "schema"] {
        let page = out(&run(folder.path(), &["manual", command]));
        assert!(page.contains(&format!("\n.TH FUSTIAN-{} 1 \"20", command.to_uppercase())), "{page}");
        for (line, next) in page.lines().zip(page.lines().skip(1)) {
            assert!(!line.is_empty() && line.len() <= 80 && line == line.trim_end(), "{command}: {line:?}");
            assert!(
                !(line == ".br" || line == ".sp") || !next.starts_with(".sp"),
                "{command}: {line} {next}"
            );
        }
        fs::write(folder.path().join("page.1"), &page).expect("written");
        if let Ok(lint) = std::process::Command::new("mandoc")
            .args(["-T", "lint", "-W", "style"])
            .arg(folder.path().join("page.1"))
            .output()
        {
            assert!(
                lint.status.success() && lint.stdout.is_empty(),
                "{}",
                String::from_utf8_lossy(&lint.stdout)
            );
        }
    }
    let page = out(&run(folder.path(), &["manual", "tidy"]));
    assert!(page.contains("\\-\\-check"), "{page}");
    assert_eq!(run(folder.path(), &["manual", "knit"]).status.code(), Some(2));
}

/// What a garment hangs on is known before anything is worked out, and is what a build's rule names afterwards.
#[test]
fn inputs_are_those_that_the_rule_of_a_build_names() {
    let folder = examples();
    let entries = fs::read_dir(folder.path()).expect("the examples");
    let mut walked = 0;
    for entry in entries {
        let name = entry.expect("an entry").file_name().into_string().expect("text");
        if !name.ends_with(".fus") || name.starts_with("crew-") {
            continue;
        }
        walked += 1;
        let listed = out(&run(folder.path(), &["inputs", &name]));
        assert!(run(folder.path(), &["resolve", &name, "-o", "x.json", "--depfile", "x.d"]).status.success());
        let rule = fs::read_to_string(folder.path().join("x.d")).expect("the rule");
        let named = rule.lines().next().and_then(|line| line.split_once(": ")).expect("a rule").1;
        assert_eq!(listed.lines().collect::<Vec<_>>(), named.split(' ').collect::<Vec<_>>(), "{name}");
    }
    assert!(walked > 25, "{walked}");
    let both = out(&run(folder.path(), &["inputs", "deck-zip.fus", "deck-smock.fus", "--format", "json"]));
    let both: serde_json::Value = serde_json::from_str(&both).expect("JSON");
    assert_eq!(both, serde_json::json!({ "inputs": ["deck-zip.fus", "deck-smock.fus", "crew-library.fus"] }));
}

#[test]
fn a_list_of_inputs_is_whole_or_not_written() {
    let lost = "variation \"Smock\" of \"gone.fus\"\n";
    let broken = "garment \"Smock\"\nlet ease 3\n";
    let folder = folder_of(&[("lost.fus", lost), ("broken.fus", broken)]);
    let output = run(folder.path(), &["inputs", "lost.fus", "broken.fus"]);
    assert_eq!((output.status.code(), out(&output)), (Some(1), String::new()));
    assert!(err(&output).contains("gone.fus"), "{}", err(&output));
    assert_eq!(run(folder.path(), &["inputs", "nowhere.fus"]).status.code(), Some(2));
    // A slip in a statement hides no file.
    assert_eq!(out(&run(folder.path(), &["inputs", "broken.fus"])), "broken.fus\n");
}
