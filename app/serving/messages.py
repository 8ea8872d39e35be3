"""What a browser may say over a page's websocket; all else is refused before any library has looked at it.

It may ask for its document, say that the page is ready, and say what was done in one of its components, in plain data.
It cannot change the document itself: the library in the browser reports the sizes of what it laid out as properties of
models, and the roots of a page that it has rebuilt, and these reports, like any other change, are let fall.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

DEEPEST = 32  # levels of lists and maps in a message; a record of a sheet has eight
LARGEST = 2**53  # whole numbers beyond it are not exact in a browser
CHANGES = (
    "ModelChanged",
    "RootAdded",
    "RootRemoved",
    "TitleChanged",
    "ColumnDataChanged",
    "ColumnsStreamed",
    "ColumnsPatched",
)
OF_THE_PAGE = ("document_ready", "client_reconnected", "connection_lost")
OF_A_COMPONENT = "data_event"
NOT_NUMBERS = ("nan", "+inf", "-inf")


class NotAllowed(Exception):
    """No page of ours sends this; the message says what was wrong with it, in a few words."""


@dataclass(frozen=True)
class Heard:
    """A message let in. events : what happened, checked; None where the document is asked for."""

    header: dict[str, Any]
    events: list[dict[str, Any]] | None


def heard(parts: list[str]) -> Heard:
    """The message in its three parts. Raises NotAllowed."""
    header, metadata, content = (_read(part) for part in parts)
    if not all(isinstance(part, dict) for part in (header, metadata, content)):
        raise NotAllowed("a message has three parts")
    name, kind = header.get("msgid"), header.get("msgtype")
    if not isinstance(name, str) or len(name) > 64 or not name.isascii():
        raise NotAllowed("a message has a name")
    header = {"msgid": name, "msgtype": kind}
    if kind == "PULL-DOC-REQ":
        return Heard(header, None)
    if kind != "PATCH-DOC" or not isinstance(content.get("events"), list):
        raise NotAllowed("no such message")
    return Heard(header, [event for one in content["events"] if (event := _event(one)) is not None])


def speaker(event: dict[str, Any]) -> str | None:
    """The model that an event let in speaks for; None if it is the page's own."""
    entries = event["msg_data"]["values"].get("entries")
    return entries[0][1]["id"] if entries else None


def plain(value: object, depth: int = DEEPEST) -> Any:
    """`value` if it is text, numbers, lists and maps only; halves of surrogate pairs in it are replaced.

    Raises NotAllowed for whatever would name or make an object here, and for what is too deep.
    """
    if depth == 0:
        raise NotAllowed("too deep")
    if isinstance(value, str):
        return value.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    if value is None or isinstance(value, bool | float) or (isinstance(value, int) and abs(value) <= LARGEST):
        return value
    if isinstance(value, list):
        return [plain(one, depth - 1) for one in value]
    if isinstance(value, dict) and value.get("type") == "map":
        return {"type": "map", "entries": [_entry(one, depth - 1) for one in _listed(value)]}
    if isinstance(value, dict) and value.get("type") == "number" and value.get("value") in NOT_NUMBERS:
        return {"type": "number", "value": value["value"]}
    raise NotAllowed("no plain data")


def _read(part: str) -> Any:
    try:
        return json.loads(part, parse_constant=_refuse)
    except (ValueError, RecursionError) as error:
        raise NotAllowed("no message") from error


def _refuse(constant: str) -> None:
    raise ValueError(constant)


def _event(event: object) -> dict[str, Any] | None:
    """The event as it may go on; None if it is let fall."""
    kind = event.get("kind") if isinstance(event, dict) else None
    if kind in CHANGES:
        return None
    data = event.get("msg_data") if isinstance(event, dict) else None
    if kind != "MessageSent" or not isinstance(data, dict) or data.get("type") != "event":
        raise NotAllowed("no such event")
    name = data.get("name")
    if name in OF_THE_PAGE:
        return _sent(name, {"type": "map"})
    if name != OF_A_COMPONENT:
        raise NotAllowed("no such event")
    return _sent(name, _of_component(data.get("values")))


def _of_component(values: object) -> dict[str, Any]:
    """Which component speaks, and what it says."""
    entries = _listed(values) if isinstance(values, dict) and values.get("type") == "map" else []
    match entries:
        case [["model", {"id": str() as model}], ["data", data]]:
            return {"type": "map", "entries": [["model", {"id": model}], ["data", plain(data)]]}
    raise NotAllowed("no such event")


def _sent(name: str, values: dict[str, Any]) -> dict[str, Any]:
    told = {"type": "event", "name": name, "values": values}
    return {"kind": "MessageSent", "msg_type": "bokeh_event", "msg_data": told}


def _entry(entry: object, depth: int) -> list[Any]:
    match entry:
        case [str() as key, value]:
            return [plain(key), plain(value, depth)]
    raise NotAllowed("no plain data")


def _listed(value: dict[str, Any]) -> list[Any]:
    entries = value.get("entries", [])
    if not isinstance(entries, list):
        raise NotAllowed("no plain data")
    return entries
