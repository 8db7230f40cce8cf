"""What is on a sheet: characters, words, lines, symbols, title block. Knows PDF and no trade."""
