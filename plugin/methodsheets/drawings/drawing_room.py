"""Which pictures does a method get? Draws them one by one; one that fails is reported and takes no other down."""

from __future__ import annotations

import functools
import hashlib
from collections.abc import Callable, MutableMapping
from dataclasses import dataclass, field, replace
from typing import Any, TypeVar

from methodfigures.explain.balance import draw_static_balance
from methodfigures.explain.fit_zones import draw_fit_zones
from methodfigures.explain.offset_setting import draw_offset_setting
from methodfigures.explain.press_fit import draw_press_fit
from methodfigures.explain.taper import draw_compound_slide
from methodfigures.explain.wires import draw_three_wires
from methodfigures.paper.drawing import Drawing as Figure
from methodfigures.part import draw_part, draw_portrait
from methodfigures.route.proof import draw_proof
from methodfigures.route.removed_metal import draw_removed_metal
from methodfigures.route.storyboard import draw_storyboard
from methodfigures.route.strip import draw_section_strip
from methodfigures.solids.views import ViewBook
from methodsheets.drawings import explaining, settings, story
from methodsheets.drawings.finished import NARROW, part_spec, portrait_spec
from methodsheets.drawings.scenes import scene_of
from methodsheets.drawings.solids import Drawn
from methodsheets.method.done import CheckedOperation
from methodsheets.method.job import Evaluated
from methodsheets.method.open_setup import CheckedSetup
from methodsheets.reading.blocks import CalcLine
from methodsheets.reading.problem import Place, Problem, Severity
from methodsheets.sheet.model import Drawing
from methodsheets.sheet.words import Words
from methodsheets.trade.fits.fits import Fit
from methodsheets.trade.fits.press_fits import PressFit

Memo = MutableMapping[str, Figure]
"""Pictures of one method that come out alike for several workshops, by content. Whoever keeps it forgets it when the
next method comes."""

Made = TypeVar("Made")


