"""Units, tables and words of the command line."""

from __future__ import annotations

from typing import Any

import pytest
from tepidarium_client import FieldError, InvalidInput, Operation
from tepidarium_client._cli._layouts import Joined
from tepidarium_client._cli._messages import explain, field_line, in_words
from tepidarium_client._cli._plots import with_bars, with_changes, with_dots
from tepidarium_client._cli._progress import Progress
from tepidarium_client._cli._report import report
from tepidarium_client._cli._tables import Column, table, values
from tepidarium_client._cli._units import in_trade
from tepidarium_client._units import UNITS


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        # factors by definition: BIPM, The International System of Units, 9th ed. (litre, minute, hour, prefixes)
        ("pipe_spacing", 0.15, "150 mm"),
        ("wall_thickness", 0.0022, "2.2 mm"),
        ("roughness", 7e-6, "0.007 mm"),
        ("pipe_length", 92.34, "92.3 m"),
        ("total_pressure_drop", 12_345.0, "12.35 kPa"),
        ("volume_flow", 1e-3 / 60.0, "1.00 l/min"),
        ("mass_flow", 1.0 / 3600.0, "1.0 kg/h"),
        ("system_volume", 0.0421, "42.1 l"),
        ("supply_temperature", 36.94, "36.9 °C"),
        ("heat_flow", 1119.4, "1119 W"),
        ("relative_humidity", 0.65, "65 %"),
        ("carbide_moisture", 0.018, "1.80 %"),
    ],
)
def test_trade_units(name: str, value: float, text: str) -> None:
    assert in_trade(name, value) == text


def test_si_values_come_from_the_document() -> None:
    assert UNITS["pipe_spacing"] == "m"
    assert UNITS["total_pressure_drop"] == "Pa"
    assert UNITS["volume_flow"] == "m3/s"


ROWS: list[dict[str, Any]] = [
    {"id": "one", "pipe_spacing": 0.1, "text": "short", "none": None, "inner": {"area": 1.25}},
    {"id": "two", "pipe_spacing": 0.25, "text": "a text that is much longer than its column", "none": None},
]


def test_columns_are_aligned_and_empty_ones_left_out() -> None:
    columns = (Column.of("id", "room"), Column.of("pipe_spacing"), Column.of("none"), Column.of("inner.area"))
    assert table(ROWS, columns, 80) == [
        "         pipe",
        "      spacing  area",
        "room     [mm]  [m2]",
        "----  -------  ----",
        "one       100   1.2",
        "two       250     -",
    ]


def test_text_is_wrapped_to_the_width() -> None:
    lines = table(ROWS, (Column.of("id"), Column.of("text")), 27)
    assert max(map(len, lines)) <= 27
    assert " ".join(line[5:] for line in lines[3:]).split() == ROWS[1]["text"].split()


@pytest.mark.parametrize("width", [1, 20, 60, 200])
def test_no_width_loses_a_word(width: int) -> None:
    lines = table(ROWS, (Column.of("id"), Column.of("text")), width)
    words = " ".join(lines).split()
    assert set(ROWS[1]["text"].split()) <= set(words)


def test_values_leave_out_what_is_not_there() -> None:
    assert values({"area": 1.25, "pipe_spacing": None, "reached": True, "rooms": [], "inner": {}}) == [
        "area     1.2 m2",
        "reached  yes",
    ]


def test_rows_that_are_the_same_for_several_outer_rows_appear_once() -> None:
    plans = [
        {"id": name, "plan": {"stages": [{"days": 1}, {"days": days}]}} for name, days in (("a", 2), ("b", 3))
    ]
    assert Joined("plans", "plan.stages", "id", "of").rows({"plans": plans}) == [
        {"of": "a, b", "days": 1},
        {"of": "a", "days": 2},
        {"of": "b", "days": 3},
    ]


@pytest.mark.parametrize(
    ("pointer", "words"),
    [
        ("", "the request"),
        ("/pipe/wall_thickness", "pipe, wall thickness"),
        ("/rooms/1/outline/0", "rooms no. 2 (Kitchen), outline no. 1"),
        ("/rooms/0", "rooms no. 1 (r1)"),
        ("/rooms/7/area", "rooms no. 8, area"),
        ("/rooms/x/area", "rooms, x, area"),
        ("/a~1b", "a/b"),
        ("/result/circuits/0", "circuits no. 1"),
    ],
)
def test_pointers_in_words(pointer: str, words: str) -> None:
    document = {"rooms": [{"id": "r1"}, {"id": "r2", "name": "Kitchen", "outline": [[0.0, 0.0]]}]}
    assert in_words(pointer, document) == words


def test_an_error_with_changes_shows_them() -> None:
    replaced = Operation("replace", "/outline", [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0]])
    fault = FieldError("/voids/0", "touches", changes=(replaced, Operation("remove", "/voids/0")))
    lines = explain(InvalidInput("422: no", request_id="r", errors=(fault,)), {}).splitlines()
    assert lines[2:4] == [
        "    replace /outline by [[0.0, 0.0], [4.0, 0.0], [4.0, 3.0]]",
        "    remove /voids/0",
    ]


