"""Settings of all tests."""

from __future__ import annotations

from hypothesis import settings

# A change is judged by the same examples on every machine; ``sh tests/run.sh --hypothesis-profile=search`` looks
# for new ones.
settings.register_profile("steady", derandomize=True, database=None)
settings.register_profile("search", derandomize=False, print_blob=True)
settings.load_profile("steady")
