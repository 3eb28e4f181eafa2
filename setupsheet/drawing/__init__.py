"""Plan and solid to ink, and ink to DXF and SVG."""
