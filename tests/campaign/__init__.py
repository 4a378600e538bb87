"""A random campaign of accidents on real tablets and a real server; see `__main__.py`."""
