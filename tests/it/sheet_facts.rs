//! Every figure of the sheet is one of `resolve`'s, written as a tape shows it.

use crate::workbench::{examples, in_memory, run};
use fustian::compile;
use fustian::sheet::{Choices, sheet};
use roxmltree::{Document, Node, ParsingOptions};
use serde_json::Value;
use std::fs;

fn read(html: &str) -> Document<'_> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    Document::parse_with_options(html, options).unwrap_or_else(|error| panic!("{error}"))
}

fn words(node: Node) -> String {
    node.descendants().filter_map(|node| node.text().filter(|_| node.is_text())).collect()
}

fn within<'d>(node: Node<'d, 'd>, name: &'static str) -> impl Iterator<Item = Node<'d, 'd>> {
    node.descendants().filter(move |node| node.has_tag_name(name))
}

/// The rows of the tables with that caption: what each is of, and its cells as what stands first and what stands beneath.
fn rows(document: &Document, caption: &str) -> Vec<(String, Vec<(String, String)>)> {
    let mut rows: Vec<(String, Vec<(String, String)>)> = Vec::new();
    for table in within(document.root_element(), "table") {
        if !within(table, "caption").any(|found| words(found).starts_with(caption)) {
            continue;
        }
        for row in within(table, "tbody").flat_map(|body| within(body, "tr").collect::<Vec<_>>()) {
            let own = |node: Node| {
                let small: String = within(node, "small").map(words).collect();
                let all = words(node);
                (all.strip_suffix(small.as_str()).unwrap_or(&all).trim().to_owned(), small)
            };
            let title = within(row, "th").next().map(own).expect("a head").0;
            let cells = within(row, "td").map(own).collect();
            rows.push((title, cells));
        }
    }
    rows
}

/// Centimetres to the millimetre, as a reader writes them.
fn centimetres(mm: f64) -> String {
    let tenths = mm.round() as i64;
    if tenths % 10 == 0 { (tenths / 10).to_string() } else { format!("{}.{}", tenths / 10, tenths % 10) }
}

/// Inches to the eighth: 25.4 mm are an inch.
fn inches(mm: f64) -> String {
    let eighths = (mm / 25.4 * 8.0).round() as i64;
    let sign = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"][(eighths % 8) as usize];
    format!("{}{sign}", eighths / 8)
}

fn jacket() -> (Value, String) {
    let folder = examples();
    let told = run(
        folder.path(),
        &["resolve", "deck-jacket.fus", "--with", "lay,materials", "--widths", "115,150", "-o", "all.json"],
    );
    assert!(told.status.success(), "{told:?}");
    let told = run(folder.path(), &["sheet", "deck-jacket.fus", "-o", "sheet.html"]);
    assert!(told.status.success(), "{told:?}");
    let json = fs::read_to_string(folder.path().join("all.json")).expect("the document");
    let html = fs::read_to_string(folder.path().join("sheet.html")).expect("the page");
    (serde_json::from_str(&json).expect("JSON"), html)
}

fn sizes(json: &Value) -> impl Iterator<Item = &Value> {
    json["sizes"].as_array().expect("sizes").iter()
}

fn list<'v>(value: &'v Value, key: &str) -> impl Iterator<Item = &'v Value> {
    value[key].as_array().into_iter().flatten()
}

