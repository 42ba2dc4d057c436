//! What a text says does not hang on how it is written: the order of its facts and pieces, which side of
//! a plain seam is named first, and what its pieces are called. Over every example and every text that
//! makes a mistake: the sewn surface keeps its numbers, and the same kinds of mistakes are reported.

use super::mutations::Dice;
use crate::cases::cases;
use fustian::sewing::surface::{Gluing, Surface};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tree::{Statement, StatementNode};
use fustian::syntax::{FUNCTIONS, KEYWORDS, parse};
use fustian::{Compiled, compile};
use proptest::prelude::*;
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::ops::Range;
use std::path::Path;
use std::sync::LazyLock;

/// Texts by name, of the folder of examples or of mistakes.
type Texts = BTreeMap<String, String>;

fn texts(folder: &str) -> Texts {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let texts = entries.filter(|path| path.extension().is_some_and(|extension| extension == "fus"));
    let name = |path: &Path| path.file_name().and_then(|name| name.to_str()).unwrap().to_owned();
    texts.map(|path| (name(&path), fs::read_to_string(&path).unwrap())).collect()
}

static EXAMPLES: LazyLock<Texts> = LazyLock::new(|| texts("examples"));
static MISTAKES: LazyLock<Texts> = LazyLock::new(|| {
    let mut all = texts("examples/mistakes");
    let helpers = texts("examples/mistakes/with");
    all.extend(helpers.into_iter().map(|(name, text)| (format!("with/{name}"), text)));
    all
});

/// What must stay as it is: kinds of mistakes, and of every size the numbers of the surface.
#[derive(Clone, Debug, PartialEq)]
struct Told {
    slugs: BTreeSet<&'static str>,
    surfaces: Vec<Option<Numbers>>,
}

/// How many parts hang together, the sheets (faces, Euler's number, rims, orientable), and how many twists.
#[derive(Clone, Debug, PartialEq)]
struct Numbers {
    components: usize,
    sheets: Vec<(usize, i64, usize, bool)>,
    twists: bool,
}

fn numbers(surface: &Surface) -> Numbers {
    let sheets = Gluing::seams(surface).sheets(surface);
    let mut sheets: Vec<_> =
        sheets.iter().map(|sheet| (sheet.faces.len(), sheet.euler, sheet.rims, sheet.orientable)).collect();
    sheets.sort_unstable();
    Numbers { components: surface.components().len(), sheets, twists: !surface.twists.is_empty() }
}

fn told(texts: &Texts, name: &str) -> Told {
    let loader =
        texts.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, text.as_str()));
    let compiled: Compiled = compile(&loader, name);
    let surfaces = compiled.sizes.iter().map(|size| size.sewn.surface.as_ref().map(numbers)).collect();
    Told { slugs: compiled.diagnostics.iter().map(|one| one.slug()).collect(), surfaces }
}

/// Every text that is looked at, with the others of its folder, and what is told of it.
static ALL: LazyLock<Vec<(&'static Texts, String, Told)>> = LazyLock::new(|| {
    let names = |texts: &'static LazyLock<Texts>| {
        let own = texts.keys().filter(|name| !name.contains('/') && !name.starts_with("crew-"));
        own.map(|name| (&**texts, name.clone())).collect::<Vec<_>>()
    };
    let all: Vec<(&'static Texts, String)> = names(&EXAMPLES).into_iter().chain(names(&MISTAKES)).collect();
    all.into_par_iter().map(|(texts, name)| (texts, name.clone(), told(texts, &name))).collect()
});

fn statements(text: &str) -> Vec<Statement> {
    let mut map = SourceMap::default();
    let id = map.add("own", text);
    parse(&map, id).file.statements.iter().map(|statement| Statement::clone(statement)).collect()
}

fn range(span: fustian::source::Span) -> Range<usize> {
    span.lo as usize..span.hi as usize
}

fn changed(text: &str, mut edits: Vec<(Range<usize>, String)>) -> String {
    edits.sort_by_key(|(at, _)| std::cmp::Reverse(at.start));
    edits.into_iter().fold(text.to_owned(), |mut text, (at, words)| {
        text.replace_range(at, &words);
        text
    })
}

/// Pieces and what is sewn in another order. What alters stays where it is, and in order.
fn shuffled(text: &str, dice: &mut Dice) -> String {
    let is_fact = |node: &StatementNode| {
        matches!(
            node,
            StatementNode::Piece(_)
                | StatementNode::Seam(_)
                | StatementNode::Finish(_)
                | StatementNode::Place(_)
                | StatementNode::Strap(_)
                | StatementNode::Closure(_)
                | StatementNode::Opening(_)
                | StatementNode::Cord(_)
        )
    };
    let slots: Vec<Range<usize>> =
        statements(text).iter().filter(|one| is_fact(&one.node)).map(|one| range(one.span)).collect();
    let mut order: Vec<usize> = (0..slots.len()).collect();
    for at in (1..order.len()).rev() {
        order.swap(at, dice.roll(at + 1));
    }
    let edits =
        slots.iter().zip(order).map(|(slot, from)| (slot.clone(), text[slots[from].clone()].to_owned()));
    changed(text, edits.collect())
}

