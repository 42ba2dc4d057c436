//! Sewing: step by step, with a picture, a tick box, sentences, facts, and what the maker says.

use super::Page;
use super::write::{Html, NAME_LETTERS, SAID_LETTERS, Writer, escaped, isolated, said};
use crate::sheet::pictures::{Caption, Picture, Pictures};
use crate::sheet::sentences::{StepText, step_texts};
use crate::sheet::words::Words;
use crate::sheet::{Language, NumberedPiece, Row, Run};
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
    sentences: Html,
    facts: Vec<Html>,
    words: Html,
}

pub fn sewing(page: &Page, writer: &mut Writer, pictures: &Pictures, language: Language) -> Sewing {
    let texts = step_texts(page.facts, language);
    let mut about = about(page, writer);
    about.extend(in_no_step(page, &texts).map(Value::from_safe_string));
    let mut groups: Vec<Group> = Vec::new();
    let mut at = None;
    for (nth, row) in page.facts.rows.iter().enumerate() {
        if at != Some(row.group) {
            at = Some(row.group);
            let group = page.facts.plan.groups.get(row.group);
            let by_phase = group.and_then(|group| Some(Words::of(language).phases.title(group.called?)));
            let title = by_phase.unwrap_or(group.map_or("", |group| &group.title));
            groups.push(Group { number: row.group + 1, title: said(title, NAME_LETTERS), steps: Vec::new() });
        }
        let text = texts.get(nth).cloned().unwrap_or_default();
        let step = step(page, writer, row, &text, pictures.steps.get(nth).and_then(Option::as_ref));
        if let Some(group) = groups.last_mut() {
            group.steps.push(step);
        }
    }
    Sewing { about, groups }
}

/// What holds in every step.
fn about(page: &Page, writer: &Writer) -> Vec<Html> {
    let say = page.say;
    let mut lines = Vec::new();
    if let Some(allowance) = page.usual_allowance() {
        lines.push(format!("{} {}.", escaped(say.allowance_usual), writer.figure(&allowance)));
    }
    if page.sizes.len() > 1 {
        lines.push(format!("{} {}.", escaped(say.pictures_size), isolated(&page.shown_size(), NAME_LETTERS)));
    }
    lines.push(escaped(say.wearers_left));
    let groups = &page.facts.plan.groups;
    if !groups.is_empty() && groups.iter().all(|group| group.said.is_none()) {
        lines.push(escaped(say.worked_out));
    }
    lines.into_iter().map(Value::from_safe_string).collect()
}

/// Pieces that are cut and that no step names: what becomes of them a stranger cannot know.
fn in_no_step(page: &Page, texts: &[StepText]) -> Option<String> {
    if texts.is_empty() {
        return None;
    }
    let runs =
        || texts.iter().flat_map(|text| text.sentences.iter().chain(&text.facts)).flat_map(|said| &said.0);
    let is_named = |number: usize| runs().any(|run| matches!(run, Run::Piece(own, _) if *own == number));
    // What is fused on is told by the piece that it goes onto.
    let garment = page.facts.garment;
    let is_fused = |piece: &&NumberedPiece| piece.parts.iter().all(|part| garment.layer(part.layer).fused);
    let left = page.facts.pieces.iter().filter(|piece| !is_fused(piece) && !is_named(piece.number));
    let left: Vec<String> =
        left.map(|piece| format!("{} {}", piece.number, isolated(&piece.title, NAME_LETTERS))).collect();
    (!left.is_empty()).then(|| format!("{} {}.", escaped(page.say.in_no_step), left.join(", ")))
}

fn step(page: &Page, writer: &mut Writer, row: &Row, text: &StepText, picture: Option<&Picture>) -> Step {
    let mut sentences = String::new();
    for sentence in &text.sentences {
        if !sentences.is_empty() {
            sentences.push(' ');
        }
        sentences.push_str(&writer.html(sentence));
    }
    let picture = picture.map_or_else(String::new, |picture| {
        let first = text.sentences.first().map_or_else(String::new, |sentence| writer.plain(sentence));
        let alt = format!("{} {}: {first}", page.say.picture_of_step, row.code);
        picture.svg(&super::write::told(&alt), &|caption| caption_words(page, caption))
    });
    Step {
        code: row.code.clone(),
        picture: Value::from_safe_string(picture),
        sentences: Value::from_safe_string(sentences),
        facts: text.facts.iter().map(|fact| Value::from_safe_string(writer.html(fact))).collect(),
        words: said(text.words.as_deref().unwrap_or(""), SAID_LETTERS),
    }
}

/// What a scene is.
pub fn caption_words(page: &Page, caption: Caption) -> String {
    let say = page.say;
    let words = match caption {
        Caption::WhichEdges => say.scene_edges,
        Caption::UnderTheNeedle => say.scene_needle,
        Caption::RolledOut => say.scene_rolled,
        Caption::Section => say.scene_section,
        Caption::WrongSideUp => say.scene_wrong,
        Caption::Front => say.front,
        Caption::Back => say.back,
        Caption::Pieces => say.scene_pieces,
        Caption::Added => say.added,
    };
    words.to_owned()
}
