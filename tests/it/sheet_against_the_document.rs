//! What a sheet says in words is in `resolve`'s document, of every example: pieces and their layers, steps in their order with
//! their codes, what each does and to which edges, cautions, and what is counted.

use crate::sheet_page::{compiled, names_of_examples, quick, read, words};
use crate::workbench::{example, in_memory, run};
use fustian::compile;
use fustian::sheet::sheet;
use roxmltree::{Document, Node};
use serde_json::Value;
use std::collections::BTreeSet;
use std::sync::LazyLock;

/// Every example that has a sheet: its name, what `resolve` writes, and the page.
fn examples() -> &'static [(String, Value, String)] {
    static ALL: LazyLock<Vec<(String, Value, String)>> = LazyLock::new(|| {
        let pages = names_of_examples().into_iter().filter_map(|name| {
            let compiled = compiled(&name);
            let html = sheet(&compiled, &quick(), &|| {}).ok()?;
            let json = compiled.json().expect("a document");
            Some((name, serde_json::from_str(&json).expect("JSON"), html))
        });
        pages.collect()
    });
    assert!(ALL.len() > 25, "{} examples", ALL.len());
    &ALL
}

fn list<'v>(value: &'v Value, key: &str) -> impl Iterator<Item = &'v Value> {
    value[key].as_array().into_iter().flatten()
}

fn text<'v>(value: &'v Value, key: &str) -> &'v str {
    value[key].as_str().unwrap_or_default()
}

/// A name as it is spoken.
fn spoken(name: &str) -> String {
    name.replace(['_', '.'], " ")
}

/// A label, else a name, without a last word that says what it is.
fn called(value: &Value, last: &str) -> String {
    let words = value["label"].as_str().map_or_else(|| spoken(text(value, "name")), str::to_owned);
    match words.strip_suffix(last) {
        Some(before) if !before.trim().is_empty() => before.trim().to_owned(),
        _ => words,
    }
}

fn section<'d>(page: &'d Document<'d>, id: &str) -> Node<'d, 'd> {
    page.descendants().find(|node| node.attribute("id") == Some(id)).expect("a part of the page")
}

fn of_class<'d>(node: Node<'d, 'd>, class: &'static str) -> impl Iterator<Item = Node<'d, 'd>> {
    let has =
        move |node: &Node| node.attribute("class").is_some_and(|own| own.split(' ').any(|own| own == class));
    node.descendants().filter(has)
}

fn tagged<'d>(node: Node<'d, 'd>, name: &'static str) -> impl Iterator<Item = Node<'d, 'd>> {
    node.descendants().filter(move |node| node.has_tag_name(name))
}

