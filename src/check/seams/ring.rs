//! `seam/ring`: a ring of pieces that is none.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureKind, CutHow, EdgeId, Garment, RingWay, Seam, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::amount_of;
use crate::source::Span;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_RING], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned) {
        let mistake = seam.first.iter().chain(&seam.second).filter(|chain| chain.ring).find_map(|chain| {
            let (what, help, also) = wrong(garment, size, seam, chain)?;
            let mut mistake = Diagnostic::new(&catalogue::SEAM_RING, chain.span, Title::new(what).in_sizes())
                .label("no ring");
            if let Some((span, words)) = also {
                mistake = mistake.also(span, words);
            }
            Some(mistake.help(help))
        });
        findings
            .extend(mistake.map(|mistake| Finding::new(size.drawn.size, 1.0, mistake).about(&*seam.name)));
    }
    let openings = garment.openings.iter().map(|opening| (&opening.ring, "opening"));
    findings.extend(garment.closures.iter().filter_map(|closure| unlike(garment, size, closure)));
    let closures = garment
        .closures
        .iter()
        .flat_map(|closure| [(&closure.first, &*closure.name), (&closure.second, &*closure.name)]);
    let rounds = garment.rounds.iter().map(|(ring, what)| (ring, &**what));
    for (ring, what_says) in openings.chain(closures).chain(rounds).filter(|(ring, _)| ring.ring) {
        let wrong = match alike(garment, size, ring) {
            Some(Err(wrong)) => Some(wrong),
            Some(Ok(edge)) => not_joined(garment, edge, None),
            None => None,
        };
        findings.extend(wrong.map(|(what, help, also)| {
            let title = Title::new(what).in_sizes();
            let mistake =
                Diagnostic::new(&catalogue::SEAM_RING, ring.span, title).label("no ring").help(help);
            let mistake = match also {
                Some((span, words)) => mistake.also(span, words),
                None => mistake,
            };
            Finding::new(size.drawn.size, 1.0, mistake).about(what_says)
        }));
    }
}

/// What closes along a ring stands at the same places of every copy, since all are cut alike.
fn unlike(garment: &Garment, size: &WorkedSize, closure: &Closure) -> Option<Finding> {
    let ring = [&closure.first, &closure.second].into_iter().find(|chain| chain.ring)?;
    let Some(ClosureKind::Fasteners(said)) = &closure.kind else { return None };
    let many = said.kind.many();
    let said = said.count.as_ref()?;
    let count = amount_of(garment, &size.drawn, said)?;
    let Some(Ok(edge)) = alike(garment, size, ring) else { return None };
    let copies = size.drawn.paper(garment.paper_of(edge.layer, edge.piece)?)?.count;
    if copies == 0 || count < 1.0 || count.fract() != 0.0 || count % f64::from(copies) == 0.0 {
        return None;
    }
    let title = words::piece(garment, edge.piece);
    let what = format!(
        "{count} {many} cannot be spread over the {copies} copies of {title}, which are cut and marked alike"
    );
    let low = libm::floor(count / f64::from(copies)) * f64::from(copies);
    let high = low + f64::from(copies);
    let help = match low > 0.0 {
        true => format!("take {low} or {high} of them"),
        false => format!("take {high} of them"),
    };
    let mistake = Diagnostic::new(&catalogue::SEAM_RING, said.span, Title::new(what).in_sizes())
        .also(ring.span, "a ring")
        .help(help);
    Some(Finding::new(size.drawn.size, 1.0, mistake).about(&*closure.name))
}

