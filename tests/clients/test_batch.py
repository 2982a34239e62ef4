"""The command ``batch`` against a quick service of its own: nothing lost, nothing doubled, resumed anywhere."""

from __future__ import annotations

import fcntl
import json
import os
import pty
import random
import re
import resource
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from tepidarium_client._cli import main

LONGEST = 4096


class Service(BaseHTTPRequestHandler):
    """Takes a few at a time; what it answers follows from the body alone."""

    protocol_version = "HTTP/1.1"
    version = "1.0"
    places = threading.BoundedSemaphore(12)
    away = False

    def log_message(self, *_: Any) -> None:
        pass

    def do_GET(self) -> None:
        body = {"name": "body", "value": LONGEST, "unit": "byte", "description": ""}
        lists: dict[str, list[Any]] = {name: [] for name in ("work", "numbers", "lists", "texts", "dates")}
        self.answer(200, {"engine_version": self.version, "service": [body], **lists})

    def do_POST(self) -> None:
        content = self.rfile.read(int(self.headers["Content-Length"]))
        if b"hang up" in content:
            self.close_connection = True
            return
        if self.away or not self.places.acquire(blocking=False):
            self.answer(503, {"type": "/problems/overloaded", "status": 503, "detail": "busy"})
            return
        try:
            number = sum(content)
            time.sleep(0.001 * (number % 4))
            instance = f"urn:uuid:{self.headers['X-Request-Id']}"
            try:
                request = json.loads(content)
            except (ValueError, RecursionError):
                self.answer(400, {"title": "unreadable", "status": 400, "instance": instance})
                return
            if request.get("bad"):
                self.answer(422, {"title": "bad", "status": 422, "detail": "no", "instance": instance})
            else:
                self.answer(200, {"engine_version": self.version, "asked": request, "long": "x" * 300})
        finally:
            self.places.release()

    def answer(self, status: int, document: dict[str, Any]) -> None:
        content = json.dumps(document).encode()
        self.send_response(status)
        self.send_header("Content-Type", "application/json" if status == 200 else "application/problem+json")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)


class Server(ThreadingHTTPServer):
    daemon_threads = True

    def handle_error(self, *_: Any) -> None:
        """Clients that are killed are the subject of these tests."""


