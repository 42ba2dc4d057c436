//! What the entities of an XML document can come to, before any is put in.

/// The most bytes that entities may come to.
pub const MOST_OF_ENTITIES: usize = 256 * 1024 * 1024;
/// How many entities the parser puts in the place of one, by others that it names.
const ENTITIES_OF_ONE: usize = 255;

/// How many bytes the entities of a document can come to at most: all that is declared, wherever one is named.
pub fn entities_come_to(text: &str) -> usize {
    let Some(first) = text.find("<!ENTITY") else { return 0 };
    let declared = text
        .rfind("<!ENTITY")
        .map_or(0, |last| last - first + text[last..].find('>').unwrap_or(text.len() - last));
    let named = text.bytes().filter(|byte| *byte == b'&').count();
    declared.saturating_mul(ENTITIES_OF_ONE).saturating_mul(named)
}
