"""Single changes of the physics and the validator: a number one per cent larger, or a comparison turned."""

from __future__ import annotations

import ast
import random
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

__all__ = ["FOLDERS", "Mutant", "all_mutants", "mutated", "sample"]

TOP = Path(__file__).parents[2]
ENGINE = TOP / "engine" / "tepidarium_engine"
FOLDERS = ("thermal", "water", "practice", "envelope", "section", "plan/judging")
_TURNED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE,
    ast.GtE: ast.Lt,
    ast.Gt: ast.LtE,
    ast.LtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
}
_GROWN = 1.01
ROUNDING = 1e-5
"""Numbers up to this size absorb rounding."""


class Mutant(NamedTuple):
    """A change in one place: ``place`` counts the places of its module from its beginning."""

    folder: str
    path: Path
    place: int
    line: int
    change: str
    size: float | None = None

    @property
    def module(self) -> str:
        return ".".join(("tepidarium_engine", *self.path.relative_to(ENGINE).with_suffix("").parts))

    @property
    def harmless(self) -> bool:
        """Whether the number only absorbs rounding, so that any other of its size does the same."""
        return self.size is not None and abs(self.size) <= ROUNDING

    def __str__(self) -> str:
        return f"{self.path.relative_to(ENGINE)}:{self.line}: {self.change}"


@cache
def all_mutants() -> tuple[Mutant, ...]:
    return tuple(
        Mutant(folder, path, place, node.lineno, change, getattr(node, "value", None))
        for folder in FOLDERS
        for path in sorted((ENGINE / folder).glob("*.py"))
        for place, (node, change) in enumerate(_places(ast.parse(path.read_text(encoding="utf-8"))))
    )


def sample(count: int, seed: int = 0) -> list[Mutant]:
    """So many of all, the same for the same seed, spread over the folders by their size."""
    return random.Random(seed).sample(all_mutants(), count)


def mutated(mutant: Mutant) -> ast.Module:
    """The module with the change."""
    tree = ast.parse(mutant.path.read_text(encoding="utf-8"))
    node, _ = list(_places(tree))[mutant.place]
    if isinstance(node, ast.Constant):
        node.value = node.value * _GROWN
    else:
        node.ops[0] = _TURNED[type(node.ops[0])]()
    return ast.fix_missing_locations(tree)


def _places(tree: ast.Module) -> Iterator[tuple[ast.Constant | ast.Compare, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, float) and node.value != 0.0:
            yield node, f"{node.value!r} becomes {node.value * _GROWN:.6g}"
        elif isinstance(node, ast.Compare) and type(node.ops[0]) in _TURNED:
            yield node, f"{ast.unparse(node)} is turned"
