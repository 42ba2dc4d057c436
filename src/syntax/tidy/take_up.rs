//! Take-ups.

use super::expression::{Printer, dotted};
use crate::syntax::tree::{
    DartCloth, DartLaid, DartWays, EdgePlace, Name, Pleat, PleatKind, PleatPlace, PressedWay, SlitCut,
    SlitEnd, TakeUp, TakeUpForm, WalkDart,
};

impl Printer<'_> {
    pub(super) fn take_up(&self, take_up: &TakeUp) -> String {
        let name = &take_up.name.text;
        let (cloth, ways) = match &take_up.form {
            TakeUpForm::Dart { cloth, ways } => (cloth, ways),
            TakeUpForm::Pleat(pleat) => {
                let word = if pleat.tuck { "tuck" } else { "pleat" };
                return format!("{word} {name} on {} {}", pleat.edge.text, self.pleat_ways(pleat, None));
            }
            TakeUpForm::Slit { cut, window } => {
                let cut = match cut {
                    SlitCut::Inside { from, to } => format!("from {} to {}", self.expr(from), self.expr(to)),
                    SlitCut::FromEdge { edge, place, end } => {
                        let end = match end {
                            SlitEnd::Way(way, long) => format!("{} {}", pressed(*way), self.expr(long)),
                            SlitEnd::To(place) => format!("to {}", self.expr(place)),
                        };
                        format!("on {} {} {end}", edge.text, self.edge_place(place))
                    }
                };
                let window = window
                    .as_ref()
                    .map_or_else(String::new, |window| format!(" window {}", self.expr(window)));
                return format!("slit {name} {cut}{window}");
            }
        };
        let cloth = match cloth {
            DartCloth::OnEdge { edge, place, width, to } => format!(
                "on {} {} width {} to {}",
                edge.text,
                self.edge_place(place),
                self.expr(width),
                self.expr(to)
            ),
            DartCloth::Inside { at, width, up, down } => format!(
                "at {} width {} up {} down {}",
                self.expr(at),
                self.expr(width),
                self.expr(up),
                self.expr(down)
            ),
        };
        format!("dart {name} {cloth} {}", self.dart_ways(ways))
    }

    /// What follows the edge of a pleat or tuck; `nothing` is where one that is let in ends in nothing.
    pub(super) fn pleat_ways(&self, pleat: &Pleat, nothing: Option<&Name>) -> String {
        let place = match &pleat.place {
            PleatPlace::Fold => "at the fold".to_owned(),
            PleatPlace::On(place) => self.edge_place(place),
        };
        let mut words = format!("{place} depth {}", self.expr(&pleat.depth));
        let (kind, wide) = match &pleat.kind {
            PleatKind::Knife => ("", None),
            PleatKind::Box(wide) => (" box", wide.as_ref()),
            PleatKind::Inverted(wide) => (" inverted", wide.as_ref()),
        };
        words += kind;
        if let Some(wide) = wide {
            words += &format!(" {} wide", self.expr(wide));
        }
        if let Some((count, apart)) = &pleat.row {
            words += &format!(" count {} apart {}", self.expr(count), self.expr(apart));
        }
        let named =
            [("toward", pleat.toward.as_ref()), ("to", pleat.to.as_ref()), ("to nothing at", nothing)];
        for (word, named) in named {
            if let Some(named) = named {
                words += &format!(" {word} {}", named.text);
            }
        }
        if let Some(stitched) = &pleat.stitched {
            words += &format!(" stitched down {}", self.expr(stitched));
        }
        if let Some(along) = &pleat.along {
            words += &format!(" along {}", along.text);
        }
        if pleat.trued {
            words += " trued";
        }
        words
    }

    pub(super) fn walk_dart(&self, dart: &WalkDart, to: &Name) -> String {
        format!("dart about {} to {} {}", self.expr(&dart.about), to.text, self.dart_ways(&dart.ways))
    }

    pub(super) fn dart_ways(&self, ways: &DartWays) -> String {
        let mut words = String::new();
        if let Some(stopping) = &ways.stopping {
            words = format!("stopping {} short ", self.expr(stopping));
        }
        words += &laid(&ways.laid);
        if ways.trued {
            words += " trued";
        }
        words
    }

    /// Where nothing but a place stands behind the word, as of notches and divisions: it is counted without `at`.
    pub(super) fn counted_place(&self, place: &EdgePlace) -> String {
        let words = self.edge_place(place);
        match place {
            EdgePlace::At { from: Some(_), .. } => words.strip_prefix("at ").unwrap_or(&words).to_owned(),
            EdgePlace::At { from: None, .. } | EdgePlace::Middle | EdgePlace::Fold => words,
        }
    }

    pub(super) fn edge_place(&self, place: &EdgePlace) -> String {
        match place {
            EdgePlace::Middle => "in the middle".to_owned(),
            EdgePlace::Fold => "at the fold".to_owned(),
            EdgePlace::At { value, from: None } => format!("at {}", self.expr(value)),
            EdgePlace::At { value, from: Some(from) } => {
                format!("at {} from {}", self.expr(value), dotted(from))
            }
        }
    }
}

/// `pressed toward centre`, `cut open`
pub(super) fn laid(laid: &DartLaid) -> String {
    match laid {
        DartLaid::Toward(name) => format!("pressed toward {}", name.text),
        DartLaid::Pressed(way) => format!("pressed {}", pressed(*way)),
        DartLaid::CutOpen => "cut open".to_owned(),
    }
}

fn pressed(way: PressedWay) -> &'static str {
    match way {
        PressedWay::Up => "up",
        PressedWay::Down => "down",
        PressedWay::Left => "left",
        PressedWay::Right => "right",
    }
}
