"""Signatures of packs: Ed25519 (RFC 8032) over the manifest, which holds every file's hash.

A signature says that whoever holds a key made the pack. Whose key that is says the user, by
keeping it among the trusted keys; a pack can't say it of itself.
"""

from __future__ import annotations

import os
import re
import sys
from enum import StrEnum
from pathlib import Path

from attrs import frozen
from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
from cryptography.hazmat.primitives.asymmetric.x25519 import X25519PrivateKey, X25519PublicKey

from authoring.files.atomic import make_folder, write_atomic
from authoring.files.errors import Unreadable, Unwritable, told_as
from authoring.files.reading import read_file
from authoring.files.strict_json import JsonValue, write_json
from authoring.model.sentence import say

_CONTEXT = b"rungbook/pack manifest 1\0"
"""What is signed begins so, that no signature of another kind of text can stand in."""
_HEX_KEY = re.compile(r"[0-9a-f]{64}")
_HEX_SIGNATURE = re.compile(r"[0-9a-f]{128}")
_KEY_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_SMALL = 4096


class Trust(StrEnum):
    """What is known of who made a pack."""

    UNSIGNED = "unsigned"
    UNKNOWN = "unknown"
    KNOWN = "known"
    BAD = "bad"


@frozen
class Signer:
    """Who signed a pack.

    Attributes:
        key: the public key in hexadecimal, "" where there is none.
        name: what the user calls it, "" unless it is ``KNOWN``.
    """

    trust: Trust
    key: str = ""
    name: str = ""


def key_folder() -> Path:
    """Where keys lie in the user's own folder; ``RUNGBOOK_KEYS`` names another place.

    Sources: XDG Base Directory Specification 0.8 (configuration), Apple's File System
    Programming Guide (Application Support), Microsoft's known folder RoamingAppData.
    """
    chosen = os.environ.get("RUNGBOOK_KEYS")
    if chosen:
        return Path(chosen)
    if sys.platform == "win32":
        return Path(os.environ.get("APPDATA") or Path.home()) / "Rungbook" / "Keys"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "Rungbook" / "Keys"
    own = os.environ.get("XDG_CONFIG_HOME", "")
    return (Path(own) if own.startswith("/") else Path.home() / ".config") / "rungbook" / "keys"


def own_key(name: str, folder: Path) -> tuple[Ed25519PrivateKey, bool]:
    """The clinic's key of this name, and whether it was made just now.

    Raises:
        Unreadable: the name or the file is not one of a key.
        Unwritable: a new one can't be written.
    """
    path = folder / f"{name}.key"
    if not _KEY_NAME.fullmatch(name):
        raise Unreadable(
            path,
            say("the name of a key has small letters, digits and hyphens only"),
            say("choose another name"),
        )
    with told_as(Unreadable, path, say("could not read the key")):
        there = path.is_file()
    if there:
        return _private(read_file(path, _SMALL), path), False
    make_folder(folder)
    key = Ed25519PrivateKey.generate()
    _write_secret(path, _pem(key))
    write_atomic(folder / f"{name}.pub", f"{public_hex(key)}\n".encode())
    return key, True


def _pem(key: Ed25519PrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )


def _write_secret(path: Path, data: bytes) -> None:
    # Made empty and closed to others first: the writer keeps the permissions it finds.
    with told_as(Unwritable, path, say("could not save the key")):
        os.close(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))
    write_atomic(path, data)


def _private(data: bytes, path: Path) -> Ed25519PrivateKey:
    try:
        key = serialization.load_pem_private_key(data, None)
    except (ValueError, TypeError, UnsupportedAlgorithm):
        key = None
    if not isinstance(key, Ed25519PrivateKey):
        raise Unreadable(
            path, say("this is no Ed25519 key without a password"), say("put the right file back")
        )
    return key


def public_hex(key: Ed25519PrivateKey) -> str:
    """The public key in hexadecimal."""
    return key.public_key().public_bytes_raw().hex()


def signature_bytes(manifest: bytes, key: Ed25519PrivateKey) -> bytes:
    """The file ``signature.json`` for a manifest."""
    made: dict[str, JsonValue] = {
        "algorithm": "Ed25519",
        "public_key": public_hex(key),
        "signature": key.sign(_CONTEXT + manifest).hex(),
    }
    return write_json(made)


def trusted_keys(folder: Path) -> dict[str, str]:
    """Names of the keys that the user trusts, by key: the ``.pub`` files of the folder.

    Raises:
        Unreadable: the folder or a file in it can't be read.
    """
    with told_as(Unreadable, folder, say("could not read the folder of keys")):
        paths = sorted(folder.glob("*.pub")) if folder.is_dir() else []
    found = {}
    for path in paths:
        key = read_file(path, _SMALL).decode("ascii", "replace").strip()
        if _HEX_KEY.fullmatch(key):
            found[key] = path.stem
    return found


def signer_of(manifest: bytes, told: JsonValue, trusted: dict[str, str]) -> Signer:
    """Who signed a manifest.

    Args:
        manifest: the bytes of ``manifest.json``.
        told: what ``signature.json`` holds, None where there is none.
        trusted: names of trusted keys, by key.
    """
    if told is None:
        return Signer(Trust.UNSIGNED)
    if not isinstance(told, dict) or told.get("algorithm") != "Ed25519" or len(told) != 3:
        return Signer(Trust.BAD)
    key, signature = told.get("public_key"), told.get("signature")
    if not (isinstance(key, str) and isinstance(signature, str)):
        return Signer(Trust.BAD)
    if not (_HEX_KEY.fullmatch(key) and _HEX_SIGNATURE.fullmatch(signature)):
        return Signer(Trust.BAD)
    try:
        _refuse_weak(bytes.fromhex(key))
        public = Ed25519PublicKey.from_public_bytes(bytes.fromhex(key))
        public.verify(bytes.fromhex(signature), _CONTEXT + manifest)
    except (InvalidSignature, ValueError):
        return Signer(Trust.BAD)
    name = trusted.get(key, "")
    return Signer(Trust.KNOWN if name else Trust.UNKNOWN, key, name)


_FIELD = 2**255 - 19


def _refuse_weak(key: bytes) -> None:
    """Raises ``ValueError`` for a point of small order, with which anybody signs anything.

    Such a point gives an all-zero secret in X25519, which refuses it (RFC 7748, section 6.1);
    the map from one curve to the other is in section 4.1.
    """
    y = int.from_bytes(key, "little") & (2**255 - 1)
    if (1 - y) % _FIELD == 0:
        raise ValueError("the neutral point")
    u = (1 + y) * pow(1 - y, -1, _FIELD) % _FIELD
    X25519PrivateKey.generate().exchange(
        X25519PublicKey.from_public_bytes(u.to_bytes(32, "little"))
    )
