//! Tests of the expression parser: trees worked out by hand, places, messages, and random trees printed and read back.

use super::*;
use crate::source::FileId;
use proptest::prelude::*;

fn span(text: &str) -> Span {
    Span { file: FileId(0), start: 100, end: 100 + u32::try_from(text.len()).unwrap() }
}

fn sign(operator: Binary) -> &'static str {
    match operator {
        Binary::Add => "+",
        Binary::Subtract => "-",
        Binary::Multiply => "*",
        Binary::Divide => "/",
        Binary::Equal => "==",
        Binary::NotEqual => "!=",
        Binary::Less => "<",
        Binary::LessOrEqual => "<=",
        Binary::Greater => ">",
        Binary::GreaterOrEqual => ">=",
        Binary::And => "and",
        Binary::Or => "or",
    }
}

/// Every operation in brackets.
fn print(expr: &Expr) -> String {
    match &expr.kind {
        ExprKind::Number(value) => format!("{value}"),
        ExprKind::Bool(value) => format!("{value}"),
        ExprKind::Name(name) => name.clone(),
        ExprKind::Unary(Unary::Minus, inner) => format!("(- {})", print(inner)),
        ExprKind::Unary(Unary::Not, inner) => format!("(not {})", print(inner)),
        ExprKind::Binary(operator, left, right) => format!("({} {} {})", print(left), sign(*operator), print(right)),
        ExprKind::Call(function, arguments) => {
            let (name, ..) = FUNCTIONS.iter().chain(&OF_RULES).find(|(_, known, ..)| known == function).unwrap();
            format!("{name}({})", arguments.iter().map(print).collect::<Vec<_>>().join(", "))
        }
        ExprKind::Over(gather, over) => {
            let of = over.things.of.first().unwrap();
            let filter =
                over.things.filter.as_ref().map_or(String::new(), |filter| format!(" where {}", print(filter)));
            let figure = over.figure.as_ref().map_or(String::new(), |figure| format!(", {}", print(figure)));
            format!("{}({} {}{filter}{figure})", gather.name(), of.kind.value, of.name.value)
        }
    }
}

fn tree(text: &str) -> String {
    print(&parse(text, span(text)).unwrap_or_else(|error| panic!("{text}: {error:?}")))
}

#[test]
fn rules_range_over_things() {
    let text = "count(module m where m.run > 600 and tagged(m, hob)) + sum(part p, p.mass) >= 2";
    let wanted = "((count(module m where ((m.run > 600) and tagged(m, hob))) + sum(part p, p.mass)) >= 2)";
    assert_eq!(print(&parse_rule(text, span(text)).unwrap()), wanted);
    let text = "module a and opening b where a.run > b.run";
    let things = parse_things(text, span(text)).unwrap();
    assert_eq!(things.of.iter().map(|of| of.name.value.as_str()).collect::<Vec<_>>(), ["a", "b"]);
    assert_eq!(things.filter.as_ref().map(print).as_deref(), Some("(a.run > b.run)"));
    assert!(error("count(a)").0.contains("there is no function `count`"));
}

/// Message and the piece of the text it points at.
fn error(text: &str) -> (String, String) {
    let error = parse(text, span(text)).unwrap_err();
    assert!(error.help.is_some(), "{error:?}");
    let piece = &text[error.span.start as usize - 100..error.span.end as usize - 100];
    (error.message, piece.to_owned())
}

#[test]
fn precedence() {
    for (text, wanted) in [
        ("1 + 2 * 3", "(1 + (2 * 3))"),
        ("1 - 2 - 3", "((1 - 2) - 3)"),
        ("8 / 4 / 2", "((8 / 4) / 2)"),
        ("8 / 4 * 2", "((8 / 4) * 2)"),
        ("(1 + 2) * 3", "((1 + 2) * 3)"),
        ("-a * b", "((- a) * b)"),
        ("a * -b", "(a * (- b))"),
        ("- -a", "(- (- a))"),
        ("a - -1", "(a - (- 1))"),
        ("not a == b", "(not (a == b))"),
        ("not a and b", "((not a) and b)"),
        ("a or b and c", "(a or (b and c))"),
        ("a and b or c", "((a and b) or c)"),
        ("a + 1 < b * 2 and c != none", "(((a + 1) < (b * 2)) and (c != none))"),
        ("if(a > 1, b, c + 1)", "if((a > 1), b, (c + 1))"),
        ("max(1, 2, -3)", "max(1, 2, (- 3))"),
        ("floor + floor(2.5)", "(floor + floor(2.5))"),
        (
            "hypot(a, b) + roof(box.width / 2) + ceiling(u, v)",
            "((hypot(a, b) + roof((box.width / 2))) + ceiling(u, v))",
        ),
        ("true or false", "(true or false)"),
    ] {
        assert_eq!(tree(text), wanted);
    }
}

