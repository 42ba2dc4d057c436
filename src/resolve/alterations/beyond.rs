//! A line of a piece, and what lies beyond it.

use super::Step;
use crate::garment::Target;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::model::Why;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::line::StraightLine;
use crate::shape::outline;
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};
use crate::syntax::tree::AlterationKind;

/// So near to the outline a line ends on it, in millimetres, also where the garment tolerates less: the corner that it
/// is drawn to may lie on a curve.
const ENDS_ON_OUTLINE: f64 = 5.0;

/// An edge that lies farther off its chord than this is bowed, in millimetres.
const BOWED: f64 = 2.0;

/// A line to cut along.
pub(super) struct Slash {
    /// Where it lies.
    pub(super) path: Path,
    /// The same without ends; of a curve through both of its ends.
    pub(super) line: StraightLine,
    /// It is a line that was drawn as a curve.
    pub(super) is_curve: bool,
    /// Square to it, a unit vector to the side that is beyond: of a line nearer horizontal than
    /// vertical what is lower, else what is further to the right.
    pub(super) beyond: Vec2,
}

/// Finds the target's straight line on the piece; reported if it is not there, or is a curve.
pub(super) fn slash(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<Slash> {
    let slash = cut_line(work, target, drawn)?;
    let title = work.title(drawn.piece);
    if !slash.is_curve && drawn.edge(target.edge).is_none_or(|edge| edge.path.off_straight() <= BOWED) {
        return Some(slash);
    }
    if !slash.is_curve {
        report_bowed_edge(work, step, target, drawn);
        return None;
    }
    work.mistake(1.0, title, || {
        let line = work.garment.edge(target.edge);
        let what = format!(
            "{} of {title} is a curve, and paper is {} at a straight line",
            line.name,
            step.kind.form().participle
        );
        Diagnostic::new(&catalogue::LINE_CURVED, target.span, Title::new(what).in_sizes())
            .also(line.span, "drawn as a curve")
            .help("draw a straight line for it; along a curve a piece can be split or cut off")
    });
    None
}

/// Reports an edge of the outline that bends: cut along the straight line between its ends, it would be torn in two.
fn report_bowed_edge(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) {
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let (edge, form) = (work.garment.edge(target.edge), step.kind.form());
        let what = format!(
            "{} is an edge of {title} that bends, and paper is {} at a straight line across the piece",
            edge.name, form.participle
        );
        let help = match step.kind {
            AlterationKind::Lengthen | AlterationKind::Shorten => format!(
                "draw a line across the piece where it can be cut: line … across at …; to move the edge itself: {} {}.{} by {}",
                if step.kind == AlterationKind::Lengthen { "extend" } else { "trim" },
                work.garment.piece(drawn.piece).name,
                edge.name,
                work.amount(step.amount),
            ),
            _ => "draw a straight line across the piece for it: line … from … to …".to_owned(),
        };
        Diagnostic::new(&catalogue::LINE_CURVED, target.span, Title::new(what).in_sizes())
            .also(edge.span, "an edge of the outline")
            .help(help)
    });
}

/// Finds the target's line on the piece, straight or not; reported if it is not there.
pub(super) fn cut_line(work: &Work, target: &Target, drawn: &DrawnPiece) -> Option<Slash> {
    let lines = drawn.lines.iter().map(|line| (line.edge, &line.path));
    let edges = drawn.edges.iter().map(|edge| (edge.edge, &edge.path));
    let found = lines.chain(edges).find(|(id, _)| work.garment.is_run_of(*id, target.edge));
    let Some((_, path)) = found else {
        report_no_line(work, target, drawn);
        return None;
    };
    let Some(line) = StraightLine::through(path.start(), path.end()) else {
        let title = work.title(drawn.piece);
        work.mistake(1.0, title, || {
            let line = work.garment.edge(target.edge);
            let what = format!("{} of {title} ends where it begins, and leads nowhere", line.name);
            Diagnostic::new(&catalogue::ALTER_NO_LINE, target.span, Title::new(what).in_sizes())
                .also(line.span, "drawn here")
                .help("draw the line from one edge of the piece to another")
        });
        return None;
    };
    let is_curve = path.is_curved() && drawn.lines.iter().any(|own| std::ptr::eq(&raw const own.path, path));
    let left = Vec2::new(-line.direction.y, line.direction.x);
    let is_across = line.direction.x.abs() >= line.direction.y.abs();
    let left_is_beyond = if is_across { left.y < 0.0 } else { left.x > 0.0 };
    Some(Slash { path: path.clone(), line, is_curve, beyond: if left_is_beyond { left } else { -left } })
}

