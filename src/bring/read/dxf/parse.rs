//! Entities from their pairs; group codes and their meanings are those of Autodesk's published DXF reference.

use super::entity::{Entity, Insert, Shape, Spline};
use super::tags::Tag;
use super::words;
use crate::bring::BringError;
use crate::bring::read::letters::shown;
use crate::limits;
use indexmap::IndexMap;
use kurbo::{Point, Vec2};
use std::f64::consts::TAU;
use std::sync::Arc;

/// What is counted over a whole file.
#[derive(Debug, Default)]
pub(super) struct Tally {
    /// How many of each kind are no drawing that a pattern needs, by the kind.
    pub left_out: IndexMap<String, usize>,
    /// What says of itself that it has other points than it has.
    pub wrong: Vec<BringError>,
    entities: usize,
    points: usize,
}

/// Makes entities of their pairs, some of which belong to the one before.
pub(super) struct Parser<'a> {
    file: &'a str,
    tally: &'a mut Tally,
    entities: Vec<Entity>,
    /// What takes the vertices or the words that follow.
    open: Option<Open>,
    /// The layer named last, since neighbours mostly share one.
    layer: Arc<str>,
}

/// An entity that goes on in those after it, up to a SEQEND.
enum Open {
    /// Takes vertices.
    Polyline(Entity),
    /// Takes words.
    Insert(Entity),
    /// A mesh or the like: its vertices are left out with it.
    LeftOut,
}

impl<'a> Parser<'a> {
    pub fn new(file: &'a str, tally: &'a mut Tally) -> Self {
        Parser { file, tally, entities: Vec::new(), open: None, layer: Arc::from("0") }
    }

    /// Takes one entity: the pair that begins it, and its own.
    ///
    /// # Errors
    /// Where a number is none, or there are too many.
    pub fn take(&mut self, kind: &Tag, own: &[Tag]) -> Result<(), BringError> {
        self.tally.entities += 1;
        if self.tally.entities > limits::DRAWING_ENTITIES {
            return Err(too_many(self.file, kind.line, limits::DRAWING_ENTITIES, "entities"));
        }
        let name = kind.value.to_ascii_uppercase();
        match name.as_str() {
            "VERTEX" => return self.vertex(own, kind.line),
            "ATTRIB" if matches!(self.open, Some(Open::Insert(_))) => return self.attribute(own, kind.line),
            "SEQEND" => {
                self.shut();
                return Ok(());
            }
            _ => self.shut(),
        }
        // What lies on a sheet of paper and not in the drawing itself.
        if own.iter().any(|tag| tag.code == 67 && tag.whole() == 1) {
            self.open = (name == "POLYLINE").then_some(Open::LeftOut);
            return Ok(());
        }
        let numbers = Numbers { file: self.file, own, line: kind.line };
        let shape = match name.as_str() {
            "LINE" => Shape::Line(numbers.point(10)?, numbers.point(11)?),
            "POINT" => Shape::Point(numbers.point(10)?),
            "CIRCLE" => Shape::Arc {
                centre: numbers.point(10)?,
                major: Vec2::new(numbers.first(40, 0.0)?, 0.0),
                ratio: 1.0,
                from: 0.0,
                to: TAU,
            },
            "ARC" => {
                let (from, to) =
                    (numbers.first(50, 0.0)?.to_radians(), numbers.first(51, 360.0)?.to_radians());
                let major = Vec2::new(numbers.first(40, 0.0)?, 0.0);
                Shape::Arc { centre: numbers.point(10)?, major, ratio: 1.0, from, to: after(from, to) }
            }
            "ELLIPSE" => {
                let (from, to) = (numbers.first(41, 0.0)?, numbers.first(42, TAU)?);
                let (major, ratio) = (numbers.point(11)?.to_vec2(), numbers.first(40, 1.0)?);
                Shape::Arc { centre: numbers.point(10)?, major, ratio, from, to: after(from, to) }
            }
            "LWPOLYLINE" => numbers.light_polyline()?,
            "SPLINE" => Shape::Spline(numbers.spline()?),
            "POLYLINE" => {
                let flags = numbers.whole(70);
                // 16: a mesh; 64: faces of a solid.
                if flags & (16 | 64) != 0 {
                    self.left_out("mesh");
                    self.open = Some(Open::LeftOut);
                    return Ok(());
                }
                Shape::Polyline { vertices: Vec::new(), closed: flags & 1 != 0 }
            }
            "TEXT" | "ATTRIB" => numbers.words(vec![words::of_text(&numbers.text(1))])?,
            "MTEXT" => {
                let parts = own.iter().filter(|tag| tag.code == 3 || tag.code == 1);
                let whole: String = parts.map(|tag| &*tag.value).collect();
                numbers.words(words::of_mtext(&whole))?
            }
            "INSERT" => Shape::Insert(Box::new(numbers.insert()?)),
            // What only says how blocks are filled in, and views of the sheet.
            "ATTDEF" | "VIEWPORT" => return Ok(()),
            _ => {
                self.left_out(&shown(&name));
                return Ok(());
            }
        };
        self.tally.wrong.extend(numbers.miscounted(&name, &shape));
        let points = match &shape {
            Shape::Polyline { vertices, .. } => vertices.len(),
            Shape::Spline(spline) => spline.controls.len() + spline.through.len(),
            Shape::Words { lines, .. } => lines.len(),
            _ => 1,
        };
        self.count(points, kind.line)?;
        let Some(is_from_behind) = numbers.is_from_behind(&name)? else {
            self.left_out(&format!("{name} that stands out of the plane"));
            self.open = (name == "POLYLINE").then_some(Open::LeftOut);
            return Ok(());
        };
        let (is_from_behind, shape) = match shape {
            // An ellipse lies where it lies; seen from behind it goes round the other way.
            Shape::Arc { centre, major, ratio, from, to } if name == "ELLIPSE" && is_from_behind => {
                (false, Shape::Arc { centre, major, ratio: -ratio, from, to })
            }
            other => (is_from_behind, other),
        };
        let layer = words::of_name(&numbers.text(8));
        if *self.layer != *layer {
            self.layer = Arc::from(layer);
        }
        let colour = own.iter().find(|tag| tag.code == 62).map(Tag::whole);
        // 0 and 256 are the block's and the layer's.
        let colour = colour.filter(|&colour| colour != 0 && colour != 256);
        let entity = Entity { layer: self.layer.clone(), colour, line: kind.line, is_from_behind, shape };
        match name.as_str() {
            "POLYLINE" => self.open = Some(Open::Polyline(entity)),
            "INSERT" if numbers.whole(66) == 1 => self.open = Some(Open::Insert(entity)),
            _ => self.entities.push(entity),
        }
        Ok(())
    }

