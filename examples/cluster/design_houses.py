"""Design many houses on a Dask cluster: no service, the workers compute.

    python design_houses.py houses.ndjson results/                        # the cores of this computer
    python design_houses.py houses.parquet results/ --scheduler tcp://...  # a cluster that runs already

A line is a request of ``designs`` as JSON; it may have a ``key`` besides. In Parquet the column ``request`` holds it,
and there may be a column ``key``. Results are Parquet, one file for each part of the input. Workers must find source
and folder under the same path. A file of results is whole or not there: after any end, the same command goes on.
"""

from __future__ import annotations

import argparse
import hashlib
import logging
import os
import sys
import time
import uuid
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import dask
import msgspec
import pyarrow as pa
import pyarrow.parquet as pq
from distributed import Client, LocalCluster, as_completed
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_engine import __version__ as engine_version

DESIGNS = next(one for one in CALCULATIONS if one.name == "designs")
LONGEST = 256 * 1024
"""[bytes] of a request, as of the service."""
LOSSES = 10
"""So many workers may be lost over the same part before it is given up."""

COLUMNS = pa.schema(
    [
        pa.field("line", pa.int64(), nullable=False),
        pa.field("key", pa.string(), nullable=False),
        pa.field("supply_temperature", pa.float64()),
        pa.field("pipe_length", pa.float64()),
        pa.field("circuits", pa.int32()),
        pa.field("result", pa.large_string()),
        pa.field("problem", pa.string()),
    ]
)


@dataclass(frozen=True)
class Part:
    """Lines that one task designs. ``start`` and ``length`` are bytes, or rows of a row group of Parquet."""

    number: int
    source: str
    first_line: int
    start: int
    length: int
    row_group: int | None = None


@dataclass(frozen=True)
class House:
    line: int
    key: str
    content: bytes


def parts_of(source: Path, size: int) -> Iterator[Part]:
    """The parts of a file of lines, or of a Parquet file or a folder of such, with ``size`` houses each at most."""
    if source.is_file() and source.suffix != ".parquet":
        yield from _parts_of_lines(source, size)
        return
    files = sorted(source.glob("*.parquet")) if source.is_dir() else [source]
    number, line = 0, 1
    for file in files:
        with pq.ParquetFile(file) as table:
            if "request" not in table.schema_arrow.names:
                raise ValueError(f"{file} has no column named request")
            for group in range(table.num_row_groups):
                rows = table.metadata.row_group(group).num_rows
                for start in range(0, rows, size):
                    length = min(size, rows - start)
                    yield Part(number, str(file), line, start, length, group)
                    number, line = number + 1, line + length


def _parts_of_lines(source: Path, size: int) -> Iterator[Part]:
    with source.open("rb") as file:
        number, line, start, end = 0, 1, 0, 0
        for count, content in enumerate(file, 1):
            end += len(content)
            if count % size == 0:
                yield Part(number, str(source), line, start, end - start)
                number, line, start = number + 1, count + 1, end
        if end > start:
            yield Part(number, str(source), line, start, end - start)


def houses_of(part: Part) -> Iterator[House]:
    """The houses of a part, read where the task runs."""
    if part.row_group is not None:
        with pq.ParquetFile(part.source) as table:
            columns = [name for name in ("request", "key") if name in table.schema_arrow.names]
            rows = table.read_row_group(part.row_group, columns).slice(part.start, part.length).to_pylist()
        for line, row in enumerate(rows, part.first_line):
            request = row["request"] or ""
            content = request if isinstance(request, bytes) else request.encode()
            key, content = _key_and_request(line, content)
            yield House(line, key if row.get("key") is None else str(row["key"]), content)
        return
    with open(part.source, "rb") as file:
        file.seek(part.start)
        lines = file.read(part.length).removeprefix(b"\xef\xbb\xbf").split(b"\n")
    for line, content in enumerate(lines, part.first_line):
        if content.strip():
            yield House(line, *_key_and_request(line, content))


