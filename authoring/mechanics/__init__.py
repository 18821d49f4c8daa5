"""What a still pose asks of the body: contact forces, joint moments, and how sure they are.

An estimate is for clinicians and for the check of a ladder's order. It never chooses a
variant and never moves a patient on.
"""
