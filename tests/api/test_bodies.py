"""What may come in as a body: everything else gets a problem document that points to the field."""

from __future__ import annotations

import asyncio
import json
import re
from typing import Any

import hypothesis.strategies as st
import pytest
from hypothesis import given
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.answer import answer
from tepidarium_api.calculations.hydraulics import HYDRAULICS
from tepidarium_api.problems import Problem
from tepidarium_api.unreadable import unreadable

Client = TestClient[Litestar]
JSON = {"content-type": "application/json"}
NUMBERS = ("pipe_spacing", "room_temperature")


def post(client: Client, body: Any, **headers: str) -> Any:
    content = body if isinstance(body, bytes) else json.dumps(body).encode()
    return client.post("/v1/sample", content=content, headers=JSON | headers)


def pointers(response: Any) -> list[tuple[str, str]]:
    return [(error["pointer"], error["code"]) for error in response.json()["errors"]]


def refused(response: Any, status: int, slug: str) -> dict[str, Any]:
    document: dict[str, Any] = response.json()
    assert response.status_code == status, document
    assert response.headers["content-type"] == "application/problem+json"
    assert document["type"] == f"/problems/{slug}"
    assert document["status"] == status
    assert len(response.content) <= 8192
    return document


@pytest.mark.parametrize("wrong", ["1", "nan", "inf", True, None, [], {}])
@pytest.mark.parametrize("name", NUMBERS)
def test_a_number_is_nothing_but_a_number(
    client: Client, example: dict[str, Any], name: str, wrong: object
) -> None:
    response = post(client, example | {name: wrong})
    refused(response, 422, "invalid-input")
    assert pointers(response) == [(f"/{name}", "type")]


@pytest.mark.parametrize(
    "literal", [b"NaN", b"Infinity", b"-Infinity", b"1e400", b"0x1", b"1_0", b".5", b"+1", b"01"]
)
def test_a_number_is_written_as_json_writes_it(client: Client, literal: bytes) -> None:
    body = b'{"outline": [[0, 0], [4, 0], [4, 3]], "pipe_spacing": ' + literal + b"}"
    assert post(client, body).status_code in {400, 422}


@pytest.mark.parametrize("digits", [20, 400, 5000])
@pytest.mark.parametrize("name", [*NUMBERS, "whole"])
def test_integers_of_any_length_are_out_of_bounds(
    client: Client, example: dict[str, Any], name: str, digits: int
) -> None:
    body = (
        json.dumps(example | {name: 0})
        .encode()
        .replace(f'"{name}": 0'.encode(), f'"{name}": {"9" * digits}'.encode())
    )
    assert post(client, body).status_code in {400, 422}


def test_a_count_has_no_decimals(client: Client, example: dict[str, Any]) -> None:
    assert pointers(post(client, example | {"whole": 3.5})) == [("/whole", "type")]
    assert pointers(post(client, example | {"whole": 3.0})) == [("/whole", "type")]


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("pipe_spacing", 0.03, 0.6), ("room_temperature", -10.0, 45.0), ("whole", 0, 1_000_000)],
)
def test_bounds_hold_at_their_edges_and_name_the_unit(
    client: Client, example: dict[str, Any], name: str, low: float, high: float
) -> None:
    step = 1 if name == "whole" else 1e-6
    unit = {"pipe_spacing": " m", "room_temperature": " °C", "whole": ""}[name]
    for inside in (low, low + step, high - step, high):
        assert post(client, example | {name: inside}).status_code == 200
    for outside, code, limit in (
        (low - step, "too_small", low),
        (high + step, "too_large", high),
        (1e308, "too_large", high),
    ):
        response = post(client, example | {name: int(outside) if name == "whole" else outside})
        (error,) = response.json()["errors"]
        assert (error["pointer"], error["code"], error["limit"]) == (f"/{name}", code, limit)
        assert unit in error["detail"]
        assert str(outside) not in error["detail"]


