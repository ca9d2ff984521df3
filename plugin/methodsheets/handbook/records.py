"""What was measured when a method was carried out, and what does that teach for the next time?

Records are plain CSV beside the methods: `records/<method>.csv`, and any file `records/<method>-….csv` dropped in
beside it, as the tablet view saves them. The first line names the columns; their order does not matter.
"""

from __future__ import annotations

import csv
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from methodsheets.reading.limits import RECORD_FILES, RECORD_LINES
from methodsheets.reading.problem import Place, Problem, Problems, did_you_mean
from methodsheets.reading.source import read_source, shown_path, unify_lines
from methodsheets.sheet.model import Limit, Method

from .library import Found
from .model import Drift, Experience, Record

FOLDER = "records"

COLUMNS: Mapping[str, tuple[str, ...]] = {
    "date": ("date", "day"),
    "batch": ("batch",),
    "method": ("method",),
    "revision": ("revision", "rev"),
    "workshop": ("workshop", "shop"),
    "by": ("by", "made by", "who"),
    "operation": ("operation", "op"),
    "limit": ("limit", "size", "name"),
    "part": ("part", "part_number", "part number", "number"),
    "measured": ("measured", "measured_mm", "measured mm", "mm"),
    "minutes": ("minutes", "min"),
    "note": ("note", "notes", "remark"),
}
"""Columns of a file of records, and other headings that mean the same. `measured` is in mm, or says its unit."""

HEADING = "date,batch,method,operation,limit,part,measured,minutes,note,revision,workshop,by"
"""First line of a new file of records."""

_NUMBER = re.compile(r"^([+-]?\d+(?:[.,]\d+)?)\s*(mm|in|inch|thou|\")?$")
_SCALE = {"": 1.0, "mm": 1.0, "in": 25.4, "inch": 25.4, '"': 25.4, "thou": 0.0254}

_NO_FRACTION = re.compile(r"[.,]0+$")
_DOTTED = re.compile(r"(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})", re.ASCII)
_WORDS = re.compile(r"[^\W_]+")

_LEAST_FOR_DRIFT = 3
_LARGEST = 1e6
"""No size [mm] and no time [min] of a record is larger."""


@dataclass(frozen=True)
class Records:
    """The records of one method and what is wrong with them."""

    records: tuple[Record, ...] = ()
    problems: tuple[Problem, ...] = ()


def records_of(found: Found, root: Path) -> Records:
    """Read the records of a method, from `records/` in its folder of methods and beside the method file.

    Parameters:
        root: paths in problems are given from here
    """
    files: list[list[Record]] = []
    problems = Problems()
    for file in record_files(found):
        source = read_source(file, found.root, problems, shown_path(file, root))
        if source is not None:
            files.append(parse_records(source.text, source.path, found.slug, problems))
    if len(record_files(found, most=RECORD_FILES + 1)) > RECORD_FILES:
        what = f"there are too many files of records of `{found.slug}`"
        problems.error(
            Place(found.path), what, f"at most {RECORD_FILES:,} are read", "put some together", code="too-many"
        )
    records = once(files)
    records.sort(key=lambda one: (one.date, one.batch, one.operation, one.limit, one.part_number))
    return Records(tuple(records), tuple(problems))


def record_files(found: Found, most: int | None = None) -> tuple[Path, ...]:
    """The files that hold records of a method, by name; at most so many."""
    folders = dict.fromkeys((found.root / FOLDER, found.file.parent / FOLDER))
    files = [file for folder in folders if folder.is_dir() for file in folder.glob(f"{found.slug}*.csv")]
    belongs = re.compile(rf"{re.escape(found.slug)}(?:--.*|-\d{{4}}-\d\d-\d\d.*)?\.csv", re.IGNORECASE)
    fitting = sorted((file for file in files if belongs.fullmatch(file.name)), key=lambda file: (file.stem, file))
    return tuple(fitting[: RECORD_FILES if most is None else most])


def _as_said(cell: str) -> str:
    """A cell without the apostrophe that keeps a spreadsheet from taking words for a formula."""
    words = cell.strip()
    return words[1:] if words[:1] == "'" and words[1:2] in ("=", "+", "-", "@") else words


