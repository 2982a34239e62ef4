"""Two replicas behind the proxy: one is killed under load, and no client notices."""

from __future__ import annotations

import json
import os
import signal
import ssl
import subprocess
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest

from tests.api.test_server import COMMAND, environment, free_port
from tests.deploy.conftest import DEPLOY, TOP, run

pytestmark = pytest.mark.long

SURROUNDINGS = """
daemon off;
pid {folder}/nginx.pid;
error_log {folder}/error.log warn;
events {{ worker_connections 512; }}
http {{
    access_log off;
    client_body_temp_path {folder}/body;
    proxy_temp_path {folder}/proxy;
    fastcgi_temp_path {folder}/unused1;
    uwsgi_temp_path {folder}/unused2;
    scgi_temp_path {folder}/unused3;
    include {folder}/tepidarium.conf;
}}
"""
"""What the file of the proxy stands in on a Debian machine, in a folder of the test."""


@dataclass
class Site:
    """The proxy, the port it listens on, and its replicas."""

    port: int
    certificate: Path
    replicas: list[subprocess.Popen[bytes]]

    def client(self) -> httpx.Client:
        trust = ssl.create_default_context(cafile=str(self.certificate))
        return httpx.Client(base_url=f"https://localhost:{self.port}", verify=trust, timeout=60)


@contextmanager
def ended(process: subprocess.Popen[bytes]) -> Iterator[subprocess.Popen[bytes]]:
    try:
        yield process
    finally:
        process.terminate()
        process.wait(20)


def kill(replica: subprocess.Popen[bytes]) -> None:
    """End all processes of a replica at once, as a machine does that fails."""
    os.killpg(replica.pid, signal.SIGKILL)
    replica.wait()


def until(right: Callable[[], bool], seconds: float = 30.0) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            if right():
                return
        except httpx.TransportError:
            pass
        time.sleep(0.05)
    raise TimeoutError


def fill_in(folder: Path, values: dict[str, str]) -> None:
    text = (DEPLOY / "proxy" / "tepidarium.conf.template").read_text()
    for name, value in values.items():
        text = text.replace(f"${{{name}}}", value)
    (folder / "tepidarium.conf").write_text(text)
    (folder / "nginx.conf").write_text(SURROUNDINGS.format(folder=folder))


@contextmanager
def site(nginx: str, folder: Path, rate: int) -> Iterator[Site]:
    folder.mkdir(parents=True, exist_ok=True)
    certificate, key = folder / "tls.crt", folder / "tls.key"
    run(
        *("openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"),
        *("-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost", "-days", "2"),
        *("-keyout", key, "-out", certificate),
    )
    first, second, port = free_port(), free_port(), free_port()
    values = {"FIRST": f"127.0.0.1:{first}", "SECOND": f"127.0.0.1:{second}", "LISTEN": f"127.0.0.1:{port}"}
    values |= {"CERTIFICATE": str(certificate), "KEY": str(key), "RATE": str(rate), "BURST": str(rate)}
    fill_in(folder, values)
    with ExitStack() as stack:
        replicas = [
            stack.enter_context(
                ended(
                    subprocess.Popen(
                        [*COMMAND, "--port", str(number)],
                        env=environment(TEPIDARIUM_PROCESSES="1", TEPIDARIUM_REQUEST_LOG="false"),
                        stdout=subprocess.DEVNULL,
                        stderr=subprocess.DEVNULL,
                        start_new_session=True,
                    )
                )
            )
            for number in (first, second)
        ]
        for number in (first, second):
            until(lambda url=f"http://127.0.0.1:{number}/health/ready": httpx.get(url).status_code == 200)  # type: ignore[misc]
        stack.enter_context(ended(subprocess.Popen([nginx, "-c", str(folder / "nginx.conf")])))
        built = Site(port, certificate, replicas)
        with built.client() as client:
            until(lambda: client.get("/health/ready").status_code == 200)
        yield built


def test_no_request_fails_when_a_replica_is_killed_under_load(
    tool: Callable[[str], str], tmp_path: Path
) -> None:
    bodies = [
        (f"/v1/{name}", json.loads((TOP / "examples" / f"{name}.json").read_text()))
        for name in ("heat-output", "supply-temperature", "routes", "hydraulics", "heat-loss")
    ]
    seen: Counter[int] = Counter()
    stop = threading.Event()
    with site(tool("nginx"), tmp_path, rate=5000) as built:

        def send(number: int) -> None:
            with built.client() as client:
                while not stop.is_set():
                    path, body = bodies[number % len(bodies)]
                    seen[client.post(path, json=body).status_code] += 1
                    number += 1

        with ThreadPoolExecutor(8) as senders:
            sent = [senders.submit(send, number) for number in range(8)]
            try:
                until(lambda: seen[200] > 50, 120)
                before = seen[200]
                kill(built.replicas[0])
                time.sleep(6)
                until(lambda: seen[200] > before + 50, 120)
            finally:
                stop.set()
            for each in sent:
                each.result()
    print(f"one of two replicas killed: {dict(seen)}, of them {before} before")
    assert set(seen) == {200}


def test_the_proxy_refuses_in_the_form_of_the_service(tool: Callable[[str], str], tmp_path: Path) -> None:
    with site(tool("nginx"), tmp_path, rate=2) as built, built.client() as client:
        time.sleep(1.5)
        large = client.post(
            "/v1/routes", content=b" " * 300_000, headers={"content-type": "application/json"}
        )
        assert large.status_code == 413
        assert large.json()["status"] == 413
        answers = [client.get("/health/live") for _ in range(12)]
        refused = [answer for answer in answers if answer.status_code == 429]
        assert refused
        assert {answer.status_code for answer in answers} == {200, 429}
        assert refused[0].headers["content-type"] == "application/problem+json"
        assert refused[0].headers["retry-after"] == "1"
        assert refused[0].json()["type"] == "/problems/too-many-requests"
        assert "nginx/" not in answers[0].headers.get("server", "")
        for replica in built.replicas:
            kill(replica)
        time.sleep(2)
        assert client.get("/health/live").json()["type"] == "/problems/no-replica"
