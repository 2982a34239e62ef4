"""What surrounds the calculations: problems of every status, request ids, logs, probes, lists, settings."""

from __future__ import annotations

import io
import json
import uuid
from typing import Any

import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.app import create_app
from tepidarium_api.problems import PROBLEM_TYPES
from tepidarium_api.settings import Settings, SettingsError

from tests.api.conftest import SETTINGS
from tests.api.sample import SAMPLES

Client = TestClient[Litestar]


def problem_of(response: Any, status: int, slug: str) -> dict[str, Any]:
    document: dict[str, Any] = response.json()
    kind = PROBLEM_TYPES[slug]
    assert response.status_code == status == kind.status
    assert response.headers["content-type"] == "application/problem+json"
    assert document["type"] == f"/problems/{slug}"
    assert document["title"] == kind.title
    assert document["instance"] == f"urn:uuid:{response.headers['x-request-id']}"
    return document


def test_unknown_paths(client: Client) -> None:
    for path in ("/v1", "/v1/heat", "/docs/nothing", "/v1/sample/more", "/%00", "/problems/none"):
        problem_of(client.get(path), 404, "not-found")


@pytest.mark.parametrize(
    ("wrong", "right"),
    [
        ("/v1/sampel", "/v1/sample"),
        ("/sample", "/v1/sample"),
        ("/api/v1/sample/", "/v1/sample"),
        ("/v2/heavy_sample", "/v1/heavy-sample"),
        ("/V1/LIMITS", "/v1/limits"),
        ("/v1/sample/shedule", "/v1/sample/schedule"),
        ("/openapi", "/openapi.json"),
        ("/healthz/live", "/health/live"),
    ],
)
def test_a_mistaken_path_is_answered_with_the_right_one(client: Client, wrong: str, right: str) -> None:
    document = problem_of(client.post(wrong, json={}), 404, "not-found")
    assert document["detail"].startswith(f"Did you mean {right}? ")
    assert "/docs" in document["detail"]


@pytest.mark.parametrize("path", ["/wp-login.php", "/" + "v1/sample" * 20, "/%3Cscript%3E"])
def test_a_path_from_elsewhere_is_not_guessed_at(client: Client, path: str) -> None:
    assert "mean" not in problem_of(client.get(path), 404, "not-found")["detail"]


def methods_of(response: Any) -> set[str]:
    return {word.strip() for word in response.headers["allow"].split(",")}


def test_other_methods_are_told_which_are_allowed(client: Client) -> None:
    for method in ("GET", "PUT", "PATCH", "DELETE", "HEAD"):
        for path in ("/v1/sample", "/v1/sample/schedule"):
            response = client.request(method, path)
            assert response.status_code == 405
            assert methods_of(response) == {"OPTIONS", "POST"}
    assert "POST" in problem_of(client.get("/v1/sample"), 405, "method-not-allowed")["detail"]
    assert "GET" in problem_of(client.delete("/v1/limits"), 405, "method-not-allowed")["detail"]
    assert methods_of(client.delete("/v1/limits")) == {"GET", "HEAD", "OPTIONS"}


def paths_of(app: Litestar) -> list[str]:
    return sorted(route.path_format.replace("{slug}", "not-found") for route in app.routes)


def test_every_path_tells_its_methods_and_answers_head_where_it_answers_get(app: Litestar) -> None:
    client = TestClient(app)
    assert len(paths_of(app)) > 12
    for path in paths_of(app):
        options = client.options(path)
        assert (options.status_code, options.content) == (204, b""), path
        got, head = client.get(path), client.head(path)
        assert head.content == b""
        assert head.status_code == got.status_code
        varying = {"x-request-id"}
        assert {k: v for k, v in head.headers.items() if k not in varying} == {
            k: v for k, v in got.headers.items() if k not in varying
        }, path
        expected = {"OPTIONS", "POST"} if got.status_code == 405 else {"GET", "HEAD", "OPTIONS"}
        assert methods_of(options) == expected, path
    posts = [path for path in paths_of(app) if "POST" in methods_of(client.options(path))]
    assert posts == ["/v1/heavy-sample", "/v1/heavy-sample/schedule", "/v1/sample", "/v1/sample/schedule"]
    for path in posts:
        assert client.options(path).headers["accept-post"] == "application/json"
    assert client.options("/v1/none").status_code == 404