def once(files: Iterable[Iterable[Record]]) -> list[Record]:
    """All records of several files; what a later file says again counts once, as the later file says it.

    A sheet on a tablet may be saved twice in a day, and both files dropped in: 'bush-2026-11-25.csv' and
    'bush-2026-11-25 (1).csv'. Lines of one file all count.
    """
    kept: dict[tuple[object, ...], list[Record]] = {}
    for rows in files:
        fresh: dict[tuple[object, ...], list[Record]] = defaultdict(list)
        for row in rows:
            fresh[said_of(row)].append(row)
        kept.update(fresh)
    return [row for rows in kept.values() for row in rows]


def said_of(row: Record) -> tuple[object, ...]:
    """What a line is about; sizes of parts without a number, and notes, are told apart by what they say."""
    about = (row.date, row.batch, row.operation, row.limit, row.part_number)
    if row.measured is not None:
        return (*about, "size", None if row.part_number else row.measured)
    return (*about, "minutes") if row.minutes is not None else (*about, "note", row.note)


def parse_records(text: str, path: str, slug: str, problems: Problems) -> list[Record]:
    """Read the lines of one file of records; a line that is wrong is left out, with a problem."""
    try:
        lines = _lines(text)
    except csv.Error as error:
        problems.error(Place(path), f"the file is no table ({error})", "records are CSV", code="record-file")
        return []
    rows = [(number, cells) for number, cells in enumerate(lines, 1) if any(cell.strip() for cell in cells)]
    columns = _columns(rows[0][1], path, problems) if rows else None
    found: list[Record] = []
    for number, cells in rows[1:] if columns else ():
        if not cells[0].lstrip().startswith("#"):
            said = dict(zip(columns or (), (_as_said(cell) for cell in cells), strict=False))
            record = _Line(said, Place(path, number), problems).record(slug, "".join(cells[len(columns or ()) :]))
            found += [record] if record is not None else []
    return found


def _lines(text: str) -> list[list[str]]:
    """The cells of every line. Some spreadsheets say in a line before all others what stands between the cells."""
    rows = unify_lines(text.removeprefix("\ufeff")).split("\n")[:RECORD_LINES]
    if rows[0].lower().startswith("sep="):
        rows[0] = ""
    return list(csv.reader(rows, delimiter=delimiter_of(next(filter(str.strip, rows), ""))))


def methods_said(text: str) -> set[str]:
    """The methods that the lines of a file of records name."""
    try:
        lines = [cells for cells in _lines(text) if any(cells)]
    except csv.Error:
        return set()
    heading, lines = lines[:1], lines[1:]
    places = [number for cells in heading for number, words in enumerate(cells) if column_of(words) == "method"]
    return {_as_said(cells[place]) for cells in lines for place in places if place < len(cells)} - {""}


def delimiter_of(heading: str) -> str:
    """What stands between the cells: where numbers have commas, spreadsheets save semicolons or tabs."""
    return max(",;\t", key=heading.count)


def column_of(words: str) -> str:
    """The column that a heading means; '' where it means none."""
    plain = " ".join(words.strip().lstrip("\ufeff").lower().split())
    return next((name for name, others in COLUMNS.items() if plain in others), "")


def _columns(heading: list[str], path: str, problems: Problems) -> list[str] | None:
    """What each column is, by its heading."""
    columns: list[str] = []
    for words in heading:
        name = column_of(words)
        if not name:
            near = did_you_mean(words.strip().lower(), COLUMNS)
            problems.error(Place(path), f"unknown column `{words.strip()}`", "", near, code="record-column")
        columns.append(name)
    missing = {"date", "operation"} - set(columns)
    if missing:
        what = f"there is no column `{min(missing)}`"
        rule = "the first line of a file of records names its columns"
        problems.error(Place(path), what, rule, f"begin it with `{HEADING}`", code="record-column")
        return None
    return columns


