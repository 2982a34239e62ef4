"""The command ``tepidarium``: what it prints, what it writes, and the exit codes that scripts rely on."""

from __future__ import annotations

import csv
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import httpx
import pytest
from tepidarium_client import Client, _client, former_design
from tepidarium_client._cli import main
from tepidarium_client._cli._arguments import CALCULATIONS, parse

from tests.clients.asking import answers, problem

EXAMPLES = Path(__file__).parents[2] / "examples"
NOBODY = "http://127.0.0.1:9"

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(capfdbinary: pytest.CaptureFixture[bytes]) -> Run:
    """Runs the command; gives exit code, standard output and standard error."""

    def run_command(*arguments: object) -> tuple[int, str, str]:
        code = main([str(argument) for argument in arguments])
        sys.stdout.flush()
        out, err = capfdbinary.readouterr()
        return code, out.decode(), err.decode()

    return run_command


@pytest.fixture
def service(monkeypatch: pytest.MonkeyPatch) -> Callable[..., None]:
    """Puts a made-up service in the place of the network; pauses between attempts take no time."""

    def use(*outcomes: httpx.Response | Exception) -> None:
        transport = httpx.MockTransport(answers(*outcomes)[0])
        real = _client.Client.__init__

        def start(self: Client, url: str, **options: Any) -> None:
            real(self, url, **{**options, "transport": transport, "sleep": lambda pause: None})

        monkeypatch.setattr(_client.Client, "__init__", start)

    return use


def example(command: str) -> Path:
    return EXAMPLES / f"{command}.json"


@pytest.fixture
def changed(tmp_path: Path) -> Callable[..., Path]:
    """An example with other values, as a file."""

    def write(command: str, **fields: Any) -> Path:
        path = tmp_path / "request.json"
        path.write_text(json.dumps({**json.loads(example(command).read_text()), **fields}))
        return path

    return write


@pytest.mark.parametrize("command", CALCULATIONS)
def test_every_command_reports_its_example(run: Run, url: str, command: str) -> None:
    code, out, _ = run(command, "--url", url, example(command))
    assert code == 0
    for title in ("Decide first", "Cautions", "Engine version"):
        assert f"\n{title}" in f"\n{out}"
    assert "\x1b" not in out
    assert max(map(len, out.splitlines())) < 200


@pytest.mark.parametrize("command", CALCULATIONS)
def test_json_is_the_answer_as_it_came(run: Run, url: str, command: str) -> None:
    code, out, _ = run(command, "--json", "--url", url, example(command))
    with Client(url) as client:
        answer = client.answer(command, json.loads(example(command).read_text()))
    assert code == 0
    assert out.encode() == answer.content + b"\n"


@pytest.mark.parametrize("command", CALCULATIONS)
def test_workings_are_shown_when_asked_for(run: Run, url: str, command: str) -> None:
    _, without, _ = run(command, "--url", url, example(command))
    _, out, _ = run(command, "--workings", "--url", url, example(command))
    assert "Workings" not in without
    assert "\nWorkings (SI units)\n" in out
    assert "formula" in out.partition("\nWorkings")[2]


def test_trade_units_in_a_report(run: Run, url: str, changed: Callable[..., Path]) -> None:
    code, out, _ = run("loop-length", "--url", url, changed("loop-length", pipe_spacing=0.2))
    assert code == 0
    # counterflow goes in at twice the design distance: common practice, no source
    assert "counterflow infeed spacing  400 mm" in out


def test_design_shows_tables_and_progress(run: Run, url: str) -> None:
    code, out, err = run("designs", "--url", url, EXAMPLES / "two-storeys.json")
    assert code == 0
    for title in (
        "Decide first",
        "Rooms",
        "Circuits",
        "Manifolds",
        "Screed",
        "Dates",
        "Notes",
        "Cautions",
    ):
        assert f"\n{title}\n===" in out or f"\n{title} (" in out
    assert "Calculating ... done" in err
    for room in json.loads((EXAMPLES / "two-storeys.json").read_text())["rooms"]:
        assert room["name"] in out


