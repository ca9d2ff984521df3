"""Which files are methods, and what is told of those that cannot be read?"""

from __future__ import annotations

from pathlib import Path

import pytest

from methodsheets.handbook.library import Library, find_methods

TEXT = "---\nmethod: {title}\n---\n\ntext\n"


def write(file: Path, text: str = TEXT.format(title="A bush")) -> Path:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")
    return file


def told(library: Library) -> list[str]:
    return [str(one) for _, found in library.problems for one in found]


def test_methods_parts_and_everything_else(tmp_path: Path) -> None:
    methods = tmp_path / "methods"
    write(methods / "Guide Bush.md")
    write(methods / "lathe" / "pin.markdown")
    write(methods / "parts" / "spindle.md")
    write(methods / "README.md", "# What this is\n\nmethod: no\n")
    write(methods / "workshops" / "notes.md")
    write(methods / "records" / "notes.md")
    write(methods / ".hidden" / "x.md")
    write(methods / "list.txt")
    inside = write(tmp_path / "docs" / "own.md")
    other = write(tmp_path / "docs" / "index.md", "# Home\n")
    library = find_methods([methods], [inside, other], tmp_path)
    assert list(library.methods) == ["guide-bush", "own", "pin"]
    assert list(library.parts) == ["spindle"]
    assert told(library) == []
    bush, pin, own = library.methods.values()
    assert (bush.path, bush.place, bush.title) == ("methods/Guide Bush.md", "Guide Bush.md", "A bush")
    assert pin.path == "docs/own.md" or own.path == "docs/own.md"
    assert library.methods["pin"].place == "lathe/pin.markdown"
    assert library.methods["own"].inside


def test_windows_line_ends_and_a_byte_order_mark(tmp_path: Path) -> None:
    file = tmp_path / "bush.md"
    file.write_bytes(b"\xef\xbb\xbf" + TEXT.format(title="Bush").replace("\n", "\r\n").encode())
    library = find_methods([tmp_path], [], tmp_path)
    assert library.methods["bush"].title == "Bush"
    assert "\r" not in library.methods["bush"].text
    assert told(library) == []


def test_two_of_a_name(tmp_path: Path) -> None:
    write(tmp_path / "a" / "bush.md")
    write(tmp_path / "b" / "Bush.md")
    library = find_methods([tmp_path], [], tmp_path)
    assert library.methods["bush"].path == "a/bush.md"
    assert told(library) == [
        "b/Bush.md:1:1: two methods have the name `bush` (the other is a/bush.md); "
        "a method is known by the name of its file; give one of the two files another name"
    ]


def test_the_same_folder_twice_is_no_problem(tmp_path: Path) -> None:
    file = write(tmp_path / "bush.md")
    library = find_methods([tmp_path, tmp_path], [file], tmp_path)
    assert len(library.methods) == 1
    assert told(library) == []


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (TEXT.format(title="x").encode() + b"\xe9\n", "the file is not UTF-8 (got byte 0xe9)"),
        (TEXT.format(title="x").encode("utf-16"), "the file is not UTF-8 (got UTF-16)"),
        (TEXT.format(title="x").encode() + b"\0", "the file holds a NUL byte"),
        (TEXT.format(title="x").encode() + b"x" * 5_000_000, "the file is too large (got 5,000,024 bytes)"),
    ],
)
def test_files_that_cannot_be_read_are_told_and_kept(tmp_path: Path, raw: bytes, words: str) -> None:
    (tmp_path / "bush.md").write_bytes(raw)
    library = find_methods([tmp_path], [], tmp_path)
    assert len(told(library)) == 1
    assert words in told(library)[0]
    assert library.methods["bush"].digest == ""


def test_a_large_file_that_is_no_method_is_passed_over(tmp_path: Path) -> None:
    (tmp_path / "log.md").write_bytes(b"# log\n" + b"x" * 5_000_000)
    library = find_methods([tmp_path], [], tmp_path)
    assert not library.methods
    assert told(library) == []


def test_links_out_of_the_folder_are_refused(tmp_path: Path) -> None:
    outside = write(tmp_path / "secret" / "bush.md")
    methods = tmp_path / "methods"
    methods.mkdir()
    (methods / "bush.md").symlink_to(outside)
    library = find_methods([methods], [], tmp_path)
    assert "lies outside its folder" in told(library)[0]
    assert library.methods["bush"].text == ""


def test_links_to_folders_outside_are_not_followed(tmp_path: Path) -> None:
    write(tmp_path / "secret" / "bush.md")
    methods = tmp_path / "methods"
    methods.mkdir()
    (methods / "more").symlink_to(tmp_path / "secret")
    assert not find_methods([methods], [], tmp_path).methods


def test_a_link_that_leads_nowhere(tmp_path: Path) -> None:
    (tmp_path / "bush.md").symlink_to(tmp_path / "gone.md")
    assert "cannot be read" in told(find_methods([tmp_path], [], tmp_path))[0]


@pytest.mark.parametrize("odd", ["Spacer.md", "!spacer.md", "SPACER.MD", "spacer.markdown", "späcer.md", "spacer .md"])
def test_a_file_with_an_odd_name_never_takes_the_place_of_one_with_the_right_name(tmp_path: Path, odd: str) -> None:
    write(tmp_path / "spacer.md", TEXT.format(title="Mine"))
    write(tmp_path / odd, TEXT.format(title="Theirs"))
    library = find_methods([tmp_path], [], tmp_path)
    assert library.methods["spacer"].title == "Mine"
    assert told(library) == [
        f"{odd}:1:1: two methods have the name `spacer` (the other is spacer.md); "
        "a method is known by the name of its file; give one of the two files another name"
    ]


def test_a_method_does_not_vanish_for_a_slip(tmp_path: Path) -> None:
    write(tmp_path / "bush.md", "---\nmetod: Bush\n---\n\n```op\nface: 1 mm\n```\n")
    library = find_methods([tmp_path], [], tmp_path)
    assert library.methods == {}
    assert told(library)[0].startswith("bush.md:2:1: the file has blocks of a method (`op` on line 5) and is none")


def test_nothing_of_a_file_outside_is_shown_not_even_its_title(tmp_path: Path) -> None:
    outside = write(tmp_path / "secret" / "bush.md", TEXT.format(title="Secret title"))
    (tmp_path / "methods").mkdir()
    (tmp_path / "methods" / "bush.md").symlink_to(outside)
    library = find_methods([tmp_path / "methods"], [], tmp_path)
    assert "Secret" not in repr(library)