@dataclass(frozen=True)
class _Line:
    """One line of a file of records."""

    cells: Mapping[str, str]
    place: Place
    problems: Problems

    def record(self, slug: str, beyond: str) -> Record | None:
        """The line as a record; None where something in it is wrong. `beyond` is what has no heading."""
        before = len(self.problems)
        if beyond.strip():
            rule = "a number with a decimal comma stands in quotes, or semicolons stand between the cells"
            self._wrong(f"the line has more cells than there are headings (got `{beyond[:40]}`)", rule)
        other = self.cells.get("method", "")
        if other and other != slug:
            self._wrong(f"the line is of another method (got `{other}`)", "a file holds the records of one method")
        record = Record(
            date=self._date(),
            batch=self.cells.get("batch", ""),
            method=slug,
            operation=self._whole("operation"),
            limit=self.cells.get("limit", ""),
            part_number=self._whole("part"),
            measured=self._number("measured"),
            minutes=self._number("minutes"),
            note=self.cells.get("note", ""),
            line=self.place.line,
            revision=self.cells.get("revision", ""),
            workshop=self.cells.get("workshop", ""),
            by=self.cells.get("by", ""),
        )
        return record if len(self.problems) == before else None

    def _wrong(self, what: str, rule: str = "", remedy: str = "mend the line, or take it out") -> None:
        self.problems.error(self.place, what, rule, remedy, code="record-line")

    def _date(self) -> str:
        words = self.cells.get("date", "")
        dotted = _DOTTED.fullmatch(words)
        if dotted:  # as spreadsheets of many countries write it; with strokes it could be month first
            words = f"{dotted[3]}-{int(dotted[2]):02d}-{int(dotted[1]):02d}"
        try:
            return date.fromisoformat(words).isoformat()
        except ValueError:
            self._wrong(f"not a day (got `{words}`)", "a date is YYYY-MM-DD")
            return ""

    def _whole(self, column: str) -> int:
        words = _NO_FRACTION.sub("", self.cells.get(column, ""))  # a spreadsheet may say 3.0 or 3,0
        if words and not (words.isdecimal() and len(words) <= 9):
            self._wrong(f"`{column}` is no whole number (got `{words}`)")
            return 0
        return int(words or 0)

    def _number(self, column: str) -> float | None:
        words = self.cells.get(column, "")
        if not words:
            return None
        match = _NUMBER.match(words)
        if not match or (column == "minutes" and match.group(2)):
            self._wrong(f"`{column}` is no number (got `{words}`)", "sizes are in mm, or say `in` or `thou`")
            return None
        value = float(match.group(1).replace(",", ".")) * _SCALE[match.group(2) or ""]
        if not value < _LARGEST:
            self._wrong(f"`{column}` is out of reach (got `{words[:40]}`)")
            return None
        return value


def with_limits(records: Iterable[Record], method: Method) -> tuple[Record, ...]:
    """Records with the names of their limits as the method has them.

    Written by hand they say 'bore' where the method says `limits(bore, "H7")`, or nothing where there is only one.
    """
    limits = {operation.number: [limit.name for limit in operation.limits] for operation in method.operations}
    return tuple(
        replace(one, limit=_limit_meant(one.limit, limits.get(one.operation, []))) if one.measured is not None else one
        for one in records
    )


def _limit_meant(said: str, names: list[str]) -> str:
    """The one limit that can be meant; what was said where none or several can be."""
    if said in names:
        return said
    words = set(_WORDS.findall(said.lower()))
    fitting = [name for name in names if words <= set(_WORDS.findall(name.lower()))]
    return fitting[0] if len(fitting) == 1 else said


# What the records teach


def experience_of(method: Method, records: Iterable[Record]) -> Experience | None:
    """What the records of a method teach, compared with the method as it is now; None without records."""
    rows = list(records)
    if not rows:
        return None
    last_date, last_batch = max((row.date, row.batch) for row in rows)
    newest = [row for row in rows if (row.date, row.batch) == (last_date, last_batch) or _same_batch(row, last_batch)]
    timed = tuple(_timed(method, rows))
    correction = _correction(timed)
    totals = method.totals
    parts = max((row.part_number for row in newest), default=0)
    return Experience(
        last_batch=last_batch,
        last_date=last_date,
        parts=parts,
        minutes=_batch_minutes(method, newest, max(parts, 1)),
        correction=correction,
        corrected_one=totals.one_minutes * correction if totals and correction else None,
        corrected_batch=totals.batch_minutes * correction if totals and correction else None,
        timed=timed,
        drifts=tuple(_drifts(method, rows)),
    )


def _same_batch(row: Record, batch: str) -> bool:
    return bool(batch) and row.batch == batch


