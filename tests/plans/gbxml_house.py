"""gbXML files of our own making: boxes in a row or wherever they are put, with their walls, floors and ceilings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

__all__ = ["Box", "Door", "gbxml"]

_FACES = (("x", 0), ("x", 1), ("y", 0), ("y", 1), ("z", 0), ("z", 1))


@dataclass(frozen=True)
class Box:
    """A room from (x, y, z) of a width, depth and height [m]. ``beyond``: by face such as ``x1`` the id of the room
    behind it; all others are outside, below is ground."""

    id: str
    x: float
    y: float
    width: float
    depth: float
    height: float = 2.5
    z: float = 0.0
    name: str = ""
    storey: str = "s0"
    attributes: str = ""
    temperature: float | None = 21.0
    beyond: dict[str, str] = field(default_factory=dict)

    @property
    def span(self) -> dict[str, tuple[float, float]]:
        return {
            "x": (self.x, self.x + self.width),
            "y": (self.y, self.y + self.depth),
            "z": (self.z, self.z + self.height),
        }

    def face(self, axis: str, end: int) -> list[tuple[float, float, float]]:
        """Corners of a face."""
        span = {name: list(values) for name, values in self.span.items()}
        span[axis] = [span[axis][end]] * 2
        (x, ex), (y, ey), (z, ez) = span["x"], span["y"], span["z"]
        if axis == "z":
            return [(x, y, z), (ex, y, z), (ex, ey, z), (x, ey, z)]
        if axis == "x":
            return [(x, y, z), (x, ey, z), (x, ey, ez), (x, y, ez)]
        return [(x, y, z), (ex, y, z), (ex, y, ez), (x, y, ez)]


@dataclass(frozen=True)
class Door:
    """A door in the face ``x1`` of a box: from ``start`` [m] along y, ``width`` and 2 m high."""

    box: str
    start: float
    width: float = 0.9


def gbxml(
    boxes: Sequence[Box],
    doors: Sequence[Door] = (),
    *,
    unit: str = "Meters",
    metres: float = 1.0,
    constructions: bool = True,
    storeys: Sequence[tuple[str, float]] = (("s0", 0.0),),
) -> bytes:
    """The file. With ``constructions`` all outer walls have a U-value of 0.3, floors on the ground layers of
    0.1 m / 0.035 W/(m.K), ceilings 0.2, inner walls 1.0."""

    def loop(corners: Sequence[tuple[float, float, float]]) -> str:
        points = "".join(
            "<CartesianPoint>"
            + "".join(f"<Coordinate>{value / metres:.9g}</Coordinate>" for value in corner)
            + "</CartesianPoint>\n"
            for corner in corners
        )
        return f"<PolyLoop>{points}</PolyLoop>"

    names = {"x": "Wall", "y": "Wall"}
    spaces, surfaces, zones = [], [], []
    for box in boxes:
        shell = "".join(loop(box.face(*face)) for face in _FACES)
        spaces.append(
            f'<Space id="{box.id}" buildingStoreyIdRef="{box.storey}" zoneIdRef="z-{box.id}" {box.attributes}>'
            f"<Name>{box.name or box.id}</Name>"
            f"<ShellGeometry><ClosedShell>{shell}</ClosedShell></ShellGeometry></Space>"
        )
        if box.temperature is not None:
            heat = f'<DesignHeatT unit="C">{box.temperature}</DesignHeatT>'
            zones.append(f'<Zone id="z-{box.id}">{heat}</Zone>')
        for axis, end in _FACES:
            other = box.beyond.get(f"{axis}{end}")
            if other is not None and other < box.id:
                continue  # the other room has this wall
            kind = names.get(axis) or ("SlabOnGrade" if end == 0 else "Roof")
            if axis == "z" and other is not None:
                kind = "InteriorFloor"
            elif axis != "z":
                kind = "ExteriorWall" if other is None else "InteriorWall"
            openings = "".join(
                f'<Opening id="door-{number}" openingType="NonSlidingDoor" constructionIdRef="door"><PlanarGeometry>'
                + loop(_door(box, door))
                + "</PlanarGeometry></Opening>"
                for number, door in enumerate(doors)
                if door.box == box.id and (axis, end) == ("x", 1)
            )
            adjacent = "".join(
                f'<AdjacentSpaceId spaceIdRef="{name}"/>' for name in (box.id, other) if name is not None
            )
            surfaces.append(
                f'<Surface id="{box.id}-{axis}{end}" surfaceType="{kind}" constructionIdRef="{kind}">{adjacent}'
                f"<PlanarGeometry>{loop(box.face(axis, end))}</PlanarGeometry>{openings}</Surface>"
            )
    levels = "".join(
        f'<BuildingStorey id="{name}"><Name>Storey {name}</Name><Level>{level / metres:.9g}</Level></BuildingStorey>'
        for name, level in storeys
    )
    text = (
        f'<?xml version="1.0" encoding="utf-8"?>\n<gbXML xmlns="http://www.gbxml.org/schema" temperatureUnit="C" '
        f'lengthUnit="{unit}" areaUnit="Square{unit}" volumeUnit="Cubic{unit}" version="7.03">'
        f'<Campus id="c"><Building id="b" buildingType="SingleFamily">{levels}{"".join(spaces)}</Building>'
        f"{''.join(surfaces)}</Campus>{_CONSTRUCTIONS if constructions else ''}{''.join(zones)}</gbXML>"
    )
    return text.encode()


def _door(box: Box, door: Door) -> list[tuple[float, float, float]]:
    x, y, z = box.x + box.width, box.y + door.start, box.z
    return [(x, y, z), (x, y + door.width, z), (x, y + door.width, z + 2.0), (x, y, z + 2.0)]


def _u_value(name: str, value: float) -> str:
    value_text = f'<U-value unit="WPerSquareMeterK">{value}</U-value>'
    return f'<Construction id="{name}">{value_text}<Name>{name}</Name></Construction>'


_CONSTRUCTIONS = (
    _u_value("ExteriorWall", 0.3)
    + _u_value("Roof", 0.2)
    + _u_value("InteriorWall", 1.0)
    + _u_value("InteriorFloor", 0.5)
    + _u_value("door", 2.0)
    + '<Construction id="SlabOnGrade"><LayerId layerIdRef="l1"/><Name>Slab</Name></Construction>'
    '<Layer id="l1"><MaterialId materialIdRef="m1"/></Layer><Material id="m1"><Name>Foam</Name>'
    '<Thickness unit="Meters">0.1</Thickness><Conductivity unit="WPerMeterK">0.035</Conductivity></Material>'
)
