"""Tables of what goes into a calculation and what comes out, from the contract, which has them from the glossary."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from .answers import TOP
from .wording import cell, number, table, unit

__all__ = ["NOT_LISTED", "operations", "record_names", "record_table", "request_tables", "response_table"]

_REFERENCE = "#/components/schemas/"
_HEAD = ("field", "what it is", "unit", "range", "left out")
_MOST_RECORDS = 7
"""So many records stand on the page of a calculation itself."""
NOT_LISTED = frozenset({"inputs", "findings", "cautions", "engine_version", "workings"})
"""Members of every answer; a page of their own tells of them."""


@cache
def _document() -> dict[str, Any]:
    found: dict[str, Any] = json.loads((TOP / "api" / "openapi.json").read_text(encoding="utf-8"))
    return found


def record_names() -> list[str]:
    return sorted(_schemas())


def _schemas() -> dict[str, Any]:
    found: dict[str, Any] = _document()["components"]["schemas"]
    return found


def operations() -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Path, method and operation of everything that the service offers."""
    for path, methods in _document()["paths"].items():
        for method, operation in methods.items():
            yield path, method, operation


def _operation(name: str) -> dict[str, Any]:
    found: dict[str, Any] = _document()["paths"][f"/v1/{name}"]["post"]
    return found


def request_tables(name: str, page: str) -> str:
    """The fields of a request; then those of the records in it, where they are few."""
    operation = _operation(name)
    content = operation["requestBody"]["content"]
    if "application/json" not in content:
        options = [each for each in operation["parameters"] if "schema" in each]
        return _fields(
            {each["name"]: each["schema"] | {"description": each["description"]} for each in options},
            (),
            page,
        )
    top = _target(content["application/json"]["schema"])
    nested = [each for each in _reached(top) if each != top]
    here = set(nested) if len(nested) <= _MOST_RECORDS else set()
    parts = [record_table(top, page, here)]
    parts += [f"### {_shown(each)}\n\n{record_table(each, page, here)}" for each in nested if each in here]
    return "\n\n".join(parts)


def response_table(name: str, page: str) -> str:
    """The fields of an answer that not every answer has."""
    content = _operation(name)["responses"]["200"]["content"]["application/json"]
    properties = _schemas()[_target(content["schema"])]["properties"]
    return _fields({key: value for key, value in properties.items() if key not in NOT_LISTED}, None, page)


def record_table(name: str, page: str, here: set[str] | frozenset[str] = frozenset()) -> str:
    schema = _schemas()[name]
    if "properties" not in schema:
        return f"One of {_type(schema, page, here)}."
    required = tuple(schema.get("required", ())) if name.endswith(("Input", "Request")) else None
    fields = {key: value for key, value in schema["properties"].items() if key != "workings"}
    return _fields(fields, required, page, here)


def _fields(
    fields: dict[str, Any],
    required: tuple[str, ...] | None,
    page: str,
    here: set[str] | frozenset[str] = frozenset(),
) -> str:
    rows = []
    for name, schema in fields.items():
        description = re.sub(r" \[[^\]]*\]$", "", re.sub(r" \(default [^)]*\)", "", schema["description"]))
        default = "" if required is None else "required" if name in required else _default(schema)
        row = (f"`{name}`", cell(description), cell(_unit(schema)), _type(schema, page, here), default)
        rows.append(row if required is not None else row[:4])
    return table(_HEAD if required is not None else (*_HEAD[:3], "form"), rows)


def _default(schema: dict[str, Any]) -> str:
    default = schema.get("x-default")
    if default is None or default in ([], {}, ""):
        return "–"
    if isinstance(default, dict):
        return "as its record says"
    if isinstance(default, float):
        return f"`{number(default)}`"
    return f"`{json.dumps(default)}`" if not isinstance(default, str) else f"`{default}`"


def _unit(schema: dict[str, Any]) -> str:
    units = set(re.findall(r'"x-unit": "([^"]*)"', json.dumps(schema)))
    return ", ".join(sorted(map(unit, units)))


def _type(schema: dict[str, Any], page: str, here: set[str] | frozenset[str]) -> str:
    if "$ref" in schema:
        name = _target(schema)
        if name in here:
            return f"[{_shown(name)}](#{_shown(name).lower()})"
        return f"[{_shown(name)}]({page}reference/records.md#{name.lower()})"
    if "anyOf" in schema:
        arms = [each for each in schema["anyOf"] if each.get("type") != "null"]
        return " or ".join(_type(each, page, here) for each in arms)
    if "enum" in schema:
        return ", ".join(f"`{word}`" for word in schema["enum"])
    return _plain_type(schema, page, here)


def _plain_type(schema: dict[str, Any], page: str, here: set[str] | frozenset[str]) -> str:
    kind = schema.get("type", "")
    if kind == "array":
        least, most = schema.get("minItems"), schema.get("maxItems")
        count = "" if most is None else f"{least or 0} to {most} of " if least != most else f"{most} of "
        members = schema.get("items") or {}
        inner = _type(members, page, here) if isinstance(members, dict) and members else "values"
        return f"list: {count}{inner}"
    if kind in {"number", "integer"}:
        low, high = schema.get("minimum"), schema.get("maximum")
        word = "whole number" if kind == "integer" else "number"
        return word if low is None or high is None else f"{number(low)} to {number(high)}"
    if kind == "string":
        return str(schema.get("format", "text"))
    return {"boolean": "yes or no"}.get(str(kind), str(kind))


def _target(schema: dict[str, Any]) -> str:
    return str(schema["$ref"]).removeprefix(_REFERENCE)


def _shown(name: str) -> str:
    return name.removesuffix("Input")


def _reached(name: str) -> Iterator[str]:
    """The record and all records in it, each once, as they appear."""
    seen, waiting = [name], [name]
    while waiting:
        yield (current := waiting.pop(0))
        for found in re.findall(rf'"{_REFERENCE}([^"]+)"', json.dumps(_schemas()[current])):
            if found not in seen:
                seen.append(found)
                waiting.append(found)
