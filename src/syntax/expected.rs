//! What would have fitted: one damaged statement is parsed again with recovery off, and pest's
//! furthest failure is put into words that a maker knows.

use super::build::Context;
use super::grammar::{Grammar, Rule};
use pest::Parser;
use pest::error::{ErrorVariant, InputLocation};

/// Where a damaged statement stopped being one, and what would have fitted there.
#[derive(Clone, Debug, Default)]
pub(super) struct Expected {
    /// Offset in the statement's text.
    pub at: usize,
    /// Words of the language.
    pub words: Vec<String>,
    /// Signs, as `=` or `{`.
    pub signs: Vec<&'static str>,
    /// Other things, as "a value".
    pub things: Vec<&'static str>,
    /// The statement could have ended there.
    pub end: bool,
}

impl Expected {
    /// What may follow any value comes last, and `in` that begins `in every size` is reported as that.
    fn tidy(&mut self) {
        if let Some(grade) = self.words.iter().position(|word| word == "grade") {
            self.words.remove(grade);
            self.words.push("grade".to_owned());
            if let Some(at) = self.words.iter().position(|word| word == "in") {
                self.words.remove(at);
                self.words.push("in every size".to_owned());
            }
        }
    }

    /// All of it as a list of words, the most telling first; at most six of them.
    pub fn list(&self) -> String {
        let mut all: Vec<String> = self.things.iter().map(|thing| (*thing).to_owned()).collect();
        all.extend(self.words.iter().map(|word| format!("`{word}`")));
        all.extend(self.signs.iter().map(|sign| format!("`{sign}`")));
        let many = all.len() > 6;
        all.truncate(6);
        if all.is_empty() || (self.end && !many) {
            all.push("the end of the statement".to_owned());
        }
        match all.split_last() {
            Some((last, rest)) if many => format!("{}, {last} and the like", rest.join(", ")),
            Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
            Some((last, _)) => last.clone(),
            None => String::new(),
        }
    }
}

/// Parses one statement strictly; nothing if it is sound after all.
pub(super) fn expected(context: Context, statement: &str) -> Option<Expected> {
    let marked = format!("\u{1}{statement}");
    let error = Grammar::parse(strict_rule(context), &marked).err()?;
    let at = match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => at.saturating_sub(1),
    };
    let mut expected = Expected { at, ..Expected::default() };
    if let ErrorVariant::ParsingError { positives, .. } = error.variant {
        for rule in positives {
            put_into_words(rule, &mut expected);
        }
        expected.tidy();
    }
    Some(expected)
}

/// Whether the text is a sound statement in that context.
pub(super) fn fits(context: Context, statement: &str) -> bool {
    Grammar::parse(strict_rule(context), &format!("\u{1}{statement}")).is_ok()
}

fn strict_rule(context: Context) -> Rule {
    match context {
        Context::File => Rule::s_file,
        Context::Body => Rule::s_body,
        Context::Fitting => Rule::s_fitting,
        Context::FittedBody => Rule::s_fitted,
        Context::Fabric => Rule::s_fabric,
        Context::Piece => Rule::s_piece,
        Context::Walk => Rule::s_walk,
        Context::Seam => Rule::s_seam,
        Context::Place => Rule::s_place,
        Context::Closure => Rule::s_closure,
        Context::Strap => Rule::s_strap,
        Context::Steps => Rule::s_steps,
        Context::Group => Rule::s_group,
    }
}

