"""The pages of the handbook: made of the present text, links that lead somewhere, nothing from other hosts."""

from __future__ import annotations

import re
from functools import cache
from html.parser import HTMLParser
from importlib import metadata
from pathlib import Path
from urllib.parse import unquote, urldefrag

import pytest
from tepidarium_api.handbook.pages import PAGES, make_pages, stamp

TOP = Path(__file__).parents[2]
HTML = sorted(PAGES.rglob("*.html"))
MOST_BYTES = 6_000_000
"""Of all pages, unpacked; in the wheel they take a quarter of it, less than 3 MB."""
MAKERS = ("sphinx", "myst-parser", "furo", "docutils", "markdown-it-py", "mdit-py-plugins", "pygments")


class _Read(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.ids: set[str] = set()
        self.links: list[str] = []
        self.loaded: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        self.ids.add(values.get("id", ""))
        if tag == "a":
            self.links.append(values.get("href", ""))
        for name in ("src", "srcset", "data", "poster"):
            self.loaded += [values[name]] if name in values else []
        if tag == "link" and values.get("rel") in {"stylesheet", "icon", "preload"}:
            self.loaded.append(values["href"])


@cache
def _read(path: Path) -> _Read:
    reader = _Read()
    reader.feed(path.read_text(encoding="utf-8"))
    return reader


def test_pages_are_made_of_the_present_text() -> None:
    made_of = (PAGES / "text.sha256").read_text(encoding="utf-8").strip()
    assert made_of == stamp(), "run python -m tepidarium_api.handbook"


@pytest.mark.long
@pytest.mark.filterwarnings("ignore:.*is deprecated. Check CHANGES for Sphinx API modifications")
def test_pages_come_out_again_to_the_byte(tmp_path: Path) -> None:
    locked = (TOP / "deploy" / "requirements" / "dev.txt").read_text(encoding="utf-8")
    if any(f"\n{maker}=={metadata.version(maker)} " not in locked for maker in MAKERS):
        pytest.skip("other versions of what makes pages than the locked ones")
    make_pages(tmp_path / "pages")
    made, kept = (
        {path.relative_to(folder): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
        for folder in (tmp_path / "pages", PAGES)
    )
    assert set(made) == set(kept)
    assert [name for name in made if made[name] != kept[name]] == []


@pytest.mark.parametrize("path", HTML, ids=lambda path: path.relative_to(PAGES).as_posix())
def test_every_link_leads_somewhere(path: Path) -> None:
    page = _read(path)
    for link in [*page.links, *page.loaded]:
        if re.match(r"https?:|mailto:|data:", link) or not link:
            continue
        target, anchor = urldefrag(unquote(link))
        leads_to = (path.parent / target.split("?")[0]).resolve() if target else path
        assert leads_to.is_file(), link
        if anchor and leads_to.suffix == ".html":
            assert anchor in _read(leads_to).ids, link


@pytest.mark.parametrize("path", HTML, ids=lambda path: path.relative_to(PAGES).as_posix())
def test_pages_load_nothing_from_other_hosts(path: Path) -> None:
    assert [link for link in _read(path).loaded if "//" in link] == []


@pytest.mark.parametrize("suffix", ["css", "js"])
def test_styles_and_scripts_load_nothing_from_other_hosts(suffix: str) -> None:
    for path in PAGES.rglob(f"*.{suffix}"):
        loads = re.findall(
            r"url\(\s*['\"]?([^)'\"]+)|@import\s+['\"]([^'\"]+)", path.read_text(encoding="utf-8")
        )
        assert [link for pair in loads for link in pair if link.startswith(("http", "//"))] == []


def test_pages_are_small() -> None:
    assert sum(path.stat().st_size for path in PAGES.rglob("*") if path.is_file()) < MOST_BYTES
