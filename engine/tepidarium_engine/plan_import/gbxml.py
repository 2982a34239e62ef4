"""gbXML: the open schema for buildings in energy calculations (gbxml.org), as far as a heated floor needs it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from shapely import Polygon

from ..elementwise import Array
from ..errors import UnreadableFileError
from ..places import Point
from .drawn_plan import DoorMark, DrawnPlan, DrawnRoom, DrawnStorey, Face, Guess, Source
from .gbxml_constructions import Constructions
from .gbxml_units import AREAS, LENGTHS, METRES, VOLUMES, celsius
from .records import LengthUnit
from .xml_reader import Element, Wanted, read_xml

__all__ = ["read_gbxml"]

_WANTED = Wanted(
    trees=frozenset(
        {"Space", "BuildingStorey", "Surface", "Construction", "Layer", "Material", "WindowType", "Zone"}
    ),
    flat=frozenset({"PolyLoop"}),
    skipped=frozenset({"RectangularGeometry", "PeopleHeatGain", "AnalysisParameter"}),
)
_FLAT = math.cos(math.radians(5.0))
"""A face is a floor where its normal is no further from the vertical."""
_NOT_HEATED = frozenset({"Unconditioned", "Vented", "NaturallyVentedOnly", "Cooled"})
_SAME_LEVEL = 0.3
"""Steps that floors of one space may have; storeys without a name are different where they lie further apart [m]."""
_OUTDOORS = {
    "ExteriorWall": "outside",
    "Roof": "outside",
    "RaisedFloor": "outside",
    "ExposedFloor": "outside",
    "UndergroundCeiling": "outside",
    "UndergroundWall": "ground",
    "UndergroundSlab": "ground",
    "SlabOnGrade": "ground",
}
_INDOORS = frozenset({"InteriorWall", "InteriorFloor", "Ceiling"})


def read_gbxml(content: bytes, length_unit: LengthUnit | None) -> DrawnPlan:
    """The spaces of a gbXML file with their envelope; ``length_unit`` takes the place of the file's.

    Raises ``UnreadableFileError`` for what is no gbXML.
    """
    reading = _Reading(length_unit)
    read_xml(content, _WANTED, reading.begin, reading.keep)
    return reading.finished()


@dataclass
class _Reading:
    length_unit: LengthUnit | None
    plan: DrawnPlan = field(default_factory=lambda: DrawnPlan("gbxml", "", 1.0))
    kept: dict[str, list[Element]] = field(default_factory=lambda: {name: [] for name in _WANTED.trees})
    area_unit: float = 1.0
    volume_unit: float = 1.0
    temperature_unit: str = "C"
    length: str = ""

    def begin(self, root: Element) -> None:
        if root.name != "gbXML":
            raise UnreadableFileError.because(f"the file is no gbXML: its first element is {root.name[:40]}")
        unit = root.attributes.get("lengthUnit", "")
        self.plan.unit = self.length_unit or unit or "Meters"
        if self.length_unit is None and unit not in LENGTHS:
            text = f"the unit of length: metres; the file has {unit[:40] or 'none'}"
            self.plan.guesses.append(Guess(text, Source("gbXML", root.line)))
        self.length = unit
        self.plan.metres = METRES[self.length_unit] if self.length_unit else LENGTHS.get(unit, 1.0)
        self.area_unit = AREAS.get(root.attributes.get("areaUnit", ""), self.plan.metres**2)
        self.volume_unit = VOLUMES.get(root.attributes.get("volumeUnit", ""), self.plan.metres**3)
        self.temperature_unit = root.attributes.get("temperatureUnit", "C")

    def keep(self, tree: Element) -> None:
        self.kept[tree.name].append(tree)

    def finished(self) -> DrawnPlan:
        plan = self.plan
        zones = {zone.attributes.get("id", ""): zone for zone in self.kept["Zone"]}
        for storey in self.kept["BuildingStorey"]:
            level = _number(storey.words("Level"))
            name = storey.attributes.get("id", "")
            metres = None if level is None else level * plan.metres
            plan.storeys.append(DrawnStorey(name[:64], (storey.words("Name") or name)[:120], metres))
        plan.rooms = [
            self._room(space, zones, number) for number, space in enumerate(self.kept["Space"], start=1)
        ]
        self._name_storeys()
        self._floors_from_surfaces()
        constructions = Constructions.of(plan, self.kept)
        heads = {room.id: room for room in plan.rooms}
        plan.faces = []
        for surface in self.kept["Surface"]:
            _Surface(surface, plan, heads, constructions).read()
        return plan

    def _room(self, space: Element, zones: dict[str, Element], number: int) -> DrawnRoom:
        plan, attributes = self.plan, space.attributes
        key = attributes.get("id", f"space-{number}")
        room = DrawnRoom(
            id=key[:64],
            name=(space.words("Name") or key)[:120],
            storey=attributes.get("buildingStoreyIdRef", "")[:64],
            floor=(),
            source=Source(f"Space {key[:64]}", space.line),
            heated=attributes.get("conditionType", "") not in _NOT_HEATED
            and attributes.get("spaceType", "") != "Plenum",
        )
        area, volume = _number(space.words("Area")), _number(space.words("Volume"))
        if self.length_unit is None and area:
            room.stated_area = area * self.area_unit
        faces = [face for face in (_corners(loop, plan.metres) for loop in _space_loops(space)) if len(face)]
        if faces:
            low, high = (
                min(face[:, 2].min() for face in faces),
                max(face[:, 2].max() for face in faces),
            )
            room.level, room.height = float(low), float(high - low) or None
            room.floor = tuple(_lowest(faces, float(low)))
        if self.length_unit is None and area and volume:
            room.height = volume * self.volume_unit / (area * self.area_unit)
        zone = zones.get(attributes.get("zoneIdRef", ""))
        wanted = None if zone is None else zone.child("DesignHeatT")
        if wanted is not None and (level := _number(wanted.text)) is not None:
            room.temperature = celsius(level, wanted.attributes.get("unit", self.temperature_unit))
        changes = _number(space.words("AirChangesPerHour"))
        room.air_change = changes if changes else None
        return room

    def _name_storeys(self) -> None:
        """Spaces that name no storey get one by the level of their floor."""
        plan = self.plan
        known = {storey.id for storey in plan.storeys}
        for room in plan.rooms:
            if room.storey in known:
                continue
            near = [
                s for s in plan.storeys if s.level is not None and abs(s.level - room.level) < _SAME_LEVEL
            ]
            if near:
                storey = min(near, key=lambda each: abs((each.level or 0.0) - room.level))
            else:
                name = f"level {room.level:.2f}"
                storey = DrawnStorey(name, f"Level {room.level:.2f} m", room.level)
                plan.storeys.append(storey)
                known.add(name)
            room.storey = storey.id
            plan.guesses.append(
                Guess(f"the storey of {room.name}: that of its floor's level", room.source, room.id)
            )

    def _floors_from_surfaces(self) -> None:
        """Spaces without geometry of their own get the flat surfaces below them."""
        bare = {room.id: room for room in self.plan.rooms if not room.floor}
        found: dict[str, list[Array]] = {}
        for surface in self.kept["Surface"]:
            if surface.attributes.get("surfaceType") in ("Shade", "Air"):
                continue
            for adjacent in surface.each("AdjacentSpaceId"):
                name = adjacent.attributes.get("spaceIdRef", "")
                if name in bare:
                    found.setdefault(name, []).extend(
                        _corners(loop, self.plan.metres) for loop in _own_loops(surface)
                    )
        for name, drawn in found.items():
            faces = [face for face in drawn if len(face)]
            if faces:
                room = bare[name]
                low = float(min(face[:, 2].min() for face in faces))
                high = float(max(face[:, 2].max() for face in faces))
                room.level, room.floor = low, tuple(_lowest(faces, low))
                room.height = room.height or (high - low) or None


class _Surface:
    """One surface of the file and what it is to each of its spaces."""

    def __init__(
        self, surface: Element, plan: DrawnPlan, rooms: dict[str, DrawnRoom], constructions: Constructions
    ) -> None:
        self.element, self.plan, self.rooms, self.constructions = surface, plan, rooms, constructions
        self.kind = surface.attributes.get("surfaceType", "")
        self.source = Source(f"Surface {surface.attributes.get('id', '')[:64]}", surface.line)

    def read(self) -> None:
        if self.kind in ("Shade", "Air", "FreestandingColumn", "EmbeddedColumn"):
            self._door(self.element, "Air") if self.kind == "Air" else None
            return
        corners = [
            face
            for face in (_corners(loop, self.plan.metres) for loop in _own_loops(self.element))
            if len(face)
        ]
        if not corners or not self._spaces():
            return
        normal = sum((_normal(face) for face in corners), np.zeros(3))
        gross = float(np.linalg.norm(normal)) / 2.0
        level = float(np.concatenate(corners)[:, 2].mean())
        upright = abs(normal[2]) < 0.5 * np.linalg.norm(normal)
        openings = [opening for opening in self.element.each("Opening") if self._opening(opening)]
        net = gross - sum(self._area(opening) for opening in openings)
        self._faces("", net, self.constructions.of_surface(self.element), level, upright)
        for opening in openings:
            self._door(opening, opening.attributes.get("openingType", ""))
            surface = "door" if "Door" in opening.attributes.get("openingType", "") else "window"
            construction = self.constructions.of_opening(opening, surface)
            self._faces(surface, self._area(opening), construction, level, upright)

    def _spaces(self) -> list[DrawnRoom]:
        ids = dict.fromkeys(
            child.attributes.get("spaceIdRef", "") for child in self.element.each("AdjacentSpaceId")
        )
        return [self.rooms[name[:64]] for name in ids if name[:64] in self.rooms]

    def _opening(self, opening: Element) -> bool:
        return bool(_own_loops(opening)) and self._area(opening) > 0.0

    def _area(self, opening: Element) -> float:
        faces = (_corners(loop, self.plan.metres) for loop in _own_loops(opening))
        return sum(float(np.linalg.norm(_normal(face))) / 2.0 for face in faces if len(face))

    def _faces(self, opening: str, area: float, construction: str, level: float, upright: bool) -> None:
        """The faces of one part: a room outside, or one for each of its two spaces that the other side names."""
        spaces = self._spaces()
        if area < 1e-4:
            return
        for room, other in zip(spaces, reversed(spaces) if len(spaces) > 1 else (None,), strict=False):
            beyond = _OUTDOORS.get(self.kind, "outside") if other is None else "room"
            if other is None and self.kind in _INDOORS:
                beyond = "adiabatic"
            middle = room.level + (room.height or 2.5) / 2.0
            surface = "wall" if upright else ("floor" if level < middle else "ceiling")
            if beyond == "ground" and surface == "ceiling":
                beyond = "outside"
            self.plan.faces = self.plan.faces or []
            self.plan.faces.append(
                Face(
                    room.id,
                    opening or surface,  # type: ignore[arg-type]
                    area,
                    construction,
                    beyond,  # type: ignore[arg-type]
                    None if other is None else other.id,
                )
            )

    def _door(self, opening: Element, kind: str) -> None:
        spaces = self._spaces()
        loops = [_corners(loop, self.plan.metres) for loop in _own_loops(opening)]
        if len(spaces) != 2 or not ("Door" in kind or kind == "Air") or not loops or not len(loops[0]):
            return
        corners = loops[0]
        middle = (corners[:, :2].max(axis=0) + corners[:, :2].min(axis=0)) / 2.0
        width = float(np.hypot(*(corners[:, :2].max(axis=0) - corners[:, :2].min(axis=0))))
        name = f"{opening.name} {opening.attributes.get('id', '')[:64]}"
        place: Point = (float(middle[0]), float(middle[1]))
        if abs(corners[:, 2].max() - corners[:, 2].min()) > 1.0:  # it stands: no hatch
            self.plan.doors.append(
                DoorMark(place, Source(name, opening.line), width, (spaces[0].id, spaces[1].id))
            )


def _space_loops(space: Element) -> Iterator[Element]:
    """The faces of a space: of its shell, else of its plan, else of its boundaries."""
    for holder in ("ShellGeometry", "PlanarGeometry", "SpaceBoundary"):
        loops = [loop for part in space.each(holder) for loop in _loops(part)]
        if loops:
            yield from loops
            return


def _loops(part: Element) -> Iterator[Element]:
    for child in part.children:
        if child.name == "PolyLoop":
            yield child
        else:
            yield from _loops(child)


def _own_loops(element: Element) -> list[Element]:
    return [loop for part in element.each("PlanarGeometry") for loop in _loops(part)]


def _corners(loop: Element, metres: float) -> Array:
    """Corners as rows of x, y, z [m]; none where the loop has no three of them or its numbers cannot be read."""
    try:
        numbers = np.array([float(word) for word in loop.text.split()])
    except ValueError:
        return np.empty((0, 3))
    if len(numbers) < 9 or len(numbers) % 3 or not np.isfinite(numbers).all() or abs(numbers).max() > 1e9:
        return np.empty((0, 3))
    return numbers.reshape(-1, 3) * metres


def _normal(corners: Array) -> Array:
    """Twice the area of a flat face, as a vector (Newell's method)."""
    rows = (corners - corners[0]).tolist()
    nx = ny = nz = 0.0
    for (x, y, z), (ex, ey, ez) in zip(
        rows, [*rows[1:], rows[0]], strict=True
    ):  # numpy is slower for four corners
        nx += y * ez - z * ey
        ny += z * ex - x * ez
        nz += x * ey - y * ex
    return np.array((nx, ny, nz))


def _lowest(faces: list[Array], low: float) -> Iterator[Polygon]:
    """The flat faces near the lowest point."""
    for face in faces:
        normal = _normal(face)
        size = float(np.linalg.norm(normal))
        if size > 0.0 and abs(normal[2]) >= _FLAT * size and face[:, 2].max() <= low + _SAME_LEVEL:
            yield Polygon(face[:, :2])


def _number(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if math.isfinite(value) else None
