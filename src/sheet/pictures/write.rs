//! A picture written as SVG: its scenes laid side by side or below one another, each to a scale that fills its room.

use super::canvas::{Caption, Drawn, Label, Mark, Panel};
use super::signs::{self, arrow, circle, iron, line, ringed, tag, words};
use crate::emit::rounded_path_data;
use crate::report::{DisplayUnit, INCH};
use crate::shape::{Affine, Point, Rect, Vec2};
use kurbo::BezPath;
use svg::Document;
use svg::node::element::{Group, Path, Text};

/// How wide the view box of every picture is; words in it are 12.5 high, so that they can be read on a phone.
pub const WIDTH: f64 = 360.0;
/// How high a scene is at most.
const HIGHEST: f64 = 330.0;
/// What is left free round a scene for tags and numbers.
const HEAD_ROOM: f64 = 26.0;
/// Below a scene stand its scale and its caption, beside one another or in two lines.
const FOOT: f64 = 24.0;
const LINE: f64 = 16.0;
/// How long the bar of a scale is at most, and what is written beside it.
const BAR: (f64, f64) = (72.0, 52.0);
/// A millimetre is drawn no larger than this, so that a small piece does not look large.
const LARGEST: f64 = 1.6;
/// What is small, and shown again because it is, is drawn so large at most.
const ENLARGED: f64 = 8.0;
/// A short seam that is rolled out shows so much more of it, so that its numbers and letters stand clear.
const ROLLED: f64 = 14.0;
/// How high letters are, and about how wide one is.
const LETTER: (f64, f64) = (12.5, 6.9);
/// Tags nearer to one another than this stand in each other's way.
const TAG: f64 = 17.0;
/// A line that is shorter than this would be hidden by its letter.
const HIDDEN: f64 = 30.0;
/// How high cloth is at least on which a title is written under a number.
const TITLED: f64 = 36.0;
/// A picture of several scenes that is higher than this has them beside one another where it is printed, so many in a row:
/// it could else not stand in what is left of a page.
const TALL: f64 = 400.0;
const IN_A_ROW: usize = 3;
/// A title may stand so far off its cloth.
const BESIDE: f64 = 18.0;
/// So many letters of a title are written at most.
const LONGEST: usize = 22;

/// The scenes as one picture. `words` says what a scene is; nothing where it says nothing. `alt` is said to those who
/// do not see it.
pub fn write(panels: &[Panel], unit: DisplayUnit, alt: &str, words: &dyn Fn(Caption) -> String) -> String {
    let mut boxes: Vec<Boxed> = panels
        .iter()
        .filter_map(|panel| {
            let said = panel.caption.map(words).unwrap_or_default();
            Some(Boxed { panel, bounds: grown(panel.bounds()?), said })
        })
        .collect();
    one_scale(&mut boxes);
    let rooms = rooms(&boxes);
    let height = rooms.iter().map(|room| room.y1).fold(1.0, f64::max);
    let printed = printed(&rooms, height);
    let mut picture = Document::new().set("class", "pic");
    if let Some(printed) = &printed {
        // Its box is lower in print than what is said of it here: it is not drawn smaller for that.
        picture = picture
            .set("class", "pic tall")
            .set("preserveAspectRatio", "xMinYMin slice")
            .set("style", format!("--high: {}", number(printed.height)));
    }
    picture = picture
        .set("viewBox", format!("0 0 {} {}", number(WIDTH), number(height)))
        .set("role", "img")
        .set("aria-label", alt);
    for (nth, (boxed, room)) in boxes.iter().zip(&rooms).enumerate() {
        let mut scene = Writing::new(boxed, *room, words).scene(unit);
        if let Some(by) = printed.as_ref().and_then(|printed| printed.moved.get(nth)) {
            let (right, down) = (number(by.x), number(by.y));
            scene = scene.set("style", format!("--right: {right}px; --down: {down}px"));
        }
        picture = picture.add(scene);
    }
    let text = picture.to_string();
    // One element a line is many blanks on a page of many pictures.
    text.replace("\n</", "</").replace(">\n<", "><")
}

