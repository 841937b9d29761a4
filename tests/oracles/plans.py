#!/usr/bin/env python3
"""Floor plans with their free areas, widest discs and door sectors, computed with shapely: writes plans.json.

Usage: python3 tests/oracles/plans.py            (needs shapely 2; the seed is fixed)

The widest disc is found by bisection on the eroded free area and then snapped to the critical value it stands for: half a
distance from a corner to a corner or an edge, or the own clearance of an end. Ends: a point where the disc's centre must
stand, or an area in which its centre may stand anywhere. Five plans carry values worked out by hand beside.
"""
import json, math, os, random
from shapely import affinity
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

FINE = 128


def rect(x, y, w, h):
    return [[x, y], [x + w, y], [x + w, y + h], [x, y + h]]


def pieces(g):
    return [q for q in getattr(g, "geoms", [g]) if q.geom_type == "Polygon" and not q.is_empty]


def critical(free, ends):
    segs, corners = [], []
    for q in pieces(free):
        for ring in [q.exterior, *q.interiors]:
            c = list(ring.coords)
            corners += c[:-1]
            segs += [(a, b) for a, b in zip(c, c[1:]) if a != b]
    out = {free.boundary.distance(e) for e in ends if e.geom_type == "Point"}
    for v in corners:
        for a, b in segs:
            if v not in (a, b):
                dx, dy = b[0] - a[0], b[1] - a[1]
                t = min(1, max(0, ((v[0] - a[0]) * dx + (v[1] - a[1]) * dy) / (dx * dx + dy * dy)))
                out.add(math.hypot(a[0] + t * dx - v[0], a[1] + t * dy - v[1]) / 2)
    return sorted(out)


def widest(free, a, b):
    def passes(r):
        return any(q.distance(a) <= 1e-4 and q.distance(b) <= 1e-4 for q in pieces(free.buffer(-r, quad_segs=FINE)))

    if not passes(1e-3):
        return 0.0
    low, high = 1e-3, 10_000.0
    while high - low > 1e-4:
        mid = (low + high) / 2
        low, high = (mid, high) if passes(mid) else (low, mid)
    near = min(critical(free, [a, b]), key=lambda v: abs(v - low))
    return 2 * (near if abs(near - low) <= 0.05 else low)


def sector(door):
    n = max(8, math.ceil(abs(door["sweep"]) / 0.25))
    d = math.radians(door["sweep"]) / n
    r = door["radius"] * math.sqrt(abs(d) / math.sin(abs(d)))  # the polygon has the sector's area
    (x, y), a = door["hinge"], math.radians(door["start"])
    return Polygon([(x, y)] + [(x + r * math.cos(a + i * d), y + r * math.sin(a + i * d)) for i in range(n + 1)]).buffer(0)


def end(e):
    return Point(e) if not isinstance(e[0], list) else Polygon(e)


def evaluate(plan):
    floor = Polygon(plan["floor"])
    furniture = unary_union([Polygon(p) for p in plan["furniture"]])
    free = floor.difference(furniture)
    plan["free_area"] = round(free.area, 3)
    for route in plan["routes"]:
        route["width"] = round(widest(free, end(route["from"]), end(route["to"])), 4)
    for door in plan["doors"]:
        s = sector(door)
        door["hit_area"], door["outside_area"] = round(s.intersection(furniture).area, 3), round(s.difference(floor).area, 3)
    for route, by_hand in zip(plan["routes"], plan.get("by_hand", [])):
        assert abs(route["width"] - by_hand) < 0.01, (plan["name"], route, by_hand)
    return plan


def door(x, y, radius, start, sweep):
    return {"hinge": [x, y], "radius": radius, "start": start, "sweep": sweep}


def route(a, b):
    return {"from": a, "to": b}


def known():
    """Plans with widths that follow from the figures alone."""
    tri = [[2000, 0], [3000, 0], [2500, 1550]]
    ell = [[0, 0], [3000, 0], [3000, 800], [900, 800], [900, 2500], [0, 2500]]
    return [
        {"name": "aisle beside a bed", "floor": rect(0, 0, 4000, 2000), "furniture": [rect(1000, 0, 2000, 600)],
         "routes": [route([750, 1290], [3250, 1290]), route([800, 1200], [3200, 1200])],
         "by_hand": [1400, 2 * math.hypot(200, 600)], "doors": [door(0, 0, 700, 0, 90)]},
        {"name": "corner to corner, 300 by 400", "floor": rect(0, 0, 4000, 2200),
         "furniture": [rect(1500, 0, 300, 900), rect(2100, 1300, 300, 900)],
         "routes": [route([700, 1100], [3300, 1100])], "by_hand": [500], "doors": []},
        {"name": "room with two legs", "floor": ell, "furniture": [rect(2500, 0, 500, 300)],
         "routes": [route([450, 2050], [2000, 400]), route([450, 2050], [2700, 550])],
         "by_hand": [800, 500], "doors": [door(2000, 0, 700, 0, 90)]},
        {"name": "tip of a triangle", "floor": rect(0, 0, 5000, 2000), "furniture": [tri],
         "routes": [route([900, 1000], [4100, 1000])], "by_hand": [450], "doors": [door(1700, 0, 600, 0, 180)]},
        {"name": "island and a full partition", "floor": rect(0, 0, 6000, 2150),
         "furniture": [rect(1500, 600, 1000, 800), rect(4000, 0, 100, 2150)],
         "routes": [route([750, 1000], [3250, 1000]), route([750, 1000], [5000, 1000])],
         "by_hand": [750, 0], "doors": [door(0, 0, 500, 0, 180)]},
        {"name": "benches that touch the walls and each other", "floor": rect(0, 0, 3000, 2000),
         "furniture": [rect(0, 0, 3000, 600), rect(0, 1250, 1500, 750), rect(1500, 1100, 700, 900)],
         "routes": [route([700, 925], [2700, 1300]), route([700, 925], rect(2300, 1300, 500, 500))],
         "by_hand": [500, 500], "doors": [door(3000, 2000, 650, 180, 90)]},
    ]


