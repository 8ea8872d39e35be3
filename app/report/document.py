"""A document that stands alone: its look within it, nothing loaded from anywhere, to be read, projected and printed."""

from __future__ import annotations

from functools import cache
from html import escape

from app.parts.template import STATIC


def document(title: str, *body: str, language: str = "en") -> str:
    """A whole page with that title; `body` is markup already."""
    return (
        f'<!DOCTYPE html>\n<html lang="{language}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="color-scheme" content="light dark">\n<meta name="referrer" content="no-referrer">\n'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
        'img-src data:">\n'
        f"<title>{escape(title)}</title>\n<style>{look()}</style>\n</head>\n<body>\n<main>\n"
        + "\n".join(body)
        + "\n</main>\n</body>\n</html>\n"
    )


@cache
def look() -> str:
    """The program's own colours, light and dark, as they stand in its style sheet; then a document's own rules."""
    sheet, rules = ((STATIC / name).read_text("utf-8") for name in ("parts/page.css", "report/report.css"))
    return sheet[sheet.index(":root") : sheet.index("*, *::before")] + rules


def tag(name: str, *content: str, **attributes: str) -> str:
    """An element; `content` is markup already.  attributes : `_` at the end is dropped, within stands for `-`."""
    given = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(value)}"' for key, value in attributes.items()
    )
    return f"<{name}{given}>{''.join(content)}</{name}>"


def said(name: str, words: str, **attributes: str) -> str:
    """An element that holds words."""
    return tag(name, escape(words), **attributes)


def table(caption: str, heads: list[str], rows: list[list[str]], counts: frozenset[int] = frozenset()) -> str:
    """A table of words, its first column heading each row; `rows` hold markup.

    counts : numbers of the columns that hold numbers."""

    def kind(column: int) -> dict[str, str]:
        return {"class_": "count"} if column in counts else {}

    head = "".join(said("th", one, scope="col", **kind(column)) for column, one in enumerate(heads))
    body = "".join(
        tag(
            "tr",
            *(
                tag("td", cell, **kind(column)) if column else tag("th", cell, scope="row")
                for column, cell in enumerate(row)
            ),
        )
        for row in rows
    )
    whole = tag("table", said("caption", caption), tag("thead", tag("tr", head)), tag("tbody", body))
    return tag("div", whole, class_="wide", tabindex="0", role="region", aria_label=caption)