def test_metres_are_not_millimetres(client: Client, example: dict[str, Any]) -> None:
    (error,) = post(client, example | {"pipe_spacing": 150}).json()["errors"]
    assert error["detail"] == "must be at most 0.6 m; the field is read in m"


@pytest.mark.parametrize(
    ("place", "written", "meant"),
    [
        ("", "pipeSpacing", "pipe_spacing"),
        ("", "pipe-spacing", "pipe_spacing"),
        ("", "pipe_spacng", "pipe_spacing"),
        ("/pipe", "diameter", "outside_diameter"),
        ("/pipe", "colour", None),
        ("", "qqqq", None),
    ],
)
def test_a_name_close_to_a_field_leads_to_it(
    client: Client, example: dict[str, Any], place: str, written: str, meant: str | None
) -> None:
    pipe = {"outside_diameter": 0.017, "wall_thickness": 0.002}
    body = example | {"pipe": pipe | {written: 0.1}} if place else example | {written: 0.1}
    (error,) = post(client, body).json()["errors"]
    assert (error["pointer"], error["code"]) == (f"{place}/{written}", "unknown_field")
    named = error["detail"].partition("did you mean ")[2].removesuffix("?")
    assert meant in named.split(" or ") if meant else not named


def test_a_share_in_per_cent_is_explained() -> None:
    fluid = {"kind": "propylene_glycol", "concentration": 35}
    found = answer(
        HYDRAULICS, json.dumps({**HYDRAULICS.example, "fluid": fluid}).encode(), "application/json"
    )
    assert isinstance(found, Problem)
    (error,) = found.errors or ()
    assert (error.pointer, error.limit) == ("/fluid/concentration", 0.6)
    assert "0.3 stands for 30 %" in error.detail


def test_all_faults_come_at_once_with_exact_pointers(client: Client, example: dict[str, Any]) -> None:
    body = example | {
        "pipe": {"outside_diameter": 17, "wall_thickness": 0.002, "colour": "red"},
        "spare_pipe": {"outside_diameter": 0.017, "roughness": "smooth"},
        "outline": [[0, 0], [1, 2, 3], ["x", 1], [1]],
        "pipe_spacings": [0.1, 9],
        "severity": "dire",
        "day": "2026-02-31",
        "id": "x" * 65,
    }
    del body["pipe_spacing"]
    response = post(client, body)
    refused(response, 422, "invalid-input")
    assert set(pointers(response)) == {
        ("/pipe_spacing", "missing"),
        ("/pipe/outside_diameter", "too_large"),
        ("/pipe/colour", "unknown_field"),
        ("/spare_pipe/wall_thickness", "missing"),
        ("/spare_pipe/roughness", "type"),
        ("/outline/1", "too_many"),
        ("/outline/2/0", "type"),
        ("/outline/3", "too_few"),
        ("/pipe_spacings/1", "too_large"),
        ("/severity", "choice"),
        ("/day", "date"),
        ("/id", "text_length"),
    }


def test_dates_have_bounds_too(client: Client, example: dict[str, Any]) -> None:
    assert post(client, example | {"day": "2026-02-28"}).status_code == 200
    assert pointers(post(client, example | {"day": "0001-01-01"})) == [("/day", "date_range")]


def test_lists_have_lengths(client: Client, example: dict[str, Any]) -> None:
    points = [[float(number), 0.5] for number in range(257)]
    assert post(client, example | {"outline": points[:256]}).status_code == 200
    assert pointers(post(client, example | {"outline": points})) == [("/outline", "too_many")]
    assert post(client, example | {"outline": points[:3]}).status_code == 200
    assert pointers(post(client, example | {"outline": points[:2]})) == [("/outline", "too_few")]
    assert pointers(post(client, example | {"outline": []})) == [("/outline", "too_few")]


