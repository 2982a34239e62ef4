"""The document and a page that shows it, without any request to another host. The top leads to both."""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Callable
from importlib.resources import files
from typing import Annotated, Any

import msgspec
from litestar import Litestar, Request, Response, get
from litestar.handlers import HTTPRouteHandler
from msgspec import Meta
from tepidarium_engine import __version__ as engine_version

from .document import ANSWER_KEY, encoded_document
from .handbook_pages import HANDBOOK
from .negotiation import JSON, choose

__all__ = ["docs_routes"]

_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_HTML = "text/html"
_ASSETS = {
    "/docs": ("page.html", _HTML),
    "/docs/page.js": ("page.js", "text/javascript"),
    "/docs/swagger-ui.css": ("vendor/swagger-ui.css", "text/css"),
    "/docs/swagger-ui-bundle.js": ("vendor/swagger-ui-bundle.js", "text/javascript"),
}


class Documents(msgspec.Struct, frozen=True, kw_only=True):
    """Where to read on."""

    engine_version: Annotated[str, Meta(description="Version of the engine")]
    docs: Annotated[str, Meta(description="Path of the documents for people")]
    handbook: Annotated[str, Meta(description="Path of the handbook: methods and examples")]
    openapi: Annotated[str, Meta(description="Path of the OpenAPI document")]
    calculations: Annotated[str, Meta(description="Path of the list of calculations")]
    limits: Annotated[str, Meta(description="Path of the list of limits")]
    ready: Annotated[str, Meta(description="Path of the probe that says whether the service can compute")]


_DOCUMENTS = Documents(
    engine_version=engine_version,
    docs="/docs",
    handbook=HANDBOOK,
    openapi="/openapi.json",
    calculations="/v1/calculations",
    limits="/v1/limits",
    ready="/health/ready",
)
_LINKS = (
    f'<{_DOCUMENTS.openapi}>; rel="service-desc", <{_DOCUMENTS.docs}>; rel="service-doc", '
    f'<{_DOCUMENTS.handbook}>; rel="help"'
)
"""Relations of RFC 8631, and help of RFC 8288's registry."""


def docs_routes() -> list[HTTPRouteHandler]:
    return [_top_route(), _document_route(), *(_asset_route(path, *asset) for path, asset in _ASSETS.items())]


def _top_route() -> HTTPRouteHandler:
    page = _asset(*_ASSETS["/docs"])

    @get(
        "/",
        operation_id="list_documents",
        summary="Where the documents are",
        description="The paths to begin with. A browser gets the page for people instead.",
        tags=["catalogue"],
        opt={ANSWER_KEY: Documents},
    )
    async def top(request: Request[Any, Any, Any]) -> Response[Any]:
        browser = choose(request.headers.get("accept", ""), (JSON, _HTML)) == _HTML
        response: Response[Any] = page() if browser else Response(_DOCUMENTS, media_type=JSON)
        response.headers |= {"Link": _LINKS, "Vary": "accept"}
        return response

    return top


def _document_route() -> HTTPRouteHandler:
    cached: list[bytes] = []
    lock = asyncio.Lock()

    @get("/openapi.json", include_in_schema=False)
    async def openapi_json(request: Request[Any, Any, Any]) -> Response[bytes]:
        async with lock:  # made once, beside the event loop: it takes longer than any light calculation
            if not cached:
                cached.append(await asyncio.to_thread(_made_beside, request.app))
        return Response(cached[0], media_type=JSON, headers={"Cache-Control": "max-age=300"})

    return openapi_json


def _made_beside(app: Litestar) -> bytes:
    """The document, while the event loop gets its turn ten times as often as it would: each time it has waited, it
    would wait again for as long as a thread may compute."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(usual / 10.0)
    try:
        return encoded_document(app)
    finally:
        sys.setswitchinterval(usual)


def _asset_route(path: str, name: str, media_type: str) -> HTTPRouteHandler:
    response = _asset(name, media_type)

    @get(path, include_in_schema=False)
    async def asset() -> Response[bytes]:
        return response()

    return asset


def _asset(name: str, media_type: str) -> Callable[[], Response[bytes]]:
    """Makes responses with a file of the page."""
    content = files(__package__).joinpath("assets", *name.split("/")).read_bytes()
    headers = {"Content-Security-Policy": _POLICY, "Cache-Control": "max-age=3600"}
    return lambda: Response(content, media_type=media_type, headers=headers)
