//! What a check requires: a bound with its direction, its unit, and on whose word.

use crate::base::number::trimmed;
use crate::base::tolerance::{ROUNDING, SAME_LENGTH};

/// Decimals of a figure that is hard to tell from its limit: lengths are whole micrometres.
const MOST_DECIMALS: usize = 3;

/// A unit of a measured or required value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Millimetres.
    Length,
    /// Degrees.
    Angle,
    /// Litres.
    Volume,
    /// Square millimetres.
    Area,
    /// A plain count.
    Count,
    /// Kilograms.
    Mass,
    /// Parts of a hundred.
    Percent,
    /// Days.
    Days,
    /// Watts.
    Power,
    /// A plain number.
    Number,
}

impl Quantity {
    /// Every quantity.
    pub const ALL: [Self; 9] = [
        Self::Length,
        Self::Angle,
        Self::Volume,
        Self::Area,
        Self::Count,
        Self::Mass,
        Self::Percent,
        Self::Days,
        Self::Power,
    ];

    /// Its unit, as programs read it.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self {
            Self::Length => "mm",
            Self::Angle => "degrees",
            Self::Volume => "litres",
            Self::Area => "mm2",
            Self::Count => "count",
            Self::Mass => "kg",
            Self::Percent => "percent",
            Self::Days => "days",
            Self::Power => "W",
            Self::Number => "number",
        }
    }

    /// What is written behind a figure, with its space: ` mm`.
    #[must_use]
    pub fn suffix(self) -> &'static str {
        match self {
            Self::Length => " mm",
            Self::Angle => "°",
            Self::Volume => " l",
            Self::Area => " mm²",
            Self::Count | Self::Number => "",
            Self::Mass => " kg",
            Self::Percent => " %",
            Self::Days => " d",
            Self::Power => " W",
        }
    }

    /// Figures that differ by no more than this are equal, near a figure.
    fn slack(self, near: f64) -> f64 {
        match self {
            // Lengths are whole micrometres, so one more is more.
            Self::Length => SAME_LENGTH / 2.0,
            _ => ROUNDING * near.abs().max(1.0),
        }
    }
}

/// A value with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// The figure.
    pub value: f64,
    /// Its unit.
    pub quantity: Quantity,
}

impl Measure {
    fn decimals(&self) -> usize {
        match self.quantity {
            Quantity::Count | Quantity::Area => 0,
            Quantity::Number => 3,
            _ => 1,
        }
    }

    /// Whether both are one figure to a reader: what measuring leaves beyond the last decimal tells nothing apart.
    #[must_use]
    pub fn shows_as(&self, other: &Self) -> bool {
        let shown = |of: &Self| trimmed(of.value, of.decimals());
        self.quantity == other.quantity && shown(self) == shown(other)
    }
}

impl std::fmt::Display for Measure {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let unit = self.quantity.suffix();
        write!(f, "{}{unit}", trimmed(self.value, self.decimals()))
    }
}

/// How sure we are of where a limit comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SourceClass {
    /// Follows from the geometry alone.
    Geometry,
    /// A published text that was read.
    Published,
    /// A standard or law that others quote; its own text was not read.
    Quoted,
    /// A habit of the trade, no source.
    CommonPractice,
    /// A value from memory, not verified.
    FromMemory,
    /// Set by the layout, with a reason.
    Layout,
    /// A rule of the house.
    House,
}

impl SourceClass {
    /// Every class.
    pub const ALL: [Self; 6] =
        [Self::Geometry, Self::Published, Self::Quoted, Self::CommonPractice, Self::FromMemory, Self::Layout];

    /// Its name, as programs read it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Geometry => "geometry",
            Self::Published => "published",
            Self::Quoted => "quoted",
            Self::CommonPractice => "common-practice",
            Self::FromMemory => "from-memory",
            Self::Layout => "layout",
            Self::House => "house",
        }
    }

    /// The class in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Geometry => "geometry",
            Self::Published => "published",
            Self::Quoted => "as quoted, its own text not read",
            Self::CommonPractice => "common practice, no source",
            Self::FromMemory => "from memory, not verified",
            Self::Layout => "set by the layout",
            Self::House => "house rule",
        }
    }
}

