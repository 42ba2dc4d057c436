//! The sheet as a page: well formed, headings, tables and pictures for those who listen, contrast, and whatever a maker may
//! call things.

use crate::workbench::{example, examples, in_memory, run};
use fustian::sheet::{Choices, Language, NoSheet, SheetPaper, sheet};
use fustian::{Compiled, compile};
use roxmltree::{Document, Node, ParsingOptions};
use std::fs;
use std::path::Path;
use std::time::Instant;

/// Without lays, which take long to find and are one part of many.
pub fn quick() -> Choices {
    Choices { without_lays: true, ..Choices::default() }
}

pub fn names_of_examples() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let names = fs::read_dir(folder).expect("the examples").filter_map(|entry| {
        let name = entry.expect("an entry").file_name().into_string().expect("a name");
        name.strip_suffix(".fus").map(str::to_owned)
    });
    let mut names: Vec<String> = names.collect();
    names.sort();
    names
}

pub fn compiled(name: &str) -> Compiled {
    let all: Vec<(String, String)> =
        names_of_examples().into_iter().map(|name| (format!("{name}.fus"), example(&name))).collect();
    let all: Vec<(&str, &str)> = all.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    compile(&in_memory(&all), &format!("{name}.fus"))
}

pub fn page_of(compiled: &Compiled, choices: &Choices) -> String {
    sheet(compiled, choices, &|| {}).expect("a sheet")
}

fn page_of_text(text: &str) -> String {
    let compiled = compile(&in_memory(&[("own.fus", text)]), "own.fus");
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.reported());
    page_of(&compiled, &quick())
}

/// Read as XML, which a page of HTML may also be: nothing is left open, nothing escapes its quotes.
pub fn read(html: &str) -> Document<'_> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    Document::parse_with_options(html, options).unwrap_or_else(|error| panic!("{error}"))
}

fn all<'d>(document: &'d Document<'d>, name: &'static str) -> impl Iterator<Item = Node<'d, 'd>> {
    document.descendants().filter(move |node| node.has_tag_name(name))
}

pub fn words(node: Node) -> String {
    node.descendants().filter_map(|node| node.text().filter(|_| node.is_text())).collect()
}

#[test]
fn every_example_has_a_sheet_that_those_who_listen_can_follow() {
    let mut seen = 0;
    for name in names_of_examples() {
        let compiled = compiled(&name);
        let html = match sheet(&compiled, &quick(), &|| {}) {
            Ok(html) => html,
            // A library has nothing to sew.
            Err(NoSheet::Nothing | NoSheet::Mistakes) => continue,
            Err(other) => panic!("{name}: {other}"),
        };
        let document = read(&html);
        seen += 1;
        let levels: Vec<u8> = document
            .descendants()
            .filter_map(|node| match node.tag_name().name() {
                "h1" => Some(1),
                "h2" => Some(2),
                "h3" => Some(3),
                _ => None,
            })
            .collect();
        assert_eq!(levels.iter().filter(|level| **level == 1).count(), 1, "{name}");
        assert!(
            levels.windows(2).all(|pair| pair[1] <= pair[0] + 1),
            "{name}: a heading is skipped: {levels:?}"
        );
        // WCAG 2.2, 1.3.1: heads of rows and columns are told apart.
        for head in all(&document, "th") {
            assert!(matches!(head.attribute("scope"), Some("row" | "col")), "{name}: {}", words(head));
        }
        for table in all(&document, "table") {
            let caption = table.children().find(|node| node.has_tag_name("caption"));
            assert!(caption.is_some_and(|caption| !words(caption).trim().is_empty()), "{name}");
        }
        // WCAG 2.2, 1.1.1: a picture says what it shows, or that it is for the eye alone.
        for picture in all(&document, "svg") {
            let told = picture.attribute("role") == Some("img")
                && picture.attribute("aria-label").is_some_and(|label| !label.is_empty());
            assert!(told || picture.attribute("aria-hidden") == Some("true"), "{name}");
        }
        let ids: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
        let mut once = ids.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), ids.len(), "{name}: an id is there twice");
        for link in all(&document, "a") {
            let to = link.attribute("href").and_then(|to| to.strip_prefix('#'));
            assert!(
                to.is_some_and(|to| ids.contains(&to)),
                "{name}: {:?} leads nowhere",
                link.attribute("href")
            );
        }
        for field in all(&document, "input") {
            let labelled = field.attribute("aria-label").is_some()
                || all(&document, "label").any(|label| label.attribute("for") == field.attribute("id"));
            assert!(labelled, "{name}: a field has no label");
        }
    }
    assert!(seen > 25, "{seen} sheets were looked at");
}

