//! Layouts that are taken mirrored or turned: positions of the base are measured from the opposite wall, and words and
//! keys for sides change places. [`Turn`] says what the expressions mean.

use super::node::{Entry, Map, Node, NodeValue};
use super::turn::Turn;
use std::collections::BTreeSet;

/// Names of openings in the front and rear walls, whose `centre` lies across the box.
type Across = BTreeSet<String>;

impl Turn {
    /// The tree of a layout as it is meant now.
    pub fn layout(self, root: &mut Node) {
        let across = across(root);
        let NodeValue::Map(map) = &mut root.value else { return };
        for (key, entry) in map.iter_mut() {
            let node = &mut entry.node;
            // The vehicle stays as it is: the box on it is another.
            if matches!(key.as_str(), "vehicle" | "sheets") {
                continue;
            }
            all(self, node);
            match key.as_str() {
                "box" => self.room(node),
                "openings" => each(node, |name, map| self.opening(map, across.contains(name))),
                "zones" => each(node, |_, map| self.edges(map)),
                "modules" => each(node, |_, map| self.module(map)),
                "loads" => each(node, |_, map| self.load(map)),
                "services" => self.services(node),
                _ => {}
            }
        }
        if let Some(sections) = entry(map, "sheets").and_then(|sheets| inner(sheets, "sections")) {
            self.sections(sections);
        }
    }

    fn sections(self, sections: &mut Node) {
        all(self, sections);
        let NodeValue::Map(map) = &mut sections.value else { return };
        if let Some(along) = entry(map, "along") {
            self.across_box(along);
        }
        if let Some(across) = entry(map, "across") {
            self.along_box(across);
        }
    }

    fn along_box(self, node: &mut Node) {
        node.turn.from_end ^= self.ends;
    }

    fn across_box(self, node: &mut Node) {
        node.turn.from_side ^= self.sides;
    }

    /// A point `[x, y]` or `[x, y, z]`.
    fn point(self, node: &mut Node) {
        let NodeValue::List(nodes) = &mut node.value else { return };
        let mut nodes = nodes.iter_mut();
        if let Some(x) = nodes.next() {
            self.along_box(x);
        }
        if let Some(y) = nodes.next() {
            self.across_box(y);
        }
    }

    /// Edges among other keys: those of one end change places with those of the other.
    fn edges(self, map: &mut Map) {
        for (key, entry) in map.iter_mut() {
            match key.as_str() {
                "front" | "rear" | "centre-x" => self.along_box(&mut entry.node),
                "left" | "right" | "centre-y" => self.across_box(&mut entry.node),
                _ => {}
            }
        }
        if self.ends {
            exchange(map, "front", "rear");
        }
        if self.sides {
            exchange(map, "left", "right");
        }
    }

    /// A word for a side, as the text or within it: `left`, `rear-floor`.
    fn word(self, node: &mut Node) {
        let NodeValue::Text(text, _) = &mut node.value else { return };
        let parts: Vec<&str> = text.split('-').map(|part| self.side(part)).collect();
        *text = parts.join("-");
    }

    fn side(self, word: &str) -> &str {
        match word {
            "left" if self.sides => "right",
            "right" if self.sides => "left",
            "front" if self.ends => "rear",
            "rear" if self.ends => "front",
            same => same,
        }
    }

    fn room(self, node: &mut Node) {
        let NodeValue::Map(room) = &mut node.value else { return };
        if let Some(Node { value: NodeValue::List(points), .. }) = entry(room, "roof").filter(|_| self.sides) {
            points.reverse();
            for point in points {
                let NodeValue::List(figures) = &mut point.value else { continue };
                if let Some(y) = figures.first_mut() {
                    self.across_box(y);
                }
            }
        }
        if let Some(cutaways) = entry(room, "cutaways") {
            each(cutaways, |_, map| {
                if let Some(edge) = entry(map, "edge") {
                    self.word(edge);
                }
                if let Some(Node { value: NodeValue::Map(faces), .. }) = entry(map, "box") {
                    self.edges(faces);
                }
            });
        }
        if let Some(Node { value: NodeValue::Map(walls), .. }) = entry(room, "walls") {
            if self.sides {
                exchange(walls, "left", "right");
            }
            if self.ends {
                exchange(walls, "front", "rear");
            }
        }
    }

    fn opening(self, map: &mut Map, across: bool) {
        let wall = entry(map, "wall").map(|wall| (text(wall), wall.span));
        if wall.is_some() {
            hinge_of_door(map, across);
        }
        for key in ["wall", "hinge", "slides"] {
            if let Some(word) = entry(map, key) {
                self.word(word);
            }
        }
        match entry(map, "centre") {
            Some(centre) if matches!(centre.value, NodeValue::List(_)) => self.point(centre),
            Some(centre) if across => self.across_box(centre),
            Some(centre) => self.along_box(centre),
            None => {}
        }
        self.edges(map);
    }

