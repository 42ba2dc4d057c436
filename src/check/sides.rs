//! `side/drawn`, `side/nothing` and `side/turned`: what is said of one side of the body, and which side is
//! drawn.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{AlterationKind, Chain, ClosureId, CutHow, Garment, PieceId, Seam, SeamId, SewnEdge};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::{PartId, Reach, SewnRun, SewnSeam};
use crate::shape::outline::is_anticlockwise;
use crate::source::Span;
use crate::syntax::tree::Hand;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::SIDE_DRAWN, &catalogue::SIDE_NOTHING, &catalogue::SIDE_TURNED],
    run: Run::PerSize(run),
};

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let hosts = garment.placements.iter().filter(|placement| placement.hand.is_some());
    let is_said = hosts.clone().next().is_some()
        || garment.pieces.iter().any(|piece| piece.one_sided.is_some() || piece.drawn.is_some())
        || garment.alterations.iter().any(|one| one.kind == Some(AlterationKind::Unpair));
    if !is_said {
        return;
    }
    let mut differing: Vec<(PieceId, Span)> = Vec::new();
    for part in &size.sewn.parts {
        let piece = part.part.piece;
        let host = hosts.clone().find(|placement| is_on(garment, size, placement.on, piece));
        let said = garment.piece(piece).one_sided.filter(|_| part.hand.is_some());
        let said = said.or_else(|| host.map(|placement| placement.span));
        let is_pair = size.drawn.paper(part.part.paper).is_some_and(|drawn| drawn.cut != CutHow::Alike);
        if let Some(span) = said.filter(|_| is_pair && !part.fused)
            && !differing.iter().any(|(known, _)| *known == piece)
        {
            differing.push((piece, span));
        }
    }
    for (alteration, target) in
        garment.alterations.iter().flat_map(|one| one.targets.iter().map(move |at| (one, at)))
    {
        let is_unpaired = alteration.kind == Some(AlterationKind::Unpair);
        if is_unpaired && !differing.iter().any(|(known, _)| *known == target.piece) {
            differing.push((target.piece, target.span));
        }
    }
    for row in &size.drawn.cut_list {
        let is_unfolded = size.drawn.paper(row.part.paper).is_some_and(|drawn| drawn.unfolded);
        let piece = row.part.piece;
        if (row.hand.is_some() || row.whole && !is_unfolded)
            && !differing.iter().any(|(known, _)| *known == piece)
        {
            differing.push((piece, garment.piece(piece).cut.span));
        }
    }
    for (piece, span) in differing {
        if garment.piece(piece).drawn.is_none() {
            findings.push(Finding::new(size.id(), 0.0, undrawn(garment, piece, span)));
        }
    }
    nothing(garment, size, findings);
    for sewn in &size.sewn.seams {
        findings.extend(turned(garment, size, sewn));
    }
    findings
        .extend(PartId::enumerate(&size.sewn.parts).filter_map(|(part, _)| elsewhere(garment, size, part)));
}

/// What is cut once and says on which side it is worn, and whose seams all say the other one.
fn elsewhere(garment: &Garment, size: &WorkedSize, part: PartId) -> Option<Finding> {
    let of = size.sewn.part(part).part;
    let piece = garment.piece(of.piece);
    let (drawn, span) = piece.drawn?;
    let is_once =
        size.drawn.paper(of.paper).is_some_and(|drawn| drawn.cut == CutHow::Alike && drawn.count == 1);
    if !is_once || garment.side_of(of.piece).is_some() {
        return None;
    }
    let takes = |sewn: &&SewnSeam| {
        let mut plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        plies.any(|ply| ply.runs.iter().any(|run| run.part == part))
    };
    let on_side = size.sewn.seams.iter().filter(takes).filter_map(|sewn| match sewn.reach {
        Reach::On { hand, .. } => Some((garment.seam(sewn.seam), hand)),
        Reach::Both | Reach::Across | Reach::Round => None,
    });
    let mut seams: Vec<(&Seam, Hand)> = on_side.collect();
    seams.dedup_by_key(|(seam, _)| seam.name_span);
    let (first, hand) = *seams.first()?;
    // What is sewn on both sides goes from the one to the other, or is told as that.
    if seams.iter().any(|(_, own)| *own != hand) || hand == drawn {
        return None;
    }
    let names: Vec<String> = seams.iter().map(|(seam, _)| seam.name.to_string()).collect();
    let title = format!(
        "{} is worn on the {}, as it is drawn, but {} it on the {}",
        piece.title,
        drawn.word(),
        match names.as_slice() {
            [_] => format!("{} sews", first.words()),
            _ => format!("the seams {} sew", words::listed(&names)),
        },
        hand.word()
    );
    let mut mistake =
        Diagnostic::new(&catalogue::SIDE_TURNED, span, title).label(format!("drawn {}", drawn.word()));
    for (seam, hand) in &seams {
        mistake = mistake.also(seam.name_span, format!("on the {}", hand.word()));
    }
    let mistake = mistake.help(format!(
        "what is cut once is worn as it is drawn, right side up: write drawn {} in {}; or, if that is the wrong side, on {} \
         in {}",
        hand.word(),
        piece.name,
        drawn.word(),
        words::listed(&names)
    ));
    Some(Finding::new(size.id(), 0.0, mistake))
}

