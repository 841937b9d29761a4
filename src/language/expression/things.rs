//! The words of house rules that range over things: `module m where m.height > 900`, `count(module m where ...)`.

use super::ast::{Binary, ExprKind, Gather, Over, Ranged, Things};
use super::lexer::{Lexed, Token};
use super::parse::{Parsed, Parser};
use crate::diagnostic::Diagnostic;
use crate::source::Spanned;

impl Gather {
    /// All of them.
    pub(super) const ALL: [Self; 4] = [Self::Count, Self::Sum, Self::Least, Self::Most];

    /// The one that is written so.
    pub(super) fn of(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|gather| gather.name() == name)
    }
}

impl Parser<'_> {
    /// `module m`, up to `most` of them with `and` between, and `where` with a condition; with the depth of its tree.
    pub(super) fn things(&mut self, most: usize, nested: usize) -> Result<(Things, usize), Diagnostic> {
        let mut of = vec![self.ranged()?];
        while self.peek().is_some_and(|token| token.token == Token::Infix(Binary::And)) {
            if of.len() == most {
                let span = self.peek().map_or(self.place.span, |token| self.span(token));
                let error = Diagnostic::new(span, "too many kinds of things");
                return Err(error.help(format!("at most {most} may stand here; conditions come behind `where`")));
            }
            self.at += 1;
            of.push(self.ranged()?);
        }
        let (mut filter, mut depth) = (None, 0);
        if self.peek().is_some_and(|token| is_word(token, "where")) {
            self.at += 1;
            let tree = self.expression(0, nested + 1)?;
            (filter, depth) = (Some(tree.expr), tree.depth);
        }
        Ok((Things { of, filter }, depth))
    }

    fn ranged(&mut self) -> Result<Ranged, Diagnostic> {
        let kind = self.word("a kind of things, as `module`")?;
        let name = self.word(&format!("a name for each {}", kind.value))?;
        if name.value.contains('.') {
            let error = Diagnostic::new(name.span, format!("`{}` can't be a name", name.value));
            return Err(error.help("a name has no points: `module m`"));
        }
        Ok(Ranged { kind, name })
    }

    fn word(&mut self, wanted: &str) -> Result<Spanned<String>, Diagnostic> {
        let help = "write for example `module m where m.height > 900`";
        match self.next() {
            Some(token @ Lexed { token: Token::Name(name), .. }) if name != "where" => {
                Ok(Spanned::new(name.clone(), self.span(token)))
            }
            Some(token) => {
                let message = format!("{wanted} is wanted, and `{}` stands here", self.source(token));
                Err(Diagnostic::new(self.span(token), message).help(help))
            }
            None => {
                let end = self.place.at(0, self.text.len());
                Err(Diagnostic::new(end, format!("{wanted} is missing at the end")).help(help))
            }
        }
    }

    /// `count(module m where ...)` or `sum(module m where ..., m.mass)`, behind its word.
    pub(super) fn over(&mut self, gather: Gather, word: &Lexed, nested: usize) -> Parsed {
        let Some(open) = self.next() else { return self.expression(0, nested) };
        let (things, mut depth) = self.things(1, nested + 1)?;
        let mut figure = None;
        if self.peek().is_some_and(|token| token.token == Token::Comma) {
            self.at += 1;
            let tree = self.expression(0, nested + 1)?;
            depth = depth.max(tree.depth);
            figure = Some(tree.expr);
        }
        let close = self.close(open)?;
        let span = self.place.at(word.from, close.to);
        let name = gather.name();
        let wrong = match (gather, &figure) {
            (Gather::Count, Some(_)) => Some((format!("`{name}` counts things and takes no figure"), "")),
            (Gather::Count, None) | (_, Some(_)) => None,
            (_, None) => Some((format!("`{name}` takes things and a figure"), ", m.mass")),
        };
        if let Some((message, figure)) = wrong {
            let form = format!("write `{name}(module m where m.height > 900{figure})`");
            return Err(Diagnostic::new(span, message).help(form));
        }
        self.tree(ExprKind::Over(gather, Box::new(Over { things, figure })), span, depth + 1)
    }
}

fn is_word(token: &Lexed, word: &str) -> bool {
    matches!(&token.token, Token::Name(name) if name == word)
}
