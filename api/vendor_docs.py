"""Fetch the files of the documentation page at a pinned version (npm package swagger-ui-dist, Apache-2.0).

Run ``python api/vendor_docs.py`` after a change of ``VERSION``; it needs npm and the network. The files are
committed, so that neither the service nor its installation asks anybody for them.
"""

from __future__ import annotations

import re
import subprocess
import tarfile
import tempfile
from pathlib import Path

VERSION = "5.35.0"
WANTED = ("swagger-ui.css", "swagger-ui-bundle.js", "LICENSE", "NOTICE")
TARGET = Path(__file__).parent / "tepidarium_api" / "assets" / "vendor"


def main() -> None:
    TARGET.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["npm", "pack", "--silent", f"swagger-ui-dist@{VERSION}"], cwd=folder, check=True)
        with tarfile.open(next(Path(folder).glob("*.tgz"))) as package:
            for name in WANTED:
                member = package.extractfile(f"package/{name}")
                if member is None:
                    raise FileNotFoundError(name)
                (TARGET / name).write_bytes(_without_source_map(member.read()))
    (TARGET / "VERSION").write_text(f"swagger-ui-dist {VERSION}\n")


def _without_source_map(content: bytes) -> bytes:
    """Browsers would ask for the map files, which are not shipped."""
    return re.sub(rb"\n?(//|/\*)# sourceMappingURL=[^\n*]*(\*/)?", b"", content)


if __name__ == "__main__":
    main()
