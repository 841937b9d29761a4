//! Mistakes in the YAML itself, in plain words.

use crate::diagnostic::Diagnostic;
use crate::source::Span;
use granit_parser::ErrorKind;

/// The message for an error of the parser: what is wrong, and what to do.
pub(super) fn diagnostic(kind: &ErrorKind, span: Span) -> Diagnostic {
    let (message, help) =
        quotes_and_brackets(kind).or_else(|| structure(kind)).or_else(|| marks(kind)).unwrap_or_else(|| {
            ("this is not valid YAML".to_owned(), "compare the line with its neighbours: spaces, colons, quotes")
        });
    Diagnostic::new(span, message).label("the file can't be read from here on").help(help)
}

type Words = Option<(String, &'static str)>;

fn quotes_and_brackets(kind: &ErrorKind) -> Words {
    Some(match kind {
        ErrorKind::UnclosedQuotedScalar | ErrorKind::DocumentIndicatorInQuotedScalar => {
            ("this quote is never closed".to_owned(), "add the closing quote on the same line")
        }
        ErrorKind::UnclosedFlowCollection { open } => (
            format!("this `{open}` is never closed"),
            if *open == '[' { "add the missing `]`" } else { "add the missing `}`" },
        ),
        ErrorKind::UnexpectedEofFlowSequence => ("the file ends inside a `[`".to_owned(), "add the missing `]`"),
        ErrorKind::UnexpectedEofFlowMapping | ErrorKind::UnexpectedEofImplicitFlowMapping => {
            ("the file ends inside a `{`".to_owned(), "add the missing `}`")
        }
        ErrorKind::MismatchedFlowCollectionEnd { open, close } => {
            (format!("`{open}` is closed by `{close}`"), "close `[` with `]` and `{` with `}`")
        }
        ErrorKind::MisplacedFlowCollectionEnd => {
            ("this bracket closes nothing".to_owned(), "remove it, or add the one that opens")
        }
        ErrorKind::ExpectedFlowMappingSeparator => {
            ("between `{` and `}` a comma is missing".to_owned(), "write `,` between the entries: `{ a: 1, b: 2 }`")
        }
        ErrorKind::ExpectedFlowSequenceSeparator => {
            ("between `[` and `]` a comma is missing".to_owned(), "write `,` between the values: `[1, 2]`")
        }
        ErrorKind::InvalidColonPlacement | ErrorKind::FlowMappingValueAdjacentCollection => (
            "this colon stands inside brackets where no key can be".to_owned(),
            "is a `]` or `}` missing on a line above?",
        ),
        ErrorKind::InvalidTrailingSingleQuotedScalar | ErrorKind::InvalidTrailingDoubleQuotedScalar => (
            "something follows the closing quote".to_owned(),
            "put the quotes around the whole value; inside single quotes write '' for a quote",
        ),
        ErrorKind::UnknownQuotedScalarEscape
        | ErrorKind::InvalidQuotedScalarHexEscape
        | ErrorKind::InvalidUnicodeEscape
        | ErrorKind::UnpairedLowSurrogate
        | ErrorKind::MissingLowSurrogate => (
            "this text has a `\\` code that does not exist".to_owned(),
            "use single quotes if the text shall have a plain `\\`",
        ),
        _ => return None,
    })
}

fn structure(kind: &ErrorKind) -> Words {
    Some(match kind {
        ErrorKind::MappingValueNotAllowed => (
            "a second `: ` stands in one value".to_owned(),
            "put the value in quotes, or start the key on a line of its own with the right indent",
        ),
        ErrorKind::SimpleKeyExpected | ErrorKind::InvalidSimpleKey => (
            "this line has no `key: value`".to_owned(),
            "write a colon and a space after the key, or indent the line to go on with the value above",
        ),
        ErrorKind::ExpectedBlockMappingKey | ErrorKind::InvalidIndentation => {
            ("this line does not fit under the lines above".to_owned(), "use the same indent as the keys it belongs to")
        }
        ErrorKind::ExpectedBlockSequenceEntry => {
            ("a `- ` is missing in this list".to_owned(), "begin each entry of the list with `- ` at the same indent")
        }
        ErrorKind::BlockSequenceEntryNotAllowed | ErrorKind::BlockEntryInFlowCollection => (
            "a list entry `- ` can't begin here".to_owned(),
            "put the list on the lines below its key, or write it as `[a, b]`",
        ),
        ErrorKind::MappingKeyNotAllowed | ErrorKind::ExpectedNodeContent => {
            ("a value is missing here".to_owned(), "write the value, or remove the key")
        }
        ErrorKind::InvalidBlockScalarIndent
        | ErrorKind::ZeroBlockScalarIndent
        | ErrorKind::InvalidBlockScalarHeader => {
            ("the block of text after `|` or `>` is not indented evenly".to_owned(), "indent all its lines alike")
        }
        ErrorKind::InvalidQuotedScalarIndent | ErrorKind::InvalidFlowScalarIndent => (
            "this value goes on at a smaller indent than its key".to_owned(),
            "keep the value on one line, or indent the lines that follow",
        ),
        ErrorKind::RecursionLimitExceeded => {
            ("lists and maps lie more than 64 deep".to_owned(), "a layout needs far less; check the brackets")
        }
        ErrorKind::ExpectedDocumentStart | ErrorKind::InvalidDocumentEnd => {
            ("something follows the end of the file's content".to_owned(), "one file holds one layout or one symbol")
        }
        _ => return None,
    })
}

fn marks(kind: &ErrorKind) -> Words {
    Some(match kind {
        ErrorKind::TabNotAllowed
        | ErrorKind::TabInBlockIndentation
        | ErrorKind::TabInIndentation
        | ErrorKind::TabInPlainScalar
        | ErrorKind::TabAtBlockScalarStart => {
            ("a tab is used to indent".to_owned(), "YAML indents with spaces only; replace the tab by spaces")
        }
        ErrorKind::UnexpectedCharacter { character } => {
            (format!("a value can't begin with `{character}`"), "put the value in quotes")
        }
        ErrorKind::PlainScalarStartsWithDashFlowIndicator => {
            ("a lone `-` is no value".to_owned(), "write the number after the minus, or put the text in quotes")
        }
        ErrorKind::UnknownAnchor => (
            "this `*name` refers to nothing above".to_owned(),
            "mark the value to repeat with `&name`, or use a parameter; a multiplication needs a left side",
        ),
        ErrorKind::MissingAnchorOrAliasName => {
            ("a name is missing after `&` or `*`".to_owned(), "put the value in quotes if it is meant as text")
        }
        ErrorKind::CommentInterceptedScalar => {
            ("a comment interrupts this value".to_owned(), "move the comment to the end of the value")
        }
        ErrorKind::CommentNotSeparated => {
            ("a comment needs a space before its `#`".to_owned(), "add a space, or put the value in quotes")
        }
        ErrorKind::BomInsideDocument => {
            ("an invisible byte order mark stands here".to_owned(), "remove it; it may only begin a file")
        }
        ErrorKind::InvalidMappingValueWhitespace
        | ErrorKind::InvalidBlockEntryWhitespace
        | ErrorKind::ExpectedWhitespace => {
            ("a space is missing, or a tab stands in its place".to_owned(), "write one space after `:` and after `-`")
        }
        ErrorKind::DirectiveDisallowed => ("`%` lines are not part of the language".to_owned(), "remove the line"),
        ErrorKind::UndeclaredTagHandle
        | ErrorKind::ExpectedTagBang
        | ErrorKind::InvalidTagTerminator
        | ErrorKind::MissingTagUri => {
            ("`!` tags are not part of the language".to_owned(), "put the value in quotes, or write `not` for no")
        }
        _ => return None,
    })
}
