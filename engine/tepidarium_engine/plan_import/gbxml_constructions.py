"""Constructions of a gbXML file: layers where all are known, else the U-value, else nothing but a name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..envelope.records import Construction, Layer
from ..glossary import number
from .drawn_plan import DrawnPlan, Source
from .gbxml_units import CONDUCTIVITIES, LENGTHS, RESISTANCES, U_VALUES
from .xml_reader import Element

__all__ = ["Constructions"]

_AIR_FILMS = 0.17
"""Surface resistances of an outer wall, both sides [m2.K/W] (ISO 6946:2017, 6.8)."""
_UNLIKE = 0.15
"""By which share a U-value may differ from that of its layers before it is reported; common practice, no source."""
_KINDS = {
    "ExteriorWall": "Outside wall",
    "InteriorWall": "Inside wall",
    "UndergroundWall": "Wall against the ground",
    "Roof": "Roof",
    "Ceiling": "Ceiling",
    "InteriorFloor": "Floor between storeys",
    "RaisedFloor": "Floor over outside air",
    "ExposedFloor": "Floor over outside air",
    "SlabOnGrade": "Floor on the ground",
    "UndergroundSlab": "Floor below the ground",
    "UndergroundCeiling": "Ceiling below the ground",
    "window": "Window",
    "door": "Door",
}


@dataclass(frozen=True)
class Constructions:
    """Finds the construction of surfaces and openings and puts it into the plan."""

    plan: DrawnPlan
    given: Mapping[str, Element]
    layers: Mapping[str, Element]
    materials: Mapping[str, Element]

    @classmethod
    def of(cls, plan: DrawnPlan, kept: Mapping[str, list[Element]]) -> Constructions:
        given = _by_id([*kept["Construction"], *kept["WindowType"]])
        return cls(plan, given, _by_id(kept["Layer"]), _by_id(kept["Material"]))

    def of_surface(self, surface: Element) -> str:
        """The id of a surface's construction."""
        kind = surface.attributes.get("surfaceType", "")
        return self._found(surface.attributes.get("constructionIdRef"), kind)

    def of_opening(self, opening: Element, kind: str) -> str:
        """The id of the construction of a window or door."""
        named = opening.attributes.get("windowTypeIdRef") or opening.attributes.get("constructionIdRef")
        return self._found(named, kind)

    def _found(self, named: str | None, kind: str) -> str:
        element = self.given.get(named or "")
        made = None if element is None else self._made(element)
        if made is None or element is None:
            made, source = Construction(kind[:64] or "part", name=_KINDS.get(kind, "Part")), Source("")
        else:
            source = Source(f"{element.name} {made.id}", element.line)
        self.plan.constructions.setdefault(made.id, (made, source))
        return made.id

    def _made(self, element: Element) -> Construction | None:
        """A construction with U-value or layers; None: the file has neither."""
        key = element.attributes.get("id", "")[:64]
        if key in self.plan.constructions:
            return self.plan.constructions[key][0]
        layers = self._layers(element)
        u_value = _quantity(element, "U-value", U_VALUES, "u_value")
        if layers and u_value is not None:
            by_layers = 1.0 / (_AIR_FILMS + sum(_resistance(layer) for layer in layers))
            if abs(u_value - by_layers) > _UNLIKE * by_layers:
                self.plan.unlike[key] = (u_value, by_layers)
        name = element.words("Name")[:120]
        if layers:
            return Construction(key, layers=layers, name=name)
        return None if u_value is None else Construction(key, u_value, name=name)

    def _layers(self, element: Element) -> tuple[Layer, ...]:
        """The layers, none unless all of them are known."""
        found: list[Layer] = []
        for reference in element.each("LayerId"):
            layer = self.layers.get(reference.attributes.get("layerIdRef", ""))
            for named in () if layer is None else layer.each("MaterialId"):
                material = self.materials.get(named.attributes.get("materialIdRef", ""))
                made = None if material is None else _layer(material)
                if made is None:
                    return ()
                found.append(made)
        return tuple(found) if len(found) <= 24 else ()


def _layer(material: Element) -> Layer | None:
    thickness = _quantity(material, "Thickness", LENGTHS, "layer_thickness")
    conductivity = _quantity(material, "Conductivity", CONDUCTIVITIES, "layer_conductivity")
    name = material.words("Name")[:120]
    if thickness is not None and conductivity is not None:
        return Layer(thickness, conductivity, name=name)
    resistance = _quantity(material, "R-value", RESISTANCES, "layer_resistance")
    return None if resistance is None else Layer(thermal_resistance=resistance, name=name)


def _resistance(layer: Layer) -> float:
    if layer.thermal_resistance is not None:
        return layer.thermal_resistance
    return (layer.thickness or 0.0) / (layer.thermal_conductivity or 1.0)


def _quantity(element: Element, name: str, units: Mapping[str, float], entry: str) -> float | None:
    """The first such value in a known unit and within the range that can be computed."""
    for child in element.each(name):
        factor = units.get(child.attributes.get("unit", next(iter(units))))
        try:
            value = float(child.text) * (factor or 0.0)
        except ValueError:
            continue
        if number(entry).minimum <= value <= number(entry).maximum:
            return value
    return None


def _by_id(elements: list[Element]) -> dict[str, Element]:
    return {element.attributes.get("id", ""): element for element in elements}
