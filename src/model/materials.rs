//! The material library, and the stocks that every layout has.
//!
//! Densities of birch plywood are those of a published trade data sheet (each with its mass for a 1220 x 2440 sheet);
//! the other densities are from memory or common practice, and each entry says so. Stiffness of plywood along and across the grain
//! follows from its plies (`in_bending`); all others are from memory. A layout's `stocks` replaces any of it, and a measured
//! thickness goes before the nominal one.

use super::make::{Grain, SheetSize, Stock};
use crate::diagnostic::SourceClass;

/// What a material is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MaterialKind {
    /// Plywood.
    Plywood,
    /// Glued strips or blocks of solid wood.
    Timber,
    /// Board without grain.
    Board,
    /// Foam core.
    Foam,
    /// Plastic or glass-fibre skin.
    Skin,
    /// Metal.
    Metal,
}

/// One material of the library.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// Name in layouts, e.g. `birch-ply-12`.
    pub name: &'static str,
    /// Nominal thickness, mm; `None` where it comes in any thickness and the layout has to say one.
    pub thickness: Option<f64>,
    /// Density, kg/m3.
    pub density: f64,
    /// Heat conductivity, W/(m K), with how sure it is.
    pub conductivity: (f64, SourceClass),
    /// Resistance to vapour, times that of still air; dry. EN ISO 10456 as others quote it, or from memory.
    pub vapour: f64,
    /// What it is.
    pub kind: MaterialKind,
    /// Modulus of elasticity in bending along and across the grain, N/mm2; `None` where nothing is built of it that
    /// bends. Of plywood it is worked out from its plies; else from memory, not verified, on the low side of what is usual.
    pub stiffness: Option<(f64, f64)>,
    /// Which way the grain of a sheet runs: along its length, along its width, or free.
    pub grain: Grain,
    /// The sheet sizes that are commonly sold, length x width, mm; the first is the usual one.
    pub sheets: &'static [(f64, f64)],
    /// Where the density comes from.
    pub source: &'static str,
    /// How sure that source is.
    pub class: SourceClass,
}

/// Width of a saw cut where the layout says none, mm. Common practice for panel saws: 3 to 4.
pub const KERF: f64 = 3.2;
/// Trimmed off each edge of a sheet where the layout says nothing, mm. Common practice, no source.
pub const TRIM: f64 = 10.0;

/// A layer of still air; its resistance follows from its thickness and place.
pub const AIR: &str = "air";
/// The smallest offcut that is kept where the layout says nothing, mm. Own judgement, no source.
pub const USEFUL: (f64, f64) = (500.0, 150.0);

const BIRCH: &str = "trade data sheet of birch plywood: density and mass of a 1220 x 2440 sheet for each thickness";
const POPLAR: &str = "poplar plywood is about 450 kg/m3; from memory, not verified";
const MEMORY: &str = "usual density, from memory, not verified";
const STEEL: &str = "steel is 7800 kg/m3; EN 12524:2000, table 1";
const FOAM: &str = "grade of the foam in kg/m3, trade data sheet of PVC foam core";

const BIRCH_SHEETS: &[(f64, f64)] = &[(2500.0, 1250.0), (2440.0, 1220.0), (3050.0, 1525.0)];
const SHEETS: &[(f64, f64)] = &[(2440.0, 1220.0)];

/// Stiffness in bending of plywood along and across the grain, N/mm2: plies that cross each other, the outer ones along, a
/// ply across its grain as good as nothing. `1 - sum` and `sum` of the crossed plies' share of the whole section's moment
/// of inertia, times the modulus of the wood along its grain: elementary bending of layers.
const fn in_bending(plies: u32, inner: f64, outer: f64, wood: f64) -> (f64, f64) {
    let whole = inner * (plies - 2) as f64 + 2.0 * outer;
    let (mut across, mut ply) = (0.0, 1);
    while ply < plies - 1 {
        let from = outer + inner * (ply - 1) as f64 - whole / 2.0;
        let to = from + inner;
        across += if ply % 2 == 1 { to * to * to - from * from * from } else { 0.0 };
        ply += 1;
    }
    let share = across / (whole * whole * whole / 4.0);
    (wood * (1.0 - share), wood * share)
}

