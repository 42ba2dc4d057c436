//! Fustian: a plain-text garment description language and its compiler.
//!
//! The library is pure: it reads text through a [`Loader`], and gives back a compiled garment and
//! what is to be said of it. It never touches a disk, a clock or the environment.
//!
//! A program that uses it needs little more than the names at this root: [`compile`] a garment,
//! look at its diagnostics, and take its [`Document`]:
//!
//! ```
//! use fustian::{MemoryLoader, NoDocument, compile};
//!
//! let apron = r#"
//! garment "Galley apron"
//! units cm
//! allowance 1
//! fabric canvas "apron canvas" { width 150 }
//! layer outer in canvas { apron }
//! piece apron "Apron" { cut 1; outline rectangle 70 by 90 }
//! finish apron.left, apron.top, apron.right, apron.bottom  hem 2
//! "#;
//! let compiled = compile(&MemoryLoader::new().with("apron.fus", apron), "apron.fus");
//! assert!(!compiled.has_mistakes());
//! let json = compiled.json()?;
//! assert!(json.contains(r#""garment": "Galley apron""#));
//!
//! // A seam to a piece that is not there is reported at its place, with a way out.
//! let torn = apron.replace("hem 2", "hem 2\nseam side apron.left to pocket.left");
//! let compiled = compile(&MemoryLoader::new().with("apron.fus", torn), "apron.fus");
//! assert_eq!(compiled.json(), Err(NoDocument::Mistakes));
//! for message in compiled.reported() {
//!     for place in &message.places {
//!         println!("{}:{}:{}: {}", place.file, place.line, place.column, message.title);
//!     }
//! }
//! # Ok::<(), NoDocument>(())
//! ```
//!
//! The modules are the rooms of the house, and more may change in them than at the root. Data goes
//! one way through them: source → syntax → garment → resolve → sewing → cutting → check → emit;
//! `DEVELOPERS.md` tells what each holds. The feature `cli`, on by default, is the command
//! `fustian` and belongs to the program; `editor` is the language server without its wire,
//! `preview` the live view without its own.

// The derived parser names it.
extern crate alloc;

pub mod bring;
pub mod check;
pub mod cutting;
#[cfg(feature = "editor")]
pub mod editor;
pub mod emit;
pub mod few;
pub mod garment;
pub mod limits;
pub mod materials;
#[cfg(feature = "preview")]
pub mod preview;
pub mod report;
pub mod resolve;
pub mod sewing;
pub mod shape;
pub mod sheet;
pub mod source;
pub mod syntax;

pub use fustian_lay as lay;

mod compile;
mod facade;
mod id;
mod id_hash;
mod kept;
mod name_hash;
mod once_each;
#[cfg(any(feature = "editor", feature = "preview"))]
mod percent;
mod size_letters;

pub use compile::{Compiled, Inputs, causes, compile, compile_again, expanded, inputs, packed};
pub use emit::Document;
pub use facade::NoDocument;
pub use kept::Kept;
pub use report::{Diagnostic, ReportedDiagnostic, ReportedPlace, Severity};
pub use source::{LoadError, Loaded, Loader, MemoryLoader, SourceMap, Span};
