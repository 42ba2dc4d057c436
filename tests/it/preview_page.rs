//! The live view in a real browser: what is pointed at lights up, the size changes, a save is followed.

use crate::workbench::browser::Browser;
use crate::workbench::served::Served;
use crate::workbench::{examples, with};
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::time::Instant;

/// The deck jacket, shown.
fn jacket(folder: &Path, browser: &mut Browser) -> Served {
    let served = Served::of(folder, "deck-jacket.fus");
    browser.open(&served.address());
    browser.until("document.querySelectorAll('#pieces-drawing g[data-part]').length === 10");
    served
}

/// Where the middle of an edge is on the page.
fn middle(browser: &mut Browser, served: &Served, size: &str, key: &str) -> (f64, f64) {
    let room = browser.run(
        "(() => { const { width, height } = document.getElementById('pieces-drawing').getBoundingClientRect(); \
         return Math.round(100 * width / height); })()",
    );
    let drawn = served.get(&format!("/pieces?from=0&size={size}&room={room}")).json();
    let pieces = drawn["pieces"].as_array().expect("pieces").clone();
    let edges = pieces.iter().flat_map(|piece| piece["edges"].as_array().expect("edges"));
    let edge = edges.into_iter().find(|edge| edge["key"] == key).expect("an edge");
    let line: Vec<f64> =
        edge["lines"][0].as_array().expect("a line").iter().filter_map(Value::as_f64).collect();
    let half = line.len() / 4 * 2;
    let (x, y) = match half {
        2 if line.len() == 4 => ((line[0] + line[2]) / 2.0, (line[1] + line[3]) / 2.0),
        half => (line[half], line[half + 1]),
    };
    let place = browser.run(&format!(
        "(() => {{ const svg = document.getElementById('pieces-drawing'); \
         svg.scrollIntoView({{ block: 'nearest' }}); \
         const at = new DOMPoint({x}, {y}).matrixTransform(svg.getScreenCTM()); return [at.x, at.y]; }})()"
    ));
    (place[0].as_f64().expect("a place"), place[1].as_f64().expect("a place"))
}

/// The keys of what is lit: the edge itself, or what it is sewn to.
fn lit(browser: &mut Browser, kind: &str) -> Vec<String> {
    let script = format!("[...document.querySelectorAll('.lit .{kind}')].map((one) => one.dataset.key)");
    let keys = browser.run(&script);
    let mut keys: Vec<String> =
        keys.as_array().expect("a list").iter().filter_map(|key| key.as_str().map(str::to_owned)).collect();
    keys.sort();
    keys.dedup();
    keys
}

fn text(browser: &mut Browser, selector: &str) -> String {
    let script = format!("document.querySelector('{selector}')?.textContent || ''");
    browser.run(&script).as_str().unwrap_or("").to_owned()
}

/// Nothing went wrong, and nothing was asked of anybody else.
fn is_calm(browser: &mut Browser, served: &Served) {
    assert_eq!(browser.troubles(), Vec::<String>::new());
    let address = served.address();
    let elsewhere: Vec<String> = browser
        .requests()
        .into_iter()
        .filter(|url| !url.starts_with(&address) && url != "about:blank")
        .collect();
    assert_eq!(elsewhere, Vec::<String>::new());
}

#[test]
fn what_is_pointed_at_lights_up_with_its_mates() {
    let Some(mut browser) = Browser::start() else { return };
    browser.size(1280, 900, false);
    let folder = examples();
    let served = jacket(folder.path(), &mut browser);
    browser.run("document.querySelector('input[name=size][value=M]').click()");
    browser.until("document.querySelectorAll('.lit').length === 1");
    let at = middle(&mut browser, &served, "M", "outer.sleeve.cap");
    browser.point(at);
    browser.until("document.querySelector('.lit .own')");
    assert_eq!(lit(&mut browser, "own"), ["outer.sleeve.cap"]);
    assert_eq!(lit(&mut browser, "mate"), ["outer.back.armhole", "outer.front.armhole"]);
    browser.until("document.querySelector('#facts h3')?.textContent === 'Sleeve: cap'");
    // A hand's draft in another program (see `seams.rs`): both caps 1128.874 mm in M, and the armholes 1078.074.
    let row = text(&mut browser, "#facts tr.now");
    assert_eq!(row, "M56.4 cm53.9 cm2.5 cm eased");
    // The mouse goes elsewhere, and nothing is lit.
    browser.point((5.0, 5.0));
    browser.until("!document.querySelector('.lit .own')");
    // By the keyboard: from edge to edge, on to what it is sewn to, and let go.
    browser.run("document.getElementById('pieces-drawing').focus()");
    browser.press("ArrowRight");
    browser.until("document.querySelector('.lit .own')");
    let first = lit(&mut browser, "own");
    browser.press("ArrowRight");
    browser.until(&format!("document.querySelector('.lit .own')?.dataset.key !== '{}'", first[0]));
    browser.press("ArrowDown");
    browser.until("document.querySelector('.lit .own')?.dataset.key.startsWith('outer.back.')");
    browser.until("document.getElementById('say').textContent.startsWith('Back, ')");
    browser.press("Escape");
    browser.until("!document.querySelector('.lit .own')");
    browser.run(
        "(() => { const pick = document.getElementById('piece-pick'); pick.value = 'outer.pocket'; \
         pick.dispatchEvent(new Event('change')); })()",
    );
    browser.until("document.querySelector('.lit .own')?.dataset.key.startsWith('outer.pocket.')");
    is_calm(&mut browser, &served);
    assert_eq!(browser.accessibility(), Vec::<String>::new());
}

