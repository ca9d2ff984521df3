"""What stands in the page in place of a `setup` block? How the work is held, to scale, and whether that can be."""

from __future__ import annotations

from methodsheets.sheet.model import Drawing, Method, Setup

from . import document as d
from . import wording
from .places import Places


def setup_blocks(method: Method, setup: Setup, places: Places) -> d.Blocks:
    """Return the card of a set-up for one workshop."""
    head = d.Group(
        "setup-head",
        (
            d.Paragraph(d.words(f"Set-up {setup.number}"), kind="setup-mark"),
            d.Paragraph((d.Strong(d.words(wording.sentence(setup.words))),), kind="setup-words"),
            d.Paragraph(d.words(wording.sentence(setup.machine_name)), kind="setup-machine"),
        ),
    )
    after = next((one for one in method.setups if one.number == setup.number + 1), None)
    pairs = [wording.fact_pair(fact) for fact in setup.facts]
    pairs.append(d.Pair(d.words("To set up, once"), d.value(wording.minutes(setup.setting_minutes)), key="setting"))
    body: list[d.Block] = [head, *_skip(after), d.Pairs(tuple(pairs), kind="facts")]
    body += wording.recalled_note((setup,))
    body += wording.failed_boxes(setup.checks)
    body += [figure(drawing, places) for drawing in drawings_of(method, setup.figures)]
    body += wording.caution_box(setup.cautions)
    if setup.notes:
        body.append(d.Listing(tuple(d.words(note) for note in setup.notes), kind="notes"))
    body += wording.checks_disclosure(setup.checks, f"set-up {setup.number}")
    return (d.Group("card setup", tuple(body), id=setup.id, attributes=(("data-ms-setup", str(setup.number)),)),)


def _skip(after: Setup | None) -> d.Blocks:
    """The way past the operations of a set-up, for who goes by keyboard: seen when it is come to."""
    if after is None:
        return ()
    link = d.Link(f"#{after.id}", d.words(f"Skip to set-up {after.number}"), kind="skip")
    return (d.Group("skips", (d.Paragraph((link,)),), attributes=(("data-search-exclude", ""),)),)


def drawings_of(method: Method, keys: tuple[str, ...]) -> list[Drawing]:
    """The drawings with these keys, in this order; unknown keys are left out."""
    known = {drawing.key: drawing for drawing in method.drawings}
    return [known[key] for key in keys if key in known]


def figure(drawing: Drawing, places: Places, kind: str = "", *, linked: bool = True) -> d.FigurePlace:
    """The place of a drawing; `linked` offers it as a file of its own too."""
    key = places.picture(drawing.key)
    file = places.drawing_file(key)
    return d.FigurePlace(key, drawing.caption, drawing.description, file, kind or drawing.kind, linked)
