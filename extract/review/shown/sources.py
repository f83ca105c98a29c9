"""What lies beside a draft: the transcript it was made from, and the recording."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from mimetypes import guess_type
from pathlib import Path

from extract.errors import CardwrightError
from extract.model import Dish, Evidence, RecipeDraft
from extract.review.edits.evidence import is_reviewers
from extract.transcript import Cue, Transcript, read_transcript


@dataclass(frozen=True, slots=True)
class Talk:
    """The words of the recording as the page shows them.

    ``path`` is None where the transcript was not found; ``cues`` then holds the words of the evidence alone.
    ``note`` says so, or that the transcript is not the one the draft was made from; "" where all is well.
    """

    path: Path | None
    cues: tuple[Cue, ...]
    note: str = ""
    changed: bool = False


def find_talk(draft_path: Path, draft: RecipeDraft, given: Path | None) -> Talk:
    """The transcript: the one ``given``, else the one of the draft's name beside it or a folder above.

    Raises CardwrightError where the one given, or the one found, cannot be read.
    """
    path = given or _beside(draft_path, draft.source.file)
    if path is None:
        note = (
            f"The transcript {draft.source.file} was not found beside the draft. Only the words that the "
            "draft rests on are shown; name the transcript with --transcript to see all of it."
        )
        return Talk(None, words_of_evidence(draft), note)
    return read_talk(path, draft)


def read_talk(path: Path, draft: RecipeDraft) -> Talk:
    """The transcript in ``path``, with a note where it is not the one that the draft was made from."""
    transcript: Transcript = read_transcript(path)
    changed = bool(draft.source.sha256) and transcript.sha256 != draft.source.sha256
    note = f"The transcript {path.name} is not as it was when the draft was made." if changed else ""
    return Talk(path, transcript.cues, note, changed)


def _beside(draft_path: Path, file: str) -> Path | None:
    name = Path(file).name
    folders = (draft_path.parent, draft_path.resolve().parent, draft_path.resolve().parent.parent)
    return next((folder / name for folder in folders if name and (folder / name).is_file()), None)


def words_of_evidence(draft: RecipeDraft) -> tuple[Cue, ...]:
    """The words that values rest on, as cues in the order of the recording."""
    found: dict[int, list[Evidence]] = {}
    for evidence in _evidence(draft):
        if not is_reviewers(evidence):
            found.setdefault(evidence.cue, []).append(evidence)
    cues = []
    for index in sorted(found):
        said = found[index]
        texts = list(dict.fromkeys(one.text for one in sorted(said, key=lambda one: -len(one.text))))
        kept = [text for at, text in enumerate(texts) if not any(text in other for other in texts[:at])]
        start, end = min(one.start for one in said), max(one.end for one in said)
        cues.append(Cue(index, round(start * 1000), round(end * 1000), " … ".join(kept)))
    return tuple(cues)


def _evidence(draft: RecipeDraft) -> list[Evidence]:
    return [one for dish in draft.dishes for said in _said_in(dish) for one in said]


def _said_in(dish: Dish) -> Iterator[list[Evidence]]:
    for step in dish.method:
        yield step.said
        yield from (action.said for action in step.actions)
    yield from (question.said for question in dish.questions)
    for part in dish.components:
        yield from (line.said for line in part.ingredients)
        yield from (share.said for share in (*part.portions, *part.leftovers))
    yield from (value.said for value in (dish.yield_, dish.batch) if value is not None)


def find_media(draft_path: Path, talk: Talk, given: Path | None) -> Path | None:
    """The recording: the one ``given``, else a video or sound beside draft or transcript with its name.

    Raises CardwrightError where the one given is not there, or is neither video nor sound.
    """
    if given is not None:
        if not given.is_file():
            problem = "no such recording"
            raise CardwrightError(problem, path=given)
        if not _is_media(given):
            problem = "this is neither a video nor a sound file by its name"
            raise CardwrightError(problem, path=given, remedy="name it .mp4, .webm, .mp3, .m4a, .ogg or .wav")
        return given
    beside = [(draft_path.resolve().parent, draft_path.name.removesuffix(".json").removesuffix(".draft"))]
    if talk.path is not None:
        beside.append((talk.path.resolve().parent, talk.path.stem))
    for folder, stem in beside:
        for path in sorted(folder.iterdir()):
            if path.stem == stem and path.is_file() and _is_media(path):
                return path
    return None


def _is_media(path: Path) -> bool:
    return media_type(path).partition("/")[0] in {"video", "audio"}


def media_type(path: Path) -> str:
    """The MIME type of a recording by its name, "" where it has none."""
    return guess_type(path.name)[0] or ""
