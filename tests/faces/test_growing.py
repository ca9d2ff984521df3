"""A site is put in place when it is whole; what a killed build leaves is cleared away by the next."""

from __future__ import annotations

import os
import random
import shutil
import signal
import sys
import tempfile
import traceback
from pathlib import Path
from typing import Any

import pytest
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from sample_site import build, make_project

from methodsheets.faces.growing import PREFIX, Growing


def config_for(folder: Path) -> MkDocsConfig:
    config = MkDocsConfig()
    config.site_dir = str(folder)
    return config


def everything(folder: Path) -> dict[str, bytes]:
    return {one.relative_to(folder).as_posix(): one.read_bytes() for one in folder.rglob("*") if one.is_file()}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for name in ("index.html", "gone/index.html", "same.css", ".git/HEAD", "was-a-folder/index.html", "was-a-file"):
        (tmp_path / "site" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "site" / name).write_text("old")
    return tmp_path / "site"


def grow(site: Path) -> Growing:
    made = Growing(config_for(site))
    for name in ("index.html", "new/page.html", "was-a-folder", "was-a-file/index.html"):
        (made.pages / name).parent.mkdir(exist_ok=True)
        (made.pages / name).write_text("new")
    (made.pages / "same.css").write_text("old")
    return made


def test_the_old_site_stands_until_the_new_one_is_whole(site: Path) -> None:
    before = everything(site)
    made = grow(site)
    assert {name: text for name, text in everything(site).items() if not name.startswith(PREFIX)} == before
    made.publish()
    made.drop()
    assert everything(site) == {
        "index.html": b"new", "new/page.html": b"new", "was-a-folder": b"new", "was-a-file/index.html": b"new",
        "same.css": b"old", ".git/HEAD": b"old",
    }  # fmt: skip
    assert not (site / "gone").exists()


def test_a_build_that_fails_leaves_the_old_site(site: Path) -> None:
    before = everything(site)
    grow(site).drop()
    assert everything(site) == before


def test_what_a_dead_build_left_is_cleared_and_a_live_one_is_not(site: Path) -> None:
    (site / f"{PREFIX}dead" / "site").mkdir(parents=True)
    (site / f"{PREFIX}dead" / "alive.lock").write_text("")
    live = grow(site)
    other = grow(site)
    assert len(list(site.glob(f"{PREFIX}*"))) == 2
    live.drop()
    other.drop()
    assert list(site.glob(f"{PREFIX}*")) == []


def test_nothing_is_written_through_a_link(site: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (site / "new").symlink_to(tmp_path / "elsewhere")
    made = grow(site)
    made.publish()
    made.drop()
    assert list((tmp_path / "elsewhere").iterdir()) == []
    assert (site / "new" / "page.html").read_text() == "new"


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(PluginError, match="cannot be written"):
        Growing(config_for(tmp_path / "file" / "site"))


def test_a_full_disk_is_told_and_the_old_site_stands(site: Path, full_disk: Any) -> None:
    before = everything(site)
    made = grow(site)
    with full_disk(1000), pytest.raises(PluginError, match="the site cannot be written"):
        made.put(made.pages, "large.html", "x" * 2000)
    assert not [name for name in everything(made.pages) if "large" in name or name.endswith(".part")]
    made.drop()
    assert everything(site) == before


METHOD = """---
method: Spacer
material: EN1A
stock: round 20 mm x 30 mm
workshop: osierbank-small
---

```setup
machine: lathe
hold: three-jaw chuck, on 20 mm, grip 8 mm, end A out
```

```op
face: {} mm
```
"""
CHANGES = {"os.rename", "os.remove", "os.mkdir", "os.rmdir", "sqlite3.connect"}
MOMENTS = int(os.environ.get("KILL_MOMENTS", "3"))


def build_until(config: Path, last: int) -> int:
    """Build in a process of its own that dies when it touches the disk for that time; gives how often it did."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        touched = 0

        def count(event: str, given: tuple[Any, ...]) -> None:
            nonlocal touched
            writes = event in CHANGES or (event == "open" and given[2] & (os.O_WRONLY | os.O_RDWR))
            touched += bool(writes)
            if writes and touched == last:
                os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(count)
        try:
            build(config)
            os.write(writing, str(touched).encode())
        except BaseException:
            traceback.print_exc()
        finally:
            os._exit(0)
    os.close(writing)
    os.waitpid(child, 0)
    with os.fdopen(reading) as said:
        return int(said.read() or 0)


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
def test_killed_at_any_moment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "tmp").mkdir()
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1795000000")
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "tmp"))
    config = make_project(
        tmp_path, plugins=["search", {"methodsheets": {"reference": False}}], theme={"name": "mkdocs"}
    )
    shutil.copy("methods/workshops/osierbank-small.yml", tmp_path / "methods" / "workshops")
    file, site = tmp_path / "methods" / "spacer.md", tmp_path / "site"
    wanted = []
    for depth in ("0.5", "0.4"):
        file.write_text(METHOD.format(depth))
        build_until(config, 0)
        wanted.append(everything(site))
    old, new = wanted
    assert new != old
    often = build_until(config, 0)
    assert everything(site) == new
    rng = random.Random(7)
    for moment in sorted(rng.sample(range(1, often), MOMENTS)):
        new, old = old, new
        file.write_text(METHOD.format("0.5" if new is wanted[0] else "0.4"))
        build_until(config, moment)
        found = {name: data for name, data in everything(site).items() if not name.startswith(PREFIX)}
        for name, data in found.items():
            assert data in (old.get(name), new.get(name)), (moment, name)
        assert set(old) <= set(found) or set(new) <= set(found), moment
        assert list((tmp_path / "tmp").iterdir()) == []
        build_until(config, 0)
        assert everything(site) == new, moment
