"""Which piece is worked on in a set-up, what is it made of, and what does its stock look like?"""

from __future__ import annotations

from methodsheets.method.job import Job
from methodsheets.method.piece import Piece
from methodsheets.operations.by_faces import by_its_faces, wants_block
from methodsheets.operations.stock import StockSaid, lay_stock, read_stock
from methodsheets.operations.vocabulary import entry_text
from methodsheets.operations.words import Said
from methodsheets.reading.method_file import Block
from methodsheets.reading.problem import MethodError, Problems
from methodsheets.reading.text import Text
from methodsheets.trade.form.errors import NotInTable
from methodsheets.trade.metal.materials import Material, material
from methodsheets.workpiece import Stock, Workpiece, mass
from methodsheets.workpiece.bodies import Body
from methodsheets.workpiece.state import State


def material_named(problems: Problems, text: Text) -> Material | None:
    """The material of that name; None (and a problem) where the table has none."""
    try:
        return material(text.value)
    except NotInTable as error:
        known = ", ".join(error.suggestions[:4]) if getattr(error, "suggestions", None) else ""
        problems.error(
            text.place,
            f"no such material (got `{text.value}`)",
            "materials are named as in the table",
            f"did you mean {known}?" if known else "see the table of materials",
            code="unknown-material",
        )
        return None


def piece_of(job: Job, block: Block, hold: Said) -> Piece:
    """The piece of a set-up; it is begun with its stock where it was not there yet, and lies as it is first held.

    Raises:
        MethodError: its stock or material is not known, or is said twice.
    """
    named, stock_text = entry_text(block, "piece"), entry_text(block, "stock")
    first = job.file.front.piece.value if job.file.front.piece else "work"
    name = named.value if named else (job.setups[-1].piece.name if job.setups else first)
    if not job.pieces and named and not job.file.front.piece and stock_text is None:
        name = named.value
    if name in job.pieces:
        if stock_text:
            raise MethodError(
                stock_text.place,
                f"the piece `{name}` has its stock already",
                "stock is given once",
                "take it away or name another piece",
                code="repeated-stock",
            )
        return job.pieces[name]
    text = stock_text or (job.file.front.stock if not job.pieces else None)
    if text is None:
        known = ", ".join(f"`{n}`" for n in job.pieces)
        raise MethodError(
            named.place if named else block.place,
            f"no stock for the piece `{name}`",
            "every piece starts with its stock",
            f"add `stock: round 20 mm x 96 mm`{', or name one of ' + known if known else ''}",
            code="missing-stock",
        )
    own = entry_text(block, "material")
    made_of = material_named(job.problems, own) if own else job.material
    if made_of is None:
        raise MethodError(
            text.place,
            f"the material of the piece `{name}` is not known",
            "weights, speeds and forces depend on it",
            "mend the material first",
            code="follow-up",
        )
    piece = _laid(job, name, made_of, text, hold)
    job.pieces[name] = piece
    return piece


def _laid(job: Job, name: str, made_of: Material, text: Text, hold: Said) -> Piece:
    """A piece as its stock, before anything is cut."""
    said = read_stock(text, job.reader)
    faces = wants_block(by_its_faces(hold, only_faces=said.only_faces, lies=said.kind.row.lies))
    if said.kind.row.elsewhere:
        return _from_another(job, name, made_of, said, text)
    work = Workpiece(job.kernel, name)
    try:
        stock = lay_stock(job.kernel, said, upright=not faces)
    except ValueError as error:
        raise MethodError(
            text.place, f"the stock makes no solid: {error}", "", "check its sizes", code="no-solid"
        ) from None
    work.start(stock, made_of.name, made_of.density * 1e-6, body=name)
    return _piece(work, made_of, said, stock, rough=said.kind.row.rough, allowance=said.allowance,
                  faces=faces or said.only_faces)  # fmt: skip


def _from_another(job: Job, name: str, made_of: Material, said: StockSaid, text: Text) -> Piece:
    """A piece that begins as what another method of the handbook makes."""
    other = job.library(said.source)
    if other is None or not other.live.main:
        raise MethodError(
            text.place,
            f"no such method to take stock from (got `{said.source}`)",
            "`from` names a method of this handbook",
            "check the name",
            code="unknown-method",
        )
    whole = other.live.pieces[other.live.main]
    source, work = whole.work, Workpiece(job.kernel, name)
    job.kernel.table.adopt(source.kernel.table)
    bodies = {n: Body(b.solid, b.material, b.density) for n, b in source.bodies.items()}
    work.state = State(bodies, source.ends, source.marks)
    return _piece(work, made_of, said, None, rough=whole.rough, allowance=whole.allowance, faces=whole.faces)


def _piece(
    work: Workpiece,
    made_of: Material,
    said: StockSaid,
    stock: Stock | None,
    *,
    rough: bool,
    allowance: float,
    faces: bool,
) -> Piece:
    return Piece(
        name=work.name, work=work, material=made_of, said=said, stock=stock, start=work.state,
        grams=mass(work.state).grams, rough=rough, allowance=allowance, faces=faces,
    )  # fmt: skip
