"""Which thread does this name mean?"""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..form.calculation import NotInTable
from ..form.rows import Row, take
from ..form.tables import read_table

INCH = 25.4


@dataclass(frozen=True)
class ThreadForm:
    """The shape of a thread: its angle and what its diameters lose for each millimetre of pitch.

    `effective`, `minor` and `core` are taken off the outside diameter: to the effective diameter, to the hole's
    minor diameter and to the core of the screw.
    """

    name: str
    angle: float
    effective: float
    minor: float
    core: float


ISO = ThreadForm("ISO 60", 60.0, 0.649519, 1.082532, 1.226869)
UNIFIED = ThreadForm("unified 60", 60.0, 0.649519, 1.082532, 1.190785)
WHITWORTH = ThreadForm("Whitworth 55", 55.0, 0.640327, 1.280654, 1.280654)
BA_FORM = ThreadForm("BA 47.5", 47.5, 0.6, 1.2, 1.2)
TRAPEZOIDAL = ThreadForm("trapezoidal 30", 30.0, 0.5, 1.0, 1.0)
"""The core of a trapezoidal screw loses twice the crest clearance more, see `crest_clearance`."""

FORMS: Mapping[str, ThreadForm] = {
    "M": ISO,
    "M fine": ISO,
    "UNC": UNIFIED,
    "UNF": UNIFIED,
    "UNEF": UNIFIED,
    "UNS": UNIFIED,
    "BSW": WHITWORTH,
    "BSF": WHITWORTH,
    "BSB": WHITWORTH,
    "ME": WHITWORTH,
    "Whitworth form": WHITWORTH,
    "G": WHITWORTH,
    "BA": BA_FORM,
    "Tr": TRAPEZOIDAL,
}

_SYSTEM_WORDS: Mapping[str, tuple[str, ...]] = {
    "unc": ("UNC",),
    "unf": ("UNF",),
    "unef": ("UNEF",),
    "uns": ("UNS",),
    "un": ("UNC", "UNF", "UNEF", "UNS"),
    "nc": ("UNC",),
    "nf": ("UNF",),
    "bsw": ("BSW",),
    "whit": ("BSW", "Whitworth form"),
    "whitworth": ("BSW", "Whitworth form"),
    "w": ("BSW", "Whitworth form"),
    "bsf": ("BSF",),
    "bsb": ("BSB",),
    "brass": ("BSB",),
    "me": ("ME", "Whitworth form"),
    "cycle": (),
    "bsp": ("G",),
    "bspp": ("G",),
    "bspf": ("G",),
    "g": ("G",),
}
_USUAL_ORDER = ("UNC", "UNF", "UNEF", "BSW", "BSF", "ME", "BSB")
_MODEL_ORDER = ("ME", "UNEF", "UNC", "UNF", "BSW", "BSF", "BSB")


@dataclass(frozen=True)
class ThreadSize:
    """One size of thread: its outside diameter and pitch in mm, and the drills a table lists for it."""

    name: str
    system: str
    form: ThreadForm
    major: float
    pitch: float
    tpi: float | None
    drill: str
    inch_drill: str
    note: str
    row: Row | None = None
    """Where the table lists it; nothing for a size worked out from its name."""


def thread_size(name: str) -> ThreadSize:
    """Read the name of a thread as people type it.

    Raises:
        NotInTable: no thread has that name; the nearest names are suggested.
    """
    plain = _tidy(name)
    found = _metric(plain) or _numbered(plain) or _pipe(plain) or _inch(plain)
    if found is None:
        raise NotInTable(name, "thread", thread_names())
    if found.row is not None:
        take(found.row, "major", "pitch")
    return found


@functools.cache
def thread_names() -> tuple[str, ...]:
    """Return the name of every standard size, in the order of the table."""
    return tuple(row["size"] for row in read_table("threads").rows)


@functools.cache
def standard_threads() -> tuple[ThreadSize, ...]:
    """Return every standard size."""
    return tuple(_from_row(row) for row in read_table("threads").rows)


def crest_clearance(pitch: float) -> float:
    """Return the crest clearance [mm] of a trapezoidal thread, ISO 2902 (from memory)."""
    return 0.15 if pitch < 2 else 0.25 if pitch <= 5 else 0.5 if pitch <= 12 else 1.0


def _from_row(row: Row) -> ThreadSize:
    tpi = float(row["pitch"]) if row["pitch_unit"] == "tpi" else None
    major = float(row["major"]) * (INCH if row["unit"] == "in" else 1.0)
    pitch = INCH / tpi if tpi else float(row["pitch"])
    form = FORMS[row["system"]]
    return ThreadSize(
        name=row["size"], system=row["system"], form=form, major=major, pitch=pitch, tpi=tpi,
        drill=row["drill"], inch_drill=row["inch_drill"], note=row["note"], row=row,
    )  # fmt: skip


