//! The sheets of the services: the ways of cables and pipes on the plan, tanks, energy, voltage drop, fall.

mod tables;
mod ways;

use crate::drawing::Paper;
use crate::model::Model;
use crate::views::kit::draft::Draft;
use crate::views::kit::pages;
use crate::views::room::gallery::Gallery;

/// The sheets; none for a layout without services and tanks.
pub(super) fn sheets(paper: Paper, held: bool, model: &Model) -> Vec<Draft> {
    let has_tanks = model.loads.iter().any(|load| load.tank.is_some());
    if model.services.is_empty() && !has_tanks {
        return Vec::new();
    }
    let mut drafts = Vec::new();
    if let Some(picture) = ways::picture(model) {
        let gallery = Gallery {
            paper,
            held,
            id: "services",
            title: "Services",
            document_type: "Services",
            supplement: "Ways of cables and pipes".to_owned(),
            scale: model.sheets.scale,
            largest: 10.0,
            notes: vec![
                format!("Full lines: cables. Dashed: waste pipes. Numbers as in the tables. {}", tables::CAUTION),
                "Where the layout gives no way, it goes along the walls, the shorter way round.".to_owned(),
            ],
            tables: vec![tables::ways(model)],
            together: true,
        };
        drafts.extend(gallery.sheets(&[picture]));
    }
    let tables: Vec<_> = [tables::tanks(model), tables::energy(model), tables::connections(model), tables::caution()]
        .into_iter()
        .filter(|table| !table.rows.is_empty())
        .collect();
    drafts.extend(pages::sheets(paper, held, "services-schedule", "Services, schedule", &tables, 0));
    drafts
}
