"""References inside a file and from file to file: what they name must be there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, quoted
from authoring.checks.placed import Placed, card_name, placed, variant_name
from authoring.checks.result import Strength, Subject
from authoring.model.base import Node
from authoring.model.card import Card, Picture
from authoring.model.caution import Caution
from authoring.model.clinic import Clinic, Logo
from authoring.model.dose import Dose
from authoring.model.protocol import Branch, Lesson, Protocol
from authoring.model.sentence import Sentence, say, say_n
from authoring.model.sources import Source
from authoring.model.vocabulary import BranchAction

CARD, PROTOCOL, CLINIC = Subject.CARD, Subject.PROTOCOL, Subject.CLINIC
CONTRACT = "Contract of the files: an id that is named must exist."


@check(
    "reference-missing-term",
    Strength.MUST,
    CARD,
    PROTOCOL,
    says="A condition, demand, position, kit, movement, measure or purpose is not in library.json.",
    why=CONTRACT + " A term nobody knows can't be matched with a patient's conditions or kit.",
)
def missing_terms(value: Node, context: Context) -> Iterator[Spot]:
    places = defaultdict(list)
    for use in context.walk(value).terms:
        if context.term(use.kind, use.id) is None:
            places[use.kind, use.id].append(use.path)
    for (kind, term_id), paths in places.items():
        what = {"kind": kind, "term": quoted(term_id)}
        yield Spot(
            paths[0],
            say("The library has no {kind} {term}.", **what)
            if len(paths) == 1
            else say_n(
                "The library has no {kind} {term} (named in {n} place).",
                "The library has no {kind} {term} (named in {n} places).",
                len(paths),
                **what,
            ),
            say("Add the {kind} to the library's terms, or choose one that is there.", kind=kind),
        )


@check(
    "reference-missing-card",
    Strength.MUST,
    PROTOCOL,
    says="An exercise of a stage uses a card that the library does not have.",
    why=CONTRACT,
)
def missing_cards(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        if place.card is None:
            yield Spot(
                f"{place.path}.card",
                say(
                    "{name} uses a card that the library does not have or can't read.",
                    name=place.name,
                ),
                say("Bring the card back, mend its file, or choose another card."),
            )


def _named_variants(place: Placed) -> Iterator[tuple[str, str]]:
    entry = place.entry
    yield f"{place.path}.start", entry.start
    for name in ("allowed", "together", "may_hold", "dose_fits"):
        for index, variant_id in enumerate(getattr(entry, name)):
            yield f"{place.path}.{name}[{index}]", variant_id
    yield from _week_variants(entry.dose, f"{place.path}.dose")
    yield from _week_variants(entry.hold_dose, f"{place.path}.hold_dose")


@check(
    "reference-missing-variant",
    Strength.MUST,
    PROTOCOL,
    says="An exercise of a stage names a variant that its card does not have.",
    why=CONTRACT,
)
def missing_variants(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        if place.card is None:
            continue
        for path, variant_id in _named_variants(place):
            if place.card.variant(variant_id) is None:
                yield Spot(
                    path,
                    say(
                        "{name} names the variant {variant}, which its card does not have.",
                        name=place.name,
                        variant=quoted(variant_id),
                    ),
                    say("Choose a variant of the card, or take the name out."),
                )


@check(
    "reference-missing-stand-in",
    Strength.MUST,
    CARD,
    says="A hold stands in for a variant that the card does not have.",
    why=CONTRACT,
)
def missing_stand_ins(card: Card, _: Context) -> Iterator[Spot]:
    for index, variant in enumerate(card.variants):
        for place, wanted in enumerate(variant.hold.stands_in_for if variant.hold else ()):
            if card.variant(wanted) is None:
                yield Spot(
                    f"variants[{index}].hold.stands_in_for[{place}]",
                    say(
                        "{variant} stands in for {wanted}, which {card} does not have.",
                        variant=variant_name(card, variant),
                        wanted=quoted(wanted),
                        card=card_name(card),
                    ),
                    say("Name the variant that the hold may replace."),
                )


@check(
    "reference-missing-week-variant",
    Strength.MUST,
    CARD,
    says="A week table of a card changes to a variant that the card does not have.",
    why=CONTRACT,
)
def missing_week_variants(card: Card, _: Context) -> Iterator[Spot]:
    for index, variant in enumerate(card.variants):
        for path, wanted in _week_variants(variant.dose, f"variants[{index}].dose"):
            if card.variant(wanted) is None:
                yield Spot(
                    path,
                    say(
                        "The week table of {variant} changes to {wanted}, which {card} does not "
                        "have.",
                        variant=variant_name(card, variant),
                        wanted=quoted(wanted),
                        card=card_name(card),
                    ),
                    say("Choose a variant of the card, or take the name out."),
                )


def _week_variants(dose: Dose | None, path: str) -> Iterator[tuple[str, str]]:
    for index, row in enumerate(dose.weeks if dose is not None else ()):
        if row.variant is not None:
            yield f"{path}.weeks[{index}].variant", row.variant


@check(
    "reference-missing-stage",
    Strength.MUST,
    CARD,
    PROTOCOL,
    says="A caution or lesson is for a stage that the file does not have.",
    why=CONTRACT + " It would never print.",
)
def missing_stages(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    known = {stage.id for stage in value.stages} if isinstance(value, Protocol) else set()
    found = context.walk(value)
    named: list[tuple[str, Caution | Lesson]] = [*found.nodes(Caution), *found.nodes(Lesson)]
    for path, one in named:
        for index, wanted in enumerate(one.stages):
            if wanted not in known:
                kind = say("lesson") if isinstance(one, Lesson) else say("caution")
                yield Spot(
                    f"{path}.stages[{index}]",
                    say(
                        "The {kind} {one} is for the stage {wanted}, which there is not.",
                        kind=kind,
                        one=quoted(one.id),
                        wanted=quoted(wanted),
                    ),
                    say("Name a stage of this protocol, or none for all."),
                )


@check(
    "reference-missing-choice",
    Strength.MUST,
    PROTOCOL,
    says="An exercise belongs to an either/or choice that its block does not have.",
    why=CONTRACT,
)
def missing_choices(protocol: Protocol, context: Context) -> Iterator[Spot]:
    known = {
        f"stages[{s}].blocks[{b}]": {choice.id for choice in block.choices}
        for s, stage in enumerate(protocol.stages)
        for b, block in enumerate(stage.blocks)
    }
    for place in placed(protocol, context):
        choice = place.entry.choice
        block = place.path.partition(".entries")[0]
        if choice is not None and choice not in known[block]:
            yield Spot(
                f"{place.path}.choice",
                say(
                    "{name} belongs to the choice {choice}, which its block does not have.",
                    name=place.name,
                    choice=quoted(choice),
                ),
                say("Add the choice to the block, or take the exercise out of it."),
            )


@check(
    "choice-without-choice",
    Strength.SHOULD,
    PROTOCOL,
    says="An either/or choice has no more exercises than are to be done.",
    why="Such a choice lets nobody choose (logic of the data).",
)
def idle_choices(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for s, stage in enumerate(protocol.stages):
        for b, block in enumerate(stage.blocks):
            for c, choice in enumerate(block.choices):
                members = sum(entry.choice == choice.id for entry in block.entries)
                if members <= choice.pick:
                    yield Spot(
                        f"stages[{s}].blocks[{b}].choices[{c}]",
                        say_n(
                            "The choice {choice} of stage {stage} asks for {pick} of {n} exercise.",
                            "The choice {choice} of stage {stage} asks for {pick} of {n} "
                            "exercises.",
                            members,
                            choice=quoted(choice.id),
                            stage=s + 1,
                            pick=choice.pick,
                        ),
                        say("Put more exercises into the choice, or take it out."),
                    )


@check(
    "reference-missing-publication",
    Strength.MUST,
    CARD,
    PROTOCOL,
    says="A source names a publication that is not among the file's references.",
    why=CONTRACT + " A clinician must be able to look up what a dose rests on.",
)
def missing_publications(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    known = {reference.id for reference in value.references}
    places = defaultdict(list)
    for path, source in context.walk(value).nodes(Source):
        if source.reference is not None and source.reference not in known:
            places[source.reference].append(f"{path}.reference")
    for reference, paths in places.items():
        yield Spot(
            paths[0],
            say_n(
                "The publication {reference} is named in {n} place, and is not among the "
                "references.",
                "The publication {reference} is named in {n} places, and is not among the "
                "references.",
                len(paths),
                reference=quoted(reference),
            ),
            say("Add it to the references, or name one that is there."),
        )


@check(
    "reference-missing-image",
    Strength.MUST,
    CARD,
    CLINIC,
    says="A picture or logo is not in the images folder.",
    why=CONTRACT,
)
def missing_images(value: Card | Clinic, context: Context) -> Iterator[Spot]:
    found = context.walk(value)
    images = [(path, picture.image) for path, picture in found.nodes(Picture)]
    images += [(path, logo.image) for path, logo in found.nodes(Logo)]
    for path, image in images:
        if image is not None and not context.has_image(image):
            yield Spot(
                f"{path}.image",
                say(
                    "The picture {image} is not in the library's images folder.",
                    image=quoted(image),
                ),
                say("Add the picture again, or take it out."),
            )


@check(
    "reference-missing-pose",
    Strength.MUST,
    CARD,
    says="A picture shows a pose that neither the library nor the program has.",
    why=CONTRACT,
)
def missing_poses(card: Card, context: Context) -> Iterator[Spot]:
    for path, picture in context.walk(card).nodes(Picture):
        if picture.pose is not None and context.pose(picture.pose) is None:
            yield Spot(
                f"{path}.pose",
                say("There is no pose {pose} to draw the picture from.", pose=quoted(picture.pose)),
                say("Bring the pose back, or choose another picture."),
            )


def _branch_fault(
    protocol: Protocol, context: Context, branch: Branch
) -> tuple[str, Sentence] | None:
    stages = {each.id for each in protocol.stages}
    stage, other, then = branch.stage, branch.protocol, branch.then
    if then is BranchAction.LEAVE_OUT:
        return _left_out_fault(protocol, branch)
    if then is BranchAction.GO_TO_STAGE and stage is None:
        return "stage", say("does not say which stage")
    if then is BranchAction.USE_PROTOCOL and other is None:
        return "protocol", say("does not say which protocol")
    if stage is not None and stage not in stages:
        return "stage", say("leads to the stage {stage}, which there is not", stage=quoted(stage))
    if other is not None and not context.has_protocol(other):
        return "protocol", say("leads to a protocol that the library does not have")
    return None


def _left_out_fault(protocol: Protocol, branch: Branch) -> tuple[str, Sentence] | None:
    if not branch.entries:
        return "entries", say("does not say which exercises are left out")
    known = {entry.id for entry in protocol.entries()}
    for index, entry in enumerate(branch.entries):
        if entry not in known:
            return f"entries[{index}]", say(
                "leaves out {entry}, which there is not", entry=quoted(entry)
            )
    return None


@check(
    "branch-without-target",
    Strength.MUST,
    PROTOCOL,
    says="A branch leads to no stage, protocol or exercise, or to one that there is not.",
    why=CONTRACT,
)
def lost_branches(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for s, stage in enumerate(protocol.stages):
        for b, branch in enumerate(stage.branches):
            fault = _branch_fault(protocol, context, branch)
            if fault is not None:
                yield Spot(
                    f"stages[{s}].branches[{b}].{fault[0]}",
                    say(
                        "The branch {branch} of stage {stage} {fault}.",
                        branch=quoted(branch.id),
                        stage=s + 1,
                        fault=fault[1],
                    ),
                    say("Name a stage or exercise of this protocol, or a protocol of the library."),
                )


def rings(links: dict[str, str | None]) -> list[list[str]]:
    """Rings of ids, each once, in the order of the file."""
    rings, done = [], set[str]()
    for first in links:
        trail: dict[str, int] = {}
        here: str | None = first
        while here is not None and here not in done and here not in trail:
            trail[here] = len(trail)
            here = links.get(here)
        if here is not None and here in trail:
            rings.append([*trail][trail[here] :])
        done.update(trail)
    return rings


@check(
    "builds-on-cycle",
    Strength.MUST,
    PROTOCOL,
    says="Exercises build on one another in a ring.",
    why="A line of exercises that grow harder has a first one (logic of the data).",
)
def builds_on_rings(protocol: Protocol, context: Context) -> Iterator[Spot]:
    by_id = {place.entry.id: place for place in placed(protocol, context)}
    for ring in rings({key: place.entry.builds_on for key, place in by_id.items()}):
        numbers = [str(by_id[key].number) for key in ring]
        yield Spot(
            f"{by_id[ring[0]].path}.builds_on",
            say(
                "{name} builds on itself by way of exercise {numbers}.",
                name=by_id[ring[0]].name,
                numbers=listed(numbers),
            )
            if len(ring) > 1
            else say("{name} builds on itself.", name=by_id[ring[0]].name),
            say("Let the first exercise of the line build on none."),
        )


@check(
    "builds-on-not-earlier",
    Strength.MUST,
    PROTOCOL,
    says="An exercise builds on one that there is not, or that comes later.",
    why=CONTRACT + " A line of exercises leads from earlier to later ones.",
)
def builds_on_later(protocol: Protocol, context: Context) -> Iterator[Spot]:
    places = placed(protocol, context)
    by_id = {place.entry.id: place for place in places}
    ringed = {
        key for ring in rings({k: p.entry.builds_on for k, p in by_id.items()}) for key in ring
    }
    seen: set[str] = set()
    for place in places:
        wanted = place.entry.builds_on
        if wanted is not None and wanted not in seen and place.entry.id not in ringed:
            wrong = say("comes later") if wanted in by_id else say("there is not")
            yield Spot(
                f"{place.path}.builds_on",
                say(
                    "{name} builds on {wanted}, which {wrong}.",
                    name=place.name,
                    wanted=quoted(wanted),
                    wrong=wrong,
                ),
                say("Name an earlier exercise, or none."),
            )
        seen.add(place.entry.id)


@check(
    "id-twice",
    Strength.MUST,
    CARD,
    PROTOCOL,
    says="Two parts of a file have the same id.",
    why="Contract of the files: comparing and merging go by these ids.",
)
def twice_ids(value: Node, context: Context) -> Iterator[Spot]:
    first: dict[str, str] = {}
    for path, found in context.walk(value).ids:
        if found in first:
            yield Spot(
                path,
                say(
                    "The id {found} is used twice: first for {first}.",
                    found=quoted(found),
                    first=first[found].removesuffix(".id"),
                ),
                say("Give one of them another id, and mend what refers to it."),
            )
        first.setdefault(found, path)
