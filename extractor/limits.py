"""What is taken of a plan set, so that no file, broken or made to break programs, can stop a machine. README states them.

A set that real offices draw lies far below: a dense sheet has some 20,000 letters and 100,000 lines.
"""

PAGES = 20_000  # of a plan set
LETTERS = 200_000  # on a sheet
LABELS = 20_000  # annotations on a sheet
PATHS = 1_500_000  # drawn lines on a sheet that holds a schedule
CELLS = 10_000  # of a net of rules; a larger one is no table
RULES = 20_000  # of a net, likewise
LARGEST_SHEET = 14_400.0  # points, 200 in: the largest that the format allows
BYTES = 4 << 30  # of a file
RECORD = 256 << 20  # bytes of a job record
KEPT = 16 << 20  # bytes of a file beside the plans: answers, numbers, the register, wall lengths, pack sizes

MEMORY = 3 << 30  # bytes of the process that reads
SECONDS = 600  # of processor time of the process that reads
