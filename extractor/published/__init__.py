"""Published numbers for wood shear walls, each row beside its standard, edition, table and how far it was confirmed."""
