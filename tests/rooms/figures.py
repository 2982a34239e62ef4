"""Counts and percentiles over many rooms, beside what is aimed at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from tepidarium_engine.plan.laying.laying import Pattern

from .outcome import Outcome

__all__ = ["Goal", "goals", "report"]


class Goal(NamedTuple):
    """A bound that a share of the routes must keep, of those rooms ``among`` picks."""

    name: str
    share: float
    kept: Callable[[Outcome], bool]
    among: Callable[[Outcome], bool] = lambda _: True
    timed: bool = False


class Figure(NamedTuple):
    """``low`` when the small values are the bad ones."""

    name: str
    value: Callable[[Outcome], float | None]
    low: bool


def _measure(name: str) -> Callable[[Outcome], float | None]:
    def value(outcome: Outcome) -> float | None:
        number = getattr(outcome.check.measures, name) if outcome.check else None
        return None if number is None else float(number)

    return value


def _at_least(name: str, limit: float) -> Callable[[Outcome], bool]:
    value = _measure(name)
    return lambda outcome: (number := value(outcome)) is None or number >= limit


def _at_most(name: str, limit: float) -> Callable[[Outcome], bool]:
    value = _measure(name)
    return lambda outcome: (number := value(outcome)) is None or number <= limit


def _rings(count: int) -> Callable[[Outcome], bool]:
    return lambda outcome: outcome.case.rings_across >= count


def _ratio_kept(outcome: Outcome) -> bool:
    return outcome.check is not None and 0.96 <= outcome.check.measures.length_ratio <= 1.03


def _lost(outcome: Outcome) -> float:
    return float(len(outcome.laid.lost)) if outcome.laid else 0.0


FIGURES = (
    Figure("coverage at 0.5 T", _measure("coverage_half"), True),
    Figure("coverage at 0.75 T", _measure("coverage_three_quarters"), True),
    Figure("least distance / T", _measure("least_distance"), True),
    Figure("1st percentile / T", _measure("distance_1"), True),
    Figure("gap, 95 % / T", _measure("gap_95"), False),
    Figure("length / ideal", _measure("length_ratio"), True),
    Figure("mixed share", _measure("mixed_share"), True),
    Figure("temperature spread", _measure("temperature_spread"), False),
    Figure("lost places", _lost, False),
    Figure("milliseconds", lambda outcome: outcome.milliseconds, False),
)

COMMON = (
    Goal("least distance >= 0.6 T", 1.0, _at_least("least_distance", 0.6)),
    Goal("coverage at 0.75 T >= 0.99", 0.95, _at_least("coverage_three_quarters", 0.99)),
    Goal("coverage at 0.75 T >= 0.97", 1.0, _at_least("coverage_three_quarters", 0.97)),
    Goal("coverage at 0.5 T >= 0.98", 0.5, _at_least("coverage_half", 0.98)),
    Goal("coverage at 0.5 T >= 0.96", 0.9, _at_least("coverage_half", 0.96)),
    Goal("least distance >= 0.75 T", 0.9, _at_least("least_distance", 0.75)),
    Goal("1st percentile >= 0.75 T", 0.9, _at_least("distance_1", 0.75)),
    Goal("gap, 95 % <= 1.35 T", 0.9, _at_most("gap_95", 1.35)),
    Goal("length / ideal 0.96 to 1.03", 0.9, _ratio_kept),
    Goal("at most 1.5 s", 1.0, lambda outcome: outcome.milliseconds <= 1500.0, timed=True),
)

OF_PATTERN: dict[Pattern, tuple[Goal, ...]] = {
    "counterflow": (
        Goal("mixed share >= 0.55", 1.0, _at_least("mixed_share", 0.55)),
        Goal("mixed share >= 0.80, 5 rings", 1.0, _at_least("mixed_share", 0.80), _rings(5)),
        Goal("mixed share >= 0.87, 9 rings", 1.0, _at_least("mixed_share", 0.87), _rings(9)),
        Goal("temp. spread <= 0.035, 5 rings", 1.0, _at_most("temperature_spread", 0.035), _rings(5)),
        Goal("temp. spread <= 0.15", 1.0, _at_most("temperature_spread", 0.15)),
    ),
    "serpentine": (
        Goal("coverage at 0.75 T >= 0.98", 1.0, _at_least("coverage_three_quarters", 0.98)),
        Goal("no part left out", 1.0, lambda outcome: _lost(outcome) == 0.0),
    ),
}


def goals(pattern: Pattern) -> tuple[Goal, ...]:
    """What routes of rooms in the target class are held to."""
    return (*COMMON, *OF_PATTERN.get(pattern, ()))


def report(outcomes: Iterable[Outcome], pattern: Pattern) -> Iterator[str]:
    """Lines of text: counts, troubles, figures of all and of the target class, goals, figures by kind."""
    found = list(outcomes)
    yield from _counts(found)
    solved = [outcome for outcome in found if outcome.status == "solved"]
    targeted = [outcome for outcome in solved if outcome.case.in_target_class]
    yield from _figures(f"all {len(solved)} solved rooms", solved)
    yield from _figures(f"the {len(targeted)} solved rooms of the target class", targeted)
    yield from _kept(targeted, goals(pattern))
    yield from _by_kind(solved)


def _counts(found: Sequence[Outcome]) -> Iterator[str]:
    counts = Counter(outcome.status for outcome in found)
    listed = ", ".join(f"{counts[status]} {status}" for status in ("solved", "refused", "invalid", "raised"))
    yield f"{len(found)} rooms: {listed}"
    reasons = Counter(outcome.detail for outcome in found if outcome.status == "refused")
    for code, count in sorted(reasons.items()):
        rooms = [outcome for outcome in found if outcome.status == "refused" and outcome.detail == code]
        expected = sum(code in outcome.case.refusals for outcome in rooms)
        named = "; ".join(outcome.case.name for outcome in rooms[:12])
        yield f"  refused as {code}: {count} (expected: {expected}) {named}"
    for outcome in found:
        if outcome.status in {"invalid", "raised"}:
            yield f"  {outcome.status}: {outcome.case.name}: {_last_place(outcome.detail)}"


def _last_place(detail: str) -> str:
    """Of a traceback the last of our own lines and the message; all else as it is."""
    lines = [line.strip() for line in detail.strip().splitlines()]
    ours = [line.rpartition("/")[2] for line in lines if "tepidarium" in line]
    return f"{ours[-1]}: {lines[-1][:90]}" if ours else detail


def _figures(title: str, solved: Sequence[Outcome]) -> Iterator[str]:
    yield f"{title:48}{'worst':>9}{'10 %':>9}{'median':>9}{'90 %':>9}{'other end':>11}"
    for figure in FIGURES:
        values = sorted(value for outcome in solved if (value := figure.value(outcome)) is not None)
        if not values:
            continue
        if not figure.low:
            values.reverse()
        marks = [values[0], *(_at_share(values, share) for share in (0.1, 0.5, 0.9)), values[-1]]
        yield f"  {figure.name:46}" + "".join(
            f"{mark:{width}.4g}" for mark, width in zip(marks, (9, 9, 9, 9, 11), strict=True)
        )


def _at_share(ordered: Sequence[float], share: float) -> float:
    return ordered[round(share * (len(ordered) - 1))]


def _kept(solved: Sequence[Outcome], asked: Iterable[Goal]) -> Iterator[str]:
    yield "goals of the target class: share of rooms, and what it should be"
    for goal in asked:
        among = [outcome for outcome in solved if goal.among(outcome)]
        missed = [outcome.case.name for outcome in among if not goal.kept(outcome)]
        share = 1.0 - len(missed) / max(1, len(among))
        verdict = "kept  " if share >= goal.share - 1e-9 else "MISSED"
        counted = f"{share:8.3f} of {goal.share:.3f} ({len(among)} rooms)"
        yield f"  {verdict} {goal.name:32}{counted:30} {'; '.join(missed[:8])}"


def _by_kind(solved: Sequence[Outcome]) -> Iterator[str]:
    shown = FIGURES[:3] + FIGURES[5:9] + FIGURES[10:]
    yield f"{'worst by kind':16}{'rooms':>6}" + "".join(f"{figure.name:>20}" for figure in shown)
    for kind in sorted({outcome.case.kind for outcome in solved}):
        rooms = [outcome for outcome in solved if outcome.case.kind == kind]
        cells = []
        for figure in shown:
            values = [value for outcome in rooms if (value := figure.value(outcome)) is not None]
            cells.append(f"{(min if figure.low else max)(values):20.4g}" if values else f"{'-':>20}")
        yield f"{kind:16}{len(rooms):6}" + "".join(cells)
