"""How fast is it? Ratios measured in one run, beside the budgets; it reports and fails nothing.

"Plain" is MkDocs with the same theme publishing the same finished pages: their content as it came out of our build,
with the drawings as files, and without our plugin. Rounds alternate, and ratios are medians of the rounds' ratios, so
that other work on the machine falls on both alike.
"""

from __future__ import annotations

import argparse
import os
import re
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "pages"))

from made_up import SITE, method, write_handbook
from opening import PLAIN, opened, pages_of
from weighing import weight

ROOT = Path(__file__).resolve().parents[2]
WORKSHOP = ROOT / "plugin" / "methodsheets" / "workshop" / "usual.yml"
ENVIRONMENT = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}

_ARTICLE = re.compile(r"<article\b[^>]*>(.*)</article>", re.DOTALL)
_DRAWING = re.compile(r"<svg\b[^>]*class=\"ms-drawing\".*?</svg>", re.DOTALL)


@dataclass
class Line:
    """One line of the report."""

    what: str
    measured: str
    first_mark: str
    moonshot: str


def main() -> None:
    """Measure and print."""
    options = arguments()
    lines: list[Line] = []
    with tempfile.TemporaryDirectory(prefix="methodsheets-bench-") as somewhere:
        folder = Path(somewhere)
        lines += builds(folder / "site", options.methods, options.rounds)
        if options.many:
            lines += builds(folder / "many" / "site", options.many, 1)
        lines += editing(folder / "large", options.large)
        lines += commands(folder / "site", options.rounds)
        lines += growth(folder, options.growth)
        lines += heaviest(folder / "demo")
    lines += pictures()
    print(
        f"\n{options.methods} methods with 8 operations, 1 workshop; {os.cpu_count()} cores; Python {sys.version.split()[0]}\n"
    )
    widths = [
        max(len(getattr(line, name)) for line in lines) for name in ("what", "measured", "first_mark", "moonshot")
    ]
    head = Line("what", "measured", "first mark", "moonshot")
    for line in (head, *lines):
        cells = (line.what, line.measured, line.first_mark, line.moonshot)
        print("  ".join(cell.ljust(max(width, 10)) for cell, width in zip(cells, widths, strict=True)))


def arguments() -> argparse.Namespace:
    """What to measure."""
    made = argparse.ArgumentParser(description=__doc__)
    made.add_argument("--methods", type=int, default=50, help="methods of the handbook that is built (50)")
    made.add_argument("--large", type=int, default=200, help="methods of the handbook in which one is edited (200)")
    made.add_argument("--growth", type=int, nargs="*", default=[50, 200], help="sizes for the line on growth (50 200)")
    made.add_argument("--many", type=int, default=1000, help="methods of a very large handbook; 0 for none (1000)")
    made.add_argument("--rounds", type=int, default=3, help="rounds of each comparison (3)")
    return made.parse_args()


def builds(site: Path, methods: int, rounds: int) -> list[Line]:
    """Whole builds: cold and with nothing changed, against plain pages."""
    write_handbook(site, methods, WORKSHOP)
    store = site / ".cache"
    cold, warm, plain = [], [], []
    peaks: dict[str, float] = {}
    for number in range(rounds):
        shutil.rmtree(store, ignore_errors=True)
        say(f"build {number + 1} of {rounds}: cold")
        cold.append(build(site, peaks, "cold"))
        if number == 0:
            make_plain(site, site.parent / "plain")
        say("nothing changed")
        warm.append(build(site, peaks, "warm"))
        say("plain")
        plain.append(build(site.parent / "plain", peaks, "plain"))
    of = f" of {methods}"
    return [
        Line(
            f"cold build{of}", f"{ratio(cold, plain):.2f} x plain ({middle(cold):.1f} s)", "< 17 x plain", "3 x plain"
        ),
        Line(
            f"nothing{of} changed",
            f"{ratio(warm, plain):.2f} x plain ({middle(warm):.1f} s)",
            "1.00 x plain",
            "0.80 x plain",
        ),
        Line(f"plain pages{of}", f"{middle(plain):.2f} s, {peaks['plain']:.0f} MB", "", ""),
        Line(f"memory{of}, cold", f"plain + {peaks['cold'] - peaks['plain']:.0f} MB", "", "plain + 60 MB"),
        Line(f"memory{of}, nothing changed", f"plain + {peaks['warm'] - peaks['plain']:.0f} MB", "", "plain + 60 MB"),
    ]


