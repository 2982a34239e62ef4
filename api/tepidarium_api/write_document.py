"""``python -m tepidarium_api.write_document [file]`` writes the OpenAPI document, to ``api/openapi.json`` by itself."""

from __future__ import annotations

import sys
from pathlib import Path

from .app import create_app
from .document import encoded_document

__all__ = ["main"]


def main() -> None:
    target = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parents[1] / "openapi.json"
    target.write_bytes(encoded_document(create_app()))


if __name__ == "__main__":
    main()
