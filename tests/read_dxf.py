"""Reads a drawing exchange file with ezdxf and tells what is in it, a line each: for tests/patterns.rs."""

import sys

import ezdxf

document = ezdxf.readfile(sys.argv[1])
print("units", document.units)
print("version", document.dxfversion)
print("faults", len(document.audit().errors))
for entity in document.modelspace():
    kind = entity.dxftype()
    layer = entity.dxf.layer
    if kind == "POLYLINE":
        points = [vertex.dxf.location for vertex in entity.vertices]
        if entity.is_closed:
            points.append(points[0])
        length = sum((b - a).magnitude for a, b in zip(points, points[1:]))
        print("polyline", layer, length)
    elif kind == "CIRCLE":
        print("circle", layer, entity.dxf.radius * 2)
    elif kind == "TEXT":
        print("text", layer, entity.dxf.height)
    else:
        print("other", layer, kind)
