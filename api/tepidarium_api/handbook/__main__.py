"""``python -m tepidarium_api.handbook``: writes figures, tables and pictures into the text, then makes the pages of it.

``text`` as an argument leaves out the pages.
"""

from __future__ import annotations

import sys

from .pages import make_pages
from .writing import write_text

if __name__ == "__main__":
    write_text()
    if sys.argv[1:] != ["text"]:
        make_pages()
