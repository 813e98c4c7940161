"""Drawing sheets: one wall a page, to a round scale, chains from one datum, a schedule, a title block; and DXF."""
