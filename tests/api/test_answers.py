"""The answer: its parts, its representations, its bytes."""

from __future__ import annotations

import gzip
import json
import os
import subprocess
import sys
import time
from typing import Any

import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.answer import Answer, NotFiniteError, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.negotiation import choose
from tepidarium_engine import __version__

from tests.api.sample import SAMPLE

Client = TestClient[Litestar]


def body_of(example: dict[str, Any], **changes: object) -> bytes:
    return json.dumps(example | changes).encode()


def test_an_answer_has_inputs_as_used_result_and_version(client: Client, example: dict[str, Any]) -> None:
    response = client.post("/v1/sample", json=example)
    assert response.status_code == 200
    assert response.headers["content-type"] == "application/json"
    assert response.headers["cache-control"] == "no-store"
    assert response.headers["x-content-type-options"] == "nosniff"
    result = response.json()
    assert list(result) == [
        "inputs",
        "heat_output",
        "limit_heat_output",
        "findings",
        "cautions",
        "engine_version",
    ]
    assert result["inputs"]["pipe_spacings"] == [0.1, 0.15]
    assert result["inputs"]["pipe"]["thermal_conductivity"] == 0.35
    assert result["inputs"]["outline"] == example["outline"]
    assert "workings" not in result["inputs"]
    assert result["limit_heat_output"] is None
    assert result["engine_version"] == __version__


def test_workings_come_when_asked_for(client: Client, example: dict[str, Any]) -> None:
    result = client.post("/v1/sample", json=example | {"workings": True}).json()
    assert [set(step) for step in result["workings"]] == [
        {"symbol", "name", "value", "unit", "formula", "source"}
    ]
    assert "workings" not in client.post("/v1/sample", json=example | {"workings": False}).json()


@pytest.mark.parametrize("kind", ["nan", "infinite", "optional infinite", "nan in workings"])
def test_what_is_not_finite_never_becomes_an_answer(example: dict[str, Any], kind: str) -> None:
    with pytest.raises(NotFiniteError):
        answer(SAMPLE, body_of(example, id=kind, workings=True), "")


def test_numbers_of_numpy_never_become_an_answer(example: dict[str, Any]) -> None:
    with pytest.raises(TypeError):
        answer(SAMPLE, body_of(example, id="numpy"), "")


def test_inputs_as_used_may_be_sent_again(client: Client, example: dict[str, Any]) -> None:
    first = client.post("/v1/sample", json=example)
    second = client.post("/v1/sample", json=first.json()["inputs"])
    assert first.content == second.content


@pytest.mark.parametrize(
    ("accept", "chosen"),
    [
        ("", "a/json"),
        ("*/*", "a/json"),
        ("a/json", "a/json"),
        ("A/JSON; q=0.5", "a/json"),
        ("b/csv", "b/csv"),
        ("b/*", "b/csv"),
        ("a/json;q=0.4, b/csv;q=0.6", "b/csv"),
        ("b/csv, */*;q=0.1", "b/csv"),
        ("text/html, */*;q=0.1", "a/json"),
        ("a/json;q=0, */*", "b/csv"),
        ("a/json;q=0, b/csv;q=0", None),
        ("text/html", None),
        ("a/json;q=nonsense", None),
        ("a/json;q=nan, b/csv;q=0.1", "b/csv"),
        ("b/csv;q=0.1, a/json;q=nan", "b/csv"),
        ("*/*;q=nan", None),
        ("a/json;q=inf, b/csv", "b/csv"),
        ("a/json;q=1e0, b/csv;q=.5", "b/csv"),
        ("a/json;q=-1, b/csv;q=0.001", "b/csv"),
        ("a/json;q=1_0, b/csv", "b/csv"),
        ("a/json;q=\u0661, b/csv", "b/csv"),
        ("a/json;q=7, b/csv", "a/json"),
    ],
)
def test_the_accept_header_is_read_as_rfc_9110_12_5_1_says(accept: str, chosen: str | None) -> None:
    assert choose(accept, ("a/json", "b/csv")) == chosen


def test_other_representations_by_accept(client: Client, example: dict[str, Any]) -> None:
    response = client.post("/v1/sample", json=example, headers={"accept": "text/csv"})
    assert response.text == "heat output,3.0\n"
    assert response.headers["content-type"].startswith("text/csv")
    assert response.headers["vary"] == "accept"
    refusal = client.post("/v1/sample", json=example, headers={"accept": "image/png"})
    assert refusal.status_code == 406
    assert refusal.json()["detail"] == "can be produced: application/json, text/csv"


def test_a_form_has_a_path_of_its_own(client: Client, example: dict[str, Any]) -> None:
    by_accept = client.post("/v1/sample", json=example, headers={"accept": "text/csv"})
    for accept in ("", "*/*", "text/*", "text/csv, application/problem+json"):
        response = client.post("/v1/sample/schedule", json=example, headers={"accept": accept})
        assert (response.status_code, response.content) == (200, by_accept.content)
        assert response.headers["content-type"] == by_accept.headers["content-type"]
        assert "vary" not in response.headers
    refusal = client.post("/v1/sample/schedule", json=example, headers={"accept": "application/json"})
    assert refusal.status_code == 406
    assert refusal.json()["detail"] == "can be produced: text/csv"
    fault = client.post("/v1/sample/schedule", json=example | {"pipe_spacing": 150})
    assert (fault.status_code, fault.headers["content-type"]) == (422, "application/problem+json")


