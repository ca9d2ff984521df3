"""How does a calculation say what it takes and gives, how does it refuse, and where are its tables?"""
