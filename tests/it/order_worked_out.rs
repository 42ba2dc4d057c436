//! The order of work that is worked out, held against the checks and against all orders there are.

use crate::workbench::{err, examples, folder_of, out, run};
use fustian::emit::{steps_document, with_steps};
use fustian::sewing::order::{Bags, Given, Graph, Item, Job, Rules, Schedule, Timetable, Work, find, plan};
use fustian::source::{FileId, MemoryLoader, SourceMap};
use fustian::syntax::parse;
use fustian::syntax::tree::{DropKind, StatementNode};
use fustian::{Compiled, compile};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The examples by name, as they are.
fn said() -> BTreeMap<String, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut texts = BTreeMap::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            texts.insert(name, fs::read_to_string(path).unwrap());
        }
    }
    texts
}

fn is_of_steps(node: &StatementNode) -> bool {
    match node {
        StatementNode::Steps(_) | StatementNode::AddSteps(_) => true,
        StatementNode::Replace(inner) => is_of_steps(&inner.node),
        StatementNode::Drop(drop) => matches!(drop.kind, DropKind::Step | DropKind::Steps),
        _ => false,
    }
}

/// A text without a word of the order of work.
fn unsaid(text: &str) -> String {
    let mut map = SourceMap::default();
    let file = map.add("a.fus", text);
    let mut left = text.to_owned();
    for statement in parse(&map, file).file.statements.iter().rev() {
        if is_of_steps(&statement.node) {
            left.replace_range(statement.span.lo as usize..statement.span.hi as usize, "");
        }
    }
    left
}

fn loader(texts: &BTreeMap<String, String>) -> MemoryLoader {
    texts.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, text.as_str()))
}

/// The garments among the examples, without a word of the order of work.
fn unsaid_examples() -> (BTreeMap<String, String>, Vec<String>) {
    let texts: BTreeMap<String, String> =
        said().into_iter().map(|(name, text)| (name, unsaid(&text))).collect();
    let garments = texts.keys().filter(|name| *name != "crew-library.fus").cloned().collect();
    (texts, garments)
}

/// Slugs that an order of work is found wrong by, and those of steps that are left out.
fn of_order(compiled: &Compiled) -> Vec<String> {
    let is_of_order = |slug: &str| slug.starts_with("step") || slug == "turn/closed";
    let all = compiled.diagnostics.iter().filter(|one| is_of_order(one.slug()));
    all.map(|one| format!("{}: {}", one.slug(), String::from(one.title.clone()))).collect()
}

/// Line by line what is done to what.
fn lines(compiled: &Compiled) -> Vec<(String, String)> {
    let document = steps_document(&compiled.garment, &compiled.sizes[0]);
    let line = |one: &fustian::emit::StepLineDocument| {
        (one.step.clone(), format!("{} {:?} {:?}", one.verb, one.to, one.layers))
    };
    document.steps.iter().map(line).collect()
}

#[test]
fn the_order_worked_out_for_every_example_passes_all_checks_in_each_size() {
    let (texts, garments) = unsaid_examples();
    for name in garments {
        let before = compile(&loader(&texts), &name);
        assert!(before.garment.steps.is_empty(), "{name}");
        if before.garment.fitting.is_some() {
            assert!(with_steps(&before.map, &before.garment, &before.sizes[0]).is_err(), "{name}");
            continue;
        }
        let written = with_steps(&before.map, &before.garment, &before.sizes[0]).unwrap();
        let mut with = texts.clone();
        with.insert(name.clone(), written);
        let after = compile(&loader(&with), &name);
        assert_eq!(of_order(&after), Vec::<String>::new(), "{name}");
        let [before, after] = [&before, &after]
            .map(|one| one.diagnostics.iter().filter(|one| one.slug() != "steps/none").count());
        assert_eq!(before, after, "{name}");
    }
}

