"""The solvers are loaded late, and all of them are loaded by ``load_late``."""

from __future__ import annotations

import subprocess
import sys

_SOLVERS = "[name for name in sys.modules if name.startswith('scipy.') and name.count('.') == 1]"
_LOADED = f"""
import sys
from tepidarium_api.calculations import CALCULATIONS
before = {_SOLVERS}
assert not {{'scipy.optimize', 'scipy.sparse', 'scipy.linalg', 'scipy.spatial'}} & set(before), before
from tepidarium_engine.late_loading import load_late
load_late()
loaded = {_SOLVERS}
import msgspec
from tepidarium_api.answer import Answer, answer
for name in ('coil-plan', 'design-options', 'floor-section', 'manifold-position', 'laying-sheets'):
    one = next(one for one in CALCULATIONS if one.name == name)
    assert isinstance(answer(one, msgspec.json.encode(one.example), ''), Answer)
print(sorted(set({_SOLVERS}) - set(loaded)))
"""


def test_calculations_load_no_solver_before_and_none_after_load_late() -> None:
    done = subprocess.run([sys.executable, "-c", _LOADED], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "[]"