/// Nothing is asked of a network, and nothing is run.
#[test]
fn a_sheet_is_one_file() {
    let html = page_of(&compiled("mess-jacket"), &quick());
    let document = read(&html);
    for name in ["script", "link", "img", "iframe", "object", "base", "form"] {
        assert_eq!(all(&document, name).count(), 0, "{name}");
    }
    for node in document.descendants().filter(Node::is_element) {
        for attribute in node.attributes() {
            let name = attribute.name();
            assert!(!name.starts_with("on"), "{name}");
            let leads_out = attribute.value().contains("//") && name != "xmlns";
            assert!(!leads_out, "{name}={}", attribute.value());
        }
    }
    for outside in ["@import", "url(http", "url(//", "@font-face"] {
        assert!(!html.contains(outside), "{outside}");
    }
}

/// Relative luminance and contrast, WCAG 2.2.
fn contrast(one: &str, other: &str) -> f64 {
    let luminance = |colour: &str| {
        let part = |at: usize| {
            let value = u8::from_str_radix(&colour[at..at + 2], 16).expect("a colour");
            let share = f64::from(value) / 255.0;
            if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    };
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[test]
fn words_stand_out_from_what_they_stand_on() {
    // By the standard's own definition black on white is 21 : 1.
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    let html = page_of(&compiled("galley-apron"), &quick());
    let colour = |name: &str| {
        let at = html.find(&format!("--{name}: ")).unwrap_or_else(|| panic!("{name} is declared"))
            + name.len()
            + 4;
        html[at..at + 7].to_owned()
    };
    // 1.4.3: 4.5 : 1 for words.
    for ink in ["ink", "soft", "madder"] {
        for ground in ["paper", "wash"] {
            let found = contrast(&colour(ink), &colour(ground));
            assert!(found >= 4.5, "{ink} on {ground} is {found:.1} : 1");
        }
    }
    // A column of the size that is chosen is tinted.
    assert!(contrast(&colour("soft"), "#fbf3e2") >= 4.5);
}

const APRON: &str = "garment \"Galley apron\"\nunits cm\nallowance 1\nfabric canvas \"cotton canvas\" { width 150 }\nlayer outer in canvas { body }\npiece body \"Apron\" {\n  cut 1\n  outline rectangle 60 by 80\n}\nfinish body.bottom, body.right, body.top, body.left  hem 2\n";

#[test]
fn what_a_maker_calls_things_is_never_markup() {
    let hostile = "</title><script>alert(1)</script>&amp; 'x' <img src=x onerror=y>";
    let text = APRON.replace("Galley apron", hostile).replace("cotton canvas", "<b>cloth & co</b>");
    let html = page_of_text(&text);
    let document = read(&html);
    assert_eq!(all(&document, "script").count() + all(&document, "img").count(), 0);
    let title = all(&document, "h1").next().map(words).expect("a title");
    assert_eq!(title, hostile);
    assert!(document.descendants().any(|node| words(node).contains("<b>cloth & co</b>")));
}

#[test]
fn words_from_right_to_left_turn_nothing_beside_them() {
    for title in ["סינר סיפון", "مريلة"] {
        let html = page_of_text(&APRON.replace("Galley apron", title));
        let document = read(&html);
        let heading = all(&document, "h1").next().expect("a title");
        assert_eq!(words(heading), title);
        assert!(heading.children().any(|child| child.has_tag_name("bdi")), "{title:?} is kept to itself");
    }
    let html = page_of_text(&APRON.replace("Galley apron", "Apron 🧵👩‍🍳"));
    assert_eq!(all(&read(&html), "h1").map(words).collect::<String>(), "Apron 🧵👩‍🍳");
}

#[test]
fn a_name_of_ten_thousand_letters_is_bounded() {
    let long = "long".repeat(2_500);
    let html =
        page_of_text(&APRON.replace("Galley apron", &long).replace("\"Apron\"", &format!("\"{long}\"")));
    let document = read(&html);
    for node in document.descendants().filter(Node::is_element) {
        for attribute in node.attributes() {
            assert!(attribute.value().chars().filter(|letter| *letter == 'l').count() < 200);
        }
    }
    let title = all(&document, "h1").next().map(words).expect("a title");
    assert!(title.chars().count() < 130 && title.ends_with('…'), "{title}");
    assert!(html.len() < 200_000, "{} bytes", html.len());
}

/// A garment in so many sizes, the chest growing by 1 cm.
fn in_sizes(count: usize) -> String {
    let names: Vec<String> = (1..=count).map(|size| format!("s{size}")).collect();
    let sizes = format!("sizes {}\nbody {{ chest 40 grade +1 }}\n", names.join(", "));
    APRON.replace("allowance 1\n", &format!("allowance 1\n{sizes}")).replace("60 by 80", "chest by 80")
}

/// Every size has its column, in tables that are no wider than a phone.
#[test]
fn a_hundred_sizes_stand_in_tables_below_one_another() {
    let html = page_of_text(&in_sizes(100));
    let document = read(&html);
    let heads: Vec<String> = all(&document, "table")
        .filter(|table| words(*table).trim_start().starts_with("The body"))
        .flat_map(|table| {
            table
                .descendants()
                .filter(|node| node.attribute("scope") == Some("col"))
                .map(words)
                .collect::<Vec<_>>()
        })
        .collect();
    let expected: Vec<String> = (1..=100).map(|size| format!("s{size}")).collect();
    assert_eq!(heads, expected);
    for table in all(&document, "table") {
        let widest = table
            .descendants()
            .filter(|node| node.has_tag_name("tr"))
            .map(|row| row.children().filter(Node::is_element).count());
        assert!(widest.max().unwrap_or(0) <= 9);
    }
}

#[test]
fn a_garment_without_sizes_asks_for_no_choice() {
    let html = page_of_text(APRON);
    let document = read(&html);
    assert_eq!(all(&document, "fieldset").count(), 0);
    assert_eq!(all(&document, "input").filter(|field| field.attribute("type") == Some("radio")).count(), 0);
    assert!(!html.contains("class=\"all\""));
}

#[test]
fn a_garment_with_nothing_to_sew_says_so() {
    let text = APRON.replace("hem 2", "raw");
    let html = page_of_text(&text);
    let document = read(&html);
    let sewing = document.descendants().find(|node| node.attribute("id") == Some("sew")).expect("the part");
    assert!(words(sewing).contains("There is nothing to sew."), "{}", words(sewing));
}

#[test]
fn a_garment_with_mistakes_has_no_sheet() {
    let torn = APRON.replace("hem 2", "hem 2\nseam side body.left to pocket.left");
    let compiled = compile(&in_memory(&[("own.fus", torn.as_str())]), "own.fus");
    assert_eq!(sheet(&compiled, &quick(), &|| {}), Err(NoSheet::Mistakes));
}

#[test]
fn the_paper_is_as_asked_for() {
    let apron = compiled("galley-apron");
    let letter = Choices { paper: SheetPaper::Letter, ..quick() };
    assert!(page_of(&apron, &quick()).contains("@page { size: A4; margin: 14mm; }"));
    assert!(page_of(&apron, &letter).contains("@page { size: letter; margin: 14mm; }"));
}

#[test]
fn a_sheet_in_german_is_german() {
    let german = page_of(&compiled("deck-jacket"), &Choices { language: Language::German, ..quick() });
    let english = page_of(&compiled("deck-jacket"), &quick());
    let (german, english) = (read(&german), read(&english));
    assert_eq!(german.root_element().attribute("lang"), Some("de"));
    let headings = |document: &Document| -> Vec<String> { all(document, "h2").map(words).collect() };
    for (one, other) in headings(&german).iter().zip(headings(&english)) {
        assert_ne!(*one, other, "a heading is left in English");
    }
    // A decimal comma: the chest of the largest size is 123.5 cm.
    assert!(words(german.root_element()).contains("123,5"));
    assert!(words(english.root_element()).contains("123.5"));
}

#[test]
fn the_same_garment_gives_the_same_bytes() {
    let jacket = compiled("deck-smock");
    assert_eq!(page_of(&jacket, &quick()), page_of(&compiled("deck-smock"), &quick()));
}

#[test]
fn a_variation_shows_what_differs_from_its_base() {
    let html = page_of(&compiled("deck-jacket"), &quick());
    let document = read(&html);
    let list =
        document.descendants().find(|node| node.attribute("class") == Some("differs")).expect("what differs");
    let told = words(list);
    // The jacket lines front, back and sleeve of the smock, and opens it with a zip.
    assert!(told.contains("Front, Back, Sleeve (lining)"), "{told}");
    assert!(told.contains("Front zip"), "{told}");
    // Of a chest of 98 cm the smock has 22 cm of ease (120 cm), the jacket 30 cm (128 cm).
    assert!(told.contains("120"), "{told}");
    let base = page_of(&compiled("deck-smock"), &quick());
    assert!(!base.contains("class=\"differs\""));
}

/// The longer smock is lengthened at its sides: its front and back say so, and their sides are marked in a line of their own, in
/// small and on the garment. Nothing is marked on the smock itself, which is no variation.
#[test]
fn a_variation_marks_the_edges_that_differ() {
    let html = page_of(&compiled("deck-longer"), &quick());
    let document = read(&html);
    let told: Vec<String> = document
        .descendants()
        .filter(|node| node.attribute("class") == Some("differing"))
        .map(words)
        .collect();
    assert!(told.iter().any(|told| told.starts_with("changed: ") && told.contains("side")), "{told:?}");
    // Their hems are as long as before, and lie 8 cm lower; their shoulders lie where they lay.
    assert!(told.iter().any(|told| told.contains("side") && told.contains("hem")), "{told:?}");
    assert!(!told.iter().any(|told| told.contains("shoulder")), "{told:?}");
    let marked =
        |class: &str| document.descendants().filter(|node| node.attribute("class") == Some(class)).count();
    assert!(marked("differ") >= 2, "{}", marked("differ"));
    assert!(marked("d") >= 4, "{}", marked("d"));
    // The key says what that line means.
    assert!(html.contains("edge that is longer, shorter, moved or new beside the base"));
    let base = page_of(&compiled("deck-smock"), &quick());
    assert!(!base.contains("class=\"differ\"") && !base.contains("class=\"differing\""));
    // The lined jacket has linings that the smock has not.
    let jacket = page_of(&compiled("deck-jacket"), &quick());
    let jacket = read(&jacket);
    let cards = jacket.descendants().filter(|node| node.attribute("class") == Some("differing"));
    assert!(cards.map(words).any(|told| told.contains("new (lining)")));
}

#[test]
fn the_command_writes_a_page_and_spares_what_it_read() {
    let folder = examples();
    let told = run(folder.path(), &["sheet", "galley-apron.fus", "--no-lays", "-o", "sheet.html"]);
    assert!(told.status.success(), "{told:?}");
    let html = fs::read_to_string(folder.path().join("sheet.html")).expect("a page");
    read(&html);
    let told = run(folder.path(), &["sheet", "galley-apron.fus", "--no-lays", "-o", "galley-apron.fus"]);
    assert_eq!(told.status.code(), Some(2));
    let told = run(folder.path(), &["sheet", "deck-jacket.fus", "--size", "Q", "-o", "sheet.html"]);
    assert_eq!(told.status.code(), Some(2));
}

/// Letters of what is sewn come in the order of the alphabet, without I and O, each when it is first sewn: whoever reads the
/// sheet from top to bottom does what the order of work says.
#[test]
fn letters_follow_the_order_of_work() {
    for name in ["deck-jacket", "purser-shirt", "mate-trousers", "ticket-bag"] {
        let html = page_of(&compiled(name), &quick());
        let document = read(&html);
        let mut met: Vec<String> = Vec::new();
        let steps = document.descendants().filter(|node| node.attribute("class") == Some("step"));
        // What is sewn stands first; a step may name what comes later.
        let first =
            |step: Node| step.descendants().find(|node| node.attribute("class") == Some("letter")).map(words);
        for letter in steps.filter_map(first) {
            if !met.contains(&letter) {
                met.push(letter);
            }
        }
        let one = "ABCDEFGHJKLMNPQRSTUVWXYZ".chars().map(String::from);
        let two = "ABCDEFGHJKLMNPQRSTUVWXYZ".chars().map(|letter| format!("A{letter}"));
        let expected: Vec<String> = one.chain(two).take(met.len()).collect();
        assert_eq!(met, expected, "{name}");
        assert!(met.len() > 5, "{name}: {met:?}");
    }
}

/// Every step says something, and has a box to tick with its own name.
#[test]
fn every_step_says_what_to_do() {
    for name in names_of_examples() {
        let Ok(html) = sheet(&compiled(&name), &quick(), &|| {}) else { continue };
        let document = read(&html);
        for step in document.descendants().filter(|node| node.attribute("class") == Some("step")) {
            let told = step
                .descendants()
                .find(|node| node.attribute("class") == Some("told"))
                .expect("what it says");
            assert!(!words(told).trim().is_empty(), "{name}: step {:?} says nothing", step.attribute("id"));
            let boxes = step.descendants().filter(|node| node.attribute("type") == Some("checkbox"));
            assert_eq!(boxes.count(), 1, "{name}");
        }
    }
}

/// Without lays a sheet costs some times what resolving does; it was measured at twice, base and all.
#[test]
fn a_sheet_without_lays_is_quick() {
    let least = |work: &dyn Fn()| {
        let once = || {
            let start = Instant::now();
            work();
            start.elapsed()
        };
        (0..3).map(|_| once()).min().unwrap_or_default()
    };
    let resolving = least(&|| assert!(compiled("deck-jacket").json().is_ok()));
    let jacket = compiled("deck-jacket");
    let writing = least(&|| assert!(!page_of(&jacket, &quick()).is_empty()));
    assert!(writing < 20 * resolving, "{writing:?} against {resolving:?}");
}

/// How much thread a bar tack takes is not known: where the table only says how far it is sewn, a note says what that means. A width that is
/// measured is in centimetres as all else.
#[test]
fn what_a_table_does_not_know_is_explained() {
    let note = "how much thread the stitch takes is not known";
    assert!(page_of(&compiled("mate-trousers"), &quick()).contains(note));
    assert!(!page_of(&compiled("steward-bodice"), &quick()).contains(note));
    let smock = page_of(&compiled("steward-bodice"), &quick());
    assert!(smock.contains("Binding, 1\u{a0}cm") && !smock.contains("10\u{a0}mm"));
}
