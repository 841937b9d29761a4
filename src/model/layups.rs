//! Built-in layups of shell panels: layers from inside to outside.

/// A layup of the library.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layup {
    /// Name in layouts.
    pub name: &'static str,
    /// Material and thickness in mm, from inside to outside.
    pub layers: &'static [(&'static str, f64)],
    /// Members set into a layer: the layer's index, their material, width and spacing in mm.
    pub frame: Option<(usize, &'static str, f64, f64)>,
}

const fn plain(name: &'static str, layers: &'static [(&'static str, f64)]) -> Layup {
    Layup { name, layers, frame: None }
}

const fn framed(
    name: &'static str,
    layers: &'static [(&'static str, f64)],
    frame: (usize, &'static str, f64, f64),
) -> Layup {
    Layup { name, layers, frame: Some(frame) }
}

/// Thicknesses are common practice of panel makers, no source. The framed walls are for comparison.
static LIBRARY: [Layup; 13] = [
    plain("glass-foam-30", &[("glass-skin", 1.5), ("pvc-foam-60", 27.0), ("glass-skin", 1.5)]),
    plain("glass-foam-40", &[("glass-skin", 1.5), ("pvc-foam-60", 37.0), ("glass-skin", 1.5)]),
    plain("glass-foam-50", &[("glass-skin", 1.5), ("pvc-foam-60", 47.0), ("glass-skin", 1.5)]),
    plain("glass-foam-60", &[("glass-skin", 2.0), ("pvc-foam-60", 56.0), ("glass-skin", 2.0)]),
    plain("glass-pu-60", &[("glass-skin", 2.0), ("pu-foam", 56.0), ("glass-skin", 2.0)]),
    plain("ply-foam-46", &[("plywood", 4.0), ("xps-foam", 40.0), ("glass-skin", 2.0)]),
    plain("glass-ply-foam-45", &[("vinyl-floor", 2.0), ("plywood", 9.0), ("pvc-foam-80", 32.5), ("glass-skin", 1.5)]),
    plain("glass-ply-foam-60", &[("vinyl-floor", 2.0), ("plywood", 12.0), ("pvc-foam-80", 44.0), ("glass-skin", 2.0)]),
    plain("lined-steel-30", &[("plywood", 4.0), ("xps-foam", 25.0), ("steel", 1.0)]),
    plain("lined-steel-floor-30", &[("vinyl-floor", 2.0), ("plywood", 12.0), ("xps-foam", 15.0), ("steel", 1.0)]),
    framed(
        "timber-frame-46",
        &[("plywood", 4.0), ("xps-foam", 40.0), ("glass-skin", 2.0)],
        (1, "softwood", 40.0, 500.0),
    ),
    framed(
        "aluminium-frame-46",
        &[("plywood", 4.0), ("xps-foam", 40.0), ("aluminium", 2.0)],
        (1, "aluminium", 3.0, 500.0),
    ),
    framed("steel-frame-46", &[("plywood", 4.0), ("xps-foam", 40.0), ("steel", 2.0)], (1, "steel", 2.0, 500.0)),
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
