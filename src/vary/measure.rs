//! Figures of a layout to choose by.

use crate::figures::Figures;
use crate::vehicle::Weighed;

/// Which figure is the better one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Better {
    Less,
    More,
}

/// A figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measured {
    /// The heaviest load case, kg.
    Mass,
    /// The greatest load on the front axle or the coupling, kg.
    Front,
    /// The greatest load on the rear axle or group, kg.
    Rear,
    /// The narrowest way that can be gone, mm.
    Way,
    /// What holds cargo, litres.
    Storage,
    /// Pieces of board.
    Pieces,
    /// Sheets, bands and hardware that have a price, in the layout's currency.
    Price,
}

impl Measured {
    /// All of them.
    pub const ALL: [Self; 7] =
        [Self::Mass, Self::Front, Self::Rear, Self::Way, Self::Storage, Self::Pieces, Self::Price];

    /// The word for it on the command line and at the head of its column.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Way => "way",
            Self::Storage => "storage",
            Self::Pieces => "pieces",
            Self::Price => "price",
        }
    }

    /// What it is, with its unit.
    #[must_use]
    pub fn says(self) -> &'static str {
        match self {
            Self::Mass => "the heaviest load case, kg",
            Self::Front => "the greatest load on the front axle or the coupling, kg",
            Self::Rear => "the greatest load on the rear axle or group, kg",
            Self::Way => "the narrowest way that can be gone, mm",
            Self::Storage => "what holds cargo, litres",
            Self::Pieces => "pieces of board",
            Self::Price => "sheets, bands and hardware that have a price",
        }
    }

    pub(super) fn better(self) -> Better {
        match self {
            Self::Way | Self::Storage => Better::More,
            _ => Better::Less,
        }
    }

    pub(super) fn of(self, figures: &Figures<'_>) -> Option<f64> {
        let most = |of: fn(&Weighed) -> f64| figures.weighed().iter().map(of).max_by(f64::total_cmp);
        match self {
            Self::Mass => most(|case| case.total),
            Self::Front => most(|case| case.front),
            Self::Rear => most(|case| case.rear),
            Self::Way => {
                let ways = figures.model.arrangements.iter().flat_map(|one| figures.measured_ways(one, &[]));
                ways.map(|way| way.width).min_by(f64::total_cmp)
            }
            Self::Storage => {
                let holds =
                    figures.stowage().iter().filter(|one| one.arrangements.contains(&0)).flat_map(|one| &one.holds);
                Some(holds.map(|hold| hold.litres).sum())
            }
            Self::Pieces => {
                let parts = figures.model.modules.iter().flat_map(|module| &module.parts);
                Some(parts.map(|part| f64::from(part.count)).sum())
            }
            Self::Price => {
                let sheets = figures.cut_list().totals.iter().filter_map(|total| total.price);
                let bought = figures.purchases();
                let hardware = bought.hardware.iter().filter_map(|one| one.price);
                let bands = bought.bands.iter().filter_map(|one| one.price);
                Some(sheets.chain(hardware).chain(bands).sum())
            }
        }
    }
}
