"""What stands where on a blank chart, as plain data: curves of the grids, marks and numbers of the scales.

The curves' geometry is core's. Here is chosen which of them are printed, in what weight, and where there is room for
which number; the screen's chart and the one on paper both draw this. Positions are in the plane of reflection, where
the rim has radius one; angles in radians, counter-clockwise from the right.
"""
