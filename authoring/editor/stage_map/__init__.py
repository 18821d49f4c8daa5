"""The stage map: a whole protocol at a glance, and what makes it harder.

Stages are columns, progression lines are rows, entries stand where they cross.
``model`` turns a protocol into cells and links, ``geometry`` places them, the views
paint them, and ``room`` assembles. A harder exercise is drawn higher.
"""
