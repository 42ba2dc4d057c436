//! Checking again whenever a file is saved.

use crate::workbench::{examples, fustian};
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// Longer than any machine needs.
const PATIENCE: Duration = Duration::from_secs(20);

struct Watch {
    child: Child,
    lines: Receiver<String>,
}

impl Watch {
    fn of(folder: &Path, files: &[&str]) -> Watch {
        let mut command = fustian(folder);
        command.args(["check", "--watch"]).args(files).stderr(Stdio::piped()).stdout(Stdio::null());
        let mut child = command.spawn().expect("the program starts");
        let stderr = child.stderr.take().expect("its messages");
        let (sender, lines) = channel();
        std::thread::spawn(move || {
            for line in BufReader::new(stderr).lines().map_while(Result::ok) {
                if sender.send(line).is_err() {
                    break;
                }
            }
        });
        Watch { child, lines }
    }

    /// Everything that is said until it watches again.
    fn round(&self) -> String {
        let began = Instant::now();
        let mut said = String::new();
        loop {
            let left = PATIENCE.saturating_sub(began.elapsed());
            let line =
                self.lines.recv_timeout(left).unwrap_or_else(|_| panic!("it went silent after {said:?}"));
            if line.starts_with("watching") {
                return said;
            }
            said.push_str(&line);
            said.push('\n');
        }
    }

    /// Rounds until one says those words: a save can be seen as more than one change.
    fn until(&self, words: &str) {
        let began = Instant::now();
        while began.elapsed() < PATIENCE {
            if self.round().contains(words) {
                return;
            }
        }
        panic!("it never said {words:?}");
    }

    /// Rounds until one says just that.
    fn until_all(&self, words: &str) {
        let (began, mut said) = (Instant::now(), Vec::new());
        while began.elapsed() < PATIENCE {
            said.push(self.round());
            if said.last().is_some_and(|last| last == words) {
                return;
            }
        }
        panic!("it never said\n{words}\nbut\n{}", said.join("\n--- and then:\n"));
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

#[test]
fn a_save_of_any_file_of_the_chain_is_seen() {
    let folder = examples();
    let smock = folder.path().join("deck-smock.fus");
    let text = fs::read_to_string(&smock).expect("a text");
    let watch = Watch::of(folder.path(), &["deck-jacket.fus"]);
    watch.until("nothing to fix");
    fs::write(&smock, text.replace("let ease ", "let eese ")).expect("written");
    watch.until("eese");
    // As many editors save: a new file in the place of the old.
    let beside = folder.path().join("deck-smock.fus.part");
    fs::write(&beside, &text).expect("written");
    fs::rename(&beside, &smock).expect("renamed");
    watch.until("nothing to fix");
    fs::remove_file(&smock).expect("deleted");
    watch.until("file/missing");
    fs::write(&smock, &text).expect("written");
    watch.until("nothing to fix");
}

/// Of every file something is remembered from before; what is told is what a first look tells.
#[test]
fn what_is_told_after_a_save_is_what_a_first_look_tells() {
    let folder = examples();
    let files = ["watch-cap.fus", "deck-jacket.fus"];
    let read = |file: &str| fs::read_to_string(folder.path().join(file)).expect("a text");
    let (cap, smock, library) = (read("watch-cap.fus"), read("deck-smock.fus"), read("crew-library.fus"));
    let told = || {
        let output = fustian(folder.path()).arg("check").args(files).output().expect("it starts");
        String::from_utf8(output.stderr).expect("a text")
    };
    let watch = Watch::of(folder.path(), &files);
    watch.until_all(&told());
    // A line more moves all that is told after it; a slip in the one file says nothing of the other.
    let later = |text: &str, slip: &str| format!("# a note\n{text}\n{slip}\n");
    for (file, text) in [
        ("watch-cap.fus", later(&cap, "let brim = 3 + nowhere")),
        ("watch-cap.fus", format!("# another\n{}", later(&cap, "let brim = 3 + nowhere"))),
        ("deck-smock.fus", smock.replace("let ease ", "let eese ")),
        ("crew-library.fus", later(&library, "fabric foil {")),
        ("deck-smock.fus", later(&smock, "")),
        ("crew-library.fus", library.clone()),
        ("watch-cap.fus", cap.clone()),
    ] {
        fs::write(folder.path().join(file), text).expect("written");
        watch.until_all(&told());
    }
}

#[test]
fn what_is_piped_in_cannot_be_watched() {
    let folder = examples();
    let output = fustian(folder.path()).args(["check", "--watch", "-"]).output().expect("it starts");
    assert_eq!(output.status.code(), Some(2));
}