#[test]
fn a_finger_and_a_narrow_page_do_too() {
    let Some(mut browser) = Browser::start() else { return };
    browser.size(390, 844, true);
    let folder = examples();
    let served = jacket(folder.path(), &mut browser);
    let at = middle(&mut browser, &served, "M", "outer.front.centre");
    browser.tap(at);
    browser.until("document.querySelector('.lit .own')?.dataset.key === 'outer.front.centre'");
    assert_eq!(lit(&mut browser, "mate"), ["lining.front.centre"]);
    browser.until("document.querySelector('#facts h3')");
    // Nothing has to be moved sideways to be read, and what is pressed is large enough (WCAG 2.2, 2.5.8: 24 px).
    assert_eq!(browser.run("document.documentElement.scrollWidth"), 390);
    let small = browser.run(
        "[...document.querySelectorAll('button, select, fieldset label, nav a, summary')] \
         .filter((one) => one.offsetParent && (one.offsetHeight < 24 || one.offsetWidth < 24)).map((one) => one.outerHTML)",
    );
    assert_eq!(small, serde_json::json!([]));
    is_calm(&mut browser, &served);
    assert_eq!(browser.accessibility(), Vec::<String>::new());
}

#[test]
fn a_save_is_followed_and_what_was_chosen_stays() {
    let Some(mut browser) = Browser::start() else { return };
    browser.size(1280, 900, false);
    let folder = examples();
    let served = jacket(folder.path(), &mut browser);
    browser.run("document.querySelector('input[name=size][value=XL]').click()");
    browser.until("document.querySelector('input[name=size][value=XL]').checked");
    browser.run(
        "(() => { const pick = document.getElementById('piece-pick'); pick.value = 'outer.front'; \
         pick.dispatchEvent(new Event('change')); })()",
    );
    browser.until("document.querySelector('#facts tr.now th')?.textContent === 'XL'");
    browser.run("document.querySelector('.tools button').click()");
    let box_of = "document.getElementById('pieces-drawing').getAttribute('viewBox')";
    let (zoomed, own) = (browser.run(box_of), lit(&mut browser, "own"));
    // The text breaks: that is said, with the way out, and the garment stays.
    let smock = folder.path().join("deck-smock.fus");
    let sound = fs::read_to_string(&smock).expect("a text");
    fs::write(&smock, with(&sound, &[("let ease ", "let eese ")])).expect("written");
    browser.until("document.documentElement.dataset.standing === 'broken'");
    browser.until("document.querySelector('.message.mistake .way')");
    assert!(text(&mut browser, "#standing").contains("The text is broken"));
    assert!(text(&mut browser, ".message.mistake .where").starts_with("deck-smock.fus:"));
    assert_eq!(browser.run("document.querySelectorAll('#pieces-drawing g[data-part]').length"), 10);
    assert_eq!(browser.accessibility(), Vec::<String>::new());
    // It is sound again, and its title another: size, edge and zoom are as they were.
    let began = Instant::now();
    let jacket = folder.path().join("deck-jacket.fus");
    fs::write(&smock, &sound).expect("written");
    browser.until("document.documentElement.dataset.standing === 'sound'");
    println!("from the save to the page: {:?}", began.elapsed());
    let title = fs::read_to_string(&jacket).expect("a text");
    fs::write(&jacket, with(&title, &[("Deck jacket, lined", "Watch jacket")])).expect("written");
    browser.until("document.getElementById('title').textContent === 'Watch jacket'");
    browser.until(
        "[...document.querySelectorAll('#pieces-drawing text.words')].some((one) => one.textContent === 'Watch jacket')",
    );
    assert_eq!(browser.run("document.querySelector('input[name=size]:checked').value"), "XL");
    assert_eq!((browser.run(box_of), lit(&mut browser, "own")), (zoomed.clone(), own.clone()));
    // So they are when the page is loaded anew.
    browser.open(&served.address());
    browser.until("document.querySelector('.lit .own')");
    assert_eq!(browser.run("document.querySelector('input[name=size]:checked').value"), "XL");
    assert_eq!((browser.run(box_of), lit(&mut browser, "own")), (zoomed, own));
    // A layer is taken off and put on.
    browser.run("document.querySelector('input[name=layer][value=lining]').click()");
    browser.until("document.querySelector('g[data-layer=lining]').classList.contains('off')");
    browser.run("document.querySelector('input[name=layer][value=lining]').click()");
    browser.until("!document.querySelector('g[data-layer=lining]').classList.contains('off')");
    // All sizes in one another.
    browser.run("document.querySelector('input[name=size]').click()");
    browser.until("document.querySelectorAll('path.cut.of-size').length >= 36");
    // And the lay, on which each of the ten parts lies at least once.
    browser.run("document.querySelector('nav a[href=\"#lay\"]').click()");
    browser.until("document.querySelectorAll('#lay-drawing path.laid').length >= 10");
    is_calm(&mut browser, &served);
    assert_eq!(browser.accessibility(), Vec::<String>::new());
    // And the sheet, within the page.
    browser.run("document.querySelector('nav a[href=\"#sheet\"]').click()");
    browser.until("document.getElementById('sheet-note').textContent.startsWith('The sheet, ')");
    is_calm(&mut browser, &served);
    browser.run("document.querySelector('nav a[href=\"#pieces\"]').click()");
    // The program ends: that is said, and what is shown stays.
    drop(served);
    browser.until("document.documentElement.dataset.link === 'lost'");
    assert_eq!(browser.run("document.querySelectorAll('#pieces-drawing g[data-part]').length"), 10);
}
