"""What happens to a service in production. Each scene yields figures with their bounds."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from tests.drills import ends, under_load
from tests.drills.served import Figure

__all__ = ["LONG", "QUICK"]

Scene = Callable[[], Iterator[Figure]]
QUICK: Mapping[str, Scene] = {
    "light_load": under_load.light_load,
    "left_alone": ends.left_alone,
    "killed": ends.killed,
    "replaced": ends.replaced,
    "crashed": ends.crashed,
    "stopped": ends.stopped,
    "deadline": ends.deadline,
    "started": ends.started,
}
LONG: Mapping[str, Scene] = {
    "endpoints": under_load.endpoints,
    "unread": under_load.unread,
    "slow": under_load.slow,
    "renewed": ends.renewed,
    "crowd": under_load.crowd,
    "endurance": under_load.endurance,
}
