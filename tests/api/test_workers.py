"""Work in worker processes: deadlines, crashes, queues; nothing else on the server notices."""

from __future__ import annotations

import asyncio
import io
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import Any

import msgspec
import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.answer import Answer
from tepidarium_api.app import create_app
from tepidarium_api.event_log import EventLog
from tepidarium_api.intake import while_present
from tepidarium_api.problems import Refusal
from tepidarium_api.tracing import Tracing
from tepidarium_api.workers import Workers

from tests.api.conftest import SETTINGS
from tests.api.sample import HEAVY_SAMPLE, SAMPLES
from tests.processes import runs

Client = TestClient[Litestar]
PATIENT = replace(SETTINGS, deadline=60.0)
"""For requests right after a start: other tests may hold the machine."""


def heavy(client: Client, example: dict[str, Any], kind: str) -> Any:
    return client.post("/v1/heavy-sample", json=example | {"id": kind})


def wait_for(condition: Callable[[], bool], seconds: float) -> bool:
    end = time.monotonic() + seconds
    while not condition():
        if time.monotonic() > end:
            return False
        time.sleep(0.01)
    return True


@pytest.fixture(autouse=True)
def loaded(running: Client, example: dict[str, Any]) -> None:
    """With time to start processes in: other tests may hold the machine."""
    assert wait_for(lambda: heavy(running, example, "plain").status_code == 200, 60)


def test_a_calculation_past_its_deadline_is_stopped(running: Client, example: dict[str, Any]) -> None:
    process = int(heavy(running, example, "process").json()["heat_output"])
    began = time.monotonic()
    response = heavy(running, example, "spin")
    assert time.monotonic() - began >= SETTINGS.deadline
    assert response.status_code == 503
    assert response.json()["type"] == "/problems/deadline-exceeded"
    assert 1 <= int(response.headers["retry-after"]) <= 5
    assert wait_for(lambda: not runs(process), 30)
    assert heavy(running, example, "plain").status_code == 200


def test_the_start_of_processes_counts_towards_the_deadline(example: dict[str, Any]) -> None:
    """Refused as what may be asked again: the next time everything is loaded."""
    hasty = replace(SETTINGS, deadline=0.01)  # no interpreter starts in that
    with TestClient(create_app(hasty, SAMPLES, io.BytesIO(), readings=())) as client:
        response = heavy(client, example, "plain")
    assert response.status_code == 503
    assert response.json()["type"] == "/problems/overloaded"
    assert "started" in response.json()["detail"]


def test_a_crash_concerns_its_own_request_only(running: Client, example: dict[str, Any]) -> None:
    response = heavy(running, example, "die")
    assert response.status_code == 500
    assert response.json()["type"] == "/problems/calculation-lost"
    assert heavy(running, example, "plain").status_code == 200
    assert running.head("/health/ready").status_code == 200


def test_the_process_that_forks_is_replaced(running: Client, example: dict[str, Any]) -> None:
    process = int(heavy(running, example, "parent").json()["heat_output"])
    os.kill(process, signal.SIGKILL)
    assert wait_for(lambda: not runs(process), 30)
    assert wait_for(lambda: running.get("/health/ready").status_code == 503, 30)
    assert wait_for(lambda: heavy(running, example, "plain").status_code == 200, 60)
    assert running.get("/health/ready").status_code == 200


def test_memory_has_an_end(running: Client, example: dict[str, Any]) -> None:
    response = heavy(running, example, "grow")
    assert response.status_code == 422
    assert response.json()["type"] == "/problems/memory-exceeded"


