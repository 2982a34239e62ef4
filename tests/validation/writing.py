"""The book as Markdown and pictures, from the published cases and what was measured."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import groupby
from statistics import median, quantiles
from typing import Any

from tepidarium_api.handbook.charts import Axis, Bar, Line, bars, lines
from tepidarium_api.handbook.wording import cell, number, table
from tepidarium_engine import __version__

from tests.estimates.calibration import held_out, hits
from tests.estimates.calibration import read_record as read_drawn
from tests.estimates.calibration import table as table_of_hits
from tests.sections.against_standard import EN_OVER_ELEMENTS, SPACINGS, THICK, standard_over_section

from .cases import Line as CaseLine
from .cases import groups
from .cases import lines as case_lines
from .measuring import MEASURES, PATTERNS, read_record

__all__ = ["book"]

_SIGNED = f"Engine version {__version__}. Written by `python -m tests.validation`.\n"
_WORDS = {
    "coverage_three_quarters": "coverage: share of the heated floor within three quarters of a spacing of pipe",
    "distance_1": "distance between pipes, the closest hundredth, as a share of the spacing",
    "length_ratio": "pipe laid over even pipe on the same floor",
    "mixed_share": "share of pipe with warm on one side and cool on the other",
    "temperature_spread": "uneven warmth of the floor, as a share of the drop",
}
_BOUNDS = (0.1, 0.25, 0.5, 1.0)


def book() -> dict[str, bytes]:
    """Every file of the book by its name below ``text``."""
    pages = {"validation/published-cases.md": _overview(), "validation/section-and-standard.md": _sections()}
    pages |= {"validation/other-methods.md": _other_methods()}
    pages |= {"validation/routes.md": _routes(), "validation/estimates.md": _estimates()}
    pages |= {f"validation/cases/{group.replace('_', '-')}.md": _group(group) for group in groups()}
    made = {name: text.encode() for name, text in pages.items()}
    return made | {f"pictures/{name}.svg": draw() for name, draw in _PICTURES.items()}


def _overview() -> str:
    rows, everything = [], []
    for group in groups():
        found = case_lines(group)
        everything += found
        worst = max(found, key=lambda line: line.share)
        rows.append(
            (
                f"[{group.replace('_', ' ')}](cases/{group.replace('_', '-')}.md)",
                str(len({line.case for line in found})),
                str(len(found)),
                str(sum(not line.kept for line in found)),
                f"{100.0 * worst.share:.0f} %",
                str(len({line.source for line in found})),
            )
        )
    head = ("file of cases", "cases", "values", "not kept", "most of a tolerance used", "sources")
    kept = sum(line.kept for line in everything)
    return (
        "# Published cases\n\n"
        "Each value that a standard, a handbook, a paper or an independent library gives is compared "
        "with what the engine "
        "answers. The tests run the same cases through the engine, over HTTP and through the client.\n\n"
        f"{kept} of {len(everything)} values are kept.\n\n{table(head, rows)}\n\n"
        "A tolerance is as wide as the source is exact: a table with two decimals can be met to half "
        "of the last one.\n\n"
        "![How much of their tolerance the values use](../pictures/tolerances.svg)\n\n"
        f"{_SIGNED}"
    )


def _group(group: str) -> str:
    found = case_lines(group)
    parts = [f"# Cases: {group.replace('_', ' ')}\n"]
    head = ("case", "value", "expected", "got", "deviation", "tolerance")
    for source, own in groupby(found, key=lambda line: line.source):
        parts.append(f"{cell(source)}:\n\n{table(head, [_row(line) for line in own])}\n")
    return "\n".join([*parts, _SIGNED])


def _row(line: CaseLine) -> tuple[str, ...]:
    return (
        cell(line.case),
        f"`{line.pointer}`" if line.pointer.startswith("/") else line.pointer,
        _shown(line.expected),
        _shown(line.got),
        "–" if line.deviation is None else number(line.deviation, 2) if line.deviation > 1e-12 else "0",
        "the same" if line.tolerance is None else f"{line.tolerance:g}",
    )


def _shown(value: Any) -> str:
    if isinstance(value, float):
        return number(value, 6)
    if isinstance(value, str) and value.startswith("/"):
        return f"`{value}`"
    return cell(value if isinstance(value, str | int) else repr(value))


def _sections() -> str:
    record = read_record()
    rows = []
    for name, found in record["sections"].items():
        deviations = (100.0 * (found[f"section_{way}"] / found[way] - 1.0) for way in ("up", "down"))
        rows.append(
            (cell(name), *(f"{each:+.3f} %".replace("-", "−") for each in deviations), _shown(found["up"]))
        )
    worst = max(abs(found["section_up"] / found["up"] - 1.0) for found in record["sections"].values())
    return (
        "# The section, finite elements and the standard\n\n"
        "The solved section has no correlation in it. Two independent methods say how right it is.\n\n"
        "## Finite elements\n\n"
        "Biquadratic elements (scikit-fem) on a mesh that follows the pipe, refined until the heat "
        "moves by less than a "
        f"fiftieth of a per cent. Over {len(rows)} build-ups the heat upwards differs by at most "
        f"{100.0 * worst:.3f} %.\n\n"
        f"{table(('build-up', 'heat up', 'heat down', 'heat up, W/m²'), rows)}\n\n"
        "![How far the section lies from finite elements](../pictures/section-over-elements.svg)\n\n"
        "## Finite volumes\n\n"
        "The engine solves the bay at a cold edge with finite volumes. Differences from elements are "
        "shares of all heat that the water gives to the bay.\n\n"
        f"{table(('bay', 'heat up', 'heat through the edge', 'heat of the water, W/m²'), list(_edge_rows()))}\n\n"
        "## The standard\n\n"
        "EN 1264-2 is a correlation. Where pipes lie far apart under a bare floor it promises more "
        "than conduction gives. "
        "Points are finite elements with the outside of the pipe at one temperature, lines are the "
        "section with the same "
        "assumption.\n\n![EN 1264-2 over section and elements](../pictures/standard-over-section.svg)\n\n"
        f"The largest distance between a point and its line is {_largest_distance():.1f} points of a "
        f"per cent.\n\n{_SIGNED}"
    )


def _edge_rows() -> Iterator[tuple[str, ...]]:
    for name, found in read_record()["edges"].items():
        up = 100.0 * (found["volumes_up"] - found["up"]) / found["water"]
        edge = 100.0 * (found["volumes_edge"] - found["edge"]) / (found["water"] * found["width"])
        yield cell(name), _percent(up), _percent(edge), number(found["water"], 4)


def _percent(value: float) -> str:
    return f"{value:+.3f} %".replace("-", "−")


def _elements_picture() -> bytes:
    rows = []
    for name, found in read_record()["sections"].items():
        deviation = 100.0 * (found["section_up"] / found["up"] - 1.0)
        rows.append(Bar(name, (deviation,), _percent(deviation)))
    return bars("Heat upwards: section over finite elements", rows, "%")


def _other_methods() -> str:
    record = read_record()
    glycol = [(cell(name), f"{worst:.1e} %") for name, worst in record["fluids"].items() if name != "water"]
    largest = max(abs(value) for curve in record["fluids"]["water"].values() for _, value in curve)
    spread = [value for _, value in record["friction"]["Churchill"]]
    return (
        "# Water against independent libraries\n\n"
        "## Fluid properties\n\n"
        "Water over the whole range of floor heating, against IAPWS-95 as CoolProp computes it. "
        f"No value differs by more than {largest:.3f} %.\n\n"
        "![Water: deviation from CoolProp](../pictures/water-over-library.svg)\n\n"
        "Glycol rests on the same measurements as CoolProp's fluids MPG and MEG; the largest difference of "
        f"any property from 0 to 60 °C:\n\n{table(('fluid', 'largest difference'), glycol)}\n\n"
        "## Friction\n\n"
        "Laws of friction over Colebrook's as the library fluids solves it, for a bore of 12 mm and a "
        "roughness of 7 µm. "
        "Churchill's one formula for all flows lies "
        f"{min(spread):.1f} to {max(spread):.1f} % higher: on the safe side.\n\n"
        f"![Friction: laws over Colebrook](../pictures/friction-over-library.svg)\n\n{_SIGNED}"
    )


def _water_picture() -> bytes:
    curves = [Line(word, curve) for word, curve in read_record()["fluids"]["water"].items()]
    across, upwards = Axis("temperature, °C", 0.0, 100.0), Axis("more than CoolProp, %", -0.02, 0.02)
    return lines("Water: deviation from IAPWS-95 in CoolProp", across, upwards, curves)


def _friction_picture() -> bytes:
    curves = [Line(word, curve) for word, curve in read_record()["friction"].items()]
    across = Axis("logarithm of the Reynolds number", 3.6, 5.0)
    return lines("Friction over Colebrook in fluids", across, Axis("more, %", -1.0, 3.0), curves)


def _section_lines() -> Mapping[float, tuple[float, ...]]:
    return {
        covering: tuple(
            standard_over_section(THICK, spacing, covering, even_outside=True) for spacing in SPACINGS
        )
        for covering in EN_OVER_ELEMENTS
    }


def _largest_distance() -> float:
    return max(
        abs(own - other)
        for covering, row in _section_lines().items()
        for own, other in zip(row, EN_OVER_ELEMENTS[covering], strict=True)
    )


def _standard_picture() -> bytes:
    curves = [
        Line(
            f"R {covering:.2f}",
            [(1e3 * spacing, value) for spacing, value in zip(SPACINGS, row, strict=True)],
        )
        for covering, row in _section_lines().items()
    ]
    dots = [
        Line("", [(1e3 * spacing, value) for spacing, value in zip(SPACINGS, row, strict=True)], dots=True)
        for row in EN_OVER_ELEMENTS.values()
    ]
    across, upwards = Axis("pipe spacing, mm", 50.0, 375.0), Axis("EN 1264-2 more than solved, %", -2.0, 9.0)
    return lines(
        "EN 1264-2 over the section (lines) and finite elements (points)", across, upwards, [*curves, *dots]
    )


def _routes() -> str:
    record = read_record()["routes"]
    parts = []
    for pattern in PATTERNS:
        rooms = record[pattern].values()
        states = ", ".join(
            f"{sum(room['status'] == state for room in rooms)} {state}"
            for state in ("solved", "refused", "invalid", "raised")
        )
        rows = [(cell(_WORDS[name]), *_spread(_values(pattern, name))) for name in MEASURES]
        rows = [row for row in rows if len(row) > 1]
        head = ("measure", "least", "5th percentile", "median", "95th percentile", "most")
        parts.append(
            f"## {pattern.capitalize()}\n\nOf {len(rooms)} rooms: {states}.\n\n{table(head, rows)}\n"
        )
    parts.append("## Over all rooms\n")
    parts += [f"![{title}](../pictures/{name}-routes.svg)\n" for name, (title, *_) in _DISTRIBUTIONS.items()]
    return (
        "# Routes over a set of rooms\n\n"
        "The rooms are made by hand: rectangles, angles, bays, pillars, slanted and round walls, "
        "closets and halls. Each "
        "route is validated once more in the frame of its drawing. A refusal says why no pipe can be laid; invalid or "
        "raised would be a fault of the engine.\n\n" + "\n".join(parts) + f"\n{_SIGNED}"
    )


def _values(pattern: str, name: str) -> list[float]:
    rooms = read_record()["routes"][pattern].values()
    return sorted(room[name] for room in rooms if room.get(name) is not None)


def _spread(values: Sequence[float]) -> tuple[str, ...]:
    if not values:
        return ()
    cuts = quantiles(values, n=20, method="inclusive")
    return tuple(number(each, 3) for each in (values[0], cuts[0], median(values), cuts[-1], values[-1]))


_DISTRIBUTIONS: Mapping[str, tuple[str, str, Axis]] = {
    "coverage": (
        "Share of rooms with at most this coverage",
        "coverage_three_quarters",
        Axis("coverage at three quarters of a spacing, %", 97.0, 100.0),
    ),
    "distance": (
        "Share of rooms with at most this distance between pipes",
        "distance_1",
        Axis("distance of the closest hundredth, % of the spacing", 60.0, 100.0),
    ),
    "mixing": (
        "Share of rooms with at most this share of mixed pipe",
        "mixed_share",
        Axis("pipe with warm on one side and cool on the other, %", 0.0, 100.0),
    ),
}
"""Pictures of routes: title, measure, axis."""


def _distribution(name: str) -> Callable[[], bytes]:
    title, measure, axis = _DISTRIBUTIONS[name]
    curves = [Line(pattern, list(_cumulated(_values(pattern, measure)))) for pattern in PATTERNS]
    return lambda: lines(title, axis, Axis("share of rooms, %", 0.0, 100.0), curves)


def _cumulated(values: Sequence[float]) -> Iterator[tuple[float, float]]:
    for place, value in enumerate(values):
        yield 100.0 * value, 100.0 * (place + 1) / len(values)


def _tolerance_picture() -> bytes:
    shares = [line.share for group in groups() for line in case_lines(group) if line.tolerance is not None]
    rows, before = [], -1.0
    for bound in _BOUNDS:
        count = sum(before < share <= bound for share in shares)
        rows.append(Bar(f"up to {100.0 * bound:.0f} %", (100.0 * count / len(shares),), f"{count} values"))
        before = bound
    return bars("How much of its tolerance each value uses", rows, "% of all values")


def _estimates() -> str:
    rows = [row for row in read_drawn() if held_out(row)]
    return (
        "# Hit rates of estimates\n\n"
        f"{len(rows)} houses were drawn in full that the calibration never saw: generated ones, and "
        f"rooms of public building "
        "models. The table says in how many of them the drawn value lies between low and high.\n\n"
        f"{table_of_hits(hits(rows))}\n\n{_SIGNED}"
    )


_PICTURES: Mapping[str, Callable[[], bytes]] = {
    "tolerances": _tolerance_picture,
    "standard-over-section": _standard_picture,
    "section-over-elements": _elements_picture,
    "water-over-library": _water_picture,
    "friction-over-library": _friction_picture,
    **{f"{name}-routes": _distribution(name) for name in _DISTRIBUTIONS},
}
