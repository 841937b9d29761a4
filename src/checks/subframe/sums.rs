//! The sums of the check `subframe`, worked out.

use crate::base::number::{mm, trimmed};
use crate::diagnostic::Worked;
use crate::model::{Mounts, Rails, Subframe, Vehicle};
use crate::vehicle::{Bent, Held, Mount, opened};

/// Stress on the road as part of the yield strength, percent.
pub(super) fn used(subframe: &Subframe, rails: &Rails, bent: &Bent) -> f64 {
    bent.stress * subframe.dynamic / rails.steel.yields() * 100.0
}

pub(super) fn sum(subframe: &Subframe, held: &Held) -> Worked {
    let formula = match subframe.mounts {
        Mounts::FourPoint { .. } => "stiff box, equal mounts: sinks by a + b x",
        _ => "moments about the other mount; aside: sum(m y) / apart on the pair",
    };
    let carries = |worked: Worked, mount: &Mount| {
        let place = format!("at {} mm, {} mm aside", trimmed(mount.x, 0), trimmed(mount.y, 0));
        worked.step(&mount.name, [formula, &place], format!("{} kg", trimmed(mount.carries, 1)), "statics")
    };
    let worked = held.mounts.iter().fold(Worked::new(format!("Load case `{}`", held.case)), carries);
    let Some((rails, bent)) = subframe.rails.zip(held.rail) else { return worked };
    let Rails { height, width, wall, steel } = rails;
    let tube = format!("{width} x {height} x {wall} mm");
    let stress = format!("{} x {} / 2 / {}", trimmed(bent.moment, 0), trimmed(height, 1), trimmed(bent.inertia, 0));
    worked
        .step(
            "second moment of area, I",
            ["(b h^3 - (b - 2 t)(h - 2 t)^3) / 12", &tube],
            format!("{} mm4", trimmed(bent.inertia, 0)),
            "",
        )
        .step(
            "greatest moment of one longitudinal",
            [
                "sum of mounts before it x lever - mass of the box before it x lever",
                &format!("at {} mm", trimmed(bent.at, 0)),
            ],
            format!("{} kN m", trimmed(bent.moment / 1e6, 3)),
            "mass spread along the box by mass and centre",
        )
        .step("stress at rest", ["M h / 2 / I", &stress], format!("{} N/mm2", trimmed(bent.stress, 1)), "")
        .step(
            "part of the yield strength",
            [
                "stress x dynamic / yield",
                &format!("{} x {} / {}", trimmed(bent.stress, 1), subframe.dynamic, steel.yields()),
            ],
            format!("{} %", trimmed(used(subframe, &rails, &bent), 1)),
            "yield: EN 10025-2, table 7, quoted; dynamic: the layout, or common practice",
        )
        .step(
            "bend",
            ["moment integrated twice / E I", ""],
            mm(bent.bend),
            "E 210,000 N/mm2, from memory; downward is positive",
        )
}

pub(super) fn spring_sum(vehicle: &Vehicle, subframe: &Subframe) -> Option<Worked> {
    let (Mounts::Springs { fixed, at, spring }, (opens, holds)) = (subframe.mounts, opened(vehicle, subframe)?) else {
        return None;
    };
    let angle = subframe.twist * (fixed - at) / vehicle.wheelbase;
    let force = format!("{} + {} x {}", spring.preload, spring.rate, trimmed(opens, 1));
    Some(
        Worked::new("Mounts with springs")
            .step(
                "turned between the pairs, a",
                ["twist (fixed - springs) / wheelbase", ""],
                format!("{}°", trimmed(angle, 2)),
                "",
            )
            .step("opens by", ["apart sin a", ""], mm(opens), "the box rests on the rail that rises")
            .step("holds with", ["preload + rate x opening", &force], format!("{} N", trimmed(holds, 0)), ""),
    )
}
