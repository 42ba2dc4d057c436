//! Laying files out: the same meaning, the same notes, and nothing left to tidy.

use crate::tree_text::{tree_text, words_of};
use fustian::emit::{document, to_text};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::{self, tidy::tidy};
use std::fs;
use std::path::{Path, PathBuf};

/// Every file of the examples, of the mistakes and of the tests' own sources.
fn all_files() -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folders = ["examples", "examples/mistakes", "examples/mistakes/with", "tests/it/sources"];
    let mut files = Vec::new();
    for folder in folders {
        for entry in fs::read_dir(root.join(folder)).expect("the folder is there") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|extension| extension == "fus") {
                let text = fs::read_to_string(&path).expect("a text");
                files.push((path, text));
            }
        }
    }
    assert!(files.len() > 30, "the examples were not found: {}", files.len());
    files
}

fn tidied(text: &str) -> String {
    let mut map = SourceMap::default();
    let file = map.add("deck.fus", text);
    match tidy(&map, file) {
        Ok(tidied) => tidied,
        Err(mistakes) => panic!("{text}\n{mistakes:#?}"),
    }
}

fn parsed(text: &str) -> syntax::Parsed {
    let mut map = SourceMap::default();
    let file = map.add("deck.fus", text);
    syntax::parse(&map, file)
}

fn notes_of(text: &str) -> Vec<String> {
    let parsed = parsed(text);
    let note =
        |note: &syntax::tree::Note| text[note.span.lo as usize..note.span.hi as usize].trim_end().to_owned();
    parsed.file.notes.iter().map(note).collect()
}

/// The promises that hold for any text without mistakes of reading.
fn keeps_its_promises(name: &str, text: &str) {
    let once = tidied(text);
    let before = parsed(text);
    let after = parsed(&once);
    assert!(after.mistakes.is_empty(), "{name}: {:#?}\n{once}", after.mistakes);
    assert_eq!(tree_text(&before.file), tree_text(&after.file), "{name} says something else:\n{once}");
    assert_eq!(words_of(text), words_of(&once), "{name}: a number or a text is spelt otherwise");
    let (mut notes_before, mut notes_after) = (notes_of(text), notes_of(&once));
    notes_before.sort();
    notes_after.sort();
    assert_eq!(notes_before, notes_after, "{name} lost a note:\n{once}");
    assert_eq!(tidied(&once), once, "{name} is not tidy after tidying");
}

#[test]
fn every_example_says_the_same_afterwards_and_stays_tidy() {
    let mut read = 0;
    for (path, text) in all_files() {
        if parsed(&text).mistakes.is_empty() {
            keeps_its_promises(&path.display().to_string(), &text);
            read += 1;
        }
    }
    assert!(read > 30, "only {read} files could be read");
}

#[test]
fn the_examples_are_tidy() {
    for (path, text) in all_files() {
        if path.parent().is_some_and(|folder| folder.ends_with("examples")) {
            assert_eq!(tidied(&text), text, "{} is not tidy", path.display());
        }
    }
}

#[test]
fn a_garment_resolves_to_the_same_bytes() {
    let files = all_files();
    let folder = |path: &Path| path.parent().is_some_and(|folder| folder.ends_with("examples"));
    let mut as_written = MemoryLoader::new();
    let mut as_tidied = MemoryLoader::new();
    let mut names = Vec::new();
    for (path, text) in files.iter().filter(|(path, _)| folder(path)) {
        let name = path.file_name().and_then(|name| name.to_str()).expect("a name").to_owned();
        // Tabs, blank lines and notes in odd places make sure that there is something to tidy.
        let untidy = text.replace(" = ", "\t=   ").replace('\n', "   # seen\n\n\n");
        as_written = as_written.with(&name, untidy.clone());
        as_tidied = as_tidied.with(&name, tidied(&untidy));
        names.push(name);
    }
    for name in names {
        let document_of = |loader: &MemoryLoader| {
            let compiled = fustian::compile(loader, &name);
            let told: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
            let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
            (to_text(&document).expect("a document"), format!("{told:?}"))
        };
        assert_eq!(document_of(&as_written), document_of(&as_tidied), "{name}");
    }
}

