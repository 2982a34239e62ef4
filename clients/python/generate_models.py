"""Writes ``tepidarium_client/_models.py`` and ``_units.py`` from ``api/openapi.json``.

    python clients/python/generate_models.py           # write both files
    python clients/python/generate_models.py --check   # exit 1 if they differ from the document

Needs datamodel-code-generator and ruff, of the development requirements. The structs are made by
datamodel-codegen; before, the document is made lenient, so that a client accepts what a newer service adds to
its answers; afterwards the result is trimmed to what a reader of the types needs. ``_units.py`` holds the unit of
every field name (its ``x-unit``), for people's tables and messages. Neither file is ever edited by hand.
"""

from __future__ import annotations

import argparse
import json
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
DOCUMENT = HERE.parents[1] / "api" / "openapi.json"
PACKAGE = HERE / "tepidarium_client"
HEADER = "# Generated from api/openapi.json by clients/python/generate_models.py; do not edit."

GENERATOR_OPTIONS = (
    "--input-file-type=openapi",
    "--output-model-type=msgspec.Struct",
    "--target-python-version=3.11",
    "--use-annotated",
    "--enum-field-as-literal=all",  # a plain Enum would get a default of the wrong type
    "--output-datetime-class=datetime",  # dates as dates, not as their text
    "--strict-nullable",  # a field with a default is optional, but not nullable
    "--extra-fields=ignore",
    "--keyword-only",
    "--use-schema-description",
    "--disable-timestamp",
    "--formatters=builtin",
)

BOUNDS = {
    "minimum": "at least {}",
    "exclusiveMinimum": "more than {}",
    "maximum": "at most {}",
    "exclusiveMaximum": "less than {}",
    "minItems": "at least {} items",
    "maxItems": "at most {} items",
    "minLength": "at least {} characters",
    "maxLength": "at most {} characters",
}
_CODES = {
    "Finding": "What should be looked at before it is built.",
    "Refusal": "What is wrong with a field of a request.",
    "Caution": "A word on people's safety.",
}
"""Kinds of codes, and their words."""
DROPPED = {*BOUNDS, "pattern", "additionalProperties", "unevaluatedProperties", "title", "examples"}


def main(arguments: list[str] | None = None) -> int:
    """Write or compare; returns the exit code."""
    parser = argparse.ArgumentParser(
        description="Generate the models of the client from the OpenAPI document."
    )
    parser.add_argument("--check", action="store_true", help="compare only, exit 1 on a difference")
    parser.add_argument("--document", type=Path, default=DOCUMENT)
    chosen = parser.parse_args(arguments)
    schemas = json.loads(chosen.document.read_text(encoding="utf-8"))["components"]["schemas"]
    generated = {
        PACKAGE / "_models.py": models(schemas),
        PACKAGE / "_units.py": units(schemas),
        PACKAGE / "codes.py": codes(schemas),
    }
    stale = [path for path, text in generated.items() if not path.exists() or path.read_text() != text]
    for path in stale:
        print(f"{path.name} does not agree with the document" if chosen.check else f"wrote {path.name}")
        if not chosen.check:
            path.write_text(generated[path])
    return int(chosen.check and bool(stale))


def codes(schemas: dict[str, Any]) -> str:
    """The text of ``codes.py``: the codes of findings, refusals and cautions as constants."""
    classes = "".join(
        f'\n\nclass {kind}Code(StrEnum):\n    """{words}"""\n\n'
        + "".join(
            f'    {code.upper()} = "{code}"\n'
            for code in schemas[f"{kind}Entry"]["properties"]["code"]["x-codes"]
        )
        for kind, words in _CODES.items()
    )
    names = ", ".join(f'"{kind}Code"' for kind in sorted(_CODES))
    return f'''{HEADER}
"""The codes that answers and problem documents hold; a newer service may know more."""

from __future__ import annotations

from enum import StrEnum

__all__ = [{names}]
{classes}'''


