"""How does MkDocs publish a handbook? It evaluates once, before Markdown, and hands out pages, assets and problems."""

from __future__ import annotations

import functools
import posixpath
from collections.abc import Callable, Mapping
from logging import WARNING
from pathlib import Path

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import ConfigurationError, PluginError
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page as HostPage
from mkdocs.utils.templates import TemplateContext

from methodsheets.faces import mkdocs_menu
from methodsheets.faces.growing import Growing
from methodsheets.faces.markdown import MethodSheetsExtension, Page
from methodsheets.faces.mkdocs_beside import beside, for_other_workshops
from methodsheets.faces.mkdocs_files import edit_path, fits, lies_in, method_pages, photo_at, root_of, url_of
from methodsheets.faces.mkdocs_meta import for_the_page, told
from methodsheets.faces.mkdocs_neighbours import is_translated, kept_from_macros, tags_are_limited
from methodsheets.faces.mkdocs_options import MethodSheetsConfig
from methodsheets.faces.mkdocs_policy import Policies, whole_pages
from methodsheets.faces.progress import WORKED_OUT, bar
from methodsheets.handbook.model import Entry, Handbook, Options
from methodsheets.pages.assets import (
    FROM_DISK_URI,
    SCRIPT_URI,
    STYLE_URI,
    page_style,
    script,
    search_from_disk,
    style,
    with_first_script,
)
from methodsheets.pages.data import data_text, operations_text
from methodsheets.pages.finding import FIND_URI, find_text
from methodsheets.pages.host_words import host_meta
from methodsheets.pages.photos import photos_of
from methodsheets.pages.policy import LEFT_OUT, POLICY, with_policy
from methodsheets.pages.selfcontained import travelling_page
from methodsheets.pages.site import Site
from methodsheets.pages.texts import MadePage, adorned, made_pages, method_meta
from methodsheets.pages.wording import count
from methodsheets.reading.inside import RefusedError, fit_name, real
from methodsheets.reading.mishap import CODE as CRASH
from methodsheets.reading.mishap import once_each, through

log = get_plugin_logger(__name__)