def test_faults_of_the_engine_come_in_the_same_shape(client: Client, example: dict[str, Any]) -> None:
    response = post(client, example | {"id": "fault"})
    refused(response, 422, "invalid-input")
    assert response.json()["errors"] == [
        {"pointer": "/id", "code": "made_up", "detail": "does not please", "limit": 1.5}
    ]


def test_at_most_twenty_faults_are_listed_and_the_count_is_said(
    client: Client, example: dict[str, Any]
) -> None:
    document = refused(post(client, example | {"id": "many faults"}), 422, "invalid-input")
    assert len(document["errors"]) == 20
    assert document["detail"] == "more than 20 fields are at fault; the first are listed"


def test_documents_stay_small_whatever_was_sent(running: Client, example: dict[str, Any]) -> None:
    names = {f"{'n' * 60}{number:04}": 1 for number in range(2000)}
    long_names = {"/" * 5000: 1, "~\u0000<script>": 1}
    document = refused(post(running, example | names | long_names), 422, "invalid-input")
    assert "script" not in json.dumps(document)


@pytest.mark.parametrize("depth", [10, 999, 1000, 100_000])
@pytest.mark.parametrize("name", ["pipe_spacing", "unknown"])
def test_deep_nesting_is_refused(running: Client, example: dict[str, Any], name: str, depth: int) -> None:
    inner = b"[" * depth + b"]" * depth
    body = json.dumps(example | {name: "HERE"}).encode().replace(b'"HERE"', inner)
    assert post(running, body).status_code in {400, 422}
    assert post(running, b"[" * depth).status_code == 400


@pytest.mark.parametrize("bad", [b"\xff", b"\xc0\x80", b"\xed\xa0\x80"])
def test_text_is_utf8(client: Client, bad: bytes) -> None:
    template = b'{"pipe_spacing": 0.1, "outline": [[0, 0], [4, 0], [4, 3]], %s}'
    refused(post(client, template % (b'"id": "' + bad + b'"')), 400, "unreadable-body")
    assert post(client, template % (b'"' + bad + b'": 1')).status_code in {400, 422}


@pytest.mark.parametrize(
    "body", [b"", b" ", b"{", b'{"a":1', b"[1", b"{}{}", b"\xef\xbb\xbf{}", b"{'a': 1}", b"nul"]
)
def test_what_is_not_json_cannot_be_read(client: Client, body: bytes) -> None:
    refused(post(client, body), 400, "unreadable-body")


@pytest.mark.parametrize(
    ("body", "place"),
    [
        ('{"a": 1,\n "b" 2}', (2, 6)),
        ('{"a": 1\n "b": 2}', (2, 2)),
        ('{"a": 1,\r\n\r\n  "b": x}', (3, 8)),
        ("[1,\n 2,\n  x]", (3, 3)),
        ("[1 2]", (1, 4)),
        ("[1, 2,]", (1, 7)),
        ('{"a": 1}}', (1, 9)),
        ("{} {}", (1, 4)),
        ("{'a': 1}", (1, 2)),
        ('{"a": NaN}', (1, 7)),
        ('{"ä": "ö",\n"ü": x}', (2, 6)),
        ('\ufeff{"a": 1}', (1, 1)),
        ('{"a": "b\nc"}', (1, 9)),
        ('{"a": [1, 2', (1, 12)),
        ('{\n  "a": 1\n', (2, 9)),
        ('{"a": "1e999",\n "b": 1e999}', (2, 7)),
        ('{"a": 1, "b":\n [1, 2, 1e400]}', (2, 9)),
    ],
)
def test_what_is_not_json_has_a_line_and_a_column(client: Client, body: str, place: tuple[int, int]) -> None:
    """Counted as an editor counts: lines end with a line feed, columns are characters, both from 1."""
    document = refused(post(client, body.encode()), 400, "unreadable-body")
    line, column = place
    assert f" at line {line}, column {column}: " in document["detail"], document["detail"]


