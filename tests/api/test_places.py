"""Places to compute and to wait: shares of clients, and whose turn it is."""

from __future__ import annotations

import asyncio
from collections.abc import Coroutine
from contextlib import AsyncExitStack
from typing import Any

import pytest
from tepidarium_api.places import Places
from tepidarium_api.problems import Refusal
from tepidarium_api.settings import Settings


def run(drill: Coroutine[Any, Any, None]) -> None:
    asyncio.run(drill)


def places(processes: int, queue_length: int, share: float = 0.5) -> Places:
    return Places(
        Settings(processes=processes, queue_length=queue_length, client_share=share, queue_timeout=5.0)
    )


async def waiting(all_places: Places, client: str, order: list[str]) -> asyncio.Task[None]:
    async def wait() -> None:
        async with all_places.place(client):
            order.append(client)

    task = asyncio.create_task(wait())
    await asyncio.sleep(0)
    return task


def test_one_client_has_at_most_its_share() -> None:
    async def drill() -> None:
        all_places = places(2, 4)
        async with AsyncExitStack() as stack:
            for _ in range(2):
                await stack.enter_async_context(all_places.place("greedy"))
            tasks = [await waiting(all_places, "greedy", [])]
            with pytest.raises(Refusal, match="too-many-requests"):
                await stack.enter_async_context(all_places.place("greedy"))
            tasks.append(await waiting(all_places, "other", []))
        await asyncio.gather(*tasks)
        assert (all_places.free, all_places.waiting) == (2, 0)

    run(drill())


def test_who_has_nothing_running_comes_first() -> None:
    async def drill() -> None:
        all_places, order = places(1, 8), list[str]()
        async with all_places.place("a"):
            tasks = [await waiting(all_places, client, order) for client in ("a", "a", "b", "c")]
        await asyncio.gather(*tasks)
        assert order == ["a", "a", "b", "c"]  # nobody computes any more: first come, first served
        all_places = places(2, 8)
        order.clear()
        first = all_places.place("a")
        await first.__aenter__()
        async with all_places.place("b"):
            tasks = [await waiting(all_places, client, order) for client in ("a", "c")]
        await asyncio.sleep(0)
        await asyncio.gather(*tasks)
        assert order == ["c", "a"]
        await first.__aexit__(None, None, None)
        assert all_places.free == 2

    run(drill())


def test_a_full_queue_refuses_everybody() -> None:
    async def drill() -> None:
        all_places = places(1, 1, 1.0)
        async with all_places.place("a"):
            task = await waiting(all_places, "b", [])
            with pytest.raises(Refusal, match="overloaded"):
                async with all_places.place("c"):
                    pass
        await task

    run(drill())


def test_who_comes_back_too_early_waits_for_its_refusal() -> None:
    async def drill() -> None:
        all_places, loop = places(1, 0, 1.0), asyncio.get_running_loop()
        async with all_places.place("a"):
            delays = []
            for client in ("b", "b", "c"):
                began = loop.time()
                with pytest.raises(Refusal, match="overloaded"):
                    async with all_places.place(client):
                        pass
                delays.append(loop.time() - began)
        assert delays[1] > 0.9 > max(delays[0], delays[2])

    run(drill())


def test_who_leaves_at_the_moment_of_its_turn_passes_it_on() -> None:
    async def drill() -> None:
        all_places, order = places(1, 4), list[str]()
        async with all_places.place("a"):
            leaving, next_one = [await waiting(all_places, client, order) for client in ("b", "c")]
        leaving.cancel()
        await asyncio.gather(leaving, next_one, return_exceptions=True)
        assert order == ["c"]
        assert all_places.free == 1

    run(drill())
