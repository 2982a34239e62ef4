"""Other processes of this machine, any of which may end while it is looked at."""

from __future__ import annotations

from pathlib import Path

__all__ = ["children", "read", "runs"]


def read(process: int, what: str) -> str:
    """What the kernel tells of the process, nothing when the process has ended."""
    try:
        return Path(f"/proc/{process}/{what}").read_text()
    except (FileNotFoundError, ProcessLookupError):  # the second: it ended between opening and reading
        return ""


def runs(process: int) -> bool:
    """Whether the process runs: one that has ended and is not yet waited for does not."""
    return read(process, "stat").rpartition(")")[2].split()[:1] not in ([], ["Z"], ["X"])


def children(process: int) -> list[int]:
    """The processes that the process started, by any of its threads."""
    try:
        tasks = sorted(int(task.name) for task in Path(f"/proc/{process}/task").iterdir())
    except (FileNotFoundError, ProcessLookupError):
        return []
    return [int(child) for task in tasks for child in read(process, f"task/{task}/children").split()]
