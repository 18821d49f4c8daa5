"""Set-up from a fresh checkout with the standard library alone.

`python3 -m authoring.bootstrap` makes `.venv` from the locks in this folder and opens the editor
on the example clinic; `python3 -m authoring.bootstrap test` also fetches the outside judges and
runs what the project asks of a change. Nothing here imports another room, because nothing else
can be imported yet.
"""
