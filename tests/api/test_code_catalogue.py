"""The list of codes: complete, stable, typed, kept by caches."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest
from litestar.testing import TestClient
from tepidarium_api.app import create_app
from tepidarium_api.calculations import CALCULATIONS, FILE_READINGS
from tepidarium_api.code_catalogue import PATH, CodeCatalogue, ExplainedFinding
from tepidarium_api.settings import Settings
from tepidarium_client.codes import CautionCode, FindingCode, RefusalCode

RECORD = Path(__file__).with_name("codes.json")
CHANGES = Path(__file__).parents[2] / "api" / "CHANGELOG.md"


@pytest.fixture(scope="module")
def client() -> Iterator[TestClient]:
    with TestClient(create_app(Settings(request_log=False), readings=())) as client:
        yield client


def test_the_list_is_the_type_of_the_document(client: TestClient) -> None:
    answer = client.get(PATH)
    assert answer.status_code == 200 and answer.headers["content-language"] == "en"
    catalogue = msgspec.json.decode(answer.content, type=CodeCatalogue)
    offered = {one.name for one in (*CALCULATIONS, *FILE_READINGS)}
    assert {name for one in catalogue.findings for name in one.calculations} == offered


def test_caches_may_keep_it(client: TestClient) -> None:
    first = client.get(PATH)
    assert first.headers["cache-control"].startswith("public")
    again = client.get(PATH, headers={"If-None-Match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    assert client.get(PATH, headers={"If-None-Match": 'W/"other"'}).content == first.content


def test_each_finding_is_explained_with_a_request_to_try(client: TestClient) -> None:
    answer = client.get(f"{PATH}/unequal_circuits")
    explained = msgspec.json.decode(answer.content, type=ExplainedFinding)
    listed = msgspec.json.decode(client.get(PATH).content, type=CodeCatalogue).findings
    assert explained.finding in listed
    example = explained.example
    assert example is not None and isinstance(example.body, dict)
    found = client.post(example.path, json=example.body).json()["findings"]
    assert explained.finding.code in [finding["code"] for finding in found]
    assert client.get(f"{PATH}/not_drawn_kink").json()["example"] is None
    again = client.get(f"{PATH}/unequal_circuits", headers={"If-None-Match": answer.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    unknown = client.get(f"{PATH}/spilt_milk")
    assert (unknown.status_code, unknown.json()["type"]) == (404, "/problems/not-found")


def test_other_methods(client: TestClient) -> None:
    whole, head = client.get(PATH), client.head(PATH)
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["etag"] == whole.headers["etag"]
    assert client.options(PATH).status_code == 204
    assert client.post(PATH).status_code == 405


def test_no_code_vanishes_without_a_line_in_the_changelog(client: TestClient) -> None:
    """``codes.json`` is what clients know. Add new codes to it; one that goes is named in the changelog first."""
    listed = client.get(PATH).json()
    codes = {kind: [one["code"] for one in listed[kind]] for kind in ("findings", "refusals", "cautions")}
    known = json.loads(RECORD.read_text(encoding="utf-8"))
    told = CHANGES.read_text(encoding="utf-8")
    gone = {code for kind in codes for code in set(known[kind]) - set(codes[kind]) if f"`{code}`" not in told}
    assert gone == set()
    assert {kind: set(codes[kind]) - set(known[kind]) for kind in codes} == {kind: set() for kind in codes}


def test_the_client_has_every_code_as_a_constant(client: TestClient) -> None:
    listed = client.get(PATH).json()
    for kind, constants in (("findings", FindingCode), ("refusals", RefusalCode), ("cautions", CautionCode)):
        assert [one["code"] for one in listed[kind]] == [str(code) for code in constants]
