"""Works out golden cases by brute force with 50 digits, and writes them into data/. Shares no code with the engine: every
formula here is written from docs/mathematics.md, over whole hypotheses, with no short cut. Tables of one finding only.

    python3 tests/golden/work_out.py            (needs mpmath; the tests read what it wrote)
"""
import itertools
import json
import os

from mpmath import mp, mpf, log, expm1, exp

mp.dps = 50
HERE = os.path.dirname(os.path.abspath(__file__))


def num(x):
    return mpf(str(x))


def floored(p):
    p = [max(x, num("1e-6")) for x in p]
    return [x / sum(p) for x in p]


# ---- the model ----


def fit(q, targets):
    """Closed form: targets {state: chance}; what remains goes to the other states as q has it."""
    out = [num(0)] * len(q)
    free = [v for v in range(len(q)) if v not in targets]
    total = sum(targets.values())
    scale = mpf(1)
    if free and total > num("0.999"):
        scale = num("0.999") / total
    if not free:
        scale = 1 / total
    for v, t in targets.items():
        out[v] = t * scale
    rest = sum(q[v] for v in free)
    for v in free:
        out[v] = (1 - sum(targets.values()) * scale) * q[v] / rest
    return out


def clip(x):
    return min(max(num(x), num("1e-6")), 1 - num("1e-6"))


def tables(m):
    """[finding] {base, usual, cause: [row], other}"""
    shares = [num(x) for x in m["pi"]]
    pi = [x / sum(shares) for x in shares]
    out = []
    for f, k in enumerate(m["k"]):
        mine = [s for s in m["symptoms"] if s["cond"][1] == f]
        usual = m["usual"].get(str(f))
        if usual is None:
            q = [mpf(1) / k] * k
        else:
            q = [num("0.9") if v == usual else num("0.1") / (k - 1) for v in range(k)]
        base = floored(fit(q, {s["cond"][2][0]: clip(s["otherwise"]) for s in mine}))
        rows = []
        for c in range(len(pi)):
            given = {s["cond"][2][0]: clip(s["listed"][str(c)]) for s in mine if str(c) in s["listed"]}
            rows.append(floored(fit(base, given)) if given else base)
        mean = [sum(pi[c] * rows[c][v] for c in range(len(pi))) for v in range(k)]
        other = floored([(mean[v] + base[v]) / 2 for v in range(k)])
        best = max(range(k), key=lambda v: (base[v], -v))
        out.append({"base": base, "usual": best, "cause": rows, "other": other,
                    "listed": sorted({int(c) for s in mine for c in s["listed"]})})
    return out


def hypotheses(m):
    n = len(m["pi"])
    return [()] + [(c,) for c in range(n)] + (list(itertools.combinations(range(n), 2)) if m["K"] == 2 else [])


def priors(m):
    shares = [num(x) for x in m["pi"]]
    pi = [x / sum(shares) for x in shares]
    u, d = num(m["u"]), num(m.get("d2", 0)) if m["K"] == 2 else mpf(0)
    pairs = sum(pi[a] * pi[b] for a, b in itertools.combinations(range(len(pi)), 2))
    out = []
    for h in hypotheses(m):
        if len(h) == 0:
            out.append(u)
        elif len(h) == 1:
            out.append((1 - u) * (1 - d) * pi[h[0]])
        else:
            out.append((1 - u) * d * pi[h[0]] * pi[h[1]] / pairs)
    return out


def hazards(row, usual):
    s = min(1 - row[usual], 1 - num("1e-6"))
    g = -log(1 - s) / s
    return [mpf(0) if v == usual else row[v] * g for v in range(len(row))]


def row_of(table, h):
    mine = [c for c in h if c in table["listed"]]
    if len(h) == 0:
        return table["other"]
    if len(mine) == 0:
        return table["base"]
    if len(mine) == 1:
        return table["cause"][mine[0]]
    usual = table["usual"]
    leak = hazards(table["base"], usual)
    both = [hazards(table["cause"][c], usual) for c in mine]
    rate = [max(mpf(0), a + b - l) for a, b, l in zip(*both, leak)]
    t = sum(rate)
    return [exp(-t) if v == usual else rate[v] * -expm1(-t) / t for v in range(len(leak))]


