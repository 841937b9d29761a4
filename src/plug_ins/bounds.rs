//! What a plug-in may use up.

/// How far a plug-in may go in one call; what runs over is stopped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds {
    /// Steps, in millions of units of fuel: about an instruction each, and the same on every machine.
    pub fuel: u64,
    /// Memory, MiB.
    pub memory: u64,
    /// What it answers, MiB.
    pub answer: u64,
    /// Its file, MiB; the time that it takes to compile grows with this.
    pub code: u64,
}

impl Default for Bounds {
    fn default() -> Self {
        Self { fuel: 500, memory: 64, answer: 16, code: 4 }
    }
}

/// The most that an option may allow of each, in the same units: a minute or so, and what a small machine has.
const MOST: Bounds = Bounds { fuel: 100_000, memory: 2048, answer: 256, code: 64 };

impl Bounds {
    /// The largest file, bytes.
    #[must_use]
    pub fn code_bytes(&self) -> usize {
        bytes(self.code)
    }

    /// The same with one of them changed, as an option writes it: `fuel=2000`.
    ///
    /// # Errors
    /// What is wrong with the text.
    pub fn with(mut self, text: &str) -> Result<Self, String> {
        let names = "`fuel`, `memory`, `answer` and `code`";
        let (name, value) = text
            .split_once('=')
            .ok_or_else(|| format!("write a name and a number, such as `fuel=2000`; names are {names}"))?;
        let (slot, most, unit) = match name {
            "fuel" => (&mut self.fuel, MOST.fuel, "million steps"),
            "memory" => (&mut self.memory, MOST.memory, "MiB"),
            "answer" => (&mut self.answer, MOST.answer, "MiB"),
            "code" => (&mut self.code, MOST.code, "MiB"),
            _ => return Err(format!("there is no bound `{name}`; bounds are {names}")),
        };
        let value = value.parse().ok().filter(|value| (1..=most).contains(value));
        *slot = value.ok_or_else(|| format!("`{name}` is a whole number from 1 to {most} ({unit})"))?;
        Ok(self)
    }
}

/// Mebibytes in bytes.
pub(super) fn bytes(mebibytes: u64) -> usize {
    usize::try_from(mebibytes << 20).unwrap_or(usize::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_is_changed_by_name() {
        let of = |text: &str| Bounds::default().with(text);
        assert_eq!(of("fuel=2000"), Ok(Bounds { fuel: 2000, ..Bounds::default() }));
        assert_eq!(of("code=1").map(|bounds| bounds.code), Ok(1));
        assert!(of("fule=1").is_err_and(|why| why.contains("no bound `fule`")));
        assert!(of("fuel").is_err_and(|why| why.contains("fuel=2000")));
        for text in ["fuel=0", "fuel=100001", "memory=-1", "answer=x"] {
            assert!(of(text).is_err_and(|why| why.contains("whole number from 1 to")), "{text}");
        }
    }
}
