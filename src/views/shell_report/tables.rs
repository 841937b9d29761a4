//! Tables of the shell: layers, transmittance and dew of each panel; heat loss.

use crate::base::number::trimmed;
use crate::diagnostic::SourceClass;
use crate::figures::Figures;
use crate::model::materials::material;
use crate::model::{Climate, Layer, Model, Panel, Wall};
use crate::shell::conduction::{Section, panel_section};
use crate::shell::dew::{humidity_at, wets_at};
use crate::shell::heat::{Method, RSE, RSI_STILL, resistance, rsi, temperatures};
use crate::shell::layered;
use crate::shell::losses::{Loss, panel_u};
use crate::views::kit::flexible::Flexible;
use crate::views::kit::words::sentence;

/// One row for each layer, and one for each panel as a whole.
pub(super) fn layers(model: &Model) -> Flexible {
    let climate = &model.climate;
    let mut rows = Vec::new();
    for (name, side, panel) in layered(&model.space) {
        rows.extend(panel.layers.iter().map(|layer| layer_row(name, side, layer)));
        rows.extend(panel_section(panel, (rsi(side), RSE)).map(|section| member_row(name, &section, climate)));
        rows.push(whole_row(name, side, panel, climate));
    }
    let columns = [
        ("panel", 30.0, false),
        ("layer, from inside", 40.0, false),
        ("mm", 14.0, true),
        ("λ, W/(m K)", 22.0, true),
        ("R, m²K/W", 22.0, true),
        ("members; surface", -1.0, false),
        ("source of λ; method", 50.0, false),
    ];
    Flexible::new("Layers", &columns, rows).at_least(230.0)
}

fn layer_row(name: &str, side: Wall, layer: &Layer) -> Vec<String> {
    let sure = material(&layer.material).map_or(SourceClass::FromMemory, |material| material.conductivity.1);
    let member = layer.bridge.as_ref().map_or(String::new(), |bridge| {
        format!("{} {} wide every {}", bridge.material, trimmed(bridge.width, 1), trimmed(bridge.spacing, 1))
    });
    vec![
        sentence(name),
        layer.material.clone(),
        trimmed(layer.thickness, 2),
        trimmed(layer.conductivity, 3),
        trimmed(resistance(layer, side), 3),
        member,
        sure.words().to_owned(),
    ]
}

/// The coldest place of the inside, over a member.
fn member_row(name: &str, section: &Section, climate: &Climate) -> Vec<String> {
    let coldest = climate.outside + (climate.inside - climate.outside) * section.coldest;
    let humidity = humidity_at(coldest, climate.inside, climate.humidity) * 100.0;
    let damp = if humidity >= 100.0 { "wet".to_owned() } else { format!("{} % humidity", trimmed(humidity, 0)) };
    let coldest = format!("coldest inside, over a member: {} °C, {damp}", trimmed(coldest, 1));
    let [none, other, third, fourth] = [const { String::new() }; 4];
    let name = format!("{}, members", sentence(name));
    vec![name, none, other, third, fourth, coldest, "two-dimensional conduction".to_owned()]
}

fn whole_row(name: &str, side: Wall, panel: &Panel, climate: &Climate) -> Vec<String> {
    let surface = temperatures(panel, side, RSI_STILL, (climate.inside, climate.outside)).get(1).copied();
    let surface = surface.unwrap_or(climate.inside);
    let found = panel_u(panel, side);
    let method = match found.method {
        Method::Layers => "ISO 6946, layers",
        Method::Combined => "ISO 6946, combined method",
        Method::Conduction => "two-dimensional conduction",
    };
    vec![
        format!("{}, whole", sentence(name)),
        format!("U {} W/(m²K)", trimmed(found.u, 2)),
        trimmed(panel.thickness, 2),
        String::new(),
        trimmed(1.0 / found.u, 3),
        format!(
            "between members {} °C inside behind furniture; {} % humidity there; wet from {} %",
            trimmed(surface, 1),
            trimmed(humidity_at(surface, climate.inside, climate.humidity) * 100.0, 0),
            trimmed(wets_at(surface, climate.inside) * 100.0, 0)
        ),
        method.to_owned(),
    ]
}

/// What the heat loss comes to.
pub(super) fn summary(figures: &Figures<'_>) -> Flexible {
    let (climate, losses) = (&figures.model.climate, figures.losses());
    let watts = |value: f64| format!("{} W", trimmed(value, 0));
    let heater = if climate.heater > 0.0 { watts(climate.heater) } else { "-".to_owned() };
    let row = |what: &str, value: String| vec![what.to_owned(), value];
    let rows = vec![
        row(
            "air inside",
            format!("{} °C, {} % humidity", trimmed(climate.inside, 1), trimmed(climate.humidity * 100.0, 0)),
        ),
        row("air outside", format!("{} °C", trimmed(climate.outside, 1))),
        row("volume", format!("{} m³", trimmed(losses.volume, 2))),
        row("mean U of the shell with its openings", format!("{} W/(m²K)", trimmed(losses.mean_u, 2))),
        row(
            &format!("where panels meet, {} m", trimmed(losses.edges, 1)),
            format!("{} W/K", trimmed(losses.at_edges, 2)),
        ),
        row("through the shell", watts(losses.conducted)),
        row(&format!("with {} air changes an hour", trimmed(climate.air_changes, 2)), watts(losses.aired)),
        row("heat loss", watts(losses.watts())),
        row("heater", heater),
        row("caution", "Steady state. Heaters, flues and gas are for licensed people and the local code.".to_owned()),
    ];
    Flexible::new("Heat loss", &[("what", 90.0, false), ("", -1.0, false)], rows)
}

/// Heat through every surface and opening.
pub(super) fn losses(figures: &Figures<'_>) -> Flexible {
    let climate = &figures.model.climate;
    let difference = climate.inside - climate.outside;
    let rows = figures.losses().through.iter().map(|loss: &Loss| {
        vec![
            loss.name.clone(),
            loss.made_of.clone(),
            trimmed(loss.area, 2),
            trimmed(loss.u, 2),
            trimmed(loss.area * loss.u, 2),
            trimmed(loss.area * loss.u * difference, 0),
        ]
    });
    let columns = [
        ("surface", -0.5, false),
        ("made of", -0.5, false),
        ("area, m²", 24.0, true),
        ("U, W/(m²K)", 24.0, true),
        ("A U, W/K", 24.0, true),
        ("W", 20.0, true),
    ];
    Flexible::new("Heat through the shell", &columns, rows.collect())
}
