"""Does `methodsheets tidy` keep a file's meaning, its ends of lines and its rights, and say what it did?"""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from .command_line import run

TYPED = """---
workshop: my-workshop
stock:  round 20 mm x 30 mm
material: EN1A
method: Pin
---

A pin.

```calc
size=12 mm  #what it fits
length   = 10 mm
```

```setup
note:   Mind the jaws
hold: three-jaw chuck,on 20 mm,grip 12 mm,end A out
machine: lathe
```

```op
note: First
facing:  0.5 mm
```

```op
depth: 1 mm
turning: to size ,over length
inspect:   limits(size, "h9") with micrometer
```
"""
TIDY = """---
method: Pin
material: EN1A
stock: round 20 mm x 30 mm
workshop: my-workshop
---

A pin.

```calc
size   = 12 mm   # what it fits
length = 10 mm
```

```setup
machine: lathe
hold: three-jaw chuck, on 20 mm, grip 12 mm, end A out
note: Mind the jaws
```

```op
face: 0.5 mm
note: First
```

```op
turn: to size, over length
depth: 1 mm
check: limits(size, "h9") with micrometer
```
"""


def _record(capsys: pytest.CaptureFixture[str], file: Path) -> object:
    """What the method comes to, without the lines on which it is said and the digest of its bytes."""
    _, out, _ = run(capsys, "show", str(file), "--json")
    return _placeless(json.loads(out))


def _placeless(data: object) -> object:
    if isinstance(data, dict):
        return {
            key: _placeless(one) for key, one in data.items() if key not in ("line", "column", "digest", "problems")
        }
    return [_placeless(one) for one in data] if isinstance(data, list) else data


def test_a_file_is_tidied_upgraded_and_comes_to_the_same(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = handbook / "methods" / "pin.md"
    file.write_bytes(b"\xef\xbb\xbf" + TYPED.replace("\n", "\r\n").encode())
    file.chmod(0o640)
    before = _record(capsys, file)
    status, out, err = run(capsys, "check", "methods/pin.md")
    assert (status, "old word (got `inspect`)" in out, "tidy --upgrade" in out) == (1, True, True)
    assert run(capsys, "tidy", "--check", "methods/pin.md")[0] == 1
    assert file.read_bytes().endswith(b"micrometer\r\n```\r\n")
    status, out, err = run(capsys, "tidy", "--upgrade")
    assert (status, out.split(), "1 file written anew" in err) == (0, ["methods/pin.md"], True)
    assert file.read_bytes() == b"\xef\xbb\xbf" + TIDY.replace("\n", "\r\n").encode()
    if os.name == "posix":
        assert file.stat().st_mode & 0o777 == 0o640
    assert _record(capsys, file) == before
    assert run(capsys, "tidy", "--check", "--upgrade", "methods")[:2] == (0, "")


def test_what_cannot_be_tidied_is_told_and_left(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = handbook / "methods" / "notes.md"
    other.write_text("---\ntitle:   Notes\n---\n", "utf-8")
    bad = handbook / "methods" / "bad.md"
    bad.write_bytes(b"---\nmethod:  Bad\n---\n\xff")
    status, out, err = run(capsys, "tidy", "methods/notes.md", "methods/bad.md")
    assert (status, out) == (1, "")
    assert "not UTF-8" in err
    assert other.read_text("utf-8") == "---\ntitle:   Notes\n---\n"
    assert run(capsys, "tidy", "methods/none.md")[0] == 1
    link = handbook / "methods" / "link.md"
    link.symlink_to(bad)
    link.unlink()
    link.symlink_to("hurry.md")
    hurry = handbook / "methods" / "hurry.md"
    hurry.write_text("---\nmethod:   Ring\n---\n", "utf-8")
    status, out, err = run(capsys, "tidy", "methods/link.md", "methods/hurry.md")
    assert (status, out.split(), "through a link" in err) == (1, ["methods/hurry.md"], True)
    assert link.is_symlink()
    assert hurry.read_text("utf-8") == "---\nmethod: Ring\n---\n"
