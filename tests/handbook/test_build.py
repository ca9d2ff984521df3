"""Is a handbook whole, never stale, and does one bad method leave the others alone?"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from methodsheets.handbook import workers
from methodsheets.handbook.build import build_handbook
from methodsheets.sheet.records import pack

from .conftest import Folder


def test_every_method_is_worked_out_for_every_workshop(folder: Folder) -> None:
    folder.method("bush")
    folder.method("pin", workshop="large")
    book = build_handbook(folder.options())
    assert list(book.entries) == ["bush", "pin"]
    assert list(book.workshops) == ["large", "small"]
    assert list(book.entries["bush"].by_workshop) == ["small", "large"]  # the author's first
    assert list(book.entries["pin"].by_workshop) == ["large", "small"]
    assert book.entries["bush"].own.setups[0].operations[0].words.metric == "Turn at 200"
    assert book.entries["bush"].by_workshop["large"].setups[0].operations[0].words.metric == "Turn at 330"
    assert book.entries["bush"].own.own_workshop
    assert not book.entries["bush"].by_workshop["large"].own_workshop
    assert book.problems == ()
    assert (book.counts.evaluated, book.counts.from_store, book.counts.drawn) == (4, 0, 4)
    assert book.entries["bush"].source == (folder.methods / "bush.md").read_text()
    assert book.entries["bush"].src_uri == "bush.md"


def test_nothing_changed_nothing_is_done(folder: Folder) -> None:
    folder.method("bush")
    one = build_handbook(folder.options())
    folder.worked()
    two = build_handbook(folder.options())
    assert folder.worked() == []
    assert (two.counts.evaluated, two.counts.from_store, two.counts.drawings_from_store) == (0, 2, 2)
    for key in ("small", "large"):
        assert two.entries["bush"].by_workshop[key] == one.entries["bush"].by_workshop[key]


def test_fresh_gives_the_same(folder: Folder) -> None:
    folder.method("bush")
    build_handbook(folder.options())
    stored = build_handbook(folder.options())
    fresh = build_handbook(folder.options(fresh=True))
    assert fresh.counts.evaluated == 2
    assert pack(fresh.entries["bush"].own) == pack(stored.entries["bush"].own)
    key = fresh.entries["bush"].own.drawings[0].key
    assert fresh.svg(key) == stored.svg(key) != ""


@pytest.mark.parametrize("change", ["method", "workshop", "other method", "remark in workshop", "program", "library"])
def test_what_changes_is_worked_out_again_and_nothing_else(
    folder: Folder, change: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder.method("bush")
    folder.method("ring", stock="from bush")
    folder.method("pin")
    build_handbook(folder.options())
    folder.worked()
    expected = {
        "method": ["pin for large", "pin for small"],
        "workshop": ["bush for large", "pin for large", "ring for large"],
        "remark in workshop": ["bush for small", "pin for small", "ring for small"],
        "other method": ["bush for large", "bush for small", "ring for large", "ring for small"],
    }
    if change == "method":
        folder.method("pin", title="Another pin")
    elif change == "workshop":
        folder.shop("large", "50 to 900")
    elif change == "remark in workshop":
        with (folder.methods / "workshops" / "small.yml").open("a") as opened:
            opened.write("# a remark\n")
    elif change == "other method":
        folder.method("bush", title="Another bush")
    else:
        target = "program_digest" if change == "program" else "versions"
        monkeypatch.setattr(
            f"methodsheets.handbook.digests.{target}", lambda: "x" if change == "program" else (("a", "2"),)
        )
    book = build_handbook(folder.options())
    worked = folder.worked()
    if change in expected:
        assert sorted(set(worked)) == expected[change]
    else:
        assert len(set(worked)) == 6
    if change == "other method":
        assert book.entries["ring"].own.stock.metric.startswith("Another bush")
    assert build_handbook(folder.options()).counts.evaluated == 0


def test_a_method_made_from_another_has_it_for_the_same_workshop(folder: Folder) -> None:
    folder.method("bush")
    folder.method("ring", stock="from bush")
    assert build_handbook(folder.options()).entries["ring"].own.stock.metric.startswith("Bush")


def test_a_circle_of_methods_ends(folder: Folder) -> None:
    folder.method("bush", stock="from ring")
    folder.method("ring", stock="from bush")
    book = build_handbook(folder.options())
    assert len(book.entries) == 2
    folder.worked()
    assert build_handbook(folder.options()).counts.evaluated == 0
    folder.method("bush", stock="from ring", title="Changed")
    book = build_handbook(folder.options())
    assert {line.split(" ")[0] for line in folder.worked()} == {"bush", "ring"}


def test_a_crash_stays_with_its_method(folder: Folder) -> None:
    folder.method("bush")
    folder.method("bad", title="CRASH")
    book = build_handbook(folder.options())
    assert [problem.code for problem in book.problems] == ["crash"]
    assert "ZeroDivisionError: a planted fault" in str(book.problems[0])
    assert str(book.problems[0]).startswith("methods/bad.md:1:1: this method could not be worked out")
    assert book.entries["bad"].own.title == "CRASH"
    assert book.entries["bush"].own.setups
    folder.worked()
    build_handbook(folder.options())
    assert folder.worked() == ["bad for large", "bad for small"]  # tried again, as the fault is the program's


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
def test_many_are_shared_among_processes_and_one_that_dies_is_named(folder: Folder) -> None:
    for number in range(14):
        folder.method(f"pin-{number:02}", title="DIE" if number == 5 else f"Pin {number}")
    told: list[tuple[int, int]] = []
    book = build_handbook(folder.options(workers=2), lambda done, of: told.append((done, of)))
    assert told[-1] == (28, 28)
    assert len(book.entries) == 14
    dead = [str(problem) for problem in book.problems]
    assert len(dead) == 1
    assert dead[0].startswith("methods/pin-05.md:1:1: this method could not be worked out (the process")
    assert all(entry.own.setups for slug, entry in book.entries.items() if slug != "pin-05")


@pytest.mark.skipif(sys.platform == "win32", reason="processes are forked")
def test_processes_give_the_same_as_one(folder: Folder) -> None:
    for number in range(13):
        folder.method(f"pin-{number:02}", stock="from pin-00" if number == 7 else "round 20 mm x 50 mm")
    one = build_handbook(folder.options(store=None, workers=1))
    two = build_handbook(folder.options(store=None, workers=2))
    assert list(one.entries) == list(two.entries)
    for slug in one.entries:
        for key in ("small", "large"):
            assert pack(one.entries[slug].by_workshop[key]) == pack(two.entries[slug].by_workshop[key])


def test_how_many_processes() -> None:
    assert workers.how_many(1, 1000) == 1
    assert workers.how_many(2, workers.ENOUGH - 1) == 1
    assert workers.how_many(4, 1000) in (1, 4)  # 1 where nothing can be forked


def test_a_file_that_cannot_be_read_still_has_its_page(folder: Folder) -> None:
    file = folder.method("bush")
    file.write_bytes(file.read_bytes() + b"\xff\n")
    folder.method("pin")
    book = build_handbook(folder.options())
    assert [str(one).split(";")[0] for one in book.problems] == [
        "methods/bush.md:19:1: the file is not UTF-8 (got byte 0xff)"
    ]
    assert book.entries["bush"].own.title == "Bush"
    assert book.entries["bush"].own.problems == book.problems
    assert book.entries["pin"].own.setups


def test_broken_front_matter_still_has_its_page(folder: Folder) -> None:
    file = folder.method("bush")
    file.write_text(file.read_text().replace("part: bush", "part: bush\npart: twice"))
    book = build_handbook(folder.options())
    assert ["written twice" in str(one) for one in book.problems] == [True]
    assert book.entries["bush"].own.problems == book.problems
    assert "methods/bush.md:4:1" in str(book.problems[0])


def test_reading_problems_are_in_the_method_once(folder: Folder) -> None:
    file = folder.method("bush")
    file.write_text(file.read_text().replace("material: EN1A", "material: EN1A\ncolour: red"))
    book = build_handbook(folder.options())
    assert [str(one).split(";")[0] for one in book.problems] == [
        "methods/bush.md:5:1: unknown key `colour` in the front matter"
    ]


def test_an_unknown_workshop_is_told_once_at_its_place(folder: Folder) -> None:
    folder.method("bush", workshop="smal")
    book = build_handbook(folder.options())
    assert [str(one) for one in book.problems] == [
        "methods/bush.md:6:11: there is no workshop `smal`; the key `workshop` names a file of the folder of workshops; "
        "did you mean `small`?"
    ]
    assert book.entries["bush"].own_workshop == "large"  # the first there is
    folder.shop("smal")
    assert build_handbook(folder.options()).problems == ()


def test_problems_of_a_workshop_are_told(folder: Folder) -> None:
    folder.method("bush")
    file = folder.methods / "workshops" / "small.yml"
    file.write_text(file.read_text().replace("kind: lathe", "kind: lathe\n    wheels: 4"))
    for _ in range(2):  # the second time out of the store
        book = build_handbook(folder.options())
        assert [str(one).split(";")[0] for one in book.problems] == [
            "methods/workshops/small.yml:5:5: unknown key `wheels` of a machine"
        ]


def test_no_workshops_at_all(folder: Folder) -> None:
    for file in (folder.methods / "workshops").iterdir():
        file.unlink()
    folder.method("bush")
    text = (folder.methods / "bush.md").read_text().replace("workshop: small\n", "")
    (folder.methods / "bush.md").write_text(text)
    book = build_handbook(folder.options())
    assert list(book.workshops) == ["usual"]
    assert book.problems == ()


def test_no_folder_of_methods(tmp_path: Path) -> None:
    from methodsheets.handbook.model import Options

    book = build_handbook(Options(tmp_path, (tmp_path / "nowhere",)))
    assert [one.code for one in book.problems] == ["no-folder"]
    assert not book.entries


def test_only_one_is_worked_out_with_what_it_needs(folder: Folder) -> None:
    folder.method("bush")
    folder.method("ring", stock="from bush")
    folder.method("pin")
    book = build_handbook(folder.options(only=("ring",), own_only=True, store=None))
    assert list(book.entries) == ["ring"]
    assert folder.worked() == ["bush for small", "ring for small"]


def test_chosen_workshops(folder: Folder) -> None:
    folder.shop("third")
    folder.method("bush")
    book = build_handbook(folder.options(workshop_keys=("third",)))
    assert list(book.entries["bush"].by_workshop) == ["small", "third"]
    told = build_handbook(folder.options(workshop_keys=("fourth",))).problems
    assert [one.code for one in told] == ["unknown-workshop"]


def test_without_drawings(folder: Folder) -> None:
    folder.method("bush")
    assert build_handbook(folder.options(draw=False)).entries["bush"].own.drawings == ()
    assert build_handbook(folder.options()).entries["bush"].own.drawings != ()


def test_a_picture_that_fails_is_a_problem_and_the_numbers_stay(folder: Folder) -> None:
    folder.method("bush", title="NO PICTURE")
    for _ in range(2):
        book = build_handbook(folder.options())
        assert [str(one) for one in book.problems] == ["methods/bush.md:13:1: the picture could not be drawn"]
        assert book.entries["bush"].own.setups


def test_a_picture_that_two_workshops_share_is_found_in_either(folder: Folder) -> None:
    folder.shop("twin")
    folder.method("bush")
    book = build_handbook(folder.options())
    keys = {key: method.drawings[0].key for key, method in book.entries["bush"].by_workshop.items()}
    assert keys["small"] == keys["twin"] != keys["large"]
    folder.shop("small", "50, 90")
    changed = build_handbook(folder.options())
    assert changed.entries["bush"].by_workshop["twin"].drawings[0].key == keys["twin"]
    assert changed.svg(keys["twin"]) == book.svg(keys["twin"]) != ""


def test_pictures_come_for_the_page_and_as_files(folder: Folder) -> None:
    folder.method("bush")
    book = build_handbook(folder.options())
    method = book.entries["bush"].own
    key = method.drawings[0].key
    assert method.setups[0].figures == (key,)
    assert 'width="100%"' in book.svg(key)
    alone = book.standalone_svg(key)
    assert alone.startswith('<?xml version="1.0"')
    assert 'width="170mm" height="100mm"' in alone
    assert 'fill="#000000"' in alone
    assert book.svg("no--such--key") == book.standalone_svg("") == ""
