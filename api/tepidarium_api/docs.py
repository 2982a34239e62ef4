"""The document and a page that shows it, without any request to another host."""

from __future__ import annotations

from importlib.resources import files
from typing import Any

from litestar import Request, Response, get
from litestar.handlers import HTTPRouteHandler

from .document import encoded_document

__all__ = ["docs_routes"]

_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_ASSETS = {
    "/docs": ("page.html", "text/html"),
    "/docs/page.js": ("page.js", "text/javascript"),
    "/docs/swagger-ui.css": ("vendor/swagger-ui.css", "text/css"),
    "/docs/swagger-ui-bundle.js": ("vendor/swagger-ui-bundle.js", "text/javascript"),
}


def docs_routes() -> list[HTTPRouteHandler]:
    return [_document_route(), *(_asset_route(path, *asset) for path, asset in _ASSETS.items())]


def _document_route() -> HTTPRouteHandler:
    cached: list[bytes] = []

    @get("/openapi.json", include_in_schema=False)
    async def openapi_json(request: Request[Any, Any, Any]) -> Response[bytes]:
        if not cached:
            cached.append(encoded_document(request.app))
        return Response(cached[0], media_type="application/json", headers={"Cache-Control": "max-age=300"})

    return openapi_json


def _asset_route(path: str, name: str, media_type: str) -> HTTPRouteHandler:
    content = files(__package__).joinpath("assets", *name.split("/")).read_bytes()

    @get(path, include_in_schema=False)
    async def asset() -> Response[bytes]:
        headers = {"Content-Security-Policy": _POLICY, "Cache-Control": "max-age=3600"}
        return Response(content, media_type=f"{media_type}; charset=utf-8", headers=headers)

    return asset
