"""Wrong joints that an honest machinist might write: each fails the check it should, with the place and what to do.

The methods and their faults are our own; what the checks compare is geometry with geometry.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.method.bench import work_out

from methodsheets.sheet.model import Method

FOLDER = Path(__file__).parents[1] / "methods"


def changed(slug: str, changes: list[tuple[str, str]]) -> Method:
    """A sound method with one mistake."""
    text = (FOLDER / f"{slug}.md").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, (slug, old, text.count(old))
        text = text.replace(old, new)
    return work_out(text, slug=slug).method


PIN = "press in: pin, at 18 mm, on radius 16 mm, at 0 deg"
REAM = "ream: 8 mm, from 12 mm, through, on radius 16 mm, at 0 deg"
SPOKES = "press in: spoke, from face 20 mm, divide 3, in 28 mm"
NO_REAM = (f"```op\n{REAM}\n```\n\n", "")
ASKED = ("- thread: M12 x 1, over 9 mm\n```", "- thread: M12 x 1, over 12 mm\n```")
MADE = "thread: M12 x 1, over 9 mm, die"
HOLES = {"finished-surface", "intended-part"}
"""A piece that does not fill its hole leaves metal missing there, and stands where none should be."""
WELD = "secure: shaft, with weld, throat 2 mm"
PRESSED = "press in: shaft, at -6 mm"
CHAMFERED = (
    "```op\ndrill: 15 mm, through\n```",
    "```op\ndrill: 15 mm, through\n```\n\n```op\nchamfer: 1 mm, on 16 mm, inside\n```",
)
SECOND_WEB = """
```setup
machine: mill
hold: rotary table with three-jaw chuck, on 16 mm, grip 10 mm, end A up
```

```op
drill: 7.8 mm, from 18 mm, deep 27 mm, on radius 16.3 mm, at 0 deg
```

