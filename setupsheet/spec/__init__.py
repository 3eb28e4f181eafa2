"""Spec text -> checked part and shop; the door is ``setupsheet.spec.reader.read_part``."""
