"""What do chucks, centres, tools and cutters look like?"""