/// As one reads it: no marks that turn the way of reading, one space between words.
fn read_as(node: Node) -> String {
    let plain: String = words(node).chars().filter(|sign| !matches!(sign, '\u{2066}'..='\u{2069}')).collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The number in a ring and what stands beside it.
fn numbered(node: Node) -> (String, String) {
    let number = of_class(node, "ring").next().map(read_as).expect("a number");
    let title = read_as(node).strip_prefix(&number).unwrap_or_default().trim().to_owned();
    (number, title)
}

#[test]
fn the_head_says_what_the_document_says() {
    for (name, json, html) in examples() {
        let page = read(html);
        assert_eq!(
            read_as(tagged(page.root_element(), "h1").next().expect("a title")),
            text(json, "garment")
        );
        let opening = read_as(of_class(page.root_element(), "opening").next().expect("a head"));
        for key in ["about", "maker", "licence"] {
            let said = text(json, key).split_whitespace().collect::<Vec<_>>().join(" ");
            // Alone among the examples it says nothing of itself, and what is true of its base is not true of it.
            let is_of_base = key == "about" && name == "deck-lined";
            assert_eq!(opening.contains(&said), !is_of_base, "{name}: {said}");
        }
    }
    // Of which files a garment is made the command adds.
    let folder = crate::workbench::examples();
    let told = run(folder.path(), &["resolve", "deck-longer.fus", "-o", "all.json"]);
    assert!(told.status.success(), "{told:?}");
    let json = std::fs::read_to_string(folder.path().join("all.json")).expect("the document");
    let json: Value = serde_json::from_str(&json).expect("JSON");
    let base = list(&json, "files").find(|file| file["is_base"] == true).expect("a base");
    let said = format!("a variation of {}", text(base, "title"));
    for (name, _, html) in
        examples().iter().filter(|(name, ..)| name == "deck-longer" || name == "deck-smock")
    {
        let opening = read(html);
        let opening = read_as(of_class(opening.root_element(), "opening").next().expect("a head"));
        assert_eq!(opening.contains(&said), name == "deck-longer", "{name}: {said}");
    }
}

#[test]
fn pieces_and_layers_are_those_of_the_cut_list() {
    for (name, json, html) in examples() {
        let page = read(html);
        let pieces = section(&page, "pieces");
        let size = &json["sizes"][0];
        let mut listed: Vec<(String, String, u64)> = Vec::new();
        for row in tagged(pieces, "table").flat_map(|table| {
            tagged(table, "tbody").flat_map(|body| tagged(body, "tr").collect::<Vec<_>>()).collect::<Vec<_>>()
        }) {
            let (_, title) = numbered(tagged(row, "th").next().expect("a piece"));
            let cells: Vec<String> = tagged(row, "td").map(read_as).collect();
            let count: String = cells[1].chars().take_while(char::is_ascii_digit).collect();
            listed.push((title.to_lowercase(), cells[0].clone(), count.parse().expect("how many")));
        }
        let cut = list(size, "cut_list").map(|cut| {
            let copies = cut["copies"].as_u64().expect("how many");
            (spoken(text(cut, "label")).to_lowercase(), spoken(text(cut, "layer")), copies)
        });
        let mut cut: Vec<(String, String, u64)> = cut.collect();
        listed.sort();
        cut.sort();
        assert_eq!(listed, cut, "{name}");
        // The small pictures show each of them, with its layers.
        let titles: BTreeSet<&String> = cut.iter().map(|(title, ..)| title).collect();
        let cards: Vec<Node> = of_class(pieces, "card").collect();
        let shown: BTreeSet<String> = cards
            .iter()
            .map(|card| numbered(tagged(*card, "h3").next().expect("a title")).1.to_lowercase())
            .collect();
        assert_eq!(titles, shown.iter().collect::<BTreeSet<_>>(), "{name}");
        let lines: usize = cards
            .iter()
            .flat_map(|card| of_class(*card, "cuts"))
            .map(|cuts| tagged(cuts, "li").count())
            .sum();
        assert_eq!(lines, cut.len(), "{name}: a line for each layer");
    }
}

/// The group's steps: what each is called, and all that it says.
fn steps<'d>(page: &'d Document<'d>) -> Vec<(String, Vec<(String, Node<'d, 'd>)>)> {
    let mut groups: Vec<(String, Vec<(String, Node)>)> = Vec::new();
    for node in section(page, "sew").descendants() {
        match node.attribute("class") {
            Some("group") => groups.push((read_as(node), Vec::new())),
            Some("step") => {
                let code = node.attribute("id").and_then(|id| id.strip_prefix("step-")).expect("a code");
                let told = of_class(node, "told").next().expect("what it says");
                groups.last_mut().expect("a group").1.push((code.to_owned(), told));
            }
            _ => {}
        }
    }
    groups
}

#[test]
fn steps_have_the_documents_titles_and_codes() {
    for (name, json, html) in examples() {
        let page = read(html);
        let groups = steps(&page);
        let said: Vec<&Value> = list(&json["sizes"][0], "steps").collect();
        assert_eq!(groups.len(), said.len(), "{name}");
        for (nth, ((title, steps), said)) in groups.iter().zip(&said).enumerate() {
            let number = nth + 1;
            assert!(title.starts_with(&number.to_string()), "{name}: {title}");
            if said["worked_out"] != true {
                assert_eq!(title, &format!("{number} {}", text(said, "title")), "{name}");
            }
            let codes: Vec<String> = match steps.len() {
                1 => vec![number.to_string()],
                count => ('a'..='z').take(count).map(|letter| format!("{number}{letter}")).collect(),
            };
            let told: Vec<String> = steps.iter().map(|(code, _)| code.clone()).collect();
            assert_eq!(told, codes, "{name}: {title}");
            // The maker's own words stand in them, and no step says what no action does.
            let all = steps.iter().map(|(_, told)| read_as(*told)).collect::<Vec<_>>().join(" ");
            for words in list(said, "actions").filter_map(|action| action["words"].as_str()) {
                let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
                assert!(all.contains(&words), "{name}, {title}: {words}");
            }
            let targets: usize = list(said, "actions").map(|action| list(action, "to").count().max(1)).sum();
            assert!(steps.len() <= targets, "{name}, {title}: {} steps of {targets}", steps.len());
        }
    }
}

