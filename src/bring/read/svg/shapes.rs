//! The course of basic shapes (SVG 2, 10).

use super::course::{Drawing, rectangle};
use kurbo::{Affine, Arc, Point, Vec2};
use roxmltree::Node;

/// What a basic shape draws; `number` is how large and where it is, by the names of its attributes.
pub fn shape(node: &Node<'_, '_>, to_mm: Affine, number: &dyn Fn(&str) -> f64) -> Drawing {
    let mut drawing = Drawing::new(to_mm);
    match node.tag_name().name() {
        "rect" => {
            let (width, height) = (number("width"), number("height"));
            if width > 0.0 && height > 0.0 {
                let round =
                    |name: &str, other: &str| number(if node.has_attribute(name) { name } else { other });
                let corners = [round("rx", "ry"), round("ry", "rx")];
                rectangle([number("x"), number("y"), width, height], corners, &mut drawing);
            }
        }
        tag @ ("circle" | "ellipse") => {
            let (rx, ry) = match tag {
                "circle" => (number("r"), number("r")),
                _ => (number("rx"), number("ry")),
            };
            if rx > 0.0 && ry > 0.0 {
                let (centre, half) = (Point::new(number("cx"), number("cy")), std::f64::consts::PI);
                drawing.move_to(centre + Vec2::new(rx, 0.0));
                for (from, to) in [(0.0, -rx), (half, rx)] {
                    let arc = Arc::new(centre, Vec2::new(rx, ry), from, half, 0.0);
                    drawing.arc(&arc, centre + Vec2::new(to, 0.0));
                }
                drawing.close();
            }
        }
        "line" => {
            drawing.move_to(Point::new(number("x1"), number("y1")));
            drawing.line_to(Point::new(number("x2"), number("y2")));
        }
        tag => {
            let points = svgtypes::PointsParser::from(node.attribute("points").unwrap_or_default());
            for (at, (x, y)) in points.enumerate() {
                match at {
                    0 => drawing.move_to(Point::new(x, y)),
                    _ => drawing.line_to(Point::new(x, y)),
                }
            }
            if tag == "polygon" {
                drawing.close();
            }
        }
    }
    drawing
}
