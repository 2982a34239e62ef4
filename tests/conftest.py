"""Settings of all tests."""

from __future__ import annotations

from hypothesis import settings

# A change is judged by the same examples on every machine; ``sh tests/run.sh --hypothesis-profile=search`` looks
# for new ones. No example has a deadline: how long it takes depends on what else the machine does.
settings.register_profile("steady", derandomize=True, database=None, deadline=None)
settings.register_profile("search", derandomize=False, print_blob=True, deadline=None)
settings.load_profile("steady")
