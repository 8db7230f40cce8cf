"""Where paper and trade meet: sheets to wall types, hold-downs, notes and marks."""
