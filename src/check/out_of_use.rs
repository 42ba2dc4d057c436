//! `length/out-of-use`: stands, bands, cords, ties, straps, tapes, elastic, ease and gaps far larger than any that are sewn: slips
//! of the unit or of the decimal point; and `closure/tiny`: fasteners smaller than any that are sold.

use super::elastic::GATHERED;
use super::{Check, Run, gaps, strap_room, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Closure, ClosureKind, CordId, Depth, Expression, Finish, FinishId, FinishKind, Garment, SeamId, SewnEdge,
    ValueKind,
};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{RunsThrough, SewnSide, amount_of, straps};
use crate::syntax::tree::Fastener;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::LENGTH_OUT_OF_USE, &catalogue::CLOSURE_TINY], run: Run::PerSize(run) };

/// The stand of a double-breasted front is up to 10 cm wide, in millimetres (common practice).
const STAND: f64 = 120.0;
/// A waistband is a hand deep, one over all of the belly two, in millimetres (common practice); facings are no wider.
const BAND: f64 = 400.0;
/// A tie goes twice round a body and hangs down, in millimetres.
const TIE: f64 = 3000.0;
/// A sash goes three times round, in millimetres.
const STRAP: f64 = 5000.0;
/// What is sewn on at both ends goes once over a shoulder and round a bag, in millimetres.
const STRAP_BETWEEN: f64 = 2000.0;
/// A sash is a hand wide, in millimetres.
const STRAP_WIDE: f64 = 200.0;
/// A cord is as long as its channel spread out and hangs out at both ends; so much more, in millimetres, nobody
/// leaves.
const CORD: f64 = 2000.0;
/// Shoulder tape is 1 cm wide, petersham at a waist up to 10, in millimetres (common practice).
const TAPE: f64 = 100.0;
/// The widest tape that keeps a seam from stretching, in millimetres (common practice: 1 in).
const STAY: f64 = 25.5;
/// Makers turn through 13 to 25 cm, thick coats through 40, in millimetres (common practice).
const GAP: f64 = 500.0;

/// Elastic at a wrist or an ankle is up to 25 mm wide and goes round 16 cm or more, the widest at a waist 75 mm round 60 cm (common
/// practice): no wider than this share of what it goes round. Wider, its ring does not close flat and rolls over.
const ELASTIC_WIDE: f64 = 1.0 / 6.0;
/// The roomiest of smocks and greatcoats have some 50 cm more than the body all round, in millimetres (common practice).
const EASE: f64 = 600.0;

/// Bindings are 5 to 25 mm wide when they are finished, that of a blanket 50, in millimetres (common practice).
const BINDING: f64 = 60.0;
/// Bar tacks are 3 to 20 mm wide, in millimetres (common practice).
const BAR: f64 = 50.0;
/// Selvages are 5 to 20 mm wide, fringed ones 50, in millimetres (common practice).
const SELVAGE: f64 = 60.0;

/// What is less than this is nothing, in millimetres.
const NOTHING: f64 = 0.1;
/// A coat's button is up to 4 cm wide, in millimetres (common practice).
const BUTTON: f64 = 80.0;
/// The widest snaps are 2 to 3 cm wide, in millimetres.
const SNAP: f64 = 40.0;
/// Toggles are 3 to 6 cm long, in millimetres.
const TOGGLE: f64 = 120.0;
/// A belt is a hand wide, in millimetres.
const BUCKLE: f64 = 150.0;
/// Less, in millimetres, no button, no snap and no buckle is, and no toggle is as short.
const LEAST: f64 = 4.0;
const LEAST_TOGGLE: f64 = 10.0;
/// With less than this, in millimetres, nobody ties a knot: it takes some 12 cm of each end.
const LEAST_TIE: f64 = 100.0;