/// A scene, how large it is, and what is said under it.
struct Boxed<'a> {
    panel: &'a Panel,
    bounds: Rect,
    said: String,
}

impl Boxed<'_> {
    fn wide(&self) -> f64 {
        self.said.chars().count() as f64 * LETTER.1
    }

    /// How large it can be drawn in such a room.
    fn scale(&self, width: f64, height: f64) -> f64 {
        let (wide, high) = (width - 2.0 * HEAD_ROOM, height - 2.0 * HEAD_ROOM);
        let largest = match self.panel.caption {
            Some(Caption::RolledOut) if self.panel.large => ROLLED,
            _ if self.panel.large => ENLARGED,
            _ => LARGEST,
        };
        (wide / self.bounds.width()).min(high / self.bounds.height()).min(largest)
    }

    /// How high what stands below it is.
    fn foot(&self, width: f64) -> f64 {
        let bar = if self.panel.unscaled { 0.0 } else { BAR.0 + BAR.1 };
        if !self.said.is_empty() && bar > 0.0 && bar + 16.0 + self.wide() > width {
            FOOT + LINE
        } else {
            FOOT
        }
    }
}

/// The front and the back are drawn to one scale: each is given as much room as the other.
fn one_scale(boxes: &mut [Boxed]) {
    let is_view = |own: &Boxed| matches!(own.panel.caption, Some(Caption::Front | Caption::Back));
    let largest = |of: &dyn Fn(&Rect) -> f64| {
        boxes.iter().filter(|own| is_view(own)).map(|own| of(&own.bounds)).fold(0.0, f64::max)
    };
    let (wide, high) = (largest(&Rect::width), largest(&Rect::height));
    for own in boxes.iter_mut().filter(|own| is_view(own)) {
        own.bounds = Rect::from_center_size(own.bounds.center(), (wide, high));
    }
}

/// Nothing is drawn to nothing: a point is given some room.
fn grown(bounds: Rect) -> Rect {
    let (wide, high) = ((1.0 - bounds.width()).max(0.0) / 2.0, (1.0 - bounds.height()).max(0.0) / 2.0);
    bounds.inflate(wide, high)
}

/// Where each scene stands: of two the way that shows both larger.
fn rooms(boxes: &[Boxed]) -> Vec<Rect> {
    let (width, highest) = (WIDTH, HIGHEST);
    let beside = boxes.len() == 2 && {
        let all = |width: f64, height: f64| boxes.iter().map(|own| own.scale(width, height)).product::<f64>();
        // Two scenes in a row make a picture half as high.
        let least = |width: f64, height: f64| {
            boxes.iter().map(|own| own.scale(width, height)).fold(f64::INFINITY, f64::min)
        };
        all(width / 2.0, highest) >= 0.72 * all(width, highest * 0.7)
            && least(width / 2.0, highest) >= 0.7 * least(width, highest * 0.7)
    };
    let mut rooms = Vec::with_capacity(boxes.len());
    if beside {
        let half = width / 2.0;
        let each = |own: &Boxed| own.scale(half, highest);
        let high = boxes.iter().map(|own| own.bounds.height() * each(own)).fold(0.0, f64::max);
        let foot = boxes.iter().map(|own| own.foot(half)).fold(0.0, f64::max);
        let high = high + 2.0 * HEAD_ROOM + foot;
        rooms.extend(
            (0..boxes.len()).map(|nth| Rect::new(half * nth as f64, 0.0, half * (nth + 1) as f64, high)),
        );
    } else {
        let highest = if boxes.len() > 1 { highest * 0.7 } else { highest };
        let mut top = 0.0;
        for own in boxes {
            let high = own.bounds.height() * own.scale(width, highest) + 2.0 * HEAD_ROOM + own.foot(width);
            rooms.push(Rect::new(0.0, top, width, top + high));
            top += high;
        }
    }
    rooms
}

