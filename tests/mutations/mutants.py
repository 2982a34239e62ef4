"""Single changes of the physics and the validator: a number one per cent larger, or a comparison turned."""

from __future__ import annotations

import ast
import random
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

__all__ = ["ENGINE", "FOLDERS", "TOP", "Mutant", "all_mutants", "mutated", "sample"]

TOP = Path(__file__).parents[2]
ENGINE = TOP / "engine" / "tepidarium_engine"
FOLDERS = ("plan/judging", "section", "conduction", "envelope", "practice", "water", "thermal")
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
    """A change in one place: ``place`` counts the places of its module from its beginning.

    ``function`` is the line at which the innermost function round it begins, decorators included; None where the change
    is done as the module is loaded. ``key`` stays the same when lines move: file, function, change.
    """

    folder: str
    path: Path
    place: int
    line: int
    change: str
    function: int | None
    key: str
    size: float | None = None

    @property
    def module(self) -> str:
        return ".".join(("tepidarium_engine", *self.path.relative_to(ENGINE).with_suffix("").parts))

    @property
    def harmless(self) -> bool:
        """Whether the number only absorbs rounding, so that any other of its size does the same."""
        tabled = self.path.name == "coefficients.py"
        return self.size is not None and abs(self.size) <= ROUNDING and not tabled

    def __str__(self) -> str:
        return f"{self.path.relative_to(ENGINE)}:{self.line}: {self.change}"


@cache
def all_mutants() -> tuple[Mutant, ...]:
    return tuple(
        mutant
        for folder in FOLDERS
        for path in sorted((ENGINE / folder).glob("*.py"))
        for mutant in _of_module(folder, path)
    )


def _of_module(folder: str, path: Path) -> Iterator[Mutant]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    functions = {node: found for node, *found in _functions(tree, None, "")}
    seen: Counter[str] = Counter()
    for place, (node, change) in enumerate(_places(tree)):
        function, name = functions[node]
        key = f"{path.relative_to(ENGINE).as_posix()} {name or 'module'}: {change}"
        seen[key] += 1
        if seen[key] > 1:
            key += f" ({seen[key]})"
        yield Mutant(folder, path, place, node.lineno, change, function, key, getattr(node, "value", None))


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


def _functions(node: ast.AST, function: int | None, name: str) -> Iterator[tuple[ast.AST, int | None, str]]:
    """Every node with beginning and name of the function in whose body it stands."""
    yield node, function, name
    inner = (function, name)
    if isinstance(node, ast.FunctionDef | ast.Lambda):
        begin = min([node.lineno, *(each.lineno for each in getattr(node, "decorator_list", ()))])
        inner = (begin, getattr(node, "name", "lambda"))
    for field, value in ast.iter_fields(node):
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST):
                yield from _functions(child, *(inner if field == "body" else (function, name)))


def _places(tree: ast.Module) -> Iterator[tuple[ast.Constant | ast.Compare, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, float) and node.value != 0.0:
            yield node, f"{node.value!r} becomes {node.value * _GROWN:.6g}"
        elif isinstance(node, ast.Compare) and type(node.ops[0]) in _TURNED:
            yield node, f"{ast.unparse(node)} is turned"