    fn module(self, map: &mut Map) {
        if let Some(place) = entry(map, "place") {
            let NodeValue::Map(edges) = &mut place.value else { return };
            self.edges(edges);
        }
        match entry(map, "faces") {
            Some(faces) => self.word(faces),
            None if self.ends => put(map, "faces", NodeValue::Text("front".to_owned(), false)),
            None => {}
        }
        if self.ends == self.sides {
            return;
        }
        match entry(map, "mirror") {
            Some(mirror) => not(mirror),
            None => put(map, "mirror", NodeValue::Bool(true)),
        }
    }

    fn load(self, map: &mut Map) {
        if let Some(at) = entry(map, "at") {
            self.point(at);
        }
        if let Some(Node { value: NodeValue::Map(edges), .. }) = entry(map, "place") {
            self.edges(edges);
        }
    }

    fn services(self, node: &mut Node) {
        for kind in ["cables", "wastes"] {
            let Some(runs) = inner(node, kind) else { continue };
            each(runs, |_, map| {
                for key in ["from", "to"] {
                    if let Some(end) = entry(map, key) {
                        self.point(end);
                    }
                }
                if let Some(Node { value: NodeValue::List(points), .. }) = entry(map, "via") {
                    points.iter_mut().for_each(|point| self.point(point));
                }
            });
        }
    }
}

/// A node and all in it: what names in it mean.
fn all(turn: Turn, node: &mut Node) {
    node.turn.ends ^= turn.ends;
    node.turn.sides ^= turn.sides;
    match &mut node.value {
        NodeValue::Map(map) => map.values_mut().for_each(|entry| all(turn, &mut entry.node)),
        NodeValue::List(nodes) => nodes.iter_mut().for_each(|node| all(turn, node)),
        _ => {}
    }
}

fn entry<'n>(map: &'n mut Map, key: &str) -> Option<&'n mut Node> {
    map.get_mut(key).map(|entry| &mut entry.node)
}

fn inner<'n>(node: &'n mut Node, key: &str) -> Option<&'n mut Node> {
    match &mut node.value {
        NodeValue::Map(map) => entry(map, key),
        _ => None,
    }
}

fn each(node: &mut Node, mut turn: impl FnMut(&str, &mut Map)) {
    let NodeValue::Map(entries) = &mut node.value else { return };
    for (name, entry) in entries.iter_mut() {
        if let NodeValue::Map(map) = &mut entry.node.value {
            turn(name, map);
        }
    }
}

/// Two keys of a map change places.
fn exchange(map: &mut Map, one: &str, other: &str) {
    let taken = std::mem::take(map);
    let swapped = |key: String| match key {
        key if key == one => other.to_owned(),
        key if key == other => one.to_owned(),
        key => key,
    };
    *map = taken.into_iter().map(|(key, entry)| (swapped(key), entry)).collect();
}

/// A key more, said by what is there already.
fn put(map: &mut Map, key: &str, value: NodeValue) {
    let Some(span) = map.values().next().map(|entry| entry.key_span) else { return };
    map.insert(key.to_owned(), Entry { key_span: span, node: Node::new(value, span) });
}

fn text(node: &Node) -> &str {
    match &node.value {
        NodeValue::Text(text, _) => text,
        _ => "",
    }
}

fn not(node: &mut Node) {
    let is = match &node.value {
        NodeValue::Bool(is) => *is,
        NodeValue::Text(word, _) if word == "yes" || word == "no" => word == "yes",
        _ => return,
    };
    node.value = NodeValue::Bool(!is);
}

/// A door that says no hinge hangs at the front or left end; turned, it has to say the other.
fn hinge_of_door(map: &mut Map, across: bool) {
    let door = entry(map, "kind").is_some_and(|kind| text(kind) == "door");
    if door && !map.contains_key("hinge") {
        put(map, "hinge", NodeValue::Text(if across { "left" } else { "front" }.to_owned(), false));
    }
}

/// Openings in the front and rear walls.
fn across(root: &Node) -> Across {
    let openings = root.as_map().and_then(|map| map.get("openings")).and_then(|entry| entry.node.as_map());
    let across = |entry: &Entry| entry.node.text_of("wall").is_some_and(|wall| matches!(wall.value, "front" | "rear"));
    let all = openings.into_iter().flatten();
    all.filter(|(_, entry)| across(entry)).map(|(name, _)| name.clone()).collect()
}
