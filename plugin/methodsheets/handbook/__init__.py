"""What is in the handbook: every method for every workshop, kept until something it was made from changes?"""
