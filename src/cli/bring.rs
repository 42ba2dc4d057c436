use super::arguments::Bring;
use super::choices::{SizesFromName, UnitName};
use super::drawings_kept::keep_drawings;
use super::new::title;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::spared::{named_once, spared as apart};
use super::work::PIPED;
use fustian::bring::{
    BringError, BringOptions, Brought, LOOK_MARK, ReadOptions, SizesFrom, TextUnit, bring, sketch,
};
use fustian::limits::DRAWING_BYTES;
use fustian::report::DisplayUnit;
use fustian::source::SourceMap;
use indexmap::IndexMap;
use std::fs;
use std::io::Read;
use std::path::Path;

/// Writes a garment out of drawings, never over a file that is there unless that is forced, and never over a
/// drawing. A picture of what was understood takes the place of another such picture.
pub fn run(command: &Bring) -> Result<Outcome, Trouble> {
    named_once(&command.files)?;
    if let Some(output) = &command.output {
        spared(command, output)?;
        keep_drawings(output)?;
        free(command, output, "")?;
    }
    if let Some(look) = &command.look {
        spared(command, look)?;
        if !is_picture(look) {
            keep_drawings(look)?;
            free(command, look, " and is no picture that --look drew,")?;
        }
    }
    apart(&SourceMap::default(), &[command.output.as_deref(), command.look.as_deref()])?;
    let options = options(command)?;
    let mut files = Vec::with_capacity(command.files.len());
    for file in &command.files {
        files.push((file.as_str(), drawing(file)?));
    }
    let files: Vec<(&str, &[u8])> = files.iter().map(|(name, bytes)| (*name, bytes.as_slice())).collect();
    let brought = match bring(&files, &options) {
        Ok(brought) => brought,
        Err(why) => return Err(failed(command, &files, &options, &why)?),
    };
    written(command, &brought)?;
    for remark in &brought.remarks {
        output::say(&format!("{}\n", with_options(remark)));
    }
    if let Some(output) = &command.output {
        let draft = output.display();
        output::say(&format!(
            "{draft} is a draft: nothing is sewn yet. fustian draw --unfinished {draft} shows it, fustian check {draft} goes on\n"
        ));
    }
    Ok(Outcome::Good)
}

fn written(command: &Bring, brought: &Brought) -> Result<(), Trouble> {
    if let Some(look) = &command.look {
        output::put_into(look, &brought.look)?;
    }
    match &command.output {
        None => output::put(&brought.text),
        Some(output) if command.force => output::put_into(output, &brought.text),
        Some(output) => output::put_new(output, &brought.text),
    }
}

/// The library names in backquotes what a maker may choose; here those are options.
fn with_options(words: &str) -> String {
    const CHOICES: [&str; 9] =
        ["scale", "sizes-from", "allowance", "names", "corner", "tolerance", "look", "lines", "units"];
    CHOICES
        .iter()
        .fold(words.to_owned(), |words, choice| words.replace(&format!("`{choice}`"), &format!("--{choice}")))
}

/// What is said where nothing comes in; what was found is still drawn, to be looked at.
fn failed(
    command: &Bring,
    files: &[(&str, &[u8])],
    options: &BringOptions,
    why: &BringError,
) -> Result<Trouble, Trouble> {
    let seen = match &command.look {
        Some(look) => match sketch(files, options) {
            Some(picture) => {
                output::put_into(look, picture)?;
                format!("; {} shows what was found", look.display())
            }
            None => String::new(),
        },
        None => String::new(),
    };
    Ok(Trouble::Message(format!("{}{seen}, and nothing was written", with_options(&why.to_string()))))
}

/// Whether nothing is there that would be lost.
fn free(command: &Bring, output: &Path, what: &str) -> Result<(), Trouble> {
    if output.exists() && !command.force {
        let words =
            format!("{} is there already,{what} and is left as it is; --force replaces it", output.display());
        return Err(Trouble::Message(words));
    }
    Ok(())
}

/// Whether a file is a picture of what was understood, or none that could be lost, such as `/dev/null`.
fn is_picture(look: &Path) -> bool {
    if !fs::metadata(look).is_ok_and(|found| found.is_file()) {
        return true;
    }
    let mut begin = Vec::new();
    // The mark stands in the first element, of which nothing is long.
    let read = fs::File::open(look).and_then(|file| file.take(2_000).read_to_end(&mut begin));
    read.is_ok() && String::from_utf8_lossy(&begin).contains(LOOK_MARK)
}

/// A drawing is never written over.
fn spared(command: &Bring, output: &Path) -> Result<(), Trouble> {
    let Ok(own) = fs::canonicalize(output) else { return Ok(()) };
    if command.files.iter().any(|file| fs::canonicalize(file).is_ok_and(|file| file == own)) {
        let words = format!("{} is one of the drawings, which are never written over", output.display());
        return Err(Trouble::Message(words));
    }
    Ok(())
}

