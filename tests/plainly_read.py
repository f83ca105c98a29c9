"""A reading put together from the words themselves: what the reader would tell of one dish told plainly.

It serves the tests of exact rules (shares and their sums, doubts, lines, wording), which must not hang on what the
learned reader makes of two sentences out of any show. Every food of the lexicon goes in, named again where it has
no amount the second time; an amount is of the food within five words behind it, else of the one just before;
"for the glaze" opens a part, which a share of something or "the dish itself" ends.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from spacy.tokens import Doc

from extract.language import Speech
from extract.reader.labels import FIGURES, ROLES, THINGS, TITLE
from extract.reader.pairs import NEAR_BUCKETS
from extract.reader.reading import PAIR, Biases, Floats, Reading
from extract.reader.units import unit_starts
from extract.spot.amounts.find import find_amounts
from extract.spot.counts.find import find_counts
from extract.spot.foods.find import find_foods
from extract.spot.heat.find import find_heat
from extract.spot.names.foods import same_food
from extract.spot.names.made import find_made_names
from extract.spot.shares.find import find_shares
from extract.spot.spans import Amount, Food, Share
from extract.spot.times.find import find_durations
from extract.spot.words import Words

SURE, FAR_OFF, REACH = 0.98, -20.0, 5
DISHES = 8


def plain_reading(speech: Speech, role: str = "do") -> Reading:
    """The reading of ``speech`` as one dish in which everything said is of one purpose."""
    doc = speech.doc
    amounts = find_amounts(doc)
    foods = find_foods(doc, amounts)
    shares = find_shares(doc, amounts)
    starts = unit_starts([token.text for token in doc])
    size, count = len(doc), len(starts)
    parts = parts_of(doc, foods, shares)
    parting = np.zeros(size, dtype=np.int64)
    for number, food in enumerate(foods):
        if parts[number] >= 0:
            parting[food.start : food.end] = 1 if number == 0 or parts[number - 1] != parts[number] else 2
    return Reading(
        starts=np.asarray(starts, dtype=np.int64),
        dish=one_hot(np.ones(count, dtype=np.int64), DISHES),
        begin=one_hot(np.eye(1, count, dtype=np.int64)[0], 3),
        where=np.zeros((count, PAIR), dtype=np.float32),
        role=one_hot(np.full(size, ROLES.index(role)), len(ROLES)),
        things=one_hot(things_of(doc, foods, amounts), len(THINGS)),
        figures=one_hot(figures_of(doc, amounts, shares), len(FIGURES)),
        title=one_hot(np.zeros(size, dtype=np.int64), len(TITLE)),
        optional=np.full(size, 1 - SURE, dtype=np.float32),
        parting=one_hot(parting, 3),
        pair=pairs_of(size, foods, amounts, parts),
        biases=Biases(
            np.full(NEAR_BUCKETS, FAR_OFF, dtype=np.float32),
            np.full((2, NEAR_BUCKETS), FAR_OFF, dtype=np.float32),
            (3.0, 0.0),
        ),
    )


def one_hot(kinds: Sequence[int] | np.ndarray, classes: int) -> Floats:
    """Rows of probabilities: nearly all of it on the kind of each."""
    rows = np.full((len(kinds), classes), (1 - SURE) / (classes - 1), dtype=np.float32)
    rows[np.arange(len(kinds)), kinds] = SURE
    return rows


def owner_of(amount: Amount, foods: Sequence[Food]) -> int:
    """The number of the food that an amount is of, -1 for none."""
    behind = [n for n, food in enumerate(foods) if 0 <= food.start - amount.end < REACH]
    before = [n for n, food in enumerate(foods) if 0 <= amount.start - food.end < REACH]
    return next(iter(behind), before[-1] if before else -1)


def things_of(doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount]) -> np.ndarray:
    """Foods that go in, and where they are named again."""
    tags = np.zeros(len(doc), dtype=np.int64)
    measured = {owner_of(amount, foods) for amount in amounts}
    for number, food in enumerate(foods):
        again = number not in measured and any(same_food(food.name, other.name) for other in foods[:number])
        tags[food.start : food.end] = THINGS.index("again" if again else "food+")
        tags[food.start] = THINGS.index("again" if again else "food")
    return tags


def figures_of(doc: Doc, amounts: Sequence[Amount], shares: Sequence[Share]) -> np.ndarray:
    """Every amount, time, heat, share, yield and batch that the grammar finds."""
    tags = np.zeros(len(doc), dtype=np.int64)
    words = Words.of(doc)
    yields, batches = find_counts(doc, words)
    named = [(amount, "amount") for amount in amounts]
    named += [(time, "time") for time in find_durations(doc, words)]
    named += [(heat, f"heat {heat.kind}") for heat in find_heat(doc, words)]
    named += [(made, "yield") for made in yields] + [(batch, "batch") for batch in batches]
    for span, name in named:
        tags[span.start : span.end] = FIGURES.index(name)
    for share in shares:
        tags[share.start : share.end] = 0
        kind = share.fraction if isinstance(share.fraction, str) else "part"
        tags[share.start] = FIGURES.index(f"share {kind}")
    return tags


def parts_of(doc: Doc, foods: Sequence[Food], shares: Sequence[Share]) -> list[int]:
    """For each food the token that names the part it stands in, -1 for the dish itself."""
    opened = {
        name.start: name.end - 1
        for name in find_made_names(doc, foods)
        if name.sure and doc[max(0, name.start - 2) : name.start].text.lower() in ("for the", "now the")
    }
    ends = {share.start for share in shares}
    found, part = {}, -1
    for token in range(len(doc)):
        part = opened.get(token, -1 if token in ends else part)
        found[token] = part
    return [found[food.start] for food in foods]


def pairs_of(size: int, foods: Sequence[Food], amounts: Sequence[Amount], parts: Sequence[int]) -> Floats:
    """Vectors that agree for a food and its amount, and for a food and the name of its part."""
    pair = np.zeros((size, 5 * PAIR + 3), dtype=np.float32)
    for number, food in enumerate(foods):
        own = pair[food.start : food.end]
        own[:, number % PAIR] = 8
        if parts[number] >= 0:
            own[:, 2 * PAIR + parts[number] % PAIR] = 8
            pair[parts[number], 4 * PAIR + parts[number] % PAIR] = -2 * FAR_OFF
    for amount in amounts:
        owner = owner_of(amount, foods)
        if owner >= 0:
            pair[amount.start : amount.end, PAIR + owner % PAIR] = -2 * FAR_OFF
    return pair