/// Whether that is the piece that something is placed on, or what became of it where that lies.
fn is_on(garment: &Garment, size: &WorkedSize, on: PieceId, piece: PieceId) -> bool {
    let lies_on =
        |(placement, placed): (&crate::garment::Placement, &Option<crate::resolve::PlacedPiece>)| {
            placement.on == on
                && placed.as_ref().is_some_and(|placed| garment.paper(placed.on).piece == piece)
        };
    garment.placements.iter().zip(&size.drawn.placed).any(lies_on)
}

fn undrawn(garment: &Garment, piece: PieceId, span: Span) -> Diagnostic {
    let known = garment.piece(piece);
    let title = format!("left and right of {} differ, and it is not said which is drawn", known.title);
    Diagnostic::new(&catalogue::SIDE_DRAWN, span, title)
        .label("one side alone")
        .also(known.span, "drawn once, for both")
        .help(format!(
            "write in the braces of {name}, drawn left, if its copy that lies as it is drawn, right side up, is \
             worn on the left; else drawn right: a front that is drawn to the right of its centre is worn on the \
             left, a back that is drawn so on the right",
            name = known.name
        ))
}

/// Seams, closures and finishes of both sides of which one-sided ones leave nothing.
fn nothing(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let finder = size.finder(garment);
    if !finder.has_sides() {
        return;
    }
    // An edge that is there, but on neither side for whoever names it so.
    let is_taken = |sewn: &SewnEdge| {
        let raw = SewnEdge { user: None, ..*sewn };
        sewn.on.is_none() && !finder.everywhere(&raw).is_empty() && finder.everywhere(sewn).is_empty()
    };
    let all_taken = |chains: &[Chain]| {
        let mut edges = chains.iter().flat_map(|chain| &chain.edges).peekable();
        edges.peek().is_some() && edges.all(is_taken)
    };
    let mut report = |what: String, span: Span, edge: Option<&SewnEdge>| {
        let title =
            format!("nothing is left for {what}: others take what it names on both sides of the body");
        let mut mistake = Diagnostic::new(&catalogue::SIDE_NOTHING, span, title).label("on neither side");
        let takers = edge.into_iter().flat_map(|edge| takers_of(garment, edge));
        for (hand, span) in takers {
            mistake = mistake.also(span, format!("on the {}", hand.word()));
        }
        let mistake = mistake.help("leave it out, or say on which side it is");
        findings.push(Finding::new(size.id(), 0.0, mistake));
    };
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        let is_sewn = size.sewn.stitchings.iter().any(|stitching| stitching.seam == id);
        if !is_sewn && !seam.poisoned && (all_taken(&seam.first) || all_taken(&seam.second)) {
            let edge = seam
                .first
                .iter()
                .chain(&seam.second)
                .flat_map(|chain| &chain.edges)
                .find(|edge| is_taken(edge));
            report(seam.words(), seam.name_span, edge);
        }
    }
    for (_, closure) in ClosureId::enumerate(&garment.closures) {
        let sides = [&closure.first, &closure.second].map(std::slice::from_ref);
        if sides.iter().any(|side| all_taken(side)) {
            let edge =
                sides.iter().copied().flatten().flat_map(|chain| &chain.edges).find(|edge| is_taken(edge));
            report(format!("the closure {}", closure.name), closure.name_span, edge);
        }
    }
    for edge in garment.finishes.iter().flat_map(|finish| &finish.edges).filter(|edge| is_taken(edge)) {
        report(format!("this finish of {}", words::edge(garment, edge.edge)), edge.span, Some(edge));
    }
}

