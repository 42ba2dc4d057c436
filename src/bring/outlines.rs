//! The outlines of a piece in all its sizes, as far as a garment can be made of them: cutting lines, or the sew lines in them.

use super::course::Course;
use super::traced::{TracedPath, TracedSize};
use super::unmatched::place;
use crate::limits::LENGTH_MM;
use crate::shape::outline::crossings;
use crate::shape::path::Path;

/// The outlines of a piece, by size.
pub struct Outlines {
    /// They, anticlockwise.
    pub courses: Vec<Course>,
    /// Whether they are sew lines.
    pub sewn: bool,
}

/// Where it is, behind a piece's name: ` in M`.
pub fn in_size(called: &[String], at: usize) -> String {
    match called.get(at).map(String::as_str) {
        Some("") | None => String::new(),
        Some(size) => format!(" in {size}"),
    }
}

/// The outlines of a piece that is called so, in sizes that are.
///
/// # Errors
/// Where one is open, holds no area or reaches farther than a garment does; where a sew line lies outside.
pub fn outlines(drawn: &[&TracedSize], name: &str, called: &[String]) -> Result<Outlines, String> {
    let in_size = |at: usize| in_size(called, at);
    let sewn = drawn.iter().all(|size| size.sew_line.as_ref().is_some_and(|line| line.closed));
    if sewn && let Some(at) = drawn.iter().position(|size| sews_outside(size)) {
        return Err(format!(
            "the sew line of {name}{} lies outside the line that it is cut at: are the two exchanged? In DXF the line that is \
             cut is on layer 1, the sew line on layer 14",
            in_size(at)
        ));
    }
    let mut courses = Vec::with_capacity(drawn.len());
    for (at, size) in drawn.iter().enumerate() {
        // What is far away is not measured: it would be parted without end.
        if sewn && Course::of(&size.outline).is_some_and(|course| is_endless(&course)) {
            return Err(format!(
                "the line that {name}{} is cut at is more than 100 m long: is the scale right?",
                in_size(at)
            ));
        }
        let outline = if sewn { size.sew_line.as_ref().unwrap_or(&size.outline) } else { &size.outline };
        let course = Course::of(outline).ok_or_else(|| format!("{name} has no outline{}", in_size(at)))?;
        if !course.closed {
            let gap = course.node(0).distance(course.node(course.segments.len()));
            return Err(format!(
                "the outline of {name}{} does not close: its ends are {gap:.1} mm apart",
                in_size(at)
            ));
        }
        if is_endless(&course) {
            return Err(format!("{name}{} is more than 100 m long: is the scale right?", in_size(at)));
        }
        if course.area() < 1.0 {
            return Err(format!("the outline of {name}{} holds no area", in_size(at)));
        }
        courses.push(course);
    }
    Ok(Outlines { courses, sewn })
}

/// Whether a line reaches farther than a garment does. Handles count too: they are written.
fn is_endless(course: &Course) -> bool {
    let bounds = course.reach();
    bounds.width().max(bounds.height()) > LENGTH_MM
}

/// Whether a sew line holds more than the line that is cut.
fn sews_outside(size: &TracedSize) -> bool {
    let area = |path: &TracedPath| Course::of(path).map(|course| course.area());
    let sewn = size.sew_line.as_ref().and_then(area);
    sewn.zip(area(&size.outline)).is_some_and(|(sewn, cut)| sewn > cut)
}

/// Where a drawn outline crosses itself, if it does: counted from its lowest and leftmost place.
pub fn crossed(course: &Course) -> Option<String> {
    let ring = course.segments.iter().map(|segment| Path::from_segments([segment.course]));
    let crossing = crossings(&ring.collect::<Result<Vec<Path>, _>>().ok()?)?;
    Some(format!("crosses itself {}", place(course, crossing.point)))
}
