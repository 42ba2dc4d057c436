//! Traced points from a table in text: `piece,size,point,x,y,kind`, one point a row.
//!
//! The first row names the columns, in any order; `size`, `point` and `kind` may be missing. Points are those of the
//! outline, in their order, unless their kind says otherwise: `notch`, `mark`, `line NAME`, `grain`, `fold`. `corner` and
//! `curve` say what a point of the outline is. Where all points of a line are named by whole numbers, those are the order.

mod again;
mod doubts;
mod forgotten;
mod placed;
mod rows;
mod units;

use super::ReadOptions;
use super::letters::{base_name, letters, shown};
use super::line_work::LineWork;
use crate::bring::at_most::at_most;
use crate::bring::traced::{
    Traced, TracedLine, TracedMark, TracedNotch, TracedPath, TracedPiece, TracedPoint, TracedSegment,
    TracedSize, TracedUnit,
};
use crate::bring::{BringError, TextUnit};
use crate::limits;
use again::{amid, round_twice, without_repeated_first};
use doubts::{Lost, alike, gaps, lost, twice, unmarked, without_size};
use forgotten::forgotten;
use indexmap::IndexMap;
use kurbo::{Line, PathSeg, Point};
use placed::{Kind, Placed, Sizes};
use rows::{Row, Wrong, rows, separator};
use std::collections::HashSet;
use units::{Unit, measured, unit};

/// The name of a column without the unit behind it.
pub(super) fn without_unit(name: &str) -> String {
    units::measured(name).0
}

/// The pieces of a table of points.
///
/// # Errors
/// A table without the columns that are needed, rows that say no point, outlines of less than three points; all that is
/// wrong at once, up to twenty.
pub fn read(bytes: &[u8], file_name: &str, options: &ReadOptions) -> Result<Traced, BringError> {
    if bytes.len() > limits::DRAWING_BYTES {
        let most = limits::DRAWING_BYTES / (1024 * 1024);
        let why = format!("it is {} MB large; at most {most} MB are read", bytes.len() / (1024 * 1024));
        return Err(BringError::new(file_name, why));
    }
    if bytes.contains(&0) {
        return Err(BringError::new(file_name, "it is no text; save the table as CSV in UTF-8"));
    }
    let text = letters(bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes));
    let separator = separator(&text);
    let mut wrong: Vec<Wrong> = Vec::new();
    let rows = rows(&text, separator, &mut wrong);
    let traced = match rows.split_first() {
        None => return Err(BringError::new(file_name, "there is nothing in it")),
        Some((header, rows)) => {
            let mut table = Table {
                file: file_name,
                options,
                decimal_comma: separator != ',',
                wrong,
                damaged: HashSet::new(),
            };
            let traced = table.traced(header, rows);
            wrong = table.wrong;
            traced
        }
    };
    match traced {
        Some(traced) if wrong.is_empty() && !traced.pieces.is_empty() => Ok(traced),
        Some(traced) => {
            // What explains more than itself stands first.
            let mut all: Vec<BringError> =
                traced.causes.iter().map(|why| BringError::new(file_name, why.as_str())).collect();
            all.push(told(file_name, wrong));
            Err(BringError::together(all).unwrap_or_else(|| BringError::new(file_name, "it cannot be read")))
        }
        None => Err(told(file_name, wrong)),
    }
}

/// All mistakes in one, by their lines.
fn told(file: &str, mut wrong: Vec<Wrong>) -> BringError {
    wrong.sort_by_key(|(line, _)| *line);
    let all = wrong.into_iter().map(|(line, why)| BringError::new(file, why).at_line(line));
    BringError::together(all.collect()).unwrap_or_else(|| BringError::new(file, "no point stands in it"))
}

/// Where each column stands.
struct Columns {
    piece: usize,
    x: usize,
    y: usize,
    size: Option<usize>,
    point: Option<usize>,
    kind: Option<usize>,
    /// How many millimetres one of its units is, and whether that is an inch.
    unit: (f64, bool),
}

struct Table<'a> {
    file: &'a str,
    options: &'a ReadOptions,
    /// Commas do not part fields, so that they may stand in numbers.
    decimal_comma: bool,
    wrong: Vec<Wrong>,
    /// Pieces and sizes of which a row is damaged: what they lack was said with the row.
    damaged: HashSet<(String, String)>,
}

