"""What is this expression worth, and how did it come about?"""

from __future__ import annotations

import argparse
import json
import re
import sys
from pathlib import Path
from typing import Any

from methodsheets.faces.command import FAILED, CommandError
from methodsheets.faces.host_config import project_of
from methodsheets.handbook.exchange import VALUE_FORMAT, problem_data
from methodsheets.reading.problem import MethodError, Problem
from methodsheets.sheet.model import SCHEMA

_NAMED = re.compile(r"^\s*([^\W\d]\w*)\s*=(?!=)\s*(.+)$", re.DOTALL)


def work(options: argparse.Namespace) -> int:
    """`methodsheets work`: the value of each expression; `name = expression` makes a name for the next ones."""
    from methodsheets.formula.functions import Called
    from methodsheets.formula.working import line_working
    from methodsheets.method.scope import MethodReader
    from methodsheets.reading.text import text

    reader = MethodReader()
    told: list[dict[str, Any]] = []
    problems: list[Problem] = []
    for number, line in enumerate(options.expressions, 1):
        match = _NAMED.match(line)
        name = match.group(1) if match else ""
        expression = text(match.group(2) if match else line, "expression", number, match.start(2) + 1 if match else 1)
        calls: list[Called] = []
        try:
            value = reader.value(expression, calls)
            working = line_working(name, "", expression, value, reader.scope, calls)
            told.append(_told(line, value, working))
            if name:
                reader.scope.define(name, value, expression.place)
        except MethodError as error:
            problems.append(error.problem)
            if name:
                reader.scope.define(name, None, expression.place)
    if options.workshop and told:
        told[-1]["machines"] = _machines(options, told[-1])
    _tell(told, problems, as_json=options.json)
    return FAILED if problems else 0


def _told(line: str, value: Any, working: Any) -> dict[str, Any]:
    """One result: words in both systems, the number and its unit, fields of a result, the working."""
    from methodsheets.formula.display import shown
    from methodsheets.formula.measure import Measure

    made = shown(value)
    told: dict[str, Any] = {"expression": line}
    if isinstance(made, Measure):
        told |= {"value": made.value, "unit": made.unit, "kind": made.kind, "metric": made.metric, "inch": made.inch}
    else:
        told |= {"words": made}
    fields = getattr(value.data, "fields", None)
    if fields:
        told["fields"] = {name: _plain(shown(item)) for name, item in fields.items()}
    told["working"] = [working.plain, *(step.plain for step in working.steps)]
    told["sources"] = list(dict.fromkeys(one.source for one in (working, *working.steps) if one.source))
    rows = [row for one in (working, *working.steps) for row in one.rows]
    told["rows"] = [{"table": r.table, "row": r.row, "source": r.source, "trust": r.trust} for r in dict.fromkeys(rows)]
    told["heed"] = list(dict.fromkeys(words for one in (working, *working.steps) for words in one.heed))
    told["trust"] = list(dict.fromkeys(one.trust for one in (working, *working.steps) if one.trust))
    return told


def _plain(made: Any) -> Any:
    return made if isinstance(made, str) else {"value": made.value, "unit": made.unit, "metric": made.metric}


def _machines(asked: argparse.Namespace, told: dict[str, Any]) -> dict[str, str]:
    """What each machine of the workshop really turns at, for a result that is a spindle speed."""
    if told.get("unit") != "1/min":
        return {}
    from methodsheets.handbook.digests import base_digest
    from methodsheets.handbook.shops import find_workshops
    from methodsheets.handbook.store import Store

    options = project_of(asked, Path.cwd()).options()
    shops = find_workshops(options, options.methods, base_digest(), Store())
    key = shops.named(asked.workshop)
    if not key:
        raise CommandError(f"there is no workshop `{asked.workshop}`; there are {', '.join(shops.digests)}")
    found = {}
    for machine in shops.workshop(key).machines.values():
        if machine.speeds.high:
            setting = machine.speed_for(told["value"])
            found[machine.name] = f"{setting.value:g} 1/min" + (f" ({setting.note})" if setting.note else "")
    return found