@dataclass
class DrawingRoom:
    """Draws the pictures of one evaluated method."""

    evaluated: Evaluated
    shared: Memo
    drawn: Drawn = field(default_factory=Drawn)
    book: ViewBook = field(default_factory=ViewBook)
    pictures: list[tuple[Drawing, str]] = field(default_factory=list)
    failed: list[Problem] = field(default_factory=list)

    def draw_all(self) -> list[tuple[Drawing, str]]:
        """All pictures with their SVG, in the order of the page."""
        job = self.evaluated.live
        self._calculations()
        for setup in job.setups:
            self._setting(setup)
            for done in setup.operations:
                self.draw_operation(setup, done)
                self._how_to_set(done)
        part = functools.cache(lambda: part_spec(self.drawn, job))  # worked out once for both widths of paper
        whole: tuple[tuple[str, str, Callable[[], Any], Callable[..., Figure]], ...] = (
            ("part", "The finished part", part, draw_part),
            ("part-narrow", "The finished part", lambda: (wide := part()) and replace(wide, width=NARROW), draw_part),
            ("portrait", "The finished part", lambda: portrait_spec(self.drawn, job), draw_portrait),
            ("proof", "What the method leaves wrong", lambda: story.faults(self.drawn, job), draw_proof),
            ("storyboard", "Route of the method", lambda: story.storyboard(self.drawn, job), draw_storyboard),
            (
                "storyboard-narrow",
                "Route of the method",
                lambda: story.storyboard(self.drawn, job, narrow=True),
                draw_storyboard,
            ),
            ("strip", "Route of the method in sections", lambda: story.strip(self.drawn, job), draw_section_strip),
            ("balance", "Balance", lambda: settings.balance_spec(self.drawn, job), draw_static_balance),
            ("in-stock", "The part in its stock", lambda: story.in_stock(self.drawn, job), draw_removed_metal),
        )
        for kind, caption, make, draw in whole:
            self._draw(kind, kind, "method", Words(caption), make, draw, 1)
        return self.pictures

    def _calculations(self) -> None:
        """Pictures of fits and press fits; a fit that a press fit is made from has its own."""
        live = self.evaluated.live
        nothing = tuple[tuple[str, CalcLine, Any], ...]()
        for name, line, found in self._through("calc", 1, lambda: tuple(explaining.calculated(live)), nothing):
            scheme, caption = f"calc-{name}", Words(f"{name}: {line.label}" if line.label else name)
            at = line.expression.place.line
            calls = self._through(scheme, at, functools.partial(explaining.calls_of, live, line), None)
            if calls is None:
                continue
            if isinstance(found, Fit):
                make = functools.partial(explaining.fit_spec, found, line.label)
                self._draw(scheme, "fit", scheme, caption, make, _without_views(draw_fit_zones), at)
            elif isinstance(found, PressFit):
                press = functools.partial(explaining.press_spec, found, line.label, calls)
                self._draw(scheme, "press-fit", scheme, caption, press, _without_views(draw_press_fit), at)

    def _setting(self, setup: CheckedSetup) -> None:
        """How the work is set in the chuck, where that is more than gripping it."""
        scheme = f"setup-{setup.number}"
        make = functools.partial(settings.offset_spec, setup)
        caption = Words(f"Set-up {setup.number}: what the dial gauge reads")
        self._draw(
            f"{scheme}-offset", "setting", scheme, caption, make, _without_views(draw_offset_setting), setup.line
        )

    def _how_to_set(self, done: CheckedOperation) -> None:
        """How a slide is set, or a thread measured."""
        scheme = f"op-{done.number}"
        slide, wires = functools.partial(settings.slide_spec, done), functools.partial(settings.wires_spec, done)
        caption = Words(f"{done.number}  Setting the top slide")
        self._draw(f"{scheme}-slide", "setting", scheme, caption, slide, _without_views(draw_compound_slide), done.line)
        caption = Words(f"{done.number}  Measuring over wires")
        self._draw(f"{scheme}-wires", "measuring", scheme, caption, wires, _without_views(draw_three_wires), done.line)

    def draw_operation(self, setup: CheckedSetup, done: CheckedOperation) -> None:
        """The picture of one operation in its set-up."""
        name = f"op-{done.number}"
        scene = self._through(name, done.line, functools.partial(scene_of, setup, done), None)
        if scene is None:
            return
        caption = done.words.led_by(f"{done.number}  ")
        make = functools.partial(scene.spec, self.drawn, setup, done)
        self._draw(name, scene.kind, name, caption, make, scene.draw, done.line)

    def _draw(
        self,
        name: str,
        kind: str,
        scheme: str,
        caption: Words,
        make: Callable[[], Any],
        draw: Callable[..., Figure],
        line: int,
    ) -> None:
        made = self._through(name, line, lambda: self._made(name, kind, scheme, caption, make, draw), None)
        if made is not None:
            self.pictures.append(made)

    def _made(
        self, name: str, kind: str, scheme: str, caption: Words, make: Callable[[], Any], draw: Callable[..., Figure]
    ) -> tuple[Drawing, str] | None:
        spec = make()
        if spec is None:
            return None
        content = spec.key()
        # The key says what is drawn and not for whom, so it is the same in every build, whatever was drawn before.
        key = f"{self.evaluated.method.slug}--{name}--{hashlib.sha256(content.encode()).hexdigest()[:8]}"
        figure = self.shared.get(content)
        if figure is None:
            figure = self.shared[content] = draw(spec, self.book)
        drawing = Drawing(
            key=key,
            kind=kind,
            caption=caption,
            description=figure.description,
            width_mm=figure.width_mm,
            height_mm=figure.height_mm,
            scheme=scheme,
        )
        return drawing, figure.inline(key)

    def _through(self, name: str, line: int, make: Callable[[], Made], otherwise: Made) -> Made:
        """The door of one picture: one that fails is our bug, and must not cost the reader the numbers or another."""
        try:
            return make()
        except Exception as error:
            self.failed.append(
                Problem(
                    Place(self.evaluated.method.path, line),
                    f"the picture `{name}` could not be drawn (got {type(error).__name__}: {error})",
                    "this is a fault of the program",
                    "please report it together with the method file",
                    Severity.WARNING,
                    "no-picture",
                )
            )
            return otherwise


def _without_views(draw: Callable[[Any], Figure]) -> Callable[..., Figure]:
    """A figure that shows no solid, called as if it took the book of views."""
    return lambda spec, _book: draw(spec)


def draw_method(
    evaluated: Evaluated, shared: Memo | None = None, views: ViewBook | None = None
) -> list[tuple[Drawing, str]]:
    """Every picture of an evaluated method with its inline SVG.

    `shared` lets workshops share equal pictures, `views` what their solids look like; keep both for one method.

    Pictures that could not be drawn are noted as problems of the evaluation (`evaluated.live.problems`).
    """
    room = DrawingRoom(evaluated, shared if shared is not None else {}, book=views or ViewBook())
    pictures = room.draw_all()
    evaluated.live.problems.extend(room.failed)
    return pictures


def draw_last(evaluated: Evaluated) -> str:
    """The picture of the last operation as an SVG file: in its set-up, else before and after; empty without one."""
    room = DrawingRoom(evaluated, {})
    setup = evaluated.live.setups[-1]
    if setup.operations:
        room.draw_operation(setup, setup.operations[-1])
        if not room.shared:
            make = functools.partial(story.last_steps, room.drawn, evaluated.live)
            room._draw("last", "storyboard", "last", Words(""), make, draw_storyboard, setup.line)
    return next(iter(room.shared.values())).standalone() if room.shared else ""


def draw_work(evaluated: Evaluated) -> str:
    """The finished work, as the cards of the handbook show it, as an SVG file; empty where there is none."""
    room, job = DrawingRoom(evaluated, {}), evaluated.live
    make = functools.partial(portrait_spec, room.drawn, job)
    room._draw("portrait", "portrait", "method", Words("The finished part"), make, draw_portrait, 1)
    return next(iter(room.shared.values())).standalone() if room.shared else ""
