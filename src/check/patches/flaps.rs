//! `place/flap`: a flap that does not cover the mouth of the pocket under it, or is far wider.

use super::put;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::sewing::patches::Patch;
use crate::shape::Rect;
use crate::shape::outline::extents;
use crate::shape::path::Path;
use crate::syntax::tree::Hand;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::PLACE_FLAP], run: Run::PerSize(run) };

/// What is narrower than this share of a mouth is a tab that holds it shut, and no flap …
const TAB: f64 = 0.6;
/// … if it is no wider than this, in millimetres.
const TAB_WIDE: f64 = 70.0;
/// What is called a flap is one from this share of the mouth on; narrower, it is called so as a tab.
const NARROWEST: f64 = 1.0 / 3.0;
/// So much of a mouth, as a share of it, a flap may leave open beside it: makers cut flaps a few millimetres wider.
const BESIDE: f64 = 0.05;
/// What hangs above a mouth and does not reach it is its flap where it is about as wide: from this share of it …
const ALIKE: f64 = 0.8;
/// … to this one; wider it is a yoke or a cape.
const WIDER: f64 = 1.25;
/// Wider than so many times its one pocket no flap is cut (common practice: a few millimetres on each side).
const WIDEST: f64 = 1.5;
/// A mouth lies in this share of its pocket, from above.
const HIGHEST: f64 = 0.25;
/// So much of its height and its width the stitching of a pocket spans.
const SPANNED: f64 = 0.9;

/// Something that a flap may hang over, and where it opens.
struct Mouth<'p, 'a> {
    patch: &'p Patch<'a>,
    at: Rect,
    /// The pocket's own height.
    height: f64,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.len() < 2 {
        return;
    }
    let patches = Patch::all(garment, &size.drawn);
    let mut flaps = patches.iter().filter(|patch| patch.hangs()).peekable();
    if flaps.peek().is_none() {
        return;
    }
    let mouths: Vec<Mouth> = patches.iter().filter_map(mouth).collect();
    for flap in flaps {
        let Some(own) = extents(&flap.outline) else { continue };
        let under: Vec<&Mouth> = mouths.iter().filter(|mouth| is_under(flap, own, mouth)).collect();
        let covered = under.iter().filter(|mouth| own.y0 < mouth.at.y1);
        if let [mouth] = under.as_slice() {
            findings.extend(too_wide(garment, size, (flap, own), mouth));
        }
        let open = covered.clone().find_map(|mouth| leaves_open(garment, size, (flap, own), mouth));
        if covered.count() > 0 || covers_slit(flap, own) {
            findings.extend(open);
            continue;
        }
        let is_covered = |mouth: &Mouth| {
            patches.iter().filter(|patch| patch.hangs() && patch.lies_beside(mouth.patch)).any(|patch| {
                extents(&patch.outline)
                    .is_some_and(|own| lies_over(patch, own, mouth) && own.y0 < mouth.at.y1)
            })
        };
        let across = mouths.iter().filter(|_| under.is_empty()).find(|mouth| {
            is_across(flap, mouth)
                && lies_over(flap, own, mouth)
                && own.y0 < mouth.at.y1
                && !is_covered(mouth)
        });
        findings.extend(across.map(|mouth| on_other_side(garment, size, flap, mouth)));
        let nearest = under.into_iter().max_by(|one, other| one.at.y1.total_cmp(&other.at.y1));
        findings.extend(nearest.and_then(|mouth| too_high(garment, size, (flap, own), mouth)));
    }
}

/// The mouth of a patch pocket that opens above.
fn mouth<'p, 'a>(patch: &'p Patch<'a>) -> Option<Mouth<'p, 'a>> {
    let paths = |of: &[(EdgeId, Path)]| -> Vec<Path> { of.iter().map(|(_, path)| path.clone()).collect() };
    let (own, rows, at) =
        (extents(&patch.outline)?, extents(&paths(&patch.rows))?, extents(&paths(&patch.open))?);
    let is_pocket = rows.height() > SPANNED * own.height() && rows.width() > SPANNED * own.width();
    let is_high = at.y0 > own.y1 - HIGHEST * own.height();
    (is_pocket && is_high).then_some(Mouth { patch, at, height: own.height() })
}

/// Whether a flap is stitched down above a mouth, with the most of the narrower one of both over the other.
fn is_under(flap: &Patch, own: Rect, mouth: &Mouth) -> bool {
    flap.lies_beside(mouth.patch) && lies_over(flap, own, mouth)
}

/// The same wherever on the body both are.
fn lies_over(flap: &Patch, own: Rect, mouth: &Mouth) -> bool {
    let shared = own.x1.min(mouth.at.x1) - own.x0.max(mouth.at.x0);
    flap.id != mouth.patch.id && own.y1 > mouth.at.y1 && shared > 0.5 * own.width().min(mouth.at.width())
}

/// Whether a flap and a mouth lie on one piece, each on another side of the body.
fn is_across(flap: &Patch, mouth: &Mouth) -> bool {
    let hands = flap.placement.hand.zip(mouth.patch.placement.hand);
    flap.placed.on == mouth.patch.placed.on && hands.is_some_and(|(one, other)| one != other)
}

