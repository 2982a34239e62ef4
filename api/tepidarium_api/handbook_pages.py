"""The pages of the handbook, served as they were made, without any request to another host."""

from __future__ import annotations

import base64
import hashlib
import re
from importlib.resources import files
from importlib.resources.abc import Traversable
from mimetypes import guess_type
from typing import Any

from litestar import Request, Response, get
from litestar.handlers import HTTPRouteHandler
from litestar.params import FromPath

from .problems import Refusal, problem

__all__ = ["HANDBOOK", "handbook_routes"]

HANDBOOK = "/handbook/"
_CACHE = "max-age=300"
_INLINE_SCRIPT = re.compile(r"<script>(.*?)</script>", re.DOTALL)


class _Page:
    """One file of the handbook with its headers."""

    def __init__(self, content: bytes, name: str, policy: str) -> None:
        self.content = content
        self.media_type = guess_type(name)[0] or "application/octet-stream"
        self.headers = {
            "ETag": f'"{hashlib.sha256(content).hexdigest()[:32]}"',
            "Cache-Control": _CACHE,
            "Content-Security-Policy": policy,
        }

    def response(self, known: str) -> Response[bytes]:
        """The file, or 304 for a reader that has it: ``known`` is the header If-None-Match."""
        tags = {tag.strip().removeprefix("W/") for tag in known.split(",")}
        if self.headers["ETag"] in tags or "*" in tags:
            return Response(b"", status_code=304, headers=self.headers, media_type=self.media_type)
        return Response(self.content, headers=self.headers, media_type=self.media_type)


def handbook_routes() -> list[HTTPRouteHandler]:
    contents = dict(_contents(files(__package__).joinpath("handbook", "pages")))
    policy = _policy(contents)
    pages = {name: _Page(content, name, policy) for name, content in contents.items()}

    @get("/handbook", include_in_schema=False)
    async def top(request: Request[Any, Any, Any]) -> Response[bytes]:
        if (
            request.scope["raw_path"].split(b"?")[0].endswith(b"/")
        ):  # the path itself has lost its last stroke here
            return pages["index.html"].response(request.headers.get("if-none-match", ""))
        return Response(
            b"", status_code=308, headers={"Location": "handbook/"}
        )  # so that a proxy's prefix stays

    @get("/handbook/{name:path}", include_in_schema=False)
    async def page(request: Request[Any, Any, Any], name: FromPath[str]) -> Response[bytes]:
        found = pages.get(str(name).lstrip("/"))
        if found is None:
            raise Refusal(problem("not-found", f"the handbook has no such page; it begins at {HANDBOOK}"))
        return found.response(request.headers.get("if-none-match", ""))

    return [top, page]


def _contents(folder: Traversable, above: str = "") -> list[tuple[str, bytes]]:
    """Every file by its path below the handbook."""
    found: list[tuple[str, bytes]] = []
    for each in folder.iterdir():
        if each.is_dir():
            found += _contents(each, f"{above}{each.name}/")
        else:
            found.append((above + each.name, each.read_bytes()))
    return found


def _policy(contents: dict[str, bytes]) -> str:
    """What pages may load: their own files, and the few scripts that stand in them, by digest."""
    scripts = {
        script
        for name, content in contents.items()
        if name.endswith(".html")
        for script in _INLINE_SCRIPT.findall(content.decode())
    }
    digests = sorted(
        base64.b64encode(hashlib.sha256(script.encode()).digest()).decode() for script in scripts
    )
    allowed = " ".join(["'self'", *(f"'sha256-{digest}'" for digest in digests)])
    return (
        f"default-src 'none'; script-src {allowed}; style-src 'self' 'unsafe-inline'; img-src 'self' data:; "
        "connect-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    )