fn options(command: &Bring) -> Result<BringOptions, Trouble> {
    let unit = command.units.map(|unit| match unit {
        UnitName::Cm => TextUnit::Centimetres,
        UnitName::In => TextUnit::Inches,
    });
    let bare = match unit {
        Some(TextUnit::Inches) => DisplayUnit::Inch,
        _ => DisplayUnit::Centimetre,
    };
    // Which unit the drawing is in is not known yet.
    let length = |option: &str, text: &str, such: &str| match unit.is_none() && is_bare(text) {
        true => Err(Trouble::Message(format!("{option} needs its unit: {such}"))),
        false => super::length::length(option, text, bare),
    };
    let said = |option: &str, text: &Option<String>, such: &str| {
        text.as_deref().map(|text| length(option, text, such)).transpose()
    };
    let tolerance = said("--tolerance", &command.tolerance, "0.2mm, or 1/64in")?.unwrap_or(0.2);
    if !(0.01..=20.0).contains(&tolerance) {
        return Err(Trouble::Message("--tolerance is from 0.01mm to 20mm".to_owned()));
    }
    let allowance = said("--allowance", &command.allowance, "1cm, or 3/8in")?;
    if allowance.is_some_and(|held| !(0.0..=200.0).contains(&held)) {
        return Err(Trouble::Message("--allowance is from 0 to 20cm".to_owned()));
    }
    let scale = command.scale.as_deref().map(|said| scale(said, &length)).transpose()?;
    let sizes_from = command.sizes_from.map(|from| match from {
        SizesFromName::Layers => SizesFrom::Layers,
        SizesFromName::Names => SizesFrom::Names,
    });
    let named = command.output.as_deref().or_else(|| command.files.first().map(Path::new));
    Ok(BringOptions {
        title: named.and_then(title).unwrap_or_else(|| "Pattern".to_owned()),
        read: ReadOptions { scale, sizes_from, points_in: unit },
        corner: command.corner.to_radians(),
        tolerance,
        allowance: allowance.filter(|held| *held > 0.0),
        unit,
        names: names(&command.names)?,
    })
}

/// Whether a length is said without its unit; nothing is none.
fn is_bare(text: &str) -> bool {
    text.trim_end().ends_with(|letter: char| !letter.is_alphabetic() && letter != '"')
}

/// How a length is read that an option says, with an example of one.
type ReadLength<'a> = &'a dyn Fn(&str, &str, &str) -> Result<f64, Trouble>;

/// `10cm=378`: what is 10 cm measures 378 in the drawing. In millimetres a unit of the drawing.
fn scale(said: &str, read: ReadLength<'_>) -> Result<f64, Trouble> {
    let slip = || {
        let words = format!("--scale {said}: say how long a length is in the drawing, such as 10cm=378");
        Trouble::Message(words)
    };
    let (of, drawn) = said.split_once('=').ok_or_else(slip)?;
    let (of, drawn) = (of.trim(), drawn.trim());
    let length = read("--scale", of, &format!("{of}cm={drawn}, or {of}in={drawn}"))?;
    let drawn: f64 = drawn.parse().map_err(|_| slip())?;
    let scale = length / drawn;
    if scale.is_finite() && (1e-6..=1e6).contains(&scale) { Ok(scale) } else { Err(slip()) }
}

/// `front:centre,neckline`: by piece its edges' names.
fn names(said: &[String]) -> Result<IndexMap<String, Vec<String>>, Trouble> {
    let one = |said: &String| {
        let slip = || {
            Trouble::Message(format!(
                "--names {said}: say a piece and its edges, such as front:centre,neckline"
            ))
        };
        let (piece, edges) = said.split_once(':').ok_or_else(slip)?;
        let edges: Vec<String> = edges.split(',').map(|name| name.trim().to_owned()).collect();
        Ok((piece.trim().to_owned(), edges))
    };
    let mut found = IndexMap::new();
    for said in said {
        let (piece, edges) = one(said)?;
        if found.contains_key(&piece) {
            let words =
                format!("--names {said}: the edges of {piece} are named already; say all of them at once");
            return Err(Trouble::Message(words));
        }
        found.insert(piece, edges);
    }
    Ok(found)
}

/// The bytes of an ordinary file, or what is piped in: never more than a drawing may have, and one to tell.
fn drawing(file: &str) -> Result<Vec<u8>, Trouble> {
    let cannot = |why: String| Trouble::Message(format!("{file} cannot be read: {why}"));
    let bounded = |source: &mut dyn Read| {
        let mut bytes = Vec::new();
        source.take(DRAWING_BYTES as u64 + 1).read_to_end(&mut bytes).map(|_| bytes)
    };
    if file == PIPED {
        return bounded(&mut std::io::stdin().lock()).map_err(|error| cannot(error.to_string()));
    }
    let about = fs::metadata(file).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => cannot("there is no such file".to_owned()),
        _ => cannot(error.to_string()),
    })?;
    if about.is_dir() {
        return Err(cannot("it is a folder".to_owned()));
    }
    if !about.is_file() {
        return Err(cannot("it is not an ordinary file".to_owned()));
    }
    let mut source = fs::File::open(file).map_err(|error| cannot(error.to_string()))?;
    bounded(&mut source).map_err(|error| cannot(error.to_string()))
}
