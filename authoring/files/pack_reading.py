"""Read a stranger's pack: all of it is judged before any of it is used, and nothing is written."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import Path

from attrs import field, frozen
from immutabledict import immutabledict

from authoring.files.documents import parse_document
from authoring.files.errors import FileProblem
from authoring.files.pack_names import MANIFEST_NAME, SIGNATURE_NAME, names_fault
from authoring.files.pack_needs import card_ids, circle, image_names, pose_slugs
from authoring.files.pack_pictures import picture_fault
from authoring.files.pack_scan import Suspicion
from authoring.files.pack_signature import Signer, Trust, signer_of
from authoring.files.pack_writing import found_in
from authoring.files.poses import stock_poses
from authoring.files.reading import MEBIBYTE, read_file
from authoring.files.strict_json import Limits, read_json
from authoring.files.zip_reading import BadZip, Entry, brief, entries_of, unpacked
from authoring.model.card import Card
from authoring.model.pack import PackManifest
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol
from authoring.model.sentence import Sentence, say

MOST_BYTES = 64 * MEBIBYTE
MOST_JSON_FILE = 2 * MEBIBYTE
MOST_JSON = 16 * MEBIBYTE
_SIGNATURE = Limits(size=4096, depth=2)
_KINDS: Mapping[str, type[Card | Protocol | Pose]] = {
    "cards": Card,
    "protocols": Protocol,
    "poses": Pose,
}


class BadPack(FileProblem):
    """A pack that can't be used; nothing of it was written."""

    def __init__(self, path: Path | str, sentence: Sentence) -> None:
        super().__init__(path, sentence, say("ask whoever sent it for a new pack"))


@frozen
class Pack:
    """A pack that was read and holds together.

    Attributes:
        images: bytes of pictures by their file names.
        signer: who signed it, as far as is known.
        suspicions: words that look like a patient's data.
    """

    manifest: PackManifest
    protocols: tuple[Protocol, ...]
    cards: tuple[Card, ...]
    poses: tuple[Pose, ...]
    images: Mapping[str, bytes] = field(converter=immutabledict)
    signer: Signer
    suspicions: tuple[Suspicion, ...]


def read_pack(path: Path, trusted: Mapping[str, str] = immutabledict()) -> Pack:
    """Read a pack.

    Args:
        path: the file.
        trusted: names of the keys that the user trusts, by key.

    Raises:
        FileProblem: it can't be read, is no pack, is damaged or forged, or does not hold
            together.
    """
    return parse_pack(read_file(path, MOST_BYTES), path, trusted)


def parse_pack(data: bytes, path: Path | str, trusted: Mapping[str, str] = immutabledict()) -> Pack:
    """As :func:`read_pack`, from bytes; ``path`` names them in sentences."""
    try:
        return _parsed(data, Path(path), trusted)
    except BadZip as bad:
        raise BadPack(path, bad.sentence) from None


def _parsed(data: bytes, path: Path, trusted: Mapping[str, str]) -> Pack:
    entries = entries_of(data)
    _refuse(names_fault(entry.name for entry in entries), path)
    by_name = {entry.name: entry for entry in entries}
    if entries[0].name != MANIFEST_NAME:
        raise BadPack(path, say("the pack does not begin with its manifest"))
    _refuse_much_json(entries, path)
    head = unpacked(data, entries[0])
    manifest = parse_document(head, path / MANIFEST_NAME, PackManifest).document
    if not isinstance(manifest, PackManifest):
        raise BadPack(path, say("the pack does not begin with its manifest"))
    signer = _signer(data, by_name, head, path, trusted)
    files = _members(data, by_name, manifest, path)
    found = {kind: _nouns(files, folder, path) for folder, kind in _KINDS.items()}
    pack = Pack(
        manifest,
        tuple(each for each in found[Protocol] if isinstance(each, Protocol)),
        tuple(each for each in found[Card] if isinstance(each, Card)),
        tuple(each for each in found[Pose] if isinstance(each, Pose)),
        {n.removeprefix("images/"): d for n, d in files.items() if n.startswith("images/")},
        signer,
        found_in({MANIFEST_NAME: head, **files}),
    )
    _refuse(_does_not_close(pack), path)
    for name, picture in pack.images.items():
        wrong = picture_fault(picture, name.rpartition(".")[2])
        if wrong is not None:
            raise BadPack(path, say("{name}: {wrong}", name=name, wrong=wrong))
    return pack


