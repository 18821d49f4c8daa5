"""The library room: find anything, see what needs attention, change words everywhere."""
