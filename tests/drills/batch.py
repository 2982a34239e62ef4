"""A batch that is killed and resumed, compared with one that is left alone; its rate against eight connections."""

from __future__ import annotations

import http.client
import itertools
import random
import subprocess
import sys
import threading
import time
from pathlib import Path
from urllib.parse import urlsplit

import msgspec

__all__ = ["batch", "eight_connections", "killed_batch"]

CONNECTIONS = 8


def _command(url: str, source: Path, output: Path) -> list[str]:
    options = ["--url", url, "--output", str(output)]
    return [sys.executable, "-m", "tepidarium_client", "batch", "designs", str(source), *options]


def batch(url: str, source: Path, output: Path) -> float:
    """Run a batch to its end; lines per second."""
    began = time.perf_counter()
    done = subprocess.run(_command(url, source, output), stdout=subprocess.DEVNULL, check=False)
    assert done.returncode in (0, 3), f"the batch ended with {done.returncode}"
    return len(source.read_bytes().splitlines()) / (time.perf_counter() - began)


def killed_batch(url: str, source: Path, output: Path, size: int, kills: int) -> None:
    """Run a batch that is killed so many times before its results have ``size`` bytes, torn each time, then its end."""
    chance = random.Random(source.stat().st_size)
    for number in range(kills):
        until = size * (number + chance.uniform(0.3, 0.9)) / kills
        running = subprocess.Popen(_command(url, source, output), stdout=subprocess.DEVNULL)
        while not output.exists() or output.stat().st_size < until:
            assert running.poll() is None, "the batch ended before it was killed"
            time.sleep(0.01)
        running.kill()
        running.wait()
        with output.open("r+b") as file:  # what a power cut may leave of the last line
            file.truncate(output.stat().st_size - chance.randint(0, 2000))
    batch(url, source, output)


def eight_connections(url: str, source: Path) -> float:
    """The same requests over eight connections kept alive, a thread each; lines per second."""
    bodies = []
    for line in source.read_bytes().splitlines():
        members = msgspec.json.decode(line, type=dict[str, msgspec.Raw])
        members.pop("key", None)
        bodies.append(msgspec.json.encode(members))
    next_body = iter(bodies)
    lock, place, refused = threading.Lock(), urlsplit(url), itertools.count()

    def work() -> None:
        connection = http.client.HTTPConnection(place.hostname or "", place.port or 80, timeout=120.0)
        while True:
            with lock:
                body = next(next_body, None)
            if body is None:
                return
            connection.request("POST", "/v1/designs", body, {"Content-Type": "application/json"})
            answer = connection.getresponse()
            answer.read()
            if answer.status == 503:
                next(refused)

    threads = [threading.Thread(target=work) for _ in range(CONNECTIONS)]
    began = time.perf_counter()
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert next(refused) == 0, "the service refused some of eight connections"
    return len(bodies) / (time.perf_counter() - began)