/// How a tall picture is printed.
struct Printed {
    /// How far each scene is moved from where it stands else.
    moved: Vec<Vec2>,
    /// How high all of it is then.
    height: f64,
}

/// Scenes below one another, in rows beside one another; none of what is no taller than others.
fn printed(rooms: &[Rect], height: f64) -> Option<Printed> {
    let is_stacked = rooms.iter().all(|room| room.x0 == 0.0);
    if height <= TALL || rooms.len() < 2 || !is_stacked {
        return None;
    }
    let (mut moved, mut top) = (Vec::with_capacity(rooms.len()), 0.0);
    for row in rooms.chunks(IN_A_ROW) {
        moved.extend(row.iter().enumerate().map(|(nth, room)| Vec2::new(WIDTH * nth as f64, top - room.y0)));
        top += row.iter().map(Rect::height).fold(0.0, f64::max);
    }
    Some(Printed { moved, height: top })
}

/// Room that is taken: half as high and half as wide as what stands there.
#[derive(Clone, Copy)]
struct Taken {
    at: Point,
    high: f64,
    wide: f64,
}

struct Writing<'a> {
    /// What the page says of a scene, and of what is new.
    say: &'a dyn Fn(Caption) -> String,
    own: &'a Boxed<'a>,
    panel: &'a Panel,
    room: Rect,
    scale: f64,
    /// From millimetres, y up, to the picture.
    to: Affine,
}

impl<'a> Writing<'a> {
    fn new(own: &'a Boxed<'a>, room: Rect, say: &'a dyn Fn(Caption) -> String) -> Self {
        let (bounds, foot) = (own.bounds, own.foot(room.width()));
        let scale = own.scale(room.width(), room.height() - foot);
        let middle = Point::new(room.center().x, room.y0 + (room.height() - foot) / 2.0);
        let centre = bounds.center();
        let to =
            Affine::new([scale, 0.0, 0.0, -scale, middle.x - scale * centre.x, middle.y + scale * centre.y]);
        Writing { say, own, panel: own.panel, room, scale, to }
    }

    fn scene(&self, unit: DisplayUnit) -> Group {
        let mut scene = Group::new();
        for drawn in &self.panel.ground {
            match drawn {
                Drawn::Cloth(path, cloth) => scene = scene.add(self.path(path, &cloth.class())),
                Drawn::White(path) => scene = scene.add(self.path(path, "z")),
                Drawn::Line(path, stroke) => {
                    for class in stroke.classes() {
                        scene = scene.add(self.path(path, class));
                    }
                }
            }
        }
        let tags = self.tags();
        let signs = self.panel.marks.iter().filter_map(|mark| match mark {
            Mark::Sign(at, _) => Some(self.to * *at),
            _ => None,
        });
        let mut taken: Vec<Taken> = tags
            .iter()
            .map(|(at, _)| *at)
            .chain(signs)
            .map(|at| Taken { at, high: 9.0, wide: 9.0 })
            .collect();
        // A number over a button would hide that there is one.
        taken.extend(self.panel.marks.iter().filter_map(|mark| match mark {
            Mark::Button(at, _) => Some(Taken { at: self.to * *at, high: 4.0, wide: 4.0 }),
            Mark::Buttonhole(from, to) => {
                Some(Taken { at: self.to * from.midpoint(*to), high: 4.0, wide: 5.0 })
            }
            _ => None,
        }));
        // What lies on another piece is smaller, and keeps its place.
        let mut labels: Vec<&Label> = self.panel.labels.iter().collect();
        labels.sort_by(|one, other| (one.room * one.high).total_cmp(&(other.room * other.high)));
        for label in labels {
            scene = self.label(scene, label, &mut taken);
        }
        for mark in &self.panel.marks {
            scene = self.mark(scene, mark);
        }
        for (at, letter) in tags {
            scene = tag(scene, at, &letter);
        }
        for (at, caption) in self.said() {
            scene = words(scene, at, &shortened(&(self.say)(caption)));
        }
        self.foot(scene, unit)
    }

