//! Marks that are as large at any scale: signs of points that meet (dot, triangle, square, lozenge, cross, and these filled), letters, numbers, arrows.

use super::write::number;
use crate::shape::{Point, Vec2};
use svg::node::element::{Circle, Group, Path, Rectangle, Text};

/// Draws the sign of that place in their order.
pub fn sign(scene: Group, at: Point, nth: usize) -> Group {
    let class = if nth < 5 { "g" } else { "a" };
    let path = |data: &str| {
        let data = format!("M{} {}{data}", number(at.x), number(at.y));
        Path::new().set("class", class).set("d", data)
    };
    match nth % 5 {
        0 => scene.add(circle(at, 4.4, class)),
        1 => scene.add(path("m0 -5.4l5.2 9.2h-10.4z")),
        2 => scene.add(path("m-4.2 -4.2h8.4v8.4h-8.4z")),
        3 => scene.add(path("m0 -6.2l5 6.2l-5 6.2l-5 -6.2z")),
        _ => scene.add(path("m-1.8 -5.4h3.6v3.6h3.6v3.6h-3.6v3.6h-3.6v-3.6h-3.6v-3.6h3.6z")),
    }
}

/// The letter of what is sewn, white in a dark square.
pub fn tag(scene: Group, at: Point, letter: &str) -> Group {
    let wide = 15.0 + 8.0 * (letter.chars().count().max(1) - 1) as f64;
    let ground = Rectangle::new()
        .set("class", "q")
        .set("x", number(at.x - wide / 2.0))
        .set("y", number(at.y - 8.0))
        .set("width", number(wide))
        .set("height", 16);
    words(scene.add(ground), at + Vec2::new(0.0, 4.5), letter)
}

/// The number of a piece, in a ring.
pub fn ringed(scene: Group, at: Point, number: &str) -> Group {
    let radius = if number.chars().count() > 1 { 10.5 } else { 8.5 };
    words(scene.add(circle(at, radius, "g")), at + Vec2::new(0.0, 4.4), number)
}

/// Words, centred on their foot line.
pub fn words(scene: Group, at: Point, words: &str) -> Group {
    scene.add(Text::new(words).set("x", number(at.x)).set("y", number(at.y)))
}

/// A circle.
pub fn circle(at: Point, radius: f64, class: &str) -> Circle {
    Circle::new().set("class", class).set("cx", number(at.x)).set("cy", number(at.y)).set("r", number(radius))
}

/// A straight line.
pub fn line(from: Point, to: Point, class: &str) -> Path {
    let shape = format!("M{} {}L{} {}", number(from.x), number(from.y), number(to.x), number(to.y));
    Path::new().set("class", class).set("d", shape)
}

/// An arrow; nothing where it has no length.
pub fn arrow(scene: Group, from: Point, to: Point) -> Group {
    let way = to - from;
    if way.hypot() < 1.0 {
        return scene;
    }
    let way = way / way.hypot();
    let across = Vec2::new(-way.y, way.x);
    let back = to - way * 9.0;
    let (one, other) = (back + across * 4.0, back - across * 4.0);
    let head = format!(
        "M{} {}L{} {}L{} {}Z",
        number(to.x),
        number(to.y),
        number(one.x),
        number(one.y),
        number(other.x),
        number(other.y)
    );
    scene
        .add(line(from, back, "c"))
        .add(line(from, back, "i"))
        .add(Path::new().set("class", "a").set("d", head))
}

/// A flat iron.
pub fn iron(scene: Group, at: Point) -> Group {
    let shape = format!(
        "M{} {}c1 -9 8 -12 17 -12h9v12zm9 -15c0 -6 14 -6 15 0",
        number(at.x - 13.0),
        number(at.y + 6.0)
    );
    scene.add(Path::new().set("class", "g").set("d", shape))
}
