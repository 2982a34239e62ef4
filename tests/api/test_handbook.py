"""The handbook over HTTP: where it begins, what browsers may load, and what they need not load again."""

from __future__ import annotations

import base64
import hashlib
import io
import re
from collections.abc import Iterator

import pytest
from litestar import Litestar
from litestar.testing import TestClient
from tepidarium_api.app import create_app
from tepidarium_api.handbook.pages import PAGES


@pytest.fixture(scope="module")
def client() -> Iterator[TestClient[Litestar]]:
    with TestClient(create_app(log_stream=io.BytesIO())) as opened:
        yield opened


def test_the_top_leads_to_the_handbook(client: TestClient[Litestar]) -> None:
    answer = client.get("/", headers={"accept": "application/json"})
    assert answer.json()["handbook"] == "/handbook/"
    assert '</handbook/>; rel="help"' in answer.headers["link"]


@pytest.mark.parametrize("query", ["", "?q=spacing"])
def test_the_handbook_begins_below_its_path(client: TestClient[Litestar], query: str) -> None:
    bare = client.get(f"/handbook{query}", follow_redirects=False)
    assert (bare.status_code, bare.headers["location"]) == (
        308,
        "handbook/",
    )  # relative: a proxy's prefix stays
    page = client.get(f"/handbook/{query}")
    assert page.status_code == 200
    assert page.headers["content-type"].startswith("text/html")
    assert page.content == (PAGES / "index.html").read_bytes()


@pytest.mark.parametrize(
    ("name", "media_type"),
    [
        ("calculations/heat-output.html", "text/html"),
        ("search.html", "text/html"),
        ("searchindex.js", "text/javascript"),
        ("_static/handbook.css", "text/css"),
        ("_images/routes.svg", "image/svg+xml"),
    ],
)
def test_every_kind_of_file_has_its_media_type(
    client: TestClient[Litestar], name: str, media_type: str
) -> None:
    answer = client.get(f"/handbook/{name}")
    assert answer.status_code == 200
    assert answer.headers["content-type"].split(";")[0] == media_type
    assert answer.content == (PAGES / name).read_bytes()


def test_what_a_browser_has_is_not_sent_again(client: TestClient[Litestar]) -> None:
    first = client.get("/handbook/search.html")
    for known in (first.headers["etag"], f'"other", W/{first.headers["etag"]}', "*"):
        again = client.get("/handbook/search.html", headers={"if-none-match": known})
        assert (again.status_code, again.content) == (304, b"")
        assert again.headers["etag"] == first.headers["etag"]
    assert client.get("/handbook/search.html", headers={"if-none-match": '"other"'}).status_code == 200
    assert client.get("/handbook/index.html").headers["etag"] != first.headers["etag"]


def test_only_scripts_of_the_handbook_run(client: TestClient[Litestar]) -> None:
    policy = client.get("/handbook/").headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "http" not in policy
    (allowed,) = re.findall(r"script-src ([^;]*)", policy)
    assert "unsafe" not in allowed
    inline = {
        script
        for path in PAGES.rglob("*.html")
        for script in re.findall(r"<script>(.*?)</script>", path.read_text(), re.S)
    }
    for script in inline:
        digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
        assert f"'sha256-{digest}'" in allowed
    for path in PAGES.rglob("*.html"):
        assert not re.search(r"<[^>]+ on[a-z]+=", path.read_text()), path


@pytest.mark.parametrize(
    "name", ["none.html", "calculations", "calculations/", "../app.py", "%2e%2e/app.py", "text.md"]
)
def test_what_is_no_page_is_a_problem(client: TestClient[Litestar], name: str) -> None:
    answer = client.get(f"/handbook/{name}")
    assert answer.status_code == 404
    assert answer.headers["content-type"] == "application/problem+json"