```op
ream: 8 mm, from 18 mm, deep 26.5 mm, on radius 16.3 mm, at 0 deg
```
"""
FAULTS = [
    (
        "no room for the bead",
        "welded-web",
        [(PRESSED, "press in: shaft, at 0 mm")],
        {"bead", *HOLES},
        "a throat of 2 mm wants a step or a chamfer of 2.83 mm at the mouth of the seat Ø16; the round stands out 0 mm",
    ),
    (
        "a weld on a bonded joint",
        "welded-web",
        [(PRESSED, "retain: shaft, at -6 mm")],
        {"heat-after"},
        "the shaft is held by a retaining compound, which lets go at about 150 °C",
    ),
    (
        "a cross pin that misses the joint",
        "welded-web",
        [(WELD, "secure: shaft, with cross pin, size 3 mm, long 8 mm, from face 6 mm")],
        {"secured", "overlap", "intended-part"},
        "the cross pin ends 8 mm from the shaft",
    ),
    (
        "a grub screw without a hole",
        "welded-web",
        [(WELD, "secure: shaft, with grub screw, size 4 mm, long 16 mm, from face 6 mm")],
        {"overlap", "intended-part"},
        "no tapped hole is there for the grub screw",
    ),
    (
        "a pin made 4 mm short",
        "two-web-shaft",
        [("part off: 28 mm", "part off: 24 mm")],
        {"intended-part"},
        "the pin is not its intended part, 4 mm too short: missing",
    ),
    (
        "a strap made 4 mm short",
        "riveted-hinge",
        [("stock: flat 20 mm x 4 mm x 60 mm", "stock: flat 20 mm x 4 mm x 56 mm")],
        {"intended-part"},
        "the strap is not its intended part: missing",
    ),
    (
        "a cap left too thick",
        "split-bearing",
        [("stock: plate 40 mm x 20 mm x 12 mm", "stock: plate 40 mm x 20 mm x 12.2 mm")],
        {"intended-part"},
        "the cap is not its intended part: left on",
    ),
    (
        "the part of a piece says another hole",
        "two-web-shaft",
        [("- drill: 8 mm, through, on radius 16 mm", "- drill: 8 mm, through, on radius 16.5 mm")],
        {"intended-part"},
        "the shaft is not its intended part",
    ),
    ("a thread too short", "union-body", [ASKED], {"intended-part"}, "M12x1, 9 long, is 3 mm shorter than its part"),
    (
        "a thread of another pitch",
        "union-body",
        [ASKED, (MADE, "thread: M12, over 8 mm, die")],
        {"intended-part"},
        "nobody cuts the thread M12x1",
    ),
    (
        "a thread of the other hand",
        "union-body",
        [ASKED, (MADE, "thread: M12 x 1, over 9 mm, die, left hand")],
        {"intended-part", "tool"},
        "nobody cuts the thread M12x1, 12 long; the method cuts M12x1 LH, 9 long",
    ),
    (
        "the pin beside its holes",
        "two-web-shaft",
        [(PIN, PIN.replace("16 mm", "15.7 mm"))],
        {"in-line", *HOLES},
        "lies 0.300 mm beside the axis of the pin",
    ),
    (
        "the pin pressed in twice",
        "two-web-shaft",
        [(f"```op\n{PIN}\n```\n", f"```op\n{PIN}\n```\n\n```op\n{PIN}\n```\n")],
        {"overlap"},
        "a pin stands there already",
    ),
    (
        "the first web not bored",
        "two-web-shaft",
        [
            (f"drill: 7.8 mm{REAM[10:]}", f"drill: 7.8 mm{REAM[10:]}".replace("through", "deep 21 mm")),
            (REAM, REAM.replace("through", "deep 20 mm")),
        ],
        {"overlap", "intended-part"},
        "overlaps 402 mm³ of metal in the shaft, 18 to 26 mm below its mouth: no hole is there",
    ),
    (
        "the holes drilled and not reamed",
        "two-web-shaft",
        [NO_REAM],
        {"overlap", "intended-part"},
        "the pin Ø8 does not go into the hole Ø7.8 in the shaft",
    ),
    (
        "a thin pin",
        "two-web-shaft",
        [
            ("stock: round 8 mm x 40 mm", "stock: round 7.5 mm x 40 mm"),
            ("collet chuck, on 8 mm", "collet chuck, on 7.5 mm"),
        ],
        {"seat", *HOLES},
        "pin Ø7.5 hangs in its hole Ø8 with 0.500 mm of room",
    ),
    (
        "the pin not deep enough",
        "two-web-shaft",
        [(PIN, PIN.replace("at 18 mm", "at 14 mm"))],
        HOLES,
        "leaves 201 mm³ of its holes empty",
    ),
    (
        "the pin on the wrong side",
        "two-web-shaft",
        [(PIN, PIN.replace("at 0 deg", "at 180 deg"))],
        {"overlap", *HOLES},
        "no hole is there",
    ),
    (
        "two webs bored in two settings, out of line",
        "two-web-shaft",
        [
            (f"drill: 7.8 mm{REAM[10:]}", f"drill: 7.8 mm{REAM[10:]}".replace("through", "deep 21 mm")),
            (f"```op\n{REAM}\n```\n", f"```op\n{REAM.replace('through', 'deep 20.5 mm')}\n```\n" + SECOND_WEB),
        ],
        {"in-line", *HOLES},
        "the hole Ø8 in the shaft, 18 to 26 mm below the mouth, lies 0.300 mm beside the axis of the pin",
    ),
    (
        "a cross pin oblique to its hole",
        "spoked-hub",
        [(SPOKES, f"{SPOKES}, starting 3 deg")],
        {"in-line", *HOLES},
        "stands 3° oblique to the spoke",
    ),
    (
        "two spokes for three holes",
        "spoked-hub",
        [(SPOKES, SPOKES.replace("divide 3", "divide 3, skip 2"))],
        HOLES,
        "missing",
    ),
    (
        "spokes between their holes",
        "spoked-hub",
        [(SPOKES, f"{SPOKES}, starting 40 deg")],
        {"overlap", *HOLES},
        "no hole is there",
    ),
    (
        "the spokes too deep",
        "spoked-hub",
        [(SPOKES, SPOKES.replace("in 28 mm", "in 27 mm"))],
        {"overlap", "intended-part"},
        "in the spoke 2",
    ),
    (
        "the dowel not proud enough",
        "dowelled-plate",
        [("```op\npin: 6 mm, long 20 mm, at -8 mm", "```op\npin: 6 mm, long 20 mm, at -6 mm")],
        {"intended-part"},
        "left on",
    ),
    (
        "a dowel at the wrong place",
        "dowelled-plate",
        [
            (
                "(10 mm, 20 mm), (50 mm, 20 mm)\n```\n\n```setup\nmachine: press",
                "(10 mm, 20 mm), (50 mm, 22 mm)\n```\n\n```setup\nmachine: press",
            )
        ],
        {"in-line", "finished-surface"},
        "lies 2.000 mm beside",
    ),
]


@pytest.mark.parametrize(("name", "slug", "changes", "keys", "words"), FAULTS, ids=[fault[0] for fault in FAULTS])
def test_a_joint_with_one_mistake(
    name: str, slug: str, changes: list[tuple[str, str]], keys: set[str], words: str
) -> None:
    made = changed(slug, changes)
    said = [c.words.metric.replace("\u202f", " ") for c in made.failed]
    assert {check.key for check in made.failed} == keys, said
    assert any(words in one for one in said), said
    assert all(all(check.advice) for check in made.failed)
    assert not any(ord(letter) in range(0xE000, 0xF900) for p in made.problems for letter in str(p))


def test_what_is_not_joined_is_not_secured() -> None:
    """Each is a problem with its place and what to do."""
    early = changed("welded-web", [(PRESSED, "clean: the shaft")])
    (problem,) = [p for p in early.problems if p.code == "not-joined"]
    assert "the shaft is not joined to anything yet" in str(problem)
    assert problem.remedy.startswith("join it first")
    unknown = changed("welded-web", [(WELD, WELD.replace("shaft", "shafft"))])
    assert [p.code for p in unknown.problems] == ["unknown-piece"]
    nobody = changed("welded-web", [("- piece: web", "- piece: wab")])
    assert "unknown-piece" in [p.code for p in nobody.problems]


CLOSED = [
    (
        "drill: 15 mm, through\n```\n\n```op\nbore: to 16 mm, through",
        "drill: 15 mm, deep 14 mm\n```\n\n```op\nbore: to 16 mm, deep 14 mm",
    ),
    ("face: to length 12 mm", "face: to length 20 mm"),
    ("part off: 30 mm", "part off: 10 mm"),
    (PRESSED, "press in: shaft, at -6 mm"),
]


def test_a_closed_hollow_is_not_heated() -> None:
    """The shaft shuts a blind hole: 16 mm, 14 deep less 4 of the shaft, and the drill's point, π/3 · 7.5³ / tan 59°."""
    made = changed("welded-web", CLOSED)
    (check,) = [c for c in made.failed if c.key == "heat-after"]
    assert "1 closed hollow of 2.28 cm³ would be heated and can burst" in check.words.metric.replace("\u202f", " ")
    assert "vent" in check.advice[1]