    /// What was taken.
    pub fn finish(mut self) -> Vec<Entity> {
        self.shut();
        self.entities
    }

    fn shut(&mut self) {
        if let Some(Open::Polyline(entity) | Open::Insert(entity)) = self.open.take() {
            self.entities.push(entity);
        }
    }

    fn left_out(&mut self, kind: &str) {
        // What nobody listed is not remembered without end.
        if self.tally.left_out.len() < 100 || self.tally.left_out.contains_key(kind) {
            *self.tally.left_out.entry(kind.to_owned()).or_default() += 1;
        }
    }

    fn count(&mut self, points: usize, line: usize) -> Result<(), BringError> {
        self.tally.points += points;
        if self.tally.points > limits::DRAWING_POINTS {
            return Err(too_many(self.file, line, limits::DRAWING_POINTS, "points"));
        }
        Ok(())
    }

    fn vertex(&mut self, own: &[Tag], line: usize) -> Result<(), BringError> {
        self.count(1, line)?;
        let numbers = Numbers { file: self.file, own, line };
        let vertex = (numbers.point(10)?, numbers.first(42, 0.0)?);
        // 16: a control point of the curve that the other vertices follow.
        let is_frame = numbers.whole(70) & 16 != 0;
        match &mut self.open {
            Some(Open::Polyline(Entity { shape: Shape::Polyline { vertices, .. }, .. })) if !is_frame => {
                vertices.push(vertex);
            }
            Some(_) => {}
            None => {
                let why = "a VERTEX stands outside a POLYLINE: a line is lost before it";
                return Err(BringError::new(self.file, why).at_line(line));
            }
        }
        Ok(())
    }

    fn attribute(&mut self, own: &[Tag], line: usize) -> Result<(), BringError> {
        self.count(1, line)?;
        let numbers = Numbers { file: self.file, own, line };
        let (at, value, tag) = (numbers.point(10)?, words::of_text(&numbers.text(1)), numbers.text(2));
        if let Some(Open::Insert(Entity { shape: Shape::Insert(insert), .. })) = &mut self.open
            && !value.is_empty()
        {
            // `SIZE` and `M` say what `Size: M` does.
            let whole =
                if value.contains(':') { value } else { format!("{}: {value}", words::of_name(&tag)) };
            insert.words.push((at, whole));
        }
        Ok(())
    }
}

/// The parameter `to`, turned on until it lies past `from`.
fn after(from: f64, to: f64) -> f64 {
    let sweep = (to - from).rem_euclid(TAU);
    from + if sweep < 1e-9 { TAU } else { sweep }
}

fn too_many(file: &str, line: usize, most: usize, of: &str) -> BringError {
    let why = format!(
        "it holds more than {most} {of}; take out what is no pattern, or bring the pieces one by one"
    );
    BringError::new(file, why).at_line(line)
}

/// The pairs of one entity.
struct Numbers<'a> {
    file: &'a str,
    own: &'a [Tag<'a>],
    /// Where the entity begins.
    line: usize,
}

