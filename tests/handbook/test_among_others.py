"""What is told of a method because there are other methods and other workshops."""

from __future__ import annotations

from methodsheets.handbook.build import build_handbook
from methodsheets.reading.problem import Place, Problem

from .conftest import Folder


def test_a_title_that_another_method_has_is_told(folder: Folder) -> None:
    folder.method("bush", title="Guide bush")
    folder.method("ring", title="guide  Bush")
    folder.method("pin", title="Pin")
    found = [one for one in build_handbook(folder.options()).problems if one.code == "two-of-a-title"]
    assert [str(one) for one in found] == [
        "methods/ring.md:2:9: two methods have the title `guide  Bush` (the other is methods/bush.md); "
        "readers tell methods by their titles; say in one of them what is different"
    ]


def test_a_workshop_left_open_is_told_where_there_are_several(folder: Folder) -> None:
    file = folder.method("bush")
    kept = [line for line in file.read_text().split("\n") if not line.startswith("workshop:")]
    file.write_text("\n".join(kept))
    book = build_handbook(folder.options())
    assert [one.code for one in book.problems] == ["no-workshop"]
    assert f"`{book.entries['bush'].own_workshop}` is taken" in book.problems[0].what
    assert book.entries["bush"].problems == book.problems
    for place in sorted((folder.methods / "workshops").glob("*.yml"))[1:]:
        place.unlink()
    assert build_handbook(folder.options()).problems == ()


def test_what_is_written_wrong_comes_before_the_checks_that_fail(folder: Folder) -> None:
    check = Problem(Place("a.md", 2), "check `intended-part` failed", code="check-intended-part")
    typed = Problem(Place("a.md", 71), "unknown key `trun`", code="unknown-key")
    other = Problem(Place("b.md", 1), "no such material", code="unknown-material")
    assert sorted([other, check, typed], key=Problem.order) == [typed, check, other]
