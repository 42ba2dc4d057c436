//! Every file that the program can read is the same tree to an editor.

use fustian_editor_grammar::{Node, editor, language, of_the_program, program};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The garments of a folder, in the order of their names.
fn garments(folder: &str) -> Vec<(String, String)> {
    let mut paths: Vec<PathBuf> = fs::read_dir(root().join(folder))
        .expect(folder)
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "fus"))
        .collect();
    paths.sort();
    paths.iter().map(|path| (path.display().to_string(), fs::read_to_string(path).expect("a text"))).collect()
}

/// Where two trees part, told with a few nodes round it.
fn parted(text: &str, program: &[Node], editor: &[Node]) -> Option<String> {
    let at = (0..program.len().max(editor.len())).find(|&at| program.get(at) != editor.get(at))?;
    let told = |nodes: &[Node]| -> String {
        let from = at.saturating_sub(4);
        let near = nodes.get(from..(at + 4).min(nodes.len())).unwrap_or_default();
        near.iter()
            .map(|node| {
                format!("    {}{} {:?}\n", "  ".repeat(node.depth), node.kind, &text[node.from..node.to])
            })
            .collect()
    };
    let offset = program.get(at).or(editor.get(at)).map_or(0, |node| node.from);
    let line = text[..offset].matches('\n').count() + 1;
    Some(format!("line {line}\n  program:\n{}  editor:\n{}", told(program), told(editor)))
}

/// What differs in a text that the program can read; nothing else is asked of one that it cannot.
fn difference(name: &str, text: &str) -> Option<String> {
    let expected = program(text).ok()?;
    let (found, wrong) = editor(text);
    let parted = parted(text, &expected, &found);
    (wrong || parted.is_some()).then(|| format!("{name}: error: {wrong}: {}", parted.unwrap_or_default()))
}

#[test]
fn every_example_is_the_same_tree_to_an_editor() {
    let garments = garments("examples");
    let whole = garments.iter().filter(|(_, text)| program(text).is_ok()).count();
    assert_eq!(whole, garments.len(), "an example is damaged");
    let differing: Vec<String> = garments.iter().filter_map(|(name, text)| difference(name, text)).collect();
    assert!(differing.is_empty(), "{} of {}:\n{}", differing.len(), garments.len(), differing.join("\n"));
}

#[test]
fn every_mistake_that_can_be_read_is_the_same_tree_to_an_editor() {
    let garments = garments("examples/mistakes");
    let differing: Vec<String> = garments.iter().filter_map(|(name, text)| difference(name, text)).collect();
    assert!(differing.is_empty(), "{} of {}:\n{}", differing.len(), garments.len(), differing.join("\n"));
}

/// The reference shows every form.
#[test]
fn every_text_of_the_reference_is_the_same_tree_to_an_editor() {
    let mut texts = Vec::new();
    for name in ["REFERENCE.md", "TUTORIAL.md"] {
        let page = fs::read_to_string(root().join("grammar").join(name)).expect(name);
        for (at, block) in page.split("\n```fus").skip(1).enumerate() {
            let (kind, text) = block.split_once('\n').expect("a line for the kind");
            let text = text.split("```").next().expect("a text");
            let text =
                if kind.trim() == "piece" { format!("piece p {{\n{text}}}\n") } else { text.to_owned() };
            texts.push((format!("{name}, text {}", at + 1), text));
        }
    }
    let read = texts.iter().filter(|(_, text)| program(text).is_ok()).count();
    assert!(read > 100, "only {read} of {} texts could be read", texts.len());
    let differing: Vec<String> = texts.iter().filter_map(|(name, text)| difference(name, text)).collect();
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}

/// Words are names where they are not looked for, numbers end where the program ends them, lines go on where they do.
#[test]
fn what_could_be_read_in_two_ways_is_read_as_the_program_reads_it() {
    for text in [
        "let a = 10/2 + 10/2.5 + b/2/3 - 3 1/2in * 1\u{bd}cm - 2\u{2033} + \u{be}",
        "let a = (1 +\n 2,\n # a note\n 3)\nlet b = max(\n 1,\n 2\n)",
        "let a = each 1, # a note\n\n 2,\n 3\nlet b = 3 at M grade +1, 0, -1.5",
        "sizes 34, 36R, \"38 long\", XL\npick size by chest",
        "let piece = to + at - from.with",
        "let dart = count * 2 + number.top + count 3",
        "drop dart\ndrop strap\ndrop strap loop\ndrop place\ndrop place pocket on front on left",
        "seam a b.c + d.e on left in a ring to f.g -1..2 from h.i on right easing 1..2 on left",
        "seam a b.c to d.e along left + right",
        "seam a (b.c and d.e) + f.g to h.i 1/2 from j.k",
        "strap s \"Strap\" 6 by 2 in outer { from a.b to free; sewn each 6, 8, boxed }",
        "band a in rib 6 deep round b.c + d.e at 3 in every size",
        "finish a.b, c.d in a ring  hem 2 turned under 1  { stitch 301 }",
        "in band a, b 3 deep",
        "piece a { without notch, corner, hole ; notch n at 3 from c }",
        "\u{feff}garment \"Smock\"\r\nunits in\r\n\r\nnotion \"zip\" 24\" price 3 FK each # a note",
        "garment \"no line end\"",
        "",
        "\n\n# nothing but a note",
    ] {
        assert!(program(text).is_ok(), "{text:?}: {:?}", program(text));
        assert_eq!(difference("text", text), None, "{text}");
    }
}

#[test]
fn what_is_damaged_is_damaged_to_an_editor() {
    // A slip is read by the program as what was meant, and has another meaning where it is none; a gap without
    // its length is a gap that has a place.
    let read_otherwise = ["syntax-expected-gap.fus", "text-slip-fraction.fus"];
    let silent = garments("examples/mistakes")
        .into_iter()
        .filter(|(_, text)| program(text).is_err() && !editor(text).1);
    for (name, _) in silent {
        assert!(read_otherwise.iter().any(|known| name.ends_with(known)), "{name} has no error to an editor");
    }
}

/// Whoever adds a word or a rule to the language is told here that editors have to learn it.
#[test]
fn editors_know_every_rule_and_every_word() {
    let language = language();
    let known = |named: bool| -> BTreeSet<String> {
        let ids = (0..language.node_kind_count()).filter_map(|id| u16::try_from(id).ok());
        ids.filter(|&id| language.node_kind_is_visible(id) && language.node_kind_is_named(id) == named)
            .filter_map(|id| language.node_kind_for_id(id).map(str::to_owned))
            .filter(|kind| named || kind.starts_with(|letter: char| letter.is_ascii_lowercase()))
            .collect()
    };
    let (rules, words) = of_the_program();
    let mut rules: BTreeSet<String> = rules.into_iter().collect();
    rules.extend(["file", "comment"].map(str::to_owned));
    assert_eq!(rules, known(true));
    assert_eq!(words.into_iter().collect::<BTreeSet<_>>(), known(false));
}
