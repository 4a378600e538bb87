#!/usr/bin/env python3
"""Runs Django's commands for this site: python3 manage.py COMMAND."""

import os
import sys

from shopac.start import main

if __name__ == "__main__":
    if sys.argv[1:2] == ["serve"]:  # one way to serve, which begins before anything is installed
        sys.exit(main(["--lan", *sys.argv[2:]]))
    from django.core.management import execute_from_command_line

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopac.settings")
    execute_from_command_line(sys.argv)