def _key_and_request(line: int, content: bytes) -> tuple[str, bytes]:
    """What is no JSON object stays as it is: the answer says what is wrong with it."""
    if b'"key"' in content and len(content) <= LONGEST:
        with suppress(msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
            members = msgspec.json.decode(content, type=dict[str, msgspec.Raw])
            if "key" in members:
                key = msgspec.json.decode(members.pop("key"))
                return str(key), msgspec.json.encode(members)
    return str(line), content


def row_of(house: House) -> dict[str, Any]:
    """The row of results: the design and its main figures, or the problem."""
    row: dict[str, Any] = {"line": house.line, "key": house.key}
    if len(house.content) > LONGEST:
        detail = f"The line has {len(house.content)} bytes; {LONGEST} are allowed."
        problem = {"type": "about:blank", "title": "Content too large", "status": 413, "detail": detail}
        return row | {"problem": msgspec.json.encode(problem).decode()}
    outcome = answer(DESIGNS, house.content, "application/json")
    if not isinstance(outcome, Answer):
        return row | {"problem": msgspec.json.encode(outcome).decode()}
    design = msgspec.json.decode(outcome.content)
    return row | {
        "supply_temperature": design["supply_temperature"],
        "pipe_length": sum(circuit["total_length"] for circuit in design["circuits"]),
        "circuits": len(design["circuits"]),
        "result": outcome.content.decode(),
    }


def design_part(part: Part, folder: str) -> tuple[int, int]:
    """Write the results of a part, unless they are there; the numbers of houses and of problems among them."""
    houses = list(houses_of(part))
    digest = hashlib.sha256(repr(houses).encode()).hexdigest()
    target = Path(folder, f"part-{part.number:06}.parquet")
    about = {"requests": digest, "engine_version": engine_version}
    if not target.exists():
        table = pa.Table.from_pylist([row_of(house) for house in houses], COLUMNS.with_metadata(about))
        unfinished = target.with_name(f".{target.stem}-{uuid.uuid4().hex}")
        try:
            pq.write_table(table, unfinished, compression="zstd")
            os.replace(unfinished, target)
        finally:
            unfinished.unlink(missing_ok=True)
    found = pq.read_schema(target).metadata or {}
    for name, value in about.items():
        if found.get(name.encode(), b"").decode() != value:
            raise ValueError(f"{target} is of other {name}: name another folder for the results")
    problem = pq.read_table(target, columns=["problem"])["problem"]
    return len(houses), len(problem) - problem.null_count


def run(client: Client, source: Path, folder: Path, size: int) -> tuple[int, int, int]:
    """Design all houses; the numbers of houses, of problems, and of parts that were given up."""
    folder.mkdir(parents=True, exist_ok=True)
    parts = list(parts_of(source.resolve(), size))
    tasks = client.map(design_part, parts, folder=str(folder.resolve()), pure=False)
    houses = problems = given_up = 0
    began = time.monotonic()
    for number, task in enumerate(as_completed(tasks), 1):
        if task.status == "finished":
            more, faulty = task.result()
            houses, problems = houses + more, problems + faulty
        else:
            given_up += 1
            print(task.exception(), file=sys.stderr)
        task.release()
        rate = houses / (time.monotonic() - began)
        print(f"{number} of {len(tasks)} parts, {houses} houses, {rate:.1f}/s", file=sys.stderr)
    for unfinished in folder.glob(".part-*"):  # of workers that were killed while they wrote
        unfinished.unlink(missing_ok=True)
    return houses, problems, given_up


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("source", type=Path)
    parser.add_argument("folder", type=Path)
    parser.add_argument(
        "--scheduler", help="address of a scheduler; without it the cores of this computer are used"
    )
    parser.add_argument("--workers", type=int, default=os.cpu_count(), help="without a scheduler")
    parser.add_argument("--size", type=int, default=50, help="houses in a part")
    options = parser.parse_args()
    dask.config.set({"distributed.scheduler.allowed-failures": LOSSES})
    cluster = options.scheduler or LocalCluster(
        n_workers=options.workers, threads_per_worker=1, dashboard_address=None, silence_logs=logging.CRITICAL
    )
    began = time.monotonic()
    with Client(cluster) as client:
        houses, problems, given_up = run(client, options.source, options.folder, options.size)
    if not options.scheduler:
        cluster.close()
    seconds = time.monotonic() - began
    print(f"{houses} houses, {problems} with a problem, {given_up} parts given up, {seconds:.1f} s")
    return 1 if given_up else 3 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