def fault_of(text: str) -> json.JSONDecodeError | None:
    try:
        json.loads(text)
    except json.JSONDecodeError as fault:
        return fault
    return None


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers(-999, 999) | st.text(st.sampled_from('aé"\\ \n'), max_size=4),
        lambda inner: (
            st.lists(inner, max_size=4) | st.dictionaries(st.text("bö", max_size=2), inner, max_size=3)
        ),
    ),
    st.sampled_from([None, 1]),
    st.sampled_from(list("}]:,x")),
    st.data(),
)
def test_the_place_agrees_with_another_reader(
    value: Any, indent: int | None, put: str, data: st.DataObject
) -> None:
    """Against the json module of the standard library, for one character too many between two others.

    They differ where a word is cut: there the library names its first letter, the service the letter at fault.
    """
    text = json.dumps([value], indent=indent, ensure_ascii=False)
    at = data.draw(st.integers(0, len(text)))
    body = text[:at] + put + text[at:]
    fault = fault_of(body)
    if fault is not None:
        (place,) = re.findall(r"line (\d+), column (\d+): ", unreadable(body.encode()).detail)
        line, column = map(int, place)
        assert line == fault.lineno
        assert 0 <= column - fault.colno <= len("false")


def test_half_a_pair_of_surrogates_is_not_taken_for_an_end(client: Client) -> None:
    document = refused(post(client, b'{"id": "\\ud800"}'), 400, "unreadable-body")
    assert "surrogate" in document["detail"]


@pytest.mark.parametrize("body", [[], "text", 1, None, True])
def test_the_top_level_is_an_object(client: Client, body: object) -> None:
    response = post(client, body)
    refused(response, 422, "invalid-input")
    assert pointers(response) == [("", "type")]


def test_renaming_any_field_is_noticed(client: Client, example: dict[str, Any]) -> None:
    for name in example:
        body = {(f"{key}_" if key == name else key): value for key, value in example.items()}
        assert set(pointers(post(client, body))) == {(f"/{name}", "missing"), (f"/{name}_", "unknown_field")}


def test_of_a_name_that_stands_twice_the_last_counts(client: Client) -> None:
    body = b'{"pipe_spacing": 0.5, "outline": [[0, 0], [4, 0], [4, 3]], "pipe_spacing": 0.1}'
    assert post(client, body).json()["inputs"]["pipe_spacing"] == 0.1


@pytest.mark.parametrize("zero", [b"-0", b"-0.0", b"-0e0", b"-1e-400"])
def test_there_is_no_negative_zero(client: Client, zero: bytes) -> None:
    body = b'{"pipe_spacing": 0.1, "outline": [[0, ' + zero + b"], [4, 0], [4, 3]]}"
    response = post(client, body)
    assert response.status_code == 200
    assert b"-0" not in response.content.partition(b'"day"')[0]


@pytest.mark.parametrize(
    "media_type",
    [
        "",
        "json",
        "text/json",
        "text/plain",
        "application/*",
        "application/jsonx",
        "application/problem+json",
        "application/yaml",
        "application/x-www-form-urlencoded",
        "multipart/form-data; boundary=x",
        "application/json; charset=latin-1",
        "application/json; charset=utf-16",
    ],
)
def test_other_media_types_are_refused(client: Client, example: dict[str, Any], media_type: str) -> None:
    response = client.post("/v1/sample", content=json.dumps(example), headers={"content-type": media_type})
    refused(response, 415, "unsupported-media-type")


def test_two_media_types_are_none(client: Client, example: dict[str, Any]) -> None:
    for second in ("text/plain", "application/json"):
        headers = [("content-type", "application/json"), ("content-type", second)]
        response = client.post("/v1/sample", content=json.dumps(example), headers=headers)
        refused(response, 415, "unsupported-media-type")