#[test]
fn hyphens_in_names_and_minus() {
    for (text, wanted) in [
        ("boot-left.front + 1", "(boot-left.front + 1)"),
        ("glass-foam-40", "glass-foam-40"),
        ("run - 60", "(run - 60)"),
        ("run -60", "(run - 60)"),
        ("run- 60", "(run - 60)"),
        ("run-60", "run-60"),
        ("3-1", "(3 - 1)"),
        ("(a)-(b)", "(a - b)"),
        ("2-bay", "(2 - bay)"),
        ("küche.links", "küche.links"),
        ("t.back-2", "t.back-2"),
    ] {
        assert_eq!(tree(text), wanted);
    }
}

#[test]
fn numbers_and_units() {
    // 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (international yard and pound agreement, 1959).
    for (text, wanted) in [
        ("60 in", 1524.0),
        ("60in", 1524.0),
        ("1.2 m", 1200.0),
        ("2 ft", 609.6),
        ("5 cm", 50.0),
        ("20 mm", 20.0),
        (".5", 0.5),
        ("1e3", 1000.0),
        ("2.5E-1", 0.25),
    ] {
        let ExprKind::Number(value) = parse(text, span(text)).unwrap().kind else { panic!("{text}") };
        assert!((value - wanted).abs() < 1e-9, "{text} gave {value}");
    }
    assert_eq!(tree("2 m + 60 in - x"), "((2000 + 1524) - x)");
    assert_eq!(tree("1 m and 2"), "(1000 and 2)");
}

#[test]
fn pieces_keep_their_places() {
    let text = "é.rear + max(20, bay * 2)";
    let expr = parse(text, span(text)).unwrap();
    let piece = |expr: &Expr| text[expr.span.start as usize - 100..expr.span.end as usize - 100].to_owned();
    assert_eq!(piece(&expr), text);
    let ExprKind::Binary(_, left, right) = &expr.kind else { panic!() };
    assert_eq!((piece(left).as_str(), piece(right).as_str()), ("é.rear", "max(20, bay * 2)"));
    let ExprKind::Call(_, arguments) = &right.kind else { panic!() };
    assert_eq!(piece(&arguments[1]), "bay * 2");
    let whole = Span { file: FileId(0), start: 3, end: 90 };
    assert_eq!(parse("a + ", whole).unwrap_err().span, whole);
}

#[test]
fn mistakes() {
    for (text, message, place) in [
        ("bench +", "a value is missing after `+`", "+"),
        ("* 3", "a value is missing before `*`", "*"),
        ("a + ) * 2", "a value is missing after `+`", "+"),
        ("a * ()", "nothing stands between these brackets", "()"),
        ("(a + 1", "this `(` is never closed", "("),
        ("a + 1)", "this `)` closes nothing", ")"),
        ("1,5", "a comma can't stand here", ","),
        ("(1,5)", "a comma can't stand here", ","),
        ("2 bay", "an operator is missing before `bay`", "bay"),
        ("a (2)", "there is no function `a`", "a"),
        ("mx(1, 2)", "there is no function `mx`", "mx"),
        ("if(a, b)", "`if` takes 3 values, and 2 are given", "if(a, b)"),
        ("sqrt()", "`sqrt` takes 1 value, and 0 are given", "sqrt()"),
        ("min()", "`min` takes at least 1 value, and 0 are given", "min()"),
        ("max(1, )", "a value is missing after `,`", ","),
        ("a = b", "a single `=` does not compare", "="),
        ("a && b", "`&&` is not a sign of an expression", "&&"),
        ("a ** 2", "`**` is not a sign of an expression", "**"),
        ("a < b < c", "a comparison follows a comparison", "<"),
        ("60 parsec", "an operator is missing before `parsec`", "parsec"),
        ("60inch", "there is no unit `inch`", "inch"),
        ("010 + 1", "the number `010` begins with a zero", "010"),
        ("1_000", "a number has a `_` in it", "_"),
        ("1e999", "the number `1e999` is too large", "1e999"),
        ("2 × a", "`×` is not a sign of an expression", "×"),
        ("if a", "after `if` a `(` is missing", "if"),
        ("not", "a value is missing after `not`", "not"),
        ("", "a value is missing", ""),
        ("  ", "a value is missing", "  "),
    ] {
        assert_eq!(error(text), (message.to_owned(), place.to_owned()), "{text:?}");
    }
    assert_eq!(parse("mx(1)", span("mx(1)")).unwrap_err().help.unwrap(), "did you mean `max`?");
}