#[test]
fn each_step_that_is_taken_away_is_worked_out_and_the_rest_stays_in_order() {
    let texts = said();
    for name in texts.keys().filter(|name| *name != "crew-library.fus") {
        let whole = compile(&loader(&texts), name);
        for (at, group) in whole.garment.steps.iter().enumerate() {
            // A variation's own are left out with their statement, not with their group.
            let block = whole.garment.steps_span.unwrap();
            let is_in_block = block.lo <= group.span.lo && group.span.hi <= block.hi;
            if whole.map.file_of(group.span) != FileId(0) || !is_in_block || whole.garment.steps.len() < 2 {
                continue;
            }
            let mut less = texts.clone();
            let text = less.get_mut(name).unwrap();
            text.replace_range(group.span.lo as usize..group.span.hi as usize, "");
            let partly = compile(&loader(&less), name);
            let case = format!("{name} without {}", group.title);
            assert!(!partly.has_mistakes(), "{case}: {:?}", of_order(&partly));
            // The maker's own stand as they did; the others are marked.
            let document = steps_document(&partly.garment, &partly.sizes[0]);
            let own: Vec<String> = document
                .steps
                .iter()
                .filter(|line| !line.worked_out)
                .map(|line| format!("{} {:?}", line.verb, line.to))
                .collect();
            let before = steps_document(&whole.garment, &whole.sizes[0]);
            let kept: Vec<String> = before
                .steps
                .iter()
                .filter(|line| *line.step != *group.title)
                .map(|line| format!("{} {:?}", line.verb, line.to))
                .collect();
            assert_eq!(own, kept, "{case}");
            let worked_out = document.steps.iter().any(|line| line.worked_out);
            let is_on_top = group.actions.iter().all(|action| {
                matches!(action.verb, fustian::syntax::tree::Verb::Press | fustian::syntax::tree::Verb::Note)
            });
            assert!(worked_out != is_on_top, "{case}, group {at}");
            // Written out it passes the maker's own checks.
            let written = with_steps(&partly.map, &partly.garment, &partly.sizes[0]).unwrap();
            less.insert(name.clone(), written);
            let again = compile(&loader(&less), name);
            assert_eq!(of_order(&again), of_order(&whole), "{case}");
            let plain = |compiled: &Compiled| -> Vec<String> {
                lines(compiled).into_iter().map(|(_, line)| line).collect()
            };
            assert_eq!(plain(&again), plain(&partly), "{case}");
        }
    }
}

/// The facts of a text in another order: seams, finishes, closures, placements, cords and straps change places
/// with one another (Fisher and Yates, by a linear congruential generator with Knuth's MMIX constants).
fn shuffled(text: &str, seed: u64) -> String {
    let mut map = SourceMap::default();
    let file = map.add("a.fus", text);
    let is_fact = |node: &StatementNode| {
        matches!(
            node,
            StatementNode::Seam(_)
                | StatementNode::Finish(_)
                | StatementNode::Closure(_)
                | StatementNode::Place(_)
                | StatementNode::Cord(_)
                | StatementNode::Strap(_)
        )
    };
    let parsed = parse(&map, file);
    let spans: Vec<(usize, usize)> = parsed
        .file
        .statements
        .iter()
        .filter(|one| is_fact(&one.node))
        .map(|one| (one.span.lo as usize, one.span.hi as usize))
        .collect();
    let mut order: Vec<usize> = (0..spans.len()).collect();
    let mut state = seed;
    for at in (1..order.len()).rev() {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        order.swap(at, (state >> 33) as usize % (at + 1));
    }
    let mut new = text.to_owned();
    for (place, &from) in order.iter().enumerate().rev() {
        let (lo, hi) = spans[from];
        new.replace_range(spans[place].0..spans[place].1, &text[lo..hi]);
    }
    new
}