/// A flap that hangs over nothing, where on the other side its pocket is.
fn on_other_side(garment: &Garment, size: &WorkedSize, flap: &Patch, mouth: &Mouth) -> Finding {
    let side = |patch: &Patch| match patch.placement.hand {
        Some(Hand::Right) => "right",
        _ => "left",
    };
    let [name, pocket] = [flap, mouth.patch].map(|patch| words::piece(garment, patch.placement.piece));
    let [own, other] = [flap, mouth.patch].map(side);
    let title =
        format!("{name} is placed on the {own}, and {pocket}, whose mouth it would cover, on the {other}");
    let warning = Diagnostic::new(&catalogue::PLACE_FLAP, flap.placement.span, title)
        .label(format!("covers nothing on the {own}"))
        .also(mouth.patch.placement.span, format!("on the {other}"))
        .help(format!("place both on the {own}, or both on the {other}"));
    Finding::new(size.id(), 0.0, warning).about(format!("{name} {pocket}"))
}

/// Whether it hangs over a pocket that is cut into the cloth.
fn covers_slit(flap: &Patch, own: Rect) -> bool {
    let slits = flap.host.uncut().slits.iter();
    slits.flat_map(|slit| slit.corners()).any(|corner| own.contains(corner))
}

fn leaves_open(
    garment: &Garment,
    size: &WorkedSize,
    (flap, own): (&Patch, Rect),
    mouth: &Mouth,
) -> Option<Finding> {
    let wide = mouth.at.width();
    let beside = [own.x0 - mouth.at.x0, mouth.at.x1 - own.x1].map(|open| open.max(0.0));
    let open = beside[0] + beside[1];
    let tab = if is_called_flap(garment, flap) { NARROWEST } else { TAB };
    let is_tab = own.width() < tab * wide && own.width() <= TAB_WIDE;
    if is_tab || open <= BESIDE * wide {
        return None;
    }
    let unit = garment.unit;
    let [name, pocket] = [flap, mouth.patch].map(|patch| words::piece(garment, patch.placement.piece));
    let by = amount(open, unit);
    let is_narrow = own.width() < wide;
    let title = match is_narrow {
        true => format!(
            "{name} is {} narrower than the mouth of {pocket} under it",
            amount(wide - own.width(), unit)
        ),
        false => format!("{name} leaves {by} of the mouth of {pocket} open, at one side"),
    };
    let help = match is_narrow {
        true => format!(
            "make it at least {} wide, and put it in the middle over the mouth: makers cut flaps a few millimetres wider",
            at_least(wide, unit)
        ),
        false => format!("move one of their marks by {by}, so that it hangs in the middle over the mouth"),
    };
    let warning = Diagnostic::new(&catalogue::PLACE_FLAP, put(flap), Title::new(title).in_sizes())
        .label(format!("{} wide", amount(own.width(), unit)))
        .also(put(mouth.patch), format!("its mouth is {} wide", amount(wide, unit)))
        .help(help);
    Some(Finding::new(size.id(), open, warning).about(format!("{name} {pocket}")).figure("open", by))
}

/// Whether a piece is called a flap.
fn is_called_flap(garment: &Garment, patch: &Patch) -> bool {
    let piece = garment.piece(patch.placement.piece);
    let names = [&piece.name, &piece.title];
    let mut words = names.into_iter().flat_map(|name| name.split(|letter: char| !letter.is_alphabetic()));
    words.any(|word| word.eq_ignore_ascii_case("flap"))
}

/// Wider than its pocket by half of that or more, over one pocket alone.
fn too_wide(
    garment: &Garment,
    size: &WorkedSize,
    (flap, own): (&Patch, Rect),
    mouth: &Mouth,
) -> Option<Finding> {
    let (wide, unit) = (mouth.at.width(), garment.unit);
    let by = own.width() - wide;
    if own.width() <= WIDEST * wide || own.y0 >= mouth.at.y1 {
        return None;
    }
    let [name, pocket] = [flap, mouth.patch].map(|patch| words::piece(garment, patch.placement.piece));
    let shown = amount(by, unit);
    let title = Title::new(format!("{name} is {shown} wider than the mouth of {pocket} under it")).in_sizes();
    let warning = Diagnostic::new(&catalogue::PLACE_FLAP, put(flap), title)
        .label(format!("{} wide", amount(own.width(), unit)))
        .also(put(mouth.patch), format!("its mouth is {} wide", amount(wide, unit)))
        .help(
            "look at the figures of both: makers cut flaps a few millimetres wider than the pocket; if it is to cover more than \
             the pocket, nothing needs to change",
        );
    Some(Finding::new(size.id(), by, warning).about(format!("{name} {pocket}")).figure("wider by", shown))
}

fn too_high(
    garment: &Garment,
    size: &WorkedSize,
    (flap, own): (&Patch, Rect),
    mouth: &Mouth,
) -> Option<Finding> {
    let (wide, above) = (own.width() / mouth.at.width(), own.y0 - mouth.at.y1);
    let shared = own.x1.min(mouth.at.x1) - own.x0.max(mouth.at.x0);
    let is_its_flap = (ALIKE..WIDER).contains(&wide) && shared >= ALIKE * mouth.at.width();
    if !is_its_flap || above > mouth.height {
        return None;
    }
    let unit = garment.unit;
    let [name, pocket] = [flap, mouth.patch].map(|patch| words::piece(garment, patch.placement.piece));
    let by = amount(above, unit);
    let title = Title::new(format!("{name} ends {by} above the mouth of {pocket}, and covers nothing"));
    let warning = Diagnostic::new(&catalogue::PLACE_FLAP, put(flap), title.in_sizes())
        .label("hangs from here")
        .also(put(mouth.patch), format!("{pocket} lies here"))
        .help(format!(
            "move it at least {} down, so that its stitching lies close above the mouth and it hangs over it; or make it longer",
            at_least(above, unit)
        ));
    Some(Finding::new(size.id(), above, warning).about(format!("{name} {pocket}")).figure("too high by", by))
}
