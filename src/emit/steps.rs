//! The order of work, as the maker says it and as it is worked out.

use super::documents::{ActionDocument, StepDocument, StepLineDocument, StepsDocument};
use super::form::Form;
use super::seams::ids_of_stitchings;
use super::sheet::Sheet;
use crate::cutting::WorkedSize;
use crate::garment::{ActionTarget, CutHow, EdgeId, Garment, LayerId, Part, PlacementId, PressedTo, RowId};
use crate::sewing::order::{
    Job, Jobs, Plan, PlannedAction, PlannedGroup, PlannedTarget, Work, plan, stitchings_of,
};
use crate::sewing::surface::{FaceId, Surface};
use crate::sewing::{PartId, Place, SewnPart, set_count};
use crate::syntax::tree::Verb;

/// The steps of the document, which are those of its first size: shapes decide where the rules leave an order free.
pub fn steps(garment: &Garment, size: &WorkedSize) -> Vec<StepDocument> {
    let work = Work::new(garment, &size.drawn, &size.sewn);
    let ids = ids_of_stitchings(garment, &size.drawn, &size.sewn, &stitchings_of(&work));
    let group = |group: &PlannedGroup| StepDocument {
        title: group.title.clone(),
        actions: group.actions.iter().map(|action| action_document(garment, &work, &ids, action)).collect(),
        worked_out: group.said.is_none(),
    };
    plan(garment, &size.drawn, &size.sewn).groups.iter().map(group).collect()
}

fn action_document(
    garment: &Garment,
    work: &Work,
    ids: &[(usize, String)],
    action: &PlannedAction,
) -> ActionDocument {
    let targets = action.targets.iter();
    let mut seams: Vec<String> = Vec::new();
    for target in targets.clone() {
        let ActionTarget::Seam(id) = target.target else { continue };
        let own: Vec<Job> = target.jobs.iter().copied().filter(|job| matches!(job, Job::Seam(_))).collect();
        // What is not sewn here, but basted, pressed or turned, is sewn elsewhere.
        let jobs = if own.is_empty() { work.seam_jobs(id, action.layer).into_vec() } else { own };
        for (at, id) in ids {
            if jobs.contains(&Job::Seam(*at)) && !seams.contains(id) {
                seams.push(id.clone());
            }
        }
    }
    ActionDocument {
        seams,
        verb: action.verb.words().to_owned(),
        to: targets.clone().filter_map(|one| target_name(garment, one.target)).collect(),
        layer: action.layer.map(|layer| garment.layer(layer).name.to_string()),
        pressed: targets.clone().filter_map(|one| pressed(garment, action.verb, one.target)).collect(),
        words: action.words.as_ref().map(ToString::to_string),
        worked_out: action.said.is_none(),
        reasons: targets.filter_map(|one| one.reason.clone()).collect(),
    }
}

/// What is worked on, as a step names it.
pub(super) fn target_name(garment: &Garment, target: ActionTarget) -> Option<String> {
    match target {
        ActionTarget::Seam(id) => Some(garment.seam(id).name.to_string()),
        ActionTarget::Joints(id, first, last) => Some(match first == last {
            true => format!("{} {first}", garment.seam(id).name),
            false => format!("{} {first}..{last}", garment.seam(id).name),
        }),
        ActionTarget::Closure(id) => Some(garment.closure(id).name.to_string()),
        ActionTarget::Edge(layer, edge) | ActionTarget::TakeUp(layer, edge) => {
            let named = garment.edge(edge);
            Some(format!("{}.{}", garment.part_name(layer, named.piece), named.name))
        }
        ActionTarget::Row(id) => Some(garment.row(id).name.to_string()),
        ActionTarget::Tack(id) => Some(garment.tack(id).name.to_string()),
        ActionTarget::Piece(layer, piece) => Some(garment.part_name(layer, piece)),
        ActionTarget::Cord(id) => Some(garment.cord(id).name.to_string()),
        ActionTarget::AnyGap => None,
    }
}

/// What people read of what is worked on, where its maker says it.
fn target_label(garment: &Garment, target: ActionTarget) -> Option<String> {
    match target {
        ActionTarget::Seam(id) | ActionTarget::Joints(id, ..) => {
            garment.seam(id).label.as_deref().map(str::to_owned)
        }
        ActionTarget::Edge(_, edge) | ActionTarget::TakeUp(_, edge) => {
            garment.edge_label(edge).map(str::to_owned)
        }
        _ => None,
    }
}

