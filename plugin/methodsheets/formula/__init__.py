"""What is this expression worth, and what is its working?"""
