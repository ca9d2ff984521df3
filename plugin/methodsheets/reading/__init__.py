"""What did the author write, and on which line?"""