#[test]
fn shuffled_facts_are_sewn_in_the_same_order_where_it_is_not_free() {
    let (texts, garments) = unsaid_examples();
    for name in garments {
        let plain = compile(&loader(&texts), &name);
        // A fitting is sewn as its garment is.
        let seeds = if plain.garment.fitting.is_some() { 0 } else { 4 };
        for seed in 1..=seeds {
            let mut other = texts.clone();
            other.insert(name.clone(), shuffled(&texts[&name], seed));
            let shuffled = compile(&loader(&other), &name);
            // The same is done, and it passes.
            let sorted = |compiled: &Compiled| {
                // What is done in two layers may be done in one go or in two.
                let by_layer = |line: String| -> Vec<String> {
                    let (what, layers) = line.rsplit_once(" [").unwrap_or((&line, ""));
                    let layers = layers.trim_end_matches(']').split(", ");
                    layers.map(|layer| format!("{what} {layer}")).collect()
                };
                let mut all: Vec<String> =
                    lines(compiled).into_iter().flat_map(|(_, line)| by_layer(line)).collect();
                all.sort();
                all
            };
            assert_eq!(sorted(&plain), sorted(&shuffled), "{name}, {seed}");
            let written = with_steps(&shuffled.map, &shuffled.garment, &shuffled.sizes[0]).unwrap();
            other.insert(name.clone(), written);
            assert_eq!(of_order(&compile(&loader(&other), &name)), Vec::<String>::new(), "{name}, {seed}");
            // What the rules decide, they decide alike: each pair of which one waits for the other.
            let decided = |compiled: &Compiled| -> Vec<(String, String)> {
                let (garment, size) = (&compiled.garment, &compiled.sizes[0]);
                let work = Work::new(garment, &size.drawn, &size.sewn);
                let rules = Rules::of(&work);
                let graph = Graph::of(&rules);
                let name = |at: usize| {
                    let job = *work.jobs.get_index(at).unwrap();
                    let layer = work.layer_of_job(job).map(|layer| garment.layer(layer).name.clone());
                    format!("{} in {layer:?}", work.call(job).unwrap().step)
                };
                let mut pairs = Vec::new();
                for (waits, needs) in graph.needs.iter().enumerate() {
                    let only = needs.iter().filter(|need| need.by.len() == 1);
                    pairs.extend(only.map(|need| (name(need.by[0]), name(waits))));
                }
                pairs.sort();
                pairs.dedup();
                pairs
            };
            assert_eq!(decided(&plain), decided(&shuffled), "{name}, {seed}");
        }
    }
}

/// A bag with a pocket and a hem that runs on over its side seams, a sleeve guard with a stiffened folded cuff,
/// and a skirt whose waist runs over a side seam that runs over a dart.
const SMALL: [(&str, &str); 3] = [
    (
        "pocket bag",
        r#"garment "Galley bag"
units cm
allowance 1
fabric canvas "canvas" { width 150 }
layer outer in canvas { front, back, pocket }
piece front "Front" { cut 1; outline rectangle 30 by 40; point low = (8, 10) }
piece back "Back" { cut 1; outline rectangle 30 by 40 }
piece pocket "Pocket" { cut 1; outline rectangle 14 by 12 }
seam left_side front.left to back.left
seam right_side front.right to back.right
seam base front.bottom to back.bottom
finish front.top, back.top  hem 3
finish pocket.top  hem 2
place pocket on front { corner bottom_left at low; topstitch left, bottom, right }
"#,
    ),
    (
        "guard with a cuff",
        r#"garment "Sleeve guard"
units cm
allowance 1
fabric canvas "canvas" { width 150 }
fabric stay "fusible" { width 90 }
layer outer in canvas { sleeve, cuff }
layer firm in stay fused { cuff }
piece sleeve "Sleeve" { cut 2 mirrored; outline rectangle 30 by 40 }
piece cuff "Cuff" { cut 2 mirrored; outline rectangle 30 by 8; folded top to bottom }
seam underarm  sleeve.left to sleeve.right
seam ends  cuff.left to cuff.right
seam cuff  cuff.top and cuff.bottom to sleeve.bottom { matching cuff.top_left with sleeve.bottom_left }
finish sleeve.top  hem 2
"#,
    ),
    (
        "banded skirt",
        r#"garment "Mess skirt"
units cm
allowance 1
fabric serge "wool serge" { width 150 }
layer outer in serge { front, back, band }
piece front "Front" {
  cut 1 on fold left
  outline rectangle 28 by 60
  dart hip_dart on right at 10 from top_right width 2 to (20, 50) pressed up trued
}
piece back "Back" { cut 1 on fold left; outline rectangle 28 by 58 }
piece band "Band" { cut 1 on fold left; outline rectangle 56 by 4 }
seam side   front.right to back.right
seam waist  band.bottom to front.top + back.top  { matching band.bottom_left with front.top_left }
finish front.bottom, back.bottom  hem 2
finish band.top  overlocked
finish band.right  hem 1
"#,
    ),
];

