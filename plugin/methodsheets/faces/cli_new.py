"""Where does one begin? Writes a new handbook, or a new method file that builds as it stands."""

from __future__ import annotations

import argparse
import sys
from datetime import date
from importlib.util import find_spec
from pathlib import Path

from methodsheets.faces.command import CommandError, as_typed, refuse_taken
from methodsheets.faces.host_config import project_of
from methodsheets.faces.questions import own_workshop
from methodsheets.faces.yaml_words import in_yaml
from methodsheets.handbook.digests import base_digest
from methodsheets.handbook.project import CONFIGS, Project, find_project
from methodsheets.handbook.shops import FOLDER, USUAL, find_workshops
from methodsheets.handbook.store import Store
from methodsheets.pages.host_words import heading_words
from methodsheets.reading.inside import Inside, real
from methodsheets.reading.slug import file_slug
from methodsheets.reading.source import in_words

METHOD = """\
---
method: {title}
part: {part}
makes: 1
material: EN1A
stock: round 20 mm x 61 mm
workshop: {workshop}
status: draft
revision: A
date: {day}
summary: One sentence that says what the part is for.
---

Say here what the part is and how you mean to make it. Everything outside the blocks is your own text.

```calc
journal = 16 mm                   # where it turns in its bearing
length  = 30 mm                   # of the journal
whole   = 60 mm                   # length of the part
bearing = fit(journal, "H7/g6")   # in a reamed hole
```

The journal is {{{{ journal }}}} in diameter and has between {{{{ bearing.clearance_min }}}} and
{{{{ bearing.clearance_max }}}} of clearance in its hole.

The finished part, so that the method can be proved against it:

```part
- round: journal, over length
- round: 20 mm, from length, over whole - length
- chamfer: 1 mm, on journal
```

## Turn the journal

```setup
machine: lathe
hold: three-jaw chuck, on 20 mm, grip 20 mm, end A out
```

```op
face: 0.5 mm
tool: knife tool
```

```op
turn: to journal, over length
tool: knife tool
check: limits(journal, "g6") with micrometer
```

```op
chamfer: 1 mm
```

## Face the other end

```setup
machine: lathe
hold: three-jaw chuck, on journal, grip 20 mm, end B out
```

```op
face: to length whole
tool: knife tool
```
"""

THEME = """\
theme:
  name: material
  font: false          # fonts of the reader's own; nothing is asked of another host
  logo: assets/mark.svg
  favicon: assets/mark.svg
  features:
    - navigation.sections
    - navigation.prune
    - navigation.top
    - navigation.footer
    - search.highlight
    - toc.follow
    - content.action.edit
  palette:
    - media: "(prefers-color-scheme: light)"
      scheme: default
      primary: white
      accent: black
      toggle:
        icon: material/weather-night
        name: Dark
    - media: "(prefers-color-scheme: dark)"
      scheme: slate
      primary: black
      accent: white
      toggle:
        icon: material/weather-sunny
        name: Light

"""
STICK = """\
  - offline:           # the site works from a memory stick too; for a web server say `OFFLINE=false`
      enabled: !ENV [OFFLINE, true]
"""
PLAIN_THEME = """\
use_directory_urls: false    # links that open from a memory stick

theme:
  name: mkdocs
  color_mode: auto
  user_color_mode_toggle: true
  highlightjs: false         # nothing is asked of another host

"""
"""The host's own theme, where the other is not installed."""
NO_THEME = """\
The theme is not installed, so the handbook has the host's own: its search needs a server.
For the theme: pip install "mkdocs-methodsheets[theme]", then start anew or set it in mkdocs.yml.
"""

SITE = """\
site_name: {name}
docs_dir: docs
copyright: Your machine's manual, local rules and licensed practice come first.

{theme}extra_css:
  - assets/handbook.css

plugins:
  - search:
      separator: '[\\s\\-×·]+'
{stick}  - methodsheets:
      methods: methods

markdown_extensions:
  - admonition
  - attr_list
  - md_in_html
  - tables
  - toc:
      permalink: true
"""

HOME = """\
# {name}

Methods for making parts, worked out for the machines of our workshop.

```methodsheet
page: parts
```

[All methods](methods/index.md) are listed with what they need.
"""
SHELL = Path(__file__).with_name("shell")
"""The face of a new handbook: its mark, and a stylesheet over the theme. Both are its keeper's to change."""

IGNORE = "site/\n.cache/\n"


