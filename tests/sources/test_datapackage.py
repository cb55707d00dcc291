"""data/datapackage.json describes what lies in data/, and the tables are as it says.

The descriptor is an open standard, Frictionless Data Package with Table Schema. Its own
library would bring in some twenty packages to check five small files, so what of it is used
here is checked here: names, types and constraints.
"""

import csv
import json
import re
from decimal import Decimal, InvalidOperation

from cases import for_each

from hemcalc.books.rows import DATA

PACK = json.loads((DATA / "datapackage.json").read_text("utf-8"))
RESOURCES = {resource["name"]: resource for resource in PACK["resources"]}


def is_json_object(text):
    try:
        return isinstance(json.loads(text), dict)
    except ValueError:
        return False


def is_number(text):
    try:
        return Decimal(text).is_finite() and text == text.strip()
    except InvalidOperation:
        return False


TYPES = {
    "string": lambda text: True,
    "number": is_number,
    "integer": lambda text: re.fullmatch(r"-?[0-9]+", text) is not None,
    "boolean": lambda text: text in ("true", "false"),
    "object": is_json_object,
}
CONSTRAINTS = {"required", "unique", "enum", "pattern", "minimum", "maximum"}


def faults(schema, header, rows):
    """What in a table is not as its schema says, in words."""
    fields = {field["name"]: field for field in schema["fields"]}
    if header != list(fields):
        return [f"the columns are {header}"]
    found = []
    for name, field in fields.items():
        limits, column = field.get("constraints", {}), [row[name] for row in rows]
        if limits.get("unique") and len(set(column)) < len(column):
            found.append(f"{name} says the same twice")
        for text in column:
            if text in schema["missingValues"]:
                if limits.get("required"):
                    found.append(f"{name} is missing")
                continue
            if not TYPES[field["type"]](text):
                found.append(f"{name} {text!r} is no {field['type']}")
                continue
            if "enum" in limits and text not in limits["enum"]:
                found.append(f"{name} {text!r} is none of its words")
            if "pattern" in limits and not re.fullmatch(limits["pattern"], text):
                found.append(f"{name} {text!r} is not of its pattern")
            if "minimum" in limits and Decimal(text) < limits["minimum"]:
                found.append(f"{name} {text!r} is too small")
            if "maximum" in limits and Decimal(text) > limits["maximum"]:
                found.append(f"{name} {text!r} is too large")
    return found


def read(resource):
    with (DATA / resource["path"]).open(encoding=resource["encoding"], newline="") as lines:
        reader = csv.reader(lines, strict=True)
        header = next(reader)
        rows = list(reader)
    return header, rows


@for_each("resource", RESOURCES.values())
def test_a_table_is_as_its_schema_says(resource):
    header, rows = read(resource)
    assert {len(row) for row in rows} == {len(header)}
    named = [dict(zip(header, row, strict=True)) for row in rows]
    assert faults(resource["schema"], header, named) == []
    assert resource["schema"]["primaryKey"] in header


def test_every_file_of_data_is_described_and_every_described_one_is_there():
    # A piece's own file has its schema here too: tests/piece/test_kept.py holds it.
    files = {path.name for path in DATA.iterdir() if path.is_file()} - {"piece.schema.json"}
    assert files == {"datapackage.json", *(resource["path"] for resource in RESOURCES.values())}


@for_each("resource", RESOURCES.values())
def test_a_schema_uses_only_what_is_checked_here_and_describes_each_column(resource):
    assert resource["profile"] == "tabular-data-resource"
    for field in resource["schema"]["fields"]:
        assert field["type"] in TYPES
        assert field["description"].endswith(".")
        assert set(field.get("constraints", {})) <= CONSTRAINTS


def test_nothing_in_data_is_a_web_address():
    for path in DATA.glob("*.*"):
        assert not re.search(r"https?:|www\.", path.read_text("utf-8")), path.name


def test_every_topic_and_kind_that_may_stand_there_does():
    fields = {field["name"]: field for field in RESOURCES["published"]["schema"]["fields"]}
    header, rows = read(RESOURCES["published"])
    for name in ("topic", "kind"):
        assert {row[header.index(name)] for row in rows} == set(fields[name]["constraints"]["enum"])


# The check, checked.
SCHEMA = {
    "missingValues": [""],
    "fields": [
        {
            "name": "id",
            "type": "string",
            "constraints": {"required": True, "unique": True, "pattern": "[a-z]+"},
        },
        {"name": "size", "type": "number", "constraints": {"minimum": 1, "maximum": 9}},
        {"name": "kind", "type": "string", "constraints": {"enum": ["printed"]}},
        {"name": "plies", "type": "integer"},
        {"name": "holds", "type": "boolean"},
        {"name": "given", "type": "object"},
    ],
}
GOOD = {"id": "a", "size": "2.50", "kind": "printed", "plies": "2", "holds": "true", "given": '{"hem": 1}'}


def test_a_good_row_has_no_fault():
    assert faults(SCHEMA, list(GOOD), [GOOD, GOOD | {"id": "b", "size": ""}]) == []


@for_each(
    ("column", "text", "fault"),
    [
        ("id", "", "id is missing"),
        ("id", "A1", "id 'A1' is not of its pattern"),
        ("size", "half", "size 'half' is no number"),
        ("size", " 2", "size ' 2' is no number"),
        ("size", "NaN", "size 'NaN' is no number"),
        ("size", "0.5", "size '0.5' is too small"),
        ("size", "9.1", "size '9.1' is too large"),
        ("kind", "guessed", "kind 'guessed' is none of its words"),
        ("plies", "2.0", "plies '2.0' is no integer"),
        ("holds", "True", "holds 'True' is no boolean"),
        ("given", "[1]", "given '[1]' is no object"),
        ("given", "{1}", "given '{1}' is no object"),
    ],
)
def test_each_fault_is_found(column, text, fault):
    assert faults(SCHEMA, list(GOOD), [GOOD | {column: text}]) == [fault]


def test_a_repeated_id_and_a_strange_column_are_found():
    assert faults(SCHEMA, list(GOOD), [GOOD, GOOD]) == ["id says the same twice"]
    assert faults(SCHEMA, ["name", *GOOD], [])[0].startswith("the columns are")
