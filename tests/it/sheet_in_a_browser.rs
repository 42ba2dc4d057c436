//! The sheet in a real browser: what axe finds, what a choice of size shows, how it fits a phone and paper, and that nothing is
//! asked of a network.
//!
//! These run where a browser is found (`FUSTIAN_BROWSER` names one that is not called as usual) and axe (`FUSTIAN_AXE` is the
//! path of its `axe.min.js`). Where `FUSTIAN_BROWSER_REQUIRED` is set, they fail without them.

use crate::workbench::{examples, run};
use serde_json::Value;
use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

fn is_required() -> bool {
    env::var_os("FUSTIAN_BROWSER_REQUIRED").is_some()
}

/// A browser of this machine; none, unless one is required.
fn browser() -> Option<PathBuf> {
    let named = env::var_os("FUSTIAN_BROWSER").map(PathBuf::from);
    let usual = ["chromium", "chromium-browser", "google-chrome"];
    let paths = env::var_os("PATH").unwrap_or_default();
    let found = named.or_else(|| {
        env::split_paths(&paths)
            .flat_map(|folder| usual.map(|name| folder.join(name)))
            .find(|path| path.is_file())
    });
    assert!(found.is_some() || !is_required(), "a browser is required, and none is found");
    found
}

/// The text of axe's script; none, unless it is required.
fn axe() -> Option<String> {
    let path = env::var_os("FUSTIAN_AXE");
    assert!(path.is_some() || !is_required(), "axe is required, and FUSTIAN_AXE does not say where it is");
    path.map(|path| fs::read_to_string(&path).expect("axe can be read"))
}

/// A browser that may reach nothing but files.
fn command(browser: &Path, folder: &Path) -> Command {
    let mut command = Command::new(browser);
    let profile = format!("--user-data-dir={}", folder.join("profile").display());
    command.args(["--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", &profile]);
    command.args(["--host-resolver-rules=MAP * ~NOTFOUND", "--disable-background-networking"]);
    command.stdin(Stdio::null());
    command
}

/// What a script finds in a page, as JSON. The page itself forbids scripts, so that a copy is asked that does not.
fn ask(browser: &Path, page: &str, width: u32, scripts: &[&str]) -> Value {
    let folder = TempDir::new().expect("a folder");
    let forbids = "<meta http-equiv=\"Content-Security-Policy\"";
    let at = page.find(forbids).expect("the page forbids scripts");
    let end = at + page[at..].find("/>").expect("its end") + 2;
    let mut copy = format!("{}{}", &page[..at], &page[end..]);
    let scripts: String = scripts.iter().map(|script| format!("<script>{script}</script>")).collect();
    let body = copy.rfind("</body>").expect("a body");
    copy.insert_str(body, &format!("<pre id=\"found\"></pre>{scripts}"));
    let path = folder.path().join("page.html");
    fs::write(&path, copy).expect("a page");
    let told = command(browser, folder.path())
        .arg(format!("--window-size={width},900"))
        .args(["--virtual-time-budget=60000", "--dump-dom"])
        .arg(format!("file://{}", path.display()))
        .output()
        .expect("the browser starts");
    let dump = String::from_utf8_lossy(&told.stdout);
    let begin = dump.find("<pre id=\"found\">").expect("what was found") + "<pre id=\"found\">".len();
    let end = begin + dump[begin..].find("</pre>").expect("its end");
    let text = dump[begin..end].replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{error}: {text:?}"))
}

/// A script that writes a value into the page.
fn telling(value: &str) -> String {
    format!("document.getElementById('found').textContent = JSON.stringify({value});")
}

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

/// axe-core with all rules of WCAG 2.2 A and AA and its best practices.
#[test]
fn axe_finds_nothing() {
    let (Some(browser), Some(axe)) = (browser(), axe()) else { return };
    let asking = "axe.run(document, {exclude: [['#found']]}).then(found => document.getElementById('found').textContent = \
                  JSON.stringify(found.violations.map(one => [one.id, one.nodes.map(node => node.html.slice(0, 160))])));";
    for (name, more, width) in [
        ("deck-jacket", &[][..], 1280),
        ("purser-shirt", NO_LAYS, 390),
        ("ticket-bag", &["--no-lays", "--language", "german"][..], 1280),
    ] {
        let found = ask(&browser, &page(name, more), width, &[&axe, asking]);
        assert_eq!(found, Value::Array(Vec::new()), "{name} at {width}");
    }
}

/// On a phone 390 px wide nothing has to be pushed sideways, and nothing was loaded besides the page.
#[test]
fn a_sheet_fits_a_phone_and_asks_for_nothing() {
    let Some(browser) = browser() else { return };
    for name in ["deck-jacket", "mess-jacket", "mate-trousers"] {
        // The window of a browser has a least width: a frame has not.
        let page = page(name, NO_LAYS);
        let measured = "(() => { const root = document.documentElement; root.style.width = '390px'; \
                        document.body.style.width = '390px'; \
                        const wide = [...document.querySelectorAll('main *')].filter(one => one.getBoundingClientRect().right > 391 \
                        && !one.closest('.tablebox') && !one.closest('svg')).map(one => one.outerHTML.slice(0, 120)); \
                        return [wide, performance.getEntriesByType('resource').length]; })()";
        let found = ask(&browser, &page, 500, &[&telling(measured)]);
        assert_eq!(found, serde_json::json!([[], 0]), "{name}");
    }
}

/// Without a choice ranges are shown; with one the figures of that size, and its column is marked.
#[test]
fn the_size_that_is_chosen_is_shown() {
    let Some(browser) = browser() else { return };
    let shown = "(() => { const seen = one => getComputedStyle(one).display !== 'none'; \
                 const count = kind => [...document.querySelectorAll(kind)].filter(seen).length; \
                 const before = [count('.all'), count('.z')]; \
                 document.getElementById('z2').checked = true; \
                 const marked = getComputedStyle(document.querySelector('td.c2')).fontWeight; \
                 const other = getComputedStyle(document.querySelector('td.c1')).fontWeight; \
                 return [before[0] > 0, before[1], count('.all'), count('.z2') > 0, count('.z1'), marked, other]; })()";
    let found = ask(&browser, &page("deck-smock", NO_LAYS), 1280, &[&telling(shown)]);
    assert_eq!(found, serde_json::json!([true, 0, 0, true, 0, "700", "400"]));
}

/// Printed on the paper that it is made for: A4 is 595.28 by 841.89 pt (ISO 216), letter 612 by 792 pt.
#[test]
fn a_sheet_is_printed_on_its_paper() {
    let Some(browser) = browser() else { return };
    for (paper, width, height) in [("a4", 595.28, 841.89), ("letter", 612.0, 792.0)] {
        let folder = TempDir::new().expect("a folder");
        let path = folder.path().join("page.html");
        fs::write(&path, page("deck-smock", &["--no-lays", "--paper", paper])).expect("a page");
        let printed = folder.path().join("page.pdf");
        let told = command(&browser, folder.path())
            .arg("--no-pdf-header-footer")
            .arg(format!("--print-to-pdf={}", printed.display()))
            .arg(format!("file://{}", path.display()))
            .output()
            .expect("the browser starts");
        assert!(told.status.success(), "{told:?}");
        let document = lopdf::Document::load(&printed).expect("a PDF");
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