/// Plies of birch plywood: 1.4 mm, the outer ones sanded to 1.1; a ply has 17,500 N/mm2 along its grain. From memory; what
/// follows agrees with the trade's handbook of birch plywood.
const fn birch_plies(plies: u32) -> (f64, f64) {
    in_bending(plies, 1.4, 1.1, 17_500.0)
}

/// Of poplar plywood 9,000 N/mm2 in a ply; the plies are from memory, not verified, and so are thick boards as a whole.
const fn poplar_plies(thickness: f64) -> (f64, f64) {
    if thickness < 7.0 {
        in_bending(3, 2.4, 1.8, 9_000.0)
    } else if thickness < 10.0 {
        in_bending(5, 1.8, 1.8, 9_000.0)
    } else {
        (5500.0, 3500.0)
    }
}

const fn birch(name: &'static str, thickness: f64, density: f64, plies: u32) -> Material {
    let (kind, grain) = (MaterialKind::Plywood, Grain::Length);
    let thickness = Some(thickness);
    Material {
        name,
        thickness,
        density,
        conductivity: (wood(density), SourceClass::Published),
        vapour: plywood_vapour(density),
        kind,
        stiffness: Some(birch_plies(plies)),
        grain,
        sheets: BIRCH_SHEETS,
        source: BIRCH,
        class: SourceClass::Published,
    }
}

const fn poplar(name: &'static str, thickness: f64) -> Material {
    let (kind, grain) = (MaterialKind::Plywood, Grain::Length);
    let density = 450.0;
    let (conductivity, stiffness) = ((wood(density), SourceClass::Published), Some(poplar_plies(thickness)));
    let thickness = Some(thickness);
    let (sheets, source, class) = (SHEETS, POPLAR, SourceClass::FromMemory);
    let vapour = plywood_vapour(density);
    Material { name, thickness, density, conductivity, vapour, kind, stiffness, grain, sheets, source, class }
}

const fn board(
    name: &'static str,
    thickness: f64,
    density: f64,
    kind: MaterialKind,
    stiffness: (f64, f64),
) -> Material {
    let grain = if matches!(kind, MaterialKind::Timber) { Grain::Length } else { Grain::Free };
    let (thickness, stiffness) = (Some(thickness), Some(stiffness));
    let conductivity = (wood(density), SourceClass::FromMemory);
    let (sheets, source, class) = (SHEETS, MEMORY, SourceClass::FromMemory);
    let vapour = OF_BOARDS;
    Material { name, thickness, density, conductivity, vapour, kind, stiffness, grain, sheets, source, class }
}

type Sure = SourceClass;

