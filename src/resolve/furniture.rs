//! What a symbol makes at its place: from the memo where it was made before, and as a plain block where it can't be made
//! as it is asked for.

use super::frame::Frame;
use super::instance::{Instance, MADE_MOST};
use super::names::Resolver;
use crate::base::content::Key;
use crate::diagnostic::Sink;
use crate::joints::put_together;
use crate::language::expression::Scope;
use crate::language::{SymbolDoc, TALLEST};
use crate::model::{Hardware, MassItem, Part, PoseState, Solid, Together};
use crate::source::Span;

/// What a symbol makes at its place.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Made {
    pub poses: Vec<PoseState>,
    pub parts: Vec<Part>,
    pub together: Together,
    pub hardware: Vec<Hardware>,
    pub masses: Vec<MassItem>,
    /// How many items that was, against the bound.
    items: usize,
}

impl Resolver<'_> {
    /// What a symbol makes at a place with its settings, from the memo if that was made before without an error. `around`
    /// is the key of the roof and the stocks.
    pub fn furniture(&mut self, (at, name): (usize, &str), symbol: &SymbolDoc, frame: &Frame, around: Key) -> Made {
        let settings: Vec<_> = symbol
            .settings
            .keys()
            .map(|setting| Scope::name(&mut Instance::new(self, at, None), setting, Span::default()))
            .collect();
        let tallest = Instance::new(self, at, None).own_size(TALLEST);
        let key = Key::shown(&(symbol.content, name, frame, (settings, tallest), around));
        let (before, memo) = (self.made, self.memo);
        // What has errors is not kept, so that they are reported each time.
        let mut faulty = None;
        let found = memo.find("furniture", key, || {
            self.made = before;
            let count = |sink: &Sink| sink.errors().len() + sink.dropped();
            let errors = count(self.sink);
            let made = self.make_furniture(at, symbol, frame);
            if count(self.sink) == errors && self.made <= MADE_MOST {
                return Some(made);
            }
            faulty = Some(made);
            None
        });
        match (found, faulty) {
            (Some(known), _) if before + known.items <= MADE_MOST => {
                self.made = before + known.items;
                (*known).clone()
            }
            (None, Some(made)) => made,
            _ => {
                self.made = before;
                self.make_furniture(at, symbol, frame)
            }
        }
    }

    fn make_furniture(&mut self, at: usize, symbol: &SymbolDoc, frame: &Frame) -> Made {
        let before = self.made;
        let poses: Vec<PoseState> =
            (0..symbol.poses.len()).filter_map(|pose| self.pose(at, pose, symbol, frame)).collect();
        let mut first = Instance::new(self, at, Some(0));
        let parts = first.parts(symbol, frame);
        let mut hardware = first.hardware(symbol);
        let masses = first.masses(symbol, frame);
        let items = self.made - before;
        let Some(pose) = poses.first() else {
            return Made { poses, parts, together: Together::default(), hardware, masses, items };
        };
        let (parts, bought, together) = put_together(parts, pose, &self.stocks, frame.faces);
        hardware.extend(bought);
        Made { poses, parts, together, hardware, masses, items }
    }

    fn pose(&mut self, at: usize, pose: usize, symbol: &SymbolDoc, frame: &Frame) -> Option<PoseState> {
        let (name, _) = symbol.poses.get_index(pose)?;
        let mut instance = Instance::new(self, at, Some(pose));
        Some(PoseState {
            name: name.clone(),
            solids: instance.solids(symbol, frame),
            spaces: instance.spaces(symbol, frame),
            moves: instance.moves(symbol, frame),
            linework: instance.linework(symbol, frame),
            exports: instance.exports(symbol),
        })
    }

    /// The same for a module that is asked for as its symbol does not take it. Where the symbol then has errors of its own,
    /// they follow from the one that was reported: a plain block is drawn.
    pub fn in_spite(&mut self, (at, name): (usize, &str), symbol: &SymbolDoc, frame: &Frame, around: Key) -> Made {
        let (before, reported, failed) = (self.made, std::mem::take(self.sink), self.failed_again);
        let made = self.furniture((at, name), symbol, frame, around);
        let own = std::mem::replace(self.sink, reported);
        if own.is_empty() {
            return made;
        }
        self.made = before;
        self.failed_again = failed;
        self.put_by.extend(own.errors().iter().cloned());
        block(symbol, frame)
    }

    /// Reports the errors of symbols that were drawn as plain blocks, if something else needs what failed there.
    pub fn bring_up(&mut self) {
        if self.failed_again && !self.sink.bars() {
            std::mem::take(&mut self.put_by).into_iter().for_each(|error| self.sink.push(error));
        }
    }
}

/// A block as large as the module in every pose.
fn block(symbol: &SymbolDoc, frame: &Frame) -> Made {
    let solid = Solid {
        name: "block".to_owned(),
        prism: frame.extent.into(),
        curve: None,
        tags: Vec::new(),
        bought: true,
        open: Vec::new(),
        span: symbol.symbol.span,
    };
    let pose = |name: &String| PoseState {
        name: name.clone(),
        solids: vec![solid.clone()],
        spaces: Vec::new(),
        moves: Vec::new(),
        linework: Vec::new(),
        exports: Vec::new(),
    };
    Made { poses: symbol.poses.keys().map(pose).collect(), ..Made::default() }
}
