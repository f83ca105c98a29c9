"""Spoken actions: verbs through the faults of speech, what they act on, and what is instruction at all."""

from __future__ import annotations

from functools import cache

import lemminflect
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plainly_read import plain_reading

from extract.language import Speech, load_model, read_speech
from extract.lexicon import read_lexicon
from extract.spot.actions.span import ActionSpan
from extract.spot.actions.weight import is_instruction
from extract.spot.spotted import Spotted, spot
from extract.spot.verbs.forms import verb_forms
from extract.spot.verbs.mood import utterances
from extract.spot.verbs.things import equipment_at, equipment_by_words
from extract.spot.verbs.words import words
from extract.transcript.cues import Cue, Transcript

WORK = "cut mix add season coat heat wait move shape heatset serve check store naming light"
KINDS = "pan tin dish bowl jar oven appliance tool surface wrap server"
VERBS = read_lexicon("verbs", columns=("verb", "group", "also", "forms"))
GROUPS = frozenset(WORK.split())


@cache
def spotted(text: str) -> Spotted:
    transcript = Transcript("talk.vtt", "0" * 64, (Cue(0, 0, 60_000, text),))
    speech = read_speech(transcript, load_model())
    return spot(speech, plain_reading(speech) if len(speech.doc) else None)


def told(speech: Speech, action: ActionSpan) -> str:
    """An action as a line: "verb objects | place | with | until", with what was not said left out."""

    def names(phrases: object) -> str:
        return ", ".join(speech.doc[p.start : p.end].text for p in phrases)  # type: ignore[attr-defined]

    until = "" if action.until is None else speech.doc[action.until[0] : action.until[1]].text
    parts = [names(action.objects), names(action.place), names(action.with_), until]
    marks = "".join(
        mark for mark, on in (("!", action.negated), ("?", action.supposed), ("~", action.implied)) if on
    )
    line = f"{marks}{action.verb}: " + " | ".join(parts)
    return line.rstrip(" |")


def actions(text: str) -> list[str]:
    found = spotted(text)
    return [told(found.speech, action) for action in found.actions]


SAID = [
    # a verb that the tagger takes for a noun
    ("season the chicken with salt and pepper", ["season: chicken |  | salt, pepper"]),
    ("then place the pan over a medium heat", ["place: pan"]),
    ("now whisk the eggs until they are pale", ["whisk: eggs |  |  | they are pale"]),
    ("it is hot pour in the eggs and stir", ["pour: eggs", "stir:"]),
    ("now it is coated shake off most of the flour", ["shake off: flour"]),
    ("absolutely gorgeous sprinkle with a little sea salt", ["sprinkle:  |  | sea salt"]),
    ("I want you to cover it tightly", ["cover: it"]),
    ("we're going to fry off some onions", ["fry: onions"]),
    ("finish it off by topping with the peanuts", ["finish: it", "top:  |  | peanuts"]),
    # a word that is no kitchen verb is none because a food follows it
    ("starch some dark soy sauce", ["~add: dark soy sauce"]),
    # what leads up to a verb is no verb of its own
    ("we're going to go ahead and add the onions", ["add: onions"]),
    ("what you want to do is drain the beans", ["drain: beans"]),
    ("i'm gonna start chopping the carrots", ["chop: carrots"]),
    # particles, beside the verb or behind the object
    ("set the peppers aside", ["set aside: peppers"]),
    ("take the cake out of the oven", ["take out: cake | oven"]),
    ("turn off the heat", ["turn off: heat"]),
    # light verbs leave the work to their noun
    ("give it a good stir", ["stir: it"]),
    ("bring the soup to a boil", ["boil: soup"]),
    # a verb that only names what goes in, and foods with no verb at all
    ("i'm using half a teaspoon of cinnamon", ["add: cinnamon"]),
    ("then two cups of flour and some salt", ["~add: flour, salt"]),
    # place and means
    ("pour the batter into the tin", ["pour: batter | tin"]),
    ("pour in the milk", ["pour: milk"]),
    ("soak the beans in cold water", ["soak: beans | cold water"]),
    ("mash the potatoes with a fork", ["mash: potatoes |  | fork"]),
    # a negative instruction, and a supposition
    ("don't rinse the noodles", ["!rinse: noodles"]),
    ("if you like you could add honey", ["?add: honey"]),
    # a modifier is no verb
    ("add the chopped onion and the grated cheese", ["add: chopped onion, grated cheese"]),
    # what only tells when or which is no action
    ("once the butter has melted add the flour", ["add: flour"]),
    # subject and object change places
    ("let the dough rest for an hour", ["rest: dough"]),
    ("in goes the garlic", ["add: garlic"]),
]


@pytest.mark.parametrize(("text", "expected"), SAID, ids=[text for text, _ in SAID])
def test_an_action_is_read_with_what_it_acts_on(text: str, expected: list[str]) -> None:
    assert actions(text) == expected


@pytest.mark.parametrize(
    ("role", "done"), [("do", True), ("ahead", True), ("tale", False), ("visit", False), ("tease", False)]
)
def test_an_action_is_instruction_where_its_words_are_read_so(role: str, done: bool) -> None:
    transcript = Transcript("talk.vtt", "0" * 64, (Cue(0, 0, 60_000, "Now add two onions to the pan."),))
    speech = read_speech(transcript, load_model())
    found = spot(speech, plain_reading(speech, role)).actions
    assert [is_instruction(action) for action in found] == [done]


def test_every_time_and_heat_is_on_an_action() -> None:
    text = (
        "Three fifty, 25 minutes. Fry the onions on a medium heat for ten minutes, then five minutes on low."
    )
    found = spotted(text)
    assert found.durations
    assert found.heats
    assert [a.duration for a in found.actions if a.duration] == list(found.durations)
    assert [a.heat for a in found.actions if a.heat] == list(found.heats)


