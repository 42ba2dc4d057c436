//! The text form of a DXF file as AutoCAD Release 13 reads it (`AC1012`): pairs of lines, a group
//! code and its value, in sections. Only what the pieces need is here: layers, blocks and six kinds
//! of entity. Codes, sections and the names of subclasses are those of Autodesk's published DXF
//! reference; whatever it lets be left out, because it has a default, is left out.

use kurbo::{Point, Rect};
use std::fmt::Write;

/// Something drawn, on a layer.
pub struct Entity<'a> {
    /// The layer's name.
    pub layer: &'a str,
    /// What is drawn.
    pub shape: Shape,
}

/// What can be drawn; coordinates are written rounded to 0.001, since finer figures are noise.
pub enum Shape {
    /// A straight line between two points.
    Line(Point, Point),
    /// A single point.
    Point(Point),
    /// Straight lines through points, from the last back to the first where `closed`.
    Polyline { points: Vec<Point>, closed: bool },
    /// One line of words that starts at a point, in letters of a height.
    Text { at: Point, height: f64, words: String },
    /// A block, by its name, put down with its origin at a point.
    Insert(String, Point),
}

/// Entities that are put down together, under a name.
pub struct Block<'a> {
    /// The name, in letters that Release 13 allows.
    pub name: String,
    /// The layer of the block itself.
    pub layer: &'a str,
    /// What it is made of.
    pub entities: Vec<Entity<'a>>,
}

/// The blocks that every file has, for the drawing itself and for its sheet; both stay empty,
/// since the drawing's own entities have a section of theirs.
const SPACES: [&str; 2] = ["*MODEL_SPACE", "*PAPER_SPACE"];

/// The file that holds these layers, blocks and entities, which take up `extents`. Which unit they are in cannot be said in
/// the header: its variables for that came with Release 14, and what reads Release 13 may refuse a variable it lacks.
pub fn written(layers: &[&str], blocks: &[Block], entities: &[Entity], extents: Rect) -> Vec<u8> {
    // The header comes first and names a handle above all others, which are counted below it.
    let mut body = Writer { text: String::new(), last_handle: 0 };
    body.section("TABLES", |file| file.tables(layers, blocks));
    body.section("BLOCKS", |file| {
        for name in SPACES {
            file.block(&Block { name: name.to_owned(), layer: "0", entities: Vec::new() });
        }
        blocks.iter().for_each(|block| file.block(block));
    });
    body.section("ENTITIES", |file| entities.iter().for_each(|entity| file.entity(entity)));
    body.section("OBJECTS", Writer::root_dictionary);
    body.pair(0, "EOF");

    let mut file = Writer { text: String::with_capacity(body.text.len() + 200), last_handle: 0 };
    file.section("HEADER", |file| {
        file.pair(9, "$ACADVER");
        file.pair(1, "AC1012");
        file.pair(9, "$DWGCODEPAGE");
        file.pair(3, "ANSI_1252");
        file.pair(9, "$HANDSEED");
        file.pair(5, &format!("{:X}", body.last_handle + 1));
        for (name, at) in [("$EXTMIN", extents.origin()), ("$EXTMAX", Point::new(extents.x1, extents.y1))] {
            file.pair(9, name);
            file.point(10, at);
        }
        // Lengths are shown in decimal figures, three after the point.
        for (name, value) in [("$LUNITS", 2), ("$LUPREC", 3)] {
            file.pair(9, name);
            file.flag(70, value);
        }
    });
    file.text.push_str(&body.text);
    file.text.into_bytes()
}

struct Writer {
    text: String,
    /// The handle given last; every object has one of its own.
    last_handle: u64,
}

impl Writer {
    fn pair(&mut self, code: u16, value: &str) {
        // Writing to a string cannot fail.
        let _ = write!(self.text, "{code:>3}\r\n{value}\r\n");
    }

    fn flag(&mut self, code: u16, value: u16) {
        self.pair(code, &format!("{value:>6}"));
    }

    fn number(&mut self, code: u16, value: f64) {
        // `+ 0.0` turns -0 into 0.
        let rounded = (value * 1000.0).round() / 1000.0 + 0.0;
        let point = if rounded.fract() == 0.0 { ".0" } else { "" };
        self.pair(code, &format!("{rounded}{point}"));
    }

    /// A point in the plane; `code` is that of its x.
    fn point(&mut self, code: u16, at: Point) {
        self.number(code, at.x);
        self.number(code + 10, at.y);
        self.number(code + 20, 0.0);
    }

    fn handle(&mut self) {
        self.last_handle += 1;
        self.pair(5, &format!("{:X}", self.last_handle));
    }

    fn section(&mut self, name: &str, inside: impl FnOnce(&mut Writer)) {
        self.pair(0, "SECTION");
        self.pair(2, name);
        inside(self);
        self.pair(0, "ENDSEC");
    }

