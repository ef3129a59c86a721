"""The job screen as lines, in every room: what must be read is there, and nothing runs over."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from tests.screens.stage import SIZES
from torqref.screens.job_keys import keys_of
from torqref.screens.job_layout import PARTS
from torqref.screens.job_panel import Listed, Showing, paint_job
from torqref.screens.lettering import lettered
from torqref.screens.line import text_of, width_of
from torqref.screens.prompt import Prompt
from torqref.walk.job_view import JobEntry, JobView

GOLDEN = Path(__file__).with_name("golden")
ODD = [(1, 1), (1, 30), (100, 1), (2, 2), (3, 3), (7, 4), (13, 40), (39, 11), (200, 60)]
STRIP = (
    JobEntry(number=1, text="key out, wheels chocked", state="done"),
    JobEntry(number=2, text="gap at the flange, four places", state="done", more="0.2 mm"),
    JobEntry(number=3, text="old gasket cleaned off", state="left out", more="not fitted on this one"),
    JobEntry(number=4, text="Fuel rail", state="later"),
    JobEntry(number=5, text="Flange to tank, up to stage 2", state="due", more="stage 3"),
    JobEntry(number=6, text="the step that is now", state="now"),
    JobEntry(number=7, text="Flange to tank, engine R", state="not for this one"),
    *(JobEntry(number=number, text=f"step number {number}", state="open") for number in range(8, 15)),
)
WORDS = (
    ("later", "go on with other steps first"),
    ("go N", "do step N now"),
    ("undo", "take the last press back"),
    ("due", "what is waiting"),
    ("steps", "every step and its state"),
)
SAFE = JobView(
    kind="safe",
    title="Tank back on, Brindle 24 utility truck",
    count="step 6 of 14",
    done="2 of 13 done, 1 left out",
    headline="MUST BE SAFE: Battery off, minus first",
    call="MUST BE SAFE",
    texts=("Battery off, minus first: nothing that sparks near the tank",),
    lines=("both batteries where there are two", "see: sheet 4"),
    options=((1, "it is so now; I looked"), (2, "not yet: put the job down")),
    words=WORDS,
    due=("step 5, Flange to tank: due 2026-03-02 12:00, in 3 h 2 min",),
    strip=STRIP,
    practice="PRACTICE VALUES: invented, not for any real vehicle",
)
READING = replace(
    SAFE,
    kind="reading",
    call="MEASURE",
    texts=("gap at the flange",),
    wanted="0.1–0.3 mm",
    lines=("last reading 0.5 mm: outside 0.1–0.3 mm", "until 08:10: 9 min left", "feeler gauge, four places"),
    urgent=("last reading 0.5 mm: outside 0.1–0.3 mm", "until 08:10: 9 min left"),
    options=(),
)
PAGE = replace(
    SAFE,
    kind="page",
    call="DO ALL OF THIS",
    texts=tuple(f"thing number {number} of many on this page, in so many words" for number in range(1, 13)),
    lines=(),
    options=(),
    main="all of it done",
)
ALONE = replace(
    SAFE,
    kind="alone",
    call="READ AND DO",
    texts=("No hand near a pressurised pipe: the jet goes under the skin",),
    options=(),
    main="read and done",
)
VIEWS = {"safe": SAFE, "reading": READING, "page": PAGE, "alone": ALONE}


def showing(view: JobView = SAFE, **given: object) -> Showing:
    made = Showing(view=view, options=view.options, keys=keys_of(view.words))
    return replace(made, **given)  # type: ignore[arg-type]  # fields of Showing


def texts(made: Showing, size: tuple[int, int]) -> list[str]:
    return [text_of(painted) for painted in paint_job(made, *size).lines]


def flat(made: Showing, size: tuple[int, int]) -> str:
    return " ".join(" ".join(texts(made, size)).split())


@pytest.mark.parametrize("size", [*SIZES, *ODD])
@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_the_screen_is_filled_exactly(size: tuple[int, int], view: JobView) -> None:
    for given in ({}, {"message": "refused, and why " * 5, "refused": True}, {"ascii_only": True}):
        painted = paint_job(showing(view, **given), *size).lines
        assert len(painted) == size[1]
        assert all(width_of(line) == size[0] for line in painted)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
def test_what_it_is_which_step_and_that_it_is_for_practice_are_said_at_every_size(
    size: tuple[int, int], view: JobView
) -> None:
    said = flat(showing(view), size)
    assert view.call in said
    assert "step 6 of 14" in said
    assert "PRACTICE VALUES" in said


@pytest.mark.parametrize("size", SIZES)
def test_words_answers_wanted_and_deadline_are_whole_at_every_size(size: tuple[int, int]) -> None:
    said = flat(showing(), size)
    assert SAFE.texts[0] in said or _drawn(showing(), size, SAFE.texts[0].upper())
    for digit, text in SAFE.options:
        assert f"{digit} {text}" in said
    reading = flat(showing(READING), size)
    assert "WANTED" in reading
    assert "WANTED 0.1–0.3 mm" in reading or _drawn(showing(READING), size, "0.1–0.3 mm")
    for line in READING.urgent:
        assert line in reading


def _drawn(made: Showing, size: tuple[int, int], text: str) -> bool:
    """Whether a text stands on the screen in block letters."""
    said = texts(made, size)
    return all(any(row in line for line in said) for row in lettered(text, size[0] - 2) if row)


@pytest.mark.parametrize("size", SIZES)
def test_no_word_of_a_long_page_is_passed_unseen(size: tuple[int, int]) -> None:
    starts = [0]
    while following := paint_job(showing(PAGE, start=starts[-1]), *size).next:
        starts.append(following)
    pages = [" ".join(texts(showing(PAGE, start=start), size)) for start in starts]
    for text in PAGE.texts:
        assert text.split()[2] in " ".join(pages).split()
    assert all("more," in page for page in pages[:-1])
    assert "all of it done" in pages[-1]


def test_on_a_tall_screen_the_words_are_in_block_letters_and_whole() -> None:
    made = showing(replace(SAFE, lines=(), texts=("Battery off, minus first",)))
    assert _drawn(made, (100, 30), "BATTERY OFF, MINUS FIRST")
    assert _drawn(showing(), (80, 24), "BATTERY OFF")
    assert SAFE.texts[0] in flat(showing(), (80, 24)), "of a part of the words all are said below"


def test_in_ascii_nothing_is_drawn_and_nothing_is_lost() -> None:
    for size in SIZES:
        said = flat(showing(ascii_only=True), size)
        assert said.isascii()
        assert SAFE.texts[0] in said


@pytest.mark.parametrize("size", SIZES[:3])
def test_the_words_keep_their_size_when_a_message_comes(size: tuple[int, int]) -> None:
    quiet, told = texts(showing(), size), texts(showing(message="put off " * 12), size)
    last = next(row for row, line in enumerate(quiet) if "not yet: put" in line)
    assert quiet[: last - 2] == told[: last - 2]


def test_a_caution_and_a_step_alone_have_the_screen_for_themselves() -> None:
    said = flat(showing(ALONE), (80, 24))
    assert "step number 8" not in said
    assert "due: d shows" not in said


@pytest.mark.parametrize("size", SIZES[:4])
def test_the_list_follows_the_present_step_and_skips_what_is_not_for_this_one(size: tuple[int, int]) -> None:
    short = replace(SAFE, texts=("key out",), lines=(), due=())
    said = texts(showing(short), size)
    assert any(line.startswith(" >  6") for line in said)
    assert not any("engine R" in line for line in said)
    late = tuple(
        replace(entry, state="done" if entry.number < 14 else "now") if entry.state != "x" else entry
        for entry in STRIP
    )
    assert any(line.startswith(" > 14") for line in texts(showing(replace(short, strip=late)), size))


@pytest.mark.parametrize("size", SIZES)
def test_the_track_has_the_present_step_in_sight(size: tuple[int, int]) -> None:
    many = tuple(
        JobEntry(number=n, text=f"s{n}", state="done" if n < 90 else "now" if n == 90 else "open")
        for n in range(1, 201)
    )
    said = texts(showing(replace(SAFE, texts=("key out",), lines=(), due=(), strip=many)), size)
    track = said[1] if size[1] > 12 else " x>."
    assert "x>." in track


def test_all_steps_are_listed_with_their_states_in_words() -> None:
    made = showing(listed=Listed(heading="ALL STEPS", steps=True))
    said = texts(made, (100, 30))
    assert any("left out, not fitted on this one" in line for line in said)
    assert any("not for this one" in line for line in said)
    assert any(line.startswith(" =  5") and "due, stage 3" in line for line in said)


def test_the_page_of_the_list_that_is_shown_first_has_the_present_step() -> None:
    sheet = paint_job(showing(listed=Listed(heading="ALL STEPS", steps=True), start=-1), 40, 8)
    assert sheet.start > 0
    assert sheet.next == 0 or sheet.next > sheet.start
    assert any(text_of(line).startswith(" >  6") for line in sheet.lines)


@pytest.mark.parametrize("size", [*SIZES, (30, 6)])
def test_a_refusal_and_what_is_typed_are_seen_at_every_size(size: tuple[int, int]) -> None:
    assert "NOT recorded" in flat(showing(message="NOT recorded: no space left", refused=True), size)
    assert "0.2 mm_" in flat(showing(READING, prompt=Prompt(label="reading:", word="m", text="0.2 mm")), size)


def test_text_of_a_file_is_never_taken_for_markup_or_control() -> None:
    odd = "[bold red]Valve[/] \x1b[2J\u202eopen"
    view = replace(
        SAFE, texts=(odd,), title=odd, lines=(odd,), due=(odd,), strip=(replace(STRIP[5], text=odd),)
    )
    said = "\n".join(texts(showing(view), (100, 30)))
    assert "[bold red]Valve[/]" in said
    assert "\x1b" not in said
    assert "\u202e" not in said


def test_every_part_has_its_own_rank() -> None:
    assert len({part.keep for part in PARTS}) == len(PARTS)


LOOKED_AT = ("safe", "reading")


def golden_name(name: str, size: tuple[int, int], ascii_only: bool) -> str:
    return f"job-{name}-{size[0]}x{size[1]}{'-ascii' if ascii_only else ''}.txt"


def looked_at(name: str, size: tuple[int, int], ascii_only: bool) -> str:
    return "\n".join(texts(showing(VIEWS[name], ascii_only=ascii_only), size)) + "\n"


@pytest.mark.parametrize("ascii_only", [False, True], ids=["signs", "ascii"])
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("name", LOOKED_AT)
def test_the_screen_is_the_one_that_was_looked_at(name: str, size: tuple[int, int], ascii_only: bool) -> None:
    path = GOLDEN / golden_name(name, size, ascii_only)
    said = looked_at(name, size, ascii_only)
    assert said == path.read_text(encoding="utf-8"), f"look at it, then write {path.name} anew"
