"""Reading a token as a cook's verb, through the faults of recognised speech.

The tagger takes "season the chicken" for two nouns and "place the pan" likewise, so its tag is one vote among
several; the others are the word before, the word after and the lexicon of kitchen verbs.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.verbs.forms import Form, Verb, phrasal_verbs, verb_forms
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc, Token

NEEDED = 2
AMOUNT_REACH = 5
PARTICLE_WORK = frozenset({"add", "cut", "mix", "move"})


@dataclass(frozen=True, slots=True)
class Reading:
    """A token read as a verb in one of its forms. ``lemma`` includes the particle at ``particle``, if any."""

    at: int
    verb: Verb
    form: Form
    lemma: str
    particle: int | None = None
    tagged: bool = True


def read_verb(doc: Doc, at: int, opens: bool, in_food: frozenset[int]) -> Reading | None:
    """The token read as a verb, or None. ``opens``: it is the first word of its utterance but for fillers."""
    token = doc[at]
    entry = verb_forms().get(token.lower_)
    misheard = misheard_verb(doc, at, opens, in_food)
    if misheard is not None:
        verb, form = misheard
        return Reading(at, verb, form, verb.lemma, tagged=False)
    if entry is None:
        return None
    verb, form = entry
    if form == "base" and at + 1 < len(doc) and doc[at + 1].lower_ == "of":
        return None  # "and a squeeze of lemon", "pinch of salt"
    if form == "base" and token.lower_ in words("unit noun") and is_counted(doc, at):
        return None  # "one table spoon", "2 slice"
    if verb.also == "adjective" and at and doc[at - 1].lower_ in words("before an adjective"):
        return None  # "somewhere warm"
    if verb.lemma in words("shows itself") and not (form == "base" and (opens or is_let(doc, at))):
        return None  # "the juice bubbling up at the edges", "it starts to sizzle"
    after_adjective = at > 1 and doc[at - 1].lower_ == "and" and doc[at - 2].pos_ == "ADJ"
    if (verb.also == "adjective" and after_adjective) or names_a_pair(doc, at, in_food):
        return None  # "till it is good and crisp", "our salt and pepper squid"
    if at in in_food and not (
        (form == "base" and governs_beyond_food(doc, at, opens, in_food)) or by_doing(doc, at, form)
    ):
        return None
    if describes_a_noun(token, form) or states_a_quality(doc, at) or leads_to_a_verb(doc, at, verb):
        return None
    if verb.group not in {"heat", "wait"} and is_purpose(doc, at):
        return None
    tagged = token.pos_ == "VERB"
    if not tagged and votes(doc, at, form, opens, in_food) < NEEDED:
        return None
    if (
        tagged
        and verb.also
        and (form == "s" or not verb_fits(doc, at))
        and not does_as_a_phrase(doc, at, form)
        and not does_itself(doc, at, verb, form)
    ):
        return None
    return Reading(at, verb, form, verb.lemma, tagged=tagged)


def is_counted(doc: Doc, at: int) -> bool:
    """Whether a number stands before a word, a noun at most between them."""
    before = doc[max(0, at - 2) : at]
    return any(token.like_num for token in before[-1:]) or (
        len(before) == 2 and before[0].like_num and before[1].pos_ == "NOUN"
    )


@cache
def verb_mishearings() -> dict[str, tuple[Verb, Form, str]]:
    """What sounds like a kitchen verb, with the verb's form and what must follow it."""
    rows = read_lexicon("verb_mishearings", columns=("heard", "meant", "needs"))
    return {row["heard"]: (*verb_forms()[row["meant"]], row["needs"]) for row in rows}


def misheard_verb(doc: Doc, at: int, opens: bool, in_food: frozenset[int]) -> tuple[Verb, Form] | None:
    """The kitchen verb that a word was misheard for: "need it for ten minutes", "then at the peppers"."""
    entry = verb_mishearings().get(doc[at].lower_)
    if entry is None or at + 1 >= len(doc):
        return None
    verb, form, needs = entry
    before = doc[at - 1].lower_ if at else ""
    leads = opens or before in words("misheard after") or before in words("opens a clause")
    after = doc[at + 1].lower_
    food = at + 1 in in_food or (at + 2 in in_food and after in words("determiner"))
    pronoun = after in words("misheard before")
    if not leads or (at in in_food and not pronoun):
        return None
    behind = doc[at + 2].lower_ if at + 2 < len(doc) else "."
    work = pronoun and behind in words("after a misheard work")
    fits = {"always": True, "food": food, "object": food or pronoun, "work": work}[needs]
    return (verb, form) if fits else None


