"""Traces: what a collector gets of a served process, and that there is nothing without the setting."""

from __future__ import annotations

import io
import json
import subprocess
import sys
import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import pytest
from litestar.testing import TestClient
from opentelemetry.proto.collector.trace.v1.trace_service_pb2 import ExportTraceServiceRequest
from tepidarium_api.app import create_app
from tepidarium_api.settings import Settings, SettingsError

from tests.api.sample import SAMPLES
from tests.drills.served import EXAMPLES, served, until

# of the W3C's recommendation Trace Context, section 3.2
TRACE, PARENT = "4bf92f3577b34da6a3ce929d0e0e4736", "00f067aa0ba902b7"


class Collected:
    """What a collector has got, by OTLP over HTTP."""

    def __init__(self) -> None:
        spans = self.spans = list[Any]()
        self.names = set[str]()

        class Collector(BaseHTTPRequestHandler):
            def do_POST(self) -> None:
                body = self.rfile.read(int(self.headers["Content-Length"]))
                for resource in ExportTraceServiceRequest.FromString(body).resource_spans:
                    for scope in resource.scope_spans:
                        spans.extend(scope.spans)
                self.send_response(200)
                self.send_header("Content-Length", "0")
                self.end_headers()

            def log_message(self, *_: object) -> None: ...

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Collector)

    def named(self, name: str) -> Any:
        until(lambda: any(span.name == name for span in self.spans), 20)
        return next(span for span in self.spans if span.name == name)

    def below(self, parent: Any, name: str) -> Any:
        def found() -> list[Any]:
            return [
                span for span in self.spans if span.parent_span_id == parent.span_id and span.name == name
            ]

        until(found, 20)
        (one,) = found()
        return one


@pytest.fixture
def collected() -> Iterator[Collected]:
    collector = Collected()
    serving = threading.Thread(target=collector.server.serve_forever)
    serving.start()
    yield collector
    collector.server.shutdown()
    collector.server.server_close()
    serving.join()


def _attributes(span: Any) -> dict[str, Any]:
    return {one.key: one.value.string_value or one.value.int_value for one in span.attributes}


def test_a_collector_gets_the_request_and_what_was_done_for_it(collected: Collected) -> None:
    address = f"http://127.0.0.1:{collected.server.server_address[1]}/v1/traces"
    settings = {"TEPIDARIUM_TRACES_URL": address, "OTEL_BSP_SCHEDULE_DELAY": "100"}
    light, heavy = (
        json.loads((EXAMPLES / f"{name}.json").read_text()) for name in ("heat-output", "loop-length")
    )
    with served(**settings) as server:
        sent = {"traceparent": f"00-{TRACE}-{PARENT}-01", "tracestate": "shop=7"}
        answer = server.post("heat-output", light, headers=sent)
        before = {server.process.pid, *server.family()}
        server.post("loop-length", heavy)
        server.post("heat-output", {"canary": "nobody reads it"})
        request = collected.named("POST /v1/heat-output")
        assert (request.trace_id.hex(), request.parent_span_id.hex()) == (TRACE, PARENT)
        assert request.trace_state == "shop=7"
        assert _attributes(request) == {
            "http.request.method": "POST",
            "http.route": "/v1/heat-output",
            "http.response.status_code": 200,
            "tepidarium.request_id": answer.headers["x-request-id"],
        }
        computed = collected.below(request, "compute")
        assert computed.trace_id == request.trace_id
        assert computed.start_time_unix_nano < computed.end_time_unix_nano <= request.end_time_unix_nano

        request = collected.named("POST /v1/loop-length")
        assert request.trace_id.hex() != TRACE
        assert not request.parent_span_id
        waited, computed = (collected.below(request, name) for name in ("wait for a place", "compute"))
        assert waited.end_time_unix_nano <= computed.start_time_unix_nano
        assert computed.end_time_unix_nano <= request.end_time_unix_nano
        assert _attributes(computed)["process.pid"] not in before

        until(lambda: sum(span.name == "POST /v1/heat-output" for span in collected.spans) == 2, 20)
        refused = [span for span in collected.spans if span.name == "POST /v1/heat-output"][-1]
        assert _attributes(refused)["error.type"] == "invalid-input"
        assert "canary" not in str(collected.spans)
        assert "nobody reads it" not in str(collected.spans)


def test_without_the_setting_nothing_is_loaded() -> None:
    loaded = (
        "import io, sys; from tepidarium_api.app import create_app; create_app(log_stream=io.BytesIO());"
        "print({'opentelemetry.trace', 'opentelemetry.sdk'} & sys.modules.keys())"
    )
    done = subprocess.run([sys.executable, "-c", loaded], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"


def test_the_setting_without_the_extra_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tepidarium_api.tracing.find_spec", lambda _: None)
    with pytest.raises(SettingsError, match=r"tepidarium\[tracing\]"):
        create_app(Settings(traces_url="http://127.0.0.1:4318/v1/traces"), SAMPLES, io.BytesIO(), readings=())


@pytest.mark.parametrize("wrong", ["collector:4318", "ftp://collector/v1/traces", "http://a b"])
def test_an_address_that_is_none_is_refused(wrong: str) -> None:
    with pytest.raises(SettingsError, match="TEPIDARIUM_TRACES_URL"):
        Settings.from_environment({"TEPIDARIUM_TRACES_URL": wrong})


@pytest.mark.parametrize(
    ("seconds", "proxies", "forwarded", "sent"),
    [
        (31536000, ("*",), "https", "max-age=31536000"),
        (31536000, ("*",), "http", None),
        (31536000, (), "https", None),  # nobody said that this proxy may be believed
        (0, ("*",), "https", None),
    ],
)
def test_browsers_are_told_to_stay_with_tls_only_over_tls(
    seconds: int, proxies: tuple[str, ...], forwarded: str, sent: str | None
) -> None:
    settings = Settings(hsts_seconds=seconds, trusted_proxies=proxies)
    client = TestClient(create_app(settings, SAMPLES, io.BytesIO(), readings=()))
    for path, status in (("/health/live", 200), ("/nothing", 404)):
        sent_by_proxy = {"X-Forwarded-For": "203.0.113.7", "X-Forwarded-Proto": forwarded}
        answer = client.get(path, headers=sent_by_proxy)
        assert (answer.status_code, answer.headers.get("strict-transport-security")) == (status, sent)
