"""Does what we publish work from an empty folder? Wheel and sdist, on each Python that is here, with the lowest versions.

Built with `build`, installed by pip into environments of their own, and used as a newcomer uses it: start, check,
build. Each step is timed. On a Python that is not here it is not tried, and that is told.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterable
from pathlib import Path

ROOT = Path(__file__).parents[2]
PYTHONS = ("3.11", "3.12", "3.13")


def main() -> int:
    """Try everything; the exit status is the number of what failed."""
    failed = 0
    sys.stdout.reconfigure(line_buffering=True)  # type: ignore[union-attr]
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        wheel, sdist = _build(folder)
        for version in PYTHONS:
            python = sys.executable if version == f"{sys.version_info[0]}.{sys.version_info[1]}" else _found(version)
            if not python:
                print(f"Python {version}: not here, not tried")
                continue
            failed += not _tried(f"wheel on Python {version}", python, wheel, folder / version, ())
        failed += not _tried("sdist", sys.executable, sdist, folder / "sdist", ())
        failed += not _tried("wheel, lowest versions", sys.executable, wheel, folder / "lowest", lowest())
    return failed


def _found(version: str) -> str:
    """A Python of that version that runs: on the path, or among those of pyenv; '' for none."""
    kept = Path(os.environ.get("PYENV_ROOT") or Path.home() / ".pyenv") / "versions"
    for one in (shutil.which(f"python{version}"), *sorted(map(str, kept.glob(f"{version}.*/bin/python")))):
        if one and not subprocess.run([one, "-c", "import venv"], capture_output=True).returncode:
            return one
    return ""


def lowest() -> tuple[str, ...]:
    """What we need, each in the lowest version that `pyproject.toml` states."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    stated = [*project["dependencies"], *project["optional-dependencies"]["theme"]]
    return tuple(re.sub(r"^([\w.-]+)>=([\w.]+).*$", r"\1==\2", one) for one in stated)


def _build(folder: Path) -> tuple[Path, Path]:
    subprocess.run([sys.executable, "-m", "build", "--outdir", folder / "dist", ROOT], check=True, capture_output=True)
    made = sorted((folder / "dist").iterdir())
    print("\n".join(f"{one.name}: {one.stat().st_size / 1e6:.1f} MB" for one in made))
    return next(one for one in made if one.suffix == ".whl"), next(one for one in made if one.suffix == ".gz")


def _tried(name: str, python: str, package: Path, folder: Path, exact: Iterable[str]) -> bool:
    """Install it and make a handbook; gives whether all went well."""
    subprocess.run([python, "-m", "venv", folder], check=True)
    bin_ = folder / ("Scripts" if os.name == "nt" else "bin")
    constraints = folder / "constraints.txt"
    constraints.write_text("\n".join(exact) + "\n", "utf-8")
    quiet = ["-q", "--disable-pip-version-check", "-c", str(constraints)]
    steps: tuple[tuple[str, list[str], tuple[int, ...]], ...] = (
        ("install", [str(bin_ / "pip"), "install", *quiet, f"{package}[theme]"], (0,)),
        ("start", [str(bin_ / "methodsheets"), "start", "club", "--as-usual"], (0,)),
        ("new", [str(bin_ / "methodsheets"), "new", "Pin", "--folder", "club/methods"], (0,)),
        ("check", [str(bin_ / "methodsheets"), "check", "club/methods"], (0, 3)),
        ("build", [str(bin_ / "mkdocs"), "build", "--strict", "-q", "-f", "club/mkdocs.yml"], (0,)),
    )
    clean = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    took = []
    for step, command, good in steps:
        begin = time.perf_counter()
        done = subprocess.run(command, cwd=folder, env=clean, capture_output=True, text=True, check=False)
        took.append(f"{step} {time.perf_counter() - begin:.1f} s")
        if done.returncode not in good:
            print(f"{name}: FAILED at {step}\n{done.stdout[-1500:]}{done.stderr[-3000:]}")
            return False
    page = (folder / "club" / "site" / "methods" / "pin.html").read_text("utf-8")
    whole = "<svg" in page and "data-ms-op" in page
    print(f"{name}: {'good' if whole else 'FAILED: the page is not whole'} ({', '.join(took)})")
    return whole


if __name__ == "__main__":
    sys.exit(main())