/// The order of work line by line: what, where, how many times, how pressed, and of what is worked out why it is
/// done there. Steps are the same in every size; how many times a thing is done may differ where more copies are cut in
/// some: a table then says the least and the most, and JSON no number.
pub fn steps_table(garment: &Garment, sizes: &[WorkedSize], form: Form) -> Result<String, serde_json::Error> {
    let Some((first, others)) = sizes.split_first() else { return Ok(String::new()) };
    let mut document = steps_document(garment, first);
    let copies = |size: &WorkedSize| size.drawn.cut_list.iter().map(|row| row.copies).collect::<Vec<_>>();
    let usual = copies(first);
    let mut ranges: Vec<(u32, u32)> =
        document.steps.iter().map(|line| line.times.map_or((0, 0), |times| (times, times))).collect();
    for size in others.iter().filter(|size| copies(size) != usual) {
        let own = steps_document(garment, size).steps;
        for (range, line) in ranges.iter_mut().zip(own) {
            let times = line.times.unwrap_or(0);
            *range = (range.0.min(times), range.1.max(times));
        }
    }
    for (line, (least, most)) in document.steps.iter_mut().zip(&ranges) {
        line.times = line.times.filter(|_| least == most);
    }
    if form == Form::Json {
        return Ok(serde_json::to_string_pretty(&document)? + "\n");
    }
    let mut sheet =
        Sheet::new(&["step", "do", "to", "layers", "times", "pressed", "words", "worked out, because"]);
    let mut before: Option<&str> = None;
    for (line, (least, most)) in document.steps.iter().zip(ranges) {
        // People need not read a title again for every line.
        let is_again = form != Form::Csv && before == Some(line.step.as_str());
        before = Some(&line.step);
        sheet.rows.push(vec![
            if is_again { String::new() } else { line.step.clone() },
            line.verb.clone(),
            match (&line.to, &line.label) {
                (Some(to), Some(label)) => format!("{to} ({label})"),
                (to, _) => to.clone().unwrap_or_default(),
            },
            line.layers.join(", "),
            match line.times {
                Some(times) => times.to_string(),
                None if least < most => format!("{least} to {most}"),
                None => String::new(),
            },
            line.pressed.clone().unwrap_or_default(),
            line.words.clone().unwrap_or_default(),
            line.reason.clone().unwrap_or_default(),
        ]);
    }
    Ok(match form {
        Form::Markdown => sheet.markdown(),
        Form::Csv => sheet.csv(),
        Form::Text | Form::Json => sheet.text(),
    })
}

/// The same as a document.
pub fn steps_document(garment: &Garment, size: &WorkedSize) -> StepsDocument {
    let plan: Plan = plan(garment, &size.drawn, &size.sewn);
    let work = Work::new(garment, &size.drawn, &size.sewn);
    let seams = stitchings_of(&work);
    let actions = plan.groups.iter().flat_map(|group| &group.actions);
    let joints = actions.filter(|action| action.verb == Verb::Sew).flat_map(|action| {
        action.targets.iter().flat_map(|target| match target.target {
            ActionTarget::Joints(id, first, last) => {
                let seams = work.seam_jobs(id, action.layer).into_iter();
                seams.map(|seam| (seam, last - first + 1)).collect()
            }
            _ => Vec::new(),
        })
    });
    let counting = Counting { garment, size, work: &work, seams: &seams, joints: joints.collect() };
    let mut steps = Vec::new();
    for group in &plan.groups {
        for action in &group.actions {
            let line = |target: Option<&PlannedTarget>| StepLineDocument {
                step: group.title.clone(),
                verb: action.verb.words().to_owned(),
                to: target.and_then(|one| target_name(garment, one.target)),
                label: target.and_then(|one| target_label(garment, one.target)),
                layers: target.map_or_else(Vec::new, |one| counting.layers(action, one)),
                times: target.and_then(|one| counting.times(action, one)),
                pressed: target.and_then(|one| pressed(garment, action.verb, one.target)),
                words: action.words.as_ref().map(ToString::to_string),
                worked_out: action.said.is_none(),
                reason: target.and_then(|one| one.reason.clone()),
            };
            match action.targets.is_empty() {
                true => steps.push(line(None)),
                false => steps.extend(action.targets.iter().map(|target| line(Some(target)))),
            }
        }
    }
    StepsDocument { garment: garment.title.to_string(), steps }
}

struct Counting<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    work: &'a Work<'a>,
    /// The stitching of each sewn seam.
    seams: &'a [Option<usize>],
    /// The seams in a ring of which steps sew single joints, and how many each.
    joints: Vec<(Job, u32)>,
}

