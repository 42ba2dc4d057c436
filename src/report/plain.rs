use super::ReportedDiagnostic;

/// Messages for whatever reads lines: an editor's list of places, a search, a voice. One line each,
/// `file:line:column: severity: text [slug]`; of a message without a place what stands before the severity is left out.
pub fn plain(messages: &[ReportedDiagnostic]) -> String {
    let line = |message: &ReportedDiagnostic| {
        let place = message.places.first();
        let place = place.map_or_else(String::new, |at| format!("{}:{}:{}: ", at.file, at.line, at.column));
        let words: Vec<&str> = message.title.split_whitespace().collect();
        format!("{place}{}: {} [{}]\n", message.severity.word(), words.join(" "), message.slug)
    };
    messages.iter().map(line).collect()
}
