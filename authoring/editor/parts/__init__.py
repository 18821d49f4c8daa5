"""Widgets and painters that every room shares, made from the tokens only."""
