"""Standards as data: CSV files with a source in every row, and a short look-up beside each."""
