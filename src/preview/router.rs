//! Requests and their answers: a fixed table of what may be asked for.

use super::assets::{ICON, PAGE, SCRIPT, STYLE};
use super::door::Door;
use super::drawn::{Wanted, drawn};
use super::edge_facts::edge_facts;
use super::response::{Request, Response};
use super::shown::Preview;
use crate::percent::unescaped;
use serde::Serialize;

/// What comes of a request.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// An answer.
    Whole(Response),
    /// The beginning of an answer that goes on with an event for every change (server-sent events).
    Events(Response),
}

/// Answers a request. Nothing is looked up by a path: what is not in this table is not there.
pub fn answer(preview: &Preview, door: Door, request: &Request) -> Answer {
    let response = match door.refusal(request) {
        Some(refusal) => refusal,
        None => {
            let (path, query) = request.target.split_once('?').unwrap_or((request.target, ""));
            match path {
                "/" => PAGE.response(request),
                "/page.css" => STYLE.response(request),
                "/page.js" => SCRIPT.response(request),
                "/icon.svg" => ICON.response(request),
                "/standing" => json(&preview.standing()),
                "/pieces" => pieces(preview, query),
                "/edge" => edge(preview, query),
                "/lay" => lay(preview, query),
                "/sheet" => sheet(preview, query),
                "/events" if request.method == "GET" => {
                    return Answer::Events(Response::new(200, "text/event-stream", &[][..]));
                }
                _ => Response::words(404, "there is nothing of that name here"),
            }
        }
    };
    Answer::Whole(if request.method == "HEAD" { response.head() } else { response })
}

fn pieces(preview: &Preview, query: &str) -> Response {
    let Some(asked) = Query::read(query) else { return not_understood() };
    let (Some(from), Some(room)) = (asked.number("from", 0), asked.number("room", SQUARE)) else {
        return not_understood();
    };
    let wanted = Wanted { size: asked.value("size").map(str::to_owned), room, from };
    match drawn(&preview.shown, &wanted) {
        Some(drawn) => json(&drawn),
        None => no_size(),
    }
}

fn edge(preview: &Preview, query: &str) -> Response {
    let Some(asked) = Query::read(query) else { return not_understood() };
    let facts = asked.value("key").and_then(|key| edge_facts(&preview.shown, key));
    facts.map_or_else(|| Response::words(404, "there is no such edge"), |facts| json(&facts))
}

fn lay(preview: &Preview, query: &str) -> Response {
    let Some(asked) = Query::read(query) else { return not_understood() };
    let shown = &preview.shown;
    if shown.is_unfinished() {
        return Response::words(409, "what is not finished is not laid out");
    }
    let at = asked.value("size").and_then(|name| shown.size_called(name));
    let Some(size) = at.and_then(|at| shown.sizes().get(at)) else { return no_size() };
    shown.lays(size).map_or_else(|| Response::words(500, "no lay could be made"), |lays| json(&lays))
}

fn sheet(preview: &Preview, query: &str) -> Response {
    let Some(asked) = Query::read(query) else { return not_understood() };
    match preview.shown.sheet(asked.value("lays").is_some()) {
        Ok(page) => Response::new(200, "text/html; charset=utf-8", page.as_bytes().to_vec())
            .with("Content-Security-Policy", POLICY_OF_SHEET),
        Err(reason) => Response::words(409, &reason.to_string()),
    }
}

/// The sheet has its style in it, and no script.
const POLICY_OF_SHEET: &str = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; \
                               frame-ancestors 'self'; sandbox allow-popups";
/// As much room across as down.
const SQUARE: u32 = 100;

fn no_size() -> Response {
    Response::words(404, "there is no such size")
}

fn not_understood() -> Response {
    Response::words(400, "what is asked for was not understood")
}

fn json(value: &impl Serialize) -> Response {
    match serde_json::to_vec(value) {
        Ok(body) => Response::new(200, "application/json", body),
        Err(error) => Response::words(500, &error.to_string()),
    }
}

/// Names and values of a query.
struct Query(Vec<(String, String)>);

impl Query {
    /// None where it is not written as queries are.
    fn read(query: &str) -> Option<Query> {
        let pairs = query.split('&').filter(|pair| !pair.is_empty());
        let pair = |pair: &str| {
            let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
            Some((unescaped(name)?, unescaped(value)?))
        };
        pairs.map(pair).collect::<Option<_>>().map(Query)
    }

    /// A whole number, or that one where none is said; none where it is no number.
    fn number<Number: std::str::FromStr>(&self, name: &str, unsaid: Number) -> Option<Number> {
        self.value(name).map_or(Some(unsaid), |value| value.parse().ok())
    }

    fn value(&self, name: &str) -> Option<&str> {
        self.0.iter().find(|(own, _)| own == name).map(|(_, value)| value.as_str())
    }
}
