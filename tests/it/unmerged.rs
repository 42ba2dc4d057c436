//! Files that version control left with two versions in them, and paths with backslashes.

use crate::workbench::{err, examples, folder_of, other, out, run};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fs;

const APRON: &str = "garment \"Galley apron\"\nunits cm\nfabric canvas \"canvas\" { width 150 }\n\
                     layer outer in canvas { apron }\npiece apron \"Apron\" {\n  cut 1\n  outline rectangle 60 by 90\n}\n\
                     finish apron.left, apron.right, apron.top, apron.bottom  hem 2\n";
const TWO: &str = "<<<<<<< HEAD\n  outline rectangle 60 by 90\n=======\n  outline rectangle 60 by 95\n  # longer\n>>>>>>> longer-aprons";

fn made(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus")
}

fn two() -> String {
    APRON.replace("  outline rectangle 60 by 90", TWO)
}

#[test]
fn an_unresolved_merge_is_one_message_with_both_places() {
    let compiled = made(&two());
    let [one] = compiled.diagnostics.as_slice() else { panic!("{:?}", compiled.diagnostics) };
    assert_eq!(one.slug(), "file/unmerged");
    let places: Vec<(&str, &str)> =
        one.labels.iter().map(|label| (compiled.map.text(label.span), label.text.as_str())).collect();
    // The marks stand in lines 7, 9 and 12.
    assert_eq!(
        places,
        [
            ("<<<<<<< HEAD", "line 8: as HEAD has it"),
            (">>>>>>> longer-aprons", "lines 10 to 11: as longer-aprons has it")
        ]
    );
    assert!(compiled.garment.pieces.is_empty(), "nothing is built on it");
}

/// With the common ancestor between them, several at once, line ends of another system, a mark that was overlooked.
#[test]
fn every_way_in_which_marks_are_left() {
    let base =
        TWO.replace("=======", "||||||| merged common ancestors\n  outline rectangle 60 by 80\n=======");
    let alone = APRON.replace("  cut 1\n", "  cut 1\n>>>>>>> longer-aprons\n");
    let in_base =
        [("base.fus", two()), ("long.fus", "variation \"Long\" of \"base.fus\"\nset x = 3\n".to_owned())];
    for text in [APRON.replace("  outline rectangle 60 by 90", &base), two().replace('\n', "\r\n"), alone] {
        let compiled = made(&text);
        let slugs: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
        assert_eq!(slugs, ["file/unmerged"], "{text}");
    }
    let twice = made(&(two() + TWO));
    assert!(twice.diagnostics[0].title.to_string().contains("in 2 places"), "{}", twice.diagnostics[0].title);
    // A base that is left so is told once, and nothing of what the variation says of it.
    let loader =
        in_base.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, text.as_str()));
    let compiled = compile(&loader, "long.fus");
    let slugs: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(slugs, ["file/unmerged"]);
}

/// Signs that only look like marks: in notes and texts, and shorter or longer ones.
#[test]
fn what_only_looks_like_a_mark_is_none() {
    for more in ["# <<<<<<< HEAD\n# =======\n# >>>>>>> other\n", "about \"<<<<<<< both >>>>>>>\"\n"] {
        let text = APRON.replacen("units cm\n", &format!("units cm\n{more}"), 1);
        assert!(made(&text).diagnostics.iter().all(|one| one.slug() != "file/unmerged"), "{more}");
    }
    let eight = made(&two().replace("<<<<<<< HEAD", "<<<<<<<< HEAD").replace(">>>>>>> l", ">>>>>>>> l"));
    assert!(eight.diagnostics.iter().all(|one| one.slug() != "file/unmerged"));
}

/// Real git writes the marks.
#[test]
fn git_leaves_such_a_file() {
    let folder = folder_of(&[("apron.fus", APRON)]);
    let git = |arguments: &[&str]| other(folder.path(), "git", arguments);
    git(&["init", "-q", "-b", "main"]);
    for (key, value) in
        [("user.name", "Deck crew"), ("user.email", "deck@example.invalid"), ("commit.gpgsign", "false")]
    {
        git(&["config", key, value]);
    }
    let commit = |long: &str, branch: &str| {
        let text = APRON.replace("by 90", long);
        fs::write(folder.path().join("apron.fus"), text).expect("written");
        git(&["add", "."]);
        git(&["commit", "-q", "-m", branch]);
    };
    commit("by 90", "as worn");
    git(&["checkout", "-q", "-b", "longer-aprons"]);
    commit("by 95", "longer");
    git(&["checkout", "-q", "main"]);
    commit("by 85", "shorter");
    let merged = std::process::Command::new("git")
        .args(["merge", "longer-aprons"])
        .current_dir(folder.path())
        .output();
    assert!(!merged.expect("git").status.success());
    let told = run(folder.path(), &["check", "apron.fus", "--format", "plain"]);
    assert_eq!(told.status.code(), Some(1));
    let told = out(&told) + &err(&told);
    assert_eq!(told.matches('[').count(), 1, "{told}");
    assert!(told.contains("apron.fus:7:1: mistake: a merge was left unresolved"), "{told}");
    let tidied = run(folder.path(), &["tidy", "apron.fus"]);
    assert_eq!(tidied.status.code(), Some(1), "left as it is");
}

#[test]
fn backslashes_are_turned() {
    let folder = examples();
    fs::create_dir(folder.path().join("slop")).expect("a folder");
    fs::copy(folder.path().join("crew-library.fus"), folder.path().join("slop/crew-library.fus"))
        .expect("a copy");
    for written in ["slop\\\\crew-library.fus", "slop\\crew-library.fus", ".\\\\slop\\\\crew-library.fus"] {
        let text = APRON.replacen("units", &format!("use \"{written}\"\nunits"), 1);
        fs::write(folder.path().join("turned.fus"), text).expect("written");
        let told = err(&run(folder.path(), &["check", "turned.fus"]));
        assert!(told.contains("write / between folders and files: \""), "{written}: {told}");
        assert!(told.contains("slop/crew-library.fus\""), "{written}: {told}");
    }
}
