"""Lines to be heard: no signs, repeats in sentences, the sizes apart."""

import re
from typing import Final

from stitchproof.base.diagnostics import Diagnostic
from stitchproof.base.records import replace
from stitchproof.language.tree import Course, Label
from stitchproof.language.write.courses import (
    and_words,
    is_round,
    label_words,
    stated_words,
    write_course,
)
from stitchproof.language.write.pen import Pen
from stitchproof.language.write.steps import run_words
from stitchproof.language.write.wording import Wording


def write_aloud(course: Course, wording: Wording) -> tuple[str, list[Diagnostic]]:
    """Write a line for the ear, the sizes apart: one sentence for all sizes that it is alike in.

    Parameters
    ----------
    course : Course
        Settled.
    wording : Wording
        With the sizes to be told in `resolved`.

    Returns
    -------
    words, found
        A paragraph; each size or group of sizes begins with its name where they differ.
    """
    resolved = wording.resolved
    plain = replace(wording, full=True, aloud=True)
    if resolved is None or len(resolved.chosen) <= 1:
        words, found = write_course(course, plain)
        return _spoken(words, plain), found
    done: dict[str, list[str]] = {}
    counted: dict[str, list[str]] = {}
    labelled: dict[str, list[str]] = {}
    all_found: list[Diagnostic] = []
    bare = replace(course, label=Label("", round=course.label.round), stated=None)
    every = [replace(plain, resolved=replace(resolved, chosen=(i,))) for i in resolved.chosen]
    for one, index in zip(every, resolved.chosen, strict=True):
        name = resolved.sizes[index]
        if course.only and name not in course.only:
            continue
        words, found = write_course(bare, one)
        label = _spoken(label_words(course, Pen(wording=one, inner=run_words)), one)
        labelled.setdefault(label, []).append(name)
        done.setdefault(_spoken(words, plain), []).append(name)
        all_found += (new for new in found if new not in all_found)
        if course.stated is not None:
            pen = Pen(wording=one, inner=run_words, rounds=is_round(course))
            counted.setdefault(_spoken(stated_words(course.stated, pen), one), []).append(name)
    many = sum(map(len, done.values()))
    lead = next(iter(labelled), "")
    if len(labelled) > 1 and len(done) > 1:
        lead, done = "", _each_labelled(labelled, done)
    elif len(labelled) > 1:
        lead = f"{and_words([_in_sizes(label, names) for label, names in labelled.items()])}:"
    told = _by_size(done, len(every)), _by_size(counted, many)
    return " ".join(filter(None, (lead, *told))), all_found


def _each_labelled(
    labelled: dict[str, list[str]], done: dict[str, list[str]]
) -> dict[str, list[str]]:
    """Put the label of each size before what is done in it, alike ones together."""
    labels = {name: label for label, names in labelled.items() for name in names}
    whole: dict[str, list[str]] = {}
    for words, names in done.items():
        for name in names:
            whole.setdefault(f"{labels[name]} {words}", []).append(name)
    return whole


def _in_sizes(label: str, names: list[str]) -> str:
    """Say a label with the sizes that it is for: `Round 25 in size S`."""
    return f"{label.removesuffix(':')} in size{'s' if len(names) > 1 else ''} {and_words(names)}"


def _by_size(said: dict[str, list[str]], every: int) -> str:
    """Say a sentence once where it is alike in all sizes, else one after another by size."""
    if len(said) <= 1 and all(len(names) == every for names in said.values()):
        return next(iter(said), "")
    return " ".join(
        f"Size{'s' if len(names) > 1 else ''} {and_words(names)}: {words}"
        for words, names in said.items()
    )


def _v_stitch(found: re.Match[str]) -> str:
    return "V-stitches" if found[1] else "V-stitch"


_LENGTH_ENDS: Final = r" from| less| deep| wide| long| more|[,;.]|$"
_SIGNS: Final = (
    (re.compile(r";\s*,"), ";"),
    (re.compile(r"\s*=\s*"), " equals "),
    (re.compile(r";\."), "."),
    (re.compile(r"(?<=\d)\)?\s*[–—-]\s*(?=\d)"), " to "),
    (re.compile(r"\bcm\b\.?(?= |,|;|$)"), "centimetres"),
    (re.compile(r"\bcm\b"), "centimetres"),
    (re.compile(r"\s*/\s*([\d¼½¾⅛⅜⅝⅞ ]+) in\b"), r" or \1 inches"),
    (re.compile(rf"(?<=[\d¼½¾⅛⅜⅝⅞])(?:\s?in\b\.?(?={_LENGTH_ENDS})|[”\"])"), " inches"),
    (re.compile(r"\(([^()]*)\)|\[([^\[\]]*)\]"), r", \1\2,"),
    (re.compile(r"[()\[\]]"), ""),
    (re.compile(r"\b[Vv]-st(s?)\b"), _v_stitch),
    (re.compile(r"\bsts\b"), "stitches"),
    (re.compile(r"\bst\b"), "stitch"),
    (re.compile(r"\binc\b"), "increase"),
    (re.compile(r"\bdec\b"), "decrease"),
    (re.compile(r",(?:\s*,)+"), ","),
    (re.compile(r"\s+,"), ","),
    (re.compile(r",(?=[.;:])"), ""),
)


def _spoken(words: str, wording: Wording) -> str:
    """Take out the signs that are not heard."""
    for sign, put in _SIGNS:
        words = sign.sub(put, words)
    british = wording.british or wording.terms == "UK"
    return words if british else words.replace("centimetre", "centimeter")
