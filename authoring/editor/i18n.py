"""Words of the interface, through gettext catalogues in ``locale/``.

Catalogues are kept as ``.po`` text and read when the editor starts; the source
strings are English.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from babel import Locale

_FOLDER = Path(__file__).parent / "locale"


class _Catalogue:
    """The messages in use; English, which is in the source, needs none."""

    language = "en"
    messages: Mapping[str | tuple[str, str], str | tuple[str, ...]] = {}


def languages() -> tuple[str, ...]:
    """Tags of the languages the interface can speak."""
    return ("en", *sorted(path.stem for path in _FOLDER.glob("*.po")))


def use(language: str) -> None:
    """Speak a language from now on; one without a catalogue means English."""
    base = language.replace("_", "-").partition("-")[0]
    path = _FOLDER / f"{base}.po"
    if base == "en" or not path.is_file():
        _Catalogue.language, _Catalogue.messages = "en", {}
        return
    from babel.messages.pofile import read_po  # noqa: PLC0415 - late: English needs none

    with path.open("rb") as file:
        catalogue = read_po(file, locale=base)
    found: dict[str | tuple[str, str], str | tuple[str, ...]] = {}
    for message in catalogue:
        if message.id and message.string and not message.fuzzy:
            key = message.id if isinstance(message.id, str) else tuple(message.id)
            text = message.string
            found[key] = text if isinstance(text, str) else tuple(text)  # type: ignore[index]  # stubs say list
            if isinstance(key, tuple) and not isinstance(text, str):
                # As in gettext, a message with a plural also stands for its own singular.
                found.setdefault(key[0], text[0])
    _Catalogue.language, _Catalogue.messages = base, found


def language() -> str:
    """Tag of the language in use."""
    return _Catalogue.language


def _locale(tag: str) -> Locale:
    from babel import Locale  # noqa: PLC0415 - late: English needs none

    return Locale.parse(tag)


def own_name(tag: str) -> str:
    """A language's name in that language, with a capital ("Français")."""
    name = _locale(tag).get_language_name(tag) or tag
    return name[:1].upper() + name[1:]


def language_name(tag: str) -> str:
    """A language in words of the interface: "English (United Kingdom)"; "" for none known."""
    from babel import Locale, UnknownLocaleError  # noqa: PLC0415 - late: no screen starts with one

    try:
        return Locale.parse(tag, sep="-").get_display_name(_Catalogue.language) or ""
    except (UnknownLocaleError, ValueError):
        return ""


def is_right_to_left() -> bool:
    """Whether the language in use is written from right to left."""
    return _Catalogue.language != "en" and _locale(_Catalogue.language).text_direction == "rtl"


def ltr(words: str) -> str:
    """Words that keep their order in a line of the other direction: doses, keys, rungs.

    In an interface written from right to left they are isolated (Unicode UAX 9, LRI and
    PDI); else they are left as they are.
    """
    return f"\u2066{words}\u2069" if words and is_right_to_left() else words


def decimal_sign() -> str:
    """What stands between a number's whole and its parts in the language in use (CLDR)."""
    if _Catalogue.language == "en":
        return "."
    from babel.numbers import get_decimal_symbol  # noqa: PLC0415 - late: English needs none

    return get_decimal_symbol(_locale(_Catalogue.language))


def day_words(day: dt.date) -> str:
    """A day as people write it in the language in use ("3 May 2030", by CLDR)."""
    from babel.dates import format_date  # noqa: PLC0415 - late: no screen starts with a date

    used = "en_GB" if _Catalogue.language == "en" else _Catalogue.language
    return format_date(day, "long", locale=used)


def tr(message: str, **places: object) -> str:
    """A message in the language in use, with its places (``{name}``) filled."""
    found = _Catalogue.messages.get(message, message)
    text = found if isinstance(found, str) else found[0]
    return text.format(**places) if places else text


def mark(message: str) -> str:
    """Mark a message for the catalogues where it stands; ``tr`` translates it when shown."""
    return message


def tr_n(one: str, other: str, count: int, **places: object) -> str:
    """A message for a count; ``{n}`` is the count."""
    return form_for(one, other, count).format(n=count, **places)


def form_for(one: str, other: str, count: int) -> str:
    """The form of a message that a count asks for, its places not yet filled."""
    forms = _Catalogue.messages.get((one, other))
    if isinstance(forms, tuple):
        locale = _locale(_Catalogue.language)
        form = str(locale.plural_form(count))
        order = sorted(locale.plural_form.tags | {"other"}, key=_PLURAL_ORDER.index)
        return forms[min(order.index(form), len(forms) - 1)]
    return one if count == 1 else other


_PLURAL_ORDER = ("zero", "one", "two", "few", "many", "other")
