"""Estimates by GET: the same answer as by POST, and what the headers say to caches (RFC 9110, RFC 9111)."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any
from urllib.parse import urlencode

import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api import routes
from tepidarium_api.answer import Answer, answer_within
from tepidarium_api.app import create_app
from tepidarium_api.calculations import CALCULATIONS, Calculation
from tepidarium_api.kept_answers import LARGEST, MOST_ANSWERS, KeptAnswers
from tepidarium_api.settings import Settings

PATH = "/v1/estimates"


@pytest.fixture(scope="module")
def client() -> Iterator[TestClient[Litestar]]:
    calculations = tuple(one for one in CALCULATIONS if one.name in {"estimates", "heat-output"})
    with TestClient(create_app(Settings(processes=1, request_log=False), calculations)) as client:
        yield client


def test_a_query_says_what_a_body_says(client: TestClient[Litestar]) -> None:
    (example,) = (dict(one.example) for one in CALCULATIONS if one.name == "estimates")
    query = {name: value if isinstance(value, str) else json.dumps(value) for name, value in example.items()}
    got, posted = client.get(PATH, params=query), client.post(PATH, json=example)
    assert got.status_code == posted.status_code == 200
    assert got.content == posted.content
    assert posted.headers["cache-control"] == "no-store"
    assert "etag" not in posted.headers


def test_caches_may_keep_it_and_ask_again(client: TestClient[Litestar]) -> None:
    first = client.get(PATH, params={"floor_area": "80", "covering": "timber"})
    assert first.headers["cache-control"] == "public, max-age=3600"
    tag = first.headers["etag"]
    other_order = client.get(f"{PATH}?covering=timber&floor_area=80")
    assert other_order.headers["etag"] == tag
    for known in (tag, tag.removeprefix("W/"), f'"other", {tag}'):
        again = client.get(f"{PATH}?covering=timber&floor_area=80", headers={"If-None-Match": known})
        assert (again.status_code, again.content) == (304, b"")
        assert again.headers["etag"] == tag
    other = client.get(
        PATH, params={"floor_area": "81", "covering": "timber"}, headers={"If-None-Match": tag}
    )
    assert other.status_code == 200
    assert other.headers["etag"] != tag


def test_what_was_answered_lately_is_not_computed_again(
    client: TestClient[Litestar], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = []

    def computed(calculation: Calculation, body: bytes, accept: str, seconds: float) -> Any:
        asked.append(body)
        return answer_within(calculation, body, accept, seconds)

    monkeypatch.setattr(routes, "answer_within", computed)
    answers = [client.get(PATH, params={"floor_area": area}).content for area in ("61", "62", "61", "62")]
    assert client.post(PATH, json={"floor_area": 61}).content == answers[0] == answers[2]
    assert answers[1] == answers[3] != answers[0]
    assert [b"61" in body for body in asked] == [True, False, True]


def test_few_and_small_answers_are_kept() -> None:
    kept, small = KeptAnswers(), Answer("application/json", b"{}")
    kept.keep("", b"large", Answer("application/json", bytes(LARGEST)))
    for number in range(MOST_ANSWERS + 1):
        kept.keep("", f"{number}".encode(), small)
        kept.get("", b"0")
    found = [number for number in range(MOST_ANSWERS + 1) if kept.get("", f"{number}".encode())]
    assert found == [0, *range(2, MOST_ANSWERS + 1)]
    assert kept.get("", b"large") is None


def test_head_answers_without_a_body(client: TestClient[Litestar]) -> None:
    response = client.head(PATH, params={"floor_area": "80"})
    assert response.status_code == 200
    assert response.content == b""
    assert response.headers["etag"].startswith('W/"')


@pytest.mark.parametrize(
    ("query", "pointer"),
    [
        ({}, "/floor_area"),
        ({"floor_area": "0"}, "/floor_area"),
        ({"floor_area": "1e9"}, "/floor_area"),
        ({"floor_area": "eighty"}, "/floor_area"),
        ({"floor_area": "NaN"}, "/floor_area"),
        ({"floor_area": "80", "covering": "7"}, "/covering"),
        ({"floor_area": "80", "country": "Atlantis"}, "/country"),
        ({"floor_area": "80", "pipe": "thick"}, "/pipe"),
        ({"rooms": "[" * 5000}, "/rooms"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(
    client: TestClient[Litestar], query: dict[str, str], pointer: str
) -> None:
    response = client.get(f"{PATH}?{urlencode(query)}")
    assert response.status_code == 422
    assert response.headers["cache-control"] == "no-store"
    assert pointer in {error["pointer"] for error in response.json()["errors"]}


def test_other_calculations_have_no_get(client: TestClient[Litestar]) -> None:
    response = client.get("/v1/heat-output")
    assert response.status_code == 405
    assert response.headers["allow"] == "OPTIONS, POST"
