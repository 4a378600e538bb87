#!/usr/bin/env python3
"""Runs Django's commands for this site: python3 manage.py COMMAND."""

import os
import sys

from django.core.management import execute_from_command_line

if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopac.settings")
    execute_from_command_line(sys.argv)
