#!/usr/bin/env python3
"""Looks at the same thing through instruments that may mislead, to 50 digits: every instrument's
state, every misreading and every wrong answer of one small book gone through one by one. Shares no
code with the engine.

    python3 tests/golden/looks_twice.py > tests/golden/data/looks_twice.tsv

A line: what was answered (= first, ~ again, ! with another instrument), the cause, its chance."""
from itertools import product

from mpmath import log, mp, mpf

mp.dps = 50

WEIGHTS = {"a": mpf(5), "b": mpf(3), "c": mpf(2)}
WRONG = {"gauge": mpf("0.03"), "ears": mpf("0.04"), "poor": mpf("0.2")}
# instrument, read right, P(answer | cause) in the order of the answers
QUESTIONS = {
    "dial": ("gauge", mpf("0.95"), ["no", "yes"], {"a": "0.9", "b": "0.2", "c": "0.1"}),
    "level": ("gauge", mpf("0.9"), ["low", "mid", "high"],
              {"a": ("0.7", "0.2", "0.1"), "b": ("0.1", "0.3", "0.6"), "c": ("0.3", "0.4", "0.3")}),
    "hum": ("ears", mpf("0.92"), ["no", "yes"], {"a": "0.3", "b": "0.85", "c": "0.5"}),
    "drip": (None, mpf("0.95"), ["no", "yes"], {"a": "0.15", "b": "0.1", "c": "0.9"}),
    "haze": ("poor", mpf("0.95"), ["no", "yes"], {"a": "0.6", "b": "0.2", "c": "0.3"}),
}
FRESH_LEAST, SAME_PERSON = mpf(1) / 20, mpf(1) / 2

CASES = ["dial=yes", "dial=yes level=low", "dial=yes level=high", "dial=yes dial~no",
         "dial=yes dial~yes", "dial=yes dial!no", "dial=yes dial!yes level=mid",
         "dial=yes dial~yes level=high level!low hum=yes", "hum=yes hum~yes", "hum=yes hum~no drip=yes",
         "drip=yes drip~yes", "drip=yes drip~no", "haze=yes", "haze=yes haze~no",
         "haze=yes haze~yes dial=no level=high hum=no drip=no",
         "level=low level~mid level!high", "dial=no dial~yes dial!yes level=low level~low"]


def parting(instrument, right):
    """P(misled here | it misleads), P(the person is), P(this look is): survivals multiply."""
    every = -log(right)
    shared = SAME_PERSON * every if instrument is None else -log(1 - WRONG[instrument])
    shared = min(shared, (1 - FRESH_LEAST) * every)
    lasting = 1 - mp.exp(-shared)
    fresh = 1 - mp.exp(-(every - shared))
    return (1, lasting, fresh) if instrument is None else (WRONG[instrument], lasting / WRONG[instrument], fresh)


def rows(question, cause):
    told = QUESTIONS[question][3][cause]
    if isinstance(told, str):
        return [1 - mpf(told), mpf(told)]
    return [mpf(x) for x in told]


def chance_of_looks(question, cause, said, misleads):
    """said: [(instance, answer)]; misleads: {(instrument, instance): bool}."""
    instrument, right, answers, _ = QUESTIONS[question]
    _, here, fresh = parting(instrument, right)
    instances = sorted({i for i, _ in said})
    total = mpf(0)
    for state, p_state in enumerate(rows(question, cause)):
        wrongs = [a for a in range(len(answers)) if a != state]
        for lasting in product([False, True], repeat=len(instances)):
            for stuck in product(wrongs, repeat=len(instances)):
                chance = p_state / mpf(len(wrongs)) ** len(instances)
                for i, instance in enumerate(instances):
                    p = here if misleads[(instrument, instance)] else 0
                    chance *= p if lasting[i] else 1 - p
                for instance, answer in said:
                    i = instances.index(instance)
                    if lasting[i]:
                        chance *= answer == stuck[i]
                    elif answer == state:
                        chance *= 1 - fresh
                    else:
                        chance *= fresh / len(wrongs)
                total += chance
    return total


def main():
    for case in CASES:
        said = {}
        for token in case.split():
            op = next(x for x in "=~!" if x in token)
            name, value = token.split(op)
            said.setdefault(name, []).append((1 if op == "!" else 0, QUESTIONS[name][2].index(value)))
        latents = sorted({(QUESTIONS[q][0], i) for q in said for i, _ in said[q]}, key=str)
        weights = {}
        for cause, weight in WEIGHTS.items():
            weights[cause] = mpf(0)
            for states in product([False, True], repeat=len(latents)):
                misleads = dict(zip(latents, states))
                chance = weight
                for (instrument, _), wrong in misleads.items():
                    p = mpf(1) if instrument is None else WRONG[instrument]
                    chance *= p if wrong else 1 - p
                for question, looks in said.items():
                    chance *= chance_of_looks(question, cause, looks, misleads)
                weights[cause] += chance
        whole = sum(weights.values())
        for cause in WEIGHTS:
            print(case.replace(" ", ","), cause, mp.nstr(weights[cause] / whole, 40), sep="\t")


main()
