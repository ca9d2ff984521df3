"""Which words does the handbook know, and what does each of them mean for every other room?

A word is declared here once, as a frozen row of typed fields. The other rooms ask the row; none compares a name.
"""