/// Reports what is longer than any that is sewn.
fn looking<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    findings: &'a mut Vec<Finding>,
) -> impl FnMut(String, &Expression, f64, &str) {
    move |what, said, most, why| {
        let Some(is) = amount_of(garment, &size.drawn, said).filter(|is| *is > most) else { return };
        let (shown, usual) = (amount(is, garment.unit), amount(most, garment.unit));
        let title = Title::new(format!("{what} is {shown}, more than any that is sewn")).in_sizes();
        let warning = Diagnostic::new(&catalogue::LENGTH_OUT_OF_USE, said.span, title)
            .label(format!("{why}: {usual} at the most"))
            .help("look at its figure and its unit: a bare number takes the units that the file says");
        findings.push(Finding::new(size.id(), is - most, warning).about(what).figure("is", shown));
    }
}

/// Fasteners that nobody sells, and ties that nobody ties.
fn tiny(garment: &Garment, size: &WorkedSize, closure: &Closure) -> Option<Finding> {
    let Some(ClosureKind::Fasteners(row)) = &closure.kind else { return None };
    let said = row.size.as_ref()?;
    let (least, what, label) = match row.kind {
        Fastener::Tie => (LEAST_TIE, "ties", "too short to be tied"),
        Fastener::Toggle => (LEAST_TOGGLE, "toggles", "shorter than any that is sold"),
        Fastener::Button => (LEAST, "buttons", "smaller than any that is sold"),
        Fastener::Snap => (LEAST, "snaps", "smaller than any that is sold"),
        Fastener::Buckle => (LEAST, "straps of the buckle", "narrower than any that is sold"),
        Fastener::Hook => return None,
    };
    // Nothing, and less than nothing, is reported as that.
    let is = amount_of(garment, &size.drawn, said).filter(|is| *is > NOTHING && *is < least)?;
    let shown = format!("{} mm", (is * 100.0).round() / 100.0);
    let title = Title::new(format!("the {what} of {} are {shown}", closure.name));
    let warning = Diagnostic::new(&catalogue::CLOSURE_TINY, said.span, title.in_sizes()).label(label).help(
        match row.kind {
            Fastener::Tie => {
                "look at the figure and its unit: makers leave 20 to 30 cm for a bow, 12 for a knot"
            }
            _ => "look at the figure and its unit: a bare number takes the units that the file says",
        },
    );
    Some(Finding::new(size.id(), least - is, warning).about(&*closure.name).figure("is", shown))
}

/// A binding whose ends both run on by less than can be tied.
fn short_ends(garment: &Garment, size: &WorkedSize, finish: &Finish) -> Option<Finding> {
    let FinishKind::Bound(binding) = &finish.kind else { return None };
    let [one, other] = binding.running_on.as_slice() else { return None };
    let [first, second] = [one, other].map(|end| amount_of(garment, &size.drawn, &end.length));
    let (long, is_tie) = (first?.max(second?), first?.min(second?) > NOTHING);
    if long >= LEAST_TIE || !is_tie {
        return None;
    }
    let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
    let is = amount(long, garment.unit);
    let title = Title::new(format!("the binding of {edge} runs on by no more than {is}")).in_sizes();
    let warning = Diagnostic::new(&catalogue::CLOSURE_TINY, one.length.span, title)
        .label("too short to be tied")
        .help("look at the figure and its unit: makers leave 20 to 30 cm for a bow, 12 for a knot");
    Some(Finding::new(size.id(), LEAST_TIE - long, warning).about(edge).figure("runs on by", is))
}

