//! The whole journey, from a file's name to a compiled garment and its report.

use crate::check::{account_for_garment, account_for_sizes, check, told_once};
use crate::cutting::WorkedSize;
use crate::garment;
use crate::garment::{
    Causes, FileKind, Garment, Lowered, Merged, Plan, Planned, Told, expand, load, load_again, lower, merge,
    pack, plan, via_variation,
};
use crate::kept::Kept;
use crate::report::{Diagnostic, Severity, catalogue, group};
use crate::resolve::{Resolved, resolve_again};
use crate::sewing::order::arranged;
use crate::source::{Loader, MemoryLoader, SourceMap};
use rayon::prelude::*;

/// A compiled garment and everything that is to be said of it.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Compiled {
    /// Every text that was read, the first file first.
    pub map: SourceMap,
    /// The garment, as far as it could be made sense of.
    pub garment: Garment,
    /// In which order a size of it is worked out.
    pub plan: Plan,
    /// The garment worked out in each size, smallest first.
    pub sizes: Vec<WorkedSize>,
    /// Mistakes, warnings, advice and cautions: by file, and by place in each.
    pub diagnostics: Vec<Diagnostic>,
}

impl Compiled {
    /// Whether the garment cannot be cut or sewn as it stands.
    pub fn has_mistakes(&self) -> bool {
        self.diagnostics.iter().any(|diagnostic| diagnostic.severity() == Severity::Mistake)
    }
}

/// Compiles the garment in the file at `path`, with its bases and libraries.
///
/// Never fails: what cannot be made sense of is reported in the diagnostics, and the rest is worked
/// out as far as it goes.
pub fn compile(loader: &dyn Loader, path: &str) -> Compiled {
    compiled(loader, path, None)
}

/// Compiles a garment as [`compile`] does, of which something is remembered from before, and remembers it: after a
/// small change that takes less time.
pub fn compile_again(loader: &dyn Loader, path: &str, kept: &mut Kept) -> Compiled {
    kept.texts.begin();
    let compiled = compiled(loader, path, Some(kept));
    kept.texts.end();
    compiled
}

fn compiled(loader: &dyn Loader, path: &str, mut kept: Option<&mut Kept>) -> Compiled {
    // Much is done side by side, again and again: whoever is among those who do it need not be woken each time.
    rayon::scope(|_| {
        let mut map = SourceMap::default();
        let texts = kept.as_mut().map(|kept| &mut kept.texts);
        let merged = merge(load_again(loader, &mut map, path, texts));
        worked_out(map, &merged, kept)
    })
}

/// The garment that its files, read and put together, tell of.
fn worked_out(map: SourceMap, merged: &Merged, kept: Option<&mut Kept>) -> Compiled {
    let Lowered { mut garment, diagnostics: lowered, names } = lower(&map, merged);
    let (planned, name_uses) = rayon::join(|| plan(&garment), || names.in_order(&map, &garment));
    let Planned { plan, diagnostics: circles } = planned;
    garment.name_uses = name_uses;
    let memory = kept.map(|kept| kept.memory(garment.sizes.len())).unwrap_or_default();
    let Resolved { sizes, findings } = resolve_again(&garment, &plan, &memory);
    let names: Vec<String> = garment.sizes.iter().map(|size| size.name.to_string()).collect();
    let found = group(findings, &names);
    let mut sizes: Vec<WorkedSize> = sizes
        .into_par_iter()
        .enumerate()
        .map(|(at, drawn)| WorkedSize::again(&garment, drawn, memory.sizes.get(at)))
        .collect();
    let (garment, checked) = checked(garment, &sizes);
    sizes.iter_mut().for_each(WorkedSize::give_memory_back);
    let mut reported: Vec<Diagnostic> = merged.mistakes.iter().cloned().chain(lowered).collect();
    let lost = account_for_garment(&garment, &reported);
    reported.extend(circles.into_iter().chain(found).chain(checked).chain(lost));
    reported.extend(account_for_sizes(&garment, &sizes, &reported));
    let reported = told_once(&garment, &sizes, reported);
    let mut diagnostics = via_variation(merged, &map, reported);
    diagnostics.sort_by_key(|diagnostic| diagnostic.span().lo);
    Compiled { map, garment, plan, sizes, diagnostics }
}