/// Every order of so many things.
fn orders(count: usize) -> Vec<Vec<usize>> {
    fn go(left: &mut Vec<usize>, so_far: &mut Vec<usize>, all: &mut Vec<Vec<usize>>) {
        if left.is_empty() {
            all.push(so_far.clone());
        }
        for at in 0..left.len() {
            let one = left.remove(at);
            so_far.push(one);
            go(left, so_far, all);
            so_far.pop();
            left.insert(at, one);
        }
    }
    let mut all = Vec::new();
    go(&mut (0..count).collect(), &mut Vec::new(), &mut all);
    all
}

/// Whether the rules as checks read them, and the bags, let an order pass.
fn passes(rules: &Rules, order: &[Job]) -> bool {
    let work = rules.work;
    let schedule = Schedule::of(work, order.iter().copied());
    if rules.all.iter().any(|rule| rules.broken(rule, &schedule).is_some()) {
        return false;
    }
    let mut bags = Bags::of(work.garment, work.sewing).unwrap();
    bags.timetable = Timetable::of(work, &schedule);
    bags.all().unwrap().iter().all(|bag| bags.judge(bag).is_none())
}

#[test]
fn all_orders_of_small_garments_agree_with_what_is_worked_out() {
    let mut possible = 0;
    for (name, text) in SMALL {
        let compiled = compile(&MemoryLoader::new().with("a.fus", text), "a.fus");
        let mistakes: Vec<String> = compiled
            .diagnostics
            .iter()
            .filter(|one| one.severity() == fustian::Severity::Mistake)
            .map(|one| format!("{}: {}", one.slug(), String::from(one.title.clone())))
            .collect();
        assert_eq!(mistakes, Vec::<String>::new(), "{name}");
        let (garment, size) = (&compiled.garment, &compiled.sizes[0]);
        let work = Work::new(garment, &size.drawn, &size.sewn);
        let rules = Rules::of(&work);
        let jobs: Vec<Job> = work.jobs.iter().copied().collect();
        assert!((5..=7).contains(&jobs.len()), "{name}: {jobs:?}");
        let graph = Graph::of(&rules);
        let mut good: Vec<Vec<usize>> = Vec::new();
        for order in orders(jobs.len()) {
            let named: Vec<Job> = order.iter().map(|&at| jobs[at]).collect();
            let passes = passes(&rules, &named);
            // The same, step by step: each job is ready when its turn comes.
            let mut done = vec![false; jobs.len()];
            let is_ready = order.iter().all(|&at| {
                let ready = graph.is_ready(at, &done, Given::ByThen);
                done[at] = true;
                ready
            });
            assert_eq!(passes, is_ready, "{name}: {named:?}");
            if passes {
                good.push(order);
            }
        }
        assert!(!good.is_empty() && good.len() < orders(jobs.len()).len(), "{name}");
        possible += good.len();
        // Whatever two or three of the steps a maker says: the rest is found if there is any order with them.
        for some in
            orders(jobs.len()).iter().map(|order| &order[..3]).collect::<std::collections::BTreeSet<_>>()
        {
            for said in [&some[..2], some] {
                let schedule = Schedule::of(&work, said.iter().map(|&at| jobs[at]));
                let found = find(&rules, &schedule);
                let order: Vec<usize> = found
                    .items
                    .iter()
                    .map(|(item, _)| match item {
                        Item::Job(at) => *at,
                        Item::Act(at) => said[*at],
                    })
                    .collect();
                let is_within = |order: &Vec<usize>| {
                    let own: Vec<usize> = order.iter().copied().filter(|at| said.contains(at)).collect();
                    own == said
                };
                let is_there = good.iter().any(is_within);
                assert!(is_within(&order), "{name}: {said:?} {order:?}");
                assert_eq!(good.contains(&order), is_there, "{name}: {said:?} {order:?}");
            }
        }
    }
    assert!(possible > 10);
}

