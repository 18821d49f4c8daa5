"""Reading and changing one place deep in a noun, by its path.

A path is a tuple of field names and list indexes: ``("stages", 0, "name")``.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Iterator
from types import UnionType
from typing import Any, TypeAlias, TypeVar, Union, get_args, get_origin, get_type_hints

from authoring.model.base import SLUG, Fact, Node, evolve, fact_of, fields
from authoring.model.edits.outcome import refuse
from authoring.model.text import Text

_N = TypeVar("_N", bound=Node)
Path: TypeAlias = tuple[str | int, ...]


def path_text(path: Path) -> str:
    """A path as checks write it: ``stages[0].name``."""
    parts = (f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
    return "".join(parts).removeprefix(".")


def parsed_path(text: str) -> Path:
    """The path that :func:`path_text` wrote so; what it can't have written is refused."""
    steps: list[str | int] = []
    rest = text
    while rest:
        found = re.match(r"\[(\d+)\]\.?|([a-z_0-9]+)\.?", rest)
        if found is None:
            raise refuse("“{path}” is not a place in a file.", path=text)
        steps.append(int(found[1]) if found[1] is not None else found[2])
        rest = rest[found.end() :]
    return tuple(steps)


def get_field(root: object, path: Path) -> Any:
    """What stands at a path.

    Raises:
        EditError: there is no such place.
    """
    here = root
    for step in path:
        here = _step(here, step, path)
    return here


def _step(here: object, step: str | int, path: Path) -> Any:
    if isinstance(here, Node) and isinstance(step, str) and step in hints_of(type(here)):
        return getattr(here, step)
    if isinstance(here, tuple) and isinstance(step, int) and 0 <= step < len(here):
        return here[step]
    raise refuse("There is no {path} here.", path=path_text(path))


def set_field(root: _N, path: Path, new: Any) -> _N:
    """The noun with another value at a path; nouns and lists not on the path are shared.

    Raises:
        EditError: there is no such place, or a value of this type does not fit there.
        ModelError: the value is outside the limits of its field.
    """
    if not path:
        raise refuse("There is no {path} here.", path="place")
    changed: _N = _set(root, path, 0, new)
    return changed


def _set(here: Any, path: Path, depth: int, new: Any) -> Any:
    if depth == len(path):
        return new
    step = path[depth]
    inner = _set(_step(here, step, path), path, depth + 1, new)
    if isinstance(step, int):
        return (*here[:step], inner, *here[step + 1 :])
    if not fits(hints_of(type(here))[step], inner):
        raise refuse("{path} can’t hold this kind of value.", path=path_text(path[: depth + 1]))
    return evolve(here, **{step: inner})


def set_fields(root: _N, path: Path, **changes: Any) -> _N:
    """The noun with several fields changed at once in the noun at a path.

    For fields that only go together (a stop sign and its urgency).
    """
    node = get_field(root, path)
    if not isinstance(node, Node):
        raise refuse("There is no {path} here.", path=path_text(path))
    for name, value in changes.items():
        if name not in hints_of(type(node)):
            raise refuse("There is no {path} here.", path=path_text((*path, name)))
        if not fits(hints_of(type(node))[name], value):
            raise refuse("{path} can’t hold this kind of value.", path=path_text((*path, name)))
    changed = evolve(node, **changes)
    if not path:
        return changed  # type: ignore[return-value]  # the root itself
    return set_field(root, path, changed)


_HINTS: dict[type[Node], dict[str, Any]] = {}


def hints_of(cls: type[Node]) -> dict[str, Any]:
    """The types of a noun's fields by name."""
    if cls not in _HINTS:
        hints = get_type_hints(cls)
        _HINTS[cls] = {field.name: hints[field.name] for field in fields(cls)}
    return _HINTS[cls]


def fits(hint: Any, value: object) -> bool:
    """Whether a value has the type that a field asks for."""
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        return any(fits(part, value) for part in get_args(hint))
    if origin is tuple:
        item = get_args(hint)[0]
        return isinstance(value, tuple) and all(fits(item, each) for each in value)
    if hint is float:
        return type(value) in (int, float)
    if hint in (int, str, dt.date):
        return type(value) is hint
    return isinstance(value, origin or hint)


# ---- lists ---------------------------------------------------------------------


