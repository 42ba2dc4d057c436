//! Words as DXF spells them, in the letters that are meant (Autodesk's DXF reference: `^` and a letter for control
//! letters, `\U+` and four figures for what a code page lacks, `%%` and a letter in TEXT, format codes in MTEXT).

/// The words of a TEXT or an attribute.
pub(super) fn of_text(value: &str) -> String {
    tidied(&without_percents(&unescaped(value)))
}

/// The words of an MTEXT, one a line of it.
pub(super) fn of_mtext(value: &str) -> Vec<String> {
    unformatted(&unescaped(value)).split('\n').map(tidied).filter(|line| !line.is_empty()).collect()
}

/// A name of a block or a layer.
pub(super) fn of_name(value: &str) -> String {
    tidied(&unescaped(value))
}

/// Control letters made spaces, spaces at both ends taken off.
fn tidied(text: &str) -> String {
    let plain: String = text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    plain.trim().chars().take(LETTERS).collect()
}

/// The most letters that are kept of one line of words.
const LETTERS: usize = 400;

/// `^J` and the like, `\U+0041`; two halves of a letter beyond FFFF are put together.
fn unescaped(text: &str) -> String {
    let mut halves: Vec<u16> = Vec::with_capacity(text.len());
    let mut rest = text;
    while let Some(letter) = rest.chars().next() {
        let after = &rest[letter.len_utf8()..];
        if letter == '\\'
            && let Some(figures) = after.strip_prefix("U+").and_then(|hexadecimal| hexadecimal.get(..4))
            && let Ok(half) = u16::from_str_radix(figures, 16)
        {
            halves.push(half);
            rest = &after[6..];
            continue;
        }
        rest = after;
        if letter == '^'
            && let Some(next) = after.chars().next()
            && (next == ' ' || next.is_ascii_uppercase())
        {
            let meant = if next == ' ' { '^' } else { ' ' };
            halves.push(meant as u16);
            rest = &after[1..];
            continue;
        }
        halves.extend_from_slice(letter.encode_utf16(&mut [0; 2]));
    }
    String::from_utf16_lossy(&halves)
}

/// `%%d` is a degree sign, `%%p` plus or minus, `%%c` a diameter, `%%%` one percent sign, three figures a letter's
/// number; `%%u`, `%%o` and `%%k` draw lines along the words.
fn without_percents(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find("%%") {
        out.push_str(&rest[..at]);
        let after = &rest[at + 2..];
        let number = after.get(..3).filter(|figures| figures.bytes().all(|byte| byte.is_ascii_digit()));
        if let Some(letter) = number.and_then(|figures| figures.parse().ok()).and_then(char::from_u32) {
            out.push(letter);
            rest = &after[3..];
            continue;
        }
        let meant = match after.chars().next() {
            Some('d' | 'D') => "°",
            Some('p' | 'P') => "±",
            Some('c' | 'C') => "⌀",
            Some('%') => "%",
            Some('u' | 'U' | 'o' | 'O' | 'k' | 'K') => "",
            _ => {
                out.push_str("%%");
                rest = after;
                continue;
            }
        };
        out.push_str(meant);
        rest = &after[1..];
    }
    out.push_str(rest);
    out
}

/// Without the codes of an MTEXT: `\P` ends a line, `\~` is a space, `\\`, `\{` and `\}` are themselves, `\S` stacks
/// up to a `;`, other letters set something up to a `;` or at once; braces hold together.
fn unformatted(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '{' | '}' => {}
            '\\' => match letters.next() {
                Some('P') => out.push('\n'),
                Some('~') => out.push(' '),
                Some('S') => {
                    out.extend(letters.by_ref().take_while(|&end| end != ';').map(|stacked| match stacked {
                        '#' | '^' => '/',
                        other => other,
                    }))
                }
                Some('A' | 'C' | 'c' | 'F' | 'f' | 'H' | 'p' | 'Q' | 'T' | 'W') => {
                    letters.by_ref().find(|&end| end == ';');
                }
                Some('L' | 'l' | 'O' | 'o' | 'K' | 'k' | 'N' | 'X') | None => {}
                Some(itself) => out.push(itself),
            },
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the DXF reference says of each code.
    #[test]
    fn codes_are_the_letters_that_they_mean() {
        assert_eq!(of_text("90%%d, 100%%%, %%uunder%%u, %%065"), "90°, 100%, under, A");
        assert_eq!(of_text(r"caf\U+00E9 \U+D83E\U+DDF5 \U+zz a^ b^Ic"), r"café 🧵 \U+zz a^b c");
        assert_eq!(of_text("%%"), "%%");
        assert_eq!(of_text("a\u{1b}[31m\u{0}b"), "a [31m b");
        assert_eq!(
            of_mtext(r"{\fArial|b0;Piece Name: Front}\PSize:\~M\P\P1\S1/2;"),
            ["Piece Name: Front", "Size: M", "11/2"]
        );
        assert_eq!(of_mtext(r"\f"), Vec::<String>::new());
    }
}
