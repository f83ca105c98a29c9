"""The kitchen ledger as an accountant would write it: what went in, what came out, when, and what is left."""

from __future__ import annotations

from collections.abc import Iterator

from extract.reconcile.kitchen import Kitchen, Reconciled
from extract.reconcile.ledger.ledger import Account, Entry, Ledger, Out
from extract.reconcile.ledger.quantities import NOTHING
from extract.reconcile.ledger.wording import amount_words, metric_words, part_words, share_words, size_words
from extract.reconcile.scene import dish_account, is_dish_account
from extract.spot.spotted import Spotted

PURPOSES = {"used": "", "kept": "put by", "gone": "leaves the dish"}
METRIC = frozenset({"gram", "kilogram", "millilitre", "litre"})
NO_DISH = "No dish was found.\n"


def ledger_text(reconciled: Reconciled, spotted: Spotted) -> str:
    """Every account of a show as plain text, dish by dish, with the doubts; it ends in a newline.

    Figures are as said, with millilitres or grams where they can be worked out by the US legal volumes.
    """
    if not reconciled.kitchens:
        return NO_DISH
    blocks = [f"Kitchen ledger of {spotted.speech.transcript.file or 'the talk'}"]
    for number, kitchen in enumerate(reconciled.kitchens):
        book = Book(spotted, reconciled.ledger, number, kitchen)
        blocks.append("\n".join(book.lines()))
    return "\n\n".join(blocks) + "\n"


class Book:
    """The pages of one dish."""

    def __init__(self, spotted: Spotted, ledger: Ledger, number: int, kitchen: Kitchen) -> None:
        self.spotted = spotted
        self.ledger = ledger
        self.number = number
        self.kitchen = kitchen

    def lines(self) -> Iterator[str]:
        """The accounts of the dish: its parts, what was divided, then the dish itself, and what is in doubt."""
        title = self.kitchen.title[:1].upper() + self.kitchen.title[1:]
        yield f"Dish {self.number + 1}: {title}"
        for account in self.ledger.accounts.values():
            own = not account.parent and not is_dish_account(account.name)
            if own and self.kitchen.dish.holds(opened_at(account)):
                yield from self.account(account)
                for reserve in reversed(self.ledger.reserves(account.name)):
                    yield from self.account(reserve)
        dish = self.ledger.accounts.get(dish_account(self.number))
        if dish is not None:
            yield from self.account(dish, "the dish itself")
        if self.kitchen.doubts:
            yield "  In doubt"
        for doubt in self.kitchen.doubts:
            yield f"    {self.clock(doubt.spans[0][0])}{doubt.kind}: {doubt.text}"

    def account(self, account: Account, name: str = "") -> Iterator[str]:
        """One account: its head, the in side, what that comes to, the out side, what is left."""
        yield f"  {(name or account.name).capitalize()}"
        for entry in account.ins:
            yield f"    in    {self.clock(entry.at)}{entry_words(entry)}"
        if account.parent:
            yield f"    in    a share of the {account.parent}"
        yield f"    made  {made_words(account)}"
        for out in account.outs:
            yield f"    out   {self.clock(out.at)}{out_words(out)}"
        if account.outs or account.parent:
            spoken = sorted((*account.touched, *account.named))
            again = f", spoken of again {self.clock(spoken[0])}".rstrip() if spoken else ""
            yield f"    left  {left_words(account)}{again if account.left != NOTHING else ''}"

    def clock(self, at: int) -> str:
        """The moment of a token as "[1:05] ", "" where the transcript has no times."""
        if not self.spotted.speech.transcript.timed:
            return ""
        seconds = int(self.spotted.speech.evidence(at, at + 1).start)
        minutes, seconds = divmod(seconds, 60)
        hours, minutes = divmod(minutes, 60)
        return f"[{hours}:{minutes:02}:{seconds:02}] " if hours else f"[{minutes}:{seconds:02}] "


def opened_at(account: Account) -> int:
    """The token at which an account has its first entry on either side; -1 where it has none."""
    return min([*(entry.at for entry in account.ins), *(out.at for out in account.outs)], default=-1)


def entry_words(entry: Entry) -> str:
    """What went in: the food with its amount as said and, where that is no metric one, its volume or mass."""
    told = amount_words(entry.amount) if entry.amount is not None else ""
    size = metric_words(entry.size) if entry.size is not None else ""
    if entry.amount is not None and entry.amount.unit in METRIC:
        size = ""
    figures = " = ".join(words for words in (told, size) if words)
    if not figures and entry.amount is None and " of the " in entry.what:
        return entry.what
    return f"{entry.what}, {figures or 'how much was not said'}"


def made_words(account: Account) -> str:
    """How much there was, and how that is known."""
    if account.whole is None:
        known = account.ins or account.parent
        return "how much cannot be worked out" if known else "nothing was said of what it is made of"
    later = any(entry.at > account.said_at for entry in account.ins)
    said = "as said, with what went in later" if later else "as said"
    how = "as the share put by" if account.parent else said if account.said is not None else "the sum"
    return f"{size_words(account.whole)}, {how}"


def out_words(out: Out) -> str:
    """What came out: the share as said, its size, where it went, and what was there of it."""
    size = f" = {size_words(out.size)}" if out.size is not None and out.said != "some" else ""
    words = [f"{share_words(out)}{size}", out.into, PURPOSES[out.purpose]]
    if out.part != out.asked:
        words.append(f"only {part_words(out.part)} was left")
    return ", ".join(word for word in words if word)


def left_words(account: Account) -> str:
    """What is left of the whole, as a share and a size."""
    if account.left == NOTHING:
        return "nothing"
    if not account.left.exact:
        return "how much is not known"
    size = f" = {size_words(account.whole.times(account.left))}" if account.whole is not None else ""
    return f"{part_words(account.left)}{size}"
