"""How Sphinx makes the pages: Markdown in, HTML out, formulas as MathML, nothing from other hosts."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from docutils import nodes
from docutils.utils.math.latex2mathml import tex2mathml
from tepidarium_api.calculations import CALCULATIONS, FILE_READINGS

project = "Tepidarium"
html_title = "Tepidarium handbook"
author = ""
copyright = ""
extensions = ["myst_parser"]
root_doc = "index"
myst_enable_extensions = ["dollarmath"]
myst_heading_anchors = 4
suppress_warnings: list[str] = []
nitpicky = True
highlight_language = "none"
html_theme = "furo"
html_static_path = ["static"]
html_css_files = ["handbook.css"]
html_copy_source = False
html_show_sourcelink = False
html_show_copyright = False
html_use_index = False
html_math_renderer = "mathml"
html_theme_options: dict[str, Any] = {"footer_icons": []}

CONTENTS = {
    "": ["the-job", "terms", "reading-an-answer"],
    "For people on site": [
        "choosing-spacing-and-temperature",
        "how-a-route-comes-about",
        "how-a-storey-comes-about",
    ],
    "Tutorials": ["tutorials/vendor", "tutorials/merchant", "tutorials/script", "tutorials/operator"],
    "Calculations": [],
    "How sure it is": [],
    "Reference": [],
}
_FOLDERS = {"Calculations": "calculations", "How sure it is": "validation", "Reference": "reference"}


NAMES = [*(each.name for each in CALCULATIONS), *(each.name for each in FILE_READINGS)]


def order(page: str) -> tuple[int, str]:
    """Calculations as the service lists them, other pages by name."""
    name = page.rpartition("/")[2]
    return NAMES.index(name) if name in NAMES else len(NAMES), page


def contents(app: Any, name: str, source: list[str]) -> None:
    """The table of contents, which stands here so that the text stays plain Markdown."""
    if name == "index":
        for caption, named in CONTENTS.items():
            inside = _FOLDERS.get(caption)
            source[0] += _listed([*named, *(_pages(app, inside) if inside else [])], caption)
    elif name == "validation/published-cases":
        source[0] += _listed([f"/{page}" for page in _pages(app, "validation/cases")], "")


def _pages(app: Any, folder: str) -> list[str]:
    """The pages that lie in a folder itself."""
    return sorted((page for page in app.env.found_docs if page.rpartition("/")[0] == folder), key=order)


def _listed(pages: list[str], caption: str) -> str:
    title = f":caption: {caption}\n" if caption else ""
    return f"\n```{{toctree}}\n:hidden:\n{title}\n" + "\n".join(pages) + "\n```\n"


def formula(translator: Any, node: nodes.Element) -> None:
    translator.body.append(tex2mathml(node.astext()))
    raise nodes.SkipNode


def formula_block(translator: Any, node: nodes.Element) -> None:
    """Formulas that stand side by side go below each other where the page is narrow."""
    made = "".join(tex2mathml(part, as_block=True) for part in node.astext().split("\\qquad"))
    translator.body.append(f'<div class="formula" tabindex="0">{made}</div>\n')
    raise nodes.SkipNode


MENDED = (
    (r'(<p class="caption" role="heading")>', r'\1 aria-level="2">'),
    (r'(<aside class="sidebar-drawer")>', r'\1 aria-label="Contents of the handbook">'),
    (r'(<aside class="toc-drawer)( no-toc)?(")>', r'\1\2\3 aria-label="Contents of this page">'),
    (r"<pre>", '<pre tabindex="0">'),
    (r'<div class="table-wrapper', '<div tabindex="0" class="table-wrapper'),
    (r'(<img [^>]*src="([^"]+\.svg)"[^>]*/?>)', r'<a class="picture" href="\2">\1</a>'),
    (r'(<div id="search-results">)', r"<h1>Search</h1>\1"),
)
"""What the theme leaves out: pattern -> what stands there instead. Whatever scrolls is reached with the keys, and a
picture opens in its own size."""


def mended(app: Any, fault: Exception | None) -> None:
    if fault is None:
        for page in Path(app.outdir).rglob("*.html"):
            html = page.read_text(encoding="utf-8")
            for pattern, instead in MENDED:
                html = re.sub(pattern, instead, html)
            page.write_text(html, encoding="utf-8")


def setup(app: Any) -> dict[str, bool]:
    app.add_html_math_renderer("mathml", (formula, None), (formula_block, None))
    app.connect("source-read", contents)
    app.connect("build-finished", mended)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