@pytest.mark.parametrize(
    ("error", "line"),
    [
        (
            FieldError("/pipe/wall_thickness", "leaves no bore", "no_bore", 0.0065),
            "pipe, wall thickness: leaves no bore (limit 0.0065 m = 6.5 mm) [/pipe/wall_thickness]",
        ),
        (
            FieldError("/pipe_spacing", "must be at most 0.6 m", "too_large", 0.6),
            "pipe spacing: must be at most 0.6 m (0.6 m = 600 mm) [/pipe_spacing]",
        ),
        (
            FieldError("/supply_temperature", "is too low", "too_small", 20.0),
            "supply temperature: is too low (limit 20 °C) [/supply_temperature]",
        ),
        (FieldError("/circuits", "too many items", "too_many", 12), "circuits: too many items [/circuits]"),
        (FieldError("", "is not an object"), "the request: is not an object [/]"),
    ],
)
def test_an_error_names_field_and_limit(error: FieldError, line: str) -> None:
    assert field_line(error, {}) == line


def finding(severity: str, message: str, *places: tuple[str, str]) -> dict[str, Any]:
    return {
        "severity": severity,
        "message": message,
        "source": "EN 1264-4",
        "places": [{"subject": subject, "message": words} for subject, words in places],
    }


def test_what_to_decide_comes_first_and_notes_after_the_tables() -> None:
    answer = {
        "inputs": {},
        "pipe_length": 90.0,
        "circuits": [{"id": "one", "area": 12.0}],
        "findings": [
            finding("violation", "It is too hot.", ("", "")),
            finding("warning", "Flow is low.", ("Hall", "0.25 l/min"), ("", "0.30 l/min")),
            finding(
                "note",
                "Dry it.",
                *((f"Room {number}", f"{number} days" + "." * (number == 0)) for number in range(20)),
            ),
        ],
        "cautions": [{"code": "c", "message": "Take care."}],
        "engine_version": "1",
    }
    text = report("loop-length", answer)
    titles = (
        "Decide first",
        "It is too hot. (EN 1264-4)",
        "Flow is low.",
        "Circuits",
        "Dry it.",
        "Take care.",
    )
    assert sorted(titles, key=text.index) == list(titles)
    assert "- Flow is low.\n  Hall: 0.25 l/min; 0.30 l/min\n" in text
    assert "  Room 0: 0 days. Also Room 1; Room 2; " in text and "; Room 4; and 15 more\n" in text
    assert "! Take care." in text
    assert "\x1b" not in text
    calm = report("loop-length", {**answer, "findings": []})
    assert "Nothing: no violation and no warning." in calm and "Notes" not in calm


def test_columns_that_say_nothing_are_left_out() -> None:
    columns = (
        Column.of("id"),
        Column.of("manifold", distinctive=True),
        Column.of("valve_kv", instead_of="setting"),
        Column.of("setting"),
    )
    rows = [{"id": name, "manifold": "1", "valve_kv": 0.5, "setting": 2.0} for name in "ab"]
    assert table(rows, columns, 80)[0].split() == ["id", "setting"]
    rows[1] |= {"manifold": "2", "setting": None}
    assert {"manifold", "kv"} <= set(" ".join(table(rows, columns, 80)[:3]).split())


class Screen:
    """A stream that keeps what is written."""

    def __init__(self, terminal: bool) -> None:
        self.terminal = terminal
        self.text = ""

    def isatty(self) -> bool:
        return self.terminal

    def write(self, text: str) -> None:
        self.text += text

    def flush(self) -> None:
        pass


@pytest.mark.parametrize("terminal", [True, False])
def test_progress(terminal: bool) -> None:
    screen: Any = Screen(terminal)
    progress = Progress(screen)
    with progress.step("Working"):
        pass
    with pytest.raises(RuntimeError), progress.step("Breaking"):
        raise RuntimeError
    assert "Working ... done" in screen.text
    assert "Breaking ... failed" in screen.text
    assert ("\r" in screen.text) is terminal
    assert screen.text.endswith(" s)\n")


def test_a_front_is_plotted_with_a_dot_in_each_row() -> None:
    prepared = with_dots("pipe", "cost")([{"pipe": 100.0}, {"pipe": 300.0}, {"pipe": 200.0}], {})
    places = [row["plot"].index("o") for row in prepared]
    assert places[0] == 0
    assert places[1] == 2 * places[2] == len(prepared[0]["plot"]) - 1
    priced = with_dots("pipe", "cost")([{"pipe": 1.0, "cost": 9.0}, {"pipe": 2.0, "cost": 8.0}], {})
    assert priced[0]["plot"].endswith("o")
    assert with_dots("supply")([{"supply": None}], {})[0]["plot"] == ""


def test_bars_go_to_the_side_of_their_sign_and_are_as_long_as_their_values() -> None:
    rows = with_bars("change")([{"change": -2.0}, {"change": 1.0}, {"change": 0.0}], {})
    left, right, none = (row["plot"].split("|") for row in rows)
    assert (left[0].count("#"), left[1].count("#")) == (2 * right[1].count("#"), 0)
    assert right[0].count("#") == none[0].count("#") == none[1].count("#") == 0
    assert with_bars("change")([{"change": 0.0}], {})[0]["plot"].count("#") == 0


def test_tolerances_name_what_changes() -> None:
    change = {"code": "velocity_low", "change": "gone", "subject": "Hall"}
    rows = [
        {"room": "", "name": "", "tolerable_rise": 0.1, "changes": [change, {**change, "subject": "Bath"}]},
        {"room": "hall", "name": "Hall", "tolerable_rise": None, "changes": []},
        {"room": "attic", "name": "", "tolerable_rise": 0.2, "changes": []},
    ]
    told = with_changes(rows, {})
    assert [row["name"] for row in told] == ["all together", "Hall", "attic"]
    assert told[0]["changed"] == "velocity low is gone for Hall, Bath"
    assert "twice" in told[1]["changed"]
    assert "no house" in told[2]["changed"]