def shape(rng, kind):
    x, y = rng.uniform(0, 4000), rng.uniform(0, 2200)
    if kind == "rect":
        return rect(round(x / 10) * 10, round(y / 10) * 10, rng.randrange(200, 900, 10), rng.randrange(200, 700, 10))
    if kind == "triangle":
        return [[x, y], [x + rng.uniform(200, 800), y + rng.uniform(-100, 200)], [x + rng.uniform(0, 400), y + rng.uniform(300, 700)]]
    box = affinity.rotate(Polygon(rect(x, y, rng.uniform(200, 800), rng.uniform(150, 500))), rng.uniform(0, 90))
    return [list(p) for p in box.exterior.coords[:-1]]


def free_point(rng, free):
    x0, y0, x1, y1 = free.bounds
    for _ in range(10_000):
        p = Point(round(rng.uniform(x0, x1), 2), round(rng.uniform(y0, y1), 2))
        if free.contains(p) and free.boundary.distance(p) > 60:
            return [p.x, p.y]
    raise ValueError("no free point")


def along_walls(rng, length, width):
    """Furniture as it stands in a living box: along both long walls, with an aisle between."""
    found = []
    for at_right in [False, True]:
        x = rng.randrange(0, 400, 5)
        while x < length - 300:
            run, depth = min(rng.randrange(300, 1500, 5), length - x), rng.randrange(250, 900, 5)
            found.append(rect(x, width - depth if at_right else 0, run, depth))
            x += run + rng.choice([0, 0, 20, rng.randrange(300, 900, 5)])
    return found


def later_plan(number):
    """Two hundred plans need short entries: three ways each, no doors."""
    rng = random.Random(number)
    length, width = rng.randrange(3000, 6500, 10), rng.randrange(1800, 2500, 10)
    floor = rect(0, 0, length, width)
    if number % 2:
        furniture = along_walls(rng, length, width)
    else:
        kinds = rng.choice([["rect"], ["rect", "triangle"], ["rect", "box"], ["box", "triangle"]])
        furniture = [[[round(v, 1) for v in p] for p in shape(rng, rng.choice(kinds))] for _ in range(rng.randint(3, 9))]
    free = Polygon(floor).difference(unary_union([Polygon(p) for p in furniture]))
    area = [[round(v, 1) for v in p] for p in shape(rng, rng.choice(["rect", "box"]))]
    routes = [route(*two_apart(rng, free)) for _ in range(2)] + [route(roomy_point(rng, free), area)]
    return {"name": f"later {number}", "floor": floor, "furniture": furniture, "routes": routes, "doors": []}


def roomy_point(rng, free):
    """The roomiest of some free points, so that the way to it is narrowest somewhere on the way."""
    return max((free_point(rng, free) for _ in range(20)), key=lambda p: free.boundary.distance(Point(p)))


def two_apart(rng, free):
    """Two roomy points, the farther apart of some pairs."""
    pairs = [(roomy_point(rng, free), roomy_point(rng, free)) for _ in range(4)]
    return max(pairs, key=lambda pair: math.dist(*pair))


def random_plan(number):
    rng = random.Random(number)
    length, width = rng.randrange(3000, 5000, 10), rng.randrange(1800, 2500, 10)
    floor = rect(0, 0, length, width)
    if number % 3 == 0:
        a, b = rng.randrange(900, 1600, 10), rng.randrange(800, 1200, 10)
        floor = [[0, 0], [length, 0], [length, b], [a, b], [a, width], [0, width]]
    kinds = [["rect"], ["rect", "triangle"], ["rect", "box"], ["box", "triangle", "rect"]][number % 4]
    furniture = [[[round(v, 3) for v in p] for p in shape(rng, rng.choice(kinds))] for _ in range(rng.randint(3, 10))]
    free = Polygon(floor).difference(unary_union([Polygon(p) for p in furniture]))
    routes = [route(free_point(rng, free), free_point(rng, free)) for _ in range(3)]
    for kind in ["rect", "box", "triangle"]:
        area = [[round(v, 3) for v in p] for p in shape(rng, kind)]
        routes.append(route(free_point(rng, free), area))
    routes.append(route([[round(v, 3) for v in p] for p in shape(rng, "box")], [[round(v, 3) for v in p] for p in shape(rng, "rect")]))
    doors = [door(rng.randrange(0, 3000), rng.randrange(0, 2000), rng.randrange(400, 800), rng.randrange(0, 360), rng.choice([90, -90, 120]))]
    return {"name": f"random {number}", "floor": floor, "furniture": furniture, "routes": routes, "doors": doors}


if __name__ == "__main__":
    plans = [evaluate(plan) for plan in known() + [random_plan(n) for n in range(1, 41)] + [later_plan(n) for n in range(1, 171)]]
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "plans.json")
    with open(path, "w") as file:
        file.write("[\n" + ",\n".join(json.dumps(plan, separators=(",", ":")) for plan in plans) + "\n]\n")
    print(len(plans), "plans,", sum(len(plan["routes"]) for plan in plans), "routes")