def heaviest(site: Path) -> list[Line]:
    """The heaviest page of a method of the demo, as it is opened first: three workshops, workings, drawings."""
    say("the demo handbook")
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "-f", str(ROOT / "mkdocs.yml"), "-d", str(site)]
    subprocess.run(command, check=True, cwd=ROOT, env=ENVIRONMENT | {"OFFLINE": "true"})
    pages = [page for page in site.glob("methods/*.html") if (page.parent / page.stem / "bench.html").exists()]
    found = [weight(page) for page in pages]
    bytes_, elements = (max(one[which] for one in found) for which in (0, 1))
    return [
        Line("heaviest page of the demo", f"{bytes_ / 1000:.0f} kB", "<= 300 kB", "150 kB"),
        Line("its elements", f"{elements}", "<= 5000", "2500"),
        *tablet(site),
    ]


def tablet(site: Path) -> list[Line]:
    """How the pages of the demo open on a slow tablet; nothing where there is no browser."""
    say("pages on a slow tablet")
    try:
        found = opened(site, pages_of(site))
    except ImportError:
        return []
    worst = max(found, key=lambda one: one.moved)
    plain = next(one.ready for one in found if one.page == PLAIN)
    return [
        Line("ready on a slow tablet", f"{found[0].ready:.1f} s ({found[0].page})", "<= 1 s", "0.5 s"),
        Line("a plain page of the theme there", f"{plain:.1f} s", "", ""),
        Line("slowest page / plain page", f"{found[0].ready / plain:.1f}", "<= 2", "1.5"),
        Line("moves while it is read", f"{worst.moved:.3f} ({worst.page})", "<= 0.05", "0"),
    ]


def build(site: Path, peaks: dict[str, float], name: str) -> float:
    """Seconds of one `mkdocs build` in a process of its own; its peak memory in MB goes to `peaks`."""
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet"]
    started = time.perf_counter()
    process = subprocess.Popen(command, cwd=site, env=ENVIRONMENT)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    seconds = time.perf_counter() - started
    if process.returncode:
        raise SystemExit(f"the build of {site} failed")
    peaks[name] = max(peaks.get(name, 0.0), usage.ru_maxrss / 1024)
    return seconds


def make_plain(site: Path, plain: Path) -> None:
    """Make plain pages of a finished site: each page's content as it is, its drawings as files."""
    docs = plain / "docs"
    docs.mkdir(parents=True)
    (plain / "mkdocs.yml").write_text(SITE.format(plugin=""), "utf-8")
    count = 0
    for page in sorted((site / "site").rglob("*.html")):
        found = _ARTICLE.search(page.read_text("utf-8"))
        if not found:
            continue
        folder = docs / page.parent.relative_to(site / "site")
        folder.mkdir(parents=True, exist_ok=True)

        def put(match: re.Match[str], folder: Path = folder) -> str:
            nonlocal count
            count += 1
            (folder / f"figure-{count}.svg").write_text(match.group(0), "utf-8")
            return f'<img src="figure-{count}.svg" alt="">'

        body = re.sub(r"\n\s*\n", "\n", _DRAWING.sub(put, found.group(1)))
        name = "index.md" if page.name == "index.html" else f"{page.stem}.md"
        (folder / name).write_text(f"<div>\n{body}\n</div>\n", "utf-8")


