//! What scripts, screen readers and plain terminals get.

use crate::workbench::{err, folder_of, fustian, mistake, out, run};
use std::path::Path;
use std::process::Output;

/// A check with these variables, on a terminal that is said to show anything.
fn checked(folder: &Path, variables: &[(&str, &str)]) -> Output {
    let mut command = fustian(folder);
    command.env("TERM", "xterm").env_remove("LC_ALL").env_remove("COLUMNS").env_remove("CLICOLOR_FORCE");
    command.args(["check", "torn.fus"]).envs(variables.iter().copied()).output().expect("the program starts")
}

#[test]
fn each_message_is_one_line() {
    let text = mistake("seam-unequal");
    // Its first line says what must be found: `# slug: … | line: … | sizes: …`.
    let line =
        text.split("line:").nth(1).and_then(|rest| rest.split('|').next()).expect("a line").trim().to_owned();
    let sound = crate::workbench::example("ticket-bag");
    let folder = folder_of(&[("torn.fus", &text), ("sound.fus", &sound)]);
    let output = run(folder.path(), &["check", "--format", "plain", "sound.fus", "torn.fus"]);
    assert_eq!((output.status.code(), err(&output)), (Some(1), String::new()));
    let said = out(&output);
    let own: Vec<&str> = said.lines().filter(|line| line.ends_with("[seam/unequal]")).collect();
    assert_eq!(own.len(), 1, "{said}");
    assert!(own[0].starts_with(&format!("torn.fus:{line}:")) && own[0].contains(": mistake: "), "{said}");
    // A list of places takes every line apart: file, line, column, words.
    for line in said.lines() {
        let parts: Vec<&str> = line.splitn(4, ':').collect();
        assert_eq!(parts[0], "torn.fus", "{line}");
        assert!(
            parts[1..3].iter().all(|number| number.parse::<usize>().is_ok_and(|number| number > 0)),
            "{line}"
        );
        assert!(parts[3].ends_with(']'), "{line}");
    }
}

#[test]
fn a_plain_terminal_is_given_plain_letters() {
    let folder = folder_of(&[("torn.fus", &mistake("seam-unequal"))]);
    assert!(!err(&checked(folder.path(), &[])).is_ascii(), "lines are drawn with letters for drawing");
    for locale in ["C", "POSIX"] {
        let said = err(&checked(folder.path(), &[("LC_ALL", locale)]));
        assert!(said.is_ascii() && said.contains("seam/unequal"), "{said}");
    }
    assert!(!err(&checked(folder.path(), &[("LC_ALL", "C.UTF-8")])).is_ascii());
}

#[test]
fn colour_comes_where_it_is_asked_for() {
    let folder = folder_of(&[("torn.fus", &mistake("seam-unequal"))]);
    let coloured = |variables: &[(&str, &str)]| err(&checked(folder.path(), variables)).contains("\u{1b}[");
    assert!(!coloured(&[]) && !coloured(&[("CLICOLOR_FORCE", "0")]) && !coloured(&[("CLICOLOR_FORCE", "")]));
    assert!(coloured(&[("CLICOLOR_FORCE", "1")]));
    assert!(!coloured(&[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")]));
}

#[test]
fn messages_are_as_wide_as_is_asked() {
    let folder = folder_of(&[("torn.fus", &mistake("seam-unequal"))]);
    let lines = |columns: &str| err(&checked(folder.path(), &[("COLUMNS", columns)])).lines().count();
    // The same words take more lines where there is less room.
    assert!(lines("44") > lines("120"));
    assert_eq!(lines("wide"), err(&checked(folder.path(), &[])).lines().count());
}

#[test]
fn a_shell_offers_what_can_be_explained() {
    let folder = folder_of(&[]);
    for shell in ["bash", "zsh"] {
        let script = out(&run(folder.path(), &["completions", shell]));
        assert!(script.contains("seam/unequal"), "{shell}");
    }
    // A family, and a word that is nearly right, are answered as before.
    assert_eq!(run(folder.path(), &["explain", "seam"]).status.code(), Some(0));
    assert!(err(&run(folder.path(), &["explain", "seam/uneqal"])).contains("seam/unequal"));
}
