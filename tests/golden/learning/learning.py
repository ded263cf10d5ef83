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


def returning(share, numbers, sites):
    """share: of the author. numbers: [chance, as how many cures it counts, cures surely back]. sites: days, cures [number, days, share there, cause],
    troubles [share there, cause or -1, [[cure, part, days since]], [[trouble before, its link or -1, part of that which is the same, number, cause,
    share there, part, days since]]]. What a cure has come to is kept as weights of all that may have happened since, which nothing brings to a sum of 1.
    Numbers, rates and shares are gone round until they stand still; how sure they are is
    the inverse of the whole information at once, with the rates of the sites in it, and how far each number follows the author's."""
    fast, half, counts = mp.log(2) / 30, mpf(30), mpf(50)

    def coming(r, days):
        gone = 1 - mp.e ** (-fast * days)
        return r * fast * (1 - gone) / (1 - r * gone)

    def go_round(r, rate, changed, note=None):
        """What is to be expected; `note` is given what each trouble tells in r, ln share and ln rate."""
        def left(number, days):
            """That it comes back, but not by then."""
            return r[number] * mp.e ** (-fast * days)

        def stands(weights, number, days):
            quiet = weights[0] * (1 - r[number] + left(number, days))
            return quiet / (quiet + weights[1] + weights[2])

        came, fresh, site_fresh = [mpf(0)] * len(numbers), [mpf(0)] * len(share), []
        for k, (days, cures, troubles) in enumerate(sites):
            # of each cure: nothing came of it; it came back; it was cured anew, and would have come back after that
            state, all_fresh, was = [(mpf(1), mpf(0), mpf(0), mpf(0)) for _ in cures], mpf(0), []
            for there, cause, links, maybes in troubles:
                anew = rate[k] * (there if cause < 0 else min(mpf(1), there * changed[cause]))
                parts = [part * stands(state[c], cures[c][0], ago) * coming(r[cures[c][0]], ago) for c, part, ago in links]
                hidden, before = mpf(0), {}
                for earlier, link, same, number, other, other_share, part, ago in maybes:
                    is_it = was[earlier][0] * min(mpf(1), other_share * changed[other]) + (same * was[earlier][1][link] if link >= 0 else 0)
                    hidden += before.get(other, mpf(1)) * part * coming(is_it * r[number], ago)
                    before[other] = before.get(other, mpf(1)) * (1 - is_it)
                every = anew + sum(parts) + hidden
                was.append((anew / every, [x / every for x in parts]))
                if note:
                    tells = [mpf(0)] * len(numbers)
                    for c, part, ago in links:
                        at, step = cures[c][0], mpf(10) ** -25
                        tells[at] += part * stands(state[c], at, ago) * (coming(r[at] + step, ago) - coming(r[at] - step, ago)) / (2 * step) / every
                    own = [0 if cause < 0 else anew / every * ((1 if e == cause else 0) - share[e] * changed[e]) for e in range(len(share))]
                    note(tells + own + [anew / every if i == k else mpf(0) for i in range(len(sites))])
                for (c, part, ago), x in zip(links, parts):
                    number, _, own_share, own = cures[c]
                    quiet, back, over, later = state[c]
                    same = 0 if cause >= 0 else rate[k] * min(mpf(1), own_share * changed[own])
                    state[c] = (quiet * (every - x - same), back * (every - x) + quiet * part * fast * left(number, ago),
                                over * (every - x) + quiet * (1 - r[number] + left(number, ago)) * same,
                                later * (every - x) + quiet * left(number, ago) * same)
                all_fresh += anew / every
                if cause >= 0:
                    fresh[cause] += anew / every
            site_fresh.append(all_fresh)
            for (number, seen, _, _), (quiet, back, over, later) in zip(cures, state):
                every = quiet * (1 - r[number] + left(number, seen)) + back + over
                came[number] += (back + later + quiet * left(number, seen)) / every
        return came, fresh, site_fresh

    known = [sum(1 for _, cures, _ in sites for n, _, _, _ in cures if n == k) for k in range(len(numbers))]

    def stand_still(author):
        r, changed = list(author), [mpf(1)] * len(share)
        rate = [(len(troubles) + 1) / (days + half) for days, _, troubles in sites]
        while True:
            came, fresh, site_fresh = go_round(r, rate, changed)
            mean = sum(days for days, _, _ in sites) / sum(site_fresh)
            rate = [(x + 1) / (days + mean) for x, (days, _, _) in zip(site_fresh, sites)]
            changed = [(counts + x / y) / (counts + sum(fresh)) for x, y in zip(fresh, share)]
            now = [(a * t + surely + x) / (a + surely + n) for t, (_, a, surely), x, n in zip(author, numbers, came, known)]
            moved = max(abs(x - y) for x, y in zip(r, now))
            r = now
            if moved < mpf(10) ** -52:
                return r, rate, changed

    def follows(k):
        """By how much it moves where the author's moves by a part of what he leaves open."""
        t, ends = mpf(numbers[k][0]), []
        for side in (-1, 1):
            author = [mpf(x) for x, _, _ in numbers]
            author[k] += side * t * (1 - t) / 20
            ends.append(stand_still(author)[0][k])
        return (ends[1] - ends[0]) / (t * (1 - t) / 10)

    r, rate, changed = stand_still([mpf(t) for t, _, _ in numbers])
    m, n = len(numbers), len(share)
    size = m + n + len(sites)
    info = matrix(size, size)
    for k, (t, a, surely) in enumerate(numbers):
        info[k, k] = (a * t + surely) / r[k] ** 2 + a * (1 - t) / (1 - r[k]) ** 2
    learned = [x * y for x, y in zip(share, changed)]
    for i in range(n):
        for k in range(n):
            info[m + i, m + k] += counts * ((learned[i] if i == k else 0) - learned[i] * learned[k])
    for k in range(len(sites)):
        info[m + n + k, m + n + k] = 1

    def note(tells):
        for i in range(size):
            for k in range(size):
                info[i, k] += tells[i] * tells[k]

    go_round(r, rate, changed, note)
    kept = [i for i in range(size) if i != m]  # of shares that sum to 1 one is not free
    left = matrix(len(kept), len(kept))
    for i, a in enumerate(kept):
        for k, b in enumerate(kept):
            left[i, k] = info[a, b]
    out = []
    for k in range(m):
        spread = lu_solve(left, matrix([1 if i == k else 0 for i in range(len(kept))]))[k]
        least = numbers[k][1] / follows(k)  # the variance of what moves so, by the sandwich
        worth = min(r[k] * (1 - r[k]) / spread, least ** 2 / (r[k] * (1 - r[k]) / spread))
        out.append({'follows': said(follows(k)), 'mean': said(r[k]), 'worth': said(worth), 'low': mp.nstr(quantile(r[k], worth, mpf('0.025')), 20),
                    'high': mp.nstr(quantile(r[k], worth, mpf('0.975')), 20)})
    return {'share': [said(x) for x in share], 'numbers': [[said(t), a, b] for t, a, b in numbers],
            'sites': [[said(d), [[k, said(x), said(p), e] for k, x, p, e in c],
                       [[said(p), e, [[i, said(q), said(x)] for i, q, x in l], [m[:2] + [said(m[2])] + m[3:5] + [said(x) for x in m[5:]] for m in ms]]
                        for p, e, l, ms in t]] for d, c, t in sites], 'sets': out}


