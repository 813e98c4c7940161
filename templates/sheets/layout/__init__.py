"""How a sheet is laid out: pages, marks, the elevation as SVG."""
