#!/usr/bin/env python3
"""What comes back: factors of causes in 50 digits, written from docs/mathematics.md, "What comes
back", and from nothing else. Prints data/recurrence.tsv:

    scenario  cause  factor

    python3 recurrence.py >data/recurrence.tsv
"""
from mpmath import mp, mpf, log

mp.dps = 50
SHARE = [mpf(5) / 10, mpf(3) / 10, mpf(15) / 100, mpf(5) / 100]
ROOTS = {0: [2, 3], 1: [], 2: [3], 3: []}
USUAL, WEIGHT, HALF = mpf(1) / 10, mpf(2), mpf(30)

# cures, the longest ago first: (chances of what was cured, days ago, came back); calls; days
SCENARIOS = {
    "nothing": ([], 0, 0),
    "yesterday": ([({1: 1}, 1, False)], 1, 5),
    "long-ago": ([({1: 1}, 390, False)], 1, 395),
    "with-roots": ([({0: 1}, 10, False)], 4, 200),
    "came-back": ([({2: 1}, 20, True)], 2, 100),
    "third-time": ([({0: 1}, 190, False), ({0: 1}, 100, False), ({0: 1}, 12, False)], 5, 210),
    "something-else": ([({0: 1}, 60, False), ({1: 1}, 30, False)], 2, 70),
    "not-sure-which": ([({0: mpf(3) / 4, 1: mpf(1) / 4}, 40, False),
                        ({0: mpf(1) / 2, 2: mpf(1) / 4}, 15, True)], 3, 90),
}


def of(cure, cause):
    return mpf(cure[0].get(cause, 0))


def factors(cures, calls, days):
    anew = (mpf(calls) + 1) / (mpf(days) + HALF)
    out = [mpf(1)] * len(SHARE)
    for c in range(len(SHARE)):
        successes = trials = standing = mpf(0)
        for i, cure in enumerate(cures):
            again = of(cures[i + 1], c) if i + 1 < len(cures) else mpf(0)
            if cure[2]:
                successes, trials = successes + of(cure, c), trials + of(cure, c)
            if i + 1 < len(cures):
                successes, trials = successes + of(cure, c) * again, trials + of(cure, c)
            standing += of(cure, c) * (1 - again) * mpf(2) ** (-mpf(cure[1]) / HALF)
        chance = (USUAL * WEIGHT + successes) / (WEIGHT + trials)
        a_day = chance * log(2) / HALF * standing
        roots = ROOTS[c]
        total = sum(SHARE[r] for r in roots)
        own = a_day / 2 if roots else a_day
        out[c] += own / (anew * SHARE[c])
        for r in roots:
            out[r] += (a_day / 2) * (SHARE[r] / total) / (anew * SHARE[r])
    return out


for name, (cures, calls, days) in SCENARIOS.items():
    for cause, factor in enumerate(factors(cures, calls, days)):
        print(name, cause, mp.nstr(factor, 30), sep="\t")
