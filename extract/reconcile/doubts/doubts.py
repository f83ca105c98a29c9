"""What does not add up in a kitchen, each a plain doubt with the words it rests on and a wording for the cook."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from extract.reconcile.hearing.sharing import leaves
from extract.reconcile.ledger.ledger import Account, Fault, Ledger, Out
from extract.reconcile.ledger.wording import part_words, share_words
from extract.reconcile.scene import Scene, between
from extract.reconcile.wording import fits, patterns

TABLE = "doubt_cues"
BEFORE, AFTER = 3, 9
BREATH = 24

DoubtKind = Literal[
    "over-used",
    "nothing left",
    "never used",
    "never made",
    "off camera",
    "never put in",
    "never introduced",
    "which one",
    "two amounts",
    "batch",
]


@dataclass(frozen=True, slots=True)
class Doubt:
    """One thing that only the cook can settle: ``spans`` are the tokens (start, end) of the words it rests on."""

    kind: DoubtKind
    about: str
    text: str
    spans: tuple[tuple[int, int], ...]


def around(scene: Scene, at: int) -> tuple[int, int]:
    """The words around a token, no further than its sentence or its dish."""
    start, end = scene.wording.sentence(at)
    start, end = max(start, at - BEFORE, scene.dish.start), min(end, at + AFTER, scene.dish.end)
    return start, max(end, at + 1)


def sum_doubts(scene: Scene, ledger: Ledger, bought: Container[str]) -> Iterator[Doubt]:
    """The sums of one dish that do not add up: more taken than was left, and what was left of a thing for good.

    Of what was ``bought`` there may be more in the kitchen than was told.
    """
    for fault in ledger.faults:
        if scene.dish.holds(fault.at) and fault.thing not in bought:
            yield from _fault(scene, ledger, fault)
    for account in ledger.accounts.values():
        yield from _unused(scene, ledger, account)


def _fault(scene: Scene, ledger: Ledger, fault: Fault) -> Iterator[Doubt]:
    account = ledger.accounts[fault.thing]
    before = [out for out in account.outs if out.at < fault.at]
    spans = tuple(
        around(scene, at) for at in (*(out.at for out in before[-1:]), fault.at) if scene.dish.holds(at)
    )
    taken = ", then ".join(share_words(out) for out in before)
    asked = next((out for out in account.outs if out.at == fault.at), None)
    if fault.kind == "over-used" and asked is not None and before:
        text = (
            f"Of the {account.name}, {taken} went first, which leaves {part_words(fault.left)}. After that you take "
            f"{share_words(asked)}. Which of the shares is right, or is there more of the {account.name}?"
        )
        yield Doubt("over-used", account.name, text, spans)
    elif fault.kind == "nothing left" and asked is not None and before:
        text = (
            f"By then {taken} of the {account.name} was used, and nothing was left of it. What is the {asked.said} "
            f"that goes in after that?"
        )
        yield Doubt("nothing left", account.name, text, spans)


def _unused(scene: Scene, ledger: Ledger, account: Account) -> Iterator[Doubt]:
    """A share put by and never taken up, and a share that leaves the dish for good."""
    for out in account.outs:
        if not scene.dish.holds(out.at) or account.parent or out.again:
            continue
        reserve = ledger.accounts.get(out.reserve)
        forgotten = reserve is not None and not (reserve.outs or reserve.touched or reserve.named)
        left_over = leaves(ledger, out)
        put_by = out.purpose == "kept" and forgotten
        if not (left_over or put_by) or _taken_up(scene, out):
            continue
        doing = "leaves this dish" if left_over else "is put by"
        text = (
            f"{share_words(out).capitalize()} of the {account.name} {doing}, and no more is said of it. What is it "
            f"for, or should the recipe make less?"
        )
        yield Doubt("never used", account.name, text, (around(scene, out.at),))


def _taken_up(scene: Scene, out: Out) -> bool:
    """Whether later words put a share to use: in the same breath, by its destination, or as "that other half"."""
    wording, dish = scene.wording, scene.dish
    if fits("ledger_cues", "settled", wording.part(out.at, out.at + BREATH)):
        return out.purpose == "kept"
    later = next(iter(patterns("ledger_cues", "later")))
    if any(dish.holds(at) for at, _ in wording.find(later, out.at + BREATH, dish.end)):
        return True
    head = out.into.split()[-1] if out.into else ""
    return bool(head) and out.purpose == "kept" and _goes_there(scene, out.at, head)


def _goes_there(scene: Scene, at: int, head: str) -> bool:
    """Whether something is later said to be on, in or over the place a share was kept for."""
    for place, word in enumerate(scene.wording.words[at + BREATH : scene.dish.end], at + BREATH):
        if word == head and fits("ledger_cues", "arrives", scene.wording.part(place - 5, place)):
            return True
    return False


def forgotten_parts(scene: Scene, ledger: Ledger, keys: Sequence[str]) -> Iterator[Doubt]:
    """Parts that were made and put aside, and of which, or of whose foods, no later word was said.

    ``keys`` are the accounts of the parts of the dish, in order.
    """
    for part, key in zip(scene.parts, keys, strict=True):
        account = ledger.accounts.get(key)
        end = next((e for s, e in _asides(scene, part.start, part.end + BREATH)), None)
        if account is None or account.outs or end is None:
            continue
        words = scene.wording.part(end, scene.dish.end)
        heads = {name.split()[-1] for name in (part.name, *part.also, *(entry.what for entry in account.ins))}
        if any(f" {head}" in words for head in heads) or fits(TABLE, "all of it", words):
            continue
        text = f"The {part.name} is made and put aside, and no more is said of it. Where does it go?"
        yield Doubt("never used", part.name, text, (around(scene, end - 1),))


def _asides(scene: Scene, start: int, end: int) -> Iterator[tuple[int, int]]:
    for pattern in patterns(TABLE, "aside"):
        yield from scene.wording.find(pattern, start, min(end, scene.dish.end))


def batch_doubts(scene: Scene) -> Iterator[Doubt]:
    """A batch of which only part of the amounts is in the factor, and no word says which."""
    for batch in between(scene.spotted.batches, scene.dish.start, scene.dish.end, lambda count: count.start):
        words = scene.wording.part(batch.start, batch.end + 4)
        if scene.dish.holds(batch.start) and fits(TABLE, "partly", words):
            text = "Some of this is made in another amount than usual. Which amounts are those, and of which is it all?"
            yield Doubt("batch", "batch", text, (around(scene, batch.start),))
