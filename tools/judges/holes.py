"""Puts a piece together from what its files say, and looks whether what is cut
from one part meets its partner in space.

    holes.py FOLDER ...

Reads in each folder holes.csv, cuts.csv and parts.csv, and piece.glb for where
each part stands (its node's matrix, in metres). Nothing else is known of the
piece. Prints, for each folder, what was looked at and what does not meet:

  dowels    the mouths of two holes coincide, their axes are opposite
  tenons    the same of two mortises, by their middles
  screws    the pilot hole lies on the axis of the clearance hole
  pins      the rows of one space have the same heights on both its sides
  hinges    the cups of a door lie as high as the middle of their plates
  housings  a panel's end stands in the middle of its housing and on its floor
"""
import csv
import json
import math
import os
import struct
import sys
from collections import defaultdict

NEAR = 0.02  # mm


def rows(path):
    if not os.path.exists(path):  # a list with nothing in it is not written
        return []
    with open(path, newline="", encoding="utf-8-sig") as f:
        return list(csv.DictReader(f))


def scene(path):
    data = open(path, "rb").read()
    length = struct.unpack("<I", data[12:16])[0]
    return json.loads(data[20 : 20 + length])


def turn(q, v):
    x, y, z, w = q
    t = [2 * (y * v[2] - z * v[1]), 2 * (z * v[0] - x * v[2]), 2 * (x * v[1] - y * v[0])]
    return [v[0] + w * t[0] + y * t[2] - z * t[1], v[1] + w * t[1] + z * t[0] - x * t[2], v[2] + w * t[2] + x * t[1] - y * t[0]]


class Part:
    def __init__(self, node, size):
        self.node, self.size = node, size
        self.bent = node.get("extras", {}).get("bent", False)
        if "matrix" in node:
            m = node["matrix"]
            self.axes = [m[0:3], m[4:7], m[8:11]]
            self.o = [1000 * v for v in m[12:15]]
        else:
            q = node.get("rotation", [0, 0, 0, 1])
            self.axes = [turn(q, e) for e in ([1, 0, 0], [0, 1, 0], [0, 0, 1])]
            self.o = [1000 * v for v in node.get("translation", [0, 0, 0])]

    def at(self, p):
        return [self.o[k] + sum(self.axes[i][k] * p[i] for i in range(3)) for k in range(3)]

    def way(self, d):
        return [sum(self.axes[i][k] * d[i] for i in range(3)) for k in range(3)]

    def face(self, face, x, y):
        """The place on a face, and the way into the wood from it."""
        l, w, t = self.size
        return {
            "A": ([x, y, t], [0, 0, -1]),
            "B": ([x, y, 0], [0, 0, 1]),
            "datum edge": ([x, 0, y], [0, 1, 0]),
            "far edge": ([x, w, y], [0, -1, 0]),
            "datum end": ([0, x, y], [1, 0, 0]),
            "far end": ([l, x, y], [-1, 0, 0]),
        }[face]


def num(row, *heads):
    for h in heads:
        for k, v in row.items():
            if k == h or k.startswith(h + " (") or k.startswith(h + ", mm"):
                return float(v) if v else 0.0
    raise KeyError(heads, list(row))


def dist(a, b):
    return math.dist(a, b)


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


def sub(a, b):
    return [x - y for x, y in zip(a, b)]


def judge(folder):
    seen, wrong = defaultdict(int), []
    sizes = {r["id"]: (num(r, "length"), num(r, "width"), num(r, "thick")) for r in rows(folder + "/parts.csv")}
    names = {r["no."]: r["id"] for r in rows(folder + "/parts.csv")}
    parts = {}
    for node in scene(folder + "/piece.glb").get("nodes", []):
        pid = node.get("extras", {}).get("part")
        if pid in sizes:
            parts[pid] = Part(node, sizes[pid])

    groups = defaultdict(list)
    for r in rows(folder + "/holes.csv"):
        pid = names[r["no."]]
        p = parts.get(pid)
        if p is None or p.bent:
            seen["on bent parts, not looked at"] += 1
            continue
        at, into = p.face(r["face"], num(r, "x"), num(r, "y"))
        groups[r["for"]].append({"part": pid, "at": p.at(at), "into": p.way(into), "dia": num(r, "diameter"), "id": r["id"], "through": bool(r["through"])})
    cuts = rows(folder + "/cuts.csv")
    for r in cuts:
        if r["cut"] != "mortise":
            continue
        pid = names[r["no."]]
        p = parts[pid]
        if p.bent:
            seen["on bent parts, not looked at"] += 1
            continue
        at, into = p.face(r["face"], (num(r, "x from") + num(r, "x to")) / 2, (num(r, "y from") + num(r, "y to")) / 2)
        groups[r["for"]].append({"part": pid, "at": p.at(at), "into": p.way(into), "dia": 0, "id": r["id"], "through": False})

    bent = any(p.bent for p in parts.values())
    for what, holes in sorted(groups.items()):
        kind = what.split(" of ")[0]
        if kind in ("dowels", "loose tenons"):
            pegs(kind, holes, bent, seen, wrong)
        elif kind == "screws":
            screws(holes, bent, seen, wrong)
        elif what.startswith("shelf pins in "):
            pins(what, holes, seen, wrong)
        elif what.startswith("hinge plate of "):
            door = what[len("hinge plate of ") :]
            cups = [h for h in groups.get("hinge cup", []) if h["part"] == door]
            hinges(what, holes, cups, seen, wrong)
    for r in cuts:
        if r["cut"] == "housing" and r["for"] in parts:
            housing(r, parts[names[r["no."]]], parts[r["for"]], seen, wrong)
    return {"folder": folder, "looked": dict(sorted(seen.items())), "wrong": wrong}


