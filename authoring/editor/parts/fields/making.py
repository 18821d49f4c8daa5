"""The right field for each kind of value."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from authoring.editor.blanks import blank_value
from authoring.editor.form_context import FormContext
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.choices import (
    ChoiceField,
    SeveralField,
    YesNoField,
    maybe_field,
)
from authoring.editor.parts.fields.lines import (
    DateField,
    IntRangeField,
    LineField,
    NumberField,
    NumberRangeField,
    WholeField,
)
from authoring.editor.parts.fields.list_field import ListField
from authoring.editor.parts.fields.node_field import NodeField, NodesField
from authoring.editor.parts.fields.picks import PickField, PicksField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.shapes import FieldShape, Shape
from authoring.editor.vocabulary_words import unit_of
from authoring.model.base import Fact

Draft = Callable[[], Mapping[str, Any]]

_LONG_TEXT = 400
"""Strings that may be longer than this get several lines."""


def make_field(shape: FieldShape, words: str, context: FormContext, draft: Draft) -> ValueField:
    """A field for a value of this shape.

    Args:
        words: the field's label, for ticks that carry their own.
        draft: the noun that is being edited, by field name.
    """
    if shape.many:
        return _many(shape, words, context, draft)
    return _single(shape, words, context, draft)


def _many(shape: FieldShape, words: str, context: FormContext, draft: Draft) -> ValueField:
    if shape.shape is Shape.NODE:
        return NodesField(shape, words, context)
    if shape.shape is Shape.ENUM:
        return SeveralField(shape.types[0])
    known = shape.known
    if shape.shape is Shape.STRING and context.picks(known):
        return PicksField(lambda: context.options(known, draft()), create=context.creator(known))
    one = FieldShape(shape.name, shape.shape, False, False, shape.types, _of_items(known), True)
    return ListField(
        lambda: _single(one, words, context, draft),
        partial(blank_value, one, (), context.own),
        most=known.longest,
    )


def _of_items(known: Fact) -> Fact:
    """Facts of one item of a list: its pattern, and no longer its count."""
    return Fact(known.doc, pattern=known.pattern, term=known.term, points_to=known.points_to)


def _single(shape: FieldShape, words: str, context: FormContext, draft: Draft) -> ValueField:
    known, optional, unit = shape.known, shape.optional, unit_of(shape.name)
    match shape.shape:
        case Shape.TEXT:
            text = TextField(context.own, context.language, optional=optional)
            text.mark_spelling(context.session)
            made: ValueField = text
        case Shape.STRING if context.picks(known):
            made = PickField(
                lambda: context.options(known, draft()),
                create=context.creator(known),
                optional=optional,
            )
        case Shape.STRING:
            made = LineField(known, optional=optional)
        case Shape.WHOLE:
            made = WholeField(known, optional=optional, unit=unit)
        case Shape.NUMBER:
            made = NumberField(known, optional=optional, unit=unit)
        case Shape.BOOL:
            made = maybe_field() if optional else YesNoField(words)
        case Shape.DATE:
            made = DateField(optional=optional)
        case Shape.ENUM:
            made = ChoiceField(shape.types[0], optional=optional)
        case Shape.INT_RANGE:
            made = IntRangeField(optional=optional, unit=unit)
        case Shape.NUMBER_RANGE:
            made = NumberRangeField(optional=optional, unit=unit)
        case _:
            made = NodeField(shape, words, context)
    return made
