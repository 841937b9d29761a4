#!/usr/bin/env python3
"""Outputs for programs against their schemas, by the Python library `jsonschema`.

    validate_reports.py COMMAND LAYOUT...

COMMAND is the built `boxwright`. The log of `check --format sarif` must follow the schema that OASIS publishes with SARIF
2.1.0 (`sarif-schema-2.1.0.json` beside this script, unchanged); each report of `check --format json`, `model.json` and
`report.json` of every layout that compiles, and the plans of `nest --format json` the schemas that `schema` prints. Spoilt in
any place, they must not; one place in six is tried.
"""

import copy
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

# The bracket without its partner is no regular expression of ECMA-262; the errata of the standard have the other form.
WRONG, RIGHT = "^[a-zA-Z]{2}|^[a-zA-Z]{2}-[a-zA-Z]{2}]?$", "^[a-zA-Z]{2}(-[a-zA-Z]{2})?$"


# Of the spoilt ones the first so many and then one in so many are tried; all of them take eight minutes of a processor.
EACH = 6


def said(*arguments):
    run = subprocess.run(arguments, capture_output=True, text=True, check=False)
    if run.returncode not in (0, 1, 2) or not run.stdout:
        sys.exit(f"{arguments}: {run.returncode} {run.stderr}")
    return json.loads(run.stdout)


def validator(schema):
    kind = jsonschema.validators.validator_for(schema)
    kind.check_schema(schema)
    return kind(schema)


def complain(schema, instance, what):
    errors = [f"{what}: {error.json_path}: {error.message[:200]}" for error in schema.iter_errors(instance)]
    if errors:
        sys.exit("\n".join(errors[:20]))


def spoilt(value, depth=4):
    """A key taken out, or a value made a map that nobody knows, in the first entry of every list."""
    inner = list(value.items()) if isinstance(value, dict) else list(enumerate(value))[:1] if isinstance(value, list) else []
    for key, own in inner:
        if isinstance(value, dict):
            yield f"without {key}", {other: entry for other, entry in value.items() if other != key}
        other = copy.copy(value)
        other[key] = {"zzz": 1}
        yield f"{key} changed", other
        for what, changed in spoilt(own, depth - 1) if depth else ():
            other = copy.copy(value)
            other[key] = changed
            yield f"{key}, {what}", other


def refuses(schema, instance, name):
    """How many spoilt ones were refused, and how many there are."""
    tried, count = 0, 0
    for count, (what, changed) in enumerate(spoilt(instance), 1):
        if count % EACH == 0 or count <= EACH:
            tried += 1
            if schema.is_valid(changed):
                sys.exit(f"the schema of {name} accepts one {what}")
    return tried, count


def built(command, layouts):
    """`model.json` and `report.json` of every layout that compiles."""
    with tempfile.TemporaryDirectory() as out:
        arguments = ["build", "--quiet", "--only", "model-json,report-json", "--out"]
        for at, layout in enumerate(layouts):
            subprocess.run([command, *arguments, f"{out}/{at}", layout], capture_output=True, check=False)
        for path in sorted(pathlib.Path(out).rglob("*.json")):
            yield path.stem, json.loads(path.read_text()), layouts[int(path.relative_to(out).parts[0])]


def main():
    command, layouts = sys.argv[1], sys.argv[2:]
    text = (pathlib.Path(__file__).parent / "sarif-schema-2.1.0.json").read_text()
    sarif = json.loads(text.replace(json.dumps(WRONG), json.dumps(RIGHT)))
    schemas = {name: validator(said(command, "schema", name)) for name in ("findings", "model", "report", "nest")}
    log = said(command, "check", "--format", "sarif", *layouts)
    complain(validator(sarif), log, "sarif")
    reports = said(command, "check", "--format", "json", *layouts)
    for report in reports:
        complain(schemas["findings"], report, report["layout"])
    count, last = len(reports), {"findings": max(reports, key=lambda report: len(report["findings"]))}
    for name, instance, layout in built(command, layouts):
        complain(schemas[name], instance, f"{name} of {layout}")
        count += 1
        if len(json.dumps(instance)) > len(json.dumps(last.get(name))):
            last[name] = instance
    with tempfile.TemporaryDirectory() as folder:
        parts = pathlib.Path(folder) / "parts.csv"
        parts.write_text("number,length,width,count\nside,720,560,4\nlong,9000,500,1\n")
        last["nest"] = said(command, "nest", "--format", "json", str(parts))
        complain(schemas["nest"], last["nest"], "nest")
    broken = [refuses(schemas[name], instance, name) for name, instance in last.items()]
    tried, spoilt_ones = (sum(counts) for counts in zip(*broken))
    results = len(log["runs"][0]["results"])
    print(f"{results} results and {count} reports follow their schemas, {tried} spoilt ones of {spoilt_ones} do not")


main()
