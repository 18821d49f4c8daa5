"""Drawing people: a pose becomes a body in space, then a picture in plain SVG."""
