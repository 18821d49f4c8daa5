"""Signatures of packs: the published vectors, and who is believed."""

from __future__ import annotations

from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from authoring.files.errors import FileProblem
from authoring.files.pack_reading import parse_pack
from authoring.files.pack_scan import is_nhs_number, looks_like
from authoring.files.pack_signature import (
    Trust,
    own_key,
    public_hex,
    signature_bytes,
    trusted_keys,
)
from authoring.files.pack_writing import make_pack
from tests.files.packs import PROTOCOL, example, files_of, zipped

# RFC 8032, section 7.1, tests 1 to 3: secret key, public key, message, signature.
VECTORS = [
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e3970"
        "1cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613"
        "d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760"
        "984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
]


@pytest.mark.parametrize(("secret", "public", "message", "signature"), VECTORS)
def test_the_library_signs_as_the_standard_says(
    secret: str, public: str, message: str, signature: str
) -> None:
    key = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(secret))
    assert public_hex(key) == public
    assert key.sign(bytes.fromhex(message)).hex() == signature
    key.public_key().verify(bytes.fromhex(signature), bytes.fromhex(message))


def _signed(folder: Path) -> bytes:
    key, _ = own_key("larkfield", folder)
    return make_pack(example(), [PROTOCOL], lambda head: signature_bytes(head, key)).data


def test_a_trusted_key_is_named_and_a_strangers_is_not(tmp_path: Path) -> None:
    data = _signed(tmp_path)
    known = parse_pack(data, "p", trusted_keys(tmp_path)).signer
    assert (known.trust, known.name) == (Trust.KNOWN, "larkfield")
    unknown = parse_pack(data, "p", trusted_keys(tmp_path / "nobody")).signer
    assert (unknown.trust, unknown.name, unknown.key) == (Trust.UNKNOWN, "", known.key)
    assert _signed(tmp_path) == data


def test_a_signature_of_another_manifest_is_refused(tmp_path: Path) -> None:
    files = files_of(_signed(tmp_path))
    key, _ = own_key("larkfield", tmp_path)
    files["signature.json"] = signature_bytes(files["manifest.json"] + b" ", key)
    with pytest.raises(FileProblem, match="signature does not fit"):
        parse_pack(zipped(files.items()), "p", trusted_keys(tmp_path))


def test_a_secret_key_is_for_its_owner_alone(tmp_path: Path) -> None:
    own_key("larkfield", tmp_path)
    assert (tmp_path / "larkfield.key").stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("name", ["../x", "a/b", "", "A", "con.key", "a b"])
def test_a_name_of_a_key_leads_nowhere_else(name: str, tmp_path: Path) -> None:
    with pytest.raises(FileProblem):
        own_key(name, tmp_path)
    assert list(tmp_path.iterdir()) == []


# 943 476 5919 is the number with which the NHS Data Dictionary shows its check digit.
def test_the_check_digit_is_that_of_the_data_dictionary() -> None:
    assert is_nhs_number("9434765919")
    assert not is_nhs_number("9434765918")


@pytest.mark.parametrize(
    "words",
    ["943 476 5919", "jo@example.org", "DOB: 3/4/1971", "born 1971-04-03", "call 01632 960 123"],
)
def test_what_looks_like_a_patients_is_found(words: str) -> None:
    assert looks_like(words)


@pytest.mark.parametrize(
    "words", ["3 sets of 10", "Hold 30 s, rest 60 s", "10.1016/j.x.2018.10.003", "43(2):95-104"]
)
def test_a_dose_or_citation_is_not(words: str) -> None:
    assert looks_like(words) is None
