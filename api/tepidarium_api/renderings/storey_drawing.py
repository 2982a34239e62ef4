"""The storeys with every circuit from its port and back as a drawing to scale, for the person who lays it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from tepidarium_engine.designs import DesignsInputs, DesignsResult
from tepidarium_engine.errors import Fault, InputError

from .drawn_manifold import drawn_manifolds
from .drawn_pipe import at_share, drawn_way
from .drawn_room import drawn_scale_bar, drawn_void, overall_dimensions
from .route_drawing import FONT, STYLE, drawn_frame, drawn_sleeve
from .schedule_column import column_height, schedule_column
from .sheet import Sheet
from .storey_plans import StoreyPlan, storey_plans
from .svg import Paper, document, element, group, points, polygon, text

__all__ = ["storey_drawing"]

NAME, NUMBER = 2.2, 1.9
"""Height of the names of rooms and the numbers of circuits [mm]."""
CHARACTER = 1.75
"""Width of a character of a name, on average [mm]."""
TITLE, TITLE_AWAY = 3.5, 5.0
"""Height of the name of a storey and its distance from the plan [mm]."""
BADGE = 2.3
"""Radius of a circuit's number in the field [mm]."""
ALONG = (0.5, 0.46, 0.54, 0.42, 0.58, 0.38, 0.62, 0.34, 0.66, 0.3, 0.7)
"""Shares of a pipe's length at which its number may stand, best first."""

Box = tuple[float, float, float, float]
"""Left, top, right and bottom [mm]."""


def storey_drawing(inputs: DesignsInputs, result: DesignsResult) -> bytes:
    """The storeys as ``image/svg+xml`` on A3 to A1, to one of the scales of ISO 5455; needs ``doorways``."""
    layout = result.layout
    if layout is None:
        raise InputError(Fault("/doorways", "missing", "a drawing needs the doorways between the rooms"))
    plans = storey_plans(inputs, result, layout, column_height(result))
    sheet = plans[0].sheet
    boxes = [[box for _, box in _names(plan)] for plan in plans]
    content = (
        element("rect", class_="sheet", width=sheet.size[0], height=sheet.size[1]),
        group(chain.from_iterable(map(_rooms, plans)), id="rooms"),
        group(chain.from_iterable(map(_doorways, plans)), id="doorways"),
        group(chain.from_iterable(map(_joints, plans)), id="joints"),
        *(
            group(drawn_way(plan.sheet, circuit.pieces, 0.6), id=f"circuit-{plan.labels[circuit.id]}")
            for plan in plans
            for circuit in plan.circuits
        ),
        group(chain.from_iterable(map(_sleeves, plans)), id="sleeves"),
        group(chain.from_iterable(map(drawn_manifolds, plans)), id="manifold"),
        group((drawn for plan in plans for drawn, _ in _names(plan)), id="names"),
        group(chain.from_iterable(map(_numbers, plans, boxes)), id="numbers"),
        group(
            (line for plan in plans for line in overall_dimensions(plan.sheet, plan.corners)), id="dimensions"
        ),
        group(chain.from_iterable(map(_title, plans)), id="titles"),
        group(drawn_scale_bar(sheet), id="scale-bar"),
        group(drawn_frame(sheet), id="frame"),
        group(schedule_column(sheet, inputs, result, layout), id="column"),
    )
    return document(
        sheet.size, "Layout of floor heating pipe", [group(content, font_family=FONT)], _style(sheet)
    )


def _style(sheet: Sheet) -> dict[str, str]:
    """Thinner pipe the smaller the scale, so that tails side by side stay apart."""
    width = 0.5 if sheet.scale <= 50 else 25.0 / sheet.scale
    thinner = {
        name: STYLE[name].replace("stroke-width: 0.7", f"stroke-width: {width:.3g}")
        for name in ("flow", "return")
    }
    return {
        **STYLE,
        **thinner,
        "wall": "fill: none; stroke: #999; stroke-width: 3; stroke-linejoin: miter",
        "due": "fill: none; stroke: #777; stroke-width: 0.35; stroke-dasharray: 1.2 1.2",
        "doorway": "fill: #fff; stroke: #fff; stroke-width: 0.5",
        "halo": "fill: #fff; fill-opacity: 0.75; stroke: none",
        "manifold": "fill: #fff; stroke: #000; stroke-width: 0.35",
    }