const fn layer(
    name: &'static str,
    figures: (f64, f64, Sure),
    vapour: f64,
    kind: MaterialKind,
    from: (&'static str, Sure),
) -> Material {
    let ((density, conductivity, sure), (source, class)) = (figures, from);
    let (thickness, stiffness, grain) = (None, None, Grain::Free);
    let (sheets, conductivity) = (SHEETS, (conductivity, sure));
    Material { name, thickness, density, conductivity, vapour, kind, stiffness, grain, sheets, source, class }
}

/// Resistance to vapour of plywood by density, dry: straight lines between 150 at 300 kg/m3, 200 at 500, 220 at 700 and 250 at 1000; EN ISO 10456, table 3,
/// from memory.
const fn plywood_vapour(density: f64) -> f64 {
    if density <= 500.0 { 150.0 + (density - 300.0) / 4.0 } else { 200.0 + (density - 500.0) / 10.0 }
}

/// Of boards for furniture, which are no layers of a panel: particleboard, dry; EN ISO 10456, table 3, from memory.
const OF_BOARDS: f64 = 50.0;
/// As good as tight: metal and glass.
const TIGHT: f64 = 1e9;

/// Heat conductivity of plywood and wood by density, W/(m K): straight lines between the values of EN 12524:2000, table 1
/// (300 kg/m3 0.09, 500 0.13, 700 0.17, 1000 0.24).
const fn wood(density: f64) -> f64 {
    if density <= 700.0 { 0.09 + (density - 300.0) * 0.04 / 200.0 } else { 0.17 + (density - 700.0) * 0.07 / 300.0 }
}

static LIBRARY: [Material; 34] = [
    birch("birch-ply-4", 4.0, 660.0, 3),
    birch("birch-ply-6.5", 6.5, 670.0, 5),
    birch("birch-ply-9", 9.0, 710.0, 7),
    birch("birch-ply-12", 12.0, 695.0, 9),
    birch("birch-ply-15", 15.0, 690.0, 11),
    birch("birch-ply-18", 18.0, 685.0, 13),
    poplar("poplar-ply-6", 6.0),
    poplar("poplar-ply-9", 9.0),
    poplar("poplar-ply-12", 12.0),
    poplar("poplar-ply-15", 15.0),
    poplar("poplar-ply-18", 18.0),
    poplar("poplar-ply-25", 25.0),
    board("laminate-board-19", 19.0, 560.0, MaterialKind::Board, (2500.0, 2500.0)),
    board("laminate-board-25", 25.0, 560.0, MaterialKind::Board, (2500.0, 2500.0)),
    board("beech-board-25", 25.0, 700.0, MaterialKind::Timber, (11000.0, 800.0)),
    board("oak-board-25", 25.0, 700.0, MaterialKind::Timber, (10000.0, 800.0)),
    board("solid-laminate-6", 6.0, 1400.0, MaterialKind::Board, (9000.0, 9000.0)),
    board("mdf-18", 18.0, 740.0, MaterialKind::Board, (2500.0, 2500.0)),
    board("pvc-board-10", 10.0, 550.0, MaterialKind::Board, (1000.0, 1000.0)),
    layer("pvc-foam-60", (60.0, 0.033, Sure::FromMemory), 60.0, MaterialKind::Foam, (FOAM, Sure::Published)),
    layer("pvc-foam-80", (80.0, 0.035, Sure::FromMemory), 60.0, MaterialKind::Foam, (FOAM, Sure::Published)),
    layer("xps-foam", (33.0, 0.035, Sure::Published), 150.0, MaterialKind::Foam, (MEMORY, Sure::FromMemory)),
    layer("pu-foam", (40.0, 0.025, Sure::Published), 60.0, MaterialKind::Foam, (MEMORY, Sure::FromMemory)),
    layer("mineral-wool", (30.0, 0.038, Sure::FromMemory), 1.0, MaterialKind::Foam, (MEMORY, Sure::FromMemory)),
    layer("cork", (120.0, 0.040, Sure::FromMemory), 10.0, MaterialKind::Foam, (MEMORY, Sure::FromMemory)),
    layer(AIR, (1.2, 0.025, Sure::FromMemory), 1.0, MaterialKind::Foam, (MEMORY, Sure::FromMemory)),
    layer("glass-skin", (1700.0, 0.30, Sure::FromMemory), 10_000.0, MaterialKind::Skin, (MEMORY, Sure::FromMemory)),
    layer(
        "plywood",
        (690.0, wood(690.0), Sure::Published),
        plywood_vapour(690.0),
        MaterialKind::Plywood,
        (MEMORY, Sure::FromMemory),
    ),
    layer("vinyl-floor", (1300.0, 0.17, Sure::FromMemory), 50_000.0, MaterialKind::Skin, (MEMORY, Sure::FromMemory)),
    layer("softwood", (500.0, 0.13, Sure::Published), 50.0, MaterialKind::Timber, (MEMORY, Sure::FromMemory)),
    layer("hardwood", (700.0, 0.18, Sure::Published), 200.0, MaterialKind::Timber, (MEMORY, Sure::FromMemory)),
    layer("aluminium", (2700.0, 160.0, Sure::FromMemory), TIGHT, MaterialKind::Metal, (MEMORY, Sure::FromMemory)),
    layer("stainless-steel", (7900.0, 17.0, Sure::FromMemory), TIGHT, MaterialKind::Metal, (MEMORY, Sure::FromMemory)),
    layer("steel", (7800.0, 50.0, Sure::Published), TIGHT, MaterialKind::Metal, (STEEL, Sure::Published)),
];

/// The material of a name.
#[must_use]
pub fn material(name: &str) -> Option<&'static Material> {
    LIBRARY.iter().find(|material| material.name == name)
}