def test_work_that_nobody_waits_for_is_stopped_and_frees_its_place(example: dict[str, Any]) -> None:
    """At work and waiting, as the calculation's task is cancelled when the client has gone."""
    calculation, body = HEAVY_SAMPLE, msgspec.json.encode(example | {"id": "spin"})

    async def drill() -> None:
        workers = Workers(PATIENT, SAMPLES, EventLog(io.BytesIO()), Tracing(""))
        async with workers.running():
            for _ in range(2):  # one at work, one waiting
                answers = [asyncio.create_task(workers.answer(calculation, body, "", "a")) for _ in range(2)]
                await asyncio.sleep(0.3)
                for answer in answers:
                    answer.cancel()
                await asyncio.gather(*answers, return_exceptions=True)
                assert (workers.places.free, workers.places.waiting) == (1, 0)
            quick = msgspec.json.encode(example | {"id": "plain"})
            assert isinstance(await workers.answer(calculation, quick, "", "a"), Answer)

    asyncio.run(drill())


def test_a_client_that_leaves_cancels() -> None:
    async def drill() -> None:
        stopped = asyncio.Event()

        async def answering() -> None:
            try:
                await asyncio.sleep(60)
            finally:
                stopped.set()

        async def receive() -> Any:
            return {"type": "http.disconnect"}

        with pytest.raises(Refusal, match="abandoned"):
            await while_present(receive, answering())
        assert stopped.is_set()

    asyncio.run(drill())


def test_a_bug_in_a_worker_is_an_internal_error(running: Client, example: dict[str, Any]) -> None:
    log = io.BytesIO()
    with TestClient(create_app(PATIENT, SAMPLES, log, readings=()), raise_server_exceptions=False) as client:
        response = heavy(client, example, "raise")
    assert response.status_code == 500
    assert response.json()["type"] == "/problems/internal-error"
    assert b"secret-of-the-exception" not in log.getvalue() + response.content
    assert b"RuntimeError" in log.getvalue()
    assert b"sample.py:" in log.getvalue()


def test_faults_cross_the_process_border(running: Client, example: dict[str, Any]) -> None:
    response = heavy(running, example, "fault")
    assert response.status_code == 422
    assert response.json()["errors"][0]["pointer"] == "/id"


def test_a_full_queue_refuses_at_once_and_probes_stay_green(running: Client, example: dict[str, Any]) -> None:
    with ThreadPoolExecutor(12) as threads:
        answers = [threads.submit(heavy, running, example, "sleep") for _ in range(10)]
        time.sleep(0.1)
        assert running.get("/health/live").status_code == 200
        assert running.get("/health/ready").status_code == 200
        assert running.post("/v1/sample", json=example).status_code == 200
    statuses = [answer.result().status_code for answer in answers]
    assert statuses.count(200) == 2  # one at work, one waiting
    refusals = [answer.result() for answer in answers if answer.result().status_code == 503]
    assert len(refusals) == 8
    for refusal in refusals:
        assert refusal.json()["type"] == "/problems/overloaded"
        assert 1 <= int(refusal.headers["retry-after"]) <= 5


def test_waiting_has_an_end(running: Client, example: dict[str, Any]) -> None:
    with ThreadPoolExecutor(2) as threads:
        spinning = threads.submit(heavy, running, example, "spin")
        time.sleep(0.1)
        began = time.monotonic()
        response = heavy(running, example, "plain")
        assert response.json()["type"] == "/problems/overloaded"
        assert time.monotonic() - began >= SETTINGS.queue_timeout
        assert spinning.result().status_code == 503


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a thread looks once a second")
def test_a_process_whose_parent_has_ended_before_it_began_does_not_go_on() -> None:
    program = "import os; from tepidarium_api.parentage import end_with; end_with({}); print('goes on')"
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    for parent, said in ((str(gone.pid), ""), ("os.getppid()", "goes on\n")):
        done = subprocess.run(
            [sys.executable, "-c", program.format(parent)], capture_output=True, text=True, check=False
        )
        assert (done.returncode == 0, done.stdout) == (bool(said), said)


def test_the_processes_end_with_the_service(example: dict[str, Any]) -> None:
    with TestClient(create_app(PATIENT, SAMPLES, io.BytesIO(), readings=())) as client:
        process = int(heavy(client, example, "process").json()["heat_output"])
        forking = int(heavy(client, example, "parent").json()["heat_output"])
        assert runs(forking)
    assert wait_for(lambda: not runs(process) and not runs(forking), 30)
