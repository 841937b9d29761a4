//! Built-in layups of shell panels: layers from inside to outside.

/// A layup of the library.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layup {
    /// Name in layouts.
    pub name: &'static str,
    /// Material and thickness in mm, from inside to outside.
    pub layers: &'static [(&'static str, f64)],
}

/// Thicknesses are common practice of panel makers, no source.
static LIBRARY: [Layup; 8] = [
    Layup { name: "glass-foam-30", layers: &[("glass-skin", 1.5), ("pvc-foam-60", 27.0), ("glass-skin", 1.5)] },
    Layup { name: "glass-foam-40", layers: &[("glass-skin", 1.5), ("pvc-foam-60", 37.0), ("glass-skin", 1.5)] },
    Layup { name: "glass-foam-50", layers: &[("glass-skin", 1.5), ("pvc-foam-60", 47.0), ("glass-skin", 1.5)] },
    Layup { name: "glass-foam-60", layers: &[("glass-skin", 2.0), ("pvc-foam-60", 56.0), ("glass-skin", 2.0)] },
    Layup {
        name: "glass-ply-foam-45",
        layers: &[("vinyl-floor", 2.0), ("plywood", 9.0), ("pvc-foam-80", 32.5), ("glass-skin", 1.5)],
    },
    Layup {
        name: "glass-ply-foam-60",
        layers: &[("vinyl-floor", 2.0), ("plywood", 12.0), ("pvc-foam-80", 44.0), ("glass-skin", 2.0)],
    },
    Layup { name: "lined-steel-30", layers: &[("plywood", 4.0), ("xps-foam", 25.0), ("steel", 1.0)] },
    Layup {
        name: "lined-steel-floor-30",
        layers: &[("vinyl-floor", 2.0), ("plywood", 12.0), ("xps-foam", 15.0), ("steel", 1.0)],
    },
];

/// The layup of a name.
#[must_use]
pub fn layup(name: &str) -> Option<&'static Layup> {
    LIBRARY.iter().find(|layup| layup.name == name)
}

/// All names, in the library's order.
pub fn names() -> impl Iterator<Item = &'static str> {
    LIBRARY.iter().map(|layup| layup.name)
}
