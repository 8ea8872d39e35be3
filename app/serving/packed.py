"""Files as they travel: each compressed once, in the way its reader understands, and kept."""

from __future__ import annotations

import asyncio
import contextlib
import gzip
import hashlib
import mimetypes
import zlib
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import brotli
import panel as pn
from bokeh.embed.bundle import extension_dirs
from bokeh.settings import settings

from app.parts.modules import TOGETHER, together
from app.parts.template import STATIC

LEAST = 1024  # bytes; below it compressing saves no packet
BROTLI_QUALITY, GZIP_LEVEL = 9, 9  # brotli's highest takes thirty times as long for a tenth less
TEXTS = ("text/", "application/javascript", "application/json", "image/svg+xml")
UNTYPED, JAVASCRIPT = "application/octet-stream", "text/javascript"


@dataclass(frozen=True)
class Packed:
    """A file's bytes in one coding ("" for as they are), with what identifies them."""

    body: bytes
    coding: str
    kind: str
    digest: str
    versions: frozenset[str]

    @property
    def tag(self) -> str:
        """The entity tag: differs by content and by coding."""
        return f'"{self.digest[:24]}{self.coding and "-" + self.coding}"'


def find(path: str) -> Path | None:
    """The file that an address under /static/ names: ours, or one of the libraries' scripts and styles."""
    if path.startswith("extensions/"):
        _, name, *rest = [*path.split("/", 2), "", ""][:3]
        roots = [(Path(extension_dirs[name]), "".join(rest))] if name in extension_dirs else []
    else:
        roots = [(STATIC, path), (Path(settings.bokehjs_path()), path)]
    for root, inside in roots:
        with contextlib.suppress(OSError):  # a name longer than any
            file = (root / inside).resolve()
            if file.is_relative_to(root.resolve()) and file.is_file():
                return file
    return None


def coding_for(accepted: str, known: tuple[str, ...] = ("br", "gzip")) -> str:
    """The first of the `known` codings that an Accept-Encoding header allows, "" for none."""
    wanted = {}
    for one in accepted.lower().replace(" ", "").split(","):
        name, _, weight = one.partition(";")
        wanted[name] = not (weight.startswith("q=0") and not weight.strip("q=0."))
    return next((coding for coding in known if wanted.get(coding, wanted.get("*", False))), "")


def pack(body: bytes, coding: str) -> bytes:
    """`body` in this coding."""
    if coding == "br":
        return brotli.compress(body, mode=brotli.MODE_TEXT, quality=BROTLI_QUALITY)
    return gzip.compress(body, GZIP_LEVEL, mtime=0) if coding == "gzip" else body


class Shelf:
    """The files that one process serves, packed when first asked for, off its loop."""

    def __init__(self) -> None:
        self._packing: dict[tuple[object, ...], asyncio.Future[Packed]] = {}
        self._packer = ThreadPoolExecutor(1, thread_name_prefix="packing")

    async def take(self, path: str, coding: str) -> Packed | None:
        """What an address under /static/ names, in this coding; None if it names nothing."""
        if path == TOGETHER:
            return await self._packed((path, coding), together, JAVASCRIPT, coding)
        file = find(path)
        return None if file is None else await self.take_file(file, coding)

    async def take_file(self, file: Path, coding: str) -> Packed:
        """The file in this coding; those who ask while it is being packed wait for the same."""
        told = file.stat()
        if not _kind(file).startswith(TEXTS) or told.st_size < LEAST:
            coding = ""
        key = (file, told.st_mtime_ns, told.st_size, coding)
        return await self._packed(key, file.read_bytes, _kind(file), coding)

    async def _packed(
        self, key: tuple[object, ...], read: Callable[[], bytes], kind: str, coding: str
    ) -> Packed:
        if key not in self._packing:
            loop = asyncio.get_running_loop()
            self._packing[key] = loop.run_in_executor(self._packer, _pack, read, kind, coding)
        return await asyncio.shield(self._packing[key])

    def close(self) -> None:
        """Let the thread go."""
        self._packer.shutdown(wait=False, cancel_futures=True)


def _pack(read: Callable[[], bytes], kind: str, coding: str) -> Packed:
    body = read()
    digest = hashlib.sha256(body).hexdigest()
    # What our templates, Bokeh and Panel put after ?v= for this content.
    panels = pn.__version__, hashlib.sha256(pn.__version__.encode()).hexdigest()
    versions = frozenset({digest[:12], hashlib.sha512(body).hexdigest(), *panels})
    return Packed(pack(body, coding), coding, kind, digest, versions)


class Around:
    """A text of which all but one place is the same for everybody: that is compressed once, the place each time.

    Parts of a gzip file that begin with nothing remembered (RFC 1951: blocks; zlib's full flush) stand side by side.
    """

    HEAD = b"\x1f\x8b\x08\x00\x00\x00\x00\x00\x02\xff"  # RFC 1952: no name, no time, of no system

    def __init__(self, before: str, after: str) -> None:
        self._before, self._after = before.encode(), after.encode()
        self._packed = (
            _deflated(self._before, GZIP_LEVEL, zlib.Z_FULL_FLUSH),
            _deflated(self._after, GZIP_LEVEL, zlib.Z_FINISH),
        )

    def plain(self, inside: str) -> bytes:
        """The whole text."""
        return self._before + inside.encode() + self._after

    def gzipped(self, inside: str) -> bytes:
        """The whole text as one gzip file."""
        whole, (before, after) = self.plain(inside), self._packed
        middle = _deflated(inside.encode(), 1, zlib.Z_FULL_FLUSH)
        ends = zlib.crc32(whole).to_bytes(4, "little") + (len(whole) % 2**32).to_bytes(4, "little")
        return self.HEAD + before + middle + after + ends


def _deflated(body: bytes, level: int, ends: int) -> bytes:
    packing = zlib.compressobj(level, wbits=-zlib.MAX_WBITS)
    return packing.compress(body) + packing.flush(ends)


@cache
def _kind(file: Path) -> str:
    kind = mimetypes.guess_type(file.name)[0] or UNTYPED
    return JAVASCRIPT if file.suffix in (".js", ".mjs") else kind