def test_design_writes_its_files(run: Run, url: str, tmp_path: Path) -> None:
    folder = tmp_path / "new" / "results"
    code, out, err = run("designs", "--url", url, "--output", folder, EXAMPLES / "house.json")
    assert code == 0
    assert f"Writing the result files into {folder} ... done" in err
    result = json.loads((folder / "result.json").read_bytes())
    assert (folder / "report.txt").read_text() == out
    assert len((folder / "report.txt").read_bytes()) < 9_000, "the house must be readable in a minute"
    assert out.index("Decide first") < 600
    with (folder / "schedule.csv").open(newline="", encoding="utf-8-sig") as file:
        rows = list(csv.DictReader(file))
    assert [row["Circuit"] for row in rows] == [circuit["id"] for circuit in result["circuits"]]
    asked = {room["id"]: room for room in json.loads((EXAMPLES / "house.json").read_text())["rooms"]}
    spacings = {room["id"]: room["pipe_spacing"] for room in result["rooms"]}
    for row, circuit in zip(rows, result["circuits"], strict=True):
        room = asked[circuit["room"]]
        assert row["Room"] == room["name"]
        assert row["Pattern"] == room.get("pattern", "counterflow")
        assert float(row["Spacing mm"]) == spacings[room["id"]] * 1000.0
        assert float(row["Pipe m"]) == pytest.approx(circuit["total_length"], abs=0.05)
        assert float(row["Flow l/min"]) == pytest.approx(circuit["volume_flow"] * 60_000.0, abs=0.005)
        assert float(row["Pressure kPa"]) == pytest.approx(circuit["total_pressure_drop"] / 1000.0, abs=0.005)
    with Client(url) as client:
        media_types = {entry.name: entry.media_types for entry in client.calculations().calculations}[
            "designs"
        ]
    assert "application/zip" in media_types
    for name, begins in (
        ("handover-pack.pdf", b"%PDF-"),
        ("drawings.pdf", b"%PDF-"),
        ("drawings.svg", b"<?xml"),
        ("drawings.dxf", b"  0"),
        ("tables.xlsx", b"PK"),
        ("calendar.ics", b"BEGIN:VCALENDAR"),
    ):
        assert (folder / name).read_bytes().startswith(begins), name
    assert json.loads((folder / "routes.json").read_bytes()) == result["layout"]


def test_a_former_answer_shows_what_has_changed(run: Run, url: str, tmp_path: Path) -> None:
    """The answer of a command is the former one of the next, without the members that would be too large."""
    code, answer, _ = run("designs", "--url", url, "--json", example("designs"))
    assert code == 0
    former, house = tmp_path / "former.json", tmp_path / "house.json"
    former.write_text(answer)
    assert len(json.dumps(former_design(json.loads(answer)))) < len(answer) / 4
    request = json.loads(example("designs").read_text())
    request["rooms"][0]["heat_demand"] *= 1.2
    house.write_text(json.dumps(request))
    code, out, _ = run("designs", "--url", url, "--former", former, house)
    assert code == 0
    changed = out.partition("What has changed")[2].partition("Notes")[0]
    assert "Parlour asks for it to get its heat." in changed
    assert "980 W" in out.partition("What is asked for otherwise")[2]
    code, out, _ = run("designs", "--url", url, "--former", example("designs"), house)
    assert "Parlour asks for it to get its heat." in out
    former.write_text("{}")
    code, _, err = run("designs", "--url", url, "--former", former, house)
    assert code == 3
    assert "former" in err


