"""The texts of papers and letters that a firm may word itself, as shipped, beside what a draft of its book says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache

from app.documents.saying import phrases
from app.wording import LANGUAGES, catalogue
from rules.drafting import Sheet
from rules.drafting.naming import declared
from rules.drafting.wording import Worded, words_of
from rules.wordings import WORDINGS, spoken, wording_of

#: The kind of block that holds such a text, and its field.
KIND, FIELD = "wording", "text"


@dataclass(frozen=True, slots=True)
class Shown:
    """A text of the draft, its line ends as such; `piece` None: the draft does not hold it, papers say it as shipped.

    `shipped`: what is said while the firm says nothing; `slots`: what it can name. Empty for every other text.
    """

    worded: Worded
    piece: int | None
    shipped: Mapping[str, str]
    slots: tuple[str, ...]


def texts_of(sheet: Sheet) -> tuple[Shown, ...]:
    """Every text for readers in the draft, then those of papers and letters that it leaves as shipped."""
    said = words_of(sheet)
    own = {one.name for one in said if one.kind == KIND}
    return (*map(_shown, said), *_as_shipped(declared(sheet).languages, own))


@cache
def shipped() -> Mapping[str, Mapping[str, str]]:
    """id → language → text, for every text that a firm may word."""
    spoken_in = {language: {**phrases.sentences(language), **catalogue(language)} for language in LANGUAGES}
    by_id = {language: {wording_of(key): text for key, text in said.items()} for language, said in spoken_in.items()}
    return {id_: {language: said[id_].strip() for language, said in by_id.items()} for id_ in WORDINGS}


def _shown(one: Worded) -> Shown:
    if one.kind != KIND:
        return Shown(one, one.piece, {}, ())
    texts = {code: spoken(text) for code, text in one.texts.items()}
    return Shown(replace(one, texts=texts), one.piece, shipped().get(one.name, {}), WORDINGS.get(one.name, ()))


def _as_shipped(languages: Iterable[str], own: Iterable[str]) -> Iterator[Shown]:
    """In a language that is not shipped it is missing."""
    for name in sorted(set(WORDINGS) - set(own), key=list(WORDINGS).index):
        texts = {code: shipped()[name].get(code, "") for code in languages}
        yield Shown(Worded(-1, KIND, name, FIELD, None, "", texts, needed=True), None, shipped()[name], WORDINGS[name])