@pytest.fixture
def url(monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    server = Server(("127.0.0.1", 0), Service)
    thread = threading.Thread(target=partial(server.serve_forever, poll_interval=0.05))
    thread.start()
    address = f"http://127.0.0.1:{server.server_address[1]}"
    monkeypatch.setenv("TEPIDARIUM_URL", address)
    yield address
    server.shutdown()
    thread.join()
    server.server_close()


def write(path: Path, count: int) -> Path:
    lines = ({"key": f"k{n}", "n": n} if n % 3 else {"n": n, "bad": n % 2 == 1} for n in range(count))
    path.write_text("".join(json.dumps(line) + "\n" for line in lines))
    return path


def batch(source: Path, output: Path, *options: str) -> int:
    return main(["batch", "designs", str(source), "--output", str(output), *options])


def lines_of(output: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in output.read_bytes().splitlines()]


@pytest.mark.parametrize("options", [(), ("--as-they-come",)])
def test_every_line_has_one_result(url: str, tmp_path: Path, options: tuple[str, ...]) -> None:
    source, output = write(tmp_path / "in", 200), tmp_path / "out"
    assert batch(source, output, *options) == 3
    lines = lines_of(output)
    numbers = [line["line"] for line in lines]
    assert sorted(numbers) == list(range(1, 201))
    assert numbers == sorted(numbers) or options
    for line in lines:
        n = line["line"] - 1
        assert line["key"] == (f"k{n}" if n % 3 else n + 1)
        assert ("problem" in line) != ("result" in line)
        assert ("problem" in line) == (n % 3 == 0 and n % 2 == 1)
        if "result" in line:
            assert line["result"]["asked"] == ({"n": n} if n % 3 else {"n": n, "bad": False})


def test_hard_lines_get_a_line_each_and_the_rest_goes_on(url: str, tmp_path: Path) -> None:
    source, output = tmp_path / "in", tmp_path / "out"
    first = b'\xef\xbb\xbf{"n": 1}\r\n\r\n   \n'
    hard = b'{"n": \n' + b'{"n": "' + b"y" * 10_000_000 + b'"}\n' + b"[" * 3000 + b"\n" + b'{"key": [\n'
    source.write_bytes(first + hard + b"\xff\xfe\n" + b'{"key": {"a": 1}, "n": 2}\n{"n": 3}')
    assert batch(source, output) == 3
    lines = {line["line"]: line for line in lines_of(output)}
    assert sorted(lines) == [1, 4, 5, 6, 7, 8, 9, 10]
    assert [n for n, line in lines.items() if "result" in line] == [1, 9, 10]
    assert lines[9]["key"] == {"a": 1}
    assert (
        lines[5]["problem"]["detail"] == f"The line has 10000009 bytes; the service takes {LONGEST} at most."
    )


def test_a_house_at_which_the_service_hangs_up_does_not_stop_the_others(url: str, tmp_path: Path) -> None:
    source, output = tmp_path / "in", tmp_path / "out"
    source.write_text('{"n": 1}\n{"n": "hang up"}\n' + "".join(f'{{"n": {n}}}\n' for n in range(40)))
    assert batch(source, output, "--retries", "0") == 3
    assert [line["line"] for line in lines_of(output) if "problem" in line] == [2]
    assert len(lines_of(output)) == 42


def test_resumed_after_a_cut_anywhere(url: str, tmp_path: Path) -> None:
    source, output = write(tmp_path / "in", 12), tmp_path / "out"
    batch(source, output)
    whole = output.read_bytes()
    for length in {0, 1, 5, *range(len(whole) - 700, len(whole), 23), *range(50, len(whole), 777)}:
        output.write_bytes(whole[:length])
        assert batch(source, output) == 3
        assert output.read_bytes() == whole


@pytest.mark.parametrize("options", [(), ("--as-they-come",)])
def test_resumed_after_kills(url: str, tmp_path: Path, options: tuple[str, ...]) -> None:
    source, output = write(tmp_path / "in", 600), tmp_path / "out"
    chance, kills = random.Random(1), 0
    command = [sys.executable, "-m", "tepidarium_client", "batch", "designs", source, "--output", output]
    while True:
        size = output.stat().st_size if output.exists() else 0
        running = subprocess.Popen([*command, *options], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
        grown = size + chance.randint(1, 80_000)
        while running.poll() is None and (not output.exists() or output.stat().st_size < grown or kills == 4):
            time.sleep(0.002)
        killed = running.poll() is None
        running.kill()
        assert running.communicate()[1] == b""
        if not killed:
            break
        kills += 1
    assert running.returncode == 3
    assert kills >= 3
    undisturbed = tmp_path / "undisturbed"
    batch(source, undisturbed)
    found, expected = output.read_bytes(), undisturbed.read_bytes()
    assert found == expected or (options and sorted(found.splitlines()) == sorted(expected.splitlines()))


@pytest.mark.parametrize(
    "case",
    [
        ('{"n": 1}\n{"n": 9}\n', "", "line 2 was a different request"),
        ('{"n": 1}\n', "", "ends before line 2"),
        ("", "notes of mine\n", "is no result of a batch"),
        ("", "notes without an end", "is no result of a batch"),
        ("", '{"line":1,"request":"00","key":1}\n', "is no result of a batch"),
    ],
)
def test_results_of_something_else_are_left_alone(
    url: str, tmp_path: Path, case: tuple[str, str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    source, results, reason = case
    given, output = tmp_path / "in", tmp_path / "out"
    given.write_text('{"n": 1}\n{"n": 2}\n')
    batch(given, output)
    given.write_text(source or given.read_text())
    if results:
        output.write_text(results)
    before = output.read_bytes()
    capsys.readouterr()
    assert batch(given, output) == 2
    assert reason in capsys.readouterr().err
    assert output.read_bytes() == before


def test_results_of_another_calculation_or_version_are_not_mixed(
    url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    source, output = write(tmp_path / "in", 3), tmp_path / "out"
    batch(source, output)
    before = output.read_bytes()
    assert main(["batch", "routes", str(source), "--output", str(output)]) == 2
    assert "another input" in capsys.readouterr().err
    monkeypatch.setattr(Service, "version", "1.1")
    assert batch(source, output) == 2
    assert "version 1.0 of the engine" in capsys.readouterr().err
    assert output.read_bytes() == before


def test_files_that_cannot_serve(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source, output = write(tmp_path / "in", 3), tmp_path / "out"
    assert batch(tmp_path / "missing", output) == 2
    assert batch(source, tmp_path / "no" / "folder") == 2
    assert batch(source, Path("/dev/full")) == 2
    with output.open("wb") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        assert batch(source, output) == 2
    told = capsys.readouterr().err
    assert "missing: No such file" in told
    assert "another batch writes" in told
    assert "not a regular file" in told


def test_a_full_disk_leaves_whole_lines(url: str, tmp_path: Path) -> None:
    """A limit on the size of files stands for the disk: writes come back short, then fail. No bytecode is written
    under it: it would be cut off, and stay."""
    source, output = write(tmp_path / "in", 60), tmp_path / "out"
    room = 5000
    done = subprocess.run(
        [sys.executable, "-B", "-m", "tepidarium_client", "batch", "designs", source, "--output", output],
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (room, room)),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert re.match(r".*/out: File too large\. .*give the same command again", done.stderr)
    left = output.read_bytes()
    assert room - 600 < len(left) <= room
    assert left.endswith(b"}\n")
    assert batch(source, output) == 3
    assert output.read_bytes().startswith(left)
    assert [line["line"] for line in lines_of(output)] == list(range(1, 61))


def test_a_service_that_stays_away_ends_the_batch_without_failures(
    url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    source, output = write(tmp_path / "in", 20), tmp_path / "out"
    monkeypatch.setattr(Service, "away", True)
    assert batch(source, output, "--retries", "0", "--patience", "0.1") == 5
    assert "503" in capsys.readouterr().err
    assert output.read_bytes() == b""
    threading.Timer(1.0, partial(monkeypatch.setattr, Service, "away", False)).start()
    assert batch(source, output, "--retries", "0") == 3
    assert len(lines_of(output)) == 20


def test_counts_for_scripts(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source, output = write(tmp_path / "in", 12), tmp_path / "out"
    for _ in range(2):
        assert batch(source, output, "--json") == 3
        assert json.loads(capsys.readouterr().out) == {"lines": 12, "results": 10, "problems": 2}


@pytest.mark.long
def test_memory_stays_flat(url: str, tmp_path: Path) -> None:
    """Ten times the lines, hardly more memory; resumed files are read line by line too."""
    peaks = []
    for count in (1000, 10_000):
        source, output = write(tmp_path / f"in{count}", count), tmp_path / f"out{count}"
        script = (
            "import resource, sys; from tepidarium_client._cli import main\n"
            f"code = main(['batch', 'designs', {str(source)!r}, '--output', {str(output)!r}])\n"
            "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss); sys.exit(code != 3)\n"
        )
        for _ in range(2):
            done = subprocess.run([sys.executable, "-c", script], check=True, capture_output=True, text=True)
        peaks.append(int(done.stdout.splitlines()[-1]))
    assert peaks[1] < 1.1 * peaks[0]


def on_a_terminal(command: str, *arguments: str | Path) -> tuple[str, int]:
    """What a Python command writes to standard error where that is a terminal, and its exit code."""
    terminal, end = pty.openpty()
    running = subprocess.Popen(
        [sys.executable, "-c", command, *map(str, arguments)],
        stdout=subprocess.DEVNULL,
        stderr=end,
        env={**os.environ, "TERM": "xterm", "COLUMNS": "100"},
    )
    os.close(end)
    written = b""
    with (
        os.fdopen(terminal, "rb", buffering=0) as file,
        suppress(OSError),
    ):  # the terminal ends with the command
        while more := file.read(4096):
            written += more
    return written.decode(), running.wait()


START = "import sys; from tepidarium_client._cli import main; sys.exit(main(sys.argv[1:]))"


def test_a_terminal_shows_lines_rate_and_time_left(url: str, tmp_path: Path) -> None:
    source, output = write(tmp_path / "houses", 300), tmp_path / "results"
    shown, code = on_a_terminal(START, "batch", "designs", source, "--output", output)
    assert code == 3
    plain = re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", shown)
    assert "300 of 300 lines" in plain
    assert re.search(r"\b[1-9]\d{0,2} of 300 lines .* \d+\.\d/s 0:00:\d\d", plain)
    kept = output.read_bytes().splitlines(keepends=True)
    output.write_bytes(b"".join(kept[:200]))
    shown, code = on_a_terminal(START, "batch", "designs", source, "--output", output)
    done = [int(number) for number in re.findall(r"(\d+) of 300 lines", shown)]
    assert done[0] >= 200
    assert done[-1] == 300
    assert output.read_bytes() == b"".join(kept)


def test_without_the_package_of_the_bar_a_terminal_shows_none(url: str, tmp_path: Path) -> None:
    absent = f"import importlib.util as util; util.find_spec = lambda name: None; {START}"
    source, output = write(tmp_path / "houses", 6), tmp_path / "results"
    assert on_a_terminal(absent, "batch", "designs", source, "--output", output) == ("", 3)
    assert len(lines_of(output)) == 6
