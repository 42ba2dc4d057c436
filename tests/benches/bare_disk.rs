//! An editor's files where nothing stands on the disk: only what is open is there.

use fustian::editor::{Disk, Service, Workspace};
use fustian::source::{Loader, MemoryLoader};
use serde_json::json;

/// A disk with nothing on it.
struct Bare;

impl Disk for Bare {
    fn loader(&self, _first: &str, _folder: &str) -> Box<dyn Loader> {
        Box::new(MemoryLoader::new())
    }

    fn real(&self, path: &str) -> String {
        path.to_owned()
    }
}

/// A server in which one text is open, which it has not been asked about yet.
pub fn opened(address: &str, text: &str) -> Service {
    let mut service = Service::new(Workspace::new(Bare));
    let document = json!({ "uri": address, "languageId": "fustian", "version": 1, "text": text });
    service.notice("textDocument/didOpen", json!({ "textDocument": document })).expect("it can be opened");
    service
}
