#!/usr/bin/env python3
"""Writes passing.json: what looks at a sign that comes and goes make of the share of looks that show it, with 50 digits: every state of
the sign at every look gone through one by one, the maximum where both derivatives vanish, the interval where the logarithm has fallen by
half of chi squared's quantile at 95 % (findroot on the error function), the product that goes best with it beside. Run: python3 passing.py >passing.json
"""
import json
from itertools import product
from mpmath import diff, erf, findroot, log, mp, mpf, sqrt

mp.dps = 50
SPREAD = mpf('0.04')  # of the product, as learned
# row (the sign is there in the last states), how many of them are no sign, read right, what was written and as how many looks, looks: times
WORLDS = [(['0.55', '0.45'], 1, '0.93', '1', 0, [([1, 1], 40), ([1, 0], 25), ([0, 1], 21), ([0, 0], 30), ([1, 0, 1], 4)]),
          (['0.5', '0.2', '0.3'], 1, '0.95', '0.7', 20, [([1, 1], 10), ([2, 1], 8), ([2, 0], 9), ([0, 0], 30), ([0, 0, 2], 6)])]


def says(world, looks, q, product_is):
    row, none, right, _, _, _ = world
    row, right, k = [mpf(x) for x in row], mpf(right), len(row)
    inside = sum(row[none:])
    total = mpf(0)
    for there in (0, 1):
        for states in product(range(k), repeat=len(looks)):
            chance = product_is / q if there else 1 - product_is / q
            for v, said in zip(states, looks):
                if v < none:
                    chance *= row[v] / (1 - inside) * (1 - q if there else 1)
                else:
                    chance *= row[v] / inside * (q if there else 0)
                chance *= right if said == v else (1 - right) / (k - 1)
            total += chance
    return total


def main():
    out = []
    reach = (findroot(lambda z: erf(z / sqrt(2)) - mpf('0.95'), 2)) ** 2 / 2
    for world in WORLDS:
        written, strength = mpf(world[3]), world[4]

        inside = sum(mpf(x) for x in world[0][world[1]:])

        def height(q, m):
            author = strength * (written * log(q) + (1 - written) * log(1 - q)) if strength else 0
            return author - ((m - inside) / SPREAD) ** 2 / 2 + sum(times * log(says(world, looks, q, m)) for looks, times in world[5])

        def by_product(q, m):
            return diff(lambda x: height(q, x), m)
        mean, best = findroot(lambda q, m: [diff(lambda x: height(x, m), q), by_product(q, m)], [(inside + 1) / 2, inside], tol=mpf(10) ** -30)
        least = height(mean, best) - reach
        ends = [findroot(lambda q, m: [height(q, m) - least, by_product(q, m)], [mean + away, best], tol=mpf(10) ** -30)[0]
                for away in (mpf('-0.12'), mpf('0.12'))]
        out.append({'row': world[0], 'none': world[1], 'right': world[2], 'written': world[3], 'strength': strength,
                    'looks': world[5], 'mean': mp.nstr(mean, 40), 'low': mp.nstr(ends[0], 40), 'high': mp.nstr(ends[1], 40)})
    print(json.dumps(out, indent=1))


main()
