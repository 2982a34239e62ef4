"""Keys, rates, open requests of a client, figures for the operator, headers of every answer."""

from __future__ import annotations

import asyncio
import hashlib
import io
import json
from pathlib import Path
from typing import Any

import httpx
import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api import access
from tepidarium_api.access import Keys, Rates
from tepidarium_api.app import create_app
from tepidarium_api.open_requests import OpenRequests
from tepidarium_api.settings import Settings, SettingsError
from tepidarium_api.turns import Turns

from tests.api.sample import SAMPLES
from tests.api.test_server import free_port

KEY = "a-key-for-tests-only"


def client(**settings: Any) -> TestClient[Litestar]:
    return TestClient(create_app(Settings(**settings), SAMPLES, io.BytesIO()))


@pytest.fixture
def key_file(tmp_path: Path) -> str:
    file = tmp_path / "keys"
    file.write_text(f"# keys\n\n{hashlib.sha256(KEY.encode()).hexdigest()} a merchant\n")
    return str(file)


def test_calculations_need_a_known_key_and_documents_none(key_file: str, example: dict[str, Any]) -> None:
    guarded = client(api_keys=key_file)
    for headers in ({}, {"x-api-key": "another"}, {"x-api-key": ""}, {"x-api-key": KEY[:-1]}):
        refused = guarded.post("/v1/sample", json=example, headers=headers)
        assert refused.status_code == 401
        assert refused.json()["type"] == "/problems/key-needed"
        assert refused.json()["instance"] == f"urn:uuid:{refused.headers['x-request-id']}"
        assert "www-authenticate" in refused.headers
    assert guarded.post("/v1/sample", json=example, headers={"x-api-key": KEY}).status_code == 200
    assert guarded.get("/openapi.json").status_code == guarded.get("/health/live").status_code == 200
    assert client().post("/v1/sample", json=example).status_code == 200


def test_a_page_may_read_that_its_key_is_missing(key_file: str, example: dict[str, Any]) -> None:
    page = {"origin": "https://shop.example"}
    guarded = client(api_keys=key_file, cors_origins=("https://shop.example",))
    answer = guarded.post("/v1/sample", json=example, headers=page)
    assert answer.headers["access-control-allow-origin"] == page["origin"]
    asked = guarded.options("/v1/sample", headers=page | {"access-control-request-method": "POST"})
    assert asked.status_code == 204  # browsers send no key with this one


@pytest.mark.parametrize("content", ["no-hash x", "ab" * 31, "zz" * 32])
def test_a_file_of_keys_that_cannot_be_used_is_said(tmp_path: Path, content: str) -> None:
    file = tmp_path / "keys"
    file.write_text(f"\n{content}\n")
    with pytest.raises(SettingsError, match="line 2"):
        Keys(str(file))
    with pytest.raises(SettingsError, match="cannot be read"):
        Keys(str(tmp_path / "none"))


def test_a_client_has_a_rate(monkeypatch: pytest.MonkeyPatch) -> None:
    now = [100.0]
    monkeypatch.setattr(access, "monotonic", lambda: now[0])
    rates = Rates(5.0)
    assert [rates.allows("a") for _ in range(11)] == [True] * 10 + [False]
    assert rates.allows("b")
    now[0] += 0.4
    assert [rates.allows("a") for _ in range(3)] == [True, True, False]
    assert all(Rates(0.0).allows("a") for _ in range(1000))


def test_beyond_the_rate_is_429(example: dict[str, Any]) -> None:
    limited = client(client_rate=1.0)
    answers = [limited.post("/v1/sample", json=example) for _ in range(4)]
    assert [answer.status_code for answer in answers[:2]] == [200, 200]
    assert answers[3].status_code == 429
    assert answers[3].json()["type"] == "/problems/too-many-requests"
    assert int(answers[3].headers["retry-after"]) >= 1
    assert limited.get("/health/live").status_code == 200


def test_open_requests_are_counted_by_client() -> None:
    open_requests = OpenRequests(1)
    assert (open_requests.begin("a"), open_requests.begin("a")) == (True, False)
    assert open_requests.begin("b")
    open_requests.end("a")
    assert open_requests.begin("a")


def test_a_trusted_proxy_names_the_client(example: dict[str, Any]) -> None:
    for trusted, second in ((("testclient",), 200), ((), 429)):
        behind = client(client_rate=0.5, trusted_proxies=trusted)
        statuses = [
            behind.post("/v1/sample", json=example, headers={"x-forwarded-for": address}).status_code
            for address in ("192.0.2.1", "192.0.2.2")
        ]
        assert statuses == [200, second]


def test_every_answer_says_little_of_the_server(example: dict[str, Any]) -> None:
    answer = client().post("/v1/sample", json=example)
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["referrer-policy"] == "no-referrer"
    assert answer.headers["server"] == ""


def test_large_answers_arrive_whole() -> None:
    plain = client().get("/docs/swagger-ui-bundle.js", headers={"accept-encoding": "identity"})
    assert len(plain.content) == int(plain.headers["content-length"]) > 1_000_000
    assert plain.content == client().get("/docs/swagger-ui-bundle.js").content


def test_figures_are_served_on_their_port(example: dict[str, Any]) -> None:
    port, log = free_port(), io.BytesIO()
    with TestClient(create_app(Settings(processes=1, metrics_port=port), SAMPLES, log)) as running:
        for path in ("/v1/sample", "/v1/none", "/v1/none/2"):
            running.post(path, json=example)
        for _ in range(100):
            try:
                text = httpx.get(f"http://127.0.0.1:{port}/metrics").text
                break
            except httpx.TransportError:
                pass
    assert 'tepidarium_requests_total{route="/v1/sample",status="200"} 1.0' in text
    assert 'tepidarium_requests_total{route="unmatched",status="404"} 2.0' in text
    assert 'tepidarium_problems_total{problem="not-found"} 2.0' in text
    assert "tepidarium_queue_length 0.0" in text
    assert 'tepidarium_request_seconds_count{route="/v1/sample"} 1.0' in text
    started = json.loads(log.getvalue().splitlines()[0])
    assert started["event"] == "started"
    assert started["settings"]["metrics_port"] == port


def test_light_work_takes_turns() -> None:
    """Of ten calculations that are ready at once a probe waits for those of one round only."""

    async def drill() -> None:
        turns, order = Turns(0.0), list[str]()

        async def probe() -> None:
            await asyncio.sleep(0)
            order.append("probe")

        tasks = [asyncio.ensure_future(turns.run(lambda: order.append("work"))) for _ in range(10)]
        tasks.append(asyncio.ensure_future(probe()))
        await asyncio.gather(*tasks)
        assert order.count("work") == 10
        assert order.index("probe") <= 2

    asyncio.run(drill())
