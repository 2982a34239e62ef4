"""Settings of the service, from environment variables with the prefix ``TEPIDARIUM_``."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Annotated

import msgspec
from msgspec import Meta

__all__ = ["PREFIX", "Settings", "SettingsError"]

PREFIX = "TEPIDARIUM_"
NOT_OURS = frozenset({"TEPIDARIUM_URL"})
"""Variables with the prefix that are meant for clients, which may run in the same shell."""

Count = Annotated[int, Meta(ge=1, le=1024)]
Seconds = Annotated[float, Meta(gt=0, le=3600)]
Origin = Annotated[
    str, Meta(pattern=r"^(\*|https?://[a-z0-9.-]+(:[0-9]+)?|https?://\[[0-9a-f:]+\](:[0-9]+)?)$")
]


class SettingsError(ValueError):
    """An environment variable cannot be used."""


def available_cores() -> int:
    """Cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Sizes in bytes, times in seconds. A light calculation whose body is larger than ``inline_body_limit``
    or that takes longer than about ``inline_time`` leaves the event loop as heavy ones do. Browsers let pages from
    ``cors_origins`` read the answers."""

    body_limit: Annotated[int, Meta(ge=1024, le=16 * 1024 * 1024)] = 256 * 1024
    inline_body_limit: Annotated[int, Meta(ge=0, le=16 * 1024 * 1024)] = 16 * 1024
    inline_time: Seconds = 0.005
    body_timeout: Seconds = 2.0
    file_limit: Annotated[int, Meta(ge=1024, le=64 * 1024 * 1024)] = 16 * 1024 * 1024
    file_timeout: Seconds = 20.0
    write_timeout: Seconds = 10.0
    deadline: Seconds = 45.0
    queue_timeout: Seconds = 10.0
    queue_length: Annotated[int, Meta(ge=0, le=100_000)] = 16
    client_requests: Count = 128
    client_rate: Annotated[float, Meta(ge=0, le=100_000)] = 0.0
    api_keys: str = ""
    metrics_host: str = "127.0.0.1"
    metrics_port: Annotated[int, Meta(ge=0, le=65535)] = 0
    trusted_proxies: tuple[str, ...] = ()
    client_share: Annotated[float, Meta(gt=0, le=1)] = 0.5
    memory_limit: Annotated[int, Meta(ge=64 * 1024 * 1024)] = 1024 * 1024 * 1024
    processes: Count = field(default_factory=available_cores)
    cors_origins: tuple[Origin, ...] = ()
    hsts_seconds: Annotated[int, Meta(ge=0, le=10**9)] = 0
    traces_url: Annotated[str, Meta(pattern=r"^(https?://[^ ]+)?$")] = ""
    request_log: bool = True
    debug: bool = False

    @classmethod
    def from_environment(cls, environment: Mapping[str, str] = os.environ) -> Settings:
        """Read the settings; ``SettingsError`` names the variable that is unknown or cannot be used."""
        known = {f"{PREFIX}{item.name.upper()}": item.name for item in fields(cls)}
        given = {
            key: text for key, text in environment.items() if key.startswith(PREFIX) and key not in NOT_OURS
        }
        if unknown := sorted(given.keys() - known.keys()):
            raise SettingsError(
                f"{', '.join(unknown)}: no such setting; there are {', '.join(sorted(known))}"
            )
        lists = {item.name for item in fields(cls) if isinstance(item.default, tuple)}
        values = {}
        for key, text in given.items():
            value = [*filter(None, text.replace(",", " ").split())] if known[key] in lists else text
            try:
                single = msgspec.convert({known[key]: value}, cls, strict=False)
            except msgspec.ValidationError as error:
                raise SettingsError(f"{key}: {str(error).partition(' - at ')[0]}") from None
            values[known[key]] = getattr(single, known[key])
        return cls(**values)
