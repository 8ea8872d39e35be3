"""Opening a page: its HTML, of which all but a few words is the same for everybody, and one after the other."""

from __future__ import annotations

import asyncio
import gc
import logging
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import replace
from functools import lru_cache
from weakref import WeakKeyDictionary, WeakSet

import panel as pn
from bokeh.document import Document
from bokeh.resources import Resources
from panel.io.resources import LOCAL_DIST, bundle_resources
from panel.io.resources import Resources as PanelResources

from app.parts import modules
from app.parts.screen_chart import printed_svg
from app.parts.template import Arrangement, FilledPage, at
from app.serving.packed import Around

UNUSED = ("bokeh-gl",)  # drawing by the graphics processor, which the chart does not ask for
UNNEEDED = "es-module-shims"  # for browsers that cannot import by themselves: parts/page.js takes its place
YOUNG = 10_000  # objects made before the collector looks at the youngest; Python's own is 700
ROUNDS = 24  # of the loop, between two openings: what a check takes from its first byte to its answer

log = logging.getLogger(__name__)
_unmade: WeakSet[Document] = WeakSet()
_pages: WeakKeyDictionary[Document, FilledPage] = WeakKeyDictionary()


class Turns:
    """Openings take turns, and whatever else waits to be done is done between two of them."""

    def __init__(self) -> None:
        self._turn = asyncio.Lock()

    @asynccontextmanager
    async def take(self) -> AsyncIterator[None]:
        """Wait for one's turn."""
        async with self._turn:
            for _ in range(ROUNDS):
                await asyncio.sleep(0)
            yield


def without_unused(resources: Resources) -> Resources:
    """The libraries' scripts without those that no page of ours needs."""
    return resources.clone(components=[one for one in resources.components if one not in UNUSED])


def scripts(resources: Resources) -> tuple[str, ...]:
    """Addresses of the libraries' scripts, in the order in which they are to run."""
    files = map(str, bundle_resources([], PanelResources.from_bokeh(resources)).js_files)
    return tuple(at(f"/{file}") for file in files if UNNEEDED not in file)


def prepare() -> None:
    """Make what all pages share, before the first visitor comes and before several processes part."""
    printed_svg()
    modules.address()


def spare_the_collector() -> None:
    """Let Python's collector of garbage pass over what the program is, and look less often at what visitors have.

    It would else look through all of it several times in each opening, for a tenth of the time that one takes."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG)


@lru_cache(64)
def around(arrangement: Arrangement, libraries: tuple[str, ...], ours: str) -> Around:
    """The page's HTML around what differs from visitor to visitor."""
    return Around(*arrangement.halves(libraries, ours))


def html(page: FilledPage, token: str, libraries: tuple[str, ...], gzipped: bool) -> bytes:
    """The page for one visitor."""
    whole = around(page.arrangement, libraries, modules.address())
    inside = page.opening(token)
    return whole.gzipped(inside) if gzipped else whole.plain(inside)


def reported(make: Callable[[], object]) -> Callable[[], object]:
    """`make`, with what it makes put into the visitor's document, and its failure into the log.

    What is no page of ours, but anything that Panel can show, is left to Panel."""

    def made() -> object:
        # A page rebuilt over the socket, after a restart, never asked for its address: without this its style sheets
        # would be looked for on another host.
        pn.state.curdoc.template_variables.setdefault("dist_url", at(f"/{LOCAL_DIST}"))
        try:
            page = make()
            if not isinstance(page, FilledPage):
                return page
            page.put_into(pn.state.curdoc)
            _pages[pn.state.curdoc] = replace(page, roots=())  # the roots would keep the document alive
        except Exception:
            log.exception("A page could not be made.")
            _unmade.add(pn.state.curdoc)
            return pn.Column()
        return None

    return made


def is_unmade(document: Document) -> bool:
    """Whether the page for this document could not be made."""
    return document in _unmade


def page_in(document: Document) -> FilledPage | None:
    """The page of ours that this document is of, without its roots; None where Panel made the document."""
    return _pages.get(document)