@pytest.mark.parametrize(
    "media_type", ["application/json", "Application/JSON; charset=UTF-8", 'application/json;charset="utf-8"']
)
def test_json_in_utf8_is_welcome(client: Client, example: dict[str, Any], media_type: str) -> None:
    response = client.post("/v1/sample", content=json.dumps(example), headers={"content-type": media_type})
    assert response.status_code == 200


@pytest.mark.parametrize(
    "codings",
    [["gzip"], ["br"], ["deflate"], ["gzip, gzip"], ["zstd"], ["gzip", "identity"], ["identity", "br"]],
)
def test_bodies_are_not_encoded(client: Client, example: dict[str, Any], codings: list[str]) -> None:
    headers = [("content-type", "application/json"), *(("content-encoding", coding) for coding in codings)]
    response = client.post("/v1/sample", content=json.dumps(example), headers=headers)
    refused(response, 415, "unsupported-media-type")
    assert response.headers["accept-encoding"] == "identity"


LIMIT = 256 * 1024


@pytest.mark.parametrize("chunked", [False, True])
@pytest.mark.parametrize("size", [LIMIT - 1, LIMIT, LIMIT + 1, 3 * LIMIT])
def test_the_body_limit_holds_to_the_byte(
    running: Client, example: dict[str, Any], chunked: bool, size: int
) -> None:
    body = json.dumps(example).encode().ljust(size)
    pieces = (body[start : start + 10_000] for start in range(0, size, 10_000))
    response = running.post("/v1/sample", content=pieces if chunked else body, headers=JSON)
    if size <= LIMIT:
        assert response.status_code == 200
    else:
        refused(response, 413, "body-too-large")


def exchange(app: Litestar, *messages: dict[str, Any], headers: dict[str, str] = JSON) -> tuple[int, bytes]:
    """Speak ASGI directly: the messages, then silence."""

    async def main() -> tuple[int, bytes]:
        waiting = list(messages)
        sent: list[Any] = []

        async def receive() -> Any:
            if waiting:
                return waiting.pop(0)
            return await asyncio.sleep(3600)

        async def send(message: Any) -> None:
            sent.append(message)

        scope = {
            "type": "http",
            "method": "POST",
            "path": "/v1/sample",
            "query_string": b"",
            "headers": [(name.encode(), value.encode()) for name, value in headers.items()],
            "state": {},
        }
        await app(scope, receive, send)  # type: ignore[arg-type]
        return sent[0]["status"], sent[1]["body"]

    return asyncio.run(main())


def test_half_a_body_is_never_computed(app: Litestar, example: dict[str, Any]) -> None:
    whole = json.dumps(example).encode()
    part = {"type": "http.request", "body": whole, "more_body": True}
    status, content = exchange(app, part, {"type": "http.disconnect"})
    assert status == 400
    assert json.loads(content)["type"] == "/problems/unreadable-body"


def test_a_body_that_does_not_arrive_is_given_up(app: Litestar) -> None:
    status, content = exchange(app, {"type": "http.request", "body": b"{", "more_body": True})
    assert status == 408
    assert json.loads(content)["type"] == "/problems/body-timeout"


def test_a_list_full_of_faults_is_answered_with_those_that_are_listed(
    client: Client, example: dict[str, Any]
) -> None:
    """Only so many are looked for: to find thousands takes as long as a heavy calculation."""
    good, bad = [0.0, 0.0], [0.0, "x"]
    document = post(client, example | {"outline": [good] * 100 + [bad] * 3 + [good] + [bad]}).json()
    assert [error["pointer"] for error in document["errors"]] == [
        "/outline/100/1",
        "/outline/101/1",
        "/outline/102/1",
        "/outline/104/1",
    ]
    document = post(client, example | {"outline": [good] * 7 + [bad] * 100}).json()
    assert [error["pointer"] for error in document["errors"]] == [f"/outline/{n}/1" for n in range(7, 27)]
    assert document["detail"].startswith("more than 20")
