"""Run by pvbatch: what ParaView finds in every series named, as one JSON object."""

import json
import sys

from paraview.simple import OpenDataFile, UpdatePipeline

found = {}
for name in sys.argv[1:]:
    reader = OpenDataFile(name)
    times = list(reader.TimestepValues)
    arrays = {}
    for time in times:
        UpdatePipeline(time, reader)
        for data in (reader.PointData, reader.CellData, reader.FieldData):
            for i in range(data.GetNumberOfArrays()):
                array = data.GetArray(i)
                arrays.setdefault(array.Name, []).append(array.GetRange(0))
    found[name] = {
        "times": times,
        "points": reader.GetDataInformation().GetNumberOfPoints(),
        "arrays": {key: [min(low for low, _ in ranges), max(high for _, high in ranges)]
                   for key, ranges in arrays.items()},
    }
print("READ " + json.dumps(found))
