"""Read the planted mistakes and say whether the program finds them."""

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.mini_patterns import Object, patterns, proof, same_label

ROOT = Path(__file__).parents[1]
PLANTED = Path(__file__).parent / "planted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """A mistake and where it must be found; no sizes are all sizes."""

    name: str
    of: str
    about: str
    text: str
    section: str | None
    labels: tuple[str, ...]
    sizes: tuple[str, ...]
    level: str
    kind: str


@cache
def mistakes() -> tuple[Mistake, ...]:
    """Give every planted mistake, its manuscript spoiled."""
    small = {pattern.name: pattern.text for pattern in patterns()}
    found: list[Mistake] = []
    for path in sorted(PLANTED.glob("*.toml")):
        table = tomllib.loads(path.read_text("utf-8"))
        for number, entry in enumerate(table["mistake"], 1):
            of = entry.get("pattern") or entry.get("of") or table["of"]
            whole = small[of] if "pattern" in entry else (ROOT / of).read_text("utf-8")
            old, new = entry["old"], entry["new"]
            assert whole.count(old) == 1, (
                f"{path.name} {number}: `{old}` stands {whole.count(old)}x"
            )
            label = entry["label"]
            found.append(
                Mistake(
                    name=f"{path.stem}-{number}-{Path(of).stem}",
                    of=of,
                    about=entry["about"],
                    text=whole.replace(old, new),
                    section=entry.get("section"),
                    labels=(label,) if isinstance(label, str) else tuple(label),
                    sizes=tuple(entry.get("sizes", ())),
                    level=entry.get("level", "error"),
                    kind=entry.get("kind", ""),
                )
            )
    return tuple(found)


def spoiled(mistake: Mistake) -> Object:
    """Prove the spoiled manuscript."""
    return proof(mistake.text, f"{mistake.name}.md")


def loud(made: Object, level: str, slugs: Sequence[str] = ()) -> list[Object]:
    """Give the findings that are not accepted and at least as grave as a level.

    Of notes, which are many, only those with a slug that is looked for.
    """
    grave = {"error"} if level == "error" else {"error", "warning"}
    return [
        f
        for f in made["findings"]
        if not f["accepted"] and (f["level"] in grave or (level == "note" and f["slug"] in slugs))
    ]


def hits(mistake: Mistake, made: Object, finding: Object) -> bool:
    """Say whether a finding is at the right row and in the right sizes."""
    if mistake.section is not None and finding["section"] != mistake.section:
        return False
    if not any(same_label(label, finding["label"] or "") for label in mistake.labels):
        return False
    every = set(made["sizes"])
    wanted = set(mistake.sizes) or every
    return (set(finding["sizes"]) or every) == wanted