#[test]
fn what_waits_for_itself_is_told_by_name_without_steps_too() {
    // By hand: `one` runs on over `other` at the shared corner, and `other` over `one`.
    let text =
        fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/mistakes/step-circle.fus"))
            .unwrap();
    let compiled = compile(&MemoryLoader::new().with("a.fus", unsaid(&text)), "a.fus");
    let told = of_order(&compiled);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("step/circle: no order of work is possible: "), "{told:?}");
    assert!(with_steps(&compiled.map, &compiled.garment, &compiled.sizes[0]).is_err());
}

#[test]
fn the_command_shows_the_order_and_writes_it() {
    let (texts, _) = unsaid_examples();
    let folder = examples();
    let at = folder.path();
    fs::write(at.join("deck-smock.fus"), &texts["deck-smock.fus"]).unwrap();
    let shown = run(at, &["steps", "deck-smock.fus"]);
    assert!(shown.status.success(), "{}", err(&shown));
    let text = out(&shown);
    assert!(text.contains("after sewing shoulder, which it crosses"), "{text}");
    let rows = run(at, &["steps", "deck-smock.fus", "--format", "csv"]);
    // A heading, and a line for each thing to do: ten seams, a hem and a placement, by hand from the file.
    assert_eq!(out(&rows).lines().count(), 1 + 12, "{}", out(&rows));
    let json: serde_json::Value =
        serde_json::from_str(&out(&run(at, &["steps", "deck-smock.fus", "--format", "json"]))).unwrap();
    assert!(json["steps"].as_array().unwrap().iter().all(|line| line["worked_out"] == true));
    let written = run(at, &["steps", "deck-smock.fus", "--write"]);
    assert!(written.status.success(), "{}", err(&written));
    let new = fs::read_to_string(at.join("deck-smock.fus")).unwrap();
    assert!(new.contains("steps {") && new.contains("# and rib at wrists and hem."), "{new}");
    let checked = run(at, &["check", "deck-smock.fus"]);
    assert_eq!(err(&checked).trim(), "deck-smock.fus: nothing to fix in 6 sizes");
    // Once more changes nothing.
    assert!(run(at, &["steps", "deck-smock.fus", "--write"]).status.success());
    assert_eq!(fs::read_to_string(at.join("deck-smock.fus")).unwrap(), new);
    assert_eq!(run(at, &["steps", "-", "--write"]).status.code(), Some(2));
}

/// A base says a group of steps, and what its variation adds belongs inside it: the group is said anew there.
#[test]
fn what_belongs_inside_a_base_s_group_is_written_with_all_of_it() {
    let base = SMALL[0].1.to_owned()
        + "steps {\n  \"All\" { sew left_side, right_side \"double\"; note \"try it\"; baste base; press base }\n}\n";
    let own = "variation \"Own\" of \"bag.fus\"\nabout \"The same, with its steps.\"\n";
    let folder = folder_of(&[("bag.fus", base.as_str()), ("own.fus", own)]);
    let done = run(folder.path(), &["steps", "own.fus", "--write"]);
    assert!(done.status.success(), "{}", err(&done));
    assert_eq!(fs::read_to_string(folder.path().join("bag.fus")).unwrap(), base, "the base stays as it is");
    let written = fs::read_to_string(folder.path().join("own.fus")).unwrap();
    assert!(written.contains("replace step \"All\" {"), "{written}");
    // Between its basting and its pressing.
    assert!(place_in(&written, "baste base") < place_in(&written, "sew base"), "{written}");
    assert!(place_in(&written, "sew base") < place_in(&written, "press base"), "{written}");
    for words in ["sew left_side, right_side \"double\"", "note \"try it\""] {
        assert!(written.contains(words), "{written}");
    }
    let checked = run(folder.path(), &["check", "own.fus"]);
    assert!(checked.status.success() && !err(&checked).contains("step"), "{}", err(&checked));
    // Once more changes nothing.
    assert!(run(folder.path(), &["steps", "own.fus", "--write"]).status.success());
    assert_eq!(fs::read_to_string(folder.path().join("own.fus")).unwrap(), written);
}

