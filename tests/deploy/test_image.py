"""The image, built from Debian's own packages and run as it is meant to be run."""

from __future__ import annotations

import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx
import pytest

from tests.api.test_server import free_port
from tests.deploy.conftest import DEPLOY, TOP, run

pytestmark = pytest.mark.long

WITHOUT_LICENCE_FIELD = {"rich-click"}
"""Its metadata have no such field; the licence file that it ships is the MIT licence."""
BUILD = {"BUILDAH_ISOLATION": "chroot"}
END = "end-of-output"


def inside(container: str, *command: str) -> str:
    """What a command prints in the container; again where its end is missing, as buildah may lose what a process prints
    that ends at once."""
    marked = ("sh", "-c", '"$@" && echo "$0"', END, *command)
    for _ in range(5):
        found = run("buildah", "run", container, "--", *marked, env=os.environ | BUILD)
        if found.endswith(f"{END}\n"):
            return found.removesuffix(f"{END}\n")
    raise AssertionError("the container's output never came whole")


@pytest.fixture(scope="module")
def container(tool: Callable[[str], str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A container of the image; what is built stays in the storage of buildah, which finds its layers again."""
    tool("buildah")
    tool("debootstrap")
    folder = tmp_path_factory.mktemp("image")
    base = TOP / "build" / "debian-base"
    run("sh", DEPLOY / "image" / "debian_base.sh", base, env=os.environ | BUILD)
    requirements = DEPLOY / "requirements"
    run(
        *(sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--require-hashes"),
        *("--dest", folder, "-r", requirements / "image.txt", "-r", requirements / "image-build.txt"),
    )
    run(
        *(
            "sh",
            DEPLOY / "image" / "build.sh",
            "--tag",
            "tepidarium:tried",
            "--volume",
            f"{folder}:/wheels:ro",
        ),
        *("--build-arg", "BASE=localhost/tepidarium-base"),
        *("--build-arg", "PIP_OPTIONS=--no-index --find-links=/wheels"),
        env=os.environ | BUILD,
    )
    name = run("buildah", "from", "tepidarium:tried", env=os.environ | BUILD).strip()
    yield name
    run("buildah", "rm", name)
    run("buildah", "rmi", "--force", "tepidarium:tried")


def test_nothing_can_be_written_by_the_user_of_the_service(container: str) -> None:
    assert inside(container, "id", "-u").strip() == "10001"
    search = (
        "find / -xdev -writable -not -type l -not -path '/proc/*' -not -path '/dev/*' -not -path '/sys/*'"
    )
    writable = inside(container, "sh", "-c", f"{search} 2>/dev/null || true").split()
    shared = ("/tmp", "/var/tmp", "/run/lock")
    assert [path for path in writable if path not in shared] == []


def test_no_compiler_and_no_installer_is_inside(container: str) -> None:
    names = "gcc cc g++ make ld pip hatchling cyclonedx-py"
    found = inside(container, "sh", "-c", f"for name in {names}; do command -v $name; done; true")
    assert found == ""


def test_the_image_lists_the_packages_that_it_holds(container: str) -> None:
    listed = json.loads(inside(container, "cat", "/opt/tepidarium/packages.cdx.json"))["components"]
    locked = re.findall(r"^([\w.-]+)==(\S+)", (DEPLOY / "requirements" / "image.txt").read_text(), re.M)

    def plain(name: str) -> str:
        return re.sub(r"[-_.]+", "-", name).lower()

    versions = {plain(part["name"]): part["version"] for part in listed}
    assert versions.pop("tepidarium")
    assert versions == {plain(name): version for name, version in locked}
    unlicensed = {part["name"] for part in listed if not part.get("licenses")}
    assert unlicensed <= WITHOUT_LICENCE_FIELD


def test_the_service_answers_from_inside_and_ends_when_told(container: str) -> None:
    port = free_port()
    command = ("buildah", "run", container, "--", "tepidarium-api", "--port", str(port))
    process = subprocess.Popen(
        command, env=os.environ | BUILD, stderr=subprocess.DEVNULL, start_new_session=True
    )
    try:
        _wait_until_ready(port)
        example = json.loads((TOP / "examples" / "house.json").read_text())
        answer = httpx.post(f"http://127.0.0.1:{port}/v1/designs", json=example, timeout=60)
        assert answer.status_code == 200
        assert answer.json()["circuits"]
    finally:
        os.killpg(process.pid, signal.SIGTERM)
        process.wait(30)


def _wait_until_ready(port: int) -> None:
    end = time.monotonic() + 60
    while time.monotonic() < end:
        try:
            if httpx.get(f"http://127.0.0.1:{port}/health/ready").status_code == 200:
                return
        except httpx.TransportError:
            pass
        time.sleep(0.1)
    raise TimeoutError("the service in the image is not ready after a minute")


def test_image_and_manifests_name_the_version_of_the_engine() -> None:
    from tepidarium_engine import __version__  # noqa: PLC0415

    for file in (DEPLOY / "compose.yaml", DEPLOY / "kubernetes" / "deployment.yaml"):
        assert set(re.findall(r"tepidarium:(\d[\w.]*)", Path(file).read_text())) == {__version__}
