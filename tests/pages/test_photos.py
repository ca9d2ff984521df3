"""An author's own photos: published beside the page, put into the travelling file; nothing else is taken for one."""

from dataclasses import replace
from pathlib import Path

import pytest
import samples
from PIL import Image
from sample_site import build, make_project

from methodsheets.pages.photos import packed, photo_kind, photos_of
from methodsheets.pages.selfcontained import travelling_page
from methodsheets.pages.site import Site

SLUG = "clamp-block"


@pytest.fixture
def book(tmp_path: Path):
    """The sample handbook, one method of which shows photos."""
    book = samples.handbook()
    folder = tmp_path / "methods"
    (folder / "pictures").mkdir(parents=True)
    for name in ("jig.png", "pictures/jig.jpg", "pictures/jig.webp", "jig.gif"):
        Image.new("RGB", (4, 4), "red").save(folder / name)
    (folder / "evil.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'><script>evil()</script></svg>")
    (folder / "evil.png").write_text("<script>evil()</script>")
    (tmp_path / "secret.png").write_bytes((folder / "jig.png").read_bytes())
    (folder / "link.png").symlink_to(tmp_path / "secret.png")
    names = [
        "jig.png",
        "pictures/jig.jpg",
        "pictures/jig.webp",
        "jig.gif",
        "evil.svg",
        "evil.png",
        "../secret.png",
        "link.png",
        "none.png",
    ]
    text = samples.SOURCE[SLUG] + "\n" + "\n".join(f"![what {one} shows]({one})" for one in names) + "\n"
    (folder / f"{SLUG}.md").write_text(text, "utf-8")
    entry = replace(book.entries[SLUG], file=folder / f"{SLUG}.md", file_text=text)
    return replace(book, entries={**book.entries, SLUG: entry})


GOOD = {"jig.png", "pictures/jig.jpg", "pictures/jig.webp", "jig.gif"}


def test_only_photos_beside_the_method_count(book):
    assert set(photos_of(book.entries[SLUG])) == GOOD
    kinds = {name: photo_kind(path) for name, path in photos_of(book.entries[SLUG]).items()}
    assert kinds == {"jig.png": "png", "pictures/jig.jpg": "jpeg", "pictures/jig.webp": "webp", "jig.gif": "gif"}


def test_a_photo_travels_and_what_is_none_is_named(book):
    entry = book.entries[SLUG]
    content = "".join(f'<img alt="what {one} shows" src="{one}">' for one in (*sorted(GOOD), "evil.svg", "none.png"))
    page = travelling_page(Site(book), SLUG, content, photos_of(entry).get)
    assert page.count('<img src="data:image/') == 4
    assert packed(entry.file.parent / "jig.png") in page
    assert "<em>what evil.svg shows</em>" in page
    assert "<em>what none.png shows</em>" in page


def test_photos_are_published_beside_the_page_and_shown(book, tmp_path, monkeypatch):
    site, warnings = build(make_project(tmp_path), book, monkeypatch)
    for name in GOOD:
        assert (site / "methods" / name).is_file()
        assert f'src="../{name}"' in (site / f"methods/{SLUG}/index.html").read_text("utf-8")
    for name in ("evil.svg", "evil.png", "link.png"):
        assert not (site / "methods" / name).exists()
        assert any(name in line for line in warnings)  # the host tells of the picture that is not there
    assert (site / f"methods/{SLUG}/{SLUG}.html").read_text("utf-8").count('src="data:image/') == 4
