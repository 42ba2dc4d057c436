//! Open paths that go round inside an outline as its sew line does.

use super::outline::{Outline, Work};
use super::roles::{Role, Shape};
use crate::bring::error::BringError;
use crate::bring::read::inside::follows;
use crate::bring::read::letters::base_name;
use crate::bring::read::open_sew::{OpenSewLine, Told, judged};
use crate::bring::traced::{Traced, TracedLine};
use crate::bring::trade_words::{ON_TOP, SEWN, has_word};

/// Whether a path says that it is a sew line; stitches on top of a piece are none.
pub fn is_called_sewn(name: &str) -> bool {
    (has_word(name, &SEWN) || has_word(name, &["seam", "seams"])) && !has_word(name, &ON_TOP)
}

/// Whether a shape that lies on a piece may be its sew line though it does not close.
pub fn may_be(shape: &Shape, own: &Outline) -> bool {
    own.size.sew_line.is_none()
        && shape.role == Role::Line
        && !shape.path.closed
        && shape.path.segments.len() > 1
        && follows(&own.bounds, &shape.bounds())
}

/// Puts such shapes where they belong, once all is known that lies on the pieces; each with the place of its outline.
pub fn placed(
    shapes: Vec<(usize, Shape)>,
    found: &mut [Outline],
    work: &Work,
    file: &str,
    traced: &mut Traced,
) {
    for (at, shape) in shapes {
        let Some(own) = found.iter_mut().find(|own| own.number == at) else { continue };
        let told = match (is_called_sewn(&shape.name), shape.is_dashed && !own.is_dashed) {
            (true, _) => Told::Said,
            (false, true) => Told::Dashed,
            (false, false) => Told::ByCourse,
        };
        let judged = match own.size.sew_line.is_none() && work.may(60 * own.path.segments.len()) {
            true => judged(&shape.path, &own.path, own.size.fold, told),
            false => OpenSewLine::Line,
        };
        let of = own.owner.piece.as_ref().map_or_else(
            || format!("the outline in line {}", own.line),
            |name| own.owner.size.as_ref().map_or(name.clone(), |size| format!("{name} in {size}")),
        );
        match judged {
            OpenSewLine::AlongFold(whole) => {
                own.size.sew_line = Some(whole);
                continue;
            }
            OpenSewLine::BreaksOff(gap, ..) => {
                let why = format!(
                    "the sew line of {of} is open: its ends lie {gap:.1} mm apart; close it, or let both ends reach a line called \
                     fold; take it out if it is none"
                );
                traced.wrong.push(BringError::new(file, why).at_line(shape.line));
                traced.open.push(shape.path.clone());
            }
            OpenSewLine::Doubtful => traced.remarks.push(format!(
                "{of}: the line in line {} of {} runs inside as a sew line does, but is open: it is taken for stitches, and the \
                 outline for where the piece is sewn; a sew line closes, or ends at a line called fold",
                shape.line,
                base_name(file)
            )),
            OpenSewLine::Line => {}
        }
        own.size.lines.push(TracedLine { name: shape.name, path: shape.path });
    }
}
