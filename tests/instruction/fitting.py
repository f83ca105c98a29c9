"""The weights of ``lexicons/instruction_weights.tsv``, fitted to the invented talks beside this file.

Each talk is a table of its sentences, as speech recognition would have put them down, each with its kind:
``instruction`` (part of the method), ``doneness``, ``serving``, ``explanation`` or ``talk``. The fit is a logistic
regression with an L2 penalty: first of each sentence by its own features, then of that sum and how likely the
sentences around it are instruction. ``python tests/instruction/fitting.py`` writes the lexicon anew.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.sparse import csr_matrix, vstack

from extract.language import load_model, read_speech
from extract.spot.actions import actions_by_utterance
from extract.spot.actions_ground import Ground
from extract.spot.actions_weight import Features, linear, neighbourhood, sentence_features
from extract.spot.spotted import spot
from extract.transcript.cues import Cue, Transcript

TALKS = Path(__file__).parent / "talks"
LEXICON = Path(__file__).parents[2] / "lexicons" / "instruction_weights.tsv"
KINDS = frozenset({"instruction", "doneness", "serving", "explanation", "talk"})
PENALTY = 60.0  # of the squares of the weights
WORD_PENALTY = 300.0  # of those of single words; with less, the words of the talks are learned by heart
WORD_SENTENCES, WORD_TALKS = 4, 3  # a word in fewer sentences or talks gets no weight
LEAST_WEIGHT = 0.02
# Added to the bar: instruction that is left out costs a reader more than a sentence too many, which is quickly
# struck out. Chosen, as the penalties, on the labelled shows that stand beside the checkout, so that five of six of
# their labelled sentences are found; no weight is fitted to them.
LENIENCE = 0.8
FOLDS = 5

Array = NDArray[np.float64]
Weights = dict[str, float]


@dataclass(frozen=True)
class Sentences:
    """The sentences of one talk in order: what can be told of each, and whether it is instruction."""

    features: list[Features]
    instructs: Array


def read_talk(path: Path) -> list[tuple[str, str]]:
    """The kind and the words of each sentence of a talk."""
    rows = [line.split("\t") for line in path.read_text(encoding="utf-8").splitlines()]
    return [(kind, said) for kind, said in rows]


def sentences_of(path: Path) -> Sentences:
    """The sentences of a talk as the program cuts and reads them."""
    rows = read_talk(path)
    cues = tuple(Cue(n, n * 4000, n * 4000 + 4000, said) for n, (_, said) in enumerate(rows))
    speech = read_speech(Transcript(path.name, "0" * 64, cues), load_model())
    found = spot(speech)
    ground = Ground(speech.doc, list(found.foods), list(found.durations), list(found.heats))
    features, instructs = [], []
    for span, actions in actions_by_utterance(ground).items():
        features.append(sentence_features(ground, span, actions))
        places = {speech.cue_at[at] for at in ([action.at for action in actions] or [span[0]])}
        instructs.append(float(any(rows[place][0] == "instruction" for place in places)))
    return Sentences(features, np.array(instructs))


def read_talks() -> dict[str, Sentences]:
    """Every talk by its name."""
    return {path.stem: sentences_of(path) for path in sorted(TALKS.glob("*.tsv"))}


def fit(talks: Mapping[str, Sentences]) -> Weights:
    """The weight of each feature, with those of the neighbours and the bar, from labelled talks."""
    names = counted_features(talks.values())
    tables = {name: table(talk, names) for name, talk in talks.items()}
    penalties = np.array([WORD_PENALTY if name.startswith("word ") else PENALTY for name in names])
    whole = regression([(tables[name], talk.instructs) for name, talk in talks.items()], penalties)
    alone: dict[str, Array] = {}
    for fold in folds(talks):  # what a sentence weighs by itself, by a fit that has not seen its talk
        rest = regression(
            [(tables[n], talk.instructs) for n, talk in talks.items() if n not in fold], penalties
        )
        alone.update({name: tables[name] @ rest[1:] + rest[0] for name in fold})
    pairs = [(with_neighbours(alone[name]), talk.instructs) for name, talk in talks.items()]
    always, own, near = regression(pairs, np.full(2, 0.1))
    weights = dict(zip(["always", *names], map(float, whole), strict=True))
    return weights | {"neighbours": float(near / own), "bar": float(always / own) + LENIENCE}


def folds(talks: Iterable[str]) -> list[list[str]]:
    """The names of the talks in a few groups."""
    names = list(talks)
    return [names[number::FOLDS] for number in range(FOLDS)]


def counted_features(talks: Iterable[Sentences]) -> list[str]:
    """The names of the features that get a weight, in order; words that are rare get none."""
    sentences: Counter[str] = Counter()
    within: Counter[str] = Counter()
    for talk in talks:
        counts = Counter(name for features in talk.features for name in features)
        sentences.update(counts)
        within.update(counts.keys())
    rare = {n for n in sentences if sentences[n] < WORD_SENTENCES or within[n] < WORD_TALKS}
    return sorted(n for n in sentences if n != "always" and not (n.startswith("word ") and n in rare))


def table(talk: Sentences, names: Sequence[str]) -> csr_matrix:
    """A row a sentence, a column a feature."""
    place = {name: number for number, name in enumerate(names)}
    cells = [
        (row, place[name], value)
        for row, features in enumerate(talk.features)
        for name, value in features.items()
        if name in place
    ]
    rows, columns, values = zip(*cells, strict=True)
    return csr_matrix((values, (rows, columns)), shape=(len(talk.features), len(names)))


def with_neighbours(alone: Array) -> csr_matrix:
    """For each sentence of a talk its own sum and how likely those around it are instruction."""
    own = [float(value) for value in alone]
    return csr_matrix([(value, neighbourhood(own, number)) for number, value in enumerate(own)])


def regression(tables: Sequence[tuple[csr_matrix, Array]], penalties: Array) -> Array:
    """Logistic regression with an L2 penalty on all but the constant: the constant, then the weights."""
    features = vstack([columns for columns, _ in tables]).tocsr()
    truth = np.concatenate([instructs for _, instructs in tables])

    def loss(weights: Array) -> tuple[float, Array]:
        sums = features @ weights[1:] + weights[0]
        off = 1 / (1 + np.exp(-np.clip(sums, -30, 30))) - truth
        total = np.sum(np.logaddexp(0, sums) - truth * sums) + penalties @ weights[1:] ** 2 / 2
        return float(total), np.concatenate([[off.sum()], features.T @ off + penalties * weights[1:]])

    start = np.zeros(features.shape[1] + 1)
    found: Array = minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": 3000}).x
    return found


def sums(talk: Sentences, weights: Weights) -> list[float]:
    """What the program makes of each sentence of a talk with some weights; above 0 it is instruction."""
    alone = [linear(features, weights) for features in talk.features]
    near, bar = weights["neighbours"], weights["bar"]
    return [total + near * neighbourhood(alone, number) + bar for number, total in enumerate(alone)]


def left_out(talks: Mapping[str, Sentences]) -> dict[str, list[float]]:
    """What each sentence weighs by a fit to the other talks."""
    found: dict[str, list[float]] = {}
    for fold in folds(talks):
        weights = fit({name: talk for name, talk in talks.items() if name not in fold})
        found.update({name: sums(talks[name], weights) for name in fold})
    return found


def rounded(weights: Weights) -> Weights:
    """The weights as the lexicon has them, those that make no difference left out."""
    kept = {name: round(weight, 2) for name, weight in weights.items()}
    return {name: weight for name, weight in sorted(kept.items()) if abs(weight) >= LEAST_WEIGHT}


def f_score(truth: Sequence[bool], found: Sequence[bool]) -> float:
    """The harmonic mean of precision and recall, 0 to 1."""
    both = sum(a and b for a, b in zip(truth, found, strict=True))
    return 2 * both / max(1, sum(truth) + sum(found))


def written(weights: Weights) -> str:
    """The lexicon's text: its head and the meaning of each feature kept, the weights new."""
    head = [line for line in LEXICON.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    rows = [f"{name}\t{weight:.2f}\t{meaning(name)}" for name, weight in rounded(weights).items()]
    return "\n".join([*head, "feature\tweight\tmeaning", *rows, ""])


def meaning(name: str) -> str:
    """What a feature says, in words."""
    kind = name.partition(" ")[0]
    return MEANINGS.get(name) or next(
        text for start, text in FAMILIES if name.startswith(start) or kind == start
    )


MEANINGS = {
    "actions": "log of one more than the number of spoken actions",
    "always": "the odds of any sentence",
    "bar": "what a sentence has to clear, its neighbours counted in",
    "closing": "in the last 8 % of the talk",
    "duration": "a cooking time is said",
    "figure": "a number is said",
    "food worked on": "a food is added, cut, mixed, heated, coated or seasoned",
    "heat": "a heat is said",
    "implied": "foods named with no verb",
    "length": "log of one more than the number of words",
    "negated": 'an action with a "not"',
    "neighbours": "how likely the three sentences before and after are instruction, from 0 to 1",
    "opening": "in the first 8 % of the talk",
    "place": "an action with a place",
    "question": "ends in a question mark",
    "share actions": "how densely actions stand, at most 1",
    "share foods": "the share of words that name foods",
    "supposed": "an action that only might be done",
    "unit": "a unit is said",
    "until": "an action with an until",
    "verb first": "the first action stands at the beginning",
    "with": "an action with a means",
}
FAMILIES = (
    ("foods ", "different foods named, at most three, by what is said of them"),
    ("new foods ", "foods that have not been named before, at most three, by what is said of them"),
    ("cue ", "a phrase of the class in instruction_cues.tsv"),
    ("mood ", "an action said in this mood"),
    ("object ", "an action on a thing of this kind"),
    ("work ", "an action of this group in verbs.tsv"),
    ("word ", "the word, outside foods, in any form"),
)


if __name__ == "__main__":
    LEXICON.write_text(written(fit(read_talks())), encoding="utf-8")