#[test]
fn columns_blank_lines_and_notes_come_out_as_the_reference_has_them() {
    let text = "# Deck smock\n\n\n\ngarment   \"Deck smock\"\nunits cm\nsizes S,\n  M, L\nbody {\n\n chest 90, 98, 106 \"at the fullest\"\n\n   hip 93,100.5,   108\n head 57 grade +.6\n}\n"
        .replace("93,100.5", "93, 100.5")
        .replace("+.6", "+0.6");
    let expected = "\
# Deck smock

garment \"Deck smock\"
units cm
sizes S, M, L
body {
  chest  90,    98, 106  \"at the fullest\"

  hip    93, 100.5, 108
  head   57 grade +0.6
}
";
    assert_eq!(tidied(&text), expected);
    let text = "piece front \"Front\" { # the half\ncut 1 on fold centre;grain up\npoint a=(0 , 0)   # cf\npoint neck_side = ( chest / 8 ,\n   # no note is lost\n 1 / 2 + 6  1/2in)# side\noutline from a {\n b to neck_side curve leaving right\n centre to a straight\n}\n # last\n\n}\nseam x a.b to c.d easing 1 .. 2 { stitch 504;matching a.b with c.d }\n\nsteps { \"Body\" { sew x };\n\"A long one\" { sew x\n # why\n press } }\n";
    let expected = "\
piece front \"Front\" {  # the half
  cut 1 on fold centre; grain up
  point a         = (0, 0)                      # cf
  # no note is lost
  point neck_side = (chest/8, 1 / 2 + 6 1/2in)  # side
  outline from a {
    b       to neck_side  curve leaving right
    centre  to a
  }
  # last
}
seam x  a.b to c.d  easing 1..2 { stitch 504; matching a.b with c.d }

steps {
  \"Body\"  { sew x }
  \"A long one\" {
    sew x
    # why
    press
  }
}
";
    assert_eq!(tidied(text), expected);
    keeps_its_promises("by hand", text);
}

#[test]
fn notes_survive_wherever_they_stand() {
    let texts = [
        "# only a note",
        "",
        "\n\n\n",
        "garment \"Smock\" # one\r\n\r\n\r\n# two\r\nunits cm\r\n",
        "layer outer in shell { # one\n front, # two\n # three\n back # four\n} # five\n",
        "fabric canvas { # empty\n}\nfabric rib {\n # within\n\n}\nfabric twill { }\n",
        "place a on b { # one\n # two\n\n # three\n corner c at d; topstitch left # four\n # five\n} # six\n# seven\n",
        "let a = (1 + # one\n # two\n 2) # three\nlet bb = 3 \"{ # no note\" # four\n",
        "sizes S, # one\n M # two\nbody { chest 1, # three\n 2; hip 3, 4 # four\n}",
        "seam a b.c to d.e { # one\n}\nfinish a.b hem 1 { # two\n stitch 602\n}\n",
        "seam a # one {\n",
        "steps { # one\n \"A\" { # two\n sew a # three\n # four\n } # five\n # six\n} # seven",
        "replace piece a { # one\n point b = (1, 2) # two\n}\nin piece a add { # three\n point c = (1, 2) }\n",
        "piece a {\n  outline from b { c to d; e to b } # one\n  point b = (0,\n  0); grain up # two\n}\n",
    ];
    for text in texts {
        if parsed(text).mistakes.is_empty() {
            keeps_its_promises(text, text);
        }
    }
}

#[test]
fn a_file_with_mistakes_of_reading_is_left_alone() {
    let mut map = SourceMap::default();
    let file = map.add("deck.fus", "garment \"Smock\"\nlet ease 24\nunits   cm\n");
    let mistakes = tidy(&map, file).expect_err("the second line cannot be read");
    assert!(mistakes.iter().all(|one| one.slug().starts_with("syntax/")), "{mistakes:#?}");
}

/// From where a curve begins over what lies between to where it ends, as one would tell it: that is the same curve.
#[test]
fn a_curve_may_say_last_how_it_ends() {
    let text = |way: &str| {
        format!(
            "garment \"Storm hood\"\nunits cm\nallowance 1\npiece hood \"Hood\" {{\n  cut 2 mirrored\n  point low = (0, 0)\n  \
             point back = (20, 0)\n  point top = (0, 30)\n  outline from low {{\n    neck to back\n    crown to top  \
             curve {way}\n    face to low\n  }}\n}}\n"
        )
    };
    let told = text("leaving up through (23, 12) arriving left");
    assert_eq!(tidied(&told), tidied(&text("leaving up arriving left through (23, 12)")));
    assert_eq!(
        tidied(&text("through (23, 12), (15, 25) arriving left")),
        tidied(&text("arriving left through (23, 12), (15, 25)"))
    );
    keeps_its_promises("a curve", &told);
}
