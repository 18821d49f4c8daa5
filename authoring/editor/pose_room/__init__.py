"""The room where movements are posed: pull the body on the drawing, or type angles."""
