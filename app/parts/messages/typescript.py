"""The messages described for the browser's code: `python -m app.parts.messages.typescript` writes them there."""

from __future__ import annotations

from types import ModuleType
from typing import Any, Literal, NotRequired, get_args, get_origin, get_type_hints, is_typeddict

from app.parts.messages import course, shared, showing, working
from app.parts.messages.said import SAID
from app.parts.template import STATIC

FILE = STATIC / "messages.d.ts"
SIMPLE = {
    Any: "any",
    object: "unknown",
    str: "string",
    bool: "boolean",
    int: "number",
    float: "number",
    type(None): "null",
}


def typescript() -> str:
    """All messages, as declarations of types."""
    described = [one for module in (shared, working, showing, course) for one in _described(module)]
    parts = [
        "// deno-lint-ignore-file no-explicit-any",
        "// Made by `python -m app.parts.messages.typescript`: what the program and the browser say to each other.",
    ]
    parts += [_interface(one) for one in described]
    parts += [_union(page, messages) for page, messages in SAID.items()]
    return "\n\n".join(parts) + "\n"


def _described(module: ModuleType) -> list[Any]:
    """The messages that a module describes, not those that it uses from another."""
    return [one for one in vars(module).values() if is_typeddict(one) and one.__module__ == module.__name__]


def _interface(described: Any) -> str:
    hints = get_type_hints(described, include_extras=True).items()
    optional = described.__optional_keys__
    lines = [f"  {name}{'?' if name in optional else ''}: {_type(kind)};" for name, kind in hints]
    comment = f"/** {' '.join(described.__doc__.split())} */"
    return "\n".join([comment, f"export interface {described.__name__} {{", *lines, "}"])


def _union(page: str, messages: dict[str, dict[str, Any]]) -> str:
    lines = [
        f"  | {{ {'; '.join([_do(do), *map(_part, parts.items())])} }}" for do, parts in messages.items()
    ]
    comment = f"/** What the {page} page says was done. */"
    return "\n".join([comment, f"export type {page.capitalize()}Said =", *lines]) + ";"


def _do(do: str) -> str:
    return f'do: "{do}"'


def _part(part: tuple[str, Any]) -> str:
    name, kind = part
    return f"{name}{'?' if get_origin(kind) is NotRequired else ''}: {_type(kind)}"


def _type(kind: Any) -> str:
    origin, parts = get_origin(kind), get_args(kind)
    if origin is NotRequired:
        return _type(parts[0])
    if origin is Literal:
        return " | ".join(f'"{one}"' for one in parts)
    if origin is list:
        return f"Array<{_type(parts[0])}>"
    if origin is tuple:
        return f"[{', '.join(map(_type, parts))}]"
    if origin is dict:
        return f"Record<string, {_type(parts[1])}>"
    if parts:
        return " | ".join(map(_type, parts))
    return SIMPLE.get(kind) or kind.__name__


if __name__ == "__main__":
    FILE.write_text(typescript(), "utf-8")