    fn path(&self, path: &BezPath, class: &str) -> Path {
        Path::new().set("class", class).set("d", rounded_path_data(path, &|point| self.to * point, number))
    }

    /// Where tags stand, clear of one another; both sides of an edge that lie together bear one.
    fn tags(&self) -> Vec<(Point, String)> {
        let mut tags: Vec<(Point, String)> = Vec::new();
        for mark in &self.panel.marks {
            let Mark::Tag { at, along, letter, long } = mark else { continue };
            let at = self.to * *at;
            let way = Vec2::new(along.x, -along.y);
            let way = if way.hypot() > 1e-9 { way / way.hypot() } else { Vec2::new(1.0, 0.0) };
            // A letter would hide a line that is hardly longer than it is wide: it stands beyond its outer end.
            let half = long.map(|long| long * self.scale / 2.0).filter(|half| *half < HIDDEN / 2.0);
            let at = half.map_or(at, |half| {
                let beyond = way * (half + TAG / 2.0 + 2.0);
                let middle = self.to * self.own.bounds.center();
                // Of two ends that are as far out the upper one.
                let (one, other) =
                    if beyond.y <= 0.0 { (at + beyond, at - beyond) } else { (at - beyond, at + beyond) };
                if one.distance(middle) + 1.0 >= other.distance(middle) { one } else { other }
            });
            let near = |at: Point| tags.iter().find(|(other, _)| other.distance(at) < TAG);
            if near(at).is_some_and(|(_, own)| own == letter) {
                continue;
            }
            let steps = (0..12).map(|step| {
                let far = f64::from((step + 1) / 2) * TAG;
                at + way * if step % 2 == 0 { far } else { -far }
            });
            let clear = steps.into_iter().find(|at| near(*at).is_none()).unwrap_or(at);
            tags.push((clear, letter.clone()));
        }
        tags
    }

    /// Where words of the page stand: on what they are said of, or below it where that is lower than they are; of what lies close
    /// to one another they are said once.
    fn said(&self) -> Vec<(Point, Caption)> {
        let mut all: Vec<(Point, Caption)> = Vec::new();
        for mark in &self.panel.marks {
            let Mark::Said(at, caption, high) = mark else { continue };
            let high = high * self.scale;
            let foot = if high < LETTER.0 + 4.0 { high / 2.0 + LETTER.0 } else { 4.0 };
            let at = self.to * *at + Vec2::new(0.0, foot);
            let wide = (self.say)(*caption).chars().count() as f64 * LETTER.1 + 4.0;
            let is_said = all.iter().any(|(other, own)| {
                own == caption && (other.x - at.x).abs() < wide && (other.y - at.y).abs() < 2.0 * LETTER.0
            });
            if !is_said {
                all.push((at, *caption));
            }
        }
        all
    }