def test_a_bare_time_stays_with_what_went_in() -> None:
    found = spotted("Add the onions, about five minutes.").actions
    assert [(action.verb, action.duration is not None) for action in found] == [("add", True)]


KINDS_OF_CLAUSE = [
    # a "not" reaches no further than its clause
    ("don't peek, just drop it in the pan", ["drop: it | pan"]),
    # a measured food behind a place is put in, and is no place itself
    ("tear it up in a bowl, one teaspoon of salt", ["tear: it | bowl", "~add: salt"]),
    # a state is no work beside the work
    ("once it's covered, shake the rice", ["shake: rice"]),
    # misheard verbs, where the sentence calls for a verb
    ("now need it for ten minutes", ["knead: it"]),
    ("then at the peppers", ["add: peppers"]),
    ("you will need the peppers", ["add: peppers"]),
    # a side that was cut is no cutting
    ("put the peppers in the pan cut side down", ["put: peppers | pan"]),
    # whose habit it is
    ("my uncle cooked the beans in a pot", ["cook: beans | pot"]),
]


@pytest.mark.parametrize(("text", "expected"), KINDS_OF_CLAUSE, ids=[text for text, _ in KINDS_OF_CLAUSE])
def test_clauses_are_told_apart(text: str, expected: list[str]) -> None:
    assert actions(text) == expected


def test_what_others_do_is_told_from_orders() -> None:
    [action] = spotted("my uncle cooked the beans to 180 degrees").actions
    assert action.mood == "other person"


@pytest.mark.parametrize(
    ("said", "foods"),
    [
        ("Half of the sauce goes in little bowls for the dumplings.", ["sauce"]),
        ("And then in goes the milk and a tin of sweetcorn.", ["milk", "sweetcorn"]),
    ],
)
def test_what_goes_in_is_found_on_either_side_of_its_verb(said: str, foods: list[str]) -> None:
    [action] = spotted(said).actions
    assert [phrase.food.name for phrase in action.objects if phrase.food] == foods


def test_unmarked_talk_is_cut_where_the_cook_takes_breath() -> None:
    said = (
        "so put the two pounds of tomatoes on the tray with the oil and all of the salt and then you squeeze "
        "the garlic into a bowl with the butter and mash it up really well now slice the bread for the toast "
        "and spread it with the garlic butter"
    )
    found = spotted(said)
    starts = [found.speech.doc[start].text for start, _ in utterances(found.speech.doc)]
    assert starts == ["so", "and", "now"]


def test_every_misheard_verb_is_mended_to_a_verb_and_is_none_itself() -> None:
    rows = read_lexicon("verb_mishearings", columns=("heard", "meant", "needs"))
    assert all(row["meant"] in verb_forms() for row in rows)
    assert len({row["heard"] for row in rows}) == len(rows)
    assert {row["needs"] for row in rows} <= {"object", "food", "work", "always"}


def test_short_measured_sentences_among_instructions_are_kept() -> None:
    text = (
        "Melt the butter in the pan and add half a cup of sugar. Two eggs. A cup of milk. Whisk until smooth."
    )
    assert all(is_instruction(action) for action in spotted(text).actions)


def test_verb_forms_agree_with_lemminflect() -> None:
    """lemminflect 0.2.3 (NIH SPECIALIST lexicon) as the outside reference for English inflection.

    Left out with reasons: "blent" and "smoothes" are not said today; "ground" is nearly always ground beef or
    ground pepper; "purées" and its kind are the French spelling of a listed verb.
    """
    left_out = {"blent", "smoothes", "ground", "purées", "puréed", "puréeing"}
    missing = {
        row["verb"]: forms
        for row in VERBS
        if (forms := inflections(row["verb"]) - set(verb_forms()) - left_out)
    }
    assert missing == {}


def inflections(verb: str) -> set[str]:
    return {form for forms in lemminflect.getAllInflections(verb, upos="VERB").values() for form in forms}


def test_every_row_of_the_verb_lexicon_keeps_its_rules() -> None:
    assert {row["group"] for row in VERBS} == GROUPS
    assert {row["also"] for row in VERBS} <= {"-", "noun", "adjective"}
    assert len({row["verb"] for row in VERBS}) == len(VERBS)


def test_nouns_of_work_are_verbs_of_the_lexicon() -> None:
    unknown = {noun for noun in words("light verb noun") if noun not in verb_forms()}
    assert unknown == set()


def test_equipment_is_found_at_its_longest_name() -> None:
    doc = load_model()("line two baking sheets with baking paper and use a cast iron skillet")
    found = [thing[0].name for at in range(len(doc)) if (thing := equipment_at(doc, at, len(doc)))]
    assert found[0] == "baking sheet"
    assert {"parchment paper", "cast-iron skillet"} <= set(found)
    kinds = {thing.kind for thing in equipment_by_words().values()}
    assert kinds == set(KINDS.split())


@given(
    st.lists(
        st.sampled_from(["add", "the", "onion", "it", "salt", ",", "then", "until", "for", "oven"]),
        max_size=12,
    )
)
def test_any_row_of_words_is_read_without_fault_and_within_bounds(said: list[str]) -> None:
    found = spotted(" ".join(said))
    length = len(found.speech.doc)
    for action in found.actions:
        assert action.utterance[0] <= action.start <= action.at < action.utterance[1] <= length
        assert action.start < action.end <= length


@given(st.text(alphabet="abc .?!,", max_size=40))
def test_utterances_cover_the_talk_once(text: str) -> None:
    doc = load_model()(text)
    covered = [at for start, end in utterances(doc) for at in range(start, end)]
    assert covered == list(range(len(doc)))