/// The words for what an action is done to, and the number that its piece has on the sheet, if it has one.
fn meant(
    size: &Value,
    numbers: &[(String, String, String)],
    layer: Option<&str>,
    to: &str,
) -> Vec<(String, Vec<String>)> {
    if let Some(seam) = list(size, "seams").find(|seam| text(seam, "name") == to) {
        return vec![(called(seam, "seam"), Vec::new())];
    }
    let numbers_of = |piece: &str, layer: Option<&str>| -> Vec<String> {
        let own = numbers
            .iter()
            .filter(|(own, in_layer, _)| own == piece && layer.is_none_or(|layer| layer == in_layer));
        own.map(|(.., number)| number.clone()).collect()
    };
    let piece_of = |part: &Value| text(part, "part").split(' ').next().unwrap_or_default().to_owned();
    // `layer.piece.edge` or `piece.edge`, of what is drawn as an edge.
    for part in list(size, "pieces") {
        let name = piece_of(part);
        let Some((own_layer, piece)) = name.split_once('.') else { continue };
        for edge in list(part, "edges") {
            let edge_name = text(edge, "name");
            let is_it =
                to == format!("{piece}.{edge_name}") || to == format!("{own_layer}.{piece}.{edge_name}");
            if is_it {
                let layer = layer.or(Some(own_layer).filter(|_| to.starts_with(own_layer)));
                return vec![(called(edge, "edge"), numbers_of(piece, layer))];
            }
        }
        if to == piece || to == name {
            return vec![(String::new(), numbers_of(piece, layer))];
        }
    }
    Vec::new()
}

/// What is sewn, hemmed, finished, placed and pressed, in the order of the document: each step names its seam, or its edge and
/// the number of its piece.
#[test]
fn steps_name_what_the_document_does() {
    let mut compared = 0;
    for (name, json, html) in examples() {
        let page = read(html);
        let size = &json["sizes"][0];
        // The piece, the layer, and the number on the sheet.
        let mut numbers: Vec<(String, String, String)> = Vec::new();
        for row in
            tagged(section(&page, "pieces"), "tbody").flat_map(|body| tagged(body, "tr").collect::<Vec<_>>())
        {
            let (number, title) = numbered(tagged(row, "th").next().expect("a piece"));
            let layer = tagged(row, "td").next().map(read_as).expect("a layer");
            let cut = list(size, "cut_list").filter(|cut| {
                spoken(text(cut, "label")).to_lowercase() == title.to_lowercase()
                    && spoken(text(cut, "layer")) == layer
            });
            numbers.extend(
                cut.map(|cut| (text(cut, "piece").to_owned(), text(cut, "layer").to_owned(), number.clone())),
            );
        }
        for ((title, steps), said) in steps(&page).iter().zip(list(size, "steps")) {
            let mut at = 0;
            for action in list(said, "actions") {
                let layer = action["layer"].as_str();
                for to in list(action, "to").filter_map(Value::as_str) {
                    for (words, numbers) in meant(size, &numbers, layer, to) {
                        let says = |(_, told): &(String, Node)| {
                            let all = read_as(*told);
                            let rings: Vec<String> = of_class(*told, "ring").map(read_as).collect();
                            let is_there =
                                numbers.is_empty() || numbers.iter().any(|number| rings.contains(number));
                            all.contains(&words) && is_there
                        };
                        // Not before what was done last.
                        let found = steps.iter().enumerate().skip(at).find(|(_, step)| says(step));
                        let (found, _) = found.unwrap_or_else(|| {
                            panic!("{name}, {title}: no step after the {at}th says {to} ({words:?} of {numbers:?})")
                        });
                        at = found;
                        compared += 1;
                    }
                }
            }
        }
    }
    assert!(compared > 300, "{compared} of them");
}

