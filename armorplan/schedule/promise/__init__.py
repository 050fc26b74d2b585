"""How sure a date is: a plan's sequence gone through many times with durations that are drawn.

``policy`` says what waits for what once a plan's sequence is kept, ``draws`` how long things take
in each run, ``going`` goes through all runs at once, ``promising`` says what that means for dates.
"""
