"""Files gone wrong: one or a few places of a JSON value changed at random."""

from __future__ import annotations

import copy
from random import Random
from typing import Any

NUMBERS = (0, 1, -1, 1.0, 1.5, -0.0, 11, 1e308, -1e308, 2**53, -(2**53), 5e-324)
TEXTS = (
    *("", " ", "\n", "a\n", "a-b\n", "en\n", "x\u2028", "\ufeff", "a\u0085", "\u001b[0m"),
    *("٣", "ａ", "É", "-", "a--b", "en", "en-gb", "EN", "zh-Hant-TW", "x-private"),
    *("2026-02-29", "2024-02-29", "0000-01-01", "9999-12-31", "2026-1-1", "2026-01-01\n"),
    *("10.1000/182", "10.1000/\u0085", "10.1000/a b", "#123F5C", "#123F5C\n", "#12345G"),
    *("1.0", "1.0\n", "1.0.0.0", "either", "all_of", "kg", "N.m", "__class__"),
    *(f"00000000-0000-4000-8000-00000000000{last}" for last in "1AG"),
    *("x" * 90, "\U0001f9b6" * 30),
)
OBJECTS: tuple[dict[str, Any], ...] = (
    *({}, {"kind": "either"}, {"kind": "repetitions"}, {"kind": []}, {"kind": None}),
    *({"kind": "all_of", "id": "x", "parts": []}, {"en": ""}, {"en": 1}, {"": "x"}),
    *({"low": 3, "high": 2}, {"low": 1.0}, {"low": True}),
)
POISONS = (None, True, False, *NUMBERS, *TEXTS, *OBJECTS, [], [[]], [{}], [None], ["a"])


def places(value: Any) -> list[tuple[Any, Any]]:
    """Every place in a JSON value as the object or list that holds it, and its name or number."""
    found: list[tuple[Any, Any]] = []
    waiting = [value]
    while waiting:
        holder = waiting.pop()
        keys = list(holder) if isinstance(holder, dict) else range(len(holder))
        found += [(holder, key) for key in keys]
        waiting += [holder[key] for key in keys if isinstance(holder[key], dict | list)]
    return found


def mutate(value: Any, chance: Random) -> Any:
    """A copy of a JSON object with one to three places changed, its format left alone."""
    changed = copy.deepcopy(value)
    for _ in range(chance.randint(1, 3)):
        found = [
            (holder, key)
            for holder, key in places(changed)
            if not (holder is changed and key in ("format", "format_version"))
        ]
        if not found:
            break
        _change(*chance.choice(found), found, chance)
    return changed


def _change(holder: Any, key: Any, found: list[tuple[Any, Any]], chance: Random) -> None:
    match chance.randrange(7):
        case 0:
            del holder[key]
        case 1:
            holder[key] = [holder[key]]
        case 2:
            other, name = chance.choice(found)
            holder[key] = copy.deepcopy(other[name])
        case 3 if isinstance(holder, dict):
            holder[f"{key}{chance.choice(['', 's', ' ', '_', 'É'])}"] = holder.pop(key)
        case 4 if isinstance(holder[key], str):
            holder[key] += chance.choice(["\n", " ", "-", "\u2028", "x" * 90, "1"])
        case 5 if isinstance(holder[key], int | float) and abs(holder[key]) < 2**52:
            holder[key] = holder[key] * chance.choice([-1, 1000, 0.5]) + chance.choice([-1, 0, 1])
        case _:
            holder[key] = copy.deepcopy(chance.choice(POISONS))
