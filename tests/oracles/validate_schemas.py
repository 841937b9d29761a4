#!/usr/bin/env python3
"""The schemas of the languages against the compiler, by the Python libraries `jsonschema` and `PyYAML`.

    validate_schemas.py COMMAND

COMMAND is the built `boxwright`; run it in the project's root. What compiles must follow its schema: the layouts of `layouts/`
and `tests/suite/`, all symbols, recipes, themes and files of rules. What the compiler refuses for an unknown key, a missing key, a wrong type
or a wrong word must be refused by the schema, too. That is tried on files that have every key (`tests/oracles/schemas/`), of
which each value in turn is taken out or made something else. What the schemas can't see is counted and printed.
"""

import collections
import copy
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import jsonschema
import yaml

EVERY = pathlib.Path("tests/oracles/schemas")
# Labels and messages of errors that speak of keys, types and words.
SHAPE = re.compile(
    r"not known here|is missing here|this is (nothing|a yes or no|a number|a text|a list|a map of keys)$"
    r"|has no value|can't be `|version of (the language|themes|house rules) is not known"
)
# A limit of a check that there is none of: the error keeps a layout from being checked at length when only its shape is asked.
STOP = {"no-such-check": {"least": 1, "because": "stop here"}}
# Said of an end that is no expression as well, of words that another entry declares, and of a word that YAML takes for a
# yes: what these are about cannot be told from them.
UNSURE = re.compile(r"`slope` needs two ends|unknown (tag|purpose) `|`tags` needs a list")
# One change in so many is tried; all of them take four minutes of a processor.
EACH = 4
# What each value is made in turn.
OTHERS = [None, True, 7, "?", [], {}, [1, 2], {"zzz": 1}]


