"""The TypeScript client as a vendor gets it: packed, compiled strictly, tried in Node.js and in Chromium."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import tarfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_client import Client, __version__, local_service
from tepidarium_client._operations import Operation, PlanImport, Question

TOP = Path(__file__).parents[2]
PACKAGE = TOP / "clients" / "typescript"
SOURCE = PACKAGE / "src"
TUTORIAL = TOP / "api" / "tepidarium_api" / "handbook" / "text" / "tutorials" / "vendor.md"
HERE = Path(__file__).parent
BY_PATH = {item.path: item for item in CALCULATIONS}


def _camel(name: str) -> str:
    return re.sub(r"_(.)", lambda found: found[1].upper(), name)


def test_methods_are_named_as_in_the_python_client() -> None:
    kinds = Operation | PlanImport | Question
    expected = {_camel(name) for name in dir(Client) if isinstance(getattr(Client, name), kinds)}
    text = (SOURCE / "calculations.ts").read_text() + (SOURCE / "client.ts").read_text()
    methods = set(re.findall(r"^  (?:async )?(\w+)\([^)]*options\?: CallOptions,?\s*\)", text, re.MULTILINE))
    assert methods == expected
    assert set(re.findall(r'POST\("([^"]+)"', text)) >= BY_PATH.keys()


def test_the_source_trusts_the_types() -> None:
    for path in SOURCE.glob("*.ts"):
        if path.name != "schema.ts":
            code = re.sub(r"//.*|/\*.*?\*/|\"[^\"\n]*\"", "", path.read_text(), flags=re.DOTALL)
            assert not re.search(r"\bany\b|@ts-|!\.|\bas (?!const\b)", code), path


def test_the_package_asks_for_one_other_and_the_lock_file_names_no_registry() -> None:
    assert "resolved" not in (PACKAGE / "package-lock.json").read_text()
    package = json.loads((PACKAGE / "package.json").read_text())
    assert package["version"] == __version__
    assert list(package["dependencies"]) == ["openapi-fetch"]


def run(*command: str | Path, folder: Path, **environment: str) -> str:
    """What a tool prints; the test fails with it when the tool does."""
    done = subprocess.run(
        [str(part) for part in command],
        cwd=folder,
        env={**os.environ, "NO_COLOR": "1", **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def service() -> Iterator[str]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TEPIDARIUM_CORS_ORIGINS", "*")
        with local_service() as url:
            yield url


@pytest.fixture(scope="module")
def vendor(tmp_path_factory: pytest.TempPathFactory, service: str) -> Path:
    """A project that has the packed client installed, with the tests and the README's example compiled in it."""
    folder = tmp_path_factory.mktemp("vendor")
    run("npm", "pack", "--silent", "--pack-destination", folder, folder=PACKAGE)
    (packed,) = folder.glob("*.tgz")
    modules = folder / "node_modules"
    (modules / "@types").mkdir(parents=True)
    for name in ("openapi-fetch", "openapi-typescript-helpers", "@types/node", "undici-types"):
        (modules / name).symlink_to(PACKAGE / "node_modules" / name)
    with tarfile.open(packed) as archive:
        archive.extractall(modules, filter="data")
    (modules / "playwright-core").symlink_to(TOP / "tests/browser/node_modules/playwright-core")
    (modules / "package").rename(modules / "tepidarium-client")
    (folder / "package.json").write_text('{"type": "module"}')
    shutil.copy(TOP / "examples" / "plan-imports.xml", folder / "plan.xml")
    for name in ("client.test.ts", "browser.test.mjs"):
        shutil.copy(HERE / name, folder)
    (folder / "example_calls.ts").write_text(_example_calls())
    (folder / "readme.ts").write_text(
        _example(PACKAGE / "README.md").replace("http://127.0.0.1:8000", service)
    )
    strict = ("--strict", "--exactOptionalPropertyTypes", "--noUncheckedIndexedAccess", "--noImplicitReturns")
    target = (
        "--target",
        "es2022",
        "--module",
        "nodenext",
        "--lib",
        "es2022,dom,dom.iterable",
        "--types",
        "node",
    )
    run(PACKAGE / "node_modules/.bin/tsc", *strict, *target, "client.test.ts", "readme.ts", folder=folder)
    return folder


def _example(page: Path) -> str:
    """The first lines of TypeScript on a page of Markdown."""
    found = re.search(r"```ts\n(import.*?)```", page.read_text(encoding="utf-8"), re.DOTALL)
    assert found is not None
    return found[1]


def test_the_handbook_shows_the_lines_that_are_run() -> None:
    assert _example(TUTORIAL) == _example(PACKAGE / "README.md")


def _example_calls() -> str:
    """A call of every example, written as a user would: the literals must fit the request types as they stand."""
    calls = "\n".join(
        f"""  {{
    const body: Schemas["{item.inputs.__name__.removesuffix("Inputs")}Request"] = {json.dumps(dict(item.example))};
    calls["{item.path}"] = {{ body, reply: () => client.{_camel(item.name.replace("-", "_"))}(body) }};
  }}"""
        for item in CALCULATIONS
    )
    design = json.dumps(dict(BY_PATH["/v1/designs"].example))
    return f"""import type {{ Client, Reply, Schemas }} from "tepidarium-client";
export const exampleDesign: Schemas["DesignsRequest"] = {design};
type Call = {{ body: object; reply: () => Promise<Reply<object>> }};
export function exampleCalls(client: Client): Record<string, Call> {{
  const calls: Record<string, Call> = {{}};
{calls}
  return calls;
}}
"""


@pytest.mark.long
def test_the_types_are_those_of_the_contract(tmp_path: Path) -> None:
    run("npm", "run", "--silent", "types", "--", tmp_path / "schema.ts", folder=PACKAGE)
    assert (SOURCE / "schema.ts").read_text() == (tmp_path / "schema.ts").read_text(), (
        "write it again: npm --prefix clients/typescript run types -- src/schema.ts"
    )


@pytest.mark.long
def test_the_package_holds_what_was_built_and_nothing_else(vendor: Path) -> None:
    installed = vendor / "node_modules" / "tepidarium-client"
    shipped = {path.relative_to(installed).as_posix() for path in installed.rglob("*") if path.is_file()}
    built = {f"dist/{path.stem}{end}" for path in SOURCE.glob("*.ts") for end in (".js", ".d.ts")}
    assert shipped == built | {"package.json", "README.md"}
    assert not re.search(r"\bany\b(?=[;,>\])\[|])", (installed / "dist/calculations.d.ts").read_text())


@pytest.mark.long
def test_the_client_in_node(vendor: Path, service: str) -> None:
    run("node", "--test", "--test-reporter=spec", "client.test.js", folder=vendor, SERVICE=service)


@pytest.mark.long
def test_the_lines_of_the_readme(vendor: Path) -> None:
    assert re.fullmatch(r"[0-9.]+ m in 1 circuits\n", run("node", "readme.js", folder=vendor))


@pytest.mark.long
def test_the_client_on_a_page(vendor: Path, service: str) -> None:
    chromium = shutil.which("chromium")
    if chromium is None:
        pytest.fail("chromium is not installed: sh deploy/set-up.sh long installs it")
    run("node", "--test", "browser.test.mjs", folder=vendor, SERVICE=service, CHROMIUM=chromium)
