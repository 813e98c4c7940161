"""Find: the first answer is the useful one, what was retired is found, and nothing typed upsets it."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from store.book.changes import Put
from store.records.base import Record, from_doc
from store.records.equipment import Equipment
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable
from store.rules.find.search import find
from store.rules.find.words import words_of
from templates.starters import load
from tests.bench.find_bench import large_job, run
from tests.jobs.access_jobs import TODAY, job_of, make, panel
from tests.rows import rows


def _demo() -> Job:
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for put in load("demo", date(2026, 10, 14)):
        assert isinstance(put, Put)
        tables[put.kind][put.tag] = from_doc({"tag": put.tag, **put.fields}, KINDS[put.kind])
    return Job(tables, today=date(2026, 10, 14))


DEMO = _demo()


@rows(
    ("question", "first"),
    [
        ("hdmi behind the screen", "K1"),
        ("which breaker for the fireplace", "C3"),
        ("breaker 18", "C2"),
        ("old streamer", "E20"),
        ("k03", "K3"),
        ("K-3", "K3"),
        ("r2", "R2"),
        ("driver of the shelf lights", "E14"),
        ("where is the panel for the receiver", "A2"),
        ("above the left speaker", "A3"),
        ("network to the tv", "K3"),
        ("outlet at the window", "B11"),
        ("subwoofer cable", "K10"),
        ("insurance of the carpenter", "T3"),
        ("phone of the electrician", "T1"),
        ("invented 0001", "E1"),
        ("555-0104", "T4"),
        ("fish tank", "L4"),
        ("aerial", "K6"),
        ("routers", "E8"),
        ("light switch", "B9"),
        ("screen", "E1"),
        ("what breaker is the fireplace on", "C3"),
        ("fuse of the fireplace", "C3"),
        ("router", "E8"),
        ("wifi", "E8"),
        ("spare ethernet", "K4"),
        ("spare cable", "K4"),
        ("label K11", "K11"),
        ("cable 12", "K12"),
        ("panel 2", "A2"),
        ("circuit 2", "C2"),
        ("streamer that was replaced", "E20"),
        ("retired streamer", "E20"),
        ("who is the drywaller", "T4"),
        ("who did the drywall", "T4"),
        ("phone number of the carpenter", "T3"),
        ("joiner", "T3"),
        ("permit office", "T6"),
        ("where is the driver of the lights", "E14"),
        ("power supply of the shelf lights", "E14"),
        ("where do i get at the light driver", "E14"),
        ("led driver", "E14"),
        ("panel behind the receiver", "A2"),
        ("access panel in the cabinet", "A1"),
        ("what is behind panel A3", "A3"),
        ("last time A1 was opened", "A1"),
        ("conduit to the screen", "R1"),
        ("pull string", "R1"),
        ("empty tube", "R1"),
        ("cat 6", "K3"),
        ("cat 6 to the screen", "K3"),
        ("ethernet to the receiver", "K5"),
        ("antenna", "K6"),
        ("tv outlet", "B2"),
        ("window outlet", "B11"),
        ("how high is the screen", "E1"),
        ("how old is the streamer", "E5"),
        ("when does the warranty of the screen end", "E1"),
        ("filter", "E8"),
        ("game console", "E6"),
        ("cable from the window to the cabinet", "K6"),
        ("crown moulding", "O2"),
        ("behind the receiver", "A2"),
        ("K3-a", "K3"),
        ("k3/tested", "K3"),
        ("k 3", "K3"),
    ],
)
def test_the_first_answer_is_the_useful_one(question: str, first: str) -> None:
    assert find(DEMO, question)[0].tag == first


def test_what_was_retired_is_found_and_marked() -> None:
    found = {hit.tag: hit for hit in find(DEMO, "streamer")}
    assert found["E20"].retired
    assert not found["E5"].retired
    assert next(iter(found)) == "E5"


def test_a_word_is_found_as_it_is_typed() -> None:
    for cut in range(3, len("subwoofer") + 1):
        assert "K10" in [hit.tag for hit in find(DEMO, "subwoofer"[:cut])], cut


def test_no_words_find_nothing_and_unknown_ones_too() -> None:
    assert find(DEMO, "") == []
    assert find(DEMO, "   ") == []
    assert find(DEMO, "xyzzyplugh") == []


def test_a_question_of_empty_words_alone_is_still_looked_for() -> None:
    assert [word.text for word in words_of("what is it")] == ["what", "is", "it"]
    assert [word.text for word in words_of("the hdmi")] == ["hdmi"]


def test_what_belongs_to_a_thing_is_found_by_its_name() -> None:
    job = job_of(
        make(Box, "B1", name="Behind the mirror", what="low-voltage"),
        make(Cable, "K1", type="cat6", start="B1"),
        make(Cable, "K2", type="cat6"),
    )
    assert [hit.tag for hit in find(job, "cat6 mirror")] == ["K1", "B1", "K2"]


def test_an_edit_is_found_at_once_and_the_old_name_no_more() -> None:
    job = job_of(panel("A1", "1", "1"), make(Equipment, "E1", name="gramophone"))
    assert find(job, "gramophone")[0].tag == "E1"
    edited = job.having(make(Equipment, "E1", name="harmonium"))
    assert find(edited, "gramophone") == []
    assert find(edited, "harmonium")[0].tag == "E1"
    assert find(job, "gramophone")[0].tag == "E1"


def test_two_jobs_do_not_mix() -> None:
    one, other = job_of(make(Equipment, "E1", name="gramophone")), job_of(make(Equipment, "E1", name="harmonium"))
    for _ in range(2):
        assert find(one, "harmonium") == []
        assert find(other, "harmonium")[0].tag == "E1"


@given(st.text(max_size=60))
def test_nothing_that_is_typed_upsets_it(words: str) -> None:
    for hit in find(DEMO, words):
        assert DEMO.get(hit.tag) is not None or hit.kind in ("job", "closing", "answer")


@given(st.sampled_from(list(DEMO.of(Box)) + list(DEMO.of(Cable)) + list(DEMO.of(Equipment))))
def test_a_tag_alone_finds_its_record_first(tag: str) -> None:
    assert find(DEMO, tag.lower())[0].tag == tag


@given(st.sampled_from([each for each in DEMO.each() if getattr(each, "name", "")]))
def test_a_whole_name_finds_its_record_among_the_first(record: Record) -> None:
    assert record.tag in [hit.tag for hit in find(DEMO, str(getattr(record, "name", "")))[:10]]


def test_as_many_are_given_as_asked_for() -> None:
    job = large_job(2000)
    assert len(find(job, "device", most=7)) == 7
    assert find(job, "device 17")[0].tag == "E17"


def test_the_bench_measures_every_question() -> None:
    rows = run()
    assert len(rows) == 8
    assert all(measured > 0 and bar > 0 and unit == "ms" for _, measured, bar, unit in rows)


def test_a_kept_record_is_filed_once() -> None:
    job = job_of(make(Equipment, "E1", name="gramophone", retired=TODAY))
    assert find(job, "gramophone") == find(Job(dict(job.tables), today=TODAY), "gramophone")