def describes_a_noun(token: Token, form: Form) -> bool:
    """Whether the word is the "chopped" of "chopped onions" or the "baking" of "a baking sheet"."""
    share = token.i + 1 < len(token.doc) and token.nbor(1).lower_ in words("share told")
    if form == "base" and share and token.head == token.nbor(1):
        return False  # "tip half of the dough out"
    if token.dep_ in {"amod", "compound"} and token.head.i > token.i and token.head.pos_ in {"NOUN", "PROPN"}:
        return form in {"past", "ing"} or token.pos_ != "VERB"
    before = token.nbor(-1).lower_ if token.i else ""
    after = token.nbor(1).lower_ if token.i + 1 < len(token.doc) else ""
    if form == "ing" and after in words("after an ing that names it"):
        return True
    if form == "s" and token.pos_ == "VERB" and before in words("thing as subject"):
        return False  # "that sits half an hour"
    return form in {"past", "ing", "s"} and before in words("determiner") and not is_let(token.doc, token.i)


def does_itself(doc: Doc, at: int, verb: Verb, form: Form) -> bool:
    """Whether a food is the subject of its own cooking: "it rests 20 minutes"."""
    before = doc[at - 1].lower_ if at else ""
    return form == "s" and verb.group in {"heat", "wait"} and before in words("thing as subject")


def is_let(doc: Doc, at: int) -> bool:
    """Whether a word stands behind "let that", "have it" or the like, where only a verb can follow."""
    return at > 1 and doc[at - 1].lower_ in words("thing as subject") and doc[at - 2].lower_ in words("lets")


def states_a_quality(doc: Doc, at: int) -> bool:
    """Whether a verb only says what something is like: "it tastes good"."""
    return doc[at].lower_ in words("verb of quality") and at + 1 < len(doc) and doc[at + 1].pos_ == "ADJ"


def governs_beyond_food(doc: Doc, at: int, opens: bool, in_food: frozenset[int]) -> bool:
    """Whether a word taken for part of a food is a verb: "salt the water", "then stir fry them"."""
    if opens and at + 1 in in_food and doc[at].pos_ == "VERB":
        return True
    end = at + 1
    while end in in_food:
        end += 1
    if end + 1 < len(doc) and doc[end].lower_ == ",":
        end += 1
        if end + 1 < len(doc) and doc[end + 1].lower_ in words("unit noun"):
            return False  # "and butter, a knob"
    after = doc[end].lower_ if end < len(doc) else ""
    before = doc[at - 1].lower_ if at else ""
    object_follows = after in words("object pronoun") or after in words("determiner")
    if is_subject_or_amount(doc, end):
        return False
    leads = opens or before in words("before a verb") or before in words("opens a clause")
    return object_follows and leads and at - 1 not in in_food


def is_subject_or_amount(doc: Doc, at: int) -> bool:
    """Whether what stands behind a food tells of it, so that it is no verb: "lard, it's half a cup"."""
    if at + 1 >= len(doc):
        return False
    near = [token.lower_ for token in doc[at + 1 : at + AMOUNT_REACH]]
    measured = doc[at].like_num or doc[at].lower_ == "half"
    return near[0] in words("be") or (measured and any(word in words("unit noun") for word in near))


def names_a_pair(doc: Doc, at: int, in_food: frozenset[int]) -> bool:
    """Whether a word is the second of two foods that name a dish: "our salt and pepper squid"."""
    joined = at in in_food and at > 1 and doc[at - 1].lower_ == "and" and at - 2 in in_food
    after = doc[at + 1].lower_ if at + 1 < len(doc) else ""
    return joined and not (after in words("determiner") or after in words("object pronoun"))


