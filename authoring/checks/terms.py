"""The library as a whole: its terms, its short names and its clinic."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, quoted
from authoring.checks.references import CONTRACT, rings
from authoring.checks.result import Strength, Subject
from authoring.model.library import Library, Term
from authoring.model.sentence import Sentence, say
from authoring.model.vocabulary import TermKind

LIBRARY = Subject.LIBRARY


@check(
    "clinic-missing",
    Strength.MUST,
    LIBRARY,
    says="The library has no clinic that can be read.",
    why="Handouts must say whom to call.",
)
def no_clinic(library: Library, _: Context) -> Iterator[Spot]:
    if library.clinic is None:
        yield Spot(
            "",
            say(
                "The library has no clinic, or its file can't be read: handouts could not say "
                "whom to call."
            ),
            say("Add clinic.json, or mend it."),
        )


@check(
    "slug-twice",
    Strength.MUST,
    LIBRARY,
    says="Two cards, or two protocols, have the same short name.",
    why=CONTRACT + " Files are called after their short names.",
)
def twice_slugs(library: Library, _: Context) -> Iterator[Spot]:
    for files in (library.cards, library.protocols):
        ids = defaultdict(list)
        for each in files.values():
            ids[each.slug].append(each.id)
        for slug, found in ids.items():
            if len(found) > 1:
                yield Spot(
                    "",
                    _called(
                        files is library.cards,
                        {"count": len(found), "slug": quoted(slug), "found": listed(found)},
                    ),
                    say("Give each a short name of its own."),
                )


def _called(are_cards: bool, places: dict[str, object]) -> Sentence:
    if are_cards:
        return say("{count} cards are called {slug} (ids {found}).", **places)
    return say("{count} protocols are called {slug} (ids {found}).", **places)


@check(
    "id-shared-by-files",
    Strength.MUST,
    LIBRARY,
    says="A card and a protocol have the same id.",
    why="Contract of the files: an id names one file.",
)
def shared_ids(library: Library, _: Context) -> Iterator[Spot]:
    for shared in sorted(library.cards.keys() & library.protocols.keys()):
        yield Spot(
            "",
            say(
                "The card {card} and the protocol {protocol} have the same id.",
                card=quoted(library.cards[shared].slug),
                protocol=quoted(library.protocols[shared].slug),
            ),
            say("Give one of them a new id, and mend what refers to it."),
        )


def _terms(library: Library) -> Iterator[tuple[str, Term]]:
    for index, term in enumerate(library.manifest.terms):
        yield f"terms[{index}]", term


@check(
    "term-twice",
    Strength.MUST,
    LIBRARY,
    says="Two terms of one kind have the same id.",
    why="Contract of the files: references go by these ids.",
)
def twice_terms(library: Library, _: Context) -> Iterator[Spot]:
    seen: set[tuple[TermKind, str]] = set()
    for path, term in _terms(library):
        if (term.kind, term.id) in seen:
            yield Spot(
                f"{path}.id",
                say(
                    "The {kind} {term} stands twice among the terms.",
                    kind=term.kind,
                    term=quoted(term.id),
                ),
                say("Join the two, or give one another id."),
            )
        seen.add((term.kind, term.id))


@check(
    "term-name-twice",
    Strength.SHOULD,
    LIBRARY,
    says="Two terms of one kind share a name or look-alike.",
    why="Words that a patient brings must lead to one term.",
)
def twice_names(library: Library, _: Context) -> Iterator[Spot]:
    owner: dict[tuple[TermKind, str], str] = {}
    for path, term in _terms(library):
        for name in dict.fromkeys([*term.name.values.values(), *term.also]):
            key = term.kind, " ".join(name.casefold().split())
            other = owner.setdefault(key, term.id)
            if other != term.id:
                yield Spot(
                    path,
                    say(
                        "The {kind}s {other} and {term} are both called {name}.",
                        kind=term.kind,
                        other=quoted(other),
                        term=quoted(term.id),
                        name=quoted(name),
                    ),
                    say("Keep the name with one of them, or join the two."),
                )


@check(
    "term-broader-missing",
    Strength.MUST,
    LIBRARY,
    says="A term has a wider term that the library does not have.",
    why=CONTRACT,
)
def missing_wider(library: Library, context: Context) -> Iterator[Spot]:
    for path, term in _terms(library):
        if term.broader is not None and context.term(term.kind, term.broader) is None:
            yield Spot(
                f"{path}.broader",
                say(
                    "The {kind} {term} falls under {broader}, and there is no such {kind}.",
                    kind=term.kind,
                    term=quoted(term.id),
                    broader=quoted(term.broader),
                ),
                say("Add the wider term, or choose one that is there."),
            )


@check(
    "term-broader-cycle",
    Strength.MUST,
    LIBRARY,
    says="Terms fall under one another in a ring.",
    why="A contraindication for the wider term would have no edge (logic of the data).",
)
def wider_rings(library: Library, _: Context) -> Iterator[Spot]:
    for kind in TermKind:
        links = {term.id: term.broader for _, term in _terms(library) if term.kind is kind}
        paths = {term.id: path for path, term in _terms(library) if term.kind is kind}
        for ring in rings(links):
            yield Spot(
                f"{paths[ring[0]]}.broader",
                say(
                    "The {kind} {term} falls under itself by way of {names}.",
                    kind=kind,
                    term=quoted(ring[0]),
                    names=listed([quoted(each) for each in ring[1:]]),
                )
                if len(ring) > 1
                else say("The {kind} {term} falls under itself.", kind=kind, term=quoted(ring[0])),
                say("Let the widest of them fall under none."),
            )


_RISKY = re.compile(
    r"\b(?:jump|hop|hopp|leap|land|plyometric|bound)(?:s|ing)?\b|\boverhead\b"
    r"|\beyes (?:closed|shut)\b|\b(?:affected|sore|painful) side\b|\bhead (?:down|low)\b"
    r"|\bbreath.?hold|\bhold(?:ing|s)?(?: the| your)? breath\b|\bvalsalva\b"
)


@check(
    "demand-asks-no-caution",
    Strength.SHOULD,
    LIBRARY,
    says="A demand that is known to need a caution is not marked as needing one.",
    why="Jumping, loads overhead, closed eyes, lying on the affected side, head down, holding "
    "the breath: common practice, no source. Unmarked, exercises with it are not checked.",
)
def unmarked_demands(library: Library, _: Context) -> Iterator[Spot]:
    for path, term in _terms(library):
        if term.kind is not TermKind.DEMAND or term.needs_caution:
            continue
        names = " / ".join([term.id.replace("-", " "), *term.name.values.values(), *term.also])
        if term.side_lying or _RISKY.search(names.lower()):
            yield Spot(
                f"{path}.needs_caution",
                say("The demand {term} is not marked as needing a caution.", term=quoted(term.id)),
                say("Mark it, so that every exercise that makes it is checked for one."),
            )