impl Table<'_> {
    fn wrong(&mut self, line: usize, why: impl Into<String>) {
        self.wrong.push((line, why.into()));
    }

    fn traced(&mut self, header: &Row, rows: &[Row]) -> Option<Traced> {
        let columns = self.columns(header)?;
        if rows.len() > limits::DRAWING_POINTS {
            self.wrong(header.line, format!("it holds more than {} points", limits::DRAWING_POINTS));
            return None;
        }
        let mut pieces: IndexMap<String, Sizes> = IndexMap::new();
        for row in rows {
            if row.fields.len() > header.fields.len()
                && row.fields.iter().skip(header.fields.len()).any(|field| !field.is_empty())
            {
                let (has, needs) = (row.fields.len(), header.fields.len());
                self.wrong(row.line, format!("this row has {has} fields, the first row names {needs}"));
                continue;
            }
            let Some((piece, size, kind, placed)) = self.row(&columns, row) else {
                let field = |at: usize| row.fields.get(at).cloned().unwrap_or_default();
                self.damaged.insert((field(columns.piece), columns.size.map_or_else(String::new, field)));
                continue;
            };
            pieces.entry(piece).or_default().entry(size).or_default().entry(kind).or_default().push(placed);
        }
        let most = pieces.values().map(IndexMap::len).max().unwrap_or(0);
        if pieces.len() > limits::DRAWING_PIECES || most > limits::SIZES {
            let why = format!(
                "it holds {} pieces in {most} sizes; at most {} in {} are read",
                pieces.len(),
                limits::DRAWING_PIECES,
                limits::SIZES
            );
            self.wrong(header.line, why);
            return None;
        }
        let amid = amid(rows, &columns, self.file);
        let mut traced = Traced { in_inches: columns.unit.1, causes: amid, ..Traced::default() };
        self.say_unit(header, &columns, &mut traced);
        for (line, why) in without_size(&mut pieces) {
            self.wrong(line, why);
        }
        // What stands in a row that is wrong, or alone in another size by a slip, is not lost.
        let file = base_name(self.file).to_owned();
        let are_whole = pieces
            .values()
            .flat_map(|sizes| sizes.values())
            .all(|kinds| kinds.get(&Kind::Outline).is_some_and(|points| points.len() > 2));
        let lost = if self.wrong.is_empty() && are_whole { lost(&pieces, &file) } else { Lost::default() };
        for (line, why) in lost.wrong {
            self.wrong(line, why);
        }
        let many = |what: &'static str| {
            let file = file.clone();
            move |more: usize| format!("the same is so of {more} more {what} of {file}")
        };
        traced.remarks.extend(at_most(lost.remarks, many("sizes that lack a point")));
        traced
            .remarks
            .extend(at_most(gaps(&pieces, &lost.told), many("outlines whose numbers leave some out")));
        traced.remarks.extend(at_most(alike(&pieces), many("names that differ in capitals alone")));
        traced.remarks.extend(at_most(unmarked(&pieces), many("pieces with a mark in some sizes alone")));
        traced
            .causes
            .extend(at_most(forgotten(&pieces, &file), many("points of outlines that are named like marks")));
        let is_lonely = pieces.values().map(IndexMap::len).sum::<usize>() > 1;
        for (name, sizes) in pieces {
            let mut piece = TracedPiece {
                origin: format!("{} of {}", shown(&name), base_name(self.file)),
                name,
                sizes: IndexMap::new(),
                cut: None,
                material: None,
            };
            for (size, kinds) in sizes {
                if let Some(sized) = self.sized((&piece.name, &size), kinds, is_lonely) {
                    piece.sizes.insert(size, sized);
                }
            }
            traced.pieces.push(piece);
        }
        (!traced.pieces.is_empty() || !traced.causes.is_empty()).then_some(traced)
    }

    /// What the points are measured in, and what is said of that.
    fn say_unit(&self, header: &Row, columns: &Columns, traced: &mut Traced) {
        let is_said = header.fields.iter().any(|name| measured(&name.to_lowercase()).1.is_some());
        let why = match (self.options.scale, is_said, self.options.points_in) {
            (Some(_), ..) => "as `scale` says",
            (None, true, _) => "as its first row says",
            (None, false, Some(_)) => "as `units` says",
            (None, false, None) => "since nothing says a unit",
        };
        let unit = TracedUnit {
            file: base_name(self.file).to_owned(),
            size: columns.unit.0,
            why: why.to_owned(),
            letters: None,
        };
        if self.options.scale.is_none() && !is_said {
            let words = match self.options.points_in {
                Some(TextUnit::Inches) => "inches, as `units` says",
                Some(TextUnit::Centimetres) => "centimetres, as `units` says",
                None => "millimetres, since nothing says a unit",
            };
            traced.remarks.push(format!(
                "the points of {} are read as {words}; a first row with x mm and y mm, x cm and y cm, or x in and y in says it",
                unit.file
            ));
        }
        let named = header.fields.iter().find_map(|name| measured(&name.to_lowercase()).1);
        if let (Some(scale), Some(own)) = (self.options.scale, named.map(|own| own.size()))
            && (own / scale - 1.0).abs() > 0.001
        {
            traced.causes.push(format!(
                "the first row of {} says that one unit is {own} mm, and `scale` that it is {scale} mm: the `scale` was believed",
                unit.file
            ));
        }
        traced.units.push(unit);
    }

    fn columns(&mut self, header: &Row) -> Option<Columns> {
        let (names, units): (Vec<String>, Vec<Option<Unit>>) =
            header.fields.iter().map(|name| measured(&name.to_lowercase())).unzip();
        for (at, name) in names.iter().enumerate() {
            if !name.is_empty() && names.iter().take(at).any(|before| before == name) {
                self.wrong(header.line, format!("two columns are named “{}”", shown(name)));
                return None;
            }
            if !["piece", "size", "point", "x", "y", "kind", ""].contains(&name.as_str()) {
                let why = format!(
                    "the first row names a column “{}”; columns are piece, size, point, x, y and kind, \
                     and x and y may have mm, cm or in behind them",
                    shown(name)
                );
                self.wrong(header.line, why);
                return None;
            }
        }
        let column = |wanted: &str| names.iter().position(|name| name == wanted);
        let (Some(piece), Some(x), Some(y)) = (column("piece"), column("x"), column("y")) else {
            let missing: Vec<&str> =
                ["piece", "x", "y"].into_iter().filter(|&name| column(name).is_none()).collect();
            let why = format!(
                "the first row must name the columns piece, x and y (size, point and kind, where there are such); {} is \
                 missing",
                missing.join(" and ")
            );
            self.wrong(header.line, why);
            return None;
        };
        let [x_unit, y_unit] = [x, y].map(|at| units.get(at).copied().flatten());
        if x_unit != y_unit {
            self.wrong(header.line, "x and y are in two units; both are measured in the same");
            return None;
        }
        let unit = unit(self.options, x_unit);
        let [size, point, kind] = ["size", "point", "kind"].map(column);
        Some(Columns { piece, x, y, size, point, kind, unit })
    }

    fn row(&mut self, columns: &Columns, row: &Row) -> Option<(String, String, Kind, Placed)> {
        let field = |at: usize| row.fields.get(at).map_or("", String::as_str);
        let optional = |at: Option<usize>| at.map_or("", field);
        let piece = field(columns.piece);
        if piece.is_empty() {
            self.wrong(row.line, "the piece's name is missing");
            return None;
        }
        let (x, y) = (self.number(row, columns.x, "x"), self.number(row, columns.y, "y"));
        let kind = self.kind(row.line, optional(columns.kind));
        let ((x, y), (kind, said)) = (x.zip(y)?, kind?);
        let (scale, _) = columns.unit;
        let at = Point::new(x * scale, y * scale);
        if !(at.x.abs() < FAR && at.y.abs() < FAR) {
            self.wrong(row.line, "this point lies more than 100 km away: a coordinate or the unit is wrong");
            return None;
        }
        let name = optional(columns.point).to_owned();
        Some((
            piece.to_owned(),
            optional(columns.size).to_owned(),
            kind,
            Placed { line: row.line, name, at, said },
        ))
    }

    fn number(&mut self, row: &Row, column: usize, name: &str) -> Option<f64> {
        let text = row.fields.get(column).map_or("", String::as_str);
        if text.is_empty() {
            self.wrong(row.line, format!("{name} is missing"));
            return None;
        }
        let is_mixed = text.contains(',') && text.contains('.');
        let spelled = match self.decimal_comma && !is_mixed && text.matches(',').count() == 1 {
            true => text.replace(',', "."),
            false => text.to_owned(),
        };
        let number = spelled.parse::<f64>().ok().filter(|number| number.is_finite());
        if number.is_none() {
            let way = match text.contains(',') {
                true if is_mixed => "; write it without signs between thousands",
                true => "; with a decimal comma, let semicolons part the fields",
                false => "",
            };
            self.wrong(row.line, format!("{name} is “{}”, which is no number{way}", shown(text)));
        }
        number
    }

    fn kind(&mut self, line: usize, text: &str) -> Option<(Kind, TracedPoint)> {
        let unsaid = TracedPoint::Unsaid;
        let lower = text.to_lowercase();
        Some(match lower.as_str() {
            "" => (Kind::Outline, unsaid),
            "corner" => (Kind::Outline, TracedPoint::Corner),
            "curve" => (Kind::Outline, TracedPoint::Curve),
            "notch" => (Kind::Notch, unsaid),
            "mark" => (Kind::Mark, unsaid),
            "grain" => (Kind::Grain, unsaid),
            "fold" => (Kind::Fold, unsaid),
            "line" => (Kind::Line(String::new()), unsaid),
            _ => match lower.strip_prefix("line ").and_then(|_| text.get("line ".len()..)) {
                Some(name) => (Kind::Line(name.trim().to_owned()), unsaid),
                None => {
                    let why = format!(
                        "“{}” is no kind of point; kinds are corner, curve, notch, mark, line NAME, grain and fold",
                        shown(text)
                    );
                    self.wrong(line, why);
                    return None;
                }
            },
        })
    }

    /// `is_lonely`: other pieces or sizes are drawn whole.
    fn sized(
        &mut self,
        (piece, size): (&str, &str),
        kinds: IndexMap<Kind, Vec<Placed>>,
        is_lonely: bool,
    ) -> Option<TracedSize> {
        let whose = match size {
            "" => format!("the outline of {}", shown(piece)),
            size => format!("the outline of {} in size {}", shown(piece), shown(size)),
        };
        let mut sized = TracedSize::of(TracedPath { segments: Vec::new(), closed: true });
        let mut first_line = 1;
        for (kind, mut points) in kinds {
            if kind == Kind::Outline {
                without_repeated_first(&mut points);
                if let Some((line, why)) = round_twice(&points, &whose) {
                    self.wrong(line, why);
                    return None;
                }
            }
            self.in_order(&mut points, &whose)?;
            first_line = points.first().map_or(first_line, |first| first.line);
            match kind {
                Kind::Outline => {
                    if points.len() > 1
                        && points.first().zip(points.last()).is_some_and(|(a, b)| a.at.distance(b.at) <= 1e-6)
                    {
                        points.pop();
                    }
                    if let Some(path) = path(&points, true).filter(|path| path.segments.len() > 2) {
                        sized.outline = path;
                    }
                    if sized.outline.segments.is_empty() {
                        if self.damaged.contains(&(piece.to_owned(), size.to_owned())) {
                            return None;
                        }
                        let has = match points.len() {
                            1 => "1 point".to_owned(),
                            count => format!("{count} points"),
                        };
                        let why = format!("{whose} has {has}; it needs three that differ");
                        self.wrong(first_line, format!("{why}{}", if is_lonely { MISTYPED } else { "" }));
                        return None;
                    }
                }
                Kind::Line(name) => match path(&points, false) {
                    Some(path) => sized.lines.push(TracedLine { name, path }),
                    None => self.wrong(first_line, "a line needs two points that differ"),
                },
                Kind::Notch => sized.notches.extend(points.iter().map(|point| TracedNotch { at: point.at })),
                Kind::Mark => sized.marks.extend(points.into_iter().map(|point| {
                    let name = if point.name.parse::<u64>().is_ok() { String::new() } else { point.name };
                    TracedMark { name, at: point.at }
                })),
                Kind::Grain => sized.grain = self.two(first_line, &points, "a grain line"),
                Kind::Fold => sized.fold = self.two(first_line, &points, "a fold"),
            }
        }
        if sized.outline.segments.is_empty() {
            self.wrong(first_line, format!("{whose} has no points"));
            return None;
        }
        Some(sized)
    }

    fn two(&mut self, line: usize, points: &[Placed], what: &str) -> Option<(Point, Point)> {
        match points {
            [from, to] if from.at.distance(to.at) > 1e-6 => Some((from.at, to.at)),
            _ => {
                self.wrong(
                    line,
                    format!("{what} needs two points that differ; {} stand there", points.len()),
                );
                None
            }
        }
    }

    /// By their numbers, where all are numbered; else as they stand. None where two have one number.
    fn in_order(&mut self, points: &mut [Placed], whose: &str) -> Option<()> {
        let number = |point: &Placed| point.name.parse::<u64>().ok();
        if !points.iter().all(|point| number(point).is_some()) {
            return Some(());
        }
        points.sort_by_key(|point| number(point));
        if let Some((line, why)) = twice(points, whose) {
            self.wrong(line, why);
            return None;
        }
        let twice = points.windows(2).find_map(|pair| match pair {
            [one, other] if number(one) == number(other) => Some((other.line, one.line, one.name.clone())),
            _ => None,
        });
        match twice {
            Some((line, before, name)) => {
                let why = format!(
                    "the point {name} stands in line {before} already, of the same piece, size and kind"
                );
                self.wrong(line.max(before), why);
                None
            }
            None => Some(()),
        }
    }
}

/// What is asked of a piece or a size of a point or two.
const MISTYPED: &str = ": is its piece's name or its size mistyped here?";

/// Farther from the origin than this, mm, a coordinate is a mistake.
const FAR: f64 = 1e8;

/// Straight lines from point to point, each end said to be what its point is.
fn path(points: &[Placed], closed: bool) -> Option<TracedPath> {
    let mut work = LineWork::default();
    let nexts = points.iter().cycle().skip(1);
    let count = if closed { points.len() } else { points.len().saturating_sub(1) };
    for (from, to) in points.iter().zip(nexts).take(count) {
        if from.at.distance(to.at) > 1e-6 {
            let course = PathSeg::Line(Line::new(from.at, to.at));
            work.push(TracedSegment { course, arc: None, ends_at: to.said });
        }
    }
    work.path(closed)
}