impl Counting<'_> {
    /// The layers that it is done in.
    fn layers(&self, action: &PlannedAction, target: &PlannedTarget) -> Vec<String> {
        let mut layers: Vec<LayerId> = Vec::new();
        let joints = match target.target {
            ActionTarget::Joints(id, ..) => self.work.seam_jobs(id, action.layer),
            _ => Jobs::new(),
        };
        for &job in target.jobs.iter().chain(&joints) {
            match job {
                Job::Seam(at) => {
                    let places = self.work.stitchings.get(at).into_iter().flat_map(|one| one.places());
                    layers.extend(places.map(|place| self.work.layer_of(place)));
                }
                Job::Fuse(layer, _) => layers.push(layer),
                Job::Strap(id) => {
                    let strap = self.garment.strap(id);
                    let own = || self.work.finder.layers.meant(None, strap.piece).first().copied();
                    layers.extend(strap.layer.or_else(own));
                }
                Job::Row(id) => layers.extend(self.rows_of(id).map(|(_, part)| part.part.layer)),
                job => layers.extend(self.work.layer_of_job(job)),
            }
        }
        layers.extend(action.layer.filter(|_| layers.is_empty()));
        layers.sort_unstable();
        layers.dedup();
        layers.iter().map(|&layer| self.garment.layer(layer).name.to_string()).collect()
    }

    /// How many times it is done, on all copies.
    fn times(&self, action: &PlannedAction, target: &PlannedTarget) -> Option<u32> {
        if let ActionTarget::Joints(id, first, last) = target.target {
            let seams = self.work.seam_jobs(id, action.layer).len() as u32;
            return (action.verb == Verb::Sew).then(|| (last - first + 1).saturating_mul(seams));
        }
        // What other steps sew of a ring by single joints is not sewn here.
        let joints =
            |job: Job| self.joints.iter().filter(|(own, _)| *own == job).map(|(_, many)| many).sum::<u32>();
        let times = |job: Job| Some(self.times_of(job)?.saturating_sub(joints(job)));
        // Of several plies that are laid on as one, a flap and its lining, the first is counted.
        let is_first = |job: &Job| match job {
            Job::Place(id, _) => {
                let own = |other: &&Job| matches!(other, Job::Place(placement, _) if placement == id);
                target.jobs.iter().find(own) == Some(job) || !self.is_laid_as_one(*id, &target.jobs)
            }
            _ => true,
        };
        let each: Option<Vec<u32>> =
            target.jobs.iter().filter(|job| is_first(job)).map(|&job| times(job)).collect();
        each.filter(|each| !each.is_empty()).map(|each| each.into_iter().sum())
    }

    /// Whether what is placed lies on the same pieces in all of its layers.
    fn is_laid_as_one(&self, id: PlacementId, jobs: &[Job]) -> bool {
        let Some(surface) = self.size.sewn.surface.as_ref() else { return false };
        let hosts = |layer: LayerId| -> Vec<FaceId> {
            let own = surface.placings.iter().filter(|placing| placing.placement == id);
            let own = own.filter(|placing| surface.face(placing.placed).layer == layer);
            let mut hosts: Vec<FaceId> = own.map(|placing| placing.host).collect();
            hosts.sort_unstable();
            hosts
        };
        let mut all = jobs.iter().filter_map(|job| match job {
            Job::Place(own, layer) if *own == id => Some(hosts(*layer)),
            _ => None,
        });
        let first = all.next();
        all.all(|own| Some(&own) == first.as_ref())
    }

    fn times_of(&self, job: Job) -> Option<u32> {
        let (garment, finder) = (self.garment, &self.work.finder);
        let surface: Option<&Surface> = self.size.sewn.surface.as_ref();
        match job {
            Job::Seam(at) => {
                let own = self.size.sewn.seams.iter().zip(self.seams).filter(|(_, own)| **own == Some(at));
                let times: u32 = own.map(|(sewn, _)| sewn.sewings).sum();
                (times > 0).then_some(times)
            }
            Job::Finish(id, nth, layer) => {
                let places = finder.in_layer(layer, garment.finish(id).edges.get(nth)?);
                // What another layer or side sews of it apart leaves it in several stretches on its paper.
                let goes_on = |place: &&Place| {
                    let before = finder.drawn(place.part).map(|drawn| drawn.before(place.edge));
                    let is_before = |own: &Place| {
                        own.part == place.part && own.edge != place.edge && Some(own.edge) == before
                    };
                    places.iter().any(is_before)
                };
                // Of stretches that follow one another over the fold the whole is there once.
                let edges = |start: &Place| {
                    let (mut least, mut at) = (finder.edges(start), *start);
                    let Some(drawn) = finder.drawn(start.part) else { return least };
                    for _ in &places {
                        let after = drawn.after(at.edge);
                        let next = places.iter().find(|own| own.part == at.part && own.edge == after);
                        let Some(next) = next else { break };
                        least = least.min(finder.edges(next));
                        at = *next;
                    }
                    least
                };
                let times = places.iter().filter(|place| !goes_on(place)).map(edges).sum();
                // Of what goes all round every stretch goes on from another.
                Some(if times == 0 { places.first().map_or(0, |place| finder.edges(place)) } else { times })
            }
            Job::Place(id, layer) => {
                let surface = surface?;
                let own = surface
                    .placings
                    .iter()
                    .filter(|placing| placing.placement == id && surface.face(placing.placed).layer == layer);
                Some(own.count() as u32)
            }
            Job::Closure(id) | Job::PutIn(id) => {
                self.size.sewn.closure_counts.as_ref()?.get(id.index()).copied()
            }
            Job::TakeUp(layer, name) => {
                let has =
                    |drawn: &crate::resolve::DrawnPiece| drawn.take_ups.iter().any(|one| one.name == name);
                let parts = crate::sewing::PartId::enumerate(finder.parts)
                    .filter(|(id, part)| part.layer == layer && finder.drawn(*id).is_some_and(has));
                Some(parts.map(|(id, _)| finder.times(id)).sum())
            }
            Job::Fuse(layer, piece) => {
                let rows = self.size.drawn.cut_list.iter();
                let own = rows.filter(|row| row.part.layer == layer && row.part.piece == piece);
                Some(own.map(|row| row.copies).sum())
            }
            Job::Strap(id) => {
                let strap = garment.strap(id);
                let is_own = |part: Part| {
                    part.piece == strap.piece && strap.layer.is_none_or(|layer| layer == part.layer)
                };
                let rows = self.size.drawn.cut_list.iter().filter(|row| is_own(row.part));
                Some(rows.map(|row| row.copies).sum()).filter(|times| *times > 0)
            }
            Job::Row(id) => self.rows_in_all(id),
            Job::Tack(id) => {
                let tack = garment.tack(id);
                set_count(garment, &self.size.drawn, finder, self.size.sewn.surface.as_ref(), tack)
                    .filter(|_| tack.sets.is_some())
            }
            Job::Cord(_) | Job::Turn(_) | Job::Gap(_) => None,
        }
    }

    /// The parts that a row of stitching lies on.
    fn rows_of(&self, id: RowId) -> impl Iterator<Item = (PartId, &SewnPart)> {
        PartId::enumerate(&self.size.sewn.parts).filter(move |(_, part)| {
            part.rows.iter().any(|row| row.row == id) || part.line_rows.iter().any(|row| row.row == id)
        })
    }

    /// How many lines a row of stitching comes to, beside all copies of its edges.
    fn rows_in_all(&self, id: RowId) -> Option<u32> {
        let finder = &self.work.finder;
        let mut count = 0;
        for (part, sewn) in self.rows_of(id) {
            let drawn = finder.drawn(part)?;
            // Where its paper parts the edge the line goes on.
            let mut lines: Vec<(EdgeId, i64)> = Vec::new();
            for row in sewn.rows.iter().filter(|row| row.row == id) {
                let edge = self.garment.whole_edge(drawn.edge_at(row.edge)?.edge);
                let line = (edge, (row.distance * 100.0).round() as i64);
                if !lines.contains(&line) {
                    lines.push(line);
                    count += finder.edges(&Place { part, edge: row.edge, elsewhere: false, span: row.span });
                }
            }
            let along = sewn.line_rows.iter().filter(|row| row.row == id).count() as u32;
            // A line of a half may go on over the fold or lie beside it.
            if along > 0 && matches!(drawn.cut, CutHow::OnFold(_)) {
                return None;
            }
            count += along * finder.times(part);
        }
        Some(count).filter(|count| *count > 0)
    }
}

/// Which way it is pressed: darts, pleats and tucks say so.
fn pressed(garment: &Garment, verb: Verb, target: ActionTarget) -> Option<String> {
    let ActionTarget::TakeUp(_, name) = target else { return None };
    if !matches!(verb, Verb::Sew | Verb::Baste | Verb::Press) {
        return None;
    }
    pressed_words(garment, name)
}

/// "toward centre", "down": which way a take-up is said to be pressed or laid.
pub(super) fn pressed_words(garment: &Garment, name: EdgeId) -> Option<String> {
    let edge = |edge: EdgeId| garment.edge(edge).name.to_string();
    Some(match garment.take_up(name)?.pressed()?.to {
        PressedTo::Edge(to) => format!("toward {}", edge(to)),
        PressedTo::Point(to) => format!("toward {}", garment.point(to).name),
        PressedTo::Up(up) => if up { "up" } else { "down" }.to_owned(),
        PressedTo::Right(right) => if right { "right" } else { "left" }.to_owned(),
    })
}
