#!/usr/bin/env python3
"""Computes frames with CalculiX: see README.md."""
import json
import os
import re
import subprocess
import sys
import tempfile

E, G = 10000.0, 4000.0  # G/E of a solid with Poisson's ratio 0.25
PER = 12                # elements for each bar

# A frame: nodes (x, y, z, fixed moves as digits 1 to 6), bars (a, b, wide, high,
# the direction of its own z, across which it is wide), loads (node, direction, N).
FRAMES = [
    ("portal, hinged feet, push", [
        (0, 0, 0, "12345"), (0, 700, 0, ""), (900, 700, 0, ""), (900, 0, 0, "12345")],
     [(0, 1, 40, 18), (1, 2, 40, 18), (2, 3, 40, 18)], [(1, 1, 30.0)], (1, 1)),
    ("portal, fixed feet, push", [
        (0, 0, 0, "123456"), (0, 700, 0, ""), (900, 700, 0, ""), (900, 0, 0, "123456")],
     [(0, 1, 40, 18), (1, 2, 40, 27), (2, 3, 40, 18)], [(1, 1, 30.0)], (1, 1)),
    ("two bays, two storeys, push", [
        (0, 0, 0, "123456"), (600, 0, 0, "123456"), (1200, 0, 0, "123456"),
        (0, 500, 0, ""), (600, 500, 0, ""), (1200, 500, 0, ""),
        (0, 900, 0, ""), (600, 900, 0, ""), (1200, 900, 0, "")],
     [(0, 3, 30, 18), (1, 4, 30, 18), (2, 5, 30, 18), (3, 6, 30, 18), (4, 7, 30, 18), (5, 8, 30, 18),
      (3, 4, 30, 18), (4, 5, 30, 18), (6, 7, 30, 18), (7, 8, 30, 18)], [(6, 1, 40.0), (7, 2, -200.0)], (6, 1)),
    ("a stool in space, push and load", [
        (0, 0, 0, "123456"), (400, 0, 0, "123456"), (400, 0, 300, "123456"), (0, 0, 300, "123456"),
        (0, 450, 0, ""), (400, 450, 0, ""), (400, 450, 300, ""), (0, 450, 300, "")],
     [(0, 4, 20, 20), (1, 5, 20, 20), (2, 6, 20, 20), (3, 7, 20, 20),
      (4, 5, 20, 20), (5, 6, 20, 20), (6, 7, 20, 20), (7, 4, 20, 20)], [(4, 1, 40.0), (6, 3, 25.0), (5, 2, -300.0)], (4, 1)),
]


def deck(nodes, bars, loads):
    lines, elements, n, e = ["*NODE"], [], len(nodes), 0
    ids = {i: i + 1 for i in range(len(nodes))}
    for i, p in enumerate(nodes):
        lines.append("%d,%g,%g,%g" % (ids[i], *p[:3]))
    groups = []
    for k, (a, b, wide, high) in enumerate(bars):
        chain = [ids[a]]
        for s in range(1, PER):
            n += 1
            p = [nodes[a][c] + (nodes[b][c] - nodes[a][c]) * s / PER for c in range(3)]
            lines.append("%d,%.9g,%.9g,%.9g" % (n, *p))
            chain.append(n)
        chain.append(ids[b])
        group = []
        for s in range(PER):
            e += 1
            group.append("%d,%d,%d" % (e, chain[s], chain[s + 1]))
        groups.append((k, group, a, b, wide, high))
    for k, group, a, b, wide, high in groups:
        lines.append("*ELEMENT,TYPE=B31,ELSET=BAR%d" % k)
        lines += group
    lines += ["*MATERIAL,NAME=M", "*ELASTIC", "%g,0.25" % E]
    for k, group, a, b, wide, high in groups:
        along_z = abs(nodes[b][2] - nodes[a][2]) > 1
        across = "1,0,0" if along_z else "0,0,1"
        lines += ["*BEAM SECTION,ELSET=BAR%d,MATERIAL=M,SECTION=RECT" % k, "%g,%g" % (wide, high), across]
    lines.append("*BOUNDARY")
    for i, p in enumerate(nodes):
        for d in p[3]:
            lines.append("%d,%s" % (ids[i], d))
    lines += ["*NSET,NSET=ALL"] + ["%d" % ids[i] for i in range(len(nodes))]
    lines += ["*STEP", "*STATIC", "*CLOAD"] + ["%d,%d,%g" % (ids[a], d, f) for a, d, f in loads]
    lines += ["*NODE PRINT,NSET=ALL", "U", "*END STEP", ""]
    return "\n".join(lines)


def run_text(text):
    with tempfile.TemporaryDirectory() as dir:
        with open(os.path.join(dir, "f.inp"), "w") as f:
            f.write(text)
        out = subprocess.run(["ccx", "f"], cwd=dir, capture_output=True, text=True, timeout=120).stdout
        moves = {}
        with open(os.path.join(dir, "f.dat")) as f:
            for line in f:
                m = re.match(r"\s*(\d+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$", line)
                if m:
                    moves[int(m[1]) - 1] = [float(v) for v in m.groups()[1:]]
        version = re.search(r"Version (\S+)", out)
        return moves, version[1].rstrip(",") if version else "?"


def main():
    out = []
    version = "?"
    for name, nodes, bars, loads, at in FRAMES:
        moves, version = run_text(deck(nodes, bars, loads))
        out.append({"name": name, "nodes": [[*p[:3], p[3]] for p in nodes], "bars": [list(b) for b in bars],
                    "loads": [list(l) for l in loads], "node": at[0], "axis": at[1], "move_mm": moves[at[0]][at[1] - 1]})
        print("%-40s %.5f mm" % (name, out[-1]["move_mm"]))
    doc = {"program": "CalculiX", "package": "calculix-ccx", "version": version, "modulus_mpa": E, "shear_mpa": G, "frames": out}
    if "--write" in sys.argv:
        path = os.path.join(os.path.dirname(__file__), "..", "..", "internal", "mech", "frame", "testdata", "fe.json")
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "w") as f:
            json.dump(doc, f, indent=1)
            f.write("\n")


if __name__ == "__main__":
    main()
