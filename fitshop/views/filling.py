"""Fills a rendered page's form with what was typed before, as a browser would have left it.

HTML in, HTML out: no request, no model. The form is found by the address it posts to and, where
several share it, by its hidden fields. Passwords and files can't be filled and are named instead.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from html import escape
from html.parser import HTMLParser
from urllib.parse import urljoin

Fields = Mapping[str, Sequence[str]]
Attributes = list[tuple[str, str | None]]

TYPED_AGAIN = {"password": "passwords", "file": "files"}
BUTTONS = {"submit", "button", "reset", "image"}


@dataclass
class Control:
    """One input, select, option, textarea or button, and where its tag and its content stand."""

    tag: str
    attributes: Attributes
    start: int
    end: int
    inner_end: int = 0
    text: str = ""
    options: list[Control] = field(default_factory=list)

    def get(self, name: str) -> str | None:
        return next((value or "" for key, value in self.attributes if key == name), None)

    @property
    def name(self) -> str:
        return self.get("name") or ""

    @property
    def kind(self) -> str:
        default = "submit" if self.tag == "button" else "text"
        return (self.get("type") or default).lower() if self.tag != "textarea" else "textarea"

    def tag_with(self, **changed: str | None) -> str:
        """The start tag with attributes set ("" stands alone) or, for None, taken away."""
        kept = [(key, value) for key, value in self.attributes if key not in changed]
        every = kept + [(key, value) for key, value in changed.items() if value is not None]
        words = [key if value is None else f'{key}="{escape(value)}"' for key, value in every]
        return f"<{' '.join([self.tag, *words])}>"


@dataclass
class Form:
    """A form with its controls, and the closed folds around it and around each control."""

    action: str
    method: str
    opens_at: int
    controls: list[Control] = field(default_factory=list)
    folds: dict[int, Control] = field(default_factory=dict)

    @property
    def buttons(self) -> list[Control]:
        return [each for each in self.controls if each.kind == "submit" and each.tag != "select"]


@dataclass(frozen=True, slots=True)
class Found:
    """What a strip above the filled form can say of it."""

    button: str
    not_kept: tuple[str, ...]
    no_place: tuple[tuple[str, str], ...]


class _Reader(HTMLParser):
    """Reads the forms of a page with the place of every tag."""

    def __init__(self, page: str, html: str) -> None:
        super().__init__()
        self.page, self.html = page, html
        self.forms: list[Form] = []
        self.form: Form | None = None
        self.folds: list[Control] = []
        self.open: Control | None = None  # textarea, option or button whose text is being read
        self.select: Control | None = None
        self.drawing = 0
        self.lines = [0]
        for position, letter in enumerate(html):
            if letter == "\n":
                self.lines.append(position + 1)
        self.feed(html)
        self.close()

    def _here(self) -> int:
        line, column = self.getpos()
        return self.lines[line - 1] + column

    def handle_starttag(self, tag: str, attributes: Attributes) -> None:
        start = self._here()
        one = Control(tag, attributes, start, start + len(self.get_starttag_text() or ""))
        match tag:
            case "form":
                action = urljoin(self.page, one.get("action") or "").partition("#")[0]
                self.form = Form(action, (one.get("method") or "get").lower(), one.end)
                self.forms.append(self.form)
                self._note_folds()
            case "details":
                self.folds.append(one)
            case "svg":
                self.drawing += 1
            case "option" if self.select is not None:
                self.select.options.append(one)
                self.open = one
            case "input" | "select" | "textarea" | "button" if self.form is not None:
                self.form.controls.append(one)
                self._note_folds()
                if tag == "select":
                    self.select = one
                elif tag != "input":
                    self.open = one

    def handle_startendtag(self, tag: str, attributes: Attributes) -> None:
        self.handle_starttag(tag, attributes)
        if tag == "svg":
            self.drawing -= 1

    def _note_folds(self) -> None:
        if self.form is not None:
            self.form.folds |= {fold.start: fold for fold in self.folds}

    def handle_data(self, data: str) -> None:
        if self.open is not None and not self.drawing:
            self.open.text += data

    def handle_endtag(self, tag: str) -> None:
        if self.open is not None and tag == self.open.tag:
            self.open.inner_end, self.open = self._here(), None
        if tag == "form":
            self.form = None
        elif tag == "select":
            self.select = self.open = None
        elif tag == "details" and self.folds:
            self.folds.pop()
        elif tag == "svg":
            self.drawing -= 1


def filled(
    html: str, *, page: str, action: str, fields: Fields, strip: Callable[[Found], str]
) -> str | None:
    """The page with its form filled as typed and a strip at its head; None without such a form.

    `page` is the address the HTML is shown under, `action` the one the form was sent to, with
    their queries. `strip` makes trusted HTML.
    """
    form = _the_form(_Reader(page, html).forms, action, fields)
    if form is None:
        return None
    edits: list[tuple[int, int, str]] = []
    left = {name: list(values) for name, values in fields.items()}
    given = {name: list(values) for name, values in fields.items()}
    not_kept: list[str] = []
    for control in form.controls:
        if control.kind in TYPED_AGAIN and control.tag == "input":
            not_kept.append(TYPED_AGAIN[control.kind])
        else:
            edits += _edits(control, given, left)
    edits += [
        (fold.start, fold.end, fold.tag_with(open=""))
        for fold in form.folds.values()
        if fold.get("open") is None
    ]
    found = Found(
        button=_pressed(form, fields),
        not_kept=tuple(dict.fromkeys(not_kept)),
        no_place=tuple(
            (name, value) for name, values in left.items() for value in values if value.strip()
        ),
    )
    edits.append((form.opens_at, form.opens_at, strip(found)))
    for start, end, text in sorted(edits, reverse=True):
        html = html[:start] + text + html[end:]
    return html


def _the_form(forms: list[Form], action: str, fields: Fields) -> Form | None:
    """Of those posting to that address: the one with the same hidden values, then most names."""

    def likeness(form: Form) -> tuple[int, int]:
        hidden = sum(
            1
            for each in form.controls
            if each.kind == "hidden" and (each.get("value") or "") in fields.get(each.name, ())
        )
        return hidden, len({each.name for each in form.controls} & set(fields))

    candidates = [form for form in forms if form.method == "post" and form.action == action]
    return max(candidates, key=likeness, default=None)


def _edits(
    control: Control, given: dict[str, list[str]], left: dict[str, list[str]]
) -> list[tuple[int, int, str]]:
    """How this control's tags change; what found its place is taken out of `left`."""
    name, kind = control.name, control.kind
    typed = given.get(name, [])
    if control.tag == "select":
        return _chosen(control, typed, left) if name in given else []
    if kind in {"checkbox", "radio"}:
        value = control.get("value")
        is_on = (value if value is not None else "on") in typed
        if is_on:
            _placed(left, name, value if value is not None else "on")
        return [(control.start, control.end, control.tag_with(checked="" if is_on else None))]
    if kind in BUTTONS:
        _placed(left, name, control.get("value") or "")
        return []
    if not typed:
        return []
    text = typed.pop(0)
    _placed(left, name, text)
    if kind == "textarea":
        return [(control.end, control.inner_end, "\n" + escape(text))]
    return [(control.start, control.end, control.tag_with(value=text))]


def _chosen(
    select: Control, typed: list[str], left: dict[str, list[str]]
) -> list[tuple[int, int, str]]:
    edits = []
    for option in select.options:
        value = option.get("value")
        value = option.text.strip() if value is None else value
        is_chosen = value in typed
        if is_chosen:
            _placed(left, select.name, value)
        edits.append(
            (option.start, option.end, option.tag_with(selected="" if is_chosen else None))
        )
    return edits


def _placed(left: dict[str, list[str]], name: str, value: str) -> None:
    if value in left.get(name, ()):
        left[name].remove(value)


def _pressed(form: Form, fields: Fields) -> str:
    """The words on the button that was pressed; on the first one where that can't be told."""
    buttons = form.buttons
    pressed = next(
        (b for b in buttons if b.name and (b.get("value") or "") in fields.get(b.name, ())),
        None,
    ) or next((b for b in buttons if not b.name), next(iter(buttons), None))
    return "" if pressed is None else " ".join((pressed.text or pressed.get("value") or "").split())