/// What is wrong with a ring, a way out, and another place.
type Wrong = (String, String, Option<(Span, &'static str)>);

/// The one edge of pieces that are alike; or what is wrong with it. None of a piece that could not be drawn.
fn alike<'c>(garment: &Garment, size: &WorkedSize, chain: &'c Chain) -> Option<Result<&'c SewnEdge, Wrong>> {
    let [edge] = chain.edges.as_slice() else {
        let what = "a ring is made of one edge of pieces that are alike, and this is a row of several";
        let help = "name the edge of one piece: panel.bottom in a ring".to_owned();
        return Some(Err((what.to_owned(), help, None)));
    };
    let piece = garment.piece(edge.piece);
    let title = words::piece(garment, edge.piece);
    if garment.is_portion(edge.edge) {
        let whole = &garment.edge(garment.whole_edge(edge.edge)).name;
        let what = format!("a run of {whole} of {title} ends on every copy, so that they make no ring");
        let help = format!("name the whole edge: {}.{whole} in a ring; or leave out in a ring", piece.name);
        return Some(Err((what, help, None)));
    }
    let drawn = size.drawn.paper(garment.paper_of(edge.layer, edge.piece)?)?;
    if drawn.cut != CutHow::Alike || drawn.count < 2 {
        let what = format!("{title} is not cut several times alike, so that its copies make no ring");
        let count = drawn.count.max(2);
        let help = format!("cut two or more of it, all the same way up: cut {count} in piece {}", piece.name);
        return Some(Err((what, help, Some((piece.cut.span, "cut like this")))));
    }
    Some(Ok(edge))
}

fn wrong(garment: &Garment, size: &WorkedSize, seam: &Seam, chain: &Chain) -> Option<Wrong> {
    let edge = match alike(garment, size, chain)? {
        Ok(edge) => edge,
        Err(wrong) => return Some(wrong),
    };
    let title = words::piece(garment, edge.piece);
    match seam.ring()?.way {
        RingWay::EachToTheNext => {
            let [one, other] = [&seam.first, &seam.second].map(|side| edges_of(side));
            (one == other).then(|| {
                let name = &garment.edge(edge.edge).name;
                let what =
                    format!("{name} of {title} is named on both sides: each cannot be sewn to the next so");
                (what, "sew one side of each to the other side of the next".to_owned(), None)
            })
        }
        RingWay::AllInOne => not_joined(garment, edge, Some(seam)),
    }
}

/// What goes once round all copies of a piece needs a seam, other than its own, that sews each to the next.
fn not_joined(garment: &Garment, edge: &SewnEdge, own: Option<&Seam>) -> Option<Wrong> {
    let title = words::piece(garment, edge.piece);
    let name = &garment.piece(edge.piece).name;
    let across = |seam: &&Seam| {
        is_said(seam)
            && joins_copies(seam, edge)
            && named(seam).any(|one| one == garment.whole_edge(edge.edge))
    };
    if let Some(seam) = garment.seams.iter().find(across) {
        let own = &garment.edge(edge.edge).name;
        let what =
            format!("{own} of {title} is what {} sews to the next, and does not go round", seam.words());
        let help = format!("name an edge that runs on from one {name} to the next");
        return Some((what, help, Some((seam.name_span, "sewn each to the next"))));
    }
    let mut joining = garment.seams.iter().filter(|seam| joins_copies(seam, edge)).peekable();
    let alone = joining.peek().copied().filter(|alone| own.is_none_or(|own| own.name != alone.name));
    (!joining.any(is_said)).then(|| match alone {
        None => {
            let what =
                format!("nothing sews the copies of {title} to one another, so that they make no ring");
            let help = format!("sew each to the next: seam … {name}.… to {name}.… in a ring");
            (what, help, None)
        }
        Some(alone) => {
            let what = format!(
                "the {} seam sews each {title} to itself, so that its copies make no ring",
                alone.name
            );
            let help =
                format!("write in a ring at the end of seam {}, which sews each to the next", alone.name);
            (what, help, Some((alone.name_span, "does not say in a ring")))
        }
    })
}

/// Whether a seam says that it joins each copy to the next.
fn is_said(seam: &Seam) -> bool {
    seam.ring().is_some_and(|ring| ring.way == RingWay::EachToTheNext)
}

/// Whether a seam joins two edges of the piece of a ring, in the ring's layer.
fn joins_copies(seam: &Seam, ring: &SewnEdge) -> bool {
    let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
    let is_there = |edge: &SewnEdge| {
        edge.layer.is_none_or(|layer| ring.layer.is_none_or(|own| own == layer)) && edge.piece == ring.piece
    };
    edges.all(is_there) && edges_of(&seam.first) != edges_of(&seam.second)
}

fn named(seam: &Seam) -> impl Iterator<Item = EdgeId> {
    seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges).map(|edge| edge.edge)
}

fn edges_of(side: &[Chain]) -> Vec<EdgeId> {
    side.iter().flat_map(|chain| &chain.edges).map(|edge| edge.edge).collect()
}
