use crate::source::Span;

/// How much a message matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
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
pub struct Diagnostic {
    /// A slug of the catalogue, `seam/unequal`.
    pub slug: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What was found and what was expected, one sentence without a full stop.
    pub title: String,
    /// The words that the maker would change first, then the other places that disagree.
    pub labels: Vec<Label>,
    /// The sizes it happens in, by name, in the garment's order; empty when it is not of a size.
    pub sizes: Vec<String>,
    /// Figures by size, where they differ.
    pub table: Option<SizeTable>,
    /// The way out.
    pub help: Option<String>,
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
    /// A mistake at one place.
    pub fn mistake(slug: &'static str, span: Span, title: impl Into<String>) -> Self {
        Self::new(Severity::Mistake, slug, span, title)
    }

    /// A warning at one place.
    pub fn warning(slug: &'static str, span: Span, title: impl Into<String>) -> Self {
        Self::new(Severity::Warning, slug, span, title)
    }

    /// Any message at one place, whose label says nothing until [`Diagnostic::label`] does.
    pub fn new(severity: Severity, slug: &'static str, span: Span, title: impl Into<String>) -> Self {
        Diagnostic {
            slug,
            severity,
            title: title.into(),
            labels: vec![Label { span, text: String::new() }],
            sizes: Vec::new(),
            table: None,
            help: None,
        }
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
        self.labels.push(Label { span, text: text.into() });
        self
    }

    /// Tells the way out.
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// The first place.
    pub fn span(&self) -> Span {
        self.labels.first().map_or(Span::default(), |label| label.span)
    }
}
