"""The same request gives the same bytes: in another process, with other hashes, on a lesser processor.

numpy's exp, log and power change their last bits with the processor's vector instructions, and linear algebra with
the core type; neither may be on the way to an answer.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
PROGRAM = """
import hashlib, json, pathlib
from tepidarium_api.answer import answer
from tepidarium_api.calculations import CALCULATIONS
digest = hashlib.sha256()
for calculation in CALCULATIONS:
    body = json.dumps({**calculation.example, "workings": True}).encode()
    for media_type in ("application/json", *calculation.media_types):
        digest.update(answer(calculation, body, media_type).content)
house = pathlib.Path("examples/house.json").read_bytes()
digest.update(answer({item.name: item for item in CALCULATIONS}["designs"], house, "*/*").content)
print(digest.hexdigest())
"""
ENVIRONMENTS = {
    "other hashes, no assertions, no wide vectors, two threads of linear algebra": {
        "PYTHONHASHSEED": "7",
        "PYTHONOPTIMIZE": "1",
        "NPY_DISABLE_CPU_FEATURES": "X86_V4",
        "OPENBLAS_NUM_THREADS": "2",
    },
    "no vectors beyond SSE": {
        "NPY_DISABLE_CPU_FEATURES": "X86_V3 X86_V4",
        "OPENBLAS_CORETYPE": "Sandybridge",
    },
}


def _digest(environment: dict[str, str]) -> str:
    done = subprocess.run(
        # numpy warns where the processor has no such feature to switch off
        [sys.executable, "-W", "ignore", "-c", PROGRAM],
        env={**os.environ, **environment},
        cwd=TOP,
        check=True,
        capture_output=True,
        text=True,
    )
    return done.stdout.strip()


@pytest.fixture(scope="module")
def usual() -> str:
    return _digest({"PYTHONHASHSEED": "0"})


@pytest.mark.parametrize("name", ENVIRONMENTS)
def test_answers_do_not_depend_on_the_machine(name: str, usual: str) -> None:
    assert len(usual) == 64
    assert _digest(ENVIRONMENTS[name]) == usual