class Core(yaml.SafeLoader):
    """Plain scalars after the core schema of YAML 1.2, as the compiler reads them."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in [
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?(0|[1-9][0-9]*)", list("-+0123456789")),
    ("float", r"[-+]?((0|[1-9][0-9]*)?\.[0-9]+|(0|[1-9][0-9]*)\.?)([eE][-+]?[0-9]+)?", list("-+0123456789.")),
]:
    Core.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), first)


def kind_of(document):
    for key, kind in (("symbol", "symbol"), ("recipe", "recipe"), ("theme", "theme"), ("house-rules", "rules")):
        if isinstance(document, dict) and key in document:
            return kind
    return "layout"


def load(path):
    """The document of a file, or None where it is no YAML that could be held against a schema."""
    try:
        return yaml.load(path.read_text(), Core)
    except (yaml.YAMLError, UnicodeDecodeError, ValueError):
        return None


class Compiler:
    def __init__(self, command):
        self.command = command
        self.schemas = {kind: self.schema(kind) for kind in ("layout", "symbol", "recipe", "theme", "rules")}

    def schema(self, kind):
        run = subprocess.run([self.command, "schema", kind], capture_output=True, text=True, check=True)
        schema = json.loads(run.stdout)
        jsonschema.Draft202012Validator.check_schema(schema)
        return jsonschema.Draft202012Validator(schema)

    def follows(self, document):
        return self.schemas[kind_of(document)].is_valid(document)

    def errors(self, layouts):
        """The errors of each layout, as (file, message, label), with None where a report has none to place."""
        found = []
        for at in range(0, len(layouts), 200):
            some = [str(path) for path in layouts[at : at + 200]]
            run = subprocess.run([self.command, "check", "--format", "json", *some], capture_output=True, text=True)
            if run.returncode not in (0, 1, 2) or not run.stdout:
                sys.exit(f"check: {run.returncode} {run.stderr}")
            for report in json.loads(run.stdout):
                place = lambda error: pathlib.PurePath(error["place"]["file"]).name if error["place"] else None
                found.append([(place(error), error["message"], error["label"]) for error in report["errors"]])
        return found


def places(document, way=()):
    """Every value of a document by the way to it, of lists of plain values the first."""
    yield way
    inner = document.items() if isinstance(document, dict) else enumerate(document) if isinstance(document, list) else ()
    plain = isinstance(document, list) and not any(isinstance(value, (dict, list)) for value in document)
    for key, value in list(inner)[: 1 if plain else None]:
        yield from places(value, (*way, key))


def changed(document):
    """The document with each value in turn taken out, made something else, or given a key that nobody knows."""
    for way in places(document):
        if not way:
            continue
        for other in ["taken out", "another key", *OTHERS]:
            new = copy.deepcopy(document)
            owner = new
            for step in way[:-1]:
                owner = owner[step]
            value = owner[way[-1]]
            if other == "taken out":
                del owner[way[-1]]
            elif other == "another key":
                if not isinstance(value, dict):
                    continue
                value["zzz"] = 1
            elif value == other and type(value) is type(other):
                continue
            else:
                owner[way[-1]] = other
            yield f"{'.'.join(map(str, way))}: {other!r}", way, new


def stopped(document, way=()):
    """The document with one more error, away from the place that was changed."""
    if way[:1] == ("limits",):
        return {**document, "accepted": [{"check": "no-such-check", "of": "a", "because": "stop here"}]}
    limits = document.get("limits")
    return {**document, "limits": {**(limits if isinstance(limits, dict) else {}), **STOP}}


def judge(what, document, errors, compiler, unseen):
    """One complaint, or none. `errors` are those of the file itself."""
    follows = compiler.follows(document)
    shape = [message for _, message, label in errors if SHAPE.search(label) or SHAPE.search(message)]
    shape = [message for message in shape if not UNSURE.search(message)]
    # A layout that extends another may have the rest from there, so its schema can't say what is missing.
    if kind_of(document) == "layout" and isinstance(document, dict) and "extends" in document:
        shape = [message for message in shape if " has no `" not in message]
    if not errors and not follows and str(what).endswith((": True", ": 7")):
        # Nobody has worked the value out: its entry is not made, or a setting of a recipe is given by the piece.
        unseen["a yes or no, or a figure, in the place of the other, where nothing works it out"] += 1
        return None
    if not errors and not follows:
        error = next(compiler.schemas[kind_of(document)].iter_errors(document))
        return f"{what}: compiles, but the schema says {error.json_path}: {error.message[:160]}"
    if shape and follows:
        return f"{what}: the schema does not see: {shape[0]}"
    if errors and follows:
        unseen[re.sub(r"`[^`]*`|[-\d.]+", "…", errors[0][1])] += 1
    return None


def written(compiler):
    """All files that are there."""
    complaints, unseen = [], collections.Counter()
    layouts = sorted([*pathlib.Path("layouts").glob("*.yaml"), *pathlib.Path("tests/suite").glob("*.yaml")])
    layouts += [EVERY / "layout.yaml", EVERY / "variant.yaml"]
    for path, errors in zip(layouts, compiler.errors(layouts)):
        document = load(path)
        if document is not None:
            complaints.append(judge(path, document, [e for e in errors if e[0] in (path.name, None)], compiler, unseen))
            if errors and not any(error[0] == path.name for error in errors):
                complaints.pop()
    parts = [*pathlib.Path("symbols").rglob("*.yaml"), *pathlib.Path("src/language/theme").glob("*.yaml")]
    parts += [path for path in EVERY.rglob("*.yaml")]
    for path in parts:
        if not compiler.follows(load(path)):
            complaints.append(f"{path}: does not follow its schema")
    print(f"{len(layouts)} layouts and {len(parts)} symbols, recipes, themes and files of rules held against their schemas")
    return complaints, unseen


def spoilt(compiler, name):
    """A file that has every key, spoilt in each place."""
    complaints, unseen, refused = [], collections.Counter(), 0
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        cases = list(changed(load(EVERY / name)))[::EACH]
        layouts = []
        for at, (_, way, document) in enumerate(cases):
            own = folder / str(at)
            shutil.copytree(EVERY, own)
            layout = own / ("variant.yaml" if name == "variant.yaml" else "layout.yaml")
            if layout.name == name:
                layout.write_text(json.dumps(stopped(document, way)))
            else:
                (own / name).write_text(json.dumps(document))
                layout.write_text(json.dumps(stopped(load(layout))))
            layouts.append(layout)
        file = pathlib.PurePath(name).name
        for (what, _, document), errors in zip(cases, compiler.errors(layouts)):
            errors = [error for error in errors if "no-such-check" not in error[1]]
            own = [error for error in errors if error[0] in (file, None)]
            if errors and not own:
                continue
            refused += bool(errors)
            complaints.append(judge(f"{name}: {what}", document, own, compiler, unseen))
    print(f"{name}: {len(cases)} changes, {refused} refused by the compiler")
    return complaints, unseen


def main():
    compiler = Compiler(sys.argv[1])
    names = ["layout.yaml", "variant.yaml", "symbols/every/thing.yaml", "symbols/recipes/every.yaml", "theme.yaml", "rules.yaml"]
    complaints, unseen = written(compiler)
    for name in names:
        more, others = spoilt(compiler, name)
        complaints += more
        unseen += others
    complaints = [complaint for complaint in complaints if complaint]
    if complaints:
        sys.exit("\n".join(complaints[:60]) + f"\n{len(complaints)} in all")
    print("refused by the compiler alone, as no schema sees it:")
    for message, count in unseen.most_common():
        print(f"  {count:5} {message}")


main()
