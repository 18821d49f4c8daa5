"""New nouns to begin with, each one that its class accepts. No Qt here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Mapping
from typing import Any

from authoring.editor.ids import fresh_id, new_file_id
from authoring.editor.shapes import FieldShape, Shape, shapes_of
from authoring.model.base import IMAGE_NAME, UUID, Node
from authoring.model.card import Picture
from authoring.model.dose import Dose, Holds, Interval, Repetitions, Rest
from authoring.model.load import IntRange, NumberRange
from authoring.model.pain import PainBand, PainRule
from authoring.model.pose import (
    BodyPoint,
    Direction,
    Facing,
    LinedUp,
    Parallel,
    Pointing,
    SameHeight,
    Segment,
    Touch,
)
from authoring.model.text import Text
from authoring.model.vocabulary import IntervalRole, PainAction

Taken = Collection[str]


def blank(cls: type[Node], taken: Taken = (), language: str = "en") -> Node:
    """A new noun of a class: empty texts, first choices, least numbers.

    Args:
        taken: inner ids that are taken in the file.
        language: language of the file, for fields that name one.
    """
    own = _RECIPES.get(cls)
    if own is not None:
        return own()
    values = {
        shape.name: _value(cls, shape, taken, language)
        for shape in shapes_of(cls)
        if shape.required
    }
    return cls(**values)


def blank_value(shape: FieldShape, taken: Taken = (), language: str = "en") -> Any:
    """A new item of a list, or a new value of an optional field."""
    return _single(shape, taken, language)


def _value(cls: type[Node], shape: FieldShape, taken: Taken, language: str) -> Any:
    if shape.name == "id" and shape.known.pattern != UUID:
        return fresh_id(cls.__name__, taken)
    if shape.many:
        return tuple(_single(shape, taken, language) for _ in range(shape.known.fewest))
    return _single(shape, taken, language)


def _single(shape: FieldShape, taken: Taken, language: str) -> Any:
    if shape.shape is Shape.NODE:
        return blank(shape.types[0], taken, language)
    if shape.shape is Shape.ENUM:
        kind: Any = shape.types[0]
        return next(iter(kind))
    if shape.shape is Shape.STRING:
        return _string(shape, language)
    if shape.shape in (Shape.WHOLE, Shape.NUMBER):
        low = shape.known.low
        return 0 if low is None or low < 0 else int(low)
    return _PLAIN[shape.shape]()


def _string(shape: FieldShape, language: str) -> str:
    if shape.name == "language":
        return language
    if shape.known.pattern == UUID:
        return new_file_id()
    if shape.known.pattern == IMAGE_NAME:
        return f"{'0' * 64}.png"
    if shape.name == "version":
        return "0.1"
    return "new" if shape.known.pattern or shape.known.fewest else ""


_PLAIN: Mapping[Shape, Callable[[], Any]] = {
    Shape.TEXT: lambda: Text.plain(""),
    Shape.BOOL: lambda: False,
    Shape.DATE: lambda: dt.datetime.now(tz=dt.UTC).astimezone().date(),
    Shape.INT_RANGE: lambda: IntRange(low=1),
    Shape.NUMBER_RANGE: lambda: NumberRange(low=1),
}


def _dose() -> Dose:
    return Dose(work=_repetitions())


def _repetitions() -> Repetitions:
    return Repetitions(sets=IntRange(low=3), reps=(IntRange(low=10),))


_RECIPES: Mapping[type[Node], Callable[[], Node]] = {
    Dose: _dose,
    Repetitions: _repetitions,
    Holds: lambda: Holds(holds=IntRange(low=5), hold_s=(IntRange(low=30),)),
    Rest: lambda: Rest(seconds=IntRange(low=60)),
    Interval: lambda: Interval(
        role=IntervalRole.WORK, activity=Text.plain(""), seconds=IntRange(low=60)
    ),
    PainRule: lambda: PainRule(
        during=(
            PainBand(up_to=2, action=PainAction.CARRY_ON),
            PainBand(up_to=5, action=PainAction.GO_EASIER),
            PainBand(up_to=10, action=PainAction.STOP_TODAY),
        )
    ),
    Picture: lambda: Picture(pose="pose", alt=Text.plain("")),
    Touch: lambda: Touch(point=BodyPoint.PALM, at=BodyPoint.HIP),
    LinedUp: lambda: LinedUp(point=BodyPoint.WRIST, under=BodyPoint.SHOULDER),
    SameHeight: lambda: SameHeight(point=BodyPoint.ELBOW, height_of=BodyPoint.SHOULDER),
    Pointing: lambda: Pointing(segment=Segment.SHIN, degrees_up=-90),
    Parallel: lambda: Parallel(segment=Segment.TRUNK, parallel_to=Segment.SHIN),
    Facing: lambda: Facing(part=Segment.HAND, way=Direction.DOWN),
}
