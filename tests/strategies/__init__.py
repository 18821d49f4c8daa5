"""Hypothesis strategies that several rooms' tests share."""