def test_a_folder_that_cannot_be_made_is_wrong_use(run: Run, url: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    code, _, err = run("designs", "--url", url, "--output", tmp_path / "file", example("designs"))
    assert code == 2
    assert str(tmp_path / "file") in err


def test_the_calendar(run: Run, url: str) -> None:
    code, out, _ = run("curing-plan", "--calendar", "--url", url, example("curing-plan"))
    assert code == 0
    assert out.startswith("BEGIN:VCALENDAR\r\n")


def test_the_drawing_of_a_storey(run: Run, url: str) -> None:
    code, out, _ = run("designs", "--drawing", "--url", url, example("designs"))
    assert code == 0
    assert "<title>Layout of floor heating pipe</title>" in out


def test_strict_turns_violations_into_a_code(run: Run, url: str, changed: Callable[..., Path]) -> None:
    thin = changed("curing-plan", thickness=0.04)
    code, out, _ = run("curing-plan", "--json", "--url", url, thin)
    assert any(finding["severity"] == "violation" for finding in json.loads(out)["findings"])
    assert code == 0
    assert run("curing-plan", "--strict", "--url", url, thin)[0] == 1
    sound = changed("loop-length", workings=False)
    assert run("loop-length", "--strict", "--url", url, sound)[0] == 0


def test_invalid_input(run: Run, url: str, changed: Callable[..., Path]) -> None:
    code, out, err = run("loop-length", "--url", url, changed("loop-length", pipe_spacing=150, colour=1))
    assert (code, out) == (3, "")
    assert "pipe spacing: must be at most" in err
    assert "[/pipe_spacing]" in err
    assert "mm)" in err
    assert "[/colour]" in err
    assert "SI units" in err
    assert "Request id: " in err
    *_, misspelt = run("loop-length", "--url", url, changed("loop-length", colour=1))
    assert "[/colour]" in misspelt and "SI units" not in misspelt


def test_invalid_input_as_json(run: Run, url: str, changed: Callable[..., Path]) -> None:
    code, out, err = run("loop-length", "--json", "--url", url, changed("loop-length", pipe_spacing=150))
    assert (code, out) == (3, "")
    assert json.loads(err)["errors"][0]["pointer"] == "/pipe_spacing"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("{", "not JSON, expecting property name enclosed in double quotes at line 1, column 2"),
        ('{"area": 12,\n "area" 13}', "at line 2, column 9"),
        ("[1]", "must hold one JSON object"),
        ("", "not JSON"),
        ("[" * 100_000, "nested too deeply"),
        ('{"area": NaN}', "area: must be a finite number [/area]"),
        ('{"area": 1e999}', "area: must be a finite number [/area]"),
    ],
)
def test_a_file_that_is_no_request(run: Run, url: str, tmp_path: Path, text: str, told: str) -> None:
    path = tmp_path / "request.json"
    path.write_text(text)
    code, out, err = run("loop-length", "--url", url, path)
    assert (code, out) == (3, "")
    assert told in err