/// A tape for which a seam has no room: it lies on the allowances.
fn wide_tape(garment: &Garment, size: &WorkedSize, id: SeamId) -> Option<Finding> {
    let seam = garment.seam(id);
    let said = seam.tape.as_ref()?.width.as_ref()?;
    let wide = amount_of(garment, &size.drawn, said).filter(|wide| *wide > STAY && *wide <= TAPE)?;
    let widest = |side: &SewnSide| {
        let runs = side.plies.iter().flat_map(|ply| &ply.runs);
        let allowances = runs.filter_map(|run| size.sewn.part(run.part).fate(run.edge)?.allowance);
        allowances.reduce(f64::max)
    };
    let own = size.sewn.seams.iter().filter(|sewn| sewn.seam == id);
    let room = own.filter_map(|sewn| Some(widest(&sewn.first)? + widest(&sewn.second)?)).reduce(f64::max)?;
    if wide <= room + NOTHING {
        return None;
    }
    let (is, has) = (amount(wide, garment.unit), amount(room, garment.unit));
    let title = Title::new(format!("the tape in {} is {is} wide", seam.name));
    let warning = Diagnostic::new(&catalogue::LENGTH_OUT_OF_USE, said.span, title.in_sizes())
        .label(format!("wider than both allowances together, {has}"))
        .help(
            "look at its figure and its unit: tape that keeps a seam from stretching is 0.5 to 2 cm wide; a wide one that hangs \
             inside is a facing, or a finish: tape",
        );
    Some(
        Finding::new(size.id(), wide - room, warning)
            .about(&*seam.name)
            .figure("is", is)
            .figure("there is room for", has),
    )
}

/// Elastic that is too wide for the ring that it makes.
fn wide_elastic(garment: &Garment, size: &WorkedSize, id: FinishId) -> Option<Finding> {
    let finish = garment.finish(id);
    let (width, length) = finish.kind.elastic()?;
    let own = size.sewn.channels.iter().flatten().filter(|one| one.of == RunsThrough::Elastic(id));
    let rings = own.filter(|channel| channel.ring);
    let longest = rings.map(|channel| channel.length).reduce(f64::max)?;
    let [wide, long] = [width, length].map(|said| amount_of(garment, &size.drawn, said));
    let (wide, long) = (wide?, long.filter(|long| *long > 0.0)?);
    // Elastic that is far too short is told as that: its width is not what is wrong.
    if wide <= long * ELASTIC_WIDE + NOTHING || longest > GATHERED * long {
        return None;
    }
    let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
    let (is, round) = (amount(wide, garment.unit), amount(long, garment.unit));
    let title = Title::new(format!("the elastic of {edge} is {is} wide")).in_sizes();
    let warning = Diagnostic::new(&catalogue::LENGTH_OUT_OF_USE, width.span, title)
        .label("wider than any that is sewn there")
        .also(length.span, format!("it goes round no more than {round}"))
        .help(
            "look at its figure and its unit: at a wrist or an ankle elastic is 6 to 25 mm wide, for a child 6 to 15, \
             at a waist 2 to 5 cm",
        );
    let finding = Finding::new(size.id(), wide - long * ELASTIC_WIDE, warning).about(edge);
    Some(finding.figure("wide", is).figure("goes round", round))
}

