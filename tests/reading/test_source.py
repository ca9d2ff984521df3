from pathlib import Path

import pytest

from methodsheets.reading.problem import Problems
from methodsheets.reading.source import LARGEST, read_source


def read(path: Path, root: Path):
    problems = Problems()
    return read_source(path, root, problems), [str(problem) for problem in problems]


def test_line_ends_and_byte_order_mark_are_evened_out(tmp_path: Path) -> None:
    file = tmp_path / "bush.md"
    file.write_bytes(b"\xef\xbb\xbfone\r\ntwo\rthree\n")
    source, problems = read(file, tmp_path)
    assert problems == []
    assert source.text == "one\ntwo\nthree\n"
    assert source.path == "bush.md"


def test_digest_is_of_the_bytes(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_bytes(b"x\r\n")
    (tmp_path / "b.md").write_bytes(b"x\n")
    a, b = read(tmp_path / "a.md", tmp_path)[0], read(tmp_path / "b.md", tmp_path)[0]
    assert a.text == b.text
    assert a.digest != b.digest


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        (
            b"ok\ncaf\xe9\n",
            "m.md:2:4: the file is not UTF-8 (got byte 0xe9); method files are text in UTF-8; "
            "save it again with the encoding UTF-8",
        ),
        (
            b"\xff\xfeh\x00",
            "m.md:1:1: the file is not UTF-8 (got UTF-16); method files are text in UTF-8; "
            "save it again with the encoding UTF-8",
        ),
        (
            b"one\ntw\x00o",
            "m.md:2:3: the file holds a NUL byte (got 0x00); a method file is text; "
            "save it again as plain text in UTF-8",
        ),
    ],
)
def test_what_is_not_text_is_refused_at_its_place(tmp_path: Path, raw: bytes, message: str) -> None:
    (tmp_path / "m.md").write_bytes(raw)
    source, problems = read(tmp_path / "m.md", tmp_path)
    assert source is None
    assert problems == [message]


def test_a_five_megabyte_file_is_refused_unread(tmp_path: Path) -> None:
    (tmp_path / "m.md").write_bytes(b"x" * 5_000_000)
    source, problems = read(tmp_path / "m.md", tmp_path)
    assert source is None
    assert problems == [
        "m.md:1:1: the file is too large (got 5,000,000 bytes); a file may have 400,000 bytes; "
        "write one file for each method"
    ]


def test_the_largest_file_is_read(tmp_path: Path) -> None:
    (tmp_path / "m.md").write_bytes((b"x" * 99 + b"\n\n") * (LARGEST // 101))
    assert read(tmp_path / "m.md", tmp_path)[0] is not None


def test_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "outside.md").write_text("secret")
    root = tmp_path / "methods"
    root.mkdir()
    (root / "m.md").symlink_to(tmp_path / "outside.md")
    source, problems = read(root / "m.md", root)
    assert source is None
    assert problems == [
        "m.md:1:1: the file lies outside its folder (got a link to outside.md); "
        "only files of the folder itself are read; put a copy into the folder"
    ]


def test_a_link_inside_the_folder_is_followed(tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text("words")
    (tmp_path / "b.md").symlink_to(tmp_path / "a.md")
    assert read(tmp_path / "b.md", tmp_path)[0].text == "words"


def test_links_in_a_circle_and_missing_files_are_problems(tmp_path: Path) -> None:
    (tmp_path / "a.md").symlink_to(tmp_path / "b.md")
    (tmp_path / "b.md").symlink_to(tmp_path / "a.md")
    for name in ("a.md", "none.md"):
        source, problems = read(tmp_path / name, tmp_path)
        assert source is None
        assert len(problems) == 1
        assert problems[0].startswith(f"{name}:1:1: the file cannot be read")