def test_a_file_that_is_no_text(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "request.json"
    path.write_bytes(b"\xff\xfe{}")
    code, _, err = run("loop-length", path)
    assert code == 3
    assert "not UTF-8" in err


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["unknown"],
        ["loop-length"],
        ["loop-length", "--colour", "x.json"],
        ["loop-length", "--timeout", "0", "x.json"],
        ["loop-length", "--retries", "-1", "x.json"],
        ["loop-length", "--url", "localhost:8000", "x.json"],
        ["loop-length", "--url", "http://host:port", "x.json"],
        ["loop-length", "--local", "--url", NOBODY, "x.json"],
        ["routes", "--drawing", "--json", "x.json"],
        ["curing-plan", "--calendar", "--json", "x.json"],
        ["designs", "--drawing", "--output", "folder", "x.json"],
        ["curing-plan", "--calendar", "--strict", "x.json"],
        ["heat-output", "--output", "folder", "x.json"],
    ],
)
def test_wrong_options(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(arguments)
    assert left.value.code == 2
    assert "usage: tepidarium" in capsys.readouterr().err


def test_a_file_that_is_not_there(run: Run, tmp_path: Path) -> None:
    code, _, err = run("loop-length", tmp_path / "missing.json")
    assert code == 2
    assert "missing.json: No such file" in err


def test_a_service_that_is_not_there(run: Run) -> None:
    code, out, err = run("loop-length", "--retries", 0, "--url", NOBODY, example("loop-length"))
    assert (code, out) == (4, "")
    assert NOBODY in err
    assert "Request id: " in err


@pytest.mark.parametrize(
    ("outcome", "code"),
    [
        (httpx.ReadTimeout("late"), 4),
        (httpx.ConnectError("refused"), 4),
        (problem(400), 3),
        (problem(413), 3),
        (problem(422), 3),
        (problem(404), 5),
        (problem(429), 5),
        (problem(500), 5),
        (problem(503), 5),
        (httpx.Response(200, html="<html>log in</html>"), 5),
        (httpx.Response(200, content=b"{", headers={"Content-Type": "application/json"}), 5),
        (httpx.Response(200, json=[]), 5),
    ],
)
def test_exit_codes(run: Run, service: Callable[..., None], outcome: Any, code: int) -> None:
    service(outcome)
    found, out, err = run("loop-length", example("loop-length"))
    assert (found, out) == (code, "")
    assert "Request id: " in err


def test_an_interrupt(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Client, "answer", interrupt)
    assert run("loop-length", example("loop-length"))[0] == 130


def test_the_address_comes_from_the_option_or_the_environment() -> None:
    arguments = ["loop-length", "x.json"]
    assert parse(arguments, {}).url == "http://127.0.0.1:8000"
    assert parse(arguments, {"TEPIDARIUM_URL": NOBODY}).url == NOBODY
    assert parse([*arguments, "--url", "http://a"], {"TEPIDARIUM_URL": NOBODY}).url == "http://a"


def test_help_tells_commands_and_exit_codes(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["--help"])
    assert left.value.code == 0
    out = capsys.readouterr().out
    for word in (*CALCULATIONS, "calculations", "limits", "ready", "exit codes", "130"):
        assert word in out


def test_questions_about_the_service(run: Run, url: str) -> None:
    assert run("ready", "--url", url) == (0, "ready\n", "")
    code, out, _ = run("calculations", "--url", url)
    assert code == 0
    assert all(name in out for name in CALCULATIONS)
    code, out, _ = run("limits", "--json", "--url", url)
    assert code == 0
    assert {limit["name"] for limit in json.loads(out)["numbers"]} >= {"pipe_spacing", "room_temperature"}
    code, out, _ = run("limits", "--url", url)
    assert "pipe_spacing" in out


def test_not_ready(run: Run, service: Callable[..., None]) -> None:
    service(problem(503))
    assert run("ready") == (1, "not ready\n", "")
    assert run("ready", "--json") == (1, '{"ready": false}\n', "")


def installed(*arguments: str, **options: Any) -> subprocess.CompletedProcess[bytes]:
    script = "import sys; from tepidarium_client._cli import main; sys.exit(main())"
    return subprocess.run(
        [sys.executable, "-c", script, *arguments], capture_output=True, check=False, **options
    )


def test_a_pipe_in_and_a_pipe_out(url: str) -> None:
    request = example("loop-length").read_bytes()
    environment = {**os.environ, "TEPIDARIUM_URL": url}
    done = installed("loop-length", "--json", "-", input=request, env=environment)
    assert done.returncode == 0
    assert done.stderr == b""
    assert json.loads(done.stdout)["circuits"]


def test_a_terminal_that_knows_ascii_only(url: str) -> None:
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    done = installed("curing-plan", "--url", url, str(example("curing-plan")), env=environment)
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_reader_that_has_seen_enough(url: str) -> None:
    script = "import sys; from tepidarium_client._cli import main; sys.exit(main())"
    arguments = ["designs", "--json", "--url", url, str(example("designs"))]
    process = subprocess.Popen(
        [sys.executable, "-c", script, *arguments], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.close()
    errors = process.stderr.read()
    process.stderr.close()
    assert process.wait(30) == 0
    assert b"Traceback" not in errors


def test_local_design(tmp_path: Path) -> None:
    """The main job on a fresh computer: the command brings its own service."""
    arguments = ["designs", "--local", "--output", str(tmp_path), str(EXAMPLES / "two-storeys.json")]
    done = installed(*arguments)
    assert done.returncode == 0
    assert b"Starting the service ... done" in done.stderr
    assert (tmp_path / "result.json").exists()


def test_local_without_the_service(run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr(sys, "executable", str(tmp_path / "python"))
    code, _, err = run("designs", "--local", example("designs"))
    assert code == 2
    assert "tepidarium-api is not installed" in err