/// Titles say what is sewn on, and no two are alike.
#[test]
fn groups_that_are_worked_out_have_titles_of_their_own() {
    let (texts, names) = unsaid_examples();
    for name in &names {
        let compiled = compile(&loader(&texts), name);
        let Some(first) = compiled.sizes.first() else { continue };
        let plan = plan(&compiled.garment, &first.drawn, &first.sewn);
        let titles: Vec<&str> = plan.groups.iter().map(|group| group.title.as_str()).collect();
        let mut once = titles.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), titles.len(), "{name}: {titles:?}");
        let is_counted = |title: &&&str| title.chars().last().is_some_and(|last| last.is_ascii_digit());
        assert_eq!(titles.iter().filter(is_counted).count(), 0, "{name}: {titles:?}");
        if name == "mate-trousers.fus" {
            assert!(titles.contains(&"Waistband") && !titles.contains(&"Collar"), "{titles:?}");
        }
    }
}

#[test]
fn what_is_added_stands_between_and_notes_stay() {
    let with = |steps: &str| {
        let text = SMALL[0].1.to_owned() + steps;
        let folder = folder_of(&[("bag.fus", text.as_str())]);
        let done = run(folder.path(), &["steps", "bag.fus", "--write"]);
        assert!(done.status.success(), "{}", err(&done));
        let text = fs::read_to_string(folder.path().join("bag.fus")).unwrap();
        text[text.find("steps {").unwrap()..].to_owned()
    };
    // The pocket's hem comes before its placing, inside the maker's own group and between its own words.
    let written = with(
        "steps {\n  # first of all\n  \"Sides\" { sew left_side, right_side \"double\" }  # both\n  \"Rest\" { note \"try\"; place pocket; sew base }\n}\n",
    );
    assert!(written.contains("# first of all"), "{written}");
    assert!(written.contains("# both"), "{written}");
    assert!(written.contains("sew left_side, right_side \"double\""), "{written}");
    let place = |word: &str| written.find(word).unwrap_or_else(|| panic!("{word} in {written}"));
    assert!(place("hem pocket.top") < place("place pocket"), "{written}");
    assert!(place("sew base") < place("hem front.top, back.top"), "{written}");
    assert!(place("note \"try\"") < place("place pocket"), "{written}");
    // What is pressed is sewn before, and what is basted after.
    let written = with("steps { \"Fit\" { baste base; press left_side } }\n");
    assert!(place_in(&written, "baste base") < place_in(&written, "sew base, left_side"), "{written}");
    assert!(place_in(&written, "sew base, left_side") < place_in(&written, "press left_side"), "{written}");
    // Parted where it must be: the placing waits for the pocket's hem, which no step says.
    let written =
        with("steps { \"All\" { sew left_side; sew right_side; hem front.top; sew base; place pocket } }\n");
    assert!(place_in(&written, "hem pocket.top") < place_in(&written, "place pocket"), "{written}");
}

fn place_in(text: &str, word: &str) -> usize {
    text.find(word).unwrap_or_else(|| panic!("{word} in {text}"))
}

