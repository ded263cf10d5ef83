#!/usr/bin/env python3
"""Facts not yet told, to 50 digits: the joint distribution of causes and facts of one small book,
written down as a whole table and raked (iterative proportional fitting, Deming and Stephan 1940)
until each fact's states come as often as its author says. Shares no code with the engine.

    python3 tests/golden/facts_untold.py > tests/golden/data/facts_untold.tsv

A line: what is told, the cause or the fact's state, its chance."""
from itertools import product

from mpmath import mp, mpf

mp.dps = 50

FACTS = {
    "season": {"cold": mpf(1) / 4, "mild": mpf(1) / 2, "warm": mpf(1) / 4},
    "wind": {"no": mpf("0.7"), "yes": mpf("0.3")},
    "side": {"left": mpf("0.6"), "right": mpf("0.4")},  # only with wind
}
WEIGHTS = {"frost": mpf(2), "dust": mpf(3), "leak": mpf(1), "worn": mpf(5)}
NOT_LISTED = mpf("0.03")


def factor(cause, season, wind, side):
    """The book's rules: `side` says nothing while there is no wind."""
    left = wind == "yes" and side == "left"
    f = mpf(1)
    if cause == "frost":
        f *= 10 if season == "cold" else 0
        f *= mpf(1) / 3 if wind == "yes" else 1
    if cause == "dust":
        f *= 4 if wind == "yes" and season == "warm" else 1
        f *= 6 if left else 1
    if cause == "leak":
        f *= 2 if wind == "no" or season == "cold" else 1
    return f


CELLS = list(product(*(FACTS[f] for f in FACTS)))
NAMES = list(FACTS)


def table(g):
    j = {}
    for cause, weight in WEIGHTS.items():
        for cell in CELLS:
            w = weight * factor(cause, *cell)
            for name, state in zip(NAMES, cell):
                w *= g[name][state]
            j[cause, cell] = w
    total = sum(j.values())
    return {at: w / total for at, w in j.items()}


def applies(name, cell):
    return name != "side" or cell[NAMES.index("wind")] == "yes"


def rake():
    g = {name: dict(shares) for name, shares in FACTS.items()}
    off = mpf(1)
    while off > mpf(10) ** -47:
        off = mpf(0)
        for i, name in enumerate(NAMES):
            j = table(g)
            whole = sum(w for (c, cell), w in j.items() if applies(name, cell))
            for state, share in FACTS[name].items():
                part = sum(w for (c, cell), w in j.items() if applies(name, cell) and cell[i] == state)
                off = max(off, abs(part / whole - share))
                g[name][state] *= share * whole / part
    return table(g)


def told_chances(j, told):
    left = {at: w for at, w in j.items()
            if all(at[1][NAMES.index(n)] == s and applies(n, at[1]) for n, s in told.items())}
    whole = sum(left.values())
    for cause in WEIGHTS:
        yield cause, (1 - NOT_LISTED) * sum(w for (c, _), w in left.items() if c == cause) / whole


def main():
    j = rake()
    for told in ({}, {"season": "cold"}, {"season": "warm"}, {"wind": "yes"}, {"wind": "no"},
                 {"wind": "yes", "side": "left"}, {"season": "cold", "wind": "no"},
                 {"season": "warm", "wind": "yes", "side": "right"}):
        said = ",".join(f"{n}={s}" for n, s in told.items()) or "-"
        for cause, chance in told_chances(j, told):
            print(f"{said}\t{cause}\t{mp.nstr(chance, 30)}")


main()