    fn tables(&mut self, layers: &[&str], blocks: &[Block]) {
        self.table("VPORT", "AcDbViewportTableRecord", ["*ACTIVE"], |_| {});
        self.table("LTYPE", "AcDbLinetypeTableRecord", ["BYBLOCK", "BYLAYER", "CONTINUOUS"], |file| {
            file.pair(3, "");
            file.flag(72, 65);
            file.flag(73, 0);
            file.number(40, 0.0);
        });
        let layers = std::iter::once("0").chain(layers.iter().copied());
        self.table("LAYER", "AcDbLayerTableRecord", layers, |file| {
            file.flag(62, 7);
            file.pair(6, "CONTINUOUS");
        });
        self.table("STYLE", "AcDbTextStyleTableRecord", ["STANDARD"], |file| {
            file.number(40, 0.0);
            file.number(41, 1.0);
            file.number(50, 0.0);
            file.flag(71, 0);
            file.number(42, 0.2);
            file.pair(3, "txt");
            file.pair(4, "");
        });
        for (unused, class) in [("VIEW", "AcDbViewTableRecord"), ("UCS", "AcDbUCSTableRecord")] {
            self.table(unused, class, [], |_| {});
        }
        self.table("APPID", "AcDbRegAppTableRecord", ["ACAD"], |_| {});
        self.table("DIMSTYLE", "AcDbDimStyleTableRecord", [], |_| {});
        let names = SPACES.into_iter().chain(blocks.iter().map(|block| block.name.as_str()));
        self.table("BLOCK_RECORD", "AcDbBlockTableRecord", names, |_| {});
    }

    /// A table, with a record for each name; `rest` writes what its records hold beside it.
    fn table<'a>(
        &mut self,
        kind: &str,
        class: &str,
        names: impl IntoIterator<Item = &'a str>,
        rest: impl Fn(&mut Writer),
    ) {
        let names: Vec<&str> = names.into_iter().collect();
        self.pair(0, "TABLE");
        self.pair(2, kind);
        self.handle();
        self.pair(100, "AcDbSymbolTable");
        self.pair(70, &format!("{:>6}", names.len()));
        for name in names {
            self.pair(0, kind);
            self.handle();
            self.pair(100, "AcDbSymbolTableRecord");
            self.pair(100, class);
            self.pair(2, name);
            self.flag(70, 0);
            rest(self);
        }
        self.pair(0, "ENDTAB");
    }

    fn block(&mut self, block: &Block) {
        self.start("BLOCK", block.layer, "AcDbBlockBegin");
        self.pair(2, &block.name);
        self.flag(70, 0);
        self.point(10, Point::ZERO);
        self.pair(3, &block.name);
        self.pair(1, "");
        block.entities.iter().for_each(|entity| self.entity(entity));
        self.start("ENDBLK", block.layer, "AcDbBlockEnd");
    }

    /// What every entity begins with.
    fn start(&mut self, kind: &str, layer: &str, class: &str) {
        self.pair(0, kind);
        self.handle();
        self.pair(100, "AcDbEntity");
        self.pair(8, layer);
        self.pair(100, class);
    }

    fn entity(&mut self, Entity { layer, shape }: &Entity) {
        match shape {
            Shape::Line(from, to) => {
                self.start("LINE", layer, "AcDbLine");
                self.point(10, *from);
                self.point(11, *to);
            }
            Shape::Point(at) => {
                self.start("POINT", layer, "AcDbPoint");
                self.point(10, *at);
            }
            Shape::Polyline { points, closed } => {
                self.start("POLYLINE", layer, "AcDb2dPolyline");
                self.flag(66, 1);
                self.point(10, Point::ZERO);
                self.flag(70, u16::from(*closed));
                for at in points {
                    self.start("VERTEX", layer, "AcDbVertex");
                    self.pair(100, "AcDb2dVertex");
                    self.point(10, *at);
                }
                self.pair(0, "SEQEND");
                self.handle();
                self.pair(100, "AcDbEntity");
                self.pair(8, layer);
            }
            Shape::Text { at, height, words } => {
                self.start("TEXT", layer, "AcDbText");
                self.point(10, *at);
                self.number(40, *height);
                self.pair(1, &spelled(words));
                self.pair(100, "AcDbText");
            }
            Shape::Insert(name, at) => {
                self.start("INSERT", layer, "AcDbBlockReference");
                self.pair(2, name);
                self.point(10, *at);
            }
        }
    }

    /// The dictionary in which every object of the file would be found, and the one that it must
    /// hold.
    fn root_dictionary(&mut self) {
        self.pair(0, "DICTIONARY");
        self.handle();
        let root = format!("{:X}", self.last_handle);
        self.pair(330, "0");
        self.pair(100, "AcDbDictionary");
        self.pair(3, "ACAD_GROUP");
        self.pair(350, &format!("{:X}", self.last_handle + 1));
        self.pair(0, "DICTIONARY");
        self.handle();
        self.pair(330, &root);
        self.pair(100, "AcDbDictionary");
    }
}

/// Words on one line, in ASCII: a line's end would end the value, `^` would make a control letter
/// of the one after it, and whatever the code page may lack is written as `\U+` and four figures, a
/// letter beyond those as the two halves that UTF-16 makes of it. What would itself be read as such a
/// letter is spelled so that it is not: a backslash before `U+` or `M+` by its own figures, and each of
/// two or more percent signs as `%%%`.
fn spelled(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    let mut letters = words.chars().peekable();
    let mut was_percent = false;
    while let Some(letter) = letters.next() {
        let is_percent = letter == '%';
        match letter {
            '%' if was_percent || letters.peek() == Some(&'%') => out.push_str("%%%"),
            '\\' if letters.peek().is_some_and(|next| matches!(next, 'U' | 'M')) => out.push_str("\\U+005C"),
            '^' => out.push_str("^ "),
            letter if letter.is_control() => out.push(' '),
            letter if letter.is_ascii() => out.push(letter),
            letter => {
                for half in letter.encode_utf16(&mut [0; 2]) {
                    let _ = write!(out, "\\U+{half:04X}");
                }
            }
        }
        was_percent = is_percent;
    }
    out
}
