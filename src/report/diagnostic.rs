use super::catalogue::Entry;
use super::remedy::Remedy;
use super::title::Title;
use crate::source::Span;
use schemars::JsonSchema;
use serde::Serialize;

/// How much a message matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The garment cannot be cut or sewn.
    Mistake,
    /// It can, but a maker would stop and look.
    Warning,
    /// A habit of the trade.
    Advice,
    /// Safety: always shown, always names the rule and defers to local law.
    Caution,
}

/// A place in the text and what is to be said of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What; may be empty where the place alone says it.
    pub text: String,
}

/// One message, as data.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Diagnostic {
    /// What kind of message it is.
    pub kind: &'static Entry,
    /// What was found and what was expected, one sentence without a full stop.
    pub title: Title,
    /// The words that the maker would change first, then the other places that disagree.
    pub labels: Vec<Label>,
    /// Further places that it is about, which are too many to be shown.
    pub unshown: Vec<Span>,
    /// The sizes it happens in, by name, in the garment's order; empty when it is not of a size.
    pub sizes: Vec<String>,
    /// Figures by size, where they differ.
    pub table: Option<SizeTable>,
    /// The way out.
    pub help: Option<String>,
    /// Another way out, which is not in the text.
    pub remedy: Option<Remedy>,
    /// The way out as an edit, where it is a sure one.
    pub fix: Option<Fix>,
}

/// Words to be written in place of others, that an editor can write for the maker.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What it does, as "write collar".
    pub title: String,
    /// What is to stand in place of each span; an empty span is a place to write at.
    pub edits: Vec<(Span, String)>,
}

/// Figures by size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SizeTable {
    /// Column titles after the size's.
    pub columns: Vec<String>,
    /// A size's name and its figures.
    pub rows: Vec<(String, Vec<String>)>,
}

impl Diagnostic {
    /// A message of that kind at one place, whose label says nothing until [`Diagnostic::label`] does.
    pub fn new(kind: &'static Entry, span: Span, title: impl Into<Title>) -> Self {
        Diagnostic {
            kind,
            title: title.into(),
            labels: vec![Label { span, text: String::new() }],
            unshown: Vec::new(),
            sizes: Vec::new(),
            table: None,
            help: None,
            remedy: None,
            fix: None,
        }
    }

    /// Its slug in the catalogue, `seam/unequal`.
    pub fn slug(&self) -> &'static str {
        self.kind.slug
    }

    /// Whether it is a message of that kind.
    pub fn is(&self, kind: &Entry) -> bool {
        *self.kind == *kind
    }

    /// Whether it is a message of one of these kinds.
    pub fn is_any(&self, kinds: &[&Entry]) -> bool {
        kinds.iter().any(|kind| self.is(kind))
    }

    /// How much it matters.
    pub fn severity(&self) -> Severity {
        self.kind.severity
    }

    /// Says something at the first place.
    pub fn label(mut self, text: impl Into<String>) -> Self {
        if let Some(first) = self.labels.first_mut() {
            first.text = text.into();
        }
        self
    }

    /// Shows another place.
    pub fn also(mut self, span: Span, text: impl Into<String>) -> Self {
        self.show([Label { span, text: text.into() }]);
        self
    }

    /// Shows more places, each once: an edge of a piece and of its copy stand in one.
    pub fn show(&mut self, labels: impl IntoIterator<Item = Label>) {
        for label in labels {
            if !self.labels.contains(&label) {
                self.labels.push(label);
            }
        }
    }

    /// Is about another place, which is not shown.
    pub fn about(mut self, span: Span) -> Self {
        self.unshown.push(span);
        self
    }

    /// Every place that it is about, shown or not.
    pub fn places(&self) -> impl Iterator<Item = Span> {
        self.labels.iter().map(|label| label.span).chain(self.unshown.iter().copied())
    }

    /// Tells the way out.
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// Reports a way out that is not in the text.
    pub fn remedy(mut self, remedy: Remedy) -> Self {
        self.remedy = Some(remedy);
        self
    }

    /// The same with a program's own words for a remedy.
    pub fn worded(mut self, words: impl Fn(Remedy) -> String) -> Self {
        if let Some(remedy) = self.remedy.take() {
            self.help = Some(with_remedy(self.help, &words(remedy)));
        }
        self
    }

    /// All ways out in one sentence.
    pub fn help_words(&self) -> Option<String> {
        match self.remedy {
            Some(remedy) => Some(with_remedy(self.help.clone(), remedy.words())),
            None => self.help.clone(),
        }
    }

    /// Asks whether `words` were meant, and offers to write them in place of the span.
    pub fn did_you_mean(self, span: Span, words: &str) -> Self {
        self.help(format!("did you mean {words}?")).fix_by(span, words)
    }

    /// Offers to write `words` in place of a span.
    pub fn fix_by(self, span: Span, words: &str) -> Self {
        self.fix(format!("write {words}"), vec![(span, words.to_owned())])
    }

    /// Offers any edits as the way out.
    pub fn fix(mut self, title: impl Into<String>, edits: Vec<(Span, String)>) -> Self {
        self.fix = Some(Fix { title: title.into(), edits });
        self
    }

    /// The first place.
    pub fn span(&self) -> Span {
        self.labels.first().map_or(Span::default(), |label| label.span)
    }
}

fn with_remedy(help: Option<String>, remedy: &str) -> String {
    match help {
        Some(help) => format!("{help}, or {remedy}"),
        None => remedy.to_owned(),
    }
}
