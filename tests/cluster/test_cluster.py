"""The batch on two worker processes, of which one is killed; and lines that are no houses."""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
import time
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from tests.drills.houses import houses

pytestmark = pytest.mark.long

COMMAND = Path(__file__).parents[2] / "examples" / "cluster" / "design_houses.py"
SIZE = 6


@pytest.fixture(scope="module")
def cluster() -> ModuleType:
    """The example as a module."""
    spec = importlib.util.spec_from_file_location("design_houses", COMMAND)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def _start(source: Path, folder: Path) -> subprocess.Popen[bytes]:
    command = [sys.executable, COMMAND, source, folder, "--workers", "2", "--size", str(SIZE)]
    return subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def _rows(folder: Path) -> list[dict[str, Any]]:
    import pyarrow.parquet as pq  # noqa: PLC0415 - only the long checks have it

    assert not list(folder.glob(".*"))
    return [row for file in sorted(folder.glob("*.parquet")) for row in pq.read_table(file).to_pylist()]


def test_a_worker_that_is_killed_changes_no_result(tmp_path: Path) -> None:
    import psutil  # noqa: PLC0415 - only the long checks have them
    import pyarrow as pa  # noqa: PLC0415
    import pyarrow.parquet as pq  # noqa: PLC0415

    requests = list(houses(48, 0))
    lines = tmp_path / "houses.ndjson"
    lines.write_text("".join(json.dumps(one) + "\n" for one in requests))
    table = {"request": [json.dumps({k: v for k, v in one.items() if k != "key"}) for one in requests]}
    table["key"] = [one.get("key") for one in requests]
    pq.write_table(pa.table(table), tmp_path / "houses.parquet", row_group_size=20)

    assert _start(lines, tmp_path / "undisturbed").wait() == 0
    running = _start(tmp_path / "houses.parquet", tmp_path / "killed")
    while not list((tmp_path / "killed").glob("part-*")):
        assert running.poll() is None
        time.sleep(0.02)
    workers = [
        one for one in psutil.Process(running.pid).children() if "spawn_main" in " ".join(one.cmdline())
    ]
    assert len(workers) == 2
    workers[0].kill()
    (tmp_path / "killed" / ".part-000001-0123").write_bytes(
        b"PAR1"
    )  # as one leaves that is killed while it writes
    assert len(list((tmp_path / "killed").glob("part-*"))) < len(requests) / SIZE
    assert running.wait() == 0
    expected = _rows(tmp_path / "undisturbed")
    assert [row["line"] for row in expected] == list(range(1, len(requests) + 1))
    assert [row["key"] for row in expected] == [one.get("key", str(n)) for n, one in enumerate(requests, 1)]
    assert _rows(tmp_path / "killed") == expected


def test_a_row_is_what_the_service_answers(cluster: ModuleType, tmp_path: Path) -> None:
    from tepidarium_client import Client, local_service  # noqa: PLC0415

    source = tmp_path / "houses.ndjson"
    requests = list(houses(3, 1))
    source.write_text("\n".join(json.dumps(one) for one in requests))
    (part,) = cluster.parts_of(source, 50)
    assert cluster.design_part(part, str(tmp_path)) == (4, 0)
    with local_service() as url, Client(url) as client:
        for row, one in zip(_rows(tmp_path), requests, strict=True):
            one.pop("key", None)
            assert row["result"].encode() == client.answer("designs", one).content
            assert json.loads(row["result"])["supply_temperature"] == row["supply_temperature"]


def test_lines_that_are_no_houses_are_told_and_the_rest_goes_on(cluster: ModuleType, tmp_path: Path) -> None:
    source = tmp_path / "houses.ndjson"
    good = json.dumps(next(houses(1, 0))).encode()
    deep = b"[" * 100_000
    bad = [b"no JSON", b'{"key": 7, "rooms": 1}', b" " * 9 + b"x" * 10_000_000, b"\xff\xfe", deep]
    source.write_bytes(
        b"\xef\xbb\xbf" + good + b"\r\n\n" + b"\n".join(bad) + b"\n" + good
    )  # no newline at the end
    (part,) = cluster.parts_of(source, 50)
    assert cluster.design_part(part, str(tmp_path)) == (7, 5)
    rows = _rows(tmp_path)
    assert [row["line"] for row in rows] == [1, 3, 4, 5, 6, 7, 8]
    assert [row["key"] for row in rows] == ["1", "3", "7", "5", "6", "7", "8"]
    assert [json.loads(row["problem"])["status"] for row in rows[1:-1]] == [400, 422, 413, 400, 400]
    assert rows[0]["result"] == rows[-1]["result"] is not None


def test_what_is_there_is_kept_and_results_of_another_input_are_refused(
    cluster: ModuleType, tmp_path: Path
) -> None:
    source = tmp_path / "houses.ndjson"
    requests = [json.dumps(one) for one in houses(4, 0)]
    source.write_text("\n".join(requests))
    first, second = cluster.parts_of(source, 2)
    for part in (first, second):
        cluster.design_part(part, str(tmp_path))
    target = tmp_path / "part-000000.parquet"
    before = target.stat().st_mtime_ns
    assert cluster.design_part(first, str(tmp_path)) == (2, 0)
    assert target.stat().st_mtime_ns == before
    with pytest.raises(ValueError, match="other requests"):
        cluster.design_part(cluster.Part(0, str(source), 3, second.start, second.length), str(tmp_path))


def test_parquet_without_requests_is_refused(cluster: ModuleType, tmp_path: Path) -> None:
    import pyarrow as pa  # noqa: PLC0415 - only the long checks have it
    import pyarrow.parquet as pq  # noqa: PLC0415

    pq.write_table(pa.table({"house": ["{}"]}), tmp_path / "houses.parquet")
    with pytest.raises(ValueError, match="no column named request"):
        list(cluster.parts_of(tmp_path, 2))
