"""How does the work come to be: storyboard, sections, metal removed, proof?"""
