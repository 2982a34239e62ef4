"""All structural faults of a body at once, each with its exact pointer.

Runs on the failure path only: the decoder stops at the first fault, the JSON Schema of the same type finds
all.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from difflib import get_close_matches
from itertools import islice
from typing import Any

import jsonschema_rs
import msgspec

from .problems import MAXIMUM_ERRORS, FieldError

__all__ = ["StructureCheck", "pointer_of"]

Schema = dict[str, Any]

_HUMP = re.compile(r"(?<=[a-z0-9])(?=[A-Z])")
_ALIKE = 0.6
"""Names are taken for each other from this similarity on (Ratcliff and Obershelp, as in difflib)."""
_SHARE = "; the field is a share: 0.3 stands for 30 %"
_PLAIN_NAME = re.compile(r"[A-Za-z0-9_.\-]{1,64}")
_DECODER_PATH = re.compile(r"(?P<text>.*?)(?: - at `\$(?P<path>.*)`)?", re.DOTALL)
_PATH_STEP = re.compile(r"\.([^.\[]+)|\[(\d+)\]")

_TYPE_WORDS = {
    "object": "an object",
    "array": "a list",
    "string": "text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "null": "null",
}

# What a JSON Schema keyword means to the sender: the code, and the text with the limit in its place.
_LIMIT_WORDS = {
    "minimum": ("too_small", "must be at least {limit:g}{unit}"),
    "maximum": ("too_large", "must be at most {limit:g}{unit}"),
    "minItems": ("too_few", "must have at least {limit:g} item{plural}"),
    "maxItems": ("too_many", "must have at most {limit:g} item{plural}"),
    "minLength": ("text_length", "must have at least {limit:g} character{plural}"),
    "maxLength": ("text_length", "must have at most {limit:g} character{plural}"),
}


class StructureCheck:
    """Finds every fault of a document against the schema of a type."""

    def __init__(self, request: type[msgspec.Struct]) -> None:
        self._schema: Schema = msgspec.json.schema(request)
        self._validator = jsonschema_rs.Draft202012Validator(self._schema, validate_formats=True)
        self._parts: dict[int, Any] = {}

    def faults(self, document: Any, failure: msgspec.ValidationError) -> tuple[FieldError, ...]:
        """The faults in the order of the schema, one more than are listed at most; where it finds none, the one
        that the decoder stopped at."""
        try:
            if not self._validator.is_valid(document):
                document = _Thinned(self).document(document, self._schema)
            found = tuple(islice(self._faults(self._validator.iter_errors(document)), MAXIMUM_ERRORS + 1))
        except ValueError:  # a document that the validator cannot take, such as one nested very deeply
            found = ()
        return found or (_decoder_fault(failure),)

    def _faults(self, errors: Iterator[Any] | Sequence[Any]) -> Iterator[FieldError]:
        for error in errors:
            path, kind = list(error.instance_path), error.kind
            match kind.name:
                case "anyOf":
                    yield from self._faults(_wanted_branch(kind.context))
                case "required":
                    yield FieldError(
                        pointer=pointer_of([*path, kind.property]),
                        code="missing",
                        detail="is required" + _in_unit(self._at([*path, kind.property])),
                    )
                case "additionalProperties":
                    members = self._at(path).get("properties", {})
                    yield from (_unknown(path, name, members) for name in kind.unexpected)
                case "falseSchema":  # beyond the end of a pair; the length of the pair is reported as well
                    continue
                case _:
                    yield self._plain(path, kind)

    def _plain(self, path: list[str | int], kind: Any) -> FieldError:
        schema = self._at(path)
        pointer, unit = pointer_of(path), _unit(schema)
        if kind.name in _LIMIT_WORDS:
            code, text = _LIMIT_WORDS[kind.name]
            plural = "" if kind.limit == 1 else "s"
            words = text.format(limit=kind.limit, unit=f" {unit}" if unit else "", plural=plural)
            detail = words + _in_unit(schema) + (_SHARE if _is_share(schema) else "")
            return FieldError(pointer=pointer, code=code, detail=detail, limit=float(kind.limit))
        if kind.name == "enum":
            return FieldError(pointer=pointer, code="choice", detail=f"must be {_expected(schema)}")
        if kind.name == "format":
            return FieldError(pointer=pointer, code="date", detail=f"must be {_expected(schema)}")
        return FieldError(pointer=pointer, code="type", detail=f"must be {_expected(schema)}")

    def _at(self, path: Sequence[str | int]) -> Schema:
        """The part of the schema that speaks about the place ``path`` of a document."""
        schema = self.resolved(self._schema)
        for step in path:
            schema = self.below(schema, step)
        return schema

    def below(self, schema: Schema, step: str | int) -> Schema:
        """The part of a schema that speaks about a member or an item."""
        if isinstance(step, str):
            return self.resolved(schema.get("properties", {}).get(step, {}))
        pair = schema.get("prefixItems", [])
        return self.resolved(pair[step] if step < len(pair) else schema.get("items") or {})

    def validator(self, schema: Schema) -> Any:
        """The validator of a part of the schema."""
        key = id(schema)
        if key not in self._parts:
            self._parts[key] = jsonschema_rs.Draft202012Validator(
                {**schema, "$defs": self._schema.get("$defs", {})}, validate_formats=True
            )
        return self._parts[key]

    def resolved(self, schema: Schema) -> Schema:
        while True:
            if "anyOf" in schema:
                schema = next(arm for arm in schema["anyOf"] if arm.get("type") != "null")
            elif "$ref" in schema:
                schema = self._schema["$defs"][schema["$ref"].rpartition("/")[2]]
            else:
                return schema


class _Thinned:
    """A document without the faulty items of lists that nobody would be told of: to list a fault takes long.

    Items go from the first that is too many; those behind it that stay have no faults, so that pointers hold.
    """

    def __init__(self, check: StructureCheck) -> None:
        self._check = check
        self._left = MAXIMUM_ERRORS + 1

    def document(self, value: Any, schema: Schema) -> Any:
        schema = self._check.resolved(schema)
        if isinstance(value, dict):
            return {
                name: self.document(item, self._check.below(schema, name)) for name, item in value.items()
            }
        if isinstance(value, list) and (of_items := self._check.below(schema, len(value))):
            return list(self._items(value, of_items))
        return value

    def _items(self, items: list[Any], schema: Schema) -> Iterator[Any]:
        is_valid = self._check.validator(schema).is_valid
        for item in items:
            if is_valid(item):
                yield item
            elif self._left > 0:
                self._left -= 1
                yield self.document(item, schema)


def pointer_of(path: Sequence[str | int]) -> str:
    """The RFC 6901 pointer of a path."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in path)


