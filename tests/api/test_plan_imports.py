"""Plans over HTTP, as a client sends them: the media type decides, size and depth are bounded."""

from __future__ import annotations

import io
import time
from collections.abc import Iterator
from typing import Any

import ezdxf
import pytest
from litestar.testing import TestClient
from tepidarium_api.app import create_app
from tepidarium_api.settings import Settings

from tests.findings.answered import finding_faults, wording_faults
from tests.plans.gbxml_house import Box, Door, gbxml

LIVING = Box("living", 0.0, 0.0, 5.0, 4.0, beyond={"x1": "office"}, name="Living room")
OFFICE = Box("office", 5.2, 0.0, 3.0, 4.0, beyond={"x0": "living"})
HOUSE = gbxml([LIVING, OFFICE], [Door("living", 1.0)])
XML = {"Content-Type": "application/xml"}
WINTER = {"external_temperature": "-10", "annual_mean_temperature": "9"}
PATH = "/v1/plan-imports"


@pytest.fixture(scope="module")
def service() -> Iterator[Any]:
    settings = Settings(processes=1, file_limit=100_000, file_timeout=0.5)
    with TestClient(create_app(settings, log_stream=io.BytesIO())) as client:
        yield client


def send(service: Any, content: bytes = HOUSE, headers: dict[str, str] = XML, **options: Any) -> Any:
    return service.post(PATH, content=content, headers=headers, params=options)


def test_a_plan_becomes_a_request_that_designs_takes(service: Any) -> None:
    found = send(service, **WINTER)
    assert found.status_code == 200, found.text
    document = found.json()
    assert document["inputs"]["external_temperature"] == -10.0
    assert document["missing"] == []
    assert document["cautions"]
    design = service.post("/v1/designs", json=document["request"])
    assert design.status_code == 200, design.text
    assert send(service, **WINTER).content == found.content


def test_findings_are_as_all_others(service: Any) -> None:
    plan = gbxml([LIVING, Box("hall", 4.0, 0.0, 3.0, 4.0)]).replace(
        b'lengthUnit="Meters"', b'lengthUnit="Feet"'
    )
    document = send(service, plan, snap_tolerance="0").json()
    assert {finding["code"] for finding in document["findings"]} == {"room_left_out", "room_size_unlikely"}
    assert finding_faults(document) == []
    assert wording_faults(document) == []


def test_options_at_fault_are_named(service: Any) -> None:
    answer = send(service, external_temperature="warm", snap_tolerance="5", colour="red", find_doorways="1.5")
    assert answer.status_code == 422
    assert {error["pointer"]: error["code"] for error in answer.json()["errors"]} == {
        "/external_temperature": "type",
        "/snap_tolerance": "too_large",
        "/colour": "unknown_field",
        "/find_doorways": "type",
    }
    twice = service.post(f"{PATH}?thickest_wall=0.3&thickest_wall=0.4", content=HOUSE, headers=XML)
    assert [error["pointer"] for error in twice.json()["errors"]] == ["/thickest_wall"]
    both = service.post(f"{PATH}?storeys=s0&storeys=s1", content=HOUSE, headers=XML)
    assert both.json()["inputs"]["storeys"] == ["s0", "s1"]


@pytest.mark.parametrize("media_type", ["application/json", "text/plain", "application/octet-stream", ""])
def test_another_media_type_is_refused_with_those_that_are_accepted(service: Any, media_type: str) -> None:
    answer = send(service, headers={"Content-Type": media_type})
    assert answer.status_code == 415
    assert "application/xml" in answer.headers["accept-post"]


def test_an_encoded_body_an_unwanted_form_and_other_methods_are_refused(service: Any) -> None:
    assert send(service, headers=XML | {"Content-Encoding": "gzip"}).status_code == 415
    assert send(service, headers=XML | {"Accept": "image/png"}).status_code == 406
    assert service.get(PATH).status_code == 405
    assert "application/xml" in service.options(PATH).headers["accept-post"]


@pytest.mark.parametrize("media_type", ["application/xml; charset=utf-16", "text/xml", "TEXT/XML"])
def test_parameters_and_capitals_of_the_media_type_do_not_matter(service: Any, media_type: str) -> None:
    assert send(service, headers={"Content-Type": media_type}).status_code == 200


def test_a_file_that_is_too_large_is_refused(service: Any) -> None:
    assert send(service, HOUSE + b" " * 100_000).status_code == 413


def test_a_bomb_is_refused_in_a_tenth_of_a_second(service: Any) -> None:
    """The time holds for the service at work; the bound here is wide, as the machine of a test may be busy."""
    entities = "".join(f'<!ENTITY e{n + 1} "{f"&e{n};" * 10}">' for n in range(12))
    bomb = f'<?xml version="1.0"?><!DOCTYPE g [<!ENTITY e0 "aaaa">{entities}]><gbXML>&e12;</gbXML>'.encode()
    deep = b"<gbXML>" + b"<Campus>" * 12_000
    send(service)
    for content, reason in ((bomb, "document type"), (deep, "nested more than 64 deep")):
        began = time.perf_counter()
        answer = send(service, content)
        assert time.perf_counter() - began < 2.0
        assert answer.status_code == 422
        document = answer.json()
        assert document["type"] == "/problems/unreadable-file"
        assert reason in document["detail"]


@pytest.mark.parametrize("content", [b"", HOUSE[:-100], b"nothing", b"<a/>"])
def test_what_cannot_be_read_is_a_problem_with_its_place(service: Any, content: bytes) -> None:
    answer = send(service, content)
    assert answer.status_code == 422
    assert answer.json()["type"] == "/problems/unreadable-file"


def test_the_catalogue_lists_it(service: Any) -> None:
    listed = {entry["name"]: entry for entry in service.get("/v1/calculations").json()["calculations"]}
    assert listed["plan-imports"]["path"] == PATH
    limits = service.get("/v1/limits").json()
    assert {entry["name"] for entry in limits["numbers"]} >= {"snap_tolerance", "thickest_wall"}
    assert {entry["name"]: entry["value"] for entry in limits["service"]}["file"] == 100_000


def test_the_media_type_says_that_it_is_a_drawing(service: Any) -> None:
    document = ezdxf.new(units=6)
    for x in (0.0, 5.2):
        corners = [(x, 0), (x + 5, 0), (x + 5, 4), (x, 4)]
        document.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "ROOMS"})
    text = io.StringIO()
    document.write(text)
    found = send(service, text.getvalue().encode(), {"Content-Type": "image/vnd.dxf"}, room_layer="ROOMS")
    assert found.status_code == 200, found.text
    assert [room["area"] for room in found.json()["rooms_found"]] == pytest.approx([20.0, 20.0])
    assert send(service, text.getvalue().encode(), XML).json()["type"] == "/problems/unreadable-file"
    unknown = send(service, text.getvalue().encode(), {"Content-Type": "image/vnd.dxf"}, room_layer="WALLS")
    assert [error["pointer"] for error in unknown.json()["errors"]] == ["/room_layer"]