/// A limit with its direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bound {
    /// A figure is to be at least this.
    Least(f64),
    /// A figure is to be at most this.
    Most(f64),
    /// A figure is to lie from the first to the second.
    Between(f64, f64),
}

impl Bound {
    /// The limit, of two the lower one.
    #[must_use]
    pub fn value(self) -> f64 {
        match self {
            Self::Least(value) | Self::Most(value) | Self::Between(value, _) => value,
        }
    }

    /// The same direction with another figure; of two limits the lower one is moved.
    #[must_use]
    pub fn at(self, value: f64) -> Self {
        match self {
            Self::Least(_) => Self::Least(value),
            Self::Most(_) => Self::Most(value),
            Self::Between(_, high) => Self::Between(value, high),
        }
    }
}

/// What was required, and on whose word.
#[derive(Debug, Clone, PartialEq)]
pub struct Requirement {
    /// The limit.
    pub bound: Bound,
    /// Its unit.
    pub quantity: Quantity,
    /// How sure the source is.
    pub class: SourceClass,
    /// The source in words.
    pub source: String,
    /// What measuring may miss by, in the unit, beyond rounding.
    pub within: f64,
}

impl Requirement {
    /// A bound on a figure of a unit, on somebody's word.
    #[must_use]
    pub fn new(bound: Bound, quantity: Quantity, class: SourceClass, source: impl Into<String>) -> Self {
        Self { bound, quantity, class, source: source.into(), within: 0.0 }
    }

    /// A bound that follows from the geometry alone.
    #[must_use]
    pub fn geometry(bound: Bound, quantity: Quantity) -> Self {
        Self::new(bound, quantity, SourceClass::Geometry, "geometry")
    }

    /// Nothing of a length, from geometry: where something reaches where it must not.
    #[must_use]
    pub fn nothing() -> Self {
        Self::geometry(Bound::Most(0.0), Quantity::Length)
    }

    /// The same for figures that are known no better than this.
    #[must_use]
    pub fn within(self, within: f64) -> Self {
        Self { within, ..self }
    }

    /// The same direction and word with another figure.
    #[must_use]
    pub fn at(self, value: f64) -> Self {
        Self { bound: self.bound.at(value), ..self }
    }

    /// The same direction and word with another figure of another unit.
    #[must_use]
    pub fn of(self, value: f64, quantity: Quantity) -> Self {
        Self { quantity, ..self.at(value) }
    }

    /// A figure from this limit up to another's; sources of both, where they differ.
    #[must_use]
    pub fn up_to(self, most: &Self) -> Self {
        let source = if self.source == most.source { self.source } else { format!("{}; {}", self.source, most.source) };
        Self { bound: Bound::Between(self.bound.value(), most.bound.value()), source, ..self }
    }

    /// The figure of the limit, of two the lower one.
    #[must_use]
    pub fn value(&self) -> f64 {
        self.bound.value()
    }

    /// A figure that misses the limit by no more than this meets it.
    #[must_use]
    pub fn slack(&self) -> f64 {
        self.within.max(self.quantity.slack(self.value()))
    }