def new(options: argparse.Namespace) -> int:
    """`methodsheets new`: a method file that builds, and the rest of a handbook where there is none yet."""
    slug = file_slug(options.title)
    project = project_of(options, Path(options.folder) if options.folder else Path.cwd())
    bare = not options.folder and _is_bare(project)
    folder = Path("methods") if bare else _folder(project, options.folder)
    file = folder / f"{slug}.md"
    refuse_taken(project, folder, slug, "choose another title")
    if bare:
        _found(Path.cwd())
        project = find_project(Path.cwd() / "methods")
    workshop = _workshop(project, folder, options.workshop)
    part = file_slug(options.part) if options.part else slug
    text = METHOD.format(title=in_yaml(options.title), part=part, workshop=workshop, day=date.today().isoformat())
    _write(folder, file.name, text)
    print(as_typed(file))
    return 0


def _is_bare(project: Project) -> bool:
    """Whether there is no handbook here: no site with our plugin and no folder of methods."""
    return project.docs is None and project.methods == (real(Path.cwd()),)


def _found(folder: Path, *, asked: bool = False) -> None:
    """Write what a handbook needs beside its methods; what is there already stays as it is.

    asked: whether the reader is asked at the terminal for what is in the workshop.
    """
    name = in_words(real(folder).name).replace("-", " ").replace("_", " ").capitalize() or "Handbook"
    other = next((one for one in CONFIGS if (folder / one).exists()), "")
    if other:
        print(f"{other} is there already: add `methodsheets` to its `plugins`", file=sys.stderr)
    files = {
        CONFIGS[0]: _site(name),
        "docs/index.md": HOME.format(name=heading_words(name)),
        **{f"docs/assets/{one.name}": one.read_text("utf-8") for one in sorted(SHELL.iterdir())},
        ".gitignore": IGNORE,
    }
    shop = f"methods/{FOLDER}/my-workshop.yml"
    usual = USUAL.read_text("utf-8")
    for place, text in {
        **({} if other else files),
        shop: own_workshop(usual, input, print) if asked else usual,
    }.items():
        if not (folder / place).exists():
            print(as_typed(_write(folder, place, text)))


def _site(name: str) -> str:
    """The settings of a new site, in the theme where it is installed."""
    if find_spec("material"):
        return SITE.format(name=in_yaml(name), theme=THEME, stick=STICK)
    print(NO_THEME, file=sys.stderr, end="")
    return SITE.format(name=in_yaml(name), theme=PLAIN_THEME, stick="")


def _folder(project: Project, named: str | None) -> Path:
    """The folder that a new method goes into."""
    if named:
        return Path(named)
    here = Path.cwd()
    inside = next((folder for folder in project.methods if real(here).is_relative_to(folder)), None)
    if inside is not None:
        return here
    return project.methods[0] if project.methods else here


def _workshop(project: Project, folder: Path, named: str | None) -> str:
    """The key of the workshop that it is written for: the one named, else the first there is."""
    options = project.options(inside=())
    folders = options.methods or (folder,)
    shops = find_workshops(options, folders, base_digest(), Store())
    if named and not shops.named(named):
        raise CommandError(f"there is no workshop `{named}`; there are {', '.join(shops.digests)}")
    return shops.named(named) if named else next(iter(shops.digests))


def start(options: argparse.Namespace) -> int:
    """`methodsheets start`: a handbook that builds, with a workshop to be changed and a first method."""
    folder = Path(options.folder)
    taken = [name for name in (*CONFIGS, "docs", "methods") if (folder / name).exists()]
    if taken:
        raise CommandError(f"{as_typed(folder / taken[0])} is there already and is not overwritten")
    asked = not options.as_usual and sys.stdin.isatty() and sys.stdout.isatty()
    if asked:
        print("Six questions about your workshop; Enter keeps what is in brackets.")
    _found(folder, asked=asked)
    text = METHOD.format(title="First part", part="first-part", workshop="my-workshop", day=date.today().isoformat())
    print(as_typed(_write(folder, "methods/first-part.md", text)))
    rest = "the rest of your machines" if asked else "your own machines"
    print(f"Write {rest} into the workshop file, and change the first part into your first method.")
    where = "" if real(folder) == real(Path.cwd()) else f"cd {as_typed(folder)} && "
    print(f"See it while you write: {where}mkdocs serve")
    return 0


def _write(folder: Path, name: str, text: str) -> Path:
    """Write a new file below a folder; never over another one."""
    return Inside(folder).write(name, text.encode(), new=True)