def _refuse(wrong: Sentence | None, path: Path) -> None:
    if wrong is not None:
        raise BadPack(path, wrong)


def _refuse_much_json(entries: tuple[Entry, ...], path: Path) -> None:
    texts = [entry for entry in entries if entry.name.endswith(".json")]
    for entry in texts:
        if entry.size > MOST_JSON_FILE:
            raise BadPack(path, say("{name} is too large", name=brief(entry.name)))
    if sum(entry.size for entry in texts) > MOST_JSON:
        raise BadPack(path, say("the texts in the pack are too large together"))


def _signer(
    data: bytes, by_name: Mapping[str, Entry], head: bytes, path: Path, trusted: Mapping[str, str]
) -> Signer:
    entry = by_name.get(SIGNATURE_NAME)
    if entry is None:
        return signer_of(head, None, dict(trusted))
    told = read_json(unpacked(data, entry), path / SIGNATURE_NAME, _SIGNATURE)
    # A file that says null is no missing signature.
    signer = signer_of(head, told if told is not None else [], dict(trusted))
    if signer.trust is Trust.BAD:
        raise BadPack(path, say("the signature does not fit the pack, so somebody changed it"))
    return signer


def _members(
    data: bytes, by_name: Mapping[str, Entry], manifest: PackManifest, path: Path
) -> dict[str, bytes]:
    """Bytes of what the manifest lists, each with the hash it says, and nothing left over."""
    listed = [member.name for member in manifest.members]
    present = [name for name in by_name if name not in (MANIFEST_NAME, SIGNATURE_NAME)]
    if len(set(listed)) != len(listed):
        raise BadPack(path, say("the manifest lists a file twice"))
    for name in sorted(set(listed) ^ set(present)):
        if name in by_name:
            raise BadPack(path, say("{name} is not in the manifest", name=brief(name)))
        raise BadPack(path, say("{name} is missing from the pack", name=brief(name)))
    files = {}
    for member in manifest.members:
        plain = unpacked(data, by_name[member.name])
        if len(plain) != member.size or hashlib.sha256(plain).hexdigest() != member.sha256:
            raise BadPack(path, say("{name} is not what the manifest says", name=member.name))
        files[member.name] = plain
    return files


def _nouns(files: Mapping[str, bytes], folder: str, path: Path) -> list[Card | Protocol | Pose]:
    kind = _KINDS[folder]
    found: list[Card | Protocol | Pose] = []
    for name, data in files.items():
        if not name.startswith(f"{folder}/"):
            continue
        noun = parse_document(data, path / name, kind).document
        if isinstance(noun, Card | Protocol | Pose):
            expected = f"{folder}/{noun.id}.{folder.removesuffix('s')}.json"
            if name != expected:
                raise BadPack(path, say("{name} holds another file's id", name=name))
            found.append(noun)
    return found


def _does_not_close(pack: Pack) -> Sentence | None:
    """What is missing, too much or in a circle; None where all that is named is there."""
    slugs = [pose.slug for pose in pack.poses]
    for name, data in pack.images.items():
        if hashlib.sha256(data).hexdigest() != name.partition(".")[0]:
            return say("{name} is not named by its own hash", name=name)
    terms = [(term.kind, term.id) for term in pack.manifest.terms]
    if len(set(slugs)) != len(slugs) or len(set(terms)) != len(terms):
        return say("two poses or terms in the pack have one name")
    needed = set(pose_slugs(pack.cards))
    pairs = (
        (set(pack.manifest.protocols), {each.id for each in pack.protocols}),
        (set(card_ids(pack.protocols)), {each.id for each in pack.cards}),
        (needed - (set(stock_poses()) - set(slugs)), set(slugs)),
        (set(image_names(pack.cards)), set(pack.images)),
    )
    for wanted, there in pairs:
        for name in sorted(wanted - there):
            return say("{name} is needed, and is not in the pack", name=name)
        for name in sorted(there - wanted):
            return say("{name} is in the pack, and nothing needs it", name=name)
    return circle(pack.protocols, pack.manifest.terms)