def left_hand(name: str) -> bool:
    """Whether the designation says a left-hand thread: `M12 LH`, `M12x1.75-LH`, `1/4 BSP left hand` (ISO 965-1: LH)."""
    return re.search(_LEFT_HAND, name.strip(), re.IGNORECASE) is not None


_LEFT_HAND = r"[\s-](?:lh|left[\s-]hand)$"


_SEVERAL = r"x\s*(?:Ph\s*)?(\d*\.?\d+)\s*(?:\(\s*P\s*(\d*\.?\d+)\s*\)|P\s*(\d*\.?\d+))"
"""Lead and pitch of several starts: `Tr20x8(P4)` (ISO 2902), `M16xPh3P1.5` (ISO 965-1); both from memory."""


def thread_starts(name: str) -> int:
    """How many starts the designation says: 2 of `Tr20x8(P4)`, of `M16xPh3P1.5`; 1 where it says no lead.

    Raises:
        ValueError: the lead is no whole number of pitches.
    """
    found = re.search(_SEVERAL, _spaced(name), re.IGNORECASE)
    if found is None:
        return 1
    lead, pitch = float(found[1]), float(found[2] or found[3])
    starts = round(lead / pitch) if pitch > 0 else 0
    if starts < 1 or abs(lead - starts * pitch) > 1e-6:
        raise ValueError(f"a lead is a whole number of pitches (got lead {lead:g}, pitch {pitch:g})")
    return starts


def of_starts(size: ThreadSize, starts: int) -> str:
    """The designation of a thread with several starts; its plain name with one, or where it has no such designation."""
    if starts == 1 or size.system not in ("Tr", "M", "M fine"):
        return size.name
    lead, head = f"{starts * size.pitch:g}", f"{'Tr' if size.system == 'Tr' else 'M'}{size.major:g}"
    return f"{head}x{lead}(P{size.pitch:g})" if size.system == "Tr" else f"{head}xPh{lead}P{size.pitch:g}"


def _spaced(name: str) -> str:
    """With x for every sign of times."""
    return name.strip().replace("×", "x").replace("*", "x")


def _tidy(name: str) -> str:
    """Bring a typed name to one form: single blanks, x for times, no quotes, no tolerance class."""
    text = _spaced(name).replace('"', " ").replace("″", " ").replace("№", "#")
    text = re.sub(r"\b(?:inches|inch|in|mm|t\.?p\.?i\.?)(?=\s|$|x|-)", " ", text, flags=re.IGNORECASE)
    text = re.sub(r"(?<=[\d\s])mm\b|(?<=[\d\s])tpi\b", " ", text, flags=re.IGNORECASE)
    text = re.sub(_LEFT_HAND, "", text, flags=re.IGNORECASE)
    text = re.sub(r"[\s-](?:[1-7][AB]|\d[a-hA-H](?:\d[a-hA-H])?)$", "", text)
    text = re.sub(_SEVERAL, lambda said: f"x{said[2] or said[3]}", text, flags=re.IGNORECASE)
    text = re.sub(r"\bfine\b|\bcoarse\b", lambda word: " " + word[0], text, flags=re.IGNORECASE)
    return re.sub(r"\s+", " ", text).strip()


def _metric(text: str) -> ThreadSize | None:
    """Read `M6`, `M6x1`, `M6 x 0.75`, `M8 fine`, `Tr10x2`."""
    found = re.fullmatch(r"(m|mf|tr)\s*(\d*\.?\d+)(?:\s*[x-]\s*(\d*\.?\d+))?(?:\s*(fine|coarse))?", text, re.IGNORECASE)
    if found is None:
        return None
    kind, major = found[1].lower(), float(found[2])
    systems = ("Tr",) if kind == "tr" else ("M", "M fine")
    sizes = [size for size in standard_threads() if size.system in systems and size.major == major]
    if found[3]:
        pitch = float(found[3])
        matching = [size for size in sizes if size.pitch == pitch]
        return matching[0] if matching else _special_metric(kind, major, pitch)
    if kind == "mf" or (found[4] or "").lower() == "fine":
        sizes = [size for size in sizes if size.system == "M fine"]
    return sizes[0] if sizes else None


