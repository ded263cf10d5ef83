#!/usr/bin/env python3
"""Writes misled.json: what cases make of how often two instruments mislead, with 50 digits.

Nothing here is the engine's way: all states of all instruments, of all that may go wrong and of all wrong answers are gone through one
by one; the numbers are where both derivatives vanish (Newton's method), how sure they are is an integral (Gauss and Legendre). Run:
python3 misled.py >misled.json
"""
import json
from functools import lru_cache
from itertools import product
from mpmath import cos, exp, log, lu_solve, matrix, mp, mpf, pi

mp.dps = 50
AUTHOR, STRENGTH = [mpf('0.03'), mpf('0.05')], 40
# instruments, read right, the chance of a confirming answer by mistake or None, the row
QUESTIONS = [([0], mpf('0.9'), None, ['0.7', '0.3']),
             ([0], mpf('0.92'), None, ['0.2', '0.3', '0.5']),
             ([0, 1], mpf('0.9'), None, ['0.15', '0.85']),
             ([1], mpf('0.93'), mpf('0.01'), ['0.6', '0.4'])]
# what was said: question, then answer and whether with another instrument; how often
CASES = [([(0, [(0, 0), (0, 0)])], 30), ([(0, [(1, 0), (0, 1)])], 2), ([(0, [(1, 0), (0, 1)]), (1, [(0, 0)])], 1),
         ([(0, [(0, 0)]), (1, [(2, 0)])], 20), ([(0, [(1, 0)]), (1, [(0, 0)])], 4), ([(2, [(1, 0)]), (3, [(0, 0)])], 25),
         ([(2, [(0, 0)]), (3, [(1, 0)])], 3), ([(0, [(0, 0)]), (2, [(0, 0)]), (3, [(0, 0), (0, 0)])], 3),
         ([(0, [(0, 0), (0, 1)])], 25), ([(0, [(1, 0), (1, 1)])], 9), ([(0, [(1, 0), (0, 0)])], 9),
         ([(3, [(1, 0), (0, 0)])], 2), ([(3, [(1, 0), (1, 1)])], 4), ([(1, [(1, 0), (2, 1)])], 1),
         ([(0, [(0, 0)])], 50)]


def slips(question):
    """[state][answer] how often it is said there."""
    _, right, toward, row = QUESTIONS[question]
    k = len(row)
    if toward is None:
        return [[right if a == v else (1 - right) / (k - 1) for a in range(k)] for v in range(k)]
    return [[1 - toward, toward], [1 - right, right]]


def parting(wrong, slip):
    every = -log(1 - slip)
    shared, most = sum(-log(1 - w) for w in wrong), every * 95 / 100
    power = mpf(1) if shared <= most else most / shared
    return [(1 - (1 - w) ** power) / w for w in wrong], 1 - exp(-(every - min(shared, most)))


def legendre(x):
    """The tenth polynomial and its derivative."""
    before, now = mpf(1), x
    for k in range(2, 11):
        before, now = now, ((2 * k - 1) * x * now - (k - 1) * before) / k
    return now, 10 * (x * now - before) / (x * x - 1)


@lru_cache(maxsize=None)
def said(question, looks, misleads, wrong):
    """misleads: ((gauge, another), yes) of its own gauges; wrong: of all."""
    gauges, _, _, row = QUESTIONS[question]
    misleads, wrong, total = dict(misleads), dict(wrong), mpf(0)
    for v, share in enumerate(row):
        told = slips(question)[v]
        slip = sum(x for a, x in enumerate(told) if a != v)
        here, fresh = parting([wrong[g] for g in gauges], slip)
        kinds = sorted({another for _, another in looks})
        events = [(here[i] if misleads[(g, another)] else mpf(0), {n for n, l in enumerate(looks) if l[1] == another})
                  for i, g in enumerate(gauges) for another in kinds] + [(fresh, {n}) for n in range(len(looks))]
        for happened in product(*([0, 1] if p > 0 else [0] for p, _ in events)):
            chance, sets = mpf(row[v]), []
            for (p, touches), yes in zip(events, happened):
                chance *= p if yes else 1 - p
                if yes:
                    joined = set(touches)
                    for s in [s for s in sets if s & joined]:
                        joined |= s
                        sets.remove(s)
                    sets.append(joined)
            if chance == 0:
                continue
            amiss = set().union(*sets) if sets else set()
            for s in sets:
                chance *= sum(told[a] / slip for a in range(len(row)) if a != v and all(looks[n][0] == a for n in s))
            if any(looks[n][0] != v for n in range(len(looks)) if n not in amiss):
                continue
            total += chance
    return total


