#!/usr/bin/env python3
"""Compare predicted session records with gold ones: score.py GOLD_DIR PREDICTED_DIR [--json] [--each]."""

import json
import sys
from pathlib import Path

TREATMENT_SLACK_S = 6.0
RESPONSE_SLACK_S = 10.0


def best_pairs(gold, predicted, weight):
    """Greedy one-to-one pairs by descending weight; weight 0 means no match."""
    scored = sorted(
        ((weight(g, p), i, j) for i, g in enumerate(gold) for j, p in enumerate(predicted)),
        key=lambda s: (-s[0], s[1], s[2]),
    )
    used_g, used_p, pairs = set(), set(), []
    for w, i, j in scored:
        if w <= 0:
            break
        if i not in used_g and j not in used_p:
            used_g.add(i), used_p.add(j), pairs.append((gold[i], predicted[j]))
    return pairs


def overlap(g, p):
    inter = min(g["end"], p["end"]) - max(g["start"], p["start"])
    union = max(g["end"], p["end"]) - min(g["start"], p["start"])
    return inter, (max(inter, 0.0) / union if union > 0 else 1.0)


def treatment_weight(g, p):
    if g["technique"] != p["technique"]:
        return 0
    a, b = set(g["structures"]), set(p["structures"])
    jaccard = len(a & b) / len(a | b) if a | b else 1.0
    inter, iou = overlap(g, p)
    if jaccard < 0.5 or inter < -TREATMENT_SLACK_S:
        return 0
    return 1 + jaccard + iou + (g.get("side") == p.get("side")) * 0.5


def finding_weight(g, p):
    if (g["structure"], g["aspect"], g["value"]) != (p["structure"], p["aspect"], p["value"]):
        return 0
    return 1 + (g.get("side") == p.get("side"))


def response_weight(g, p):
    gap = abs(g["time"] - p["time"])
    return 0 if g["sign"] != p["sign"] or gap > RESPONSE_SLACK_S else 1 + 1 / (1 + gap)


def action_weight(g, p):
    return 1 if g["kind"] == p["kind"] else 0


PARTS = {
    "treatments": treatment_weight,
    "findings": finding_weight,
    "responses": response_weight,
    "actions": action_weight,
}


def ratio(a, b):
    return a / b if b else 1.0


def f1(tp, n_gold, n_pred):
    return ratio(2 * tp, n_gold + n_pred)


def main(gold_dir, predicted_dir, as_json=False, each=False):
    totals = {part: [0, 0, 0] for part in PARTS}
    attributes = {"side": [0, 0], "passes": [0, 0], "pressure": [0, 0], "finding-side": [0, 0]}
    spoken = {key: [0, 0] for key in ("side", "passes", "pressure")}
    ious, per_case = [], {}
    for gold_file in sorted(Path(gold_dir).glob("*.gold.json")):
        name = gold_file.name.removesuffix(".gold.json")
        gold = json.loads(gold_file.read_text())
        predicted_file = Path(predicted_dir) / f"{name}.json"
        predicted = json.loads(predicted_file.read_text()) if predicted_file.exists() else {}
        case = {}
        for part, weight in PARTS.items():
            g, p = gold.get(part, []), predicted.get(part, [])
            pairs = best_pairs(g, p, weight)
            for k, n in enumerate((len(pairs), len(g), len(p))):
                totals[part][k] += n
            case[part] = f1(len(pairs), len(g), len(p))
            if part == "treatments":
                for a, b in pairs:
                    ious.append(overlap(a, b)[1])
                    for key in ("side", "passes", "pressure"):
                        attributes[key][0] += a.get(key) == b.get(key)
                        attributes[key][1] += 1
                        if a.get(key) is not None:
                            spoken[key][0] += a[key] == b.get(key)
                            spoken[key][1] += 1
            if part == "findings":
                for a, b in pairs:
                    attributes["finding-side"][0] += a.get("side") == b.get("side")
                    attributes["finding-side"][1] += 1
        per_case[name] = case
    tp, g, p = (sum(t[k] for t in totals.values()) for k in range(3))
    result = {"cases": len(per_case), "all": {"precision": ratio(tp, p), "recall": ratio(tp, g), "f1": f1(tp, g, p)}}
    for part, (a, b, c) in totals.items():
        result[part] = {"precision": ratio(a, c), "recall": ratio(a, b), "f1": f1(a, b, c), "gold": b, "predicted": c}
    result["right-on-matches"] = {k: ratio(*v) for k, v in attributes.items()}
    result["right-where-gold-says-one"] = {k: ratio(*v) for k, v in spoken.items()}
    result["treatment-time-iou"] = ratio(sum(ious), len(ious))
    if each:
        result["per-case"] = per_case
    if as_json:
        print(json.dumps(result, indent=1))
    else:
        for key, value in result.items():
            print(key, json.dumps(value) if isinstance(value, dict) else value)


if __name__ == "__main__":
    arguments = [a for a in sys.argv[1:] if not a.startswith("--")]
    if len(arguments) != 2:
        sys.exit(__doc__)
    main(*arguments, as_json="--json" in sys.argv, each="--each" in sys.argv)
