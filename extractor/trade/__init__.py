"""How the trade writes: text in, values and their spans out. Nothing here knows a PDF."""