/// A welt pocket whose bags are cut from the lining's cloth, in the lining's layer: what the trade does is the welt and the bags on
/// the flat front, then their ends, then the bag closed, and only then the front joined to anything.
#[test]
fn a_welt_pocket_is_made_on_the_flat_front() {
    let text = r#"
garment "Deck vest, lined behind"
units cm
allowance 1
fabric canvas "apron canvas" { width 150 }
fabric cotton "blue cotton" { width 150 }
layer outer in canvas { front, back, welt }
layer inside in cotton { back_lining, bag_front, bag_back }
piece front "Front" {
  cut 2 mirrored
  outline rectangle 26 by 56
  slit pocket from (6, 24) to (20, 24) window 2
}
piece back "Back" { cut 1 on fold left; outline rectangle 26 by 56 }
piece back_lining "Back lining" { cut 1 on fold left; outline copy of back }
piece welt "Pocket welt" { cut 2 mirrored; outline rectangle 14 by 4; folded top to bottom }
piece bag_front "Front pocket bag" { cut 2 mirrored; outline rectangle 14 by 16 }
piece bag_back "Back pocket bag" { cut 2 mirrored; outline rectangle 14 by 16 }
seam side  outer.front.right to outer.back.right and inside.back_lining.right
seam welt_on  outer.welt.bottom and outer.welt.top and inside.bag_front.top to outer.front.pocket.far {
  matching outer.welt.bottom_left with outer.front.pocket.start_far
}
seam bag_on  inside.bag_back.top to outer.front.pocket.near {
  matching inside.bag_back.top_left with outer.front.pocket.start_near
}
seam welt_start  welt.left to front.pocket.start { matching welt.bottom_left with front.pocket.start_far }
seam welt_end  welt.right to front.pocket.end { matching welt.bottom_right with front.pocket.end_far }
seam bag  bag_front.left + bag_front.bottom + bag_front.right to bag_back.left + bag_back.bottom + bag_back.right {
  matching bag_front.top_left with bag_back.top_left
}
finish front.left, front.top, back.top, front.bottom, back.bottom, back_lining.top, back_lining.bottom  bound 1
"#;
    let compiled = compile(&MemoryLoader::new().with("a.fus", text), "a.fus");
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics.first());
    let steps = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let at = |name: &str| {
        steps.iter().position(|line| line.to.as_deref() == Some(name)).unwrap_or_else(|| panic!("{name}"))
    };
    let order = ["welt_on", "bag_on", "welt_start", "welt_end", "bag", "side"].map(at);
    assert!(order.is_sorted(), "{order:?}: {steps:#?}");
}

/// A wrap kilt: its ends are hemmed, and then lie between both sides of the folded band, whose own ends are hemmed as well. The
/// one hem does not run on over the other: nothing goes round in a circle.
#[test]
fn a_hem_ends_below_the_band_that_is_folded_over_it() {
    let kilt = "garment \"Signal kilt\"\nunits cm\nallowance 1\nfabric wool \"wool\" { width 230 }\n\
        layer outer in wool { kilt, band }\n\
        piece kilt \"Kilt\" {\n  cut 1\n  outline rectangle 190 by 58\n  \
        pleat back_pleats on top at 57 from left depth 3 count 12 apart 3 toward right stitched down 16\n}\n\
        piece band \"Band\" { cut 1; outline rectangle total(kilt.top) by 8; folded top to bottom }\n\
        seam waist band.bottom and band.top to kilt.top\n\
        finish kilt.left, kilt.right, band.left, band.right  hem 1 turned under 1\nfinish kilt.bottom hem 4\n";
    let folder = folder_of(&[("kilt.fus", kilt)]);
    let output = run(folder.path(), &["steps", "kilt.fus"]);
    let told = out(&output);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    let row =
        |to: &str| told.lines().position(|line| line.contains(to)).unwrap_or_else(|| panic!("{to}: {told}"));
    assert!(row(" kilt.left ") < row(" waist ") && row(" kilt.right ") < row(" waist "), "{told}");
    assert!(row(" waist ") < row(" band.left "), "{told}");
    assert!(!told.contains("runs on over") && !told.contains("over which it runs on"), "{told}");
}
