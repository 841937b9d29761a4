//! Spoils a text in many ways: its words, numbers, lines, bytes, how deep it nests and what its aliases grow to.

/// Steele, Lea and Flood's SplitMix64: small, and the same everywhere.
pub struct Random(pub u64);

impl Random {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, most: usize) -> usize {
        if most == 0 { 0 } else { usize::try_from(self.next() % most as u64).unwrap() }
    }

    pub fn pick<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }
}

const NUMBERS: [&str; 28] = [
    "0",
    "-0",
    "-1",
    "1",
    "1e308",
    "-1e308",
    "1e17",
    "-1e17",
    "1e-308",
    "nan",
    ".nan",
    ".inf",
    "inf",
    "0.0001",
    "99999999999999999999",
    "100000",
    "100001",
    "1000000 m",
    "1 / 0",
    "0 / 0",
    "sqrt(-1)",
    "tan(90)",
    "0.5",
    "3.3333333333",
    "2000",
    "1e3 m",
    "0x10",
    "-5",
];

const WORDS: [&str; 37] = [
    "null",
    "~",
    "true",
    "no",
    "[]",
    "{}",
    "''",
    "!x",
    "&a",
    "*a",
    "<<",
    "? ",
    "- ",
    "---",
    "...",
    "|",
    ">",
    "#",
    "\u{0}",
    "\u{7}",
    "\u{202e}",
    "\u{feff}",
    "é",
    "🛏",
    "box",
    "box.rear",
    "i in 1..1000000",
    "each: i in 1..1000",
    "each: i in 1e17..1e17, when: no",
    "each: i in -1e17..1, when: no",
    "each: i in 1..1e308",
    "if(1,2,3)",
    "min()",
    "roof(1/0)",
    "..",
    "\t",
    "'",
];

/// Pieces of a text: words, numbers, blanks and single signs.
fn tokens(text: &str) -> Vec<String> {
    let mut tokens: Vec<String> = Vec::new();
    let mut last = 'x';
    for c in text.chars() {
        let joins = |a: char, b: char| (a.is_alphanumeric() && b.is_alphanumeric()) || (a == ' ' && b == ' ');
        match tokens.last_mut() {
            Some(token) if joins(last, c) => token.push(c),
            _ => tokens.push(c.to_string()),
        }
        last = c;
    }
    tokens
}

fn is_number(token: &str) -> bool {
    token.starts_with(|c: char| c.is_ascii_digit())
}

fn spoil_tokens(text: &str, random: &mut Random) -> String {
    let mut tokens = tokens(text);
    let at = random.below(tokens.len());
    let other = random.below(tokens.len());
    match random.below(5) {
        0 if !tokens.is_empty() => drop(tokens.remove(at)),
        1 => tokens.insert(at, (*random.pick(&WORDS)).to_owned()),
        2 if !tokens.is_empty() => tokens.swap(at, other),
        3 if !tokens.is_empty() => tokens[at] = (*random.pick(&WORDS)).to_owned(),
        _ if !tokens.is_empty() => tokens[at] = tokens[other].clone(),
        _ => {}
    }
    tokens.concat()
}

fn spoil_number(text: &str, random: &mut Random) -> String {
    let mut tokens = tokens(text);
    let numbers: Vec<usize> = (0..tokens.len()).filter(|at| is_number(&tokens[*at])).collect();
    if !numbers.is_empty() {
        let at = *random.pick(&numbers);
        tokens[at] = match random.below(4) {
            0 => (*random.pick(&NUMBERS)).to_owned(),
            1 => random.below(4000).to_string(),
            _ => (tokens[at].parse().unwrap_or(0_usize) + 201).saturating_sub(random.below(400)).to_string(),
        };
    }
    tokens.concat()
}

fn spoil_lines(text: &str, random: &mut Random) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if lines.is_empty() {
        return text.to_owned();
    }
    let (at, other) = (random.below(lines.len()), random.below(lines.len()));
    match random.below(5) {
        0 => drop(lines.remove(at)),
        1 => lines.insert(other, lines[at].clone()),
        2 => lines.swap(at, other),
        3 => lines[at] = format!("  {}", lines[at]),
        _ => lines[at] = lines[at].trim_start().to_owned(),
    }
    lines.join("\n")
}

fn spoil_bytes(text: &str, random: &mut Random) -> String {
    let mut bytes = text.as_bytes().to_vec();
    let at = random.below(bytes.len());
    let byte = u8::try_from(random.below(256)).unwrap();
    match random.below(4) {
        0 if !bytes.is_empty() => bytes[at] = byte,
        1 => bytes.insert(at, byte),
        2 if !bytes.is_empty() => drop(bytes.remove(at)),
        _ => bytes.truncate(at),
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn spoil_depth(text: &str, random: &mut Random) -> String {
    let depth = *random.pick(&[10, 63, 64, 65, 200, 3000]);
    let (open, shut) = *random.pick(&[("[", "]"), ("{a: ", "}"), ("(", ")"), ("-", ""), ("not ", ""), ("abs(", ")")]);
    let nest = format!("{}1{}", open.repeat(depth), shut.repeat(depth));
    let mut tokens = tokens(text);
    let at = random.below(tokens.len());
    tokens.insert(at, nest);
    tokens.concat()
}

fn spoil_alias(text: &str, random: &mut Random) -> String {
    let rows = 2 + random.below(30);
    let bomb = (1..rows).map(|row| format!("b{row}: &b{row} [{}]\n", format!("*b{}, ", row - 1).repeat(9)));
    format!("b0: &b0 [1, 2]\n{}{text}", bomb.collect::<String>())
}

/// A text with one to a few mistakes, the same for the same numbers.
pub fn spoil(text: &str, random: &mut Random) -> String {
    let mut text = text.to_owned();
    let times = if random.below(3) == 0 { 1 + random.below(4) } else { 1 };
    for _ in 0..times {
        text = match random.below(40) {
            0..8 => spoil_tokens(&text, random),
            8..22 => spoil_number(&text, random),
            22..31 => spoil_lines(&text, random),
            31..38 => spoil_bytes(&text, random),
            38 => spoil_depth(&text, random),
            _ => spoil_alias(&text, random),
        };
    }
    text
}