def _rooms(plan: StoreyPlan) -> Iterator[str]:
    """All walls first: a wall between rooms is painted from both of its sides."""
    outlined = [(number, room) for number, room in plan.rooms if room.outline is not None]
    for _, room in outlined:
        yield element("polygon", class_="wall", points=points(plan.sheet.ring(room.outline or ())))
    for number, room in outlined:
        yield element("path", class_="floor", d=polygon([plan.sheet.ring(room.outline or ())]))
        for count, void in enumerate(room.voids):
            yield from drawn_void(plan.sheet.ring(void), f"void-{number}-{count}")


def _doorways(plan: StoreyPlan) -> Iterator[str]:
    """The wall is taken away between the jambs; the jambs stay."""
    for doorway in plan.doorways:
        one, other = plan.sheet.ring(doorway.jambs), plan.sheet.ring(doorway.opposite_jambs)
        yield element("polygon", class_="doorway", points=points([*one, *other]))
        for start, end in ((one[0], other[-1]), (one[-1], other[0])):
            yield element("line", class_="thin", x1=start[0], y1=start[1], x2=end[0], y2=end[1])


def _joints(plan: StoreyPlan) -> Iterator[str]:
    for joint in plan.joints:
        kind = "due" if joint.state == "due" else "joint"
        yield element("polyline", class_=kind, points=points(plan.sheet.ring(joint.points)))


def _sleeves(plan: StoreyPlan) -> Iterator[str]:
    for sleeve in plan.sleeves:
        yield drawn_sleeve(plan.sheet, sleeve.place, sleeve.ahead)


def _title(plan: StoreyPlan) -> Iterator[str]:
    """The name of the storey above its plan, where there are storeys."""
    if plan.title:
        left, top = plan.sheet.at((plan.sheet.low[0], plan.sheet.high[1]))
        yield text((left, top - TITLE_AWAY), plan.title, TITLE, class_="strong")


def _names(plan: StoreyPlan) -> Iterator[tuple[str, Box]]:
    """Name and area of each room, and what of it is not drawn, with the box on paper that they take."""
    for number, room in plan.rooms:
        place = plan.label_places[number]
        if place is None:
            continue
        lines = [room.name or room.id, f"{plan.areas[number]:.1f} m²"]
        lines += [f"NOT DRAWN: {one.id}" for one in plan.unplaced if one.room == room.id]
        x, y = plan.sheet.at(place)
        half, high = max(map(len, lines)) * CHARACTER / 2.0 + 0.6, 3.6 * len(lines) + 0.6
        top = y - high / 2.0
        halo = element("rect", class_="halo", x=x - half, y=top, width=2.0 * half, height=high)
        written = (
            text((x, top + 3.0 + 3.6 * count), words, NAME, text_anchor="middle", **_weight(count))
            for count, words in enumerate(lines)
        )
        yield halo + "".join(written), (x - half, top, x + half, top + high)


def _weight(line: int) -> dict[str, str]:
    return {"class_": "strong"} if line != 1 else {}


def _clear(place: Paper, box: Box) -> bool:
    """Whether a number there covers nothing of the box."""
    (x, y), (left, top, right, bottom) = place, box
    return not (left - BADGE < x < right + BADGE and top - BADGE < y < bottom + BADGE)


def _numbers(plan: StoreyPlan, boxes: list[Box]) -> Iterator[str]:
    """The port of each circuit on its pipe, near the middle of its length, where it covers nothing."""
    taken: list[Paper] = []
    for circuit in plan.circuits:
        places = [plan.sheet.at(at_share(circuit.pieces, share)) for share in ALONG]
        free = (
            place
            for place in places
            if all(_clear(place, box) for box in boxes)
            and all((place[0] - x) ** 2 + (place[1] - y) ** 2 > (2.2 * BADGE) ** 2 for x, y in taken)
        )
        x, y = next(free, places[0])
        taken.append((x, y))
        label = plan.labels[circuit.id]
        height = min(NUMBER, 2.0 * NUMBER / len(label) + 0.5)
        yield element("circle", class_="mark", cx=x, cy=y, r=BADGE)
        yield text((x, y + height / 2.0), label, height, text_anchor="middle", class_="strong")
