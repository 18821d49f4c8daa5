"""The trade's shorthand for a dose, read and written ("3 x 8-12, rest 90 s, 3/wk").

Clauses stand in any order, parted by commas, spaces, "with" or "and". Small and capital
letters are alike. ``x``, ``×`` and ``*`` multiply; a hyphen, a dash or "to" makes a range;
a comma between digits is a decimal comma where it can't be anything else. The writer gives
the first form of each line.

=================  ==========================================================================
Sets               ``3 x 8-12``, ``3 sets of 8-12 reps``; one set ``1 x 12``, ``12 reps``
One for each set   ``12/10/8``, ``12,10,8``, ``12, 10, 8``
Counted            ``30 steps``, ``3 x 10 hops``; stands, throws, contacts, jumps, catches,
                   breaths, lengths, turns
End of a set       ``3 x to fatigue``, ``3 x max good form (cap 15)``, ``3 x 6 quality``;
                   ``last set to fatigue``
Total              ``total 100``, ``to 100 reps``; ``total 100 in up to 5 sets``
Holds              ``30 s hold``, ``5 x 45 s hold``, ``3 x 10 x 5 s hold`` (sets, holds, time);
                   ``3 x 10 hold 5 s``; ``3 x 10/20/30 s hold``; ``3 x hold to fatigue``
Time, distance     ``10 min``, ``2 x 5 min``, ``400 m``, ``4 x 20 m``, ``1.5 km``; ``m`` is metres
Intervals          ``6 x (1 min run / 2 min walk)``: work and recovery in turn, or named
                   ``work``, ``recover``; each part may have a load. ``warm-up 5 min walk``,
                   ``cool-down 5 min walk`` are done once
Left open          ``as tolerated``, ``per clinician``, ``per surgeon``, each with ``: words``
Side               ``each side``, ``both together``, ``affected side``, ``other side``,
                   ``alternate``, ``affected then other``
Load               after ``@``: ``5 kg``, ``2-4 kg each hand``, ``10 lb cuff``,
                   ``20/25/30 kg`` by set, each with ``in 0.5 kg steps max 8 kg``; ``BW``,
                   ``BW + 5 kg vest``, ``BW - 20 kg`` (taken off); ``70% 1RM``,
                   ``60/70/80% 1RM``, ``80% 10RM``, ``70% MVC``, ``10% BW``, ``80% HRmax``;
                   ``10RM``; ``RPE 7`` (0 to 10), ``RIR 2``; ``red band``, ``band: medium``,
                   ``red band (kit red-band, 20-40 N)``; ``brisk pace 5 km/h can talk``,
                   ``5:30/km``; ``step height 20 cm``, ``40 mmHg``; ``surface: foam`` (lean,
                   surface, speed, push, lever, height, support, resistance)
Rest               ``rest 90 s``, ``90 s rest``, ``rest 1:2`` (work to rest), ``rest until
                   ready``, ``rest until breath settles``, ``rest walk back``, ``rest until
                   other side done``; ``rest 5 s between holds``
Tempo              ``tempo 3-1-1-0``: lowering, pause, lifting, pause in seconds; ``X`` lifts
                   as fast as can be; ``lower 3 s``, ``lift 1 s``, ``pause 2 s at bottom``,
                   ``pause 1 s at top``; ``60 bpm``; ``slow``, ``moderate speed``,
                   ``own pace``, ``fast``, ``explosive``
Range              ``full range``, ``comfortable range``; limited, inner, mid, outer;
                   ``knee flexion 0-45 deg``, ``knee 0-45 deg``
How often          ``3/wk``, ``3-4/wk``, ``daily``, ``alt days``, ``every 3 days``; ``od``,
                   ``bd``, ``tds``, ``qds``, ``5/day``; ``hourly``, ``2 hourly``;
                   ``1 rest day``, ``max 3 days running``
Limits             ``max 20 min`` in a session; ``at least 3 sessions`` before a step up
Choice             ``3 x 10 or 5 x 30 s hold``; ``(3 x 10, rest 60 s) or (10 min @ RPE 3)``
Weeks              ``3/wk; wk 1-2: 3 x 8; wk 3: same; wk 4+: 3 x 12, no load``
Kinds of session   ``heavy: 3 x 6 @ 8RM, 3/wk; light: 2 x 15, daily``; moderate, technique
=================  ==========================================================================

What stands before the first row holds in all rows that say nothing else; without work of its
own the dose takes that of the first row. A choice without brackets ends at the first comma,
and what follows holds for every choice.
"""

from __future__ import annotations

from authoring.dosage.shorthand_errors import ShorthandError, UnsayableError
from authoring.dosage.shorthand_parser import read_dose
from authoring.dosage.shorthand_write import write
from authoring.dosage.shorthand_write_parts import PLAIN, PRETTY
from authoring.model.base import evolve
from authoring.model.dose import Dose
from authoring.model.sentence import Sentence

__all__ = ["ShorthandError", "parse_dose", "why_not", "write_dose"]


def parse_dose(text: str, before: Dose | None = None) -> Dose:
    """The dose that a text in shorthand stands for.

    Args:
        before: the dose that the text replaces; its sources and unknown fields are kept.

    Raises:
        ShorthandError: the text is no dose; it names the characters, what is wrong and how
            to mend it.
    """
    dose = read_dose(text)
    return dose if before is None else evolve(dose, sources=before.sources, extra=before.extra)


def write_dose(dose: Dose, *, pretty: bool = False) -> str | None:
    """The dose in shorthand, or None where the shorthand can't say all of it.

    Sources and unknown fields of the dose itself are left out: they stay with whoever
    holds the dose. Nothing else is ever left out.

    Args:
        pretty: for reading: "3 × 8–12" with spaces that don't break. :func:`parse_dose`
            reads this form too.
    """
    try:
        return write(dose, PRETTY if pretty else PLAIN)
    except UnsayableError:
        return None


def why_not(dose: Dose) -> Sentence | None:
    """One sentence on what the shorthand can't say of a dose, or None where it says all."""
    try:
        write(dose, PLAIN)
    except UnsayableError as error:
        return error.sentence
    return None