    /// Whether a figure meets it, but for rounding and for what measuring may miss by.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        let (least, most) = (|limit| value >= limit - self.slack(), |limit| value <= limit + self.slack());
        match self.bound {
            Bound::Least(low) => least(low),
            Bound::Most(high) => most(high),
            Bound::Between(low, high) => least(low) && most(high),
        }
    }

    /// By how much a figure misses the limit, in its unit; nothing where it meets it.
    #[must_use]
    pub fn miss(&self, value: f64) -> f64 {
        let past = match self.bound {
            Bound::Least(low) => low - value,
            Bound::Most(high) => value - high,
            Bound::Between(low, high) => (low - value).max(value - high),
        };
        past.max(0.0)
    }

    /// How a figure stands to the limit: 1 just at it, more with some to spare.
    #[must_use]
    pub fn spare(&self, value: f64) -> f64 {
        let share = |more: f64, less: f64| more / less.max(f64::MIN_POSITIVE);
        match self.bound {
            Bound::Least(low) => share(value, low),
            Bound::Most(high) => share(high, value),
            Bound::Between(low, high) => share(value, low).min(share(high, value)),
        }
    }

    /// The limit with its direction: "at most 3200 kg".
    #[must_use]
    pub fn words(&self) -> String {
        let figure = |value| Measure { value, quantity: self.quantity };
        match self.bound {
            Bound::Least(low) => format!("at least {}", figure(low)),
            Bound::Most(high) => format!("at most {}", figure(high)),
            Bound::Between(low, high) => format!("{} to {}", figure(low), figure(high)),
        }
    }

    /// The same in few words: a least figure is the usual case and stands alone.
    #[must_use]
    pub fn short(&self) -> String {
        match self.bound {
            Bound::Least(value) => Measure { value, quantity: self.quantity }.to_string(),
            _ => self.words(),
        }
    }

    /// The limit as it stands behind a figure that is held against it: `needs 450 mm`, `at most 3200 kg`.
    #[must_use]
    pub fn against(&self) -> String {
        match self.bound {
            Bound::Least(_) => format!("needs {}", self.short()),
            Bound::Most(_) => self.words(),
            Bound::Between(..) => format!("needs {}", self.words()),
        }
    }

    /// A figure held against the limit: with more decimals where one is not enough to tell that it misses it.
    #[must_use]
    pub fn shown(&self, measured: Measure) -> String {
        let same = |decimals| trimmed(measured.value, decimals) == trimmed(self.value(), decimals);
        let plain = measured.decimals();
        let decimals = (plain..=MOST_DECIMALS).find(|decimals| !same(*decimals)).unwrap_or(plain);
        let decimals = if self.holds(measured.value) { plain } else { decimals };
        format!("{}{}", trimmed(measured.value, decimals), measured.quantity.suffix())
    }

    /// The source, with how sure it is unless it says so itself.
    #[must_use]
    pub fn origin(&self) -> String {
        let class = self.class.words();
        let first = class.split(',').next().unwrap_or(class);
        match self.source.as_str() {
            "" => class.to_owned(),
            source if source.contains(first) => source.to_owned(),
            source => format!("{source}; {class}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_holds_in_its_direction() {
        let of = |bound| Requirement::geometry(bound, Quantity::Length);
        let holds = |bound| [399.0, 400.0, 450.0, 500.0, 501.0].map(|value| of(bound).holds(value));
        assert_eq!(holds(Bound::Least(400.0)), [false, true, true, true, true]);
        assert_eq!(holds(Bound::Most(500.0)), [true, true, true, true, false]);
        assert_eq!(holds(Bound::Between(400.0, 500.0)), [false, true, true, true, false]);
        assert!(of(Bound::Least(400.0)).within(0.05).holds(399.96) && !of(Bound::Least(400.0)).holds(399.96));
    }

    #[test]
    fn a_figure_that_misses_does_not_look_like_its_limit() {
        let least = Requirement::geometry(Bound::Least(60.0), Quantity::Length);
        let shown = |value| least.shown(Measure { value, quantity: Quantity::Length });
        assert_eq!([60.0, 59.96, 59.999, 12.34].map(shown), ["60 mm", "59.96 mm", "59.999 mm", "12.3 mm"]);
    }

    #[test]
    fn a_miss_is_counted_from_the_limit_that_is_missed() {
        let miss = |value| Requirement::geometry(Bound::Between(400.0, 500.0), Quantity::Length).miss(value);
        assert_eq!([380.0, 400.0, 450.0, 530.0].map(miss), [20.0, 0.0, 0.0, 30.0]);
    }
}
