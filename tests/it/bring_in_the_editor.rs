//! A pattern that has come in, in an editor: the edges that nothing takes yet are offered their partners.

use crate::brought::{brought, compiled, in_mm};
use crate::wire::{Client, crew, edited, uri};
use serde_json::{Value, json};

/// Front and back of a smock in two sizes: shoulders of 13 cm, sides of 30, and nothing else alike.
fn smock() -> String {
    let front = |at: i32| format!("M0 400 H{} V100 H170 V30 L50 -20 L0 80 Z", 220 + at);
    let back = |at: i32| format!("M500 400 H{} V100 H670 V25 L550 -25 L500 50 Z", 735 + at);
    let drawn = format!(
        "<path id='front-S' d='{}'/><path id='front-M' d='{}'/><path id='back-S' d='{}'/><path id='back-M' d='{}'/>",
        front(0),
        front(12),
        back(0),
        back(12)
    );
    brought("smock.svg", &in_mm(&drawn)).text
}

fn titles(actions: &Value) -> Vec<&str> {
    actions.as_array().unwrap().iter().map(|one| one["title"].as_str().unwrap()).collect()
}

#[test]
fn an_edge_without_a_fate_is_sewn_to_its_partner() {
    let text = smock();
    let folder = crew(&[("smock.fus", &text)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&uri, &text);
    client.told_of(&uri, 1);
    let line =
        |text: &str, edge: &str| text.lines().position(|line| line.trim_start().starts_with(edge)).unwrap();
    let mut ask = |at: usize| {
        let place = json!({ "line": at, "character": 5 });
        let params = json!({
            "textDocument": { "uri": uri },
            "range": { "start": place, "end": place },
            "context": { "diagnostics": [] },
        });
        client.ask("textDocument/codeAction", params).unwrap()
    };
    // By hand: 12 across and 5 up are 13.
    let shoulder = ask(line(&text, "e5 "));
    assert_eq!(titles(&shoulder), ["sew to back.e5 (13 cm in every size)"]);
    let sewn = edited(&text, &uri, &shoulder[0]["edit"]);
    assert!(sewn.ends_with("\nseam e5  front.e5 to back.e5\n"), "{sewn}");
    let garment = compiled(&sewn);
    let slugs: Vec<&str> = garment.diagnostics.iter().map(|one| one.slug()).collect();
    assert!(!slugs.contains(&"seam/unequal") && slugs.contains(&"edge/loose"), "{slugs:?}");
    // The hems are 220 and 235 long: no partners.
    assert_eq!(titles(&ask(line(&text, "e1 "))), [""; 0]);
    assert_eq!(client.leave(), Some(0));
}

#[test]
fn an_edge_that_is_sewn_is_offered_nothing() {
    let text = format!("{}\nseam shoulder  front.e5 to back.e5\n", smock());
    let folder = crew(&[("smock.fus", &text)]);
    let uri = uri(folder.path(), "smock.fus");
    let mut client = Client::ready();
    client.open(&uri, &text);
    client.told_of(&uri, 1);
    let at = text.lines().position(|line| line.trim_start().starts_with("e5 ")).unwrap();
    let place = json!({ "line": at, "character": 5 });
    let params = json!({
        "textDocument": { "uri": uri },
        "range": { "start": place, "end": place },
        "context": { "diagnostics": [] },
    });
    let actions = client.ask("textDocument/codeAction", params).unwrap();
    assert!(titles(&actions).iter().all(|title| !title.starts_with("sew to back.e5")), "{actions}");
    assert_eq!(client.leave(), Some(0));
}
