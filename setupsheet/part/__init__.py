"""The checked part and shop: frozen records that every later stage reads and none changes."""