/// Whether a value is called the ease of something.
fn is_ease(name: &str) -> bool {
    name.split('_').any(|word| word == "ease")
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    findings
        .extend(FinishId::enumerate(&garment.finishes).filter_map(|(id, _)| wide_elastic(garment, size, id)));
    findings.extend(garment.closures.iter().filter_map(|closure| tiny(garment, size, closure)));
    findings.extend(garment.finishes.iter().filter_map(|finish| short_ends(garment, size, finish)));
    let sound = SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.poisoned);
    findings.extend(sound.filter_map(|(id, _)| wide_tape(garment, size, id)));
    let mut look = looking(garment, size, findings);
    for value in garment.values.iter().filter(|value| is_ease(&value.name)) {
        if let ValueKind::Let(said) = &value.kind {
            look(value.name.to_string(), said, EASE, "the roomiest of smocks");
        }
    }
    for Depth { name, amount, .. } in &garment.depths {
        look(format!("the depth of {name}"), amount, BAND, "a band over all of the belly");
    }
    for finish in &garment.finishes {
        if let FinishKind::Bound(binding) = &finish.kind {
            let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
            look(format!("the binding of {edge}"), &binding.width, BINDING, "that of a blanket");
        }
    }
    for tack in &garment.tacks {
        if let Some(bar) = &tack.bar {
            look(format!("the bar of {}", tack.name), bar, BAR, "those of pockets are 5 to 15 mm");
        }
    }
    for fabric in &garment.fabrics {
        if let Some(selvage) = &fabric.selvage {
            look(format!("the selvage of {}", fabric.name), selvage, SELVAGE, "fringed ones");
        }
    }
    for closure in &garment.closures {
        let Some(ClosureKind::Fasteners(row)) = &closure.kind else { continue };
        // A stand that is drawn is compared with what is said of it.
        let is_drawn = |sewn: &SewnEdge| garment.edge(garment.whole_edge(sewn.edge)).line;
        let mut lines = closure.first.edges.iter().chain(&closure.second.edges);
        if let Some(stand) = row.stand.as_ref().filter(|_| !lines.any(is_drawn)) {
            look(format!("the stand of {}", closure.name), stand, STAND, "what laps over beyond the middle");
        }
        let Some(own) = &row.size else { continue };
        let (what, most, why) = match row.kind {
            Fastener::Tie => (format!("each tie of {}", closure.name), TIE, "round a body and down"),
            Fastener::Button => (format!("each button of {}", closure.name), BUTTON, "those of a coat"),
            Fastener::Snap => (format!("each snap of {}", closure.name), SNAP, "those of a tent"),
            Fastener::Toggle => {
                (format!("each toggle of {}", closure.name), TOGGLE, "those of a duffle coat")
            }
            Fastener::Buckle => (format!("the buckle of {}", closure.name), BUCKLE, "that of a wide belt"),
            Fastener::Hook => continue,
        };
        look(what, own, most, why);
    }
    let sewn_on = straps(garment, &size.drawn);
    for strap in garment.straps.iter().filter(|strap| !strap.poisoned) {
        let is_sewn_on = !strap.runs.is_empty() && strap.runs.iter().all(|run| run.to.is_some());
        match is_sewn_on {
            true => {
                look(strap.name.to_string(), &strap.length, STRAP_BETWEEN, "over a shoulder and round a bag")
            }
            false => look(strap.name.to_string(), &strap.length, STRAP, "a sash goes three times round"),
        }
        // What is wider than its piece has room for is told as that.
        let is_too_wide = sewn_on.iter().any(|sewn| {
            std::ptr::eq(garment.strap(sewn.strap), strap) && strap_room::is_too_wide(garment, size, sewn)
        });
        if !is_too_wide {
            look(format!("the width of {}", strap.name), &strap.width, STRAP_WIDE, "the widest of sashes");
        }
    }
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned) {
        if let Some(width) = seam.tape.as_ref().and_then(|tape| tape.width.as_ref()) {
            look(format!("the tape in {}", seam.name), width, TAPE, "petersham, the widest");
        }
        for gap in seam.gaps.iter().filter(|gap| !gaps::is_too_long(garment, size, seam, gap)) {
            look(format!("the gap in {}", seam.name), &gap.length, GAP, "to turn a coat through");
        }
    }
    for (id, cord) in CordId::enumerate(&garment.cords) {
        let own = size.sewn.channels.iter().flatten().filter(|channel| channel.of == RunsThrough::Cord(id));
        let channel = own.map(|channel| channel.length).filter(|long| long.is_finite()).reduce(f64::max);
        let ends = cord.ends.as_ref().and_then(|ends| amount_of(garment, &size.drawn, ends)).unwrap_or(0.0);
        if let Some(channel) = channel {
            look(
                cord.name.to_string(),
                &cord.length,
                channel + 2.0 * ends.max(0.0) + CORD,
                "its channel and both its ends",
            );
        }
    }
}