def _list_at(root: Node, path: Path) -> tuple[Any, ...]:
    items = get_field(root, path)
    if not isinstance(items, tuple):
        raise refuse("{path} is not a list.", path=path_text(path))
    return items


def insert_item(root: _N, path: Path, item: Any, *, index: int | None = None) -> _N:
    """The noun with an item put into the list at a path, at the end unless ``index`` is given."""
    items = _list_at(root, path)
    at = len(items) if index is None else max(0, min(index, len(items)))
    return set_field(root, path, (*items[:at], item, *items[at:]))


def remove_item(root: _N, path: Path, *, index: int) -> _N:
    """The noun with an item taken out of the list at a path."""
    get_field(root, (*path, index))
    items = _list_at(root, path)
    return set_field(root, path, (*items[:index], *items[index + 1 :]))


def move_item(root: _N, path: Path, *, index: int, to: int) -> _N:
    """The noun with an item of the list at a path moved so that it stands at ``to``."""
    item = get_field(root, (*path, index))
    return insert_item(remove_item(root, path, index=index), path, item, index=to)


# ---- the whole tree --------------------------------------------------------------


_PLANS: dict[type[Node], tuple[tuple[str, Fact], ...]] = {}


def leaf_fields(cls: type[Node]) -> tuple[tuple[str, Fact], ...]:
    """Fields that can hold nouns, texts or words."""
    if cls not in _PLANS:
        _PLANS[cls] = tuple(
            (field.name, fact_of(field))
            for field in fields(cls)
            if field.name != "extra"
            and not re.search(r"\b(int|float|bool|date)\b", str(field.type))
        )
    return _PLANS[cls]


def nodes(root: Node, path: Path = ()) -> Iterator[tuple[Path, Node]]:
    """Every noun in a noun, itself first, each with its path."""
    yield path, root
    for name, _ in leaf_fields(type(root)):
        value = getattr(root, name)
        if isinstance(value, Node):
            yield from nodes(value, (*path, name))
        elif type(value) is tuple:
            for index, item in enumerate(value):
                if isinstance(item, Node):
                    yield from nodes(item, (*path, name, index))


Leaf: TypeAlias = tuple[Path, Fact, Text | str]


def leaves(root: Node, path: Path = ()) -> Iterator[Leaf]:
    """Every text and string in a noun with its path and the facts of its field."""
    for name, known in leaf_fields(type(root)):
        value = getattr(root, name)
        if type(value) in (Text, str):
            yield (*path, name), known, value
        elif isinstance(value, Node):
            yield from leaves(value, (*path, name))
        elif type(value) is tuple:
            for index, item in enumerate(value):
                if type(item) in (Text, str):
                    yield (*path, name, index), known, item
                elif isinstance(item, Node):
                    yield from leaves(item, (*path, name, index))


LeafChange: TypeAlias = Callable[[str, Fact, Text | str], Text | str]


def with_leaves(root: _N, change: LeafChange) -> _N:
    """The noun with every text and string passed through ``change(field name, facts, value)``.

    Nouns in which nothing changes are the very same objects.
    """
    changes: dict[str, Any] = {}
    for name, known in leaf_fields(type(root)):
        value = getattr(root, name)
        new = _changed(value, name, known, change)
        if new is not value:
            changes[name] = new
    return evolve(root, **changes) if changes else root


def _changed(value: Any, name: str, known: Fact, change: LeafChange) -> Any:
    if type(value) in (Text, str):
        new = change(name, known, value)
        return value if new == value else new
    if isinstance(value, Node):
        return with_leaves(value, change)
    if type(value) is not tuple:
        return value
    items = tuple(_changed(item, name, known, change) for item in value)
    same = all(new is old for new, old in zip(items, value, strict=True))
    return value if same else items


def is_own_id(name: str, known: Fact) -> bool:
    """Whether a field is the id of its noun, unique in its file."""
    return name == "id" and known.pattern == SLUG


def own_ids(root: Node) -> list[str]:
    """The ids of the nouns in a noun that are unique in a file, in order."""
    return [str(value) for path, known, value in leaves(root) if is_own_id(str(path[-1]), known)]


def path_of(root: Node, node_id: str) -> Path:
    """Where the noun with this id stands.

    Raises:
        EditError: there is none.
    """
    for path, known, value in leaves(root):
        if value == node_id and is_own_id(str(path[-1]), known):
            return path[:-1]
    raise refuse("There is nothing here with the id “{id}”.", id=node_id)
