"""The clinic room: who the clinic is, how its pages look, whom a patient calls."""
