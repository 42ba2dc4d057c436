//! The page itself, its script and its style, which are part of the program.

use super::response::{Request, Response};
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::sync::OnceLock;

/// Something that is the same as long as the program runs.
pub(super) struct Asset {
    kind: &'static str,
    body: &'static str,
    tag: OnceLock<String>,
}

pub(super) static PAGE: Asset = Asset::new("text/html; charset=utf-8", include_str!("page/page.html"));
pub(super) static STYLE: Asset = Asset::new("text/css; charset=utf-8", include_str!("page/page.css"));
pub(super) static SCRIPT: Asset = Asset::new("text/javascript; charset=utf-8", include_str!("page/page.js"));
pub(super) static ICON: Asset = Asset::new("image/svg+xml", include_str!("page/icon.svg"));

impl Asset {
    const fn new(kind: &'static str, body: &'static str) -> Self {
        Asset { kind, body, tag: OnceLock::new() }
    }

    /// All of it, or that it has not changed (RFC 9110, 13.1.2).
    pub(super) fn response(&'static self, request: &Request) -> Response {
        let tag = self.tag.get_or_init(|| tag(self.body));
        let is_known = request.known.is_some_and(|known| known.split(',').any(|one| one.trim() == tag));
        let response = match is_known {
            true => Response::new(304, self.kind, &[][..]),
            false => Response::new(200, self.kind, self.body.as_bytes()),
        };
        response.with("Cache-Control", "no-cache").with("ETag", tag.as_str())
    }
}

fn tag(body: &str) -> String {
    let hash = Sha256::digest(body.as_bytes());
    let mut tag = String::from("\"");
    for byte in hash.iter().take(8) {
        // Writing to a String cannot fail.
        let _ = write!(tag, "{byte:02x}");
    }
    tag.push('"');
    tag
}
