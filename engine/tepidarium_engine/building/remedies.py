"""What would help rooms whose floor cannot give their heat: each change tried on the whole design."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import count
from typing import NamedTuple

from ..errors import InputError
from ..glossary import items
from ..plan.laying.spacing_limits import bends_fit
from ..plan.lengths.lengths import laid_diameter
from ..practice.screed import BINDER_TEMPERATURE_LIMIT
from ..results import Finding
from ..storey.lanes.tail_routes import TooMuchWorkError
from ..thermal.characteristic import LEAST_SPACING
from .asked_rooms import rooms_to_heat
from .circuits import DividedRoom
from .floors import RoomToHeat, surface_limit
from .house import house_of
from .outcome import Remedy
from .records import BuildUp, DesignRoom, DesignsInputs
from .whole_design import WholeDesign, whole_design

__all__ = ["Remedies", "remedies"]

_THIN_COVERING = 0.01
"""About 10 mm of ceramic tile [m2.K/W]."""
_TRADE_SPACINGS = (0.30, 0.25, 0.20, 0.15, 0.125, 0.10, 0.075, 0.05)
"""Spacings of the trade [m], widest first (common practice, no source)."""
_MOST_PIPE = 3.0
"""A closer spacing that takes more than so many times the pipe is not proposed (common practice, no source)."""
_SUPPLY_STEP = 0.5
"""To which a supply is rounded up [K]: nobody sets one more finely (common practice, no source)."""
_SUPPLY_TOLD = 0.1
"""To which the supply that a room needs is rounded up [K], as in the finding about rooms that need warmer water."""
_FAIR_SHARE, _FAIR_HEAT = 0.1, 20.0
"""A change is worth proposing when it closes this share of what is missing, or gives so much [W] (common practice, no
source)."""
_MOST_TRIED = 8
"""Whole designs that are computed for remedies."""
_LEAST_WAYS = 400
"""Ways of pairs that remedies of a storey may look for at least, and as many as its design has looked for: of a large
storey these take most of the time."""
_LEAST_FIELDS, _MOST_FIELDS, _EACH = 16, 64, 2
"""Fields that remedies of a storey may lay at least, and as many as its design was laid with, as long as there are not
so many in all, nor so many for each circuit: rooms that are cut again and again until their circuits are short enough
take 5 to 15 for each circuit, and most of the time; others take 1."""
_SAME_HEAT = 1.0
"""Heat [W] that another room may lose by a change: a design comes to rest within so much."""


@dataclass(frozen=True)
class _Change:
    """One change of the request for a room; ``estimate`` [W] is what its floor would give by itself."""

    code: str
    message: str
    inputs: DesignsInputs
    estimate: float


class Remedies(NamedTuple):
    """By index of each room that lacks heat the changes that help it: those that give all it needs first, another
    emitter last among them. ``untried`` are rooms of which not every change was computed."""

    by_room: Mapping[int, tuple[Remedy, ...]]
    untried: tuple[RoomToHeat, ...]

    def findings(self) -> Iterator[Finding]:
        for room in self.untried:
            yield Finding.at(
                "remedies_untried",
                f"{room.pointer}/heat_demand",
                subject=room.label,
            )


def remedies(design: WholeDesign) -> Remedies:
    """What would help the rooms that lack heat.

    A change is proposed when the whole design with it has been computed, breaks no limit that the design keeps, and
    closes a fair share of what is missing. A few are computed, of the rooms that lack most.
    """
    lacking = [room for room in design.solved.divided if room.heat_missing]
    lacking.sort(key=lambda room: (-round(room.heat_missing, 6), room.heated.index))
    found: dict[int, list[Remedy]] = {room.heated.index: [_other_emitter(room)] for room in lacking}
    trials = _Trials(design)
    for changes in (_warmer_supply, _closer_spacing, _lighter_covering):
        for room in (room for room in lacking if room.heated.own_circuits):
            for change in changes(design, room):
                if not _is_fair(change.estimate - _given(room), room.heat_missing):
                    continue
                remedy = trials.tried(room, change)
                if remedy is not None:
                    found[room.heated.index].append(remedy)
                    break
    return Remedies(
        {index: tuple(sorted(each, key=_order)) for index, each in found.items()},
        tuple(room.heated for room in lacking if room.heated.index in trials.untried),
    )


def _order(remedy: Remedy) -> tuple[bool, bool, float]:
    return remedy.heat_missing > 0.0, remedy.code == "other_emitter", -round(remedy.heat_given, 6)


def _given(room: DividedRoom) -> float:
    return room.heated.heat_demand - room.heat_missing


def _is_fair(gain: float, missing: float) -> bool:
    return gain >= min(_FAIR_SHARE * missing, _FAIR_HEAT)


def _other_emitter(room: DividedRoom) -> Remedy:
    return Remedy(
        "other_emitter",
        f"Let another heat emitter in the room give the missing {room.heat_missing:.0f} W.",
        room.heated.heat_demand,
        0.0,
    )


@dataclass
class _Trials:
    """Whole designs with one change each, computed once."""

    design: WholeDesign
    known: list[tuple[DesignsInputs, WholeDesign | None]] = field(default_factory=list)
    untried: set[int] = field(default_factory=set)

    def __post_init__(self) -> None:
        circuits = sum(len(room.circuit_ids) for room in self.design.solved.divided)
        memories = self.design.sited.draughtsman.memories
        left = max(0, max(_MOST_FIELDS, _EACH * circuits) - sum(memory.laid for memory in memories))
        for memory in memories:
            memory.most_fields = memory.laid + min(max(memory.laid, _LEAST_FIELDS), left)
            memory.lanes.most_ways = memory.lanes.ways + max(memory.lanes.ways, _LEAST_WAYS)

    def tried(self, room: DividedRoom, change: _Change) -> Remedy | None:
        """The change as a remedy, where the design with it stands and the room gains enough."""
        changed = self._changed(change.inputs, room)
        if changed is None:
            return None
        now = changed.solved.divided[room.heated.index]
        if not _is_fair(room.heat_missing - now.heat_missing, room.heat_missing):
            return None
        return Remedy(change.code, change.message, _given(now), now.heat_missing)

    def _changed(self, inputs: DesignsInputs, room: DividedRoom) -> WholeDesign | None:
        for known, design in self.known:
            if known == inputs:
                return design
        if len(self.known) == _MOST_TRIED:
            self.untried.add(room.heated.index)
            return None
        found = None
        try:
            found = self._computed(inputs)
        except TooMuchWorkError:
            self.untried.add(room.heated.index)
        self.known.append((inputs, found))
        return found

    def _computed(self, inputs: DesignsInputs) -> WholeDesign | None:
        """``None`` where it cannot be computed or breaks what the design keeps."""
        before = self.design.sited
        try:
            rooms = tuple(
                replace(room, adopted_joints=own.adopted_joints, kept=own.kept, ports=own.ports)
                for room, own in zip(rooms_to_heat(inputs), before.house.rooms, strict=True)
            )
            house = replace(house_of(inputs, rooms), measured=before.house.measured)
            changed = whole_design(
                before._replace(house=house, draughtsman=before.draughtsman.again(house)),
                before=self.design.solved.drawn,
            )
            broken = _violations(changed)
        except InputError:
            return None
        worse = any(
            now.heat_missing > then.heat_missing + _SAME_HEAT
            for now, then in zip(changed.solved.divided, self.design.solved.divided, strict=True)
        )
        return None if worse or broken - _violations(self.design) else changed


def _violations(design: WholeDesign) -> Counter[str]:
    """How often the design breaks which limit, apart from heat that is missing."""
    broken: Counter[str] = Counter()
    for finding in design.findings:
        if finding.severity == "violation" and finding.code != "heat_missing":
            broken[finding.code] += len(finding.places)
    return broken


def _warmer_supply(design: WholeDesign, room: DividedRoom) -> Iterator[_Change]:
    """As warm as the room needs, within what source and screed allow."""
    inputs, supply = design.inputs, design.solved.supply.temperature
    heated, choice, drop = room.heated, room.point.choice, inputs.source.temperature_drop
    reachable = min(heated.required_heat_output, choice.limit_heat_output)
    needed = heated.required_supply(choice, reachable, drop)
    warmer = min(math.ceil(needed / _SUPPLY_STEP - 1e-9) * _SUPPLY_STEP, _warmest(inputs))
    if warmer <= supply + 1e-9:
        return
    output = min(heated.most_heat_output(choice, warmer, drop), heated.required_heat_output)
    told = math.ceil(needed / _SUPPLY_TOLD - 1e-6) * _SUPPLY_TOLD
    rounded = f" ({told:.1f} °C rounded up)" if f"{told:.1f}" < f"{warmer:.1f}" else ""
    yield _Change(
        "warmer_supply",
        f"A supply of {warmer:.1f} °C{rounded} instead of {supply:.1f} °C for all rooms.",
        replace(inputs, solve_sections=False, source=replace(inputs.source, supply_temperature=warmer)),
        heated.given(output),
    )


def _warmest(inputs: DesignsInputs) -> float:
    """Supply that the source may give and the screed bears [degC]."""
    screed = inputs.screed
    bears = BINDER_TEMPERATURE_LIMIT["cement" if screed is None else screed.binder]
    return min(bears, inputs.source.maximum_supply_temperature)


def _closer_spacing(design: WholeDesign, room: DividedRoom) -> Iterator[_Change]:
    """The widest closer spacing that gives all the room needs, else the closest; then the next wider ones."""
    inputs, supply = design.inputs, design.solved.supply.temperature
    heated, own = room.heated, room.point.choice.pipe_spacing
    drop, needed = inputs.source.temperature_drop, heated.required_heat_output
    most = {
        spacing: heated.most_heat_output(heated.choice(spacing), supply, drop)
        for spacing in _TRADE_SPACINGS
        if max(LEAST_SPACING, own / _MOST_PIPE) - 1e-9 <= spacing < own - 1e-9
        and bends_fit(inputs.pipe.bend_radius, spacing, heated.room.pattern)
        and spacing > laid_diameter(inputs.pipe)
    }
    enough = [spacing for spacing, output in most.items() if output >= needed]
    for spacing in [*enough[:1], *(spacing for spacing in reversed(most) if spacing not in enough)]:
        yield _Change(
            "closer_spacing",
            f"Pipes at {spacing * 1000:.0f} mm instead of {own * 1000:.0f} mm.",
            _with_room(inputs, heated.index, replace(inputs.rooms[heated.index], pipe_spacing=spacing)),
            heated.given(min(most[spacing], needed)),
        )


def _lighter_covering(design: WholeDesign, room: DividedRoom) -> Iterator[_Change]:
    """Tile in the room, in place of what insulates more."""
    inputs, heated = design.inputs, room.heated
    own = heated.build_up.covering_resistance
    changed = _tiled(inputs, room) if own > _THIN_COVERING else None
    if changed is None:
        return
    tiled = replace(heated, build_up=changed[1], surface_limit=surface_limit(heated.room, changed[1]))
    most = tiled.most_heat_output(
        tiled.choice(room.point.choice.pipe_spacing),
        design.solved.supply.temperature,
        inputs.source.temperature_drop,
    )
    yield _Change(
        "lighter_covering",
        f"A covering of {_THIN_COVERING:g} m2.K/W (tile) instead of {own:g} m2.K/W.",
        changed[0],
        heated.given(min(most, heated.required_heat_output)),
    )


def _tiled(inputs: DesignsInputs, room: DividedRoom) -> tuple[DesignsInputs, BuildUp] | None:
    """The request with the room's build-up tiled, or with one more like it for the room alone; ``None`` where no more
    are allowed."""
    own = room.heated.build_up
    ids = [build_up.id for build_up in inputs.build_ups]
    tile = replace(own, covering="ceramic", covering_resistance=_THIN_COVERING)
    if sum(other.build_up == own.id for other in inputs.rooms) == 1:
        each = (tile if build_up is own else build_up for build_up in inputs.build_ups)
        return replace(inputs, solve_sections=False, build_ups=tuple(each)), tile
    if len(ids) >= items("build_ups").maximum:
        return None
    tile = replace(tile, id=next(name for name in map(str, count()) if name not in ids))
    more = replace(inputs, build_ups=(*inputs.build_ups, tile))
    return _with_room(
        more, room.heated.index, replace(inputs.rooms[room.heated.index], build_up=tile.id)
    ), tile


def _with_room(inputs: DesignsInputs, index: int, room: DesignRoom) -> DesignsInputs:
    rooms = list(inputs.rooms)
    rooms[index] = room
    return replace(inputs, solve_sections=False, rooms=tuple(rooms))
