//! Sewing: step by step, with a picture, a tick box, sentences, facts, and what the maker says.

use super::Page;
use super::write::{Html, NAME_LETTERS, SAID_LETTERS, Writer, escaped, isolated, said};
use crate::sheet::{Figure, FigureKind, Row, Run, Text};
use minijinja::Value;
use serde::Serialize;

#[derive(Debug, Serialize)]
pub struct Sewing {
    about: Vec<Html>,
    groups: Vec<Group>,
}

#[derive(Debug, Serialize)]
struct Group {
    number: usize,
    title: Html,
    steps: Vec<Step>,
}

#[derive(Debug, Serialize)]
struct Step {
    code: String,
    picture: Html,
    sentence: Html,
    facts: Vec<Html>,
    words: Html,
}

pub fn sewing(page: &Page, writer: &mut Writer) -> Sewing {
    let mut groups: Vec<Group> = Vec::new();
    let mut at = None;
    for row in &page.facts.rows {
        if at != Some(row.group) {
            at = Some(row.group);
            let title = page.facts.plan.groups.get(row.group).map_or("", |group| &group.title);
            groups.push(Group { number: row.group + 1, title: said(title, NAME_LETTERS), steps: Vec::new() });
        }
        let step = step(page, writer, row);
        if let Some(group) = groups.last_mut() {
            group.steps.push(step);
        }
    }
    Sewing { about: about(page, writer), groups }
}

/// What holds in every step.
fn about(page: &Page, writer: &Writer) -> Vec<Html> {
    let say = page.say;
    let mut lines = Vec::new();
    let allowance = page.usual_allowance();
    if let Some(allowance) = allowance {
        let figure = writer.figure(&Figure { kind: FigureKind::Length, values: vec![Some(allowance)] });
        lines.push(format!("{} {figure}.", escaped(say.allowance_usual)));
    }
    if page.sizes.len() > 1 {
        lines.push(format!("{} {}.", escaped(say.pictures_size), isolated(&page.shown_size(), NAME_LETTERS)));
    }
    lines.push(escaped(say.wearers_left));
    if page.facts.plan.groups.iter().all(|group| group.said.is_none()) && !page.facts.plan.groups.is_empty() {
        lines.push(escaped(say.worked_out));
    }
    lines.into_iter().map(Value::from_safe_string).collect()
}

fn step(page: &Page, writer: &mut Writer, row: &Row) -> Step {
    let action = row.action(&page.facts.plan);
    let words = action.and_then(|action| action.words.as_deref()).unwrap_or("");
    Step {
        code: row.code.clone(),
        picture: Value::from(""),
        sentence: writer.text(&plainly(page, row)),
        facts: Vec::new(),
        words: said(words, SAID_LETTERS),
    }
}

/// What the step says itself: the trade's word, and what it is done to.
fn plainly(page: &Page, row: &Row) -> Text {
    let plan = &page.facts.plan;
    let Some(action) = row.action(plan) else { return Text::default() };
    let mut text = Text::words(super::write::spoken(action.verb.words()));
    for (at, target) in row.targets(plan).iter().enumerate() {
        let name = page.target_name(target.target);
        let joint = if at == 0 { " " } else { ", " };
        text = text.then([Run::Words(format!("{joint}{}", page.labelled(&name)))]);
        if let Some(letter) = page.facts.letters.letter(action, target) {
            text = text.then([Run::Words(" ".to_owned()), Run::Letter(letter)]);
        }
    }
    if let Some(layer) = action.layer {
        let layer = page.facts.garment.layer(layer).name.to_string();
        text = text.then([Run::Words(format!(" ({layer})"))]);
    }
    text
}