/// "2 seams" are so many sewings, or fewer where copies are sewn in one go; notches are counted as the document lists them;
/// no other layer is named than the document's.
#[test]
fn counts_and_layers_in_words_are_the_documents() {
    let (mut seams, mut notches, mut in_one_go) = (0, 0, 0);
    for (name, json, html) in examples() {
        let page = read(html);
        let size = &json["sizes"][0];
        let layers: BTreeSet<String> = list(size, "cut_list").map(|cut| spoken(text(cut, "layer"))).collect();
        for (code, told) in steps(&page).into_iter().flat_map(|(_, steps)| steps) {
            let facts: Vec<String> = of_class(told, "facts")
                .flat_map(|facts| tagged(facts, "li").map(read_as).collect::<Vec<_>>())
                .collect();
            let layer = facts.iter().find_map(|fact| fact.strip_prefix("in "));
            for layer in
                layer.into_iter().flat_map(|layer| layer.split(", ")).flat_map(|layer| layer.split(" and "))
            {
                assert!(layers.contains(layer), "{name}, {code}: {layer}");
            }
            let all = read_as(told);
            let Some(rest) = all.strip_prefix("Sew the ").or_else(|| all.split("Sew the ").nth(1)) else {
                continue;
            };
            let is_it = |seam: &&Value| {
                let called = called(seam, "seam");
                let before = rest.split(" seam").next().unwrap_or_default();
                let is_named = before == called
                    || before.strip_prefix("left ") == Some(&called)
                    || before.strip_prefix("right ") == Some(&called);
                is_named
                    && layer.is_none_or(|layer| {
                        list(seam, "layers").any(|own| own.as_str().is_some_and(|own| spoken(own) == layer))
                    })
            };
            let own: Vec<&Value> = list(size, "seams").filter(is_it).collect();
            let count =
                |word: &str| facts.iter().find_map(|fact| fact.strip_suffix(word)?.parse::<u64>().ok());
            let Some(told) = count(" seams").or_else(|| count(" seam")) else { continue };
            if own.is_empty() {
                continue;
            }
            let sewings: u64 = own.iter().filter_map(|seam| seam["sewings"].as_u64()).sum();
            assert!(told >= 1 && told <= sewings, "{name}, {code}: {told} of {sewings} {all}");
            in_one_go += u32::from(told < sewings);
            seams += 1;
            let most = own.iter().map(|seam| list(seam, "notches").count()).max().unwrap_or(0);
            let said = all
                .split(" on each side")
                .next()
                .and_then(|before| before.rsplit(": ").next()?.parse::<usize>().ok());
            match said {
                Some(said) => {
                    assert_eq!(said, most, "{name}, {code}: {all}");
                    notches += 1;
                }
                None => assert_eq!(all.contains("Match the notch"), most > 0, "{name}, {code}: {all}"),
            }
        }
    }
    assert!(seams > 100 && notches > 40, "{seams} seams, {notches} with notches");
    assert!(in_one_go < seams / 4, "{in_one_go} of {seams} are sewn in one go");
}

#[test]
fn cautions_are_the_documents() {
    let mut warned = 0;
    // Whoever writes for a child is told of small parts.
    let text_of = example("mistakes/caution-small-parts");
    let small = compile(&in_memory(&[("own.fus", &text_of)]), "own.fus");
    let html = sheet(&small, &quick(), &|| {}).expect("a sheet");
    let json = serde_json::from_str(&small.json().expect("a document")).expect("JSON");
    let small = ("caution-small-parts".to_owned(), json, html);
    for (name, json, html) in examples().iter().chain([&small]) {
        let page = read(html);
        let cautions = section(&page, "cautions");
        let all = read_as(cautions);
        let sizes = json["sizes"].as_array().expect("sizes");
        let checked = match sizes.len() {
            1 => "The pattern was checked in one size.".to_owned(),
            count => format!("The pattern was checked in {count} sizes."),
        };
        assert!(all.contains(&checked), "{name}: {all}");
        let titles: Vec<String> = tagged(cautions, "dt").map(read_as).collect();
        let cloths = || sizes.iter().flat_map(|size| list(size, "cloths"));
        let closures = || sizes.iter().flat_map(|size| list(size, "closures"));
        let expected = [
            ("Wash the cloth before cutting", cloths().any(|cloth| !cloth["shrink"].is_null())),
            ("Lay all pieces one way", cloths().any(|cloth| cloth["one_way"] == true)),
            ("Buy the zip before cutting", closures().any(|closure| !closure["zip"].is_null())),
        ];
        let mut known = 0;
        for (title, is_due) in expected {
            assert_eq!(titles.iter().any(|own| own == title), is_due, "{name}: {title}");
            known += usize::from(is_due);
        }
        let told =
            list(json, "diagnostics").filter(|one| matches!(text(one, "severity"), "caution" | "warning"));
        let told: Vec<&Value> = told.collect();
        assert_eq!(titles.len() - known, told.len(), "{name}: {titles:?}");
        for warning in told.iter().filter(|one| text(one, "severity") == "warning") {
            assert!(all.contains(text(warning, "slug")), "{name}: {all}");
        }
        warned += told.len();
    }
    assert!(warned > 0, "what is for a child has a caution");
}
