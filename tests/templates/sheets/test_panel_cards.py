"""The card inside a panel: breaker first, everything behind it, and hostile text that stays text."""

from __future__ import annotations

from store.records.access import Visit
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable, Circuit
from templates.sheets.owner.panel_cards import cards, panel_cards_html, panel_cards_markdown
from tests.jobs.access_jobs import TODAY, at, box, job_of, make, opening, panel
from tests.templates.browser import PAPERS, Browser, Seen

HOSTILE = "<script>alert(1)</script>\x1b[31m[/x] {{ 7*7 }} `code` **bold** | cell\n# head \u202e"


def made(**values: str) -> Job:
    """A panel with power, signal and a log."""
    return job_of(
        opening("N1", "equipment", "10", "4", "30", "30", depth=at("20")),
        panel("A1", "15", "10", behind=("B1", "B2"), holds=values.get("holds", "slack of 3 ft")),
        panel("A2", "60", "10"),
        make(Circuit, "C1", name=values.get("circuit", "media"), slot="18", breaker=20.0),
        box("B1", "junction", "20", "16", reached="A1", circuit="C1"),
        make(Equipment, "E1", name=values.get("name", "player"), opening="N1"),
        box("B2", "low-voltage", "22", "18"),
        make(Cable, "K1", name=values.get("name", "picture"), type="hdmi", start="B2"),
        make(Visit, "V1", panel="A1", date=TODAY, who=values.get("who", "Robin"), why="to look"),
    )


def test_a_card_tells_breaker_front_things_and_log() -> None:
    first, second = cards(made())
    assert first.off == ("breaker 18 (C1 media, 20 A)",)
    assert first.first == ("E1 player",)
    assert [tag for tag, _ in first.things] == ["B1", "B2", "K1"]
    assert first.last == "Oct 14, 2026, Robin: to look"
    assert (second.tag, second.off, second.things, second.last) == ("A2", (), (), "no visits yet")
    assert [card.tag for card in cards(made(), only=["A2"])] == ["A2"]


def test_the_page_is_whole_and_needs_nothing_else() -> None:
    seen = Seen(panel_cards_html(made()))
    assert seen.wrong == []
    assert seen.points == []
    assert "script" not in seen.tags
    assert seen.ids == ["A1", "A2"]
    for words in (
        "Off first: breaker 18 (C1 media, 20 A)",
        "No line voltage entered behind this panel.",
        "slack of 3 ft",
    ):
        assert words in seen.text


def test_hostile_text_stays_text_on_the_page() -> None:
    page = panel_cards_html(made(holds=HOSTILE, circuit=HOSTILE, name=HOSTILE, who=HOSTILE))
    seen = Seen(page)
    assert seen.wrong == []
    assert "script" not in seen.tags
    assert "<script>alert(1)</script>" in seen.text
    assert "{{ 7*7 }}" in seen.text
    assert not [sign for sign in page if (ord(sign) < 32 and sign != "\n") or sign in "\u202e\x7f"]


def test_hostile_text_stays_text_in_markdown() -> None:
    text = panel_cards_markdown(made(holds=HOSTILE, circuit=HOSTILE, name=HOSTILE, who=HOSTILE))
    assert "<script>" not in text
    assert "\\<script\\>" in text
    assert "\n# head" not in text
    assert "**bold**" not in text
    assert not [sign for sign in text if (ord(sign) < 32 and sign != "\n") or sign in "\u202e\x7f"]
    assert "- **B1** box B1" in text


def test_a_job_without_panels_says_so() -> None:
    assert "No access panels yet." in Seen(panel_cards_html(job_of())).text
    assert "No access panels yet." in panel_cards_markdown(job_of())


def test_the_cards_open_in_a_browser_and_on_paper(browser: Browser) -> None:
    for page in (panel_cards_html(made()), panel_cards_html(made(name=HOSTILE * 4, holds=HOSTILE * 9))):
        for width in (390, 800):
            inner, wide, _, _ = browser.measured(page, width)
            assert wide <= inner
    for paper in PAPERS:
        pages, sizes = browser.pdf_pages(panel_cards_html(made()), paper)
        assert pages == 1
        assert all(abs(one - other) <= 1 for size in sizes for one, other in zip(size, PAPERS[paper], strict=True))


def test_a_card_does_not_deny_mains_of_which_no_circuit_is_noted() -> None:
    job = job_of(panel("A1", "20", "10"), box("B1", "junction", "26", "16"))
    for text in (panel_cards_html(job), panel_cards_markdown(job)):
        assert "Off first: the circuit of B1: not entered" in text
        assert "No line voltage entered" not in text
