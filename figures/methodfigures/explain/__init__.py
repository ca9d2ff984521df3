"""Which picture explains a number: fits, stresses, balance, charts?"""
