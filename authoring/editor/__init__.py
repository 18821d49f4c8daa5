"""The editor. The only room that imports Qt.

``shell`` assembles the window; each screen is a :class:`~authoring.editor.room.Room`
in a package of its own. Views draw immutable values and ask the
:class:`~authoring.editor.document.Document` for edits; they never change a value.
"""