def by_doing(doc: Doc, at: int, form: Form) -> bool:
    """Whether a word taken for a food is a means: "finish it off by topping with peanuts"."""
    if form != "ing" or not 0 < at < len(doc) - 1:
        return False
    after = doc[at + 1].lower_
    return doc[at - 1].lower_ == "by" and (after == "with" or after in words("object pronoun"))


def is_purpose(doc: Doc, at: int) -> bool:
    """Whether a verb only says what something is done for: "whisk to combine", "salt to taste"."""
    if at < 2 or doc[at - 1].lower_ != "to":
        return False
    before = doc[at - 2]
    if before.lower_ == "enough":
        return True  # "enough to cover the bottom"
    if at > 2 and before.lower_ in words("cook") and doc[at - 3].lower_ in words("wishes"):
        return False  # "I want you to cover it", "time for me to add"
    if any(doc[back].lower_ in words("use") for back in range(max(0, at - 7), at - 1)):
        return False
    return before.lower_ not in words("before a to") and before.pos_ not in {"AUX", "ADJ"}


def leads_to_a_verb(doc: Doc, at: int, verb: Verb) -> bool:
    """Whether a verb that says little only introduces another: "going to add", "go ahead and add"."""
    after = doc[at + 1].lower_ if at + 1 < len(doc) else ""
    return verb.group == "light" and after in words("after a leading verb")


def verb_fits(doc: Doc, at: int) -> bool:
    """Whether a word that is also a noun stands where a verb can: not after an article or an adjective."""
    if at == 0:
        return True
    before = doc[at - 1]
    if is_let(doc, at):
        return True
    return before.lower_ not in words("determiner") and not (before.pos_ == "ADJ" and before.dep_ == "amod")


def votes(doc: Doc, at: int, form: Form, opens: bool, in_food: frozenset[int]) -> int:
    """How many things besides its tag speak for reading the word as a verb."""
    before = doc[at - 1].lower_ if at else ""
    after = doc[at + 1] if at + 1 < len(doc) else None
    if form == "s" or (form != "base" and doc[at].pos_ == "ADJ"):
        return 0
    found = 0
    if before in words("before a verb") or (form == "ing" and before in words("be")):
        found += 1
    if opens or before in words("opens a clause"):
        found += 1 + (opens and form == "base" and after is not None and after.is_punct)
    if before in words("surely before a verb"):
        found += 2
    if is_let(doc, at):
        found += 2
    elif before in words("determiner"):
        found -= 2
    if after is not None and (
        after.lower_ in words("after a verb") or after.like_num or (after.i in in_food and at not in in_food)
    ):
        found += 1
    return found + orders_something(doc, at, form) + does_as_a_phrase(doc, at, form)


def orders_something(doc: Doc, at: int, form: Form) -> int:
    """How much what follows a bare verb makes it an order, in talk without marks: "black pepper scrape all of that".

    An until makes it one for certain: "two onions fry till they are golden".
    """
    after = doc[at + 1].lower_ if at + 1 < len(doc) else ""
    before = doc[at - 1].lower_ if at else ""
    if form != "base" or before in words("determiner") or before == "of":
        return 0  # "whip a cup of cream till it holds"
    certain = after in words("until") and (at == 0 or doc[at - 1].pos_ != "ADJ")  # "a medium heat until"
    return NEEDED if certain else int(after in words("thing acted on"))


def does_as_a_phrase(doc: Doc, at: int, form: Form) -> int:
    """How much a little word behind it makes a bare word a verb: "shake off most of it", "sprinkle with salt"."""
    led = any(token.lower_ in words("determiner") for token in doc[max(0, at - 2) : at])
    if form != "base" or led or at + 2 >= len(doc):
        return 0
    verb = verb_forms()[doc[at].lower_][0]
    after, then = doc[at + 1].lower_, doc[at + 2].lower_
    if after == "with":
        return NEEDED if verb.lemma in words("done with") else 0
    phrase = after in phrasal_verbs().get(verb.lemma, {}) or (
        after in words("particle of work") and verb.group in PARTICLE_WORK
    )
    acts_on = any(then in words(kind) for kind in ("determiner", "object pronoun", "how much"))
    return NEEDED if phrase and acts_on else 0
