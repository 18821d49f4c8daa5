"""What is printed is the page itself: same sheets, same size, same ink."""

from pathlib import Path

import pypdfium2
import pytest
from PIL import Image, ImageChops, ImageFilter, ImageStat
from PySide6.QtGui import QPageRanges, QPageSize
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QApplication

from authoring.editor.page.making import make_page
from authoring.editor.page.printing import PrintJob, print_page, printer_for
from authoring.editor.page.wish import PageFault
from authoring.editor.workers import Stopped, Token
from authoring.handout.document import PageSize
from tests.editor import page_jobs as pages

pytestmark = pytest.mark.usefixtures("qapp")


@pytest.fixture
def printer(qapp: QApplication, tmp_path: Path) -> QPrinter:
    """A printer that prints to a file, at 150 dots an inch."""
    made = printer_for(pages.job(stages=(1,)), PageSize.A4, 4)
    made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    made.setOutputFileName(str(tmp_path / "printed.pdf"))
    made.setFullPage(True)
    made.setResolution(150)
    return made


def printed(printer: QPrinter) -> pypdfium2.PdfDocument:
    return pypdfium2.PdfDocument(printer.outputFileName())


def drawn(pdf: pypdfium2.PdfDocument, page: int) -> Image.Image:
    """A page at 50 dots an inch in grey, as PDFium draws it: an outside judge of ink."""
    return pdf[page].render(scale=50 / 72).to_pil().convert("L")


SHIFTS = [(x, y) for x in (0, -1, 1) for y in (0, -1, 1, -2, 2)]
"""In dots of half a millimetre."""


def thirds(pdf: pypdfium2.PdfDocument, page: int) -> list[Image.Image]:
    """Top, middle and foot of a page, blurred so that the edges of letters count for less."""
    whole = drawn(pdf, page).filter(ImageFilter.GaussianBlur(2))
    high = whole.height // 3
    return [whole.crop((0, n * high, 413, (n + 1) * high)) for n in range(3)]


def apart(one: Image.Image, other: Image.Image, by: tuple[int, int]) -> float:
    """How far two pictures differ, 0 to 255, the second shifted."""
    return float(ImageStat.Stat(ImageChops.difference(one, ImageChops.offset(other, *by))).mean[0])


def test_a_printed_page_is_the_page(printer: QPrinter) -> None:
    job = pages.job(stages=(1,))
    count = print_page(PrintJob(job, printer), pages.idle())
    meant = pypdfium2.PdfDocument(make_page(job, pages.idle()).data)
    result = printed(printer)
    assert count == len(meant) == len(result)
    for page in range(count):
        assert result[page].get_size() == pytest.approx(meant[page].get_size(), abs=1)
        for one, other in zip(thirds(meant, page), thirds(result, page), strict=True):
            # No shift by half a millimetre or more fits better, at the top or at the foot.
            best = min(apart(one, other, by) for by in SHIFTS)
            assert apart(one, other, (0, 0)) <= best * 1.1
            assert apart(one, other, (0, 0)) < 8


def test_only_the_pages_asked_for_are_printed(printer: QPrinter) -> None:
    ranges = QPageRanges()
    ranges.addPage(2)
    printer.setPageRanges(ranges)
    printer.setPrintRange(QPrinter.PrintRange.PageRange)
    assert print_page(PrintJob(pages.job(stages=(1,)), printer), pages.idle()) == 1
    assert len(printed(printer)) == 1


def test_copies_are_printed_one_whole_after_the_other(printer: QPrinter) -> None:
    printer.setCopyCount(2)
    count = print_page(PrintJob(pages.job(stages=(1,)), printer), pages.idle())
    assert count == len(printed(printer))
    assert count % 2 == 0
    first, again = drawn(printed(printer), 0), drawn(printed(printer), count // 2)
    assert first.tobytes() == again.tobytes()


def test_a_page_for_letter_paper_fits_on_a4(printer: QPrinter) -> None:
    job = pages.job(stages=(1,), paper=PageSize.LETTER)
    print_page(PrintJob(job, printer), pages.idle())
    width, height = printed(printer)[0].get_size()
    # ISO 216 A4 in points.
    assert (width, height) == pytest.approx((595.3, 841.9), abs=1)
    ink = drawn(printed(printer), 0).point(lambda grey: 255 if grey < 128 else 0).getbbox()
    assert ink is not None
    assert ink[0] > 5
    assert ink[2] < width / 72 * 50 - 5


def test_the_printer_is_offered_with_the_pages_own_paper() -> None:
    made = printer_for(pages.job(), PageSize.LETTER, 6)
    assert made.pageLayout().pageSize().id() == QPageSize.PageSizeId.Letter
    assert (made.fromPage(), made.toPage()) == (1, 6)
    assert made.docName().endswith(pages.protocol().title.best("en", "en"))


def test_a_stopped_print_says_nothing_more(printer: QPrinter) -> None:
    def stop_at_second(done: int, _of: int) -> None:
        if done == 1:
            token.stop()

    token = Token(stop_at_second)
    with pytest.raises(Stopped):
        print_page(PrintJob(pages.job(stages=(1,)), printer), token)


@pytest.mark.filterwarnings("ignore")
def test_a_printer_that_takes_nothing_is_named(printer: QPrinter, tmp_path: Path, qtlog) -> None:
    with qtlog.disabled():
        printer.setOutputFileName(str(tmp_path / "no folder" / "page.pdf"))
        with pytest.raises(PageFault) as caught:
            print_page(PrintJob(pages.job(stages=(1,)), printer), pages.idle())
    assert caught.value.sentence == (
        f"The printer {tmp_path / 'no folder' / 'page.pdf'} takes nothing; see whether it is on."
    )
