"""The weights that tell instruction from talk: fitted anew from the invented talks, judged on talks left out."""

from __future__ import annotations

from functools import cache

import fitting
import pytest

from extract.spot.actions_weight import Features, instruction_weights

CLOSE = 0.03  # the same fit on another machine ends a little elsewhere


@cache
def talks() -> dict[str, fitting.Sentences]:
    return fitting.read_talks()


def truth() -> list[bool]:
    return [bool(instructs) for talk in talks().values() for instructs in talk.instructs]


def by_rule(features: Features) -> bool:
    """The best rule found: something is ordered, planned or wanted, or foods are named with no verb."""
    told = any(features.get(f"mood {mood}") for mood in ("order", "plan", "let us", "doing", "want"))
    return bool(told or features["implied"])


@pytest.mark.parametrize("path", sorted(fitting.TALKS.glob("*.tsv")), ids=lambda path: path.stem)
def test_every_sentence_of_a_talk_has_a_kind(path: fitting.Path) -> None:
    rows = fitting.read_talk(path)
    assert len(rows) >= 30
    assert {kind for kind, _ in rows} <= fitting.KINDS
    assert all(said.strip() for _, said in rows)
    assert any(kind == "instruction" for kind, _ in rows)


def test_the_lexicon_is_what_the_talks_give() -> None:
    """After a change to the actions or the talks: ``python tests/instruction/fitting.py``."""
    fresh = fitting.rounded(fitting.fit(talks()))
    kept = instruction_weights()
    names = fresh.keys() | kept.keys()
    off = {name: (fresh.get(name, 0.0), kept.get(name, 0.0)) for name in names}
    assert {name: pair for name, pair in off.items() if abs(pair[0] - pair[1]) > CLOSE} == {}


def test_on_talks_left_out_the_weights_beat_a_rule() -> None:
    sums = fitting.left_out(talks())
    weighed = fitting.f_score(truth(), [value > 0 for name in talks() for value in sums[name]])
    ruled = fitting.f_score(truth(), [by_rule(f) for talk in talks().values() for f in talk.features])
    assert ruled > 0.5
    assert weighed > ruled + 0.1


def test_the_fit_learns_nothing_from_kinds_that_are_shuffled() -> None:
    """A check on the check: with the kinds dealt out at random, talks left out are not told apart."""
    random = fitting.np.random.default_rng(7)
    shuffled = {
        name: fitting.Sentences(talk.features, random.permutation(talk.instructs))
        for name, talk in talks().items()
    }
    sums = fitting.left_out(shuffled)
    marked = [bool(v) for talk in shuffled.values() for v in talk.instructs]
    found = fitting.f_score(marked, [value > 0 for name in shuffled for value in sums[name]])
    assert (
        found < 2 * sum(marked) / (sum(marked) + len(marked)) + 0.03
    )  # no better than taking every sentence
