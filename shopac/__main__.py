"""Run with `python3 -m shopac`: install what is needed, prepare the shop's data, serve.

This file runs on whatever Python a machine has, so it says first which one is needed; everything
else is in shopac.start.
"""

import sys

if sys.version_info < (3, 11):
    sys.exit(
        "shopac needs Python 3.11 or newer and this is Python %d.%d: install a newer one "
        "(python.org, or your system's packages) and start with it, "
        "for example python3.11 -m shopac." % sys.version_info[:2]
    )
else:
    from shopac.start import main

    sys.exit(main(sys.argv[1:]))
