"""Texts that are no dose: the characters that failed, what is said, and how to mend it.

The signs ‹ and › stand around the characters that failed.
"""

import pytest

from authoring.dosage.shorthand import ShorthandError, parse_dose

REFUSED = [
    (
        "3 x‹›",
        "The repetitions are missing.",
        "Write them, as in '3 x 10', or what ends the set, as in '3 x to fatigue'.",
    ),
    ("‹x› 10", "The number before 'x' is missing.", "Write such as '3 x 10'."),
    ("3 ‹y› 8", "'y' is not understood here.", "Leave it out, or use the forms."),
    ("3 x 8‹-›", "The range has no upper end.", "Write such as 8-12."),
    ("3 x ‹12-8›", "The range runs backwards.", "Write '8-12'."),
    ("3 x 8‹+›", "'+' leaves the upper end open.", "Write a range, such as 8-12."),
    ("3 x ‹8.5›", "'8.5' must be a whole number here.", "Write 8 or 9."),
    ("‹0› x 8", "A dose of nothing is no dose.", "Write 1 or more."),
    ("3 x ‹0›", "A dose of nothing is no dose.", "Write 1 or more."),
    (
        "3 x ‹8-10-12›",
        "A range has two ends, and here are more.",
        "For a tempo write 'tempo 3-1-1-0'.",
    ),
    (
        "3 x 8 x ‹5›",
        "It is not said what the third number counts.",
        "Write its unit, such as '3 x 10 x 5 s hold'.",
    ),
    (
        "3 x 8 x 5 x ‹2› s hold",
        "A dose multiplies at most three numbers.",
        "Write sets x holds x seconds, such as 3 x 10 x 5 s hold.",
    ),
    (
        "‹3 x 12/10›",
        "2 numbers are listed for 3 sets.",
        "List one number for each set, or one for all.",
    ),
    (
        "‹4 x 12,10,8›",
        "3 numbers are listed for 4 sets.",
        "List one number for each set, or one for all.",
    ),
    (
        "12,10‹/›8",
        "The list mixes commas and slashes, or is spaced unevenly.",
        "Part all its numbers alike, such as 12/10/8.",
    ),
    (
        "‹3/7›",
        "'3/7' can be two sets, or days, weeks or months.",
        "Write '2 x 3/7' for sets, or such as '3/wk' for days a week.",
    ),
    (
        "5 x 45 ‹›hold",
        "The unit of the hold is missing.",
        "Write 's' for seconds or 'min' for minutes, as in '5 x 45 s hold'.",
    ),
    ("5 x 45 ‹sx› hold", "'sx' is no unit of work.", "Did you mean 's' (seconds)?"),
    ("5 x 45 ‹m› hold", "'m' is metres.", "Did you mean 'min' (minutes)?"),
    ("5 x 45 ‹mn› hold", "'mn' is no unit of work.", "Did you mean 'min' (minutes)?"),
    ("hold‹›", "A number is missing here.", "Write it, such as 10 or 8-12."),
    ("hold 30‹›", "The unit of time is missing.", "Write 's' for seconds or 'min' for minutes."),
    (
        "‹rest 90 s›",
        "The dose has no sets, time or distance.",
        "Start with the work, such as '3 x 8-12', '5 x 45 s hold' or '10 min'.",
    ),
    (
        "3 x 8, rest‹›",
        "The time of the rest is missing.",
        "Write such as 'rest 90 s', 'rest 1:1' or 'rest until ready'.",
    ),
    (
        "3 x 8, rest 90‹›",
        "The unit of time is missing.",
        "Write 's' for seconds or 'min' for minutes.",
    ),
    ("3 x 8, rest 2 ‹m›", "'m' is metres.", "Did you mean 'min' (minutes)?"),
    (
        "3 x 8, rest ‹1:30›",
        "This can be minutes and seconds, or work to rest.",
        "Write the time with its unit, such as '90 s', or the ratio as '1:2'.",
    ),
    ("3 x 8, rest 90 s, ‹rest 60 s›", "The rest is given twice.", "Leave one out."),
    ("3 x 8, rest ‹0:1›", "Rest can't be compared with no work.", "Write such as 'rest 1:2'."),
    ("3 x 8, 90 s ‹rst›", "'rst' is not understood after a time.", "Did you mean 'rest'?"),
    (
        "3 x 8 @‹›",
        "The load after '@' is missing.",
        "Write such as '@ 5 kg', '@ 70% 1RM' or '@ RPE 7'.",
    ),
    (
        "3 x 8 @ ‹70%›",
        "It is not said what this is a percentage of.",
        "Write '% 1RM' for weights or '% MVC' for the strongest effort.",
    ),
    ("3 x 8 @ 70% 1‹RN›", "'RN' is no known maximum.", "Did you mean 'RM' (repetition maximum)?"),
    (
        "3 x 8 @ 70‹›",
        "The unit of the load is missing.",
        "Write such as 'kg', '% 1RM' or 'RM' after the number.",
    ),
    (
        "3 x 8 @ ‹70,80›% 1RM",
        "The comma in '70,80' can be read in two ways.",
        "Write '70.80%' or '70/80%'.",
    ),
    (
        "3 x 8 ‹@ 70/80% 1RM›",
        "2 percentages are listed for 3 sets.",
        "List one for each set, or one for all.",
    ),
    (
        "3 x 8 @ RPE ‹13›",
        "Effort goes from 0 to 10 here.",
        "Turn a rating of the 6 to 20 scale into one from 0 to 10.",
    ),
    ("3 x 8 @ ‹RPX› 7", "'RPX' is no load.", "Did you mean 'RPE' (effort from 0 to 10)?"),
    ("3 x 8 @ ‹heavy›", "'heavy' is no load.", "Write such as '@ 5 kg', '@ 70% 1RM' or '@ RPE 7'."),
    (
        "3 x 8 @ ‹1,000› kg",
        "The comma in '1,000' can be read in two ways.",
        "Write '1000' or '1.000'.",
    ),
    ("3 x 8 @ 30 ‹s›", "A time is no load.", "Leave out the '@'."),
    ("3 x 8 @ 5 ‹kgg›", "'kgg' is no unit of load.", "Did you mean 'kg'?"),
    ("3 x 8 @ BW +‹›", "A number is missing here.", "Write it, such as 10 or 8-12."),
    ("3 x 8 @ BW + 5‹›", "The unit of weight is missing.", "Write 'kg'."),
    ("3 x 8 @ BW vest‹›", "The added weight is missing.", "Write such as 'BW + 5 kg vest'."),
    (
        "3 x 8 @ 2 kg in ‹1 lb› steps",
        "Amount, step and cap have different units.",
        "Write all of them in one unit.",
    ),
    ("3 x 8 @ 2 kg in 1 kg‹›", "'steps' is missing here.", "Write such as 'in 0.5 kg steps'."),
    ("3 x 8 @ band:‹›", "Words are missing here.", "Write them, such as 'band: medium'."),
    ("3 x 8 @ surface:‹›", "Words are missing here.", "Write them, such as 'surface: foam'."),
    (
        "3 x 8 @ red band (kit ‹Red›)",
        "This is no id of kit.",
        "Write it in small letters, digits and hyphens, such as 'light-band'.",
    ),
    ("3 x 8 @ red band (20‹)›", "The unit of force is missing.", "Write 'N' for newtons."),
    ("3 x 8 @ ‹3-1›-1-0", "This is no load.", "For a tempo write 'tempo 3-1-1-0'."),
    (
        "3 x 8 tempo ‹3-1›",
        "A tempo has three or four parts, and here are 2.",
        "Write lowering, pause, lifting, pause, such as 'tempo 3-1-1-0'.",
    ),
    (
        "3 x 8 tempo ‹3-1-1-0-0›",
        "A tempo has three or four parts, and here are 5.",
        "Write lowering, pause, lifting, pause, such as 'tempo 3-1-1-0'.",
    ),
    (
        "3 x 8 tempo ‹X-1-1-0›",
        "Only the third part of a tempo, lifting, can be 'X'.",
        "Write seconds for the other parts, such as 'tempo 3-1-X-0'.",
    ),
    (
        "3 x 8 tempo ‹fast›",
        "Seconds are missing in the tempo.",
        "Write lowering, pause, lifting, pause, such as 'tempo 3-1-1-0'.",
    ),
    ("3 x 8, ‹500› bpm", "A beat goes from 10 to 300 a minute.", "Write such as '60 bpm'."),
    (
        "3 x 8, pause 2 s‹›",
        "It is not said where the pause is.",
        "Write 'at bottom' or 'at top' after it.",
    ),
    (
        "3 x 8, lower 3‹›",
        "The unit of time is missing.",
        "Write 's' for seconds or 'min' for minutes.",
    ),
    (
        "3 x 8, lower ‹200› s",
        "A part of a movement takes at most 120 seconds.",
        "Write fewer seconds.",
    ),
    (
        "3 x 8, hip ‹0›-90 deg",
        "The movement of the joint is missing.",
        "Write it, such as 'hip flexion 0-90 deg'.",
    ),
    ("3 x 8, knee 0-90‹›", "The unit of the angle is missing.", "Write 'deg' after it."),
    (
        "3 x 8, knee 90 deg‹›",
        "The other end of the range is missing.",
        "Write such as 0-45 deg.",
    ),
    ("3 x 8, ‹knee 0-300 deg›", "Angles go from -60 to 200 degrees.", "Write smaller angles."),
    (
        "3 x 8 ‹left›",
        "A dose does not name left or right.",
        "Write 'affected side' or 'other side', so that it fits both.",
    ),
    (
        "3 x 8 ‹both sides›",
        "'both sides' can be read in two ways.",
        "Write 'both together' or 'each side'.",
    ),
    (
        "3 x 8 ‹alt›",
        "'alt' can be read in two ways.",
        "Write 'alternate' for the sides or 'alt days' for the days.",
    ),
    (
        "3 x 8 ‹qd›",
        "'qd' can be read in two ways.",
        "Write 'od' for once a day or 'qds' for four times a day.",
    ),
    ("3 x 8 ‹qod›", "'qod' can be read in two ways.", "Write 'alt days'."),
    (
        "3 x ‹AMRAP›",
        "'AMRAP' does not say what ends the set.",
        "Write 'to fatigue' or 'max good form'.",
    ),
    (
        "3 x 8, ‹8›/wk",
        "A week has 7 days.",
        "Write days a week, and times a day apart, such as '7/wk, bd'.",
    ),
    ("3 x 8, 3/wk, ‹4/wk›", "Days a week is given twice.", "Leave one out."),
    (
        "3 x 8, ‹2 times›",
        "It is not said how often these times come.",
        "Write such as '2 times a day' or '3/wk'.",
    ),
    ("3 x 8, every 3‹›", "The unit after 'every' is missing.", "Write 'days' or 'hours'."),
    ("3 x 8, max 3 days‹›", "It is not said what these days are.", "Write 'max 3 days running'."),
    ("3 x 8, ‹30› hourly", "This must be one number from 1 to 24.", "Write one number."),
    (
        "3 x 8, ‹max 20 s›",
        "The limit of a session is 1 to 480 whole minutes.",
        "Write such as 'max 20 min'.",
    ),
    (
        "3 x 8, at least 3‹›",
        "It is not said at least what.",
        "Write such as 'at least 3 sessions'.",
    ),
    (
        "3 x 8, ‹5› x 30 s hold",
        "A dose has only one amount of work.",
        "Join two choices with 'or', or write a row for each week, such as 'wk 3-4: 3 x 10'.",
    ),
    ("3 x 8 ‹evry› day", "'evry' is not understood here.", "Did you mean 'every'?"),
    (
        "3 x 8 or ‹10›",
        "This choice is only a number.",
        "Write a range, such as 8-10, or whole doses on both sides of 'or'.",
    ),
    (
        "‹2› or 3 x 8",
        "This choice is only a number.",
        "Write a range, such as 8-10, or whole doses on both sides of 'or'.",
    ),
    (
        "3 x 8, rest 60 s ‹or› 10 min",
        "It is not clear what 'or' chooses between.",
        "Put each whole choice in brackets, such as (3 x 10, rest 60 s) or (5 x 30 s hold).",
    ),
    (
        "‹(›3 x 8",
        "Brackets hold choices joined by 'or', or intervals after 'x'.",
        "Leave the brackets out.",
    ),
    (
        "‹(›3 x 8)",
        "Brackets hold choices joined by 'or', or intervals after 'x'.",
        "Leave the brackets out.",
    ),
    ("3 x 8‹)›", "This bracket closes nothing.", "Leave it out."),
    (
        "3 x 8 or‹›",
        "The dose has no sets, time or distance.",
        "Start with the work, such as '3 x 8-12', '5 x 45 s hold' or '10 min'.",
    ),
    (
        "6 x (1 min run / ‹2 min›)",
        "It is not said what is done in this part.",
        "Write it after the time or distance, as in '1 min run'.",
    ),
    (
        "6 x (1 ‹m› run / 2 m walk)",
        "'m' is metres, and this is a very short way.",
        "Write 'min' for minutes, or 'metres'.",
    ),
    ("6 x (‹run› / walk)", "A number is missing here.", "Write it, such as 10 or 8-12."),
    (
        "6 x 1 min ‹run› / 2 min walk",
        "'run' is not understood here.",
        "Leave it out, or write intervals, such as 6 x (1 min run / 2 min walk).",
    ),
    (
        "20 min ‹walk›",
        "'walk' is not understood here.",
        "Leave it out, or write intervals, such as 6 x (1 min run / 2 min walk).",
    ),
    (
        "‹warm-up 5 min walk›, 3 x 8",
        "A warm-up or cool-down belongs to intervals.",
        "Write the intervals too, such as 6 x (1 min run / 2 min walk).",
    ),
    (
        "3 x 8, ‹rest 5 s between holds›",
        "There are no holds to rest between.",
        "Write 'rest' alone for the rest between sets.",
    ),
    (
        "3 x 8, rest 5 s between‹›",
        "It is not said between what.",
        "Write 'between sets' or 'between holds'.",
    ),
    ("wk 1-2‹› 3 x 8", "The colon after the weeks is missing.", "Write such as 'wk 1-2: 3 x 8'."),
    ("wk 1-2:‹›", "The row is empty.", "Write what changes in it, or 'same'."),
    (
        "wk 1-2: 3 x 8; ‹wk 2-3›: 3 x 10",
        "The weeks of this row overlap those of the row before.",
        "Let each row start after the last week of the row before.",
    ),
    ("wk ‹2-1›: 3 x 8", "The range runs backwards.", "Write '1-2'."),
    ("wk ‹0›: 3 x 8", "Weeks go from 1 to 520.", "Write such as 'wk 1-2:'."),
    (
        "wk 1+: 3 x 8; ‹wk 4›: 3 x 10",
        "The weeks of this row overlap those of the row before.",
        "Let each row start after the last week of the row before.",
    ),
    (
        "wk 1: 3 x 8‹;› rest 60 s",
        "After ';' only rows may follow here.",
        "Start each row with its weeks, such as 'wk 3-4:', or join the clause with a comma.",
    ),
    (
        "wk 1: 3 x 8 ‹each side›",
        "The side can't change from row to row.",
        "Write it before the first row.",
    ),
    ("wk ‹600›: 3 x 8", "Weeks go from 1 to 520.", "Write such as 'wk 1-2:'."),
    (
        "‹rest 60 s; wk 1: slow›",
        "The dose has no sets, time or distance.",
        "Start with the work, such as '3 x 8-12', '5 x 45 s hold' or '10 min'.",
    ),
    ("3 x 8 ‹no load›", "'no load' only changes a dose in some weeks.", "Leave it out."),
    ("‹½› x 8", "'½' is not understood here.", "Leave it out, or use the forms."),
    (
        "3 x 8, 10‹'›",
        "This sign can mean minutes or feet.",
        "Write 'min' for minutes or 'm' for metres.",
    ),
    ("‹1› min 90 s hold", "The time can't be added up.", "Write it in seconds."),
    (
        "‹3 x 8 x 5 min›",
        "It is not said that these times are holds.",
        "Write 'hold' after the time, as in '3 x 10 x 5 s hold'.",
    ),
    ("total‹›", "A number is missing here.", "Write it, such as 10 or 8-12."),
    ("total 100 in 5‹›", "'sets' is missing here.", "Write 'in up to 5 sets'."),
    (
        "3 x 8 ‹kg›",
        "'kg' is a unit of load, not of work.",
        "Write the load after '@', as in '@ 5 kg'.",
    ),
    (
        "3 x 5 ‹cm›",
        "'cm' is a unit of load, not of work.",
        "Write the load after '@', as in '@ 5 cm'.",
    ),
    (
        "3 x ‹99999999›",
        "99999999 is too large or too exact for a dose.",
        "Write a number up to 1000000.",
    ),
    ("3 x 8 max good form ‹max› good form", "The end of a set is given twice.", "Leave one out."),
    ("3 x 10, rest ‹1.5› s", "'1.5' must be a whole number here.", "Write 1 or 2."),
    (
        "1-‹2,5› x 8",
        "The comma in '2,5' can be read in two ways.",
        "Write '2/5', or '2, 5' with a space after the comma.",
    ),
    (
        "3 x 8, ‹5/7›",
        "This can be two sets, or days, weeks or months.",
        "Write days a week such as '3/wk'.",
    ),
    (
        "3 x 8 ‹3/7›",
        "This can be two sets, or days, weeks or months.",
        "Write days a week such as '3/wk'.",
    ),
    ("3 x 8, ‹afected› side", "'afected' is not understood here.", "Did you mean 'affected'?"),
    ("3 x 8, ‹full rnge›", "'full rnge' is not understood here.", "Did you mean 'full range'?"),
    ("3 x 8 @ RPE‹›", "A number is missing here.", "Write it, such as 10 or 8-12."),
    ("3 x 8 @ ‹5:3›/km", "This is no time of minutes and seconds.", "Write such as 5:30/km."),
    ("3 x 8, rest ‹untl› ready", "The time of the rest is missing.", "Did you mean 'until'?"),
    (
        "3 x 8; ‹3› x 10",
        "A dose has only one amount of work.",
        "Join two choices with 'or', or write a row for each week, such as 'wk 3-4: 3 x 10'.",
    ),
    ("3 x 8, tempo 3-1-1-0, ‹lower 2 s›", "The time to lower is given twice.", "Leave one out."),
    (
        "3 x 8 @ RPE 7 @ RPE 7 @ RPE 7 @ RPE 7 @ RPE 7 @ RPE 7 ‹@ RPE 7›",
        "A dose has at most 6 loads.",
        "Leave some out.",
    ),
    ("3 x 10, rest 1:1‹:›1", "The sign ':' has no meaning here.", "Leave it out."),
    ("5 ‹miles›", "Distances are in metres or kilometres.", "Turn it into 'm' or 'km'."),
    (
        "3 sets‹›",
        "The repetitions are missing.",
        "Write them, as in '3 x 10', or what ends the set, as in '3 x to fatigue'.",
    ),
    (
        "3 sets of‹›",
        "The repetitions are missing.",
        "Write them, as in '3 x 10', or what ends the set, as in '3 x to fatigue'.",
    ),
    (
        "rest as long as set, 3x10 reps ‹(›each side)",
        "Brackets hold choices joined by 'or', or intervals after 'x'.",
        "Leave the brackets out.",
    ),
    (
        "‹3 x 10› (5 s hold)",
        "Intervals have one number of rounds before their bracket.",
        "Write such as 6 x (1 min run / 2 min walk), or leave the brackets out.",
    ),
    (
        "(((3 x 8 or ‹10›) or 9) or 8) or 7",
        "This choice is only a number.",
        "Write a range, such as 8-10, or whole doses on both sides of 'or'.",
    ),
]