/// Where one-sided seams, closures and finishes name an edge.
fn takers_of(garment: &Garment, of: &SewnEdge) -> Vec<(Hand, Span)> {
    let chains = garment.seams.iter().flat_map(|seam| seam.first.iter().chain(&seam.second));
    let chains = chains.chain(garment.closures.iter().flat_map(|closure| [&closure.first, &closure.second]));
    let edges = chains.flat_map(|chain| &chain.edges);
    let edges = edges.chain(garment.finishes.iter().flat_map(|finish| &finish.edges));
    let is_of =
        |edge: &&SewnEdge| garment.is_run_of(edge.edge, of.edge) || garment.is_run_of(of.edge, edge.edge);
    let mut found: Vec<(Hand, Span)> =
        edges.filter(is_of).filter_map(|edge| Some((edge.on?, edge.span))).collect();
    found.sort_unstable();
    found.dedup();
    found
}

/// Two pieces of a plain seam whose drawn copies cannot be worn where they say.
fn turned(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> Option<Finding> {
    let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
        return None;
    };
    if !sewn.known || sewn.unpaired.is_some() || sewn.unmet.is_some() || first.runs.len() != second.runs.len()
    {
        return None;
    }
    let mut runs = first.runs.iter().zip(&second.runs);
    runs.find_map(|(one, other)| turned_runs(garment, size, sewn, one, other))
}

fn turned_runs(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    one: &SewnRun,
    other: &SewnRun,
) -> Option<Finding> {
    let part = |run: &SewnRun| size.sewn.part(run.part).part;
    // Of a left and a right piece each is drawn as it is worn.
    if [one, other].iter().any(|run| garment.side_of(part(run).piece).is_some()) {
        return None;
    }
    let (first, second) = (part(one).piece, part(other).piece);
    let ((hand, span), (other_hand, other_span)) =
        (garment.piece(first).drawn?, garment.piece(second).drawn?);
    if first == second || one.hand.is_none() || other.hand.is_none() {
        return None;
    }
    if [one, other].iter().any(|run| is_both_ways_alike(garment, size, run.part)) {
        return None;
    }
    let is_left = |drawn: &DrawnPiece| is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path));
    let lies = |run: &SewnRun| Some(is_left(size.drawn.paper(part(run).paper)?) != is_against(run));
    // Right sides together the outline of the one runs against that of the other.
    let drawn_apart = lies(one)? == lies(other)?;
    if drawn_apart == (hand != other_hand) {
        return None;
    }
    let (name, other_name) = (&garment.piece(first).title, &garment.piece(second).title);
    let seam = garment.seam(sewn.seam);
    let title = match drawn_apart {
        true => format!(
            "{name} and {other_name} are both drawn {}, but as {} joins them their drawn copies are worn \
             on different sides",
            hand.word(),
            seam.words()
        ),
        false => format!(
            "{name} is drawn {} and {other_name} {}, but as {} joins them their drawn copies are worn on \
             one side",
            hand.word(),
            other_hand.word(),
            seam.words()
        ),
    };
    let mistake = Diagnostic::new(&catalogue::SIDE_TURNED, other_span, title)
        .label(format!("drawn {}", other_hand.word()))
        .also(span, format!("drawn {}", hand.word()))
        .also(seam.name_span, "sewn together here")
        .help(format!(
            "a piece is drawn right side up: write drawn {} in {}, or drawn {} in {}",
            other_hand.other().word(),
            garment.piece(second).name,
            hand.other().word(),
            garment.piece(first).name
        ));
    Some(Finding::new(size.id(), 0.0, mistake))
}

/// Whether a part is its own mirror image on the body: cut on the fold, and nothing tells its left from its right. Which half is
/// drawn then is all the same, and may be another one in a lining, whose right side lies inside.
fn is_both_ways_alike(garment: &Garment, size: &WorkedSize, part: PartId) -> bool {
    let own = size.sewn.part(part);
    let is_half =
        size.drawn.paper(own.part.paper).is_some_and(|drawn| matches!(drawn.cut, CutHow::OnFold(_)));
    let mut hosts = garment.placements.iter().filter(|placement| placement.hand.is_some());
    is_half
        && own.hand.is_none()
        && !hosts.any(|placement| is_on(garment, size, placement.on, own.part.piece))
}

/// Whether it is sewn against the way that the drawn copy goes.
fn is_against(run: &SewnRun) -> bool {
    run.reversed != (run.hand == Some(Hand::Right))
}