/// All names, in the library's order.
pub fn names() -> impl Iterator<Item = &'static str> {
    LIBRARY.iter().map(|material| material.name)
}

impl Material {
    /// A stock of this material in a role; a thickness of zero where the material has none of its own.
    #[must_use]
    pub fn stock(&self, role: &str) -> Stock {
        Stock {
            name: role.to_owned(),
            material: self.name.to_owned(),
            thickness: self.thickness.unwrap_or(0.0),
            density: self.density,
            stiffness: self.stiffness,
            sheets: self.sheets.iter().map(|size| SheetSize { size: *size, price: None, on_hand: None }).collect(),
            grain: self.grain,
            kerf: KERF,
            trim: TRIM,
            useful: USEFUL,
            stages: None,
            span: None,
        }
    }
}

/// Roles that always exist, each with its usual material. A layout's `stocks` overrides them by name.
const ROLES: [(&str, &str); 7] = [
    ("carcass", "poplar-ply-15"),
    ("front", "poplar-ply-15"),
    ("back", "poplar-ply-6"),
    ("worktop", "laminate-board-25"),
    ("drawer", "birch-ply-12"),
    ("board", "birch-ply-12"),
    ("partition", "poplar-ply-18"),
];

/// The stocks of every layout, before its own `stocks` change them. Birch plywood is bought as 2500 x 1250 only,
/// as a workshop keeps one size; a layout may list more.
#[must_use]
pub fn default_stocks() -> Vec<Stock> {
    ROLES
        .iter()
        .filter_map(|(role, name)| material(name).map(|material| material.stock(role)))
        .map(|mut stock| {
            stock.sheets.truncate(1);
            stock
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Trade data sheet of birch plywood: nominal thickness, kg for a 1220 x 2440 sheet.
    const PUBLISHED: [(&str, f64); 6] = [
        ("birch-ply-4", 7.9),
        ("birch-ply-6.5", 13.0),
        ("birch-ply-9", 19.0),
        ("birch-ply-12", 24.8),
        ("birch-ply-15", 30.8),
        ("birch-ply-18", 36.7),
    ];

    #[test]
    fn birch_sheets_weigh_what_the_data_sheet_says() {
        for (name, kilograms) in PUBLISHED {
            let found = material(name).unwrap();
            let mass = 1.22 * 2.44 * found.thickness.unwrap() / 1000.0 * found.density;
            assert!((mass - kilograms).abs() <= 0.051, "{name}: {mass} kg, published {kilograms} kg");
        }
    }

    /// Along and across by hand, from the thickness of each ply: of 3 plies 1.4 between 1.1 and 1.1 the middle one has
    /// 1.4^3 / 3.6^3 of the section, 17,500 x 0.0588 = 1,029 N/mm2; the other figures are those of a sum outside of this
    /// project. Poplar of 6 mm: 2.4^3 / 6^3 x 9,000 = 576.
    #[test]
    fn plywood_is_soft_across_its_grain() {
        let derived = [
            ("birch-ply-4", 16471.0, 1029.0),
            ("birch-ply-6.5", 12737.0, 4763.0),
            ("birch-ply-9", 11395.0, 6105.0),
            ("birch-ply-12", 10719.0, 6781.0),
            ("birch-ply-15", 10316.0, 7184.0),
            ("birch-ply-18", 10048.0, 7452.0),
            ("poplar-ply-6", 8424.0, 576.0),
        ];
        for (name, along, across) in derived {
            let found = material(name).unwrap().stiffness.unwrap();
            assert!((found.0 - along).abs() < 1.0 && (found.1 - across).abs() < 1.0, "{name}: {found:?}");
        }
    }

    #[test]
    fn every_role_has_a_sheet_material() {
        let stocks = default_stocks();
        assert_eq!(stocks.len(), ROLES.len());
        assert!(stocks.iter().all(|stock| stock.thickness > 0.0 && stock.sheets.len() == 1 && stock.density > 100.0));
    }

    #[test]
    fn names_are_unique() {
        let mut all: Vec<_> = names().collect();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), LIBRARY.len());
    }
}
