//! `seam/pairing` and `seam/ends`: copies that cannot be paired, and ends of which it is not to be
//! told how they meet.

use super::sides::corner;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, Seam, SewnEdge};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{SeamEnd, Sewing, Unmet, Unpaired, seam_edges};
use crate::source::Span;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_PAIRING, &catalogue::SEAM_ENDS], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut last = None;
    for sewn in &sewing.seams {
        // What is wrong in one layer is wrong in all.
        if (sewn.unpaired.is_some() || sewn.unmet.is_some()) && last.replace(sewn.seam) == Some(sewn.seam) {
            continue;
        }
        let seam = garment.seam(sewn.seam);
        if let Some(unpaired) = &sewn.unpaired {
            findings.extend(pairing(garment, sized, sewing, seam, unpaired));
        } else if let Some(unmet) = &sewn.unmet {
            findings.push(ends(garment, sized, sewing, seam, unmet));
        }
    }
}

/// The edge that a seam names there.
fn named(seam: &Seam, span: Span) -> Option<&SewnEdge> {
    seam_edges(seam).find(|sewn| sewn.span == span)
}

fn times(count: u32) -> String {
    match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        _ => format!("{count} times"),
    }
}

fn pairing(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    seam: &Seam,
    unpaired: &Unpaired,
) -> Option<Finding> {
    let &Unpaired { few, few_span, many, many_span, .. } = unpaired;
    let (fewer, more) = (sewing.part(unpaired.fewer).part, sewing.part(unpaired.more).part);
    let edge = |span: Span, piece| {
        named(seam, span).map_or_else(|| words::piece(garment, piece), |sewn| words::edge(garment, sewn.edge))
    };
    let (fewer_edge, more_edge) = (edge(few_span, fewer.piece), edge(many_span, more.piece));
    let cut = |piece| garment.piece(piece).cut.span;
    let diagnostic = if few_span == many_span {
        let title = format!(
            "the {} seam takes {fewer_edge} {}, but it occurs {}",
            seam.name,
            times(many),
            times(few)
        );
        let name = &garment.piece(fewer.piece).name;
        Diagnostic::new(&catalogue::SEAM_PAIRING, few_span, title)
            .label(format!("occurs {}", times(few)))
            .also(cut(fewer.piece), "how many are cut")
            .help(format!(
                "an edge is sewn to itself where left meets right: cut {name} in pairs, cut 2 mirrored; or \
                 name the other edge"
            ))
    } else {
        let title = format!(
            "the copies in the {} seam cannot be paired: {more_edge} occurs {}, {fewer_edge} {}",
            seam.name,
            times(many),
            times(few)
        );
        let halves = |piece, count: u32| {
            let is_half = sized
                .papers
                .iter()
                .flatten()
                .any(|drawn| drawn.piece == piece && matches!(drawn.cut, CutHow::OnFold(_)));
            if is_half {
                format!("occurs {}, once on each half", times(count))
            } else {
                format!("occurs {}", times(count))
            }
        };
        Diagnostic::new(&catalogue::SEAM_PAIRING, many_span, title)
            .label(halves(more.piece, many))
            .also(few_span, halves(fewer.piece, few))
            .also(cut(more.piece), "how many are cut")
            .help(format!(
                "cut as many of {} as of {}, or name both in the seam as often as they occur",
                garment.piece(more.piece).name,
                garment.piece(fewer.piece).name
            ))
    };
    Some(Finding::new(sized.size, f64::from(many), diagnostic).about(&*seam.name))
}

fn ends(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, seam: &Seam, unmet: &Unmet) -> Finding {
    let &Unmet { one, other, one_span, other_span, joint } = unmet;
    let word = |end: &SeamEnd, span: Span| {
        corner(garment, sewing, end, named(seam, span).is_some_and(|sewn| sewn.layer.is_some()))
    };
    let (one_word, other_word) = (word(&one, one_span), word(&other, other_span));
    let title = match joint {
        true => format!("it is not clear how the edges of the {} seam follow one another", seam.name),
        false => format!("it is not clear which ends of the {} seam meet", seam.name),
    };
    let label = |word: &Option<String>, text: &str| match word {
        Some(word) => format!("{text} {word}"),
        None => "this edge".to_owned(),
    };
    let (here, there) = if joint { ("ends at", "begins at") } else { ("one end is", "does it meet") };
    let help = match (&one_word, &other_word, joint) {
        (Some(one), Some(other), false) => {
            format!("say it in the seam's braces: matching {one} with {other}; or give both ends one name")
        }
        (Some(one), Some(other), true) => format!(
            "sew {one} to {other} in a seam of its own, give both one name, or write the edges in the order \
             in which they lie"
        ),
        _ => "name the corners of both edges, and say in the seam's braces which two match".to_owned(),
    };
    let place = if one_span == other_span { seam.name_span } else { one_span };
    let mut diagnostic = Diagnostic::new(&catalogue::SEAM_ENDS, place, title).label(label(&one_word, here));
    if other_span != one_span {
        diagnostic = diagnostic.also(other_span, label(&other_word, there));
    }
    Finding::new(sized.size, 0.0, diagnostic.help(help)).about(&*seam.name)
}
