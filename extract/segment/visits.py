"""Where the show leaves the kitchen: visits to producers, full of figures that are no recipe.

A two-state Viterbi pass over the sentences: each is scored for the kitchen or for a visit by its cues and by
what was spotted in it; changing state costs much, less where the words announce it.
"""

from __future__ import annotations

from collections.abc import Sequence

from extract.segment.cues import Sentence

CHANGE_COST = 7.0
OPENING_COST = 5.0
ANNOUNCED_AT_MOST = 6.0
QUESTION_WEIGHT = 0.8
# A sentence that tells nothing belongs to the kitchen, so that visits begin and end where they are heard to.
NEUTRAL = 0.1
ANSWER_WEIGHT = 0.3
KITCHEN_AMOUNT_WEIGHT = 1.5
MINIMUM_SENTENCES = 5
MINIMUM_EVIDENCE = 5.0


def find_visits(sentences: Sequence[Sentence], kitchen: Sequence[float]) -> list[tuple[int, int]]:
    """Runs of sentences [first, last] that are visits.

    ``kitchen[i]`` counts the kitchen measures, heats and the like spotted in sentence ``i``.
    """
    if len(sentences) < MINIMUM_SENTENCES:
        return []
    scores = [_visit_score(s, k) for s, k in zip(sentences, kitchen, strict=True)]
    for i in range(1, len(sentences)):
        if sentences[i - 1].question:
            scores[i] += ANSWER_WEIGHT
    states = _best_states(scores, sentences)
    runs, first = [], None
    for i, visiting in enumerate([*states, False]):
        if visiting and first is None:
            first = i
        elif not visiting and first is not None:
            runs.append((first, i - 1))
            first = None
    return [(a, b) for a, b in runs if _is_visit(sentences[a : b + 1])]


def _is_visit(run: Sequence[Sentence]) -> bool:
    """A visit lasts a few sentences, and what is said in it is a producer's talk."""
    evidence = sum(s.weight("visit") + s.weight("visit-in") for s in run)
    return len(run) >= MINIMUM_SENTENCES and evidence >= max(MINIMUM_EVIDENCE, 0.2 * len(run))


def _visit_score(sentence: Sentence, kitchen: float) -> float:
    """Positive where a sentence sounds like a visit, negative where it sounds like cooking."""
    score = min(sentence.weight("visit"), 2.5) - sentence.weight("cooking") - sentence.weight("visit-out")
    if sentence.question:
        score += QUESTION_WEIGHT
    return score - KITCHEN_AMOUNT_WEIGHT * min(kitchen, 2) - NEUTRAL


def _best_states(scores: list[float], sentences: Sequence[Sentence]) -> list[bool]:
    """Viterbi over (kitchen, visit); leaving needs an announcement, so its cost is cut only by one."""
    kitchen, visit = 0.0, -OPENING_COST
    back: list[tuple[bool, bool]] = []
    for i, score in enumerate(scores):
        leave = CHANGE_COST - min(ANNOUNCED_AT_MOST, _near(sentences, i, "visit-in"))
        come_back = max(1.0, CHANGE_COST - 4 - _near(sentences, i, "visit-out"))
        to_visit = kitchen - leave
        to_kitchen = visit - come_back
        from_visit_v, from_visit_k = visit >= to_visit, to_kitchen > kitchen
        visit = max(visit, to_visit) + score
        kitchen = max(kitchen, to_kitchen)
        back.append((from_visit_k, from_visit_v))
    state = visit > kitchen
    states = []
    for came_k, came_v in reversed(back):
        states.append(state)
        state = came_v if state else came_k
    return states[::-1]


def _near(sentences: Sequence[Sentence], i: int, cue: str) -> float:
    """The cue's weight at the change and in the two sentences before it: announcements come just ahead."""
    return sum(sentence.weight(cue) for sentence in sentences[max(0, i - 2) : i + 1])
