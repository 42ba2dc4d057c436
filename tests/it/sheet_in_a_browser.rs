//! The sheet in a real browser: what axe finds, what a choice of size shows, how it fits a phone and paper, and that nothing is
//! asked of a network.

use crate::workbench::browser::Browser;
use crate::workbench::{examples, run};
use serde_json::json;
use std::fs;
use tempfile::TempDir;

fn page(name: &str, more: &[&str]) -> String {
    let folder = examples();
    let file = format!("{name}.fus");
    let mut arguments = vec!["sheet", &file, "-o", "sheet.html"];
    arguments.extend(more);
    let told = run(folder.path(), &arguments);
    assert!(told.status.success(), "{told:?}");
    fs::read_to_string(folder.path().join("sheet.html")).expect("a page")
}

const NO_LAYS: &[&str] = &["--no-lays"];

/// Opens a page from a file; its folder has to live as long as it is looked at.
fn open(browser: &mut Browser, page: &str) -> TempDir {
    let folder = TempDir::new().expect("a folder");
    let path = folder.path().join("page.html");
    fs::write(&path, page).expect("a page");
    browser.open(&format!("file://{}", path.display()));
    folder
}

/// axe-core with all rules of WCAG 2.2 A and AA and its best practices.
#[test]
fn axe_finds_nothing() {
    let Some(mut browser) = Browser::start() else { return };
    for (name, more, width) in [
        ("deck-jacket", &[][..], 1280),
        ("purser-shirt", NO_LAYS, 390),
        ("ticket-bag", &["--no-lays", "--language", "german"][..], 1280),
    ] {
        browser.size(width, 900, false);
        let _folder = open(&mut browser, &page(name, more));
        assert_eq!(browser.accessibility(), Vec::<String>::new(), "{name} at {width}");
    }
}

/// On a phone 390 px wide nothing has to be pushed sideways, and nothing was loaded besides the page.
#[test]
fn a_sheet_fits_a_phone_and_asks_for_nothing() {
    let Some(mut browser) = Browser::start() else { return };
    browser.size(390, 844, true);
    for name in ["deck-jacket", "mess-jacket", "mate-trousers"] {
        let folder = open(&mut browser, &page(name, NO_LAYS));
        let measured = "(() => { const wide = [...document.querySelectorAll('main *')].filter(one => \
                        one.getBoundingClientRect().right > 391 && !one.closest('.tablebox') && !one.closest('svg')); \
                        return [document.documentElement.clientWidth, wide.map(one => one.outerHTML.slice(0, 120))]; })()";
        assert_eq!(browser.run(measured), json!([390, []]), "{name}");
        let own = format!("file://{}", folder.path().display());
        let mut asked = browser.requests();
        asked.retain(|url| !url.starts_with("file:///") || url.starts_with(&own));
        assert!(asked.iter().all(|url| url.starts_with(&own) && url.ends_with("/page.html")), "{asked:?}");
    }
}

/// Without a choice ranges are shown; with one the figures of that size, and its column is marked.
#[test]
fn the_size_that_is_chosen_is_shown() {
    let Some(mut browser) = Browser::start() else { return };
    browser.size(1280, 900, false);
    let _folder = open(&mut browser, &page("deck-smock", NO_LAYS));
    let shown = "(() => { const seen = one => getComputedStyle(one).display !== 'none'; \
                 const count = kind => [...document.querySelectorAll(kind)].filter(seen).length; \
                 const before = [count('.all'), count('.z')]; \
                 document.getElementById('z2').checked = true; \
                 const marked = getComputedStyle(document.querySelector('td.c2')).fontWeight; \
                 const other = getComputedStyle(document.querySelector('td.c1')).fontWeight; \
                 return [before[0] > 0, before[1], count('.all'), count('.z2') > 0, count('.z1'), marked, other]; })()";
    assert_eq!(browser.run(shown), json!([true, 0, 0, true, 0, "700", "400"]));
}

/// Printed on the paper that it is made for: A4 is 595.28 by 841.89 pt (ISO 216), letter 612 by 792 pt.
#[test]
fn a_sheet_is_printed_on_its_paper() {
    let Some(mut browser) = Browser::start() else { return };
    for (paper, width, height) in [("a4", 595.28, 841.89), ("letter", 612.0, 792.0)] {
        let _folder = open(&mut browser, &page("deck-smock", &["--no-lays", "--paper", paper]));
        let document = lopdf::Document::load_mem(&browser.paper()).expect("a PDF");
        let pages = document.get_pages();
        assert!((3..=14).contains(&pages.len()), "{} pages", pages.len());
        for &id in pages.values() {
            let page = document.get_dictionary(id).expect("a page");
            let sizes = page.get(b"MediaBox").and_then(lopdf::Object::as_array).expect("its size");
            let number = |at: usize| f64::from(sizes[at].as_float().expect("a number"));
            assert!(
                (number(2) - width).abs() < 1.0 && (number(3) - height).abs() < 1.0,
                "{paper}: {sizes:?}"
            );
        }
    }
}
