//! Collects the items of one view by layer.

use crate::drawing::{Group, Item, Layer, LayerKind, View, text_box};
use crate::views::kit::clip::clip;
use crate::views::kit::words::plain;
use kurbo::{Affine, Rect, Shape, Size, Vec2};
use std::collections::{BTreeMap, BTreeSet};

/// Items of one view in the making.
#[derive(Debug, Clone, Default)]
pub(in crate::views) struct Canvas {
    layers: BTreeMap<LayerKind, Vec<Item>>,
    ids: BTreeSet<(LayerKind, String)>,
    /// The largest that is of use.
    most: Option<Size>,
}

impl Canvas {
    /// A canvas for a try: what becomes larger than this need not be drawn to its end.
    pub fn within(most: Size) -> Self {
        Self { most: Some(most), ..Self::default() }
    }

    /// Whether what is drawn already is larger than is of use.
    pub fn is_too_large(&self) -> bool {
        let too_large = |most: Size| self.bounds().is_some_and(|b| b.width() > most.width || b.height() > most.height);
        self.most.is_some_and(too_large)
    }

    /// Bounds of all that is drawn.
    pub fn bounds(&self) -> Option<Rect> {
        let mut bounds = None;
        self.items().for_each(|item| grow(item, &mut bounds));
        bounds
    }

    /// Adds an item on top of a layer.
    pub fn put(&mut self, kind: LayerKind, item: Item) {
        self.layers.entry(kind).or_default().push(item);
    }

    /// Adds items under a name; nothing for no items. A name that the layer has already gets a number.
    pub fn group(&mut self, kind: LayerKind, name: &str, title: &str, items: Vec<Item>) {
        self.add(kind, (name, title), items, None);
    }

    /// The same, with a link to the group of another name.
    pub fn linked(&mut self, kind: LayerKind, (name, title): (&str, &str), items: Vec<Item>, to: &str) {
        self.add(kind, (name, title), items, Some(plain(to)));
    }

    fn add(&mut self, kind: LayerKind, (name, title): (&str, &str), items: Vec<Item>, link: Option<String>) {
        if items.is_empty() {
            return;
        }
        let id = self.free_id(kind, name);
        self.put(kind, Item::Group(Group { id, title: title.to_owned(), items, link }));
    }

    fn free_id(&mut self, kind: LayerKind, name: &str) -> String {
        let plain = plain(name);
        let mut id = plain.clone();
        let mut count = 1_u32;
        while !self.ids.insert((kind, id.clone())) {
            count += 1;
            id = format!("{plain}-{count}");
        }
        id
    }

    /// Cuts everything off at a window.
    pub fn clip(&mut self, window: Rect) {
        for items in self.layers.values_mut() {
            *items = std::mem::take(items).into_iter().filter_map(|item| clip(item, window)).collect();
        }
    }

    /// The items of one layer.
    pub fn layer(&self, kind: LayerKind) -> impl Iterator<Item = &Item> {
        self.layers.get(&kind).into_iter().flatten()
    }

    /// Moves everything on the paper.
    pub fn move_by(&mut self, by: Vec2) {
        self.layers.values_mut().flatten().for_each(|item| move_item(item, by));
    }

    /// All items, back to front.
    pub fn items(&self) -> impl Iterator<Item = &Item> {
        self.layers.values().flatten()
    }

    /// The finished view.
    pub fn view(self, id: &str, title: &str, scale: Option<f64>) -> View {
        let layers = self.layers.into_iter().map(|(kind, items)| Layer { kind, items }).collect();
        View { id: id.to_owned(), title: title.to_owned(), scale, layers }
    }
}

fn grow(item: &Item, bounds: &mut Option<Rect>) {
    let mut add = |rect: Rect| *bounds = Some(bounds.map_or(rect, |known| known.union(rect)));
    match item {
        Item::Path(path) => add(path.shape.bounding_box()),
        Item::Text(text) => add(text_box(text)),
        Item::Group(group) => group.items.iter().for_each(|item| grow(item, bounds)),
    }
}

fn move_item(item: &mut Item, by: Vec2) {
    match item {
        Item::Path(path) => path.shape.apply_affine(Affine::translate(by)),
        Item::Text(text) => text.at += by,
        Item::Group(group) => group.items.iter_mut().for_each(|item| move_item(item, by)),
    }
}