@pytest.mark.parametrize(("marked", "sentence", "mend"), REFUSED, ids=[row[0] for row in REFUSED])
def test_a_bad_text_is_refused_at_its_bad_characters(marked: str, sentence: str, mend: str) -> None:
    text = marked.replace("‹", "").replace("›", "")
    with pytest.raises(ShorthandError) as caught:
        parse_dose(text)
    found = caught.value
    assert (found.sentence, found.mend) == (sentence, mend)
    shown = f"{text[: found.start]}‹{text[found.start : found.end]}›{text[found.end :]}"
    assert shown == marked
    assert str(found) == f"{sentence} {mend}"


@pytest.mark.parametrize("text", ["", "   ", "\n", "\u202f"])
def test_an_empty_text_asks_for_a_dose(text: str) -> None:
    with pytest.raises(ShorthandError) as caught:
        parse_dose(text)
    assert (caught.value.start, caught.value.end) == (0, len(text))
    assert str(caught.value) == "The dose is empty. Write such as '3 x 8-12'."


LONG = [
    *("3 x 8, " * 1400, "(" * 9000, "1," * 4900, "1-" * 4900, "1/" * 4900, "x " * 4900),
    *("a" * 9000, "or " * 3300, "3 x 8 or " * 1100, "wk 1: " * 1600, "9" * 9000),
    *("3 x 8 @ " + "band " * 1900, "6 x (" + "1 min run / " * 800, "3 x 8" + " " * 20_000 + "y"),
]


@pytest.mark.parametrize("text", LONG, ids=[text[:12] for text in LONG])
def test_a_long_text_is_refused_too(text: str) -> None:
    with pytest.raises(ShorthandError) as caught:
        parse_dose(text)
    assert 0 <= caught.value.start <= caught.value.end <= len(text)
    assert len(str(caught.value)) < 250