#[test]
fn the_jackets_sheet_says_what_resolve_says() {
    let (json, html) = jacket();
    let document = read(&html);

    let body = rows(&document, "The body");
    let named = sizes(&json).next().expect("a size")["body"].as_object().expect("rows");
    assert_eq!(body.len(), named.len());
    for ((title, cells), name) in body.iter().zip(named.keys()) {
        assert_eq!(title.to_lowercase(), name.replace('_', " "));
        for (cell, size) in cells.iter().zip(sizes(&json)) {
            let value = size["body"][name].as_f64().expect("a length");
            assert_eq!(*cell, (centimetres(value), inches(value)), "{name}");
        }
    }

    let finished = rows(&document, "The finished garment");
    for (name, measure) in sizes(&json).next().expect("a size")["measures"].as_object().expect("rows") {
        let title = measure["title"].as_str().expect("a title");
        let (_, cells) =
            finished.iter().find(|(found, _)| found == title).unwrap_or_else(|| panic!("{title}"));
        for (cell, size) in cells.iter().zip(sizes(&json)) {
            let value = size["measures"][name]["value"].as_f64().expect("a length");
            assert_eq!(*cell, (centimetres(value), inches(value)), "{title}");
        }
    }

    let cloth = rows(&document, "Cloth");
    let mut compared = 0;
    for (at, size) in sizes(&json).enumerate() {
        for key in ["cloths", "other_widths"] {
            for told in list(&size["materials"], key) {
                let label = told["label"].as_str().expect("a label");
                let metres = format!("{:.1}", told["buy"]["to_buy"].as_f64().unwrap_or(0.0) / 1000.0);
                let unwashed = told["buy"]["before_washing"].as_f64().unwrap_or(0.0);
                let eighths = ((unwashed - 0.05) / 114.3).ceil() as i64;
                let yards = inches(eighths as f64 * 25.4 / 8.0);
                let yards = if eighths < 8 { yards.trim_start_matches('0').to_owned() } else { yards };
                let found = cloth.iter().filter(|(title, _)| title == label).any(|(_, cells)| {
                    cells[at] == (metres.clone(), yards.clone())
                        || told["trouble"].is_string() && cells[at].1 == "too narrow"
                });
                assert!(found, "{label} {metres} m, {yards} yd in size {at}: {cloth:#?}");
                compared += 1;
            }
        }
    }
    assert!(compared >= 18, "{compared} cloths");

    let thread = rows(&document, "Thread");
    let cost = rows(&document, "Cost");
    for (at, size) in sizes(&json).enumerate() {
        for ((_, cells), told) in thread.iter().zip(list(&size["materials"], "thread")) {
            let metres = (told["thread"].as_f64().expect("a length") / 1000.0).ceil();
            assert_eq!(cells[at].0, format!("{metres}"));
        }
        let total = size["materials"]["total"][0]["amount"].as_f64().expect("a sum");
        let (_, cells) = cost.iter().find(|(title, _)| title == "Together").expect("a sum");
        assert_eq!(cells[at].0, format!("{total:.2}"));
    }

    // Every place of every lay that is drawn, and every line of the cut list.
    let shown = &sizes(&json).nth(2).expect("size M");
    let laid: usize = list(shown, "lays").map(|lay| list(lay, "parts").count()).sum();
    let section =
        |id: &str| document.descendants().find(|node| node.attribute("id") == Some(id)).expect("a part");
    let figures = within(section("lay"), "figure").filter(|figure| figure.attribute("class") == Some("all"));
    let drawn: usize = figures
        .map(|figure| within(figure, "path").filter(|path| path.attribute("class") == Some("laid")).count())
        .sum();
    assert_eq!(drawn, laid);
    let cut: usize = within(section("pieces"), "table")
        .map(|table| within(table, "tbody").map(|body| within(body, "tr").count()).sum::<usize>())
        .sum();
    assert_eq!(cut, list(sizes(&json).next().expect("a size"), "cut_list").count());

    // Every step, in the order of work, under its title.
    let groups: Vec<String> = within(section("sew"), "h3").map(words).collect();
    let titles: Vec<String> = list(sizes(&json).next().expect("a size"), "steps")
        .map(|step| step["title"].as_str().expect("a title").to_owned())
        .collect();
    assert_eq!(groups.len(), titles.len());
    for (group, title) in groups.iter().zip(&titles) {
        assert!(group.ends_with(title.as_str()), "{group}: {title}");
    }
}

/// A rectangle of 60 by 87 cm with a hem of 2 cm all round is cut 64 by 91 cm; on cloth 150 cm wide, its grain along the cloth,
/// it takes 91 cm: 1.0 m, as cloth is sold by 10 cm. 910 mm are 7.96 eighths of a yard (114.3 mm), so 1 yd; rounded from
/// the metre it would be 1⅛ yd.
#[test]
fn yards_are_never_rounded_from_metres() {
    let text = "garment \"Apron\"\nunits cm\nallowance 1\nfabric canvas { width 150; nap one-way }\nlayer outer in canvas { body }\npiece body \"Apron\" {\n  cut 1\n  outline rectangle 60 by 87\n}\nfinish body.bottom, body.right, body.top, body.left  hem 2\n";
    let compiled = compile(&in_memory(&[("own.fus", text)]), "own.fus");
    let html = sheet(&compiled, &Choices::default(), &|| {}).expect("a sheet");
    let document = read(&html);
    assert_eq!(rows(&document, "Cloth"), [("canvas".to_owned(), vec![("1.0".to_owned(), "1".to_owned())])]);
    // Washed cloth is shorter: 910 mm are cut from 910 / 0.95 = 957.9 mm, 1.0 m, and 8.38 eighths, so 1⅛ yd.
    let shrinks = text.replace("nap one-way", "nap one-way; shrink 5% along");
    let compiled = compile(&in_memory(&[("own.fus", shrinks.as_str())]), "own.fus");
    let html = sheet(&compiled, &Choices::default(), &|| {}).expect("a sheet");
    assert_eq!(
        rows(&read(&html), "Cloth"),
        [("canvas".to_owned(), vec![("1.0".to_owned(), "1⅛".to_owned())])]
    );
}

/// EN 13402-3 gives men's chest girths of 86 to 94, 94 to 102, 102 to 110 and 110 to 118 cm for S to XL: their middles.
#[test]
fn chest_girths_are_those_of_the_standard() {
    let folder = examples();
    let told = run(folder.path(), &["sheet", "deck-smock.fus", "--no-lays", "-o", "sheet.html"]);
    assert!(told.status.success(), "{told:?}");
    let html = fs::read_to_string(folder.path().join("sheet.html")).expect("the page");
    let document = read(&html);
    let body = rows(&document, "The body");
    let (_, chest) = body.iter().find(|(title, _)| title == "Chest").expect("the chest");
    let middles: Vec<String> = [(86, 94), (94, 102), (102, 110), (110, 118)]
        .iter()
        .map(|(low, high)| ((low + high) / 2).to_string())
        .collect();
    let shown: Vec<&String> = chest[1..5].iter().map(|(main, _)| main).collect();
    assert_eq!(shown, middles.iter().collect::<Vec<_>>());
}
