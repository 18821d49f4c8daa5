"""A protocol and a presentation become a plan, with a reason for every choice.

``propose`` makes a plan, ``release`` says whether it may be printed, ``overrides`` changes it
as a clinician decides. All are pure functions of immutable values. Load estimates of the
mechanics room never choose anything here.
"""
