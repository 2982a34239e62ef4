"""What is shipped: both wheels are built and opened, and the engine is imported where no web package exists."""

from __future__ import annotations

import email
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
WEB = ("litestar", "msgspec", "httpx", "structlog", "granian", "anyio", "jsonschema_rs", "icalendar")


def _build(folder: Path, into: Path) -> zipfile.ZipFile:
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(into), str(folder)],
        check=True,
        capture_output=True,
    )
    (wheel,) = into.glob("*.whl")
    return zipfile.ZipFile(wheel)


PAGE_SOURCES = "tepidarium_api/handbook/text/"
"""What the pages of the handbook are made of; the wheel holds the pages."""
LARGEST_HANDBOOK = 3_000_000
"""[bytes], packed."""


def _requirements(wheel: zipfile.ZipFile) -> list[str]:
    (name,) = [name for name in wheel.namelist() if name.endswith(".dist-info/METADATA")]
    return email.message_from_bytes(wheel.read(name)).get_all("Requires-Dist", [])


@pytest.fixture(scope="module")
def service_wheel(tmp_path_factory: pytest.TempPathFactory) -> zipfile.ZipFile:
    return _build(TOP, tmp_path_factory.mktemp("service"))


@pytest.fixture(scope="module")
def client_wheel(tmp_path_factory: pytest.TempPathFactory) -> zipfile.ZipFile:
    return _build(TOP / "clients" / "python", tmp_path_factory.mktemp("client"))


def _sources(package: Path) -> set[str]:
    return {
        path.relative_to(package.parent).as_posix()
        for path in package.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def test_service_wheel_holds_engine_and_api_and_nothing_else(service_wheel: zipfile.ZipFile) -> None:
    shipped = {name for name in service_wheel.namelist() if ".dist-info/" not in name}
    sources = _sources(TOP / "engine" / "tepidarium_engine") | _sources(TOP / "api" / "tepidarium_api")
    assert shipped == {name for name in sources if not name.startswith(PAGE_SOURCES)}
    assert {"tepidarium_engine/py.typed", "tepidarium_api/py.typed"} <= shipped


def test_the_handbook_in_the_wheel_is_light(service_wheel: zipfile.ZipFile) -> None:
    pages = [each for each in service_wheel.infolist() if "/handbook/" in each.filename]
    assert any(each.filename.endswith("/pages/index.html") for each in pages)
    assert sum(each.compress_size for each in pages) < LARGEST_HANDBOOK


def test_service_wheel_needs_only_numbers_without_its_extra(service_wheel: zipfile.ZipFile) -> None:
    plain = {need.split(">")[0].strip() for need in _requirements(service_wheel) if "extra ==" not in need}
    assert plain == {"numpy", "shapely", "scipy"}


def test_service_wheel_installs_its_command(service_wheel: zipfile.ZipFile) -> None:
    (name,) = [name for name in service_wheel.namelist() if name.endswith("entry_points.txt")]
    assert b"tepidarium-api = tepidarium_api.__main__:main" in service_wheel.read(name)


def test_client_wheel_holds_the_client_and_nothing_else(client_wheel: zipfile.ZipFile) -> None:
    shipped = {name for name in client_wheel.namelist() if ".dist-info/" not in name}
    assert shipped == _sources(TOP / "clients" / "python" / "tepidarium_client")
    (name,) = [name for name in client_wheel.namelist() if name.endswith("entry_points.txt")]
    assert b"tepidarium = " in client_wheel.read(name)


def test_client_wheel_needs_only_http_and_records(client_wheel: zipfile.ZipFile) -> None:
    plain = [need for need in _requirements(client_wheel) if "extra ==" not in need]
    needs = {need.split(">")[0].split("<")[0].strip() for need in plain}
    assert needs == {"httpx", "msgspec"}


def test_engine_runs_without_any_web_package() -> None:
    block = (
        "import sys\n"
        f"for name in {WEB!r}: sys.modules[name] = None\n"
        "import pkgutil, importlib, tepidarium_engine\n"
        "names = [m.name for m in pkgutil.walk_packages(tepidarium_engine.__path__, 'tepidarium_engine.')]\n"
        "assert len(names) > 30\n"
        "for name in names: importlib.import_module(name)\n"
    )
    subprocess.run([sys.executable, "-c", block], check=True)
