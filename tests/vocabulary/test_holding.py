"""Every way of holding and every sort of tool has its row, and the row agrees with the drawing library."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import block, method, work_out, workshop

from methodfigures.setups.cross.spec import HOLDINGS as CROSS
from methodfigures.setups.rotary.spec import HOLDINGS as UPRIGHT
from methodfigures.setups.turning.spec import HOLDER_NAMES as TURNED
from methodfigures.setups.vice.spec import HOLDINGS as BLOCK
from methodsheets.method.holders import HOLDERS
from methodsheets.operations.vocabulary import verb_names
from methodsheets.reading.problem import Problems
from methodsheets.vocabulary.holding import SPELLED, WAYS, Grips, HolderForm, Way, carried
from methodsheets.vocabulary.machine import MACHINES, MachineKind
from methodsheets.vocabulary.tool import TOOLS, Hand, ToolKind, Turned
from methodsheets.vocabulary.verb_word import verb_name
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.reader import read_workshop

SPELLINGS = [(way, word) for way, row in WAYS.items() for word in row.words]


def test_every_word_has_a_row() -> None:
    assert set(WAYS) == set(Way)
    assert set(TOOLS) == set(ToolKind)
    assert set(MACHINES) == set(MachineKind)


@pytest.mark.parametrize(("way", "word"), SPELLINGS, ids=[word for _, word in SPELLINGS])
def test_every_spelling_is_read(way: Way, word: str) -> None:
    assert SPELLED.read(word.replace("vice", "vise").replace("centre", "center")) is way


@pytest.mark.parametrize("way", list(Way), ids=str)
def test_a_way_is_drawn_as_the_drawing_library_can(way: Way) -> None:
    row = way.row
    assert not row.in_lathe or row.in_lathe in TURNED
    assert not row.on_table or row.on_table in UPRIGHT
    assert not row.across or row.across in CROSS
    assert not row.on_block or row.on_block in BLOCK
    assert bool(row.in_lathe) == (row.form in HOLDERS), "what is drawn in the lathe has polygons, and the reverse"


@pytest.mark.parametrize("form", [form for form in HolderForm if form is not HolderForm.NONE], ids=str)
def test_every_form_of_holder_is_built(form: HolderForm) -> None:
    assert form in HOLDERS


@pytest.mark.parametrize("way", list(Way), ids=str)
def test_a_row_does_not_contradict_itself(way: Way) -> None:
    row = way.row
    assert not (row.support and row.in_lathe)
    assert not row.packs or row.jaws_stand_out
    assert not row.on_parallels or row.grips is Grips.FACES
    assert not row.lies or row.across


def test_what_stands_on_a_rotary_table() -> None:
    assert carried("rotary table with 3-jaw chuck") == (Way.ROTARY_TABLE, "3-jaw chuck")
    assert carried("indexing head with collet") == (Way.DIVIDING_HEAD, "collet")
    assert carried("three-jaw chuck") == (None, "three-jaw chuck")


@pytest.mark.parametrize("words", ["fixed steady", "live center", "follow rest"])
def test_what_only_supports_does_not_hold(words: str) -> None:
    made = work_out(method(block("setup", "machine: lathe", f"hold: {words}, on 40 mm, grip 15 mm, end A out")))
    assert "only supports the work" in made.method.problems[0].what


@pytest.mark.parametrize("hold", ["three-jaw chuck, soft jaws", "soft jaws"])
def test_soft_jaws_are_the_workshop_s_own_however_they_are_asked_for(hold: str) -> None:
    made = work_out(method(block("setup", "machine: lathe", f"hold: {hold}, on 40 mm, grip 15 mm, end A out")))
    assert not made.method.problems, [str(p) for p in made.method.problems]
    setup = made.live.setups[0]
    assert setup.held.way is Way.SOFT_JAWS
    assert setup.held.holder == workshop().holdings["soft-jaws"]
    assert setup.minutes == 15.0


def shop(folder: Path, tools: str) -> Workshop:
    text = "workshop: Shed\nmachines: {lathe: {kind: lathe, speeds: 100 to 2000 1/min, feeds: hand}}\ntools:\n" + tools
    (folder / "shed.yml").write_text(text, encoding="utf-8")
    problems = Problems()
    found = read_workshop(folder / "shed.yml", folder, problems)
    assert found is not None
    assert not list(problems), [str(p) for p in problems]
    return found


TOOLS_SAID = {
    "a name says nothing": ("  r: {kind: reamer, name: left-hand spiral reamer, sizes: 8 mm}", Turned.BY_MACHINE),
    "its kind does": ("  r: {kind: hand-reamer, sizes: 8 mm}", Turned.BY_HAND),
    "its series does": ("  r: {kind: reamer, lengths: hand reamer, sizes: 8 mm}", Turned.BY_HAND),
    "the workshop does": ("  r: {kind: reamer, turned: by hand, sizes: 8 mm}", Turned.BY_HAND),
    "a tap is turned by hand": ("  t: {kind: tap, name: machine shop tap, sizes: M6}", Turned.BY_HAND),
    "a machine tap is not": ("  t: {kind: machine-tap, sizes: M6}", Turned.BY_MACHINE),
}


@pytest.mark.parametrize("said", TOOLS_SAID.values(), ids=list(TOOLS_SAID))
def test_what_turns_a_tool_is_a_field_of_it(said: tuple[str, Turned], tmp_path: Path) -> None:
    tools, turned = said
    (tool,) = shop(tmp_path, tools + "\n").tools.values()
    assert tool.turned is turned


def test_the_hand_of_a_tool_is_a_field_of_it(tmp_path: Path) -> None:
    found = shop(
        tmp_path, "  a: {kind: tap, hand: left, sizes: M6}\n  b: {kind: left-knife}\n  c: {kind: knife}\n"
    ).tools
    assert [tool.hand for tool in found.values()] == [Hand.LEFT, Hand.LEFT, Hand.RIGHT]


def test_the_verbs_of_a_tool_are_declared() -> None:
    """What a tool is for is a verb, and not another word of the trade for one; what no verb asks for is for none."""
    strange = {f"{kind}: {verb}" for kind, row in TOOLS.items() for verb in row.verbs if verb not in verb_names()}
    assert strange == set()
    assert all(row.machines for row in TOOLS.values())
    assert ToolKind.FORM.row.verbs[0] == verb_name("radius") == "round over"


def test_a_workshop_says_in_words_of_the_trade_what_a_tool_is_for_and_goes_on(tmp_path: Path) -> None:
    tools = "  a: {kind: form, for: 'radius, slit', goes on: milling machine}\n"
    (tool,) = shop(tmp_path, tools).tools.values()
    assert (tool.verbs, tool.machines) == (("round over", "split"), (MachineKind.MILL,))


@pytest.mark.parametrize("key", ["for", "goes on"])
def test_a_word_that_means_nothing_is_told(key: str, tmp_path: Path) -> None:
    for kind in ("tools", "holding"):
        if (key, kind) != ("for", "holding"):
            problems = Problems()
            thing = {"tools": "form", "holding": "three-jaw chuck"}[kind]
            text = f"machines: {{lathe: {{speeds: 100 1/min}}}}\n{kind}:\n  a: {{kind: {thing}, {key}: moon}}\n"
            path = tmp_path / f"{kind}.yml"
            path.write_text(text, encoding="utf-8")
            read_workshop(path, tmp_path, problems)
            assert [problem.code for problem in problems if "moon" in problem.what] == ["workshop-choice"]
