"""The locked versions: everything that the project asks for, with hashes, and from nowhere in particular."""

from __future__ import annotations

import json
import re
import tomllib
from importlib import metadata
from pathlib import Path
from typing import Any

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

TOP = Path(__file__).parents[2]
LOCKS = TOP / "deploy" / "requirements"
SERVICE, CLIENT = (
    tomllib.loads((folder / "pyproject.toml").read_text()) for folder in (TOP, TOP / "clients" / "python")
)
EXTRAS = {"run": ("api", "imports"), "dev": ("api", "imports", "dev")}


def locked(name: str) -> dict[str, list[tuple[Requirement, int]]]:
    """The lines of a lock by package: requirement and number of hashes."""
    found: dict[str, list[tuple[Requirement, int]]] = {}
    text = re.sub(r"^#.*\n", "", (LOCKS / f"{name}.txt").read_text(), flags=re.MULTILINE)
    for line in text.replace("\\\n", " ").splitlines():
        requirement, *hashes = line.split("--hash=sha256:")
        parsed = Requirement(requirement.strip())
        assert all(re.fullmatch(r"[0-9a-f]{64}", value.strip()) for value in hashes)
        found.setdefault(canonicalize_name(parsed.name), []).append((parsed, len(hashes)))
    return found


def asked_for(name: str) -> list[Requirement]:
    texts = [*SERVICE["project"]["dependencies"], *CLIENT["project"]["dependencies"]]
    texts += SERVICE["dependency-groups"]["build"]
    for extra in EXTRAS[name]:
        texts += SERVICE["project"]["optional-dependencies"][extra]
    return [Requirement(text) for text in texts]


@pytest.mark.parametrize("name", EXTRAS)
def test_every_requirement_is_locked_within_its_bounds(name: str) -> None:
    lines = locked(name)
    for wanted in asked_for(name):
        for parsed, _ in lines[canonicalize_name(wanted.name)]:
            (version,) = parsed.specifier
            assert version.operator == "=="
            assert version.version in wanted.specifier, f"{parsed} is not {wanted}; run sh deploy/lock.sh"


@pytest.mark.parametrize("name", EXTRAS)
def test_every_version_has_hashes_and_none_an_address(name: str) -> None:
    for lines in locked(name).values():
        assert all(hashes > 0 for _, hashes in lines)
    text = (LOCKS / f"{name}.txt").read_text()
    assert not re.search(r"://|--(extra-)?index-url|--find-links|--trusted-host", text)


def test_the_service_runs_on_what_the_tests_saw() -> None:
    run, dev = locked("run"), locked("dev")
    for name, lines in run.items():
        versions = {str(parsed.specifier) for parsed, _ in lines}
        assert versions == {str(parsed.specifier) for parsed, _ in dev[name]}


@pytest.mark.parametrize("name", EXTRAS)
def test_a_lock_lacks_nothing(name: str) -> None:
    """What the packages of this machine need is locked as well: pip installs without looking for more."""
    lines = locked(name)
    for package, ((first, _), *_) in lines.items():
        if first.marker is not None and not first.marker.evaluate():
            continue
        for text in metadata.requires(package) or ():
            need = Requirement(text)
            if need.marker is None or need.marker.evaluate({"extra": ""}):
                assert canonicalize_name(need.name) in lines, f"{package} needs {need}"


def test_packages_are_built_with_what_is_locked() -> None:
    requires = SERVICE["build-system"]["requires"]
    assert requires == CLIENT["build-system"]["requires"]
    assert set(requires) < set(SERVICE["dependency-groups"]["build"])


@pytest.mark.parametrize(
    "folder", [TOP / "clients" / "typescript", TOP / "tests" / "browser"], ids=["client", "tests"]
)
def test_the_npm_packages_are_pinned_without_an_address(folder: Path) -> None:
    package: dict[str, Any] = json.loads((folder / "package.json").read_text())
    lock: dict[str, Any] = json.loads((folder / "package-lock.json").read_text())
    # A library leaves patches to those who use it; the lock file pins them here.
    library = {name: version.removeprefix("^") for name, version in package.get("dependencies", {}).items()}
    wanted = package["devDependencies"] | library
    for name, version in wanted.items():
        assert re.fullmatch(r"\d+\.\d+\.\d+", version), name
        assert lock["packages"][f"node_modules/{name}"]["version"] == version
    for path, entry in lock["packages"].items():
        assert "resolved" not in entry, path
        assert path == "" or entry["integrity"].startswith("sha512-"), path
