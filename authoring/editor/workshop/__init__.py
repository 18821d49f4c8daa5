"""The card workshop: one exercise's ladder, the variant being written, and what it touches.

``ladder_model``, ``edits``, ``reading``, ``where`` and ``photos`` know nothing of Qt; the other
modules draw what they give and ask the document for edits.
"""
