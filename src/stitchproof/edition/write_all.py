"""Everything `publish` writes for one edition: the same words as PDF, web page and plain text."""

import re
import unicodedata
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from stitchproof.edition.html import html
from stitchproof.edition.model import Edition
from stitchproof.edition.pdf import pdf
from stitchproof.edition.text import text

_UNSAFE: Final = re.compile(r"[^\w.+-]+")
_LONGEST: Final = 80


def files_of(edition: Edition, name: str) -> Mapping[str, bytes]:
    """Write an edition in every form.

    Parameters
    ----------
    edition : Edition
        What is published.
    name : str
        What the files are called, without an ending; a one-size copy gets its size behind it.

    Returns
    -------
    mapping of str to bytes
        File names without blanks or path signs, each with its content.
    """
    stem = file_stem(name, edition.size)
    return MappingProxyType(
        {
            f"{stem}.pdf": pdf(edition),
            f"{stem}.html": html(edition),
            f"{stem}.txt": text(edition),
        }
    )


def file_stem(name: str, size: str = "") -> str:
    """Make a file name of a name and a size: `marram-tee-M`; nothing in it leads elsewhere."""
    parts = [_plain(part) for part in (name, size)]
    return "-".join(part for part in parts if part) or "pattern"


def _plain(words: str) -> str:
    composed = unicodedata.normalize("NFC", words)
    return _UNSAFE.sub("-", composed).strip("-.")[:_LONGEST].strip("-.")
