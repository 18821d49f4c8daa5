"""``python -m authoring`` is the command ``rungbook``."""

import sys

from authoring.cli import main

sys.exit(main())
