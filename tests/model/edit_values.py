"""Sound protocols and cards to edit: ids unique, links to earlier entries, choices in place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st

from authoring.model.base import evolve
from authoring.model.card import Card, HoldDetail, Variant
from authoring.model.caution import Caution
from authoring.model.criterion import AllOf, InWords
from authoring.model.dose import Dose, Holds, Repetitions
from authoring.model.edits.naming import ids_in
from authoring.model.edits.tree import own_ids
from authoring.model.library import Library, LibraryFile
from authoring.model.load import IntRange
from authoring.model.protocol import Block, Branch, Choice, Entry, Protocol, Stage
from authoring.model.text import Text
from authoring.model.vocabulary import BlockKind, BranchAction, CautionKind, Mode, Region

Draw = Callable[[st.SearchStrategy[Any]], Any]

CARD_IDS = tuple(f"00000000-0000-4000-8000-00000000000{n}" for n in range(1, 4))
PROTOCOL_ID = "00000000-0000-4000-8000-0000000000aa"
LIBRARY_ID = "00000000-0000-4000-8000-0000000000bb"

say = Text.plain


def reps(sets: int, count: int) -> Dose:
    return Dose(work=Repetitions(sets=IntRange(low=sets), reps=(IntRange(low=count),)))


def hold(count: int, seconds: int) -> Dose:
    return Dose(work=Holds(holds=IntRange(low=count), hold_s=(IntRange(low=seconds),)))


def variant(variant_id: str, rung: int, mode: Mode = Mode.DYNAMIC, **facts: Any) -> Variant:
    return Variant(
        id=variant_id, rung=rung, mode=mode, name=say(variant_id.replace("-", " ")), **facts
    )


def heel_raise() -> Card:
    """A ladder from -1 to 2 with a hold on rungs 0 and 1."""
    return Card(
        id=CARD_IDS[0],
        slug="heel-raise",
        language="en",
        title=say("Heel raise"),
        purposes=("calf-strength",),
        regions=(Region.FOOT_ANKLE,),
        variants=(
            variant("seated", -1, dose=reps(3, 20)),
            variant("two-legs", 0, dose=reps(3, 15)),
            variant("two-legs-hold", 0, Mode.ISOMETRIC, dose=hold(5, 30)),
            variant(
                "one-leg",
                1,
                dose=reps(3, 12),
                cautions=(
                    Caution(id="kick", kind=CautionKind.PRECAUTION, text=say("Mind your calf.")),
                ),
            ),
            variant("one-leg-hold", 1, Mode.ISOMETRIC, hold=HoldDetail(stands_in_for=("one-leg",))),
            variant("one-leg-weight", 2, dose=reps(3, 8)),
        ),
    )


def bridge() -> Card:
    """One variant only."""
    return Card(
        id=CARD_IDS[1],
        slug="bridge",
        language="en",
        title=say("Bridge"),
        regions=(Region.HIP,),
        variants=(variant("bridge", 0),),
    )


def stand() -> Card:
    """Holds only, and the purpose of the heel raise."""
    return Card(
        id=CARD_IDS[2],
        slug="stand",
        language="en",
        title=say("Stand on one leg"),
        purposes=("calf-strength",),
        regions=(Region.FOOT_ANKLE,),
        variants=(variant("stand", 0, Mode.ISOMETRIC), variant("stand-soft", 1, Mode.ISOMETRIC)),
    )


CARDS = {card.id: card for card in (heel_raise(), bridge(), stand())}


def entry(entry_id: str, card: Card | None = None, **facts: Any) -> Entry:
    of = card or CARDS[CARD_IDS[0]]
    return Entry(**{"id": entry_id, "card": of.id, "start": of.variants[0].id, **facts})


def block(block_id: str, *entries: Entry, **facts: Any) -> Block:
    return Block(id=block_id, entries=entries, **facts)


def stage(stage_id: str, *blocks: Block, **facts: Any) -> Stage:
    return Stage(id=stage_id, name=say(stage_id), blocks=blocks, **facts)


def protocol(*stages: Stage, **facts: Any) -> Protocol:
    return Protocol(
        id=PROTOCOL_ID, slug="calf", language="en", title=say("Calf"), stages=stages, **facts
    )


def library(*protocols: Protocol, **facts: Any) -> Library:
    manifest = LibraryFile(id=LIBRARY_ID, name="Larkfield (invented)", language="en")
    given = {"cards": CARDS, "manifest": manifest, **facts}
    return Library(protocols={one.id: one for one in protocols}, **given)


# ---- drawn ------------------------------------------------------------------------


@st.composite
def _entries(draw: Draw, ids: Any, earlier: list[str], most: int) -> list[Entry]:
    made = []
    for _ in range(draw(st.integers(0, most))):
        of = CARDS[draw(st.sampled_from(CARD_IDS))]
        base = draw(st.none() | st.sampled_from(earlier)) if earlier else None
        one = entry(
            next(ids),
            of,
            start=draw(st.sampled_from([each.id for each in of.variants])),
            builds_on=base,
            dose=draw(st.none() | st.just(reps(2, 9))),
        )
        earlier.append(one.id)
        made.append(one)
    return made


@st.composite
def _blocks(draw: Draw, ids: Any, earlier: list[str]) -> Block:
    entries = draw(_entries(ids, earlier, 3))
    choices: tuple[Choice, ...] = ()
    if len(entries) > 1 and draw(st.booleans()):
        choices = (Choice(id=next(ids)),)
        entries = [
            *(evolve(each, choice=choices[0].id) for each in entries[:2]),
            *entries[2:],
        ]
    kind = draw(st.sampled_from([BlockKind.MAIN, BlockKind.WARM_UP, BlockKind.CIRCUIT]))
    rounds = IntRange(low=3) if kind is BlockKind.CIRCUIT else None
    return block(next(ids), *entries, kind=kind, rounds=rounds, choices=choices)


@st.composite
def protocols(draw: Draw, fewest: int = 0) -> Protocol:
    """Sound protocols of up to four stages, with numbers counted or frozen."""
    ids = (f"{stem}-{n}" for n in range(1, 999) for stem in ("x", "y"))
    earlier: list[str] = []
    stages = []
    for _ in range(draw(st.integers(1, 4))):
        blocks = [draw(_blocks(ids, earlier)) for _ in range(draw(st.integers(0, 2)))]
        gate = AllOf(
            id=next(ids),
            parts=(InWords(id=next(ids), words=say("A")), InWords(id=next(ids), words=say("B"))),
        )
        stages.append(stage(next(ids), *blocks, move_on=(gate,)))
    target = draw(st.sampled_from(stages)).id
    branch = Branch(
        id=next(ids), finding=say("Swells"), then=BranchAction.GO_TO_STAGE, stage=target
    )
    every = [each.id for one in stages for each in one.entries()]
    out = tuple(draw(st.lists(st.sampled_from(every), unique=True, max_size=3))) if every else ()
    leave_out = Branch(id=next(ids), finding=say("Sore"), then=BranchAction.LEAVE_OUT, entries=out)
    stages[0] = evolve(stages[0], branches=(branch, leave_out))
    made = protocol(*stages)
    while len(list(made.entries())) < fewest:
        home = block(next(ids), entry(next(ids)))
        made = evolve(
            made,
            stages=(
                *made.stages[:-1],
                evolve(made.stages[-1], blocks=(*made.stages[-1].blocks, home)),
            ),
        )
    return frozen(made) if draw(st.booleans()) else made


def frozen(made: Protocol) -> Protocol:
    from authoring.model.edits.entries import freeze_numbers

    return freeze_numbers(made).value


# ---- what must hold after every edit -------------------------------------------------


def assert_sound(made: Protocol) -> None:
    """The rules of the file format that an edit must keep, stated without the edits' code."""
    from authoring.files.convert import from_json, to_json

    ids = own_ids(made)
    assert len(ids) == len(set(ids)) == len(ids_in(made))
    seen: set[str] = set()
    for each in made.entries():
        assert each.builds_on is None or each.builds_on in seen
        seen.add(each.id)
    numbers = list(made.numbers().values())
    assert numbers == list(range(1, len(numbers) + 1))
    for each_stage in made.stages:
        for each_block in each_stage.blocks:
            known = {choice.id for choice in each_block.choices}
            assert {e.choice for e in each_block.entries} - {None} <= known
        for branch in each_stage.branches:
            assert branch.stage is None or branch.stage in {s.id for s in made.stages}
            assert set(branch.entries) <= seen
    assert from_json(Protocol, to_json(made)) == made