def misread(m, f):
    """R[state][answer]; rows sum to 1."""
    k, r = m["k"][f], num(m["rel"][f])
    settling = set(m.get("settling", {}).get(str(f), []))
    toward = min(num(m.get("toward", {}).get(str(f), 0)), (1 - r) / (k - 1))
    rows = []
    for v in range(k):
        row = [toward if a in settling else None for a in range(k)]
        row[v] = mpf(0)
        left = 1 - r - sum(x for x in row if x is not None)
        open_ = [a for a in range(k) if row[a] is None]
        for a in open_:
            row[a] = left / len(open_)
        row[v] = 1 - sum(row)
        rows.append(row)
        assert abs(sum(row) - 1) < num("1e-45")
    return rows


# ---- belief ----


def likelihood(m, t, h, answers):
    p = mpf(1)
    for a in answers:
        f, w = a["finding"], [num(x) for x in a["weights"]]
        R, row = misread(m, f), row_of(t[f], h)
        p *= sum(row[v] * sum(w[y] * R[v][y] for y in range(len(w))) for v in range(len(w)))
    return p


def entropy(p):
    return -sum(x * log(x, 2) for x in p if x > 0)


def step(m, t, label, answers):
    hs, prior = hypotheses(m), priors(m)
    w = [p * likelihood(m, t, h, answers) for p, h in zip(prior, hs)]
    total = sum(w)
    post = [x / total for x in w]
    asked = {a["finding"] for a in answers}
    questions = []
    for f in range(len(m["k"])):
        if f in asked:
            continue
        R, said, bits = misread(m, f), [], entropy(post)
        for y in range(m["k"][f]):
            by = [p * sum(row_of(t[f], h)[v] * R[v][y] for v in range(m["k"][f])) for p, h in zip(post, hs)]
            said.append(sum(by))
            bits -= said[-1] * entropy([x / said[-1] for x in by])
        questions.append({"finding": f, "P_answer": said, "eig_bits": bits})
    marginals = [sum(p for p, h in zip(post, hs) if c in h) for c in range(len(m["pi"]))]
    return {"label": label, "answers": answers, "log_evidence": log(total), "posterior_sets": post,
            "cause_marginals": marginals, "next_questions": questions}


def components(m, t):
    return [{"findings": [f], "cell_atom": list(range(m["k"][f])), "base": x["base"], "usual_atom": x["usual"],
             "within_atom": [mpf(1)] * m["k"][f], "P_given_cause": x["cause"], "P_given_other": x["other"]}
            for f, x in enumerate(t)]


def written(x):
    if isinstance(x, mpf):
        return float(mp.nstr(x, 18))
    if isinstance(x, dict):
        return {k: written(v) for k, v in x.items()}
    if isinstance(x, (list, tuple)):
        return [written(v) for v in x]
    return x


def save(name, case):
    with open(os.path.join(HERE, "data", name + ".json"), "w") as f:
        json.dump(written(dict({"name": name}, **case)), f, indent=1)
        f.write("\n")


def sign(f, state, otherwise, listed):
    return {"cond": ["is", f, [state]], "otherwise": otherwise, "listed": listed}


def said(f, *weights):
    return {"finding": f, "weights": list(weights)}


# ---- g6, g7: answers that confirm ----