class MethodSheetsPlugin(BasePlugin[MethodSheetsConfig]):  # type: ignore[no-untyped-call]
    """Publishes the handbook; all state is on the object, and nothing is written under a watched folder."""

    def __init__(self) -> None:
        self.serving, self.aside, self.tags = False, True, True
        self.extension = MethodSheetsExtension()
        self.site: Site | None = None
        self.pages: dict[str, Page] = {}
        self.made: dict[str, MadePage] = {}
        self.policies: Policies | None = None
        self.growing: Growing | None = None
        self.builds_within = 0

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Remember what is going on; having this method also keeps one object over all rebuilds while serving."""
        self.serving = command == "serve"
        self.aside = not (self.serving or dirty)

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Add the Markdown extension, the assets and the folders to watch."""
        self._check_folder()
        self.tags = self.config.tags == "derive" and not tags_are_limited(config)
        extensions: list[object] = config.markdown_extensions  # type: ignore[assignment]
        if self.extension in extensions:
            extensions.remove(self.extension)
        self.extension = MethodSheetsExtension()
        self.site, self.pages, self.made = None, {}, {}
        if self.growing is not None and self.growing.open:
            self.builds_within += 1  # a plugin builds once more for another language, into the same site
        else:
            self.growing = Growing(config, aside=self.aside)
        if self._guarded:
            whole_pages(config)
        extensions.append(self.extension)
        if STYLE_URI not in config.extra_css:
            config.extra_css.insert(0, STYLE_URI)
        if SCRIPT_URI not in config.extra_javascript:
            config.extra_javascript.append(SCRIPT_URI)
        for folder in [*self._method_folders(config), *self._workshop_folders(config)]:
            if folder.is_dir() and not lies_in(folder, Path(config.docs_dir)):
                config.watch.append(str(folder))
        return config

    def _on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add what is made in time for plugins that choose or order pages."""
        return files if is_translated(config) else self._with_handbook(files, config)

    @event_priority(-200)
    def _on_files_last(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add what is made after translations have been told apart, which know only pages that lie on the disk."""
        return self._with_handbook(files, config) if is_translated(config) else files

    on_files = CombinedEvent(_on_files, _on_files_last)

    def _with_handbook(self, files: Files, config: MkDocsConfig) -> Files:
        """Evaluate all methods and add everything that is made from them."""
        inside = {real(Path(str(file.abs_src_path))): file for file in method_pages(files)}
        handbook = self._evaluate(config, list(inside))
        homes = {
            slug: inside[file].src_uri
            for slug, entry in handbook.entries.items()
            if (file := real(Path(entry.file))) in inside
        }
        kept = self._cache(config) if self.config.cache else None
        trusted = self.config.trust_authors
        said = POLICY if self._guarded else LEFT_OUT
        self.site = Site(
            handbook,
            self.config.folder,
            homes,
            reference=self.config.reference,
            trusted=trusted,
            policy=said,
            kept=kept,
        )
        self._report(handbook)
        for page in made_pages(self.site, tags=self.tags):
            self._add_page(files, config, page)
        self._add_assets(files, config)
        self._search_from_disk(files, config)
        return files

    @event_priority(-50)
    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Give every made page its place in the menu, or a parent where it is not in it."""
        if self.site is None:
            return nav
        named = config.nav is not None
        return mkdocs_menu.arrange(
            nav, self.site, self.made, files, self.config.title, named=named, shown=self.config.menu
        )

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Keep the theme's templates: what they run themselves is asked of them page by page."""
        self.policies = Policies(env, live=self.serving) if self._guarded else None
        return env

    @event_priority(50)
    def on_page_markdown(self, markdown: str, *, page: HostPage, config: MkDocsConfig, files: Files) -> str:
        """Tell the Markdown extension which page comes next, and adorn methods that are pages of the author's own."""
        text = self._adorned(markdown, page, config)
        return kept_from_macros(text, config, lambda words: self.pages[page.file.src_uri].quote(words) is not None)

    def _adorned(self, markdown: str, page: HostPage, config: MkDocsConfig) -> str:
        uri = page.file.src_uri
        made = self.made.get(uri)
        slug = made.slug if made else self.site.slug_of(uri) if self.site else ""
        clean = self._is_ours(uri) and not self.config.trust_authors
        on_paper = made is not None and made.kind == "bench"  # a sheet has its drawings in it when it is printed
        self.extension.page = self.pages[uri] = Page(self.site, slug, uri, clean=clean, pictures=not on_paper)
        if self.site is None or not slug or (made is not None and made.kind != "method"):
            return markdown
        entry = self.site.handbook.entries[slug]
        meta, wrong = told(for_the_page(entry.source) if made else page.meta, config.theme.dirs)
        for key in wrong:
            log.warning("%s: the key `%s` is left out: it has not the form that the theme reads", uri, key)
        if made:
            page.meta = {**page.meta, **meta}
            return markdown
        if not entry.source:
            markdown = ""  # of no shape that a page can be made of; the page says so
        page.meta = meta
        for key, value in method_meta(entry, tags=self.tags).items():
            page.meta.setdefault(key, host_meta(value))
        page.meta.pop("status", None)  # the theme would take it for a mark of its own in the menu
        return adorned(markdown, slug, entry.own.title)

    def on_page_content(self, html: str, *, page: HostPage, config: MkDocsConfig, files: Files) -> str:
        """Say what a page asked for in vain, and make the file that travels alone."""
        ours = self.pages.get(page.file.src_uri)
        if ours is None or self.site is None:
            return html
        for unknown in ours.unknown:
            log.warning("%s: %s", page.file.src_uri, unknown)
        if ours.slug and self.site.places.methods[ours.slug].page == page.file.src_uri:
            make = functools.partial(
                self._keep_travelling, self.site, ours, html, functools.partial(photo_at, page.file, files)
            )
            through(ours.path, "the file that travels alone could not be made", make, self.site.mishaps.append)
        if ours.slug:
            take = functools.partial(self._add_beside, self.site, ours, html, page, config, files)
            through(ours.path, "the files beside the page could not be made", take, self.site.mishaps.append)
        return html

    def _add_beside(
        self, site: Site, ours: Page, html: str, page: HostPage, config: MkDocsConfig, files: Files
    ) -> None:
        for uri, content in beside(site, ours, html, page):
            self._add_asset(files, config, uri, content)

    def _keep_travelling(self, site: Site, ours: Page, html: str, photo: Callable[[str], Path | None]) -> None:
        whole = travelling_page(site, ours.slug, ours.islands.fill(html, site.handbook.svg), photo)
        uri = site.places.methods[ours.slug].travelling
        if fits(uri):
            self._keep(uri, whole)

    @event_priority(-100)
    def on_page_context(
        self, context: TemplateContext, *, page: HostPage, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Find the policy of a page of ours."""
        ours = self.pages.get(page.file.src_uri)
        if ours is not None and self.policies is not None and self._is_ours(page.file.src_uri):
            ours.policy = self.policies.of(page, context)
        return context

    def on_post_page(self, output: str, *, page: HostPage, config: MkDocsConfig) -> str:
        """Put drawings and formulas in, now that the search index has been made."""
        ours = self.pages.pop(page.file.src_uri, None)
        output = with_first_script(output)
        if ours is None or self.site is None:
            return output
        if ours.slug:
            rules = page_style(self.site.handbook.entries[ours.slug].own)
            output = output.replace("</head>", f"<style>{rules}</style></head>", 1)
        output = with_policy(output, ours.policy) if ours.policy else output
        for uri, whole in for_other_workshops(self.site, ours, output, page):
            if fits(uri) and self.growing is not None:
                self.growing.put(Path(config.site_dir), uri, whole)
        return ours.islands.fill(output, self.site.handbook.svg, ours.waiting)

    @event_priority(-1000)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Fail at the very end, when all problems have been told, if that is wanted.

        A strict build counts warnings; `--quiet` keeps them from being counted, so then the problems fail it here.
        """
        if self.growing is not None and not self.builds_within:
            self.growing.publish()
            self.growing.drop()
        self.builds_within = max(self.builds_within - 1, 0)
        problems = self.site.handbook.problems if self.site else ()
        mishaps = once_each(self.site.mishaps, problems) if self.site else []
        for one in mishaps:
            log.warning("%s", one)
        crashed = len(mishaps) + sum(problem.code == CRASH for problem in problems)
        if crashed and not self.serving:
            raise PluginError(f"the program failed in {count(crashed, 'place')}, see above; the rest has been built")
        uncounted = config.strict and not log.isEnabledFor(WARNING)
        if problems and (self.config.on_error == "fail" or uncounted):
            files = len({problem.place.path for problem in problems})
            where = "leave out --quiet to see them" if uncounted else "see above"
            raise PluginError(f"{count(len(problems), 'problem')} in {count(files, 'file')} of the handbook; {where}")

    def on_build_error(self, *, error: Exception) -> None:
        """Leave the site as it was."""
        self.builds_within = 0
        if self.growing is not None:
            self.growing.drop()

    # What the events above are made of

    @property
    def _guarded(self) -> bool:
        return self.config.policy and not self.config.trust_authors

    def _is_ours(self, uri: str) -> bool:
        """Whether a page is made, or the page of a method that lies among the site's own."""
        return uri in self.made or (self.site is not None and bool(self.site.slug_of(uri)))

    def _evaluate(self, config: MkDocsConfig, inside: list[Path]) -> Handbook:
        from methodsheets.handbook.build import build_handbook

        root = root_of(config)
        folders = self._method_folders(config)
        docs = Path(config.docs_dir)
        library = tuple(folder for folder in folders if folder.is_dir() and not lies_in(folder, docs))
        workshops = next((folder for folder in self._workshop_folders(config) if folder.is_dir()), None)
        if not library and not inside:
            log.warning("no method files: there is no folder %s, and no page of the site has `method:`", folders[0])
        options = Options(
            root=root,
            methods=library,
            workshops=workshops,
            inside=tuple(path for path in inside if not any(lies_in(path, folder) for folder in library)),
            store=self._cache(config) / "handbook.sqlite" if self.config.cache else None,
            fresh=self.config.fresh,
            workers=1 if self.serving else self.config.concurrency,
        )
        handbook = build_handbook(options, bar(WORKED_OUT), evict=not self.serving)
        log.info("%s", handbook.counts.words())
        return handbook

    def _check_folder(self) -> None:
        """The folder of made pages is a name below the site, and nothing that a system takes for something else."""
        try:
            fit_name(self.config.folder)
        except RefusedError as refused:
            raise ConfigurationError(f"methodsheets: option `folder`: {refused.what}; {refused.remedy}") from refused

    def _cache(self, config: MkDocsConfig) -> Path:
        return root_of(config) / self.config.cache_dir

    def _method_folders(self, config: MkDocsConfig) -> list[Path]:
        given = self.config.methods
        names = [given] if isinstance(given, str) else given
        if not names or not all(isinstance(name, str) for name in names):
            raise ConfigurationError("methodsheets: option `methods` is a folder or a list of folders")
        return [real(root_of(config) / name) for name in names]

    def _workshop_folders(self, config: MkDocsConfig) -> list[Path]:
        if self.config.workshops:
            folder = real(root_of(config) / self.config.workshops)
            if not folder.is_dir():
                raise ConfigurationError(f"methodsheets: option `workshops`: there is no folder {folder}")
            return [folder]
        return [folder / "workshops" for folder in self._method_folders(config)]

    def _report(self, handbook: Handbook) -> None:
        for line in dict.fromkeys(str(problem) for problem in handbook.problems):
            log.warning("%s", line)

    def _search_from_disk(self, files: Files, config: MkDocsConfig) -> None:
        """Put our own script in place of the one that the theme's `offline` would fetch from another host."""
        wanted = config.extra.get("polyfills") or []
        if any("iframe-worker" in str(script) for script in wanted):
            config.extra["polyfills"] = [FROM_DISK_URI if "iframe-worker" in str(s) else s for s in wanted]
            files.append(File.generated(config, FROM_DISK_URI, content=search_from_disk()))

    def _add_page(self, files: Files, config: MkDocsConfig, page: MadePage) -> None:
        if not fits(page.uri):
            return
        if files.get_file_from_path(page.uri) is not None:
            log.info("%s is a page of your own; none is made in its place", page.uri)
            return
        shown = InclusionLevel.INCLUDED if page.in_menu and config.nav is None else InclusionLevel.NOT_IN_NAV
        # Other plugins read a page from its file: a page that is made has one as well.
        file = File.generated(config, page.uri, abs_src_path=self._keep(page.uri, page.text), inclusion=shown)
        if page.source:
            file.edit_uri = edit_path(root_of(config) / page.source, Path(config.docs_dir))
        files.append(file)
        self.made[page.uri] = page

    def _add_assets(self, files: Files, config: MkDocsConfig) -> None:
        assert self.site is not None
        handbook = self.site.handbook
        systems = {key: card.units for key, card in handbook.workshops.items()}
        self._add_asset(files, config, STYLE_URI, style(handbook.workshops))
        self._add_asset(files, config, SCRIPT_URI, script(self.config.units, systems))
        for entry in handbook.entries.values():
            add = functools.partial(self._add_files_of, self.site, entry, files, config)
            through(entry.path, "the files beside the page could not be made", add, self.site.mishaps.append)
        find = find_text(self.site, functools.partial(url_of, files))  # last: it names the pages and pictures
        self._add_asset(files, config, FIND_URI, find)

    def _add_files_of(self, site: Site, entry: Entry, files: Files, config: MkDocsConfig) -> None:
        """Data, drawings and the travelling file of one method."""
        place = site.places.methods[entry.slug]
        self._add_asset(files, config, place.data, data_text(entry))
        self._add_asset(files, config, place.operations, operations_text(entry))
        if entry.slug not in site.homes:
            self._add_photos(files, config, place.page, photos_of(entry))
        self._add_asset(files, config, place.travelling, "")  # filled when its page has been made
        for method in entry.by_workshop.values():
            for drawing in method.drawings:
                if site.same_picture(drawing.key) == drawing.key:
                    picture = site.handbook.standalone_svg(drawing.key)
                    self._add_asset(files, config, place.drawing(drawing.key), picture)

    def _add_photos(self, files: Files, config: MkDocsConfig, page: str, photos: Mapping[str, Path]) -> None:
        """Photos that lie beside a method's file lie beside its page as well."""
        for name, photo in photos.items():
            uri = posixpath.join(posixpath.dirname(page), name)
            there = files.get_file_from_path(uri)
            if there is None:
                files.append(File.generated(config, uri, abs_src_path=str(photo)))
            elif there.abs_src_path != str(photo):
                log.warning("%s: the photo is not shown: %s is there already; give it another name", photo, uri)

    def _add_asset(self, files: Files, config: MkDocsConfig, uri: str, content: str) -> None:
        """A file of ours, unless the author has one of that name; it waits on the disk until it is copied."""
        if files.get_file_from_path(uri) is None and fits(uri):
            files.append(File.generated(config, uri, abs_src_path=self._keep(uri, content)))

    def _keep(self, uri: str, content: str) -> str:
        """Write a file that waits for its turn, for in memory they would fill it; gives its path."""
        assert self.growing is not None
        return self.growing.put(self.growing.waiting, uri, content)
