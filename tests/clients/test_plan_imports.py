"""The import of a plan by the client and the command, against a running service."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from tepidarium_client import AsyncClient, Client, InvalidInput, local_service
from tepidarium_client._cli import main

EXAMPLE = Path(__file__).parents[2] / "examples" / "plan-imports.xml"


@pytest.fixture(scope="module")
def url() -> Iterator[str]:
    with local_service() as address:
        yield address


def test_a_plan_becomes_a_design(url: str) -> None:
    with Client(url) as client:
        found = client.plan_imports(
            EXAMPLE.read_bytes(), external_temperature=-12.0, annual_mean_temperature=9.0, storeys=["s0"]
        )
        assert [room.name for room in found.request.rooms] == ["Living room", "Hall", "Kitchen"]
        assert found.missing == []
        assert len(found.request.doorways) == 2
        design = client.designs(found.request)
    assert design.layout is not None


def test_both_clients_say_the_same_and_a_file_that_is_none_is_refused(url: str) -> None:
    async def ask() -> object:
        async with AsyncClient(url) as client:
            return await client.plan_imports(EXAMPLE.read_bytes())

    with Client(url) as client:
        assert client.plan_imports(EXAMPLE.read_bytes()) == asyncio.run(ask())
        with pytest.raises(InvalidInput, match="not XML at line"):
            client.plan_imports(EXAMPLE.read_bytes()[:-50])


def test_the_command_prints_a_request_and_reports_beside_it(
    url: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    winter = ["--external-temperature", "-12", "--annual-mean-temperature", "9"]
    assert main(["import", "--url", url, *winter, str(EXAMPLE)]) == 0
    printed = capsys.readouterr()
    house = tmp_path / "house.json"
    house.write_text(printed.out, encoding="utf-8")
    assert "3 of 3 rooms taken, 2 doorways" in printed.err
    assert "Guessed" in printed.err
    assert "Missing" not in printed.err
    assert main(["designs", "--url", url, str(house)]) == 0
    assert "Kitchen" in capsys.readouterr().out


def test_the_command_says_what_is_missing_and_prints_everything_as_json(
    url: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["import", "--url", url, str(EXAMPLE)]) == 0
    printed = capsys.readouterr()
    assert "/rooms/0/heat_demand: the heat demand of Living room (Space living, line 9)" in printed.err
    assert main(["import", "--url", url, "--json", str(EXAMPLE)]) == 0
    document = json.loads(capsys.readouterr().out)
    assert {"request", "taken", "guessed", "missing", "rooms_found", "findings", "cautions"} <= set(document)


def test_a_file_that_is_not_there_is_wrong_use(url: str) -> None:
    assert main(["import", "--url", url, "nowhere.xml"]) == 2