fn put_into_words(rule: Rule, expected: &mut Expected) {
    let words: &[&str] = match rule {
        Rule::path => &["curve", "arc"],
        Rule::direction => {
            add(&mut expected.things, "a direction");
            &["up", "down", "left", "right", "square to", "along", "toward"]
        }
        Rule::graded => &["grade"],
        Rule::everysize => &["in every size"],
        Rule::fit => &["easing", "gathering", "stretching"],
        Rule::amount => &["by", "until"],
        Rule::finishing => {
            &["hem", "bound", "casing", "elastic", "tape", "turned under onto", "overlocked", "raw"]
        }
        Rule::fasteners => &["buttons", "snaps", "hooks", "toggles", "buckle", "ties"],
        Rule::walk => &["from"],
        Rule::rectangle => &["rectangle"],
        Rule::strip => &["strip of"],
        Rule::copy => &["copy of"],
        Rule::rest => &["rest of"],
        Rule::parts => &[],
        Rule::stitch => &["stitch"],
        Rule::seam_tape => &["tape"],
        Rule::solved => &["between"],
        Rule::neatened => &["neatened"],
        Rule::counted
        | Rule::unit
        | Rule::sign
        | Rule::each
        | Rule::run
        | Rule::begins_run
        | Rule::boxed_end => &[],
        _ => {
            other(rule, expected);
            &[]
        }
    };
    for word in words {
        add(&mut expected.words, (*word).to_owned());
    }
}

fn other(rule: Rule, expected: &mut Expected) {
    let sign = match rule {
        Rule::open => "{",
        Rule::rbrace => "}",
        Rule::rbracket => ")",
        Rule::equals => "=",
        Rule::slash => "/",
        Rule::dots => "..",
        Rule::comma => ",",
        _ => "",
    };
    if !sign.is_empty() {
        return add(&mut expected.signs, sign);
    }
    let thing = match rule {
        Rule::EOI => {
            expected.end = true;
            return;
        }
        Rule::addop | Rule::times | Rule::over | Rule::lost | Rule::misread => return,
        Rule::addplus => return add(&mut expected.signs, "+"),
        Rule::gap_from => return add(&mut expected.words, "from".to_owned()),
        Rule::gap_middle => return add(&mut expected.words, "in the middle".to_owned()),
        Rule::relation => "a sign of comparison like `=` or `>=`",
        Rule::name | Rule::nlist | Rule::without => "a name",
        Rule::qname
        | Rule::qlist
        | Rule::use_of
        | Rule::sewn_place
        | Rule::uses
        | Rule::chain
        | Rule::seam_chain
        | Rule::round
        | Rule::ring_chain
        | Rule::sewn
        | Rule::sewns
        | Rule::step_target
        | Rule::step_targets
        | Rule::stacked
        | Rule::alongside
        | Rule::band_edges
        | Rule::faced_edges
        | Rule::own_dart
        | Rule::side => "a name like `front.side`",
        Rule::text => "a text in `\"…\"`",
        Rule::sizename | Rule::sizelist => "a size's name",
        Rule::stitchword => "a stitch's name or number",
        Rule::pin => "the digits of a pin",
        Rule::unitword => "a unit (`mm`, `cm`, `m`, `in`, `ft`, `yd`)",
        Rule::step | Rule::lone_step | Rule::slip_steps => "a step like `+0.6`",
        Rule::directed => "an amount `along` or `across`",
        Rule::price => "a price like `18.50 per m`",
        Rule::plain => "a number",
        Rule::whole => "a whole number from 1",
        Rule::anchor => "a distance `below` or `above` a corner",
        Rule::place_on | Rule::edge_place => "a place like `8 from side` or `in the middle`",
        Rule::value | Rule::expr | Rule::gexpr | Rule::gvalue | Rule::cond | Rule::group | Rule::call => {
            "a value"
        }
        Rule::quantity | Rule::loose | Rule::number | Rule::divisor => "a value",
        _ => {
            // Keywords are rules named after their word.
            let name = format!("{rule:?}");
            if let Some(word) = name.strip_prefix("k_") {
                let word = match word {
                    "oneway" => "one-way",
                    "turnup" => "turn-up",
                    "twopart" => "two-part",
                    word => word,
                };
                add(&mut expected.words, word.to_owned());
            }
            return;
        }
    };
    add(&mut expected.things, thing);
}

fn add<T: PartialEq>(list: &mut Vec<T>, item: T) {
    if !list.contains(&item) {
        list.push(item);
    }
}
