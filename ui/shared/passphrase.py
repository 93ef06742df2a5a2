"""The words that open the page to the workshop's network: only their hash is kept, in a file nobody else may read.

Source: C. Percival, S. Josefsson, "The scrypt Password-Based Key Derivation Function", RFC 7914, 2016; from memory.
"""

import hashlib
import hmac
import json
import os
import secrets
from dataclasses import asdict, dataclass
from pathlib import Path

from ui.shared.store_place import user_data_folder

FEWEST_SIGNS, MOST_SIGNS = 8, 200
_COST, _BLOCK, _LANES = 2**14, 8, 1
"""Of scrypt: some 50 ms and 16 MB for each try."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPassphrase:
    """What is kept of a passphrase.

    salt, hash : in hexadecimal
    secret : signs the logins; another one with every passphrase, so that older logins end
    """

    salt: str
    hash: str
    secret: str


def passphrase_file() -> Path:
    """Where it is kept: among the data of whoever serves the page."""
    return user_data_folder() / "lineplan" / "page-passphrase.json"


def keep_passphrase(words: str, *, file: Path) -> KeptPassphrase:
    """Keep the hash of a passphrase in place of the one before.

    Raises ValueError where it is too short or too long.
    """
    if not FEWEST_SIGNS <= len(words) <= MOST_SIGNS:
        raise ValueError(f"{len(words)} characters were given; {FEWEST_SIGNS} to {MOST_SIGNS} are allowed")
    salt = secrets.token_hex(16)
    kept = KeptPassphrase(salt=salt, hash=_hash(words, salt), secret=secrets.token_hex(32))
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    beside = file.with_name(f".{file.name}.{secrets.token_hex(8)}")
    with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as written:
        json.dump(asdict(kept), written)
    os.replace(beside, file)
    return kept


def kept_passphrase(file: Path) -> KeptPassphrase | None:
    """What is kept; None where nothing is.

    Raises ValueError where the file does not read as one of ours.
    """
    try:
        return KeptPassphrase(**json.loads(file.read_text(encoding="utf-8")))
    except FileNotFoundError:
        return None
    except (OSError, TypeError, ValueError) as problem:
        raise ValueError(f"{file} does not read as it was written: take it away and type a new passphrase") from problem


def is_right(words: str, kept: KeptPassphrase) -> bool:
    """Whether these are the words; takes as long for wrong ones."""
    return len(words) <= MOST_SIGNS and hmac.compare_digest(_hash(words, kept.salt), kept.hash)


def signed_until(moment_s: int, *, secret: str) -> str:
    """A login that stands until a moment, in seconds since 1970."""
    return f"{moment_s}.{_signature(str(moment_s), secret)}"


def is_signed(login: str, *, now_s: float, secret: str) -> bool:
    """Whether a login is one of ours and still stands."""
    until, _, signature = login.partition(".")
    is_ours = hmac.compare_digest(signature.encode("utf-8"), _signature(until, secret).encode("utf-8"))
    return is_ours and until.isascii() and until.isdigit() and now_s < int(until)


def _signature(text: str, secret: str) -> str:
    return hmac.new(bytes.fromhex(secret), text.encode("utf-8"), hashlib.sha256).hexdigest()


def _hash(words: str, salt: str) -> str:
    return hashlib.scrypt(words.encode("utf-8"), salt=bytes.fromhex(salt), n=_COST, r=_BLOCK, p=_LANES, dklen=32).hex()