/// Some plain seams with their sides swapped. What is said of one side alone goes with it by its names.
fn swapped(text: &str, dice: &mut Dice) -> String {
    let mut edits = Vec::new();
    for statement in statements(text) {
        let node = match statement.node {
            StatementNode::Replace(inner) => inner.node,
            node => node,
        };
        let StatementNode::Seam(seam) = node else { continue };
        if seam.fit.is_none() && !seam.across_fold && dice.roll(2) == 0 {
            let (first, second) = (range(seam.first.span), range(seam.second.span));
            edits.push((first.clone(), text[second.clone()].to_owned()));
            edits.push((second, text[first].to_owned()));
        }
    }
    changed(text, edits)
}

/// A text in which a word that names something is another one, wherever it stands outside of quotes and
/// notes.
fn renamed(text: &str, word: &str, other: &str) -> String {
    let mut found = String::with_capacity(text.len());
    for line in text.split_inclusive('\n') {
        let (mut quoted, mut noted, mut own) = (false, false, String::new());
        let flush = |own: &mut String, found: &mut String| {
            found.push_str(if own == word { other } else { own });
            own.clear();
        };
        for letter in line.chars() {
            let is_word = letter.is_alphanumeric() || letter == '_';
            if is_word && !quoted && !noted {
                own.push(letter);
                continue;
            }
            flush(&mut own, &mut found);
            found.push(letter);
            noted |= letter == '#' && !quoted;
            quoted ^= letter == '"' && !noted;
        }
        flush(&mut own, &mut found);
    }
    found
}

/// The texts with one piece of one of them called otherwise, in all of them; not where what its things are
/// called is the mistake, nor where names alone tell a sleeve's front from its back.
fn with_a_piece_renamed(texts: &Texts, name: &str, dice: &mut Dice) -> Texts {
    if name.starts_with("name-") || name.starts_with("seam-back-to-front") {
        return texts.clone();
    }
    let pieces: Vec<String> = statements(&texts[name])
        .iter()
        .filter_map(|one| match &one.node {
            StatementNode::Piece(piece) => Some(piece.name.text.to_string()),
            _ => None,
        })
        .filter(|name| !KEYWORDS.contains(&name.as_str()) && !FUNCTIONS.contains(&name.as_str()))
        // The pieces of a facing are called after the pieces that they face.
        .filter(|piece| !texts[name].contains(&format!("_{piece}.")))
        .collect();
    let Some(piece) = pieces.get(dice.roll(pieces.len())) else { return texts.clone() };
    let other = format!("{piece}_{}", dice.roll(1000));
    texts.iter().map(|(name, text)| (name.clone(), renamed(text, piece, &other))).collect()
}

/// Changes every text and holds what is told of it against what was; nearly all must be other texts.
fn stays(change: &(dyn Fn(&Texts, &str, &mut Dice) -> Texts + Sync), seed: u64, at_least: usize) {
    let each = ALL.par_iter().enumerate().map(|(at, (texts, name, before))| {
        let mut dice = Dice(seed ^ (at as u64 + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1);
        let own = change(texts, name, &mut dice);
        let after = told(&own, name);
        let differs = || format!("{name}: {before:?}\n    became {after:?}\n{}", own[name]);
        (own[name] != texts[name], (after != *before).then(differs))
    });
    let each: Vec<(bool, Option<String>)> = each.collect();
    let differ: Vec<String> = each.iter().filter_map(|(_, differs)| differs.clone()).collect();
    assert!(differ.is_empty(), "{} differ\n{}", differ.len(), differ.join("\n\n"));
    let changed = each.iter().filter(|(changed, _)| *changed).count();
    assert!(changed >= at_least, "{changed} of {} texts were changed", each.len());
}

fn with_text(texts: &Texts, name: &str, text: String) -> Texts {
    let mut texts = texts.clone();
    texts.insert(name.to_owned(), text);
    texts
}

proptest! {
    #![proptest_config(ProptestConfig { max_shrink_iters: 0, ..cases(2) })]

    /// Facts stand in any order, and so do pieces.
    #[test]
    fn in_whatever_order_the_facts_stand(seed in any::<u64>()) {
        stays(&|texts, name, dice| with_text(texts, name, shuffled(&texts[name], dice)), seed, 120);
    }

    /// A plain seam is the same from both sides.
    #[test]
    fn whichever_side_of_a_plain_seam_is_named_first(seed in any::<u64>()) {
        stays(&|texts, name, dice| with_text(texts, name, swapped(&texts[name], dice)), seed, 30);
    }

    /// A name is but a name.
    #[test]
    fn whatever_the_pieces_are_called(seed in any::<u64>()) {
        stays(&|texts, name, dice| with_a_piece_renamed(texts, name, dice), seed, 150);
    }
}
