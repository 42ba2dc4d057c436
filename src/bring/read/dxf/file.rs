//! The sections of a DXF file that hold a pattern: header, blocks and entities.

use super::entity::Entity;
use super::parse::{Parser, Tally};
use super::tags::{Tag, Tags};
use super::words;
use crate::bring::BringError;
use crate::bring::read::letters::shown;
use indexmap::IndexMap;
use kurbo::Point;

/// What a file holds.
#[derive(Debug, Default)]
pub(super) struct File {
    /// `$INSUNITS`: the unit, as the DXF reference counts them; 0 where none is said.
    pub unit: i64,
    /// `$MEASUREMENT`: 0 English, 1 metric.
    pub measurement: Option<i64>,
    /// By their names in capitals, since DXF does not tell capitals from small letters.
    pub blocks: IndexMap<String, Block>,
    /// What is drawn outside blocks.
    pub entities: Vec<Entity>,
    /// What was counted.
    pub tally: Tally,
}

/// Entities that are put down together.
#[derive(Debug)]
pub(super) struct Block {
    /// As it is written.
    pub name: String,
    /// The point that is put where the block is put.
    pub base: Point,
    /// Another file stands for it.
    pub is_elsewhere: bool,
    /// What it is made of.
    pub entities: Vec<Entity>,
}

/// What a file begins with that is the other form of DXF, or the form that is none.
const BINARY: &[u8] = b"AutoCAD Binary DXF";
const DWG: &[u8] = b"AC10";
/// The most pairs that one entity may hold: a line of 200 000 points has fewer.
const VALUES_OF_ENTITY: usize = 1_000_000;

/// Reads a file's sections.
///
/// # Errors
/// Where it is no DXF text, breaks off, or a number of it is none.
pub(super) fn read(bytes: &[u8], name: &str) -> Result<File, BringError> {
    if bytes.starts_with(BINARY) {
        return Err(BringError::new(
            name,
            "it is a binary DXF; save it as DXF text (ASCII), which can be read",
        ));
    }
    if bytes.starts_with(DWG) {
        return Err(BringError::new(
            name,
            "it is a DWG drawing; save it as DXF text (ASCII), which can be read",
        ));
    }
    if bytes.contains(&0) {
        return Err(BringError::new(name, "it is no text, and a DXF file that can be read is one"));
    }
    let mut reader = Reader { tags: Tags::new(bytes, name), name, file: File::default() };
    match reader.tags.next()? {
        Some(tag) if is(&tag, 0, "SECTION") => reader.section()?,
        Some(tag) => {
            let why = "a DXF file begins with a section; this one does not";
            return Err(BringError::new(name, why).at_line(tag.line));
        }
        None => return Err(BringError::new(name, "there is nothing in it")),
    }
    loop {
        let tag = reader.must_go_on("sections")?;
        if is(&tag, 0, "SECTION") {
            reader.section()?;
        } else if is(&tag, 0, "EOF") {
            return Ok(reader.file);
        }
    }
}

fn is(tag: &Tag, code: i32, value: &str) -> bool {
    tag.code == code && tag.value.eq_ignore_ascii_case(value)
}

struct Reader<'a> {
    tags: Tags<'a>,
    name: &'a str,
    file: File,
}

impl<'a> Reader<'a> {
    fn must_go_on(&mut self, within: &str) -> Result<Tag<'a>, BringError> {
        match self.tags.next()? {
            Some(tag) => Ok(tag),
            None => {
                let why = format!("the file breaks off in its {within}; save or copy it anew");
                Err(BringError::new(self.name, why).at_line(self.tags.line()))
            }
        }
    }

    fn section(&mut self) -> Result<(), BringError> {
        let tag = self.must_go_on("sections")?;
        match &*tag.value.to_ascii_uppercase() {
            "HEADER" => self.header(),
            "BLOCKS" => self.blocks(),
            "ENTITIES" => {
                let entities = self.entities("ENDSEC", "entities")?;
                self.file.entities.extend(entities);
                Ok(())
            }
            _ => {
                while !is(&self.must_go_on("sections")?, 0, "ENDSEC") {}
                Ok(())
            }
        }
    }

    fn header(&mut self) -> Result<(), BringError> {
        let mut variable = String::new();
        loop {
            let tag = self.must_go_on("header")?;
            match (tag.code, variable.as_str()) {
                (0, _) if is(&tag, 0, "ENDSEC") => return Ok(()),
                (9, _) => variable = tag.value.to_ascii_uppercase(),
                (70, "$INSUNITS") => self.file.unit = tag.whole(),
                (70, "$MEASUREMENT") => self.file.measurement = Some(tag.whole()),
                _ => {}
            }
        }
    }

    fn blocks(&mut self) -> Result<(), BringError> {
        loop {
            let tag = self.must_go_on("blocks")?;
            if is(&tag, 0, "ENDSEC") {
                return Ok(());
            }
            if is(&tag, 0, "BLOCK") {
                self.block(tag.line)?;
            }
        }
    }

    fn block(&mut self, line: usize) -> Result<(), BringError> {
        let mut block =
            Block { name: String::new(), base: Point::ZERO, is_elsewhere: false, entities: Vec::new() };
        // The block's own pairs end where its first entity begins.
        let first = loop {
            let tag = self.must_go_on("blocks")?;
            match tag.code {
                0 => break tag,
                2 => block.name = words::of_name(&tag.value),
                10 => block.base.x = tag.number(self.name)?,
                20 => block.base.y = tag.number(self.name)?,
                // Flags 4 and 8: another drawing stands for the block, laid over or under this one.
                70 => block.is_elsewhere = tag.whole() & 12 != 0,
                _ => {}
            }
        };
        block.entities = self.entities_from(first, "ENDBLK", "blocks")?;
        let key = block.name.to_uppercase();
        if self.file.blocks.contains_key(&key) {
            let why = format!("there are two blocks “{}”; give each its own name", shown(&block.name));
            return Err(BringError::new(self.name, why).at_line(line));
        }
        self.file.blocks.insert(key, block);
        Ok(())
    }

    fn entities(&mut self, end: &str, within: &str) -> Result<Vec<Entity>, BringError> {
        let first = self.must_go_on(within)?;
        self.entities_from(first, end, within)
    }

    /// Entities up to `end`, from the pair that begins the first.
    fn entities_from(&mut self, first: Tag<'a>, end: &str, within: &str) -> Result<Vec<Entity>, BringError> {
        let mut parser = Parser::new(self.name, &mut self.file.tally);
        let mut kind = first;
        let mut own: Vec<Tag<'a>> = Vec::new();
        while !is(&kind, 0, end) {
            let next = loop {
                let Some(tag) = self.tags.next()? else {
                    let why = format!("the file breaks off in its {within}; save or copy it anew");
                    return Err(BringError::new(self.name, why).at_line(self.tags.line()));
                };
                if tag.code == 0 {
                    break tag;
                }
                own.push(tag);
                if own.len() > VALUES_OF_ENTITY {
                    let why = format!(
                        "one {} holds more than {VALUES_OF_ENTITY} values; no pattern needs so many",
                        shown(&kind.value)
                    );
                    return Err(BringError::new(self.name, why).at_line(kind.line));
                }
            };
            parser.take(&kind, &own)?;
            own.clear();
            kind = next;
        }
        Ok(parser.finish())
    }
}
