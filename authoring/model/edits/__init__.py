"""Every edit of the nouns: pure functions from an old value to a new one.

An edit takes the value, then keywords. It returns the new value, or an
:class:`~authoring.model.edits.outcome.Edited` where there is more to say: what should be
selected now, and notes on what changed besides. An edit that can't be made raises
:class:`~authoring.model.edits.outcome.EditError` with one sentence.
"""