def partner(h, holes):
    others = [o for o in holes if o["part"] != h["part"]]
    return min(others, key=lambda o: dist(o["at"], h["at"]), default=None)


def pegs(kind, holes, bent, seen, wrong):
    for h in holes:
        o = partner(h, holes)
        if o is None:
            if not bent:
                wrong.append(f"{h['id']}: no partner")
            continue
        seen[kind] += 1
        off = dist(h["at"], o["at"])
        if off > NEAR or abs(h["dia"] - o["dia"]) > 1e-6 or dot(h["into"], o["into"]) > -0.999999:
            wrong.append(f"{h['id']}: {off:.2f} mm off {o['id']}")


def screws(holes, bent, seen, wrong):
    heads = [h for h in holes if h["through"]]
    for h in holes:
        if h["through"]:
            continue
        others = [o for o in heads if o["part"] != h["part"]]
        if not others:
            if not bent:
                wrong.append(f"{h['id']}: no clearance hole")
            continue
        def off(o):
            d = sub(h["at"], o["at"])
            along = dot(d, o["into"])
            return math.sqrt(max(0, dot(d, d) - along * along))
        o = min(others, key=off)
        seen["screws"] += 1
        if off(o) > NEAR or dot(h["into"], o["into"]) < 0.999999:
            wrong.append(f"{h['id']}: {off(o):.2f} mm off {o['id']}")


def pins(what, holes, seen, wrong):
    rows_of = defaultdict(set)
    for h in holes:
        rows_of[h["part"]].add(round(h["at"][1], 2))
    sets = list(rows_of.values())
    seen["rows of pins"] += len(sets)
    for s in sets[1:]:
        for a, b in zip(sorted(s), sorted(sets[0])):
            if abs(a - b) > NEAR:
                wrong.append(f"{what}: a hole at {a} over the floor, on the other side at {b}")
        if len(s) != len(sets[0]):
            wrong.append(f"{what}: {len(s)} holes on one side, {len(sets[0])} on the other")


def hinges(what, holes, cups, seen, wrong):
    heights = sorted(h["at"][1] for h in holes)
    plates = [(heights[i] + heights[i + 1]) / 2 for i in range(0, len(heights) - 1, 2)]
    for c, p in zip(sorted(c["at"][1] for c in cups), plates):
        seen["hinges"] += 1
        if abs(c - p) > NEAR:
            wrong.append(f"{what}: a cup at {c:.2f} over the floor, its plate at {p:.2f}")


def housing(r, a, b, seen, wrong):
    if a.bent or b.bent:
        seen["on bent parts, not looked at"] += 1
        return
    x0, x1, y0, y1 = num(r, "x from"), num(r, "x to"), num(r, "y from"), num(r, "y to")
    at, into = a.face(r["face"], (x0 + x1) / 2, (y0 + y1) / 2)
    mid, into = a.at(at), a.way(into)
    # The middle of the panel's thickness, against the housing's middle.
    thick = b.axes[2]
    centre = b.at([0, 0, b.size[2] / 2])
    off = abs(dot(sub(centre, mid), thick))
    # How far its end reaches below the mouth, against the depth.
    reach = max(dot(sub(b.at([x, 0, 0]), mid), into) for x in (0, b.size[0]))
    short = num(r, "deep") - reach
    seen["housings"] += 1
    if off > NEAR:
        wrong.append(f"{r['id']}: {r['for']} stands {off:.2f} mm out of its middle")
    if abs(short) > 0.05:
        wrong.append(f"{r['id']}: {r['for']} ends {short:.2f} mm off its floor")


print(json.dumps([judge(f) for f in sys.argv[1:]]))