def _unit(schema: Schema) -> str:
    """The unit of a number; nothing for a pure number."""
    unit: str = schema.get("x-unit", "")
    return {"1": "", "degC": "°C"}.get(unit, unit)


def _in_unit(schema: Schema) -> str:
    unit = _unit(schema)
    return f"; the field is read in {unit}" if unit else ""


def _is_share(schema: Schema) -> bool:
    """Whether the number is a part of a whole, which some write in per cent."""
    return (
        schema.get("type") == "number" and schema.get("x-unit") == "1" and schema.get("maximum", 2.0) <= 1.0
    )


def _expected(schema: Schema) -> str:
    if "enum" in schema:
        return "one of " + ", ".join(str(word) for word in schema["enum"] if word is not None)
    if schema.get("format") == "date":
        return "a calendar date written YYYY-MM-DD"
    if "prefixItems" in schema:
        return "a point [x, y] in m"
    word = _TYPE_WORDS.get(schema.get("type", ""), "of another kind")
    unit = _unit(schema)
    return f"{word} [{unit}]" if unit else word


def _wanted_branch(branches: Sequence[Sequence[Any]]) -> Sequence[Any]:
    """Of the faults against 'a thing or null' those against the thing."""
    return next(branch for branch in branches if not _only_null_was_wanted(branch))


def _only_null_was_wanted(branch: Sequence[Any]) -> bool:
    return len(branch) == 1 and branch[0].kind.name == "type" and list(branch[0].kind.types) == ["null"]


def _unknown(path: list[str | int], name: str, members: Iterable[str]) -> FieldError:
    """A name that the sender invented is repeated only when it is short and plain; fields of this place that are
    written much like it are named."""
    if not _PLAIN_NAME.fullmatch(name):
        detail = "has a field that is not part of this calculation"
        return FieldError(pointer=pointer_of(path), code="unknown_field", detail=detail)
    plain = _HUMP.sub("_", name).replace("-", "_").lower()
    meant = " or ".join(get_close_matches(plain, members, 2, _ALIKE))
    detail = "is not a field of this calculation" + (f"; did you mean {meant}?" if meant else "")
    return FieldError(pointer=pointer_of([*path, name]), code="unknown_field", detail=detail)


def _decoder_fault(failure: msgspec.ValidationError) -> FieldError:
    parts = _DECODER_PATH.fullmatch(str(failure))
    text, path = (parts["text"], parts["path"] or "") if parts else ("", "")
    steps = [name or int(index) for name, index in _PATH_STEP.findall(path)]
    detail = "must be a whole number, written without a point" if "`int`" in text else "does not fit its type"
    return FieldError(pointer=pointer_of(steps), code="type", detail=detail)
