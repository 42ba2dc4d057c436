//! `notion/short` and `notion/unset`: more is set at places than is bought, or less.

use super::{Check, Run, gone, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Dimension, Garment, Notion, NotionId, NotionKind, Tack};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::{PartId, amount_of, set_count, tacked};
use crate::shape::Point;
use crate::source::Span;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::NOTION_SHORT, &catalogue::NOTION_UNSET, &catalogue::SET_PLACE],
    run: Run::PerSize(run),
};

/// What is of no use until it is set, by a word of its name. Without one that says so it may be sewn on anywhere.
const MUST_BE_SET: [&str; 6] = ["eyelet", "eyelets", "grommet", "grommets", "rivet", "rivets"];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (id, notion) in NotionId::enumerate(&garment.notions) {
        bought_and_set(garment, size, id, notion, findings);
    }
    let mut seen: Vec<Place> = Vec::new();
    for tack in garment.tacks.iter().filter(|tack| tack.sets.is_some()) {
        twice(garment, size, tack, &mut seen, findings);
    }
}

fn bought_and_set(
    garment: &Garment,
    size: &WorkedSize,
    id: NotionId,
    notion: &Notion,
    findings: &mut Vec<Finding>,
) {
    let Some(said) = &notion.amount else { return };
    let is_set = garment.sets_of(id).next().is_some();
    let must = matches!(&notion.name.kind, NotionKind::Other(name) if says_so(name));
    // What is set may be this, and a place that is not known has been reported.
    let mut sets = garment.tacks.iter().filter_map(|tack| tack.sets.as_ref());
    let is_unknown = sets.any(|set| set.notion.is_none() || set.notion == Some(id) && !set.whole);
    let mut ends = garment.sets_of(id).flat_map(|tack| &tack.ends);
    if !is_set && !must || is_unknown || ends.any(|end| size.drawn.is_undrawn(garment, end.piece)) {
        return;
    }
    let title = &notion.title;
    if said.dimension == Dimension::Length {
        if let Some(first) = garment.sets_of(id).next() {
            let message = format!("{title} is bought by length, and set one by one");
            let mistake = Diagnostic::new(&catalogue::NOTION_SHORT, said.span, message)
                .also(first.name_span, "set here")
                .help("say how many are bought; or leave the number out, and as many are bought as are set");
            findings.push(Finding::new(size.id(), 1.0, mistake).about(&**title));
        }
        return;
    }
    let finder = size.sewn.finder(garment, &size.drawn);
    let counts = garment
        .sets_of(id)
        .map(|tack| set_count(garment, &size.drawn, &finder, size.sewn.surface.as_ref(), tack));
    let counts: Option<Vec<u32>> = counts.collect();
    let (Some(counts), Some(bought)) = (counts, amount_of(garment, &size.drawn, said)) else { return };
    let set = f64::from(counts.iter().copied().fold(0, u32::saturating_add));
    let bought = bought.max(0.0).ceil();
    if set == bought {
        return;
    }
    let are = |many: f64| if many == 1.0 { "is" } else { "are" };
    let bought_words = format!("{bought} of \u{201c}{title}\u{201d} {} bought", are(bought));
    let (entry, what) = match set > bought {
        true => (&catalogue::NOTION_SHORT, format!("{bought_words}, and {set} {} set", are(set))),
        false if set > 0.0 => {
            (&catalogue::NOTION_UNSET, format!("{bought_words}, and only {set} {} set", are(set)))
        }
        false => (&catalogue::NOTION_UNSET, format!("\u{201c}{title}\u{201d} is bought, and set nowhere")),
    };
    let mut message = Diagnostic::new(entry, notion.span, Title::new(what).in_sizes()).label("bought here");
    for (tack, count) in garment.sets_of(id).zip(counts).take(6) {
        let places = tack.ends.len();
        let said = match places {
            1 => format!("{count} at one place, over all copies"),
            _ => format!("{count} at {places} places, over all copies"),
        };
        message = message.also(tack.name_span, said);
    }
    let help = match set > 0.0 {
        true => format!(
            "write notion \"{title}\" {set}, or leave the number out, and as many are bought as are set; or set as many as are bought"
        ),
        false => {
            format!("say at which marks, and give it a name: set name \"{title}\" at piece.mark, piece.mark")
        }
    };
    findings.push(Finding::new(size.id(), (set - bought).abs(), message.help(help)).about(&**title));
}

fn says_so(name: &str) -> bool {
    let mut words = name.split(|letter: char| !letter.is_alphabetic()).map(str::to_lowercase);
    words.any(|word| MUST_BE_SET.contains(&&*word))
}

/// Where something is set.
struct Place {
    notion: Option<NotionId>,
    part: PartId,
    at: Point,
    span: Span,
}

/// One place of a set that is named twice, by it or by another that sets the same.
fn twice(
    garment: &Garment,
    size: &WorkedSize,
    tack: &Tack,
    seen: &mut Vec<Place>,
    findings: &mut Vec<Finding>,
) {
    let finder = size.sewn.finder(garment, &size.drawn);
    let notion = tack.sets.as_ref().and_then(|set| set.notion);
    for end in tack.ends.iter().filter(|end| !size.drawn.is_undrawn(garment, end.piece)) {
        let all = tacked(garment, &size.drawn, &finder, end);
        let is_alike = |part: PartId| finder.drawn(part).is_some_and(|drawn| drawn.cut == CutHow::Alike);
        let wrong = match all.as_slice() {
            [] if end.hand.is_none() && !gone::is_held_gone(garment, &size.drawn, end) => Some((
                format!(
                    "{} is not cut in that layer: nothing can be set there",
                    words::piece(garment, end.piece)
                ),
                "name a layer that has the piece, or none, and the first that sews it is meant",
            )),
            [(part, _), ..] if end.hand.is_some() && is_alike(*part) => Some((
                format!("{} is neither a left nor a right one", words::piece(garment, end.piece)),
                "leave on left or on right out: every copy that is cut alike has it",
            )),
            _ => None,
        };
        if let Some((title, help)) = wrong {
            let mistake = Diagnostic::new(&catalogue::SET_PLACE, end.span, Title::new(title).in_sizes());
            findings.push(Finding::new(size.id(), 1.0, mistake.help(help)).about(&*tack.name));
            continue;
        }
        let all: Vec<_> = all.into_iter().filter_map(|(part, at)| Some((part, at.ok()?))).collect();
        let is_here = |place: &&Place| {
            let near = |&(part, at): &(PartId, Point)| part == place.part && at.distance(place.at) < APART;
            place.notion == notion && all.iter().any(near)
        };
        if let Some(Place { span: first, .. }) = seen.iter().find(is_here) {
            let title = format!("{} sets two things at one place", tack.name);
            let mistake = Diagnostic::new(&catalogue::SET_PLACE, end.span, Title::new(title).in_sizes())
                .label("the same place")
                .also(*first, "set here already")
                .help("name each place once, or move one of the marks");
            findings.push(Finding::new(size.id(), 1.0, mistake).about(&*tack.name));
            continue;
        }
        seen.extend(all.into_iter().map(|(part, at)| Place { notion, part, at, span: end.span }));
    }
}

/// Nearer than this, in millimetres, two eyelets have no cloth between them.
const APART: f64 = 2.0;