def test_the_top_leads_to_the_documents(client: Client) -> None:
    top = client.get("/")
    assert top.headers["content-type"] == "application/json"
    for name, path in top.json().items():
        if name not in {"engine_version", "ready"}:
            assert client.get(path).status_code == 200, name
    for relation in ('</openapi.json>; rel="service-desc"', '</docs>; rel="service-doc"'):  # RFC 8631
        assert relation in top.headers["link"]
    browser = client.get("/", headers={"accept": "text/html,application/xhtml+xml,*/*;q=0.8"})
    assert browser.headers["content-type"] == "text/html; charset=utf-8"
    assert browser.content == client.get("/docs").content
    assert browser.headers["vary"] == top.headers["vary"] == "accept"


def test_every_type_of_problem_is_explained(client: Client) -> None:
    for slug, kind in PROBLEM_TYPES.items():
        explained = client.get(f"/problems/{slug}").json()
        assert explained == {
            "slug": slug,
            "status": kind.status,
            "title": kind.title,
            "explanation": kind.explanation,
        }


def test_a_bug_is_an_internal_error_that_tells_nothing(
    app: Litestar, log: io.BytesIO, example: dict[str, Any]
) -> None:
    client = TestClient(app, raise_server_exceptions=False)
    for kind in ("raise", "nan", "numpy"):
        response = client.post("/v1/sample", json=example | {"id": kind})
        document = problem_of(response, 500, "internal-error")
        assert document["detail"] == "the service failed"
        assert "secret-of-the-exception" not in response.text
    text = log.getvalue().decode()
    assert "secret-of-the-exception" not in text
    failure = json.loads(text.splitlines()[0])
    assert (failure["event"], failure["kind"]) == ("failure", "RuntimeError")
    assert failure["frames"][-1].startswith("sample.py:")


def test_a_request_id_is_taken_over_or_made(client: Client, example: dict[str, Any]) -> None:
    mine = str(uuid.uuid4())
    assert (
        client.post("/v1/sample", json=example, headers={"x-request-id": mine.upper()}).headers[
            "x-request-id"
        ]
        == mine
    )
    for bad in ("", "1", "x" * 36, mine + "0", f"{mine}\t", "../../etc"):
        made = client.get("/nowhere", headers={"x-request-id": bad}).headers["x-request-id"]
        assert uuid.UUID(made).version == 4
        assert made != mine


def test_a_request_makes_one_line_of_known_words(
    client: Client, log: io.BytesIO, example: dict[str, Any]
) -> None:
    canary = "canary-7391"
    headers = {
        "x-canary": canary,
        "user-agent": canary,
        "accept": f"*/*, {canary}/x",
        "authorization": canary,
    }
    client.post("/v1/sample", json=example | {"id": canary}, headers=headers)
    client.post(f"/v1/sample?{canary}={canary}", json=example | {canary: 1}, headers=headers)
    client.post("/v1/sample", content=canary.encode(), headers=headers | {"content-type": "application/json"})
    client.get(f"/{canary}", headers=headers)
    client.get(f"/problems/{canary}", headers=headers)
    client.request(canary.upper().replace("-", ""), "/v1/sample", headers=headers)
    lines = [json.loads(line) for line in log.getvalue().splitlines()]
    assert canary not in log.getvalue().decode().lower()
    assert "CANARY" not in log.getvalue().decode()
    assert [(line["route"], line["status"], line["problem"]) for line in lines] == [
        ("/v1/sample", 200, None),
        ("/v1/sample", 422, "invalid-input"),
        ("/v1/sample", 400, "unreadable-body"),
        ("unmatched", 404, "not-found"),
        ("/problems/{slug}", 404, "not-found"),
        ("/v1/sample", 405, "method-not-allowed"),
    ]
    for line in lines:
        assert set(line) == {
            "event", "level", "timestamp", "request_id", "engine_version", "method", "route", "status",
            "bytes_received", "bytes_sent", "seconds", "problem",
        }  # fmt: skip
        assert uuid.UUID(line["request_id"])
    assert all(len(line) < 1024 for line in log.getvalue().splitlines())


