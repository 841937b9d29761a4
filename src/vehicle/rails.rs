//! The longitudinals of a subframe as beams on its mounts, at rest.
//!
//! The box is taken for soft and its mass for spread along it, linearly, so that mass and centre are met; both longitudinals carry alike. The
//! bending moment follows from the mounts' loads by statics, the bend by integrating it twice, from the line through the outermost mounts.

use super::mounts::{Mount, Rider};
use crate::model::{Model, Rails, Vehicle};

/// Modulus of elasticity of steel, N/mm2; from memory.
const ELASTIC: f64 = 210_000.0;
/// Standard gravity, N/kg; ISO 80000-3.
const GRAVITY: f64 = 9.806_65;
/// Places along a rail at which moment and bend are looked at.
const SLICES: usize = 2_000;

/// How a rail bends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bent {
    /// Greatest bending moment of one rail, N mm, without its sign.
    pub moment: f64,
    /// Where, X.
    pub at: f64,
    /// Stress at its edge there, N/mm2.
    pub stress: f64,
    /// How far it bends out of the line through the outermost mounts, mm; downward is positive.
    pub bend: f64,
    /// Second moment of area, mm4.
    pub inertia: f64,
}

/// One rail under half of the box.
#[must_use]
pub fn bent(model: &Model, vehicle: &Vehicle, rails: &Rails, rider: &Rider, mounts: &[Mount]) -> Bent {
    let space = &model.space;
    let ends = [-space.walls.thickness, space.length + space.walls.thickness].map(|x| vehicle.along(x));
    let spread = Spread::of((ends[0], ends[1]), rider.mass * GRAVITY / 2.0, rider.x);
    let rests: Vec<(f64, f64)> = mounts.iter().map(|mount| (mount.x, mount.carries * GRAVITY / 2.0)).collect();
    beam(spread, &rests, rails)
}

/// A force on a beam that grows linearly along it.
#[derive(Debug, Clone, Copy)]
struct Spread {
    range: (f64, f64),
    /// N/mm at the start.
    first: f64,
    /// What it grows by, N/mm2.
    grows: f64,
}

impl Spread {
    fn of(range: (f64, f64), newton: f64, centre: f64) -> Self {
        let length = range.1 - range.0;
        let grows = 12.0 * newton * (centre - f64::midpoint(range.0, range.1)) / length.powi(3);
        Self { range, first: newton / length - grows * length / 2.0, grows }
    }

    /// Its moment about a place, of what lies before that, N mm.
    fn moment(&self, x: f64) -> f64 {
        let t = (x.min(self.range.1) - self.range.0).max(0.0);
        let (force, first) =
            (self.first * t + self.grows * t * t / 2.0, self.first * t * t / 2.0 + self.grows * t.powi(3) / 3.0);
        force * (x - self.range.0) - first
    }
}

fn beam(spread: Spread, rests: &[(f64, f64)], rails: &Rails) -> Bent {
    let inertia = inertia(rails);
    let ends = rests.iter().map(|rest| rest.0);
    let (low, high) = ends.fold(spread.range, |(low, high), x| (low.min(x), high.max(x)));
    let step = (high - low) / SLICES as f64;
    let places: Vec<f64> = (0..=SLICES).map(|index| low + step * index as f64).collect();
    let sagging = |x: f64| rests.iter().map(|(at, up)| up * (x - at).max(0.0)).sum::<f64>() - spread.moment(x);
    let moments: Vec<f64> = places.iter().map(|x| sagging(*x)).collect();
    // The supports are where it bends most between two of these places.
    let all = places.iter().copied().chain(rests.iter().map(|rest| rest.0)).map(|x| (x, sagging(x).abs()));
    let (at, moment) = all.reduce(|best, next| if next.1 > best.1 { next } else { best }).unwrap_or_default();
    let stress = moment * rails.height / 2.0 / inertia;
    let bend = greatest_bend(&places, &moments, rests, step) / (ELASTIC * inertia);
    Bent { moment, at, stress, bend, inertia }
}

/// E I times the greatest distance from the line through the outermost rests, downward positive.
fn greatest_bend(places: &[f64], moments: &[f64], rests: &[(f64, f64)], step: f64) -> f64 {
    let (mut slope, mut down, mut line) = (0.0, 0.0, vec![0.0]);
    for pair in moments.windows(2) {
        let [a, b] = pair else { continue };
        down += slope * step - (2.0 * a + b) / 6.0 * step * step;
        slope -= (a + b) / 2.0 * step;
        line.push(down);
    }
    let outermost =
        rests.iter().map(|rest| rest.0).fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
    let first = places.first().copied().unwrap_or(0.0);
    let at = |x: f64| {
        let place = (x - first) / step;
        // Between 0 and SLICES.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let index = place as usize;
        let [before, after] = [index, index + 1].map(|index| line.get(index).or(line.last()).copied().unwrap_or(0.0));
        before + (after - before) * place.fract()
    };
    let (left, right) = (at(outermost.0), at(outermost.1));
    let chord = |x: f64| left + (right - left) * (x - outermost.0) / (outermost.1 - outermost.0);
    let bends = places.iter().zip(&line).map(|(x, down)| down - chord(*x));
    bends.fold(0.0, |best: f64, next| if next.abs() > best.abs() { next } else { best })
}

/// Of a rectangular tube about its level axis, mm4: (b h^3 - (b - 2 t)(h - 2 t)^3) / 12.
fn inertia(rails: &Rails) -> f64 {
    let Rails { height, width, wall, .. } = *rails;
    (width * height.powi(3) - (width - 2.0 * wall) * (height - 2.0 * wall).powi(3)) / 12.0
}

#[cfg(test)]
mod tests;