def _tell(told: list[dict[str, Any]], problems: list[Problem], *, as_json: bool) -> None:
    if as_json:
        whole = {"format": VALUE_FORMAT, "schema": SCHEMA, "values": told, **_only_problems(problems)}
        print(json.dumps(whole, ensure_ascii=False, indent=1))
        return
    for one in told:
        print(_line(one))
        for name, field in one.get("fields", {}).items():
            print(f"  {name}: {field if isinstance(field, str) else field['metric']}")
        for line in one["working"]:
            if line:
                print(f"  {line}")
        for words in one["heed"]:
            print(f"  heed: {words}")
        for row in one["rows"]:
            print(f"  {row['trust']}: {row['table']}, row {row['row']}; {row['source']}")
        for label in ("sources", "trust"):
            if one[label]:
                print(f"  {label}: {'; '.join(one[label])}")
        for name, speed in one.get("machines", {}).items():
            print(f"  {name}: {speed}")
    for problem in problems:
        print(problem, file=sys.stderr)


def _line(one: dict[str, Any]) -> str:
    if "metric" not in one:
        return str(one["words"])
    return str(one["metric"]) + (f"  ({one['inch']})" if one["inch"] != one["metric"] else "")


def _only_problems(problems: list[Problem]) -> dict[str, Any]:
    return {"problems": problem_data(problems)["problems"]}


def verbs(options: argparse.Namespace) -> int:
    """`methodsheets verbs`: every verb with its clauses, or one alone."""
    from methodsheets.operations.vocabulary import verb_names
    from methodsheets.operations.word_list import word_list
    from methodsheets.reading.problem import did_you_mean

    told = word_list(options.verb)
    if not told:
        raise CommandError(f"there is no verb `{options.verb}`; {did_you_mean(options.verb, verb_names())}")
    print(told, end="")
    return 0


def sayings(options: argparse.Namespace) -> int:
    """`methodsheets sayings`: the page `How do I say …` with its pictures, and the writing guide."""
    from methodsheets.handbook.sayings import (
        FOLDER,
        GUIDE,
        GUIDE_FOLDER,
        guide_page,
        guide_pictures,
        pictures,
        sayings_page,
    )
    from methodsheets.reading.inside import Inside
    from methodsheets.reading.limits import FILE_BYTES
    from methodsheets.reading.problem import Problems
    from methodsheets.workshop.reader import read_workshop

    folder, file, methods = (Path(one) for one in (options.folder, options.workshop, options.methods))
    problems = Problems()
    shop = read_workshop(file, file.parent, problems)
    if shop is None:
        raise CommandError(str(next(iter(problems), f"no workshop in {file}")))
    door, kept = Inside(folder), Inside(methods)
    door.place("guide.md")  # told before anything is drawn
    texts = {name: kept.read(methods / f"{name}.md", FILE_BYTES).decode("utf-8") for name, _ in GUIDE.values()}
    for saying, svg in pictures(shop):
        if svg:
            door.write(f"{FOLDER}/{saying.key}.svg", svg.encode())
    door.write("how-do-i-say.md", sayings_page().encode())
    for name, svg in guide_pictures(shop, texts):
        door.write(f"{GUIDE_FOLDER}/{name}.svg", svg.encode())
    door.write("guide.md", guide_page(texts).encode())
    return 0


def limits(options: argparse.Namespace) -> int:
    """`methodsheets limits`: how much is too much, as the page of the guide."""
    from methodsheets.reading.limits import limits_page

    print(limits_page(), end="")
    return 0


def messages(options: argparse.Namespace) -> int:
    """`methodsheets messages`: everything that a file can be told, as the page of the guide."""
    from methodsheets.faces.message_list import message_list

    print(message_list(), end="")
    return 0