    /// A number in a ring, and the title under it where the cloth is wide enough; moved out of the way of what stands there.
    fn label(&self, scene: Group, label: &Label, taken: &mut Vec<Taken>) -> Group {
        let title = shortened(&label.title);
        let wide = title.chars().count() as f64 * LETTER.1 + 8.0;
        let room = label.room * self.scale;
        let has_title = wide <= room && label.high * self.scale >= TITLED && !title.is_empty();
        let ring = label.number.map(|number| number.to_string());
        let at = self.to * label.at;
        let own = match has_title {
            true => Taken { at, high: 20.0, wide: wide / 2.0 },
            false => Taken { at, high: 10.0, wide: 10.0 },
        };
        let inside =
            self.room.y0 + own.high..=self.room.y1 - self.own.foot(self.room.width()) - own.high / 2.0;
        let covered: Vec<Rect> = label
            .clear_of
            .iter()
            .map(|rect| Rect::from_points(self.to * rect.origin(), self.to * Point::new(rect.x1, rect.y1)))
            .collect();
        let clear = |at: Point, own: Taken| {
            inside.contains(&at.y)
                && covered.iter().all(|rect| {
                    let own = Rect::from_center_size(at, (2.0 * own.wide, 2.0 * own.high));
                    own.x1 <= rect.x0 || own.x0 >= rect.x1 || own.y1 <= rect.y0 || own.y0 >= rect.y1
                })
                && taken.iter().all(|other| {
                    let off = other.at - at;
                    off.y.abs() >= other.high + own.high || off.x.abs() >= other.wide + own.wide
                })
        };
        let (on, off) = places(label, own, self.scale);
        let first = |places: &[Vec2], own: Taken| {
            places.iter().map(|by| at + *by).find(|at| clear(*at, own)).map(|at| Taken { at, ..own })
        };
        // Rather its number alone on its cloth than its title far beside that.
        let ringed_alone = || {
            let own = Taken { at, high: 10.0, wide: 10.0 };
            let is_titled = has_title && ring.is_some();
            is_titled.then(|| first(&places(label, own, self.scale).0, own)).flatten()
        };
        let (near, far): (Vec<Vec2>, Vec<Vec2>) = off.into_iter().partition(|by| by.y.abs() <= BESIDE);
        let stands = first(&on, own)
            .or_else(|| first(&near, own))
            .or_else(ringed_alone)
            .or_else(|| first(&far, own))
            .unwrap_or(own);
        taken.push(stands);
        let (at, has_title) = (stands.at, has_title && stands.wide > 10.0);
        match (ring, has_title) {
            (Some(ring), true) => {
                words(ringed(scene, at - Vec2::new(0.0, 9.0), &ring), at + Vec2::new(0.0, 13.0), &title)
            }
            (Some(ring), false) if room > 12.0 => ringed(scene, at, &ring),
            (None, true) => words(scene, at + Vec2::new(0.0, 4.0), &title),
            _ => scene,
        }
    }

    fn mark(&self, scene: Group, mark: &Mark) -> Group {
        match mark {
            Mark::Tag { .. } => scene,
            Mark::Sign(at, nth) => signs::sign(scene, self.to * *at, *nth),
            Mark::Bar(at, along) => {
                let at = self.to * *at;
                let across = Vec2::new(along.y, along.x);
                let across =
                    if across.hypot() > 1e-9 { across / across.hypot() * 7.0 } else { Vec2::new(0.0, 7.0) };
                scene.add(line(at - across, at + across, "c")).add(line(at - across, at + across, "i"))
            }
            Mark::Arrow(from, to) => arrow(scene, self.to * *from, self.to * *to),
            Mark::Pointer(at, way, long) => {
                let at = self.to * *at;
                let way = Vec2::new(way.x, -way.y);
                let way = if way.hypot() > 1e-9 { way / way.hypot() } else { Vec2::new(0.0, 1.0) };
                arrow(scene, at - way * *long, at)
            }
            Mark::Said(..) => scene,
            Mark::Words(at, said) => words(scene, self.to * *at + Vec2::new(0.0, 4.0), &shortened(said)),
            Mark::Button(at, wide) => {
                let at = self.to * *at;
                let radius = (wide * self.scale / 2.0).clamp(2.6, 14.0);
                scene
                    .add(circle(at, radius, "g"))
                    .add(circle(at - Vec2::new(radius * 0.32, 0.0), 0.8, "u"))
                    .add(circle(at + Vec2::new(radius * 0.32, 0.0), 0.8, "u"))
            }
            Mark::Buttonhole(from, to) => {
                let (from, to) = (self.to * *from, self.to * *to);
                let way = if (to - from).hypot() > 1e-9 {
                    (to - from) / (to - from).hypot()
                } else {
                    Vec2::new(1.0, 0.0)
                };
                let across = Vec2::new(-way.y, way.x) * 2.6;
                let bar = |at: Point| line(at - across, at + across, "i");
                scene.add(line(from, to, "c")).add(line(from, to, "i")).add(bar(from)).add(bar(to))
            }
            Mark::Iron(at) => iron(scene, self.to * *at),
        }
    }