def sites_of_a_year():
    """Three causes, the first with a number of its own and the third brings it on; in some troubles nobody knows which it was. The second
    comes back again and again at the last site, more than its number comes to."""
    half, most, third, one = mpf('0.5'), mpf('0.3'), mpf('0.2'), mpf(1)

    def maybe(trouble, link, cause, part, days):
        """Trouble, its link, and of that the part that is the cause, its number, itself and its share, part, days."""
        return [trouble, link, half if cause == 0 else one, 0 if cause == 0 else 1, cause, [half, most, third][cause], part, mpf(days)]
    return [
        (mpf(200), [(0, mpf(12), half, 0), (1, mpf(188), most, 1), (0, mpf(70), half, 0), (0, mpf(40), half, 0), (1, mpf(55), most, 1)],
         [(half, 0, [(0, half, mpf(12))], []), (most, 1, [], []), (third, 2, [(2, half, mpf(9))], []),
          (one, -1, [(2, one, mpf(33)), (1, one, mpf(57))], []), (one, -1, [(2, one, mpf(50)), (1, one, mpf(74))], []),
          (half, 0, [(2, half, mpf(70))], [maybe(4, 0, 0, half, 20), maybe(3, 0, 0, half, 37)]), (half, 0, [(3, half, mpf(40))], []),
          (most, 1, [(1, one, mpf(130))], [maybe(4, 1, 1, one, 56), maybe(3, 1, 1, one, 73)]),
          (third, 2, [], [maybe(4, -1, 2, one, 60), maybe(3, -1, 2, one, 77)])]),
        (mpf(310), [(0, mpf(310), half, 0), (1, mpf(5), most, 1), (1, mpf(80), most, 1)],
         [(most, 1, [], []), (most, 1, [(1, one, mpf(5))], []), (one, -1, [(0, one, mpf(220)), (2, one, mpf(80))], []),
          (third, 2, [(0, half, mpf(250))], [maybe(2, 0, 0, half, 30), maybe(2, -1, 2, one, 30)])]),
        (mpf(300), [(1, mpf(15), most, 1), (1, mpf(280), most, 1), (0, mpf(40), half, 0)],
         [(one, -1, [(0, one, mpf(4))], []), (one, -1, [(0, one, mpf(9))], []),
          (most, 1, [(0, one, mpf(15))], [maybe(1, 0, 1, one, 6), maybe(0, 0, 1, one, 11)]), (one, -1, [(1, one, mpf(3))], []),
          (one, -1, [(1, one, mpf(8))], []), (half, 0, [], [maybe(4, -1, 0, half, 50), maybe(3, -1, 0, half, 55)]),
          (one, -1, [(1, one, mpf(70)), (2, one, mpf(5))], []), (one, -1, [(1, one, mpf(75)), (2, one, mpf(10))], []),
          (half, 0, [(2, half, mpf(40))], [maybe(7, 1, 0, half, 30), maybe(6, 1, 0, half, 35)])]),
        (mpf(48), [(1, mpf(6), most, 1)] * 8, [(most, 1, [(i, one, mpf(6))], []) for i in range(8)]),
    ]


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
    'returning': [returning([mpf('0.5'), mpf('0.3'), mpf('0.2')], [[mpf('0.3'), 20, 0], [mpf('0.1'), 40, 2]], sites_of_a_year())],
}, indent=1))
