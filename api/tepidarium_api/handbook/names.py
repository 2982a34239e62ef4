"""The public names of engine, client and service, with what their own docstrings say first."""

from __future__ import annotations

import inspect
import pkgutil
import re
from collections.abc import Iterator, Sized
from importlib import import_module
from types import ModuleType
from typing import Any, get_origin

import tepidarium_engine

from ..problems import PROBLEM_TYPES
from .answers import TOP
from .field_tables import operations
from .wording import cell, table

__all__ = [
    "client_names",
    "engine_modules",
    "engine_names",
    "paths",
    "problem_types",
    "settings",
    "typescript_names",
]

_EXPORTED = re.compile(r'export (?:type )?\{([^}]*)\} from "\./(\w+)\.js"')
_SAID = r"/\*\*((?:(?!\*/).)*)\*/\s*"
"""A comment of the TypeScript sources, before what it is about."""
_LONGEST_VALUE = 60
"""Of a constant whose value is shown."""


def engine_modules() -> Iterator[ModuleType]:
    """The modules of the engine's top: its public part. What lies in folders may change at any time."""
    for found in pkgutil.iter_modules(tepidarium_engine.__path__):
        if not found.ispkg or found.name == "glossary":
            yield import_module(f"tepidarium_engine.{found.name}")


def engine_names() -> str:
    parts = []
    for module in engine_modules():
        rows = [(f"`{name}`", cell(_first_words(getattr(module, name)))) for name in _public(module)]
        heading = f"## {module.__name__.rpartition('.')[2]}\n\n{cell(_sentence(module.__doc__ or ''))}"
        parts.append(f"{heading}\n\n{table(('name', 'what it is'), rows)}")
    return "\n\n".join(parts)


def client_names() -> str:
    import tepidarium_client  # noqa: PLC0415 - its own distribution, which the service does not need

    rows = [
        (f"`{name}`", cell(_first_words(getattr(tepidarium_client, name))))
        for name in sorted(tepidarium_client.__all__)
    ]
    methods = [
        (f"`{name}`", cell(_first_words(getattr(tepidarium_client.Client, name))))
        for name in dir(tepidarium_client.Client)
        if not name.startswith("_")
    ]
    head = ("name", "what it is")
    return f"{table(head, rows)}\n\n## Methods of Client and AsyncClient\n\n{table(head, methods)}"


def typescript_names() -> str:
    """What the TypeScript client exports, with what its sources say first."""
    folder = TOP / "clients" / "typescript" / "src"
    rows = []
    for names, module in _EXPORTED.findall((folder / "index.ts").read_text("utf-8")):
        source = (folder / f"{module}.ts").read_text("utf-8")
        for name in (each.split()[-1] for each in names.split(",") if each.strip()):
            found = re.search(rf"{_SAID}export (?:type|interface|class|function) {name}\b", source, re.DOTALL)
            rows.append((name, found[1] if found else ""))
    sources = [(folder / f"{module}.ts").read_text("utf-8") for module in ("client", "calculations")]
    methods = [
        (name, words)
        for source in sources
        for words, name in re.findall(rf"{_SAID}(?:async )?(\w+)\(", source, re.DOTALL)
        if name != "constructor"
    ]
    head = ("name", "what it is")
    exported, asked = (
        table(head, [(f"`{name}`", cell(_said(words))) for name, words in sorted(each)])
        for each in (rows, methods)
    )
    return f"{exported}\n\n### Methods of its Client\n\n{asked}"


def paths() -> str:
    rows = [
        (f"`{method.upper()} {path}`", cell(operation["summary"])) for path, method, operation in operations()
    ]
    return table(("operation", "what it does"), rows)


def problem_types() -> str:
    rows = [
        (f"`{slug}`", str(each.status), cell(each.title), cell(each.explanation))
        for slug, each in PROBLEM_TYPES.items()
    ]
    return table(("type", "status", "title", "what it means and what to do"), rows)


def settings() -> str:
    """The table of settings of the notes on running the service."""
    text = (TOP / "deploy" / "README.md").read_text(encoding="utf-8")
    (found,) = re.findall(r"^\| variable \|.*?(?=\n\n)", text, re.MULTILINE | re.DOTALL)
    return str(found)


def _public(module: ModuleType) -> list[str]:
    return sorted(getattr(module, "__all__", ()))


def _first_words(thing: Any) -> str:
    """The first sentence of its docstring; of a constant its value, where it is short; of a choice its words."""
    if get_origin(thing) is not None:
        return _value(thing)
    described = inspect.isclass(thing) or callable(thing) or type(thing).__module__.startswith("tepidarium")
    words = inspect.getdoc(thing) if described or inspect.ismodule(thing) else ""
    return _sentence(words) if words else _value(thing)


def _value(thing: Any) -> str:
    shown = f"function {inspect.signature(thing)}" if inspect.isfunction(thing) else repr(thing)
    if len(shown) > _LONGEST_VALUE and isinstance(thing, Sized):
        return f"a {type(thing).__name__} of {len(thing)}"
    # How numpy writes a type of arrays differs from release to release.
    shown = re.sub(r"numpy\.ndarray\[.*numpy\.dtype\[numpy\.(\w+)\]\]", r"array of \1", shown)
    return re.sub(r"typing\.|tepidarium_engine\.[\w.]*\.|datetime\.", "", shown)


def _said(comment: str) -> str:
    """The first sentence of a comment of several lines."""
    return _sentence(re.sub(r"\n\s*\*", " ", comment).replace("`", ""))


def _sentence(text: str) -> str:
    first = " ".join(text.split("\n\n", maxsplit=1)[0].split())
    return re.split(r"(?<=[.!?])\s", first, maxsplit=1)[0].replace("``", "")