def editing(folder: Path, methods: int) -> list[Line]:
    """One method edited in a large handbook: what our part takes, in one process as under `mkdocs serve`."""
    from methodsheets.handbook.build import build_handbook
    from methodsheets.handbook.model import Options

    write_handbook(folder, methods, WORKSHOP)
    options = Options(folder, (folder / "methods",), store=folder / "store.sqlite", workers=0)
    say(f"{methods} methods, one edited")
    build_handbook(options)
    file = folder / "methods" / "spacer-0003.md"
    seconds = []
    for number in range(5):
        file.write_text(method(3, f"\nA remark, number {number}.\n"), "utf-8")
        seconds.append(timed(lambda: build_handbook(options)))
    nothing = statistics.median(timed(lambda: build_handbook(options)) for _ in range(5))
    return [
        Line(f"one of {methods} edited, our part", f"{statistics.median(seconds):.2f} s", "0.5 s", "0.2 s"),
        Line(f"nothing of {methods} changed, our part", f"{nothing:.3f} s", "0.2 s for 100", ""),
    ]


def commands(site: Path, rounds: int) -> list[Line]:
    """The command line, each time in a new process."""
    lines = []
    for name in ("check", "show"):
        say(f"methodsheets {name}")
        command = [sys.executable, "-m", "methodsheets", name, "methods/spacer-0001.md"]
        seconds = [run(command, site) for _ in range(2 * rounds)]
        lines.append(Line(f"{name} FILE, cold process", f"{statistics.median(seconds):.2f} s", "1.2 s", "0.6 s"))
    return lines


def growth(folder: Path, sizes: list[int]) -> list[Line]:
    """How our part grows with the number of methods when nothing has changed."""
    script = (
        "import sys, time, resource\nfrom pathlib import Path\n"
        "from methodsheets.handbook.build import build_handbook\nfrom methodsheets.handbook.model import Options\n"
        "root = Path(sys.argv[1])\nstarted = time.perf_counter()\n"
        "book = build_handbook(Options(root, (root / 'methods',), store=root / 'store.sqlite', workers=0))\n"
        "all(book.svg(d.key) for e in book.entries.values() for m in e.by_workshop.values() for d in m.drawings)\n"
        "print(time.perf_counter() - started, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)\n"
    )
    lines = []
    for size in sizes:
        site = folder / f"grown-{size}"
        write_handbook(site, size, WORKSHOP)
        say(f"growth: {size} methods")
        runs = [
            subprocess.run([sys.executable, "-c", script, str(site)], capture_output=True, text=True, check=True)
            for _ in range(2)
        ]
        seconds, peak = (float(word) for word in runs[-1].stdout.split())
        measured = f"{1000 * seconds / size:.1f} ms a method, peak {peak:.0f} MB"
        lines.append(Line(f"{size} methods and all pictures read", measured, "linear", "linear"))
        shutil.rmtree(site)
    return lines


def pictures() -> list[Line]:
    """The drawings of the demo handbook, by kind."""
    from pictures import picture_times

    say("pictures of the demo")
    marks = {"set-up figures, median": ("60 ms", "15 ms"), "Storyboard, a cell": ("50 ms", "10 ms")}
    marks["writing the SVG, median"] = ("", "2 ms")
    return [Line(what, words, *marks.get(what, ("", ""))) for what, words in picture_times(ROOT / "methods").rows()]


def run(command: list[str], folder: Path) -> float:
    """Seconds of a command; one that fails stops the measuring, for it measures nothing."""
    started = time.perf_counter()
    ran = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    if ran.returncode:
        raise SystemExit(f"{' '.join(command[2:])} failed:\n{ran.stdout}{ran.stderr}")
    return time.perf_counter() - started


def timed(do: Callable[[], object]) -> float:
    """Seconds that something takes."""
    started = time.perf_counter()
    do()
    return time.perf_counter() - started


def ratio(ours: list[float], others: list[float]) -> float:
    """Median of the rounds' ratios."""
    return statistics.median(one / other for one, other in zip(ours, others, strict=True))


def middle(values: list[float]) -> float:
    """Median."""
    return statistics.median(values)


def say(words: str) -> None:
    """Say what is going on, apart from the report."""
    print(f"  {words} …", file=sys.stderr, flush=True)


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    main()
