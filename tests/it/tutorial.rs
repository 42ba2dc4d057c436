//! The tutorial is followed to the letter: each file typed, each command run, each picture drawn.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

/// What a reader meets, in order.
enum Met {
    /// Lines of a file: the whole of it, what is added to it, or a slip that is taken out again.
    Typed { name: String, how: String, text: String },
    /// A command to type.
    Ran(String),
    /// A picture, by its file's name in the folder `tutorial`.
    Shown(String),
}

fn met(tutorial: &str) -> Vec<Met> {
    let mut met = Vec::new();
    let mut lines = tutorial.lines();
    while let Some(line) = lines.next() {
        if let Some(fence) = line.strip_prefix("```fus ") {
            let (name, how) = fence.split_once(' ').unwrap_or((fence, ""));
            let text = lines
                .by_ref()
                .take_while(|line| *line != "```")
                .fold(String::new(), |text, line| text + line + "\n");
            met.push(Met::Typed { name: name.to_owned(), how: how.to_owned(), text });
        } else if let Some(command) = line.strip_prefix("    fustian ") {
            met.push(Met::Ran(command.to_owned()));
        } else if let Some((_, picture)) = line.split_once("](tutorial/") {
            met.push(Met::Shown(picture.trim_end_matches(')').to_owned()));
        }
    }
    met
}

fn run(arguments: &str, folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_fustian"))
        .args(arguments.split_whitespace())
        .current_dir(folder)
        .env("NO_COLOR", "1")
        .output()
        .expect("it starts")
}

/// The slugs of the mistakes that `check` reports of a file.
fn mistakes(name: &str, folder: &Path) -> Vec<String> {
    let output = run(&format!("check --format json {name}"), folder);
    let told: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let all = told[0]["messages"].as_array().expect("the messages").iter();
    let mistakes = all.filter(|one| one["severity"] == "mistake");
    mistakes.map(|one| one["slug"].as_str().expect("a slug").to_owned()).collect()
}

/// Set `FUSTIAN_WRITE_README=1` to draw its pictures anew after a drawing has changed.
#[test]
fn who_follows_the_tutorial_meets_what_it_says() {
    let grammar = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar");
    let tutorial = fs::read_to_string(grammar.join("TUTORIAL.md")).expect("the tutorial");
    let folder = tempfile::TempDir::new().expect("a folder");
    let mut files: BTreeMap<String, String> = BTreeMap::new();
    // A slip stands in the file until the next lines are typed.
    let mut slip = None;
    let (mut typed, mut ran, mut shown) = (0, 0, 0);
    for met in met(&tutorial) {
        match met {
            Met::Typed { name, how, text } => {
                typed += 1;
                for (name, text) in &files {
                    fs::write(folder.path().join(name), text).expect("written");
                }
                let before = files.get(&name).cloned().unwrap_or_default();
                let now = match how.is_empty() {
                    true => text,
                    false => format!("{before}\n{text}"),
                };
                fs::write(folder.path().join(&name), &now).expect("written");
                slip = how.strip_prefix("slip ").map(str::to_owned);
                match &slip {
                    Some(slug) => {
                        assert_eq!(mistakes(&name, folder.path()), std::slice::from_ref(slug), "{now}")
                    }
                    None => {
                        // The very first text is a draft: nothing of it is sewn.
                        let expected: &[&str] = if typed == 1 { &["piece/unsewn"] } else { &[] };
                        assert_eq!(mistakes(&name, folder.path()), expected, "{now}");
                        files.insert(name, now);
                    }
                }
            }
            Met::Ran(command) => {
                ran += 1;
                let output = run(&command, folder.path());
                // What has mistakes, `check` and `draw --unfinished` tell with the code 1.
                let code = i32::from(slip.is_some() || typed == 1);
                assert_eq!(
                    output.status.code(),
                    Some(code),
                    "{command}: {}",
                    String::from_utf8_lossy(&output.stderr)
                );
            }
            Met::Shown(picture) => {
                shown += 1;
                let drawn =
                    fs::read(folder.path().join(&picture)).expect("the command before it has drawn it");
                let kept = grammar.join("tutorial").join(&picture);
                if std::env::var_os("FUSTIAN_WRITE_README").is_some() {
                    fs::write(&kept, &drawn).expect("the picture can be written");
                }
                assert!(
                    fs::read(&kept).expect("the picture") == drawn,
                    "{picture} has changed: FUSTIAN_WRITE_README=1"
                );
            }
        }
    }
    let headings = tutorial.lines().filter(|line| line.starts_with("## ")).count();
    assert_eq!((headings, shown), (8, 8), "eight steps, each with its picture");
    assert!(typed >= 7 && ran >= 14, "{typed} texts, {ran} commands");
}
