//! Damaged files out of sound ones: what slips of the hand, broken programs and bad links make of text and of bytes.
//!
//! It knows nothing of any format but words that stand in it; whoever tries another reader, or a step of the compiler,
//! gives it other seeds and words.

/// A plain generator of numbers, so that a run can be had again: Marsaglia, "Xorshift RNGs",
/// Journal of Statistical Software 8 (2003).
pub struct Dice(pub u64);

impl Dice {
    /// The generator of a seed, of which every one gives another row of numbers.
    pub fn seeded(seed: u64) -> Self {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// A number from 0 to below `sides`.
    pub fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as usize % sides.max(1)
    }
}

/// Numbers that nobody means.
const WILD: [&[u8]; 24] = [
    b"NaN",
    b"inf",
    b"-inf",
    b"1e308",
    b"-1e308",
    b"1e-308",
    b"1e309",
    b"-0",
    b"0",
    b"1",
    b"-1",
    b"0.5",
    b"1e9",
    b"1e16",
    b"-1e5",
    b"4294967296",
    b"-2147483649",
    b"99999999999999999999999",
    b"0.1e",
    b"1,5",
    b".",
    b"--7",
    b"1e",
    b"",
];
/// What a mutant is at most longer than its seed.
const GROWS: usize = 1 << 16;
/// The longest stretch of lines that is moved about at once.
const LINES: usize = 24;

/// Makes damaged files of seeds, the same row of them each time.
pub struct Mutator {
    seeds: Vec<Vec<u8>>,
    words: Vec<&'static str>,
    dice: Dice,
}

