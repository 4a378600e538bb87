"""The program's version: the one place where it stands."""

VERSION = "0.1.0"
