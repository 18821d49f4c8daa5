"""How far and how heavily a limb may be used for now."""

from __future__ import annotations

from authoring.model.base import Node, many, node, optional
from authoring.model.dose import AngleLimit
from authoring.model.vocabulary import WeightBearing


@node
class LimbLimit(Node):
    """What a limb is allowed: range by angle, and weight. What is not given is left open."""

    angles: tuple[AngleLimit, ...] = many("The only range that may be used.", longest=12)
    passive_only: bool | None = optional("Whether the limb may only be moved for the patient.")
    weight_bearing: WeightBearing | None = optional("How much weight it may take.")
    most_weight_kg: float | None = optional("Most weight on it, kilograms.", low=0, high=400)
    most_body_weight_percent: float | None = optional(
        "Most weight on it, percent of body weight.", low=0, high=100
    )
