//! Schedules: all modules, openings, hardware and masses of the layout in tables, and the index of the sheets.

use crate::base::number::trimmed;
use crate::drawing::{Paper, scale};
use crate::figures::Figures;
use crate::joinery::Purchases;
use crate::model::{Model, Module};
use crate::views::kit::draft::Draft;
use crate::views::kit::flexible::Flexible;
use crate::views::kit::pages;
use crate::views::plan::legend;

/// The sheets of the schedules.
pub(in crate::views) fn sheets(paper: Paper, held: bool, figures: &Figures<'_>) -> Vec<Draft> {
    let model = figures.model;
    let tables =
        [Some(modules(model)), Some(legend::openings(model)), hardware(figures.purchases()), Some(masses(model))];
    let tables: Vec<Flexible> = tables.into_iter().flatten().filter(|table| !table.rows.is_empty()).collect();
    let mut drafts = pages::sheets(paper, held, "schedules", "Schedules", &tables, 0);
    drafts.extend(pages::sheets(paper, held, "inserts", "Inserts", &[inserts(figures)], 0));
    drafts
}

/// Where the panels need inserts.
fn inserts(figures: &Figures<'_>) -> Flexible {
    let rows = figures.inserts().placed.iter().enumerate().map(|(index, insert)| {
        let carries = if insert.carries > 0.0 { trimmed(insert.carries, 1) } else { "-".to_owned() };
        let place = [insert.at.x, insert.at.y].map(|value| trimmed(value, 0));
        let [along, up] = place;
        vec![(index + 1).to_string(), insert.wall.name().to_owned(), insert.holds.clone(), along, up, carries]
    });
    let columns = [
        ("no.", 10.0, true),
        ("panel", 24.0, false),
        ("holds", -1.0, false),
        ("from the front (front, rear: from the left), mm", 60.0, true),
        ("from the floor (roof, floor: from the left), mm", 60.0, true),
        ("its share of module, contents and people, kg", 44.0, true),
    ];
    Flexible::new(
        "Inserts in the panels. The maker of the panels decides on kind and strength",
        &columns,
        rows.collect(),
    )
}

/// Number, name, what it is, size, place and zone of each module.
fn modules(model: &Model) -> Flexible {
    let rows = model.modules.iter().enumerate().map(|(index, module)| {
        let extent = &module.extent;
        let place = [extent.x.0, extent.y.0, extent.z.0].map(|value| trimmed(value, 1)).join(", ");
        let zone = module.zone.and_then(|zone| model.zones.get(zone)).map_or(String::new(), |zone| zone.name.clone());
        vec![
            (index + 1).to_string(),
            module.name.clone(),
            module.says.clone(),
            module.symbol.clone(),
            legend::size(module),
            place,
            zone,
        ]
    });
    let columns = [
        ("no.", 8.0, true),
        ("module", 28.0, false),
        ("what it is", -1.0, false),
        ("symbol", 36.0, false),
        ("run × depth × height", 32.0, false),
        ("front, left, floor", 30.0, false),
        ("zone", 22.0, false),
    ];
    let names = model.modules.iter().map(|module| &module.name);
    let links = names.map(|name| (format!("scheduled-{name}"), format!("label-{name}")));
    Flexible::new("Modules", &columns, rows.collect()).leading(links)
}

/// What is bought to fit the modules, with its modules, and its price where one is known.
fn hardware(bought: &Purchases) -> Option<Flexible> {
    let rows = bought.hardware.iter().map(|one| {
        let whose: Vec<String> = one.modules.iter().map(|(module, count)| format!("{count} for {module}")).collect();
        let size = one.size.map_or(String::new(), |size| trimmed(size, 1));
        vec![one.words(), size, one.count.to_string(), whose.join(", "), price(one.price)]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let columns = [
        ("hardware", 46.0, false),
        ("size", 18.0, true),
        ("count", 18.0, true),
        ("modules", -1.0, false),
        ("price", 20.0, true),
    ];
    (!rows.is_empty()).then(|| Flexible::new("Hardware", &columns, rows))
}

fn price(price: Option<f64>) -> String {
    price.map_or(String::new(), |price| format!("{price:.2}"))
}

/// Masses of the modules: of their sawn parts, of what is fitted or bought in, and of the contents that they are made for.
fn masses(model: &Model) -> Flexible {
    let row = |name: &str, masses: [f64; 3]| {
        let sum = masses.iter().sum::<f64>();
        std::iter::once(name.to_owned()).chain(masses.into_iter().chain([sum]).map(|mass| trimmed(mass, 1))).collect()
    };
    let of = |module: &Module| [model.parts_mass(module), module.fitted_mass(), module.contents_mass()];
    let each: Vec<[f64; 3]> = model.modules.iter().map(of).collect();
    let mut rows: Vec<Vec<String>> = model.modules.iter().zip(&each).map(|(m, masses)| row(&m.name, *masses)).collect();
    let all = each.iter().fold([0.0; 3], |[a, b, c], [d, e, f]| [a + d, b + e, c + f]);
    if !rows.is_empty() {
        rows.push(row("all modules", all));
    }
    let columns = [
        ("module", -1.0, false),
        ("parts, kg", 30.0, true),
        ("fitted and bought in, kg", 44.0, true),
        ("contents they are made for, kg", 50.0, true),
        ("sum, kg", 30.0, true),
    ];
    Flexible::new("Masses of the modules", &columns, rows)
}

/// The sheets with their numbers; the index itself comes first.
pub(in crate::views) fn index(paper: Paper, held: bool, drafts: &[Draft]) -> Vec<Draft> {
    let pages = |first: usize| {
        let rows = drafts.iter().enumerate().map(|(at, draft)| {
            vec![
                (first + at + 1).to_string(),
                draft.title.clone(),
                draft.document_type.clone(),
                draft.supplement.clone(),
                scale::name(draft.scale),
                draft.paper.name.to_owned(),
            ]
        });
        let columns = [
            ("sheet", 14.0, true),
            ("title", 70.0, false),
            ("kind", 40.0, false),
            ("about", -1.0, false),
            ("scale", 16.0, false),
            ("paper", 14.0, false),
        ];
        let links = drafts.iter().map(|draft| (format!("row-{}", draft.id), format!("sheet-{}", draft.id)));
        let table = Flexible::new("Sheets", &columns, rows.collect()).leading(links);
        pages::sheets(paper, held, "index", "Index of sheets", &[table], 0)
    };
    let count = pages(0).len();
    pages(count)
}
