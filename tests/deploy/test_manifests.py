"""What the orchestrators are given: right for their schemas, and right for each other and the service."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from tepidarium_api.settings import Settings

from tests.deploy.conftest import DEPLOY, run

MANIFESTS = sorted((DEPLOY / "kubernetes").glob("*.yaml"))
VERSIONS = ("1.30.0", "1.34.0", "1.37.0")
LEAST_SECURE = 2.0
"""Exposure that systemd gives, from 0 (none) to 10; it calls up to 2 safe enough to be shown as OK."""


def read(path: Path) -> Any:
    return yaml.safe_load(path.read_text())


def values_of(tree: Any, name: str) -> Iterator[Any]:
    """Every value under a key of that name."""
    if isinstance(tree, dict):
        yield from (value for key, value in tree.items() if key == name)
        for value in tree.values():
            yield from values_of(value, name)
    elif isinstance(tree, list):
        for value in tree:
            yield from values_of(value, name)


@pytest.mark.long
@pytest.mark.parametrize("version", VERSIONS)
def test_manifests_are_right_for_the_schemas_of_kubernetes(version: str) -> None:
    program = Path(sys.executable).with_name("kubernetes-validate")
    run(program, "--strict", "--kubernetes-version", version, *MANIFESTS)


@pytest.mark.long
def test_a_wrong_manifest_is_refused(tmp_path: Path) -> None:
    program = Path(sys.executable).with_name("kubernetes-validate")
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text(
        (DEPLOY / "kubernetes" / "deployment.yaml").read_text().replace("replicas: 2", "replicas: two")
    )
    with pytest.raises(AssertionError):
        run(program, "--strict", wrong)


def test_every_manifest_means_the_same_pods() -> None:
    labels = {"app.kubernetes.io/name": "tepidarium"}
    chosen = [found for path in MANIFESTS for found in values_of(read(path), "matchLabels")]
    assert len(chosen) == 4
    assert all(found == labels for found in chosen)
    assert read(DEPLOY / "kubernetes" / "service.yaml")["spec"]["selector"] == labels


def test_settings_in_the_manifests_are_settings_of_the_service() -> None:
    pod = read(DEPLOY / "kubernetes" / "deployment.yaml")["spec"]["template"]["spec"]["containers"][0]
    settings = Settings.from_environment({item["name"]: item["value"] for item in pod["env"]})
    assert settings.processes == int(pod["resources"]["limits"]["cpu"])


def test_the_proxy_gets_every_value_that_its_template_asks_for() -> None:
    compose = read(DEPLOY / "compose.yaml")
    template = (DEPLOY / "proxy" / "tepidarium.conf.template").read_text()
    asked = set(re.findall(r"\$\{(\w+)\}", template))
    assert set(compose["services"]["proxy"]["environment"]) == asked
    replicas = [name for name in compose["services"] if name.startswith("replica")]
    environment = compose["services"]["proxy"]["environment"]
    assert sorted((environment["FIRST"], environment["SECOND"])) == [f"{name}:8000" for name in replicas]


@pytest.mark.long
def test_the_unit_is_right_and_closed(tool: Callable[[str], str], tmp_path: Path) -> None:
    unit = tmp_path / "tepidarium.service"
    text = (DEPLOY / "systemd" / "tepidarium.service").read_text()
    command = Path(sys.executable).with_name("tepidarium-api")
    unit.write_text(text.replace("/opt/tepidarium/bin/tepidarium-api", str(command)))
    analyze = tool("systemd-analyze")
    run(analyze, "verify", unit)
    (exposure,) = re.findall(
        r"exposure level for \S+: ([\d.]+)", run(analyze, "security", "--offline=true", unit)
    )
    print(f"systemd gives the unit an exposure of {exposure} of 10")
    assert float(exposure) <= LEAST_SECURE