def _special_metric(kind: str, major: float, pitch: float) -> ThreadSize | None:
    """Return a metric thread of no standard pitch, if it is a thread at all."""
    form, system = (TRAPEZOIDAL, "Tr") if kind == "tr" else (ISO, "M fine")
    if pitch <= 0 or major <= 2 * form.core * pitch:
        return None
    label = f"{'Tr' if kind == 'tr' else 'M'}{major:g}x{pitch:g}"
    return ThreadSize(
        name=label,
        system=system,
        form=form,
        major=major,
        pitch=pitch,
        tpi=None,
        drill="",
        inch_drill="",
        note="not a standard pitch for this diameter",
    )


def _numbered(text: str) -> ThreadSize | None:
    """Read `2BA`, `BA 2`, `#10-24`, `10-32 UNF`, `No. 4-40`."""
    ba = re.fullmatch(r"(?:no\.?\s*|#)?(\d{1,2})\s*b\.?a\.?|b\.?a\.?\s*(\d{1,2})", text, re.IGNORECASE)
    if ba:
        return _named(f"{int(ba[1] or ba[2])} BA")
    found = re.fullmatch(r"(no\.?\s*|#)?\s*(\d{1,2})\s*[-x]\s*(\d{2})\s*([a-z]*)", text, re.IGNORECASE)
    if found is None:
        return None
    for system in _systems(found[4], _USUAL_ORDER[:3]):
        size = _named(f"{int(found[2])}-{int(found[3])} {system}")
        if size is not None and (size.major < 0.25 * INCH or not found[1]):
            return size
    return None


def _pipe(text: str) -> ThreadSize | None:
    """Read `G1/4`, `1/4 BSP`, `G 1 1/2`; `Rp 1/4`, the parallel inside thread of ISO 7-1, has the same sizes."""
    found = re.fullmatch(r"(?:g|rp)\s*([\d/\s-]+)|([\d/\s-]+?)\s*(?:bspp|bspf|bsp|g)", text, re.IGNORECASE)
    inches = _inches(found[1] or found[2]) if found else None
    return None if inches is None else _named(f"G{_spoken(inches)}")


def _inch(text: str) -> ThreadSize | None:
    """Read `1/4-20 UNC`, `1/4-28`, `1/4x32 ME`, `3/8 BSF`, `1 1/8-7 UNC`, `0.25-20`."""
    found = re.fullmatch(
        r"(?P<size>\d+[\s-]\d+/\d+|\d+/\d+|\d*\.\d+|\d+)\s*(?:(?P<join>[-x]|\s)\s*(?P<tpi>\d{1,2}(?:\.5)?))?\s*(?P<word>[a-z.]*)"
        r"(?:\s+form)?",
        text,
        re.IGNORECASE,
    )
    inches = _inches(found["size"]) if found else None
    if found is None or inches is None or not (found["tpi"] or found["word"]):
        return None
    order = _MODEL_ORDER if found["join"] == "x" else _USUAL_ORDER
    systems = _systems(found["word"], order)
    major, tpi = float(inches) * INCH, float(found["tpi"]) if found["tpi"] else None
    for system in systems:
        for size in standard_threads():
            if size.system == system and abs(size.major - major) < 1e-3 and tpi in (None, size.tpi):
                return size
    return _special_inch(inches, tpi, systems) if found["word"] else None


def _special_inch(inches: Fraction, tpi: float | None, systems: tuple[str, ...]) -> ThreadSize | None:
    """Return an inch thread of no standard pitch where the name says which form it has."""
    system = next((system for system in systems if system in ("UNS", "Whitworth form")), None)
    if system is None or tpi is None or float(inches) * tpi <= 4:
        return None
    form, major = FORMS[system], float(inches) * INCH
    note = "not a standard size"
    return ThreadSize(
        name=f"{_spoken(inches)}-{tpi:g} {system}",
        system=system,
        form=form,
        major=major,
        pitch=INCH / tpi,
        tpi=tpi,
        drill="",
        inch_drill="",
        note=note,
    )


def _systems(word: str, usual: tuple[str, ...]) -> tuple[str, ...]:
    plain = word.lower().replace(".", "")
    return _SYSTEM_WORDS.get(plain, ()) if plain else usual


@functools.cache
def _by_name() -> Mapping[str, ThreadSize]:
    return {size.name: size for size in standard_threads()}


def _named(name: str) -> ThreadSize | None:
    return _by_name().get(name)


def _inches(text: str) -> Fraction | None:
    """Read a size in inches: whole, fraction, mixed or decimal."""
    try:
        return sum((Fraction(part) for part in re.split(r"[\s-]+", text.strip())), Fraction(0))
    except (ValueError, ZeroDivisionError):
        return None


def _spoken(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    return " ".join(part for part in (str(whole) if whole else "", str(rest) if rest else "") if part)
