//! JSON as it is laid out for people, two steps to the right for each list and object, written in few pieces.

use serde::Serialize;
use serde_json::Serializer;
use serde_json::ser::Formatter;
use std::io::{Result, Write};

/// What stands before a value on a line of its own: as far to the right as most of what is written.
const LINE: &[u8] = b",\n                                                                ";
/// Before the spaces.
const BREAK: usize = 2;
/// So many spaces a step.
const STEP: usize = 2;

/// Lays JSON out as `serde_json` does for people, with one piece of text where that has one a step.
struct Indented {
    depth: usize,
    /// Whether something was written in the list or object that ends next.
    has_value: bool,
}

/// Writes a value that stands so deep in a document behind what is there.
pub(super) fn write(
    text: &mut Vec<u8>,
    value: &impl Serialize,
    depth: usize,
) -> std::result::Result<(), serde_json::Error> {
    value.serialize(&mut Serializer::with_formatter(text, Indented { depth, has_value: false }))
}

impl Indented {
    fn line<W: ?Sized + Write>(&self, writer: &mut W, is_first: bool) -> Result<()> {
        let spaces = self.depth * STEP;
        match LINE.get(usize::from(is_first)..BREAK + spaces) {
            Some(line) => writer.write_all(line),
            None => {
                writer.write_all(LINE.get(usize::from(is_first)..).unwrap_or_default())?;
                (LINE.len()..BREAK + spaces).try_for_each(|_| writer.write_all(b" "))
            }
        }
    }

    fn begin<W: ?Sized + Write>(&mut self, writer: &mut W, bracket: &[u8]) -> Result<()> {
        self.depth += 1;
        self.has_value = false;
        writer.write_all(bracket)
    }

    fn end<W: ?Sized + Write>(&mut self, writer: &mut W, bracket: &[u8]) -> Result<()> {
        self.depth = self.depth.saturating_sub(1);
        if self.has_value {
            self.line(writer, true)?;
        }
        writer.write_all(bracket)
    }
}

impl Formatter for Indented {
    fn begin_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.begin(writer, b"[")
    }

    fn end_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.end(writer, b"]")
    }

    fn begin_array_value<W: ?Sized + Write>(&mut self, writer: &mut W, first: bool) -> Result<()> {
        self.line(writer, first)
    }

    fn end_array_value<W: ?Sized + Write>(&mut self, _: &mut W) -> Result<()> {
        self.has_value = true;
        Ok(())
    }

    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.begin(writer, b"{")
    }

    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.end(writer, b"}")
    }

    fn begin_object_key<W: ?Sized + Write>(&mut self, writer: &mut W, first: bool) -> Result<()> {
        self.line(writer, first)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        writer.write_all(b": ")
    }

    fn end_object_value<W: ?Sized + Write>(&mut self, _: &mut W) -> Result<()> {
        self.has_value = true;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::write;
    use serde_json::json;

    /// Against `serde_json` itself, nothing, deep and shallow.
    #[test]
    fn it_is_laid_out_as_the_library_does() {
        let deep = (0..50).fold(json!(1.5), |inner, _| json!({ "in": [inner, "\n\"", {}], "beside": [] }));
        for value in [json!([]), json!({}), json!([[], {}, [1, 2]]), json!({ "a": null, "b": [true] }), deep]
        {
            let mut text = Vec::new();
            write(&mut text, &value, 0).unwrap();
            assert_eq!(String::from_utf8(text).unwrap(), serde_json::to_string_pretty(&value).unwrap());
        }
    }

    /// What stands in a list in a document is further to the right, from its second line on.
    #[test]
    fn what_stands_deep_begins_there() {
        let value = json!({ "a": [1] });
        let mut text = Vec::new();
        write(&mut text, &value, 2).unwrap();
        assert_eq!(String::from_utf8(text).unwrap(), "{\n      \"a\": [\n        1\n      ]\n    }");
    }
}
