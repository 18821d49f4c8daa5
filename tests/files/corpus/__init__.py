"""Files written by hand from the format reference, with what is wrong with the wrong ones."""
