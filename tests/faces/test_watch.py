"""Is a method shown while it is written: anew at each save, also when it is no method for a while?"""

from __future__ import annotations

import argparse
import re
import threading
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest

from methodsheets.faces.cli import main
from methodsheets.faces.cli_watch import LivePage, server_of
from methodsheets.faces.host_config import project_of

TRIES = 600


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> LivePage:
    """The page of the first method of a new handbook."""
    monkeypatch.chdir(tmp_path)
    assert main(["start", "club"]) == 0
    file = tmp_path / "club" / "methods" / "first-part.md"
    into = tmp_path / "shown"
    into.mkdir()
    return LivePage(file, project_of(argparse.Namespace(config_file=None), file), into)


@pytest.fixture
def served(page: LivePage) -> Iterator[str]:
    """Its address, served as `watch` does; the system chooses the port."""
    server = server_of(page, 0)
    thread = threading.Thread(target=server.serve, daemon=True)
    thread.start()
    for _ in range(TRIES):
        if server.server_address[1]:
            break
        thread.join(0.05)
    yield f"http://127.0.0.1:{server.server_address[1]}"
    server.shutdown()


def test_a_save_is_shown(page: LivePage, served: str) -> None:
    """As a browser does it: read the page, ask for the next state of it, read it again."""
    with urlopen(f"{served}/", timeout=120) as answer:
        first = answer.read().decode()
    assert "<title>First part</title>" in first
    found = re.search(r"livereload\((\d+), (\d+)\);", first)
    assert found
    rules = re.search(r'Content-Security-Policy" content="([^"]*)"', first)
    assert rules
    assert "connect-src &#x27;self&#x27;" in rules[1]
    assert "sha256" not in rules[1]
    page.file.write_text(page.file.read_text("utf-8").replace("method: First part", "method: Bush"), "utf-8")
    for _ in range(TRIES):
        with urlopen(f"{served}/livereload/{found[1]}/{found[2]}", timeout=120) as answer:
            if int(answer.read()) > int(found[1]):
                break
    with urlopen(f"{served}/", timeout=120) as answer:
        assert "<title>Bush</title>" in answer.read().decode()


def test_what_is_no_method_for_a_while_is_told_on_the_page(page: LivePage, capsys: pytest.CaptureFixture[str]) -> None:
    whole = page.file.read_text("utf-8")
    for broken in ("", whole.replace("method:", "metod:"), whole.replace("---\n", "--\n"), "<b>&"):
        page.file.write_text(broken, "utf-8")
        page.write()
        shown = (page.into / "index.html").read_text("utf-8")
        assert "<h1>first-part.md</h1>" in shown
        assert re.search(r"<li>[^<]*(no method|not a method|front matter|method file)[^<]*</li>", shown), shown
    page.file.unlink()
    page.write()
    page.file.write_text(whole.replace("turn: to journal", "turn: to banana"), "utf-8")
    page.write()
    assert "banana" in (page.into / "index.html").read_text("utf-8")
    assert "banana" in capsys.readouterr().err


def test_a_port_that_is_taken_and_a_file_that_is_not_there_are_told(
    page: LivePage, served: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["watch", str(page.file), "--port", served.rpartition(":")[2]]) == 1
    assert "cannot be used" in capsys.readouterr().err
    assert main(["watch", "none.md"]) == 1
