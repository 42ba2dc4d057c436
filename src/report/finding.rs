use super::title::IN_EVERY_SIZE;
use super::{Diagnostic, Severity, SizeId, SizeTable, listed};
use crate::source::Span;
use indexmap::IndexMap;

/// A message about one size. The driver groups equal findings over sizes into one message that
/// is worded for the worst of them.
#[derive(Clone, Debug)]
pub struct Finding {
    /// The message as it would read for this size alone. Where its title is [`super::Title::in_sizes`], the
    /// sizes are named: "the side is too short: …" becomes "the side is too short in M to 2XL: …".
    pub diagnostic: Diagnostic,
    /// The size.
    pub size: SizeId,
    /// How bad it is, in any unit that is the same for all findings that group together.
    pub weight: f64,
    /// Figures of this size: column title and figure. The same columns in every size.
    pub figures: Vec<(String, String)>,
    /// Findings group when slug, first span and subject agree; usually empty.
    pub subject: String,
}

impl Finding {
    /// A finding without figures.
    pub fn new(size: SizeId, weight: f64, diagnostic: Diagnostic) -> Self {
        Finding { diagnostic, size, weight, figures: Vec::new(), subject: String::new() }
    }

    /// Adds a figure for the table of sizes.
    pub fn figure(mut self, column: &str, figure: impl Into<String>) -> Self {
        self.figures.push((column.to_owned(), figure.into()));
        self
    }

    /// Keeps apart what has the same slug and place.
    pub fn about(mut self, subject: impl Into<String>) -> Self {
        self.subject = subject.into();
        self
    }
}

/// Groups findings over sizes, in the order in which each group was first found.
///
/// `sizes` names every size of the garment, smallest first. With one size in the garment the
/// sizes are not mentioned.
pub fn group(findings: Vec<Finding>, sizes: &[String]) -> Vec<Diagnostic> {
    let mut groups: IndexMap<(&'static str, Severity, Span, String), Vec<Finding>> = IndexMap::new();
    for finding in findings {
        let first = &finding.diagnostic;
        let key = (first.slug(), first.severity(), first.span(), finding.subject.clone());
        groups.entry(key).or_default().push(finding);
    }
    groups.into_values().map(|group| merge(group, sizes)).collect()
}

fn merge(mut group: Vec<Finding>, sizes: &[String]) -> Diagnostic {
    group.sort_by(|a, b| a.size.cmp(&b.size).then(b.weight.total_cmp(&a.weight)));
    group.dedup_by_key(|finding| finding.size);
    let found: Vec<usize> = group.iter().map(|finding| finding.size.index()).collect();
    let mut worst = 0;
    for (at, finding) in group.iter().enumerate() {
        if finding.weight > group[worst].weight {
            worst = at;
        }
    }
    let mut diagnostic = group[worst].diagnostic.clone();
    let differ = group.iter().any(|finding| finding.figures != group[worst].figures);
    let words = size_words(&found, sizes);
    // The message is worded for one of them.
    let worded_for = match sizes.get(group[worst].size.index()).filter(|_| differ && !words.is_empty()) {
        Some(size) => format!(" (worst: {size})"),
        None => String::new(),
    };
    diagnostic.title = diagnostic.title.naming(&words, &worded_for);
    diagnostic.sizes = found.iter().filter_map(|&at| sizes.get(at).cloned()).collect();
    if differ && !group[worst].figures.is_empty() {
        let columns: Vec<String> = group[worst].figures.iter().map(|(column, _)| column.clone()).collect();
        let rows = group.iter().map(|finding| {
            let figures = finding.figures.iter().map(|(_, figure)| figure.clone()).collect();
            (sizes.get(finding.size.index()).cloned().unwrap_or_default(), figures)
        });
        diagnostic.table = Some(SizeTable { columns, rows: rows.collect() });
    }
    diagnostic
}

/// "in every size", "in M", "in M to 2XL", "in S, L and XL to 2XL"; nothing with one size in all.
fn size_words(found: &[usize], sizes: &[String]) -> String {
    if sizes.len() <= 1 {
        return String::new();
    }
    if found.len() == sizes.len() {
        return IN_EVERY_SIZE.to_owned();
    }
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &at in found {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == at => *last = at,
            _ => runs.push((at, at)),
        }
    }
    let name = |at: usize| sizes.get(at).map_or("", String::as_str);
    let words: Vec<String> = runs
        .iter()
        .map(|&(first, last)| match last - first {
            0 => name(first).to_owned(),
            1 => format!("{}, {}", name(first), name(last)),
            _ => format!("{} to {}", name(first), name(last)),
        })
        .collect();
    if words.is_empty() { String::new() } else { format!("in {}", listed(&words)) }
}
