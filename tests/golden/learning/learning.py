"""Writes learning.json: what cases make of two rows and of some shares, with 50 digits.

Nothing here is the engine's way: the maximum is where the derivatives vanish (Newton's method), how sure it is comes from the
second derivatives, quantiles from the root of the incomplete beta function. Run: python3 learning.py >learning.json
"""
import json
from mpmath import mp, mpf, matrix, findroot, betainc, lu_solve

mp.dps = 60


def said(x):
    return mp.nstr(x, 50)


def maximum(gradient, start):
    """Where the gradient is 0, over ln of all numbers but the first; the first is what is left of 1."""
    return findroot(gradient, start, tol=mpf(10) ** -110, maxsteps=100)


def curvature(gradient, at):
    n, step = len(at), mpf(10) ** -20
    m = matrix(n, n)
    for k in range(n):
        up, down = list(at), list(at)
        up[k] += step
        down[k] -= step
        high, low = gradient(*up), gradient(*down)
        for i in range(n):
            m[i, k] = -(high[i] - low[i]) / (2 * step)
    return m


def simplex(logs):
    parts = [mpf(1)] + [mp.e ** x for x in logs]
    return [p / sum(parts) for p in parts]


def quantile(mean, worth, chance):
    a, b = worth * mean, worth * (1 - mean)
    low, high = mpf(0), mpf(1)
    for _ in range(90):
        middle = (low + high) / 2
        if betainc(a, b, 0, middle, regularized=True) < chance:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def solved(gradient, count, masks):
    at = list(maximum(gradient, [mpf(0)] * (count - 1)))
    p = simplex(at)
    out = []
    for mask in masks:
        mean = sum(p[i] for i in mask)
        # slope of the mean in the logs: sum over i of p_i ([i = k] - p_k)
        slope = matrix([p[k] * ((1 if k in mask else 0) - mean) for k in range(1, count)])
        spread = (slope.T * lu_solve(curvature(gradient, at), slope))[0]
        worth = mean * (1 - mean) / spread
        out.append({'set': mask, 'mean': said(mean), 'worth': said(worth),
                    'low': mp.nstr(quantile(mean, worth, mpf('0.025')), 20),
                    'high': mp.nstr(quantile(mean, worth, mpf('0.975')), 20)})
    return p, out


def row(written, strength, right, answers, masks):
    """answers: [[weight of each answer], how often]. Every state is an atom."""
    k = len(written)
    chance = [[mpf(w[v]) * right + (sum(map(mpf, w)) - mpf(w[v])) * (1 - right) / (k - 1) for v in range(k)]
              for w, _ in answers]

    def gradient(*logs):
        p = simplex(logs)
        slope = [strength * written[v] for v in range(k)]
        for c, (_, times) in zip(chance, answers):
            here = sum(p[v] * c[v] for v in range(k))
            for v in range(k):
                slope[v] += times * p[v] * c[v] / here
        total = strength + sum(times for _, times in answers)
        return [slope[v] - total * p[v] for v in range(1, k)]

    p, sets = solved(gradient, k, masks)
    return {'written': [said(x) for x in written], 'strength': int(strength), 'right': said(right), 'answers': answers,
            'row': [said(x) for x in p], 'sets': sets}


def shares(written, strength, settings):
    """settings: [factors], [cases of each cause]."""
    n = len(written)
    share = [w / sum(written) for w in written]

    def gradient(*logs):
        p = simplex(logs)
        slope = [strength * share[i] - strength * p[i] for i in range(n)]
        for factors, cases in settings:
            here = sum(p[i] * factors[i] for i in range(n))
            for i in range(n):
                slope[i] += cases[i] - sum(cases) * p[i] * factors[i] / here
        return slope[1:]

    p, sets = solved(gradient, n, [[i] for i in range(n)])
    return {'written': [said(x) for x in written], 'settings': settings, 'shares': [said(x) for x in p], 'sets': sets}


print(json.dumps({
    'what': 'learning: rows and shares as learning.py reckons them with 50 digits',
    'rows': [
        row([mpf('0.3'), mpf('0.7')], 20, mpf('0.95'), [[[0, 1], 31], [[1, 0], 4]], [[1]]),
        row([mpf('0.6'), mpf('0.25'), mpf('0.1'), mpf('0.05')], 40, mpf('0.85'),
            [[[1, 0, 0, 0], 12], [[0, 1, 0, 0], 40], [[0, 0, 0, 1], 3], [[1, 1, 0, 1], 5], [[0, 2, 7, 1], 6]],
            [[1], [2], [3], [1, 3]]),
    ],
    'shares': [
        shares([mpf(5), mpf(2), mpf(1), mpf('0.3')], 50,
               [[[1, 1, 1, 1], [20, 11, 3, 0]], [[4, 1, 0.5, 1], [55, 9, 1, 1]], [[1, 0, 1, 10], [7, 0, 2, 6]]]),
    ],
}, indent=1))
