//! Who may ask. The page is for the machine that it runs on: a page from elsewhere that a browser has open can reach
//! 127.0.0.1 too, by its number or by a name of its own that it lets mean that number.

use super::response::{Request, Response};

/// Where it is listened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Door {
    /// The port.
    pub port: u16,
}

/// Names of this machine that are known to mean no other.
const OWN_NAMES: [&str; 2] = ["127.0.0.1", "localhost"];
/// The port that a browser does not write.
const UNWRITTEN_PORT: u16 = 80;

impl Door {
    /// None for whom may come in; else what it is told.
    pub(super) fn refusal(self, request: &Request) -> Option<Response> {
        if !request.host.is_some_and(|host| self.is_own(host)) {
            return Some(Response::words(
                403,
                "this page is for the machine that it runs on, under its own name",
            ));
        }
        let is_own = |origin: &str| origin.strip_prefix("http://").is_some_and(|host| self.is_own(host));
        // A link to the page may be followed from anywhere.
        let follows = request.mode == Some("navigate") && request.target == "/";
        let is_near = request.site.is_none_or(|site| matches!(site, "same-origin" | "none"));
        if request.origin.is_some_and(|origin| !is_own(origin)) || !(is_near || follows) {
            return Some(Response::words(403, "another page may not ask here"));
        }
        match request.method {
            "GET" | "HEAD" => None,
            _ => Some(
                Response::words(405, "there is only something to look at here").with("Allow", "GET, HEAD"),
            ),
        }
    }

    fn is_own(self, host: &str) -> bool {
        let (name, port) = match host.rsplit_once(':') {
            Some((name, port)) => (name, port.parse().ok()),
            None => (host, Some(UNWRITTEN_PORT)),
        };
        port == Some(self.port) && OWN_NAMES.iter().any(|own| name.eq_ignore_ascii_case(own))
    }
}
