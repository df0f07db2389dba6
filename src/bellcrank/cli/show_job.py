"""One job from the story to the hand-back, and the list of jobs, as lines of text."""

from bellcrank.cli.show_next import causes, steps_to_take
from bellcrank.cli.show_price import summary_lines
from bellcrank.cli.show_release import verdict
from bellcrank.cli.show_work import summary
from bellcrank.cli.terminal import beside, heading, wrap
from bellcrank.shop.bench_sheet import BenchLine, BenchSheet
from bellcrank.shop.sheet import EventLine, JobSheet
from bellcrank.shop.words import when

CAUSES_ON_A_JOB = 3


def job_lines(sheet: JobSheet) -> list[str]:
    """Show the whole job, in the order of the work."""
    lines = [*head(sheet), *_story(sheet), *steps_to_take(sheet, 1), *causes(sheet, CAUSES_ON_A_JOB)]
    if sheet.cure.words:
        lines += [heading("cured?"), wrap(sheet.cure.words, indent="  ")]
    if sheet.work:
        lines += [heading("work"), *summary(sheet.work)]
    return [*lines, *summary_lines(sheet.price), *_hand_back(sheet), *_events(sheet)]


def head(sheet: JobSheet) -> list[str]:
    """Name the job, its machine, its state and the complaint."""
    return [
        beside(f"#{sheet.number}  {sheet.machine.words}", sheet.state),
        wrap(f"“{sheet.complaint_words}”", indent="  ", first="  "),
    ]


def bench_lines(bench: BenchSheet) -> list[str]:
    """List the jobs by where they stand."""
    lines: list[str] = []
    for title, jobs in (
        ("on the bench", bench.on_the_bench),
        ("waiting", bench.waiting),
        ("ready to go", bench.ready),
        ("gone", bench.gone),
    ):
        if jobs:
            lines.append(heading(title))
        for job in jobs:
            lines += _bench_line(job)
    return lines or [wrap("No jobs yet. Take a machine in with: bellcrank take-in “won't start”")]


def _bench_line(job: BenchLine) -> list[str]:
    lines = [wrap(f"{job.machine}: “{job.complaint}”", first=f"  #{job.number:<5} ", indent=" " * 9)]
    whose = f"{job.customer}, since" if job.customer else "since"
    lines.append(wrap(f"{whose} {when(job.since)}", indent=" " * 9))
    return [*lines, wrap(job.next, indent=" " * 9)] if job.next else lines


def _story(sheet: JobSheet) -> list[str]:
    person = ", ".join(part for part in (sheet.customer.name, sheet.customer.phone, sheet.customer.email) if part)
    machine = sheet.machine
    details = ", ".join(
        part
        for part in (
            machine.kind_words,
            machine.engine_words,
            f"serial {machine.serial}" if machine.serial else "",
        )
        if part
    )
    lines = [wrap(text, indent="    ", first="  ") for text in (person, details) if text]
    lines += [wrap(complaint, first="  complaint: ", indent="    ") for complaint in sheet.complaints]
    lines += [wrap(fact, first="  told: ", indent="    ") for fact in sheet.facts]
    return [*lines, f"  photos: {len(sheet.photos)}"] if sheet.photos else lines


def _hand_back(sheet: JobSheet) -> list[str]:
    typed = f"handback {sheet.number}" + (" --ready" if sheet.release.ready else "")
    return [heading("hand back"), verdict(sheet.release), f"  go on:  bellcrank {typed}"]


def _events(sheet: JobSheet) -> list[str]:
    lines = [heading("what was done")]
    return lines + [_event(event) for event in sheet.events]


def _event(event: EventLine) -> str:
    by = f", {event.by}" if event.by else ""
    taken_back = " (taken back)" if event.taken_back else ""
    return wrap(f"{event.words}{taken_back}{by}", first=f"  {event.id:>4}  {when(event.at)}  ", indent=" " * 26)