def _batch_minutes(method: Method, newest: Iterable[Record], parts: int) -> float | None:
    """[min] that all parts of a batch took; None where not every operation was timed.

    A line with the number of a part says what that part took, a line without one what each part took.
    """
    single: dict[int, list[float]] = defaultdict(list)
    each: dict[int, float] = {}
    for row in newest:
        if row.minutes is not None and row.part_number:
            single[row.operation].append(row.minutes)
        elif row.minutes is not None:
            each[row.operation] = row.minutes
    whole = 0.0
    for operation in method.operations:
        if len(single[operation.number]) >= parts:
            whole += sum(single[operation.number])
        elif operation.number in each:
            whole += each[operation.number] * parts
        elif operation.cutting_minutes + operation.handling_minutes > 0:
            return None
    return whole or None


def _timed(method: Method, rows: Iterable[Record]) -> Iterator[tuple[int, float, float]]:
    """Operations that were timed: (number, minutes estimated for one part, minutes measured, mean of all parts)."""
    measured: dict[int, list[float]] = defaultdict(list)
    for row in rows:
        if row.minutes is not None and row.operation:
            measured[row.operation].append(row.minutes)
    for operation in method.operations:
        times = measured.get(operation.number)
        estimated = operation.cutting_minutes + operation.handling_minutes
        if times and estimated > 0:
            yield operation.number, estimated, sum(times) / len(times)


def _correction(timed: tuple[tuple[int, float, float], ...]) -> float | None:
    """Measured time over estimated time, over all operations that were timed."""
    estimated = sum(one for _, one, _ in timed)
    return sum(one for _, _, one in timed) / estimated if estimated > 0 else None


def _drifts(method: Method, rows: Iterable[Record]) -> Iterator[Drift]:
    """How every size that was measured often enough has moved."""
    limits = {(op.number, limit.name): limit for op in method.operations for limit in op.limits}
    series: dict[tuple[int, str], list[tuple[str, int, float]]] = defaultdict(list)
    for row in rows:
        if row.measured is not None and (row.operation, row.limit) in limits:
            series[row.operation, row.limit].append((row.date, row.part_number, row.measured))
    for (operation, name), values in sorted(series.items()):
        if len(values) >= _LEAST_FOR_DRIFT:
            yield drift_of(operation, limits[operation, name], tuple(sorted(values)))


def drift_of(operation: int, limit: Limit, values: tuple[tuple[str, int, float], ...]) -> Drift:
    """How one measured size moves from part to part, and when it will meet its limit.

    The slope is that of the straight line with the least squares. It counts as a movement only where it is more than
    twice as large as its own uncertainty, so that scatter about a good size is not taken for wear.
    """
    lower, upper = (one.value for one in (limit.lower, limit.upper))
    sizes = [size for _, _, size in values]
    slope, uncertain = slope_of(sizes)
    moves = abs(slope) > 2 * uncertain and abs(slope) * len(sizes) > (upper - lower) / 20
    towards = ("upper" if slope > 0 else "lower") if moves else ""
    left = None
    if moves:
        # The fitted size of the last part, not the last reading, says where the size stands now.
        stands = sum(sizes) / len(sizes) + slope * (len(sizes) - 1) / 2
        room = (upper - stands) if slope > 0 else (stands - lower)
        left = max(0, int(room / abs(slope)))
    return Drift(operation, limit.name, values, lower=lower, upper=upper, per_part=slope, towards=towards,
                 parts_left=left, outside=sum(not lower - 1e-9 <= size <= upper + 1e-9 for size in sizes))  # fmt: skip


def slope_of(sizes: list[float]) -> tuple[float, float]:
    """Slope per part of the least-squares line through sizes in order, and its standard uncertainty.

    Source: the usual formulas for a straight line of least squares, from memory.
    """
    count = len(sizes)
    middle = (count - 1) / 2
    mean = sum(sizes) / count
    spread = sum((place - middle) ** 2 for place in range(count))
    slope = sum((place - middle) * (size - mean) for place, size in enumerate(sizes)) / spread
    left_over = sum((size - mean - slope * (place - middle)) ** 2 for place, size in enumerate(sizes))
    return slope, (left_over / max(count - 2, 1) / spread) ** 0.5