def test_a_thin_edge_beside_a_bead_burns_away() -> None:
    edge = [
        (
            "```op\nbore: to 16 mm, through\n```",
            "```op\nbore: to 16 mm, through\n```\n\n```op\ngroove: at 0 mm, wide 1 mm, to 24 mm\n```\n\n```op\nchamfer: 0.5 mm, on 23 mm, at 0 mm\n```",
        )
    ]
    made = changed("welded-web", edge)
    assert "order" in {check.key for check in made.failed}, [str(c.words) for c in made.failed]


def test_three_spokes_take_three_times_the_work_and_the_metal() -> None:
    """One spoke more or less changes time and stock of the whole by those of a spoke."""
    three, one = changed("spoked-hub", []), changed("spoked-hub", [(SPOKES, SPOKES.replace("divide 3", "at 0 deg"))])
    rod = 3.141592653589793 / 4 * 6**2 * 60 * 7.85e-3
    assert three.totals is not None
    assert one.totals is not None
    assert three.totals.stock_mass.value - one.totals.stock_mass.value == pytest.approx(2 * rod, rel=0.01)
    assert three.totals.cutting_minutes > one.totals.cutting_minutes
    first = next(setup for setup in three.setups if any(fact.key == "copies" for fact in setup.facts))
    assert "3 for each part" in str(next(fact.value for fact in first.facts if fact.key == "copies"))