def test_probes_and_documentation_leave_no_lines(client: Client, log: io.BytesIO) -> None:
    for path in ("/health/live", "/docs", "/docs/page.js", "/openapi.json"):
        assert client.get(path).status_code == 200
    assert log.getvalue() == b""


def test_the_log_can_be_switched_off(log: io.BytesIO) -> None:
    TestClient(create_app(Settings(request_log=False), SAMPLES, log, readings=())).get("/v1/limits")
    assert log.getvalue() == b""


def test_the_process_lives_before_it_is_ready(client: Client) -> None:
    assert client.get("/health/live").json() == {"status": "live"}
    head = client.head("/health/live")
    assert (head.status_code, head.content) == (200, b"")
    response = client.get("/health/ready")
    problem_of(response, 503, "not-ready")
    assert response.headers["retry-after"] == "1"
    assert client.head("/health/ready").status_code == 503


def test_calculations_are_listed(client: Client) -> None:
    listed = client.get("/v1/calculations").json()
    assert [item["name"] for item in listed["calculations"]] == ["sample", "heavy-sample"]
    assert listed["calculations"][1] == {
        "name": "heavy-sample",
        "summary": "A made-up calculation",
        "path": "/v1/heavy-sample",
        "heavy": True,
        "media_types": ["application/json", "text/csv"],
    }


def test_limits_are_published(client: Client) -> None:
    limits = client.get("/v1/limits").json()
    work = {item["name"]: item["value"] for item in limits["work"]}
    assert work["ring_vertices"] == 256
    assert work["room_extent"] == 200.0
    assert work["pipe_length"] == 20_000.0
    service = {item["name"]: item["value"] for item in limits["service"]}
    assert service["body"] == SETTINGS.body_limit
    assert service["deadline"] == SETTINGS.deadline
    numbers = {item["name"]: item for item in limits["numbers"]}
    assert numbers["pipe_spacing"]["minimum"] == 0.03
    assert numbers["pipe_spacing"]["maximum"] == 0.6
    assert numbers["pipe_spacing"]["unit"] == "m"
    assert {"coordinate", "outside_diameter", "fixings"} <= numbers.keys()
    assert "heat_output" not in numbers  # a result, not a request
    assert {item["name"]: item["maximum"] for item in limits["lists"]} == {
        "outline": 256,
        "pipe_spacings": 12,
    }
    assert {item["name"]: item["maximum"] for item in limits["texts"]} == {"id": 64}
    assert [item["name"] for item in limits["dates"]] == ["pour_date"]


def test_settings_come_from_the_environment() -> None:
    read = Settings.from_environment(
        {"TEPIDARIUM_DEADLINE": "2.5", "TEPIDARIUM_REQUEST_LOG": "false", "HOME": "/"}
    )
    assert (read.deadline, read.request_log, read.debug) == (2.5, False, False)
    assert Settings.from_environment({}).body_limit == 256 * 1024


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("DEADLINE", "soon"),
        ("DEADLINE", "0"),
        ("BODY_LIMIT", "1"),
        ("PROCESSES", "1.5"),
        ("DEBUG", "perhaps"),
        ("DEADLIN", "1"),
    ],
)
def test_a_useless_setting_is_named(name: str, text: str) -> None:
    with pytest.raises(SettingsError, match=f"TEPIDARIUM_{name}"):
        Settings.from_environment({f"TEPIDARIUM_{name}": text})
