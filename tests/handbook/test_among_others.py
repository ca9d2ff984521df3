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


def test_names_of_parts_that_give_one_address_are_told(folder: Folder) -> None:
    """In large letters or with other accents it may be another part: then its methods must not be compared as one."""
    for slug, part in (("bush", "Büchse"), ("ring", "bu\u0308chse"), ("rod", "Büchse"), ("pin", "Pin"), ("cap", "")):
        folder.method(slug, part=part or '""')
    found = [one for one in build_handbook(folder.options()).problems if one.code == "two-of-a-part"]
    assert [(one.place.path, one.place.line) for one in found] == [("methods/ring.md", 3)]
    assert "the part `bu\u0308chse` has the address of `Büchse` (in methods/bush.md)" in str(found[0])


def test_workshops_of_one_address_are_told_in_whatever_folder(folder: Folder) -> None:
    folder.method("bush")
    other = folder.path / "more"
    (other / "workshops").mkdir(parents=True)
    (other / "workshops" / "small.yml").write_bytes((folder.methods / "workshops" / "small.yml").read_bytes())
    (folder.methods / "workshops" / "LARGE.YML").write_bytes((folder.methods / "workshops" / "large.yml").read_bytes())
    options = folder.options(methods=(folder.methods, other, folder.methods))
    found = [one.place.path for one in build_handbook(options).problems if one.code == "two-of-a-name"]
    assert found == ["methods/workshops/large.yml", "more/workshops/small.yml"]


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
