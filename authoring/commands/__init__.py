"""The work behind each command: values in, values out, nothing printed."""
