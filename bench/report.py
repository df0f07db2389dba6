"""The figures as tables in Markdown: for the terminal and for docs/how-much-it-helps.md, which is written from them."""

import numpy as np
from bench.calibration import brier, log_score, spiegelhalter, together
from bench.policies import POLICIES, all_knowing, planner

NAMES = list(POLICIES)
OURS, BOUND = (list(POLICIES.values()).index(one) for one in (planner, all_knowing))
MINUTES, HANDS, STEPS, GAVE_UP, SPEECHLESS = range(5)  # what is kept of a job
BINS = (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)  # of the likeliest reason's chance
HEADING = "## Figures"


def table(heads, rows):
    """Lines of a table; the first column is words, the others are numbers."""
    ruler = ["---", *("---:" for _ in heads[1:])]
    return [f"| {' | '.join(row)} |" for row in (heads, ruler, *rows)] + [""]


def apart(rows, place):
    """How much longer than the planner, job by job: mean and its standard error."""
    more = rows[:, place, MINUTES] - rows[:, OURS, MINUTES]
    return more.mean(), more.std(ddof=1) / len(more) ** 0.5


def in_short(worked):
    """One line for each kind and world: what the planner takes and what it saves."""
    rivals = [place for place in range(len(NAMES)) if place not in (OURS, BOUND)]
    rows = []
    for (kind, world), by_seed in worked.items():
        jobs = np.concatenate(by_seed)
        means = [f"{jobs[:, place, MINUTES].mean():.0f}" for place in (BOUND, OURS)]
        more = [apart(jobs, place) for place in rivals]
        rows.append([f"{kind}, {world}", *means, *(f"{mean:+.0f} ± {error:.0f}" for mean, error in more)])
    return table(["minutes to cure", NAMES[BOUND], NAMES[OURS], *(f"{NAMES[one]}: more" for one in rivals)], rows)


def in_full(by_seed):
    """One line for each policy on one kind in one world."""
    jobs = np.concatenate(by_seed)
    rows = []
    for place, name in enumerate(NAMES):
        minutes, hands, steps, gave_up, _ = jobs[:, place].T
        more, error = apart(jobs, place)
        seeds = ", ".join(f"{apart(one, place)[0]:+.0f}" for one in by_seed)
        spread = [f"{minutes.mean():.1f}", f"{np.median(minutes):.1f}", f"{np.percentile(minutes, 90):.0f}"]
        rest = [f"{hands.mean():.1f}", f"{steps.mean():.1f}", f"{100 * gave_up.mean():.0f} %"]
        rows.append([name, *spread, *rest, "" if place == OURS else f"{more:+.1f} ± {error:.1f} ({seeds})"])
    heads = ["", "mean", "median", "p90", "hands-on", "steps", "gave up", "more than the planner (by seed)"]
    return [*table(heads, rows), *_speechless(jobs)]


def _speechless(jobs):
    """Say where the findings were too many to be weighed."""
    counts = {name: int(jobs[:, place, SPEECHLESS].sum()) for place, name in enumerate(NAMES)}
    told = ", ".join(f"{name} {count}" for name, count in counts.items() if count)
    return [f"Given up because so many findings could not be weighed: {told}.", ""] if told else []


def scores(forecast):
    """One line for each kind and world: how the chances of all causes came true."""
    rows = []
    for (kind, world), told in forecast.items():
        alone = told.by_complaint
        rows.append(
            [
                f"{kind}, {world}",
                f"{brier(told.given, told.there):.4f} ({brier(alone, told.there):.4f})",
                f"{log_score(told.given, told.there):.4f} ({log_score(alone, told.there):.4f})",
                f"{spiegelhalter(told.given, told.there):+.1f}",
                f"{100 * told.top.mean():.0f} %",
                f"{100 * told.top_true.mean():.0f} %",
                f"{spiegelhalter(told.top, told.top_true):+.1f}",
                f"{100 * told.among_three.mean():.0f} %",
            ]
        )
    heads = ["", "Brier (complaint alone)", "log score (complaint alone)", "z", "likeliest: said", "right", "z"]
    return table([*heads, "among three likeliest"], rows)


def come_true(forecast, worlds):
    """One line for each world, all kinds together: how often the likeliest reason was right, by what was said of it."""
    rows = []
    for world in worlds:
        told = together([one for (_, of), one in forecast.items() if of == world])
        inside = np.clip(np.digitize(told.top, BINS) - 1, 0, len(BINS) - 2)
        parts = [(told.top[inside == place], told.top_true[inside == place]) for place in range(len(BINS) - 1)]
        rows.append([world, *(_bin(said, so) for said, so in parts)])
    return table(["said -> right in % (jobs)", *(f"to {100 * upper:.0f} %" for upper in BINS[1:])], rows)


def _bin(said, so):
    return f"{100 * said.mean():.0f} -> {100 * so.mean():.0f} ({len(so)})" if len(so) else ""


def pages(worked, forecast, worlds):
    """All tables, in short first."""
    lines = ["### In short", "", *in_short(worked), "### Whether the chances come true", "", *scores(forecast)]
    lines += come_true(forecast, worlds)
    for (kind, world), by_seed in worked.items():
        lines += [f"### {kind}, {world}: {sum(map(len, by_seed))} jobs", "", *in_full(by_seed)]
    return lines


def written_into(page, lines):
    """The page with everything below its heading of figures written anew."""
    kept, found, _ = page.partition(HEADING)
    assert found, f"The page has no line “{HEADING}”."
    return f"{kept}{HEADING}\n\n" + "\n".join(lines).rstrip() + "\n"
