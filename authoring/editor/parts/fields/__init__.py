"""Controls that show and edit one immutable value each."""
