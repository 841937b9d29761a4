#!/usr/bin/env python3
"""Reports for programs against their schemas, by the Python library `jsonschema`.

    validate_reports.py COMMAND LAYOUT...

COMMAND is the built `boxwright`. The log of `check --format sarif` must follow the schema that OASIS publishes with SARIF
2.1.0 (`sarif-schema-2.1.0.json` beside this script, unchanged), each report of `check --format json` the schema that
`schema findings` prints.
"""

import json
import pathlib
import subprocess
import sys

import jsonschema

# The bracket without its partner is no regular expression of ECMA-262; the errata of the standard have the other form.
WRONG, RIGHT = "^[a-zA-Z]{2}|^[a-zA-Z]{2}-[a-zA-Z]{2}]?$", "^[a-zA-Z]{2}(-[a-zA-Z]{2})?$"


def said(*arguments):
    run = subprocess.run(arguments, capture_output=True, text=True, check=False)
    if run.returncode not in (0, 1, 2) or not run.stdout:
        sys.exit(f"{arguments}: {run.returncode} {run.stderr}")
    return json.loads(run.stdout)


def complain(schema, instance, what):
    kind = jsonschema.validators.validator_for(schema)
    kind.check_schema(schema)
    errors = [f"{what}: {error.json_path}: {error.message[:200]}" for error in kind(schema).iter_errors(instance)]
    if errors:
        sys.exit("\n".join(errors[:20]))


def main():
    command, layouts = sys.argv[1], sys.argv[2:]
    text = (pathlib.Path(__file__).parent / "sarif-schema-2.1.0.json").read_text()
    sarif = json.loads(text.replace(json.dumps(WRONG), json.dumps(RIGHT)))
    log = said(command, "check", "--format", "sarif", *layouts)
    complain(sarif, log, "sarif")
    findings = said(command, "schema", "findings")
    reports = said(command, "check", "--format", "json", *layouts)
    for report in reports:
        complain(findings, report, report["layout"])
    try:
        jsonschema.validate({"format": "something else"}, findings)
    except jsonschema.ValidationError:
        pass
    else:
        sys.exit("the schema of findings accepts anything")
    print(f"{len(log['runs'][0]['results'])} results and {len(reports)} reports follow their schemas")


main()
