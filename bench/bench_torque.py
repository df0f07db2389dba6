"""How long a Monte-Carlo over one joint takes: 100,000 joints as arrays, against the same joints one by one.

Run from the repository: OMP_NUM_THREADS=1 python -m bench.bench_torque
Target: 100,000 joints through recommend_torque in under 0.5 s on one core. The ratio to a plain Python loop over the
first of the same joints, in the same run, does not depend on the machine.
"""

import time
from dataclasses import replace

import numpy as np
from tests.fastening.joints import joint

from bellcrank.fastening.joint_sample import JointSample
from bellcrank.fastening.window import recommend_torque

TARGET = 0.5  # [s]
JOINTS, ONE_BY_ONE, ROUNDS = 100_000, 1_000, 9


def main():
    sample = drawn(np.random.default_rng(21))
    spent = [seconds(recommend_torque, sample) for _ in range(ROUNDS)]
    window = recommend_torque(sample)
    shares = ", ".join(f"{part} {count / JOINTS:.0%}" for part, count in window.counts.items())
    low, high = np.percentile(window.high, [5, 95])
    print(f"{JOINTS} joints: median {np.median(spent):.3f} s, worst {max(spent):.3f} s CPU, target {TARGET} s: "
          f"{'met' if max(spent) < TARGET else 'MISSED'}")  # fmt: skip
    print(f"  upper end {low:.1f} to {high:.1f} N·m in 90 of 100; limited by {shares}")
    loop = min(seconds(one_by_one, sample) for _ in range(3)) / ONE_BY_ONE
    print(f"  plain Python loop over {ONE_BY_ONE} of them: {loop * 1e6:.0f} µs a joint, "
          f"{loop * JOINTS / np.median(spent):.0f} times as long as the arrays")  # fmt: skip


def drawn(rng):
    """An M6 into die-cast aluminium, with all that a shop does not know of it."""
    return JointSample(
        joint("M6", head="hex"),
        friction=rng.uniform(0.10, 0.20, JOINTS),
        head_friction=rng.uniform(0.10, 0.20, JOINTS),
        engaged=rng.uniform(0.005, 0.014, JOINTS),
        scatter=rng.uniform(0.17, 0.35, JOINTS),
        knock_down=rng.uniform(0.5, 0.9, JOINTS),
        bolt_share=rng.normal(1.08, 0.04, JOINTS),
        hole_share=rng.normal(1.0, 0.08, JOINTS),
        face_share=rng.normal(1.0, 0.10, JOINTS),
    )


def one_by_one(sample):
    """The joints of the sample the slow way; strengths stay as they are on record."""
    for place in range(ONE_BY_ONE):
        recommend_torque(
            replace(
                sample.joint,
                friction=float(sample.friction[place]),
                head_friction=float(sample.head_friction[place]),
                engaged=float(sample.engaged[place]),
                scatter=float(sample.scatter[place]),
            )
        )


def seconds(call, argument):
    begun = time.process_time()
    call(argument)
    return time.process_time() - begun


if __name__ == "__main__":
    main()
