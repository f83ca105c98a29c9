"""A recipe told in running text, without a list: its foods are those that its sentences measure or count."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from extract.check.written.dish import Reading
from extract.check.written.layout.blocks import Block, heading_words
from extract.check.written.lines.amounts import Quantity, read_quantity
from extract.check.written.lines.clean import clean_line
from extract.check.written.lines.tokens import joined, tokens_of
from extract.check.written.lines.units import LENGTHS, MEASURED
from extract.check.written.lines.words import words_of
from extract.check.written.method.mentions import Larder
from extract.check.written.method.portions import find_written_shares
from extract.check.written.method.vocabulary import is_thing
from extract.check.written.yields import is_yield

_FEWEST = 3
_REACH = 4  # words between an amount and the last word of its food
_STOPS = frozenset((",", ";", ".", ":", "(", ")"))


def told_in_sentences(blocks: Sequence[Block], reading: Reading) -> Reading | None:
    """The reading of a recipe without a list: each paragraph a step, each food with a figure a line.

    None where so few foods have one that it is no recipe.
    """
    found = Reading(title=reading.title, count=reading.count, batch=reading.batch)
    for block in blocks:
        told = block.role in ("text", "step") and not is_yield(block.text)
        if told and block.text.endswith((".", "!", ")")):
            plain = replace(block, text=clean_line(block.text))
            found.steps.append(("", plain))
            found.lines += [("", replace(plain, text=text)) for text in _amounts(tokens_of(plain.text))]
    return found if len(found.lines) >= _FEWEST else None


def _amounts(tokens: Sequence[str]) -> Iterator[str]:
    """The words of each amount with its food, in order: "1 lb of cod", "2 eggs"."""
    foods = {mention.start: mention.end for mention in Larder((), ()).find(tokens)}
    shares = {share.start for share in find_written_shares(tokens)}
    at = 0
    while at < len(tokens):
        quantity = read_quantity(tokens, at) if at not in shares else None
        if quantity is None or quantity.unit in LENGTHS or _is_made(tokens, at, quantity):
            at += 1
            continue
        end = _food_end(tokens, quantity.end, foods)
        if end is None and quantity.unit in MEASURED:
            start = _food_before((at, quantity.end), tokens, foods)
            if start is not None:
                yield joined([*tokens[at : quantity.end], *tokens[start : at - 1]])
        if end is not None:
            more = quantity.end + (tokens[quantity.end].lower() in words_of("more"))
            yield joined([*tokens[at : quantity.end], *tokens[more:end]])
        at = end or quantity.end


def _is_made(tokens: Sequence[str], at: int, quantity: Quantity) -> bool:
    """Whether a count is of what is made, not of foods: "shape into 12 cakes", "makes 3 pancakes"."""
    before = tokens[at - 1].lower() if at else ""
    return quantity.unit not in MEASURED and (before == "into" or before in heading_words("yield"))


def _food_end(tokens: Sequence[str], at: int, foods: dict[int, int]) -> int | None:
    """Where the food that stands behind an amount ends, None where none does."""
    for start in range(at, min(at + _REACH, len(tokens))):
        if tokens[start - 1] == "." and tokens[start][0].isupper():
            return None  # a short unit ended the sentence: "start with 800 g. Any fish will do"
        if start in foods:
            end = foods[start]
            while end in foods:
                end = foods[end]
            return end
        if tokens[start] in _STOPS or tokens[start].lower() in words_of("ends reach"):
            return None
    return None


def _food_before(amount: tuple[int, int], tokens: Sequence[str], foods: dict[int, int]) -> int | None:
    """Where the food that stands before an amount and its comma begins ("cold mash, 500 g"), known or not."""
    at, end = amount
    if at < 2 or tokens[at - 1] not in (",", "("):
        return None
    alone = end < len(tokens) and tokens[end] in _STOPS and is_thing(tokens[at - 2].lower())
    return next((start for start, stop in foods.items() if stop == at - 1), at - 2 if alone else None)
