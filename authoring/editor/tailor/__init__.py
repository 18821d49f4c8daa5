"""The tailor room: answer for one patient, see the plan with its reasons, print."""