/// What is to be said of the garment. Steps of files that are combined, in which something comes too early, are first
/// put in an order in which nothing does, if there is one.
fn checked(mut garment: Garment, sizes: &[WorkedSize]) -> (Garment, Vec<Diagnostic>) {
    let found = check(&garment, sizes);
    let is_early = |one: &Diagnostic| one.is_any(&[&catalogue::STEP_EARLY, &catalogue::STEP_SHUT]);
    let Some(first) = sizes.first().filter(|_| found.iter().any(is_early)) else { return (garment, found) };
    let Some(order) = arranged(&garment, &first.drawn, &first.sewn) else { return (garment, found) };
    garment.steps = order.into_iter().filter_map(|at| garment.steps.get(at).cloned()).collect();
    let found = check(&garment, sizes);
    (garment, found)
}

/// The files that a garment hangs on.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Inputs {
    /// Every text that was read, the first file first.
    pub map: SourceMap,
    /// Whether that is all: every file that is named could be had.
    pub is_whole: bool,
    /// What is wrong in them as texts: where a file could not be had, which, and who names it.
    pub mistakes: Vec<Diagnostic>,
}

/// Reads the file at `path`, its bases, what is combined with them and its libraries, and works nothing out: what a
/// build has to know before it runs anything.
pub fn inputs(loader: &dyn Loader, path: &str) -> Inputs {
    let mut map = SourceMap::default();
    let chain = load(loader, &mut map, path);
    Inputs { map, is_whole: !chain.incomplete, mistakes: chain.mistakes }
}

/// What two garments say differently, each with its bases and libraries, wherever it is said: the causes of all that
/// comes out differently.
pub fn causes(old: (&dyn Loader, &str), new: (&dyn Loader, &str)) -> Causes {
    let read = |(loader, path): (&dyn Loader, &str)| -> (SourceMap, Merged) {
        let mut map = SourceMap::default();
        let merged = merge(load(loader, &mut map, path));
        (map, merged)
    };
    let ((old_map, old), (new_map, new)) = (read(old), read(new));
    garment::causes(Told { map: &old_map, merged: &old }, Told { map: &new_map, merged: &new })
}

/// The garment in the file at `path`, with its bases and libraries, as the text of one file that
/// compiles to the same.
///
/// It is only worth having of a garment that compiles without mistakes.
pub fn packed(loader: &dyn Loader, path: &str) -> String {
    let mut map = SourceMap::default();
    let mut merged = merge(load(loader, &mut map, path));
    if !merged.steps_beside.is_empty() {
        let steps = compile(loader, path).garment.steps;
        merged.put_steps(&steps.into_iter().map(|step| step.title).collect::<Vec<_>>());
    }
    pack(&map, &merged, &lower(&map, &merged).garment)
}

/// The garment in the file at `path` as a text in which all that can be said at more length is: what is said in one
/// line is written out. A variation or a fitting is packed for that, with its bases and libraries.
///
/// It is only worth having of a garment that compiles without mistakes.
pub fn expanded(loader: &dyn Loader, path: &str) -> String {
    const ONE: &str = "one.fus";
    let mut map = SourceMap::default();
    let merged = merge(load(loader, &mut map, path));
    let goes_by_others = merged
        .lineage
        .last()
        .is_some_and(|(_, kind)| matches!(kind, FileKind::Variation | FileKind::Fitting));
    if !goes_by_others {
        return expand(&map, &merged);
    }
    let text = pack(&map, &merged, &lower(&map, &merged).garment);
    let mut map = SourceMap::default();
    let merged = merge(load(&MemoryLoader::new().with(ONE, text.as_str()), &mut map, ONE));
    expand(&map, &merged)
}
