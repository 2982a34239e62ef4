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
from tepidarium_api.app import create_app
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.document import encoded_document, openapi_document
from tepidarium_api.settings import Settings

COMMITTED = Path(__file__).parents[2] / "api" / "openapi.json"

Schema = dict[str, Any]


@pytest.fixture(scope="module")
def document() -> Schema:
    return openapi_document(create_app(Settings()))


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
        "write it anew with python -m tepidarium_api.document"
    )


def test_requests_are_closed_and_bounded_everywhere(document: Schema) -> None:
    kinds = set()
    for place, schema in requests(document):
        kind = schema.get("type")
        kinds.add(kind)
        if kind == "object":
            assert schema["additionalProperties"] is False, place
        if kind in {"number", "integer"}:
            assert {"minimum", "maximum", "x-unit"} <= schema.keys(), place
            assert abs(schema["minimum"]) < 1e15 > abs(schema["maximum"]), place
        if kind == "array":
            assert {"minItems", "maxItems"} <= schema.keys(), place
        if kind == "string" and "format" not in schema:
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
        assert set(operation["responses"]["200"]["content"]) == {"application/json", *item.renderings}


def test_operation_ids_are_explicit_and_unique(document: Schema) -> None:
    names = [operation["operationId"] for item in document["paths"].values() for operation in item.values()]
    assert len(names) == len(set(names))
    assert all(re.fullmatch(r"[a-z][a-z_]+", name) for name in names)


def test_the_service_serves_the_document_and_a_page_that_asks_nobody_else() -> None:
    client: TestClient[Litestar] = TestClient(create_app(Settings(request_log=False)))
    assert client.get("/openapi.json").content == COMMITTED.read_bytes()
    page = client.get("/docs")
    assert page.headers["content-type"].startswith("text/html")
    assert "default-src 'none'" in page.headers["content-security-policy"]
    links = re.findall(r'(?:src|href)="([^"]+)"', page.text)
    assert len(links) == 4
    for link in links:
        assert link.startswith(("/docs/", "data:"))
        if link.startswith("/"):
            asset = client.get(link)
            assert asset.status_code == 200
            assert b"sourceMappingURL=" not in asset.content
