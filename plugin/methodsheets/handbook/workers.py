"""Shares the methods to be worked out among processes, and survives the death of one.

Processes are forked after everything that is slow to import has been imported, so that they begin at once. Each takes
the next method from a common counter. One that dies takes only its own task with it.
"""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby
from multiprocessing.connection import Connection, wait
from typing import Any

from .work import Bench, Done, Task

ENOUGH = 24
"""From so many tasks on it pays to start processes."""

Extra = Callable[[Task], tuple[Any, ...]]


def how_many(workers: int, tasks: int) -> int:
    """How many processes to use for so many tasks; 1 means this one alone.

    Parameters:
        workers: how many are allowed; 0 for one for each core
    """
    allowed = workers or os.cpu_count() or 1
    if allowed < 2 or tasks < ENOUGH or "fork" not in multiprocessing.get_all_start_methods():
        return 1
    return min(allowed, tasks)


def do_all(bench: Bench, tasks: Sequence[Task], extra: Extra, workers: int) -> Iterator[tuple[Task, Done | None]]:
    """Do every task; None for a task whose process died.

    Parameters:
        extra: gives the problems that a task's file had before
        workers: as `how_many` said
    """
    if workers < 2:
        for task in tasks:
            yield task, bench.do(task, extra(task))
        return
    left = list(tasks)
    while left:
        # One that dies takes its process with it; new ones go on with what nobody has begun.
        begun: set[Task] = set()
        for task, done in _round(bench, left, extra, min(workers, len(left))):
            begun.add(task)
            yield task, done
        if not begun:
            yield from ((task, None) for task in left)
            return
        left = [task for task in left if task not in begun]


def _round(bench: Bench, tasks: Sequence[Task], extra: Extra, workers: int) -> Iterator[tuple[Task, Done | None]]:
    """Start processes and take their results as they come, until all have ended."""
    context: Any = multiprocessing.get_context("fork")
    counter = context.Value("l", 0)
    lines: dict[Connection, Any] = {}
    for _ in range(workers):
        ours, theirs = context.Pipe(duplex=False)
        process = context.Process(target=_work, args=(bench, tasks, extra, counter, theirs), daemon=True)
        process.start()
        theirs.close()
        lines[ours] = process
    yield from _gather(tasks, lines)


def _work(bench: Bench, tasks: Sequence[Task], extra: Extra, counter: Any, line: Connection) -> None:
    """One process: take the next method, and for each workshop say so, do it, send the result.

    A method stays in one process for all its workshops, because they share its file and most of its pictures.
    """
    bench.album.in_child()
    methods = [list(places) for _, places in groupby(range(len(tasks)), lambda place: tasks[place].slug)]
    while True:
        with counter.get_lock():
            number = counter.value
            counter.value += 1
        if number >= len(methods):
            line.close()
            return
        for place in methods[number]:
            line.send(place)
            line.send(bench.do(tasks[place], extra(tasks[place])))


def _gather(tasks: Sequence[Task], lines: dict[Connection, Any]) -> Iterator[tuple[Task, Done | None]]:
    """Take results as they come; a task whose process died has none, and one that nobody began is left out."""
    current: dict[Connection, int] = {}
    while lines:
        for line in wait(list(lines)):
            assert isinstance(line, Connection)
            try:
                came = line.recv()
            except EOFError:
                lines.pop(line).join()
                if line in current:
                    yield tasks[current.pop(line)], None
                continue
            if isinstance(came, int):
                current[line] = came
            else:
                yield tasks[current.pop(line)], came
