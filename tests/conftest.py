"""Settings of all tests."""

from __future__ import annotations

from hypothesis import settings
from hypothesis.internal.conjecture import providers

# A change is judged by the same examples on every machine; ``sh tests/run.sh --hypothesis-profile=search`` looks
# for new ones. No example has a deadline: how long it takes depends on what else the machine does.
settings.register_profile("steady", derandomize=True, database=None, deadline=None)
settings.register_profile("search", derandomize=False, print_blob=True, deadline=None)
settings.load_profile("steady")

# Hypothesis also draws constants that it finds in the source of the project's modules that happen to be imported: then
# examples would change with the files that run, in which order, and with every number that is changed anywhere.
assert hasattr(providers, "is_local_module_file"), (
    "hypothesis has changed: see to it that examples stay the same"
)
providers.is_local_module_file = lambda _path: False
