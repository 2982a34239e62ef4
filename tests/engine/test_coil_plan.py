"""Coil plans against an exhaustive search, against plain bounds, and as instructions for a fitter."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tepidarium_engine.coil_plan import (
    CircuitToCut,
    CoilInStock,
    CoilPlanInputs,
    CoilPlanResult,
    calculate,
    workings,
)
from tepidarium_engine.errors import InputError
from tepidarium_engine.ordering import cutting_stock
from tepidarium_engine.ordering.coil_numbers import CoilNumbers, ProgrammeOfPatterns
from tepidarium_engine.ordering.coil_repacking import CoilRepacking
from tepidarium_engine.ordering.coil_sums import CoilSums
from tepidarium_engine.ordering.cutting_patterns import priced_patterns
from tepidarium_engine.ordering.cutting_stock import cutting_plan
from tepidarium_engine.ordering.cutting_task import CuttingTask


def request(lengths: Sequence[float], coils: Sequence[float], **others: object) -> CoilPlanInputs:
    circuits = tuple(CircuitToCut(f"c{number}", length) for number, length in enumerate(lengths))
    return replace(CoilPlanInputs(circuits, tuple(coils), cutting_allowance=0.0), **others)  # type: ignore[arg-type]


# --- against every way to group the circuits ---


def partitions(cuts: Sequence[int], most: int) -> Iterator[list[int]]:
    """Loads of every way to put cuts together in groups of at most ``most``."""

    def place(number: int, loads: list[int]) -> Iterator[list[int]]:
        if number == len(cuts):
            yield loads
            return
        for group in range(len(loads)):
            if loads[group] + cuts[number] <= most:
                loads[group] += cuts[number]
                yield from place(number + 1, loads)
                loads[group] -= cuts[number]
        yield from place(number + 1, [*loads, cuts[number]])

    yield from place(0, [])


def least(cuts: Sequence[int], bought: Sequence[int], stock: Sequence[int]) -> tuple[int, int]:
    """Length bought and coils opened of the best plan, by looking at all."""

    def cost(loads: list[int], used: frozenset[int]) -> int:
        if not loads:
            return 0
        load, rest = loads[0], loads[1:]
        fitting = [length for length in bought if length >= load]
        ways = [min(fitting) + cost(rest, used)] if fitting else []
        ways += [
            cost(rest, used | {number})
            for number, length in enumerate(stock)
            if number not in used and length >= load
        ]
        return min(ways, default=10**9)

    return min(
        (cost(list(loads), frozenset()), len(loads)) for loads in partitions(cuts, max([*bought, *stock]))
    )


@st.composite
def tasks(draw: st.DrawFn) -> tuple[list[int], list[int], list[int]]:
    """Up to six cuts, few lengths of coils and few rests; often of round lengths, which fit exactly."""
    step = draw(st.sampled_from((1, 500, 5000)))
    bought = draw(
        st.lists(st.sampled_from((50, 60, 80, 100, 120, 200, 240)), min_size=1, max_size=3, unique=True)
    )
    longest = max(bought) * 1000 // step
    cuts = draw(st.lists(st.integers(15_000 // step + 1, longest), min_size=1, max_size=6))
    stock = draw(st.lists(st.integers(20_000 // step, 130_000 // step), max_size=2))
    return [cut * step for cut in cuts], [length * 1000 for length in bought], [rest * step for rest in stock]


@settings(max_examples=150, deadline=None)
@given(tasks())
def test_no_plan_is_better(task: tuple[list[int], list[int], list[int]]) -> None:
    cuts, bought, stock = task
    plan = cutting_plan(CuttingTask.of(cuts, bought, stock))
    assert (plan.bought, len(plan.coils)) == least(cuts, bought, stock)
    assert plan.proven


@pytest.mark.long
@settings(max_examples=1500, deadline=None)
@given(tasks())
def test_no_plan_is_better_in_many_tasks(task: tuple[list[int], list[int], list[int]]) -> None:
    cuts, bought, stock = task
    plan = cutting_plan(CuttingTask.of(cuts, bought, stock))
    assert (plan.bought, len(plan.coils)) == least(cuts, bought, stock)


@pytest.mark.long
@settings(max_examples=400, deadline=None)
@given(tasks())
def test_numbers_of_coils_alone_never_prove_what_is_wrong(
    task: tuple[list[int], list[int], list[int]],
) -> None:
    """As large tasks are solved: without filling first, and without every pattern."""
    cuts, bought, stock = task
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cutting_stock, "_FIRST_LOOKS", 0)
        patch.setattr(cutting_stock, "every_pattern", lambda *_: None)
        plan = cutting_plan(CuttingTask.of(cuts, bought, stock))
    best = least(cuts, bought, stock)
    assert plan.least_bought <= best[0] <= plan.bought
    if plan.bought == best[0]:
        assert plan.least_coils <= best[1] <= len(plan.coils)
    if plan.proven:
        assert (plan.bought, len(plan.coils)) == best


# --- against bounds on large tasks ---

SALES = {
    "all lengths": (50, 60, 80, 100, 120, 200, 240, 300, 500, 600),
    "two": (120, 240),
    "long": (200, 500),
    "one": (600,),
    "feet": (91.44, 152.4, 304.8),
    "more feet": (76.2, 91.44, 152.4, 304.8),
    "hundreds": (100, 120, 200),
    "short": (60, 80, 100, 120),
    "awkward": (100, 200),
}


def sixty(seed: int, longest: float) -> list[float]:
    numbers = random.Random(seed)
    return [numbers.randint(45_000, min(int(longest * 1000), 110_000)) / 1000.0 for _ in range(60)]


@pytest.mark.parametrize("sale", SALES)
@pytest.mark.parametrize("seed", [1, 2])
def test_sixty_circuits_keep_to_their_bounds(sale: str, seed: int) -> None:
    coils = SALES[sale]
    lengths = sixty(seed, max(coils))
    plan = calculate(request(lengths, coils))
    sound(plan, request(lengths, coils))
    assert math.fsum(lengths) <= plan.least_bought_length + 1e-6 <= plan.bought_length + 1e-5
    assert plan.fewest_coils <= plan.opened_coils
    assert plan.bought_length <= 1.02 * plan.least_bought_length


@pytest.mark.parametrize("sale", ["all lengths", "two", "long", "one", "feet", "more feet", "hundreds"])
@pytest.mark.parametrize("seed", range(4))
def test_sixty_circuits_are_proven_from_usual_coils(sale: str, seed: int) -> None:
    coils = SALES[sale]
    assert calculate(request(sixty(seed, max(coils)), coils)).proven


def test_the_bound_is_that_of_a_linear_programme_over_every_pattern() -> None:
    """Two thirds of a coil each: three cuts of 40 m share no coil of 100 m better than two and a half would."""
    task = CuttingTask.of([40_000] * 5, [100_000])
    _, prices = priced_patterns(task)
    assert prices.bound == pytest.approx(250_000.0, abs=1.0)
    assert cutting_plan(task).bought == 300_000


def test_conditions_on_numbers_of_coils_by_hand() -> None:
    """Three cuts of 60 m are no shorter than coils of 100 m and 80 m together, but each needs a coil of its own."""
    task = CuttingTask.of([60_000] * 3, [100_000, 80_000])
    numbers = CoilNumbers(task)
    assert numbers.least_bought(0) == 240_000
    numbers = CoilNumbers(CuttingTask.of([60_000] * 3, [100_000, 80_000], [130_000]))
    assert numbers.least_bought(0) == 80_000
    assert numbers.fewest(80_000, 0) == (1, 0, 1)
    assert numbers.fewest(20_000, 0) is None


@pytest.mark.parametrize(("numbers", "held"), [((2,), False), ((3,), True)])
def test_what_numbers_of_coils_cannot_hold_by_hand(numbers: tuple[int, ...], held: bool) -> None:
    """Two coils of 100 m hold 190 m by length, but of five cuts of 38 m no more than two each."""
    task = CuttingTask.of([38_000] * 5, [100_000])
    programme = ProgrammeOfPatterns(task, priced_patterns(task)[0], rounds=5)
    assert (programme.shares(numbers).missed is None) is held


def test_coils_are_filled_anew_until_all_cuts_are_in() -> None:
    """Eighteen pieces that were six full coils, so that no other numbers of coils nor any rest will do."""
    numbers = random.Random(7)
    cuts = []
    for _ in range(6):
        first = numbers.randint(60_000, 110_000)
        second = numbers.randint(60_000, 110_000)
        cuts += [first, second, 300_000 - first - second]
    task = CuttingTask.of(cuts, [300_000])
    plan = CoilRepacking(task, (6,), 4000).plan()
    assert plan is not None
    assert sorted(cut for coil in plan for cut in coil.cuts) == sorted(cuts)
    assert {sum(coil.cuts) for coil in plan} == {300_000}


def test_sums_of_coils_by_hand() -> None:
    sums = CoilSums([60, 100], 500)
    assert [sums.next_sum(need) for need in (1, 61, 101, 141, 161)] == [60, 100, 120, 160, 180]
    assert [sums.fewest(total) for total in (60, 160, 180, 300)] == [1, 2, 3, 3]
    assert sums.combinations(300, 5) == [(60, 60, 60, 60, 60)]
    assert sums.next_sum(501) is None


# --- as instructions ---


def sound(plan: CoilPlanResult, asked: CoilPlanInputs) -> None:
    """Every circuit in one piece once, nothing cut beyond its coil, marks that follow each other."""
    needed = {circuit.id: circuit.length + 2.0 * asked.cutting_allowance for circuit in asked.circuits}
    order = {circuit.id: number for number, circuit in enumerate(asked.circuits)}
    cuts = [cut for coil in plan.coils for cut in coil.cuts]
    assert sorted([*(cut.circuit for cut in cuts), *plan.not_planned]) == sorted(needed)
    for coil in plan.coils:
        at = 0.0
        for cut in coil.cuts:
            assert cut.start_mark == pytest.approx(at, abs=1e-9)
            at = cut.end_mark
            assert cut.length == pytest.approx(cut.end_mark - cut.start_mark, abs=1e-9)
            assert needed[cut.circuit] - 1e-9 <= cut.length < needed[cut.circuit] + 0.00101
        assert coil.offcut == pytest.approx(coil.length - at, abs=1e-9)
        assert coil.offcut >= -1e-9
        assert [order[cut.circuit] for cut in coil.cuts] == sorted(order[cut.circuit] for cut in coil.cuts)
    firsts = [order[coil.cuts[0].circuit] for coil in plan.coils]
    assert firsts == sorted(firsts)
    bought = sorted(coil.length for coil in plan.coils if not coil.in_stock)
    assert bought == sorted(order.length for order in plan.to_buy for _ in range(order.count))
    assert set(bought) <= set(asked.coil_lengths)


plans = st.builds(
    lambda lengths, coils, stock, allowance: request(
        lengths,
        coils,
        stock=tuple(CoilInStock(length, count) for length, count in stock),
        cutting_allowance=allowance,
    ),
    st.lists(st.floats(5.0, 150.0), min_size=1, max_size=12),
    st.lists(st.sampled_from((50.0, 91.44, 100.0, 120.0, 240.0)), min_size=1, max_size=3, unique=True),
    st.lists(st.tuples(st.floats(5.0, 200.0), st.integers(1, 2)), max_size=3),
    st.sampled_from((0.0, 0.5, 1.0)),
)


@settings(max_examples=60, deadline=None)
@given(plans)
def test_every_plan_can_be_cut(asked: CoilPlanInputs) -> None:
    plan = calculate(asked)
    sound(plan, asked)
    longest = max((*asked.coil_lengths, *(coil.length for coil in asked.stock)))
    for circuit in asked.circuits:
        if circuit.id in plan.not_planned:
            held = circuit.length + 2.0 * asked.cutting_allowance
            assert held > max(asked.coil_lengths)
            assert held > longest or asked.stock
    assert plan == calculate(asked)


def test_a_circuit_that_only_a_rest_holds_is_cut_from_it() -> None:
    asked = request([130.0, 60.0, 90.0], [100.0], stock=(CoilInStock(200.0, name="rest"),))
    plan = calculate(asked)
    sound(plan, asked)
    assert plan.not_planned == ()
    assert plan.bought_length == 100.0
    (rest,) = [coil for coil in plan.coils if coil.in_stock]
    assert {cut.circuit for cut in rest.cuts} == {"c0", "c1"}
    assert rest.stock_name == "rest"


def test_circuits_that_no_coil_holds_are_one_finding() -> None:
    plan = calculate(request([130.0, 140.0, 60.0], [120.0]))
    (finding,) = plan.findings
    assert (finding.code, finding.severity) == ("circuit_longer_than_coils", "violation")
    assert [place.where for place in finding.places] == ["/circuits/1", "/circuits/0"]
    assert plan.not_planned == ("c1", "c0")


def test_a_plan_that_may_not_be_the_best_says_so() -> None:
    """Cuts of 41 to 43 m from coils of 100 and 87 m by the hundred: too many for a proof."""
    numbers = random.Random(4)
    lengths = [numbers.randint(20_000, 55_000) / 1000.0 for _ in range(150)]
    plan = calculate(request(lengths, [87.0]))
    sound(plan, request(lengths, [87.0]))
    codes = [finding.code for finding in plan.findings]
    assert codes == ([] if plan.proven else ["coil_plan_not_proven"])


def test_a_circuit_named_twice_is_refused() -> None:
    twice = CoilPlanInputs((CircuitToCut("a", 50.0), CircuitToCut("a", 60.0)))
    with pytest.raises(InputError) as refusal:
        calculate(twice)
    assert [fault.pointer for fault in refusal.value.faults] == ["/circuits/1/id"]


@pytest.mark.parametrize("coil", [0.0, -1.0, math.nan, 1e9])
def test_coils_that_are_none_are_refused(coil: float) -> None:
    with pytest.raises(InputError) as refusal:
        calculate(request([50.0], [coil]))
    assert [fault.pointer for fault in refusal.value.faults] == ["/coil_lengths/0"]


def test_workings_lead_to_the_rests() -> None:
    asked = request([60.0, 59.0, 119.0], [60.0, 120.0, 240.0], cutting_allowance=0.5)
    plan = calculate(asked)
    steps = {step.symbol: step.value for step in workings(asked, plan)}
    assert steps["L"] == pytest.approx(238.0)
    assert steps["C"] == pytest.approx(steps["L"] + 2.0 * steps["n"] * steps["a"])
    assert steps["R"] == pytest.approx(steps["B"] - steps["C"])