def models(schemas: dict[str, Any]) -> str:
    """The text of ``_models.py``."""
    document = {
        "openapi": "3.1.0",
        "info": {"title": "Tepidarium", "version": "1"},
        "paths": {},
        "components": {"schemas": {name: lenient(schema) for name, schema in schemas.items()}},
    }
    with tempfile.TemporaryDirectory() as folder:
        source, target = Path(folder, "document.json"), Path(folder, "models.py")
        source.write_text(json.dumps(document))
        command = [sys.executable, "-W", "ignore", "-m", "datamodel_code_generator", *GENERATOR_OPTIONS]
        subprocess.run([*command, f"--input={source}", f"--output={target}"], check=True)
        text = target.read_text()
    body = text[text.index("from __future__") :]
    names = ", ".join(f'"{name}"' for name in sorted(re.findall(r"^class (\w+)\(Struct", body, re.MULTILINE)))
    body = re.sub(r"\n\n\n?(?=class |\w+: TypeAlias)", f"\n\n__all__ = [{names}]\n\n", body, count=1)
    doc = '"""Requests and answers of the service, as structs."""'
    return formatted(f"{HEADER}\n# ruff: noqa: E501\n{doc}\n\n{trimmed(body)}")


def lenient(schema: Any) -> Any:
    """The schema without what closes records and bounds values, which are the service's own business: an
    answer may echo a value that only a newer service allows. The bounds go on as text."""
    if isinstance(schema, list):
        return [lenient(member) for member in schema]
    if not isinstance(schema, dict):
        return schema
    kept = {key: lenient(value) for key, value in schema.items() if key not in {*DROPPED, "properties"}}
    if "x-default" in schema:  # what the service takes when the field is left out
        kept["default"] = schema["x-default"]
    if isinstance(schema.get("properties"), dict):
        kept["properties"] = {name: lenient(member) for name, member in schema["properties"].items()}
    if "prefixItems" in schema:  # a tuple is known by its length, and has no items but these
        kept |= {key: schema[key] for key in ("minItems", "maxItems") if key in schema}
        del kept["items"]
    if isinstance(schema.get("description"), str) and "$ref" not in schema:
        bounds = [text.format(number) for key, text in BOUNDS.items() for number in _bound(schema, key)]
        kept["description"] = "; ".join([schema["description"], *bounds])
    return kept


def _bound(schema: dict[str, Any], key: str) -> list[str]:
    """The bound as text, once; that of an optional number stands in its ``anyOf`` arm."""
    arms = [schema, *(arm for arm in schema.get("anyOf", ()) if isinstance(arm, dict))]
    return [f"{arm[key]:g}" for arm in arms if key in arm][:1]


def trimmed(body: str) -> str:
    """Fields with a default of their own need no ``UnsetType`` arm: they are never unset."""
    return re.sub(r"\s*\| UnsetType(\s*\)?) = (?!UNSET\b)", r"\1 = ", body)


def units(schemas: dict[str, Any]) -> str:
    """The text of ``_units.py``; a name with two meanings is an error."""
    found: dict[str, str] = {}
    for name, unit in sorted(set(_units_in(schemas))):
        if found.setdefault(name, unit) != unit:
            raise ValueError(f"the field {name} has two units: {found[name]} and {unit}")
    lines = "".join(f"    {json.dumps(name)}: {json.dumps(unit)},\n" for name, unit in found.items())
    doc = '"""The unit of every number of the service, by field name."""'
    return formatted(f'{HEADER}\n{doc}\n\n__all__ = ["UNITS"]\n\nUNITS: dict[str, str] = {{\n{lines}}}\n')


def _units_in(schema: Any) -> Iterator[tuple[str, str]]:
    if isinstance(schema, list):
        for member in schema:
            yield from _units_in(member)
    if not isinstance(schema, dict):
        return
    properties = schema.get("properties")
    for name, member in properties.items() if isinstance(properties, dict) else ():
        unit = _unit_of(member)
        if unit is not None:
            yield name, unit
    for member in schema.values():
        yield from _units_in(member)


def _unit_of(schema: Any) -> str | None:
    """The unit of a field: its own, or that of the members of an ``anyOf`` or a list."""
    if not isinstance(schema, dict):
        return None
    if "x-unit" in schema:
        return str(schema["x-unit"])
    inner = [*schema.get("anyOf", ()), *schema.get("oneOf", ()), schema.get("items")]
    return next((unit for member in inner if (unit := _unit_of(member)) is not None), None)


def formatted(text: str) -> str:
    """The text as the project formats it."""
    ruff = [sys.executable, "-m", "ruff"]
    name = f"--stdin-filename={PACKAGE / 'generated.py'}"
    for step in (
        ["check", "--fix", "--quiet", "--exit-zero", "--select=I,UP,RUF036", name, "-"],
        ["format", name, "-"],
    ):
        text = subprocess.run([*ruff, *step], input=text, check=True, capture_output=True, text=True).stdout
    return text


if __name__ == "__main__":
    raise SystemExit(main())
