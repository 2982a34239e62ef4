"""The OpenAPI document and the page that shows it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.answer import Answer, answer
from tepidarium_api.app import create_app
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.document import encoded_document
from tepidarium_api.schemas import request_type
from tepidarium_api.settings import Settings

COMMITTED = Path(__file__).parents[2] / "api" / "openapi.json"

Schema = dict[str, Any]


@pytest.fixture(scope="module")
def document() -> Schema:
    loaded: Schema = json.loads(encoded_document(create_app(Settings())))
    return loaded


def requests(document: Schema) -> Iterator[tuple[str, Schema]]:
    """Every schema that a request can reach, with the place where it stands."""
    schemas = document["components"]["schemas"]
    waiting = [(name, schemas[name]) for name in schemas if name.endswith("Request")]
    seen = set()
    while waiting:
        place, schema = waiting.pop()
        yield place, schema
        for name, inner in schema.get("properties", {}).items():
            waiting.append((f"{place}/{name}", inner))
        for key in ("anyOf", "prefixItems"):
            waiting += [(place, inner) for inner in schema.get(key, ())]
        if isinstance(schema.get("items"), dict):
            waiting.append((f"{place}/-", schema["items"]))
        if (target := schema.get("$ref")) and target not in seen:
            seen.add(target)
            waiting.append((target.rpartition("/")[2], schemas[target.rpartition("/")[2]]))


def test_the_committed_document_is_that_of_the_code() -> None:
    assert COMMITTED.read_bytes() == encoded_document(create_app(Settings())), (
        "write it anew with python -m tepidarium_api.write_document"
    )


def test_requests_are_closed_and_bounded_everywhere(document: Schema) -> None:
    kinds = set()
    for place, schema in requests(document):
        kind = schema.get("type")
        kinds.add(kind)
        if kind == "object":
            of_answer = place.startswith("Former")  # a former answer comes as it was answered
            assert of_answer or schema["additionalProperties"] is False, place
        if kind in {"number", "integer"}:
            assert {"minimum", "maximum", "x-unit"} <= schema.keys(), place
            assert abs(schema["minimum"]) < 1e15 > abs(schema["maximum"]), place
        if kind == "array":
            assert {"minItems", "maxItems"} <= schema.keys(), place
        if kind == "string" and not {"format", "enum"} & schema.keys():
            assert "maxLength" in schema, place
    assert {"object", "number", "array", "string"} <= kinds


def test_every_field_is_described_and_numbers_end_with_their_unit(document: Schema) -> None:
    for name, schema in document["components"]["schemas"].items():
        for field, inner in schema.get("properties", {}).items():
            assert inner.get("description"), f"{name}.{field}"
            arms = inner.get("anyOf", [inner])
            unit = next((arm["x-unit"] for arm in arms if "x-unit" in arm), None)
            if unit is not None:
                assert inner["description"].endswith(f"[{unit}]"), f"{name}.{field}"


def test_answers_are_open(document: Schema) -> None:
    for name, schema in document["components"]["schemas"].items():
        if name.endswith("Response"):
            assert "additionalProperties" not in schema
            assert {"inputs", "findings", "cautions", "engine_version"} <= set(schema["required"])
            assert "workings" not in schema["required"]


def test_names_are_short_and_every_reference_leads_somewhere(document: Schema) -> None:
    text = json.dumps(document)
    assert all(re.fullmatch(r"[A-Z][A-Za-z0-9]+", name) for name in document["components"]["schemas"])
    for target in set(re.findall(r'"#/components/([^"]+)"', text)):
        kind, name = target.split("/")
        assert name in document["components"][kind]


def test_every_calculation_is_documented_with_its_example(document: Schema) -> None:
    for item in CALCULATIONS:
        operation = document["paths"][item.path]["post"]
        assert operation["operationId"] == item.operation_id
        assert {"200", "400", "406", "413", "415", "422", "500", "503"} <= operation["responses"].keys()
        content = operation["requestBody"]["content"]["application/json"]
        assert content["examples"][item.name]["value"] == json.loads(json.dumps(dict(item.example)))
        assert set(operation["responses"]["200"]["content"]) == {"application/json"}


def test_each_other_form_of_an_answer_is_an_operation_of_its_own(document: Schema) -> None:
    """One type for one operation: a generated client gives text or a record, never either."""
    for item in CALCULATIONS:
        paths = [path for path in document["paths"] if path.startswith(f"{item.path}/")]
        kinds = [set(document["paths"][path]["post"]["responses"]["200"]["content"]) for path in paths]
        assert sorted(map(str, kinds)) == sorted(str({media_type}) for media_type in item.media_types)
        for path in paths:
            assert path in document["paths"][item.path]["post"]["description"]


def places(part: Any, where: str = "") -> Iterator[tuple[str, Schema]]:
    """Every object of the document with the place where it stands."""
    if isinstance(part, dict):
        yield where, part
    members = part.items() if isinstance(part, dict) else enumerate(part) if isinstance(part, list) else ()
    for key, member in members:
        yield from places(member, f"{where}/{key}")


def test_generators_find_what_they_need(document: Schema) -> None:
    pairs = 0
    for where, schema in places(document["components"]["schemas"]):
        if "prefixItems" in schema:
            pairs += 1
            first, second = schema["prefixItems"]
            assert first == second == schema["items"], where
            assert schema["minItems"] == schema["maxItems"] == 2, where
        if "items" in schema and not where.endswith("/properties"):
            assert isinstance(schema["items"], dict), where  # false is more than many of them can read
        if not where.endswith("/properties"):
            # a field with a default is taken for one that is always there, and so for one that must be sent
            assert "default" not in schema, where
        if "enum" in schema:
            assert schema["type"] == "string", where
        if ", x and y" in str(schema.get("description")):
            pair = next(iter(schema.get("anyOf", [schema])))
            assert "prefixItems" in pair, where
    assert pairs > 60


def test_defaults_are_those_that_the_service_fills_in(document: Schema) -> None:
    counted = 0
    for item in CALCULATIONS:
        outcome = answer(item, json.dumps(dict(item.example)).encode(), "application/json")
        assert isinstance(outcome, Answer)
        used = json.loads(outcome.content)["inputs"]
        properties = document["components"]["schemas"][request_type(item.inputs).__name__]["properties"]
        defaults = {name: properties[name]["x-default"] for name in used if name not in item.example}
        counted += len(defaults)
        for name, value in defaults.items():
            if isinstance(value, float):
                assert f" (default {value}) [" in properties[name]["description"]
            # null: the engine finds a value from the other fields, or goes without one
            assert value in (None, used[name]), (item.name, name)
    assert counted > len(CALCULATIONS)


def test_a_client_is_told_when_to_come_back(document: Schema) -> None:
    """RFC 9110, 10.2.3: Retry-After in seconds."""
    for path, operations in document["paths"].items():
        for operation in operations.values():
            response = operation["responses"].get("503")
            if response is None:
                assert path not in {item.path for item in CALCULATIONS}
                continue
            declared = document["components"]["responses"][response["$ref"].rpartition("/")[2]]
            header = declared["headers"]["Retry-After"]
            header = document["components"]["headers"][header["$ref"].rpartition("/")[2]]
            assert header["required"] is True
            assert header["schema"]["type"] == "integer"


def test_operation_ids_are_explicit_and_unique(document: Schema) -> None:
    names = [operation["operationId"] for item in document["paths"].values() for operation in item.values()]
    assert len(names) == len(set(names))
    assert all(re.fullmatch(r"[a-z][a-z_]+", name) for name in names)


def test_the_service_serves_the_document_and_a_page_that_asks_nobody_else() -> None:
    client: TestClient[Litestar] = TestClient(create_app(Settings(request_log=False)))
    assert client.get("/openapi.json").content == COMMITTED.read_bytes()
    page = client.get("/docs")
    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert "default-src 'none'" in page.headers["content-security-policy"]
    links = re.findall(r'(?:src|href)="([^"]+)"', page.text)
    assert len(links) == 4
    for link in links:
        assert link.startswith(("/docs/", "data:"))
        if link.startswith("/"):
            asset = client.get(link)
            assert asset.status_code == 200
            assert asset.headers["content-type"].count("charset=utf-8") == 1
            assert b"sourceMappingURL=" not in asset.content