/// Whether a line along which a piece is cut in two goes all the way across it; reported where it ends inside.
pub(super) fn goes_across(work: &Work, target: &Target, drawn: &DrawnPiece, slash: &Slash) -> Option<()> {
    let ring = ring(drawn);
    let off = |end: Point| ring.iter().map(|path| path.nearest(end).distance).fold(f64::INFINITY, f64::min);
    let inside = |end: Point| outline::contains_strictly(&ring, end);
    let ends = [slash.path.start(), slash.path.end()];
    let ends = ends.into_iter().filter(|end| inside(*end)).map(off);
    let short = ends.fold(0.0, f64::max);
    if short <= work.garment.tolerance.max(ENDS_ON_OUTLINE) {
        return Some(());
    }
    let (title, line) = (work.title(drawn.piece), work.garment.edge(target.edge));
    work.report(|size| {
        let by = work.amount(short);
        let message = Title::new(format!("{} ends inside {title}", line.name))
            .in_sizes()
            .then(format!(", {by} from its outline, and cutting along it does not part the piece"));
        let message = Diagnostic::new(&catalogue::ALTER_NO_LINE, target.span, message)
            .label("to be cut along all of it")
            .also(line.span, format!("{by} too short"))
            .help(format!(
                "draw {0} from one edge to another; or, to open the piece at one end of it only: flare … along {0}",
                line.name
            ));
        Finding::new(size, short, message).about(title).figure("too short by", by)
    });
    None
}

/// Reports that the piece has not, or no longer, the line or edge that an alteration needs.
pub(super) fn report_no_line(work: &Work, target: &Target, drawn: &DrawnPiece) {
    let why = work.why_missing(drawn, target.edge);
    if why == Some(Why::Reported) {
        work.inherit(None::<()>);
        return;
    }
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let known = work.garment.edge(target.edge);
        let (kind, article) = if known.line { ("line", "a line") } else { ("edge", "an edge") };
        let message = Diagnostic::new(
            &catalogue::ALTER_NO_LINE,
            target.span,
            Title::new(format!("{title} has no {kind} {} here", known.name)).in_sizes(),
        );
        match why {
            Some(Why::By(by)) => {
                let by = work.garment.alteration(by);
                message
                    .also(by.span, format!("{} is removed here", known.name))
                    .help("alterations are made in the order written: put this one before that")
            }
            _ => message.also(known.span, "declared here").help(
                match runs_of_divided(work, target, drawn).as_slice() {
                    [] => format!("name {article} that {title} really has in this size"),
                    runs => format!("it is divided there: name {}", runs.join(" or ")),
                },
            ),
        }
    });
}

/// The runs that an edge was divided into, by name; those of them that the piece still has.
fn runs_of_divided<'g>(work: &Work<'g>, target: &Target, drawn: &DrawnPiece) -> Vec<&'g str> {
    let piece = work.garment.piece(work.garment.edge(target.edge).piece);
    let divided = piece.drawing.divides.iter().filter(|divide| divide.edge == target.edge);
    let runs = divided.flat_map(|divide| [divide.into.0, divide.into.1]);
    runs.filter(|&run| drawn.edge(run).is_some()).map(|run| &*work.garment.edge(run).name).collect()
}
