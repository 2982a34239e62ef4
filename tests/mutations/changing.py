"""A change of the engine in this process: a module loaded with it, or functions and constants of a loaded one."""

from __future__ import annotations

import ast
import gc
import importlib.util
import sys
from collections.abc import Iterator
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, SourceFileLoader
from types import CodeType, FunctionType

from .mutants import Mutant, mutated

__all__ = ["Functions", "load_with", "set_constants"]


def set_constants(mutant: Mutant) -> None:
    """Gives the constants of the loaded module the values that they have with the change, wherever they are imported.

    Classes and functions of the module stay, with what they took of its constants, and so does what other modules have
    made of them: what is noticed so is noticed, and the rest has to be loaded anew.
    """
    module, tree = sys.modules[mutant.module], mutated(mutant)
    tree.body = [node for node in tree.body if isinstance(node, ast.Assign | ast.AnnAssign)]
    before = dict(vars(module))
    after = dict(before)
    exec(compile(tree, str(mutant.path), "exec"), after)
    ours = [each for name, each in sys.modules.items() if name.startswith(("tepidarium", "tests"))]
    for name, value in before.items():
        for place in ours if after[name] is not value else ():
            if vars(place).get(name) is value:
                setattr(place, name, after[name])


def load_with(mutant: Mutant) -> None:
    """Sees to it that the module is loaded with the change. It must not have been loaded before."""
    sys.meta_path.insert(0, _Finder(mutant))


class Functions:
    """All functions that have been made so far, by the code that they run."""

    def __init__(self) -> None:
        self._of: dict[tuple[str, int, str], list[FunctionType]] = {}
        for found in gc.get_objects():
            if isinstance(found, FunctionType):
                self._of.setdefault(_key(found.__code__), []).append(found)

    def change(self, mutant: Mutant) -> None:
        """Gives the functions of the module the code with the change, also those made in other functions."""
        for code in _inside(compile(mutated(mutant), str(mutant.path), "exec")):
            for function in self._of.get(_key(code), ()):
                function.__code__ = code


def _key(code: CodeType) -> tuple[str, int, str]:
    return code.co_filename, code.co_firstlineno, code.co_qualname


def _inside(code: CodeType) -> Iterator[CodeType]:
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield each
            yield from _inside(each)


class _Changed(SourceFileLoader):
    """Loads one module from its changed tree, without reading or writing compiled files."""

    def __init__(self, name: str, path: str, tree: ast.Module) -> None:
        super().__init__(name, path)
        self.tree = tree

    def get_code(self, fullname: str) -> CodeType:
        return compile(self.tree, self.path, "exec")


class _Finder(MetaPathFinder):
    def __init__(self, mutant: Mutant) -> None:
        self.mutant = mutant

    def find_spec(self, fullname: str, path: object, target: object = None) -> ModuleSpec | None:
        if fullname != self.mutant.module:
            return None
        file = str(self.mutant.path)
        loader = _Changed(fullname, file, mutated(self.mutant))
        return importlib.util.spec_from_file_location(fullname, file, loader=loader)