    /// The scale and the caption.
    fn foot(&self, mut scene: Group, unit: DisplayUnit) -> Group {
        let foot = self.room.y1 - 8.0;
        let mut left = self.room.x0;
        if !self.panel.unscaled {
            let (long, said) = bar(unit, self.scale);
            let (start, end) = (left + 8.0, left + 8.0 + long * self.scale);
            let shape = format!("M{0} {1}v-5v5H{2}v-5", number(start), number(foot), number(end));
            scene = scene.add(Path::new().set("class", "i").set("d", shape));
            let text = Text::new(said).set("class", "m").set("x", number(end + 4.0)).set("y", number(foot));
            scene = scene.add(text);
            left += BAR.0 + BAR.1;
        }
        if self.own.said.is_empty() {
            return scene;
        }
        let half = self.own.wide() / 2.0;
        let two_lines = self.own.foot(self.room.width()) > FOOT;
        let middle = if two_lines || self.panel.unscaled {
            self.room.center().x
        } else {
            f64::midpoint(left, self.room.x1)
        };
        let middle = middle.min(self.room.x1 - half - 4.0);
        words(scene, Point::new(middle, if two_lines { foot - LINE } else { foot }), &self.own.said)
    }
}

/// How far a label may be moved, the best first, on its cloth and off it: up or down, or sideways where only that keeps it on
/// its cloth. Off its cloth it would be read as the name of what lies beside it.
fn places(label: &Label, own: Taken, scale: f64) -> (Vec<Vec2>, Vec<Vec2>) {
    const DOWN: [f64; 11] = [0.0, 18.0, -18.0, 34.0, -34.0, 52.0, -52.0, 70.0, -70.0, 90.0, -90.0];
    const FAR_OFF: f64 = 52.0;
    const ASIDE: [f64; 8] = [20.0, -20.0, 36.0, -36.0, 54.0, -54.0, 72.0, -72.0];
    // A ring may hang over by a little.
    let high = label.high * scale / 2.0 - own.high + 8.0;
    let wide = label.room * scale / 2.0 - own.wide;
    let (on, off): (Vec<f64>, Vec<f64>) = DOWN.into_iter().partition(|down| down.abs() <= high.max(0.0));
    let aside = ASIDE.into_iter().filter(|aside| aside.abs() <= wide).map(|aside| Vec2::new(aside, 0.0));
    let down = |down: f64| Vec2::new(0.0, down);
    // Too far off it would be no one's.
    let off = off.into_iter().filter(|off| off.abs() <= FAR_OFF);
    (on.into_iter().map(down).chain(aside).collect(), off.map(down).collect())
}

/// How long the bar of a scale is, in millimetres, and what is written at it.
fn bar(unit: DisplayUnit, scale: f64) -> (f64, String) {
    let fits = |long: &f64| long * scale <= BAR.0;
    if unit == DisplayUnit::Inch {
        let inches = [12.0, 8.0, 4.0, 2.0, 1.0, 0.5, 0.25];
        let long = inches.into_iter().find(|inches| fits(&(inches * INCH))).unwrap_or(0.25);
        return (long * INCH, format!("{long} in"));
    }
    let centimetres = [50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5];
    let long = centimetres.into_iter().find(|long| fits(&(long * 10.0))).unwrap_or(0.5);
    (long * 10.0, format!("{long} cm"))
}

fn shortened(title: &str) -> String {
    let title: String = title.chars().filter(|letter| !letter.is_control()).collect();
    if title.chars().count() <= LONGEST {
        return title;
    }
    let start: String = title.chars().take(LONGEST - 1).collect();
    start.trim_end().to_owned() + "…"
}

/// A number to a tenth; whole ones have no point, and what is not finite is nothing.
pub(super) fn number(value: f64) -> f64 {
    if value.is_finite() { (value * 10.0).round() / 10.0 + 0.0 } else { 0.0 }
}