def height(odds):
    wrong = [1 / (1 + exp(-x)) for x in odds]
    out = sum(STRENGTH * (a * log(w) + (1 - a) * log(1 - w)) for a, w in zip(AUTHOR, wrong))
    for answers, times in CASES:
        case = mpf(0)
        for state in product([0, 1], repeat=4):
            misleads = dict(zip([(0, 0), (0, 1), (1, 0), (1, 1)], state))
            chance = mpf(1)
            for (g, _), yes in misleads.items():
                chance *= wrong[g] if yes else 1 - wrong[g]
            for question, looks in answers:
                own = QUESTIONS[question][0]
                chance *= said(question, tuple(looks), tuple(x for x in misleads.items() if x[0][0] in own),
                               tuple((g, wrong[g]) for g in own))
            case += chance
        out += times * log(case)
    return out


def nodes():
    found = []
    for k in range(1, 11):
        x = cos(pi * (k - mpf(1) / 4) / (10 + mpf(1) / 2))
        for _ in range(8):
            x -= legendre(x)[0] / legendre(x)[1]
        found.append((x, 2 / ((1 - x * x) * legendre(x)[1] ** 2)))
    assert abs(sum(weight for _, weight in found) - 2) < mpf(10) ** -40
    return found


NODES = nodes()


def panel(density, low, high):
    """Gauss and Legendre, ten nodes."""
    half, middle = (high - low) / 2, (high + low) / 2
    return half * sum(weight * density(middle + half * x) for x, weight in NODES)


def peak(at):
    """Newton's steps, derivatives from differences that are exact to 30 digits."""
    step = mpf(10) ** -13
    while True:
        def moved(i, k):
            return height([at[0] + i * step, at[1] + k * step])
        here = moved(0, 0)
        a, b, c, d = moved(1, 0), moved(-1, 0), moved(0, 1), moved(0, -1)
        across = (moved(1, 1) - moved(1, -1) - moved(-1, 1) + moved(-1, -1)) / (4 * step ** 2)
        slope = matrix([(a - b) / (2 * step), (c - d) / (2 * step)])
        curve = matrix([[(a - 2 * here + b) / step ** 2, across], [across, (c - 2 * here + d) / step ** 2]])
        move = lu_solve(curve, slope)
        if max(abs(move[0]), abs(move[1])) > 1 or slope[0] * move[0] + slope[1] * move[1] > 0:
            move = -slope / 20
        at = [at[0] - move[0], at[1] - move[1]]
        if max(abs(move[0]), abs(move[1])) < mpf(10) ** -20:
            return at


def main():
    at = peak([log(mpf('0.04')), log(mpf('0.05'))])
    top, out = height(at), []
    for i in range(2):
        density = lambda x: exp(height([x if k == i else at[k] for k in range(2)]) - top)
        # the kinks: where an instrument alone, or both, mislead as often as answers are misread at most
        kinks = []
        for gauges, right, toward, _ in QUESTIONS:
            for slip in [1 - right] + ([toward] if toward else []):
                left = -log(1 - slip) * 95 / 100 + sum(log(1 - 1 / (1 + exp(-at[g]))) for g in gauges if g != i)
                if i in gauges and left > 0:
                    w = 1 - exp(-left)
                    kinks.append(log(w / (1 - w)))
        edges = sorted(set(kinks + [mpf(k) for k in range(-14, 3)] + [mpf(k) / 2 for k in range(-11, -1)]))
        parts = [panel(density, a, b) for a, b in zip(edges, edges[1:])]
        found = []
        for tail in (mpf('0.025'), mpf('0.975')):
            wanted, k = tail * sum(parts), 0
            while parts[k] < wanted:
                wanted, k = wanted - parts[k], k + 1
            x = edges[k] + (edges[k + 1] - edges[k]) * wanted / parts[k]
            for _ in range(4):
                x -= (panel(density, edges[k], x) - wanted) / density(x)
            found.append(1 / (1 + exp(-x)))
        out.append({'mean': mp.nstr(1 / (1 + exp(-at[i])), 30), 'low': mp.nstr(found[0], 10), 'high': mp.nstr(found[1], 10)})
    print(json.dumps({'author': [str(a) for a in AUTHOR],
                      'questions': [[g, mp.nstr(r, 20), None if t is None else mp.nstr(t, 20), row] for g, r, t, row in QUESTIONS],
                      'cases': CASES, 'found': out}, indent=1))


main()