LARGE = {"outline": [[number + 0.015625, 0.015625] for number in range(256)]}


@pytest.mark.parametrize(
    ("accept_encoding", "packed"),
    [
        ("gzip", True),
        ("gzip, deflate, br, zstd", True),
        ("*", True),
        ("x-gzip", True),
        ("br, gzip;q=0.001", True),
        ("GZIP;Q=1.0", True),
        ("", False),
        ("br", False),
        ("identity", False),
        ("gzip;q=0", False),
        ("gzip;q=0, *", False),
        ("gzip;q=nan", False),
        ("*;q=0", False),
        ("gzip;q=0.5, identity", False),
    ],
)
def test_large_answers_are_packed_for_who_asks(
    client: Client, example: dict[str, Any], accept_encoding: str, packed: bool
) -> None:
    """RFC 9110, 12.5.3: ``q=0`` is a refusal, ``*`` is any coding that is not named."""
    plain = client.post("/v1/sample", json=example | LARGE, headers={"accept-encoding": "identity"})
    assert len(plain.content) > 4096
    asked: Any = {"accept-encoding": accept_encoding}
    with client.stream("POST", "/v1/sample", json=example | LARGE, headers=asked) as response:
        raw = b"".join(response.iter_raw())
    assert response.headers.get("content-encoding") == ("gzip" if packed else None)
    assert (gzip.decompress(raw) if packed else raw) == plain.content
    assert int(response.headers["content-length"]) == len(raw)
    assert response.headers["vary"] == "accept, accept-encoding"
    assert not packed or len(raw) < len(plain.content) / 2


def test_documents_are_packed_and_small_answers_are_not(client: Client, example: dict[str, Any]) -> None:
    for path in ("/openapi.json", "/docs/swagger-ui-bundle.js", "/v1/limits"):
        response = client.get(path, headers={"accept-encoding": "gzip"})
        assert response.headers["content-encoding"] == "gzip"
        assert response.headers["vary"] == "accept-encoding"
        assert response.content == client.get(path, headers={"accept-encoding": "identity"}).content
        head = client.head(path, headers={"accept-encoding": "gzip"})
        assert head.headers["content-length"] == response.headers["content-length"]
    small = client.post("/v1/sample", json=example, headers={"accept-encoding": "gzip"})
    assert "content-encoding" not in small.headers
    assert "content-encoding" not in client.get("/docs/nothing", headers={"accept-encoding": "gzip"}).headers


def test_the_same_answer_is_packed_to_the_same_bytes(client: Client, example: dict[str, Any]) -> None:
    def raw() -> bytes:
        asked = {"accept-encoding": "gzip"}
        with client.stream("POST", "/v1/sample", json=example | LARGE, headers=asked) as response:
            return b"".join(response.iter_raw())

    first = raw()
    time.sleep(1.1)  # the header of gzip may hold the time
    assert raw() == first


def test_light_heavy_and_large_requests_get_the_same_bytes(running: Client, example: dict[str, Any]) -> None:
    light = running.post("/v1/sample", json=example).content
    assert running.post("/v1/heavy-sample", json=example).content == light
    large = json.dumps(example).encode().ljust(200_000)
    headers = {"content-type": "application/json"}
    assert running.post("/v1/sample", content=large, headers=headers).content == light


def test_the_bytes_do_not_depend_on_the_seed_of_hashes(example: dict[str, Any]) -> None:
    """Answers of one calculation and refusals of all; ``contract/test_same_bytes`` compares the answers of all."""
    program = (
        "import sys\n"
        "from tests.api.sample import SAMPLE\n"
        "from tepidarium_api.answer import answer\n"
        "from tepidarium_api.calculations import CALCULATIONS\n"
        "import msgspec\n"
        "body = msgspec.json.encode({**SAMPLE.example, 'workings': True})\n"
        "sys.stdout.buffer.write(answer(SAMPLE, body, '').content)\n"
        "for item in (SAMPLE, *CALCULATIONS):\n"
        "    body = msgspec.json.encode(dict(item.example))\n"
        '    print(answer(item, body[:-1] + b\',"x":1,"y":2,"z":3}\', \'\'))\n'
    )
    outputs = set()
    for seed in ("0", "1", "7"):
        environment = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        done = subprocess.run(
            [sys.executable, "-c", program], env=environment, capture_output=True, check=True
        )
        outputs.add(done.stdout)
    assert len(outputs) == 1
    assert len(next(iter(outputs))) > 1000


def test_every_example_of_the_registry_has_an_answer() -> None:
    for item in CALCULATIONS:
        for media_type in ("application/json", *item.media_types):
            outcome = answer(item, json.dumps(dict(item.example)).encode(), media_type)
            assert isinstance(outcome, Answer), (item.name, outcome)
            assert outcome.media_type == media_type
