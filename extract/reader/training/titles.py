"""Fit the weights by which the words of a dish's name are chosen.

    python -m extract.reader.training.titles MODEL TALKS... [--only NAMES] [--out lexicons/learned/title_weights.tsv]

MODEL is a reader that has not learned from the talks: one trained with ``--left-out``, whose names ``NAMES`` lists, a line
each. Every noun and adjective of a dish is a case, right where it stands in the dish's title. Prints how many titles of talks
left out of the fit an editor would leave or only polish.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

from extract.language import load_model
from extract.language.speech import Speech, read_speech
from extract.reader.read import load_reader, read_words
from extract.reader.training.form import AnnotatedTalk, read_annotated, spoken
from extract.reader.training.marked import SMALL, stem, stems
from extract.segment.dishes import segment
from extract.segment.titles import Names
from extract.spot.spotted import spot
from extract.transcript.cues import Cue, Transcript

PENALTY = 0.3
FOLDS = 5
HEAD = """# What speaks for a word standing in a dish's name, in log odds.
# Source: fitted to annotated talks that the reader had not learned from (extract/reader/training/titles.py); not edited
# by hand.
# Rows of a user's own are not read here: the figures were fitted together.
# feature: as extract/segment/titles.py names it; weight: log odds for a feature of 1
feature\tweight
"""


@dataclass
class Case:
    """The words of one dish of one talk: their features, and which stand in its title."""

    talk: str
    features: list[dict[str, float]]
    right: list[bool]


def speech_of(talk: AnnotatedTalk, *, raw: bool) -> tuple[Speech, list[int]]:
    """The talk as parsed speech, a cue a sentence, and the sentence of each cue."""
    cues, owners, at = [], [], 0
    for number, sentence in enumerate(talk.sentences):
        text = spoken(sentence.text, raw=raw)
        if text:
            cues.append(Cue(len(cues), at, at + 400 * len(text.split()), text))
            owners.append(number)
            at = cues[-1].end
    transcript = Transcript(talk.id, "", tuple(cues), True, "talk")
    return read_speech(transcript, load_model()), owners


def cases(model: Path, paths: Sequence[Path]) -> Iterator[Case]:
    """The dishes that the search finds, each held against the title of the dish whose words it shares most."""
    reader = load_reader(model)
    for path in paths:
        talk = read_annotated(path)
        for raw in (False, True):
            speech, owners = speech_of(talk, raw=raw)
            spotted = spot(speech, read_words([token.text for token in speech.doc], reader))
            dishes = segment(spotted).dishes
            names = Names(spotted, dishes)
            for number, dish in enumerate(dishes):
                letters = Counter(
                    talk.sentences[owners[speech.cue_at[i]]].dish
                    for a, b in dish.pieces()
                    for i in range(a, b)
                )
                letters.pop("-", None)
                if not letters:
                    continue
                wanted = set(stems(talk.dishes[letters.most_common(1)[0][0]])) - SMALL
                keys = list(names.used[number])
                yield Case(
                    talk.id, [names.features(number, k) for k in keys], [stem(k) in wanted for k in keys]
                )


def fit(rows: Sequence[Case]) -> dict[str, float]:
    """The weights, by logistic regression."""
    names = list(rows[0].features[0])
    table = np.array([[found[name] for name in names] for case in rows for found in case.features])
    wanted = np.array([right for case in rows for right in case.right], dtype=float)

    def loss(weights: np.ndarray) -> tuple[float, np.ndarray]:
        odds = table @ weights
        likely = 1 / (1 + np.exp(-odds))
        value = (np.logaddexp(0, odds) - wanted * odds).sum() + PENALTY * weights @ weights / 2
        return value, table.T @ (likely - wanted) + PENALTY * weights

    found = minimize(loss, np.zeros(len(names)), jac=True, method="L-BFGS-B").x
    return dict(zip(names, found.tolist(), strict=True))


def rightly_named(rows: Sequence[Case], weights: dict[str, float]) -> int:
    """In how many dishes two of the three likeliest words, or all that there are, stand in the title."""
    count = 0
    for case in rows:
        odds = [sum(v * weights[name] for name, v in found.items()) for found in case.features]
        best = sorted(range(len(odds)), key=lambda k: -odds[k])[:3]
        count += sum(case.right[k] for k in best) >= min(2, sum(case.right) or 2)
    return count


def main() -> None:
    """Fit, print what talks left out give, and write the lexicon."""
    ap = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ap.add_argument("model", type=Path)
    ap.add_argument("talks", type=Path, nargs="+")
    ap.add_argument("--only", type=Path)
    ap.add_argument("--out", type=Path)
    a = ap.parse_args()
    only = set(a.only.read_text().split("\n")) if a.only else None
    paths = sorted(path for folder in a.talks for path in folder.glob("*.talk"))
    paths = [path for path in paths if only is None or read_annotated(path).id in only]
    rows = list(cases(a.model, paths))
    talks = sorted({case.talk for case in rows})
    right = 0
    for fold in range(FOLDS):
        left = set(talks[fold::FOLDS])
        weights = fit([case for case in rows if case.talk not in left])
        right += rightly_named([case for case in rows if case.talk in left], weights)
    print(
        f"{len(rows)} dishes of {len(talks)} talks, {100 * right / max(1, len(rows)):.0f} % named rightly when left out"
    )
    if a.out:
        weights = fit(rows)
        a.out.write_text(HEAD + "".join(f"{name}\t{value:.3f}\n" for name, value in weights.items()))


if __name__ == "__main__":
    main()
