use super::arguments::New;
use super::outcome::{Outcome, Trouble};
use super::output;
use fustian::syntax::tidy::quoted;
use std::path::Path;

/// Writes the start, never over a file that is there.
pub fn run(command: &New) -> Result<Outcome, Trouble> {
    let path = match command.name.extension() {
        Some(extension) if extension == "fus" => command.name.clone(),
        _ => {
            let mut name = command.name.clone().into_os_string();
            name.push(".fus");
            name.into()
        }
    };
    let Some(title) = title(&path) else {
        return Err(Trouble::Message("the name has no letters to call the garment by".to_owned()));
    };
    output::put_new(&path, &start(&title))?;
    output::say(&format!("{} is a start; look it over with fustian check {0}\n", path.display()));
    Ok(Outcome::Good)
}

/// "deck-smock.fus" is called "Deck smock".
pub fn title(path: &Path) -> Option<String> {
    let stem = path.file_stem()?.to_string_lossy().replace(['-', '_'], " ");
    let stem: String = stem.chars().filter(|letter| !letter.is_control()).collect();
    let mut letters = stem.trim().chars();
    let first = letters.next()?;
    Some(first.to_uppercase().chain(letters).collect())
}

fn start(title: &str) -> String {
    format!("# {title}: a start, to be changed. Notes begin with #.\ngarment {}\n{START}", quoted(title))
}

const START: &str = r#"units cm
allowance 1
tolerance 2mm
wearer adult

# Sizes, smallest first, and the body they fit: one value a size, or a first value and a step.
sizes S, M, L
body {
  waist  76, 84, 92
  hip    94 grade +8
}
pick size by larger of waist, hip

# What is worn out or guessed is best said once, with a name.
let overlap    = 10  "how far each side reaches beyond the middle"
let half_width = waist/4 + overlap

fabric canvas "canvas" { width 150; selvage 1; nap none; kind woven firm }
layer outer in canvas { front }

# A piece is drawn along its stitching lines: x to the side, y up. The allowance is added.
# Cut on the fold, it is drawn as one half.
piece front "Front" {
  cut 1 on fold centre
  point top_cf   = (0, 0)
  point top_side = (half_width, 0)
  point hem_side = (half_width, -50)
  point hem_cf   = (0, -50)
  outline from hem_cf {
    centre  to top_cf
    top     to top_side
    side    to hem_side
    hem     to hem_cf
  }
}

# Every edge is sewn to something or finished.
finish front.side  hem 1 twice
finish front.hem   hem 2 turned under 1
finish front.top   casing 3
cord tie 200 through front.top  ends 60 free

steps {
  "Edges"  { hem front.side, front.hem; finish front.top }
  "Tie"    { thread tie }
}
"#;
