"""The review page's server: a few addresses over one desk. Started by ``cardwright review``."""

from __future__ import annotations

import json
import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from pydantic import BaseModel, ConfigDict, Field, ValidationError
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import FileResponse, HTMLResponse, JSONResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from extract.errors import CardwrightError
from extract.review.guard import Guard
from extract.review.keeping.desk import Conflict, Desk
from extract.review.keys import Gone, find_dish
from extract.review.shown.preview import WrittenSide, page_html, page_text
from extract.review.shown.sources import Talk, media_type, read_talk
from extract.review.shown.view import earlier, standing, view

STATIC = Path(__file__).parent / "static"
REASONS = {
    "talk": "talk",
    "visit": "a visit",
    "greeting": "greetings",
    "teaser": "a look ahead",
    "break": "a break",
    "sign-off": "the sign-off",
    "noise": "noise",
}


@dataclass
class Table:
    """All that one run of the page serves: the desk, the words, the recording, the written version."""

    desk: Desk
    talk: Talk
    media: Path | None = None
    written: WrittenSide | None = None
    reviewer: str = ""
    token: str = ""
    port: int = 0
    drafting: threading.Lock = field(default_factory=threading.Lock)


class Asked(BaseModel):
    """What a change is asked with: the entry it was made on, the window, the reviewer, and the edit itself."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)

    base: int = Field(ge=0)
    window: str = Field(min_length=1, max_length=64)
    by: str = Field(max_length=200)
    edit: Any = None
    number: int | None = None
    sure: bool = False


def application(table: Table) -> Starlette:
    """The ASGI application of ``table``."""
    pages = Environment(
        loader=PackageLoader("extract.review"), autoescape=True, undefined=StrictUndefined, trim_blocks=True
    )
    routes = [
        Route("/", lambda request: _page(table, pages)),
        Route("/draft", _getting(lambda request: _looked(table, _since(request)))),
        Route("/standing", _getting(lambda request: _standing(table))),
        Route("/words", _getting(lambda request: _words(table))),
        Route("/earlier", _getting(lambda request: earlier(table.desk))),
        Route("/unsure", _getting(lambda request: _unsure(table))),
        Route("/written", _getting(lambda request: _differences(table))),
        Route("/dish/{key}", _getting(lambda request: _dish_page(table, request.path_params["key"]))),
        Route("/edit", _changing(table, _edit), methods=["POST"]),
        Route("/undo", _changing(table, _undo), methods=["POST"]),
        Route("/redo", _changing(table, _redo), methods=["POST"]),
        Route("/back", _changing(table, _back), methods=["POST"]),
        Route("/again", _changing(table, _again), methods=["POST"]),
        Route("/put-back", _changing(table, _put_back), methods=["POST"]),
        Route("/recording", lambda request: _recording(table)),
        Route("/take/{what}", _taking(table)),
        Mount("/static", StaticFiles(directory=STATIC)),
    ]
    guard = Middleware(Guard, token=table.token, port=table.port)
    return Starlette(routes=routes, middleware=[guard], exception_handlers={500: _broken})


def _page(table: Table, pages: Environment) -> Response:
    shown = {
        "title": table.desk.path.name,
        "token": table.token,
        "reviewer": table.reviewer,
        "media": media_type(table.media).partition("/")[0] if table.media else "",
        "written": table.written.path.name if table.written else "",
        "reasons": REASONS,
    }
    return HTMLResponse(pages.get_template("page.html").render(shown))


def _getting(work: Callable[[Request], Any]) -> Callable[[Request], Any]:
    async def answer(request: Request) -> Response:
        return await run_in_threadpool(_tried, lambda: work(request))

    return answer


def _changing(table: Table, work: Callable[[Table, Asked], str]) -> Callable[[Request], Any]:
    """A change: done, and the whole draft as it then is; or refused with the reason and nothing changed."""

    async def answer(request: Request) -> Response:
        body = await request.body()

        def change() -> Any:
            asked = _asked(body)
            words = work(table, asked)
            return {"done": words, "draft": view(table.desk, asked.base)}

        return await run_in_threadpool(_tried, change)

    return answer


def _tried(work: Callable[[], Any]) -> Response:
    try:
        return _json(work())
    except CardwrightError as error:
        status = 409 if isinstance(error, Conflict | Gone) else 422
        return _json({"reason": str(error)}, status)


def _json(value: Any, status: int = 200) -> Response:
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return Response(text, status_code=status, media_type="application/json")


def _asked(body: bytes) -> Asked:
    """What a change was asked with, checked. Raises CardwrightError."""
    try:
        asked = json.loads(body)
    except (ValueError, RecursionError) as error:
        problem = "this is no JSON"
        raise CardwrightError(problem) from error
    try:
        return Asked.model_validate(asked)
    except ValidationError as error:
        fault = error.errors(include_url=False, include_context=False, include_input=False)[0]
        problem = f"this is no change: {'.'.join(map(str, fault['loc'])) or 'all of it'}: {fault['msg']}"
        raise CardwrightError(problem) from None


def _edit(table: Table, asked: Asked) -> str:
    return table.desk.edit(asked.edit, asked.base, asked.window, asked.by)


def _undo(table: Table, asked: Asked) -> str:
    return table.desk.undo(asked.base, asked.window, asked.by, sure=asked.sure)


def _redo(table: Table, asked: Asked) -> str:
    return table.desk.redo(asked.base, asked.window, asked.by)


def _back(table: Table, asked: Asked) -> str:
    if asked.number is None:
        problem = "which earlier state?"
        raise CardwrightError(problem)
    return table.desk.back_to(asked.number, asked.window, asked.by)


def _put_back(table: Table, asked: Asked) -> str:
    return table.desk.put_back(asked.by)


def _again(table: Table, asked: Asked) -> str:
    """Draft the show again from the transcript as it is now; one at a time, for it takes seconds."""
    from extract.pipeline import draft_transcript
    from extract.transcript import read_transcript

    if table.talk.path is None:
        problem = "the transcript was not found"
        raise CardwrightError(problem, remedy="start the review with --transcript")
    with table.drafting:
        new = draft_transcript(read_transcript(table.talk.path))
        words = table.desk.again(new, asked.by, asked.window)
        table.talk = read_talk(table.talk.path, table.desk.draft)
    return words


def _looked(table: Table, since: int) -> Any:
    """The draft as it is on the desk; what is wrong with its file, where something is, beside it."""
    fault = _fault(table)
    return {**view(table.desk, since), "fault": fault}


def _since(request: Request) -> int:
    """The entry up to which the asking window knows the draft, -1 where it knows nothing."""
    given = request.query_params.get("since", "")
    return int(given) if given.isascii() and given.isdecimal() and len(given) < 10 else -1


def _standing(table: Table) -> Any:
    fault = _fault(table)
    return {**standing(table.desk), "fault": fault}


def _fault(table: Table) -> str:
    try:
        table.desk.look("")
    except CardwrightError as error:
        return f"The draft on the disk is not as it was saved: {error}"
    return ""


def _words(table: Table) -> Any:
    talk = table.talk
    if talk.path is not None:
        talk = table.talk = read_talk(talk.path, table.desk.draft)
    cues = [[cue.index, cue.start / 1000, cue.end / 1000, cue.text, cue.speaker] for cue in talk.cues]
    return {"cues": cues, "note": talk.note, "changed": talk.changed, "found": talk.path is not None}


def _unsure(table: Table) -> Any:
    """Which values the reader was less sure of; of a show that nobody has the words of it is not known."""
    from extract.review.shown.beside import unsure_beside

    return unsure_beside(table.talk.path, table.desk.draft) if table.talk.path is not None else {}


def _differences(table: Table) -> Any:
    return table.written.differences(table.desk.draft) if table.written else []


def _dish_page(table: Table, key: str) -> Any:
    draft = table.desk.draft
    return {"html": page_html(draft, find_dish(draft, key))}


def _recording(table: Table) -> Response:
    if table.media is None or not table.media.is_file():
        return Response("There is no recording.\n", status_code=404, media_type="text/plain")
    return FileResponse(table.media, media_type=media_type(table.media))


def _taking(table: Table) -> Callable[[Request], Any]:
    async def answer(request: Request) -> Response:
        return await run_in_threadpool(_take, table, request.path_params["what"])

    return answer


def _take(table: Table, what: str) -> Response:
    """The page or the talk, to be kept as a file."""
    stem = table.desk.path.name.removesuffix(".json").removesuffix(".draft")
    if what == "page":
        text, name = page_text(table.desk.draft), f"{stem}.md"
    elif what == "talk" and table.talk.path is not None:
        text, name = _talk(table, table.talk.path, stem), f"{stem}.talk"
    else:
        return Response("There is no such thing to take.\n", status_code=404, media_type="text/plain")
    quoted = "".join(
        letter if (letter.isalnum() and letter.isascii()) or letter in "-._" else "_" for letter in name
    )
    headers = {"content-disposition": f'attachment; filename="{quoted}"'}
    return Response(text, media_type="text/plain; charset=utf-8", headers=headers)


def _talk(table: Table, path: Path, stem: str) -> str:
    from extract.review.shown.hearing import hear
    from extract.review.shown.talk import talk_text

    return talk_text(table.desk.draft, hear(path), stem)


async def _broken(_request: Request, _error: Exception) -> Response:
    reason = "A fault in this program, please report it; nothing was changed. The terminal shows more."
    return JSONResponse({"reason": reason}, status_code=500)