impl Mutator {
    /// Of sound files, and words that mean something in them wherever they stand.
    pub fn new(seeds: Vec<Vec<u8>>, words: &[&'static str], seed: u64) -> Self {
        Mutator { seeds, words: words.to_vec(), dice: Dice::seeded(seed) }
    }

    /// The next damaged file: one of the seeds after one to eight changes, mostly few.
    pub fn mutant(&mut self) -> Vec<u8> {
        let seed = self.dice.roll(self.seeds.len());
        let mut bytes = self.seeds.get(seed).cloned().unwrap_or_default();
        let most = bytes.len() + GROWS;
        let most_changes = 1 << self.dice.roll(4);
        let changes = 1 + self.dice.roll(most_changes);
        for _ in 0..changes {
            self.change(&mut bytes);
            bytes.truncate(most);
        }
        bytes
    }

    fn change(&mut self, bytes: &mut Vec<u8>) {
        match self.dice.roll(22) {
            0 => self.flip(bytes),
            1 => self.noise(bytes),
            2 => self.splice(bytes),
            3 => {
                let at = self.dice.roll(bytes.len() + 1);
                bytes.truncate(at);
            }
            4..8 => self.wild_number(bytes),
            8..10 => self.nudged_number(bytes),
            10 => self.swapped(bytes, number),
            11 => self.swapped(bytes, token),
            12 => self.removed(bytes),
            13 => self.doubled(bytes),
            14..16 => self.word(bytes),
            16 => self.lines(bytes, |stretch| (stretch, 0)),
            17 => self.lines(bytes, |stretch| (stretch, 2)),
            18 => self.nested(bytes),
            19 => self.swapped(bytes, line),
            20 => self.moved(bytes),
            _ => self.copied(bytes),
        }
    }

    fn flip(&mut self, bytes: &mut [u8]) {
        let at = self.dice.roll(bytes.len());
        let bit = 1 << self.dice.roll(8);
        if let Some(byte) = bytes.get_mut(at) {
            *byte ^= bit;
        }
    }

    fn noise(&mut self, bytes: &mut Vec<u8>) {
        let at = self.dice.roll(bytes.len() + 1);
        let noise: Vec<u8> = (0..1 + self.dice.roll(6)).map(|_| self.dice.roll(256) as u8).collect();
        bytes.splice(at..at, noise);
    }

    /// The beginning of this one and the end of another.
    fn splice(&mut self, bytes: &mut Vec<u8>) {
        let at = self.place(bytes, line).start;
        let other = self.dice.roll(self.seeds.len());
        let from = self.dice.roll(self.seeds.get(other).map_or(0, Vec::len));
        let Some(other) = self.seeds.get(other) else { return };
        let from = line(other, from).start;
        bytes.truncate(at);
        bytes.extend(other.iter().skip(from));
    }

    fn wild_number(&mut self, bytes: &mut Vec<u8>) {
        let place = self.place(bytes, number);
        let wild = WILD.get(self.dice.roll(WILD.len())).copied().unwrap_or_default();
        bytes.splice(place, wild.iter().copied());
    }

    /// Another sign, place of the decimal point, last figure or exponent.
    fn nudged_number(&mut self, bytes: &mut Vec<u8>) {
        let place = self.place(bytes, number);
        let own = bytes.get(place.clone()).unwrap_or_default().to_vec();
        let new = match self.dice.roll(6) {
            0 => [b"-", own.as_slice()].concat(),
            1 => [own.as_slice(), b"0"].concat(),
            2 => [own.as_slice(), b"e6"].concat(),
            3 => [own.as_slice(), b".0001"].concat(),
            4 => own.iter().copied().filter(|byte| *byte != b'.').collect(),
            _ => own
                .iter()
                .map(|byte| if byte.is_ascii_digit() { b'0' + (byte + 1) % 10 } else { *byte })
                .collect(),
        };
        bytes.splice(place, new);
    }

    /// Two of a kind change places.
    fn swapped(&mut self, bytes: &mut Vec<u8>, kind: Kind) {
        let (one, other) = (self.place(bytes, kind), self.place(bytes, kind));
        let (first, second) = if one.start <= other.start { (one, other) } else { (other, one) };
        if first.end > second.start {
            return;
        }
        let (Some(near), Some(far)) = (bytes.get(first.clone()), bytes.get(second.clone())) else { return };
        let (near, far) = (near.to_vec(), far.to_vec());
        bytes.splice(second, near);
        bytes.splice(first, far);
    }

    fn removed(&mut self, bytes: &mut Vec<u8>) {
        let place = self.place(bytes, token);
        bytes.splice(place, []);
    }

    fn doubled(&mut self, bytes: &mut Vec<u8>) {
        let place = self.place(bytes, token);
        let own = bytes.get(place.clone()).unwrap_or_default().to_vec();
        let between: &[u8] = if self.dice.roll(2) == 0 { b" " } else { b"" };
        bytes.splice(place.end..place.end, [between, &own].concat());
    }

    /// A word that means something, in the place of another or beside it.
    fn word(&mut self, bytes: &mut Vec<u8>) {
        let mut place = self.place(bytes, token);
        if self.dice.roll(3) == 0 {
            place = place.end..place.end;
        }
        let word = self.words.get(self.dice.roll(self.words.len())).copied().unwrap_or_default();
        bytes.splice(place, word.bytes());
    }

    /// A stretch of lines stands there another number of times.
    fn lines(&mut self, bytes: &mut Vec<u8>, times: fn(Vec<u8>) -> (Vec<u8>, usize)) {
        let place = self.stretch(bytes);
        let (own, times) = times(bytes.get(place.clone()).unwrap_or_default().to_vec());
        bytes.splice(place, own.repeat(times));
    }

    /// A stretch of lines stands inside itself once more, a few levels deep.
    fn nested(&mut self, bytes: &mut Vec<u8>) {
        let place = self.stretch(bytes);
        let own = bytes.get(place.clone()).unwrap_or_default().to_vec();
        let Some(middle) = (!own.is_empty()).then(|| line(&own, own.len() / 2).start) else { return };
        let (head, tail) = own.split_at(middle);
        let deepest = 1 << self.dice.roll(8);
        let depth = 1 + self.dice.roll(deepest);
        let depth = depth.min(GROWS / own.len().max(1));
        bytes.splice(place, [head.repeat(depth), tail.repeat(depth)].concat());
    }

    /// A stretch of lines stands elsewhere.
    fn moved(&mut self, bytes: &mut Vec<u8>) {
        let place = self.stretch(bytes);
        let own: Vec<u8> = bytes.splice(place, []).collect();
        let to = self.place(bytes, line).start;
        bytes.splice(to..to, own);
    }

    /// One token stands where another stood.
    fn copied(&mut self, bytes: &mut Vec<u8>) {
        let (from, to) = (self.place(bytes, token), self.place(bytes, token));
        let own = bytes.get(from).unwrap_or_default().to_vec();
        bytes.splice(to, own);
    }

    /// Somewhere, and as far as what stands there reaches.
    fn place(&mut self, bytes: &[u8], kind: Kind) -> std::ops::Range<usize> {
        let at = self.dice.roll(bytes.len());
        kind(bytes, at)
    }

    fn stretch(&mut self, bytes: &[u8]) -> std::ops::Range<usize> {
        let first = self.place(bytes, line);
        let mut end = first.end;
        for _ in 0..self.dice.roll(LINES) {
            end = line(bytes, end).end;
        }
        first.start..end
    }
}

/// What stands at a place in bytes: from where to where.
type Kind = fn(&[u8], usize) -> std::ops::Range<usize>;

/// The next number at a place or after it; at the end what is there.
fn number(bytes: &[u8], at: usize) -> std::ops::Range<usize> {
    let digit = bytes.iter().skip(at).position(u8::is_ascii_digit).map_or(bytes.len(), |away| at + away);
    let of_number = |byte: &u8| byte.is_ascii_digit() || matches!(byte, b'.' | b'-' | b'+');
    around(bytes, digit, of_number)
}

/// The word, the number, the row of blanks or the sign at a place.
fn token(bytes: &[u8], at: usize) -> std::ops::Range<usize> {
    match bytes.get(at) {
        Some(byte) if byte.is_ascii_digit() => number(bytes, at),
        Some(byte) if byte.is_ascii_alphabetic() || *byte >= 0x80 => {
            around(bytes, at, |byte| byte.is_ascii_alphabetic() || *byte >= 0x80)
        }
        Some(byte) if byte.is_ascii_whitespace() => around(bytes, at, u8::is_ascii_whitespace),
        Some(_) => at..at + 1,
        None => bytes.len()..bytes.len(),
    }
}

/// The line at a place and its end; of text without ends of lines what stands between `>` and `>`.
fn line(bytes: &[u8], at: usize) -> std::ops::Range<usize> {
    let at = at.min(bytes.len());
    let ends = |byte: &u8| matches!(byte, b'\n' | b'>');
    let start = bytes.iter().take(at).rposition(ends).map_or(0, |before| before + 1);
    let end = bytes.iter().skip(at).position(ends).map_or(bytes.len(), |away| at + away + 1);
    start..end
}

fn around(bytes: &[u8], at: usize, is: impl Fn(&u8) -> bool) -> std::ops::Range<usize> {
    let at = at.min(bytes.len());
    let start = bytes.iter().take(at).rposition(|byte| !is(byte)).map_or(0, |before| before + 1);
    let end = bytes.iter().skip(at).position(|byte| !is(byte)).map_or(bytes.len(), |away| at + away);
    start..end
}
