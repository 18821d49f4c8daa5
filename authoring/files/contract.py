"""Write the public contract anew: ``python -m authoring.files.contract``.

Run after a change of the model; the committed schemas and the reference page must
equal what this writes, and a test says so when they do not.
"""

from __future__ import annotations

import json
from pathlib import Path

from authoring.files.reference import reference_page
from authoring.files.schema import schema_files


def contract_files() -> dict[str, str]:
    """Text of every file in ``schemas/`` by name."""
    schemas = {
        name: json.dumps(schema, indent=2, ensure_ascii=False) + "\n"
        for name, schema in schema_files().items()
    }
    return {**schemas, "README.md": reference_page()}


def main() -> None:
    """Write the contract into the checkout's ``schemas`` folder."""
    folder = Path(__file__).resolve().parents[2] / "schemas"
    for name, text in contract_files().items():
        (folder / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
