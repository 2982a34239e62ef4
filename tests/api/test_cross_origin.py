"""What a browser needs before a page from another origin may read an answer (Fetch standard, CORS protocol)."""

from __future__ import annotations

import io
from typing import Any

import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.app import create_app
from tepidarium_api.settings import Settings, SettingsError

from tests.api.sample import SAMPLES

PAGE = "https://shop.example"
ASKS = {
    "origin": PAGE,
    "access-control-request-method": "POST",
    "access-control-request-headers": "content-type",
}


def client(*origins: str) -> TestClient[Litestar]:
    return TestClient(create_app(Settings(cors_origins=origins), SAMPLES, io.BytesIO()))


def cors(response: Any) -> dict[str, str]:
    return {name: value for name, value in response.headers.items() if name.startswith("access-control-")}


def test_no_page_may_read_without_the_setting(example: dict[str, Any]) -> None:
    closed = client()
    assert not cors(closed.options("/v1/sample", headers=ASKS))
    answer = closed.post("/v1/sample", json=example, headers={"origin": PAGE})
    assert answer.status_code == 200
    assert not cors(answer)
    assert "origin" not in answer.headers["vary"]


def test_a_page_of_the_setting_may_ask_and_read(example: dict[str, Any]) -> None:
    open_to = client("http://localhost:5173", PAGE)
    asked = open_to.options("/v1/sample", headers=ASKS)
    assert asked.status_code == 204
    allowed = cors(asked)
    assert allowed["access-control-allow-origin"] == PAGE
    assert "POST" in allowed["access-control-allow-methods"]
    assert {"content-type", "x-api-key"} <= set(allowed["access-control-allow-headers"].split(", "))
    assert "access-control-allow-credentials" not in allowed
    for body in (example, {"wrong": 1}):  # a problem must be readable as well
        answer = open_to.post("/v1/sample", json=body, headers={"origin": PAGE})
        assert cors(answer)["access-control-allow-origin"] == PAGE
        assert "retry-after" in cors(answer)["access-control-expose-headers"]
        assert "origin" in answer.headers["vary"].split(", ")
    assert "accept" in open_to.post("/v1/sample", json=example, headers={"origin": PAGE}).headers["vary"]
    assert cors(open_to.get("/v1/none", headers={"origin": PAGE}))["access-control-allow-origin"] == PAGE


@pytest.mark.parametrize(
    "origin", ["https://shop.example.evil.example", "https://shopXexample", "null", "http://shop.example"]
)
def test_other_pages_may_not(example: dict[str, Any], origin: str) -> None:
    only = client(PAGE)
    assert not cors(only.options("/v1/sample", headers=ASKS | {"origin": origin}))
    answer = only.post("/v1/sample", json=example, headers={"origin": origin})
    assert not cors(answer)
    assert "origin" in answer.headers["vary"]


def test_a_cache_cannot_serve_a_page_what_another_client_got() -> None:
    assert "origin" in client(PAGE).get("/openapi.json").headers["vary"]


def test_all_pages_may_by_a_star(example: dict[str, Any]) -> None:
    answer = client("*").post("/v1/sample", json=example, headers={"origin": "null"})
    assert cors(answer)["access-control-allow-origin"] == "*"
    assert "origin" not in answer.headers["vary"]


def test_origins_come_from_the_environment() -> None:
    read = Settings.from_environment({"TEPIDARIUM_CORS_ORIGINS": f"{PAGE}, http://[::1]:8080"})
    assert read.cors_origins == (PAGE, "http://[::1]:8080")
    assert Settings.from_environment({"TEPIDARIUM_CORS_ORIGINS": ""}).cors_origins == ()
    for wrong in ("shop.example", f"{PAGE}/", "https://*.example", "https://shop.example/page"):
        with pytest.raises(SettingsError, match="TEPIDARIUM_CORS_ORIGINS"):
            Settings.from_environment({"TEPIDARIUM_CORS_ORIGINS": wrong})
