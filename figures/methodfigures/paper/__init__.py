"""What does a sheet know: paper, line types, lettering, dimensions, places for words, and the writing of SVG?"""
