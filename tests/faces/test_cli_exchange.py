"""Do methods go out, come in and become pages without harm to what is there?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.faces.cli import main

from .command_line import run

ROOT = Path(__file__).resolve().parents[2]


def test_a_method_goes_out_as_one_file_and_comes_in_again(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = handbook / "methods" / "first-part.md"
    source.write_bytes(source.read_bytes().replace(b"\n", b"\r\n"))  # byte for byte, Windows line ends too
    status, out, _ = run(capsys, "export", "methods/first-part.md", "--output", "../part.html")
    assert (status, out) == (0, "../part.html\n")
    page = (tmp_path / "part.html").read_text("utf-8")
    assert "<svg" in page
    assert "Turn the journal" in page
    monkeypatch.chdir(tmp_path)
    main(["start", "other"])
    monkeypatch.chdir(tmp_path / "other")
    (tmp_path / "other" / "methods" / "first-part.md").unlink()
    capsys.readouterr()
    status, out, err = run(capsys, "add", "../part.html")
    assert (status, out, err) == (0, "methods/first-part.md\n", "")
    assert (tmp_path / "other" / "methods" / "first-part.md").read_bytes() == source.read_bytes()
    status, _, err = run(capsys, "add", "../part.html")
    assert status == 1
    assert "is there already and is not overwritten" in err


def test_add_for_another_workshop(handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    text = (handbook / "methods" / "first-part.md").read_text("utf-8")
    friend = tmp_path / "Friend's part.md"
    friend.write_text(text.replace("workshop: my-workshop", "workshop: theirs   # mine"), "utf-8")
    status, out, err = run(capsys, "add", str(friend))
    assert (status, out) == (1, "")
    assert "there is no workshop `theirs`" in err
    assert "--workshop my-workshop" in err
    assert "--with-workshop theirs.yml" in err
    status, out, err = run(capsys, "add", str(friend), "--workshop", "my-workshop")
    assert "In `my-workshop`: " in err
    assert (status, out) == (0, "methods/friends-part.md\n")
    taken = (handbook / "methods" / "friends-part.md").read_text("utf-8")
    assert taken == friend.read_text("utf-8").replace("workshop: theirs ", "workshop: my-workshop ")


@pytest.fixture
def friends_page(handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Path:
    """A page that travelled from a handbook whose workshop is called `theirs`; nothing of it is here any more."""
    method, shop = handbook / "methods" / "first-part.md", handbook / "methods" / "workshops" / "my-workshop.yml"
    text, theirs = method.read_text("utf-8"), shop.with_name("theirs.yml")
    theirs.write_bytes(shop.read_bytes())
    method.write_text(text.replace("workshop: my-workshop", "workshop: theirs"), "utf-8")
    assert run(capsys, "export", "methods/first-part.md", "--output", "../part.html")[0] == 0
    theirs.rename(tmp_path / "theirs.yml")
    method.unlink()
    return tmp_path / "part.html"


def test_add_takes_the_workshop_along_that_travels_in_the_page(
    handbook: Path, capsys: pytest.CaptureFixture[str], friends_page: Path, tmp_path: Path
) -> None:
    shops, page = handbook / "methods" / "workshops", str(friends_page)
    status, _, err = run(capsys, "add", page)
    assert status == 1
    assert "which travels in this page: --with-workshop." in err
    assert [one.name for one in shops.iterdir()] == ["my-workshop.yml"]
    status, out, err = run(capsys, "add", page, "--with-workshop")
    assert (status, out) == (0, "methods/first-part.md\nmethods/workshops/theirs.yml\n")
    assert "In `theirs`: " in err
    assert "In `my-workshop`: " in err
    assert (shops / "theirs.yml").read_bytes() == (tmp_path / "theirs.yml").read_bytes()


def test_add_overwrites_no_workshop_and_says_what_differs(
    handbook: Path, capsys: pytest.CaptureFixture[str], friends_page: Path, tmp_path: Path
) -> None:
    mine = handbook / "methods" / "workshops" / "theirs.yml"
    raw = (tmp_path / "theirs.yml").read_bytes().replace(b"units: metric", b"units: inch") + b"# of my own\n"
    mine.write_bytes(raw)
    status, out, err = run(capsys, "add", str(friends_page), "--with-workshop")
    assert (status, out) == (0, "methods/first-part.md\n")
    assert "methods/workshops/theirs.yml is here already and says something else; it is not overwritten" in err
    assert "  here: # of my own" in err
    assert mine.read_bytes() == raw


def test_add_with_a_workshop_s_file_beside_a_plain_method(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    mine, shops = handbook / "methods" / "first-part.md", handbook / "methods" / "workshops"
    friend, shop = tmp_path / "part-of-a-friend.md", tmp_path / "theirs.yml"
    shop.write_bytes((shops / "my-workshop.yml").read_bytes())
    good = mine.read_text("utf-8").replace("workshop: my-workshop", "workshop: theirs")
    friend.write_text(good.replace("face: 0.5 mm", "fase: 0.5 mm"), "utf-8")
    assert run(capsys, "add", str(friend), "--with-workshop", str(shop))[0] == 1
    assert not (shops / "theirs.yml").exists()  # a method that is not taken in leaves nothing
    friend.write_text(good, "utf-8")
    status, _, err = run(capsys, "add", str(friend), "--with-workshop")
    assert status == 1
    assert "no workshop travels in" in err
    status, _, err = run(capsys, "add", str(friend), "--with-workshop", str(friend))
    assert status == 1
    assert "is no file of a workshop" in err
    assert run(capsys, "add", str(friend), "--with-workshop", str(shop))[0] == 0
    assert (shops / "theirs.yml").read_bytes() == shop.read_bytes()


def test_add_checks_first_and_takes_it_anyway_only_when_told(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    bad = tmp_path / "bad.md"
    bad.write_text(
        (handbook / "methods" / "first-part.md").read_text("utf-8").replace("face: 0.5 mm", "fase: 0.5 mm"), "utf-8"
    )
    status, _, err = run(capsys, "add", str(bad))
    assert status == 1
    assert err.startswith("bad.md:")
    assert "Not taken in." in err
    assert not (handbook / "methods" / "bad.md").exists()
    assert run(capsys, "add", str(bad), "--anyway")[0] == 0
    assert (handbook / "methods" / "bad.md").read_bytes() == bad.read_bytes()


@pytest.mark.parametrize(
    ("name", "raw", "words"),
    [
        ("page.html", b"<html>nothing in it</html>", "holds no method file"),
        ("notes.md", b"# Notes\n", "is not a method file"),
        ("big.md", b"---\nmethod: x\n---\n" + b"x" * 1_100_000, "is too large"),
        ("gone.md", None, "there is no file"),
    ],
)
def test_add_refuses(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path, name: str, raw: bytes | None, words: str
) -> None:
    if raw is not None:
        (tmp_path / name).write_bytes(raw)
    status, _, err = run(capsys, "add", str(tmp_path / name))
    assert status == 1
    assert words in err
    assert [file.name for file in (handbook / "methods").glob("*.md")] == ["first-part.md"]


def test_a_page_cannot_choose_where_its_method_goes(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    main(["export", "methods/first-part.md", "-o", str(tmp_path / "p.html")])
    page = (tmp_path / "p.html").read_text("utf-8")
    (tmp_path / "p.html").write_text(page.replace('data-name="first-part.md"', 'data-name="../../../up.md"'), "utf-8")
    capsys.readouterr()
    status, out, _ = run(capsys, "add", str(tmp_path / "p.html"))
    assert (status, out) == (0, "methods/up.md\n")
    assert not (tmp_path / "up.md").exists()


def test_prepare_writes_pages_once_and_spares_pages_of_ones_own(
    handbook: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own = handbook / "docs" / "methods" / "glossary.md"
    own.parent.mkdir()
    own.write_text("# My own words\n", "utf-8")
    status, _, err = run(capsys, "prepare")
    assert status == 1
    assert "methods/glossary.md is a page of your own and is left as it is" in err
    assert own.read_text("utf-8") == "# My own words\n"
    own.unlink()
    assert run(capsys, "prepare")[0] == 0
    page = handbook / "docs" / "methods" / "first-part.md"
    assert "First part" in page.read_text("utf-8")
    stamp = page.stat().st_mtime_ns
    status, out, _ = run(capsys, "prepare")
    assert out.startswith("0 files written")
    assert page.stat().st_mtime_ns == stamp
    (handbook / "methods" / "first-part.md").rename(handbook / "methods" / "second-part.md")
    run(capsys, "prepare")
    assert not page.exists()
    assert (handbook / "docs" / "methods" / "second-part.md").is_file()


# schema, the command line as such
