#!/usr/bin/python3
"""Reads a study's table with ordinary tools: read_study.py study.h5"""
import sys
import h5py
import pandas

with h5py.File(sys.argv[1]) as study:
    columns = [name.decode() for name in study["provenance/columns"][()]]
    values = {name: study["rows"][name][()] for name in columns}
    units = {name: study["rows"][name].attrs["unit"].decode() for name in columns}
words = {name: column.astype(str) for name, column in values.items() if column.dtype.kind == "S"}
table = pandas.DataFrame({**values, **words})[columns].set_index("row")
table.attrs["units"] = units  # "um", "1/h", ...; NaN stands where the model gives no value
print(table.describe().T[["mean", "min", "max"]].assign(unit=pandas.Series(units)).to_string())

try:  # the same with named dimensions and the units beside each column
    import xarray
    dataset = xarray.Dataset.from_dataframe(table)
    for name in dataset.data_vars:
        dataset[name].attrs["units"] = units[name]
    print(dataset)
except ImportError:
    pass
