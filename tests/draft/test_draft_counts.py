"""Which of the yields and batches said in a show a dish is given."""

from __future__ import annotations

from itertools import pairwise

import pytest
from heard import spotted_in

from extract.draft.counts import dish_batch, dish_yield
from extract.segment.dishes import Segments, Stretch
from extract.segment.titles import Title
from extract.spot.spotted import Spotted

SOUP = "Warm two cups of stock. Stir in a cup of peas and simmer it for ten minutes. Taste it and salt it."
LOAF = "Beat a cup of sugar with two sticks of butter. Fold in three cups of flour and bake it for an hour."


def show(*lines: str, titles: tuple[str, ...] = (), sign_off: bool = False) -> tuple[Spotted, Segments]:
    """A show with a dish a line; ``sign_off``: the last line is none but the farewell."""
    spotted = spotted_in("\n".join(lines))
    cues = spotted.speech.cue_at
    edges = [*(cues.index(cue) for cue in range(len(lines))), len(cues)]
    stretches = [Stretch(a, b) for a, b in pairwise(edges)]
    talk = (Stretch(stretches[-1].start, stretches[-1].end, "sign-off"),) if sign_off else ()
    dishes = stretches[:-1] if sign_off else stretches
    names = titles or ("dish",) * len(dishes)
    return spotted, Segments(tuple(dishes), talk, tuple(Title(name, 0, 1) for name in names))


def yields(*lines: str, titles: tuple[str, ...] = (), sign_off: bool = False) -> list[str]:
    """ "6 people" for each dish, "" where nothing was said."""
    spotted, segments = show(*lines, titles=titles, sign_off=sign_off)
    made = [dish_yield(spotted, segments, number) for number in range(len(segments.dishes))]
    return ["" if y is None else f"{y.low:g} {y.unit}" for y in made]


def batches(*lines: str) -> list[float]:
    """The factor of each dish, 0 where it is the normal batch."""
    spotted, segments = show(*lines)
    made = [dish_batch(spotted, segments, number) for number in range(len(segments.dishes))]
    return [0.0 if batch is None else batch.factor for batch in made]


@pytest.mark.parametrize(
    ("said", "made"),
    [
        (f"A soup that'll feed ten. {SOUP} That does six.", "6 people"),
        (f"Today it serves five. {SOUP} Have it hot.", "5 people"),
        (f"{SOUP} That's seven bowls. Cut it in nine.", "7 bowls"),
        (f"{SOUP} {SOUP} Cut it in nine.", "9 pieces"),
        (f"{SOUP} {SOUP} That's twenty fritters, so ten people.", "20 fritters"),
        (f"{SOUP} {SOUP} That's eight wedges, so eight people.", "8 people"),
        (f"Eight slices, no more. {SOUP} {SOUP}", ""),
        (f"{SOUP} {SOUP} Eight slices, no more.", "8 slices"),
        (f"{SOUP} It's dinner for six.", "6 people"),
        (f"{SOUP} I fed nine and my uncle was sixty.", ""),
        (SOUP, ""),
    ],
)
def test_the_last_plain_word_on_a_dish_is_its_yield(said: str, made: str) -> None:
    assert yields(said) == [made]


def test_each_dish_has_its_own_yield_and_a_whole_table_is_none_of_several() -> None:
    assert yields(f"{SOUP} That does six.", f"{LOAF} Lovely. That's lunch for twelve.") == ["6 people", ""]


def test_a_dish_is_counted_by_its_own_name() -> None:
    said = f"{SOUP} {SOUP} That'll be thirty twists."
    assert yields(said, titles=("sesame twists with dill",)) == ["30 twists"]
    assert yields(said, titles=("pea soup",)) == [""]


def test_a_yield_told_in_the_farewell_is_of_the_last_dish() -> None:
    said = (SOUP, LOAF, "Oh, and the loaf serves eight. Goodnight all.")
    assert yields(*said, sign_off=True) == ["", "8 people"]


def test_the_evidence_of_a_yield_is_a_whole_clause() -> None:
    spotted, segments = show(f"{SOUP} That'll feed four people.")
    made = dish_yield(spotted, segments, 0)
    assert made is not None
    assert [said.text for said in made.said] == ["That'll feed four people"]


@pytest.mark.parametrize(
    ("said", "factors"),
    [
        ((f"This is a double lot. {SOUP}", LOAF), [2, 0]),
        ((f"{SOUP} That does six. Right, the loaf, and I'm doubling it.", LOAF), [0, 2]),
        ((f"Mind, that's a double lot, and it serves nine. {SOUP}", LOAF), [2, 0]),
        ((f"{SOUP} I've doubled it, and it serves nine.", LOAF), [2, 0]),
        ((f"Everything you see this morning is three times what you'd do at home. {SOUP}", LOAF), [3, 3]),
        (
            (f"Everything you see today is twice what you'd do. {SOUP}", f"This one isn't doubled. {LOAF}"),
            [2, 0],
        ),
        (
            (f"Everything you see today is twice what you'd do. {SOUP}", f"It's a half batch. {LOAF}"),
            [2, 0.5],
        ),
        ((f"{SOUP} Everything you see today is twice what you'd do. {SOUP}", LOAF), [2, 0]),
        ((f"This isn't doubled. {SOUP}",), [0]),
        ((f"At home you'd do a third of this. {SOUP}",), [3]),
    ],
)
def test_a_batch_belongs_to_the_dish_it_is_said_of(said: tuple[str, ...], factors: list[float]) -> None:
    assert batches(*said) == factors