#[test]
fn bounds() {
    let long = "1 + ".repeat(249) + "1";
    assert!(error(&long).0.contains("64 operations deep"));
    assert!(parse(&("1 + ".repeat(60) + "1"), span("")).is_ok());
    assert!(error(&"(".repeat(900)).0.contains("64 operations deep"));
    assert!(error(&"-".repeat(900)).0.contains("64 operations deep"));
    assert!(error(&"not ".repeat(200)).0.contains("64 operations deep"));
    assert!(error(&"abs(".repeat(200)).0.contains("64 operations deep"));
    assert!(error(&"1".repeat(1001)).0.contains("1000 characters"));
}

#[test]
fn names() {
    for good in ["a", "boot-left", "x9", "küche", "glass-foam-40"] {
        assert!(is_name(good), "{good}");
    }
    for bad in ["", "9x", "-a", "a-", "a_b", "a.b", "a b", "a--b"] {
        assert!(!is_name(bad), "{bad}");
    }
}

fn any_expr() -> impl Strategy<Value = Expr> {
    let leaf = prop_oneof![
        (0_u32..100_000).prop_map(|value| ExprKind::Number(f64::from(value) / 16.0)),
        any::<bool>().prop_map(ExprKind::Bool),
        "[a-eg-hj-z][a-z0-9]{0,2}(-[0-9a-z]{1,2})?(\\.[a-z]{2})?"
            .prop_filter("reserved", |name| !matches!(name.as_str(), "or" | "and" | "not" | "mm" | "cm" | "m" | "ft"))
            .prop_map(ExprKind::Name),
    ];
    let tree = leaf.prop_map(|kind| Expr { kind, span: Span::default() });
    tree.prop_recursive(5, 40, 3, |inner| {
        let operator = prop::sample::select(vec![
            Binary::Add,
            Binary::Subtract,
            Binary::Multiply,
            Binary::Divide,
            Binary::Equal,
            Binary::NotEqual,
            Binary::Less,
            Binary::LessOrEqual,
            Binary::Greater,
            Binary::GreaterOrEqual,
            Binary::And,
            Binary::Or,
        ]);
        prop_oneof![
            (operator, inner.clone(), inner.clone()).prop_map(|(operator, a, b)| ExprKind::Binary(
                operator,
                Box::new(a),
                Box::new(b)
            )),
            inner.clone().prop_map(|a| ExprKind::Unary(Unary::Minus, Box::new(a))),
            inner.clone().prop_map(|a| ExprKind::Unary(Unary::Not, Box::new(a))),
            prop::collection::vec(inner.clone(), 1..4).prop_map(|list| ExprKind::Call(Function::Max, list)),
            prop::collection::vec(inner, 3..4).prop_map(|list| ExprKind::Call(Function::If, list)),
        ]
        .prop_map(|kind| Expr { kind, span: Span::default() })
    })
}

proptest! {
    #[test]
    fn printed_trees_read_back(expr in any_expr()) {
        let text = print(&expr);
        prop_assert_eq!(tree(&text), text);
    }

    #[test]
    fn any_text_is_read_or_refused_inside_its_span(text in prop_oneof![
        any::<String>(),
        "[-a-c0-9.+*/()<>=!, é]{0,30}",
        "(not |-|\\(|max\\(|if\\(|a|1 in|, |\\)| \\+ | and | < ){0,20}",
    ]) {
        if let Err(error) = parse(&text, span(&text)) {
            prop_assert!(error.span.start >= 100 && error.span.end as usize <= 100 + text.len());
            let piece = text.get(error.span.start as usize - 100..error.span.end as usize - 100);
            prop_assert!(piece.is_some(), "{:?}", error);
        }
    }
}