impl Numbers<'_> {
    fn first(&self, code: i32, otherwise: f64) -> Result<f64, BringError> {
        self.own.iter().find(|tag| tag.code == code).map_or(Ok(otherwise), |tag| tag.number(self.file))
    }

    fn whole(&self, code: i32) -> i64 {
        self.own.iter().find(|tag| tag.code == code).map_or(0, Tag::whole)
    }

    fn text(&self, code: i32) -> String {
        self.own.iter().find(|tag| tag.code == code).map_or_else(String::new, |tag| tag.value.to_string())
    }

    /// The point whose x has this code.
    fn point(&self, code: i32) -> Result<Point, BringError> {
        let coordinate = |code: i32| match self.own.iter().find(|tag| tag.code == code) {
            Some(tag) => tag.number(self.file),
            None => {
                let why = format!("a coordinate is missing here (group code {code}): a line is lost");
                Err(BringError::new(self.file, why).at_line(self.line))
            }
        };
        Ok(Point::new(coordinate(code)?, coordinate(code + 10)?))
    }

    /// Whether it is drawn on the back of the plane; none where it does not lie in the plane at all. Lines, points
    /// and what else is in the world's own coordinates lie where they lie.
    fn is_from_behind(&self, kind: &str) -> Result<Option<bool>, BringError> {
        let (x, y, z) = (self.first(210, 0.0)?, self.first(220, 0.0)?, self.first(230, 1.0)?);
        Ok(match kind {
            "LINE" | "POINT" | "MTEXT" | "SPLINE" => Some(false),
            _ => (x.hypot(y) <= 1e-6 * z.abs()).then_some(z < 0.0),
        })
    }

    fn words(&self, lines: Vec<String>) -> Result<Shape, BringError> {
        Ok(Shape::Words { at: self.point(10)?, height: self.first(40, 0.0)?, lines })
    }

    fn light_polyline(&self) -> Result<Shape, BringError> {
        let mut vertices: Vec<(Point, f64)> = Vec::new();
        for tag in self.own {
            match (tag.code, vertices.last_mut()) {
                (10, _) => vertices.push((Point::new(tag.number(self.file)?, 0.0), 0.0)),
                (20, Some((at, _))) => at.y = tag.number(self.file)?,
                (42, Some((_, bulge))) => *bulge = tag.number(self.file)?,
                _ => {}
            }
        }
        Ok(Shape::Polyline { vertices, closed: self.whole(70) & 1 != 0 })
    }

    /// What is said of a line that names another number of points than it has: it is another line than was drawn.
    fn miscounted(&self, kind: &str, shape: &Shape) -> Vec<BringError> {
        let counts = match shape {
            Shape::Polyline { vertices, .. } if kind == "LWPOLYLINE" => {
                vec![(90, vertices.len(), "vertices", 10)]
            }
            Shape::Spline(spline) => vec![
                (72, spline.knots.len(), "knots", 40),
                (73, spline.controls.len(), "control points", 10),
                (74, spline.through.len(), "points that it goes through", 11),
            ],
            _ => Vec::new(),
        };
        let said = counts.into_iter().filter_map(|(code, has, what, each)| {
            let tag = self.own.iter().find(|tag| tag.code == code)?;
            let wants = tag.value.parse::<usize>().ok().filter(|wants| *wants != has)?;
            let lost = match wants > has {
                true => "a part of it is lost; save the drawing anew",
                false => "a part of it stands there twice, or belongs to another line; save the drawing anew",
            };
            let why = format!(
                "this {kind} says that it has {wants} {what}, and {has} stand there (group code {each}): {lost}, or, if it is \
                 right as it is, write {has} here"
            );
            Some(BringError::new(self.file, why).at_line(tag.line))
        });
        said.collect()
    }

    fn spline(&self) -> Result<Spline, BringError> {
        let degree = usize::try_from(self.whole(71)).unwrap_or(0);
        let mut spline = Spline { degree, closed: self.whole(70) & 1 != 0, ..Spline::default() };
        for tag in self.own {
            match tag.code {
                40 => spline.knots.push(tag.number(self.file)?),
                41 => spline.weights.push(tag.number(self.file)?),
                10 => spline.controls.push(Point::new(tag.number(self.file)?, 0.0)),
                11 => spline.through.push(Point::new(tag.number(self.file)?, 0.0)),
                20 | 21 => {
                    let y = tag.number(self.file)?;
                    let points = if tag.code == 20 { &mut spline.controls } else { &mut spline.through };
                    if let Some(last) = points.last_mut() {
                        last.y = y;
                    }
                }
                _ => {}
            }
        }
        Ok(spline)
    }

    fn insert(&self) -> Result<Insert, BringError> {
        let count = |code| u32::try_from(self.whole(code)).unwrap_or(1).max(1);
        Ok(Insert {
            block: words::of_name(&self.text(2)),
            at: self.point(10)?,
            scale: (self.first(41, 1.0)?, self.first(42, 1.0)?),
            turn: self.first(50, 0.0)?.to_radians(),
            columns: (count(70), self.first(44, 0.0)?),
            rows: (count(71), self.first(45, 0.0)?),
            words: Vec::new(),
        })
    }
}
