"""A size, an angle or a thread in the words of a tool picks that one, of every sort of tool and of every set."""

from __future__ import annotations

import pytest
from tests.method.bench import THREE_JAW, block, method, work_out

from methodsheets.vocabulary.tool import TOOLS, SizedBy, ToolKind
from methodsheets.workshop.model import Workshop
from methodsheets.workshop.said_size import said_size
from methodsheets.workshop.tools import Tool, ToolSize

SIZED = [kind for kind, row in TOOLS.items() if row.sized]


def shop(*tools: Tool) -> Workshop:
    return Workshop("shop", "Shop", tools={tool.key: tool for tool in tools})


def a_set(kind: ToolKind) -> Tool:
    sizes = tuple(ToolSize(size, f"M{size:g}" if kind.row.sized is SizedBy.THREAD else "") for size in (4.0, 6.0, 8.0))
    return Tool("set", kind, f"{kind.row.words[0]}s", sizes=sizes)


@pytest.mark.parametrize(
    ("words", "lengths", "angle"),
    [("6 mm end mill", (6.0,), 0), ("end mill 6mm", (6.0,), 0), ("end mill, 6 mm", (6.0,), 0),
     ("1/4 in drill", (6.35,), 0), ('1/4" drill', (6.35,), 0), ("1-1/4 in reamer", (31.75,), 0),
     ("1 1/2 inch shell mill", (38.1,), 0), (".25 in drill", (6.35,), 0), ("63 by 1 mm slitting saw", (63.0, 1.0), 0),
     ("63 x 1.6 mm slitting saw", (63.0, 1.6), 0), ("slitting saw 63×1 mm", (63.0, 1.0), 0),
     ("40 thou parting tool", (1.016,), 0), ("90 degree cutter", (), 90), ("16 mm 60° countersink", (16.0,), 60),
     ("60-degree threading tool", (), 60), ("M6 tap", (), 0), ("No. 43 drill", (), 0), ("2BA tap", (), 0),
     ("M10 x 1 tap", (), 0), ("end mill 6", (), 0), ("knife tool", (), 0)],
)  # fmt: skip
def test_the_words_are_read(words: str, lengths: tuple[float, ...], angle: float) -> None:
    found = said_size(words)
    assert found.lengths == pytest.approx(lengths)
    assert found.angle == angle


@pytest.mark.parametrize("kind", SIZED)
@pytest.mark.parametrize("size", [4.0, 8.0])
def test_a_size_in_the_words_picks_that_one_of_every_set(kind: ToolKind, size: float) -> None:
    here = shop(a_set(kind))
    for word in kind.row.words:
        for words in (f"{size:g} mm {word}", f"{word} {size:g} mm", f"{word}, {size / 25.4:.4f} in"):
            for wanted in (0.0, 6.0):
                found = here.tool(words, wanted)
                assert found is not None, words
                assert found.size == size, (words, found)


@pytest.mark.parametrize("kind", SIZED)
def test_of_several_tools_of_a_name_the_size_decides(kind: ToolKind) -> None:
    """Tools that are listed one by one, by their diameter, their width or their shank."""
    one, two = (Tool(f"tool {n}", kind, kind.row.words[0], width=w, diameter=d, shank=8.0)
                for n, w, d in ((1, 1.0, 63.0), (2, 2.0, 80.0)))  # fmt: skip
    here = shop(one, two)
    for words, wanted in (("2 mm", two), ("63 mm", one), ("80 by 2 mm", two), ("1 mm", one)):
        assert here.tool(f"{words} {kind.row.words[0]}") == wanted


@pytest.mark.parametrize("kind", [kind for kind, row in TOOLS.items() if row.leaves_angle])
def test_the_angle_decides_where_it_stays_in_the_work(kind: ToolKind) -> None:
    """Said in the words, or wanted by the thread, the countersink, the dovetail."""
    one, two = (Tool(f"tool {n}", kind, kind.row.words[0], point_angle=a) for n, a in ((1, 60.0), (2, 82.0)))
    here, bare = shop(one, two), next(word for word in kind.row.words if not said_size(word).angle)
    assert here.tool(f"82 degree {bare}") == two
    assert here.tool(bare, angle=82.0) == two
    assert here.tool(bare, angle=60.0) == one


TABLE = block("setup", "machine: mill", "hold: rotary table with three-jaw chuck, on 40 mm, grip 15 mm, end A up")
VICE = block("setup", "machine: mill", "hold: machine vice, up top, towards front, grip 10 mm")
MILLED = [(TABLE, "flat: 15 mm, over 20 mm", ""), (TABLE, "web: hub 14 mm, nose 9 mm, offset 10 mm, over 12 mm", ""),
          (TABLE, "outline: points (-12 mm, -12 mm), (12 mm, -12 mm), (0 mm, 14 mm), over 12 mm", ""),
          (VICE, "step: side front, wide 8 mm, deep 5 mm", "plate 60 mm x 40 mm x 25 mm"),
          (VICE, "pocket: from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm", "plate 60 mm x 40 mm x 25 mm"),
          (VICE, "slot: wide 12 mm, deep 5 mm", "plate 60 mm x 40 mm x 25 mm")]  # fmt: skip


@pytest.mark.parametrize(("setup", "line", "stock"), MILLED)
@pytest.mark.parametrize("size", [6.0, 10.0])
def test_the_cutter_that_is_said_cuts(setup: str, line: str, stock: str, size: float) -> None:
    """The path, the speed and the sheet are those of the size that is said."""
    made = work_out(
        method(setup + block("op", line, f"tool: {size:g} mm end mill"), stock=stock or "round 40 mm x 60 mm")
    )
    assert [str(problem) for problem in made.method.problems] == []
    last = made.live.operations[-1]
    assert last.tool is not None
    assert last.tool.diameter == size
    assert last.plan.cut.diameter == size


NOT_THERE = [("drill: 8 mm, deep 20 mm", "8.05 mm drill", "tool-size"), ("drill: 8 mm, deep 20 mm", "6 mm drill", "tool-size"),
             ("drill: 8 mm, deep 20 mm", "drill 9", "tool-size"), ("part off: 10 mm", "3 mm parting tool", "tool-size"),
             ("turn: to 30 mm, over 10 mm", "12 mm knife tool", "tool-size"),
             ("thread: M40 x 1.5, over 10 mm", "55 degree threading tool", "tool-shape"),
             ("countersink: 10 mm", "60 degree countersink", "tool-shape"), ("tap: M6, deep 10 mm", "M7 tap", "tool-size")]  # fmt: skip


@pytest.mark.parametrize(("line", "words", "key"), NOT_THERE)
def test_what_is_said_and_not_there_is_told(line: str, words: str, key: str) -> None:
    hole = block("op", "drill: 5 mm, deep 25 mm")
    made = work_out(method(THREE_JAW + hole + block("op", line, f"tool: {words}")))
    last = made.live.operations[-1]
    assert key in {check.key for check in last.checks if check.state == "failed"}, [str(c) for c in last.checks]
