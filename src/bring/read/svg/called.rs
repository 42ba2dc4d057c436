//! What elements of a document are called, and which of them are words.

use roxmltree::Node;

/// Whether a group is words drawn as the outlines of their letters: it says so, or is made of nothing but other elements
/// used again.
pub fn is_words(node: &Node<'_, '_>) -> bool {
    let mut inside = node.children().filter(Node::is_element);
    node.attribute("role") == Some("img") || inside.all(|one| one.tag_name().name() == "use")
}

/// What an element is called: its title, a label, or its id.
pub fn name_of(node: &Node<'_, '_>) -> Option<String> {
    let title =
        node.children().find(|child| child.tag_name().name() == "title").and_then(|title| title.text());
    let label = || node.attributes().find(|one| one.name() == "label").map(|one| one.value());
    let name = title.or_else(label).or_else(|| node.attribute("id"))?;
    let name = crate::bring::names::one_line(name);
    (!name.is_empty()).then_some(name)
}
