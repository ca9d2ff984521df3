"""Nothing is read, written or taken away outside a folder."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from methodsheets.reading.inside import Inside, RefusedError, fit_name
from methodsheets.reading.problem import Problems
from methodsheets.reading.slug import DEVICES, LONGEST, file_slug
from methodsheets.reading.source import read_source


@pytest.fixture
def room(tmp_path: Path) -> Path:
    (tmp_path / "room").mkdir()
    (tmp_path / "secret.txt").write_text("secret")
    return tmp_path / "room"


NAMES = [
    "../x", "..", ".", "", "/etc/passwd", "a//b", "a/../../x", "a/", "C:/x", "C:x", "\\\\host\\share", "a\\b", "a\0b", "a\nb",
    "con", "CON.md", "nul.txt", "com1", "a/aux/b.md", "x.", "x ", "a:b", "a?b", "a" * 300, 'a"b', "a|b", "<b>", "lpt9.csv",
]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_a_name_that_leads_elsewhere_is_refused(room: Path, name: str) -> None:
    for use in (room_use for room_use in (Inside(room).place, Inside(room).remove)):
        with pytest.raises(RefusedError):
            use(name)
    with pytest.raises(RefusedError):
        Inside(room).write(name, b"x")
    assert list(room.iterdir()) == []


@pytest.mark.parametrize("name", ["a.md", "a/b/c.svg", ".list", "two words.md", "Übung 100 % #3.md", "轴套.md"])
def test_other_names_are_written_whole(room: Path, name: str) -> None:
    path = Inside(room).write(name, b"x")
    assert path.read_bytes() == b"x"
    assert Inside(room).read(path, 10) == b"x"
    assert [one.name for one in path.parent.iterdir()] == [path.name]  # no litter
    with pytest.raises(RefusedError):
        Inside(room).write(name, b"y", new=True)
    assert path.read_bytes() == b"x"
    assert Inside(room).remove(name)
    assert not path.exists()


def test_nothing_goes_through_a_link(room: Path) -> None:
    (room / "file.md").symlink_to(room.parent / "secret.txt")
    (room / "folder").symlink_to(room.parent)
    for name in ("file.md", "folder/secret.txt", "folder"):
        with pytest.raises(RefusedError):
            Inside(room).write(name, b"x")
        with pytest.raises(RefusedError):
            Inside(room).remove(name)
        with pytest.raises(RefusedError):
            Inside(room).read(room / name, 10)
    assert (room.parent / "secret.txt").read_text() == "secret"


def test_a_link_to_a_file_of_the_same_folder_is_read(room: Path) -> None:
    (room / "a.md").write_text("a")
    (room / "b.md").symlink_to("a.md")
    assert Inside(room).read(room / "b.md", 10) == b"a"


def test_the_folder_itself_may_be_a_link(room: Path) -> None:
    (room.parent / "other").symlink_to(room)
    assert Inside(room.parent / "other").write("a.md", b"x").read_bytes() == b"x"


@pytest.mark.parametrize("kind", ["folder", "pipe", "circle", "missing", "device", "locked"])
def test_what_is_no_file_is_a_problem_and_never_waited_for(room: Path, kind: str) -> None:
    path = room / "a.md"
    if kind == "folder":
        path.mkdir()
    elif kind == "pipe":
        os.mkfifo(path)
    elif kind == "circle":
        path.symlink_to("a.md")
    elif kind == "device":
        path.symlink_to("/dev/zero")
    elif kind == "locked":
        if os.geteuid() == 0:
            pytest.skip("root reads everything")
        path.write_text("x")
        path.chmod(0)
    problems = Problems()
    assert read_source(path, room, problems) is None
    assert len(problems) == 1
    with pytest.raises(RefusedError):
        Inside(room).read(path, 10)


@pytest.mark.parametrize("name", [*NAMES, "Guide Bush", "轴套", "/dev/null", "-", "😀", "a" * 79, "𝐚"])
def test_every_name_has_an_address_that_fits_everywhere(name: str) -> None:
    slug = file_slug(name)
    assert fit_name(f"{slug}.md") == [f"{slug}.md"]
    assert slug == slug.lower()
    assert slug.isascii()
    assert 0 < len(slug) <= LONGEST
    assert slug not in DEVICES
    assert file_slug(slug) == slug


def test_names_of_which_nothing_is_left_stay_two() -> None:
    assert file_slug("轴套") != file_slug("轴")
    assert file_slug("a" * 300) != file_slug("a" * 301)


KILLED = """\
import os, sys
from pathlib import Path
from methodsheets.reading import drafts
drafts.os.fsync = lambda number: os.kill(os.getpid(), 9) if sys.argv[2] == "kill" else sys.stdin.read()
drafts.write_whole(Path(sys.argv[1]), b"x" * 1000, lasting=True)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="kills a process as a system of that kind does")
def test_the_draft_of_a_killed_program_is_cleared_by_the_next_write_and_a_living_one_stays(tmp_path: Path) -> None:
    file = tmp_path / "bush.csv"
    file.write_bytes(b"as it was")
    assert subprocess.run([sys.executable, "-c", KILLED, str(file), "kill"], check=False).returncode == -9
    (left,) = tmp_path.glob(".*.part")
    assert file.read_bytes() == b"as it was"
    writing = subprocess.Popen([sys.executable, "-c", KILLED, str(file), "wait"], stdin=subprocess.PIPE)
    while len(drafts := {*tmp_path.glob(".*.part")} - {left}) < 1 or not next(iter(drafts)).stat().st_size:
        assert writing.poll() is None
    Inside(tmp_path).write("ring.csv", b"new")
    assert {*tmp_path.glob(".*.part")} == drafts
    writing.communicate()
    assert writing.returncode == 0
    assert {one.name for one in tmp_path.iterdir()} == {"bush.csv", "ring.csv"}
    assert file.read_bytes() == b"x" * 1000
