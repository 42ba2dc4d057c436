//! Messages in the Static Analysis Results Interchange Format (OASIS SARIF 2.1.0), for code
//! scanning in version control.

use super::Severity;
use super::catalogue::{Entry, entry};
use super::json::{ReportedDiagnostic, ReportedPlace};
use serde::Serialize;

const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// A log of one run over some files.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Log {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: Vec<Run>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Run {
    tool: Tool,
    column_kind: &'static str,
    results: Vec<Found>,
}

#[derive(Debug, Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<Rule>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Rule {
    id: &'static str,
    short_description: Words,
    full_description: Words,
    default_configuration: Configuration,
}

#[derive(Debug, Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Debug, Serialize)]
struct Words {
    text: String,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Found {
    rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    level: &'static str,
    message: Words,
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<usize>,
    physical_location: Physical,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Words>,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Physical {
    artifact_location: Artifact,
    region: Region,
}

#[derive(Debug, Serialize)]
struct Artifact {
    uri: String,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

/// The log of messages, each rule that they break described once.
pub fn sarif(messages: &[ReportedDiagnostic]) -> Log {
    let mut known: Vec<&'static Entry> = Vec::new();
    for found in messages.iter().filter_map(|message| entry(message.slug)) {
        if !known.iter().any(|one| one.slug == found.slug) {
            known.push(found);
        }
    }
    let results = messages.iter().map(|message| one(message, &known)).collect();
    let rules = known.into_iter().map(rule).collect();
    let driver = Driver { name: "fustian", version: env!("CARGO_PKG_VERSION"), rules };
    let run = Run { tool: Tool { driver }, column_kind: "unicodeCodePoints", results };
    Log { schema: SCHEMA, version: "2.1.0", runs: vec![run] }
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Mistake => "error",
        Severity::Warning | Severity::Caution => "warning",
        Severity::Advice => "note",
    }
}

fn rule(entry: &Entry) -> Rule {
    Rule {
        id: entry.slug,
        short_description: Words { text: entry.title.to_owned() },
        full_description: Words { text: entry.reason.to_owned() },
        default_configuration: Configuration { level: level(entry.severity) },
    }
}

fn one(message: &ReportedDiagnostic, known: &[&Entry]) -> Found {
    let mut text = message.title.clone();
    if !message.sizes.is_empty() {
        text = format!("{text} (in {})", message.sizes.join(", "));
    }
    if let Some(help) = &message.help {
        text = format!("{text}. Way out: {help}");
    }
    let mut places = message.places.iter();
    Found {
        rule_id: message.slug,
        rule_index: known.iter().position(|one| one.slug == message.slug),
        level: level(message.severity),
        message: Words { text },
        locations: places.next().map(|place| location(None, place)).into_iter().collect(),
        related_locations: places.enumerate().map(|(at, place)| location(Some(at), place)).collect(),
    }
}

fn location(id: Option<usize>, place: &ReportedPlace) -> Location {
    let region = Region {
        start_line: place.line,
        start_column: place.column,
        end_line: place.end_line,
        end_column: place.end_column,
    };
    let message = (!place.text.is_empty()).then(|| Words { text: place.text.clone() });
    let artifact_location = Artifact { uri: uri(&place.file) };
    Location { id, physical_location: Physical { artifact_location, region }, message }
}

/// A path as a URI reference (RFC 3986): what is not unreserved is percent-encoded, but `/`.
fn uri(path: &str) -> String {
    let mut uri = String::new();
    for byte in path.replace('\\', "/").bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                uri.push(char::from(byte));
            }
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri
}
