//! The sheets of the shell: temperatures through its panels, layers, heat loss.

mod profile;
mod section;
mod tables;

use crate::base::number::trimmed;
use crate::drawing::Paper;
use crate::figures::Figures;
use crate::model::Model;
use crate::shell::dew::dew_point;
use crate::shell::layered;
use crate::views::kit::draft::Draft;
use crate::views::kit::pages;
use crate::views::room::gallery::{Gallery, Picture};

/// The sheets of the shell; none where no panel has layers.
pub(super) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let model = figures.model;
    let panels = layered(&model.space);
    if panels.is_empty() {
        return Vec::new();
    }
    let mut pictures: Vec<Picture<'_>> = panels.iter().map(|panel| profile::picture(model, *panel)).collect();
    pictures.extend(panels.iter().filter_map(|panel| section::picture(model, *panel)));
    let gallery = Gallery {
        paper,
        held,
        id: "shell",
        title: "Shell, insulation",
        document_type: "Insulation",
        supplement: "Temperatures through the panels".to_owned(),
        scale: None,
        largest: 1.0,
        notes: notes(model),
        tables: vec![tables::layers(model)],
        together: true,
    };
    let mut drafts = gallery.sheets(&pictures);
    drafts.extend(pages::sheets(
        paper,
        held,
        "heat-loss",
        "Heat loss",
        &[tables::summary(figures), tables::losses(figures)],
        0,
    ));
    drafts
}

fn notes(model: &Model) -> Vec<String> {
    let climate = &model.climate;
    let [inside, outside, humidity] =
        [climate.inside, climate.outside, climate.humidity * 100.0].map(|v| trimmed(v, 1));
    let dew = trimmed(dew_point(climate.inside, climate.humidity), 1);
    vec![
        format!(
            "Inside is at the left: {inside} °C at {humidity} % humidity; outside {outside} °C. Dashed: the dew point of the air \
             inside, {dew} °C; a surface below it gets wet. Surface resistance inside 0.25 m²K/W, as behind furniture (ISO 13788)."
        ),
        "Steady state between the members of a panel. Design aid: joints, wet weather and habits decide.".to_owned(),
    ]
}
