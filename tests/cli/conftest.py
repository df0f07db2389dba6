"""An invented job, and the command run as a person would run it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

import pytest

from bellcrank.cli.main import main
from bellcrank.knowledge.assembly import Fastener
from bellcrank.shop.because_sheet import ReasonLine
from bellcrank.shop.price_sheet import PriceSheet
from bellcrank.shop.sheet import (
    CauseLine,
    ChoiceLine,
    CureLine,
    EventLine,
    JobSheet,
    MachineLine,
    NextLine,
    PersonLine,
    ProofLine,
    ReleaseSheet,
)
from bellcrank.shop.work_sheet import (
    CautionLine,
    FastenerLine,
    FetchLine,
    GapLine,
    ReckonedLine,
    StepLine,
    TorqueLine,
    WorkSheet,
)

LEAD_OFF = CautionLine(
    id="lead-off",
    signal="WARNING",
    control="Pull the plug lead off and tie it back.",
    consequence="A turning blade can start the engine and take fingers.",
    source="common practice",
)


@dataclass(frozen=True)
class Outcome:
    """What a command left behind."""

    code: int
    out: str
    err: str

    @property
    def everything(self) -> str:
        return self.out + self.err


Run = Callable[..., Outcome]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run a command in a data folder of its own."""
    monkeypatch.setenv("BELLCRANK_DATA", str(tmp_path / "shop"))
    monkeypatch.setenv("COLUMNS", "80")

    def run_command(*words: str) -> Outcome:
        with pytest.raises(SystemExit) as left:
            main(words)
        printed = capsys.readouterr()
        return Outcome(int(left.value.code or 0), printed.out, printed.err)

    return run_command


@pytest.fixture
def refused(run: Run) -> Callable[..., str]:
    """Run a command that must be refused with a sentence; gives the sentence on one line."""

    def run_refused(*words: str) -> str:
        outcome = run(*words)
        sentence = " ".join(outcome.err.split())
        assert outcome.code == 2, outcome.everything
        assert outcome.out == ""
        assert sentence.endswith((".", "?", ")"))
        assert "Traceback" not in outcome.everything
        return sentence

    return run_refused


@pytest.fixture
def flange_bolt() -> Fastener:
    return Fastener(
        id="shroud-bolts",
        words="shroud bolts",
        count=3,
        thread="M6",
        strength="8.8",
        drive="hex",
        size="10 mm",
        length_mm=16.0,
        head="flange",
        where="two in front, one behind",
        into="die-cast-aluminium",
        engaged_mm=10.0,
        under_head="steel",
        single_use=True,
        thread_care="start by hand",
        pattern="crosswise",
        published_torque_nm=None,
        safety_joint=True,
        source="made-up",
    )


@pytest.fixture
def sheet(flange_bolt: Fastener) -> Iterator[JobSheet]:
    """A job of an invented mower with everything on it that can be shown."""
    key = CauseLine(
        id="key-sheared",
        words="flywheel key sheared",
        probability=0.9137,
        how_sure="almost sure",
        reasons_for=(ReasonLine("the cord is thrown back: 30 times more likely", "", 14.8, 14.9),),
        reasons_against=(ReasonLine("the engine still idles: half as likely", "", -3.0, -3.1),),
        severity="damage",
        repair="new-key",
    )
    rare = CauseLine("rare", "mouse nest in the shroud", 0.001, "hardly", (), (), "nuisance", None)
    torque = TorqueLine(6.4, 8.0, 9.6, "computed", "torque window", "head face", "a wider flange", "")
    reckoned = ReckonedLine(
        "strip", "What strips the thread", "count on 6.1 kN", ("tears first: the hole's thread",), "computed",
        "thread M6", "", {"thread": "M6"},
    )  # fmt: skip
    out = StepLine(
        2, "out", "shroud", "Put the shroud back", "10 mm socket", 4.0, "upright", "Stand the machine upright",
        (FastenerLine(flange_bolt, torque, ""),), (LEAD_OFF,), ("flywheel seen to",), False, (), (), "shroud",
        ("two lips at the back",), (GapLine("coil to magnet", 0.2, 0.3, "guess", "made-up rule"),),
        ("flywheel turns freely",), (), ("shroud gasket",),
    )  # fmt: skip
    way_in = StepLine(
        1, "in", "shroud", "Lift the shroud off", "10 mm socket", 4.0, "upright", "",
        (FastenerLine(flange_bolt, torque, ""),), (LEAD_OFF,), (), True, ("strip",), (reckoned,),
        "shroud", ("two lips at the back",), (), (), ("is in front of the flywheel",), (),
    )  # fmt: skip
    return JobSheet(
        number=7,
        state="on the bench",
        taken_in_at="2026-05-04T09:00:00+00:00",
        customer=PersonLine("Zoë Wałęsa 王", "555-0101", "", ""),
        machine=MachineLine("walk-behind-mower", "walk-behind mower", "Skerry", "46", "", "", "", "Skerry 46 mower"),
        complaint_words="throws the cord back since it caught a ring",
        complaints=("kicks back on the cord",),
        facts=("hit something: yes",),
        photos=(),
        events=(EventLine(1, "told", "hit something: yes", "2026-05-04T09:00:00+00:00", "Ada", False, True),),
        last_event=None,
        causes=(key, rare),
        surprise="",
        next=(
            NextLine(
                "check", "key-look", "Look at the flywheel key", "it settles the strike", 9.0, 4.0, 41.0, 3.25,
                (ChoiceLine("sheared", "sheared", 0.9), ChoiceLine("whole", "whole", 0.1)),
                ("10 mm socket",), ("plug lead",), ("shroud off",), (LEAD_OFF,), "key", (),
            ),
            NextLine("stop", "stop", "Stop and quote another machine", "", 0, 0, 240, 0, (), (), (), (), (), None, ()),
        ),
        cure=CureLine("open", "", ()),
        work=WorkSheet(
            ("key",), "flywheel key", (way_in,), (out,), ("10 mm socket", "flywheel puller"), 4, 4, 4, True, 0.0,
            (FetchLine("flywheel puller", False, "Borrow or hire, or buy from about 18 EUR."),
             FetchLine("10 mm socket", True, "")),
            out, "Fit the key", 3, (), "N·m",
        ),
        release=ReleaseSheet(
            lines=(
                ProofLine(
                    "blade-stop", "Blade stops in time?", "Let go and time it.", True, "stop-time",
                    "3.0 s", "open", "", "made-up rule", (LEAD_OFF,),
                ),
            ),
            ready=False,
            blocking=("Blade stops in time? is still open.",),
            beside=(),
            notes=(),
            triggers=("hit something",),
        ),
        price=PriceSheet(
            (), Decimal("0"), (), Decimal("0"), "EUR", Decimal("120"), True, Decimal("90.5"), Decimal("180"),
            "It may come to 180.00 EUR; 120.00 EUR were agreed.", "", (),
        ),
    )  # fmt: skip