def confirming(K):
    m = {"k": [2, 3, 3, 3], "rel": [0.95, 0.95, 0.9, 0.98], "pi": [1, 6, 3, 90], "u": 0.03, "K": K, "d2": 0.05,
         "usual": {"0": 0, "1": 2}, "settling": {"0": [1], "1": [0], "2": [0, 2]},
         "toward": {"0": 0.002, "1": 0.002, "2": 0.01, "3": 0.002},
         "symptoms": [sign(0, 1, "1e-5", {"0": 0.99}), sign(1, 0, "1e-5", {"1": 0.99}),
                      sign(1, 1, 0.05, {"0": 0.3, "2": 0.7}), sign(2, 0, "1e-5", {"2": 0.99}),
                      sign(2, 2, "1e-5", {"1": 0.99}), sign(3, 0, 0.05, {"0": 0.85, "3": 0.2}),
                      sign(3, 2, 0.15, {"2": 0.5})]}
    for s in m["symptoms"]:
        s["otherwise"] = float(s["otherwise"])
    t = tables(m)
    steps = [step(m, t, "nothing yet", []),
             step(m, t, "a 1 % cause is confirmed", [said(0, 0, 1)]),
             step(m, t, "it is not", [said(0, 1, 0)]),
             step(m, t, "one of two is confirmed", [said(2, 0, 0, 1)]),
             step(m, t, "not the first, another is likely", [said(2, 0, 1, 1), said(1, 0.2, 0.7, 0.1)]),
             step(m, t, "two that clash", [said(0, 0, 1), said(1, 1, 0, 0), said(3, 1, 0, 0)])]
    save("g%d_confirming_k%d" % (5 + K, K), {"model": m, "hypotheses": hypotheses(m), "components": components(m, t), "steps": steps})
    if K == 1:
        post = steps[1]["posterior_sets"]
        assert num("0.8") < post[1], post


confirming(1)
confirming(2)


# ---- g8, g9: fixes that may be done wrongly ----


def report_chance(S, removed, cures, outcome):
    left = [c for c in S if c not in removed]
    if S and not left:
        return mpf(1) if outcome == "gone" else mpf(0)
    if outcome == "gone":
        return mpf(0)
    better = num("0.8") if removed else num("0.1") if any(cures.get(c, 0) > 0 for c in S) else num("0.02")
    return better if outcome == "better" else 1 - better


def after_try(hs, w, cures, wrongly, outcome):
    """Weights of what is left. A try goes wrong as a whole with chance `wrongly`; else each cause goes by itself."""
    out = [mpf(0)] * len(hs)
    for S, weight in zip(hs, w):
        for n in range(len(S) + 1):
            for removed in itertools.combinations(S, n):
                p = 1 - wrongly
                for c in S:
                    e = cures.get(c, mpf(0))
                    p *= e if c in removed else 1 - e
                if not removed:
                    p += wrongly
                p *= report_chance(S, removed, cures, outcome)
                left = tuple(c for c in S if c not in removed)
                if S and not left:
                    continue  # all is gone: no hypothesis of a case that goes on
                out[hs.index(left)] += weight * p
    return out


def done_wrongly(K):
    m = {"k": [2, 2], "rel": [0.95, 0.95], "pi": [5, 3, 1, 1], "u": 0.03, "K": K, "d2": 0.1, "usual": {"0": 0},
         "symptoms": [sign(0, 1, 0.05, {"0": 0.85, "1": 0.5}), sign(1, 1, 0.05, {"1": 0.7, "2": 0.9})]}
    t, hs, prior = tables(m), hypotheses(m), priors(m)
    answers = [said(0, 0, 1)]
    w = [p * likelihood(m, t, h, answers) for p, h in zip(prior, hs)]
    tries = []
    for cures, wrongly, outcome in (({"0": 0.9}, 0.05, "same"), ({"0": 0.5, "1": 0.95}, 0.05, "same"),
                                    ({"1": 0.9, "2": 0.7}, 0.2, "same"), ({"3": 0.99}, 0.05, "same")):
        before = sum(w)
        w = after_try(hs, w, {int(c): num(x) for c, x in cures.items()}, num(wrongly), outcome)
        tries.append({"cures": cures, "done_wrongly": wrongly, "outcome": outcome, "chance": sum(w) / before,
                      "posterior": [x / sum(w) for x in w]})
    save("g%d_done_wrongly_k%d" % (7 + K, K), {"model": m, "hypotheses": hs, "components": components(m, t),
                                               "steps": [step(m, t, "before the first fix", answers)], "tries": tries})


done_wrongly(1)
done_wrongly(2)
